# SPDX-License-Identifier: GPL-3.0-or-later
"""A stream's overlay on a real desktop: its window has names, says what its file says, takes no focus as it comes, and
stands where it was put, after a restart, too.

usage: on_air.py CARPACE FOLDER
"""
import sys

from desktop import Desktop, Failed, no_complaints, wait
from faces import Faces
from product import Carpace

SETTINGS = "config/carpace/settings"
PLAN = """carpace-plan: 1
name: Evening on air
drills:
  - {id: corners, name: Corner to corner, movement: small-turn}
blocks:
  - {limit: 30 min, drills: [corners]}
on-air: {every: 20 min, from: stream, length: 5 min}
"""
MOVED_FIRST = (90, 140, 500, 110)
MOVED = (40, 90, 600, 120)


def overlay(desktop):
    """The one window of that class."""
    found = [window for window in desktop.windows.walk() if "carpace-overlay" in desktop.windows.class_of(window)
             and desktop.windows.visible(window)]
    return found[0] if len(found) == 1 else None


def is_listed(desktop, window):
    """In the window manager's list, under its title."""
    listed = desktop.windows.property(desktop.windows.root, "_NET_CLIENT_LIST")
    return listed is not None and window.id in listed and desktop.windows.title(window) == "Carpace overlay"


def put(desktop, window, place):
    window.configure(**dict(zip(("x", "y", "width", "height"), place)))
    desktop.windows.display.sync()


def written(place):
    return "{2}x{3}+{0}+{1}".format(*place)


def stands(desktop):
    window = overlay(desktop)
    return window and desktop.windows.place(window)


def day(desktop, program):
    line = desktop.home / "stream" / "carpace-overlay.txt"
    line.parent.mkdir()
    file = desktop.write(SETTINGS, f"[carpace]\noverlay-window=true\noverlay-folder={line.parent}\n")
    plan = desktop.write("evening.plan.yaml", PLAN)
    carpace = Carpace(desktop, program)
    carpace.told("plan", "use", plan)
    carpace.start()
    carpace.told("caution", "none")
    assert overlay(desktop) is None
    before = desktop.windows.focused()
    carpace.told("on-air", "on")
    window = wait("the overlay's window", lambda: overlay(desktop))
    assert desktop.windows.class_of(window)[:2] == ["carpace-overlay", "Carpace"], desktop.windows.class_of(window)
    wait("its row in the list of windows", lambda: is_listed(desktop, window))
    faces = Faces()
    wait("its name for assistive technology", lambda: faces.find("Carpace overlay", "frame"))
    wait("the line in the file", lambda: line.exists() and line.read_text().startswith("Intermission in 20 minutes"))
    wait("the same line in the window", lambda: faces.find(line.read_text().strip(), "label"))
    assert desktop.windows.focused() == before, "the window took the focus"
    desktop.picture("overlay")

    # A move in its first moment is the window manager's, as far as the program knows: it may be told or not.
    put(desktop, window, MOVED_FIRST)
    try:
        wait("its first place in the settings", lambda: f"overlay-place={written(MOVED_FIRST)}\n" in file.read_text(), 3)
    except Failed:
        pass
    put(desktop, window, MOVED)
    wait("its place in the settings", lambda: f"overlay-place={written(MOVED)}\n" in file.read_text())
    assert stands(desktop) == MOVED, stands(desktop)
    carpace.told("on-air", "off")
    wait("its end", lambda: overlay(desktop) is None)
    assert line.read_text() == "", line.read_text()
    carpace.told("on-air", "on")
    wait("the window where it was put", lambda: stands(desktop) == MOVED)
    carpace.told("quit")
    assert carpace.gone() == 0
    carpace.start()
    wait("the window where it was put, after a restart", lambda: stands(desktop) == MOVED)
    desktop.picture("after-a-restart")

    file.write_text(file.read_text().replace("600x120+40+90", "480x96+300+200"))
    wait("the window where the file says", lambda: stands(desktop) == (300, 200, 480, 96))
    carpace.told("quit")
    assert carpace.gone() == 0


def main(program, folder):
    with Desktop("xfwm4", folder, tray_host=False) as desktop:
        day(desktop, program)
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
