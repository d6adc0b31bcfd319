# SPDX-License-Identifier: GPL-3.0-or-later
"""What of GNOME's session manager holds the screen awake, where that is not installed: programs inhibit idleness until they
say otherwise or leave the bus, and which actions are inhibited is told as a property (gnome-session 43 does the same)."""
import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

NAME, PATH = "org.gnome.SessionManager", "/org/gnome/SessionManager"
NODE = Gio.DBusNodeInfo.new_for_xml("""<node><interface name="org.gnome.SessionManager">
<method name="Inhibit"><arg type="s" direction="in"/><arg type="u" direction="in"/><arg type="s" direction="in"/>
<arg type="u" direction="in"/><arg type="u" direction="out"/></method>
<method name="Uninhibit"><arg type="u" direction="in"/></method>
<property name="InhibitedActions" type="u" access="read"/></interface></node>""")

held = {}  # the actions, by who and cookie
cookies = 0


def actions():
    all_of_them = 0
    for some in held.values():
        all_of_them |= some
    return GLib.Variant("u", all_of_them)


def tell():
    bus.emit_signal(None, PATH, "org.freedesktop.DBus.Properties", "PropertiesChanged",
                    GLib.Variant("(sa{sv}as)", (NAME, {"InhibitedActions": actions()}, [])))


def called(_bus, sender, _path, _interface, method, arguments, invocation):
    global cookies
    if method == "Inhibit":
        cookies += 1
        held[sender, cookies] = arguments.unpack()[3]
        invocation.return_value(GLib.Variant("(u)", (cookies,)))
    else:
        held.pop((sender, arguments.unpack()[0]), None)
        invocation.return_value(None)
    tell()


def left(_bus, _sender, _path, _interface, _signal, arguments):
    name, _, owner = arguments.unpack()
    for each in [each for each in held if each[0] == name and not owner]:
        del held[each]
        tell()


bus = Gio.bus_get_sync(Gio.BusType.SESSION)
bus.register_object(PATH, NODE.interfaces[0], called, lambda *_: actions(), None)
bus.signal_subscribe("org.freedesktop.DBus", "org.freedesktop.DBus", "NameOwnerChanged", None, None, Gio.DBusSignalFlags.NONE, left)
Gio.bus_own_name_on_connection(bus, NAME, Gio.BusNameOwnerFlags.NONE, None, None)
GLib.MainLoop().run()
