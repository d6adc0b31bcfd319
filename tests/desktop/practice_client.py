# SPDX-License-Identifier: GPL-3.0-or-later
"""An ordinary window of a class of its own: practice_client.py CLASS X Y. Ended from outside."""
import os
import sys

from Xlib import Xatom, Xutil, display


def main(name, x, y):
    here = display.Display()
    screen = here.screen()
    window = screen.root.create_window(int(x), int(y), 400, 400, 0, screen.root_depth, background_pixel=0x20303c)
    window.set_wm_name(name)
    window.set_wm_class(name.lower(), name)
    window.change_property(here.intern_atom("_NET_WM_PID"), Xatom.CARDINAL, 32, [os.getpid()])
    window.set_wm_normal_hints(flags=Xutil.USPosition | Xutil.PSize)
    window.map()
    while True:
        here.next_event()


main(*sys.argv[1:])
