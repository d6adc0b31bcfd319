# SPDX-License-Identifier: GPL-3.0-or-later
"""The installed program: started by the bus, as a desktop would, and found where a desktop looks for it.

usage: installed.py CARPACE FOLDER
"""
import sys

from gi.repository import GLib

from desktop import Desktop, wait
from product import Carpace

NAME = "org.carpace.Carpace"


def main(program, folder):
    with Desktop("xfwm4", folder) as desktop:
        carpace = Carpace(desktop, program)
        status, _, _ = carpace.command("status")
        assert status == 3, status  # a command starts nothing
        desktop.bus.call("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "StartServiceByName",
                         GLib.Variant("(su)", (NAME, 0)))
        wait("carpace on the bus", lambda: desktop.bus.has_owner(NAME))
        item = carpace.item()
        assert item.get("IconName").startswith(NAME), item.get("IconName")
        wait("the menu", lambda: item.find("Quit"))
        desktop.picture("started-by-the-bus")
        carpace.told("quit")
        wait("its end", lambda: not desktop.bus.has_owner(NAME))


main(*sys.argv[1:])
