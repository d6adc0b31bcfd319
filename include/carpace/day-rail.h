/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * day-rail.h: a practice day as it lies along its rail.
 *
 * What is done and what is planned stand at their times, one after the other;
 * between them lie the waits. Times ahead are reckoned from now on: a block takes
 * its limit and its micro-rests, and the next one begins when its wait is over.
 * Nobody is held to them.
 */
#ifndef CARPACE_DAY_RAIL_H
#define CARPACE_DAY_RAIL_H

#include "carpace/view.h"

/** How it stands with a part of the day. */
typedef enum
{
  CARPACE_RAIL_DONE,
  CARPACE_RAIL_UNDER_WAY,
  CARPACE_RAIL_AHEAD,
  CARPACE_N_RAIL_KINDS
} CarpaceRailKind;

/** One block or match. */
typedef struct
{
  CarpaceRailKind kind;
  int32_t number;          /**< from 1; 0 for a match */
  bool match;
  CarpaceInstant from, to; /**< its `to` is reckoned unless it is done */
  int64_t practice_ms;     /**< active time: done, or else its limit; of a match under way so far */
  int32_t tubes;           /**< stretches between its micro-rests, at least 1 */
} CarpaceRailPart;

#define CARPACE_RAIL_PARTS (CARPACE_SITTINGS + CARPACE_DAY_BLOCKS)

/** A day. */
typedef struct
{
  int32_t n;
  CarpaceRailPart part[CARPACE_RAIL_PARTS];
  bool has_bead;
  int64_t bead_ms;  /**< elapsed time where practice stands, within the rail */
  bool bead_filled; /**< something is under way, or the day is over; else practice waits for the player */
} CarpaceDayRail;

/** @view's day as of @now. Without a plan, and on a day without practice, there is
 * nothing on it. */
void carpace_day_rail (const CarpaceView *view, CarpaceInstant now, CarpaceDayRail *ret_rail);

/** A first day of @plan, begun at @from: for whoever is only choosing it. */
void carpace_day_rail_of_plan (const CarpacePlan *plan, CarpaceInstant from, CarpaceDayRail *ret_rail);

/** Where the elapsed time @at_ms lies, 0 at the beginning of the first part and 1 at
 * the end of the last. Within parts time is evenly spaced; a long wait is drawn
 * shorter than it is, a short part and a short wait longer, so that each is seen. */
double carpace_day_rail_at (const CarpaceDayRail *rail, int64_t at_ms);

/** How wide a part of @span ms is drawn where the longest is @longest, of the longest's width; and a wait. */
double carpace_rail_part_width (double span, double longest);
double carpace_rail_wait_width (double span, double longest);

/** How many micro-rests a block of @limit_ms has where one is due after every
 * @after_ms: none in its last third of that. */
int32_t carpace_rests_within (int64_t limit_ms, int64_t after_ms);

#endif
