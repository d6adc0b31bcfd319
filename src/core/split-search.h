/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * split-search.h: a branch and bound over whole runs, on its way.
 *
 * split-search.c chooses lengths; split-firsts.c which drill comes first in
 * each block, and with how many runs; split-deal.c deals what is left.
 */
#ifndef CARPACE_SPLIT_SEARCH_H
#define CARPACE_SPLIT_SEARCH_H

#include "split-bound.h"

/** Any drill may come first. */
#define CARPACE_SPLIT_ANY (-1)

/** The state of a search. */
typedef struct
{
  CarpaceSplitLengths lengths;
  const CarpaceSplitTask *task;
  CarpaceSplitting *best;
  int32_t n, k;
  int32_t drill[CARPACE_SPLIT_D];      /* the most work first */
  int32_t dense[CARPACE_SPLIT_D];      /* the most work in a ms first */
  int32_t place[CARPACE_SPLIT_D];      /* of a drill in the order they are dealt */
  int32_t first[CARPACE_SPLIT_B];      /* drill, or any */
  int32_t first_least[CARPACE_SPLIT_B], first_runs[CARPACE_SPLIT_B]; /* its runs there, at least and at most */
  int32_t most[CARPACE_SPLIT_B][CARPACE_SPLIT_D]; /* runs that leave it first */
  CarpaceSplitTable table;
  CarpaceSplitDealt dealt;
  int64_t to_fill_ms[CARPACE_SPLIT_B];
  double highest[CARPACE_SPLIT_B];     /* index of what it has, where any may be first */
  int32_t steps, give_up_at, ties, n_lengths;
  int64_t step_ms;                     /* every run is a multiple of it */
  double of_choice;                    /* bound of the choice of first drills at hand */
  bool gave_up, root_only, alike_runs;
  bool overfull;                       /* runs that must go to a block do not fit, or too few can */
  double slack;                        /* a split must be better by this share */
  double unseen;                       /* the least bound of what was not looked through */
} CarpaceSplitSearch;

/** Counts a step. @return true where the search is to give up */
bool carpace_split_too_much (CarpaceSplitSearch *search);

/** Whether @bound is so high that nothing under it would be better. */
bool carpace_split_hopeless (const CarpaceSplitSearch *search, double bound);

/** Index over the multiplier of hours of @drill with @runs in @block. */
double carpace_split_part_index (const CarpaceSplitSearch *search, int32_t drill, int32_t block, int64_t runs);

/** Compares search->table with the best, and keeps it where it is better. */
void carpace_split_leaf (CarpaceSplitSearch *search);

/** Whether the runs of the drills from place @next on fit under their caps. */
bool carpace_split_can_be_placed (const CarpaceSplitSearch *search, int32_t next);

/** No split that goes on from here, drills from place @next on still to be
 * dealt, has a lower index. INFINITY where none goes on. */
double carpace_split_node_bound (CarpaceSplitSearch *search, int32_t next);

/** Deals the drills from place @i on in every way that could be better. */
void carpace_split_deal_next (CarpaceSplitSearch *search, int32_t i);

/** Sets the first drill of @block to have @first_runs at most, and with it the
 * most runs that every other drill can have there. */
void carpace_split_cap (CarpaceSplitSearch *search, int32_t block, int32_t first_runs);

/** Goes through the choices of first drills for the lengths at hand. */
void carpace_split_search_choices (CarpaceSplitSearch *search);

/** Whether they are few enough for that. */
bool carpace_split_few_choices (const CarpaceSplitSearch *search);

/** Tells that something no split of which is under @least was not looked through. */
void carpace_split_leave_unseen (CarpaceSplitSearch *search, double least);

#endif
