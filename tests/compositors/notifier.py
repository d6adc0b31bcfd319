# SPDX-License-Identifier: GPL-3.0-or-later
"""A notification server that shows nothing: a line of JSON for each notice, and an answer for each line it reads,
"ID ACTION". It says "ready" once it is on the session bus, and ends with its input."""
import json
import sys

import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

NAME, PATH = "org.freedesktop.Notifications", "/org/freedesktop/Notifications"
XML = """<node><interface name="org.freedesktop.Notifications">
<method name="Notify"><arg type="s" direction="in"/><arg type="u" direction="in"/><arg type="s" direction="in"/>
<arg type="s" direction="in"/><arg type="s" direction="in"/><arg type="as" direction="in"/><arg type="a{sv}" direction="in"/>
<arg type="i" direction="in"/><arg type="u" direction="out"/></method>
<method name="CloseNotification"><arg type="u" direction="in"/></method>
<method name="GetCapabilities"><arg type="as" direction="out"/></method>
<method name="GetServerInformation"><arg type="s" direction="out"/><arg type="s" direction="out"/><arg type="s" direction="out"/>
<arg type="s" direction="out"/></method>
<signal name="ActionInvoked"><arg type="u"/><arg type="s"/></signal></interface></node>"""

last = 0


def called(bus, sender, path, interface, method, arguments, invocation):
    global last
    answers = {"GetCapabilities": ("(as)", (["actions", "body"],)), "CloseNotification": None,
               "GetServerInformation": ("(ssss)", ("notifier", "a test", "1", "1.2"))}
    if method == "Notify":
        _, replaces, _, title, body, actions, _, _ = arguments.unpack()
        if not replaces:
            last += 1
        shown = replaces or last
        print(json.dumps({"id": shown, "title": title, "body": body, "actions": actions[::2]}), flush=True)
        answers["Notify"] = ("(u)", (shown,))
    answer = answers[method]
    invocation.return_value(GLib.Variant(*answer) if answer else None)


def read(source, condition):
    line = sys.stdin.readline()
    if not line:
        loop.quit()
        return False
    shown, action = line.split()
    bus.emit_signal(None, PATH, NAME, "ActionInvoked", GLib.Variant("(us)", (int(shown), action)))
    return True


bus = Gio.bus_get_sync(Gio.BusType.SESSION)
bus.register_object(PATH, Gio.DBusNodeInfo.new_for_xml(XML).interfaces[0], called, None, None)
bus.call_sync("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "RequestName",
              GLib.Variant("(su)", (NAME, 4)), None, 0, -1, None)
print("ready", flush=True)
GLib.io_add_watch(sys.stdin.fileno(), GLib.IO_IN | GLib.IO_HUP, read)
loop = GLib.MainLoop()
loop.run()
