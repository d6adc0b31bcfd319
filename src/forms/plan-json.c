/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-json.c: a plan as one JSON object. */
#include "forms/plan-write.h"

#include <string.h>

#include "carpace/names.h"
#include "carpace/quantity.h"
#include "forms/json.h"
#include "forms/plan-values.h"

double
carpace_drill_value (const CarpaceDrill *drill, CarpaceDrillKey key)
{
  switch (key)
    {
    case CARPACE_DRILL_MOVEMENT: return (double) drill->movement;
    case CARPACE_DRILL_VIEW_TURN: return drill->view_turn_deg;
    case CARPACE_DRILL_INTENSITY: return drill->intensity_pct_mvc;
    case CARPACE_DRILL_EFFORTS: return drill->efforts_per_min;
    case CARPACE_DRILL_EFFORTS_FROM: return (double) drill->efforts_from;
    case CARPACE_DRILL_EFFORT_LASTS: return drill->effort_lasts_s;
    case CARPACE_DRILL_WRIST: return drill->bend == CARPACE_WRIST_EXTENSION ? -drill->bend_deg : drill->bend_deg;
    case CARPACE_DRILL_RUN: return (double) drill->run_ms;
    case CARPACE_DRILL_TIME: return (double) drill->time_ms;
    case CARPACE_DRILL_NAME:
    case CARPACE_N_DRILL_KEYS:
      break;
    }
  return 0;
}

bool
carpace_value_is_none (const CarpaceKeyFacts *facts, double number)
{
  return facts->none && !(number < 0) && !(number > 0);
}

static const char *
suffix (CarpaceUnit unit)
{
  switch (unit)
    {
    case CARPACE_UNIT_DURATION:
    case CARPACE_UNIT_SECONDS: return "_ms";
    case CARPACE_UNIT_SHARE:
    case CARPACE_UNIT_PERCENT: return "_pct";
    case CARPACE_UNIT_DEGREES:
    case CARPACE_UNIT_WRIST: return "_deg";
    case CARPACE_UNIT_PER_MIN: return "_per_min";
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_WHOLE:
    case CARPACE_UNIT_CM:
    case CARPACE_UNIT_TIME_OF_DAY:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS:
      break;
    }
  return "";
}

static void
put_key (GString *out, const char *word, CarpaceUnit unit)
{
  g_autofree char *key = g_strconcat (word, suffix (unit), NULL);

  carpace_json_key (out, g_strdelimit (key, "-", '_'));
}

static void
put_number (GString *out, const CarpaceKeyFacts *facts, double number)
{
  char text[CARPACE_QUANTITY_BYTES];

  if (carpace_value_is_none (facts, number) && facts->unit != CARPACE_UNIT_WRIST)
    carpace_json_null (out);
  else if (facts->unit == CARPACE_UNIT_WORD)
    carpace_json_string (out, carpace_name (facts->words, (int32_t) number));
  else if (facts->unit == CARPACE_UNIT_TIME_OF_DAY)
    {
      carpace_quantity_write (facts->unit, number, text);
      carpace_json_string (out, text);
    }
  else
    carpace_json_double (out, facts->unit == CARPACE_UNIT_SHARE     ? number / CARPACE_PERCENT
                              : facts->unit == CARPACE_UNIT_SECONDS ? number * (double) CARPACE_SECOND_MS
                                                                    : number);
}

static void
put_shown (GString *out, const CarpacePlan *plan)
{
  carpace_json_open (out, '[');
  for (int32_t i = 0; i < plan->n_shown; i++)
    carpace_json_string (out, carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) plan->shown[i]));
  carpace_json_close (out, ']');
}

static void
put_without (GString *out, const CarpacePlan *plan)
{
  carpace_json_open (out, '[');
  for (int32_t day = 0; day < CARPACE_N_WEEKDAYS; day++)
    if (plan->without & 1 << day)
      carpace_json_string (out, carpace_name (CARPACE_WORDS_WEEKDAY, day));
  carpace_json_close (out, ']');
}

static void
put_value (GString *out, const CarpacePlan *plan, CarpacePlanKey key)
{
  if (key == CARPACE_KEY_NAME || key == CARPACE_KEY_NOTE)
    carpace_json_string (out, key == CARPACE_KEY_NAME ? plan->name : plan->note);
  else if (key == CARPACE_KEY_MICRO_REST_SHOW)
    put_shown (out, plan);
  else if (key == CARPACE_KEY_WEEK_WITHOUT)
    put_without (out, plan);
  else
    put_number (out, carpace_plan_key_facts (key), carpace_plan_number (plan, key));
}

static void
put_keys (GString *out, const CarpacePlan *plan)
{
  g_autofree char *section = NULL;

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    {
      const char *path = carpace_name (CARPACE_WORDS_PLAN_KEY, key);
      const char *dot = strchr (path, '.');
      g_autofree char *of = dot ? g_strndup (path, (gsize) (dot - path)) : NULL;

      if (section && g_strcmp0 (section, of) != 0)
        carpace_json_close (out, '}');
      if (of && g_strcmp0 (section, of) != 0)
        {
          put_key (out, of, CARPACE_UNIT_TEXT);
          carpace_json_open (out, '{');
        }
      g_free (section);
      section = g_steal_pointer (&of);
      put_key (out, dot ? dot + 1 : path, carpace_plan_key_facts ((CarpacePlanKey) key)->unit);
      put_value (out, plan, (CarpacePlanKey) key);
    }
  if (section)
    carpace_json_close (out, '}');
}

static void
put_drill (GString *out, const CarpaceDrill *drill)
{
  carpace_json_open (out, '{');
  carpace_json_key (out, "id");
  carpace_json_string (out, drill->id);
  carpace_json_key (out, "name");
  carpace_json_string (out, drill->name);
  for (int32_t key = CARPACE_DRILL_MOVEMENT; key < CARPACE_N_DRILL_KEYS; key++)
    {
      const CarpaceKeyFacts *facts = carpace_drill_key_facts ((CarpaceDrillKey) key);
      put_key (out, carpace_name (CARPACE_WORDS_DRILL_KEY, key), facts->unit);
      put_number (out, facts, carpace_drill_value (drill, (CarpaceDrillKey) key));
    }
  carpace_json_close (out, '}');
}

static void
put_block (GString *out, const CarpacePlan *plan, const CarpaceBlock *block)
{
  carpace_json_open (out, '{');
  carpace_json_key (out, "limit_ms");
  carpace_json_int (out, block->limit_ms);
  carpace_json_key (out, "limit_fixed");
  carpace_json_bool (out, block->limit_fixed);
  carpace_json_key (out, "drills");
  carpace_json_open (out, '[');
  for (int32_t i = 0; i < block->n_parts; i++)
    {
      carpace_json_open (out, '{');
      carpace_json_key (out, "id");
      carpace_json_string (out, plan->drills[block->parts[i].drill].id);
      carpace_json_key (out, "share_pct");
      carpace_json_double (out, (double) block->parts[i].share / CARPACE_PERCENT);
      carpace_json_close (out, '}');
    }
  carpace_json_close (out, ']');
  carpace_json_close (out, '}');
}

static void
put_fixed (GString *out, const CarpacePlan *plan)
{
  carpace_json_key (out, "fixed");
  carpace_json_open (out, '[');
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (plan->fixed[key])
      carpace_json_string (out, carpace_name (CARPACE_WORDS_PLAN_KEY, key));
  carpace_json_close (out, ']');
}

char *
carpace_plan_write_json (const CarpacePlan *plan)
{
  GString *out = g_string_new (NULL);

  carpace_json_open (out, '{');
  put_keys (out, plan);
  carpace_json_key (out, "drills");
  carpace_json_open (out, '[');
  for (int32_t i = 0; i < plan->n_drills; i++)
    put_drill (out, &plan->drills[i]);
  carpace_json_close (out, ']');
  carpace_json_key (out, "split");
  if (plan->split_into > 0)
    carpace_json_int (out, plan->split_into);
  else
    carpace_json_null (out);
  carpace_json_key (out, "blocks");
  carpace_json_open (out, '[');
  for (int32_t i = 0; i < plan->n_blocks; i++)
    put_block (out, plan, &plan->blocks[i]);
  carpace_json_close (out, ']');
  put_fixed (out, plan);
  carpace_json_close (out, '}');
  return g_string_free (out, FALSE);
}
