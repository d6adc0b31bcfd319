# SPDX-License-Identifier: GPL-3.0-or-later
"""What practice makes of the tray program's memory: printed, never judged.

usage: tray-memory.py CARPACE HAND FOLDER [MINUTES]
Runs and gaps as a player has them, a rest offered and taken, a block rated; after
each the program's memory, by what it is of: what was allocated (heap and the
allocator's other arenas), libraries' own data, thread stacks, what is shared with X.
"""
import pathlib
import re
import sys
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "desktop"))
from desktop import Desktop  # noqa: E402
from hand import Hand  # noqa: E402
from product import Carpace  # noqa: E402

PLAN = pathlib.Path(__file__).with_name("cost.plan.yaml")
RUN_S, GAP_S = 8, 3
KINDS = ("allocated", "libraries", "files", "other")


def kind_of(name, flags):
    if name == "[heap]" or (not name and "w" in flags):
        return "allocated"
    if ".so" in name or name.endswith("/carpace"):
        return "libraries"
    return "files" if name.startswith("/") else "other"


def memory_kib(pid):
    """Resident, and private dirty by kind."""
    dirty, rss, kind = dict.fromkeys(KINDS, 0), 0, "other"
    for line in pathlib.Path(f"/proc/{pid}/smaps").read_text().splitlines():
        head = re.match(r"[0-9a-f]+-[0-9a-f]+ (\S+) \S+ \S+ \S+ *(.*)", line)
        if head:
            kind = kind_of(head[2], head[1])
        elif line.startswith("Rss:"):
            rss += int(line.split()[1])
        elif line.startswith("Private_Dirty:"):
            dirty[kind] += int(line.split()[1])
    return rss, dirty


def row(title, pid):
    rss, dirty = memory_kib(pid)
    print(f"{title:34}{rss:9}" + "".join(f"{dirty[kind]:11}" for kind in KINDS), flush=True)


def practise(carpace, hand, minutes):
    """Runs with gaps between them for so long; rests are declined."""
    end = time.monotonic() + minutes * 60
    while time.monotonic() < end:
        hand.move(rate=Hand.RATE)
        time.sleep(RUN_S)
        hand.still()
        time.sleep(GAP_S)
        if carpace.status()["state"] == "rest-due":
            carpace.told("play-on")


def main(program, hand_program, folder, minutes="5"):
    with Desktop("xfwm4", folder) as desktop:
        carpace, hand = Carpace(desktop, program), Hand(desktop, hand_program)
        print(f"{'KiB':34}{'resident':>9}" + "".join(f"{kind:>11}" for kind in KINDS))
        carpace.start()
        time.sleep(3)
        row("started", carpace.pid)
        carpace.told("plan", "use", PLAN)
        carpace.told("caution", "none")
        carpace.command("morning", "0", "usual", "--now", "0")
        carpace.until_state("waiting")
        time.sleep(3)
        row("a plan in use, cards answered", carpace.pid)
        carpace.told("start")
        for minute in range(int(minutes)):
            practise(carpace, hand, 1)
            row(f"practised for {minute + 1} min", carpace.pid)
        carpace.told("rest")
        carpace.until_state("resting")
        time.sleep(5)
        row("a countdown on screen", carpace.pid)
        carpace.told("end")
        carpace.until_state("rating-due")
        time.sleep(2)
        row("a rating card", carpace.pid)
        carpace.told("rate", "0")
        time.sleep(3)
        row("rated", carpace.pid)


main(*sys.argv[1:])
