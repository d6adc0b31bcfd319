# SPDX-License-Identifier: GPL-3.0-or-later
"""A newcomer's first evening with the installed program: started from its desktop entry, the first questions answered, a
practice window chosen by a click, a rest, the tap at a block's end, and the next block asked for as that window comes to
the front. The plan is the one that is proposed to a newcomer, with seconds for its minutes.

It would catch a desktop entry that starts nothing, a plan or file that is not in the package, and a dose that needs more
than the first window and one click to come about.

usage: newcomer.py CARPACE HAND FOLDER
"""
import pathlib
import sys

from desktop import HERE, Desktop, no_complaints, wait
from first_minute import ANSWERS, FirstMinute
from hand import Hand
from practice_window import ELSEWHERE, IN_IT, client, cues, go_to

NAME = "org.carpace.Carpace"
# Long enough for a slow machine to look: a rest is taken by keeping still, too, and practice goes on while it looks.
SHORTER = {"dose: 30 min": "dose: 28 s", "at-most: 45 min": "at-most: 42 s", "limit: 15 min": "limit: 14 s",
           "after: 6 min": "after: 4 s", "length: 30 s": "length: 12 s", "between-blocks: 45 min": "between-blocks: 1 s",
           "\nmicro-rest:": "\ngap-after: 1 s\nrun-min: 1 s\n"
                            "block-limits: {finish-run: 60 s, round-down-to: 1 s, shortest: 2 s}\nmicro-rest:"}


def in_seconds(desktop, bundled):
    text = bundled.read_text()
    for longer, shorter in SHORTER.items():
        assert longer in text, longer
        text = text.replace(longer, shorter)
    return desktop.write(f"plans/{bundled.name}", text).parent


class Newcomer(FirstMinute):
    def __init__(self, desktop, program, hand_program):
        super().__init__(desktop, program)
        plans = pathlib.Path(program).parents[1] / "share/carpace/plans"
        desktop.environment["CARPACE_PLANS"] = str(in_seconds(desktop, plans / "first-week.plan.yaml"))
        self.hand = Hand(desktop, hand_program)

    def seen(self, words):
        self.step(words)
        self.desktop.picture(words.replace(" ", "-"))

    def starts_it(self):
        self.desktop.spawn("carpace", [sys.executable, HERE / "launch.py", f"{NAME}.desktop"])
        wait("carpace on the bus", lambda: self.desktop.bus.has_owner(NAME))
        wait("the first question", lambda: self.faces.settled(*ANSWERS[0]))
        self.seen("first questions")

    def answers(self):
        for name, role in ANSWERS[:-1]:
            self.click(name, role)
        wait("a plan", lambda: self.faces.find("A first week", "label"))
        self.seen("a plan is proposed")
        self.click(*ANSWERS[-1])
        status = self.carpace.until_state("practising", "gap")
        assert status["plan"] == "A first week" and status["block"] == 1, status
        self.seen("begun")

    def chooses_its_window(self):
        client(self.desktop, "Practised", 50)
        client(self.desktop, "Other", 650)
        self.carpace.row("Practise in this window…")
        wait("how it is chosen", lambda: self.desktop.windows.titled("Carpace"))
        wait("the pointer to be held", self.desktop.windows.pointer_is_held)
        self.seen("choosing")
        go_to(self.desktop, IN_IT)
        wait("that it is told", lambda: self.faces.find("Practice window: Practised"))
        self.seen("chosen")

    def practises(self):
        """What the hand does elsewhere is a gap, and no practice."""
        go_to(self.desktop, IN_IT)
        self.hand.move(*IN_IT)
        self.carpace.until("practice", lambda status: status["state"] == "practising" and status["active_ms"] > 1000)
        self.seen("practising")
        go_to(self.desktop, ELSEWHERE)
        self.hand.move(*ELSEWHERE)
        away = self.carpace.until_state("gap")
        self.seen("elsewhere")
        assert self.carpace.status()["active_ms"] == away["active_ms"]
        go_to(self.desktop, IN_IT)
        self.hand.move(*IN_IT)
        self.carpace.until("a rest due", lambda status: status["active_ms"] >= status["after_ms"])

    def rests(self):
        self.hand.still()
        wait("the offer", lambda: self.desktop.bus.notice("Rest now") and self.desktop.windows.of_class("dunst"))
        self.seen("a rest is offered")
        self.desktop.choose_action("Rest now")
        self.carpace.until_state("resting")
        wait("what to do in it", lambda: self.faces.find("Hold still", "label"))
        self.seen("resting")
        self.carpace.until_state("gap")
        rest = self.carpace.diary("rest")[-1]
        assert (rest["what"], rest["asked"]) == ("taken", True), rest

    def taps(self):
        self.hand.move(*IN_IT)
        self.carpace.until_state("limit-reached")
        self.hand.still()
        wait("the question", lambda: self.faces.settled("1, discomfort", "push button"))
        self.seen("the tap is asked")
        self.click("1, discomfort", "push button")
        wait("the rating", lambda: [row["discomfort"] for row in self.carpace.diary("rating")] == [1])
        self.seen("tapped")

    def is_asked(self):
        go_to(self.desktop, ELSEWHERE)
        self.carpace.until("the wait's end", lambda status: status["state"] == "waiting" and
                           not (status["next"] or {}).get("cue") == "next-block")
        go_to(self.desktop, IN_IT)
        wait("the question", lambda: ("unstarted", "asked") in cues(self.carpace))
        wait("its notice", lambda: self.desktop.bus.notice("practice window is in front"))
        self.seen("asked as the window comes to the front")
        self.desktop.choose_action("Start block 2 (Your practice window is in front)")  # not the other notice's
        assert self.carpace.until_state("practising", "gap")["block"] == 2

    def evening(self):
        self.starts_it()
        self.answers()
        self.chooses_its_window()
        self.practises()
        self.rests()
        self.taps()
        self.is_asked()
        self.carpace.row("Quit")
        wait("its end", lambda: not self.desktop.bus.has_owner(NAME))


def main(program, hand_program, folder):
    with Desktop("openbox", folder) as desktop:
        try:
            Newcomer(desktop, program, hand_program).evening()
            no_complaints(desktop.folder)
        except BaseException:
            desktop.picture("where-it-failed")
            raise


main(*sys.argv[1:])
