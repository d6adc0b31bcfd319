/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-sources.c: as carpace-plan(5) has them. */
#include "text/plan-sources.h"

#include <glib.h>
#include <glib/gi18n.h>

/* Where a number comes from. */
typedef enum
{
  FROM_NOWHERE,
  FROM_OWN,
  FROM_PRACTICE,
  FROM_RESTS,
  FROM_ZONE,
  FROM_CHANGE,
  FROM_INDEX,
  N_FROM
} From;

static const char *const from[N_FROM] = {
  [FROM_OWN] = N_("Source: this project's own, for a physiotherapist or doctor to confirm."),
  [FROM_PRACTICE] = N_("Source: common practice; no trial."),
  [FROM_RESTS] = N_("Source: short rests at a desk, McLean 2001, Galinsky 2007; not of seconds, nor at a mouse."),
  [FROM_ZONE] = N_("Source: the pain-monitoring model, Thomeé 1997, Silbernagel 2007."),
  [FROM_CHANGE] = N_("Source: two points are the least change that matters, Farrar 2001, of another kind of pain."),
  [FROM_INDEX] = N_("Source of what the index makes of it: Garg, Moore, Kapellusch 2017."),
};

typedef struct
{
  const char *does;
  From from;
} Row;

static const Row keys[CARPACE_N_KEYS] = {
  [CARPACE_KEY_DAY_DOSE] = { N_("Active practice time of the first day; the rules change it from day to day."), FROM_PRACTICE },
  [CARPACE_KEY_DAY_STARTS_AT] = { N_("What is practised before that belongs to the day before."), FROM_OWN },
  [CARPACE_KEY_DAY_BETWEEN_BLOCKS] = { N_("From one block's end to the next block."), FROM_PRACTICE },
  [CARPACE_KEY_GAP_AFTER] = { N_("A rest is offered in a gap, never in a run."), FROM_OWN },
  [CARPACE_KEY_RUN_MIN] = { N_("Shorter stretches of input are not counted as runs."), FROM_OWN },
  [CARPACE_KEY_MICRO_REST_AFTER] = { N_("Active time after which a micro-rest is due."), FROM_RESTS },
  [CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS] = { N_("A rest is due after so many runs, too, if that comes first."), FROM_OWN },
  [CARPACE_KEY_MICRO_REST_LENGTH] = { N_("How long a micro-rest is."), FROM_RESTS },
  [CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST] = { N_("An estimate by a model, which knows nothing of pain."), FROM_OWN },
  [CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP] = { N_("A rest that is due waits that long for a gap before it is shown."), FROM_OWN },
  [CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN] = { N_("A run that is on when the limit comes may end."), FROM_OWN },
  [CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO] = { N_("A limit that was worked out is rounded down to that."), FROM_OWN },
  [CARPACE_KEY_BLOCK_LIMITS_SHORTEST] = { N_("What would be shorter is no block."), FROM_OWN },
  [CARPACE_KEY_BLOCK_LIMITS_LONGEST] = { N_("No block of another day is longer, however the dose rose."), FROM_OWN },
  [CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO] = { N_("Limit and time to the next rest, after a rating one higher than before."), FROM_OWN },
  [CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO] = { N_("Limit and time to the next rest, after a rating two or more higher; rests are half as long again."), FROM_CHANGE },
  [CARPACE_KEY_TIGHTEN_STOP_ABOVE] = { N_("A rating above that ends the day."), FROM_ZONE },
  [CARPACE_KEY_NEXT_DAY_CUT_TO] = { N_("The next day after a worse morning, of what was done."), FROM_PRACTICE },
  [CARPACE_KEY_NEXT_DAY_STEP_UP_BY] = { N_("Of the first dose; no rise goes past 130 percent of two weeks' mean."), FROM_OWN },
  [CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS] = { N_("So many good days in a row come before a step up."), FROM_OWN },
  [CARPACE_KEY_NEXT_DAY_AT_MOST] = { N_("The ceiling: no day's practice time is above it."), FROM_OWN },
  [CARPACE_KEY_MATCHES_COUNTS] = { N_("Of a match's time."), FROM_OWN },
  [CARPACE_KEY_ON_AIR_EVERY] = { N_("The clock's own hours divided, or the stream's; nothing of the hand is said in it."), FROM_NOWHERE },
  [CARPACE_KEY_HAND_CM_PER_TURN] = { N_("With it a drill can give the turn of the view, and its movement follows."), FROM_NOWHERE },
  [CARPACE_KEY_HAND_USUAL_DISCOMFORT] = { N_("3 or more: ask a physiotherapist or doctor before practice."), FROM_ZONE },
};

static const Row drill_keys[CARPACE_N_DRILL_KEYS] = {
  [CARPACE_DRILL_VIEW_TURN] = { N_("Degrees from one target to the next; with the hand's travel for a full turn it gives the movement."), FROM_OWN },
  [CARPACE_DRILL_INTENSITY] = { N_("Percent of maximal strength, a tenth of that on the effort scale from 0 to 10."), FROM_INDEX },
  [CARPACE_DRILL_EFFORTS] = { N_("Single movements or presses in a minute of the drill."), FROM_INDEX },
  [CARPACE_DRILL_EFFORTS_FROM] = { N_("The number above, or clicks measured in the drill, where they were counted."), FROM_NOWHERE },
  [CARPACE_DRILL_EFFORT_LASTS] = { N_("How long one of them takes."), FROM_INDEX },
  [CARPACE_DRILL_WRIST] = { N_("How far the wrist is bent, towards the back of the hand or the palm."), FROM_INDEX },
  [CARPACE_DRILL_RUN] = { N_("One pass through the drill; a split deals out whole runs."), FROM_NOWHERE },
  [CARPACE_DRILL_TIME] = { N_("The drill's time a day, where the plan is split."), FROM_NOWHERE },
};

static char *
said (const Row *row)
{
  if (row->does == NULL)
    return NULL;
  return row->from == FROM_NOWHERE ? g_strdup (_(row->does)) : g_strdup_printf ("%s %s", _(row->does), _(from[row->from]));
}

char *
carpace_text_plan_source (CarpacePlanKey key)
{
  return said (&keys[key]);
}

char *
carpace_text_drill_source (CarpaceDrillKey key)
{
  return said (&drill_keys[key]);
}
