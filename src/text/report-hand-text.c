/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report-hand-text.c: what the page says of the hand, of the answers and of cautions. */
#include "text/report-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/text.h"

char *
carpace_text_report_silent (const CarpaceReportNumbers *numbers)
{
  return g_strdup_printf (ngettext ("On %d practice day in a row no rating and no morning check was answered: what this page says of the hand is not about them.",
                                    "On %d practice days in a row no rating and no morning check was answered: what this page says of the hand is not about them.",
                                    (gulong) numbers->silent_days),
                          numbers->silent_days);
}

char *
carpace_text_report_at_least (const CarpaceAtLeast *seen)
{
  g_autofree char *sentence = carpace_text_at_least (seen);

  if (sentence == NULL)
    return NULL;
  return g_strdup_printf (_("%s That leaves out, with 97.5 percent certainty, that 30 percent of such mornings are worse; of more practice it says nothing."),
                          sentence);
}

static void
add_mornings (GString *text, const CarpaceReportNumbers *numbers)
{
  g_autofree char *waking = carpace_text_mean (numbers->waking_sum, numbers->n_waking);

  if (numbers->n_waking == 0)
    {
      g_string_append (text, _(" No morning check told of waking."));
      return;
    }
  g_string_append_printf (text, ngettext (" On waking: mean %s, highest %d, from %d morning.",
                                          " On waking: mean %s, highest %d, from %d mornings.",
                                          (gulong) numbers->n_waking),
                          waking, numbers->highest_waking, numbers->n_waking);
  g_string_append_printf (text, _(" Stiffer than usual on %d, less on %d."), numbers->stiffer, numbers->less_stiff);
  if (numbers->other_load + numbers->pain_relief > 0)
    g_string_append_printf (text, _(" Another unusual load the day before: %d; pain relief taken: %d."), numbers->other_load,
                            numbers->pain_relief);
}

static void
add_week_to_week (GString *text, const CarpaceReportNumbers *numbers)
{
  CarpaceWeekNumbers week = { .n_ratings = numbers->n_week, .rating_sum = numbers->week_sum,
                              .n_before = numbers->n_week_before, .sum_before = numbers->week_sum_before,
                              .rising = numbers->week_rising };
  g_autofree char *sentence = carpace_text_week_to_week (&week);

  if (week.n_ratings > 0)
    g_string_append_printf (text, _(" Last 7 days: %s"), sentence);
}

char *
carpace_text_report_hand (const CarpaceReportNumbers *numbers)
{
  g_autofree char *mean = carpace_text_mean (numbers->rating_sum, numbers->n_ratings);
  GString *text = g_string_new (_("Discomfort, 0 none to 10 worst imaginable."));

  if (numbers->n_ratings > 0)
    g_string_append_printf (text, ngettext (" After blocks: mean %s, highest %d, from %d rating; above %d: %d.",
                                            " After blocks: mean %s, highest %d, from %d ratings; above %d: %d.",
                                            (gulong) numbers->n_ratings),
                            mean, numbers->highest, numbers->n_ratings, numbers->stop_above, numbers->above_stop);
  else
    g_string_append (text, _(" No block was rated."));
  add_mornings (text, numbers);
  add_week_to_week (text, numbers);
  return g_string_free (text, FALSE);
}

char *
carpace_text_report_sites (const CarpaceReportNumbers *numbers)
{
  GString *text = g_string_new (NULL);

  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    if (numbers->sites[site] > 0)
      g_string_append_printf (text, "%s%s %d", text->len > 0 ? ", " : "", carpace_text_site ((CarpaceSite) site),
                              numbers->sites[site]);
  if (text->len == 0)
    {
      g_string_free (text, TRUE);
      return NULL;
    }
  g_string_prepend (text, _("Where, by count: "));
  g_string_append (text, ".");
  return g_string_free (text, FALSE);
}

static int
percent (int32_t part, int32_t whole)
{
  return whole > 0 ? (int) (100 * (int64_t) part / whole) : 0;
}

static char *
habit_in_percent (const CarpaceReportNumbers *numbers)
{
  int32_t asked = numbers->n_ratings + numbers->unanswered;

  return g_strdup_printf (_("Ratings answered: %d %%. Morning checks: %d %% of practice days."),
                          percent (numbers->n_ratings, asked), percent (numbers->checks, numbers->opened));
}

char *
carpace_text_report_habit (const CarpaceReportNumbers *numbers, bool for_coach)
{
  int32_t asked = numbers->n_ratings + numbers->unanswered;
  GString *text;

  if (for_coach)
    return habit_in_percent (numbers);
  text = g_string_new (NULL);
  g_string_append_printf (text, _("Ratings: %d of %d answered, %d of them late; %d were 0. Morning checks: %d of %d days."),
                          numbers->n_ratings, asked, numbers->late, numbers->zeros, numbers->checks, numbers->opened);
  if (numbers->n_taps > 0)
    {
      g_autofree char *median = carpace_text_duration (numbers->median_tap_ms);

      g_string_append_printf (text, _(" Median time from question to tap: %s."), median);
    }
  if (numbers->zeros == numbers->n_ratings && numbers->n_ratings > 0)
    g_string_append (text, _(" Every answer was 0."));
  g_string_append_printf (text, _(" Corrected: %d; lowered after the number had decided: %d."), numbers->corrected,
                          numbers->lowered);
  return g_string_free (text, FALSE);
}

static char *
closed (const CarpaceEntry *entry, bool dose)
{
  g_autofree char *how = carpace_text_closed_how (entry);
  char *why = dose ? carpace_text_why_caution (entry) : NULL;

  return why != NULL ? why : g_strdup_printf (_("closed by the player: %s."), how);
}

char *
carpace_text_report_caution (CarpaceDay day, const CarpaceEntry *entry, bool dose)
{
  uint32_t signs = entry->caution.signs;
  g_autofree char *named = signs == 0 ? g_strdup (_("raised by the numbers")) : carpace_text_signs (signs);
  g_autofree char *sentence = NULL;

  switch (entry->caution.what)
    {
    case CARPACE_CAUTION_OPENED:
      sentence = g_strdup_printf (_("opened, %s."), named);
      break;
    case CARPACE_CAUTION_CLOSED:
      sentence = closed (entry, dose);
      break;
    case CARPACE_CAUTION_WAS_NONE:
      sentence = g_strdup (_("asked, no sign answered yes."));
      break;
    case CARPACE_CAUTION_WAS_ASKED:
    case CARPACE_N_CAUTION_WHATS:
      sentence = g_strdup (_("asked."));
      break;
    }
  return carpace_text_report_dated (day, sentence);
}

const char *
carpace_text_report_no_caution (void)
{
  return _("None opened or closed in this period.");
}
