# SPDX-License-Identifier: GPL-3.0-or-later
"""The desktop of the tests proves itself: every instrument on a program known to do nothing.

usage: bare.py BARE-TRAY HAND WINDOW-MANAGER FOLDER
"""
import subprocess
import sys

from desktop import HERE, Desktop, wait
from hand import Hand


def main(bare_tray, hand_program, window_manager, folder):
    with Desktop(window_manager, folder) as desktop:
        desktop.spawn("bare-tray", [bare_tray])
        item = wait("a tray item", lambda: desktop.bus.tray_item("bare-tray"))
        wait("the menu's rows", lambda: "Rest now" in item.labels())
        item.click("Rest now")
        wait("the choice", lambda: "Rest now" in (desktop.folder / "bare-tray.log").read_text())

        desktop.bus.notify("A cue", "its text", ["go", "Rest now", "no", "Play on"])
        notice = wait("a notification", lambda: desktop.bus.notice("A cue"))
        assert notice.actions == {"go": "Rest now", "no": "Play on"}, notice.actions
        wait("its window", lambda: desktop.windows.of_class("dunst"))
        desktop.picture("notification")
        desktop.choose_action("Rest now")
        wait("the answer", lambda: notice.taken == "go")
        desktop.bus.take_back(notice)
        wait("the notification's end", lambda: notice.closed)

        hand = Hand(desktop, hand_program)
        hand.move(300, 300, rate=1000)
        wait("the pointer in motion", lambda: desktop.windows.root.query_pointer().root_x > 200)
        hand.still()
        game = desktop.spawn("game", ["/usr/bin/python3", HERE / "grabbing_client.py"], stdin=subprocess.PIPE)
        log = desktop.folder / "game.log"
        wait("a client that grabs the pointer", lambda: '"ready"' in log.read_text())
        desktop.windows.click(640, 400)
        wait("the click in it", lambda: '"click"' in log.read_text())
        desktop.windows.key("7")
        wait("the key in it", lambda: '"symbol": 55' in log.read_text())
        desktop.picture("full-screen")
        game.stdin.close()
        game.wait(30)

        desktop.stop("tray-host")
        wait("no tray host", lambda: not desktop.bus.has_tray_host())
        desktop.start_tray_host()
        wait("the tray item again", lambda: desktop.bus.tray_item("bare-tray"))
        desktop.bus.tray_item("bare-tray").click("Quit")
        assert desktop.children["bare-tray"].wait(30) == 0
    assert not list(desktop.bearers()), "something of the desktop lived on"


main(*sys.argv[1:])
