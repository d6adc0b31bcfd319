# SPDX-License-Identifier: GPL-3.0-or-later
"""The same two runs with a gap between on every desktop: counted as such, and a rest offered in the gap.

usage: two_runs.py DESKTOP HOW CARPACE HAND FOLDER   (x11, sway, kwin, mutter; free, held, sound)
HOW: held where a game holds the screen awake throughout, as full-screen ones do. On sway and KWin
the practice is then in a program of X: one that runs without X is not seen there. sound where a sound player does,
over the session bus.
Run by a user that is not root, with a session bus of its own.
"""
import collections
import json
import pathlib
import subprocess
import sys
import time

from hands import hand_of
from session import HERE, Failed, Session, carpace, wait

# The evening, on each desktop.
RUN_S, GAP_S = 25, 12
NEAR_MS = 1000  # what may be counted more or less than the hand moved
STALL_MS = 3000  # a hand held up for longer is no hand that moves on: 4 s are a gap
EVENINGS = 3  # at most, where the machine stalled in the first
# What differs: what tells of the hand, and beside it; how cards come; who takes a sound player's wish; how often the tray may wake up
# in 15 s of a run, where nothing of its own is under the pointer: some twice what there is a reason for, and far from a motion's rate. 2 a
# minute, and 2 for a gap that may fall into it (1 to 3 measured); GNOME has to be asked 15 times a minute, and answers (7 to 11); X's
# server is asked what began all its counters anew, twice then (4 to 6).
Desktop = collections.namedtuple("Desktop", "seen_by beside cards sound_taken_by wakes")
DESKTOPS = {
    "x11": Desktop("x11", None, "above", [], 10),
    "sway": Desktop("kde", "x11-beside", "above", [], 6),
    "kwin": Desktop("ext", "x11-beside", "above-take-focus", ["org.freedesktop.ScreenSaver"], 6),
    "mutter": Desktop("mutter", None, "by-notices", ["org.gnome.SessionManager"], 20),
}


class Stalled(Exception):
    """The hand could not move as it should have: not the evening that is judged."""


def switches(pid):
    """How often the tray's main thread has woken up so far."""
    for line in pathlib.Path(f"/proc/{pid}/task/{pid}/status").read_text().splitlines():
        if line.startswith("voluntary_ctxt_switches:"):
            return int(line.split()[1])
    raise Failed("no count of switches")


def run_counted(session, hand, pid, woken):
    """A run, and how often the tray woke up while the hand moved on and on.

    @return how long it moved, in ms, as it says itself"""
    begun = time.monotonic()
    hand.begin()
    session.play(True)
    time.sleep(max(0, begun + 8 - time.monotonic()))
    before = switches(pid)
    time.sleep(RUN_S - 10)
    woken.append(switches(pid) - before)
    time.sleep(max(0, begun + RUN_S - time.monotonic()))
    moved_ms, paused_ms = hand.end()
    session.play(False)
    if paused_ms > STALL_MS:
        raise Stalled(f"the desktop took no input for {paused_ms:.0f} ms")
    return moved_ms


class Notices:
    """What GNOME would show. The offer of a rest is answered on it, once."""

    def __init__(self, session):
        self.session, self.answered = session, False
        self.child = session.spawn("notifier", ["/usr/bin/python3", HERE / "notifier.py"], stdin=subprocess.PIPE)
        wait("a notification server", lambda: "ready" in self.log())

    def log(self):
        return (self.session.folder / "notifier.log").read_text()

    def all(self):
        return [json.loads(line) for line in self.log().splitlines() if line.startswith("{")]

    def answer(self):
        offered = [notice for notice in self.all() if "rest" in notice["actions"]]
        if offered and not self.answered:
            self.answered = True
            self.child.stdin.write(f"{offered[-1]['id']} play-on\n".encode())
            self.child.stdin.flush()

    def check(self):
        rests = [[action for action in notice["actions"] if action != "default"] for notice in self.all()
                 if notice["title"].startswith("Rest ")]
        assert rests and all(actions == ["rest", "after-run", "play-on"] for actions in rests), self.all()
        assert any(notice["title"] == "How does your hand feel?" for notice in self.all()), self.all()


def state_of(session, program):
    return json.loads(carpace(session, program, "status", "--format", "json"))["state"]


def gap(session, program, notices):
    """As long as it is, and until a rest was offered, and where that is a notice, answered. @return the states in it"""
    begun, states = time.monotonic(), []

    def is_over():
        state = state_of(session, program)
        if states[-1:] != [state]:
            states.append(state)
        if notices is not None:
            notices.answer()
        return time.monotonic() > begun + GAP_S and "rest-due" in states and (notices is None or state == "gap")
    try:
        wait("a gap with an offer of a rest", is_over, every_s=0.25)
    except Failed as failed:
        raise Failed(f"{failed}: {' '.join(states)}") from failed
    return states


def begin(session, desktop, program):
    """@return the tray"""
    told = json.loads(carpace(session, program, "desktop", "--format", "json"))
    print("input:", told["input"], told["input_tells"], told["input_beside"], flush=True)
    assert (told["input"], told["input_beside"], told["cards"]) == (desktop.seen_by, desktop.beside, desktop.cards), told
    carpace(session, program, "plan", "use", str(HERE / "two-runs.plan.yaml"))
    tray = session.spawn("carpace", [program])
    wait("the tray program", lambda: subprocess.run([program, "status"], env=session.environment,
                                                    capture_output=True).returncode == 0)
    carpace(session, program, "caution", "none")
    session.bring_the_game()
    if session.sound:
        session.bring_the_sound(desktop.sound_taken_by)
    return tray


def check(session, moved_ms, states, woken, rows):
    block = [row for row in rows if row["kind"] == "block" and row["what"] == "ended"][-1]
    print(f"states in the gap: {' '.join(states)}; the hand moved {moved_ms:.0f} ms, active {block['active_ms']} ms "
          f"in {block['runs']} runs; wake-ups in {RUN_S - 10} s of each run: {woken}", flush=True)
    assert block["runs"] == 2, block
    assert abs(block["active_ms"] - moved_ms) <= NEAR_MS, block
    assert any(row["kind"] == "cue" and row["cue"] == "micro-rest" and row["what"] == "shown" for row in rows)
    complaints = [line for line in (session.folder / "carpace.log").read_text().splitlines() if "CRITICAL" in line]
    assert not complaints, complaints


def practise(session, hand, program):
    desktop = DESKTOPS[session.compositor]
    # On GNOME notices say what cards would.
    notices = Notices(session) if session.compositor == "mutter" and not session.sound else None
    tray = begin(session, desktop, program)
    hand.settle()
    woken = []
    carpace(session, program, "start")
    moved_ms = run_counted(session, hand, tray.pid, woken)
    states = gap(session, program, notices)
    moved_ms += run_counted(session, hand, tray.pid, woken)
    wait("the second gap", lambda: state_of(session, program) in ("gap", "rest-due"), every_s=0.25)
    carpace(session, program, "end")
    rows = [json.loads(line) for line in carpace(session, program, "diary", "--format", "json").splitlines()]
    check(session, moved_ms, states, woken, rows)
    if notices is not None:
        wait("the question at the block's end", lambda: "How does your hand feel?" in notices.log())
        notices.check()
    # Nothing of the tray's is under the pointer where a game covers the screen; on GNOME no card ever is.
    if session.held or session.compositor == "mutter":
        assert max(woken) <= desktop.wakes, woken


def evening(compositor, how, program, hand_program, folder):
    session = Session(compositor, folder, how == "held", how == "sound")
    try:
        session.begin()
        practise(session, hand_of(session, hand_program), program)
    finally:
        session.end()


def main(compositor, how, program, hand_program, folder):
    for number in range(1, EVENINGS + 1):
        try:
            evening(compositor, how, program, hand_program, f"{folder}/{number}")
            return
        except Stalled as stalled:
            print(f"evening {number}: {stalled}", flush=True)
    sys.exit("no evening in which the desktop took input throughout")


main(*sys.argv[1:])
