/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * clicks.h: clicks that were counted, beside the efforts that a plan reckons with.
 *
 * A click is not an effort of the wrist: neither number is made of the other, and a plan's efforts stay what its file says.
 */
#ifndef CARPACE_CLICKS_H
#define CARPACE_CLICKS_H

#include "carpace/plan.h"
#include "carpace/session.h"

/** What was counted in the blocks of a plan's day, by their number. */
typedef struct
{
  struct
  {
    int64_t ms; /**< active time in which they were counted */
    int64_t count;
  } block[CARPACE_PLAN_BLOCKS];
} CarpaceClicksMeasured;

/** Adds an entry's: of a block, no match, that a plan can have. All others change nothing. */
void carpace_clicks_add (CarpaceClicksMeasured *measured, const CarpaceEntry *entry);

/** Clicks a minute in block @block, from 0. @return false where nobody counted them: unknown, never 0 */
bool carpace_clicks_a_minute (const CarpaceClicksMeasured *measured, int32_t block, double *ret_a_minute);

/** Efforts a minute that @plan reckons with in block @block: each drill's for its share of the time. */
double carpace_efforts_a_minute (const CarpacePlan *plan, int32_t block);

#endif
