# SPDX-License-Identifier: GPL-3.0-or-later
"""A practice window that runs without X, on sway: chosen by its coming to the front, then only what the hand does while
it is there counts. A program of X is chosen the same way, by its class.

usage: window.py CARPACE HAND GAME FOLDER
Run by a user that is not root, with a session bus of its own.
"""
import json
import pathlib
import subprocess
import sys

from hands import Hand
from session import HERE, Failed, Session, carpace, wait

PATIENCE_S = 40


def status(session, program):
    done = subprocess.run([program, "status", "--format", "json"], env=session.environment, capture_output=True, text=True)
    return json.loads(done.stdout) if done.returncode == 0 else {}


def until(session, program, what, condition):
    return wait(what, lambda: condition(status(session, program)), PATIENCE_S)


def client(session, game, name):
    session.spawn(name, [game, name])
    wait(name, lambda: "ready" in (session.folder / f"{name}.log").read_text(), PATIENCE_S)


def go_to(session, name, by="app_id"):
    """Whatever is full screen, a person brings another window to the front. @return whether it is there"""
    return subprocess.run(["swaymsg", f'[{by}="{name}"]', "focus"], env=session.environment, capture_output=True).returncode == 0


def choose(session, program, name, by="app_id"):
    go_to(session, "other")
    carpace(session, program, "window", "pick")
    wait(f"{name} in front", lambda: go_to(session, name, by), PATIENCE_S)
    wait("the window on the list", lambda: carpace(session, program, "window", "list").strip() == name, PATIENCE_S)


def counts_only_there(session, program, hand):
    carpace(session, program, "start")
    hand.begin()
    until(session, program, "some practice", lambda now: now.get("active_ms", 0) > 2000)
    go_to(session, "other")
    until(session, program, "a gap", lambda now: now.get("state") == "gap")
    before = status(session, program)["active_ms"]
    go_to(session, "game")
    until(session, program, "more of it", lambda now: now["state"] == "practising" and now["active_ms"] > before + 1000)
    go_to(session, "other")
    until(session, program, "a gap", lambda now: now.get("state") == "gap")
    carpace(session, program, "window", "forget")
    until(session, program, "practice in any window", lambda now: now.get("state") == "practising")
    hand.end()
    carpace(session, program, "end")


def main(program, hand_program, game, folder):
    session = Session("sway", folder)
    try:
        session.begin()
        told = json.loads(carpace(session, program, "desktop", "--format", "json"))["windows"]
        if told != "all":
            raise Failed(f"windows: {told}")
        carpace(session, program, "plan", "use", str(HERE / "two-runs.plan.yaml"))
        tray = session.spawn("carpace", [program])
        wait("the tray program", lambda: status(session, program), PATIENCE_S)
        carpace(session, program, "caution", "none")
        client(session, game, "other")
        client(session, game, "game")
        choose(session, program, "game")
        counts_only_there(session, program, Hand(session, hand_program))
        session.spawn("of-x", ["/usr/bin/python3", HERE.parent / "desktop" / "practice_client.py", "OfX", "10", "10"])
        wait("a program of X", lambda: go_to(session, "OfX", "class"), PATIENCE_S)
        choose(session, program, "OfX", "class")
        carpace(session, program, "quit")
        if tray.wait(PATIENCE_S) != 0:
            raise Failed(f"the program ended: {tray.returncode}")
        complaints = [line for line in pathlib.Path(session.folder / "carpace.log").read_text().splitlines() if "CRITICAL" in line]
        if complaints:
            raise Failed("\n".join(complaints))
        print("a window without X: chosen, and only what the hand does in it counts; one of X chosen", flush=True)
    finally:
        session.end()


main(*sys.argv[1:])
