/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-changes.c: what a plan fixes, and what another version of it changes, in words. */
#include <glib/gi18n.h>
#include <string.h>

#include "carpace/names.h"
#include "carpace/quantity.h"
#include "text/duration.h"
#include "text/plan-flaws.h"
#include "text/plan-words.h"
#include "text/quoted.h"

/* ---- values ---- */

static char *
weekdays (int32_t without)
{
  GString *days = g_string_new (NULL);

  for (int32_t day = 0; day < CARPACE_N_WEEKDAYS; day++)
    if (without & 1 << day)
      g_string_append_printf (days, "%s%s", days->len > 0 ? ", " : "", carpace_name (CARPACE_WORDS_WEEKDAY, day));
  return g_string_free (days, FALSE);
}

char *
carpace_text_held_value (const CarpaceCeiling *ceiling, CarpacePlanKey key)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (key);
  char value[CARPACE_QUANTITY_BYTES];
  GString *shown;

  if (key == CARPACE_KEY_NAME || key == CARPACE_KEY_NOTE)
    return carpace_text_quoted (key == CARPACE_KEY_NAME ? ceiling->name : ceiling->note);
  if (facts->none != NULL && ceiling->number[key] < facts->low)
    return g_strdup (facts->none);
  if (facts->unit == CARPACE_UNIT_WORD)
    return g_strdup (carpace_name (facts->words, (int32_t) ceiling->number[key]));
  if (key == CARPACE_KEY_WEEK_WITHOUT)
    return weekdays ((int32_t) ceiling->number[key]);
  if (key != CARPACE_KEY_MICRO_REST_SHOW)
    {
      carpace_quantity_write (facts->unit, ceiling->number[key], value);
      return g_strdup (value);
    }
  shown = g_string_new (NULL);
  for (int32_t i = 0; i < ceiling->n_shown; i++)
    g_string_append_printf (shown, "%s%s", i > 0 ? ", " : "", carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) ceiling->shown[i]));
  return g_string_free (shown, FALSE);
}

/* ---- changes ---- */

static void
add_line (GString *out, const char *what, const char *was, const char *is)
{
  g_autofree char *shown_was = carpace_text_harmless (was), *shown_is = carpace_text_harmless (is);

  if (strcmp (was, is) == 0)
    return;
  g_string_append (out, "  ");
  g_string_append_printf (out, _("%s: %s, then %s"), what, shown_was, shown_is);
  g_string_append_c (out, '\n');
}

static void
add_key (GString *out, const CarpacePlan *before, const CarpacePlan *after, CarpacePlanKey key)
{
  g_autofree char *was = carpace_text_plan_value (before, key), *is = carpace_text_plan_value (after, key);
  const char *what = carpace_text_plan_key (key);

  add_line (out, what, was, is);
  if (before->fixed[key] != after->fixed[key])
    g_string_append_printf (out, after->fixed[key] ? _("  %s: fixed from then on\n") : _("  %s: not fixed any more\n"), what);
}

static char *
limit_of (const CarpacePlan *plan, int32_t block)
{
  if (block >= plan->n_blocks)
    return g_strdup (_("none"));
  return carpace_text_duration (plan->blocks[block].limit_ms);
}

static void
add_block (GString *out, const CarpacePlan *before, const CarpacePlan *after, int32_t block)
{
  bool both = block < before->n_blocks && block < after->n_blocks;
  g_autofree char *what = g_strdup_printf (_("block %d"), (int) block + 1);
  g_autofree char *was = limit_of (before, block), *is = limit_of (after, block);
  g_autofree char *drills_was = both ? carpace_text_block_drills (before, block) : NULL;
  g_autofree char *drills_are = both ? carpace_text_block_drills (after, block) : NULL;

  add_line (out, what, was, is);
  if (both)
    add_line (out, what, drills_was, drills_are);
  if (both && before->blocks[block].limit_fixed != after->blocks[block].limit_fixed)
    g_string_append_printf (out, after->blocks[block].limit_fixed ? _("  %s: fixed from then on\n")
                                                                  : _("  %s: not fixed any more\n"), what);
}

static const CarpaceDrill *
drill_of (const CarpacePlan *plan, const char *id)
{
  for (int32_t i = 0; i < plan->n_drills; i++)
    if (strcmp (plan->drills[i].id, id) == 0)
      return &plan->drills[i];
  return NULL;
}

static void
add_drill (GString *out, const CarpaceDrill *before, const CarpaceDrill *after)
{
  g_autofree char *name = carpace_text_harmless (after->name);

  if (before == NULL)
    g_string_append_printf (out, _("  the drill %s is new\n"), name);
  for (int32_t key = 0; before != NULL && key < CARPACE_N_DRILL_KEYS; key++)
    {
      g_autofree char *was = carpace_text_drill_value (before, (CarpaceDrillKey) key);
      g_autofree char *is = carpace_text_drill_value (after, (CarpaceDrillKey) key);
      g_autofree char *what = g_strdup_printf ("%s, %s", name, carpace_text_drill_key ((CarpaceDrillKey) key));

      add_line (out, what, was, is);
    }
}

static void
add_drills (GString *out, const CarpacePlan *before, const CarpacePlan *after)
{
  for (int32_t i = 0; i < after->n_drills; i++)
    add_drill (out, drill_of (before, after->drills[i].id), &after->drills[i]);
  for (int32_t i = 0; i < before->n_drills; i++)
    {
      g_autofree char *name = carpace_text_harmless (before->drills[i].name);

      if (drill_of (after, before->drills[i].id) == NULL)
        g_string_append_printf (out, _("  the drill %s is gone\n"), name);
    }
}

const char *
carpace_text_plan_no_changes (void)
{
  return _("  nothing but its version\n");
}

char *
carpace_text_plan_changes (const CarpacePlan *before, const CarpacePlan *after)
{
  GString *out = g_string_new (NULL);

  for (int32_t key = CARPACE_KEY_NOTE; key < CARPACE_N_KEYS; key++)
    add_key (out, before, after, (CarpacePlanKey) key);
  for (int32_t i = 0; i < MAX (before->n_blocks, after->n_blocks); i++)
    add_block (out, before, after, i);
  add_drills (out, before, after);
  if (out->len == 0)
    g_string_append (out, carpace_text_plan_no_changes ());
  return g_string_free (out, FALSE);
}

char *
carpace_text_held (const CarpaceCeiling *ceiling)
{
  char text[CARPACE_CEILING_BYTES];
  g_auto (GStrv) lines = NULL;
  GString *out = g_string_new (NULL);

  carpace_ceiling_write (ceiling, text);
  lines = g_strsplit (text, "\n", -1);
  for (int i = 0; lines[i] != NULL; i++)
    if (lines[i][0] != '\0')
      g_string_append_printf (out, "  %s\n", lines[i]);
  return g_string_free (out, FALSE);
}
