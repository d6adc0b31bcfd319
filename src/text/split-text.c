/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-text.c: a split in words. */
#include "text/split-text.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <math.h>

#include "text/plan-words.h"

#define SHOWN 8 /* limits that are named */

char *
carpace_text_split_into (int32_t into)
{
  switch (into)
    {
    case 1: return g_strdup (_("Whole"));
    case 2: return g_strdup (_("Halves"));
    case 4: return g_strdup (_("Quarters"));
    default: return g_strdup_printf (ngettext ("%d block", "%d blocks", (gulong) into), (int) into);
    }
}

char *
carpace_text_split_side (const char *name, const CarpacePlan *plan, const CarpaceDayLoad *load)
{
  g_autofree char *limits = carpace_text_plan_limits (plan, SHOWN);
  double highest = 0;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    highest = fmax (highest, load->block[i].strain_index);
  return g_strdup_printf (_("%s: %s. Strain index of the hardest block %.2f, of the day %.2f; lowest residual capacity about %.0f %% (estimate)."),
                          name, limits, highest, load->day_index, 100 * load->block[load->lowest].lowest_reserve);
}

char *
carpace_text_split_proof (const CarpaceSplitFound *found)
{
  double under = 100 * (1 - found->bound / found->highest_index);

  if (found->exact)
    return g_strdup (_("Proven: every split of whole runs was looked at, and none has an easier hardest block."));
  if (found->proven)
    return g_strdup_printf (_("Proven to within %.1f %%: no split of whole runs has a hardest block under %.3f."), under, found->bound);
  return g_strdup_printf (_("The best found, not proven: no split of whole runs has a hardest block under %.3f, %.1f %% less."), found->bound, under);
}

char *
carpace_text_split_refused (int32_t into)
{
  return g_strdup_printf (_("There is no such split: the drills have fewer whole runs than %d blocks, or a block would be longer than one can be, 4 hours."), (int) into);
}
