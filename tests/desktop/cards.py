# SPDX-License-Identifier: GPL-3.0-or-later
"""Every card in every state over a full-screen client, on a real desktop: where it stands, how large it is, whether
it can be read, hit and told by name, and that play keeps the focus. Each leaves its picture.

usage: cards.py SHOW-FACES FOLDER WINDOW-MANAGER LOOK...   (a look: dark, double, large-text, german, longer, high-contrast,
mirrored)
"""
import collections
import pathlib
import subprocess
import sys

from PIL import Image

from card_places import CARDS, SIXTH, THIRD, faults_of_place
from desktop import HERE, Desktop, Failed, wait
from faces import Faces
from longer import LANGUAGE, longer, make

TARGET = 44
READABLE = 4.5  # WCAG 2.1, 1.4.3
STILL = 4        # looks that see the same

LOOKS = {"dark": {"GTK_THEME": "Adwaita:dark"}, "double": {"GDK_SCALE": "2"}, "large-text": {"GDK_DPI_SCALE": "1.5"},
         "german": {"LANGUAGE": "de"}, "longer": {"LANGUAGE": LANGUAGE}, "high-contrast": {"GTK_THEME": "HighContrast"},
         "mirrored": {"MIRRORED": "1"}}

# What the player opens has the focus: it was asked for.
OPENED = [("rating-given", SIXTH), ("rest-offered", SIXTH), ("rest-running", THIRD)]


def luminance(colour):
    """Relative luminance of an sRGB colour (WCAG 2.1)."""
    parts = [part / 255 for part in colour[:3]]
    linear = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def drawn(pixels):
    """More than a frame and its ground."""
    return len(set(zip(*[iter(pixels)] * 4))) > 2


def contrast(picture, box):
    """Of the most frequent colour in a box with the one furthest from it: of ground and ink."""
    counted = collections.Counter(picture.crop(box).getdata())
    ground = luminance(counted.most_common(1)[0][0])
    return max((max(ground, ink) + 0.05) / (min(ground, ink) + 0.05) for ink in map(luminance, counted))


class Cards:
    def __init__(self, desktop, show_faces, looks):
        self.desktop, self.show_faces = desktop, show_faces
        self.scale = 2 if "double" in looks else 1
        self.mirrored = "mirrored" in looks
        self.faces = Faces(self.scale)
        self.width, self.height = (int(side) // self.scale for side in desktop.size.split("x"))
        self.corner, self.environment = "lower-end", {}
        self.faults = []
        self.said = set()

    def start_game(self):
        self.game = self.desktop.spawn("game", ["/usr/bin/python3", HERE / "grabbing_client.py"], stdin=subprocess.PIPE)
        wait("a client that grabs the pointer", lambda: "ready" in self.game_log())

    def game_log(self):
        return (self.desktop.folder / "game.log").read_text()

    def windows(self):
        found = [window for window in self.desktop.windows.of_class("show-faces")]
        places = [self.desktop.windows.place(window) for window in found]
        return [tuple(part // self.scale for part in place) for place in places if place[2] > 50 * self.scale]

    def settled(self):
        """The one window there is, once it is drawn and has stood still for a moment."""
        before, times = None, 0

        def still():
            nonlocal before, times
            now = self.windows()
            pixels = [self.desktop.windows.pixels(*(part * self.scale for part in place)) for place in now]
            same = (now, pixels) == before
            times = times + 1 if same and (times > 0 or all(map(drawn, pixels))) else 0
            before = now, pixels
            return times >= STILL and len(now) == 1 and now
        return wait("one card that stands still", still, 20)[0]

    def fault(self, moment, what):
        self.faults.append(f"{moment}: {what}")

    def named(self, moment, is_bar):
        """Each button has a name, and is large enough to be hit."""
        widgets = self.faces.widgets("show-faces")
        buttons = [(name, widget.get_extents(0)) for role, name, widget in widgets if role in ("push button", "toggle button")]
        for name, box in buttons:
            if not name:
                self.fault(moment, "a button without a name")
            if min(box.width, box.height) < TARGET:
                self.fault(moment, f"{name!r} is {box.width} x {box.height}")
        if not buttons and not is_bar:
            self.fault(moment, "assistive technology finds no button")

    def readable(self, moment, picture):
        for role, name, widget in self.faces.widgets("show-faces"):
            if role != "label" or not name.strip():
                continue
            self.said.add(name)
            box = widget.get_extents(0)
            if box.width < 4 or box.height < 4:
                continue
            ratio = contrast(picture, tuple(side * self.scale for side in (box.x, box.y, box.x + box.width, box.y + box.height)))
            if ratio < READABLE:
                self.fault(moment, f"{name!r} at {ratio:.1f} : 1")

    def show(self, moment, share):
        self.desktop.spawn("faces", [self.show_faces, *moment.split()], environment={"CARDS_ONLY": "1", **self.environment})
        try:
            place = self.settled()
            picture = Image.open(self.desktop.picture(moment.replace(" ", "-"))).convert("RGB")
            for fault in faults_of_place(place, share, (self.width, self.height), self.mirrored, self.corner):
                self.fault(moment, fault)
            self.named(moment, share is None)
            self.readable(moment, picture)
        except Failed as failed:
            self.fault(moment, failed)
        finally:
            self.desktop.stop("faces")
        wait("its end", lambda: not self.windows())


def main(show_faces, folder, window_manager, *looks):
    environment = {name: value for look in looks for name, value in LOOKS[look].items()}
    if "longer" in looks:
        environment["PO_FOLDER"] = str(pathlib.Path(folder).resolve() / "po")
    size = "2560x1600" if "double" in looks else "1280x720"
    with Desktop(window_manager, folder, size=size, tray_host=False, notifications=False, environment=environment) as desktop:
        cards = Cards(desktop, show_faces, looks)
        if "longer" in looks:
            make(environment["PO_FOLDER"])
        cards.start_game()
        for moment, share in CARDS:
            cards.show(moment, share)
        lost = [line for line in cards.game_log().splitlines() if '"focus-out"' in line and '"mode": 0' in line]
        if lost:
            cards.faults.append(f"the game lost the focus {len(lost)} times")
        for moment, share in OPENED:
            cards.show(moment, share)
        if "longer" in looks and longer("How does your hand feel?") not in cards.said:
            cards.faults.append("the words were not the longer ones")
        if cards.faults:
            raise Failed("\n".join(["", *cards.faults]))


if __name__ == "__main__":
    main(*sys.argv[1:])
