# SPDX-License-Identifier: GPL-3.0-or-later
"""A suspend in a run, as logind tells of it, on the real clock: kept before the machine would sleep, not counted, told once.

usage: suspended.py CARPACE HAND FOLDER
"""
import contextlib
import os
import sqlite3
import subprocess
import sys
import time

from desktop import HERE, Desktop, no_complaints, wait
from hand import Hand
from product import prepared

PLAN = """carpace-plan: 1
name: Long runs
day: {dose: 20 min, between-blocks: 0 s}
gap-after: 2 s
run-min: 1 s
drills: [{id: corners, movement: small-turn}]
blocks: [{limit: 10 min, drills: [corners]}]
"""
ASLEEP_S = 4
LOGIND_WAITS_S = 5  # for a lock, as logind.conf(5) has it


class Logind:
    def __init__(self, desktop):
        address = desktop.environment["DBUS_SYSTEM_BUS_ADDRESS"]
        desktop.spawn("system-bus", ["dbus-daemon", "--session", "--nofork", "--nosyslog", f"--address={address}"])
        desktop.started("system-bus", "a system bus", lambda: os.path.exists(address.split("=", 1)[1]))
        self.child = desktop.spawn("logind", ["/usr/bin/python3", HERE / "logind.py", address], stdin=subprocess.PIPE,
                                   stdout=subprocess.PIPE, text=True)

    def says(self, word):
        said = self.child.stdout.readline().strip()
        assert said == word, (said, word)

    def tell(self, word):
        self.child.stdin.write(word + "\n")
        self.child.stdin.flush()


def events(desktop):
    with contextlib.closing(sqlite3.connect(desktop.home / "state/carpace/diary.sqlite")) as diary:
        return diary.execute("SELECT kind, elapsed_ms, since_ms FROM event ORDER BY id").fetchall()


def moved_ms(rows):
    """How long the hand moved, by what was kept: from a start or input to the first word of stillness or suspend."""
    total, since = 0, None
    for kind, elapsed_ms, since_ms in rows:
        if kind in ("start", "input") and since is None:
            since = elapsed_ms if kind == "start" else since_ms
        elif kind in ("suspend", "still", "end") and since is not None:
            total, since = total + (since_ms if kind == "still" else elapsed_ms) - since, None
    return total


def suspended_in_a_run(desktop, program, hand_program):
    logind = Logind(desktop)
    carpace, hand = prepared(desktop, program, desktop.write("long.plan.yaml", PLAN)), Hand(desktop, hand_program)
    logind.says("locked")
    carpace.told("start")
    hand.move()
    before_ms = carpace.until("some practice", lambda status: status["active_ms"] >= 2000)["active_ms"]

    began = time.monotonic()
    logind.tell("sleep")
    logind.says("asleep")
    took_s = time.monotonic() - began
    assert took_s < LOGIND_WAITS_S, took_s
    assert events(desktop)[-1][0] == "suspend", events(desktop)
    hand.still()
    time.sleep(ASLEEP_S)  # the clock that runs on is the machine's
    logind.tell("wake")
    logind.says("awake")
    logind.says("locked")
    woken_ms = carpace.until_state("gap")["active_ms"]
    # What came between the two looks at it, and nothing of the sleep: half of that is left for a busy machine.
    assert before_ms <= woken_ms < before_ms + (took_s + ASLEEP_S / 2) * 1000, (before_ms, woken_ms, took_s)

    hand.move()
    carpace.until("more practice", lambda status: status["active_ms"] >= woken_ms + 2000)
    carpace.told("end")
    hand.still()
    wait("the block's end", lambda: [row for row in carpace.diary("block") if row["what"] == "ended"])
    [block] = [row for row in carpace.diary("block") if row["what"] == "ended"]
    rows = events(desktop)
    assert block["runs"] >= 2 and block["active_ms"] == moved_ms(rows), (block, rows)
    for kind in ("suspend", "wake", "start"):
        assert [row[0] for row in rows].count(kind) == 1, rows
    shown = [row["cue"] for row in carpace.diary("cue") if row["what"] == "shown"]
    assert len(shown) == len(set(shown)), shown
    assert not carpace.diary("fault")


def main(program, hand_program, folder):
    with Desktop("xfwm4", folder) as desktop:
        suspended_in_a_run(desktop, program, hand_program)
        no_complaints(desktop.folder)


main(*sys.argv[1:])
