# SPDX-License-Identifier: GPL-3.0-or-later
"""A notification server that shows text and takes no answers: it does not say "actions" (Desktop Notifications
Specification 1.2, GetCapabilities). It draws nothing."""
import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

NAME, PATH = "org.freedesktop.Notifications", "/org/freedesktop/Notifications"
INTERFACE = """<node><interface name='org.freedesktop.Notifications'>
<method name='GetCapabilities'><arg type='as' direction='out'/></method>
<method name='GetServerInformation'><arg type='s' direction='out'/><arg type='s' direction='out'/>
<arg type='s' direction='out'/><arg type='s' direction='out'/></method>
<method name='Notify'><arg type='s' direction='in'/><arg type='u' direction='in'/><arg type='s' direction='in'/>
<arg type='s' direction='in'/><arg type='s' direction='in'/><arg type='as' direction='in'/>
<arg type='a{sv}' direction='in'/><arg type='i' direction='in'/><arg type='u' direction='out'/></method>
<method name='CloseNotification'><arg type='u' direction='in'/></method>
<signal name='NotificationClosed'><arg type='u'/><arg type='u'/></signal></interface></node>"""


class Server:
    last = 0

    def called(self, bus, _sender, path, interface, method, arguments, call):
        answer = None
        if method == "GetCapabilities":
            answer = GLib.Variant("(as)", (["body"],))
        elif method == "GetServerInformation":
            answer = GLib.Variant("(ssss)", ("mute", "test", "1", "1.2"))
        elif method == "Notify":
            replaces = arguments.unpack()[1]
            self.last = replaces or self.last + 1
            answer = GLib.Variant("(u)", (replaces or self.last,))
        else:
            identity = arguments.unpack()[0]
            bus.emit_signal(None, path, interface, "NotificationClosed", GLib.Variant("(uu)", (identity, 3)))
        call.return_value(answer)

    def owned(self, bus, _name):
        bus.register_object(PATH, Gio.DBusNodeInfo.new_for_xml(INTERFACE).interfaces[0], self.called, None, None)


Gio.bus_own_name(Gio.BusType.SESSION, NAME, Gio.BusNameOwnerFlags.NONE, Server().owned, None, None)
GLib.MainLoop().run()
