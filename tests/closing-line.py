# SPDX-License-Identifier: GPL-3.0-or-later
"""Sums up meson's test logs in one line; fails where a test failed, or none ran.

usage: closing-line.py [LOG...]             (of the runs of tests/all, and of these logs)
       closing-line.py --to-try-again RUN   (prints the names of the tests that failed and stand on a real screen or bus)

Where a second log stands beside one (NAME-again for NAME), what passed there has passed; it is named all the same.
"""
import json
import pathlib
import sys

BUILD = pathlib.Path(__file__).resolve().parents[1] / "build"
LOGS = {run: BUILD / folder / "meson-logs" / log for run, folder, log in (
    ("screens", "tests", "screens.json"), ("plain", "tests", "plain.json"),
    ("sanitized-screens", "sanitized", "sanitized-screens.json"), ("sanitized", "sanitized", "sanitized.json"),
    ("units", "tests", "units-valgrind.json"))}
PASSED = {"OK", "EXPECTEDFAIL"}
SKIPPED = {"SKIP"}
WRAPPED = "-valgrind"  # where tests ran under it, the log's name ends so
# Their programs share the machine with whatever else it does; all others run on a virtual clock or none.
ON_A_SCREEN = ("desktop/", "adapters/", "ui/")


def tests_of(log):
    """Name and kind of result of each test of a log."""
    for line in log.read_text(encoding="utf-8").splitlines():
        test = json.loads(line)
        kind = "passed" if test["result"] in PASSED else "skipped" if test["result"] in SKIPPED else "failed"
        yield test["name"], kind, test["result"].lower()


def failed_on_a_screen(log):
    if not log.exists():
        return []
    names = [name.split(" / ")[-1] for name, kind, _result in tests_of(log) if kind == "failed"]
    return [name for name in names if name.startswith(ON_A_SCREEN)]


def sum_up(logs):
    counts = {"passed": 0, "failed": 0, "skipped": 0}
    for log in logs:
        if not log.exists():
            print(f"{log}: no tests ran")
            counts["failed"] += 1
            continue
        second = log.with_name(log.stem.removesuffix(WRAPPED) + "-again" + (WRAPPED if log.stem.endswith(WRAPPED) else "") + ".json")
        again = {name: kind for name, kind, _result in tests_of(second)} if second.exists() else {}
        for name, kind, result in tests_of(log):
            if kind == "failed" and again.get(name) == "passed":
                kind = "passed"
                print(f"passed at the second try only: {name} ({log.stem}: {result} at first)")
            counts[kind] += 1
            if kind != "passed":
                print(f"{kind}: {name} ({log.stem}: {result})")
    print(", ".join(f"{number} {kind}" for kind, number in counts.items()))
    return 1 if counts["failed"] or not counts["passed"] else 0


if sys.argv[1:2] == ["--to-try-again"]:
    print("\n".join(failed_on_a_screen(LOGS[sys.argv[2]])))
else:
    sys.exit(sum_up([*LOGS.values(), *map(pathlib.Path, sys.argv[1:])]))
