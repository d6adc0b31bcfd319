# SPDX-License-Identifier: GPL-3.0-or-later
"""Cards in each corner that can be chosen, over a full-screen client: the first size, a rest, and the bar.

usage: corners.py SHOW-FACES FOLDER WINDOW-MANAGER [LOOK...]
"""
import sys

from card_places import SIXTH, THIRD
from cards import LOOKS, Cards
from desktop import Desktop, Failed

CORNERS = ("lower-end", "lower-start", "upper-end", "upper-start")
MOMENTS = [("rating", SIXTH), ("rest-running by-itself", THIRD), ("rating input 6", None)]


def main(show_faces, folder, window_manager, *looks):
    environment = {name: value for look in looks for name, value in LOOKS[look].items()}
    with Desktop(window_manager, folder, tray_host=False, notifications=False, environment=environment) as desktop:
        cards = Cards(desktop, show_faces, looks)
        cards.start_game()
        for cards.corner in CORNERS:
            cards.environment = {"CARDS_CORNER": cards.corner}
            for moment, share in MOMENTS:
                cards.show(moment, share)
        if cards.faults:
            raise Failed("\n".join(["", *cards.faults]))


if __name__ == "__main__":
    main(*sys.argv[1:])
