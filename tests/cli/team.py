# SPDX-License-Identifier: GPL-3.0-or-later
"""A coach, a clinician, a guardian and two players with the built program, each in a home of their own; one folder.

usage: team.py PROGRAM
"""
import csv
import fcntl
import io
import json
import os
import pathlib
import re
import stat
import subprocess
import tempfile
import time

from people import PHRASE, PROGRAM, Person, bring_to_yesterday, check, told


def waits_for_lock(process):
    """Until the kernel says that the process waits for a lock. @return False where it ended instead."""
    while process.poll() is None:
        if any("->" in line and f" {process.pid} " in line for line in open("/proc/locks")):
            return True
        time.sleep(0.01)
    return False


def main(folder):
    shared = folder / "shared"
    shared.mkdir()
    coach, clinic = Person(folder, "Coach", "coach"), Person(folder, "Clinic", "clinician")
    player, young = Person(folder, "K7", "player"), Person(folder, "K8", "player")
    parent = Person(folder, "Parent", "guardian")

    own = player.home / ".local/share/carpace/team"
    check("the own folder is the owner's alone", stat.S_IMODE(own.stat().st_mode) == 0o700)
    check("so are its files", all(stat.S_IMODE(path.stat().st_mode) == 0o600 for path in own.iterdir()))
    check("no file holds the pass phrase", not any(PHRASE.strip().encode() in path.read_bytes() for path in own.iterdir()))
    player.refused("keys already", "key", "new", "K7", "--phrase-file", player.phrase)
    for name in ("K\u202e7", "K\x9b7"):
        check("no name that does something", player.run("key", "new", name, "--phrase-file", player.phrase).returncode == 2)
    secret, aside = own / "person.key", player.home / "person.key"
    secret.rename(aside)
    player.refused("person.key beside it, is not", "key", "new", "K7", "--phrase-file", player.phrase)
    aside.rename(secret)
    six = json.loads(player.done("key", "show", "--format", "json"))
    check("six words", len(six["words"].split()) == 6 and six["words"] == player.words, six)

    # A card is accepted by its words only.
    coach.refused("not the words of this card", "key", "accept", player.card, asked=young.words + "\n")
    for reader in (coach, clinic):
        for one in (player, young, parent):
            reader.accept(one)
    for one in (player, young):
        one.accept(parent)
        one.done("share", "folder", str(shared))
        season = str(one.home / "season.json")
        one.done("rehearse", "two-halves", "--player", "sensitive", "--days", "40", "--seed", "3", "--export", season)
        bring_to_yesterday(pathlib.Path(season))
        one.done("restore", season)

    # What it means is said, and asked.
    player.done("key", "accept", coach.card, "--words", coach.words)
    player.done("key", "accept", clinic.card, "--words", clinic.words.upper().replace(" ", "-"))
    player.refused("Nothing was shared", "share", "with", "Coach", asked="yes\n")
    said = player.done("share", "with", "Coach", "--yes", "--phrase-file", player.phrase)
    check("what a coach sees is said", "No single days and nothing about the hand" in said, said)
    player.refused("does not open", "share", "with", "Clinic", "--yes", asked="wrong phrase\n")
    # A grant is numbered while nobody else can number another.
    own_folder = os.open(own, os.O_RDONLY)
    fcntl.flock(own_folder, fcntl.LOCK_EX)
    granting = subprocess.Popen([PROGRAM, "share", "with", "Clinic", "--yes", "--phrase-file", player.phrase], env=player.env(),
                                stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    check("a grant waits for the lock", waits_for_lock(granting))
    check("and none is there", len(list(own.glob("to-*.grant"))) == 1)
    os.close(own_folder)
    said = granting.communicate()[0]
    check("then it is", granting.returncode == 0 and len(list(own.glob("to-*.grant"))) == 2, said)
    check("left for both", "for 2, how the hand is for 1" in player.done("share", "now"))

    # A plan that the coach signed: taken once the key is known, and changed by that key only.
    def plan(name, version, dose, by=None):
        path = folder / f"{name}.plan.yaml"
        text = coach.done("plan", "show", "two-halves")
        text = re.sub(r"(?m)^name: .*$", "name: League week", text)
        text = re.sub(r"(?m)^version: .*\n", "", text) + f"version: {version}\n"
        path.write_text(text)
        if by is not None:
            path = folder / f"{name}-signed.plan.yaml"
            by.done("plan", "sign", str(folder / f"{name}.plan.yaml"), str(path), "--phrase-file", by.phrase)
        return path

    first = plan("first", 1, 60, coach)
    said = player.done("plan", "use", str(first), "--yes")
    check("who gave it is said", "Given by “Coach”" in said, said)
    check("also later", "Given by “Coach”" in player.done("plan", "show"))
    young.refused("have not accepted", "plan", "use", str(first), "--yes")
    # One for one player is no other's: a dose is for one hand.
    own_week, own_signed = folder / "own.plan.yaml", folder / "own-signed.plan.yaml"
    own_week.write_text(first.read_text().replace("League week", "Own week"))
    coach.done("plan", "sign", str(own_week), str(own_signed), "--for", "K8", "--phrase-file", coach.phrase)
    player.refused("signed for another player", "plan", "use", str(own_signed), "--yes")
    changed = folder / "changed.plan.yaml"
    changed.write_text(plan("other", 2, 60, coach).read_text().replace("League week", "League weeks"))
    player.refused("after it was signed", "plan", "use", str(changed), "--yes")
    player.refused("only that key", "plan", "use", str(plan("second", 2, 60)), "--yes")
    # A copy of the same version without a signature may be used, and makes no room for anybody.
    player.done("plan", "use", str(plan("copy", 1, 60)), "--yes")
    check("nobody gave that copy", "Given by" not in player.done("plan", "show"))
    player.refused("only that key", "plan", "use", str(plan("second-again", 2, 60)), "--yes")
    player.refused("only that key", "plan", "use", str(plan("third", 2, 60, clinic)), "--yes")
    player.done("plan", "use", str(plan("fourth", 2, 60, coach)), "--yes")

    # The coach leaves, and names the clinician, who may change it then; not before both signed and the player accepted that.
    named, both = folder / "named", folder / "both"
    clinic.accept(coach)
    coach.accept(clinic)
    coach.done("key", "successor", "Clinic", str(named), "--phrase-file", coach.phrase)
    player.refused("has not signed it yet", "key", "accept", str(named))
    coach.refused("somebody else than you", "key", "succeed", str(named), str(both), "--phrase-file", coach.phrase)
    clinic.done("key", "succeed", str(named), str(both), "--phrase-file", clinic.phrase)
    young.refused("have not accepted", "key", "accept", str(both))
    after = str(plan("sixth", 3, 60, clinic))
    player.refused("only that key", "plan", "use", after, "--yes")
    check("it is said for what", "“Clinic” may change" in player.done("key", "accept", str(both)))
    player.done("plan", "use", after, "--yes")

    # What is signed is what was checked: a plan with faults is not, and neither is one that is not there.
    broken = folder / "broken.plan.yaml"
    broken.write_text(re.sub(r"(?m)^version: .*$", "version: none", first.read_text()))
    coach.refused("broken.plan.yaml:", "plan", "sign", str(broken), str(folder / "never"), "--phrase-file", coach.phrase)
    coach.refused("no-plan", "plan", "sign", str(folder / "no-plan"), str(folder / "never"), "--phrase-file", coach.phrase)
    check("nothing was signed", not (folder / "never").exists())

    # Under age, or so named, a guardian signs.
    for one in (coach, clinic):
        young.accept(one)
    young.done("share", "with", "Clinic", "--guardian", "Parent", "--yes", "--phrase-file", young.phrase)
    check("nothing goes out yet", "there are no readers today" in young.done("share", "now"))
    parent.accept(young)
    parent.done("share", "folder", str(shared))
    # Told to who cannot stop it that somebody else can.
    said = parent.done("share", "countersign", "--phrase-file", parent.phrase, asked="no\n")
    check("the guardian is told who stops it", "until “K8” stops it" in said and "“K8” can stop it" in said and "you cannot" in said, said)
    check("and whose notes stay", "Not the player's notes" in said and "0 grants signed" in said, said)
    check("the player is not", "until you stop it" not in said and "You can" not in said and "your" not in said, said)
    check("signed by the parent", "1 grant signed" in parent.done("share", "countersign", "--yes", "--phrase-file", parent.phrase))
    check("now it goes out", "for 1, how the hand is for 1" in young.done("share", "now"))

    # The coach sees weeks, the clinician needs, and the coach's file has no word of the hand.
    rows = [json.loads(line) for line in coach.roster(shared).splitlines()]
    check("one row for the coach", [row["name"] for row in rows] == ["K7"], rows)
    check("with weeks", len(rows[0]["weeks"]) >= 4 and rows[0]["highest"] is None and rows[0]["hand_made"] is None, rows)
    rows = {row["name"]: row for row in map(json.loads, clinic.roster(shared).splitlines())}
    check("two for the clinician", set(rows) == {"K7", "K8"} and rows["K7"]["hand_made"], rows)
    table = list(csv.DictReader(io.StringIO(clinic.roster(shared, "csv"), newline="")))
    check("the same as a table", [row["name"] for row in table] == list(rows) and table[0]["done_ms"] == str(rows[table[0]["name"]]["done_ms"]))
    check("and in words", "K7" in clinic.roster(shared, "text"))

    import sqlite3
    with sqlite3.connect(coach.home / ".local/state/carpace/roster.sqlite") as file:
        check("no entry in the coach's file", file.execute("SELECT count(*) FROM entry").fetchone() == (0,))
    with sqlite3.connect(clinic.home / ".local/state/carpace/roster.sqlite") as file:
        check("entries in the clinician's", file.execute("SELECT count(*) FROM entry").fetchone()[0] > 100)
    check("the reader's file is theirs alone", stat.S_IMODE((coach.home / ".local/state/carpace/roster.sqlite").stat().st_mode) == 0o600)

    # A note goes back the same way, and nobody else's does.
    said = coach.done("roster", "note", "K7", "Bring the tape on Friday", str(shared), "--phrase-file", coach.phrase)
    check("it is said that it waits there", "sealed to “K7”" in said, said)
    check("it lies there sealed", all(b"tape" not in path.read_bytes() for path in shared.iterdir()))
    check("one came", "1 note came" in player.done("share", "now"))
    check("once", "came" not in player.done("share", "now"))
    for command in (("share", "notes"), ("share", "list")):
        said = player.done(*command)
        check("it is shown", "A note by “Coach” (coach) of" in said and "  Bring the tape on Friday\n" in said, said)
    notes = [json.loads(line) for line in player.done("share", "notes", "--format", "json").splitlines()]
    check("as JSON", [(note["name"], note["role"], note["text"]) for note in notes] == [("Coach", "coach", "Bring the tape on Friday")], notes)
    check("JSON of grants has grants alone", all("what" in json.loads(line) for line in player.done("share", "list", "--format", "json").splitlines()))
    sent = next(shared.glob("*.note"))
    sealed = sent.read_bytes()
    sent.write_bytes(sealed[:-1] + bytes([sealed[-1] ^ 1]))
    told = player.run("share", "now")
    check("a forged one is named", told.returncode == 0 and "after it was signed" in told.stderr and sent.name in told.stderr, told.stderr)
    sent.write_bytes(sealed)
    player.done("share", "notes", "--erase", "Coach")
    check("erased", "no note to you" in player.done("share", "notes") and not sent.exists())
    player.refused("no note by", "share", "notes", "--erase", "Coach")
    sent.write_bytes(sealed)
    check("it does not come again", "came" not in player.done("share", "now") and "no note" in player.done("share", "notes"))
    for text in ("", "a\nb", "x" * 501):
        check("what is no note", coach.run("roster", "note", "K7", text, str(shared), "--phrase-file", coach.phrase).returncode == 2)
    coach.refused("has left anything", "roster", "note", "Parent", "hello", str(shared), "--phrase-file", coach.phrase)
    parent.refused("coaches and clinicians only", "roster", "note", "K8", "hello", str(shared), "--phrase-file", parent.phrase)

    # Stopped, and asked to be erased.
    player.done("share", "stop", "Clinic", "--erase", "--phrase-file", player.phrase)
    rows = {row["name"]: row for row in map(json.loads, clinic.roster(shared).splitlines())}
    check("nothing is left of it", rows["K7"]["holds"] == 0 and rows["K7"]["erased"] and rows["K7"]["weeks"] == [], rows["K7"])
    with sqlite3.connect(clinic.home / ".local/state/carpace/roster.sqlite") as file:
        keys = [bytes(row[0]) for row in file.execute("SELECT DISTINCT player FROM entry")]
    check("and nothing in the file", len(keys) == 1, keys)

    # A key that is forgotten can still be stopped; whoever named a guardian once does so again.
    check("who still reads is told", "still let them read" in player.done("key", "forget", "Coach"))
    player.done("share", "stop", "Coach", "--phrase-file", player.phrase)
    check("it is stopped", "(stopped)" in player.done("share", "list") and "no readers" in player.done("share", "now"))
    player.refused("Nothing is shared", "share", "stop", "Coach", "--phrase-file", player.phrase)
    said = young.done("share", "with", "Coach", "--yes", "--phrase-file", young.phrase)
    check("a guardian is not gone round", "“Parent” has to agree, too" in said and "waits for the guardian" in young.done("share", "list"), said)
    young.done("key", "forget", "Parent")
    young.refused("had to agree before", "share", "with", "Coach", "--yes", "--phrase-file", young.phrase)

    # A grant whose own copy is damaged is said to be, and stopped all the same: its reader takes the number.
    check("the clinician reads", {row["name"]: row for row in map(json.loads, clinic.roster(shared).splitlines())}["K8"]["holds"] == 1)
    grants = young.home / ".local/share/carpace/team"
    for path in grants.glob("to-*.grant"):
        path.write_bytes(path.read_bytes()[:-3] + b"???")
    told = young.run("share", "list")
    check("what is damaged is told", told.stderr.count("makes it anew") == 2, told.stderr)
    young.done("share", "stop", "Clinic", "--phrase-file", young.phrase)
    row = {row["name"]: row for row in map(json.loads, clinic.roster(shared).splitlines())}["K8"]
    check("and it bites", row["holds"] == 0 and not row["weeks"] and row["highest"] is None, row)

    # Bad input: one sentence each.
    (own / "device.key").chmod(0o644)
    player.refused("can be read by others", "share", "now")
    (own / "device.key").chmod(0o600)
    bundle = next(shared.glob("*.bundle"))
    (shared / "0-forged.bundle").write_bytes(bundle.read_bytes()[:-1] + b"x")
    told = coach.run("roster", str(shared), "--phrase-file", coach.phrase)
    check("a forged bundle is named", told.returncode == 0 and "0-forged.bundle" in told.stderr, told.stderr)
    check("without a display it is printed, not shown", "K7" in told.stdout, told.stdout)
    store = clinic.home / ".local/state/carpace/roster.sqlite"
    store.write_bytes(b"no database" * 99)
    clinic.refused("made anew", "roster", str(shared), "--phrase-file", clinic.phrase)
    store.unlink()
    check("and it is", "K8" in clinic.roster(shared))
    coach.refused("cannot be read or written", "roster", str(folder / "no-stick"), "--phrase-file", coach.phrase)
    shared.rename(folder / "away")
    player.refused("cannot be read or written", "share", "now")


with tempfile.TemporaryDirectory() as folder:
    main(pathlib.Path(folder))
told()
