/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-x11-beside.h: input to programs of X on a Wayland desktop.
 *
 * The X server that a compositor has beside it (Xwayland) counts what its own
 * programs get, and nothing else; it counts also while a program holds the screen
 * awake. So it sees the hand while a program of X is in front: the compositor
 * keeps that in the root window's _NET_ACTIVE_WINDOW (Extended Window Manager
 * Hints), and only changes of it are told.
 *
 * Many compositors start that server with its first client and end it after its
 * last: it is connected to in a block only, and in a thread, since that may take
 * a second. One that does not answer is tried again when its
 * socket comes, some times then and after its end, and at each step of the session.
 */
#ifndef CARPACE_ACTIVITY_X11_BESIDE_H
#define CARPACE_ACTIVITY_X11_BESIDE_H

#include "carpace/ports.h"

/** A CarpaceActivityOpen, of a source that sees a part of the desktop only. Not offered
 * where the session is no compositor's, and where DISPLAY names no server of this
 * machine's. */
bool carpace_activity_x11_beside_open (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);

#endif
