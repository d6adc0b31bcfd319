/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * front-wayland.h: which window of a compositor is in front, by its list of all windows:
 * wlr-foreign-toplevel-management (sway and its kin), or KDE's (plasma-window-management).
 * GNOME offers none.
 *
 * A window is told by its app id, or its class where it is one of X; by KDE's list its
 * program, too.
 */
#ifndef CARPACE_FRONT_WAYLAND_H
#define CARPACE_FRONT_WAYLAND_H

#include "carpace/ports.h"

/** A CarpaceFrontOpen; the compositor is waited for, each of its answers 5 s at most. A window is chosen by its coming to the front. */
bool carpace_front_wayland_open (CarpaceWindowListener listener, CarpaceFront *ret_front);

/** Whether the compositor is KWin and keeps its list from this program: it looks for a desktop file whose Exec is the
 * program's whole path, and whose X-KDE-Wayland-Interfaces names the list. The compositor is waited for 5 s at most. */
bool carpace_front_wayland_is_kept_back (void);

#endif
