/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-rail-text.c: a plan's rail in words. */
#include "text/plan-rail-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/quoted.h"
#include "text/text.h"

char *
carpace_text_rail_block (const CarpacePlan *plan, int32_t block)
{
  g_autofree char *limit = carpace_text_duration (plan->blocks[block].limit_ms);

  /* Translators: a block's number and the limit of its practice time */
  return g_strdup_printf (_("Block %d, %s"), block + 1, limit);
}

char *
carpace_text_rail_wait (int64_t wait_ms)
{
  g_autofree char *wait = carpace_text_duration (wait_ms);

  return g_strdup_printf (_("wait %s"), wait);
}

char *
carpace_text_about_percent (double share)
{
  return g_strdup_printf (_("about %.0f %%"), 100 * share);
}

char *
carpace_text_reserve_title (CarpaceGroup group)
{
  return g_strdup_printf (_("Residual capacity of the %s: estimate"), carpace_text_group (group));
}

char *
carpace_text_rail_spoken (const CarpacePlan *plan, const CarpacePlanRail *rail, CarpaceInstant begins, int32_t block)
{
  g_autofree char *what = carpace_text_rail_block (plan, block);
  g_autofree char *from = carpace_text_time_of_day (carpace_instant_after (begins, rail->block[block].from_ms));
  g_autofree char *to = carpace_text_time_of_day (carpace_instant_after (begins, rail->block[block].to_ms));
  /* Translators: a block with its limit, from when to when */
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _("%s, %s to %s:"), what, from, to);
  for (int32_t i = 0; i < plan->blocks[block].n_parts; i++)
    {
      const CarpaceBlockPart *part = &plan->blocks[block].parts[i];
      g_autofree char *name = carpace_text_harmless (plan->drills[part->drill].name), *share = carpace_text_share (part->share);

      g_string_append_printf (text, "%s %s %s", i > 0 ? "," : "", name, share);
    }
  return g_string_free (text, FALSE);
}

#define TIMES 6 /* that are told */

char *
carpace_text_rail_air (const CarpaceAirBreaks *air, CarpaceInstant begins)
{
  g_autofree char *length = air->n > 0 ? carpace_text_duration (air->to_ms[0] - air->from_ms[0]) : NULL;
  g_autoptr (GString) times = g_string_new (NULL);

  for (int32_t i = 0; i < air->n && i < TIMES; i++)
    {
      g_autofree char *time = carpace_text_time_of_day (carpace_instant_after (begins, air->from_ms[i]));

      g_string_append_printf (times, "%s%s", i > 0 ? ", " : "", time);
    }
  if (air->n > TIMES)
    g_string_append (times, " …");
  /* Translators: how long intermissions of a stream are, and at what times they begin */
  return air->n > 0 ? g_strdup_printf (_("On air, marked above the rail: intermissions of %s at %s"), length, times->str) : NULL;
}

const char *
carpace_text_rail_keys (void)
{
  return _("Left and right choose a block, up and down one of its drills. With Shift: left and right its limit, up and down the drill's share; "
           "with Ctrl: the wait between blocks; with Alt: the order of blocks.");
}
