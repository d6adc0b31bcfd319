/* SPDX-License-Identifier: GPL-3.0-or-later */
/** split-place.h: places whole runs under caps, and levels their work. */
#ifndef CARPACE_SPLIT_PLACE_H
#define CARPACE_SPLIT_PLACE_H

#include "split-bound.h"

/** Runs to place, all equally long. */
typedef struct
{
  int32_t n_drills, n_blocks;
  int32_t runs[CARPACE_SPLIT_D];                   /**< of each drill */
  int32_t fill[CARPACE_SPLIT_B];                   /**< runs each block takes */
  int32_t least[CARPACE_SPLIT_B][CARPACE_SPLIT_D]; /**< of a drill in a block */
  int32_t most[CARPACE_SPLIT_B][CARPACE_SPLIT_D];
} CarpaceSplitPlaces;

/** Places all runs. Exact, by augmenting paths: @return false only where there
 * is no way */
bool carpace_split_place (const CarpaceSplitPlaces *places, CarpaceSplitTable *ret_table);

/** Exchanges runs within the caps so that sum work of block i comes near to
 * @target[i]. @work is that of a run of each drill. */
void carpace_split_level (const CarpaceSplitPlaces *places, const double *work, const double *target,
                          CarpaceSplitTable *table);

/** The least sum of work x @weight of its block, over all placements. @work is
 * that of a run of each drill; *table is a placement to begin with, and one
 * that is least at the end. Exact, by cancelling negative cycles (Klein 1967).
 * @return -INFINITY where it takes too long */
double carpace_split_least_work (const CarpaceSplitPlaces *places, const double *work, const double *weight,
                                 CarpaceSplitTable *table);

#endif
