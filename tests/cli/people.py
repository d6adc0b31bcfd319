# SPDX-License-Identifier: GPL-3.0-or-later
"""People of a team for tests of the built program, each with a home of their own, keys and a pass phrase."""
import datetime
import os
import pathlib
import re
import subprocess
import sys

PROGRAM = os.path.abspath(sys.argv[1])
PHRASE = "five dull lamps hum\n"
faults = []


def check(what, good, more=""):
    if not good:
        faults.append(f"{what}: {more}")


def told():
    """Ends the test."""
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"{len(faults)} faults")
    sys.exit(1 if faults else 0)


class Person:
    def __init__(self, folder, name, role):
        self.home = folder / name
        self.home.mkdir()
        self.name = name
        phrase = self.home / "phrase"
        phrase.write_text(PHRASE)
        phrase.chmod(0o600)
        self.phrase = str(phrase)
        self.done("key", "new", name, "--role", role, "--phrase-file", self.phrase)
        self.card = str(self.home / "card")
        self.done("key", "card", self.card)
        self.words = self.done("key", "words").strip()

    def env(self):
        env = dict(os.environ, HOME=str(self.home), LC_ALL="C.UTF-8", DBUS_SESSION_BUS_ADDRESS="unix:path=/nonexistent")
        for name in ("XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME", "DISPLAY", "WAYLAND_DISPLAY"):
            env.pop(name, None)
        return env

    def run(self, *words, asked=""):
        return subprocess.run([PROGRAM, *words], env=self.env(), input=asked, capture_output=True, text=True)

    def done(self, *words, asked=""):
        result = self.run(*words, asked=asked)
        check(f"{self.name}: {' '.join(words)}", result.returncode == 0, f"{result.returncode} {result.stderr}")
        return result.stdout

    def refused(self, says, *words, asked=""):
        result = self.run(*words, asked=asked)
        check(f"{self.name}: {' '.join(words)} is refused", result.returncode == 1 and says in result.stderr
              and result.stderr.count("\n") == 1, f"{result.returncode} {result.stdout} {result.stderr}")

    def accept(self, other):
        self.done("key", "accept", other.card, asked=other.words + "\n")

    def roster(self, folder, form="json"):
        return self.done("roster", str(folder), "--format", form, "--phrase-file", self.phrase)


def bring_to_yesterday(path):
    """A modelled season is of another year: all its dates moved by the same number of days."""
    text, date = path.read_text(), re.compile(r"\b\d{4}-\d{2}-\d{2}(?=[T\"])")
    last = max(datetime.date.fromisoformat(found[0]) for found in date.finditer(text))
    by = datetime.date.today() - datetime.timedelta(days=1) - last
    path.write_text(date.sub(lambda found: (datetime.date.fromisoformat(found[0]) + by).isoformat(), text))
