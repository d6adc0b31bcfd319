# SPDX-License-Identifier: GPL-3.0-or-later
"""A clock that stands a year before or after everybody else's, with the built program: a reader's, a player's.

usage: other_year.py PROGRAM CLOCK

CLOCK is preloaded and moves what the program takes for now (other-clock.c). What would be caught: a wrong clock that nobody
is told of, one that costs what was read before, one that lets be read what should not, and one that still counts once it is
set right.
"""
import json
import os
import pathlib
import re
import sys
import tempfile

from people import Person, bring_to_yesterday, check, told

CLOCK = os.path.abspath(sys.argv[2])
YEAR = 365 * 86400
AHEAD = "made in the future"


class Clocked(Person):
    by = 0

    def env(self):
        return dict(super().env(), LD_PRELOAD=CLOCK, CLOCK_BY_S=str(self.by))

    def look(self, shared):
        """The row of the only player, and what was told beside it."""
        result = self.run("roster", str(shared), "--format", "json", "--phrase-file", self.phrase)
        rows = [json.loads(line) for line in result.stdout.splitlines()]
        check(f"{self.name}: one row", result.returncode == 0 and len(rows) == 1, f"{result.stdout} {result.stderr}")
        return rows[0], result.stderr

    def share(self):
        return self.done("share", "now")

    def let(self, *names):
        for name in names:
            self.done("share", "with", name, "--yes", "--phrase-file", self.phrase)


def team(folder):
    """Coach, clinician and player, who know each other; nothing is shared yet."""
    folder.mkdir()
    shared = folder / "shared"
    shared.mkdir()
    coach, clinic, player = Clocked(folder, "Coach", "coach"), Clocked(folder, "Clinic", "clinician"), Clocked(folder, "K7", "player")
    for reader in (coach, clinic):
        reader.accept(player)
        player.accept(reader)
    player.done("share", "folder", str(shared))
    season = player.home / "season.json"
    player.done("rehearse", "two-halves", "--player", "sensitive", "--days", "30", "--seed", "3", "--export", str(season))
    bring_to_yesterday(season)
    player.done("restore", str(season))
    return shared, coach, clinic, player


def once(what, err):
    check(what, err.count(AHEAD) == 1 and err.count("\n") == 1, err)


def readers(folder):
    shared, coach, clinic, player = team(folder)
    player.let("Coach", "Clinic")
    player.share()
    before = clinic.look(shared)[0]
    check("a clinician reads", before["holds"] == 1 and before["weeks"] and before["hand_made"], before)

    # A year behind: the grant begins later, nothing is shown, one sentence says why; nothing is lost by it.
    coach.by = clinic.by = -YEAR
    for one in (coach, clinic):
        row, err = one.look(shared)
        once(f"{one.name}, behind, is told once", err)
        check(f"{one.name}, behind, is shown nothing", row["holds"] == 0 and not row["weeks"] and row["highest"] is None, row)
    clinic.by = 0
    check("it is all there again", clinic.look(shared) == (before, ""))

    # A year ahead: all of it is old, so they need a look; nothing is lost by that either.
    clinic.by = YEAR
    row, _err = clinic.look(shared)
    check("ahead, nothing came lately", "silent" in row["looks"] and "bundle-missing" in row["looks"], row)
    clinic.by = 0
    check("it is all there again, after both", clinic.look(shared) == (before, ""))

    # Notes and plans of a coach whose clock is ahead, and those after it was set right.
    coach.by = YEAR
    plan, given = folder / "week.plan.yaml", folder / "given.plan.yaml"

    def give(version):
        text = re.sub(r"(?m)^(name|version): .*\n", "", coach.done("plan", "show", "two-halves"))
        plan.write_text(f"{text}name: League week\nversion: {version}\n")
        coach.done("plan", "sign", str(plan), str(given), "--force", "--phrase-file", coach.phrase)
        player.done("plan", "use", str(given), "--yes")

    give(1)
    coach.done("roster", "note", "K7", "of next year", str(shared), "--phrase-file", coach.phrase)
    result = player.run("share", "now")
    once("a note of next year is refused, in one sentence", result.stderr)
    check("and is not shown", result.returncode == 0 and "no note" in player.done("share", "notes"), result.stdout)
    coach.by = 0
    give(2)
    coach.done("roster", "note", "K7", "of today", str(shared), "--phrase-file", coach.phrase)
    result = player.run("share", "now")
    check("the one after it comes", "1 note came" in result.stdout and result.stderr == "", f"{result.stdout} {result.stderr}")
    check("and is shown", "of today" in player.done("share", "notes"))


def players(folder):
    # Ahead: what it lets be read begins in a year, which is said to all, and a new one takes its place.
    shared, _coach, clinic, player = team(folder)
    player.by = YEAR
    player.let("Clinic")
    player.share()
    row, err = clinic.look(shared)
    once("of a player who is ahead it is told once", err)
    check("and nothing is shown", row["holds"] == 0 and not row["weeks"] and row["highest"] is None, row)
    player.by = 0
    said = player.share()
    check("set right, the player is told what begins later", "no readers today" in said and "1 grant begins later than today" in said, said)
    check("and that a clock was wrong", "wrong then, or is now" in said, said)
    player.let("Clinic")
    said = player.share()
    check("a new grant holds", "how the hand is for 1" in said and "begins later" not in said, said)
    said = player.share()
    check("and that is all there was to tell", "wrong" not in said, said)
    row, err = clinic.look(shared)
    check("now it is read", row["holds"] == 1 and row["hand_made"] and row["weeks"], row)
    once("the bundles of next year are told of once", err)

    # Behind, after it was right.
    player.by = -YEAR
    said = player.share()
    check("behind, the player is told", "1 grant begins later than today" in said and "wrong then, or is now" in said, said)
    row, _err = clinic.look(shared)
    check("nothing is lost by it", row["holds"] == 1 and row["weeks"], row)



def erased(folder):
    """Asked by a clock that is behind and by one that is ahead: all goes, and what is shared afterwards comes."""
    shared, coach, clinic, player = team(folder)
    for by, what in ((-YEAR, "behind"), (YEAR, "ahead")):
        player.by = 0
        player.let("Coach", "Clinic")
        player.share()
        for again in range(2):
            check(f"{what}: what is shared comes, and stays", coach.look(shared)[0]["weeks"] and clinic.look(shared)[0]["hand_made"], again)
        player.by = by
        player.done("share", "stop", "Clinic", "--erase", "--phrase-file", player.phrase)
        row, err = coach.look(shared)
        check(f"{what}: nothing is left, of who may still read either", row["erased"] and not row["weeks"], row)
        check(f"{what}: told where it is ahead", err.count(AHEAD) == (by > 0), err)
        row, _err = clinic.look(shared)
        check(f"{what}: stopped at once", row["holds"] == 0 and row["erased"] and row["highest"] is None, row)
    player.by = 0
    player.let("Coach")
    player.share()
    for again in range(2):
        check("what is shared afterwards comes, and stays", coach.look(shared)[0]["weeks"], again)


def keys(folder):
    """Keys have no end: cards of next year and of last year are accepted by their words."""
    folder.mkdir()
    people = []
    for name, by in (("Then", -YEAR), ("Soon", YEAR), ("Now", 0)):
        Clocked.by = by
        people.append(Clocked(folder, name, "coach" if by else "player"))
        people[-1].by = by
    Clocked.by = 0
    for one, other in ((people[2], people[0]), (people[2], people[1]), (people[0], people[1])):
        one.accept(other)


with tempfile.TemporaryDirectory() as name:
    at = pathlib.Path(name)
    readers(at / "readers")
    players(at / "players")
    erased(at / "erased")
    keys(at / "keys")
told()
