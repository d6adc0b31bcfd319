# SPDX-License-Identifier: GPL-3.0-or-later
"""The X server beside a compositor comes late, breaks and comes again: whoever plays a game of X that holds the screen awake is
seen by nothing else, and seen each time.

usage: x_late.py COMPOSITOR CARPACE HAND FOLDER   (sway, kwin)
KWin has it from the first. Run by its name only (`run ... sway-late`): on a busy machine the game that came after the
server's fall was sometimes not seen on sway, and why is not known; KWin 5.27 then at times brings the server back without being
its window manager, so that nobody knows what is in front.
Run by a user that is not root, with a session bus of its own.
"""
import json
import os
import signal
import subprocess
import sys

from hands import Hand
from session import HERE, PATIENCE_S, Failed, Session, carpace, wait

LIVES_MS = 7000  # wlroots brings back one that lived for more than 5 s


def status(session, program):
    return json.loads(carpace(session, program, "status", "--format", "json"))


def until(session, program, what, condition):
    return wait(what, lambda: condition(status(session, program)), PATIENCE_S, 0.2)


def beside(session, program):
    return json.loads(carpace(session, program, "desktop", "--format", "json"))["input_beside"]


def a_run(session, hand, program):
    """The hand on the game, then off it. The compositor says nothing of either."""
    before = status(session, program)["active_ms"]
    hand.begin()
    session.play(True)
    until(session, program, "practice", lambda now: now["state"] == "practising" and now["active_ms"] >= before + LIVES_MS)
    hand.end()
    session.play(False)
    until(session, program, "a gap, seen by the X server alone", lambda now: now["state"] in ("gap", "rest-due"))


def must(what, is_so):
    if not is_so:
        raise Failed(what)


def main(compositor, program, hand_program, folder):
    session = Session(compositor, folder, held=True)
    try:
        session.begin()
        carpace(session, program, "plan", "use", str(HERE / "two-runs.plan.yaml"))
        tray = session.spawn("carpace", [program])
        wait("the tray program", lambda: subprocess.run([program, "status"], env=session.environment, capture_output=True).returncode == 0)
        carpace(session, program, "caution", "none")
        hand = Hand(session, hand_program)
        must("an X server before anybody wants one", compositor == "kwin" or session.x_server() is None)
        must("not told of", beside(session, program) == "x11-beside")
        carpace(session, program, "start")
        session.bring_the_game()
        a_run(session, hand, program)

        server = session.x_server()
        os.kill(server, signal.SIGKILL)
        session.take_down(session.game)
        wait("the server's end", lambda: session.x_server() != server)
        must("the program went with the X server", tray.poll() is None)
        must("no longer told of", beside(session, program) == "x11-beside")
        session.bring_the_game()
        a_run(session, hand, program)
        must("the same server", session.x_server() not in (None, server))
        must("the program ended", tray.poll() is None)
        print(f"the X server beside {compositor}: seen by as it came, gone with, seen by as it came again", flush=True)
    finally:
        session.end()


main(*sys.argv[1:])
