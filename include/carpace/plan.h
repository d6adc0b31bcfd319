/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan.h: what a plan says, checked and complete.
 *
 * A CarpacePlan is made by the builder (plan-builder.h) and never changed
 * afterwards: every default is written out, every range has been checked.
 */
#ifndef CARPACE_PLAN_H
#define CARPACE_PLAN_H

#include "carpace/day.h"
#include "carpace/exercise.h"
#include "carpace/instant.h"
#include "carpace/muscles.h"
#include "carpace/strain.h"

/** Characters a name may have, and the bytes that takes in UTF-8 with its end. */
#define CARPACE_NAME_CHARACTERS 80
#define CARPACE_NAME_BYTES (4 * CARPACE_NAME_CHARACTERS + 1)
/** The same for a note. */
#define CARPACE_NOTE_CHARACTERS 400
#define CARPACE_NOTE_BYTES (4 * CARPACE_NOTE_CHARACTERS + 1)
/** A drill's id: letters, digits and `-`. */
#define CARPACE_ID_BYTES (CARPACE_NAME_CHARACTERS + 1)

#define CARPACE_PLAN_DRILLS 64
#define CARPACE_PLAN_BLOCKS 32
#define CARPACE_PLAN_SHOWN 16
/** Days of a week that can be without practice. */
#define CARPACE_PLAN_WITHOUT 6

/** Shares and percentages that cut or raise times are whole hundredths of a
 * percent, so that 70 % of 90 min is 63 min exactly: 65 % is 6500. */
#define CARPACE_PERCENT 100
#define CARPACE_WHOLE (100 * CARPACE_PERCENT)

/** Where a drill's efforts a minute come from. */
typedef enum
{
  CARPACE_EFFORTS_FROM_PLAN,   /**< as the plan has them */
  CARPACE_EFFORTS_FROM_CLICKS, /**< clicks measured, where somebody counted them (clicks.h) */
  CARPACE_N_EFFORTS_FROMS
} CarpaceEffortsFrom;

/** One drill. */
typedef struct
{
  char id[CARPACE_ID_BYTES];
  char name[CARPACE_NAME_BYTES];
  CarpaceMovement movement;
  double view_turn_deg;     /**< 1..720, 0 where not given */
  double intensity_pct_mvc; /**< over 0..100, percent of maximal strength */
  double efforts_per_min;   /**< 1..600 */
  CarpaceEffortsFrom efforts_from;
  double effort_lasts_s;    /**< 0.01..60 */
  CarpaceWristBend bend;
  double bend_deg;          /**< 0..90 */
  int64_t run_ms;           /**< 0 where not given */
  int64_t time_ms;          /**< the drill's time a day where the plan is split, 0 where not given */
} CarpaceDrill;

/** One drill's part in a block. */
typedef struct
{
  int32_t drill; /**< index into drills */
  int32_t share; /**< of the block's limit, hundredths of a percent; a block's parts add up to CARPACE_WHOLE */
} CarpaceBlockPart;

/** One block. */
typedef struct
{
  int64_t limit_ms;
  bool limit_fixed; /**< the player's copy may not be longer */
  int32_t n_parts;  /**< 1..CARPACE_PLAN_DRILLS */
  CarpaceBlockPart parts[CARPACE_PLAN_DRILLS];
} CarpaceBlock;

/** Keys of a plan that stand once in it, in the order of its file. */
typedef enum
{
  CARPACE_KEY_NAME,
  CARPACE_KEY_VERSION,
  CARPACE_KEY_NOTE,
  CARPACE_KEY_HAND_SIDE,
  CARPACE_KEY_HAND_GRIP,
  CARPACE_KEY_HAND_CM_PER_TURN,
  CARPACE_KEY_HAND_USUAL_DISCOMFORT,
  CARPACE_KEY_PLAYER_AGE,
  CARPACE_KEY_DAY_DOSE,
  CARPACE_KEY_DAY_STARTS_AT,
  CARPACE_KEY_DAY_BETWEEN_BLOCKS,
  CARPACE_KEY_WEEK_WITHOUT,
  CARPACE_KEY_GAP_AFTER,
  CARPACE_KEY_RUN_MIN,
  CARPACE_KEY_MICRO_REST_AFTER,
  CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS,
  CARPACE_KEY_MICRO_REST_LENGTH,
  CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST,
  CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP,
  CARPACE_KEY_MICRO_REST_SHOW,
  CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN,
  CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO,
  CARPACE_KEY_BLOCK_LIMITS_SHORTEST,
  CARPACE_KEY_BLOCK_LIMITS_LONGEST,
  CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO,
  CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO,
  CARPACE_KEY_TIGHTEN_STOP_ABOVE,
  CARPACE_KEY_NEXT_DAY_CUT_TO,
  CARPACE_KEY_NEXT_DAY_STEP_UP_BY,
  CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS,
  CARPACE_KEY_NEXT_DAY_AT_MOST,
  CARPACE_KEY_MATCHES_COUNTS,
  CARPACE_KEY_ON_AIR_EVERY,
  CARPACE_KEY_ON_AIR_FROM,
  CARPACE_KEY_ON_AIR_NOTICE,
  CARPACE_KEY_ON_AIR_LENGTH,
  CARPACE_N_KEYS
} CarpacePlanKey;

/** Keys of a drill, without its id. */
typedef enum
{
  CARPACE_DRILL_NAME,
  CARPACE_DRILL_MOVEMENT,
  CARPACE_DRILL_VIEW_TURN,    /**< degrees */
  CARPACE_DRILL_INTENSITY,    /**< percent */
  CARPACE_DRILL_EFFORTS,      /**< a minute */
  CARPACE_DRILL_EFFORTS_FROM,
  CARPACE_DRILL_EFFORT_LASTS, /**< s */
  CARPACE_DRILL_WRIST,        /**< degrees; flexion over 0, extension under 0 */
  CARPACE_DRILL_RUN,          /**< ms */
  CARPACE_DRILL_TIME,         /**< ms */
  CARPACE_N_DRILL_KEYS
} CarpaceDrillKey;

/** How old the player is, as far as it was said: under 16 an adult is told of a caution, too. */
typedef enum
{
  CARPACE_AGE_NOT_SAID,
  CARPACE_AGE_UNDER_16,
  CARPACE_AGE_16_OR_OVER,
  CARPACE_N_AGES
} CarpaceAge;

/** Words for a split: into one block, two, four. Any number is said in digits. */
typedef enum { CARPACE_SPLIT_WHOLE, CARPACE_SPLIT_HALVES, CARPACE_SPLIT_QUARTERS, CARPACE_N_SPLIT_WORDS } CarpaceSplitWord;

/** What on-air intermissions are counted from. */
typedef enum
{
  CARPACE_ON_AIR_FROM_CLOCK,
  CARPACE_ON_AIR_FROM_STREAM,
  CARPACE_N_ON_AIR_FROMS
} CarpaceOnAirFrom;

/** A plan. */
typedef struct
{
  char name[CARPACE_NAME_BYTES];
  int32_t version;            /**< 1..9999 */
  char note[CARPACE_NOTE_BYTES];

  CarpaceSide side;
  CarpaceGrip grip;
  double cm_per_turn;         /**< 2..200, 0 where not given */
  int32_t usual_discomfort;   /**< 0..10 */
  CarpaceAge age;

  int64_t dose_ms;            /**< the first dose */
  int32_t starts_at_min;      /**< minutes after local midnight */
  int64_t between_blocks_ms;
  int32_t without;            /**< planned days without practice, the bit 1 << CarpaceWeekday each */

  int64_t gap_after_ms;
  int64_t run_min_ms;

  int64_t after_ms;           /**< micro-rest after this much active time */
  int32_t or_after_runs;      /**< 0: off */
  int64_t rest_ms;            /**< length of a micro-rest */
  double reserve_at_least_pct; /**< 0: off */
  int64_t wait_for_gap_ms;
  int32_t n_shown;            /**< 1..CARPACE_PLAN_SHOWN */
  CarpaceExercise shown[CARPACE_PLAN_SHOWN];

  int64_t finish_run_ms;
  int64_t round_down_to_ms;
  int64_t shortest_ms;
  int64_t longest_ms;

  int32_t up_1_shorten_to;    /**< hundredths of a percent */
  int32_t up_2_shorten_to;    /**< hundredths of a percent */
  int32_t stop_above;

  int32_t cut_to;             /**< hundredths of a percent */
  int32_t step_up_by;         /**< hundredths of a percent */
  int32_t after_good_days;
  int64_t at_most_ms;

  int32_t matches_count;      /**< hundredths of a percent of match time that is dose */

  int64_t on_air_every_ms;    /**< 0: no intermissions of the plan's own */
  CarpaceOnAirFrom on_air_from;
  int64_t on_air_notice_ms;
  int64_t on_air_length_ms;

  bool fixed[CARPACE_N_KEYS]; /**< a copy may be stricter there, never looser */

  int32_t n_drills;
  CarpaceDrill drills[CARPACE_PLAN_DRILLS];
  int32_t split_into;         /**< blocks asked for by `split`, 0 where the plan lists its blocks */
  int32_t n_blocks;
  CarpaceBlock blocks[CARPACE_PLAN_BLOCKS];
} CarpacePlan;

/** The drill that a stretch begun at @active_ms of block @block belongs to:
 * drills follow in listed order, each for its share of @limit_ms; the last one
 * in overrun. A @block past the plan's last is like the last.
 * @return an index into plan->drills */
int32_t carpace_plan_drill_at (const CarpacePlan *plan, int32_t block, int64_t limit_ms, int64_t active_ms);

/** Whether @day is a planned day without practice. */
bool carpace_plan_is_without (const CarpacePlan *plan, CarpaceDay day);

/** The longest of the plan's own block limits, ms. */
int64_t carpace_plan_longest_limit_ms (const CarpacePlan *plan);

/** The sum of the plan's own block limits, ms. */
int64_t carpace_plan_sum_of_limits_ms (const CarpacePlan *plan);

#endif
