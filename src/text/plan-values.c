/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-values.c: what a plan's keys are called, and their values, in words. */
#include <glib.h>
#include <glib/gi18n.h>

#include "carpace/plan-keys.h"
#include "text/duration.h"
#include "text/face-text.h"
#include "text/first-text.h"
#include "text/plan-words.h"
#include "text/text.h"

static const char *const keys[CARPACE_N_KEYS] = {
  [CARPACE_KEY_NAME] = N_("name"),
  [CARPACE_KEY_VERSION] = N_("version"),
  [CARPACE_KEY_NOTE] = N_("note"),
  [CARPACE_KEY_HAND_SIDE] = N_("mouse hand"),
  [CARPACE_KEY_HAND_GRIP] = N_("grip"),
  [CARPACE_KEY_HAND_CM_PER_TURN] = N_("hand travel for a full turn of the view"),
  [CARPACE_KEY_HAND_USUAL_DISCOMFORT] = N_("usual discomfort"),
  [CARPACE_KEY_PLAYER_AGE] = N_("age"),
  [CARPACE_KEY_DAY_DOSE] = N_("practice time a day"),
  [CARPACE_KEY_DAY_STARTS_AT] = N_("a practice day begins at"),
  [CARPACE_KEY_DAY_BETWEEN_BLOCKS] = N_("wait between blocks"),
  [CARPACE_KEY_WEEK_WITHOUT] = N_("planned days without practice"),
  [CARPACE_KEY_GAP_AFTER] = N_("a gap is this long without input"),
  [CARPACE_KEY_RUN_MIN] = N_("a run is at least this long"),
  [CARPACE_KEY_MICRO_REST_AFTER] = N_("practice before a rest"),
  [CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS] = N_("runs before a rest"),
  [CARPACE_KEY_MICRO_REST_LENGTH] = N_("length of a rest"),
  [CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST] = N_("a rest is due at a residual capacity (estimate) of"),
  [CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP] = N_("a rest waits for a gap"),
  [CARPACE_KEY_MICRO_REST_SHOW] = N_("what rests show"),
  [CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN] = N_("time to finish a run at the limit"),
  [CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO] = N_("limits are rounded down to"),
  [CARPACE_KEY_BLOCK_LIMITS_SHORTEST] = N_("shortest block"),
  [CARPACE_KEY_BLOCK_LIMITS_LONGEST] = N_("longest block"),
  [CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO] = N_("next block where discomfort rose by 1"),
  [CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO] = N_("next block where discomfort rose by 2"),
  [CARPACE_KEY_TIGHTEN_STOP_ABOVE] = N_("no more practice above discomfort"),
  [CARPACE_KEY_NEXT_DAY_CUT_TO] = N_("practice time after a worse morning"),
  [CARPACE_KEY_NEXT_DAY_STEP_UP_BY] = N_("a step up"),
  [CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS] = N_("good days before a step up"),
  [CARPACE_KEY_NEXT_DAY_AT_MOST] = N_("most practice time a day"),
  [CARPACE_KEY_MATCHES_COUNTS] = N_("how much of a match is practice time"),
  [CARPACE_KEY_ON_AIR_EVERY] = N_("an intermission on air every"),
  [CARPACE_KEY_ON_AIR_FROM] = N_("intermissions are counted from"),
  [CARPACE_KEY_ON_AIR_NOTICE] = N_("an intermission is told this long before"),
  [CARPACE_KEY_ON_AIR_LENGTH] = N_("length of an intermission"),
};
static const char *const drill_keys[CARPACE_N_DRILL_KEYS] = {
  [CARPACE_DRILL_NAME] = N_("name"),
  [CARPACE_DRILL_MOVEMENT] = N_("movement"),
  [CARPACE_DRILL_VIEW_TURN] = N_("turn of the view"),
  [CARPACE_DRILL_INTENSITY] = N_("intensity"),
  [CARPACE_DRILL_EFFORTS] = N_("efforts"),
  [CARPACE_DRILL_EFFORTS_FROM] = N_("efforts come from"),
  [CARPACE_DRILL_EFFORT_LASTS] = N_("an effort lasts"),
  [CARPACE_DRILL_WRIST] = N_("wrist"),
  [CARPACE_DRILL_RUN] = N_("length of a run"),
  [CARPACE_DRILL_TIME] = N_("time a day"),
};
static const char *const weekday_names[CARPACE_N_WEEKDAYS] = {
  N_("Monday"), N_("Tuesday"), N_("Wednesday"), N_("Thursday"), N_("Friday"), N_("Saturday"), N_("Sunday"),
};
static const char *const sides[CARPACE_N_SIDES] = {
  [CARPACE_SIDE_RIGHT] = N_("right hand"), [CARPACE_SIDE_LEFT] = N_("left hand"),
};
static const char *const ages[CARPACE_N_AGES] = {
  [CARPACE_AGE_NOT_SAID] = N_("not said"),
  [CARPACE_AGE_UNDER_16] = N_("under 16"),
  [CARPACE_AGE_16_OR_OVER] = N_("16 or over"),
};
static const char *const froms[CARPACE_N_ON_AIR_FROMS] = {
  [CARPACE_ON_AIR_FROM_CLOCK] = N_("the clock"), [CARPACE_ON_AIR_FROM_STREAM] = N_("the stream’s beginning"),
};

static const char *const efforts_froms[CARPACE_N_EFFORTS_FROMS] = {
  [CARPACE_EFFORTS_FROM_PLAN] = N_("the plan"), [CARPACE_EFFORTS_FROM_CLICKS] = N_("clicks measured"),
};

const char *
carpace_text_efforts_from (CarpaceEffortsFrom from)
{
  return _(efforts_froms[from]);
}

const char *
carpace_text_plan_key (CarpacePlanKey key)
{
  return _(keys[key]);
}

const char *
carpace_text_drill_key (CarpaceDrillKey key)
{
  return _(drill_keys[key]);
}

const char *
carpace_text_weekday (CarpaceWeekday weekday)
{
  return _(weekday_names[weekday]);
}

/* ---- values ---- */

static void
add_of_list (GString *list, const char *item)
{
  if (list->len > 0)
    g_string_append (list, ", ");
  g_string_append (list, item);
}

static char *
weekdays (int32_t without)
{
  GString *list = g_string_new (NULL);

  for (int32_t day = 0; day < CARPACE_N_WEEKDAYS; day++)
    if (without & 1 << day)
      add_of_list (list, carpace_text_weekday ((CarpaceWeekday) day));
  if (list->len == 0)
    g_string_append (list, _("none"));
  return g_string_free (list, FALSE);
}

static char *
exercises (const CarpacePlan *plan)
{
  GString *list = g_string_new (NULL);

  for (int32_t i = 0; i < plan->n_shown; i++)
    add_of_list (list, carpace_text_exercise (plan->shown[i]));
  return g_string_free (list, FALSE);
}

/* Times that a duration in whole seconds would not tell apart have their thousandths. */
static char *
exact_duration (double ms)
{
  if ((int64_t) ms % CARPACE_SECOND_MS == 0)
    return carpace_text_duration ((int64_t) ms);
  return g_strdup_printf (_("%g s"), ms / CARPACE_SECOND_MS);
}

static char *
number_in_words (CarpaceUnit unit, double number)
{
  switch (unit)
    {
    case CARPACE_UNIT_DURATION: return exact_duration (number);
    case CARPACE_UNIT_SHARE: return carpace_text_share ((int32_t) number);
    case CARPACE_UNIT_PERCENT: return g_strdup_printf (_("%g %%"), number);
    case CARPACE_UNIT_TIME_OF_DAY: return g_strdup_printf ("%02d:%02d", (int) number / 60, (int) number % 60);
    case CARPACE_UNIT_DEGREES: return g_strdup_printf (_("%g°"), number);
    case CARPACE_UNIT_PER_MIN: return g_strdup_printf (_("%g a minute"), number);
    case CARPACE_UNIT_SECONDS: return g_strdup_printf (_("%g s"), number);
    case CARPACE_UNIT_CM: return g_strdup_printf (_("%g cm"), number);
    case CARPACE_UNIT_WHOLE: return g_strdup_printf ("%d", (int) number);
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_WRIST:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS:
      break;
    }
  g_return_val_if_reached (g_strdup (""));
}

char *
carpace_text_plan_value (const CarpacePlan *plan, CarpacePlanKey key)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (key);

  switch ((int) key)
    {
    case CARPACE_KEY_NAME: return g_strdup (plan->name);
    case CARPACE_KEY_NOTE: return g_strdup (plan->note[0] != '\0' ? plan->note : _("none"));
    case CARPACE_KEY_HAND_SIDE: return g_strdup (_(sides[plan->side]));
    case CARPACE_KEY_HAND_GRIP: return g_strdup (carpace_text_grip (plan->grip));
    case CARPACE_KEY_PLAYER_AGE: return g_strdup (_(ages[plan->age]));
    case CARPACE_KEY_WEEK_WITHOUT: return weekdays (plan->without);
    case CARPACE_KEY_MICRO_REST_SHOW: return exercises (plan);
    case CARPACE_KEY_ON_AIR_FROM: return g_strdup (_(froms[plan->on_air_from]));
    default:
      break;
    }
  if (facts->none != NULL && carpace_plan_number (plan, key) < facts->low)
    return g_strdup (_("none"));
  return number_in_words (facts->unit, carpace_plan_number (plan, key));
}

static char *
wrist (const CarpaceDrill *drill)
{
  if (drill->bend == CARPACE_WRIST_STRAIGHT || drill->bend_deg == 0)
    return g_strdup (_("straight"));
  return g_strdup_printf (drill->bend == CARPACE_WRIST_FLEXION ? _("%g° flexion") : _("%g° extension"), drill->bend_deg);
}

char *
carpace_text_drill_value (const CarpaceDrill *drill, CarpaceDrillKey key)
{
  switch (key)
    {
    case CARPACE_DRILL_NAME: return g_strdup (drill->name);
    case CARPACE_DRILL_MOVEMENT: return g_strdup (carpace_text_movement (drill->movement));
    case CARPACE_DRILL_VIEW_TURN:
      return drill->view_turn_deg > 0 ? number_in_words (CARPACE_UNIT_DEGREES, drill->view_turn_deg) : g_strdup (_("none"));
    case CARPACE_DRILL_INTENSITY: return number_in_words (CARPACE_UNIT_PERCENT, drill->intensity_pct_mvc);
    case CARPACE_DRILL_EFFORTS: return number_in_words (CARPACE_UNIT_PER_MIN, drill->efforts_per_min);
    case CARPACE_DRILL_EFFORTS_FROM: return g_strdup (carpace_text_efforts_from (drill->efforts_from));
    case CARPACE_DRILL_EFFORT_LASTS: return number_in_words (CARPACE_UNIT_SECONDS, drill->effort_lasts_s);
    case CARPACE_DRILL_WRIST: return wrist (drill);
    case CARPACE_DRILL_RUN: return drill->run_ms > 0 ? exact_duration ((double) drill->run_ms) : g_strdup (_("none"));
    case CARPACE_DRILL_TIME: return drill->time_ms > 0 ? exact_duration ((double) drill->time_ms) : g_strdup (_("an equal part"));
    case CARPACE_N_DRILL_KEYS:
      break;
    }
  g_return_val_if_reached (g_strdup (""));
}

char *
carpace_text_block_drills (const CarpacePlan *plan, int32_t block)
{
  const CarpaceBlock *of = &plan->blocks[block];
  GString *list = g_string_new (NULL);

  for (int32_t i = 0; i < of->n_parts; i++)
    {
      g_autofree char *share = carpace_text_share (of->parts[i].share);

      add_of_list (list, plan->drills[of->parts[i].drill].name);
      if (of->n_parts > 1)
        g_string_append_printf (list, " %s", share);
    }
  return g_string_free (list, FALSE);
}
