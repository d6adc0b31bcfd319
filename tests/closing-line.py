# SPDX-License-Identifier: GPL-3.0-or-later
"""Sums up meson's test logs in one line; fails where a test failed, or none ran."""
import json
import pathlib
import sys

PASSED = {"OK", "EXPECTEDFAIL"}
SKIPPED = {"SKIP"}

counts = {"passed": 0, "failed": 0, "skipped": 0}
for log in sys.argv[1:]:
    if not pathlib.Path(log).exists():
        print(f"{log}: no tests ran")
        counts["failed"] += 1
        continue
    for line in pathlib.Path(log).read_text(encoding="utf-8").splitlines():
        test = json.loads(line)
        kind = "passed" if test["result"] in PASSED else "skipped" if test["result"] in SKIPPED else "failed"
        counts[kind] += 1
        if kind != "passed":
            print(f"{kind}: {test['name']} ({pathlib.Path(log).stem}: {test['result'].lower()})")
print(", ".join(f"{number} {kind}" for kind, number in counts.items()))
sys.exit(1 if counts["failed"] or not counts["passed"] else 0)
