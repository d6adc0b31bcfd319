# SPDX-License-Identifier: GPL-3.0-or-later
"""A plan opened as a file manager opens it: by its type. It is told in words and asked about; only a yes uses it, and
what the coach fixed holds from then on. By the mouse alone or by keys alone.

usage: plan_opened.py mouse|keys CARPACE DATA-FOLDER DESKTOP-FILE FOLDER [LOOK...]   (a look: dark, double)
"""
import pathlib
import sys

import gi
gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, GLib  # noqa: E402

from desktop import Desktop, no_complaints, wait
from product import Carpace
from today import Person, controls_have_names_and_room, in_use

LOOKS = {"dark": {"GTK_THEME": "Adwaita:dark"}, "double": {"GDK_SCALE": "2"}}
TYPE = "application/x-carpace-plan+yaml"
PLAN = """carpace-plan: 1
name: Team quarters
version: {version}
note: For weeks 3 and 4
day: {{dose: 40 min, between-blocks: 30 min}}
micro-rest: {{after: 6 min}}
next-day: {{at-most: !fixed {most}}}
drills: [{{id: corners, name: Corners, movement: small-turn}}]
blocks: [{{limit: 20 min, drills: [corners]}}, {{limit: 20 min, drills: [corners]}}]
"""


def install(desktop, program, data, desktop_file):
    """The type, and who opens it, where this desktop looks for them; the program by its name."""
    share, tools = desktop.home / "data", desktop.home / "bin"
    (share / "mime/packages").mkdir(parents=True)
    (share / "applications").mkdir(parents=True)
    (share / "mime/packages/org.carpace.Carpace.xml").write_bytes((data / "org.carpace.Carpace.mime.xml").read_bytes())
    (share / "applications/org.carpace.Carpace.Plan.desktop").write_bytes(pathlib.Path(desktop_file).read_bytes())
    tools.mkdir()
    (tools / "carpace").symlink_to(pathlib.Path(program).resolve())
    desktop.environment["PATH"] = f"{tools}:{desktop.environment['PATH']}"
    for words in (["update-mime-database", share / "mime"], ["update-desktop-database", share / "applications"]):
        status, _out, err = desktop.run(words)
        assert status == 0, err


def opened(desktop, path):
    """By its type, as a file manager does it."""
    desktop.spawn("opener", ["gio", "open", path])


def says(person, words):
    return wait(f"{words!r} in the window", lambda: person.faces.find(words, "label"))


def names_of_both(faces):
    """Of the tray program's windows, too: what anything on screen is called."""
    for program in faces.walk(Atspi.get_desktop(0), depth=24):
        for widget in faces.walk(program):
            try:
                yield widget.get_name() or ""
            except GLib.Error:
                continue


def gone(person):
    wait("the window's end", lambda: not person.faces.find("", "frame"))


def day(desktop, program, way, data, desktop_file):
    carpace, person = Carpace(desktop, program), Person(desktop, way)
    install(desktop, program, data, desktop_file)
    plan = desktop.write("team.plan.yaml", PLAN.format(version=1, most="90 min"))
    status, out, _err = desktop.run(["gio", "info", "-a", "standard::content-type", plan])
    assert status == 0 and TYPE in out, out
    carpace.told("plan", "use", "two-halves")

    opened(desktop, plan)
    says(person, "Team quarters, version 1")
    for words in ("40 min a day in two halves, 30 min between them; at most 1 h 30 min.", "Rests of 30 s every 6 min.",
                  "Fixed by whoever gives it: most practice time a day: 1 h 30 min.",
                  "In place of “Two halves”, the plan in use, it changes:", "practice time a day: 1 h, then 40 min"):
        says(person, words)
    controls_have_names_and_room(person.faces)
    desktop.picture("asked")
    person.press("Not now")
    gone(person)
    assert in_use(carpace, "Two halves")

    opened(desktop, plan)
    person.press("Use this plan")
    says(person, "“Team quarters” is the plan in use, from the next practice day on.")
    controls_have_names_and_room(person.faces)
    desktop.picture("in-use")
    person.press("Close")
    gone(person)
    assert in_use(carpace, "Team quarters")

    # The player's own copy, looser than what is fixed: told in the window, and nothing has changed.
    plan.write_text(PLAN.format(version=1, most="2 h"))
    opened(desktop, plan)
    person.press("Use this plan")
    says(person, "next-day.at-most is higher than the plan you were given fixes; it can be 1 h 30 min or less")
    desktop.picture("refused")
    person.press("Close")
    gone(person)

    plan.write_text(PLAN.format(version=1, most="90"))
    opened(desktop, plan)
    says(person, "next-day.at-most has a number without its unit, “90”; add s, min or h")
    assert not person.faces.find("Use this plan")
    desktop.picture("faulty")
    desktop.windows.key("Escape")
    gone(person)
    assert in_use(carpace, "Team quarters")

    # On air it says nothing of a hand; whoever streams sees why later.
    carpace.start()
    carpace.told("on-air", "on")
    plan.write_text(PLAN.format(version=2, most="60 min"))
    opened(desktop, plan)
    wait("that it says nothing", lambda: "Not possible now; off air Carpace says why." in names_of_both(person.faces))
    assert not any("Team quarters" in name for name in names_of_both(person.faces))
    desktop.picture("on-air")
    carpace.told("on-air", "off")
    carpace.told("quit")
    assert carpace.gone() == 0


def main(way, program, data, desktop_file, folder, *looks):
    environment = {name: value for look in looks for name, value in LOOKS[look].items()}
    size = "2560x1600" if "double" in looks else "1280x800"
    with Desktop("xfwm4", folder, size=size, tray_host=False, environment=environment) as desktop:
        day(desktop, program, way, pathlib.Path(data), desktop_file)
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
