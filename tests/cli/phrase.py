# SPDX-License-Identifier: GPL-3.0-or-later
"""A pass phrase asked on a terminal: nothing of it is seen, and the terminal is as it was, also where the asking is ended.

usage: phrase.py PROGRAM
"""
import os
import pathlib
import pty
import signal
import subprocess
import sys
import tempfile
import termios

PROGRAM = os.path.abspath(sys.argv[1])
PHRASE = b"five dull lamps hum"


class Terminal:
    """The program, with a terminal of its own."""

    def __init__(self, home, *words):
        self.ours, theirs = pty.openpty()
        self.said = b""
        env = dict(os.environ, HOME=str(home), LC_ALL="C.UTF-8", DBUS_SESSION_BUS_ADDRESS="unix:path=/nonexistent")
        for name in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "DISPLAY", "WAYLAND_DISPLAY"):
            env.pop(name, None)
        # A slave that stays open here, so that what the program left of the modes can be read after its end.
        self.theirs = theirs
        self.program = subprocess.Popen([PROGRAM, *words], stdin=theirs, stdout=theirs, stderr=theirs, env=env, start_new_session=True)

    def until(self, text):
        while text not in self.said:
            self.said += os.read(self.ours, 4096)

    def echoes(self):
        return bool(termios.tcgetattr(self.theirs)[3] & termios.ECHO)

    def type(self, line):
        os.write(self.ours, line + b"\n")

    def end(self):
        status = self.program.wait()
        os.set_blocking(self.ours, False)
        try:
            while more := os.read(self.ours, 4096):
                self.said += more
        except BlockingIOError:
            pass
        return status


def unseen(home):
    terminal = Terminal(home, "key", "new", "K7")
    terminal.until(b"A new pass phrase")
    assert not terminal.echoes(), "typed in sight"
    terminal.type(PHRASE)
    terminal.until(b"Once more")
    terminal.type(PHRASE)
    assert terminal.end() == 0, terminal.said
    assert PHRASE not in terminal.said, terminal.said
    assert terminal.echoes(), "the terminal stays blind"
    assert (home / ".local/share/carpace/team/person.key").exists()


def two_that_differ(home):
    terminal = Terminal(home, "key", "new", "K7")
    terminal.until(b"A new pass phrase")
    terminal.type(PHRASE)
    terminal.until(b"Once more")
    terminal.type(PHRASE + b"s")
    assert terminal.end() == 1 and b"differ" in terminal.said, terminal.said
    assert not (home / ".local/share/carpace/team").exists()


def ended(home, number):
    terminal = Terminal(home, "key", "new", "K7")
    terminal.until(b"A new pass phrase")
    assert not terminal.echoes()
    terminal.program.send_signal(number)
    assert terminal.end() == -number, terminal.program.returncode
    assert terminal.echoes(), "the terminal stays blind"
    assert not (home / ".local/share/carpace/team").exists()


with tempfile.TemporaryDirectory() as folder:
    homes = iter(pathlib.Path(folder) / str(i) for i in range(9))
    for case in (unseen, two_that_differ, lambda home: ended(home, signal.SIGINT), lambda home: ended(home, signal.SIGTERM)):
        home = next(homes)
        home.mkdir()
        case(home)
print("unseen, and seen again")
