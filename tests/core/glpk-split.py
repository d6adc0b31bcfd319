# SPDX-License-Identifier: GPL-3.0-or-later
"""Splits against an integer programme over enumerated blocks, solved by GLPK.

usage: glpk-split.py SPLIT-ALONE GLPSOL
Every block content of the right length is a column; its index is worked out
here from the papers' formulas (Garg, Moore, Kapellusch 2017, Ergonomics 60:912
and 60:1033). The programme chooses contents so that all runs are dealt and the
highest index of one chosen is least. Seeds are printed. GLPK: Debian
glpk-utils.
"""
import itertools
import math
import pathlib
import random
import subprocess
import sys
import tempfile

SEED = 20270306


def im(i):
    return 30 * i**3 - 15.60 * i**2 + 13.00 * i + 0.40 if i <= 0.4 else 36 * i**3 - 33.30 * i**2 + 24.77 * i - 1.86


def em(e):
    return 0.10 + 0.25 * e if e <= 90 else 0.00334 * e**1.96


def dm(d):
    return 0.45 + 0.31 * d if d <= 60 else 19.17 * math.log(d) - 59.44


def hm(h):
    return 0 if h == 0 else 0.20 if h <= 0.05 else 0.042 * h + 0.090 * math.log(h) + 0.477


def shares(runs):
    """In hundredths of a percent; the largest takes what rounding leaves."""
    whole = sum(runs)
    found = [math.floor(n * 10000 / whole + 0.5) for n in runs]
    found[found.index(max(found))] += 10000 - sum(found)
    return found


def block_index(drills, runs, hours):
    tasks = []
    for (intensity, efforts, lasts), share, n in zip(drills, shares(runs), runs):
        if n:
            e = efforts * share / 10000
            tasks.append((im(intensity / 100) * em(e) * dm(lasts) * hm(hours), e))
    tasks.sort(key=lambda task: (-task[0], task[1]))
    index, up_to = 0, 0
    for rsi, e in tasks:
        index += rsi / em(e) * (em(up_to + e) - (em(up_to) if up_to else 0))
        up_to += e
    return index


def least(drills, runs, into, glpsol, folder):
    """The least highest index, blocks all equally long."""
    length = sum(runs) // into
    contents = [c for c in itertools.product(*(range(n + 1) for n in runs)) if sum(c) == length]
    index = [block_index(drills, c, length / 60) for c in contents]
    lines = ["Minimize", " highest: z", "Subject To",
             " blocks: " + " + ".join(f"c{c}" for c in range(len(contents))) + f" = {into}"]
    for d, n in enumerate(runs):
        lines.append(f" drill{d}: " + " + ".join(f"{content[d]} c{c}" for c, content in enumerate(contents) if content[d]) + f" = {n}")
    # a content chosen n times is n blocks: its index counts where it is chosen at all
    for c in range(len(contents)):
        lines += [f" highest{c}: z - {index[c]:.15g} u{c} >= 0", f" chosen{c}: {into} u{c} - c{c} >= 0"]
    lines += ["Bounds"] + [f" 0 <= c{c} <= {into}" for c in range(len(contents))]
    lines += ["General"] + [f" c{c}" for c in range(len(contents))] + ["Binary"] + [f" u{c}" for c in range(len(contents))] + ["End"]
    model, out = folder / "model.lp", folder / "out"
    model.write_text("\n".join(lines))
    subprocess.run([glpsol, "--lp", model, "--cuts", "-w", out], check=True, stdout=subprocess.DEVNULL, timeout=100)
    header = next(line.split() for line in out.read_text().splitlines() if line.startswith("s "))
    assert header[4] == "o", header
    return float(header[5]), len(contents)


def days():
    chance = random.Random(SEED)
    for n, each, into in ((3, 4, 2), (3, 4, 3), (4, 3, 2), (4, 3, 3), (5, 2, 2), (4, 4, 4), (5, 3, 3), (6, 2, 3), (6, 2, 4)):
        for _ in range(3):
            drills = []
            for _ in range(n):
                efforts = chance.randint(10, 80)
                drills.append((chance.randint(6, 25), efforts, round(chance.uniform(0.1, min(1.5, 60 / efforts)), 3)))
            yield drills, [each] * n, into


program, glpsol = sys.argv[1:]
print("seed", SEED)
with tempfile.TemporaryDirectory() as folder:
    for drills, runs, into in days():
        given = f"{into}\n" + "".join(f"{i} {e} {d} 60000 {n * 60000}\n" for (i, e, d), n in zip(drills, runs))
        out = subprocess.run([program], input=given, check=True, capture_output=True, text=True).stdout.split()
        found, bound, proven = float(out[0]), float(out[1]), out[2] == "1"
        optimum, columns = least(drills, runs, into, glpsol, pathlib.Path(folder))
        print(f"{len(drills)} drills, {sum(runs)} runs, {into} blocks, {columns} columns: GLPK {optimum:.9f}, found {found:.9f}, bound {bound:.9f}")
        assert proven
        assert abs(found - optimum) <= 1e-7 * optimum, "not the optimum"
        assert abs(bound - optimum) <= 1e-7 * optimum, "looked through, and the bound is not the optimum"
