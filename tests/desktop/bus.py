# SPDX-License-Identifier: GPL-3.0-or-later
"""The session bus as a test sees it: who is there, the tray's menu, what is said to the notification server."""
import threading
import time

import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

WATCHER = "org.kde.StatusNotifierWatcher"
NOTIFICATIONS = "org.freedesktop.Notifications"
CALL_MS = 30000


class Notice:
    """One notification as it was asked for."""

    def __init__(self, serial, arguments):
        self.serial = serial
        (self.program, self.replaces, self.icon, self.title, self.body, actions, self.hints, self.expires_ms) = arguments
        self.actions = dict(zip(actions[0::2], actions[1::2]))
        self.id = None
        self.closed = False
        self.taken = None  # key of the action that was taken


class Bus:
    def __init__(self, address):
        self.address = address
        self.connection = self.connect()
        self.notices = []
        self.lock = threading.Lock()
        self.listen()

    def connect(self):
        return Gio.DBusConnection.new_for_address_sync(
            self.address, Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT
            | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION, None, None)

    def call(self, name, path, interface, method, arguments=None, patience_ms=CALL_MS):
        answer = self.connection.call_sync(name, path, interface, method, arguments, None,
                                           Gio.DBusCallFlags.NO_AUTO_START, patience_ms, None)
        return answer.unpack()

    def get(self, name, path, interface, property_name):
        return self.call(name, path, "org.freedesktop.DBus.Properties", "Get",
                         GLib.Variant("(ss)", (interface, property_name)))[0]

    def owner(self, name):
        try:
            return self.call("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "GetNameOwner",
                             GLib.Variant("(s)", (name,)))[0]
        except GLib.Error:
            return None

    def has_owner(self, name):
        return self.owner(name) is not None

    def pid_of(self, name):
        return self.call("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus",
                         "GetConnectionUnixProcessID", GLib.Variant("(s)", (name,)))[0]

    # -- the tray

    def has_tray_host(self):
        try:
            return self.get(WATCHER, "/StatusNotifierWatcher", WATCHER, "IsStatusNotifierHostRegistered")
        except GLib.Error:
            return False

    def tray_items(self):
        """(bus name, object path) of each item that is registered."""
        try:
            items = self.get(WATCHER, "/StatusNotifierWatcher", WATCHER, "RegisteredStatusNotifierItems")
        except GLib.Error:
            return []
        return [(item[:item.index("/")], item[item.index("/"):]) for item in items]

    def tray_item(self, word="carpace"):
        """The item whose id holds @word, or None."""
        for name, path in self.tray_items():
            try:
                if word in self.get(name, path, "org.kde.StatusNotifierItem", "Id").lower():
                    return TrayItem(self, name, path)
            except GLib.Error:
                pass
        return None

    # -- what is said to the notification server

    def listen(self):
        self.monitoring = False
        self.monitor = self.connect()
        self.monitor_filter = self.monitor.add_filter(self.heard)
        rules = [f"interface='{NOTIFICATIONS}'", "type='method_return'"]
        self.monitor.call_sync("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus.Monitoring",
                               "BecomeMonitor", GLib.Variant("(asu)", (rules, 0)), None, Gio.DBusCallFlags.NONE,
                               CALL_MS, None)

    def heard(self, _connection, message, incoming, *_user):
        if not incoming:
            return message
        if not self.monitoring:  # the answer to BecomeMonitor; what comes after is other people's
            self.monitoring = message.get_message_type() == Gio.DBusMessageType.METHOD_RETURN
            return message
        body = message.get_body()
        kind, member = message.get_message_type(), message.get_member()
        with self.lock:
            if kind == Gio.DBusMessageType.METHOD_CALL and member == "Notify":
                notice = Notice((message.get_sender(), message.get_serial()), body.unpack())
                self.notices.append(notice)
            elif kind == Gio.DBusMessageType.METHOD_RETURN:
                for notice in self.notices:
                    if notice.serial == (message.get_destination(), message.get_reply_serial()):
                        notice.id = body.unpack()[0]
            elif member in ("CloseNotification", "NotificationClosed", "ActionInvoked"):
                for notice in self.notices:
                    if notice.id == body.unpack()[0] and member == "ActionInvoked":
                        notice.taken = body.unpack()[1]
                    elif notice.id == body.unpack()[0]:
                        notice.closed = True
        return None

    def open_notices(self):
        with self.lock:
            replaced = {notice.replaces for notice in self.notices}
            return [notice for notice in self.notices if notice.id and not notice.closed
                    and not (notice.id in replaced and any(later.replaces == notice.id for later in
                                                           self.notices[self.notices.index(notice) + 1:]))]

    def notify(self, title, body, actions=()):
        """Says something to the notification server, as a program would."""
        return self.call(NOTIFICATIONS, "/org/freedesktop/Notifications", NOTIFICATIONS, "Notify",
                         GLib.Variant("(susssasa{sv}i)", ("test", 0, "", title, body, list(actions), {}, 0)))[0]

    def take_back(self, notice):
        """Closes a notification, as the program that asked for it would."""
        self.call(NOTIFICATIONS, "/org/freedesktop/Notifications", NOTIFICATIONS, "CloseNotification",
                  GLib.Variant("(u)", (notice.id,)))

    def notice(self, words):
        """The latest notification that is open and says @words."""
        for notice in reversed(self.open_notices()):
            if words in notice.title or words in notice.body or words in notice.actions.values():
                return notice
        return None


class TrayItem:
    """One tray item and its menu, without pixels."""

    def __init__(self, bus, name, path):
        self.bus, self.name, self.path = bus, name, path

    def get(self, property_name):
        return self.bus.get(self.name, self.path, "org.kde.StatusNotifierItem", property_name)

    def menu(self, patience_ms=CALL_MS):
        """Rows of (depth, id, properties), from above."""
        menu_path = self.get("Menu")
        _revision, root = self.bus.call(self.name, menu_path, "com.canonical.dbusmenu", "GetLayout",
                                        GLib.Variant("(iias)", (0, -1, [])), patience_ms)

        def rows(node, depth):
            identity, properties, children = node
            if depth >= 0 and properties.get("visible", True):
                yield depth, identity, properties
            for child in children:
                yield from rows(child, depth + 1)
        return list(rows(root, -1))

    def labels(self):
        return [properties.get("label", "").replace("_", "") for _depth, _identity, properties in self.menu()]

    def find(self, words):
        for _depth, identity, properties in self.menu():
            if words in properties.get("label", "").replace("_", ""):
                return identity, properties
        return None

    def click(self, words):
        """Clicks the row that reads @words; ids change when a menu is rebuilt, so it is looked up each time."""
        found = self.find(words)
        if not found:
            raise LookupError(f"no {words!r} in the tray's menu: {self.labels()}")
        identity, properties = found
        if not properties.get("enabled", True):
            raise LookupError(f"{words!r} cannot be chosen now")
        try:
            self.bus.call(self.name, self.get("Menu"), "com.canonical.dbusmenu", "Event",
                          GLib.Variant("(isvu)", (identity, "clicked", GLib.Variant("s", ""), int(time.time()))))
        except GLib.Error as error:
            if not error.matches(Gio.DBusError.quark(), Gio.DBusError.NO_REPLY):
                raise  # a program that quits need not answer
