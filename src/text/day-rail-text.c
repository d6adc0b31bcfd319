/* SPDX-License-Identifier: GPL-3.0-or-later */
/* day-rail-text.c: a part, a sentence. */
#include "text/day-rail-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"

static void
append_part (GString *text, const CarpaceRailPart *part)
{
  g_autofree char *block = part->match ? g_strdup (_("Match")) : g_strdup_printf (_("Block %d"), part->number);
  g_autofree char *practice = carpace_text_duration (part->practice_ms);
  g_autofree char *from = carpace_text_time_of_day (part->from);
  g_autofree char *to = carpace_text_time_of_day (part->to);

  if (text->len > 0)
    g_string_append_c (text, ' ');
  switch (part->kind)
    {
    case CARPACE_RAIL_DONE:
      /* Translators: a block or match, its practice time, from when to when */
      g_string_append_printf (text, _("%s: %s done, %s to %s."), block, practice, from, to);
      return;
    case CARPACE_RAIL_UNDER_WAY:
      g_string_append_printf (text, _("%s, under way: %s, %s to about %s."), block, practice, from, to);
      return;
    case CARPACE_RAIL_AHEAD:
      g_string_append_printf (text, _("%s: %s planned, about %s to %s."), block, practice, from, to);
      return;
    case CARPACE_N_RAIL_KINDS: return;
    }
}

char *
carpace_text_day_rail (const CarpaceDayRail *day)
{
  GString *text = g_string_new (NULL);

  for (int32_t i = 0; i < day->n; i++)
    append_part (text, &day->part[i]);
  if (day->n == 0)
    g_string_append (text, _("No practice planned."));
  return g_string_free (text, FALSE);
}
