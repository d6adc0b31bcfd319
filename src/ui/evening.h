/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * evening.h: an example evening on the screen, a minute a second.
 *
 * The cards are those of earnest practice, marked as an example; the clock waits while one of
 * them asks. Nothing of it is kept, and the session of the day knows nothing of it.
 */
#ifndef CARPACE_UI_EVENING_H
#define CARPACE_UI_EVENING_H

#include "carpace/plan.h"

typedef struct CarpaceEvening CarpaceEvening;

/** Begins an evening of @plan, which is copied, at @now.
 * @param ended called once the player has put it away (Escape, the button, the window's own); it may free it */
CarpaceEvening *carpace_evening_new (const CarpacePlan *plan, CarpaceInstant now, void (*ended) (void *user), void *user);
void carpace_evening_free (CarpaceEvening *evening);

#endif
