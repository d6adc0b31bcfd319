# SPDX-License-Identifier: GPL-3.0-or-later
"""A practice window: chosen by a click, then only what the hand does in it counts; a restart keeps it.

usage: practice_window.py WINDOW-MANAGER CARPACE HAND FOLDER
"""
import sys

from desktop import HERE, Desktop, no_complaints, wait
from hand import Hand
from product import Carpace

IN_IT, ELSEWHERE = (250, 300), (850, 300)  # the middles of two windows


def client(desktop, name, x):
    desktop.spawn(name, [sys.executable, HERE / "practice_client.py", name, x, 100])
    wait(name, lambda: desktop.windows.of_class(name.lower()))


def go_to(desktop, place):
    desktop.windows.click(*place)


def cues(carpace):
    return [(row["cue"], row["what"]) for row in carpace.diary("cue")]


def choose(desktop, carpace):
    """By the menu and a click; Escape leaves things as they are."""
    carpace.row("Practise in this window…")
    wait("how it is chosen", lambda: desktop.windows.titled("Carpace"))
    desktop.picture("choosing")
    wait("the pointer to be held", lambda: desktop.windows.pointer_is_held())
    desktop.windows.key("Escape")
    wait("the pointer to be free", lambda: not desktop.windows.pointer_is_held())
    assert "No practice window" in carpace.told("window", "list")
    assert carpace.told("window", "pick")
    wait("the pointer to be held", lambda: desktop.windows.pointer_is_held())
    go_to(desktop, IN_IT)
    wait("the window on the list", lambda: "Practised (program python3" in carpace.told("window", "list"))
    desktop.picture("chosen")


def begins_by_itself(desktop, carpace, file):
    file.write_text(file.read_text().replace("[carpace]\n", "[carpace]\nwindow-starts=true\n"))
    go_to(desktop, ELSEWHERE)
    wait("the setting", lambda: "window-starts=true" in file.read_text())
    for _ in range(20):  # the file is read when the desktop tells of it
        go_to(desktop, IN_IT)
        if wait("a state", lambda: carpace.status()["state"]) == "practising":
            break
        go_to(desktop, ELSEWHERE)
    carpace.until_state("practising")
    wait("that it is told", lambda: ("begun", "shown") in cues(carpace))
    desktop.picture("begun")
    carpace.told("end")
    carpace.until_state("waiting")


def counts_only_there(desktop, carpace, hand):
    go_to(desktop, IN_IT)
    carpace.told("start")
    hand.move(*IN_IT)
    carpace.until("some practice", lambda status: status["active_ms"] > 2000)
    go_to(desktop, ELSEWHERE)
    hand.move(*ELSEWHERE)
    carpace.until_state("gap")
    before = carpace.status()["active_ms"]
    carpace.until("time to go by", lambda status: status["state"] == "gap" and status["active_ms"] == before)
    desktop.picture("away")
    go_to(desktop, IN_IT)
    hand.move(*IN_IT)
    carpace.until_state("practising")
    carpace.until("more of it", lambda status: status["active_ms"] > before + 1000)


def evening(desktop, program, hand_program):
    carpace = Carpace(desktop, program)
    file = desktop.write("config/carpace/settings", "[carpace]\nsound=false\n")
    client(desktop, "Practised", 50)
    client(desktop, "Other", 650)
    carpace.told("plan", "use", "two-halves")
    carpace.start()
    carpace.told("caution", "none")
    carpace.told("morning", "0", "usual", "--now", "0")
    hand = Hand(desktop, hand_program)
    choose(desktop, carpace)
    go_to(desktop, IN_IT)
    wait("the question", lambda: ("unstarted", "asked") in cues(carpace))
    begins_by_itself(desktop, carpace, file)
    counts_only_there(desktop, carpace, hand)
    go_to(desktop, ELSEWHERE)
    hand.move(*ELSEWHERE)
    carpace.until_state("gap")
    carpace.told("quit")
    assert carpace.gone() == 0
    carpace.start()
    assert "Practised" in carpace.told("window", "list")
    carpace.until_state("gap")
    go_to(desktop, IN_IT)
    hand.move(*IN_IT)
    carpace.until_state("practising")
    go_to(desktop, ELSEWHERE)
    carpace.until_state("gap")
    carpace.told("window", "forget", "Practised")
    hand.move(*ELSEWHERE)
    carpace.until_state("practising")
    hand.still()
    carpace.told("quit")
    assert carpace.gone() == 0


def main(window_manager, program, hand_program, folder):
    with Desktop(window_manager, folder) as desktop:
        evening(desktop, program, hand_program)
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
