/* SPDX-License-Identifier: GPL-3.0-or-later */
/* names.c: enum <-> word, one table a set: each row by its own name, each table
 * as long as its enum. A row that is missing is found by tests/core/test-tables.c. */
#include "carpace/names.h"

#include <string.h>

#include "carpace/diary.h"
#include "carpace/event-kinds.h"
#include "carpace/settings.h"
#include "carpace/team.h"

static const char *const state_words[CARPACE_N_STATES] = {
  [CARPACE_STATE_OFF] = "off",
  [CARPACE_STATE_WAITING] = "waiting",
  [CARPACE_STATE_PRACTISING] = "practising",
  [CARPACE_STATE_GAP] = "gap",
  [CARPACE_STATE_REST_DUE] = "rest-due",
  [CARPACE_STATE_RESTING] = "resting",
  [CARPACE_STATE_LIMIT_REACHED] = "limit-reached",
  [CARPACE_STATE_RATING_DUE] = "rating-due",
  [CARPACE_STATE_PAUSED] = "paused",
  [CARPACE_STATE_DAY_DONE] = "day-done",
};
static const char *const cue_words[CARPACE_N_CUES] = {
  [CARPACE_CUE_MICRO_REST] = "micro-rest",
  [CARPACE_CUE_LIMIT] = "limit",
  [CARPACE_CUE_RATING] = "rating",
  [CARPACE_CUE_NEXT_BLOCK] = "next-block",
  [CARPACE_CUE_MORNING] = "morning",
  [CARPACE_CUE_DAY_DONE] = "day-done",
  [CARPACE_CUE_CAUTION] = "caution",
  [CARPACE_CUE_UNSTARTED] = "unstarted",
  [CARPACE_CUE_BEGUN] = "begun",
};
static const char *const site_words[CARPACE_N_SITES] = {
  [CARPACE_SITE_NONE] = "none",
  [CARPACE_SITE_PALM_SIDE] = "palm-side",
  [CARPACE_SITE_LITTLE_FINGER_SIDE] = "little-finger-side",
  [CARPACE_SITE_THUMB_SIDE] = "thumb-side",
  [CARPACE_SITE_BACK_OF_FOREARM] = "back-of-forearm",
  [CARPACE_SITE_FINGERS] = "fingers",
  [CARPACE_SITE_ELBOW] = "elbow",
  [CARPACE_SITE_SHOULDER] = "shoulder",
  [CARPACE_SITE_NECK] = "neck",
  [CARPACE_SITE_OTHER_HAND] = "other-hand",
};
static const char *const entry_words[CARPACE_N_ENTRIES] = {
  [CARPACE_ENTRY_STATE] = "state",
  [CARPACE_ENTRY_DAY] = "day",
  [CARPACE_ENTRY_BLOCK] = "block",
  [CARPACE_ENTRY_OVERRUN] = "overrun",
  [CARPACE_ENTRY_CUE] = "cue",
  [CARPACE_ENTRY_REST] = "rest",
  [CARPACE_ENTRY_RATING] = "rating",
  [CARPACE_ENTRY_MORNING] = "morning",
  [CARPACE_ENTRY_DECISION] = "decision",
  [CARPACE_ENTRY_CAUTION] = "caution",
  [CARPACE_ENTRY_FAULT] = "fault",
  [CARPACE_ENTRY_CLICKS] = "clicks",
};
static const char *const day_whats[CARPACE_N_DAY_WHATS] = {
  [CARPACE_DAY_OPENED] = "opened",
  [CARPACE_DAY_DONE] = "done",
};
static const char *const block_whats[CARPACE_N_BLOCK_WHATS] = {
  [CARPACE_BLOCK_STARTED] = "started",
  [CARPACE_BLOCK_ENDED] = "ended",
  [CARPACE_BLOCK_DROPPED] = "dropped",
};
static const char *const plan_whats[CARPACE_N_PLAN_WHATS] = {
  [CARPACE_PLAN_GIVEN] = "given",
  [CARPACE_PLAN_RELEASED] = "released",
  [CARPACE_PLAN_OF_DAY] = "day",
};
static const char *const cue_whats[CARPACE_N_CUE_WHATS] = {
  [CARPACE_CUE_SHOWN] = "shown",
  [CARPACE_CUE_WITHDRAWN] = "withdrawn",
  [CARPACE_CUE_ASKED] = "asked",
};
static const char *const rest_whats[CARPACE_N_REST_WHATS] = {
  [CARPACE_REST_TAKEN] = "taken",
  [CARPACE_REST_DECLINED] = "declined",
  [CARPACE_REST_DEFERRED] = "deferred",
  [CARPACE_REST_INTERRUPTED] = "interrupted",
};
static const char *const caution_whats[CARPACE_N_CAUTION_WHATS] = {
  [CARPACE_CAUTION_WAS_ASKED] = "asked",
  [CARPACE_CAUTION_WAS_NONE] = "none",
  [CARPACE_CAUTION_OPENED] = "opened",
  [CARPACE_CAUTION_CLOSED] = "closed",
};
static const char *const seen_by_words[CARPACE_N_SEEN_BYS] = {
  [CARPACE_SEEN_BY_UNSAID] = "unsaid",
  [CARPACE_SEEN_BY_PHYSIOTHERAPIST] = "physiotherapist",
  [CARPACE_SEEN_BY_DOCTOR] = "doctor",
};
static const char *const caution_answer_words[CARPACE_N_CAUTION_ANSWERS] = {
  [CARPACE_CAUTION_ASK] = "ask",
  [CARPACE_CAUTION_SIGNS] = "signs",
  [CARPACE_CAUTION_SEEN] = "seen",
  [CARPACE_CAUTION_GONE] = "gone",
};
static const char *const stiffness_words[CARPACE_N_STIFFNESSES] = {
  [CARPACE_STIFFNESS_UNSAID] = "unsaid",
  [CARPACE_STIFFNESS_LESS] = "less",
  [CARPACE_STIFFNESS_USUAL] = "usual",
  [CARPACE_STIFFNESS_MORE] = "more",
};
static const char *const sign_words[CARPACE_N_SIGNS] = {
  [CARPACE_SIGN_INJURY] = "injury",
  [CARPACE_SIGN_DEFORMED] = "deformed",
  [CARPACE_SIGN_CANNOT_MOVE] = "cannot-move",
  [CARPACE_SIGN_COLD_OR_PALE] = "cold-or-pale",
  [CARPACE_SIGN_HOT_AND_FEVERISH] = "hot-and-feverish",
  [CARPACE_SIGN_NUMB] = "numb",
  [CARPACE_SIGN_NIGHT_PAIN] = "night-pain",
  [CARPACE_SIGN_DROPPING_THINGS] = "dropping-things",
  [CARPACE_SIGN_WEAK] = "weak",
  [CARPACE_SIGN_LOCKING] = "locking",
  [CARPACE_SIGN_SWOLLEN] = "swollen",
  [CARPACE_SIGN_NOT_BETTER] = "not-better",
};
static const char *const rule_words[CARPACE_N_RULES] = {
  [CARPACE_RULE_ABOVE_STOP] = "above-stop",
  [CARPACE_RULE_UP_2] = "up-2",
  [CARPACE_RULE_UP_TO_4_OR_5] = "up-to-4-or-5",
  [CARPACE_RULE_UP_1] = "up-1",
  [CARPACE_RULE_UNANSWERED_TWICE] = "unanswered-twice",
  [CARPACE_RULE_TIGHTENED_THRICE] = "tightened-thrice",
  [CARPACE_RULE_TOO_SHORT] = "too-short",
  [CARPACE_RULE_CAUTION] = "caution",
  [CARPACE_RULE_CUT] = "cut",
  [CARPACE_RULE_REST_DAY] = "rest-day",
  [CARPACE_RULE_KEEP_NO_PRACTICE] = "keep-no-practice",
  [CARPACE_RULE_KEEP_OTHER_LOAD] = "keep-other-load",
  [CARPACE_RULE_AFTER_TIME_OFF] = "after-time-off",
  [CARPACE_RULE_KEEP_WEEK] = "keep-week",
  [CARPACE_RULE_WAY_BACK] = "way-back",
  [CARPACE_RULE_STEP_UP] = "step-up",
  [CARPACE_RULE_KEEP] = "keep",
  [CARPACE_RULE_CUT_ONCE] = "cut-once",
  [CARPACE_RULE_TAKE_BACK] = "take-back",
  [CARPACE_RULE_NO_ANSWERS] = "no-answers",
};
static const char *const scope_words[CARPACE_N_SCOPES] = {
  [CARPACE_SCOPE_BLOCK] = "block",
  [CARPACE_SCOPE_DAY] = "day",
};
static const char *const uncounted_words[CARPACE_N_UNCOUNTED] = {
  [CARPACE_UNCOUNTED_NOT] = "not",
  [CARPACE_UNCOUNTED_ABOVE_STOP] = "above-stop",
  [CARPACE_UNCOUNTED_TIGHTENED] = "tightened",
  [CARPACE_UNCOUNTED_WORSE_AFTER] = "worse-after",
  [CARPACE_UNCOUNTED_TOO_LITTLE] = "too-little",
  [CARPACE_UNCOUNTED_NEAR_STOP] = "near-stop",
  [CARPACE_UNCOUNTED_BEYOND] = "beyond",
  [CARPACE_UNCOUNTED_PAIN_RELIEF] = "pain-relief",
  [CARPACE_UNCOUNTED_TOO_MUCH] = "too-much",
  [CARPACE_UNCOUNTED_UNRATED] = "unrated",
  [CARPACE_UNCOUNTED_UNCHECKED] = "unchecked",
};

static const char *const finding_words[CARPACE_N_FINDINGS] = {
  [CARPACE_FINDING_NONE] = "none",
  [CARPACE_FINDING_WAKING_ABOVE_STOP] = "waking-above-stop",
  [CARPACE_FINDING_NOW_ABOVE_STOP] = "now-above-stop",
  [CARPACE_FINDING_ENDED_ABOVE_STOP] = "ended-above-stop",
  [CARPACE_FINDING_STIFFER] = "stiffer",
  [CARPACE_FINDING_WAKING_UP] = "waking-up",
  [CARPACE_FINDING_AFTER_TWO_CUTS] = "after-two-cuts",
  [CARPACE_FINDING_AFTER_REST_DAY] = "after-rest-day",
  [CARPACE_FINDING_OTHER_LOAD] = "other-load",
  [CARPACE_FINDING_WEEK_RISING] = "week-rising",
  [CARPACE_FINDING_TWO_WEEKS_RISING] = "two-weeks-rising",
  [CARPACE_FINDING_SETTLED_DAYS] = "settled-days",
  [CARPACE_FINDING_NO_CHECK_FOR_LONG] = "no-check-for-long",
  [CARPACE_FINDING_GOOD_DAYS] = "good-days",
  [CARPACE_FINDING_NO_CHECK] = "no-check",
  [CARPACE_FINDING_AT_MOST] = "at-most",
  [CARPACE_FINDING_FIRST_DAY] = "first-day",
  [CARPACE_FINDING_BADLY_RATED] = "badly-rated",
  [CARPACE_FINDING_THIRD_WORSE] = "third-worse",
  [CARPACE_FINDING_STEP_ANSWERED] = "step-answered",
  [CARPACE_FINDING_NO_ANSWERS] = "no-answers",
  [CARPACE_FINDING_LEVEL_YOUNG] = "level-young",
  [CARPACE_FINDING_MORNINGS_UP] = "mornings-up",
  [CARPACE_FINDING_MOST] = "most",
};
static const char *const refusal_words[CARPACE_N_REFUSALS] = {
  [CARPACE_REFUSAL_NO_PLAN] = "no-plan",
  [CARPACE_REFUSAL_NOT_NOW] = "not-now",
  [CARPACE_REFUSAL_RUNNING] = "running",
  [CARPACE_REFUSAL_NO_BLOCK] = "no-block",
  [CARPACE_REFUSAL_NO_REST_OFFERED] = "no-rest-offered",
  [CARPACE_REFUSAL_NOTHING_TO_RATE] = "nothing-to-rate",
  [CARPACE_REFUSAL_RATED_TOO_LONG_AGO] = "rated-too-long-ago",
  [CARPACE_REFUSAL_OUT_OF_RANGE] = "out-of-range",
  [CARPACE_REFUSAL_CAUTION_OPEN] = "caution-open",
  [CARPACE_REFUSAL_ABOVE_STOP] = "above-stop",
  [CARPACE_REFUSAL_REST_DAY] = "rest-day",
  [CARPACE_REFUSAL_NO_CAUTION] = "no-caution",
  [CARPACE_REFUSAL_GONE_TOO_EARLY] = "gone-too-early",
  [CARPACE_REFUSAL_SEEN_ONLY] = "seen-only",
  [CARPACE_REFUSAL_SEEN_WHEN] = "seen-when",
  [CARPACE_REFUSAL_DAY_BEHIND] = "day-behind",
  [CARPACE_REFUSAL_IMPOSSIBLE] = "impossible",
};
static const char *const side_words[CARPACE_N_SIDES] = {
  [CARPACE_SIDE_RIGHT] = "right",
  [CARPACE_SIDE_LEFT] = "left",
};
static const char *const grip_words[CARPACE_N_GRIPS] = {
  [CARPACE_GRIP_PALM] = "palm",
  [CARPACE_GRIP_CLAW] = "claw",
  [CARPACE_GRIP_FINGERTIP] = "fingertip",
};
static const char *const age_words[CARPACE_N_AGES] = {
  [CARPACE_AGE_NOT_SAID] = "not-said",
  [CARPACE_AGE_UNDER_16] = "under-16",
  [CARPACE_AGE_16_OR_OVER] = "16-or-over",
};
static const char *const movement_words[CARPACE_N_MOVEMENTS] = {
  [CARPACE_MOVEMENT_SMALL_TURN] = "small-turn",
  [CARPACE_MOVEMENT_MIDDLE_TURN] = "middle-turn",
  [CARPACE_MOVEMENT_LARGE_TURN] = "large-turn",
  [CARPACE_MOVEMENT_SHORT_PURSUIT] = "short-pursuit",
  [CARPACE_MOVEMENT_LONG_PURSUIT] = "long-pursuit",
  [CARPACE_MOVEMENT_BUTTON_PRESS] = "button-press",
};
static const char *const group_words[CARPACE_N_GROUPS] = {
  [CARPACE_GROUP_ULNAR_DEVIATORS] = "ulnar-deviators",
  [CARPACE_GROUP_RADIAL_DEVIATORS] = "radial-deviators",
  [CARPACE_GROUP_FINGER_FLEXORS] = "finger-flexors",
  [CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS] = "wrist-and-finger-extensors",
  [CARPACE_GROUP_GRIP_AND_THUMB] = "grip-and-thumb",
  [CARPACE_GROUP_PRONATORS] = "pronators",
  [CARPACE_GROUP_ELBOW] = "elbow",
  [CARPACE_GROUP_SHOULDER_INWARD] = "shoulder-inward",
  [CARPACE_GROUP_SHOULDER_OUTWARD] = "shoulder-outward",
  [CARPACE_GROUP_NECK_AND_SHOULDER_GIRDLE] = "neck-and-shoulder-girdle",
};
static const char *const region_words[CARPACE_N_REGIONS] = {
  [CARPACE_REGION_HAND] = "hand",
  [CARPACE_REGION_ELBOW] = "elbow",
  [CARPACE_REGION_SHOULDER] = "shoulder",
};
static const char *const exercise_words[CARPACE_N_EXERCISES] = {
  [CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH] = "wrist-extensor-stretch",
  [CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH] = "wrist-flexor-stretch",
  [CARPACE_EXERCISE_FOREARM_SELF_MASSAGE] = "forearm-self-massage",
  [CARPACE_EXERCISE_OPEN_AND_CLOSE] = "open-and-close",
  [CARPACE_EXERCISE_HOOK_FIST] = "hook-fist",
  [CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE] = "thumb-base-self-massage",
  [CARPACE_EXERCISE_FOREARM_TURNS] = "forearm-turns",
  [CARPACE_EXERCISE_DOOR_FRAME_STRETCH] = "door-frame-stretch",
  [CARPACE_EXERCISE_SHOULDER_ROLLS] = "shoulder-rolls",
  [CARPACE_EXERCISE_NECK_TURNS] = "neck-turns",
};
static const char *const exercise_kind_words[CARPACE_N_EXERCISE_KINDS] = {
  [CARPACE_EXERCISE_STRETCH] = "stretch",
  [CARPACE_EXERCISE_SELF_MASSAGE] = "self-massage",
  [CARPACE_EXERCISE_MOVEMENT] = "movement",
};
static const char *const plan_key_words[CARPACE_N_KEYS] = {
  [CARPACE_KEY_NAME] = "name",
  [CARPACE_KEY_VERSION] = "version",
  [CARPACE_KEY_NOTE] = "note",
  [CARPACE_KEY_HAND_SIDE] = "hand.side",
  [CARPACE_KEY_HAND_GRIP] = "hand.grip",
  [CARPACE_KEY_HAND_CM_PER_TURN] = "hand.cm-per-turn",
  [CARPACE_KEY_HAND_USUAL_DISCOMFORT] = "hand.usual-discomfort",
  [CARPACE_KEY_PLAYER_AGE] = "player.age",
  [CARPACE_KEY_DAY_DOSE] = "day.dose",
  [CARPACE_KEY_DAY_STARTS_AT] = "day.starts-at",
  [CARPACE_KEY_DAY_BETWEEN_BLOCKS] = "day.between-blocks",
  [CARPACE_KEY_WEEK_WITHOUT] = "week.without",
  [CARPACE_KEY_GAP_AFTER] = "gap-after",
  [CARPACE_KEY_RUN_MIN] = "run-min",
  [CARPACE_KEY_MICRO_REST_AFTER] = "micro-rest.after",
  [CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS] = "micro-rest.or-after-runs",
  [CARPACE_KEY_MICRO_REST_LENGTH] = "micro-rest.length",
  [CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST] = "micro-rest.reserve-at-least",
  [CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP] = "micro-rest.wait-for-gap",
  [CARPACE_KEY_MICRO_REST_SHOW] = "micro-rest.show",
  [CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN] = "block-limits.finish-run",
  [CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO] = "block-limits.round-down-to",
  [CARPACE_KEY_BLOCK_LIMITS_SHORTEST] = "block-limits.shortest",
  [CARPACE_KEY_BLOCK_LIMITS_LONGEST] = "block-limits.longest",
  [CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO] = "tighten.up-1-shorten-to",
  [CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO] = "tighten.up-2-shorten-to",
  [CARPACE_KEY_TIGHTEN_STOP_ABOVE] = "tighten.stop-above",
  [CARPACE_KEY_NEXT_DAY_CUT_TO] = "next-day.cut-to",
  [CARPACE_KEY_NEXT_DAY_STEP_UP_BY] = "next-day.step-up-by",
  [CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS] = "next-day.after-good-days",
  [CARPACE_KEY_NEXT_DAY_AT_MOST] = "next-day.at-most",
  [CARPACE_KEY_MATCHES_COUNTS] = "matches.counts",
  [CARPACE_KEY_ON_AIR_EVERY] = "on-air.every",
  [CARPACE_KEY_ON_AIR_FROM] = "on-air.from",
  [CARPACE_KEY_ON_AIR_NOTICE] = "on-air.notice",
  [CARPACE_KEY_ON_AIR_LENGTH] = "on-air.length",
};
static const char *const drill_key_words[CARPACE_N_DRILL_KEYS] = {
  [CARPACE_DRILL_NAME] = "name",
  [CARPACE_DRILL_MOVEMENT] = "movement",
  [CARPACE_DRILL_VIEW_TURN] = "view-turn",
  [CARPACE_DRILL_INTENSITY] = "intensity",
  [CARPACE_DRILL_EFFORTS] = "efforts",
  [CARPACE_DRILL_EFFORTS_FROM] = "efforts-from",
  [CARPACE_DRILL_EFFORT_LASTS] = "effort-lasts",
  [CARPACE_DRILL_WRIST] = "wrist",
  [CARPACE_DRILL_RUN] = "run",
  [CARPACE_DRILL_TIME] = "time",
};
static const char *const weekday_words[CARPACE_N_WEEKDAYS] = {
  "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"
};
static const char *const efforts_from_words[CARPACE_N_EFFORTS_FROMS] = {
  [CARPACE_EFFORTS_FROM_PLAN] = "plan",
  [CARPACE_EFFORTS_FROM_CLICKS] = "clicks",
};
static const char *const on_air_from_words[CARPACE_N_ON_AIR_FROMS] = {
  [CARPACE_ON_AIR_FROM_CLOCK] = "clock",
  [CARPACE_ON_AIR_FROM_STREAM] = "stream",
};

static const char *const split_words[CARPACE_N_SPLIT_WORDS] = {
  [CARPACE_SPLIT_WHOLE] = "whole",
  [CARPACE_SPLIT_HALVES] = "halves",
  [CARPACE_SPLIT_QUARTERS] = "quarters",
};

static const char *const corner_words[CARPACE_N_CORNERS] = {
  [CARPACE_CORNER_LOWER_END] = "lower-end",
  [CARPACE_CORNER_LOWER_START] = "lower-start",
  [CARPACE_CORNER_UPPER_END] = "upper-end",
  [CARPACE_CORNER_UPPER_START] = "upper-start",
};
static const char *const monitor_words[CARPACE_N_MONITORS] = {
  [CARPACE_MONITOR_GAME] = "game",
  [CARPACE_MONITOR_OTHER] = "other",
};

static const char *const role_words[CARPACE_N_ROLES] = {
  [CARPACE_ROLE_PLAYER] = "player",
  [CARPACE_ROLE_COACH] = "coach",
  [CARPACE_ROLE_CLINICIAN] = "clinician",
  [CARPACE_ROLE_GUARDIAN] = "guardian",
};
static const char *const grant_what_words[CARPACE_N_GRANT_WHATS] = {
  [CARPACE_GRANT_NONE] = "none",
  [CARPACE_GRANT_LOAD] = "load",
  [CARPACE_GRANT_HAND] = "hand",
  [CARPACE_GRANT_ALL] = "all",
};
static const char *const bundle_words[CARPACE_N_BUNDLES] = {
  [CARPACE_BUNDLE_LOAD] = "load",
  [CARPACE_BUNDLE_HAND] = "hand",
};

/* Where a set's words are: each @bytes after the one before. */
#define COUNT(table) ((int32_t) (sizeof (table) / sizeof ((table)[0])))
#define WORDS(words) { words, sizeof (words)[0], COUNT (words) }
#define WORDS_IN(table) { &(table)[0].word, sizeof (table)[0], COUNT (table) }

static const struct { const char *const *word; size_t bytes; int32_t count; } sets[CARPACE_N_WORDS] = {
  [CARPACE_WORDS_STATE] = WORDS (state_words),
  [CARPACE_WORDS_CUE] = WORDS (cue_words),
  [CARPACE_WORDS_SITE] = WORDS (site_words),
  [CARPACE_WORDS_EVENT] = WORDS_IN (carpace_event_kinds),
  [CARPACE_WORDS_ENTRY] = WORDS (entry_words),
  [CARPACE_WORDS_DAY_WHAT] = WORDS (day_whats),
  [CARPACE_WORDS_BLOCK_WHAT] = WORDS (block_whats),
  [CARPACE_WORDS_PLAN_WHAT] = WORDS (plan_whats),
  [CARPACE_WORDS_CUE_WHAT] = WORDS (cue_whats),
  [CARPACE_WORDS_REST_WHAT] = WORDS (rest_whats),
  [CARPACE_WORDS_CAUTION_WHAT] = WORDS (caution_whats),
  [CARPACE_WORDS_CAUTION_ANSWER] = WORDS (caution_answer_words),
  [CARPACE_WORDS_SEEN_BY] = WORDS (seen_by_words),
  [CARPACE_WORDS_STIFFNESS] = WORDS (stiffness_words),
  [CARPACE_WORDS_SIGN] = WORDS (sign_words),
  [CARPACE_WORDS_RULE] = WORDS (rule_words),
  [CARPACE_WORDS_SCOPE] = WORDS (scope_words),
  [CARPACE_WORDS_FINDING] = WORDS (finding_words),
  [CARPACE_WORDS_UNCOUNTED] = WORDS (uncounted_words),
  [CARPACE_WORDS_REFUSAL] = WORDS (refusal_words),
  [CARPACE_WORDS_SIDE] = WORDS (side_words),
  [CARPACE_WORDS_GRIP] = WORDS (grip_words),
  [CARPACE_WORDS_AGE] = WORDS (age_words),
  [CARPACE_WORDS_MOVEMENT] = WORDS (movement_words),
  [CARPACE_WORDS_GROUP] = WORDS (group_words),
  [CARPACE_WORDS_REGION] = WORDS (region_words),
  [CARPACE_WORDS_EXERCISE] = WORDS (exercise_words),
  [CARPACE_WORDS_EXERCISE_KIND] = WORDS (exercise_kind_words),
  [CARPACE_WORDS_PLAN_KEY] = WORDS (plan_key_words),
  [CARPACE_WORDS_DRILL_KEY] = WORDS (drill_key_words),
  [CARPACE_WORDS_EFFORTS_FROM] = WORDS (efforts_from_words),
  [CARPACE_WORDS_ON_AIR_FROM] = WORDS (on_air_from_words),
  [CARPACE_WORDS_WEEKDAY] = WORDS (weekday_words),
  [CARPACE_WORDS_SPLIT] = WORDS (split_words),
  [CARPACE_WORDS_CORNER] = WORDS (corner_words),
  [CARPACE_WORDS_MONITOR] = WORDS (monitor_words),
  [CARPACE_WORDS_ROLE] = WORDS (role_words),
  [CARPACE_WORDS_GRANT_WHAT] = WORDS (grant_what_words),
  [CARPACE_WORDS_BUNDLE] = WORDS (bundle_words),
};

const char *
carpace_name (CarpaceWords words, int32_t value)
{
  if (value < 0 || value >= carpace_names_count (words))
    return NULL;
  return *(const char *const *) ((const char *) sets[words].word + (size_t) value * sets[words].bytes);
}

int32_t
carpace_names_count (CarpaceWords words)
{
  return (int32_t) words < 0 || words >= CARPACE_N_WORDS ? 0 : sets[words].count;
}

int32_t
carpace_name_value (CarpaceWords words, const char *word)
{
  for (int32_t i = 0; i < carpace_names_count (words); i++)
    if (strcmp (carpace_name (words, i), word) == 0)
      return i;
  return -1;
}

int32_t
carpace_name_former (CarpaceWords words, const char *word)
{
  static const struct { CarpaceWords words; const char *former; int32_t value; } renamed[] = {
    { CARPACE_WORDS_MOVEMENT, "clicking", CARPACE_MOVEMENT_BUTTON_PRESS },
  };

  for (int32_t i = 0; i < COUNT (renamed); i++)
    if (renamed[i].words == words && strcmp (renamed[i].former, word) == 0)
      return renamed[i].value;
  return -1;
}

int32_t
carpace_name_split (const char *word)
{
  static const int32_t blocks[CARPACE_N_SPLIT_WORDS] = {
    [CARPACE_SPLIT_WHOLE] = 1, [CARPACE_SPLIT_HALVES] = 2, [CARPACE_SPLIT_QUARTERS] = 4
  };
  int32_t value = carpace_name_value (CARPACE_WORDS_SPLIT, word);

  return value < 0 ? -1 : blocks[value];
}

int32_t
carpace_name_nearest (CarpaceWords words, const char *word)
{
  int32_t nearest = -1;
  size_t least = strlen (word) / 3 + 1;

  for (int32_t i = 0; i < carpace_names_count (words); i++)
    {
      size_t distance = carpace_word_distance (carpace_name (words, i), word);
      if (distance < least)
        {
          least = distance;
          nearest = i;
        }
    }
  return nearest;
}

size_t
carpace_word_distance (const char *a, const char *b)
{
  enum { LONGEST = 80 };
  size_t row[LONGEST + 1];
  size_t n_a = strlen (a), n_b = strlen (b);

  if (n_a > LONGEST || n_b > LONGEST)
    return n_a > n_b ? n_a : n_b;
  for (size_t j = 0; j <= n_b; j++)
    row[j] = j;
  for (size_t i = 1; i <= n_a; i++)
    {
      size_t diagonal = row[0];
      row[0] = i;
      for (size_t j = 1; j <= n_b; j++)
        {
          size_t changed = diagonal + (a[i - 1] != b[j - 1]);
          size_t shorter = row[j] < row[j - 1] ? row[j] : row[j - 1];
          diagonal = row[j];
          row[j] = changed < shorter + 1 ? changed : shorter + 1;
        }
    }
  return row[n_b];
}
