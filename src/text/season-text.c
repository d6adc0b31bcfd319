/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-text.c: weeks and days of a rehearsal. */
#include "text/season-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/diary-text.h"
#include "text/duration.h"
#include "text/text.h"

char *
carpace_text_season_trend (int64_t done_ms, int64_t before_ms)
{
  g_autofree char *by = carpace_text_duration (ABS (done_ms - before_ms));

  if (ABS (done_ms - before_ms) < CARPACE_SECOND_MS)
    return g_strdup (_("as much as the week before"));
  return g_strdup_printf (done_ms > before_ms ? _("%s more than the week before") : _("%s less than the week before"), by);
}

char *
carpace_text_season_week_name (int32_t number)
{
  return g_strdup_printf (_("week %d"), (int) number);
}

char *
carpace_text_season_week (const CarpaceSeasonWeekTold *week)
{
  g_autofree char *done = carpace_text_duration (week->done_ms), *planned = carpace_text_duration (week->planned_ms);
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, _("Week %d: %s of %s"), (int) week->number, done, planned);
  g_string_append_printf (out, ngettext (" on %d day", " on %d days", (gulong) week->days), (int) week->days);
  if (week->highest >= 0)
    g_string_append_printf (out, _(", highest discomfort %d"), (int) week->highest);
  if (week->cuts > 0)
    g_string_append_printf (out, ngettext (", %d cut", ", %d cuts", (gulong) week->cuts), (int) week->cuts);
  if (week->before_ms >= 0)
    {
      g_autofree char *trend = carpace_text_season_trend (week->done_ms, week->before_ms);

      g_string_append_printf (out, "; %s", trend);
    }
  return g_string_free (out, FALSE);
}

char *
carpace_text_season_day (const CarpaceSeasonDayTold *day)
{
  g_autofree char *date = carpace_text_day (day->day), *done = carpace_text_duration (day->done_ms);
  g_autofree char *planned = carpace_text_duration (day->planned_ms);
  g_autofree char *why = day->decision != NULL ? carpace_text_why_short (day->decision) : NULL;
  GString *out = g_string_new (NULL);

  if (day->planned_ms > 0)
    g_string_append_printf (out, _("%s: %s of %s"), date, done, planned);
  else
    g_string_append_printf (out, _("%s: no practice today"), date);
  if (day->highest >= 0)
    g_string_append_printf (out, _(", highest discomfort %d"), (int) day->highest);
  g_string_append (out, ".");
  if (why != NULL)
    g_string_append_printf (out, " %s", why);
  return g_string_free (out, FALSE);
}

char *
carpace_text_season_all (const CarpaceSeasonAllTold *all)
{
  g_autofree char *done = carpace_text_minutes (all->done_ms), *level = carpace_text_minutes (all->level_ms);
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, _("In all %s"), done);
  g_string_append_printf (out, ngettext (" on %d day", " on %d days", (gulong) all->days), (int) all->days);
  g_string_append_printf (out, ngettext (", %d cut", ", %d cuts", (gulong) all->cuts), (int) all->cuts);
  g_string_append_printf (out, ngettext (", %d rest day", ", %d rest days", (gulong) all->rest_days), (int) all->rest_days);
  g_string_append_printf (out, ngettext (", %d caution", ", %d cautions", (gulong) all->cautions), (int) all->cautions);
  if (all->highest >= 0)
    g_string_append_printf (out, _(", highest discomfort %d"), (int) all->highest);
  g_string_append_printf (out, _("; the level at the end: %s."), level);
  return g_string_free (out, FALSE);
}

char *
carpace_text_season_title (const char *name, int32_t days)
{
  return g_strdup_printf (ngettext ("%s, %d day", "%s, %d days", (gulong) days), name, (int) days);
}
