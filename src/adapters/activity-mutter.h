/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-mutter.h: input followed by GNOME's idle monitor, on X11 and Wayland.
 *
 * org.gnome.Mutter.IdleMonitor wakes for the gap's beginning and its end only.
 */
#ifndef CARPACE_ACTIVITY_MUTTER_H
#define CARPACE_ACTIVITY_MUTTER_H

#include <glib.h>

#include "carpace/ports.h"

typedef struct CarpaceActivityMutter CarpaceActivityMutter;

/** Asks the bus, not the monitor, whether there is one: a ms.
 * @param clock gives elapsed time; @param tell hears INPUT and STILL in the
 *   thread's default context, never from within a call of the port
 * @return NULL, and one line in *error, where there is none */
CarpaceActivityMutter *carpace_activity_mutter_new (CarpaceClock clock, CarpaceTell tell, GError **error);

/** NULL is fine. */
void carpace_activity_mutter_free (CarpaceActivityMutter *activity);

/** @activity as a port. A monitor that is started anew is followed again. */
CarpaceActivity carpace_activity_mutter_port (CarpaceActivityMutter *activity);

#endif
