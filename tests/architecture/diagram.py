# SPDX-License-Identifier: GPL-3.0-or-later
"""The state diagram of DEVELOPERS.md is the one the core holds.

usage: diagram.py PRINT-TRANSITIONS
The diagram is the fenced block whose lines are all `from -> to`; a line may
name several ends: `from -> to, to`.
"""
import re
import subprocess
import sys

import tree

LINE = re.compile(r"([a-z-]+)\s*->\s*([a-z-]+(?:\s*,\s*[a-z-]+)*)$")


def pairs(lines):
    found = [LINE.match(line.strip()) for line in lines if line.strip()]
    return [(line[1], to) for line in found for to in re.split(r"\s*,\s*", line[2])]


def drawn():
    blocks = re.findall(r"^```[^\n]*\n(.*?)^```", tree.text_of("DEVELOPERS.md"), flags=re.S | re.M)
    for block in blocks:
        lines = [line for line in block.splitlines() if line.strip()]
        if lines and all(LINE.match(line.strip()) for line in lines):
            return pairs(lines)
    return []


held = pairs(subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True).stdout.splitlines())
page = drawn()
faults = [f"{a} -> {b}: stands twice in {where}" for where, rows in (("the core", held), ("DEVELOPERS.md", page))
          for a, b in sorted(set(rows)) if rows.count((a, b)) > 1]
faults += [f"{a} -> {b}: in the core, not in DEVELOPERS.md" for a, b in sorted(set(held) - set(page))]
faults += [f"{a} -> {b}: in DEVELOPERS.md, not in the core" for a, b in sorted(set(page) - set(held))]
tree.end("state diagram", len(held), faults)
