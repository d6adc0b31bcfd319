# SPDX-License-Identifier: GPL-3.0-or-later
"""Names of the tests of these parts that are programs of their own, from meson's list on standard input."""
import json
import pathlib
import sys

for test in json.load(sys.stdin):
    part = test["name"].split("/")[0]
    if part in sys.argv[1:] and pathlib.Path(test["cmd"][0]).name.startswith("test-"):
        print(test["name"])
