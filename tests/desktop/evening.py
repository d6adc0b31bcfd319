# SPDX-License-Identifier: GPL-3.0-or-later
"""A whole practice evening with the built program, on a real desktop, in seconds.

usage: evening.py CARPACE HAND FOLDER WINDOW-MANAGER LOOK...   (a look: dark, double)
"""
import json
import stat
import subprocess
import sys

from desktop import HERE, Desktop, no_complaints, wait
from faces import Faces
from hand import Hand
from product import Carpace

PLAN = HERE / "evening.plan.yaml"
LIMIT_MS = 14000
UP_1_MS = 11000   # 85 % of 14 s, down to the whole second
UP_2_MS = 7000    # 65 % of that
CHORD = ("Control_L", "Alt_L", "h")
LOOKS = {"dark": {"GTK_THEME": "Adwaita:dark"}, "double": {"GDK_SCALE": "2"}}


class Evening:
    def __init__(self, desktop, program, hand_program):
        self.desktop = desktop
        self.carpace = Carpace(desktop, program)
        self.hand = Hand(desktop, hand_program)
        self.faces = Faces(int(desktop.environment.get("GDK_SCALE", "1")))
        self.game = None

    def step(self, name):
        print(f"- {name}", flush=True)

    def begin(self):
        self.step("a plan in use, the tray program, its icon")
        self.carpace.told("plan", "use", PLAN)
        empty = self.desktop.tray_pixels()
        self.carpace.start()
        item = self.carpace.item()
        wait("the menu", lambda: item.find("Quit"))
        assert self.carpace.status()["state"] == "waiting"
        self.icon = self.icon_differs_from(empty)
        self.cautions()
        self.desktop.picture("waiting")

    def cautions(self):
        self.step("the cautions, first of all on a first run")
        wait("the cautions' card", lambda: self.faces.find("None of these", "push button"))
        self.desktop.picture("cautions")
        wait("the cautions' end", self.none_of_these)
        wait("the answer", lambda: self.carpace.diary("caution")[-1:] and self.carpace.diary("caution")[-1]["what"] == "none")

    def none_of_these(self):
        """Presses it until it is gone: a card that has just come takes no press."""
        none = self.faces.find("None of these", "push button")
        if none:
            none.get_action_iface().do_action(0)
        return not none

    def icon_differs_from(self, before):
        wait("another icon in the tray", lambda: self.desktop.tray_pixels() != before)
        return self.desktop.tray_pixels()

    def morning(self):
        self.step("the morning check is asked at the first input")
        self.hand.move()
        wait("the morning's card or cue", lambda: self.faces.find("This morning") or
             self.desktop.bus.notice("This morning"))
        self.desktop.picture("morning")
        self.hand.still()
        self.carpace.told("morning", "0", "usual", "--now", "0")
        wait("the morning's end", lambda: not self.desktop.bus.notice("This morning"))
        assert self.carpace.diary("morning")[-1]["waking"] == 0

    def start_block(self, number):
        self.step(f"block {number}, started from the tray")
        self.carpace.until("the wait's end", lambda status: status["state"] == "waiting" and
                           not (status["next"] or {}).get("cue") == "next-block")
        self.carpace.row(f"Start block {number}")
        status = self.carpace.until_state("practising")
        assert status["block"] == number, status
        return status

    def practise_until(self, what, condition):
        self.hand.move()
        self.carpace.until(what, condition)

    def micro_rest(self):
        self.step("a micro-rest, offered in the gap, taken through the notification server's own action")
        self.practise_until("a rest due", lambda status: status["active_ms"] >= status["after_ms"])
        assert self.carpace.status()["state"] == "practising", "offered inside a run"
        assert not self.desktop.bus.notice("Rest now")
        practising = self.icon_differs_from(self.icon)
        self.desktop.picture("practising")
        self.hand.still()
        self.carpace.until_state("rest-due")
        notice = wait("the offer", lambda: self.desktop.bus.notice("Rest now"))
        assert len(notice.actions) - ("default" in notice.actions) <= 3, notice.actions
        offered = self.icon_differs_from(practising)
        self.desktop.picture("rest-offered")
        self.desktop.choose_action("Rest now")
        self.carpace.until_state("resting")
        wait("the rest card, with the next drill's name as it stands in the plan",
             lambda: self.faces.find("<a href='x'>Slow</a> orbit &lt;"))
        wait("the offer's end", lambda: notice.closed)
        self.icon_differs_from(offered)
        self.desktop.picture("resting")
        self.carpace.until_state("gap")
        taken = self.carpace.diary("rest")[-1]
        assert (taken["what"], taken["asked"], taken["length_ms"]) == ("taken", True, 6000), taken

    def reach_limit(self):
        self.step("the block's limit, in the middle of a run")
        self.practise_until("the limit", lambda status: status["state"] == "limit-reached")
        self.desktop.picture("limit-reached")
        self.carpace.until("overrun", lambda status: status["active_ms"] > status["limit_ms"] + 500)
        self.hand.still()
        self.carpace.until_state("rating-due")

    def rating_square(self, number):
        return wait("the rating card", lambda: self.square(number))

    def square(self, number):
        for role in ("push button", "radio button", "toggle button"):
            for kind, name, widget in self.faces.widgets():
                if kind == role and name.split(",")[0].split(" ")[0].rstrip(".:") == str(number):
                    return widget
        return None

    def rate_by_click(self, number):
        self.step(f"the rating, by one click on {number}")
        x, y = self.faces.middle(self.rating_square(number))
        self.desktop.picture("rating-due")
        wait("a rating that can be clicked", lambda: self.click_until_rated(x, y, number))
        self.desktop.picture("rated")

    def click_until_rated(self, x, y, number):
        """A card takes no click in its first moment: one meant for what lay there before is no answer."""
        self.desktop.windows.click(x, y)
        ratings = self.carpace.diary("rating")
        return ratings and ratings[-1]["discomfort"] == number

    def next_block_is(self, limit_ms, rule):
        status = self.carpace.until("the next block", lambda status: status["state"] == "waiting")
        assert status["limit_ms"] == limit_ms, status
        decision = [row for row in self.carpace.diary("decision") if row["scope"] == "block"][-1]
        assert (decision["rule"], decision["limit_ms"]) == (rule, limit_ms), decision

    def power_cut(self):
        self.step("kill -9 in the middle of a block, and on")
        self.practise_until("some practice", lambda status: status["active_ms"] >= 3000)
        self.hand.still()
        self.carpace.until_state("gap")
        before = self.carpace.status()
        ratings = self.carpace.diary("rating")
        self.carpace.kill()
        self.carpace.start()
        after = self.carpace.until_state("gap")
        assert after["block"] == before["block"] and after["limit_ms"] == before["limit_ms"], (before, after)
        assert abs(after["active_ms"] - before["active_ms"]) <= 1000, (before, after)
        assert self.carpace.diary("rating") == ratings
        self.desktop.picture("after-the-cut")

    def start_game(self):
        self.game = self.desktop.spawn("game", ["/usr/bin/python3", HERE / "grabbing_client.py"],
                                       stdin=subprocess.PIPE)
        wait("a client that grabs the pointer", lambda: self.noticed("ready"))

    def noticed(self, what):
        lines = (self.desktop.folder / "game.log").read_text().splitlines()
        return [event for event in map(json.loads, lines) if event["what"] == what]

    def rate_by_chord(self, number):
        self.step(f"the rating inside a client that grabs the pointer, by one chord and {number}")
        before = len(self.noticed("key"))
        x, y = self.faces.middle(self.rating_square(number))
        cards = self.desktop.windows.of_class("carpace")
        wait("the card above the full-screen client",
             lambda: any(self.desktop.windows.is_on_top(card, x, y) for card in cards))
        self.desktop.picture("rating-in-full-screen")
        self.desktop.windows.key(*CHORD)
        wait("the card to be armed", lambda: self.faces.find("Now press"))
        self.desktop.picture("chord")
        self.desktop.windows.key(str(number))
        wait("the rating", lambda: self.carpace.diary("rating")[-1]["discomfort"] == number)
        leaked = [event for event in self.noticed("key")[before:] if event["symbol"] == ord(str(number))]
        assert not leaked, "the digit reached the game"
        lost = [event for event in self.noticed("focus-out") if event["mode"] == 0]
        assert not lost, f"the game lost the focus: {lost}"
        print("  the game noticed:", [event for event in self.noticed("focus-out") + self.noticed("visibility")])

    def end_game(self):
        self.game.stdin.close()
        self.game.wait(30)

    def read_back(self):
        self.step("diary and status read back")
        kinds = [(row["kind"], row.get("what")) for row in self.carpace.diary()]
        for expected in (("day", "opened"), ("block", "started"), ("block", "ended"), ("cue", "shown"),
                         ("rest", "taken"), ("rating", None), ("decision", None), ("morning", None)):
            assert expected in kinds, (expected, kinds)
        ended = [row for row in self.carpace.diary("block") if row["what"] == "ended"]
        assert [row["number"] for row in ended] == [1, 2], ended
        assert all(row["active_ms"] >= row["limit_ms"] and row["overrun_ms"] > 0 for row in ended), ended
        assert [row["discomfort"] for row in self.carpace.diary("rating")] == [1, 3]
        why = self.carpace.told("why")
        assert "1" in why and "3" in why, why
        state = self.desktop.home / "state"
        kept = [path for path in state.rglob("*") if path.is_file()]
        assert kept, "nothing was kept"
        for path in kept:
            assert stat.S_IMODE(path.stat().st_mode) == 0o600, path
            assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700, path

    def texts_are_texts(self):
        self.step("a plan's texts are shown as texts")
        shown = self.carpace.item().labels()
        assert "An evening <b>in</b> seconds &amp; more" in shown, shown
        for notice in self.desktop.bus.notices:
            assert "<" not in notice.body + notice.title, notice.body

    def end(self):
        self.step("quit from the tray")
        self.carpace.row("Quit")
        assert self.carpace.gone() == 0
        no_complaints(self.desktop.folder)
        assert self.carpace.command("end")[0] == 3


def main(program, hand_program, folder, window_manager, *looks):
    environment = {name: value for look in looks for name, value in LOOKS[look].items()}
    size = "1920x1200" if "double" in looks else "1280x800"
    with Desktop(window_manager, folder, size=size, environment=environment) as desktop:
        evening = Evening(desktop, program, hand_program)
        evening.begin()
        evening.morning()
        evening.start_block(1)
        evening.micro_rest()
        evening.reach_limit()
        evening.rate_by_click(1)
        evening.next_block_is(UP_1_MS, "up-1")
        evening.start_block(2)
        evening.power_cut()
        evening.start_game()
        evening.reach_limit()
        evening.rate_by_chord(3)
        evening.end_game()
        evening.next_block_is(UP_2_MS, "up-2")
        evening.read_back()
        evening.texts_are_texts()
        evening.end()


main(*sys.argv[1:])
