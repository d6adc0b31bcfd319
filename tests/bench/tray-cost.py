# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tray program costs, as ratios to a bare tray program in the same run.

usage: tray-cost.py BARE-TRAY CARPACE HAND FOLDER [SECONDS]
Printed, never judged: memory and time to the tray item against the bare
program's; wake-ups a minute in each state of a practice, watched for SECONDS
(60). They are counted as voluntary context switches, of the main loop's thread
and of all threads: a redraw's waits for the X server count, too.
"""
import pathlib
import re
import statistics
import sys
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "desktop"))
from desktop import Desktop, wait  # noqa: E402
from hand import Hand  # noqa: E402
from product import Carpace  # noqa: E402

STARTS = 9
FAST = 1000  # motions a second
AFTER_A_CHANGE_S = 10  # what a change of state brings is not what a state costs
PLAN = pathlib.Path(__file__).with_name("cost.plan.yaml")


def memory_kib(pid):
    text = pathlib.Path(f"/proc/{pid}/smaps_rollup").read_text()
    return {name: int(re.search(rf"^{name}:\s+(\d+)", text, re.M)[1]) for name in ("Rss", "Pss", "Private_Dirty")}


def switches(pid):
    """(of the main loop's thread, of all threads)"""
    each = {}
    for status in pathlib.Path(f"/proc/{pid}/task").glob("*/status"):
        each[status.parent.name] = int(re.search(r"^voluntary_ctxt_switches:\s+(\d+)", status.read_text(), re.M)[1])
    return each[str(pid)], sum(each.values())


def cpu_ticks(pid):
    fields = pathlib.Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
    return int(fields[11]) + int(fields[12])


def settled(pid):
    """Waits until nothing wakes the program for a second."""
    before = None
    while before != (before := switches(pid)):
        time.sleep(1)


def one_start(desktop, program, word):
    """ms from exec to the registered tray item, and the memory once settled."""
    began = time.monotonic()
    child = desktop.spawn(word, [program])
    item = None
    while item is None:
        item = next((name for name, _path in desktop.bus.tray_items() if child.pid == desktop.bus.pid_of(name)), None)
        time.sleep(0.0005)
    took_ms = (time.monotonic() - began) * 1000
    settled(child.pid)
    memory = memory_kib(child.pid)
    desktop.stop(word)
    wait("the item's end", lambda: not desktop.bus.tray_items())
    return took_ms, memory


def answered(desktop, program):
    """An ordinary start is measured: the first window's and the morning's questions have their answers."""
    carpace = Carpace(desktop, program)
    carpace.start()
    carpace.told("plan", "use", PLAN)
    carpace.told("caution", "none")
    carpace.command("morning", "0", "usual", "--now", "0")
    carpace.until_state("waiting")
    desktop.stop("carpace")
    wait("the item's end", lambda: not desktop.bus.tray_items())


def compare_starts(desktop, bare, carpace):
    answered(desktop, carpace)
    figures = {"bare-tray": [], "carpace": []}
    for _ in range(STARTS):
        figures["bare-tray"].append(one_start(desktop, bare, "bare-tray"))
        figures["carpace"].append(one_start(desktop, carpace, "carpace"))
    rows = {"start to tray item, ms": lambda figure: figure[0]}
    for name in ("Rss", "Pss", "Private_Dirty"):
        rows[f"{name}, KiB"] = lambda figure, name=name: figure[1][name]
    print(f"{'median of ' + str(STARTS):28}{'bare':>10}{'carpace':>10}{'ratio':>8}")
    for title, pick in rows.items():
        bare_figure, own = (statistics.median(map(pick, figures[who])) for who in ("bare-tray", "carpace"))
        print(f"{title:28}{bare_figure:10.0f}{own:10.0f}{own / bare_figure:8.2f}")


def watch(title, pid, seconds):
    before, ticks, began = switches(pid), cpu_ticks(pid), time.monotonic()
    time.sleep(seconds)
    minutes = (time.monotonic() - began) / 60
    loop, all_threads = (max(0, now - then) / minutes for now, then in zip(switches(pid), before))
    print(f"{title:34}{loop:10.1f}{all_threads:10.1f}{(cpu_ticks(pid) - ticks) * 10 / minutes:10.0f}", flush=True)


def wake_ups(desktop, program, hand_program, seconds):
    carpace, hand = Carpace(desktop, program), Hand(desktop, hand_program)
    print(f"\n{'a minute, over ' + str(seconds) + ' s':34}{'loop':>10}{'threads':>10}{'CPU ms':>10}")
    carpace.start()
    settled(carpace.pid)
    watch("off", carpace.pid, seconds)
    carpace.told("plan", "use", PLAN)
    carpace.command("morning", "0", "usual", "--now", "0")
    carpace.until_state("waiting")
    settled(carpace.pid)
    watch("waiting", carpace.pid, seconds)
    hand.move(rate=FAST)
    time.sleep(1)
    watch(f"waiting, pointer at {FAST}/s", carpace.pid, seconds)
    hand.still()
    for rate in (Hand.RATE, FAST):
        carpace.told("start") if carpace.status()["state"] != "gap" else None
        hand.move(rate=rate)
        carpace.until_state("practising")
        time.sleep(AFTER_A_CHANGE_S)
        watch(f"practising, pointer at {rate}/s", carpace.pid, seconds)
        hand.still()
        carpace.until_state("gap")
    carpace.told("rest")
    carpace.until_state("resting")
    time.sleep(AFTER_A_CHANGE_S)
    watch("a countdown on screen", carpace.pid, min(seconds, 30))


def main(bare, carpace, hand_program, folder, seconds="60"):
    with Desktop("xfwm4", folder) as desktop:
        compare_starts(desktop, bare, carpace)
        wake_ups(desktop, carpace, hand_program, int(seconds))


main(*sys.argv[1:])
