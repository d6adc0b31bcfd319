/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-print.c: what a rehearsed season came to. */
#include <glib/gi18n.h>

#include "cli/season.h"
#include "forms/json.h"
#include "text/duration.h"
#include "text/season-text.h"

#define WEEK 7

static CarpaceSeasonWeek
week_of (const CarpaceSeasonTold *season, int32_t week)
{
  return carpace_season_stretch (season->days, week * WEEK, WEEK, season->plan, season->traits, season->seed);
}

/* ---- JSON ---- */

typedef struct
{
  const char *key;
  double number;
  bool known;
} Member;

static void
print_members (FILE *out, const char *kind, const CarpaceSeasonTold *player, const Member *members, size_t n)
{
  GString *line = g_string_new (NULL);

  carpace_json_open (line, '{');
  carpace_json_key (line, "kind");
  carpace_json_string (line, kind);
  if (player)
    {
      carpace_json_key (line, "player");
      carpace_json_string (line, carpace_player_word (player->kind));
      carpace_json_key (line, "hand");
      carpace_json_string (line, carpace_hand_model_word (player->traits->hand));
    }
  for (size_t i = 0; i < n; i++)
    {
      carpace_json_key (line, members[i].key);
      if (members[i].known)
        carpace_json_double (line, members[i].number);
      else
        carpace_json_null (line);
    }
  carpace_json_close (line, '}');
  fprintf (out, "%s\n", line->str);
  g_string_free (line, TRUE);
}

static void
week_json (FILE *out, int32_t number, const CarpaceSeasonWeek *week, bool takes, int64_t before_ms)
{
  const Member members[] = {
    { "number", number, true },          { "dose_ms", (double) week->asked_ms, true },
    { "done_ms", (double) week->done_ms, true }, { "days", week->days, true },
    { "days_over", week->days_over, takes },     { "cuts", week->cuts, true },
    { "highest", week->highest, week->highest >= 0 },
    { "change_ms", (double) (week->done_ms - before_ms), before_ms >= 0 },
  };

  print_members (out, "week", NULL, members, G_N_ELEMENTS (members));
}

static void
season_json (FILE *out, const CarpaceSeasonTold *season, const CarpaceSeasonSum *sum, int64_t takes_ms)
{
  bool takes = takes_ms > 0;
  const Member members[] = {
    { "seed", (double) season->seed, true },
    { "takes_ms", (double) takes_ms, takes },
    { "dose_ms", (double) sum->all.asked_ms, true },
    { "done_ms", (double) sum->all.done_ms, true },
    { "days", sum->all.days, true },
    { "days_over", sum->all.days_over, takes },
    { "over_takes", sum->over_takes, sum->over_takes > 0 },
    { "cuts", sum->all.cuts, true },
    { "rest_days", sum->rest_days, true },
    { "cautions", sum->cautions, true },
    { "rise_7_pct", sum->rise_7_pct, true },
    { "rise_14_pct", sum->rise_14_pct, true },
    { "level_ms", (double) sum->level_ms, true },
    { "level_least_ms", (double) sum->level_least_ms, true },
    { "level_mean_ms", (double) sum->level_mean_ms, true },
    { "level_most_ms", (double) sum->level_most_ms, true },
  };

  print_members (out, "season", season, members, G_N_ELEMENTS (members));
}

/* ---- text ---- */

static void
week_text (FILE *out, int32_t number, const CarpaceSeasonWeek *week, int64_t before_ms)
{
  const CarpaceSeasonWeekTold told = { .number = number, .done_ms = week->done_ms, .planned_ms = week->asked_ms,
                                       .days = week->days, .cuts = week->cuts, .highest = week->highest,
                                       .before_ms = before_ms };
  g_autofree char *line = carpace_text_season_week (&told);

  fprintf (out, "%s\n", line);
}

static void
takes_text (FILE *out, const CarpaceSeasonTold *season, const CarpaceSeasonSum *sum, int64_t takes_ms)
{
  g_autofree char *takes = carpace_text_duration (takes_ms);

  if (takes_ms == 0)
    {
      fprintf (out, "%s\n", _("This hand takes any dose."));
      return;
    }
  fprintf (out, _("This hand takes %s."), takes);
  if (season->traits->drops_pct > 0)
    fprintf (out, _(" From day 22 to 42 it takes %d %% less."), season->traits->drops_pct);
  if (season->traits->grows_pct > 0)
    fprintf (out, _(" It takes %d %% more each week."), season->traits->grows_pct);
  fprintf (out, _(" More than 1.15 times that was planned on %d of %d practice days.\n"), sum->all.days_over, sum->all.days);
}

static char *
in_minutes (int64_t ms)
{
  return carpace_text_duration ((ms + CARPACE_MINUTE_MS / 2) / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);
}

static void
season_text (FILE *out, const CarpaceSeasonTold *season, const CarpaceSeasonSum *sum, int64_t takes_ms)
{
  g_autofree char *least = in_minutes (sum->level_least_ms);
  g_autofree char *most = in_minutes (sum->level_most_ms);
  g_autofree char *mean = in_minutes (sum->level_mean_ms);
  g_autofree char *end = in_minutes (sum->level_ms);
  g_autofree char *seed = g_strdup_printf ("%" G_GUINT64_FORMAT, season->seed);

  takes_text (out, season, sum, takes_ms);
  fprintf (out, ngettext ("%d cut", "%d cuts", (unsigned long) sum->all.cuts), sum->all.cuts);
  fprintf (out, ngettext (", %d rest day", ", %d rest days", (unsigned long) sum->rest_days), sum->rest_days);
  fprintf (out, ngettext (", %d caution.\n", ", %d cautions.\n", (unsigned long) sum->cautions), sum->cautions);
  fprintf (out, _("The level in the last four weeks: %s to %s, %s on the mean; %s at the end.\n"), least, most, mean, end);
  fprintf (out, _("Seed %s: the same seed gives the same days.\n"), seed);
}

void
carpace_season_print (FILE *out, const CarpaceSeasonTold *season, bool json)
{
  int64_t takes_ms = carpace_player_takes_ms (season->plan, season->traits, season->seed, 0);
  CarpaceSeasonSum sum;
  int64_t before_ms = -1;

  carpace_season_sum (season->days, season->plan, season->traits, season->seed, &sum);
  if (!json)
    fputc ('\n', out);
  for (int32_t week = 0; week * WEEK < season->days->n; week++)
    {
      CarpaceSeasonWeek told = week_of (season, week);
      bool whole = week * WEEK + WEEK <= season->days->n; /* a part of a week is no trend */

      if (json)
        week_json (out, week + 1, &told, takes_ms > 0, whole ? before_ms : -1);
      else
        week_text (out, week + 1, &told, whole ? before_ms : -1);
      before_ms = told.done_ms;
    }
  if (json)
    season_json (out, season, &sum, takes_ms);
  else
    season_text (out, season, &sum, takes_ms);
}
