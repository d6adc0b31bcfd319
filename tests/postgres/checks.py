# SPDX-License-Identifier: GPL-3.0-or-later
"""What a club's database promises, tried on a real server with each role's own login.

usage: checks.py BUILD POSTGRES-BIN LOG [SCENARIO...]
"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import time
import traceback

import page
import roles
from server import PASSWORDS, Server

PLAYERS, DAYS = 24, 6
TABLES = ("permit", "erased", "seen", "chain", "head", "week", "entry")


class Club:
    """The made-up people, the program, the server."""
    def __init__(self, build, server):
        self.build, self.server = pathlib.Path(build), server
        self.program = str(self.build / "src/carpace")
        self.faults, self.told, self.zone = [], [], "UTC"
        self.folder = server.folder / "club"
        self.people(self.folder, PLAYERS, DAYS)

    def people(self, folder, players, days):
        subprocess.run([str(self.build / "tests/team/make-club"), str(folder), str(players), str(days)], check=True)

    def check(self, what, good, more=""):
        if not good:
            self.faults.append(f"{what}: {more}")

    def say(self, line):
        self.told.append(line)

    def environment(self, who):
        env = dict(os.environ, HOME=str(self.folder / who), LC_ALL="C.UTF-8", PGPASSFILE=str(self.server.pass_file),
                   DBUS_SESSION_BUS_ADDRESS="unix:path=/nonexistent", TZ=self.zone)
        for name in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "DISPLAY", "WAYLAND_DISPLAY"):
            env.pop(name, None)
        return env

    def begin(self, who, *words):
        return subprocess.Popen([self.program, *map(str, words)], env=self.environment(who), text=True, stdin=subprocess.DEVNULL,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def run(self, who, *words):
        done = subprocess.run([self.program, *map(str, words)], env=self.environment(who), text=True, capture_output=True,
                              stdin=subprocess.DEVNULL, check=False)
        return done.returncode, done.stdout, done.stderr

    def done(self, who, *words):
        status, out, err = self.run(who, *words)
        self.check(f"{who}: {' '.join(map(str, words))}", status == 0, f"{status} {err}")
        return out

    def refused(self, says, who, *words):
        status, out, err = self.run(who, *words)
        self.check(f"{who}: {' '.join(map(str, words))} is refused in one sentence", status == 1 and says in err and err.count("\n") == 1
                   and out == "", f"{status} {out} {err}")

    def phrase(self, who):
        return ("--phrase-file", self.folder / who / "phrase")

    def at(self, database, login):
        return self.server.address(database, login)

    def make(self, database, admitted=True):
        """A database with its roster, and the logins that read it."""
        self.server.one("postgres", f"CREATE DATABASE {database}")
        self.done("Keeper", "club", "make", self.at(database, "postgres"))
        if not admitted:
            return
        for who, login, *more in (("Coach", "coach"), ("Clinic", "clinic"), ("Keeper", "keeper", "--gathers"), ("Keeper", "keeper2", "--gathers")):
            self.done("Keeper", "club", "admit", who, login, self.at(database, "postgres"), *more)
        for login, word in PASSWORDS.items():
            if self.server.one("postgres", f"SELECT count(*) FROM pg_roles WHERE rolname = '{login}'") == "1":
                self.server.one("postgres", f"ALTER ROLE {login} PASSWORD '{word}'")

    def gathering(self, database, login="keeper"):
        return ("roster", self.folder / "shared", "--database", self.at(database, login), *self.phrase("Keeper"), "--format", "csv")

    def gather(self, database, login="keeper"):
        return self.done("Keeper", *self.gathering(database, login))

    def digest(self, database):
        """All that is kept, in an order of its own."""
        return {table: self.server.one(database, f"SELECT count(*), md5(string_agg(t::text, '|' ORDER BY t::text)) FROM club.{table} t")
                for table in TABLES}


# ---- made, brought on ----

def make(club):
    server, steps = club.server, pathlib.Path(__file__).resolve().parents[2] / "src/data/club"
    first = (steps / "1-tables.sql").read_text(encoding="utf-8")
    forms = len(list(steps.glob("*.sql")))

    def address(name):
        return club.at(name, "postgres")

    for name in ("none", "half", "older", "newer", "twice", "plain"):
        server.one("postgres", f"CREATE DATABASE {name}")
    club.refused("holds no roster yet", "Coach", "roster", "--database", address("none"))
    server.psql("postgres", "half", first[:first.index("CREATE TABLE club.permit")])
    club.refused("half made", "Coach", "roster", "--database", address("half"))
    club.refused("half made", "Keeper", "club", "make", address("half"))
    server.psql("postgres", "half", "DROP SCHEMA club CASCADE")
    server.psql("postgres", "half", first[:first.index("CREATE TABLE club.version")])
    club.refused("half made", "Keeper", "club", "make", address("half"))

    server.one("older", first)
    club.refused("older Carpace", "Coach", "roster", "--database", address("older"))
    club.check("brought on", f"from form 1 to form {forms}" in club.done("Keeper", "club", "make", address("older")))
    club.check("and it is whole", server.one("older", "SELECT count(*) FROM club.version WHERE done") == str(forms))
    club.check("nothing is to be done twice", "Nothing was to be done" in club.done("Keeper", "club", "make", address("older")))

    club.done("Keeper", "club", "make", address("newer"))
    server.one("newer", f"INSERT INTO club.version VALUES ({forms + 1}, now(), true)")
    club.refused("newer Carpace", "Coach", "roster", "--database", address("newer"))
    club.refused("newer Carpace", "Keeper", "club", "make", address("newer"))

    both = [club.begin("Keeper", "club", "make", address("twice")) for _ in range(2)]
    said = sorted(one.communicate()[0][:4] for one in both)
    club.check("two at once make one", said == ["Made", "Noth"] and all(one.returncode == 0 for one in both), said)

    server.one("postgres", f"CREATE ROLE plain LOGIN PASSWORD '{PASSWORDS['plain']}'")
    club.refused("refused", "Keeper", "club", "make", club.at("plain", "plain"))
    club.check("what failed left nothing", server.one("plain", "SELECT count(*) FROM pg_namespace WHERE nspname = 'club'") == "0")
    club.refused("does not know this login", "Coach", "roster", "--database", club.at("twice", "plain"))
    club.refused("was not reached", "Coach", "roster", "--database", f"postgresql://coach@/club?host={server.folder}&port=1")
    club.refused("was not reached", "Coach", "roster", "--database", club.at("nowhere", "postgres"))
    club.refused("no login called", "Keeper", "club", "dismiss", "nobody", address("twice"))
    club.refused("Only a coach or a clinician", "Keeper", "club", "admit", "P01", "p01", address("twice"))


# ---- the folder and the database ----

def same(club):
    club.make("club")
    out = club.gather("club")
    club.check("the gatherer reads all", out.count("\n") == 1 + PLAYERS, out[:300])
    for who, login in (("Coach", "coach"), ("Clinic", "clinic"), ("Keeper", "keeper")):
        for form in ("text", "json", "csv"):
            kept = club.done(who, "roster", "--database", club.at("club", login), "--format", form)
            own = club.done(who, "roster", club.folder / "shared", *club.phrase(who), "--format", form)
            club.check(f"{who}: folder and database give the same as {form}", kept == own and len(own) > 1000, f"{kept[:400]} {own[:400]}")
    rows = [json.loads(line) for line in club.done("Clinic", "roster", "--database", club.at("club", "clinic"), "--format", "json").splitlines()]
    club.check("some need a look, some do not", 0 < sum(row["looks"] != "" for row in rows) < len(rows), [row["looks"] for row in rows])
    before = club.digest("club")
    club.gather("club")
    club.check("gathered again it stays as it is", club.digest("club") == before)
    club.refused("lets this login read", "Coach", "roster", club.folder / "shared", "--database", club.at("club", "coach"), *club.phrase("Coach"))
    club.refused("another key", "Clinic", "roster", club.folder / "shared", "--database", club.at("club", "keeper"), *club.phrase("Clinic"))


def night(club):
    """Where the practice day is still the one before, UTC's has ended a grant: folder and database say so alike, and that it has."""
    hour = time.gmtime().tm_hour
    for zone, where in ((f"WEST{hour}", "midnight"), ("EAST-12", "half a day east"), ("EAST-24", "a day east")):
        club.zone = zone
        for who, login in (("Coach", "coach"), ("Clinic", "clinic")):
            kept = club.done(who, "roster", "--database", club.at("club", login), "--format", "json")
            own = club.done(who, "roster", club.folder / "shared", *club.phrase(who), "--format", "json")
            club.check(f"{who}: {where}: the same of both", kept == own and len(own) > 1000, f"{kept[:400]} {own[:400]}")
        text = club.done("Clinic", "roster", "--database", club.at("club", "clinic"), "--format", "text")
        rows = {row["name"]: row for row in map(json.loads, kept.splitlines())}
        club.check(f"{where}: it has ended, and nothing lacks", rows["P06"]["holds"] == 0 and rows["P06"]["looks"] == "", rows["P06"])
        club.check(f"{where}: the row says so", text.count("P06\n  sharing has ended\n") == 1, text[:600])
        club.check(f"{where}: others still share", rows["P00"]["holds"] == 1 and rows["P00"]["hand_made"], rows["P00"])
    club.zone = "UTC"


# ---- two at once, and one that is cut off ----

def writers(club):
    club.make("writers")
    both = [club.begin("Keeper", *club.gathering("writers", login)) for login in ("keeper", "keeper2")]
    said = [one.communicate() for one in both]
    club.check("both come to their end", all(one.returncode == 0 for one in both), said)
    club.check("two gatherers keep what one does", club.digest("writers") == club.digest("club"))


def killed(club):
    club.make("killed")
    # within the first transaction; and when one is complete and the next has begun
    for n, moment in enumerate(("SELECT true", "SELECT count(*) > 0 FROM club.seen")):
        writing = club.begin("Keeper", *club.gathering("killed"))
        held = f"SELECT count(*) > 0 AND ({moment}) FROM pg_locks WHERE locktype = 'advisory' AND granted"
        while club.server.one("killed", held) != "t" and writing.poll() is None:
            pass
        club.check(f"cut {n}: it is still writing", writing.poll() is None)
        club.server.kill()
        _out, err = writing.communicate()
        club.check(f"cut {n}: told in one sentence", writing.returncode == 1 and "went away in the middle" in err
                   and sum("guardian" not in line for line in err.splitlines()) == 1, err)
        club.server.start()
        seen = int(club.server.one("killed", "SELECT count(*) FROM club.seen"))
        club.check(f"cut {n}: whole transactions are kept", (seen > 0) == (n > 0), seen)
        club.check(f"cut {n}: of each bundle all or nothing",
                   club.server.one("killed", "SELECT count(*) FROM club.chain WHERE kind = 0 AND player NOT IN (SELECT player FROM club.head)") == "0")
    club.gather("killed")
    club.check("nothing is lost or doubled", club.digest("killed") == club.digest("club"))


# ---- backup and its way back ----

def drill(club):
    server = club.server
    tool, file = str(pathlib.Path(__file__).parent / "drill"), server.folder / "backup"
    env = dict(server.environment(), PGHOST=str(server.folder), PGPORT=str(server.port), PGUSER="postgres")

    def drilled(*words):
        done = subprocess.run(["sh", tool, *map(str, words)], env=env, capture_output=True, text=True, check=False)
        club.check(f"drill {words[0]}", done.returncode == 0, done.stderr)

    club.make("drill")
    club.gather("drill")
    before = club.digest("drill")
    drilled("backup", "drill", file)
    club.check("a backup is its owner's alone", file.stat().st_mode & 0o777 == 0o600)
    server.one("postgres", "ALTER DATABASE drill RENAME TO lost")
    drilled("restore", "drill", file)
    club.check("all of it is back", club.digest("drill") == before)
    club.refused("permission denied for database", "Coach", "roster", "--database", club.at("drill", "coach"))
    # withdrawn and erased after the backup was made
    key = server.one("drill", "SELECT player FROM club.permit WHERE name = 'P09' LIMIT 1")
    club.done("P09", "share", "stop", "Clinic", "--erase", *club.phrase("P09"))
    club.check("it was in the backup", server.one("drill", f"SELECT count(*) > 0 FROM club.entry WHERE player = '{key}'") == "t")
    club.gather("drill")
    drilled("open", "drill")
    club.check("what was erased since is gone", server.one(
        "drill", f"SELECT (SELECT count(*) FROM club.entry WHERE player = '{key}') + (SELECT count(*) FROM club.week WHERE player = '{key}')") == "0")
    rows = {row["name"]: row for row in map(json.loads, club.done("Clinic", "roster", "--database", club.at("drill", "clinic"), "--format", "json").splitlines())}
    club.check("readers are let in, and see that", rows["P09"]["holds"] == 0 and rows["P09"]["erased"] is not None, rows.get("P09"))
    club.check("a migration after it has nothing to do", "Nothing" in club.done("Keeper", "club", "make", club.at("drill", "postgres")))


# ---- on the way ----

def tls(club):
    server = club.server
    elsewhere = f"host=club.example&hostaddr=127.0.0.1&port={server.port}"
    trusted = f"&sslrootcert={server.folder}/ca.crt"

    def connections():
        return (server.folder / "log").read_text(encoding="utf-8").count("connection received")

    before = connections()
    for mode in ("disable", "allow", "prefer", "require", "verify-ca"):
        club.refused(f"sslmode={mode}", "Coach", "roster", "--database", f"postgresql://coach@/club?{elsewhere}&sslmode={mode}{trusted}")
    club.refused("password in it", "Coach", "roster", "--database", f"postgresql://coach:secret@/club?{elsewhere}{trusted}")
    club.refused("sslmode=require", "Coach", "roster", "--database", f"postgresql://coach@/club?service=club&sslmode=require&host=localhost&port={server.port}")
    club.check("nothing was sent", connections() == before)
    club.refused("was not reached", "Coach", "roster", "--database", f"postgresql://coach@/club?{elsewhere}")
    club.refused("was not reached", "Coach", "roster", "--database",
                 f"postgresql://coach@/club?host=other.example&hostaddr=127.0.0.1&port={server.port}{trusted}")
    for mode in ("", "&sslmode=verify-full"):
        out = club.done("Coach", "roster", "--database", f"postgresql://coach@/club?{elsewhere}{trusted}{mode}", "--format", "csv")
        club.check("with a checked certificate it is read", out.count("\n") > 5, out)
    # libpq's own variables say where it goes, too
    os.environ["PGHOSTADDR"] = "127.0.0.1,10.1.2.3"
    club.refused("sslmode=disable", "Coach", "roster", "--database", f"postgresql://coach@localhost/club?sslmode=disable&port={server.port}")
    del os.environ["PGHOSTADDR"]


SCENARIOS = {"make": make, "same": same, "night": night, "writers": writers, "killed": killed, "tls": tls, "drill": drill, "page": page.page, "roles": roles.roles}


def main(build, binaries, log, wanted):
    server, failed = Server(binaries), False
    try:
        club = Club(build, server)
        for name, scenario in SCENARIOS.items():
            if wanted and name not in wanted and name != "same":
                continue
            began, club.faults, club.told = time.monotonic(), [], []
            try:
                scenario(club)
            except Exception: # what a scenario stumbles over is its fault, and the others are still run
                club.faults.append(traceback.format_exc())
            failed = failed or bool(club.faults)
            result = "FAIL" if club.faults else "OK"
            with open(log, "a", encoding="utf-8") as out:
                out.write(json.dumps({"name": f"postgres/{name}", "result": result}) + "\n")
            print(f"postgres/{name}: {result}, {time.monotonic() - began:.0f} s", flush=True)
            for line in club.told + club.faults:
                print(f"  {line}", flush=True)
        if failed:
            print(subprocess.run(["tail", "-40", str(server.folder / "log")], capture_output=True, text=True, check=False).stdout)
    finally:
        server.remove()
    return failed


sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3], sys.argv[4:]))
