/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-rail.h: a plan's day laid along the rail to be changed there, and the changes.
 *
 * Blocks stand with their own limits and their micro-rests, one after the other, the plan's
 * wait between them. Where along the rail a moment lies is told in shares of the
 * longest block; who drags holds that length fast, so that nothing moves under the hand.
 */
#ifndef CARPACE_PLAN_RAIL_H
#define CARPACE_PLAN_RAIL_H

#include "carpace/load.h"

/** Steps of what is dragged; a value typed may be finer. */
#define CARPACE_LIMIT_STEP_MS (30 * CARPACE_SECOND_MS)
#define CARPACE_WAIT_STEP_MS CARPACE_MINUTE_MS
#define CARPACE_SHARE_STEP CARPACE_PERCENT

/** A block on the rail. */
typedef struct
{
  int64_t from_ms, to_ms; /**< since the first block began */
  double from, to;        /**< along the rail */
} CarpacePlanSpan;

typedef struct
{
  int32_t n;
  CarpacePlanSpan block[CARPACE_PLAN_BLOCKS];
  int64_t longest_ms;     /**< what is 1 along the rail */
  double length;          /**< of the whole rail */
} CarpacePlanRail;

/** How many intermissions on air are shown. */
#define CARPACE_AIR_BREAKS 96

/** Intermissions on air, ms since the first block began. */
typedef struct
{
  int32_t n;
  int64_t from_ms[CARPACE_AIR_BREAKS], to_ms[CARPACE_AIR_BREAKS];
} CarpaceAirBreaks;

/** @param longest_ms what is 1 along the rail; 0: the plan's longest block with its rests */
void carpace_plan_rail (const CarpacePlan *plan, int64_t longest_ms, CarpacePlanRail *ret_rail);

/** Where the moment @at_ms since the first block began lies, 0 to the rail's length. */
double carpace_plan_rail_at (const CarpacePlanRail *rail, int64_t at_ms);

/** How much time @along takes up within @block, or in the wait before it. */
int64_t carpace_plan_rail_ms_in (const CarpacePlanRail *rail, int32_t block, double along);
int64_t carpace_plan_rail_ms_before (const CarpacePlanRail *rail, int32_t block, double along);

/** What share of @block's practice lies before its part @part, hundredths of a percent. */
int32_t carpace_plan_share_before (const CarpacePlan *plan, int32_t block, int32_t part);

/* Changes to a plan that is only tried; each rounds to its step and keeps to what a plan may have. What was the
 * sum of the limits stays their sum: the dose follows. */

void carpace_plan_try_limit (CarpacePlan *plan, int32_t block, int64_t limit_ms);
void carpace_plan_try_wait (CarpacePlan *plan, int64_t wait_ms);

/** The border behind part @part: it gets @share, and the next one what is over of both, a step each at least. */
void carpace_plan_try_share (CarpacePlan *plan, int32_t block, int32_t part, int32_t share);

/** @param deg flexion over 0, extension under it */
void carpace_plan_try_wrist (CarpacePlan *plan, int32_t drill, double deg);

/** @param effort on the scale from 0 to 10, of which 10 is maximal strength (Garg, Moore, Kapellusch 2017) */
void carpace_plan_try_effort (CarpacePlan *plan, int32_t drill, double effort);

void carpace_plan_try_move_block (CarpacePlan *plan, int32_t from, int32_t to);
void carpace_plan_try_move_part (CarpacePlan *plan, int32_t block, int32_t from, int32_t to);

#endif
