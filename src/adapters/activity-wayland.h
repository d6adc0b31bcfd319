/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-wayland.h: input followed by the notices of a Wayland compositor.
 *
 * A notice is told when its time has gone by without input on a seat, and again
 * with the first input after; nothing arrives between, however fast the mouse.
 * There is no counter to look at: where the session presumes something, a notice
 * is made anew, or a short one beside it.
 *
 * Three protocols tell the same. All but one tell nothing while a program holds
 * the screen awake, as full-screen games do. Such a one never takes silence for a
 * moving hand; where the session waits for the end of a gap and the compositor is
 * silent, it takes input as on. In a long gap it is asked anew.
 *
 * The first seat is followed. A notifier that goes and comes again is followed anew.
 */
#ifndef CARPACE_ACTIVITY_WAYLAND_H
#define CARPACE_ACTIVITY_WAYLAND_H

#include "carpace/ports.h"

/** CarpaceActivityOpens, on a connection beside GTK's. Not offered where the
 * session is no compositor's, where none answers within 2 s, and where it has no
 * seat or not this protocol. What is told holds as for activity-x11.h. */

/** ext-idle-notify-v1 from version 2 on: every gap. */
bool carpace_activity_ext_input_open (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);
/** The same, any version: blind while a program holds the screen awake. */
bool carpace_activity_ext_open (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);
/** KDE's idle protocol, which older compositors of others have, too: blind likewise. */
bool carpace_activity_kde_open (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);

#endif
