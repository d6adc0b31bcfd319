# SPDX-License-Identifier: GPL-3.0-or-later
"""The built program where the desktop fails it.

usage: faults.py SCENARIO CARPACE HAND FOLDER
"""
import contextlib
import fcntl
import os
import signal
import sqlite3
import sys
import time

from gi.repository import Gio, GLib

from desktop import GTK_ITSELF, HERE, Desktop, Failed, no_complaints, wait
from faces import Faces
from hand import Hand
from product import SHORT_RUNS as PLAN, Carpace, long_rests, prepared

MANIFEST = HERE.parents[1] / "src/data/flatpak/org.carpace.Carpace.yaml"
AFTER_MS = 3000
# A command goes through the bus and the program's one loop; on a busy machine of two cores a few frames are noise.
# Blocking on a frozen server would take 25 s.
SLOWEST_ANSWER_S = 2.0
HOST_WAITED_S = 4  # longer than a tray's host is waited for (ui/faces.c): the first window stands there instead of today's by then


def practise_until_rest_is_due(carpace, hand):
    """After a rest that was interrupted it is due a minute later at the earliest."""
    before_ms = carpace.status()["active_ms"]
    hand.move()
    carpace.until("enough practice", lambda status: status["active_ms"] >= before_ms + AFTER_MS + 500)
    hand.still()
    return carpace.until_state("rest-due", patience_s=180)


def slowest_answer_s(carpace, seconds):
    end, slowest = time.monotonic() + seconds, 0.0
    while time.monotonic() < end:
        began = time.monotonic()
        carpace.told("status")
        slowest = max(slowest, time.monotonic() - began)
    return slowest


def button(faces, words):
    return faces.find(words, "push button")


def tray_host_late(desktop, program, hand_program):
    carpace, faces = prepared(desktop, program), Faces()
    assert not desktop.bus.tray_item()
    wait("the window of today", lambda: button(faces, "Start block 1"))
    desktop.picture("no-tray-host")
    desktop.start_tray_host()
    carpace.row("Start block 1")
    carpace.until_state("practising")
    wait("the window's end", lambda: not button(faces, "Rest now"))
    desktop.picture("tray-host-came")
    desktop.stop("tray-host", signal.SIGKILL)
    wait("no tray host", lambda: not desktop.bus.has_tray_host())
    wait("the window again", lambda: button(faces, "Rest now"))
    desktop.start_tray_host()
    carpace.row("End block 1")
    desktop.picture("tray-host-returned")


def tray_host_never(desktop, program, hand_program):
    carpace, faces = Carpace(desktop, program), Faces()
    carpace.start()
    wait("the first window", lambda: button(faces, "None of these"))
    time.sleep(HOST_WAITED_S)
    carpace.told("plan", "use", PLAN)
    carpace.told("caution", "none")
    carpace.command("morning", "0", "usual", "--now", "0")
    desktop.windows.click(*wait("the window of today", lambda: faces.settled("Start block 1", "push button")))
    carpace.until_state("practising")
    wait("what can be done in a block", lambda: button(faces, "Rest now"))
    desktop.picture("window-of-today")
    desktop.windows.click(*faces.middle(button(faces, "Menu")))
    quit_row = wait("quit in the menu", lambda: faces.find("Quit", "menu item"))
    desktop.windows.click(*faces.middle(quit_row))
    assert carpace.gone() == 0


def tray_host_blind(desktop, program, hand_program):
    """A watcher that takes the item, and says that there is a host, which never asks for it: the window of today stays. One that
    asks ends it; where that one goes, it comes again."""
    name, path = "org.kde.StatusNotifierWatcher", "/StatusNotifierWatcher"
    desktop.spawn("watcher", ["/usr/bin/python3", HERE / "blind_watcher.py"])
    desktop.started("watcher", "a watcher", lambda: desktop.bus.has_tray_host())
    faces = (prepared(desktop, program), Faces())[1]
    [item] = wait("its item, registered", lambda: desktop.bus.get(name, path, name, "RegisteredStatusNotifierItems"))
    wait("the window of today", lambda: button(faces, "Start block 1"))
    desktop.picture("no-host-asked")
    for _ in range(2):
        host = desktop.bus.connect()
        host.call_sync(item[:item.index("/")], item[item.index("/"):], "org.freedesktop.DBus.Properties", "GetAll",
                       GLib.Variant("(s)", ("org.kde.StatusNotifierItem",)), None, Gio.DBusCallFlags.NONE, -1, None)
        wait("the window's end", lambda: not button(faces, "Start block 1"))
        desktop.picture("a-host-asked")
        host.close_sync(None)
        wait("the window again", lambda: button(faces, "Start block 1"))


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
    rest = wait("the rest card in place of the notification", lambda: faces.settled("Rest now", "push button"))
    desktop.picture("no-notification-server")
    desktop.windows.click(*rest)
    carpace.until_state("resting")
    carpace.until_state("gap")
    desktop.start_notifications()
    practise_until_rest_is_due(carpace, hand)
    wait("an offer on the server that came", lambda: desktop.bus.notice("Rest now"))


def put_away_by_keys(desktop, faces):
    """The chord, then Escape: it holds for 8 s only, which a busy machine may take to show what to press."""
    for _ in range(5):
        desktop.windows.key("Control_L", "Alt_L", "h")
        wait("the keys on the card", lambda: faces.find("Now press", "label"))
        desktop.windows.key("Escape")
        try:
            return wait("the card to be put away", lambda: not faces.find("Rest now", "push button"), 5)
        except Failed:
            pass
    raise Failed("Escape after the chord did not put the card away")


def notifications_mute(desktop, program, hand_program):
    desktop.spawn("notifications", ["/usr/bin/python3", HERE / "mute_server.py"])
    desktop.started("notifications", "a server without answers",
                    lambda: desktop.bus.has_owner("org.freedesktop.Notifications"))
    carpace, hand, faces = prepared(desktop, program, long_rests(desktop)), Hand(desktop, hand_program), Faces()
    for time_s in ("the first time", "from then on"):
        carpace.told("start")  # in a new block a rest is due at once; after one that was interrupted, a minute later
        practise_until_rest_is_due(carpace, hand)
        rest = wait(f"the card with the answers, {time_s}", lambda: faces.settled("Rest now", "push button"))
        desktop.picture("card-with-the-answers")
        if time_s == "the first time":
            desktop.windows.click(*rest)
        else:
            assert not carpace.item().find("Show the card again")
            put_away_by_keys(desktop, faces)
            carpace.row("Show the card again (Ctrl+Alt+H)")
            rest = wait("the card again", lambda: faces.settled("Rest now", "push button"))
            desktop.picture("card-again")
            wait("the row to go", lambda: not carpace.item().find("Show the card again"))
            desktop.windows.click(*rest)
        carpace.until_state("resting")
        if time_s == "the first time":
            carpace.told("end")
            carpace.told("rate", "0")
    told = [notice for notice in desktop.bus.notices if "Rest now" in notice.actions.values() or "Rest " in notice.title]
    assert len(told) <= 1, [notice.title for notice in told]
    assert not desktop.bus.notice("Rest "), "an offer without answers stayed"


def notifications_restarted(desktop, program, hand_program):
    carpace, hand = prepared(desktop, program), Hand(desktop, hand_program)
    carpace.told("start")
    status, _out, why = carpace.command("start")
    assert status == 1 and why, (status, why)
    told = wait("what a refused start is told in", lambda: desktop.bus.notice("Nothing has started"))
    assert told.body == why.strip(), (told.body, why)
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


def plan_damaged(desktop, program, hand_program):
    """The day that was under way is gone on with though the plan in use cannot be read, and once it can again."""
    carpace = prepared(desktop, program)
    plan, = (desktop.home / "config/carpace/plans").glob("*.plan.yaml")
    whole = plan.read_text()
    carpace.told("start")
    carpace.until("a minute's worth of block", lambda status: status["state"] == "practising")
    carpace.told("caution", "numb")
    carpace.kill()
    plan.write_text("{")
    carpace.start()
    carpace.until_state("day-done")
    status, _, err = carpace.command("start")
    assert status == 1, err
    plan.write_text(whole)
    carpace.command("plan", "use", plan.name.removesuffix(".plan.yaml"))
    carpace.until_state("day-done")
    status, _, err = carpace.command("start")
    assert status == 1, err


def signals(desktop, program, hand_program):
    """Whatever ends it, what is open is closed in the diary first."""
    ending = (signal.SIGTERM, signal.SIGINT, signal.SIGHUP, signal.SIGXFSZ)
    for number in ending:  # a test under nohup would hand on that some are ignored
        signal.signal(number, signal.SIG_DFL)
    carpace, hand = prepared(desktop, program), Hand(desktop, hand_program)
    carpace.told("start")
    for number in ending:
        hand.move()
        carpace.until_state("practising")
        os.kill(carpace.pid, number)
        assert carpace.gone() == 0, number
        hand.still()
        with contextlib.closing(sqlite3.connect(desktop.home / "state" / "carpace" / "diary.sqlite")) as diary:
            runs = diary.execute("SELECT ended_well FROM run ORDER BY id").fetchall()
        assert runs[-1] == (1,), (number, runs)
        carpace.start()
        carpace.command("continue")  # where it waits for that


def diary_held(desktop, program, hand_program):
    """Another program holds the diary's lock: every face says so, nothing is lost, and it is kept once the lock is free."""
    carpace, faces = Carpace(desktop, program), Faces()
    carpace.told("plan", "use", PLAN)
    (desktop.home / "state/carpace").mkdir(mode=0o700, exist_ok=True)
    lock = open(desktop.home / "state/carpace/diary.sqlite.lock", "w")
    fcntl.flock(lock, fcntl.LOCK_EX)
    carpace.start()
    carpace.told("caution", "none")
    assert "the diary is not being kept" in carpace.told("status")
    wait("the tray's row", lambda: carpace.item().find("the diary is not being kept"))
    wait("the notice's window", lambda: faces.find("Another program holds the diary"))
    desktop.picture("held")
    assert not carpace.diary("caution")
    lock.close()
    wait("the diary kept", lambda: "the diary is not being kept" not in carpace.told("status"))
    assert carpace.diary("caution")


# Longer than any machine needs for a new bus.
SHORT_BLOCKS = """carpace-plan: 1
name: Short blocks
day: {dose: 150 s, between-blocks: 0 s}
block-limits: {finish-run: 5 s, shortest: 1 min}
drills: [{id: corners, movement: small-turn}]
blocks: [{limit: 75 s, drills: [corners]}, {limit: 75 s, drills: [corners]}]
"""


def bus_restarted(desktop, program, hand_program):
    """The session bus goes and comes back in a run: practice goes on, and at the block's end all of it is on the new bus."""
    plan, log = desktop.write("short.plan.yaml", SHORT_BLOCKS), desktop.folder / "carpace.log"
    carpace, hand = prepared(desktop, program, plan), Hand(desktop, hand_program)
    carpace.told("start")
    hand.move()
    before = carpace.until("some practice", lambda status: status["active_ms"] >= 2000)
    pid = carpace.pid
    for part in ("tray-host", "notifications", "bus"):
        desktop.stop(part, signal.SIGKILL)
    (desktop.home / "run/bus").unlink(missing_ok=True)
    wait("that it is told", lambda: "The session bus is gone" in log.read_text())
    wait("the window of today", lambda: desktop.windows.of_class("carpace"))
    desktop.picture("no-bus")
    desktop.start_bus()
    desktop.start_notifications()
    desktop.start_tray_host()
    wait("that it is told", lambda: "The session bus is there now" in log.read_text())
    assert not desktop.bus.has_owner("org.carpace.Carpace"), "a run was cut"
    wait("its name", lambda: desktop.bus.has_owner("org.carpace.Carpace"), patience_s=300)
    hand.still()
    assert desktop.bus.pid_of("org.carpace.Carpace") == pid, "it is another process"
    carpace.until_state("rating-due")
    carpace.told("rate", "0")
    [block] = [row for row in carpace.diary("block") if row["what"] == "ended"]
    assert block["active_ms"] >= 75000 > before["active_ms"] and not carpace.diary("fault"), block
    wait("the tray's row", lambda: carpace.item().find("Diary…"))
    wait("a notice", lambda: desktop.bus.notices)
    desktop.picture("bus-came-back")


def day_taken_in(desktop, program, hand_program):
    """Today comes from a CSV file: what is said of it is what a start says, on the first one, too."""
    carpace, kept = prepared(desktop, program), desktop.folder / "day.csv"
    carpace.told("export", kept)
    carpace.told("quit")
    assert carpace.gone() == 0
    carpace.told("erase", "--yes")
    carpace.told("import", kept, "--mine")
    carpace.start()
    assert "taken in from a file" in carpace.told("status")
    wait("the menu's row", lambda: carpace.item().find("Today is over; it was taken in from a file"))
    assert not carpace.item().find("Start a block")
    for _ in range(2):
        status, _, refused = carpace.command("start")
        assert status == 1 and "practise from the next practice day" in refused, refused
    carpace.command()
    wait("the window of today", lambda: desktop.windows.of_class("carpace"))
    desktop.picture("taken-in")


def names_through(address):
    """The names that are seen by whoever connects at @address."""
    flags = Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION
    bus = Gio.DBusConnection.new_for_address_sync(address, flags, None, None)
    return set(bus.call_sync("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "ListNames", None, None,
                             Gio.DBusCallFlags.NONE, -1, None).unpack()[0])


def sandboxed(desktop, program, hand_program):
    """Under exactly the rules for the bus that the Flatpak manifest asks for: tray, notices, commands."""
    import yaml
    manifest = yaml.safe_load(MANIFEST.read_text())
    talks = [word.split("=", 1)[1] for word in manifest["finish-args"] if word.startswith("--talk-name=")]
    path = desktop.home / "run" / "sandbox-bus"
    own = manifest["id"]
    # What Flatpak itself adds: its own name and what is below it, and the portals.
    rules = [f"--own={own}", f"--own={own}.*", "--call=org.freedesktop.portal.*=*",
             "--broadcast=org.freedesktop.portal.*=@/org/freedesktop/portal/*", *(f"--talk={name}" for name in talks)]
    desktop.spawn("sandbox-bus", ["xdg-dbus-proxy", desktop.environment["DBUS_SESSION_BUS_ADDRESS"], path, "--filter", *rules])
    desktop.started("sandbox-bus", "the sandbox's bus", path.exists)
    desktop.environment["DBUS_SESSION_BUS_ADDRESS"] = f"unix:path={path}"

    carpace, hand = prepared(desktop, program), Hand(desktop, hand_program)
    carpace.row("Start block 1")
    assert carpace.item().get("IconName").startswith(f"{own}-"), carpace.item().get("IconName")
    practise_until_rest_is_due(carpace, hand)
    wait("an offer", lambda: desktop.bus.notice("Rest now"))
    wait("its window", lambda: desktop.windows.of_class("dunst"))
    desktop.picture("sandboxed")
    seen = {name for name in names_through(desktop.environment["DBUS_SESSION_BUS_ADDRESS"]) if not name.startswith(":")}
    assert own in seen and seen <= {own, "org.freedesktop.DBus", *talks}, seen  # the rules hold
    carpace.told("quit")
    assert carpace.gone() == 0


SCENARIOS = {
    "tray-host-late": (tray_host_late, {"tray_host": False}),
    "tray-host-never": (tray_host_never, {"tray_host": False}),
    "notifications-frozen": (notifications_frozen, {}),
    "notifications-absent": (notifications_absent, {"notifications": False}),
    "notifications-mute": (notifications_mute, {"notifications": False}),
    "tray-host-blind": (tray_host_blind, {"tray_host": False}),
    "notifications-restarted": (notifications_restarted, {}),
    "signals": (signals, {}),
    "plan-damaged": (plan_damaged, {}),
    "diary-held": (diary_held, {}),
    "bus-restarted": (bus_restarted, {}),
    "day-taken-in": (day_taken_in, {}),
    "sandboxed": (sandboxed, {}),
}


def main(scenario, program, hand_program, folder):
    run, parts = SCENARIOS[scenario]
    with Desktop("xfwm4", folder, **parts) as desktop:
        run(desktop, program, hand_program)
        no_complaints(desktop.folder, ("CRITICAL", "Sanitizer"), [GTK_ITSELF])


main(*sys.argv[1:])
