# SPDX-License-Identifier: GPL-3.0-or-later
"""The built program, its ports and adapters together: what is answered is in the diary, and goes on after a restart.

usage: kept.py CARPACE   on a display and a bus of its own (tests/adapters/with-display)
"""
import json
import os
import subprocess
import sys
import time

PATIENCE_S = 60
NOT_RUNNING = 3


class Tray:
    def __init__(self, program):
        self.program = program
        self.process = None

    def words(self, *words):
        return subprocess.run([self.program, *words], capture_output=True, text=True)

    def told(self, *words):
        done = self.words(*words)
        assert done.returncode == 0, (words, done.returncode, done.stderr)
        return done.stdout

    def start(self):
        # GTK and the bus library hold on to things to the end; the unit tests watch for leaks.
        watched = dict(os.environ, ASAN_OPTIONS=os.environ.get("ASAN_OPTIONS", "") + ":detect_leaks=0")
        self.process = subprocess.Popen([self.program], env=watched)
        end = time.monotonic() + PATIENCE_S
        while self.words("status").returncode == NOT_RUNNING:
            assert self.process.poll() is None, "the program has ended"
            assert time.monotonic() < end, "the program does not answer"
            time.sleep(0.05)

    def quit(self):
        self.told("quit")
        assert self.process.wait(PATIENCE_S) == 0

    def status(self):
        return json.loads(self.told("status", "--format", "json"))

    def diary(self, kind):
        rows = [json.loads(line) for line in self.told("diary", "--format", "json").splitlines()]
        return [row for row in rows if row["kind"] == kind]


def main(program):
    tray = Tray(program)
    tray.told("plan", "use", "four-quarters")
    tray.start()
    tray.told("caution", "none")
    tray.told("start")
    assert tray.status()["state"] in ("practising", "gap"), tray.status()
    assert [row["what"] for row in tray.diary("caution")][-1:] == ["none"], tray.diary("caution")
    assert [row["what"] for row in tray.diary("block")] == ["started"], tray.diary("block")
    tray.quit()
    tray.start()
    after = tray.status()
    assert after["block"] == 1 and after["state"] not in ("off", "waiting"), after
    assert len(tray.diary("block")) == 1, tray.diary("block")
    tray.quit()
    print("kept and gone on with:", after["state"])


if __name__ == "__main__":
    main(*sys.argv[1:])
