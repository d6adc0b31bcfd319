# SPDX-License-Identifier: GPL-3.0-or-later
"""Windows as assistive technology knows them: widgets by role and name, with their place on the screen."""
import time

import gi
gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402

STAYS_S = 0.8


class Faces:
    """To be made after the desktop: it joins the session bus of the environment."""

    def __init__(self, scale=1):
        self.scale = scale  # GTK tells places before it scales them
        self.places = {}
        Atspi.init()

    def walk(self, node, depth=0):
        try:
            count = node.get_child_count()
        except GLib.Error:
            return
        for index in range(count):
            try:
                child = node.get_child_at_index(index)
            except GLib.Error:
                continue
            if child is not None:
                yield child
                if depth < 24:
                    yield from self.walk(child, depth + 1)

    def program(self, word="carpace"):
        for child in self.walk(Atspi.get_desktop(0), depth=24):
            try:
                if word in (child.get_name() or "").lower():
                    return child
            except GLib.Error:
                continue
        return None

    def widgets(self, word="carpace"):
        """(role, name, widget) of what shows on screen."""
        program = self.program(word)
        if program is None:
            return []
        found = []
        for widget in self.walk(program):
            try:
                if widget.get_state_set().contains(Atspi.StateType.SHOWING):
                    found.append((widget.get_role_name(), widget.get_name() or "", widget))
            except GLib.Error:
                continue
        return found

    def find(self, name, role=None, word="carpace"):
        """The widget on screen whose name is @name, else the first that holds it; or None."""
        fitting = [(other, widget) for kind, other, widget in self.widgets(word)
                   if name in other and (role is None or role == kind)]
        exact = [widget for other, widget in fitting if other == name]
        return exact[0] if exact else fitting[0][1] if fitting else None

    def names(self, word="carpace"):
        return [f"{role}: {name}" for role, name, _widget in self.widgets(word) if name]

    def middle(self, widget):
        box = widget.get_extents(Atspi.CoordType.SCREEN)
        return (box.x + box.width // 2) * self.scale, (box.y + box.height // 2) * self.scale

    def settled(self, name, role=None, word="carpace"):
        """Where to click on a widget, once it has stayed there: a window that has just come may be moved yet, and a card
        takes no click for half a second (card-window.c, DEAF_US)."""
        widget = self.find(name, role, word)
        place = self.middle(widget) if widget else None
        before, since = self.places.get(name, (None, 0))
        if place is None or place != before or min(place) < 0:
            self.places[name] = (place, time.monotonic())
            return None
        if time.monotonic() - since < STAYS_S:
            return None
        del self.places[name]
        return place
