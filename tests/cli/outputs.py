# SPDX-License-Identifier: GPL-3.0-or-later
"""Where what a command prints cannot go: one sentence, and exit status 1.

usage: outputs.py CARPACE
"""
import os
import pathlib
import subprocess
import sys
import tempfile

CARPACE = sys.argv[1]
# Each command that prints something, whatever is kept.
COMMANDS = [
    "--help", "--version", "plan --help", "plan list", "plan list --format json", "plan show first-week", "plan check two-halves",
    "plan check two-halves --format json", "plan split two-halves --into quarters", "rehearse first-week",
    "rehearse first-week --format json", "rehearse first-week --player steady --days 20", "diary", "diary --format csv", "why",
    "report", "report --format pdf -", "report --format png -", "calendar", "export", "export --format json",
    "export --format fhir", "backup -", "calc endurance --region hand --load 12%",
]


def environment(folder):
    own = {name: str(folder / name.lower()) for name in ("HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_DATA_HOME")}
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("XDG_", "DBUS_", "DISPLAY"))}
    return kept | own | {"LC_ALL": "C.UTF-8", "DBUS_SESSION_BUS_ADDRESS": "unix:path=/nowhere"}


def run(words, where, **streams):
    return subprocess.run([CARPACE, *words], env=where, stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True,
                          timeout=120, check=False, **streams)


def lines_of(done):
    return [line for line in done.stderr.splitlines() if line]


def kept_something(where, folder):
    """A plan in use, and a diary: an empty one prints nothing into a backup."""
    assert run(["plan", "use", "two-halves"], where, stdout=subprocess.DEVNULL).returncode == 0
    bad = folder / "empty.csv"
    bad.write_text("day,at,elapsed_ms,kind,note,other_ms\n")
    done = run(["import", str(bad), "--mine"], where, stdout=subprocess.DEVNULL)
    assert done.returncode == 0, done.stderr


def full(where):
    faults = []
    for command in COMMANDS:
        words = command.split()
        with open("/dev/full", "w") as nowhere:
            done = run(words, where, stdout=nowhere)
        if done.returncode != 1 or len(lines_of(done)) != 1 or "standard output" not in done.stderr:
            faults.append(f"{command}: {done.returncode}, {done.stderr!r}")
        done = run(words, where, stdout=subprocess.DEVNULL)
        if done.returncode != 0 or done.stderr:
            faults.append(f"{command}, with room: {done.returncode}, {done.stderr!r}")
    return faults


def closed(where, folder):
    """What is closed is not given to a file: a sentence written there would end in it."""
    faults = []
    lock = folder / "xdg_state_home" / "carpace" / "diary.sqlite.lock"
    for shut, command, status in (("2>&-", "erase", 1), ("1>&-", "diary", 1), ("0<&-", "erase", 1), ("2>&- 1>&-", "erase", 1),
                                  ("0<&- 2>&-", "diary", 0)):
        done = subprocess.run(["sh", "-c", f'exec "$0" {command} {shut}', CARPACE], env=where, stdin=subprocess.DEVNULL,
                              stdout=subprocess.PIPE, timeout=120, check=False)
        if done.returncode != status:
            faults.append(f"{command} {shut}: {done.returncode}")
        if lock.read_bytes():
            faults.append(f"{command} {shut}: in the lock stands {lock.read_bytes()!r}")
    return faults


def main():
    with tempfile.TemporaryDirectory(prefix="carpace-outputs-") as name:
        folder = pathlib.Path(name)
        where = environment(folder)
        kept_something(where, folder)
        faults = full(where) + closed(where, folder)
    for fault in faults:
        print(fault, file=sys.stderr)
    sys.exit(1 if faults else 0)


main()
