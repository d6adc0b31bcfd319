# SPDX-License-Identifier: GPL-3.0-or-later
"""Cards over a full-screen program that runs without X: in their corner, above it, and never with its focus. Where a
compositor has no place for them, as GNOME's, notices say what they would.

usage: cards.py COMPOSITOR SHOW-FACES HAND GAME FOLDER   (sway, kwin, mutter)
Run by a user that is not root, with a session bus of its own. sway is measured by pictures, KWin by its scripts.
"""
import json
import subprocess
import sys
import time

from PIL import Image, ImageChops

from hands import Hand, MutterHand
from kwin_scripts import KwinScripts
from session import Failed, Session, wait
from card_places import CARDS, faults_of_place  # found beside desktop.py

SCREEN = (1280, 800)
GAME = (0x2a, 0x2a, 0x2a)  # its colour
# Some of each form: on X11 all are looked at, here it is their place that may differ.
SOME = [(moment, share) for moment, share in CARDS if moment in (
    "rating", "rating armed", "rest-offered by-itself", "rest-running by-itself", "morning", "caution", "rating input 5",
    "caution input 6")]
NOTICED = {"rating": "How does your hand feel?", "rest-offered by-itself": "Rest ", "rest-running by-itself": "Rest ",
           "morning": "This morning", "caution": "Cautions"}


class Place:
    """Where the one card there is stands."""

    def __init__(self, session):
        self.session = session

    def settled(self):
        before, times = None, 0

        def still():
            nonlocal before, times
            now = self.now()
            times = times + 1 if now is not None and now == before else 0
            before = now
            return times >= 2 and now
        return wait("a card that stands still", still, 20)

    def gone(self):
        wait("its end", lambda: self.now() is None, 20)


class OnSway(Place):
    def now(self):
        path = self.session.folder / "look.ppm"
        subprocess.run(["grim", "-t", "ppm", str(path)], env=self.session.environment, check=True)
        with Image.open(path) as picture:
            box = ImageChops.difference(picture.convert("RGB"), Image.new("RGB", SCREEN, GAME)).getbbox()
        return box and (box[0], box[1], box[2] - box[0], box[3] - box[1])

    def in_front(self):
        tree = subprocess.run(["swaymsg", "-t", "get_tree", "-r"], env=self.session.environment, capture_output=True, check=True)

        def focused(node):
            return node.get("app_id") if node.get("focused") else next(filter(None, map(focused, node.get("nodes", []))), None)
        return focused(json.loads(tree.stdout))


class OnKwin(Place):
    SCRIPT = """
    workspace.clientList().forEach(function (window) {
      say([window.resourceClass, window.active, window.x, window.y, window.width, window.height]);
    });
    """

    def __init__(self, session):
        super().__init__(session)
        self.scripts = KwinScripts(session)

    def windows(self):
        return self.scripts.said(self.SCRIPT)

    def now(self):
        places = [tuple(window[2:]) for window in self.windows() if window[0] == "show-faces"]
        return places[0] if len(places) == 1 else None

    def in_front(self):
        return next((window[0] for window in self.windows() if window[1]), None)


def log_of(session, name):
    return (session.folder / f"{name}.log").read_text()


def show(session, show_faces, moment):
    """The faces at a moment, and what they have said so far is forgotten."""
    (session.folder / "faces.log").write_text("")
    return session.spawn("faces", [show_faces, *moment.split()])


def take_down(session, faces):
    faces.terminate()
    faces.wait()
    complaints = [line for line in log_of(session, "faces").splitlines() if "CRITICAL" in line or "WARNING" in line]
    if complaints:
        raise Failed("\n".join(complaints))


def look_at_all(session, place, show_faces, moments):
    """Where each of them stands."""
    faults, stood = [], {}
    for moment, share in moments:
        faces = show(session, show_faces, moment)
        stands = stood[moment] = place.settled()
        faults += [f"{moment}: {fault}" for fault in faults_of_place(stands, share, SCREEN)]
        if place.in_front() != "game":
            faults.append(f"{moment}: {place.in_front()} is in front, not the game")
        take_down(session, faces)
        place.gone()
    if faults:
        raise Failed("\n".join(faults))
    return stood


def middle(place):
    x, y, width, height = place
    return x + width // 2, y + height // 2


def click_until(hand, place, what, condition):
    """A card that has just come takes none."""
    def clicked():
        hand.click(*middle(place))
        time.sleep(0.2)
        return condition()
    wait(what, clicked, 20)


def click_on_all(session, stood, show_faces, hand):
    """A card takes the click, a bar lets it through to the game."""
    def game_clicked(moment):
        return "click %d %d" % middle(stood[moment]) in log_of(session, "game")
    for moment, to_game in (("rating", False), ("rating input 5", True)):
        faces = show(session, show_faces, moment)
        if to_game:
            click_until(hand, stood[moment], "a click through the bar", lambda: game_clicked(moment))
        else:
            click_until(hand, stood[moment], "a click on the card", lambda: "told: rate" in log_of(session, "faces"))
        if to_game and "told" in log_of(session, "faces"):
            raise Failed("a bar took a click")
        take_down(session, faces)


def look_at_notices(session, show_faces):
    for moment, title in NOTICED.items():
        faces = show(session, show_faces, moment)
        wait(f"a notice: {moment}", lambda: f"notice: {title}" in log_of(session, "faces"), 20)
        take_down(session, faces)
    focus = [line for line in log_of(session, "game").splitlines() if "focus" in line]
    if focus != ["focus"]:
        raise Failed(f"the game's focus: {focus}")


def main(compositor, show_faces, hand_program, game, folder):
    session = Session(compositor, folder)
    session.environment.update(CARDS_ONLY="1", **KwinScripts.LOGGED)
    try:
        session.begin()
        hand = MutterHand() if compositor == "mutter" else None
        if hand is not None:
            hand.press_a_key()  # else there is no keyboard, and no focus
        session.spawn("game", [game])
        wait("the game", lambda: "ready" in log_of(session, "game"))
        if compositor == "mutter":
            look_at_notices(session, show_faces)
            return
        place = {"sway": OnSway, "kwin": OnKwin}[compositor](session)
        wait("the game in front", lambda: place.in_front() == "game")
        stood = look_at_all(session, place, show_faces, SOME)
        click_on_all(session, stood, show_faces, Hand(session, hand_program))
    finally:
        session.end()


main(*sys.argv[1:])
