/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * split.h: divides a day's drills into blocks.
 */
#ifndef CARPACE_SPLIT_H
#define CARPACE_SPLIT_H

#include "carpace/load.h"

/** Indices that differ by less than this share of themselves are the same to a
 * search. The multiplier of efforts is published with a slope of 0.25 a
 * minute: by that rounding alone an index is known to 2 %. */
#define CARPACE_SPLIT_SAME 2e-2

/** What a split costs at most, in units that are counted, never timed: each is about
 * a nanosecond of a desktop computer of 2020. Where that ends a search, what was
 * found is told, with what was shown of it: the same on every machine. */
#define CARPACE_SPLIT_WORK 85000000

/** How a split was found. */
typedef struct
{
  bool exact;             /**< every split was looked at: none has a lower highest index, by any amount */
  bool proven;            /**< none has a lower one, by CARPACE_SPLIT_SAME or more */
  double highest_index;   /**< strain index of the hardest block */
  double bound;           /**< no split's hardest block is under this */
  double lowest_reserve;  /**< 0..1, the lowest any block of it comes to, an estimate */
  int64_t work;           /**< what it cost, CARPACE_SPLIT_WORK at most */
} CarpaceSplitFound;

/** Divides the drills of @plan into @into blocks and writes them to
 * plan->blocks, split_into untouched.
 *
 * A drill is divided in whole runs of its `run`, or of a minute (or of its
 * whole time, if that is less) where it has none: as many as fit in its `time`,
 * or in its equal share of what the dose leaves, one at least; where that loses
 * time, one more for the drills that lost most, as long as the day gets no
 * longer than asked. Blocks are as long as one another to within the longest
 * run. Of all such splits: the highest strain index of a block least; of those
 * with the same, the lowest reserve highest; of those, fewest neighbours in a
 * block on the same prime group.
 *
 * A day that is not too large is looked through: exact. Else it is searched, and
 * a bound is worked out: ret_found tells it, and whether it is near. Reserve and
 * neighbours are the best found; of a day of few drills the best there is.
 * @param into 1..CARPACE_PLAN_BLOCKS
 * @return false, *plan untouched, where there are fewer whole runs than blocks */
bool carpace_split (CarpacePlan *plan, int32_t into, CarpaceSplitFound *ret_found);

/** How long each block is where all are equal: no split's longest is under it. 0
 * where there are fewer whole runs than blocks. */
int64_t carpace_split_even_ms (const CarpacePlan *plan, int32_t into);

/** One run of @drill as a split counts it, ms. */
int64_t carpace_split_run_ms (const CarpacePlan *plan, int32_t drill);

#endif
