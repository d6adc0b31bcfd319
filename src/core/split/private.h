/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * private.h: what the files of the split share.
 *
 *   split.c   from a plan to runs, the steps of a search, blocks written
 *   index.c   lengths and index of a table; rate.h, of a block
 *   every.c   every split there is, or every one that would be better
 *   cool.c    a good split of a larger day, come by at random
 *   bound.c   what no split is under; proof.h says why
 *   refute.c  the choices that takes
 *   order.c   how drills follow one another in a block; its reserve
 *
 * A split is a table of whole runs by block and drill. Its index is that of the
 * plan it is written as, with shares in hundredths of a percent; bounds are of
 * the runs themselves, which can be a ten-thousandth apart.
 */
#ifndef CARPACE_SPLIT_PRIVATE_H
#define CARPACE_SPLIT_PRIVATE_H

#include "carpace/split.h"

#define CARPACE_SPLIT_D CARPACE_PLAN_DRILLS
#define CARPACE_SPLIT_B CARPACE_PLAN_BLOCKS

/** Indices nearer than this share of themselves are equal: rounding. */
#define CARPACE_SPLIT_ROUNDING 1e-10

/** What a search costs, counted, never timed: the same plan has the same split on
 * every machine. A unit is about a nanosecond of a desktop computer of 2020; each
 * place that spends has its own price, measured (tests/bench/split-work.c). Looking
 * for the index and putting drills in order have each its own. */
typedef struct
{
  int64_t search, most_search;
  int64_t order, most_order;
} CarpaceSplitWork;

/** Prices that more than one file knows, in units: a drill in a block's index; a
 * drill's part in a block where a bound is worked out. */
#define CARPACE_SPLIT_A_PART 16
#define CARPACE_SPLIT_A_CAP 8

/** Runs by block and drill. */
typedef struct
{
  int32_t runs[CARPACE_SPLIT_B][CARPACE_SPLIT_D];
} CarpaceSplitTable;

/** What is to be split. */
typedef struct
{
  const CarpacePlan *plan;
  CarpaceSplitWork *work;  /**< NULL: as much as it takes */
  int32_t n_drills, n_blocks;
  int32_t n_runs[CARPACE_SPLIT_D];
  int64_t run_ms[CARPACE_SPLIT_D];
  int64_t total_ms, longest_run_ms;
  double weight[CARPACE_SPLIT_D];  /**< intensity x duration x posture multipliers */
  double efforts[CARPACE_SPLIT_D]; /**< a minute, while it is practised */
  CarpaceGroup prime[CARPACE_SPLIT_D]; /**< the group that is loaded most */
} CarpaceSplitTask;

/** A split that was found. */
typedef struct
{
  CarpaceSplitTable table;
  double index;   /**< the highest of its blocks */
  double lowest;  /**< reserve, with the orders below */
  int32_t same;   /**< neighbours on one prime group */
  int32_t order[CARPACE_SPLIT_B][CARPACE_SPLIT_D]; /**< drills as they follow, those with runs first */
} CarpaceSplitting;

/** Spends @units of the search. @return whether there are more */
static inline bool
carpace_split_spend (const CarpaceSplitTask *task, int64_t units)
{
  if (task->work == NULL)
    return true;
  task->work->search += units;
  return task->work->search < task->work->most_search;
}

/** The same for putting in order. */
static inline bool
carpace_split_spend_on_order (const CarpaceSplitTask *task, int64_t units)
{
  if (task->work == NULL)
    return true;
  task->work->order += units;
  return task->work->order < task->work->most_order;
}

/* ---- split.c ---- */

/** What @plan, which outlives it, is to be split as.
 * @return false where there are fewer whole runs than blocks */
bool carpace_split_task (CarpaceSplitTask *task, const CarpacePlan *plan, int32_t into);

/* ---- index.c ---- */

/** ms of @runs. */
int64_t carpace_split_length_ms (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D]);

/** Whether blocks of these lengths are within one run of one another, none empty. */
bool carpace_split_lengths_allowed (const CarpaceSplitTask *task, const int64_t *length_ms);

/** The shortest and the longest that a block of an allowed split can be, ms. */
void carpace_split_length_range (const CarpaceSplitTask *task, double *ret_shortest_ms, double *ret_longest_ms);

/** Multiplier of the hours of a block. */
double carpace_split_hours_multiplier (double length_ms);

/** Runs of a block as shares of its length, hundredths of a percent, that add up
 * to the whole: the largest takes what rounding leaves. */
void carpace_split_shares (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], int64_t length_ms,
                           int32_t ret_share[CARPACE_SPLIT_D]);

/** Strain index of a block, as the plan will say it. */
double carpace_split_block_index (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D]);

/** The highest of a table's blocks. */
double carpace_split_index (const CarpaceSplitTask *task, const CarpaceSplitTable *table);

/* ---- every.c ---- */

/** Looks through every split whose index is lower than the best's by more than
 * @within of it (0: as low or lower), where they are few enough. *best is where
 * it begins and what it found, its order settled.
 * @return false where they are too many: *best is as good or better, not more */
bool carpace_split_every (const CarpaceSplitTask *task, double within, CarpaceSplitting *best);

/* ---- cool.c ---- */

/** Exchanges runs at random, at first also where that makes the day a little
 * harder, later ever less so. The same task and number of tries, the same end.
 * *best is where it begins and what it found. */
void carpace_split_cool (const CarpaceSplitTask *task, int32_t tries, CarpaceSplitting *best);

/* ---- bound.c ---- */

/** @return an index that no split's highest is under: at least @known, which is
 * one, and never over @index, the one found */
double carpace_split_bound (const CarpaceSplitTask *task, double index, double known);

/** In every block with an index of @index at most, the sum of_ms x ms over its
 * drills is @most at most: an inequality as in proof.h, 2, its first drill
 * the lightest. */
typedef struct
{
  double of_ms[CARPACE_SPLIT_D], most;
} CarpaceSplitPlane;

void carpace_split_plane (const CarpaceSplitTask *task, double index, CarpaceSplitPlane *ret_plane);

/** No @n_blocks blocks that share @runs, some at least, have all an index under
 * this: that of blocks of the even mix, its first drill the lightest. */
double carpace_split_even_index (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], int32_t n_blocks);

/* ---- order.c ---- */

/** The lowest reserve of a block in the best order of its drills. */
double carpace_split_lowest (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D]);

/** Chooses how drills follow one another in each block: lowest reserve
 * highest, then fewest neighbours on one prime group. Where the work is all spent,
 * as they are listed, the reserve of that. */
void carpace_split_order (const CarpaceSplitTask *task, CarpaceSplitting *splitting);

/** Exchanges runs so that the lowest reserve rises and the index does not. */
void carpace_split_ease (const CarpaceSplitTask *task, CarpaceSplitting *splitting);

/** True where @a is the better of two with equal indices. */
bool carpace_split_easier (const CarpaceSplitting *a, const CarpaceSplitting *b);

#endif
