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

#include "carpace/ports.h"

/** A CarpaceActivityOpen that every desktop has. Where the session stands in a gap
 * of which nobody could tell the end, INPUT is told in the context's next turn. */
bool carpace_activity_manual_open (CarpaceClock clock, CarpaceTell tell, CarpaceActivity *ret_activity);

#endif
