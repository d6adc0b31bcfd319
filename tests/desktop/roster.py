# SPDX-License-Identifier: GPL-3.0-or-later
"""A clinician opens the roster of twelve made players, by what assistive technology knows of it: who needs a look first,
a diary read only, a note; and that player's tray says once that a note has come.

usage: roster.py CARPACE MAKE-CLUB FOLDER
"""
import shutil
import subprocess
import sys

from desktop import Desktop, no_complaints, wait
from faces import Faces
from product import Carpace

NOTE = "Come by on Friday, before practice"
PHRASE = "five dull lamps hum"


def press(faces, name):
    widget = wait(f"the button {name!r}", lambda: faces.find(name, "push button"))
    wait(f"{name!r} can be pressed", lambda: "sensitive" in {state.value_nick for state in widget.get_state_set().get_states()})
    widget.do_action(0)


def fill(faces, role, label, text):
    widget = wait(f"the field {label!r}", lambda: faces.find(label, role))
    assert widget.set_text_contents(text)


def cells(faces):
    return [name for role, name, _widget in faces.widgets() if role == "table cell" and name]


def needs(names):
    """Names of the first group, in their order, with what is said of each."""
    first, others = names.index("Who needs a look today"), names.index("All others")
    return [(name, reason) for name, reason in zip(names[first:others], names[first + 1:others + 1]) if name[:1] == "P"]


def of_clinic(desktop, program, club):
    """The roster, opened by its owner from a terminal."""
    home = club / "Clinic"
    own = {"HOME": str(home), "XDG_DATA_HOME": str(home / ".local/share"), "XDG_STATE_HOME": str(home / ".local/state"),
           "XDG_CONFIG_HOME": str(home / ".config")}
    desktop.spawn("roster", [program, "roster", club / "shared", "--phrase-file", home / "phrase"], environment=own)


def clinician(desktop, program, club):
    faces = Faces()
    of_clinic(desktop, program, club)
    desktop.started("roster", "the rows", lambda: "All others" in cells(faces))
    found = needs(cells(faces))
    assert found[0][0] == "P00" and "caution has been open" in found[0][1], found
    assert "P07" in [name for name, _reason in found], found  # was silent for nine days
    assert faces.find("P00: a caution has been open", "label"), faces.names()
    desktop.picture("roster")

    press(faces, "Diary")
    wait("the diary", lambda: faces.find("Diary of P00", "frame"))
    writable = [name for role, name, widget in faces.widgets() if role in ("text", "password text")
                and "editable" in {state.value_nick for state in widget.get_state_set().get_states()}]
    assert not writable, writable
    desktop.picture("diary")

    press(faces, "Note…")
    wait("the note", lambda: faces.find("Note to P00", "frame"))
    fill(faces, "text", "Words, one line", NOTE)
    fill(faces, "password text", "Pass phrase of your key", "another phrase")
    press(faces, "Leave the note in the folder")
    wait("that the phrase is wrong", lambda: faces.find("The pass phrase does not open", "alert"))
    assert not list((club / "shared").glob("*.note"))
    fill(faces, "password text", "Pass phrase of your key", PHRASE)
    press(faces, "Leave the note in the folder")
    wait("that it is there", lambda: faces.find("The note is in the folder, sealed to “P00”", "alert"))
    desktop.picture("note")
    notes = list((club / "shared").glob("*.note"))
    assert len(notes) == 1 and NOTE.encode() not in notes[0].read_bytes(), notes
    desktop.stop("roster")
    assert "CRITICAL" not in (said := (desktop.folder / "roster.log").read_text()), said


def player(desktop, program, club):
    """The one it was written to, whose tray takes it in by itself."""
    shutil.copytree(club / "P00/.local/share/carpace", desktop.home / "data/carpace", dirs_exist_ok=True)
    carpace = Carpace(desktop, program)
    carpace.told("plan", "use", "two-halves")
    carpace.start()
    notice = wait("a notice of it", lambda: desktop.bus.notice("A note has come"))
    assert "Clinic" in notice.body and NOTE not in notice.title + notice.body, (notice.title, notice.body)
    desktop.picture("notice")
    carpace.told("quit")
    assert carpace.gone() == 0
    told = len([one for one in desktop.bus.notices if one.title == "A note has come"])
    carpace.start()
    assert desktop.run([program])[0] == 0  # a second start shows the window of today
    faces = Faces()
    wait("the note in the window of today", lambda: faces.find(NOTE, "label"))
    assert len([one for one in desktop.bus.notices if one.title == "A note has come"]) == told == 1
    desktop.picture("today")
    carpace.told("quit")
    assert carpace.gone() == 0


def main(program, make_club, folder):
    with Desktop("xfwm4", folder) as desktop:
        club = desktop.home / "club"
        subprocess.run([make_club, club, "12", "3"], check=True)
        clinician(desktop, program, club)
        player(desktop, program, club)
        no_complaints(desktop.folder)


if __name__ == "__main__":
    main(*sys.argv[1:])
