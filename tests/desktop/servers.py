# SPDX-License-Identifier: GPL-3.0-or-later
"""Notices on other servers than dunst: seen and read as they were said, without the focus, answered with their own
buttons, gone once withdrawn. Skipped where the server is not installed.

usage: servers.py SERVER CARPACE HAND FOLDER
"""
import glob
import sys

from desktop import Desktop, no_complaints, wait
from faces import Faces
from hand import Hand
from product import long_rests, prepared

SKIPPED = 77
AFTER_MS = 3000
SERVERS = {"notification-daemon": "/usr/lib/notification-daemon/notification-daemon",
           "xfce4-notifyd": "/usr/lib/*/xfce4/notifyd/xfce4-notifyd",
           "mate-notification-daemon": "/usr/lib/mate-notification-daemon/mate-notification-daemon"}


class Server:
    def __init__(self, desktop, name, program):
        self.desktop, self.name = desktop, name
        desktop.spawn("notifications", [program])
        desktop.started("notifications", "a notification server",
                        lambda: desktop.bus.has_owner("org.freedesktop.Notifications"))
        self.faces = Faces()

    def shows(self, words):
        return self.faces.find(words, "label", self.name)

    def offer(self, carpace, hand):
        """Practises until a rest is offered, and the offer is seen; it may come after what was told before."""
        hand.move()
        carpace.until("enough practice", lambda status: status["active_ms"] >= AFTER_MS + 500)
        hand.still()
        carpace.until_state("rest-due", patience_s=180)
        wait("the offer on the screen", lambda: self.shows(self.title()))
        self.desktop.picture("offer")

    def title(self):
        notice = self.desktop.bus.notice("Rest now")
        return notice.title if notice else "no offer"


def main(name, program, hand_program, folder):
    found = glob.glob(SERVERS[name])
    if not found:
        print(f"{name} is not installed")
        sys.exit(SKIPPED)
    with Desktop("xfwm4", folder, notifications=False) as desktop:
        server = Server(desktop, name, found[0])
        carpace, hand = prepared(desktop, program, long_rests(desktop)), Hand(desktop, hand_program)

        carpace.told("start")
        status, _out, why = carpace.command("start")
        assert status == 1 and why, (status, why)
        wait("what a refused start is told in", lambda: server.shows(why.strip()))
        desktop.picture("refused")
        focus = desktop.windows.focused()
        server.offer(carpace, hand)
        assert desktop.windows.focused() == focus, "an offer took the focus"
        title = server.title()
        carpace.told("end")
        wait("the offer's end, withdrawn", lambda: not server.shows(title))
        carpace.told("rate", "0")

        carpace.told("start")
        server.offer(carpace, hand)
        title = server.title()
        rest = wait("its button", lambda: server.faces.settled("Rest now", "push button", name))
        desktop.windows.click(*rest)
        carpace.until_state("resting")
        wait("the offer's end, answered", lambda: not server.shows(title))
        desktop.picture("resting")
        no_complaints(desktop.folder)


main(*sys.argv[1:])
