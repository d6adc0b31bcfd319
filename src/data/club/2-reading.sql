-- SPDX-License-Identifier: GPL-3.0-or-later
-- 2-reading.sql: what a reader's login gets to see, and what is written down of it.
--
-- The functions run as carpace_owner, who is held by the policies as anybody is: what a login may read follows from
-- session_user, which no SET ROLE changes, its key, and the grants to that key. They are planned without their arguments
-- and without samples, so that no plan tells one player from another.

SET ROLE carpace_owner;
INSERT INTO club.version (number) VALUES (2);

CREATE FUNCTION club.my_key () RETURNS bytea LANGUAGE sql STABLE SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$ SELECT key FROM club.person WHERE login = session_user $$;

CREATE FUNCTION club.my_role () RETURNS text LANGUAGE sql STABLE SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$ SELECT role FROM club.person WHERE login = session_user $$;

-- Whose load (0) or hand (1) this login may read today. A coach's never reads a hand, whatever was granted.
CREATE FUNCTION club.granted (wanted integer) RETURNS bytea[] LANGUAGE sql STABLE SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$
    SELECT coalesce(array_agg(player), '{}') FROM club.permit, (SELECT (now() AT TIME ZONE 'UTC')::date - date '1970-01-01' AS today) AS clock
    WHERE reader = (SELECT club.my_key ())
      AND ((wanted = 0 AND what IN (1, 3)) OR (wanted = 1 AND what IN (2, 3) AND (SELECT club.my_role ()) = 'clinician'))
      AND since <= today AND (until = 0 OR today <= until) AND (under_age = 0 OR guarded = 1)
  $$;

CREATE POLICY own ON club.person FOR SELECT TO carpace_owner, carpace_gatherer USING (login = session_user);
GRANT SELECT ON club.person TO carpace_gatherer;
CREATE POLICY own ON club.permit FOR SELECT TO carpace_owner USING (reader = (SELECT club.my_key ()));
CREATE POLICY own ON club.erased FOR SELECT TO carpace_owner USING (player IN (SELECT p.player FROM club.permit p));
CREATE POLICY granted ON club.chain FOR SELECT TO carpace_owner
  USING ((kind = 0 AND player = ANY ((SELECT club.granted (0))::bytea[])) OR (kind = 1 AND player = ANY ((SELECT club.granted (1))::bytea[])));
CREATE POLICY granted ON club.head FOR SELECT TO carpace_owner USING (player = ANY ((SELECT club.granted (0))::bytea[]));
CREATE POLICY granted ON club.week FOR SELECT TO carpace_owner USING (player = ANY ((SELECT club.granted (0))::bytea[]));
CREATE POLICY granted ON club.entry FOR SELECT TO carpace_owner USING (player = ANY ((SELECT club.granted (1))::bytea[]));

-- ---- for coach and clinician ----

-- Who let this login read. To a coach a grant of both is one of the load, and one of the hand alone is none.
CREATE FUNCTION club.players () RETURNS TABLE (
    player bytea, reader bytea, reader_seal bytea, reader_name text, reader_role smallint, what smallint, since integer,
    until integer, number bigint, made_s bigint, under_age smallint, guardian bytea, wording integer,
    name text, guarded smallint, erased_s bigint, load_made_s bigint, load_missing bigint, hand_made_s bigint, hand_missing bigint)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$
    SELECT p.player, p.reader, p.reader_seal, p.reader_name, p.reader_role,
      CASE WHEN (SELECT club.my_role ()) = 'coach' AND p.what = 3 THEN 1::smallint ELSE p.what END,
      p.since, p.until, p.number, p.made_s, p.under_age, p.guardian, p.wording, p.name, p.guarded, coalesce(e.until_s, 0),
      coalesce(l.made_s, 0), coalesce(l.missing, 0), coalesce(h.made_s, 0), coalesce(h.missing, 0)
    FROM club.permit p LEFT JOIN club.erased e ON e.player = p.player
    LEFT JOIN LATERAL (SELECT max(c.made_s) AS made_s, sum(c.missing)::bigint AS missing FROM club.chain c
                       WHERE c.player = p.player AND c.kind = 0) AS l ON true
    LEFT JOIN LATERAL (SELECT max(c.made_s) AS made_s, sum(c.missing)::bigint AS missing FROM club.chain c
                       WHERE c.player = p.player AND c.kind = 1) AS h ON true
    WHERE NOT ((SELECT club.my_role ()) = 'coach' AND p.what = 2)
  $$;

CREATE FUNCTION club.heads () RETURNS TABLE (
    player bytea, plan_name text, plan_version integer, plan bytea, in_force_s bigint, at_ceiling smallint)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$ SELECT h.player, h.plan_name, h.plan_version, h.plan, h.in_force_s, h.at_ceiling FROM club.head h $$;

-- Weeks since that Monday (a date), oldest first.
CREATE FUNCTION club.weeks (since integer) RETURNS TABLE (
    player bytea, monday integer, planned_ms bigint, done_ms bigint, days integer, rests integer)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$
    SELECT w.player, w.monday, w.planned_ms, w.done_ms, w.days, w.rests FROM club.week w WHERE w.monday >= since
    ORDER BY w.player, w.monday
  $$;

-- ---- for clinicians ----

-- What was recorded of a player, oldest first; kinds: one bit each.
CREATE FUNCTION club.hand (whose bytea, since integer, until integer, kinds bigint) RETURNS TABLE (
    id bigint, day integer, elapsed_ms bigint, wall_ms bigint, offset_s integer, kind smallint, "values" bytea)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$
    SELECT e.id, e.day, e.elapsed_ms, e.wall_ms, e.offset_s, e.kind, e."values" FROM club.entry e
    WHERE e.player = whose AND e.day BETWEEN since AND until AND (kinds >> e.kind) & 1 = 1
    ORDER BY e.wall_ms, e.id
  $$;

-- ---- for whoever logs in ----

-- Who this login is. No row: it was not admitted.
CREATE FUNCTION club.me () RETURNS TABLE (key bytea, role text, gathers boolean)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$ SELECT p.key, p.role, p.gathers FROM club.person p WHERE p.login = session_user $$;

GRANT USAGE ON SCHEMA club TO carpace_coach, carpace_clinician;
GRANT EXECUTE ON FUNCTION club.my_key (), club.my_role (), club.granted (integer), club.me (), club.players (), club.heads (), club.weeks (integer)
  TO carpace_coach, carpace_clinician;
GRANT EXECUTE ON FUNCTION club.my_key (), club.me () TO carpace_gatherer;
GRANT EXECUTE ON FUNCTION club.hand (bytea, integer, integer, bigint) TO carpace_clinician;
GRANT SELECT ON club.version TO carpace_coach, carpace_clinician, carpace_gatherer;

-- ---- what is written down ----

CREATE FUNCTION club.write_down () RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$
BEGIN
  IF TG_TABLE_NAME = 'erased' THEN
    INSERT INTO club.audit (what) VALUES ('erased');
  ELSIF TG_TABLE_NAME = 'permit' THEN
    INSERT INTO club.audit (what) VALUES (CASE WHEN NEW.what = 0 THEN 'withdrawn' ELSE 'granted' END);
  ELSE
    INSERT INTO club.audit (what) VALUES (CASE WHEN TG_OP = 'DELETE' THEN 'dismissed' ELSE 'admitted' END);
  END IF;
  RETURN NULL;
END
$$;
CREATE POLICY writing_down ON club.audit FOR INSERT TO carpace_owner WITH CHECK (true);
CREATE TRIGGER written_down AFTER INSERT OR UPDATE ON club.permit FOR EACH ROW EXECUTE FUNCTION club.write_down ();
CREATE TRIGGER written_down AFTER INSERT OR UPDATE ON club.erased FOR EACH ROW EXECUTE FUNCTION club.write_down ();
CREATE TRIGGER written_down AFTER INSERT OR UPDATE OR DELETE ON club.person FOR EACH ROW EXECUTE FUNCTION club.write_down ();

UPDATE club.version SET done = true WHERE number = 2;
RESET ROLE;
