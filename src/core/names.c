/* SPDX-License-Identifier: GPL-3.0-or-later */
/* names.c: enum <-> word, one table a set. */
#include "carpace/names.h"

#include <string.h>

#define COUNT(words) ((int32_t) (sizeof (words) / sizeof ((words)[0])))

static const char *const state_words[CARPACE_N_STATES] = {
  "off", "waiting", "practising", "gap", "rest-due", "resting", "limit-reached", "rating-due", "paused", "day-done"
};
static const char *const cue_words[CARPACE_N_CUES] = {
  "micro-rest", "limit", "rating", "next-block", "morning", "day-done", "caution"
};
static const char *const site_words[CARPACE_N_SITES] = {
  "none", "palm-side", "little-finger-side", "thumb-side", "back-of-forearm",
  "fingers", "elbow", "shoulder", "neck", "other-hand"
};
static const char *const event_words[CARPACE_N_EVENTS] = {
  "deadline", "open", "input", "still", "start", "start-match", "end", "pause", "continue", "rest",
  "after-run", "play-on", "rate", "morning", "caution", "on-air", "off-air", "intermission", "suspend", "wake"
};
static const char *const entry_words[CARPACE_N_ENTRIES] = {
  "state", "day", "block", "overrun", "cue", "rest", "rating", "morning", "decision", "caution", "fault"
};
static const char *const day_whats[CARPACE_N_DAY_WHATS] = { "opened", "done" };
static const char *const block_whats[CARPACE_N_BLOCK_WHATS] = { "started", "ended", "dropped" };
static const char *const cue_whats[CARPACE_N_CUE_WHATS] = { "shown", "withdrawn", "asked" };
static const char *const rest_whats[CARPACE_N_REST_WHATS] = { "taken", "declined", "deferred", "interrupted" };
static const char *const caution_whats[CARPACE_N_CAUTION_WHATS] = { "asked", "none", "opened", "closed" };
static const char *const stiffness_words[CARPACE_N_STIFFNESSES] = { "unsaid", "less", "usual", "more" };
static const char *const sign_words[CARPACE_N_SIGNS] = {
  "injury", "deformed", "cannot-move", "cold-or-pale", "hot-and-feverish", "numb",
  "night-pain", "dropping-things", "weak", "locking", "swollen", "not-better"
};
static const char *const rule_words[CARPACE_N_RULES] = {
  "above-stop", "up-2", "up-to-4-or-5", "up-1", "unanswered-twice", "tightened-thrice", "too-short",
  "caution", "cut", "rest-day", "keep-no-practice", "keep-other-load", "after-time-off", "keep-week",
  "way-back", "step-up", "keep"
};
static const char *const scope_words[CARPACE_N_SCOPES] = { "block", "day" };
static const char *const finding_words[CARPACE_N_FINDINGS] = {
  "none", "waking-above-stop", "now-above-stop", "ended-above-stop", "stiffer", "waking-up", "after-two-cuts",
  "after-rest-day", "other-load", "week-rising", "two-weeks-rising", "settled-days", "no-check-for-long",
  "good-days", "no-check", "at-most", "first-day"
};
static const char *const refusal_words[CARPACE_N_REFUSALS] = {
  "no-plan", "not-now", "running", "no-block", "no-rest-offered", "nothing-to-rate", "rated-too-long-ago",
  "out-of-range", "caution-open", "above-stop", "rest-day", "no-caution", "gone-too-early"
};
static const char *const side_words[CARPACE_N_SIDES] = { "right", "left" };
static const char *const grip_words[CARPACE_N_GRIPS] = { "palm", "claw", "fingertip" };
static const char *const movement_words[CARPACE_N_MOVEMENTS] = {
  "small-turn", "middle-turn", "large-turn", "short-pursuit", "long-pursuit", "clicking"
};
static const char *const group_words[CARPACE_N_GROUPS] = {
  "ulnar-deviators", "radial-deviators", "finger-flexors", "wrist-and-finger-extensors", "grip-and-thumb",
  "pronators", "elbow", "shoulder-inward", "shoulder-outward", "neck-and-shoulder-girdle"
};
static const char *const region_words[CARPACE_N_REGIONS] = { "hand", "elbow", "shoulder" };
static const char *const exercise_words[CARPACE_N_EXERCISES] = {
  "wrist-extensor-stretch", "wrist-flexor-stretch", "forearm-self-massage", "open-and-close", "hook-fist",
  "thumb-base-self-massage", "forearm-turns", "door-frame-stretch", "shoulder-rolls", "neck-turns"
};
static const char *const exercise_kind_words[CARPACE_N_EXERCISE_KINDS] = { "stretch", "self-massage", "movement" };
static const char *const plan_key_words[CARPACE_N_KEYS] = {
  "name", "note", "hand.side", "hand.grip", "hand.cm-per-turn", "hand.usual-discomfort", "day.dose",
  "day.starts-at", "day.between-blocks", "gap-after", "run-min", "micro-rest.after", "micro-rest.or-after-runs",
  "micro-rest.length", "micro-rest.reserve-at-least", "micro-rest.wait-for-gap", "micro-rest.show",
  "block-limits.finish-run", "block-limits.round-down-to", "block-limits.shortest", "block-limits.longest",
  "tighten.up-1-shorten-to", "tighten.up-2-shorten-to", "tighten.stop-above", "next-day.cut-to",
  "next-day.step-up-by", "next-day.after-good-days", "next-day.at-most", "matches.counts",
  "on-air.every", "on-air.from", "on-air.notice", "on-air.length"
};
static const char *const drill_key_words[CARPACE_N_DRILL_KEYS] = {
  "name", "movement", "view-turn", "intensity", "efforts", "effort-lasts", "wrist", "run", "time"
};
static const char *const on_air_from_words[CARPACE_N_ON_AIR_FROMS] = { "clock", "stream" };

static const struct { const char *const *word; int32_t count; } sets[CARPACE_N_WORDS] = {
  [CARPACE_WORDS_STATE] = { state_words, COUNT (state_words) },
  [CARPACE_WORDS_CUE] = { cue_words, COUNT (cue_words) },
  [CARPACE_WORDS_SITE] = { site_words, COUNT (site_words) },
  [CARPACE_WORDS_EVENT] = { event_words, COUNT (event_words) },
  [CARPACE_WORDS_ENTRY] = { entry_words, COUNT (entry_words) },
  [CARPACE_WORDS_DAY_WHAT] = { day_whats, COUNT (day_whats) },
  [CARPACE_WORDS_BLOCK_WHAT] = { block_whats, COUNT (block_whats) },
  [CARPACE_WORDS_CUE_WHAT] = { cue_whats, COUNT (cue_whats) },
  [CARPACE_WORDS_REST_WHAT] = { rest_whats, COUNT (rest_whats) },
  [CARPACE_WORDS_CAUTION_WHAT] = { caution_whats, COUNT (caution_whats) },
  [CARPACE_WORDS_STIFFNESS] = { stiffness_words, COUNT (stiffness_words) },
  [CARPACE_WORDS_SIGN] = { sign_words, COUNT (sign_words) },
  [CARPACE_WORDS_RULE] = { rule_words, COUNT (rule_words) },
  [CARPACE_WORDS_SCOPE] = { scope_words, COUNT (scope_words) },
  [CARPACE_WORDS_FINDING] = { finding_words, COUNT (finding_words) },
  [CARPACE_WORDS_REFUSAL] = { refusal_words, COUNT (refusal_words) },
  [CARPACE_WORDS_SIDE] = { side_words, COUNT (side_words) },
  [CARPACE_WORDS_GRIP] = { grip_words, COUNT (grip_words) },
  [CARPACE_WORDS_MOVEMENT] = { movement_words, COUNT (movement_words) },
  [CARPACE_WORDS_GROUP] = { group_words, COUNT (group_words) },
  [CARPACE_WORDS_REGION] = { region_words, COUNT (region_words) },
  [CARPACE_WORDS_EXERCISE] = { exercise_words, COUNT (exercise_words) },
  [CARPACE_WORDS_EXERCISE_KIND] = { exercise_kind_words, COUNT (exercise_kind_words) },
  [CARPACE_WORDS_PLAN_KEY] = { plan_key_words, COUNT (plan_key_words) },
  [CARPACE_WORDS_DRILL_KEY] = { drill_key_words, COUNT (drill_key_words) },
  [CARPACE_WORDS_ON_AIR_FROM] = { on_air_from_words, COUNT (on_air_from_words) },
};

const char *
carpace_name (CarpaceWords words, int32_t value)
{
  if (value < 0 || value >= carpace_names_count (words))
    return NULL;
  return sets[words].word[value];
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
    if (strcmp (sets[words].word[i], word) == 0)
      return i;
  return -1;
}

int32_t
carpace_name_nearest (CarpaceWords words, const char *word)
{
  int32_t nearest = -1;
  size_t least = strlen (word) / 3 + 1;

  for (int32_t i = 0; i < carpace_names_count (words); i++)
    {
      size_t distance = carpace_word_distance (sets[words].word[i], word);
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
