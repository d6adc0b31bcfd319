/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * split.h: divides a day's drills into blocks, and works out what a plan asks.
 */
#ifndef CARPACE_SPLIT_H
#define CARPACE_SPLIT_H

#include "carpace/plan.h"
#include "carpace/reserve.h"

/** How a split was found. */
typedef struct
{
  bool proven;            /**< no other split has a lower index of the day */
  double day_index;       /**< strain index of the day as split */
  double bound;           /**< none can be lower than this (equal to day_index where proven) */
  double lowest_reserve;  /**< 0..1, the lowest any block of it comes to, an estimate */
} CarpaceSplitFound;

/** Divides the drills of @plan (their `time`, or equal shares of the dose)
 * into @into blocks and writes them to plan->blocks: whole runs only, block
 * lengths equal to within one run, the day's strain index least, then the
 * lowest reserve highest, neighbours in a block not on the same prime group
 * where that can be had. Proven up to 10 drills x 4 blocks.
 * @param into 1..CARPACE_PLAN_BLOCKS
 * @return false, *plan untouched, where there are fewer whole runs than blocks */
bool carpace_split (CarpacePlan *plan, int32_t into, CarpaceSplitFound *ret_found);

/** What one drill's part in one block asks. */
typedef struct
{
  int32_t block, drill;
  CarpaceStrain strain;
} CarpaceDrillLoad;

/** What one block asks. */
typedef struct
{
  double strain_index;
  double lowest_reserve; /**< 0..1, an estimate; of the group that falls lowest */
  CarpaceGroup group;
  int64_t at_ms;         /**< elapsed time in the block, rests included */
} CarpaceBlockLoad;

/** Strain index and factors of part @part of block @block: efforts are the
 * drill's times its share of the block, hours the block's limit. */
void carpace_load_part (const CarpacePlan *plan, int32_t block, int32_t part, CarpaceDrillLoad *ret_load);

/** Index of a block, and the lowest modelled reserve in it, with a rest of
 * `length` every `after`, rested at its start. */
void carpace_load_block (const CarpacePlan *plan, int32_t block, CarpaceBlockLoad *ret_load);

/** Strain index of the whole day. */
double carpace_load_day (const CarpacePlan *plan);

/** The one change that would ease the day's strain index most. */
typedef enum
{
  CARPACE_EASE_LIMIT, /**< that block shorter by a tenth */
  CARPACE_EASE_SHARE, /**< a tenth of the block from that drill to its lightest */
  CARPACE_EASE_REST,  /**< rests twice as long */
  CARPACE_EASE_RUN    /**< rests twice as often: runs shorter between them */
} CarpaceEaseKind;

typedef struct
{
  CarpaceEaseKind kind;
  int32_t block, drill;   /**< -1 where it is of the whole plan */
  double day_index;       /**< after the change */
  double lowest_reserve;  /**< after the change */
} CarpaceEase;

/** @return false where nothing of it eases anything */
bool carpace_load_ease (const CarpacePlan *plan, CarpaceEase *ret_ease);

#endif
