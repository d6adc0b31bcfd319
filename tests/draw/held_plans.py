# SPDX-License-Identifier: GPL-3.0-or-later
"""What the plans that were given hold, from their texts alone: each plan what its last version fixes, since the last
release; of what several fix, the tightest number."""
import re

LENGTHS = {"h": 60, "min": 1, "s": 1 / 60}


def size(value):
    """A number to compare, the unit a line has: minutes, percent, a discomfort."""
    parts = re.findall(r"([\d.]+) ?(h|min|s)\b", value)
    return sum(float(n) * LENGTHS[unit] for n, unit in parts) if parts else float(re.match(r"[\d.]+", value)[0])


def fixed_in(text):
    """Path and value of each line that is marked, as the program writes plans; block limits, where one is, with their number."""
    found, path, limits = {}, [], []
    for line in text.splitlines():
        indent, key, value = re.match(r"( *)(?:- )?([\w-]+|\{.*)(?:: ?(.*))?$", line).groups()
        depth = len(indent) // 2
        path[depth:] = [key]
        mark = re.match(r"!fixed (.*)$", value or "")
        if path[0] == "blocks" and key == "limit":
            limits.append(mark[1] if mark else None)
        elif mark:
            found[".".join(path)] = re.sub(r"[\[\]]", "", mark[1])
    if any(limits):
        found["blocks"] = str(len(limits))
        found |= {f"blocks.{i + 1}.limit": limit for i, limit in enumerate(limits) if limit}
    if limits and all(limits):  # the first dose is fixed with them
        found["day.dose"] = re.search(r"^  dose: (?:!fixed )?(.*)$", text, re.M)[1]
    return found


def join(one, other):
    joined = dict(one)
    for key, value in other.items():
        if key == "week.without" and key in one:
            joined[key] = ", ".join(d for d in DAYS if d in one[key] or d in value)
        elif key not in one or size(value) < size(one[key]):
            joined[key] = value
    return joined


DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
ORDER = ("day.dose", "week.without", "block-limits.longest", "tighten.stop-above", "next-day.at-most", "blocks",
         "blocks.1.limit", "blocks.2.limit")


def held(records):
    """[name, version, since, lines that hold] of each plan that was given, the one given last behind the others."""
    plans = {}
    for day, r in records:
        if r["what"] == "released":
            plans = {name: (version, since, {}) for name, (version, since, _) in plans.items()}
        if r["what"] != "given":
            continue
        version, since, fixes = plans.get(r["name"], (0, None, {}))
        if r["version"] < version:
            plans[r["name"]] = plans.pop(r["name"])
            continue
        own = fixed_in(r["text"])
        own = own if r["version"] > version else join(fixes, own)
        since = day if r["version"] > version or own != fixes else since
        plans.pop(r["name"], None)
        plans[r["name"]] = r["version"], since, own
    tightest = {}
    for _, _, fixes in plans.values():
        tightest = join(tightest, fixes)
    return [(name, version, since, [f"{key}: {fixes[key]}" for key in ORDER if key in fixes
                                    and (key == "week.without" or fixes[key] == tightest[key])])
            for name, (version, since, fixes) in plans.items()]
