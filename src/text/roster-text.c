/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text/roster-text.h"

#include <glib/gi18n.h>

#include "text/diary-text.h"
#include "text/duration.h"
#include "text/quoted.h"
#include "text/team-text.h"

static char *
date_of (int64_t at_s)
{
  return carpace_text_date ((CarpaceDay) (at_s / 86400));
}

/* One reason, with since when where that is known. */
static char *
look_of (const CarpaceRosterRow *row, CarpaceLook look)
{
  CarpaceDay since = look == CARPACE_LOOK_CAUTION ? row->caution_since : look == CARPACE_LOOK_SILENT ? row->answered : CARPACE_NO_DAY;
  g_autofree char *date = since != CARPACE_NO_DAY ? carpace_text_date (since) : NULL;

  if (date == NULL)
    return g_strdup (carpace_text_look (look));
  return look == CARPACE_LOOK_CAUTION ? g_strdup_printf (_("a caution has been open since %s"), date)
                                      : g_strdup_printf (_("no answer for a week, the last on %s"), date);
}

char *
carpace_text_roster_looks (const CarpaceRosterRow *row)
{
  GString *all = g_string_new (NULL);

  for (int look = 0; look < CARPACE_N_LOOKS; look++)
    if ((row->looks & 1u << look) != 0)
      {
        g_autofree char *one = look_of (row, (CarpaceLook) look);

        g_string_append_printf (all, "%s%s", all->len > 0 ? "; " : "", one);
      }
  return g_string_free (all, FALSE);
}

char *
carpace_text_roster_sharing (const CarpaceRosterRow *row)
{
  GString *all = g_string_new (NULL);
  int64_t missing = row->who.missing[CARPACE_BUNDLE_LOAD] + row->who.missing[CARPACE_BUNDLE_HAND];
  g_autofree char *erased = row->who.erased_s > 0 ? date_of (row->who.erased_s) : NULL;

  if (row->holds == CARPACE_TEAM_WITHDRAWN)
    g_string_append (all, _("sharing was stopped"));
  else if (row->holds == CARPACE_TEAM_ENDED)
    g_string_append (all, _("sharing has ended"));
  else if (row->holds == CARPACE_TEAM_UNGUARDED)
    g_string_append (all, _("waits for the guardian's signature"));
  else if (row->holds != CARPACE_TEAM_FINE)
    g_string_append (all, _("shares nothing yet"));
  if (erased != NULL)
    g_string_append_printf (all, _("%sasked on %s that all until then be erased"), all->len > 0 ? "; " : "", erased);
  if (missing > 0 && row->holds == CARPACE_TEAM_FINE)
    {
      g_autofree char *count = g_strdup_printf (ngettext ("%d bundle in between never came", "%d bundles in between never came",
                                                          (unsigned long) missing), (int) missing);

      g_string_append_printf (all, "%s%s", all->len > 0 ? "; " : "", count);
    }
  return g_string_free (all, FALSE);
}

static void
add_plan (const CarpaceRosterRow *row, GString *out)
{
  g_autofree char *name = carpace_text_quoted (row->head.plan_name);
  g_autofree char *since = row->head.in_force_s > 0 ? date_of (row->head.in_force_s) : NULL;

  if (row->head.plan_name[0] == '\0')
    g_string_append_printf (out, "  %s\n", _("no plan in use"));
  else if (since != NULL)
    g_string_append_printf (out, _("  %s, version %d, in use since %s\n"), name, (int) row->head.plan_version, since);
  else
    g_string_append_printf (out, _("  %s, version %d\n"), name, (int) row->head.plan_version);
}

/* Of a week's hours seconds say nothing. */
static char *
whole_minutes (int64_t ms)
{
  return carpace_text_duration ((ms + CARPACE_MINUTE_MS / 2) / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);
}

static void
add_week (const CarpaceLoadWeek *week, GString *out)
{
  g_autofree char *from = carpace_text_date (week->monday), *done = whole_minutes (week->done_ms);
  g_autofree char *planned = whole_minutes (week->planned_ms);

  g_string_append_printf (out, _("  week of %s: %s of %s, %d days, %d rests\n"), from, done, planned, (int) week->days, (int) week->rests);
}

static void
add_row (const CarpaceRosterRow *row, int32_t weeks, GString *out)
{
  g_autofree char *name = carpace_text_harmless (row->who.name), *looks = carpace_text_roster_looks (row);
  g_autofree char *sharing = carpace_text_roster_sharing (row);

  g_string_append (out, name);
  g_string_append_printf (out, looks[0] != '\0' ? ": %s\n" : "\n", looks);
  if (sharing[0] != '\0')
    g_string_append_printf (out, "  %s\n", sharing);
  if (row->load && row->who.made_s[CARPACE_BUNDLE_LOAD] > 0)
    add_plan (row, out);
  for (int32_t i = row->n_weeks - 1; i >= 0 && i >= row->n_weeks - weeks; i--)
    add_week (&row->week[i], out);
  if (row->hand && row->highest >= 0)
    g_string_append_printf (out, _("  highest discomfort in 7 days: %d\n"), (int) row->highest);
}

char *
carpace_text_roster_player (const CarpaceRosterRow *row)
{
  GString *out = g_string_new (NULL);

  add_row (row, CARPACE_ROSTER_WEEKS, out);
  return g_strchomp (g_string_free (out, FALSE));
}

char *
carpace_text_roster_week (const CarpaceRosterRow *row)
{
  const CarpaceLoadWeek *week = row->n_weeks > 0 ? &row->week[row->n_weeks - 1] : NULL;
  g_autofree char *done = week != NULL ? whole_minutes (week->done_ms) : NULL;
  g_autofree char *planned = week != NULL ? whole_minutes (week->planned_ms) : NULL;

  if (week == NULL) /* of whoever shares nothing at all is said why */
    return g_strdup (row->hand && !row->load ? _("not shared") : "");
  return g_strdup_printf (_("%s of %s"), done, planned);
}

static size_t
in_need (const CarpaceRosterRow *row, size_t n_rows)
{
  size_t need = 0;

  for (size_t i = 0; i < n_rows; i++)
    need += row[i].looks != 0;
  return need;
}

char *
carpace_text_roster_need (const CarpaceRosterRow *row, size_t n_rows)
{
  size_t need = in_need (row, n_rows);

  if (n_rows == 0)
    return g_strdup (_("No one shares with you yet."));
  if (need == 0)
    return g_strdup_printf (ngettext ("No one needs a look today (%d player).", "No one needs a look today (%d players).",
                                      (unsigned long) n_rows), (int) n_rows);
  return g_strdup_printf (ngettext ("%d player needs a look today:", "%d players need a look today:", (unsigned long) need), (int) need);
}

void
carpace_text_roster (const GArray *rows, GString *out)
{
  const CarpaceRosterRow *row = (const CarpaceRosterRow *) (void *) rows->data;
  size_t need = in_need (row, rows->len);
  g_autofree char *words = carpace_text_roster_need (row, rows->len);

  g_string_append_printf (out, "%s\n", words);
  for (guint i = 0; i < rows->len; i++)
    {
      if (i == need && need > 0)
        g_string_append_printf (out, "%s\n", _("All others:"));
      add_row (&row[i], 1, out);
    }
}
