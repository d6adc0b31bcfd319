/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * split-private.h: what split.c, split-search.c and split-order.c share.
 *
 * A split is a table of whole runs by drill and block. Its index is that of the
 * plan it is written as, with shares in hundredths of a percent: the paper sorts
 * blocks by their index, so that rounding can change the day's by more than
 * itself. Bounds are of the runs themselves.
 */
#ifndef CARPACE_SPLIT_PRIVATE_H
#define CARPACE_SPLIT_PRIVATE_H

#include "carpace/split.h"

#define CARPACE_SPLIT_D CARPACE_PLAN_DRILLS
#define CARPACE_SPLIT_B CARPACE_PLAN_BLOCKS

/** Runs by block and drill. */
typedef struct
{
  int32_t runs[CARPACE_SPLIT_B][CARPACE_SPLIT_D];
} CarpaceSplitTable;

/** What is to be split. */
typedef struct
{
  const CarpacePlan *plan;
  int32_t n_drills, n_blocks;
  int32_t n_runs[CARPACE_SPLIT_D];
  int64_t run_ms[CARPACE_SPLIT_D];
  int64_t total_ms, longest_run_ms;
  double weight[CARPACE_SPLIT_D];  /**< intensity x duration x posture multipliers */
  double efforts[CARPACE_SPLIT_D]; /**< a minute, while it is practised */
} CarpaceSplitTask;

/** A split that was found. */
typedef struct
{
  CarpaceSplitTable table;
  double index;
  double lowest;  /**< reserve, with the orders below */
  int32_t same;   /**< neighbours on one prime group */
  int32_t order[CARPACE_SPLIT_B][CARPACE_SPLIT_D]; /**< drills as they follow, those with runs first */
} CarpaceSplitting;

/** ms of block @block. */
int64_t carpace_split_length_ms (const CarpaceSplitTask *task, const CarpaceSplitTable *table, int32_t block);

/** Runs of a block as shares of its length, hundredths of a percent, that add up
 * to the whole: the largest takes what rounding leaves. */
void carpace_split_shares (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], int64_t length_ms,
                           int32_t ret_share[CARPACE_SPLIT_D]);

/** Index of a block over the multiplier of its hours, as the plan will say it. */
double carpace_split_rate (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], int64_t length_ms);

/** Strain index of a day of @table. */
double carpace_split_index (const CarpaceSplitTask *task, const CarpaceSplitTable *table);

/** The same from what each block has: rates as above, lengths. */
double carpace_split_index_of (int32_t n_blocks, const double *rate, const int64_t *length_ms);

/** Chooses how drills follow one another in each block: lowest reserve
 * highest, then fewest neighbours on one prime group. */
void carpace_split_order (const CarpaceSplitTask *task, CarpaceSplitting *splitting);

/** True where @a is the better of two with equal indices. */
bool carpace_split_easier (const CarpaceSplitting *a, const CarpaceSplitting *b);

/** Searches. *best is where it begins and what it found. @return a bound that
 * no split is under */
double carpace_split_search (const CarpaceSplitTask *task, CarpaceSplitting *best);

#endif
