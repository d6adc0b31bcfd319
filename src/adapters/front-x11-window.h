/* SPDX-License-Identifier: GPL-3.0-or-later */
/** front-x11-window.h: what an X server's windows are called. */
#ifndef CARPACE_FRONT_X11_WINDOW_H
#define CARPACE_FRONT_X11_WINDOW_H

#include <stdbool.h>
#include <xcb/xcb.h>

#include "carpace/practice-window.h"

/** The first screen's root, and the names of properties. */
typedef struct
{
  xcb_window_t root;
  xcb_atom_t active, pid, state;
} CarpaceX11Atoms;

/** What a window says of itself. */
typedef struct
{
  char name[2 * CARPACE_WINDOW_BYTES];
  char program[2 * CARPACE_WINDOW_BYTES]; /**< "" where it does not say */
} CarpaceX11Window;

/** Has the root's properties told from now on. @return false where the server is gone */
bool carpace_x11_atoms_read (xcb_connection_t *x, CarpaceX11Atoms *ret_atoms);

/** The window in front, XCB_WINDOW_NONE where none is. */
xcb_window_t carpace_x11_window_in_front (xcb_connection_t *x, const CarpaceX11Atoms *atoms);

/** The program's own window within @frame, which a window manager may have put about it. */
xcb_window_t carpace_x11_window_of (xcb_connection_t *x, const CarpaceX11Atoms *atoms, xcb_window_t frame);

/** Reads what @window says. @return false where it has no name */
bool carpace_x11_window_read (xcb_connection_t *x, const CarpaceX11Atoms *atoms, xcb_window_t window, CarpaceX11Window *ret_window);

/** What the key @code is, without modifiers. */
xcb_keysym_t carpace_x11_keysym (xcb_connection_t *x, xcb_keycode_t code);

#endif
