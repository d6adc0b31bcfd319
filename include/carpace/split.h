/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * split.h: divides a day's drills into blocks.
 */
#ifndef CARPACE_SPLIT_H
#define CARPACE_SPLIT_H

#include "carpace/load.h"

/** Indices that differ by less than this share of themselves are the same to a
 * search: a fifth of a percent, 0.02 of an index of 10 and far
 * under what its inputs are known to. */
#define CARPACE_SPLIT_SAME 2e-3

/** How a split was found. */
typedef struct
{
  bool proven;            /**< no other split has a lower index of the day (by CARPACE_SPLIT_SAME or more) */
  double day_index;       /**< strain index of the day as split: what carpace_load_day() then says */
  double bound;           /**< none can be lower than this */
  double lowest_reserve;  /**< 0..1, the lowest any block of it comes to, an estimate */
} CarpaceSplitFound;

/** Divides the drills of @plan into @into blocks and writes them to
 * plan->blocks, split_into untouched.
 *
 * A drill is divided in whole runs of its `run`, or of a minute (or of its
 * whole time, if that is less) where it has none: as many as fit in its `time`,
 * or in its equal share of what the dose leaves, one at least; where that loses
 * time, one more for the drills that lost most, as long as the day gets no
 * longer than asked. Blocks are as long as one another to within the longest
 * run. Of all such splits: the day's strain index least; of those with the same,
 * the lowest reserve highest; of those, fewest neighbours in a block on the
 * same prime group.
 *
 * The index is exact where the day is small. Up to 10 drills x 4 blocks, with
 * runs all equally long and efforts that together stay within 90 a minute, it
 * is proven within CARPACE_SPLIT_SAME as a rule, not always; else and beyond it
 * is the best found. ret_found tells which, and the bound. Reserve and
 * neighbours are the best found.
 * @param into 1..CARPACE_PLAN_BLOCKS
 * @return false, *plan untouched, where there are fewer whole runs than blocks */
bool carpace_split (CarpacePlan *plan, int32_t into, CarpaceSplitFound *ret_found);

/** One run of @drill as a split counts it, ms. */
int64_t carpace_split_run_ms (const CarpacePlan *plan, int32_t drill);

#endif
