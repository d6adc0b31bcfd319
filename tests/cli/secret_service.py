# SPDX-License-Identifier: GPL-3.0-or-later
"""A keyring on the session bus, as the Secret Service specification describes it: one collection, sessions without
encryption, items found by their attributes. A line "lock" locks it: whoever asks then has the prompt dismissed.

usage: secret_service.py      says "ready"; what it keeps is printed as JSON at each line "items"; ends with its input
"""
import json
import sys

import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

NAME, PATH = "org.freedesktop.secrets", "/org/freedesktop/secrets"
KIND = "org.freedesktop.Secret."
COLLECTION, ITEMS, SESSION, PROMPT = PATH + "/collection/made", PATH + "/collection/made/", PATH + "/session/1", PATH + "/prompt/1"
XML = f"""<node>
<interface name="{KIND}Service">
<method name="OpenSession"><arg type="s" direction="in"/><arg type="v" direction="in"/><arg type="v" direction="out"/><arg type="o" direction="out"/></method>
<method name="SearchItems"><arg type="a{{ss}}" direction="in"/><arg type="ao" direction="out"/><arg type="ao" direction="out"/></method>
<method name="Unlock"><arg type="ao" direction="in"/><arg type="ao" direction="out"/><arg type="o" direction="out"/></method>
<method name="GetSecrets"><arg type="ao" direction="in"/><arg type="o" direction="in"/><arg type="a{{o(oayays)}}" direction="out"/></method>
<method name="ReadAlias"><arg type="s" direction="in"/><arg type="o" direction="out"/></method>
<property name="Collections" type="ao" access="read"/></interface>
<interface name="{KIND}Collection">
<method name="CreateItem"><arg type="a{{sv}}" direction="in"/><arg type="(oayays)" direction="in"/><arg type="b" direction="in"/>
<arg type="o" direction="out"/><arg type="o" direction="out"/></method></interface>
<interface name="{KIND}Item"><method name="Delete"><arg type="o" direction="out"/></method></interface>
<interface name="{KIND}Prompt"><method name="Prompt"><arg type="s" direction="in"/></method><method name="Dismiss"/>
<signal name="Completed"><arg type="b"/><arg type="v"/></signal></interface>
</node>"""

items = {}  # path -> label, attributes, secret
locked = False
node = Gio.DBusNodeInfo.new_for_xml(XML)


def open_session(algorithm, _input):
    if algorithm != "plain":
        raise LookupError("org.freedesktop.DBus.Error.NotSupported")
    return "(vo)", (GLib.Variant("s", ""), SESSION)


def search(wanted):
    found = [path for path, item in items.items() if wanted.items() <= item["attributes"].items()]
    return "(aoao)", ([], found) if locked else (found, [])


def unlock(paths):
    return "(aoo)", ([], PROMPT) if locked else (paths, "/")


def get_secrets(paths, session):
    return "(a{o(oayays)})", ({path: (session, b"", items[path]["secret"], "text/plain") for path in paths},)


def create(properties, secret, replace):
    if locked:
        raise LookupError(KIND + "Error.IsLocked")
    attributes = properties[KIND + "Item.Attributes"]
    same = [path for path, item in items.items() if item["attributes"] == attributes]
    path = same[0] if replace and same else f"{ITEMS}{len(items) + 1}"
    items[path] = {"label": properties[KIND + "Item.Label"], "attributes": attributes, "secret": bytes(secret[2])}
    keep_object(path, "Item")
    return "(oo)", (path, "/")


objects = {}


def called(_bus, _sender, path, _interface, method, arguments, invocation):
    words = arguments.unpack()
    try:
        if method == "Delete":
            del items[path]
            bus.unregister_object(objects.pop(path))
            form, answer = "(o)", ("/",)
        elif method == "ReadAlias":
            form, answer = "(o)", (COLLECTION,)
        elif method == "Prompt":
            form, answer = "()", ()
            GLib.idle_add(lambda: bus.emit_signal(None, PROMPT, KIND + "Prompt", "Completed",
                                                  GLib.Variant("(bv)", (True, GLib.Variant("ao", [])))) and False)
        else:
            form, answer = {"OpenSession": open_session, "SearchItems": search, "Unlock": unlock, "GetSecrets": get_secrets,
                            "CreateItem": create}[method](*words)
        invocation.return_value(GLib.Variant(form, answer) if answer else None)
    except LookupError as fault:
        invocation.return_dbus_error(str(fault.args[0]), "not here")


def keep_object(path, interface):
    if path not in objects:
        objects[path] = bus.register_object(path, node.lookup_interface(KIND + interface), called, lambda *_: GLib.Variant("ao", [COLLECTION]), None)


def read(_source, _condition):
    global locked
    word = sys.stdin.readline().strip()
    if not word:
        loop.quit()
        return False
    locked = word == "lock" or (locked and word != "unlock")
    print(json.dumps([{**item, "secret": item["secret"].decode()} for item in items.values()]), flush=True)
    return True


bus = Gio.bus_get_sync(Gio.BusType.SESSION, None)
for at, interface in ((PATH, "Service"), (COLLECTION, "Collection"), (PATH + "/aliases/default", "Collection"), (PROMPT, "Prompt")):
    keep_object(at, interface)
loop = GLib.MainLoop()
Gio.bus_own_name_on_connection(bus, NAME, 0, lambda *_: print("ready", flush=True), lambda *_: loop.quit())
GLib.io_add_watch(sys.stdin, GLib.IO_IN | GLib.IO_HUP, read)
loop.run()
