# SPDX-License-Identifier: GPL-3.0-or-later
"""The window of today, where there is no tray: a plan chosen, a block begun, a menu used, by the mouse alone or by
keys alone. It would catch a menu too small to choose from, and a control without a name.

usage: today.py mouse|keys CARPACE FOLDER
"""
import json
import sys

from desktop import Desktop, no_complaints, wait
from faces import Faces
from product import Carpace

CONTROLS = ("push button", "toggle button", "check box", "menu item", "radio menu item", "check menu item", "menu")
LEAST_PX = 44
PLAN = "Four quarters: Four blocks of 15 minutes, the most careful way"


class Person:
    """One who can do one thing only."""

    def __init__(self, desktop, way):
        self.desktop, self.way, self.faces = desktop, way, Faces()

    def see(self, name, *roles):
        roles = roles or ("push button",)
        return wait(f"{name!r}", lambda: next(filter(None, (self.faces.find(name, role) for role in roles)), None))

    def focused(self):
        """Names of what has the focus or is chosen."""
        return [name for _role, name, widget in self.faces.widgets()
                if {"focused", "selected"} & {state.value_nick for state in widget.get_state_set().get_states()}]

    def press(self, name, *roles):
        widget = self.see(name, *roles)
        if self.way == "mouse":
            self.desktop.windows.click(*self.faces.middle(widget))
        else:
            wait(f"the focus on {name!r}", lambda: self.step_to(name, "Tab"))
            self.desktop.windows.key("space")

    def choose(self, name):
        """A row of a menu that is open."""
        widget = self.see(name, "menu item", "radio menu item", "check menu item", "menu")
        if self.way == "mouse":
            self.desktop.windows.click(*self.faces.middle(widget))
        else:
            wait(f"the row {name!r}", lambda: self.step_to(name, "Down"))
            self.desktop.windows.key("Return")

    def step_to(self, name, key):
        if any(name in other for other in self.focused()):
            return True
        self.desktop.windows.key(key)
        return False

    def open_menu(self):
        if self.way == "mouse":
            self.press("Menu")
        else:
            self.desktop.windows.key("F10")
        self.see("Quit", "menu item")

    def open_plans(self):
        if self.way == "mouse":
            self.choose("Block plan")
        else:
            wait("the row of plans", lambda: self.step_to("Block plan", "Down"))
            self.desktop.windows.key("Right")
        self.see(PLAN, "radio menu item")


def controls_have_names_and_room(faces):
    found = wait("controls", lambda: [(role, name, widget.get_extents(0)) for role, name, widget in faces.widgets() if role in CONTROLS])
    for role, name, box in found:
        assert name or role == "menu", f"a {role} without a name"
        assert role == "menu" or (box.height >= LEAST_PX and box.width >= LEAST_PX), (role, name, box.width, box.height)


def pictured(person, name):
    controls_have_names_and_room(person.faces)
    person.desktop.picture(name)


def in_use(carpace, name):
    plans = map(json.loads, carpace.told("plan", "list", "--format", "json").splitlines())
    return [plan for plan in plans if plan["in_use"] and plan["name"] == name]


def day(desktop, program, way):
    carpace, person = Carpace(desktop, program), Person(desktop, way)
    carpace.told("plan", "use", "two-halves")
    carpace.start()
    carpace.told("caution", "none")
    carpace.told("morning", "0", "usual", "--now", "0")
    person.see("Block 1 can start", "heading", "label")
    wait("the morning's card to go", lambda: not person.faces.find("This morning", "frame"))
    if way == "keys":  # the window shows itself without taking the focus; who calls the program again gets it
        carpace.command()
    pictured(person, "can-start")
    person.open_menu()
    pictured(person, "menu")
    person.open_plans()
    pictured(person, "plans")
    person.choose(PLAN)
    wait("the plan in use", lambda: in_use(carpace, "Four quarters"))
    person.press("Start block 1")
    carpace.until_state("practising")
    person.see("Rest now")
    pictured(person, "practising")
    person.open_menu()
    person.choose("Pause")
    carpace.until_state("paused")
    person.see("Continue")
    pictured(person, "paused")
    person.press("Continue")
    carpace.until_state("practising")
    person.open_menu()
    person.choose("On air")
    carpace.until("the stream", lambda status: status["on_air"])
    wait("no word of the hand", lambda: not person.faces.find("Rest now"))
    pictured(person, "on-air")
    person.open_menu()
    pictured(person, "menu-on-air")
    person.choose("Quit")
    assert carpace.gone() == 0


def main(way, program, folder):
    with Desktop("xfwm4", folder, tray_host=False) as desktop:
        day(desktop, program, way)
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
