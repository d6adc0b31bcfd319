# SPDX-License-Identifier: GPL-3.0-or-later
"""The README's first command, word for word: without a display it rehearses, with one it practises in the tray.

usage: first_command.py SOURCE-ROOT FOLDER
"""
import pathlib
import subprocess
import sys

from desktop import Desktop, wait
from product import Carpace

BUILD_S = 900  # it builds the program


def main(root, folder):
    with Desktop("xfwm4", folder) as desktop:
        command = ["sh", pathlib.Path(root) / "src/first-evening"]
        environment = {name: value for name, value in desktop.environment.items()
                       if name not in ("DISPLAY", "DBUS_SESSION_BUS_ADDRESS")}
        # It builds: what other tests have on their screens goes before it.
        rehearsed = subprocess.run(["nice", "-n", "19", *map(str, command)], env=environment, stdin=subprocess.DEVNULL,
                                   capture_output=True, text=True, timeout=BUILD_S)
        assert rehearsed.returncode == 0, rehearsed.stdout + rehearsed.stderr
        assert "no display" in rehearsed.stdout, rehearsed.stdout
        for words in ("block 1 starts", "rest taken", "limit reached", "discomfort 1"):
            assert words in rehearsed.stdout, (words, rehearsed.stdout)

        installed = pathlib.Path(root) / "build/evening/installed/bin/carpace"
        carpace = Carpace(desktop, installed)
        desktop.spawn("first-command", command)
        desktop.started("first-command", "carpace on the bus", lambda: desktop.bus.has_owner("org.carpace.Carpace"))
        wait("carpace's answer", lambda: carpace.command("status")[0] == 0)
        status = carpace.until_state("practising", "gap")
        assert status["plan"] == "A first week" and status["block"] == 1, status
        desktop.picture("practising")
        assert "in the tray" in wait("its last words", lambda: said(desktop, "in the tray"))
        carpace.row("Quit")
        assert desktop.children["first-command"].wait(60) == 0


def said(desktop, words):
    text = (desktop.folder / "first-command.log").read_text()
    return text if words in text else None


main(*sys.argv[1:])
