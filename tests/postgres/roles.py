# SPDX-License-Identifier: GPL-3.0-or-later
"""What each role's own login may not read is not there, by whatever way it asks."""
import re
import secrets
import subprocess

MARK = "==next=="
TABLES = ("person", "permit", "erased", "seen", "chain", "head", "week", "entry", "audit")

# Each is run for a player who granted nothing, and for one who does not exist: what is told must be the same.
# {key} and {hand} are a player's key and something of their hand, as somebody who guesses would try them.
TRIES = [f"SELECT * FROM club.{table}" for table in TABLES] + [
    f"EXPLAIN {how} SELECT * FROM club.{table} WHERE player = '{{key}}'"
    for how in ("", "(ANALYZE, TIMING OFF, SUMMARY OFF)") for table in ("permit", "head", "week", "entry")] + [
    "SELECT * FROM club.hand ('{key}', 0, 99999, -1)",
    "SELECT * FROM club.hand (NULL, 0, 99999, -1)",
    "SELECT * FROM club.hands (ARRAY['{key}'::bytea, NULL, '{key}'], 0, 99999, -1)",
    "SELECT * FROM club.hands (NULL, 0, 99999, -1)",
    "SELECT player FROM club.players () WHERE player = '{key}'",
    "SELECT * FROM club.heads () WHERE player = '{key}'",
    "SELECT * FROM club.weeks (-99999) WHERE player = '{key}'",
    "SELECT '{key}'::bytea = ANY (club.granted (0)), '{key}'::bytea = ANY (club.granted (1))",
    # plans of the functions, and of what is in them
    "EXPLAIN (ANALYZE, TIMING OFF, SUMMARY OFF, VERBOSE, BUFFERS OFF) SELECT * FROM club.weeks (0) WHERE player = '{key}'",
    "EXPLAIN (ANALYZE, TIMING OFF, SUMMARY OFF) SELECT * FROM club.hand ('{key}', 0, 99999, -1)",
    "EXPLAIN (ANALYZE, TIMING OFF, SUMMARY OFF) SELECT * FROM club.hands (ARRAY['{key}'::bytea], 0, 99999, -1)",
    "SET client_min_messages = log; SET debug_print_plan = on; SET debug_pretty_print = on; SELECT * FROM club.weeks (0) WHERE player = '{key}'",
    "SET client_min_messages = log; SET debug_print_plan = on; SELECT * FROM club.hand ('{key}', 0, 99999, -1)",
    "SET client_min_messages = log; SET debug_print_plan = on; SELECT * FROM club.hands (ARRAY['{key}'::bytea], 0, 99999, -1)",
    "SET enable_indexscan = off; SET enable_bitmapscan = off; EXPLAIN ANALYZE SELECT * FROM club.entry",
    "LOAD 'auto_explain'; SET auto_explain.log_nested_statements = on",
    # errors that would tell of a row
    "SELECT 1 / (CASE WHEN player = '{key}' THEN 0 ELSE 1 END) FROM club.week WHERE player = '{key}'",
    "SELECT 1 / (CASE WHEN player = '{key}' THEN 0 ELSE 1 END) FROM club.weeks (-99999)  WHERE player = '{key}'",
    "SELECT 1 / (1 - (\"values\" = '{hand}')::int) FROM club.entry",
    "SELECT player::text::int FROM club.week WHERE player = '{key}'",
    "INSERT INTO club.erased (player, until_s) VALUES ('{key}', 0)",
    "INSERT INTO club.week (player, monday, planned_ms, done_ms, days, rests, made_s) SELECT '{key}', 20000, 0, 0, 0, 0, 0 ON CONFLICT DO NOTHING RETURNING *",
    "INSERT INTO club.head (player) VALUES ('{key}') ON CONFLICT (player) DO UPDATE SET made_s = 1 RETURNING *",
    "DELETE FROM club.entry WHERE player = '{key}' RETURNING *",
    # a function of one's own that tells what it is shown, and things in its way
    "CREATE FUNCTION pg_temp.leak (v bytea) RETURNS boolean LANGUAGE plpgsql COST 0.0001 AS $$ BEGIN RAISE NOTICE '%', v; RETURN true; END $$; "
    "SELECT * FROM club.week WHERE pg_temp.leak (player); SELECT count(*) > 0 FROM club.entry WHERE pg_temp.leak (\"values\"); "
    "SELECT * FROM club.weeks (-99999) WHERE pg_temp.leak (player) AND player = '{key}'",
    "CREATE FUNCTION pg_temp.leak (v bytea) RETURNS text LANGUAGE sql AS $$ SELECT v::text $$; SELECT pg_temp.leak (\"values\") FROM club.entry",
    "CREATE FUNCTION pg_temp.now () RETURNS timestamptz LANGUAGE sql AS $$ SELECT timestamptz '2000-01-01' $$; SET search_path = pg_temp, pg_catalog, club; "
    "SELECT * FROM club.weeks (-99999) WHERE player = '{key}'",
    "CREATE TEMP TABLE permit AS SELECT '{key}'::bytea AS player, 3 AS what; CREATE TEMP VIEW person AS SELECT session_user AS login; "
    "SET search_path = pg_temp, club; SELECT * FROM weeks (-99999) WHERE player = '{key}'",
    "CREATE TEMP VIEW v AS SELECT * FROM club.entry; SELECT * FROM v",
    "CREATE VIEW public.v AS SELECT * FROM club.week; SELECT * FROM public.v",
    "PREPARE p AS SELECT * FROM club.entry WHERE player = $1; EXECUTE p ('{key}')",
    "DECLARE c CURSOR WITH HOLD FOR SELECT * FROM club.entry; FETCH ALL FROM c",
    "COPY club.entry TO STDOUT", "COPY (SELECT * FROM club.week) TO STDOUT", "COPY club.entry TO PROGRAM 'cat'", "TABLE club.entry",
    "SELECT query_to_xml ('SELECT * FROM club.entry', true, true, '')", "SELECT table_to_xml ('club.week', true, true, '')",
    "SELECT schema_to_xml ('club', true, true, '')",
    # somebody else's rights
    "SET ROLE carpace_owner; SELECT * FROM club.entry", "SET ROLE carpace_gatherer; SELECT * FROM club.entry", "SET ROLE carpace_admin; SELECT * FROM club.person",
    "SET ROLE postgres; SELECT * FROM club.entry", "SET SESSION AUTHORIZATION keeper; SELECT * FROM club.entry",
    "SET ROLE keeper; SELECT * FROM club.entry", "RESET ROLE; RESET SESSION AUTHORIZATION; SELECT * FROM club.entry",
    "SET row_security = off; SELECT * FROM club.week; SELECT * FROM club.weeks (-99999) WHERE player = '{key}'",
    "GRANT SELECT ON club.entry TO PUBLIC; SELECT * FROM club.entry", "GRANT carpace_gatherer TO CURRENT_USER",
    "ALTER TABLE club.entry NO FORCE ROW LEVEL SECURITY", "ALTER TABLE club.week DISABLE ROW LEVEL SECURITY", "DROP POLICY granted ON club.week",
    "CREATE POLICY mine ON club.week USING (true)", "CREATE FUNCTION club.f () RETURNS int LANGUAGE sql AS 'SELECT 1'",
    "CREATE OR REPLACE FUNCTION club.my_role () RETURNS text LANGUAGE sql AS $$ SELECT 'clinician'::text $$",
    "UPDATE club.person SET role = 'clinician'", "UPDATE club.permit SET what = 3", "INSERT INTO club.person VALUES ('stranger', '{key}', 'clinician', true)",
    "INSERT INTO club.permit SELECT '{key}', club.my_key (), club.my_key (), '', 2, 3, 0, 0, 9, 0, 0, club.my_key (), 1, '', 1, ''",
    "CREATE RULE r AS ON SELECT TO club.week DO INSTEAD SELECT 1", "CREATE TRIGGER t AFTER INSERT ON club.entry EXECUTE FUNCTION club.write_down ()",
    "LOCK TABLE club.entry IN ACCESS SHARE MODE",
    # catalogues, samples, files
    "SELECT * FROM pg_stats WHERE schemaname = 'club'", "SELECT * FROM pg_statistic", "SELECT * FROM pg_stats_ext WHERE schemaname = 'club'",
    "SELECT last_value FROM club.audit_number_seq", "CREATE EXTENSION pageinspect", "CREATE EXTENSION pg_buffercache", "CREATE EXTENSION file_fdw",
    "SELECT pg_read_file ('postgresql.conf')", "SELECT pg_read_binary_file (pg_relation_filepath ('club.entry'))", "SELECT pg_ls_dir ('.')",
    "SELECT query FROM pg_stat_activity WHERE usename <> session_user AND query NOT LIKE '<%' AND query <> ''",
    "SELECT * FROM pg_prepared_statements", "SELECT * FROM pg_hba_file_rules", "SELECT rolpassword FROM pg_authid", "SELECT * FROM pg_largeobject",
    "SELECT pg_get_userbyid (relowner), relforcerowsecurity FROM pg_class WHERE relname = 'entry'",
    "SELECT most_common_vals, histogram_bounds FROM pg_stats WHERE tablename IN ('entry', 'week', 'head')",
    "SELECT * FROM pg_logical_slot_peek_changes ('s', NULL, NULL)", "SELECT pg_create_logical_replication_slot ('s', 'test_decoding')",
    "CREATE SUBSCRIPTION s CONNECTION 'dbname=club' PUBLICATION p", "SELECT txid_current_snapshot () IS NULL",
]


def secrets_of(server, database, keys):
    """What nobody but a granted reader may see of these players: bytes of the hand, and sums of weeks that are theirs alone."""
    listed = ", ".join(f"'{key}'" for key in keys)
    hand = server.one(database, f"SELECT DISTINCT \"values\" FROM club.entry e WHERE player IN ({listed}) AND kind IN (2, 8) AND "
                      f"NOT EXISTS (SELECT FROM club.entry o WHERE o.player NOT IN ({listed}) AND o.\"values\" = e.\"values\")").split()
    load = server.one(database, f"SELECT DISTINCT done_ms FROM club.week w WHERE player IN ({listed}) AND done_ms > 1000000 AND "
                      f"NOT EXISTS (SELECT FROM club.week o WHERE o.player NOT IN ({listed}) AND o.done_ms = w.done_ms)").split()
    return hand, load


def answers(server, login, tries):
    """What came of each, in a session of its own; errors behind the rest."""
    script = "".join(f"\\echo {MARK}\n\\warn {MARK}\n{sql};\n\\connect -\n" for sql in tries)
    done = subprocess.run(server.psql_words(login, "club"), input=script, env=server.environment(), text=True, capture_output=True, check=False)
    told = [out + err for out, err in zip(done.stdout.split(MARK)[1:], done.stderr.split(MARK)[1:])]
    assert len(told) == len(tries), done.stderr[-500:]
    return told


def plain(answer, key):
    """What was asked comes back in words of errors, and as bytes in plans; places and times are nobody's."""
    answer = answer.replace(key, "KEY").replace(key.removeprefix("\\x"), "KEY")
    answer = re.sub(r":constvalue \d+ \[[^\]]*\]", "KEY", answer)
    return re.sub(r":location -?\d+|LINE \d+:.*\n *\^?|Execution Time.*|Planning Time.*|time=[0-9.]+", "", answer)


def try_all(club, login, key, guess, hidden, tries=None):
    """@hidden: words that must not be told. Nor may it matter whether the player exists."""
    invented = "\\x" + secrets.token_hex(32)
    tries = tries if tries is not None else TRIES
    told = [answers(club.server, login, [sql.replace("{key}", one).replace("{hand}", guess) for sql in tries]) for one in (key, invented)]
    for sql, real, nobody in zip(tries, *told):
        for answer in (real, nobody):
            found = [word for word in hidden if word.removeprefix("\\x") in answer]
            club.check(f"{login}: {sql}", not found, f"tells {found[:3]}: {answer[:300]}")
        real, nobody = plain(real, key), plain(nobody, invented)
        club.check(f"{login}: tells a player from nobody: {sql}", real == nobody, f"{real[:300]} | {nobody[:300]}")


def key_of(club, name):
    return club.server.one("club", f"SELECT DISTINCT player FROM club.permit WHERE name = '{name}'")


def roles(club):
    server = club.server
    server.one("club", "ANALYZE")
    listed = {name: key_of(club, name) for name in ("P00", "P01", "P02", "P03", "P05", "P06", "P07")}
    hand, load = secrets_of(server, "club", [listed["P03"]])
    everyone = server.one("club", "SELECT DISTINCT \"values\" FROM club.entry WHERE kind IN (2, 8)").split()
    club.check("there is something to hide", len(hand) > 5 and len(load) > 3 and len(everyone) > 200, (len(hand), len(load)))
    club.check("and it would be found", any(word.removeprefix("\\x") in server.psql("postgres", "club", "SELECT * FROM club.entry") for word in hand))
    guess = hand[0]

    # the owner itself is held
    club.check("every table is forced", server.one("club", "SELECT string_agg(relname, ' ') FROM pg_class WHERE relnamespace = 'club'::regnamespace "
                                                   "AND relkind = 'r' AND NOT (relrowsecurity AND relforcerowsecurity)") == "version")
    club.check("the owner sees no row", server.psql("postgres", "club", "SET ROLE carpace_owner; SELECT count(*) FROM club.entry; "
                                                    "SELECT count(*) FROM club.week").split() == ["0", "0"])
    club.check("no function is everybody's", server.one("club", "SELECT count(*) FROM pg_proc WHERE pronamespace = 'club'::regnamespace AND "
                                                        "(proacl IS NULL OR proacl::text ~ '[{,]=X')") == "0")

    # what each may read is there, so that what is not there is not for lack of a way
    club.check("a coach reads load", server.psql("coach", "club", f"SELECT count(*) > 3 FROM club.weeks (0) WHERE player = '{listed['P00']}'").strip() == "t")
    club.check("a clinician reads a hand", server.psql("clinic", "club", f"SELECT count(*) > 50 FROM club.hand ('{listed['P00']}', 0, 99999, -1)").strip() == "t")
    club.check("of many at once a clinician reads those who granted it, as one by one", server.psql(
        "clinic", "club", f"SELECT (SELECT count(*) > 50 AND count(DISTINCT player) = 1 FROM club.hands (ARRAY['{listed['P02']}'::bytea, '{listed['P00']}'], 0, 99999, -1)), "
        f"(SELECT array_agg(h) FROM club.hand ('{listed['P00']}', 0, 99999, -1) h) = (SELECT array_agg((id, day, elapsed_ms, wall_ms, offset_s, kind, \"values\")) "
        f"FROM club.hands (ARRAY['{listed['P00']}'::bytea], 0, 99999, -1))").strip() == "t|t")
    for login, name, what in (("coach", "P03", "who grants nothing"), ("coach", "P05", "who waits for a guardian"), ("clinic", "P01", "who grants the hand alone"),
                              ("clinic", "P06", "whose grant has ended")):
        club.check(f"{login}: no load of one {what}", server.psql(login, "club", f"SELECT count(*) FROM club.weeks (0) WHERE player = '{listed[name]}'").strip() == "0")
    for name, what in (("P02", "who grants nothing"), ("P06", "whose grant has ended")):
        club.check(f"no hand of one {what}", server.psql("clinic", "club", f"SELECT count(*) FROM club.hand ('{listed[name]}', 0, 99999, -1)").strip() == "0")

    try_all(club, "coach", listed["P03"], guess, load + everyone)
    not_clinics, load_too = secrets_of(server, "club", [listed["P02"]])
    try_all(club, "clinic", listed["P02"], guess, not_clinics + load_too)
    club.say(f"{len(TRIES)} ways tried by a coach and by a clinician, {len(everyone)} answers of hands hidden from the coach")

    # a coach who was let read all of it: of the hand nothing, all the same
    club.done("P00", "share", "with", "Coach", "--what", "all", "--yes", *club.phrase("P00"))
    club.gather("club")
    club.check("it was granted", server.one("club", f"SELECT what FROM club.permit WHERE player = '{listed['P00']}' AND reader_name = 'Coach'") == "3")
    said = server.psql("coach", "club", f"SELECT * FROM club.hand ('{listed['P00']}', 0, 99999, -1)")
    club.check("a coach's login has no way to a hand", "permission denied for function hand" in said, said)
    said = server.psql("coach", "club", f"SELECT * FROM club.hands (ARRAY['{listed['P00']}'::bytea], 0, 99999, -1)")
    club.check("nor to those of many", "permission denied for function hands" in said, said)
    club.check("nor is it among what is granted", server.psql("coach", "club", f"SELECT '{listed['P00']}'::bytea = ANY (club.granted (1))").strip() == "f")
    try_all(club, "coach", listed["P00"], guess, everyone, [sql for sql in TRIES if ("hand (" in sql or "hands (" in sql or "entry" in sql) and "weeks" not in sql])

    withdrawn_and_erased(club, listed)


def withdrawn_and_erased(club, listed):
    server = club.server
    with subprocess.Popen(server.psql_words("clinic", "club"), env=server.environment(), text=True, stdin=subprocess.PIPE,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT) as session:
        def ask(name):
            session.stdin.write(f"SELECT count(*) FROM club.hand ('{listed[name]}', 0, 99999, -1);\n")
            session.stdin.flush()
            return int(session.stdout.readline())

        club.check("a session is open and reads", ask("P00") > 50 and ask("P07") > 50)
        club.done("P00", "share", "stop", "Clinic", *club.phrase("P00"))
        club.gather("club")
        club.check("a withdrawal bites at once, also in it", ask("P00") == 0 and ask("P07") > 50)
        club.done("P07", "share", "stop", "Clinic", "--erase", *club.phrase("P07"))
        club.gather("club")
        club.check("so does an erasure", ask("P07") == 0)
        session.stdin.close()
    key = listed["P07"]
    left = server.one("club", " UNION ALL ".join(f"SELECT '{table}' FROM club.{table} t WHERE t::text LIKE '%{key[2:]}%'"
                                                 for table in TABLES) + " ORDER BY 1").split()
    club.check("an erasure leaves no row of it", not {"head", "week", "entry"} & set(left), left)
    club.check("in the audit when and that, not whose", "audit" not in left and
               server.one("club", "SELECT count(*) > 0, min(at) > now() - interval '1 hour' FROM club.audit WHERE what = 'erased'") == "t|t")
    club.gather("club")
    club.check("it does not come back by the folder", server.one("club", f"SELECT count(*) FROM club.entry WHERE player = '{key}'") == "0")
    for login, sql, says in (
            ("keeper", f"INSERT INTO club.week VALUES ('{key}', 20000, 0, 0, 0, 0, 1)", "that was erased"),
            ("keeper", f"UPDATE club.erased SET until_s = 0 WHERE player = '{key}'", "not taken back"),
            ("keeper", f"DELETE FROM club.erased WHERE player = '{key}'", "permission denied"),
            ("keeper", f"UPDATE club.permit SET what = 3, number = 1 WHERE player = '{key}'", "not replaced by an older"),
            ("keeper", f"UPDATE club.permit SET what = 3 WHERE player = '{key}' AND what = 0", "not replaced by an older"),
            ("keeper", f"DELETE FROM club.permit WHERE player = '{key}'", "permission denied"),
            ("keeper", "DELETE FROM club.audit", "permission denied"),
            ("keeper", "UPDATE club.person SET role = 'clinician'", "permission denied")):
        said = server.psql(login, "club", sql)
        club.check(f"{login}: {sql}", says in said, said)

    club.done("Keeper", "club", "dismiss", "clinic", club.at("club", "postgres"))
    club.refused("does not know this login", "Clinic", "roster", "--database", club.at("club", "clinic"))
    club.check("a login that was dismissed has no way", "permission denied" in server.psql("clinic", "club", "SELECT * FROM club.players ()"))
