/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-yaml-write.c: a plan as a plan file. */
#include "forms/plan-write.h"

#include <glib.h>
#include <string.h>

#include "carpace/names.h"
#include "carpace/quantity.h"
#include "forms/plan-values.h"
#include "forms/plan-yaml-text.h"

static void
append_number (GString *out, const CarpaceKeyFacts *facts, double number)
{
  char text[CARPACE_QUANTITY_BYTES];

  if (carpace_value_is_none (facts, number))
    g_string_append (out, facts->none);
  else if (facts->unit == CARPACE_UNIT_WORD)
    g_string_append (out, carpace_name (facts->words, (int32_t) number));
  else
    {
      carpace_quantity_write (facts->unit, number, text);
      g_string_append_printf (out, facts->unit == CARPACE_UNIT_TIME_OF_DAY ? "\"%s\"" : "%s", text);
    }
}

static void
append_shown (GString *out, const CarpacePlan *plan)
{
  g_string_append_c (out, '[');
  for (int32_t i = 0; i < plan->n_shown; i++)
    g_string_append_printf (out, "%s%s", i > 0 ? ", " : "", carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) plan->shown[i]));
  g_string_append_c (out, ']');
}

static void
append_without (GString *out, const CarpacePlan *plan)
{
  const char *comma = "";

  g_string_append_c (out, '[');
  for (int32_t day = 0; day < CARPACE_N_WEEKDAYS; day++)
    if (plan->without & 1 << day)
      {
        g_string_append_printf (out, "%s%s", comma, carpace_name (CARPACE_WORDS_WEEKDAY, day));
        comma = ", ";
      }
  g_string_append_c (out, ']');
}

static void
append_key (GString *out, const CarpacePlan *plan, CarpacePlanKey key)
{
  const char *path = carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) key);
  const char *dot = strchr (path, '.');

  g_string_append_printf (out, "%s%s: %s", dot ? "  " : "", dot ? dot + 1 : path, plan->fixed[key] ? "!fixed " : "");
  if (key == CARPACE_KEY_NAME || key == CARPACE_KEY_NOTE)
    carpace_yaml_append_text (out, key == CARPACE_KEY_NAME ? plan->name : plan->note);
  else if (key == CARPACE_KEY_MICRO_REST_SHOW)
    append_shown (out, plan);
  else if (key == CARPACE_KEY_WEEK_WITHOUT)
    append_without (out, plan);
  else
    append_number (out, carpace_plan_key_facts (key), carpace_plan_number (plan, key));
  g_string_append_c (out, '\n');
}

static void
append_keys (GString *out, const CarpacePlan *plan)
{
  size_t n_section = 0;
  const char *section = "";

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    {
      const char *path = carpace_name (CARPACE_WORDS_PLAN_KEY, key);
      size_t n = strcspn (path, ".");

      if (path[n] == '.' && (n != n_section || strncmp (path, section, n) != 0))
        g_string_append_printf (out, "%.*s:\n", (int) n, path);
      section = path;
      n_section = n;
      append_key (out, plan, (CarpacePlanKey) key);
    }
}

static void
append_drill (GString *out, const CarpaceDrill *drill)
{
  g_string_append (out, "  - id: ");
  carpace_yaml_append_id (out, drill->id);
  g_string_append (out, "\n    name: ");
  carpace_yaml_append_text (out, drill->name);
  g_string_append_c (out, '\n');
  for (int32_t key = CARPACE_DRILL_MOVEMENT; key < CARPACE_N_DRILL_KEYS; key++)
    {
      g_string_append_printf (out, "    %s: ", carpace_name (CARPACE_WORDS_DRILL_KEY, key));
      append_number (out, carpace_drill_key_facts ((CarpaceDrillKey) key),
                     carpace_drill_value (drill, (CarpaceDrillKey) key));
      g_string_append_c (out, '\n');
    }
}

static void
append_split (GString *out, int32_t into)
{
  if (into == 1 || into == 2 || into == 4)
    g_string_append_printf (out, "split: %s\n", into == 1 ? "whole" : into == 2 ? "halves" : "quarters");
  else
    g_string_append_printf (out, "split: %d\n", into);
}

static void
append_block (GString *out, const CarpacePlan *plan, const CarpaceBlock *block, const char *margin)
{
  char text[CARPACE_QUANTITY_BYTES];

  carpace_quantity_write (CARPACE_UNIT_DURATION, (double) block->limit_ms, text);
  g_string_append_printf (out, "%s  - limit: %s%s\n%s    drills:\n", margin, block->limit_fixed ? "!fixed " : "", text,
                          margin);
  for (int32_t i = 0; i < block->n_parts; i++)
    {
      carpace_quantity_write (CARPACE_UNIT_SHARE, block->parts[i].share, text);
      g_string_append_printf (out, "%s      - {id: ", margin);
      carpace_yaml_append_id (out, plan->drills[block->parts[i].drill].id);
      g_string_append_printf (out, ", share: %s}\n", text);
    }
}

char *
carpace_plan_write_file (const CarpacePlan *plan)
{
  GString *out = g_string_new ("carpace-plan: 1\n");
  const char *margin = plan->split_into > 0 ? "#" : "";

  append_keys (out, plan);
  g_string_append (out, "drills:\n");
  for (int32_t i = 0; i < plan->n_drills; i++)
    append_drill (out, &plan->drills[i]);
  if (plan->split_into > 0)
    append_split (out, plan->split_into);
  g_string_append_printf (out, "%sblocks:\n", margin);
  for (int32_t i = 0; i < plan->n_blocks; i++)
    append_block (out, plan, &plan->blocks[i], margin);
  return g_string_free (out, FALSE);
}
