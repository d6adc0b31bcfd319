# SPDX-License-Identifier: GPL-3.0-or-later
"""sway with the lines that `carpace desktop --shortcuts` prints, its keys pressed; then it goes and comes back.

usage: anew.py CARPACE HAND FOLDER
Run by a user that is not root, with a session bus of its own.
"""
import json
import pathlib
import subprocess
import sys
import time

from hands import Hand
from session import HERE, Failed, Session, carpace, wait

PATIENCE_S = 40


def status(session, program):
    done = subprocess.run([program, "status", "--format", "json"], env=session.environment, capture_output=True, text=True)
    return json.loads(done.stdout) if done.returncode == 0 else {}


def press(session, program, key, state):
    """A key of the keyboard, with Ctrl and Alt; the program is in that state then."""
    subprocess.run(["wtype", "-M", "ctrl", "-M", "alt", "-k", key, "-m", "alt", "-m", "ctrl"], env=session.environment, check=True)
    wait(f"{state} after Ctrl+Alt+{key}", lambda: status(session, program).get("state") == state, PATIENCE_S)


def main(program, hand_program, folder):
    session = Session("sway", folder)
    session.environment.update(XDG_CURRENT_DESKTOP="sway", PATH=f"{pathlib.Path(program).parent}:{session.environment['PATH']}")
    session.settings = "\n".join(line for line in carpace(session, program, "desktop", "--shortcuts").splitlines()
                                 if line.startswith("bindsym "))
    try:
        session.begin()
        carpace(session, program, "plan", "use", str(HERE / "two-runs.plan.yaml"))
        tray = session.spawn("carpace", [program])
        wait("the tray program", lambda: status(session, program), PATIENCE_S)
        carpace(session, program, "caution", "none")
        carpace(session, program, "start")
        press(session, program, "p", "paused")
        press(session, program, "c", "practising")
        carpace(session, program, "pause")

        session.begin_anew()
        wait("its return", lambda: status(session, program).get("state") == "paused", PATIENCE_S)
        if tray.poll() is not None:
            raise Failed(f"the program ended: {tray.returncode}")
        press(session, program, "c", "practising")
        hand = Hand(session, hand_program)
        hand.begin()
        time.sleep(22)  # a run, which only somebody who sees the hand tells of
        hand.end()
        wait("a gap seen", lambda: status(session, program).get("state") in ("gap", "rest-due"), PATIENCE_S)
    finally:
        session.end()


main(*sys.argv[1:])
