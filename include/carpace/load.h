/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * load.h: works out what a plan asks of the hand, by the models.
 *
 * Estimates to compare plans by; nothing is decided from them.
 */
#ifndef CARPACE_LOAD_H
#define CARPACE_LOAD_H

#include "carpace/plan.h"
#include "carpace/reserve.h"

/** The load of each group while @drill is practised, 0..1: the drill's
 * intensity x the group's share of it. */
void carpace_load_groups (const CarpacePlan *plan, int32_t drill, double ret_load[CARPACE_N_GROUPS]);

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

/** Index of a block, and the lowest modelled reserve in it: drills in listed
 * order, each for its share; a rest of `length` every `after` (two thirds of
 * the limit at most, as a session does it), none with less than a third of
 * `after` to go; rested at its start. */
void carpace_load_block (const CarpacePlan *plan, int32_t block, CarpaceBlockLoad *ret_load);

/** The same of a block that is not in the plan, its reserve only: strain_index
 * is untouched. */
void carpace_load_reserve (const CarpacePlan *plan, const CarpaceBlock *block, CarpaceBlockLoad *ret_load);

/** A stretch of a block: practice of one part, or a micro-rest. */
typedef struct
{
  int32_t part;           /**< index into the block's parts, -1 for a rest */
  int64_t from_ms, to_ms; /**< elapsed time in the block, rests included */
  int64_t active_ms;      /**< active time in the block where it begins */
} CarpaceStretch;

typedef void (*CarpaceStretchVisitor) (void *user, const CarpaceStretch *stretch);

/** The stretches of @block in their order, rests where carpace_load_block() has them. None is empty. */
void carpace_load_stretches (const CarpacePlan *plan, const CarpaceBlock *block, CarpaceStretchVisitor visit, void *user);

/** The modelled reserve of @group along a block, rested at its start, at @n moments evenly spaced over its elapsed
 * time, its start and its end among them: 0..1, an estimate.
 * @param n 2 or more */
void carpace_load_curve (const CarpacePlan *plan, const CarpaceBlock *block, CarpaceGroup group, int32_t n,
                         double *ret_reserve);

/** How long @block takes with its rests, ms. */
int64_t carpace_load_elapsed_ms (const CarpacePlan *plan, const CarpaceBlock *block);

/** Strain index of the whole day. @return NAN where the blocks' limits add up
 * to more than 24 h, for which the index has no meaning */
double carpace_load_day (const CarpacePlan *plan);

/** One change to a plan that would ease it. */
typedef enum
{
  CARPACE_EASE_LIMIT, /**< that block a tenth shorter, down to a whole half minute (CARPACE_LIMIT_STEP_MS) */
  CARPACE_EASE_SHARE, /**< a tenth of that block (all of the drill's part, if less) from that drill, the one with
                           the highest index there, to the one with the lowest */
  CARPACE_EASE_REST,  /**< rests twice as long, where a plan may have them */
  CARPACE_EASE_RUN,   /**< rests twice as often, down to whole 5 s: runs shorter between them */
  CARPACE_N_EASES
} CarpaceEaseKind;

typedef struct
{
  CarpaceEaseKind kind;
  int32_t block, drill;   /**< -1 where it is of the whole plan */
  double effect;          /**< over 0..1: the larger of the relative falls below */
  double day_index;       /**< after the change; fell from what carpace_load_day() says */
  double lowest_reserve;  /**< after the change; the deepest fatigued share (1 less it) fell */
} CarpaceEase;

/** The one change with the largest effect.
 * @return false where nothing of it eases anything */
bool carpace_load_ease (const CarpacePlan *plan, CarpaceEase *ret_ease);

/** What of a drill weighs most in its index. */
typedef enum
{
  CARPACE_WEIGHS_INTENSITY,
  CARPACE_WEIGHS_EFFORTS,
  CARPACE_WEIGHS_DURATION, /**< of an effort */
  CARPACE_WEIGHS_HOURS,    /**< the block's length */
  CARPACE_N_WEIGHS
} CarpaceWeighs;

/** What decides a day: its hardest block, in it the part with the highest index, and what of that would lower it
 * most if it were halved. */
typedef struct
{
  int32_t block, part;
  CarpaceWeighs by;
} CarpaceDecides;

/** @param of_block the load of each block of @plan */
CarpaceDecides carpace_load_decides (const CarpacePlan *plan, const CarpaceBlockLoad *of_block);

/** @plan as it is after @ease. */
void carpace_load_eased (const CarpacePlan *plan, const CarpaceEase *ease, CarpacePlan *ret_plan);

/** All that is told of a plan beside its rail. */
typedef struct
{
  CarpaceBlockLoad block[CARPACE_PLAN_BLOCKS];
  double drill[CARPACE_PLAN_DRILLS]; /**< the highest index of a drill's parts, 0 where no block has it */
  double day_index;                  /**< as carpace_load_day() */
  int32_t lowest;                    /**< the block that falls lowest; its group is the one that decides */
  CarpaceDecides decides;
  bool has_ease;
  CarpaceEase ease;                  /**< where @has_ease */
} CarpaceDayLoad;

/** @plan has a block at least. */
void carpace_load_all (const CarpacePlan *plan, CarpaceDayLoad *ret_load);

#endif
