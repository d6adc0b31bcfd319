# SPDX-License-Identifier: GPL-3.0-or-later
"""Splits against an integer programme over enumerated blocks, solved by GLPK.

usage: glpk-split.py SPLIT-ALONE GLPSOL
Every block content of the right length is a column; its index is worked out
here from the papers' formulas (Garg, Moore, Kapellusch 2017, Ergonomics 60:912
and 60:1033). Blocks are ordered by index, so that a day is a plain sum; the
programme chooses a content for each block so that all runs are dealt. Seeds are
printed. GLPK: Debian glpk-utils.
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
    """The least index of the day, blocks all equally long."""
    length = sum(runs) // into
    contents = [c for c in itertools.product(*(range(n + 1) for n in runs)) if sum(c) == length]
    hours = length / 60
    index = [block_index(drills, c, hours) for c in contents]
    added = [(hm((k + 1) * hours) - hm(k * hours)) / hm(hours) for k in range(into)]
    name = [[f"b{k}c{c}" for c in range(len(contents))] for k in range(into)]
    lines = ["Minimize", " day: " + " + ".join(f"{added[k] * index[c]:.15g} {name[k][c]}"
                                              for k in range(into) for c in range(len(contents))), "Subject To"]
    for k in range(into):
        lines.append(f" one{k}: " + " + ".join(name[k]) + " = 1")
    for d, n in enumerate(runs):
        lines.append(f" drill{d}: " + " + ".join(f"{content[d]} {name[k][c]}" for k in range(into)
                                                 for c, content in enumerate(contents) if content[d]) + f" = {n}")
    for k in range(into - 1):
        lines.append(f" order{k}: " + " + ".join(f"{index[c]:.15g} {name[k][c]}" for c in range(len(contents))) + " - "
                     + " - ".join(f"{index[c]:.15g} {name[k + 1][c]}" for c in range(len(contents))) + " >= -1e-7")
    lines += ["Binary"] + [" " + one for block in name for one in block] + ["End"]
    model, out = folder / "model.lp", folder / "out"
    model.write_text("\n".join(lines))
    subprocess.run([glpsol, "--lp", model, "--cuts", "-w", out], check=True, stdout=subprocess.DEVNULL, timeout=100)
    chosen = {}
    header = None
    for line in out.read_text().splitlines():
        words = line.split()
        if words[0] == "s":
            header = words
        elif words[0] == "j":
            chosen[int(words[1])] = float(words[2])
    assert header[4] == "o", header
    picked = [index[(j - 1) % len(contents)] for j, value in sorted(chosen.items()) if value > 0.5]
    assert len(picked) == into, picked
    picked.sort(reverse=True)
    return sum(a * d for a, d in zip(added, picked)), len(contents) * into


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
        assert found >= optimum * (1 - 1e-9), "lower than the optimum"
        assert found <= optimum * (1 + 2e-3), "not the optimum it says it is"
        assert bound <= optimum * (1 + 1e-4), "a bound over the optimum"
        if bound >= found * (1 - 1e-12):
            assert found <= optimum * (1 + 1e-7), "exact, and is not"
