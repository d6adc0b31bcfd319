# SPDX-License-Identifier: GPL-3.0-or-later
"""The hand on the mouse: hand.c, told what to do."""
import subprocess


class Hand:
    RATE = 125  # motions a second, an office mouse's

    def __init__(self, desktop, program):
        self.child = desktop.spawn("hand", [program], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)

    def tell(self, line):
        self.child.stdin.write(line + "\n")
        self.child.stdin.flush()
        answer = self.child.stdout.readline()
        if answer != "ok\n":
            raise RuntimeError(f"the hand did not {line!r}")

    def move(self, x=200, y=200, rate=RATE):
        self.tell(f"move {rate} {x} {y}")

    def still(self):
        self.tell("still")
