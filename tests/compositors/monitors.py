# SPDX-License-Identifier: GPL-3.0-or-later
"""Two monitors, as an X server has them: a card comes where the full-screen program in front is, wherever the pointer is;
beside it where the player wants that.

A server of X alone has one monitor here: Xwayland has sway's. The cards are of X, so that they choose.

usage: monitors.py SHOW-FACES FOLDER
Run by a user that is not root, with a session bus of its own.
"""
import json
import subprocess
import sys

from session import HERE, Failed, Session, wait
from card_places import SIXTH, THIRD, faults_on_monitor, standing  # found beside desktop.py
from windows import Windows

WIDTH, HEIGHT = 1280, 800
OUTPUTS = {"HEADLESS-1": 0, "HEADLESS-2": WIDTH}  # where each begins


def swaymsg(session, *words):
    return subprocess.run(["swaymsg", "-r", *words], env=session.environment, capture_output=True, check=True, text=True).stdout


def places_of_outputs(session):
    return {output["name"]: (output["rect"]["x"], output["rect"]["width"]) for output in
            json.loads(swaymsg(session, "-t", "get_outputs"))}


def two_outputs(session):
    swaymsg(session, "create_output")
    for name, left in OUTPUTS.items():
        swaymsg(session, "output", name, "resolution", f"{WIDTH}x{HEIGHT}", "position", str(left), "0")
    wait("two outputs", lambda: places_of_outputs(session) == {name: (left, WIDTH) for name, left in OUTPUTS.items()})


def game_on(session, windows, name):
    """A full-screen program in front there; one that comes while the server starts may have its wish overheard."""
    swaymsg(session, "focus", "output", name)
    game = session.spawn("game", ["/usr/bin/python3", HERE / "x-program.py"], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    game.stdin.write(b"play\n")
    game.stdin.flush()
    session.ready("game", game)
    swaymsg(session, '[title="program of X"]', "fullscreen", "enable")
    wait("a full screen", lambda: [windows.place(window) for window in windows.titled("program of X")]
         == [(OUTPUTS[name], 0, WIDTH, HEIGHT)], 20)
    return game


def card(session, windows, show_faces):
    """Where the one card there is stands, once it has stood there for a second."""
    faces = session.spawn("faces", [show_faces, "rating"])
    place = wait("a card that stands still", standing(
        lambda: [windows.place(window) for window in windows.of_class("show-faces")]), 40)
    session.take_down(faces)
    wait("its end", lambda: not windows.of_class("show-faces"), 20)
    return place


def must_stand_on(name, place, share, why):
    faults = faults_on_monitor(place, OUTPUTS[name], share, (WIDTH, HEIGHT))
    if faults:
        raise Failed(f"{why}: not on {name}: {faults}")


def main(show_faces, folder):
    session = Session("sway", folder)
    session.environment["CARDS_ONLY"] = "1"
    try:
        session.begin()
        two_outputs(session)
        session.environment["GDK_BACKEND"] = "x11"
        windows = Windows(session.environment["DISPLAY"])
        for name, other in (list(OUTPUTS), list(OUTPUTS)[::-1]):
            game = game_on(session, windows, name)
            swaymsg(session, "seat", "-", "cursor", "set", str(OUTPUTS[other] + 300), "300")
            must_stand_on(name, card(session, windows, show_faces), SIXTH, "where the game is")
            session.environment["CARDS_OTHER_MONITOR"] = "1"
            must_stand_on(other, card(session, windows, show_faces), THIRD, "beside the game")
            del session.environment["CARDS_OTHER_MONITOR"]
            session.take_down(game)
        print("a card on each of two monitors: where the game is, and beside it", flush=True)
    finally:
        session.end()


main(*sys.argv[1:])
