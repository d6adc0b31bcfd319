/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-keys.h: what each key of a plan takes.
 *
 * One table for the builder (ranges), for the comparison of a copy with the
 * plan it was given as, and for whoever writes a plan or a range out.
 */
#ifndef CARPACE_PLAN_KEYS_H
#define CARPACE_PLAN_KEYS_H

#include "carpace/names.h"
#include "carpace/plan.h"

/** How a value is written, and what its number counts. */
typedef enum
{
  CARPACE_UNIT_TEXT,
  CARPACE_UNIT_WORD,        /**< one of a closed set; the number is its enum */
  CARPACE_UNIT_WHOLE,       /**< a whole number */
  CARPACE_UNIT_CM,          /**< a number, its unit in the key */
  CARPACE_UNIT_DURATION,    /**< ms */
  CARPACE_UNIT_SHARE,       /**< hundredths of a percent */
  CARPACE_UNIT_PERCENT,     /**< percent */
  CARPACE_UNIT_TIME_OF_DAY, /**< minutes after midnight */
  CARPACE_UNIT_DEGREES,
  CARPACE_UNIT_PER_MIN,     /**< a minute */
  CARPACE_UNIT_SECONDS,     /**< a duration whose number is s */
  CARPACE_UNIT_WRIST,       /**< degrees; flexion over 0, extension under 0 */
  CARPACE_UNIT_EXERCISES,   /**< a list */
  CARPACE_UNIT_WEEKDAYS     /**< a list; the number has the bit 1 << CarpaceWeekday for each */
} CarpaceUnit;

/** Which way a value would ask more of the hand. */
typedef enum
{
  CARPACE_LOOSER_ANY,    /**< no direction: a fixed value may not change */
  CARPACE_LOOSER_HIGHER,
  CARPACE_LOOSER_LOWER,
  CARPACE_LOOSER_FEWER   /**< of a list */
} CarpaceLooser;

/** What a key takes. */
typedef struct
{
  CarpaceUnit unit;
  CarpaceWords words;  /**< CARPACE_UNIT_WORD: which */
  double low, high;    /**< the range, both ends in it, in the number's unit */
  bool over_low;       /**< the lower end is not in it */
  CarpaceLooser looser;
  const char *none;    /**< the word that says there is none of it (0 in the plan), NULL where there is no such word */
} CarpaceKeyFacts;

/** Facts of @key, 0..CARPACE_N_KEYS-1. */
const CarpaceKeyFacts *carpace_plan_key_facts (CarpacePlanKey key);

/** The number @plan has at @key; 0 where the key is no number. */
double carpace_plan_number (const CarpacePlan *plan, CarpacePlanKey key);

/** Sets it. Whoever calls has checked the range. */
void carpace_plan_set_number (CarpacePlan *plan, CarpacePlanKey key, double number);

/** Facts of a drill's @key. */
const CarpaceKeyFacts *carpace_drill_key_facts (CarpaceDrillKey key);

/** Facts of a block's limit. */
const CarpaceKeyFacts *carpace_block_limit_facts (void);

#endif
