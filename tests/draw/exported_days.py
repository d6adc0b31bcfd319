# SPDX-License-Identifier: GPL-3.0-or-later
"""A diary's export in Python: its days, each summed up from its records, its plans, and times as
the program writes them."""
import collections
import datetime
import json

TIGHTENS = {"up-2", "up-to-4-or-5", "up-1", "unanswered-twice", "tightened-thrice", "above-stop"}
FREE_MS, LATE_MS = 60_000, 600_000  # a correction decides anew within the first; a lower one counts by the second no more


def minutes(ms):
    h, m = divmod(ms // 60000, 60)
    return f"{h} h {m} min" if h and m else f"{h} h" if h else f"{m} min"


def exactly(ms):
    s = ms // 1000
    parts = [(s // 3600, "h"), (s // 60 % 60, "min"), (s % 60, "s")]
    return " ".join(f"{n} {unit}" for n, unit in parts if n) or "0 s"


def s(n, one, many):
    return (one if n == 1 else many).format(n)


def mean(total, n):
    return f"{total / n:.1f}" if n else "–"


def short(day):
    return f"{day:%a} {day.day} {day:%b}"


class Day:
    """One practice day, summed up from its records."""

    def __init__(self, day):
        self.day, self.dose, self.done, self.matches, self.match = day, 0, 0, 0, 0
        self.blocks, self.decisions, self.given, self.sites = [], [], [], []
        self.no_practice, self.offered, self.taken, self.declined, self.offer = False, 0, 0, 0, False
        self.morning, self.cautions, self.other = None, [], None

    def take(self, r):
        getattr(self, "take_" + r["kind"].replace("-", "_"), lambda r: None)(r)

    def take_day(self, r):
        if r["what"] == "opened":
            self.dose = r["dose_ms"]

    def take_block(self, r):
        self.offer = False
        if r["what"] == "started":
            self.blocks.append({"number": r["number"], "match": r["match"], "beyond": r["beyond"], "early": r["early_ms"],
                                "over": 0, "dropped": False, "rating": None, "stands": None, "late": False, "tap": None,
                                "site": None, "corrected": False, "lowered": False})
            return
        block = [b for b in self.blocks if b["number"] == r["number"]][-1]
        block.update(dropped=r["what"] == "dropped", over=r["overrun_ms"], ended=at(r))
        if r["match"]:
            self.match += r["active_ms"]
        else:
            self.done += r["active_ms"]

    def take_overrun(self, r):
        self.done += r["ms"]
        [b for b in self.blocks if b["number"] == r["block"]][-1]["over"] += r["ms"]

    def take_cue(self, r):
        if r["cue"] == "micro-rest" and r["what"] == "shown" and not self.offer:
            self.offer = True
            self.offered += 1

    def take_rest(self, r):
        if r["what"] in ("taken", "declined"):
            self.taken += self.offer and r["what"] == "taken"
            self.declined += self.offer and r["what"] == "declined"
            self.offer = False

    def take_rating(self, r):
        block = [b for b in self.blocks if b["number"] == r["block"]][-1]
        given = -1 if r["discomfort"] is None else r["discomfort"]
        if r["corrects"] is not None:
            self.correct(block, r, given)
            return
        if block["rating"] is None and given >= 0 and not r["late"]:
            block["tap"] = at(r) - block["ended"]
        block.update(rating=given, given=at(r), late=r["late"], site=r["site"], stands=given)

    def correct(self, block, r, given):
        """What was said last is shown, with its site; a lower number said late does not stand in any count."""
        decided = any(d["scope"] == "block" and d["block"] == r["block"] for _, d in self.decisions)
        block["corrected"] = True
        block["lowered"] = block["lowered"] or (given < r["corrects"] and decided)
        if given >= r["corrects"] or not FREE_MS < at(r) - block["given"] <= LATE_MS:
            block["stands"] = given
        block.update(rating=given, site=r["site"], late=r["late"])

    def take_morning(self, r):
        self.morning = r

    def take_decision(self, r):
        self.decisions.append((len(self.blocks), r))
        if r["scope"] != "day":
            return
        if not r["no_practice"] or self.done == 0:
            self.dose = r["after_ms"]
        self.no_practice = r["no_practice"]

    def take_caution(self, r):
        self.cautions.append(r)

    def take_about_day(self, r):
        self.other = r.get("other_ms")

    def was_opened(self):
        return bool(self.dose > 0 or self.done > 0 or self.no_practice or self.morning)

    def is_blank(self):
        """Of which no more is known than that the mouse was moved."""
        return not (self.was_opened() or self.match or self.blocks or self.cautions)

    def decision(self):
        return ([d for _, d in self.decisions if d["scope"] == "day"] or [None])[-1]

    def ratings(self):
        return [b["stands"] for b in self.blocks if b["stands"] is not None and b["stands"] >= 0]

    def unanswered(self):
        return sum(b["stands"] == -1 for b in self.blocks)

    def waking(self):
        return self.morning["waking"] if self.morning and self.morning["waking"] is not None else -1

    def standing(self, begun):
        """Of the next block, what stood when block @begun (from 0) began: the last of each block rated."""
        last = collections.OrderedDict()
        for n, d in self.decisions:
            if d["scope"] == "block" and d["rule"] != "too-short" and n <= begun:
                last[d["block"] if d["block"] else object()] = d
        return last.values()

    def shortened(self):
        return sum(any(d["rule"] in TIGHTENS and d["after_ms"] < d["before_ms"] for d in self.standing(i))
                   for i, b in enumerate(self.blocks) if not b["match"] and not b["dropped"])

    def stopped(self):
        return any(d["rule"] in ("above-stop", "tightened-thrice") for d in self.standing(len(self.blocks)))


def at(r):
    return round(datetime.datetime.fromisoformat(r["at"]).timestamp() * 1000)


def read(path):
    """Its days by their date, and its records of plans."""
    days, plans = {}, []
    for line in path.read_text().splitlines():
        r = json.loads(line)
        if r["kind"] == "plan":
            plans.append(r)
        elif "day" in r:
            day = datetime.date.fromisoformat(r["day"])
            days.setdefault(day, Day(day)).take(r)
    return days, plans
