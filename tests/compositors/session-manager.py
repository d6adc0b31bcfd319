# SPDX-License-Identifier: GPL-3.0-or-later
"""A session manager that says idleness is inhibited, as GNOME's does while a game holds the screen awake."""
import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

IDLE = 8
NODE = Gio.DBusNodeInfo.new_for_xml("""<node><interface name="org.gnome.SessionManager">
<property name="InhibitedActions" type="u" access="read"/></interface></node>""")


def owned(bus, _name):
    print("ready", flush=True)


def on_bus(bus, _name):
    bus.register_object("/org/gnome/SessionManager", NODE.interfaces[0], None,
                        lambda *_: GLib.Variant("u", IDLE), None)


Gio.bus_own_name(Gio.BusType.SESSION, "org.gnome.SessionManager", Gio.BusNameOwnerFlags.NONE, on_bus, owned, None)
GLib.MainLoop().run()
