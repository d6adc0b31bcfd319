# SPDX-License-Identifier: GPL-3.0-or-later
"""A sound player's part of the session bus: it asks each service there is for such a thing to hold the screen awake while it
plays, and holds on to its connection. A line of JSON says what became of each wish: "held", or the error's name.

usage: sound-player.py [NAME...]   (who is waited for first, on the bus)"""
import json
import sys
import time

import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

LIMIT_MS = 120000
SUSPEND, IDLE = 4, 8
WHO, WHY = "sound player", "a song is played"
# Each of them by its name, with its path and what it is told.
WISHES = {
    "org.freedesktop.ScreenSaver": ("/org/freedesktop/ScreenSaver", GLib.Variant("(ss)", (WHO, WHY))),
    "org.gnome.SessionManager": ("/org/gnome/SessionManager", GLib.Variant("(susu)", (WHO, 0, WHY, SUSPEND | IDLE))),
    "org.freedesktop.PowerManagement": ("/org/freedesktop/PowerManagement/Inhibit", GLib.Variant("(ss)", (WHO, WHY))),
    "org.freedesktop.portal.Desktop": ("/org/freedesktop/portal/desktop",
                                       GLib.Variant("(sua{sv})", ("", SUSPEND | IDLE, {"reason": GLib.Variant("s", WHY)}))),
}
INTERFACES = {"org.freedesktop.PowerManagement": "org.freedesktop.PowerManagement.Inhibit",
              "org.freedesktop.portal.Desktop": "org.freedesktop.portal.Inhibit"}

bus = Gio.bus_get_sync(Gio.BusType.SESSION)


def call(name, path, interface, method, arguments):
    return bus.call_sync(name, path, interface, method, arguments, None, Gio.DBusCallFlags.NO_AUTO_START, LIMIT_MS, None)


def is_there(name):
    return call("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "NameHasOwner",
                GLib.Variant("(s)", (name,))).unpack()[0]


end = time.monotonic() + LIMIT_MS / 1000
while not all(is_there(name) for name in sys.argv[1:]) and time.monotonic() < end:
    time.sleep(0.1)
told = {}
for name, (path, arguments) in WISHES.items():
    try:
        call(name, path, INTERFACES.get(name, name), "Inhibit", arguments)
        told[name] = "held"
    except GLib.Error as error:
        told[name] = (Gio.DBusError.get_remote_error(error) or str(error)).rpartition(".")[2]
print(json.dumps(told), flush=True)
GLib.MainLoop().run()
