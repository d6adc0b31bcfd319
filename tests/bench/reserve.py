# SPDX-License-Identifier: GPL-3.0-or-later
"""A session's reserve brought forward against a general solver at 1e-9.

usage: reserve.py BENCH-RESERVE
Prints the ratio of the times, and instructions a session where valgrind is
there.
"""
import re
import shutil
import subprocess
import sys
import tempfile
import time

from scipy.integrate import solve_ivp

HAND, ELBOW, SHOULDER = (0.00980, 0.00064, 30), (0.00912, 0.00094, 15), (0.01820, 0.00168, 15)
GROUPS = [(HAND, 0.12), (HAND, 0.108), (HAND, 0.048), (HAND, 0.1056), (HAND, 0.06), (HAND, 0.048), (ELBOW, 0.018),
          (SHOULDER, 0.024), (SHOULDER, 0.024), (SHOULDER, 0.042)]


def solved():
    """The lowest reserve at the hour's end, all groups in one system."""
    m = [0.0] * len(GROUPS)

    def work(_t, y):
        return [F * min(load, 1 - x) - R * x for ((F, R, _r), load), x in zip(GROUPS, y)]

    def rest(_t, y):
        return [-r * R * x for ((_F, R, r), _load), x in zip(GROUPS, y)]

    for _ in range(30):
        m = solve_ivp(work, (0, 110), m, method="DOP853", rtol=1e-9, atol=1e-12).y[:, -1]
        m = solve_ivp(rest, (0, 10), m, method="DOP853", rtol=1e-9, atol=1e-12).y[:, -1]
    return 1 - max(m)


def instructions(program, n):
    with tempfile.NamedTemporaryFile() as out:
        told = subprocess.run(["valgrind", "--tool=callgrind", f"--callgrind-out-file={out.name}", program, str(n)],
                              capture_output=True, text=True).stderr
    return int(re.search(r"Collected : (\d+)", told)[1])


program = sys.argv[1]
own, lowest = (float(word) for word in subprocess.run([program, "20000"], check=True, capture_output=True, text=True).stdout.split())
begun = time.process_time()
value = solved()
general = time.process_time() - begun
assert abs(value - lowest) < 1e-8, (value, lowest)
print(f"a session of an hour, 10 groups, 60 events: {own * 1e6:.1f} us; solver {general * 1e3:.0f} ms; ratio {general / own:.0f} (wanted: 1000)")
if shutil.which("valgrind"):
    print(f"instructions a session: {(instructions(program, 101) - instructions(program, 1)) // 100}")
