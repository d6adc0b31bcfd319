# SPDX-License-Identifier: GPL-3.0-or-later
"""Where it is felt, on the drawn hand, by keys alone, and as assistive technology knows it: each site a button with
its name and room enough.

usage: sites.py SHOW-FACES FOLDER
"""
import sys

from desktop import Desktop, Failed, wait
from faces import Faces

SITES = {"Palm side", "Little-finger side", "Thumb side", "Back of the forearm", "Fingers", "Elbow", "Shoulder", "Neck",
         "Other hand"}
TARGET = 44


def buttons(faces):
    return [(name, widget.get_description() or "", widget.get_extents(0), widget) for role, name, widget in faces.widgets("show-faces")
            if role == "push button" and name in SITES]


def focused(faces):
    """(name, description) of the site that has the focus."""
    return next(((name, description) for name, description, _box, widget in buttons(faces)
                 if "focused" in {state.value_nick for state in widget.get_state_set().get_states()}), None)


def each_has_name_and_room(faces):
    found = buttons(faces)
    drawn = {name for name, description, _box, _widget in found if "in the drawing" in description}
    words = {name for name, description, _box, _widget in found if not description}
    assert drawn == SITES and words == SITES, (drawn, words)
    small = [(name, box.width, box.height) for name, _description, box, _widget in found if min(box.width, box.height) < TARGET]
    assert not small, small


def on_screen(desktop, faces):
    """A window that grew has to be seen to its end."""
    height = int(desktop.size.split("x")[1])
    return all(box.y >= 0 and box.y + box.height <= height for _name, _description, box, _widget in buttons(faces))


def to_a_site(desktop, faces):
    if focused(faces) and "in the drawing" in focused(faces)[1]:
        return True
    desktop.windows.key("Tab")
    return False


def steer(desktop, faces, key, wanted):
    before = focused(faces)
    desktop.windows.key(key)
    now = wait(f"the focus to go {key} from {before}", lambda: focused(faces) if focused(faces) != before else None)
    if now[0] != wanted:
        raise Failed(f"{key} led from {before} to {now}, not to {wanted}")


def main(show_faces, folder):
    with Desktop("xfwm4", folder, tray_host=False, notifications=False) as desktop:
        desktop.spawn("faces", [show_faces, "rating-given"], environment={"CARDS_ONLY": "1"})
        faces = Faces()
        wait("the card", lambda: faces.find("Where is it?", "push button", "show-faces"))
        desktop.windows.key("2")
        wait("the sites", lambda: len(buttons(faces)) > len(SITES) and buttons(faces)[0][2].x >= 0)
        each_has_name_and_room(faces)
        wait("all of it on the screen", lambda: on_screen(desktop, faces))
        desktop.picture("sites")
        wait("the focus in the drawing", lambda: to_a_site(desktop, faces))
        while focused(faces)[0] != "Palm side":
            desktop.windows.key("Tab")
            wait("the focus in the drawing", lambda: focused(faces))
        steer(desktop, faces, "Up", "Fingers")
        steer(desktop, faces, "Down", "Palm side")
        steer(desktop, faces, "Right", "Thumb side")
        desktop.picture("thumb-side-has-the-focus")
        desktop.windows.key("space")
        wait("what was told", lambda: "told: rate thumb-side" in (desktop.folder / "faces.log").read_text())


if __name__ == "__main__":
    main(*sys.argv[1:])
