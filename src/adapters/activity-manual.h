/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity-manual.h: for a desktop that tells nothing of input.
 *
 * Input is taken as on from `start` to the next pause, rest or end the player
 * asks for: no gap is ever told. When a rest or pause the player asked for is
 * over, it is taken as on again.
 */
#ifndef CARPACE_ACTIVITY_MANUAL_H
#define CARPACE_ACTIVITY_MANUAL_H

#include <glib.h>

#include "carpace/ports.h"

typedef struct CarpaceActivityManual CarpaceActivityManual;

CarpaceActivityManual *carpace_activity_manual_new (GMainContext *context, CarpaceClock clock, CarpaceTell tell);

/** NULL is fine. */
void carpace_activity_manual_free (CarpaceActivityManual *activity);

/** @activity as a port: it hears what it is asked to follow, and tells nothing. */
CarpaceActivity carpace_activity_manual_port (CarpaceActivityManual *activity);

/** Where the session is now: to be called at each change. Where it stands in a
 * gap of which nobody could tell the end, INPUT is told in the context's next turn. */
void carpace_activity_manual_state (CarpaceActivityManual *activity, CarpaceState state);

#endif
