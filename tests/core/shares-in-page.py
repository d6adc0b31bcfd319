# SPDX-License-Identifier: GPL-3.0-or-later
"""The table of muscle groups in carpace(1) is the one in use.

usage: shares-in-page.py PRINT-SHARES carpace.1
"""
import pathlib
import re
import subprocess
import sys

used = [line.split() for line in subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True).stdout.splitlines()]
page = pathlib.Path(sys.argv[2]).read_text(encoding="utf-8")
told = [[row[0], *row[1].replace("Ta", "").split()] for row in re.findall(r"^\.It ([a-z]+-turn|[a-z]+-pursuit|button-press) Ta (.+)$", page, re.M)]
assert told == used, f"carpace(1) says {told}, the table is {used}"
