# SPDX-License-Identifier: GPL-3.0-or-later
"""Each window and menu of the built program in a look, a picture each, for whoever judges them. What can be measured is
said: a control without a name or under 44 px, ink too near to its ground, what reaches beyond the screen. It is no test:
somebody has to look.

usage: seen.py BUILD FOLDER [LOOK...] [only=NAME,...]   (a look of cards.py; names are those of FACES)
"""
import gettext
import os
import pathlib
import subprocess
import sys
import time

from PIL import Image

from cards import LOOKS, READABLE, TARGET
from desktop import Desktop, Failed, wait
from faces import Faces
from letters import contrast, is_scrolled_away
from longer import LANGUAGE, POT, make
from product import Carpace

CONTROLS = ("push button", "toggle button", "check box", "radio button", "combo box", "spin button", "text", "password text",
            "menu item", "radio menu item", "check menu item", "slider")
WORDS = ("label", "heading", *CONTROLS)
PHRASE = "five dull lamps hum\n"
STILL_S = 20
FAKE_KEYRING = pathlib.Path(__file__).parents[1] / "cli" / "secret_service.py"


class Seen:
    def __init__(self, desktop, program, translated):
        self.desktop, self.translated = desktop, translated
        self.scale = int(desktop.environment.get("GDK_SCALE", "1"))
        self.screen = tuple(int(side) for side in desktop.size.split("x"))
        self.faces, self.carpace = Faces(self.scale), Carpace(desktop, program)
        self.program = program

    # -- a person's ways

    def words(self, text):
        return self.translated.get(text, text)

    def find(self, text, role=None):
        return self.faces.find(self.words(text), role)

    def settle(self):
        before, times, end = None, 0, time.monotonic() + STILL_S
        while times < 3 and time.monotonic() < end:
            now = self.desktop.windows.pixels(0, 0, *self.screen)
            times = times + 1 if now == before else 0
            before = now
            time.sleep(0.1)

    def press(self, text, *roles):
        found = wait(f"{text!r}", lambda: next(filter(None, (self.find(text, role) for role in roles or (None,))), None), 30)
        self.settle()
        self.desktop.windows.click(*self.faces.middle(found))
        self.settle()

    def menu(self, *rows):
        self.carpace.command()
        self.press("Menu", "toggle button", "push button")
        for row in rows:
            self.press(row, "menu item", "menu")

    def away(self):
        """Until no menu is open: where it closes none, the key would put away a window."""
        while self.find("Quit", "menu item"):
            self.desktop.windows.key("Escape")
            self.settle()

    def fill(self, label, text):
        field = wait(f"the field {label!r}", lambda: self.find(label, "password text") or self.find(label, "text"))
        assert field.set_text_contents(text)

    # -- what is seen

    def seen(self, name):
        self.settle()
        path = self.desktop.picture(name)
        picture = Image.open(path).convert("RGB")
        for role, text, widget in self.faces.widgets():
            box = widget.get_extents(0)
            if role not in WORDS or min(box.width, box.height) < 4 or is_scrolled_away(widget, box):
                continue
            inked = "text" not in role or widget.get_text(0, -1) != ""
            place = tuple(side * self.scale for side in (box.x, box.y, box.x + box.width, box.y + box.height))
            for fault in self.faults(role, text, inked, place, picture):
                print(f"{path.stem}: {role} {text[:40]!r}: {fault}", flush=True)

    def faults(self, role, text, inked, box, picture):
        width, height = ((box[2] - box[0]) // self.scale, (box[3] - box[1]) // self.scale)
        if role in CONTROLS and not text:
            yield "no name"
        if role in CONTROLS and min(width, height) < TARGET:
            yield f"{width} x {height}"
        if box[0] < 0 or box[1] < 0 or box[2] > picture.width or box[3] > picture.height:
            yield "beyond the screen"
        elif inked and text.strip() and contrast(picture.crop(box)) < READABLE:
            yield f"{contrast(picture.crop(box)):.1f} : 1"


# -- each in turn; the next begins where the one before has left things

def first(seen):
    seen.carpace.start()
    wait("the questions", lambda: seen.find("None of these", "push button"), 30)
    seen.seen("first-cautions")
    seen.press("None of these", "push button")
    seen.seen("first-hand")
    seen.desktop.windows.key("Escape")


def today(seen):
    seen.carpace.told("plan", "use", "two-halves")
    seen.carpace.command()
    seen.seen("cautions-first")
    seen.carpace.told("caution", "none")
    seen.seen("this-morning")
    seen.carpace.command("morning", "0", "usual", "--now", "0")
    seen.seen("can-start")
    for rows in ((), ("Block plan",)):
        seen.menu(*rows)
        seen.seen("menu" if not rows else "plans")
        seen.away()
    for row, name in (("Why this limit?", "why"), ("Cautions…", "cautions"), ("Diary…", "diary-empty")):
        seen.menu(row)
        seen.seen(name)
        seen.desktop.windows.key("Escape")
    for name, words in (("practising", ("start",)), ("paused", ("pause",)), ("on-air", ("on-air", "on"))):
        seen.carpace.told(*words)
        seen.seen(name)
        seen.menu()
        seen.seen(f"menu-{name}")
        seen.away()
    seen.carpace.told("on-air", "off")


def settings(seen):
    seen.carpace.told("settings")
    seen.seen("settings")
    seen.desktop.windows.key("Escape")


def diary(seen):
    weeks = seen.desktop.home / "weeks.json"
    seen.carpace.told("rehearse", "two-halves", "--player", "varied", "--days", "70", "--seed", "3", "--export", weeks)
    seen.carpace.told("quit")
    seen.carpace.gone()
    seen.carpace.told("erase", "--yes")
    seen.carpace.told("restore", weeks, "--mine")
    seen.carpace.start()
    seen.menu("Diary…")
    seen.seen("diary")


def alone(seen):
    """Without the tray, whose windows are not what is looked for."""
    if "carpace" in seen.desktop.children:
        seen.carpace.told("quit")
        seen.carpace.gone()


def shown(seen, name, words, environment=None):
    """What a command shows in a window of its own, once it is there."""
    seen.desktop.spawn(name, [seen.program, *words], environment=environment)
    wait(f"the window of {name}", lambda: seen.faces.program() and any(True for _ in seen.faces.widgets()), 60)
    seen.settle()


def planner(seen):
    alone(seen)
    plan = seen.desktop.home / "team.plan.yaml"
    seen.carpace.told("plan", "new", plan, "two-halves")
    shown(seen, "planner", ("planner", plan))
    for number, tab in enumerate([text for role, text, _widget in seen.faces.widgets() if role == "page tab"]):
        seen.press(tab, "page tab")
        seen.seen(f"planner-{number}")
    seen.desktop.stop("planner")


class Somebody:
    """With a home of their own."""

    def __init__(self, seen, name, role):
        self.seen, self.home = seen, seen.desktop.home / name
        self.home.mkdir()
        self.environment = {"HOME": str(self.home), **{f"XDG_{kind}_HOME": str(self.home / kind.lower()) for kind in ("DATA", "STATE", "CONFIG")}}
        self.phrase = seen.desktop.write("phrase", PHRASE)
        self.told("key", "new", name, "--role", role, "--phrase-file", self.phrase)
        self.told("key", "card", self.home / "card")

    def told(self, *words):
        return subprocess.run([self.seen.program, *map(str, words)], env={**self.seen.desktop.environment, **self.environment}, check=True,
                              input="", capture_output=True, text=True).stdout


def keep_phrase(seen, name, button, field):
    seen.press("Keep the pass phrase in the desktop's keyring", "check box")
    seen.fill(field, PHRASE.strip())
    seen.seen(f"{name}-keeps")
    seen.press(button, "push button")
    wait("that it is kept", lambda: seen.find("Take it out of the keyring", "push button"), 90)  # a key is opened twice, slow on purpose
    seen.seen(f"{name}-kept")
    seen.press("Take it out of the keyring", "push button")
    seen.seen(f"{name}-taken-out")


def team(seen):
    alone(seen)
    folder = seen.desktop.home / "shared"
    folder.mkdir()
    player, clinician = Somebody(seen, "K7", "player"), Somebody(seen, "Clinician", "clinician")
    shown(seen, "share-with-none", ("share", "window"), player.environment)
    seen.seen("share-with-none")
    seen.desktop.stop("share-with-none")
    player.told("key", "accept", clinician.home / "card", "--words", clinician.told("key", "words").strip())
    clinician.told("key", "accept", player.home / "card", "--words", player.told("key", "words").strip())
    player.told("share", "folder", folder)
    player.told("share", "with", "Clinician", "--what", "all", "--yes", "--phrase-file", player.phrase)
    player.told("share", "now")
    seen.desktop.spawn("keyring", [sys.executable, FAKE_KEYRING], stdin=subprocess.PIPE)
    wait("a keyring", lambda: seen.desktop.bus.has_owner("org.freedesktop.secrets"))
    shown(seen, "share", ("share", "window"), player.environment)
    seen.seen("share")
    keep_phrase(seen, "share", "Share", "Pass phrase of your key, for each change")
    seen.desktop.stop("share")
    shown(seen, "roster", ("roster", "--phrase-file", clinician.phrase, folder), clinician.environment)
    seen.desktop.windows.key("Down")
    seen.seen("roster")
    seen.press("Note…", "push button")
    seen.seen("roster-note")
    seen.fill("Words, one line", "Bring the tape on Friday")
    keep_phrase(seen, "roster-note", "Leave the note in the folder", "Pass phrase of your key")
    seen.desktop.stop("roster")


FACES = {"first": first, "today": today, "settings": settings, "diary": diary, "planner": planner, "team": team}


def words_of(language, folder):
    """What the program says in @language, by what it says in English; keys that are underlined are left out."""
    if language is None:
        return {}
    if language == LANGUAGE:
        make(folder)
    else:
        place = pathlib.Path(folder) / language / "LC_MESSAGES"
        place.mkdir(parents=True, exist_ok=True)
        subprocess.run(["msgfmt", "-o", place / "carpace.mo", POT.parent / f"{language}.po"], check=True)
    catalogue = gettext.translation("carpace", folder, [language])._catalog
    return {text.replace("_", ""): said.replace("_", "") for text, said in catalogue.items() if isinstance(text, str)}


def main(build, folder, *looks):
    only = [look[5:].split(",") for look in looks if look.startswith("only=")]
    looks = [look for look in looks if "=" not in look]
    build, words = pathlib.Path(build).resolve(), f"{os.path.abspath(folder)}-words"
    environment = {name: value for look in looks for name, value in LOOKS[look].items()}
    translated = words_of(environment.get("LANGUAGE"), words)
    environment.update(PO_FOLDER=words, LD_PRELOAD=str(build / "tests" / "desktop" / "libother-words.so"))
    size = "2560x1600" if "double" in looks else "1280x720"
    with Desktop("xfwm4", folder, size=size, tray_host=False, environment=environment) as desktop:
        seen = Seen(desktop, build / "src" / "carpace", translated)
        if only and "first" not in only[0]:
            seen.carpace.told("plan", "use", "two-halves")
            seen.carpace.start()
        for name, face in FACES.items():
            if not only or name in only[0]:
                try:
                    face(seen)
                except Failed as failed:
                    print(f"{name}: {failed}, see {desktop.picture(name + '-where-it-failed')}", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
