-- SPDX-License-Identifier: GPL-3.0-or-later
-- 3-hands.sql: what was recorded of many players at once. A clinician's page asks for hundreds, and asked one by one each
-- of them costs a look at who the login is and what was granted to it.

SET ROLE carpace_owner;
INSERT INTO club.version (number) VALUES (3);

-- As club.hand, player by player. Those who grant nothing are left out, and so is nobody's key.
CREATE FUNCTION club.hands (whose bytea[], since integer, until integer, kinds bigint) RETURNS TABLE (
    player bytea, id bigint, day integer, elapsed_ms bigint, wall_ms bigint, offset_s integer, kind smallint, "values" bytea)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET row_security = on
  AS $$
    SELECT e.player, e.id, e.day, e.elapsed_ms, e.wall_ms, e.offset_s, e.kind, e."values" FROM club.entry e
    WHERE e.player = ANY (whose) AND e.day BETWEEN since AND until AND (kinds >> e.kind) & 1 = 1
    ORDER BY e.player, e.wall_ms, e.id
  $$;
GRANT EXECUTE ON FUNCTION club.hands (bytea[], integer, integer, bigint) TO carpace_clinician;

UPDATE club.version SET done = true WHERE number = 3;
RESET ROLE;
