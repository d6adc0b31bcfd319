# SPDX-License-Identifier: GPL-3.0-or-later
"""How long a page takes in a league's database: 3000 players, a year of them, made by SQL."""
import json
import re
import time

PLAYERS, DAYS, RATINGS, WEEKS = 3000, 1_000_000, 3_000_000, 52
COACHED, TREATED = 30, 300
MOST_MS = 150
SAMPLES = 61 # each player gets all of them by turns
ROUNDS = 7


def fill(server):
    """Values are those that were gathered from made-up diaries; what is asked for is by keys and dates."""
    server.one("league", f"""
SET session_replication_role = replica; -- its triggers look at each statement's rows
SET maintenance_work_mem = '512MB'; SET work_mem = '128MB';
CREATE TEMP TABLE whose AS SELECT i, sha256 (('player ' || i)::bytea) AS player FROM generate_series (0, {PLAYERS} - 1) i;
CREATE TEMP TABLE sample AS SELECT kind, "values" AS v, (row_number () OVER (PARTITION BY kind) - 1) % {SAMPLES} AS i FROM (
  SELECT kind, "values", row_number () OVER (PARTITION BY kind ORDER BY player, day, wall_ms) AS n FROM club.entry WHERE kind IN (1, 6)) AS few WHERE n <= {SAMPLES};
CREATE TEMP TABLE today AS SELECT (now() AT TIME ZONE 'UTC')::date - date '1970-01-01' AS day, extract (epoch FROM now())::bigint AS made_s;
ANALYZE whose; ANALYZE sample;
ALTER TABLE club.entry DROP CONSTRAINT entry_pkey;
BEGIN;
TRUNCATE club.entry; -- then nothing of it has to be logged
INSERT INTO club.entry SELECT w.player, n, t.day - n / {PLAYERS}, n, (t.day - n / {PLAYERS})::bigint * 86400000 + 68400000, 3600, 1, s.v, t.made_s
  FROM generate_series (0, {DAYS} - 1) n JOIN whose w ON w.i = n % {PLAYERS} JOIN sample s ON s.kind = 1 AND s.i = n % {SAMPLES}, today t;
INSERT INTO club.entry SELECT w.player, {DAYS} + n, t.day - n / {3 * PLAYERS}, n,
    (t.day - n / {3 * PLAYERS})::bigint * 86400000 + 70000000 + (n / {PLAYERS}) % 3 * 3600000, 3600, 6, s.v, t.made_s
  FROM generate_series (0, {RATINGS} - 1) n JOIN whose w ON w.i = n % {PLAYERS} JOIN sample s ON s.kind = 6 AND s.i = n % {SAMPLES}, today t;
COMMIT;
ALTER TABLE club.entry ADD PRIMARY KEY (player, day, wall_ms, kind, "values");
INSERT INTO club.week SELECT w.player, (t.day + 3) / 7 * 7 - 3 - 7 * n, 18000000, 16200000, 5, 31, 1 FROM whose w, today t, generate_series (1, {WEEKS}) n;
INSERT INTO club.head SELECT w.player, 'League week', 1, sha256 ('plan'), 1, 0, 1 FROM whose w;
INSERT INTO club.chain SELECT w.player, w.player, kind, 1, w.player, t.made_s, 0 FROM whose w, today t, generate_series (0, 1) kind;
INSERT INTO club.permit SELECT w.player, p.key, p.key, p.login, 1, CASE p.role WHEN 'coach' THEN 1 ELSE 3 END, t.day - 30, 0, 1, 0, 0,
    decode (repeat ('00', 32), 'hex'), 1, 'P' || w.i, 0, ''
  FROM whose w, today t, club.person p WHERE (p.login = 'coach' AND w.i % {PLAYERS // COACHED} = 0) OR (p.login = 'clinic' AND w.i % {PLAYERS // TREATED} = 0);
DELETE FROM club.permit p WHERE NOT EXISTS (SELECT FROM whose w WHERE w.player = p.player);
ANALYZE;
""")


def timed(club, login, *statements):
    """The milliseconds that psql tells of all of them, by the login's own eyes: of the first time in a session, and of the
    quickest of some rounds after it. What else the machine does is in all but the quickest."""
    told = club.server.psql(login, "league", "\\timing on\n" + "".join(f"{sql} \\g /dev/null\n" for sql in statements) * ROUNDS)
    found = [float(ms) for ms in re.findall(r"Time: ([0-9.]+) ms", told)]
    club.check(f"{login}: timed", len(found) == ROUNDS * len(statements), told[:300])
    sums = [sum(found[at:at + len(statements)]) for at in range(0, len(found), len(statements))]
    return sums[0], min(sums)


def page(club):
    began = time.monotonic()
    club.make("league")
    club.gather("league")
    fill(club.server)
    counted = club.server.one("league", f"SELECT count(*) FILTER (WHERE kind = 1 AND elapsed_ms < {DAYS}) >= {DAYS}, count(*) FILTER (WHERE kind = 6) >= {RATINGS} FROM club.entry")
    club.check("the league is as large as it says", counted == "t|t", counted)
    club.say(f"{PLAYERS} players, {DAYS} days, {RATINGS} ratings, {PLAYERS * WEEKS} weeks: made in {time.monotonic() - began:.0f} s")
    since = "(now() AT TIME ZONE 'UTC')::date - date '1970-01-01' - 91"
    first, ms = timed(club, "coach", "SELECT * FROM club.players ()", "SELECT * FROM club.heads ()", f"SELECT * FROM club.weeks ({since})")
    club.say(f"a coach's page, {COACHED} players: {ms:.1f} ms in the database, the first of a session {first:.1f} ms")
    club.check(f"a coach's page takes under {MOST_MS} ms", ms < MOST_MS, ms)
    for who, login, players in (("Coach", "coach", COACHED), ("Clinic", "clinic", TREATED)):
        start = time.monotonic()
        out = club.done(who, "roster", "--database", club.at("league", login), "--format", "json")
        club.say(f"`carpace roster` of {login}, {players} players: {1000 * (time.monotonic() - start):.0f} ms, the whole command")
        rows = [json.loads(line) for line in out.splitlines()]
        club.check(f"{login}: all rows, with their weeks", len(rows) == players and all(len(row["weeks"]) == 12 for row in rows), len(rows))
        club.check(f"{login}: the hand is the clinician's", all((row["highest"] is None) == (login == "coach") for row in rows))
