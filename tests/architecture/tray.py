# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tray program has no part in: commands, windows that are modules, and their libraries.

usage: tray.py CARPACE
It is on all day. What is linked into it for a command's sake is resident in every player's memory.
"""
import re
import subprocess
import sys

import tree

LIBRARIES = ("libjson-glib", "libcsv", "libqrencode", "libical", "libpq", "libsecret", "libgsound", "libcanberra", "libgtk-layer-shell")
FUNCTIONS = re.compile(r"carpace_(cli_|planner_|roster_window|qr|format_)")


def lines(*words):
    return subprocess.run(words, check=True, capture_output=True, text=True).stdout.splitlines()


def main(program):
    needed = [found[1] for line in lines("readelf", "-dW", program) if (found := re.search(r"NEEDED.*\[(.*)\]", line))]
    own = [line.split()[-1] for line in lines("nm", "--defined-only", program)]
    for_modules = [name for line in lines("nm", "-D", "--defined-only", program) if (name := line.split()[-1]).startswith("carpace_")]
    faults = [f"the tray needs {name}" for name in needed if name.startswith(LIBRARIES)]
    faults += [f"{name} is part of the tray" for name in own if FUNCTIONS.match(name)]
    # Names take more room than some libraries; a module has copies of what it uses.
    faults += [f"{len(for_modules)} names are there for modules, such as {for_modules[0]}"] if for_modules else []
    tree.end("what the tray has no part in", len(needed) and len(own), faults)


main(sys.argv[1])
