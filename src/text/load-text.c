/* SPDX-License-Identifier: GPL-3.0-or-later */
/* load-text.c: what decides a plan, and what would ease it. */
#include "text/load-text.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "text/duration.h"
#include "text/quoted.h"

static const char *const by[] = {
  [CARPACE_WEIGHS_INTENSITY] = N_("its intensity"),
  [CARPACE_WEIGHS_EFFORTS] = N_("its efforts a minute"),
  [CARPACE_WEIGHS_DURATION] = N_("the length of its efforts"),
  [CARPACE_WEIGHS_HOURS] = N_("the block's length"),
};

G_STATIC_ASSERT (G_N_ELEMENTS (by) == CARPACE_N_WEIGHS);

char *
carpace_text_decides (const CarpacePlan *plan, const CarpaceDecides *decides)
{
  int32_t drill = plan->blocks[decides->block].parts[decides->part].drill;
  g_autofree char *name = carpace_text_harmless (plan->drills[drill].name);

  return g_strdup_printf (_("What decides: block %d, in it “%s”, most of all by %s."), decides->block + 1, name,
                          _(by[decides->by]));
}

char *
carpace_text_ease (const CarpacePlan *plan, const CarpaceEase *ease)
{
  switch (ease->kind)
    {
    case CARPACE_EASE_LIMIT:
      return g_strdup_printf (_("block %d about a tenth shorter"), ease->block + 1);
    case CARPACE_EASE_SHARE:
      {
        g_autofree char *name = carpace_text_harmless (plan->drills[ease->drill].name);
        return g_strdup_printf (_("a tenth of block %d from “%s” to its lightest drill"), ease->block + 1, name);
      }
    case CARPACE_EASE_REST:
      {
        g_autofree char *rest = carpace_text_duration (2 * plan->rest_ms);
        return g_strdup_printf (_("rests twice as long, %s"), rest);
      }
    case CARPACE_EASE_RUN:
      {
        g_autofree char *after = carpace_text_duration (plan->after_ms / 2);
        return g_strdup_printf (_("rests twice as often, after %s"), after);
      }
    case CARPACE_N_EASES:
      break;
    }
  return g_strdup ("");
}

char *
carpace_text_ease_press (const CarpacePlan *plan, const CarpaceEase *ease)
{
  g_autofree CarpacePlan *eased = g_new (CarpacePlan, 1);

  carpace_load_eased (plan, ease, eased);
  switch (ease->kind)
    {
    case CARPACE_EASE_LIMIT:
      {
        g_autofree char *limit = carpace_text_duration (eased->blocks[ease->block].limit_ms);
        return g_strdup_printf (_("Make block %d %s"), ease->block + 1, limit);
      }
    case CARPACE_EASE_SHARE:
      {
        g_autofree char *name = carpace_text_harmless (plan->drills[ease->drill].name);
        return g_strdup_printf (_("Less of “%s” in block %d"), name, ease->block + 1);
      }
    case CARPACE_EASE_REST:
      {
        g_autofree char *then = carpace_text_duration (eased->rest_ms), *now = carpace_text_duration (plan->rest_ms);
        return g_strdup_printf (_("Rest %s, not %s"), then, now);
      }
    case CARPACE_EASE_RUN:
      {
        g_autofree char *then = carpace_text_duration (eased->after_ms), *now = carpace_text_duration (plan->after_ms);
        return g_strdup_printf (_("Rest after %s, not %s"), then, now);
      }
    case CARPACE_N_EASES: break;
    }
  return g_strdup ("");
}

/* Whether @then differs from @now as both are written, with so many places. */
static bool
is_seen (int places, double then, double now)
{
  char a[32], b[32];

  g_snprintf (a, sizeof a, "%.*f", places, then);
  g_snprintf (b, sizeof b, "%.*f", places, now);
  return strcmp (a, b) != 0;
}

char *
carpace_text_ease_effect (const CarpaceEase *ease, double day_index, double lowest)
{
  bool index = is_seen (2, ease->day_index, day_index), reserve = is_seen (0, 100 * ease->lowest_reserve, 100 * lowest);

  if (index && reserve && ease->day_index > day_index)
    return g_strdup_printf (_("Lowest residual capacity about %.0f %% instead of %.0f %%; but the index of the day %.2f instead of %.2f."),
                            100 * ease->lowest_reserve, 100 * lowest, ease->day_index, day_index);
  if (index && reserve && ease->lowest_reserve < lowest)
    return g_strdup_printf (_("Index of the day %.2f instead of %.2f; but the lowest residual capacity about %.0f %% instead of %.0f %%."),
                            ease->day_index, day_index, 100 * ease->lowest_reserve, 100 * lowest);
  if (index && reserve)
    return g_strdup_printf (_("Index of the day %.2f instead of %.2f; lowest residual capacity about %.0f %% instead of %.0f %%."),
                            ease->day_index, day_index, 100 * ease->lowest_reserve, 100 * lowest);
  if (index)
    return g_strdup_printf (_("Index of the day %.2f instead of %.2f."), ease->day_index, day_index);
  if (reserve)
    return g_strdup_printf (_("Lowest residual capacity about %.0f %% instead of %.0f %%."), 100 * ease->lowest_reserve, 100 * lowest);
  return g_strdup (_("By less than these figures show."));
}

const char *
carpace_text_load_estimates (void)
{
  return _("Estimates, for comparing plans: the models know nothing of pain, and low loads can hurt, too. The comfort rating decides.");
}
