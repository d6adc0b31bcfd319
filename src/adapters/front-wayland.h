/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * front-wayland.h: which window of a compositor is in front, by its list of all windows
 * (wlr-foreign-toplevel-management: sway and its kin; GNOME and KDE offer it to nobody).
 *
 * A window is told by its app id, or its class where it is one of X. Whose program it is
 * the list does not say.
 */
#ifndef CARPACE_FRONT_WAYLAND_H
#define CARPACE_FRONT_WAYLAND_H

#include "carpace/ports.h"

/** A CarpaceFrontOpen; the compositor is waited for 4 s at most. A window is chosen by its coming to the front. */
bool carpace_front_wayland_open (CarpaceWindowListener listener, CarpaceFront *ret_front);

#endif
