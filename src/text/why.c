/* SPDX-License-Identifier: GPL-3.0-or-later */
/* why.c: decisions, each in one sentence with the numbers it was made from. */
#include "text/text.h"

#include "text/duration.h"

#include <glib.h>
#include <glib/gi18n.h>

/* The pieces a sentence is made of. */
typedef struct
{
  char *before, *after, *kept, *done, *share, *block;
} Pieces;

static void
pieces_init (Pieces *pieces, const CarpaceDecision *d)
{
  pieces->before = carpace_text_duration (d->before_ms);
  pieces->after = carpace_text_duration (d->after_ms);
  pieces->kept = carpace_text_duration (d->no_practice ? d->kept_ms : d->after_ms);
  pieces->done = carpace_text_duration (d->done_ms);
  pieces->share = carpace_text_share (d->shorten_to);
  pieces->block = d->block > 0 ? g_strdup_printf (_("after block %d"), d->block) : g_strdup (_("after the match"));
}

static void
pieces_clear (Pieces *pieces)
{
  g_free (pieces->before);
  g_free (pieces->after);
  g_free (pieces->kept);
  g_free (pieces->done);
  g_free (pieces->share);
  g_free (pieces->block);
}

/* ---- the next block ---- */

/* Takes @cause and says what follows of it. */
static char *
shorter_block (char *cause, const CarpaceDecision *d, const Pieces *p, bool rests_longer)
{
  char *sentence;

  if (d->after_ms < d->before_ms && rests_longer)
    /* Translators: cause, new limit, old limit, share */
    sentence = g_strdup_printf (_("%s: the next block is %s instead of %s (%s), with rests closer and longer."), cause,
                                p->after, p->before, p->share);
  else if (d->after_ms < d->before_ms)
    sentence = g_strdup_printf (_("%s: the next block is %s instead of %s (%s), with rests closer."), cause, p->after,
                                p->before, p->share);
  else if (rests_longer)
    sentence = g_strdup_printf (_("%s: the next block stays %s, with rests closer and longer."), cause, p->after);
  else
    sentence = g_strdup_printf (_("%s: the next block stays %s, with rests closer."), cause, p->after);
  g_free (cause);
  return sentence;
}

static char *
why_keep_block (const CarpaceDecision *d, const Pieces *p)
{
  if (d->after_ms > d->before_ms)
    return g_strdup_printf (_("With the corrected rating %s nothing is tightened for it: the next block is %s instead of %s."),
                            p->block, p->after, p->before);
  if (d->after_ms < d->before_ms)
    return g_strdup_printf (_("The next block is %s instead of %s: what was tightened today stays."), p->after, p->before);
  if (d->discomfort < 0)
    return g_strdup_printf (_("No rating %s: the next block stays %s."), p->block, p->after);
  return g_strdup_printf (_("Discomfort %d %s changes nothing: the next block stays %s."), d->discomfort, p->block,
                          p->after);
}

static char *
why_block (const CarpaceDecision *d, const Pieces *p)
{
  switch (d->rule)
    {
    case CARPACE_RULE_ABOVE_STOP:
      return g_strdup_printf (_("Discomfort %d %s is above %d: no more practice today."), d->discomfort, p->block,
                              d->stop_above);
    case CARPACE_RULE_UP_2:
      return shorter_block (g_strdup_printf (_("Discomfort %d %s is 2 or more up on %d, what it is compared with"),
                                             d->discomfort, p->block, d->reference), d, p, true);
    case CARPACE_RULE_UP_TO_4_OR_5:
      return shorter_block (g_strdup_printf (_("Discomfort %d %s is up to 4 or 5 and 2 or more above your usual %d"),
                                             d->discomfort, p->block, d->usual), d, p, true);
    case CARPACE_RULE_UP_1:
      return shorter_block (g_strdup_printf (_("Discomfort %d %s is 1 up on %d, what it is compared with"),
                                             d->discomfort, p->block, d->reference), d, p, false);
    case CARPACE_RULE_UNANSWERED_TWICE:
      return shorter_block (g_strdup_printf (_("No rating %s, as after the one before"), p->block), d, p, false);
    case CARPACE_RULE_TIGHTENED_THRICE:
      return g_strdup_printf (_("What was answered %s would shorten blocks for the third time today: no more practice today."), p->block);
    case CARPACE_RULE_TOO_SHORT:
      return g_strdup_printf (_("The next block would be %s, too short to be one: no more practice today."), p->before);
    case CARPACE_RULE_KEEP:
      return why_keep_block (d, p);
    case CARPACE_RULE_CAUTION:
    case CARPACE_RULE_CUT:
    case CARPACE_RULE_REST_DAY:
    case CARPACE_RULE_KEEP_NO_PRACTICE:
    case CARPACE_RULE_KEEP_OTHER_LOAD:
    case CARPACE_RULE_AFTER_TIME_OFF:
    case CARPACE_RULE_KEEP_WEEK:
    case CARPACE_RULE_WAY_BACK:
    case CARPACE_RULE_STEP_UP:
    case CARPACE_N_RULES:
      break;
    }
  return g_strdup (carpace_text_rule (d->rule));
}

/* ---- the day ---- */

/* What a cut answers to. */
static char *
cause_of_cut (const CarpaceDecision *d)
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

static char *
why_cut (const CarpaceDecision *d, const Pieces *p)
{
  g_autofree char *cause = cause_of_cut (d);

  if (d->no_practice && d->opens_caution)
    return g_strdup_printf (_("%s, the second time within 7 days: no practice until a physiotherapist or doctor has "
                              "seen it, %s then at most."), cause, p->kept);
  if (d->no_practice && share_tells_all (d, d->kept_ms))
    return g_strdup_printf (_("%s: no practice today, and %s the next practice day, %s of %s."), cause, p->kept,
                            p->share, p->done);
  if (d->no_practice)
    return g_strdup_printf (_("%s: no practice today, and %s the next practice day."), cause, p->kept);
  if (d->after_ms >= d->before_ms)
    return g_strdup_printf (_("%s: practice time stays %s, the least it can be."), cause, p->after);
  if (share_tells_all (d, d->after_ms))
    return g_strdup_printf (_("%s: less today, %s instead of %s; that is %s of %s."), cause, p->after, p->before,
                            p->share, p->done);
  return g_strdup_printf (_("%s: less today, %s instead of %s."), cause, p->after, p->before);
}

static char *
why_rest_day (const CarpaceDecision *d, const Pieces *p)
{
  const char *cause = d->finding == CARPACE_FINDING_AFTER_REST_DAY ? _("Worse this morning after a rest day")
                                                                   : _("Worse this morning after two cuts in a row");
  if (d->opens_caution)
    return g_strdup_printf (_("%s, the second rest day within 14 days: no practice until a physiotherapist or doctor "
                              "has seen it."), cause);
  return g_strdup_printf (_("%s: a rest day today; practice time stays %s."), cause, p->kept);
}

static char *
why_week (const CarpaceDecision *d, const Pieces *p)
{
  double mean = d->mean_pct / 100.0, before = d->mean_before_pct / 100.0;

  if (d->opens_caution)
    return g_strdup_printf (_("The ratings rose for two weeks, to a mean of %.1f from %.1f the week before: no practice "
                              "until a physiotherapist or doctor has seen it."), mean, before);
  return g_strdup_printf (_("The last 7 days' ratings have a mean of %.1f, more than 0.5 above the %.1f of the 7 before: "
                            "practice time stays %s."), mean, before, p->after);
}

static char *
why_way_back (const CarpaceDecision *d, const Pieces *p)
{
  if (d->finding == CARPACE_FINDING_NO_CHECK_FOR_LONG)
    return g_strdup_printf (_("%d days settled by their ratings alone, on the way back: %s today instead of %s."), d->days,
                            p->after, p->before);
  return g_strdup_printf (ngettext ("%d settled day in a row, on the way back: %s today instead of %s.",
                                    "%d settled days in a row, on the way back: %s today instead of %s.",
                                    (unsigned long) d->days), d->days, p->after, p->before);
}

static char *
why_step_up (const CarpaceDecision *d, const Pieces *p)
{
  return g_strdup_printf (ngettext ("%d good day in a row: step up, %s today instead of %s.",
                                    "%d good days in a row: step up, %s today instead of %s.",
                                    (unsigned long) d->days), d->days, p->after, p->before);
}

static char *
why_time_off (const CarpaceDecision *d, const Pieces *p)
{
  return g_strdup_printf (ngettext ("%d full week without practice: one step lower, %s today instead of %s.",
                                    "%d full weeks without practice: one step lower for each, %s today instead of %s.",
                                    (unsigned long) d->weeks), d->weeks, p->after, p->before);
}

static char *
why_keep_day (const CarpaceDecision *d, const Pieces *p)
{
  if (d->finding == CARPACE_FINDING_FIRST_DAY)
    return g_strdup_printf (_("The first day: %s, as the plan has it."), p->after);
  if (d->finding == CARPACE_FINDING_NO_CHECK)
    return g_strdup_printf (_("No morning check, and the check is what lets practice time rise: it stays %s."), p->after);
  if (d->finding == CARPACE_FINDING_AT_MOST)
    return g_strdup_printf (_("Practice time stays %s, the most the plan allows."), p->after);
  if (d->needed > 0)
    return g_strdup_printf (ngettext ("%d of the %d good day that a step up asks for: practice time stays %s.",
                                      "%d of the %d good days that a step up asks for: practice time stays %s.",
                                      (unsigned long) d->needed), d->days, d->needed, p->after);
  return g_strdup_printf (_("Nothing asks for a change: practice time stays %s."), p->after);
}

static char *
why_day (const CarpaceDecision *d, const Pieces *p)
{
  switch (d->rule)
    {
    case CARPACE_RULE_CAUTION:
      return g_strdup_printf (_("A caution is open: no practice until it is closed; practice time stays %s till then."),
                              p->kept);
    case CARPACE_RULE_CUT:
      return why_cut (d, p);
    case CARPACE_RULE_REST_DAY:
      return why_rest_day (d, p);
    case CARPACE_RULE_KEEP_NO_PRACTICE:
      return g_strdup_printf (_("Worse this morning, with no practice for more than 72 hours: practice time stays %s; "
                                "please read the cautions."), p->kept);
    case CARPACE_RULE_KEEP_OTHER_LOAD:
      return g_strdup_printf (_("Worse this morning, after another unusual load: practice time stays %s."), p->kept);
    case CARPACE_RULE_AFTER_TIME_OFF:
      return why_time_off (d, p);
    case CARPACE_RULE_KEEP_WEEK:
      return why_week (d, p);
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

char *
carpace_text_why (const CarpaceDecision *decision)
{
  Pieces pieces;
  char *sentence;

  pieces_init (&pieces, decision);
  sentence = decision->scope == CARPACE_SCOPE_BLOCK ? why_block (decision, &pieces) : why_day (decision, &pieces);
  pieces_clear (&pieces);
  return sentence;
}

char *
carpace_text_follows (const CarpaceDecision *decision)
{
  g_autofree char *after = carpace_text_duration (decision->after_ms);

  if (decision->after_ms <= 0 || decision->no_practice)
    return g_strdup (decision->scope == CARPACE_SCOPE_BLOCK ? _("No more practice today") : _("No practice today"));
  if (decision->after_ms == decision->before_ms)
    return NULL;
  if (decision->scope == CARPACE_SCOPE_DAY)
    return g_strdup_printf (decision->after_ms < decision->before_ms ? _("Less today: %s") : _("More today: %s"), after);
  return g_strdup_printf (decision->after_ms < decision->before_ms ? _("Next block shorter: %s") : _("Next block: %s"),
                          after);
}
