# SPDX-License-Identifier: GPL-3.0-or-later
"""The built program where the desktop fails it.

usage: faults.py SCENARIO CARPACE HAND FOLDER
"""
import os
import signal
import sys
import time

from desktop import HERE, Desktop, wait
from faces import Faces
from hand import Hand
from product import Carpace

PLAN = HERE / "faults.plan.yaml"
AFTER_MS = 3000
# A command goes through the bus and the program's one loop; on a busy machine of two cores a few frames are noise.
# Blocking on a frozen server would take 25 s.
SLOWEST_ANSWER_S = 2.0


def prepared(desktop, program):
    carpace = Carpace(desktop, program)
    carpace.told("plan", "use", PLAN)
    carpace.start()
    carpace.told("caution", "none")  # the card of a first run would lie above what is looked for
    carpace.command("morning", "0", "usual", "--now", "0")
    return carpace


def practise_until_rest_is_due(carpace, hand):
    before_ms = carpace.status()["active_ms"]
    hand.move()
    carpace.until("enough practice", lambda status: status["active_ms"] >= before_ms + AFTER_MS + 500)
    hand.still()
    return carpace.until_state("rest-due")


def slowest_answer_s(carpace, seconds):
    end, slowest = time.monotonic() + seconds, 0.0
    while time.monotonic() < end:
        began = time.monotonic()
        carpace.told("status")
        slowest = max(slowest, time.monotonic() - began)
    return slowest


def small_window(faces, words):
    return faces.find(words, "push button")


def tray_host_late(desktop, program, hand_program):
    carpace, faces = prepared(desktop, program), Faces()
    assert not desktop.bus.tray_item()
    wait("the small window", lambda: small_window(faces, "Start block 1"))
    desktop.picture("no-tray-host")
    desktop.start_tray_host()
    carpace.row("Start block 1")
    carpace.until_state("practising")
    wait("the small window's end", lambda: not small_window(faces, "End block 1"))
    desktop.picture("tray-host-came")
    desktop.stop("tray-host", signal.SIGKILL)
    wait("no tray host", lambda: not desktop.bus.has_tray_host())
    wait("the small window again", lambda: small_window(faces, "End block 1"))
    desktop.start_tray_host()
    carpace.row("End block 1")
    desktop.picture("tray-host-returned")


def tray_host_never(desktop, program, hand_program):
    carpace, faces = prepared(desktop, program), Faces()
    button = wait("the small window", lambda: small_window(faces, "Start block 1"))
    desktop.windows.click(*faces.middle(button))
    carpace.until_state("practising")
    wait("the small window's other rows", lambda: small_window(faces, "Rest now"))
    desktop.picture("small-window")
    button = wait("quit in the small window", lambda: small_window(faces, "Quit"))
    desktop.windows.click(*faces.middle(button))
    assert carpace.gone() == 0


def notifications_frozen(desktop, program, hand_program):
    carpace, hand = prepared(desktop, program), Hand(desktop, hand_program)
    server = desktop.children["notifications"].pid
    carpace.told("start")
    os.kill(server, signal.SIGSTOP)
    practise_until_rest_is_due(carpace, hand)
    slowest = slowest_answer_s(carpace, 4)
    print(f"slowest answer with a frozen notification server: {slowest * 1000:.0f} ms")
    assert slowest < SLOWEST_ANSWER_S, slowest
    desktop.picture("frozen")
    os.kill(server, signal.SIGCONT)
    carpace.until_state("gap")
    practise_until_rest_is_due(carpace, hand)
    wait("an offer after the thaw", lambda: desktop.bus.notice("Rest now"))
    desktop.picture("thawed")


def notifications_absent(desktop, program, hand_program):
    carpace, hand, faces = prepared(desktop, program), Hand(desktop, hand_program), Faces()
    carpace.told("start")
    practise_until_rest_is_due(carpace, hand)
    assert slowest_answer_s(carpace, 1) < SLOWEST_ANSWER_S
    button = wait("the rest card in place of the notification", lambda: faces.find("Rest now", "push button"))
    desktop.picture("no-notification-server")
    desktop.windows.click(*faces.middle(button))
    carpace.until_state("resting")
    carpace.until_state("gap")
    desktop.start_notifications()
    practise_until_rest_is_due(carpace, hand)
    wait("an offer on the server that came", lambda: desktop.bus.notice("Rest now"))


def notifications_restarted(desktop, program, hand_program):
    carpace, hand = prepared(desktop, program), Hand(desktop, hand_program)
    carpace.told("start")
    practise_until_rest_is_due(carpace, hand)
    first = wait("an offer", lambda: desktop.bus.notice("Rest now"))
    desktop.stop("notifications", signal.SIGKILL)
    wait("the server's end", lambda: not desktop.bus.has_owner("org.freedesktop.Notifications"))
    first.closed = True  # gone with its server, which could not say so
    desktop.start_notifications()
    carpace.until_state("gap")
    practise_until_rest_is_due(carpace, hand)
    wait("an offer on the new server", lambda: desktop.bus.notice("Rest now"))
    desktop.choose_action("Rest now")
    carpace.until_state("resting")


SCENARIOS = {
    "tray-host-late": (tray_host_late, {"tray_host": False}),
    "tray-host-never": (tray_host_never, {"tray_host": False}),
    "notifications-frozen": (notifications_frozen, {}),
    "notifications-absent": (notifications_absent, {"notifications": False}),
    "notifications-restarted": (notifications_restarted, {}),
}


def main(scenario, program, hand_program, folder):
    run, parts = SCENARIOS[scenario]
    with Desktop("xfwm4", folder, **parts) as desktop:
        try:
            run(desktop, program, hand_program)
            log = (desktop.folder / "carpace.log").read_text()
            assert "CRITICAL" not in log and "Sanitizer" not in log, log
        except BaseException:
            desktop.picture("where-it-failed")
            raise


main(*sys.argv[1:])
