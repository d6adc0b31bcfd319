/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * clicks.h: clicks that were counted, beside the efforts that a plan reckons with.
 *
 * A click is not an effort of the wrist: neither number is made of the other, but where the plan says so of a drill.
 */
#ifndef CARPACE_CLICKS_H
#define CARPACE_CLICKS_H

#include "carpace/plan.h"
#include "carpace/session.h"

typedef struct
{
  int64_t ms; /**< active time in which they were counted */
  int64_t count;
} CarpaceClicksCount;

/** What was counted in a plan's days. All zeros at first. */
typedef struct
{
  CarpaceClicksCount block[CARPACE_PLAN_BLOCKS]; /**< by their number */
  CarpaceClicksCount drill[CARPACE_PLAN_DRILLS]; /**< of time that is known to be one drill's */
  int32_t number;                                /**< the block that began last, 0 where none is known */
  int64_t limit_ms;                              /**< its limit on that day: by it its drills take turns */
} CarpaceClicksMeasured;

/** Adds an entry of a day with @plan, in the order of the diary: of a block, no match, that a plan can have. A block's start
 * says which drill is when; time that two drills share is none of either. All others change nothing. */
void carpace_clicks_add (CarpaceClicksMeasured *measured, const CarpacePlan *plan, const CarpaceEntry *entry);

/** Clicks a minute. @return false where nobody counted them: unknown, never 0 */
bool carpace_clicks_a_minute (const CarpaceClicksCount *of, double *ret_a_minute);

/** Has @plan reckon with clicks measured in those drills whose efforts it takes from clicks: within the range of efforts,
 * and what effort-lasts leaves room for. Where nobody counted its own efforts stay. */
void carpace_clicks_as_efforts (CarpacePlan *plan, const CarpaceClicksMeasured *measured);

/** Efforts a minute that @plan reckons with in block @block: each drill's for its share of the time. */
double carpace_efforts_a_minute (const CarpacePlan *plan, int32_t block);

#endif
