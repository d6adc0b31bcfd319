# SPDX-License-Identifier: GPL-3.0-or-later
"""A watcher of tray items that takes them all, and says that a host is there, which is not: nobody asks an item for its icon."""
import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

NAME, PATH = "org.kde.StatusNotifierWatcher", "/StatusNotifierWatcher"
INTERFACE = """<node><interface name='org.kde.StatusNotifierWatcher'>
<method name='RegisterStatusNotifierItem'><arg type='s' direction='in'/></method>
<property name='IsStatusNotifierHostRegistered' type='b' access='read'/>
<property name='RegisteredStatusNotifierItems' type='as' access='read'/></interface></node>"""


class Watcher:
    items = []

    def called(self, _bus, sender, _path, _interface, _method, arguments, call):
        self.items = [*self.items, sender + arguments.unpack()[0]]
        call.return_value(None)

    def told(self, _bus, _sender, _path, _interface, name):
        return GLib.Variant("as", self.items) if name.startswith("Registered") else GLib.Variant("b", True)

    def owned(self, bus, _name):
        bus.register_object(PATH, Gio.DBusNodeInfo.new_for_xml(INTERFACE).interfaces[0], self.called, self.told, None)


Gio.bus_own_name(Gio.BusType.SESSION, NAME, Gio.BusNameOwnerFlags.NONE, Watcher().owned, None, None)
GLib.MainLoop().run()
