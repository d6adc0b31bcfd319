/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * split-bound.h: what no split can be under, once lengths and first drills of
 * its blocks are chosen.
 *
 * The index of a day is not linear: it sorts, over a block's drills and over
 * a day's blocks. What makes a bound of it:
 *
 * 1. A block's rate (its index over the multiplier of its hours) is
 *    0.1 w1 + 0.25 sum w E, with w1 the weight of its first drill, the one with
 *    the highest index, as long as its efforts together stay within 90 a
 *    minute; beyond, it is more. The sum over blocks of length x 0.25 sum w E is
 *    the same whichever way runs are dealt.
 * 2. With the lengths known, and blocks sorted by index D = rate x m(hours), a
 *    day is sum a_i D_(i) with a_i falling: least where all D are level. So
 *    what is still to be dealt is poured over the blocks, lowest first,
 *    between what each must get at least and can get at most.
 */
#ifndef CARPACE_SPLIT_BOUND_H
#define CARPACE_SPLIT_BOUND_H

#include "split-private.h"

/** Blocks a search can take on. */
#define CARPACE_SPLIT_SEARCHED 8

/** Lengths that blocks are to have, and what follows from them. */
typedef struct
{
  const CarpaceSplitTask *task;
  double density[CARPACE_SPLIT_D];     /**< 0.25 w e: work in a ms of a drill */
  double work;                         /**< of all runs: the same in every split */
  double dip;                          /**< what the multiplier of efforts can fall by where pieces meet */
  int64_t length_ms[CARPACE_SPLIT_B];  /**< longest first */
  double multiplier[CARPACE_SPLIT_B];  /**< of their hours */
  double unit[CARPACE_SPLIT_B];        /**< length over multiplier */
  double a[CARPACE_SPLIT_B];
  bool falling;                        /**< a does not rise */
  bool level_is_least, alike;
  double ratio;                        /**< index over work, at least */
} CarpaceSplitLengths;

/** What a table that is being dealt has so far. */
typedef struct
{
  double first_weight[CARPACE_SPLIT_B]; /**< the least that the first drill's can be */
  double poured[CARPACE_SPLIT_B];       /**< work it has */
  double least_more[CARPACE_SPLIT_B];   /**< work it gets yet, at least */
  double most_more[CARPACE_SPLIT_B];    /**< and at most */
} CarpaceSplitDealt;

/** What does not depend on lengths. */
void carpace_split_know_task (CarpaceSplitLengths *lengths, const CarpaceSplitTask *task);

/** What follows from lengths->length_ms. */
void carpace_split_know_lengths (CarpaceSplitLengths *lengths);

/** No split that goes on from @dealt has a lower index. */
double carpace_split_bound (const CarpaceSplitLengths *lengths, const CarpaceSplitDealt *dealt);

/** No split of whatever lengths has a lower index: coarse, for tasks that are
 * too large to look at lengths. */
double carpace_split_coarse_bound (const CarpaceSplitLengths *lengths);

#endif
