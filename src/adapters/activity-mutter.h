/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-mutter.h: input followed by GNOME's idle monitor, on X11 and Wayland.
 *
 * org.gnome.Mutter.IdleMonitor wakes for the gap's beginning and its end only.
 * While a program holds the screen awake, as games do, the monitor tells of no
 * gap's beginning, though of its end. The session manager says when that is so:
 * then, and while the hand moves, the monitor's idle time is looked at whenever a
 * gap could have begun, at most 15 times a minute.
 */
#ifndef CARPACE_ACTIVITY_MUTTER_H
#define CARPACE_ACTIVITY_MUTTER_H

#include "carpace/ports.h"

/** A CarpaceActivityOpen. Asks the bus, not the monitor, whether there is one: a
 * ms. A monitor that is started anew is followed again. */
bool carpace_activity_mutter_open (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);

#endif
