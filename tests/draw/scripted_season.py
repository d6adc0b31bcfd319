# SPDX-License-Identifier: GPL-3.0-or-later
"""Seasons by script, for what no modelled player does: ratings are corrected, up and down, in
time and late; sites are named; cautions are answered, and closed in each way there is; matches
are played. What is practised, rated and answered is drawn by a seed; nothing here decides a dose."""
import datetime
import random

FIRST = datetime.date(2027, 3, 2)
BEGINS = "at 2027-03-02T18:00:00+01:00 Europe/Berlin"
SITES = ("palm-side", "little-finger-side", "thumb-side", "back-of-forearm", "fingers", "elbow", "shoulder", "neck", "other-hand")
OTHERS = ("numb", "night-pain", "dropping-things", "weak", "locking", "swollen", "not-better")
SAME_DAY = ("injury", "deformed", "cannot-move", "cold-or-pale", "hot-and-feverish")


class Script:
    def __init__(self, seed, days):
        self.random, self.days, self.lines = random.Random(seed), days, [BEGINS]
        self.day, self.s = 0, 0

    def line(self, words):
        at = self.day * 86400 + self.s
        self.lines.append(f"{at // 3600}:{at // 60 % 60:02}:{at % 60:02} {words}")

    def wait(self, least, most):
        self.s += self.random.randint(least, most)

    def chance(self, percent):
        return self.random.random() * 100 < percent

    def morning(self):
        if not self.chance(90):
            return
        now = f" --now {self.random.randint(0, 2)}" if self.chance(50) else ""
        waking = self.random.choice((0,) * 9 + (1, 1, 2, 3)) if self.chance(95) else ""
        stiff = self.random.choice(("usual",) * 10 + ("less", "more"))
        self.line(f"morning {waking} {stiff}{now}" + (" --other-load" if self.chance(8) else "")
                  + (" --pain-relief" if self.chance(8) else "")
                  + (f" --site {self.random.choice(SITES)}" if self.chance(20) else ""))

    def rate(self):
        given = self.random.choice((0,) * 12 + (1,) * 6 + (2, 2, 3, 5, 7))
        self.wait(2, 40)
        self.line(f"rate {given}" + (f" {self.random.choice(SITES)}" if given > 0 and self.chance(80) else ""))
        for _ in range(2):
            if self.chance(35):  # within a minute, or later, when a lower number decides nothing any more
                self.wait(*self.random.choice(((5, 50), (61, 500))))
                given = max(0, min(10, given + self.random.choice((-4, -2, -1, 1, 2))))
                self.line(f"rate {given}" + (f" {self.random.choice(SITES)}" if given > 0 and self.chance(60) else ""))

    def block(self, what):
        self.line(what)
        self.line("input")
        for _ in range(self.random.randint(1, 4)):
            self.wait(200, 700)
            self.line("still")
            self.wait(10, 60)
            self.line("input")
        self.wait(60, 600)
        self.line("end")
        if self.chance(85):
            self.rate()
        self.wait(3000, 4000)

    def caution(self):
        """Also one that a rule has opened is closed; where none is, or too early, it is refused."""
        if self.chance(5):
            self.line("caution " + " ".join(sorted({self.random.choice(SAME_DAY + OTHERS), self.random.choice(OTHERS)})))
        elif self.chance(4):
            self.line("caution")
            self.wait(10, 20)
            self.line("caution none")
        elif self.chance(30):
            self.line("caution " + self.random.choice(("gone", self.seen())))

    def seen(self):
        on = FIRST + datetime.timedelta(self.day - self.random.randint(0, 1))
        return ("seen" + (f" --by {self.random.choice(('physiotherapist', 'doctor'))}" if self.chance(75) else "")
                + (f" --on {on}" if self.chance(60) else "") + (f" --dose {self.random.choice((10, 20, 45, 120))}min" if self.chance(50) else ""))

    def written(self):
        for self.day in range(self.days):
            self.s = 0
            self.morning()
            self.wait(30, 90)
            self.caution()
            for _ in range(self.random.choice((0, 1, 2, 2, 2, 3))):
                self.wait(60, 120)
                self.block("start match" if self.chance(8) else "start")
        return "\n".join(self.lines) + "\n"
