/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-text.c: days, weeks and the dot plot in words. */
#include "text/diary-text.h"

#include <glib/gi18n.h>
#include <math.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/text.h"

static char *
day_as (CarpaceDay day, const char *format)
{
  int32_t year, month, in_month;
  g_autoptr (GDateTime) date = NULL;

  carpace_day_to_civil (day, &year, &month, &in_month);
  date = g_date_time_new_utc (CLAMP (year, 1, 9999), month, in_month, 0, 0, 0);
  return g_date_time_format (date, format);
}

char *
carpace_text_short_day (CarpaceDay day)
{
  /* Translators: a weekday, a day of the month and a month, all short. */
  return day_as (day, _("%a %-d %b"));
}

char *
carpace_text_day_of_month (CarpaceDay day)
{
  /* Translators: a day of the month and a month, short. */
  return day_as (day, _("%-d %b"));
}

char *
carpace_text_date (CarpaceDay day)
{
  /* Translators: a day of the month, a month, a year. */
  return day_as (day, _("%-d %b %Y"));
}

char *
carpace_text_period (CarpaceDay since, CarpaceDay until)
{
  g_autofree char *from = carpace_text_date (since);
  g_autofree char *to = carpace_text_date (until);

  return g_strdup_printf (_("%s to %s"), from, to);
}

char *
carpace_text_minutes (int64_t ms)
{
  if (ms < CARPACE_MINUTE_MS)
    return g_strdup (_("0 min"));
  return carpace_text_duration (ms - ms % CARPACE_MINUTE_MS);
}

char *
carpace_text_done_of (int64_t done_ms, int64_t dose_ms)
{
  int done_min = (int) (done_ms / CARPACE_MINUTE_MS);

  if (dose_ms <= 0 && done_ms <= 0)
    return g_strdup ("");
  if (dose_ms <= 0)
    return g_strdup_printf (_("%d min"), done_min);
  return g_strdup_printf (_("%d of %d min"), done_min, (int) (dose_ms / CARPACE_MINUTE_MS));
}

char *
carpace_text_mean (int32_t sum, int32_t n)
{
  if (n <= 0)
    return g_strdup ("–");
  return g_strdup_printf ("%.1f", (double) sum / n);
}

char *
carpace_text_rests (int32_t offered, int32_t taken)
{
  /* Translators: rests, counted. */
  return g_strdup_printf (_("%d offered, %d taken"), offered, taken);
}

static void
append_unplanned (GString *text, const CarpaceWeekNumbers *week)
{
  g_autofree char *done = carpace_text_minutes (week->unplanned_ms);

  if (week->unplanned_ms > 0)
    g_string_append_printf (text, _("; and %s with nothing planned"), done);
}

char *
carpace_text_week (const CarpaceWeekNumbers *week, bool hand)
{
  g_autofree char *sunday = carpace_text_short_day (week->monday + 6);
  g_autofree char *planned = carpace_text_minutes (week->dose_ms);
  g_autofree char *done = carpace_text_minutes (week->done_ms);
  g_autofree char *rests = carpace_text_rests (week->offered, week->taken);
  g_autofree char *waking = carpace_text_mean (week->waking_sum, week->n_waking);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, ngettext ("Week to %s: %d practice day, %s planned, %s done; rests: %s",
                                          "Week to %s: %d practice days, %s planned, %s done; rests: %s",
                                          (gulong) week->practised),
                          sunday, week->practised, planned, done, rests);
  append_unplanned (text, week);
  if (hand)
    g_string_append_printf (text, _("; mean on waking %s"), waking);
  return g_string_free (text, FALSE);
}

char *
carpace_text_week_short (const CarpaceWeekNumbers *week, bool hand)
{
  g_autofree char *sunday = carpace_text_short_day (week->monday + 6);
  g_autofree char *planned = carpace_text_minutes (week->dose_ms);
  g_autofree char *done = carpace_text_minutes (week->done_ms);
  g_autofree char *mean = carpace_text_mean (week->rating_sum, week->n_ratings);
  g_autofree char *before = carpace_text_mean (week->sum_before, week->n_before);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _("Week to %s: %s done of %s planned"), sunday, done, planned);
  append_unplanned (text, week);
  if (hand && week->n_before > 0)
    g_string_append_printf (text, _("; block ratings %s on average, week before %s"), mean, before);
  else if (hand)
    g_string_append_printf (text, _("; block ratings %s on average"), mean);
  if (hand && week->rising)
    g_string_append (text, _(": more than 0.5 higher"));
  return g_string_free (text, FALSE);
}

char *
carpace_text_after_block (const CarpaceDecision *decision)
{
  g_autofree char *limit = carpace_text_duration (decision->after_ms);
  g_autofree char *said = NULL;

  if (decision->discomfort < 0)
    said = g_strdup_printf (_("No answer after block %d"), decision->block);
  else if (decision->block == 0)
    said = g_strdup_printf (_("Discomfort %d after a match"), decision->discomfort);
  else
    said = g_strdup_printf (_("Discomfort %d after block %d"), decision->discomfort, decision->block);
  if (decision->after_ms <= 0)
    return g_strdup_printf (_("%s: no more practice that day."), said);
  if (decision->after_ms == decision->before_ms)
    return g_strdup_printf (_("%s: next block unchanged."), said);
  return g_strdup_printf (_("%s: next block %s."), said, limit);
}

char *
carpace_text_week_to_week (const CarpaceWeekNumbers *week)
{
  g_autofree char *mean = carpace_text_mean (week->rating_sum, week->n_ratings);
  g_autofree char *before = carpace_text_mean (week->sum_before, week->n_before);

  if (week->n_ratings == 0)
    return g_strdup (_("No block was rated."));
  if (week->n_before == 0)
    return g_strdup_printf (ngettext ("Mean of %d block rating: %s; none the week before.",
                                      "Mean of %d block ratings: %s; none the week before.", (gulong) week->n_ratings),
                            week->n_ratings, mean);
  if (week->rising)
    return g_strdup_printf (_("Mean of %d block ratings: %s; the week before %s of %d. More than 0.5 higher."),
                            week->n_ratings, mean, before, week->n_before);
  if (week->n_ratings < 6 || week->n_before < 6)
    return g_strdup_printf (ngettext ("Mean of %d block rating: %s; the week before %s of %d. Too few to compare (6 in each).",
                                      "Mean of %d block ratings: %s; the week before %s of %d. Too few to compare (6 in each).",
                                      (gulong) week->n_ratings),
                            week->n_ratings, mean, before, week->n_before);
  return g_strdup_printf (_("Mean of %d block ratings: %s; the week before %s of %d. Not more than 0.5 higher."),
                          week->n_ratings, mean, before, week->n_before);
}

char *
carpace_text_no_record (CarpaceDay first, CarpaceDay last)
{
  g_autofree char *from = carpace_text_short_day (first);
  g_autofree char *to = carpace_text_short_day (last);
  int days = last - first + 1;

  return g_strdup_printf (ngettext ("Nothing recorded, %s to %s (%d day)", "Nothing recorded, %s to %s (%d days)",
                                    (gulong) days),
                          from, to, days);
}

static void
join (GString *text, const char *piece)
{
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, piece);
}

static void
join_morning (GString *text, const CarpaceMorning *morning)
{
  if (morning->stiffness == CARPACE_STIFFNESS_MORE)
    join (text, _("stiffer"));
  if (morning->stiffness == CARPACE_STIFFNESS_LESS)
    join (text, _("less stiff"));
  if (morning->other_load)
    join (text, _("other load"));
  if (morning->pain_relief)
    join (text, _("pain relief"));
}

char *
carpace_text_day_extras (const CarpaceDaySum *sum, bool hand)
{
  GString *text = g_string_new (NULL);

  if (hand && sum->caution)
    join (text, _("caution"));
  if (hand && sum->morning_known)
    join_morning (text, &sum->morning);
  if (sum->match_ms > 0)
    {
      g_autofree char *minutes = carpace_text_minutes (sum->match_ms);
      g_autofree char *match = g_strdup_printf (_("match %s"), minutes);

      join (text, match);
    }
  return g_string_free (text, FALSE);
}

static void
add_morning (GString *text, const CarpaceDaySum *sum)
{
  if (!sum->morning_known)
    {
      g_string_append (text, _(" No morning check."));
      return;
    }
  if (sum->morning.waking >= 0)
    g_string_append_printf (text, _(" On waking: discomfort %d."), sum->morning.waking);
  if (sum->morning.now >= 0)
    g_string_append_printf (text, _(" At the check: discomfort %d."), sum->morning.now);
}

static void
add_ratings (GString *text, const CarpaceDaySum *sum)
{
  if (sum->n_ratings > 0)
    g_string_append_printf (text, ngettext (" %d block rating, the highest %d.", " %d block ratings, the highest %d.",
                                            (gulong) sum->n_ratings),
                            sum->n_ratings, sum->highest);
  if (sum->unanswered > 0)
    g_string_append_printf (text, ngettext (" %d not answered.", " %d not answered.", (gulong) sum->unanswered),
                            sum->unanswered);
}

char *
carpace_text_day_sentence (CarpaceDay day, const CarpaceDaySum *sum)
{
  g_autofree char *date = carpace_text_day (day);
  GString *text = g_string_new (date);

  g_string_append (text, ".");
  if (sum == NULL)
    {
      g_string_append (text, _(" Nothing recorded."));
      return g_string_free (text, FALSE);
    }
  if (sum->dose_ms > 0 || sum->done_ms > 0)
    {
      g_autofree char *done = carpace_text_done_of (sum->done_ms, sum->dose_ms);

      g_string_append_printf (text, _(" Practice: %s."), done);
    }
  else if (sum->no_practice)
    g_string_append (text, _(" A day without practice."));
  add_morning (text, sum);
  add_ratings (text, sum);
  if (sum->offered + sum->taken > 0)
    {
      g_autofree char *rests = carpace_text_rests (sum->offered, sum->taken);

      g_string_append_printf (text, _(" Rests: %s."), rests);
    }
  return g_string_free (text, FALSE);
}

const char *
carpace_text_head_dose (void)
{
  return _("Practice time, minutes");
}

const char *
carpace_text_head_hand (void)
{
  return _("Discomfort, 0 none to 10 worst imaginable");
}

const char *
carpace_text_head_order (void)
{
  return _("In order");
}

const char *
carpace_text_head_mean (void)
{
  /* Translators: over a column of mean numbers. */
  return _("Mean");
}

const char *
carpace_text_legend_planned (void)
{
  return _("planned");
}

const char *
carpace_text_legend_done (void)
{
  return _("done");
}

const char *
carpace_text_legend_level (void)
{
  /* Translators: what practice time is led to. */
  return _("the aim");
}

const char *
carpace_text_legend_match (void)
{
  return _("match, counted separately");
}

const char *
carpace_text_legend_waking (void)
{
  return _("on waking");
}

const char *
carpace_text_legend_now (void)
{
  return _("at the check");
}

const char *
carpace_text_legend_rating (void)
{
  return _("after a block");
}

const char *
carpace_text_legend_corrected (void)
{
  return _("first given, corrected");
}

const char *
carpace_text_plot_title (void)
{
  return _("The morning after, by the practice time of the day before");
}

const char *
carpace_text_plot_across (void)
{
  return _("minutes done the day before");
}

const char *
carpace_text_plot_up (void)
{
  return _("discomfort on waking");
}

static double
no_minus_0 (double number)
{
  return fabs (number) < 0.005 ? 0.0 : number;
}

char *
carpace_text_plot_caption (int32_t n, bool line, double slope, double low, double high)
{
  if (n == 0)
    return g_strdup (_("No two days in a row with practice and a morning check."));
  if (n < 10)
    return g_strdup_printf (ngettext ("%d morning. No line through fewer than ten.",
                                      "%d mornings. No line through fewer than ten.", (gulong) n),
                            n);
  if (!line)
    return g_strdup_printf (_("%d mornings, all after the same practice time: no line."), n);
  if (low < 0.005 && high > -0.005) /* as printed, 0 is among them */
    return g_strdup_printf (_("%d mornings. Line of least squares: %+.2f for 10 min more, but anything from %+.2f to %+.2f fits (95 %%): whether it rises or falls cannot be told. It shows no cause."),
                            n, no_minus_0 (slope), no_minus_0 (low), no_minus_0 (high));
  return g_strdup_printf (_("%d mornings. Line of least squares: %+.2f for 10 min more (95 %%: %+.2f to %+.2f, dashed). An estimate; it shows no cause, and practice time itself followed the mornings."),
                          n, no_minus_0 (slope), no_minus_0 (low), no_minus_0 (high));
}

char *
carpace_text_block_done (int32_t number, int64_t active_ms, int64_t limit_ms)
{
  g_autofree char *active = carpace_text_duration (active_ms);
  g_autofree char *limit = carpace_text_duration (limit_ms);

  if (number == 0)
    return g_strdup_printf (_("Match: %s"), active);
  if (limit_ms <= 0)
    return g_strdup_printf (_("Block %d: %s"), number, active);
  return g_strdup_printf (_("Block %d: %s of %s"), number, active, limit);
}

char *
carpace_text_morning_site (CarpaceSite site)
{
  return site == CARPACE_SITE_NONE ? NULL : g_strdup_printf (_("Morning check, where: %s"), carpace_text_site (site));
}

char *
carpace_text_rating (bool rated, int32_t discomfort, CarpaceSite site, int32_t corrected_from, bool late)
{
  g_autofree char *given = carpace_text_discomfort (discomfort, site);
  GString *text;

  if (!rated)
    return g_strdup (_("not rated"));
  text = g_string_new (given);
  if (corrected_from >= 0)
    g_string_append_printf (text, _(" (first given: %d)"), corrected_from);
  if (late && discomfort >= 0)
    g_string_append (text, _(", late"));
  return g_string_free (text, FALSE);
}

const char *
carpace_text_diary_title (void)
{
  return _("Diary");
}

const char *
carpace_text_diary_empty (void)
{
  return _("Nothing has been recorded yet. Each practice day will stand here: the time planned and the time done, the "
           "numbers you gave for your hand, and why practice time changed.");
}

const char *
carpace_text_diary_unreadable (void)
{
  return _("The diary cannot be read just now. Nothing in it was changed.");
}

const char *
carpace_text_diary_not_kept (void)
{
  return _("This could not be kept. The diary is as it was.");
}

const char *
carpace_text_diary_correct (void)
{
  return _("Correct…");
}

const char *
carpace_text_diary_correct_to (void)
{
  return _("What should it have been? The first number stays beside it.");
}

const char *
carpace_text_diary_note (void)
{
  return _("_Note on this day");
}

const char *
carpace_text_diary_keep_note (void)
{
  return _("_Keep note");
}

const char *
carpace_text_diary_nearer (void)
{
  return _("Zoom _in");
}

const char *
carpace_text_diary_further (void)
{
  return _("Zoom _out");
}

const char *
carpace_text_diary_keys (void)
{
  return _("Up and Down go from day to day, Left and Right from week to week, Home and End to the first and the last; "
           "plus and minus make the drawing larger and smaller.");
}

char *
carpace_text_diary_correct_block (int32_t number)
{
  if (number == 0)
    return g_strdup (_("Correct the rating of the match"));
  return g_strdup_printf (_("Correct the rating of block %d"), number);
}
