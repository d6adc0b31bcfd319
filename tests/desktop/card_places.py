# SPDX-License-Identifier: GPL-3.0-or-later
"""Where a card that comes by itself may stand over a full-screen client, and how large it may be: on any desktop."""
import time

SIXTH, THIRD = 6, 3
EDGE = 24
WIDEST = 592
BAR = (376, 28)

# What show-faces shows, the share of the height it may have; None: a bar.
CARDS = [("rating", SIXTH), ("rating armed", SIXTH), ("rating-starts", SIXTH), ("rating tap 0", SIXTH), ("rating tap 2", SIXTH),
         ("rating tap 7", SIXTH), ("rating tap 2 2", SIXTH), ("rating tap 2 3", SIXTH), ("rest-offered by-itself", SIXTH),
         ("rest-between-drills by-itself", SIXTH), ("rest-running by-itself", THIRD), ("rest-left by-itself", THIRD),
         ("rest-waits by-itself", SIXTH), ("morning", SIXTH), ("morning tap 1", SIXTH), ("morning tap 1 2", SIXTH),
         ("morning tap 1 2 3", SIXTH), ("morning tap 1 2 3 1", SIXTH), ("morning tap 1 2 3 1 1", SIXTH), ("morning tap 1 2 3 1 1 2", SIXTH), ("caution", SIXTH),
         ("caution-open", SIXTH), ("rating input 4", SIXTH), ("rating input 5", None),
         ("rest-offered input 6", None), ("morning input 6", None), ("caution input 6", None),
         ("on-air-offered", SIXTH), ("on-air-short-pause", SIXTH), ("on-air-intermission", SIXTH), ("on-air-offered input 6", None)]

def faults_of_place(place, share, screen, mirrored=False, corner="lower-end"):
    """What is wrong with a card at @place, x, y, width and height, in the @corner of @screen, by its word of the settings.
    @share as in CARDS"""
    (x, y, width, height), (screen_width, screen_height) = place, screen
    faults = []
    if x <= screen_width // 2 < x + width and y <= screen_height // 2 < y + height:
        faults.append(f"over the middle: {place}")
    if share is None and (width < BAR[0] or height < BAR[1] or height > screen_height // 12):
        faults.append(f"no slim bar: {place}")
    if share is not None and height > screen_height // share:
        faults.append(f"higher than 1/{share}: {place}")
    if width > max(WIDEST, screen_width * 48 // 100):
        faults.append(f"wider than {WIDEST}: {place}")
    at_right = corner.endswith("end") != mirrored
    wanted = (screen_width - EDGE - width if at_right else EDGE,
              screen_height - EDGE - height if corner.startswith("lower") else EDGE)
    if (x, y) != wanted:
        faults.append(f"not {EDGE} from its corner: {place}")
    return faults


def faults_on_monitor(place, left, share, size):
    """What is wrong with a card at @place on the monitor of this @size which begins at @left"""
    x, y, width, height = place
    return faults_of_place((x - left, y, width, height), share, size)


def standing(places):
    """Tells, when called, where the only card stands, once it has stood there for a second; places() lists where each is."""
    before, since = None, 0.0

    def stands():
        nonlocal before, since
        found = places()
        if len(found) != 1 or found[0] != before:
            before, since = found[0] if len(found) == 1 else None, time.monotonic()
        return before and time.monotonic() - since > 1 and before
    return stands
