/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report-text.c: one page in sentences. */
#include "text/report-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/text.h"

const char *
carpace_text_report_title (bool for_coach)
{
  return for_coach ? _("Practice report for a coach") : _("Practice report for a clinician");
}

char *
carpace_text_report_who (const char *code, const CarpaceReportNumbers *numbers)
{
  g_autofree char *period = carpace_text_period (numbers->since, numbers->until);
  int days = numbers->until - numbers->since + 1;

  if (code == NULL)
    code = "\u2026\u2026\u2026\u2026\u2026\u2026";
  return g_strdup_printf (ngettext ("Player %s   %s, %d day", "Player %s   %s, %d days", (gulong) days), code, period, days);
}

const char *
carpace_text_report_asked_heading (void)
{
  return _("Asked and done");
}

const char *
carpace_text_report_hand_heading (void)
{
  return _("How the hand answered");
}

const char *
carpace_text_report_why_heading (void)
{
  return _("Why the dose is what it is");
}

const char *
carpace_text_report_days_heading (void)
{
  return _("Day by day");
}

const char *
carpace_text_report_weeks_heading (void)
{
  return _("Week by week (means of a practice day)");
}

const char *
carpace_text_report_decisions_heading (void)
{
  return _("Decisions about a day's dose, by their rules");
}

const char *
carpace_text_report_rest_heading (void)
{
  return _("Rests, matches, other mouse time");
}

const char *
carpace_text_report_habit_heading (void)
{
  return _("How the questions were answered");
}

const char *
carpace_text_report_sites_heading (void)
{
  return _("Where it was felt");
}

const char *
carpace_text_report_cautions_heading (void)
{
  return _("Cautions");
}

const char *
carpace_text_report_limits_heading (void)
{
  return _("What the numbers cannot say");
}

static void
add_doses (GString *text, const CarpaceReportNumbers *numbers)
{
  g_autofree char *first = carpace_text_minutes (numbers->first_dose_ms);
  g_autofree char *last = carpace_text_minutes (numbers->last_dose_ms);
  g_autofree char *least = carpace_text_minutes (numbers->least_dose_ms);
  g_autofree char *most = carpace_text_minutes (numbers->most_dose_ms);

  if (numbers->last_dose_ms > 0)
    g_string_append_printf (text, _(" Asked of a practice day: %s at first, %s at last (least %s, most %s)."), first, last,
                            least, most);
}

static void
add_done (GString *text, const CarpaceReportNumbers *numbers)
{
  g_autofree char *asked = carpace_text_minutes (numbers->asked_ms);
  g_autofree char *done = carpace_text_minutes (numbers->done_ms);

  if (numbers->asked_ms > 0)
    g_string_append_printf (text, _(" Done in all: %s of %s asked (%d %%)."), done, asked,
                            (int) (100 * numbers->done_ms / numbers->asked_ms));
  else
    g_string_append_printf (text, _(" Done in all: %s."), done);
}

static void
add_beside_plan (GString *text, const CarpaceReportNumbers *numbers)
{
  g_autofree char *over = carpace_text_minutes (numbers->overrun_ms);

  if (numbers->overrun_ms >= CARPACE_MINUTE_MS)
    g_string_append_printf (text, _(" Past the blocks' limits: %s."), over);
  if (numbers->early > 0)
    g_string_append_printf (text, ngettext (" %d block was started before its wait was over.",
                                            " %d blocks were started before their wait was over.", (gulong) numbers->early),
                            numbers->early);
  if (numbers->beyond > 0)
    g_string_append_printf (text, ngettext (" %d block was beyond the plan.", " %d blocks were beyond the plan.",
                                            (gulong) numbers->beyond),
                            numbers->beyond);
}

char *
carpace_text_report_asked (const CarpaceReportNumbers *numbers)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, ngettext ("Practice on %d day", "Practice on %d days", (gulong) numbers->practised),
                          numbers->practised);
  g_string_append_printf (text, ngettext (" in %d block", " in %d blocks", (gulong) numbers->blocks), numbers->blocks);
  if (numbers->no_practice > 0)
    g_string_append_printf (text, ngettext ("; %d day set without practice", "; %d days set without practice",
                                            (gulong) numbers->no_practice),
                            numbers->no_practice);
  g_string_append (text, ".");
  add_doses (text, numbers);
  add_done (text, numbers);
  add_beside_plan (text, numbers);
  return g_string_free (text, FALSE);
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

char *
carpace_text_report_why (const CarpaceReportNumbers *numbers)
{
  g_autofree char *day = NULL;
  g_autofree char *why = NULL;
  g_autofree char *dose = NULL;

  if (!numbers->has_last)
    return g_strdup (_("No dose was decided in this period."));
  day = carpace_text_short_day (numbers->last_day);
  why = carpace_text_why (&numbers->last);
  dose = carpace_text_minutes (numbers->last.no_practice ? numbers->last.kept_ms : numbers->last.after_ms);
  if (numbers->has_change && numbers->change_day != numbers->last_day)
    {
      g_autofree char *change_day = carpace_text_short_day (numbers->change_day);
      g_autofree char *change = carpace_text_why (&numbers->change);

      return g_strdup_printf (_("The dose now stands at %s. Changed last on %s: %s Since then it was kept; on %s: %s"), dose,
                              change_day, change, day, why);
    }
  return g_strdup_printf (_("The dose now stands at %s. Decided last on %s: %s"), dose, day, why);
}

char *
carpace_text_report_rules (const CarpacePlan *plan)
{
  g_autofree char *cut = NULL;
  g_autofree char *step = NULL;
  g_autofree char *most = NULL;

  if (plan == NULL)
    return g_strdup (_("The next dose is decided when the next practice day opens, from what is told on waking, from the ratings since and from what was done."));
  cut = carpace_text_share (plan->cut_to);
  step = carpace_text_share (plan->step_up_by);
  most = carpace_text_minutes (plan->at_most_ms);
  return g_strdup_printf (_("The next dose is decided when the next practice day opens. Stiffer than usual, or waking 2 or more above the usual %d: cut to %s of what was done. Above %d: no practice that day, and a cut. %d good days in a row, a week after the last rise: up by %s of the first dose, to %s at most. After a cut, two settled days: up again by a fifth of the first dose. Else it stays. (Numbers of the plan in use now.)"),
                          plan->usual_discomfort, cut, plan->stop_above, plan->after_good_days, step, most);
}

static void
add_count (GString *text, int32_t n, char *counted)
{
  if (n > 0)
    {
      g_string_append (text, text->len > 0 ? ", " : "");
      g_string_append (text, counted);
    }
  g_free (counted);
}

char *
carpace_text_report_decisions (const CarpaceReportNumbers *numbers)
{
  GString *text = g_string_new (NULL);

#define ADD(n, one, many) add_count (text, n, g_strdup_printf (ngettext (one, many, (gulong) (n)), n))
  ADD (numbers->cuts, "%d cut", "%d cuts");
  ADD (numbers->rises, "%d step up", "%d steps up");
  ADD (numbers->way_backs, "%d rise on the way back", "%d rises on the way back");
  ADD (numbers->rest_days, "%d rest day", "%d rest days");
  ADD (numbers->kept_for_week, "%d day kept for a rising week", "%d days kept for a rising week");
  ADD (numbers->tightened, "%d next block shortened", "%d next blocks shortened");
  ADD (numbers->stopped, "%d day stopped by a rating", "%d days stopped by a rating");
#undef ADD
  if (text->len == 0)
    g_string_append (text, _("Nothing changed in this period"));
  g_string_append (text, ".");
  return g_string_free (text, FALSE);
}

char *
carpace_text_report_rest (const CarpaceReportNumbers *numbers, bool for_coach)
{
  g_autofree char *rests = carpace_text_rests (numbers->offered, numbers->taken);
  g_autofree char *matches = carpace_text_minutes (numbers->match_ms);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _("Rests: %s"), rests);
  if (numbers->declined > 0)
    g_string_append_printf (text, _(", %d declined"), numbers->declined);
  g_string_append_printf (text, ngettext (". %d match, %s in all.", ". %d matches, %s in all.", (gulong) numbers->matches),
                          numbers->matches, matches);
  if (for_coach)
    return g_string_free (text, FALSE);
  if (numbers->n_other > 0)
    {
      g_autofree char *mean = carpace_text_minutes (numbers->other_ms / numbers->n_other);

      g_string_append_printf (text, ngettext (" Mouse input outside practice: %s a day, from %d day.",
                                              " Mouse input outside practice: %s a day, from %d days.",
                                              (gulong) numbers->n_other),
                              mean, numbers->n_other);
    }
  else
    g_string_append (text, _(" Mouse input outside practice is not known."));
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

char *
carpace_text_report_dated (CarpaceDay day, const char *sentence)
{
  g_autofree char *date = carpace_text_short_day (day);

  return g_strdup_printf (_("%s: %s"), date, sentence);
}

char *
carpace_text_report_caution (CarpaceDay day, CarpaceCautionWhat what, uint32_t signs)
{
  g_autofree char *named = signs == 0 ? g_strdup (_("raised by the numbers")) : carpace_text_signs (signs);
  g_autofree char *sentence = NULL;

  switch (what)
    {
    case CARPACE_CAUTION_OPENED:
      sentence = g_strdup_printf (_("opened, %s."), named);
      break;
    case CARPACE_CAUTION_CLOSED:
      sentence = g_strdup (_("closed by the player."));
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

char *
carpace_text_report_earlier (int32_t n)
{
  return g_strdup_printf (ngettext ("%d earlier one is not listed.", "%d earlier ones are not listed.", (gulong) n), n);
}

const char *
carpace_text_report_limits (bool for_coach)
{
  if (for_coach)
    return _("They tell how much was practised, not how the hand is. What is not on this page is the player's to tell.");
  return _("All numbers were given by the player, by a tap; what was not answered is blank and counts as nothing. Discomfort has many causes besides practice: sleep, other work, illness, expectation. What lies beside another on this page need not come of it. No trial has dosed mouse practice; the rules are borrowed from tendon rehabilitation and office work. This page informs. It finds no cause, names no condition and takes no one's place.");
}

char *
carpace_text_report_weeks_not_drawn (int32_t n)
{
  return g_strdup_printf (ngettext ("%d earlier week is not drawn.", "%d earlier weeks are not drawn.", (gulong) n), n);
}

const char *
carpace_text_report_nothing (void)
{
  return _("Nothing was recorded in this period.");
}
