/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-keys.c: the key table of plan files. */
#include "carpace/plan-keys.h"

#define SECOND ((double) CARPACE_SECOND_MS)
#define MINUTE ((double) CARPACE_MINUTE_MS)
#define HOUR ((double) CARPACE_HOUR_MS)
#define SHARE(percent) ((double) ((percent) * CARPACE_PERCENT))

static const CarpaceKeyFacts plan_keys[CARPACE_N_KEYS] = {
  [CARPACE_KEY_NAME] = { .unit = CARPACE_UNIT_TEXT, .low = 1, .high = CARPACE_NAME_CHARACTERS },
  [CARPACE_KEY_VERSION] = { .unit = CARPACE_UNIT_WHOLE, .low = 1, .high = 9999 },
  [CARPACE_KEY_NOTE] = { .unit = CARPACE_UNIT_TEXT, .low = 0, .high = CARPACE_NOTE_CHARACTERS },
  [CARPACE_KEY_HAND_SIDE] = { .unit = CARPACE_UNIT_WORD, .words = CARPACE_WORDS_SIDE, .high = CARPACE_N_SIDES - 1 },
  [CARPACE_KEY_HAND_GRIP] = { .unit = CARPACE_UNIT_WORD, .words = CARPACE_WORDS_GRIP, .high = CARPACE_N_GRIPS - 1 },
  [CARPACE_KEY_HAND_CM_PER_TURN] = { .unit = CARPACE_UNIT_CM, .low = 2, .high = 200, .none = "none" },
  [CARPACE_KEY_HAND_USUAL_DISCOMFORT]
      = { .unit = CARPACE_UNIT_WHOLE, .low = 0, .high = 10, .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_PLAYER_AGE] = { .unit = CARPACE_UNIT_WORD, .words = CARPACE_WORDS_AGE, .high = CARPACE_N_AGES - 1 },
  [CARPACE_KEY_DAY_DOSE]
      = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 8 * HOUR, .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_DAY_STARTS_AT] = { .unit = CARPACE_UNIT_TIME_OF_DAY, .low = 0, .high = 24 * 60 - 1 },
  [CARPACE_KEY_DAY_BETWEEN_BLOCKS]
      = { .unit = CARPACE_UNIT_DURATION, .low = 0, .high = 12 * HOUR, .looser = CARPACE_LOOSER_LOWER },
  [CARPACE_KEY_WEEK_WITHOUT] = { .unit = CARPACE_UNIT_WEEKDAYS, .words = CARPACE_WORDS_WEEKDAY,
                                 .high = CARPACE_PLAN_WITHOUT, .looser = CARPACE_LOOSER_FEWER },
  [CARPACE_KEY_GAP_AFTER] = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 30 * SECOND },
  [CARPACE_KEY_RUN_MIN] = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 300 * SECOND },
  [CARPACE_KEY_MICRO_REST_AFTER]
      = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 2 * HOUR, .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS] = { .unit = CARPACE_UNIT_WHOLE, .low = 1, .high = 100, .none = "off" },
  [CARPACE_KEY_MICRO_REST_LENGTH]
      = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 5 * MINUTE, .looser = CARPACE_LOOSER_LOWER },
  [CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST] = { .unit = CARPACE_UNIT_PERCENT, .low = 1, .high = 99, .none = "off" },
  [CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP] = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 10 * MINUTE },
  [CARPACE_KEY_MICRO_REST_SHOW] = { .unit = CARPACE_UNIT_EXERCISES, .words = CARPACE_WORDS_EXERCISE, .low = 1,
                                    .high = CARPACE_PLAN_SHOWN },
  [CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN]
      = { .unit = CARPACE_UNIT_DURATION, .low = 0, .high = 10 * MINUTE, .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO] = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 10 * MINUTE },
  [CARPACE_KEY_BLOCK_LIMITS_SHORTEST] = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = HOUR },
  [CARPACE_KEY_BLOCK_LIMITS_LONGEST]
      = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 4 * HOUR, .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO]
      = { .unit = CARPACE_UNIT_SHARE, .low = SHARE (10), .high = SHARE (100), .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO]
      = { .unit = CARPACE_UNIT_SHARE, .low = SHARE (10), .high = SHARE (70), .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_TIGHTEN_STOP_ABOVE]
      = { .unit = CARPACE_UNIT_WHOLE, .low = 1, .high = 5, .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_NEXT_DAY_CUT_TO]
      = { .unit = CARPACE_UNIT_SHARE, .low = SHARE (10), .high = SHARE (70), .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_NEXT_DAY_STEP_UP_BY]
      = { .unit = CARPACE_UNIT_SHARE, .low = 0, .high = SHARE (20), .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS]
      = { .unit = CARPACE_UNIT_WHOLE, .low = 1, .high = 30, .looser = CARPACE_LOOSER_LOWER },
  [CARPACE_KEY_NEXT_DAY_AT_MOST]
      = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 8 * HOUR, .looser = CARPACE_LOOSER_HIGHER },
  [CARPACE_KEY_MATCHES_COUNTS]
      = { .unit = CARPACE_UNIT_SHARE, .low = 0, .high = SHARE (200), .looser = CARPACE_LOOSER_LOWER },
  [CARPACE_KEY_ON_AIR_EVERY]
      = { .unit = CARPACE_UNIT_DURATION, .low = 5 * MINUTE, .high = 4 * HOUR, .none = "off" },
  [CARPACE_KEY_ON_AIR_FROM]
      = { .unit = CARPACE_UNIT_WORD, .words = CARPACE_WORDS_ON_AIR_FROM, .high = CARPACE_N_ON_AIR_FROMS - 1 },
  [CARPACE_KEY_ON_AIR_NOTICE] = { .unit = CARPACE_UNIT_DURATION, .low = 0, .high = 30 * MINUTE },
  [CARPACE_KEY_ON_AIR_LENGTH] = { .unit = CARPACE_UNIT_DURATION, .low = MINUTE, .high = HOUR },
};

static const CarpaceKeyFacts drill_keys[CARPACE_N_DRILL_KEYS] = {
  [CARPACE_DRILL_NAME] = { .unit = CARPACE_UNIT_TEXT, .low = 1, .high = CARPACE_NAME_CHARACTERS },
  [CARPACE_DRILL_MOVEMENT]
      = { .unit = CARPACE_UNIT_WORD, .words = CARPACE_WORDS_MOVEMENT, .high = CARPACE_N_MOVEMENTS - 1 },
  [CARPACE_DRILL_VIEW_TURN] = { .unit = CARPACE_UNIT_DEGREES, .low = 1, .high = 720, .none = "none" },
  [CARPACE_DRILL_INTENSITY] = { .unit = CARPACE_UNIT_PERCENT, .low = 0, .high = 100, .over_low = true },
  [CARPACE_DRILL_EFFORTS] = { .unit = CARPACE_UNIT_PER_MIN, .low = 1, .high = 600 },
  [CARPACE_DRILL_EFFORTS_FROM]
      = { .unit = CARPACE_UNIT_WORD, .words = CARPACE_WORDS_EFFORTS_FROM, .high = CARPACE_N_EFFORTS_FROMS - 1 },
  [CARPACE_DRILL_EFFORT_LASTS] = { .unit = CARPACE_UNIT_SECONDS, .low = 0.01, .high = 60 },
  [CARPACE_DRILL_WRIST] = { .unit = CARPACE_UNIT_WRIST, .low = -90, .high = 90, .none = "straight" },
  [CARPACE_DRILL_RUN] = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = HOUR, .none = "none" },
  [CARPACE_DRILL_TIME] = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 8 * HOUR, .none = "equal" },
};

static const CarpaceKeyFacts block_limit
    = { .unit = CARPACE_UNIT_DURATION, .low = SECOND, .high = 4 * HOUR, .looser = CARPACE_LOOSER_HIGHER };

const CarpaceKeyFacts *
carpace_plan_key_facts (CarpacePlanKey key)
{
  return &plan_keys[key];
}

const CarpaceKeyFacts *
carpace_drill_key_facts (CarpaceDrillKey key)
{
  return &drill_keys[key];
}

const CarpaceKeyFacts *
carpace_block_limit_facts (void)
{
  return &block_limit;
}

/* A plan's number of one of the four types it has; the others are NULL. */
typedef struct
{
  int64_t *ms;
  int32_t *whole;
  double *real;
} Field;

/* The enums and the text keys are not here. */
static Field
field (CarpacePlan *plan, CarpacePlanKey key)
{
  switch (key)
    {
    case CARPACE_KEY_VERSION: return (Field){ .whole = &plan->version };
    case CARPACE_KEY_HAND_CM_PER_TURN: return (Field){ .real = &plan->cm_per_turn };
    case CARPACE_KEY_HAND_USUAL_DISCOMFORT: return (Field){ .whole = &plan->usual_discomfort };
    case CARPACE_KEY_DAY_DOSE: return (Field){ .ms = &plan->dose_ms };
    case CARPACE_KEY_DAY_STARTS_AT: return (Field){ .whole = &plan->starts_at_min };
    case CARPACE_KEY_DAY_BETWEEN_BLOCKS: return (Field){ .ms = &plan->between_blocks_ms };
    case CARPACE_KEY_WEEK_WITHOUT: return (Field){ .whole = &plan->without };
    case CARPACE_KEY_GAP_AFTER: return (Field){ .ms = &plan->gap_after_ms };
    case CARPACE_KEY_RUN_MIN: return (Field){ .ms = &plan->run_min_ms };
    case CARPACE_KEY_MICRO_REST_AFTER: return (Field){ .ms = &plan->after_ms };
    case CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS: return (Field){ .whole = &plan->or_after_runs };
    case CARPACE_KEY_MICRO_REST_LENGTH: return (Field){ .ms = &plan->rest_ms };
    case CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST: return (Field){ .real = &plan->reserve_at_least_pct };
    case CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP: return (Field){ .ms = &plan->wait_for_gap_ms };
    case CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN: return (Field){ .ms = &plan->finish_run_ms };
    case CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO: return (Field){ .ms = &plan->round_down_to_ms };
    case CARPACE_KEY_BLOCK_LIMITS_SHORTEST: return (Field){ .ms = &plan->shortest_ms };
    case CARPACE_KEY_BLOCK_LIMITS_LONGEST: return (Field){ .ms = &plan->longest_ms };
    case CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO: return (Field){ .whole = &plan->up_1_shorten_to };
    case CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO: return (Field){ .whole = &plan->up_2_shorten_to };
    case CARPACE_KEY_TIGHTEN_STOP_ABOVE: return (Field){ .whole = &plan->stop_above };
    case CARPACE_KEY_NEXT_DAY_CUT_TO: return (Field){ .whole = &plan->cut_to };
    case CARPACE_KEY_NEXT_DAY_STEP_UP_BY: return (Field){ .whole = &plan->step_up_by };
    case CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS: return (Field){ .whole = &plan->after_good_days };
    case CARPACE_KEY_NEXT_DAY_AT_MOST: return (Field){ .ms = &plan->at_most_ms };
    case CARPACE_KEY_MATCHES_COUNTS: return (Field){ .whole = &plan->matches_count };
    case CARPACE_KEY_ON_AIR_EVERY: return (Field){ .ms = &plan->on_air_every_ms };
    case CARPACE_KEY_ON_AIR_NOTICE: return (Field){ .ms = &plan->on_air_notice_ms };
    case CARPACE_KEY_ON_AIR_LENGTH: return (Field){ .ms = &plan->on_air_length_ms };
    case CARPACE_KEY_HAND_SIDE:
    case CARPACE_KEY_HAND_GRIP:
    case CARPACE_KEY_PLAYER_AGE:
    case CARPACE_KEY_ON_AIR_FROM:
    case CARPACE_KEY_NAME:
    case CARPACE_KEY_NOTE:
    case CARPACE_KEY_MICRO_REST_SHOW:
    case CARPACE_N_KEYS:
      break;
    }
  return (Field){ .real = NULL };
}

double
carpace_plan_number (const CarpacePlan *plan, CarpacePlanKey key)
{
  Field at = field ((CarpacePlan *) plan, key);

  if (at.ms)
    return (double) *at.ms;
  if (at.whole)
    return *at.whole;
  if (at.real)
    return *at.real;
  if (key == CARPACE_KEY_HAND_SIDE)
    return (double) plan->side;
  if (key == CARPACE_KEY_HAND_GRIP)
    return (double) plan->grip;
  if (key == CARPACE_KEY_PLAYER_AGE)
    return (double) plan->age;
  if (key == CARPACE_KEY_ON_AIR_FROM)
    return (double) plan->on_air_from;
  return 0;
}

void
carpace_plan_set_number (CarpacePlan *plan, CarpacePlanKey key, double number)
{
  Field at = field (plan, key);

  if (at.ms)
    *at.ms = (int64_t) number;
  else if (at.whole)
    *at.whole = (int32_t) number;
  else if (at.real)
    *at.real = number;
  else if (key == CARPACE_KEY_HAND_SIDE)
    plan->side = (CarpaceSide) number;
  else if (key == CARPACE_KEY_HAND_GRIP)
    plan->grip = (CarpaceGrip) number;
  else if (key == CARPACE_KEY_PLAYER_AGE)
    plan->age = (CarpaceAge) number;
  else if (key == CARPACE_KEY_ON_AIR_FROM)
    plan->on_air_from = (CarpaceOnAirFrom) number;
}
