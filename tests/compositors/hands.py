# SPDX-License-Identifier: GPL-3.0-or-later
"""A hand on a pointer, each by what its desktop has for that. It says how long it moved."""
import operator
import subprocess
import threading
import time

from session import PATIENCE_S, wait

LEFT_SHIFT = 42  # the kernel's KEY_LEFTSHIFT


class Hand:
    """By a protocol of the compositor's."""

    def __init__(self, session, program):
        self.child = session.spawn("hand", [program] + (["--awake"] if session.held else []), stdin=subprocess.PIPE,
                                   stdout=subprocess.PIPE)
        self.session = session
        session.ready("hand", self.child)

    def say(self, word):
        self.child.stdin.write(word.encode() + b"\n")
        self.child.stdin.flush()

    def begin(self):
        self.say("move")

    def end(self):
        """@return how long it moved, and paused in between at most, in ms"""
        self.say("still")
        _, moved, _, paused = self.session.line_of("hand", self.child).split()
        return int(moved), int(paused)

    def click(self, x, y):
        self.say(f"click {x} {y}")

    def settle(self):
        """sway and KWin take input at once, however busy the machine."""


class SteppingHand:
    """Moves the pointer by a step to the right and back, in a thread; each is taken before the next."""
    EVERY_S, AT_ONCE_S, IN_A_ROW = 0.02, 0.5, 20

    def settle(self):
        """Until the desktop takes each step at once, many in a row: some of it is made ready as it is first wanted."""
        taken = 0

        def at_once():
            nonlocal taken
            begun = time.monotonic()
            self.step(1 if taken % 2 else -1)
            taken = taken + 1 if time.monotonic() < begun + self.AT_ONCE_S else 0
            return taken >= self.IN_A_ROW
        wait("a desktop that takes input at once", at_once, every_s=self.EVERY_S)

    def begin(self):
        self.moving = threading.Event()
        self.moving.set()
        self.thread = threading.Thread(target=self.move, daemon=True)
        self.thread.start()

    def move(self):
        step, self.steps = 1, []
        while self.moving.is_set():
            step = -step
            self.step(step)
            self.steps.append(time.monotonic() * 1000)
            time.sleep(self.EVERY_S)

    def end(self):
        """@return as Hand does"""
        self.moving.clear()
        self.thread.join()
        return self.steps[-1] - self.steps[0], max(map(operator.sub, self.steps[1:], self.steps))


class MutterHand(SteppingHand):
    """By the bus. Each motion is painted, so there are few."""
    EVERY_S, FAR = 0.1, 10000.0

    def __init__(self):
        import gi
        gi.require_version("Gio", "2.0")
        from gi.repository import Gio, GLib
        self.bus, self.variant = Gio.bus_get_sync(Gio.BusType.SESSION), GLib.Variant
        wait("Mutter on the bus", self.is_there)
        path = self.call("/org/gnome/Mutter/RemoteDesktop", "org.gnome.Mutter.RemoteDesktop", "CreateSession").unpack()[0]
        self.path = path
        self.call(path, "org.gnome.Mutter.RemoteDesktop.Session", "Start")
        self.move_by(self.FAR, self.FAR)  # into a corner, where no window is

    def is_there(self):
        return self.bus.call_sync("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "NameHasOwner",
                                  self.variant("(s)", ("org.gnome.Mutter.RemoteDesktop",)), None, 0, PATIENCE_S * 1000, None).unpack()[0]

    def press_a_key(self):
        """And with it there is a keyboard."""
        for down in (True, False):
            self.call(self.path, "org.gnome.Mutter.RemoteDesktop.Session", "NotifyKeyboardKeycode",
                      self.variant("(ub)", (LEFT_SHIFT, down)))

    def call(self, path, interface, method, arguments=None):
        return self.bus.call_sync("org.gnome.Mutter.RemoteDesktop", path, interface, method, arguments, None, 0, PATIENCE_S * 1000,
                                  None)

    def move_by(self, right, down):
        self.call(self.path, "org.gnome.Mutter.RemoteDesktop.Session", "NotifyPointerMotionRelative",
                  self.variant("(dd)", (right, down)))

    def step(self, by):
        self.move_by(float(by), 0.0)


class XHand(SteppingHand):
    """By X's own extension for tests."""

    def __init__(self, session):
        from Xlib import display
        self.display = display.Display(session.environment["DISPLAY"])

    def step(self, by):
        from Xlib import X
        from Xlib.ext import xtest
        xtest.fake_input(self.display, X.MotionNotify, detail=1, x=by, y=0)  # 1: from where it is
        self.display.sync()


def hand_of(session, program):
    """program: of the hand where it is a compositor's protocol that moves it"""
    if session.compositor == "mutter":
        return MutterHand()
    return XHand(session) if session.compositor == "x11" else Hand(session, program)
