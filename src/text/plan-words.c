/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-words.c: what a plan says, in sentences. */
#include "text/plan-words.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "text/duration.h"
#include "text/quoted.h"
#include "text/text.h"

static bool
blocks_are_equal (const CarpacePlan *plan)
{
  for (int32_t i = 1; i < plan->n_blocks; i++)
    if (plan->blocks[i].limit_ms != plan->blocks[0].limit_ms)
      return false;
  return true;
}

char *
carpace_text_plan_limits (const CarpacePlan *plan, int32_t most)
{
  GString *list = g_string_new (NULL);

  for (int32_t i = 0; i < plan->n_blocks && i < most; i++)
    {
      g_autofree char *limit = carpace_text_duration (plan->blocks[i].limit_ms);

      g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", limit);
    }
  if (plan->n_blocks > most)
    g_string_append (list, " …");
  return g_string_free (list, FALSE);
}

/* "in two halves", "in 3 blocks: 30 min, 20 min, 10 min". */
static char *
blocks (const CarpacePlan *plan)
{
  bool equal = blocks_are_equal (plan);
  g_autofree char *each = equal ? carpace_text_duration (plan->blocks[0].limit_ms) : carpace_text_plan_limits (plan, plan->n_blocks);

  if (plan->n_blocks == 1)
    return g_strdup (_("in one block"));
  if (equal && plan->n_blocks == 2)
    return g_strdup (_("in two halves"));
  if (equal && plan->n_blocks == 4)
    return g_strdup (_("in four quarters"));
  if (equal)
    return g_strdup_printf (_("in %d blocks of %s"), (int) plan->n_blocks, each);
  return g_strdup_printf (_("in %d blocks: %s"), (int) plan->n_blocks, each);
}

char *
carpace_text_plan_day (const CarpacePlan *plan)
{
  g_autofree char *dose = carpace_text_duration (plan->dose_ms), *in = blocks (plan);
  g_autofree char *most = carpace_text_duration (plan->at_most_ms);
  g_autofree char *between = carpace_text_duration (plan->between_blocks_ms);

  if (plan->n_blocks == 1)
    return g_strdup_printf (_("%s a day %s; at most %s"), dose, in, most);
  return g_strdup_printf (_("%s a day %s, %s between them; at most %s"), dose, in, between, most);
}

char *
carpace_text_plan_rests (const CarpacePlan *plan)
{
  g_autofree char *rest = carpace_text_duration (plan->rest_ms), *after = carpace_text_duration (plan->after_ms);
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, _("Rests of %s every %s"), rest, after);
  if (plan->or_after_runs > 0)
    g_string_append_printf (out, ngettext (", or after %d run", ", or after %d runs", (gulong) plan->or_after_runs),
                            (int) plan->or_after_runs);
  if (plan->reserve_at_least_pct > 0)
    g_string_append_printf (out, _(", or where about %g %% of a muscle group’s capacity is there, by estimate"),
                            plan->reserve_at_least_pct);
  return g_string_free (out, FALSE);
}

/* ---- fixed ---- */

static void
add_fixed (GString *out, const char *what, const char *value)
{
  g_string_append_printf (out, out->len > 0 ? "; %s: %s" : "%s: %s", what, value);
}

char *
carpace_text_plan_fixed (const CarpacePlan *plan)
{
  GString *out = g_string_new (NULL);

  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (plan->fixed[key])
      {
        g_autofree char *value = carpace_text_plan_value (plan, (CarpacePlanKey) key);
        g_autofree char *harmless = carpace_text_harmless (value);

        add_fixed (out, carpace_text_plan_key ((CarpacePlanKey) key), harmless);
      }
  for (int32_t i = 0; i < plan->n_blocks; i++)
    if (plan->blocks[i].limit_fixed)
      {
        g_autofree char *what = g_strdup_printf (_("block %d"), (int) i + 1);
        g_autofree char *limit = carpace_text_duration (plan->blocks[i].limit_ms);

        add_fixed (out, what, limit);
      }
  return g_string_free (out, out->len == 0);
}

/* ---- all of it ---- */

static void
add_sentence (GString *out, const char *sentence)
{
  g_string_append_printf (out, "%s.\n", sentence);
}

static void
add_drills (GString *out, const CarpacePlan *plan)
{
  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      g_autofree char *drills = carpace_text_block_drills (plan, i), *harmless = carpace_text_harmless (drills);
      g_autofree char *sentence = g_strdup_printf (_("Block %d: %s"), (int) i + 1, harmless);

      add_sentence (out, sentence);
    }
}

static void
add_rules (GString *out, const CarpacePlan *plan)
{
  g_autofree char *up_1 = carpace_text_share (plan->up_1_shorten_to), *up_2 = carpace_text_share (plan->up_2_shorten_to);
  g_autofree char *cut = carpace_text_share (plan->cut_to), *step = carpace_text_share (plan->step_up_by);
  g_autofree char *within = g_strdup_printf (_("Where discomfort rises by 1 the next block is %s as long, by 2 or more %s; above %d practice stops for the day"),
                                             up_1, up_2, (int) plan->stop_above);
  g_autofree char *days = g_strdup_printf (ngettext ("A worse morning makes the day %s as long; %d good day leads up by %s at most",
                                                     "A worse morning makes the day %s as long; %d good days in a row lead up by %s at most",
                                                     (gulong) plan->after_good_days),
                                           cut, (int) plan->after_good_days, step);

  add_sentence (out, within);
  add_sentence (out, days);
}

char *
carpace_text_plan_words (const CarpacePlan *plan)
{
  GString *out = g_string_new (NULL);
  g_autofree char *day = carpace_text_plan_day (plan), *rests = carpace_text_plan_rests (plan);
  g_autofree char *fixed = carpace_text_plan_fixed (plan), *note = carpace_text_harmless (plan->note);
  g_autofree char *side = carpace_text_plan_value (plan, CARPACE_KEY_HAND_SIDE);
  g_autofree char *grip = carpace_text_plan_value (plan, CARPACE_KEY_HAND_GRIP);
  g_autofree char *without = carpace_text_plan_value (plan, CARPACE_KEY_WEEK_WITHOUT);
  g_autofree char *hand = g_strdup_printf (_("For the %s; grip: %s; usual discomfort %d"), side, grip, (int) plan->usual_discomfort);

  if (note[0] != '\0')
    g_string_append_printf (out, "%s\n", note);
  add_sentence (out, day);
  add_sentence (out, rests);
  add_drills (out, plan);
  if (plan->without != 0)
    {
      g_autofree char *sentence = g_strdup_printf (_("No practice is planned on: %s"), without);

      add_sentence (out, sentence);
    }
  add_rules (out, plan);
  add_sentence (out, hand);
  if (fixed != NULL)
    {
      g_autofree char *sentence = g_strdup_printf (_("Fixed by whoever gives it: %s"), fixed);

      add_sentence (out, sentence);
    }
  return g_string_free (out, FALSE);
}

char *
carpace_text_plan_told (const CarpacePlan *plan, const CarpacePlan *in_use)
{
  g_autofree char *name = carpace_text_harmless (plan->name), *words = carpace_text_plan_words (plan);
  g_autofree char *other = in_use != NULL ? carpace_text_quoted (in_use->name) : NULL;
  g_autofree char *changes = in_use != NULL ? carpace_text_plan_changes (in_use, plan) : NULL;
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, _("%s, version %d\n"), name, (int) plan->version);
  g_string_append (out, words);
  if (in_use != NULL && in_use->version == plan->version && strcmp (changes, carpace_text_plan_no_changes ()) == 0)
    g_string_append_printf (out, _("\nIt says the same as %s, the plan in use.\n"), other);
  else if (in_use != NULL)
    {
      g_string_append_printf (out, _("\nIn place of %s, the plan in use, it changes:\n"), other);
      g_string_append (out, changes);
    }
  return g_string_free (out, FALSE);
}
