# SPDX-License-Identifier: GPL-3.0-or-later
"""The tray in other panels than the desktop's own: its item is seen, changes with the state, opens its menu, and where
the panel goes the window of today takes its place. Skipped where the panel is not installed.

usage: panels.py PANEL CARPACE FOLDER
"""
import os
import shutil
import signal
import sys
import time

from desktop import GTK_ITSELF, Desktop, Failed, no_complaints, wait
from faces import Faces
from product import prepared

SKIPPED = 77
LEFT, RIGHT = 1, 3
LXPANEL = """Global {
edge=top
align=left
widthtype=percent
width=100
height=28
setdocktype=1
}
Plugin {
type=tray
}
"""
# MATE's settings daemon says so to its programs: without it the panel shows an item's label only.
BUTTON_IMAGES = "[Settings]\ngtk-button-images=1\n"


class Panel:
    """One that takes items of the older kind, each of which is a window of the program's own."""
    settings = {}
    button, menu_of = LEFT, "carpace"

    def __init__(self, desktop, argv):
        self.desktop, self.argv = desktop, argv

    def start(self):
        for below, text in self.settings.items():
            self.desktop.write(below, text)
        self.desktop.spawn("tray-host", self.argv)
        self.desktop.started("tray-host", "a panel", self.is_there)

    def is_there(self):
        return self.desktop.windows.has_old_tray()

    def item(self):
        """Its place on the screen, or None."""
        places = [self.desktop.windows.place(window) for window in self.desktop.windows.of_class("carpace")]
        return next((place for place in places if place[1] < 30 and place[3] <= 40), None)

    def pixels(self):
        return self.desktop.windows.pixels(*wait("the item", self.item))


class Lxpanel(Panel):
    settings = {"config/lxpanel/default/panels/panel": LXPANEL}


class MatePanel(Panel):
    """Its applet draws the item and its label, and shows the menu; a left click asks for what the library has not."""
    settings = {"config/gtk-3.0/settings.ini": BUTTON_IMAGES}
    button, menu_of = RIGHT, "notification-area"

    def is_there(self):
        return self.desktop.bus.has_tray_host()

    def item(self):
        places = [self.desktop.windows.place(window) for window in self.desktop.windows.of_class("notification-area")]
        return next((place for place in places if place[2] >= 20), None)


PANELS = {
    "trayer": (Panel, ["trayer", "--edge", "top", "--align", "left", "--widthtype", "request", "--height", "28"]),
    "lxpanel": (Lxpanel, ["lxpanel"]),
    "mate-panel": (MatePanel, ["mate-panel"]),
}


def states_are_told_apart(panel, carpace):
    """Each state has an icon, the same one whenever it comes."""
    seen = {}
    for words, state in (("start", "practising"), ("pause", "paused"), ("continue", "practising"), ("pause", "paused")):
        before = panel.pixels()
        carpace.told(words)
        carpace.until_state(state)
        wait(f"another icon, {state}", lambda: panel.pixels() != before and panel.pixels() == seen.get(state, panel.pixels()))
        panel.desktop.picture(state)
        seen[state] = panel.pixels()
    carpace.told("continue")


def menu_opens(panel, carpace, faces):
    x, y, width, height = wait("the item", panel.item)
    panel.desktop.windows.click(x + width // 2, y + height // 2, panel.button)
    row = wait("the menu's row", lambda: faces.settled("Pause", "menu item", panel.menu_of))
    panel.desktop.picture("menu")
    panel.desktop.windows.click(*row)
    carpace.until_state("paused")


def of_today(faces):
    return faces.find("End block 1", "push button")


def window_takes_its_place(panel, faces):
    if of_today(faces):
        raise Failed("the window of today is there beside the tray")
    panel.desktop.stop("tray-host", signal.SIGKILL)
    wait("the window of today", lambda: of_today(faces))
    panel.desktop.picture("no-panel")
    panel.start()
    wait("the item again", panel.item)
    wait("the window's end", lambda: not of_today(faces))
    panel.desktop.picture("panel-returned")


def started_anew(panel, faces, carpace):
    """Killed at once and while it docks; and while the program answers late, so that its item is registered at each moment of the
    panel's start. mate-panel misses it at some: then it is offered as an older tray's, too."""
    for after_ms, late_ms in ((0, 0), (150, 0), (300, 0), (450, 0), (None, 200), (None, 350), (None, 500)):
        panel.desktop.stop("tray-host", signal.SIGKILL)
        if after_ms is not None:
            panel.desktop.spawn("tray-host", panel.argv)
            time.sleep(after_ms / 1000)  # what is there by then is what the rows are about
            panel.desktop.stop("tray-host", signal.SIGKILL)
        if late_ms:
            os.kill(carpace.pid, signal.SIGSTOP)
        panel.desktop.spawn("tray-host", panel.argv)
        time.sleep(late_ms / 1000)
        os.kill(carpace.pid, signal.SIGCONT)
        wait("the item once more", panel.item)
        wait("the window's end once more", lambda: not of_today(faces))
    panel.desktop.picture("panel-started-anew")


def main(name, program, folder):
    make, argv = PANELS[name]
    if not shutil.which(argv[0]):
        print(f"{argv[0]} is not installed")
        sys.exit(SKIPPED)
    with Desktop("xfwm4", folder, tray_host=False) as desktop:
        panel = make(desktop, argv)
        panel.start()
        carpace, faces = prepared(desktop, program), Faces()
        wait("the item", panel.item)
        states_are_told_apart(panel, carpace)
        menu_opens(panel, carpace, faces)
        window_takes_its_place(panel, faces)
        started_anew(panel, faces, carpace)
        no_complaints(desktop.folder, ("CRITICAL", "Sanitizer"), [GTK_ITSELF])


main(*sys.argv[1:])
