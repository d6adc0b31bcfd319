/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * front-x11.h: which window of an X server is in front, by the property that window
 * managers keep (_NET_ACTIVE_WINDOW, Extended Window Manager Hints): its changes are
 * told, nothing is asked again and again.
 *
 * A window is told by its class (WM_CLASS, Inter-Client Communication Conventions
 * Manual) and the file of its process (_NET_WM_PID). On Wayland the server is the one
 * beside the compositor, and sees its own programs only: for it no window is in front
 * while another kind of program is.
 */
#ifndef CARPACE_FRONT_X11_H
#define CARPACE_FRONT_X11_H

#include "carpace/ports.h"

/** How long a click is waited for, ms. */
#define CARPACE_FRONT_PICK_MS 30000

/** A CarpaceFrontOpen for an X server's session; a window is chosen by a click on it. */
bool carpace_front_x11_open (CarpaceWindowListener listener, CarpaceFront *ret_front);

/** The same for a compositor's session with an X server beside it; windows are not chosen by a click. */
bool carpace_front_x11_beside_open (CarpaceWindowListener listener, CarpaceFront *ret_front);

#endif
