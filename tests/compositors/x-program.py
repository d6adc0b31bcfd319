# SPDX-License-Identifier: GPL-3.0-or-later
"""A full-screen program of X, as a game is one: takes the pointer's motion and does nothing with it.

"play" brings it to the front and keeps it there, as if a person clicked on it whenever something else came:
a compositor may keep back what asks by itself. It says "ready" once it has stayed for a second. "rest" leaves
it where it is. Ends with its input. With --awake it resets the screen saver every 10 s, as games do that want the
screen to stay awake.
"""
import select
import sys
import time

from Xlib import X, Xatom, display
from Xlib.protocol import event as events

BY_A_PERSON = 2
RESET_S = 10 if "--awake" in sys.argv else None

server = display.Display()
screen = server.screen()
window = screen.root.create_window(0, 0, screen.width_in_pixels, screen.height_in_pixels, 0, screen.root_depth,
                                   background_pixel=screen.black_pixel, event_mask=X.PointerMotionMask)
window.set_wm_name("program of X")
window.change_property(server.get_atom("_NET_WM_STATE"), Xatom.ATOM, 32, [server.get_atom("_NET_WM_STATE_FULLSCREEN")])
window.map()
ACTIVE = server.get_atom("_NET_ACTIVE_WINDOW")


def is_in_front():
    found = screen.root.get_full_property(ACTIVE, Xatom.WINDOW)
    return found is not None and window.id in found.value


def come_to_the_front():
    screen.root.send_event(events.ClientMessage(window=window, client_type=ACTIVE, data=(32, [BY_A_PERSON, X.CurrentTime, 0, 0, 0])),
                           event_mask=X.SubstructureRedirectMask | X.SubstructureNotifyMask)
    server.sync()


playing, since, reset = False, None, time.monotonic()
while True:
    if RESET_S is not None and time.monotonic() > reset + RESET_S:
        reset = time.monotonic()
        server.force_screen_saver(X.ScreenSaverReset)
        server.sync()
    if select.select([sys.stdin], [], [], 0.1 if playing else RESET_S)[0]:
        word = sys.stdin.readline()
        if not word:
            break
        playing, since = word == "play\n", None
    if not playing:
        continue
    if not is_in_front():
        come_to_the_front()
        since = None if since is None or since > 0 else since
    elif since is None:
        since = time.monotonic()
    elif 0 < since < time.monotonic() - 1:
        since = 0
        print("ready", flush=True)
