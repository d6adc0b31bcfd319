# SPDX-License-Identifier: GPL-3.0-or-later
"""A plan whose split nobody has worked out yet, as after an edit: the tray opens it without standing still for it.

usage: split.py CARPACE   on a display and a bus of its own (tests/adapters/with-display)
"""
import os
import pathlib
import sys
import time

import kept

PLAN = """carpace-plan: 1
name: Edited by hand
day: {dose: 30 min, between-blocks: 0 min}
split: quarters
drills:
  - {id: a, movement: small-turn, run: 20 s, efforts: 60 /min, effort-lasts: 0.1 s}
  - {id: b, movement: small-turn, run: 20 s, efforts: 60 /min, effort-lasts: 0.1 s}
  - {id: c, movement: small-turn, run: 60 s, efforts: 90 /min, effort-lasts: 0.1 s}
  - {id: d, movement: small-turn, run: 60 s, efforts: 60 /min, effort-lasts: 0.1 s}
"""


def main(program):
    folder = pathlib.Path(os.environ["XDG_CONFIG_HOME"], "carpace")
    tray = kept.Tray(program)
    tray.told("plan", "use", "two-halves")
    (folder / "plans" / "edited.plan.yaml").write_text(PLAN)
    (folder / "plan-in-use").write_text("edited\n")
    tray.start()
    end = time.monotonic() + kept.PATIENCE_S
    while tray.status()["plan"] != "Edited by hand":
        assert time.monotonic() < end, tray.status()
        time.sleep(0.05)
    assert (folder / "plans" / ".edited.plan.yaml.split").exists()
    tray.told("caution", "none")
    tray.told("start")
    assert tray.status()["block"] == 1, tray.status()
    tray.quit()
    print("opened, and its split kept with it")


main(*sys.argv[1:])
