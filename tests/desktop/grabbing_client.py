# SPDX-License-Identifier: GPL-3.0-or-later
"""A full-screen client that grabs the pointer, as a game does.

Prints a line of JSON for all it notices: focus lost and gained, keys, clicks,
the pointer's grab. Any line on standard input ends it.
"""
import json
import select
import sys

from Xlib import X, Xatom, display

NOTICED = {X.FocusIn: "focus-in", X.FocusOut: "focus-out", X.KeyPress: "key", X.KeyRelease: "key-up",
           X.ButtonPress: "click", X.EnterNotify: "enter", X.LeaveNotify: "leave", X.UnmapNotify: "unmapped",
           X.VisibilityNotify: "visibility"}


def say(what, **more):
    print(json.dumps({"what": what, **more}), flush=True)


def full_screen_window(screen_display):
    screen = screen_display.screen()
    window = screen.root.create_window(0, 0, screen.width_in_pixels, screen.height_in_pixels, 0, screen.root_depth,
                                       background_pixel=0x20303c,
                                       event_mask=X.FocusChangeMask | X.KeyPressMask | X.KeyReleaseMask
                                       | X.ButtonPressMask | X.StructureNotifyMask | X.VisibilityChangeMask
                                       | X.EnterWindowMask | X.LeaveWindowMask)
    window.set_wm_name("Corner to corner")
    window.set_wm_class("grabbing-client", "Grabbing-client")
    window.change_property(screen_display.intern_atom("_NET_WM_STATE"), Xatom.ATOM, 32,
                           [screen_display.intern_atom("_NET_WM_STATE_FULLSCREEN")])
    window.map()
    return window


def grab(window):
    while window.grab_pointer(True, X.ButtonPressMask | X.PointerMotionMask, X.GrabModeAsync, X.GrabModeAsync,
                              window, X.NONE, X.CurrentTime) != X.GrabSuccess:
        select.select([], [], [], 0.02)


def main():
    own = display.Display()
    window = full_screen_window(own)
    grabbed = focused = False
    while True:
        while own.pending_events():
            event = own.next_event()
            what = NOTICED.get(event.type)
            if event.type == X.MapNotify:
                window.set_input_focus(X.RevertToParent, X.CurrentTime)
            elif event.type == X.FocusIn and event.mode == X.NotifyNormal and not grabbed:
                focused = True
            if event.type in (X.FocusIn, X.FocusOut):
                say(what, mode=event.mode, detail=event.detail)
            elif event.type in (X.KeyPress, X.KeyRelease):
                say(what, symbol=own.keycode_to_keysym(event.detail, 0))
            elif event.type in (X.EnterNotify, X.LeaveNotify):
                say(what, mode=event.mode)
            elif what:
                say(what)
        if focused and not grabbed:
            grab(window)
            grabbed = True
            say("ready")
        readable, _, _ = select.select([own, sys.stdin], [], [], None)
        if sys.stdin in readable:
            return
        # Reading from the display is pending_events()'s.


main()
