# SPDX-License-Identifier: GPL-3.0-or-later
"""A system bus's logind that suspends nothing, as org.freedesktop.login1(5) describes it: delay locks, and word of a
suspend and of the wake.

Each line it reads is done: "sleep" tells of a suspend and waits until nobody holds a lock, as logind waits for 5 s; "wake".
It says "locked" for each lock that is taken, "asleep" and "awake". It ends with its input.

usage: logind.py ADDRESS
"""
import os
import select
import sys

import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

NAME, PATH, MANAGER = "org.freedesktop.login1", "/org/freedesktop/login1", "org.freedesktop.login1.Manager"
XML = f"""<node><interface name="{MANAGER}">
<method name="Inhibit"><arg type="s" direction="in"/><arg type="s" direction="in"/><arg type="s" direction="in"/>
<arg type="s" direction="in"/><arg type="h" direction="out"/></method>
<signal name="PrepareForSleep"><arg type="b"/></signal></interface></node>"""
PATIENCE_S = 60

locks = []  # our ends; one shows that its lock is let go by the end of its stream


def say(word):
    print(word, flush=True)


def called(_bus, _sender, _path, _interface, _method, _arguments, invocation):
    ours, theirs = os.pipe()
    files = Gio.UnixFDList.new()
    files.append(theirs)
    os.close(theirs)
    locks.append(ours)
    invocation.return_value_with_unix_fd_list(GLib.Variant("(h)", (0,)), files)
    say("locked")


def let_go():
    """Waits until no lock is held."""
    while locks:
        readable, _, _ = select.select(locks, [], [], PATIENCE_S)
        if not readable:
            sys.exit("a lock was never let go")
        for lock in readable:
            os.close(lock)
            locks.remove(lock)


def read(_source, _condition):
    word = sys.stdin.readline().strip()
    if not word:
        loop.quit()
        return False
    bus.emit_signal(None, PATH, MANAGER, "PrepareForSleep", GLib.Variant("(b)", (word == "sleep",)))
    bus.flush_sync(None)
    if word == "sleep":
        let_go()
    say("asleep" if word == "sleep" else "awake")
    return True


bus = Gio.DBusConnection.new_for_address_sync(sys.argv[1], Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT
                                              | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION, None, None)
bus.register_object(PATH, Gio.DBusNodeInfo.new_for_xml(XML).interfaces[0], called, None, None)
bus.call_sync("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "RequestName",
              GLib.Variant("(su)", (NAME, 4)), None, 0, -1, None)
GLib.io_add_watch(sys.stdin.fileno(), GLib.IO_IN | GLib.IO_HUP, read)
loop = GLib.MainLoop()
loop.run()
