# SPDX-License-Identifier: GPL-3.0-or-later
"""Whether letters stand out from their ground, measured in the picture."""
from PIL import Image

from desktop import Failed, wait

LEAST_CONTRAST = 4.5  # Web Content Accessibility Guidelines 2.1, 1.4.3


def luminance(colour):
    """Relative luminance, as the guidelines define it."""
    parts = [value / 255 for value in colour]
    linear = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(part):
    """Between the ground, the colour there is most of, and the ink, what is farthest from it."""
    colours = sorted(part.getcolors(part.width * part.height), reverse=True)
    ground = luminance(colours[0][1])
    return max((max(ground, other) + 0.05) / (min(ground, other) + 0.05)
               for other in (luminance(colour) for _count, colour in colours))


def is_scrolled_away(widget, box):
    """Whether a part of it is outside of what it is scrolled in: something else may be seen there."""
    from gi.repository import Atspi
    parent = widget.get_parent()
    while parent is not None and parent.get_role_name() not in ("scroll pane", "application"):
        parent = parent.get_parent()
    if parent is None or parent.get_role_name() == "application":
        return False
    pane = parent.get_extents(Atspi.CoordType.SCREEN)
    return box.y < pane.y or box.y + box.height > pane.y + pane.height


def palest(faces, path, roles=("label", "push button", "toggle button"), also_grey=True):
    """The first widget whose ink is too near to its ground, as they are in the picture; None where there is none.
    @also_grey: those, too, that cannot be used now, of which the guidelines ask nothing."""
    from gi.repository import Atspi
    picture = Image.open(path).convert("RGB")
    for role, name, widget in faces.widgets():
        if role not in roles or not name.strip():
            continue
        if role == "text" and not widget.get_text(0, -1):
            continue
        box, scale = widget.get_extents(Atspi.CoordType.SCREEN), faces.scale
        if is_scrolled_away(widget, box) or not (also_grey or widget.get_state_set().contains(Atspi.StateType.SENSITIVE)):
            continue
        part = picture.crop((box.x * scale, box.y * scale, (box.x + box.width) * scale, (box.y + box.height) * scale))
        if contrast(part) < LEAST_CONTRAST:
            return name, round(contrast(part), 2)
    return None


def letters_stand_out(desktop, faces, name, **what):
    """Waits for a picture in which they do: one may be taken while the window is being drawn."""
    pale, path = [None], desktop.picture(name)

    def stand_out():
        desktop.windows.picture(path)
        pale[0] = palest(faces, path, **what)
        return pale[0] is None
    try:
        wait("letters that stand out", stand_out, 10)
    except Failed:
        raise AssertionError(f"too pale: {pale[0]}") from None
