-- SPDX-License-Identifier: GPL-3.0-or-later
-- 1-tables.sql: what a club's database keeps. Run by `carpace club make`; by hand with `psql --single-transaction`.
--
-- carpace_owner owns all of it, and row-level security is FORCEd on it, too. Nobody else but the gatherer has a right on
-- any table: readers call functions (2-reading.sql). A reader's own query on a table could tell of rows that may not be
-- read, by its plan (rows removed by a filter, rows expected) and by errors of conditions that are looked at early.

DO $$
DECLARE
  role text;
BEGIN
  FOREACH role IN ARRAY ARRAY['carpace_owner', 'carpace_admin', 'carpace_gatherer', 'carpace_coach', 'carpace_clinician'] LOOP
    IF NOT EXISTS (SELECT FROM pg_catalog.pg_roles WHERE rolname = role) THEN
      EXECUTE format('CREATE ROLE %I NOLOGIN', role);
    ELSIF (SELECT rolcanlogin OR rolsuper OR rolbypassrls FROM pg_catalog.pg_roles WHERE rolname = role) THEN
      RAISE EXCEPTION 'role % is there already, and may do more than it should', role;
    END IF;
  END LOOP;
  IF NOT (SELECT rolsuper FROM pg_catalog.pg_roles WHERE rolname = current_user) THEN
    EXECUTE format('GRANT carpace_owner, carpace_admin TO %I', current_user);
  END IF;
END
$$;

CREATE SCHEMA club AUTHORIZATION carpace_owner;
REVOKE ALL ON SCHEMA club FROM PUBLIC;
SET ROLE carpace_owner;
ALTER DEFAULT PRIVILEGES REVOKE EXECUTE ON FUNCTIONS FROM PUBLIC;

-- A row a file of this folder; not done where it was broken off by hand.
CREATE TABLE club.version (
  number integer PRIMARY KEY,
  begun timestamptz NOT NULL DEFAULT now(),
  done boolean NOT NULL DEFAULT false
);
INSERT INTO club.version (number) VALUES (1);

-- ---- who logs in ----

CREATE TABLE club.person (
  login name PRIMARY KEY,
  key bytea NOT NULL CHECK (octet_length(key) = 32),
  role text NOT NULL CHECK (role IN ('coach', 'clinician')),
  gathers boolean NOT NULL
);

-- ---- what players said ----

-- The last grant of a player to a reader, and the file that proves it. what: 0 nothing, 1 load, 2 hand, 3 both.
-- Dates are days since 1970-01-01, both included; until 0: without an end.
CREATE TABLE club.permit (
  player bytea NOT NULL CHECK (octet_length(player) = 32),
  reader bytea NOT NULL CHECK (octet_length(reader) = 32),
  reader_seal bytea NOT NULL CHECK (octet_length(reader_seal) = 32),
  reader_name text NOT NULL CHECK (octet_length(reader_name) <= 64),
  reader_role smallint NOT NULL CHECK (reader_role BETWEEN 0 AND 3),
  what smallint NOT NULL CHECK (what BETWEEN 0 AND 3),
  since integer NOT NULL,
  until integer NOT NULL,
  number bigint NOT NULL CHECK (number > 0),
  made_s bigint NOT NULL,
  under_age smallint NOT NULL CHECK (under_age IN (0, 1)),
  guardian bytea NOT NULL CHECK (octet_length(guardian) = 32),
  wording integer NOT NULL,
  name text NOT NULL CHECK (octet_length(name) <= 64),
  guarded smallint NOT NULL CHECK (guarded IN (0, 1)),
  file bytea NOT NULL,
  PRIMARY KEY (player, reader)
);
CREATE INDEX permit_reader ON club.permit (reader);

-- What was made until then is erased and not taken in again.
CREATE TABLE club.erased (
  player bytea PRIMARY KEY CHECK (octet_length(player) = 32),
  until_s bigint NOT NULL
);

-- ---- what was gathered ----

CREATE TABLE club.seen (
  file text PRIMARY KEY
);

CREATE TABLE club.chain (
  player bytea NOT NULL CHECK (octet_length(player) = 32),
  device bytea NOT NULL CHECK (octet_length(device) = 32),
  kind smallint NOT NULL CHECK (kind IN (0, 1)), -- 0 load, 1 hand
  number bigint NOT NULL,
  last bytea NOT NULL CHECK (octet_length(last) = 32),
  made_s bigint NOT NULL,
  missing bigint NOT NULL,
  PRIMARY KEY (player, device, kind)
);

-- Load: the plan, and weeks that are over.
CREATE TABLE club.head (
  player bytea PRIMARY KEY CHECK (octet_length(player) = 32),
  plan_name text NOT NULL CHECK (octet_length(plan_name) <= 64),
  plan_version integer NOT NULL,
  plan bytea NOT NULL CHECK (octet_length(plan) = 32),
  in_force_s bigint NOT NULL,
  at_ceiling smallint NOT NULL CHECK (at_ceiling IN (0, 1)),
  made_s bigint NOT NULL
);
CREATE TABLE club.week (
  player bytea NOT NULL CHECK (octet_length(player) = 32),
  monday integer NOT NULL,
  planned_ms bigint NOT NULL,
  done_ms bigint NOT NULL,
  days integer NOT NULL CHECK (days BETWEEN 0 AND 7),
  rests integer NOT NULL,
  made_s bigint NOT NULL,
  PRIMARY KEY (player, monday)
);

-- The hand: what was recorded, a row an entry. The same thing from two computers of a player is one.
CREATE TABLE club.entry (
  player bytea NOT NULL CHECK (octet_length(player) = 32),
  id bigint NOT NULL,
  day integer NOT NULL,
  elapsed_ms bigint NOT NULL,
  wall_ms bigint NOT NULL,
  offset_s integer NOT NULL,
  kind smallint NOT NULL,
  "values" bytea NOT NULL,
  made_s bigint NOT NULL,
  PRIMARY KEY (player, day, wall_ms, kind, "values")
);

-- When, and what; of whom is not kept, so that an erasure leaves nothing else.
CREATE TABLE club.audit (
  number bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  at timestamptz NOT NULL DEFAULT now(),
  login name NOT NULL DEFAULT session_user,
  what text NOT NULL CHECK (what IN ('granted', 'withdrawn', 'erased', 'admitted', 'dismissed'))
);

-- Samples of what may not be read lie in no catalogue: rows are found by their keys alone.
DO $$
DECLARE
  col record;
BEGIN
  FOR col IN SELECT c.relname, a.attname FROM pg_catalog.pg_attribute a JOIN pg_catalog.pg_class c ON c.oid = a.attrelid
      JOIN pg_catalog.pg_namespace n ON n.oid = c.relnamespace
      WHERE n.nspname = 'club' AND c.relkind = 'r' AND a.attnum > 0 LOOP
    EXECUTE format('ALTER TABLE club.%I ALTER COLUMN %I SET STATISTICS 0', col.relname, col.attname);
  END LOOP;
END
$$;

DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['person', 'permit', 'erased', 'seen', 'chain', 'head', 'week', 'entry', 'audit'] LOOP
    EXECUTE format('ALTER TABLE club.%I ENABLE ROW LEVEL SECURITY', name);
    EXECUTE format('ALTER TABLE club.%I FORCE ROW LEVEL SECURITY', name);
  END LOOP;
END
$$;

-- ---- the gatherer, who verifies before it writes ----

GRANT USAGE ON SCHEMA club TO carpace_gatherer;
GRANT SELECT, INSERT, UPDATE ON club.permit, club.erased, club.chain TO carpace_gatherer;
GRANT SELECT, INSERT ON club.seen TO carpace_gatherer;
GRANT SELECT, INSERT, UPDATE, DELETE ON club.head, club.week, club.entry TO carpace_gatherer;
CREATE POLICY gathering ON club.permit TO carpace_gatherer USING (true) WITH CHECK (true);
CREATE POLICY gathering ON club.erased TO carpace_gatherer USING (true) WITH CHECK (true);
CREATE POLICY gathering ON club.chain TO carpace_gatherer USING (true) WITH CHECK (true);
CREATE POLICY gathering ON club.seen TO carpace_gatherer USING (true) WITH CHECK (true);
CREATE POLICY gathering ON club.head TO carpace_gatherer USING (true) WITH CHECK (true);
CREATE POLICY gathering ON club.week TO carpace_gatherer USING (true) WITH CHECK (true);
CREATE POLICY gathering ON club.entry TO carpace_gatherer USING (true) WITH CHECK (true);

-- A grant never goes back to an older one, and an erasure is never taken back: not even by the gatherer.
CREATE FUNCTION club.forward_permit () RETURNS trigger LANGUAGE plpgsql SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  IF NEW.player <> OLD.player OR NEW.reader <> OLD.reader OR NEW.number < OLD.number
      OR (NEW.number = OLD.number AND (NEW.guarded < OLD.guarded OR NEW.what <> OLD.what OR NEW.until <> OLD.until)) THEN
    RAISE EXCEPTION 'a grant is not replaced by an older one';
  END IF;
  RETURN NEW;
END
$$;
CREATE TRIGGER forward BEFORE UPDATE ON club.permit FOR EACH ROW EXECUTE FUNCTION club.forward_permit ();

CREATE FUNCTION club.forward_erased () RETURNS trigger LANGUAGE plpgsql SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  IF NEW.player <> OLD.player OR NEW.until_s < OLD.until_s THEN
    RAISE EXCEPTION 'an erasure is not taken back';
  END IF;
  RETURN NEW;
END
$$;
CREATE TRIGGER forward BEFORE UPDATE ON club.erased FOR EACH ROW EXECUTE FUNCTION club.forward_erased ();

-- What was erased does not come back by a row that was made before. Looked at once a statement.
CREATE FUNCTION club.stay_erased () RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT FROM changed c JOIN club.erased e ON e.player = c.player WHERE e.until_s >= c.made_s) THEN
    RAISE EXCEPTION 'that was erased';
  END IF;
  RETURN NULL;
END
$$;
CREATE POLICY looked_up ON club.erased FOR SELECT TO carpace_owner USING (pg_has_role(session_user, 'carpace_gatherer', 'MEMBER'));
DO $$
DECLARE
  name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['head', 'week', 'entry'] LOOP
    EXECUTE format('CREATE TRIGGER erased_insert AFTER INSERT ON club.%I REFERENCING NEW TABLE AS changed '
                   'FOR EACH STATEMENT EXECUTE FUNCTION club.stay_erased ()', name);
    EXECUTE format('CREATE TRIGGER erased_update AFTER UPDATE ON club.%I REFERENCING NEW TABLE AS changed '
                   'FOR EACH STATEMENT EXECUTE FUNCTION club.stay_erased ()', name);
  END LOOP;
END
$$;

-- ---- who admits ----

GRANT USAGE ON SCHEMA club TO carpace_admin;
GRANT SELECT, INSERT, UPDATE, DELETE ON club.person TO carpace_admin;
GRANT SELECT ON club.audit, club.version TO carpace_admin;
CREATE POLICY admitting ON club.person TO carpace_admin USING (true) WITH CHECK (true);
CREATE POLICY looking ON club.audit FOR SELECT TO carpace_admin USING (true);

UPDATE club.version SET done = true WHERE number = 1;
RESET ROLE;
