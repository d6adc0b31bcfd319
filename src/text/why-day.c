/* SPDX-License-Identifier: GPL-3.0-or-later */
/* why-day.c: decisions about a day's dose, each in one sentence. */
#include "text/why-private.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/level-text.h"
#include "text/text.h"

/* What a cut answers to. */
static char *
cause_of_cut (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  switch (d->finding)
    {
    case CARPACE_FINDING_WAKING_ABOVE_STOP:
      return g_strdup_printf (_("Discomfort %d on waking is above %d"), d->discomfort, d->stop_above);
    case CARPACE_FINDING_NOW_ABOVE_STOP:
      return g_strdup_printf (_("Discomfort %d this morning is above %d"), d->discomfort, d->stop_above);
    case CARPACE_FINDING_ENDED_ABOVE_STOP:
      return g_strdup_printf (_("The last practice day ended above %d"), d->stop_above);
    case CARPACE_FINDING_WAKING_UP:
      return g_strdup_printf (_("Discomfort %d on waking is 2 or more above your usual %d"), d->discomfort, d->usual);
    case CARPACE_FINDING_STIFFER:
      return g_strdup (_("The hand woke stiffer than usual"));
    case CARPACE_FINDING_BADLY_RATED:
      return g_strdup_printf (_("Worse this morning, and discomfort %d in the last practice was 3 or more above your usual %d"),
                              d->earlier, d->usual);
    case CARPACE_FINDING_THIRD_WORSE:
      /* Translators: how many, the practice time they came after */
      return g_strdup_printf (_("Worse mornings in two weeks after %s: this is number %d"), p->before, d->worse_mornings);
    case CARPACE_FINDING_NONE:
    case CARPACE_FINDING_AFTER_TWO_CUTS:
    case CARPACE_FINDING_AFTER_REST_DAY:
    case CARPACE_FINDING_OTHER_LOAD:
    case CARPACE_FINDING_WEEK_RISING:
    case CARPACE_FINDING_TWO_WEEKS_RISING:
    case CARPACE_FINDING_SETTLED_DAYS:
    case CARPACE_FINDING_NO_CHECK_FOR_LONG:
    case CARPACE_FINDING_GOOD_DAYS:
    case CARPACE_FINDING_NO_CHECK:
    case CARPACE_FINDING_AT_MOST:
    case CARPACE_FINDING_FIRST_DAY:
    case CARPACE_FINDING_STEP_ANSWERED:
    case CARPACE_FINDING_NO_ANSWERS:
    case CARPACE_FINDING_LEVEL_YOUNG:
    case CARPACE_FINDING_MORNINGS_UP:
    case CARPACE_FINDING_MOST:
    case CARPACE_N_FINDINGS:
      break;
    }
  return g_strdup (_("The hand was worse this morning"));
}

/* 65 % of 60 min: only where that is how it came about. */
static bool
share_tells_all (const CarpaceDecision *d, int64_t dose_ms)
{
  return d->shorten_to > 0 && d->done_ms > 0 && carpace_dose_cut_ms (d->done_ms, d->shorten_to) == dose_ms;
}

/* What of the dose is left for today, or for the next practice day. */
static char *
dose_after_cut (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  if (d->no_practice && d->kept_ms >= d->before_ms)
    return g_strdup_printf (_("no practice today, and %s the next practice day"), p->kept);
  if (d->no_practice && share_tells_all (d, d->kept_ms))
    return g_strdup_printf (_("no practice today, and %s the next practice day, %s of %s"), p->kept, p->share, p->done);
  if (d->no_practice)
    return g_strdup_printf (_("no practice today, and %s the next practice day"), p->kept);
  if (d->after_ms >= d->before_ms)
    return g_strdup_printf (_("practice time stays %s, the least it can be"), p->after);
  if (share_tells_all (d, d->after_ms))
    return g_strdup_printf (_("today %s instead of %s (%s of %s)"), p->after, p->before, p->share, p->done);
  return g_strdup_printf (_("today %s instead of %s"), p->after, p->before);
}

/* What became of the level, or how it is come back to. */
static char *
level_after_cut (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  if (!d->level_down)
    return carpace_text_way_to_level (d);
  if (d->level_ms >= d->level_before_ms)
    return g_strdup_printf (_("the aim stays %s, no lower"), p->level);
  if (carpace_dose_cut_ms (d->down_from_ms, 85 * CARPACE_PERCENT) == d->level_ms)
    return g_strdup_printf (_("from now on %s is the aim (85 %% of %s)"), p->level, p->from);
  return g_strdup_printf (_("from now on %s is the aim"), p->level);
}

static char *
two_clauses (const char *cause, const char *first, const char *second)
{
  if (second == NULL)
    /* Translators: a cause, what follows of it */
    return g_strdup_printf (_("%s: %s."), cause, first);
  /* Translators: a cause, what follows of it, what follows further */
  return g_strdup_printf (_("%s: %s; %s."), cause, first, second);
}

static char *
why_cut (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  g_autofree char *cause = cause_of_cut (d, p);
  g_autofree char *dose = dose_after_cut (d, p);
  g_autofree char *level = level_after_cut (d, p);

  if (d->opens_caution)
    return g_strdup_printf (_("%s, the second time within 7 days: no practice until a physiotherapist or doctor has "
                              "seen it, %s then at most."), cause, p->kept);
  return two_clauses (cause, dose, level);
}

static char *
why_cut_once (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  g_autofree char *worse = cause_of_cut (d, p);
  g_autofree char *cause = NULL;
  g_autofree char *dose = dose_after_cut (d, p);
  g_autofree char *level = level_after_cut (d, p);

  if (d->full_day && d->worse_mornings == 1)
    cause = g_strdup_printf (_("%s, for the first time in two weeks"), worse);
  else if (d->full_day && d->worse_mornings == 2)
    cause = g_strdup_printf (_("%s, for the second time in two weeks"), worse);
  return two_clauses (cause != NULL ? cause : worse, dose, level);
}

static char *
why_rest_day (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  const char *cause = d->finding == CARPACE_FINDING_AFTER_REST_DAY ? _("Worse this morning after a rest day")
                                                                   : _("Worse this morning after two cuts in a row");
  if (d->opens_caution)
    return g_strdup_printf (_("%s, the second rest day within 14 days: no practice until a physiotherapist or doctor "
                              "has seen it."), cause);
  if (d->kept_ms < d->before_ms)
    return g_strdup_printf (_("%s, and the last practice day ended above %d: a rest day today, and %s the next practice "
                              "day."), cause, d->stop_above, p->kept);
  return g_strdup_printf (_("%s: a rest day today; practice time stays %s."), cause, p->kept);
}

static char *
why_week (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  double mean = d->mean_pct / 100.0, before = d->mean_before_pct / 100.0;

  if (d->opens_caution)
    return g_strdup_printf (_("The ratings rose for two weeks, to a mean of %.1f from %.1f the week before: no practice "
                              "until a physiotherapist or doctor has seen it."), mean, before);
  return g_strdup_printf (_("The last 7 days' ratings have a mean of %.1f, more than 0.5 above the %.1f of the 7 before: "
                            "practice time stays %s."), mean, before, p->after);
}

static char *
why_take_back (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  return g_strdup_printf (_("Since %s the ratings rose from %.1f to %.1f on the mean: back to %s."), p->level_before,
                          d->mean_before_pct / 100.0, d->mean_pct / 100.0, p->level);
}

static char *
why_no_answers (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  if (d->after_ms < d->before_ms)
    return g_strdup_printf (ngettext ("No answer on %d practice day: %s today; an answered block and the next "
                                      "morning's check lead up %s.",
                                      "No answer on %d practice days: %s today; an answered block and the next "
                                      "morning's check lead up %s.",
                                      (unsigned long) d->days), d->days, p->after, p->step);
  return g_strdup_printf (ngettext ("No answer on %d practice day: practice time stays %s; it grows again after an answered "
                                    "block and the next morning's check.",
                                    "No answer on %d practice days: practice time stays %s; it grows again after an answered "
                                    "block and the next morning's check.",
                                    (unsigned long) d->days), d->days, p->after);
}

static char *
most (const CarpaceWhyPieces *p)
{
  return g_strdup_printf (_("no higher than %s, 130 %% of what was done in the last two weeks (%s on the mean)"), p->most,
                          p->most_of);
}

/* Whether the bound is why the rise ended where it did. */
static bool
ends_at_most (const CarpaceDecision *d)
{
  return d->after_ms == d->most_ms && d->after_ms < d->level_ms && (d->straight_back || d->after_ms < d->before_ms + d->step_ms);
}

static char *
why_way_back (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  g_autofree char *cause = NULL;
  g_autofree char *rise = NULL;
  g_autofree char *to = NULL;

  if (d->finding == CARPACE_FINDING_NO_CHECK_FOR_LONG)
    cause = g_strdup_printf (ngettext ("%d day settled by its ratings alone", "%d days settled by their ratings alone",
                                       (unsigned long) d->days), d->days);
  else
    cause = g_strdup_printf (ngettext ("%d settled day", "%d settled days in a row", (unsigned long) d->days), d->days);
  rise = g_strdup_printf (_("%s today instead of %s"), p->after, p->before);
  if (ends_at_most (d))
    to = most (p);
  else if (d->after_ms < d->level_ms)
    to = g_strdup_printf (_("the aim is %s"), p->level);
  return two_clauses (cause, rise, to);
}

static char *
why_step_up (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  g_autofree char *good = g_strdup_printf (ngettext ("%d good day in a row", "%d good days in a row",
                                                     (unsigned long) d->days), d->days);
  g_autofree char *cause = NULL;
  g_autofree char *half = NULL;
  g_autofree char *bound = NULL;

  if (d->level_days > 0)
    cause = g_strdup_printf (_("%s, %d days at %s, mornings as usual"), good, d->level_days, p->level_before);
  if (d->down_from_ms > 0)
    half = g_strdup_printf (ngettext ("a half step, because %s was answered badly %d day ago",
                                      "a half step, because %s was answered badly %d days ago",
                                      (unsigned long) d->down_days), p->from, d->down_days);
  if (d->after_ms < d->level_ms)
    bound = most (p);
  g_autofree char *rise = g_strdup_printf (_("step up, %s today instead of %s"), p->after, p->before);
  return two_clauses (cause != NULL ? cause : good, rise, bound != NULL ? bound : half);
}

static char *
why_time_off (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  return g_strdup_printf (ngettext ("%d full week without practice: one step lower, %s today instead of %s.",
                                    "%d full weeks without practice: one step lower for each, %s today instead of %s.",
                                    (unsigned long) d->weeks), d->weeks, p->after, p->before);
}

/* Kept for a worse morning that something else explains; what else lowered it. */
static char *
why_kept_worse (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  if (d->rule == CARPACE_RULE_KEEP_NO_PRACTICE && d->after_ms < d->before_ms)
    return g_strdup_printf (_("Worse this morning, with no practice for %d days: %s today instead of %s; please read "
                              "the cautions."), d->days, p->after, p->before);
  if (d->rule == CARPACE_RULE_KEEP_NO_PRACTICE)
    return g_strdup_printf (_("Worse this morning, with no practice for more than 72 hours: practice time stays %s; "
                              "please read the cautions."), p->kept);
  if (d->after_ms < d->before_ms && d->finding == CARPACE_FINDING_NO_ANSWERS)
    return g_strdup_printf (_("Worse this morning, after another unusual load, and no answer on %d practice days: %s "
                              "today instead of %s."), d->days, p->after, p->before);
  if (d->level_down)
    return g_strdup_printf (_("Worse this morning, after another unusual load, and the ratings rose since %s: back to %s."),
                            p->level_before, p->level);
  return g_strdup_printf (_("Worse this morning, after another unusual load: practice time stays %s."), p->kept);
}

static char *
why_keep_below (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  return g_strdup_printf (ngettext ("Practice time stays %s. Building back to %s goes on after %d settled day; so far: %d.",
                                    "Practice time stays %s. Building back to %s goes on after %d settled days in a row; so "
                                    "far: %d.",
                                    (unsigned long) d->needed), p->after, p->level, d->needed, d->days);
}

const char *
carpace_why_uncounted (const CarpaceDecision *d)
{
  switch (d->uncounted)
    {
    case CARPACE_UNCOUNTED_ABOVE_STOP:
      return _("The last practice day does not count: a number was above the one that stops practice.");
    case CARPACE_UNCOUNTED_TIGHTENED:
      return _("The last practice day does not count: a rating was up by 2 or more.");
    case CARPACE_UNCOUNTED_WORSE_AFTER:
      return _("The last practice day does not count: the morning after it was worse.");
    case CARPACE_UNCOUNTED_TOO_LITTLE:
      return d->kept_ms < d->level_ms ? _("The last practice day does not count: less than half of it was done.")
                                      : _("The last practice day does not count: less than four fifths of it was done.");
    case CARPACE_UNCOUNTED_NEAR_STOP:
      return _("The last practice day does not count: a number was 4 or more, and 2 or more above usual.");
    case CARPACE_UNCOUNTED_BEYOND:
      return _("The last practice day does not count: there was practice beyond the plan.");
    case CARPACE_UNCOUNTED_PAIN_RELIEF:
      return _("The last practice day does not count: pain relief was taken that morning or the next.");
    case CARPACE_UNCOUNTED_TOO_MUCH:
      return _("The last practice day does not count: more was done than planned, by over 15 %.");
    case CARPACE_UNCOUNTED_UNRATED:
      return _("The last practice day does not count: its last block was not rated in time.");
    case CARPACE_UNCOUNTED_UNCHECKED:
      return _("The last practice day does not count: no morning check was made after it.");
    case CARPACE_UNCOUNTED_NOT:
    case CARPACE_N_UNCOUNTED:
      break;
    }
  return NULL;
}

static char *
why_keep_day (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  if (d->finding == CARPACE_FINDING_FIRST_DAY)
    return g_strdup_printf (_("The first day: %s, as the plan has it."), p->after);
  if (d->finding == CARPACE_FINDING_NO_CHECK)
    return g_strdup_printf (_("No morning check: practice time stays %s; normally it grows only after one."), p->after);
  if (d->finding == CARPACE_FINDING_NO_ANSWERS)
    return why_no_answers (d, p);
  if (d->finding == CARPACE_FINDING_AT_MOST)
    return g_strdup_printf (_("Practice time stays %s, the most the plan allows."), p->after);
  if (d->finding == CARPACE_FINDING_LEVEL_YOUNG)
    return g_strdup_printf (ngettext ("The aim changed %d day ago and stays for 7: practice time stays %s.",
                                      "The aim changed %d days ago and stays for 7: practice time stays %s.",
                                      (unsigned long) d->level_days), d->level_days, p->after);
  if (d->finding == CARPACE_FINDING_MORNINGS_UP)
    return g_strdup_printf (_("%d of the last 6 mornings were above usual, 2 at most for a step up: practice time stays %s."),
                            d->wakings_up, p->after);
  if (d->finding == CARPACE_FINDING_MOST)
    return g_strdup_printf (_("No higher than %s, 130 %% of what was done in the last two weeks (%s on the mean): "
                              "practice time stays %s."), p->most, p->most_of, p->after);
  if (d->needed > 0 && d->kept_ms < d->level_ms)
    return why_keep_below (d, p);
  if (d->needed > 0 && d->days < d->needed)
    return g_strdup_printf (ngettext ("Practice time stays %s. It grows after %d good day; so far: %d.",
                                      "Practice time stays %s. It grows after %d good days in a row; so far: %d.",
                                      (unsigned long) d->needed), p->after, d->needed, d->days);
  return g_strdup_printf (_("There is no reason for a change: practice time stays %s."), p->after);
}

char *
carpace_why_day (const CarpaceDecision *d, const CarpaceWhyPieces *p)
{
  switch (d->rule)
    {
    case CARPACE_RULE_CAUTION:
      return g_strdup_printf (_("A caution is open: no practice until it is closed; practice time stays %s till then."),
                              p->kept);
    case CARPACE_RULE_CUT:
      return why_cut (d, p);
    case CARPACE_RULE_CUT_ONCE:
      return why_cut_once (d, p);
    case CARPACE_RULE_REST_DAY:
      return why_rest_day (d, p);
    case CARPACE_RULE_KEEP_NO_PRACTICE:
    case CARPACE_RULE_KEEP_OTHER_LOAD:
      return why_kept_worse (d, p);
    case CARPACE_RULE_AFTER_TIME_OFF:
      return why_time_off (d, p);
    case CARPACE_RULE_KEEP_WEEK:
      return why_week (d, p);
    case CARPACE_RULE_TAKE_BACK:
      return why_take_back (d, p);
    case CARPACE_RULE_NO_ANSWERS:
      return why_no_answers (d, p);
    case CARPACE_RULE_WAY_BACK:
      return why_way_back (d, p);
    case CARPACE_RULE_STEP_UP:
      return why_step_up (d, p);
    case CARPACE_RULE_KEEP:
      return why_keep_day (d, p);
    case CARPACE_RULE_ABOVE_STOP:
    case CARPACE_RULE_UP_2:
    case CARPACE_RULE_UP_TO_4_OR_5:
    case CARPACE_RULE_UP_1:
    case CARPACE_RULE_UNANSWERED_TWICE:
    case CARPACE_RULE_TIGHTENED_THRICE:
    case CARPACE_RULE_TOO_SHORT:
    case CARPACE_N_RULES:
      break;
    }
  return g_strdup (carpace_text_rule (d->rule));
}
