# SPDX-License-Identifier: GPL-3.0-or-later
"""The planner's pages of weeks and of giving, by keys and the mouse: weeks rehearsed, a day opened, another plan beside
it; a plan given to a team from its list, and what the next version changes.

usage: planner_pages.py CARPACE FOLDER [LOOK...]   (a look: dark, double)
"""
import sys

from desktop import Desktop, no_complaints, wait
from product import Carpace
from today import Person

LOOKS = {"dark": {"GTK_THEME": "Adwaita:dark"}, "double": {"GDK_SCALE": "2"}}
PLAN = """carpace-plan: 1 # ours
name: Team quarters
day: {dose: 60 min}
drills: [{id: corners, name: Corners, movement: small-turn}]
blocks: [{limit: 15 min, drills: [corners]}, {limit: 15 min, drills: [corners]}, {limit: 15 min, drills: [corners]}, {limit: 15 min, drills: [corners]}]
"""
WEEKS = "“Team quarters”, 84 days"


def described(widget):
    return widget.get_description() or ""


def strip(person, name):
    return wait(f"the strip {name!r}", lambda: person.faces.find(name, "drawing area") or person.faces.find(name, "unknown"))


def page(person, name):
    tab = wait(f"the page {name!r}", lambda: person.faces.find(name, "page tab"))
    person.desktop.windows.click(*person.faces.middle(tab))


def controls_have_names_and_room(person, least=44):
    """Of this page's own controls; inside a number's field are buttons that GTK makes."""
    found = [(role, name, widget.get_extents(0)) for role, name, widget in person.faces.widgets()
             if role in ("push button", "combo box", "spin button", "text")]
    assert found
    for role, name, box in found:
        assert box.height * person.faces.scale >= least or role == "text", (role, name, box.width, box.height)


def weeks(desktop, person):
    page(person, "Weeks")
    first = strip(person, WEEKS)
    wait("the first day in words", lambda: described(first).startswith("Tue 2 Mar 2027: "))
    desktop.picture("weeks")
    for name in ("Modelled player", "Weeks", "Seed", "Compare with"):
        assert person.faces.find(name), name
    desktop.windows.click(*person.faces.middle(first))
    chosen = described(first)
    desktop.windows.key("Right")
    wait("the next day", lambda: described(first) != chosen)
    desktop.windows.key("Home")
    wait("the first day", lambda: described(first).startswith("Tue 2 Mar 2027: "))
    desktop.windows.key("Return")
    wait("the day's rail", lambda: any("Block 4" in described(widget) or "Block 4" in name
                                       for _role, name, widget in person.faces.widgets()))
    desktop.picture("a-day-opened")


def giving(desktop, person):
    team = desktop.write("team.codes", "K1\nK2 # left-handed\n")
    page(person, "Give")
    codes = wait("the codes", lambda: person.faces.find("Codes of players", "text"))
    desktop.windows.click(*person.faces.middle(codes))
    for letter in "K1 K2":
        desktop.windows.key(*{" ": ["space"], "K": ["Shift_L", "k"]}.get(letter, [letter]))
    wait("what it would come to", lambda: person.faces.find("K2: to be version 2, the first one given"))
    assert not list(desktop.home.glob("team-K*"))
    desktop.picture("give")
    controls_have_names_and_room(person)
    desktop.windows.key("Return")
    wait("the two copies", lambda: person.faces.find("K2: version 2, the first one given"))
    desktop.picture("given")
    for code in ("K1", "K2"):
        copy = desktop.home / f"team-{code}-v2.plan.yaml"
        assert copy.read_text() == PLAN.replace("Team quarters\n", "Team quarters\nversion: 2\n"), copy.read_text()
    assert team.exists()


def day(desktop, program):
    carpace, person = Carpace(desktop, program), Person(desktop, "mouse")
    person.faces.scale = int(desktop.environment.get("GDK_SCALE", 1))
    plan = desktop.write("team.plan.yaml", PLAN)
    desktop.spawn("carpace", [program, "planner", plan])
    wait("the planner", lambda: person.faces.find("Team quarters"))
    weeks(desktop, person)
    giving(desktop, person)
    assert plan.read_text() == PLAN
    status, _out, err = carpace.command("plan", "check", desktop.home / "team-K1-v2.plan.yaml")
    assert status == 0, err


def main(program, folder, *looks):
    environment = {name: value for look in looks for name, value in LOOKS[look].items()}
    size = "2560x1600" if "double" in looks else "1280x800"
    with Desktop("xfwm4", folder, size=size, tray_host=False, environment=environment) as desktop:
        day(desktop, program)
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
