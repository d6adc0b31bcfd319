# SPDX-License-Identifier: GPL-3.0-or-later
"""The window of settings by the mouse alone or by keys alone, and its file by an editor: each shows in the other.

usage: settings.py mouse|keys CARPACE FOLDER
"""
import sys

from desktop import Desktop, no_complaints, wait
from product import Carpace
from today import Person, controls_have_names_and_room

CHORD = "Keys that arm the rating card"
FILE = "config/carpace/settings"
BEFORE = "# mine\n\n[carpace]\n# loud\nsound=false\n"


def checked(person, name):
    return "checked" in {state.value_nick for state in person.see(name, "check box").get_state_set().get_states()}


def typed(desktop, person, name, text):
    """Into the entry of that name, in place of what is there; Return takes it."""
    if person.way == "mouse":
        desktop.windows.click(*person.faces.middle(person.see(name, "text")))
    else:
        wait(f"the focus on {name!r}", lambda: person.step_to(name, "Tab"))
    desktop.windows.key("Control_L", "a")
    desktop.windows.key("Delete")
    for letter in text:
        desktop.windows.key(*{"+": ["Shift_L", "plus"]}.get(letter, [letter]))
    desktop.windows.key("Return")


def day(desktop, program, way):
    carpace, person = Carpace(desktop, program), Person(desktop, way)
    file = desktop.write(FILE, BEFORE)
    carpace.told("plan", "use", "two-halves")
    carpace.start()
    carpace.told("caution", "none")
    carpace.told("morning", "0", "usual", "--now", "0")
    person.see("Block 1 can start", "heading", "label")
    if way == "keys":
        carpace.command()
    person.open_menu()
    person.choose("Settings…")
    person.see("A sound with each cue", "check box")
    controls_have_names_and_room(person.faces)
    desktop.picture("settings")

    person.press("A sound with each cue", "check box")
    wait("the sound in the file", lambda: "# loud\nsound=true" in file.read_text())
    assert file.read_text().startswith("# mine\n"), file.read_text()

    typed(desktop, person, CHORD, "b")
    wait("what is wrong with it", lambda: person.faces.find("“b” is no key combination"))
    assert "chord" not in file.read_text()
    desktop.picture("what-is-wrong")
    typed(desktop, person, CHORD, "super+f9")
    wait("the keys in the file", lambda: "chord=super+f9\n" in file.read_text())
    assert not person.faces.find("is no key combination")

    person.press("Press the keys…", "toggle button")
    person.see("Press them now", "toggle button")
    desktop.picture("keys-wanted")
    desktop.windows.key("Control_L", "Alt_L", "k")
    wait("the pressed keys in the file", lambda: "chord=Ctrl+Alt+K\n" in file.read_text())
    person.see("Press the keys…", "toggle button")

    file.write_text(file.read_text().replace("sound=true", "sound=false\ncount-other-input=false"))
    wait("the sound off in the window", lambda: not checked(person, "A sound with each cue"))
    assert not checked(person, "Count mouse use outside practice")
    desktop.picture("changed-in-the-file")
    file.write_text(file.read_text().replace("chord=Ctrl+Alt+K", "chord=b"))
    wait("what does not hold in the file", lambda: person.faces.find("“b” is no key combination"))
    file.write_text(file.read_text().replace("chord=b", "chord=Ctrl+Alt+K"))
    wait("that it holds", lambda: not person.faces.find("is no key combination"))

    carpace.told("on-air", "on")
    wait("the window's end", lambda: not person.faces.find("A sound with each cue"))
    status, _out, err = carpace.command("settings")
    assert status == 1 and err, err
    carpace.told("on-air", "off")
    carpace.told("settings")
    person.see("A sound with each cue", "check box")
    carpace.told("quit")
    assert carpace.gone() == 0


def main(way, program, folder):
    with Desktop("xfwm4", folder, tray_host=False) as desktop:
        day(desktop, program, way)
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
