/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rating-text.c: what a number just given leads to, and why. */
#include "text/face-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"

static bool
is_above_stop (const CarpaceView *view)
{
  return view->plan && view->rating.given > view->plan->stop_above;
}

/* The decision that the number came to; NULL where it came to none. */
static const CarpaceDecision *
decision_of (const CarpaceView *view)
{
  const CarpaceDecision *d = &view->decision;

  return view->has_decision && d->scope == CARPACE_SCOPE_BLOCK && d->block == view->rating.block ? d : NULL;
}

static char *
next_block (const CarpaceView *view, CarpaceInstant now)
{
  const CarpaceDecision *d = decision_of (view);
  bool shorter = d && d->after_ms < d->before_ms;
  bool waits = view->next_known && view->next_cue == CARPACE_CUE_NEXT_BLOCK && view->next_in_ms > 0;
  g_autofree char *limit = carpace_text_duration (view->limit_ms);
  g_autofree char *from = carpace_text_time_of_day (carpace_instant_after (now, view->next_in_ms));

  if (!waits)
    return g_strdup_printf (shorter ? _("Next block shorter: %s") : _("Next block: %s"), limit);
  /* Translators: how long, a time of day */
  return g_strdup_printf (shorter ? _("Next block shorter: %s, from %s") : _("Next block: %s, from %s"), limit, from);
}

char *
carpace_text_rated (const CarpaceView *view, CarpaceInstant now)
{
  if (is_above_stop (view))
    return g_strdup_printf (_("Discomfort %d: stop for today; next time is shorter"), view->rating.given);
  if (view->state == CARPACE_STATE_DAY_DONE || view->block <= 0)
    return g_strdup (_("That was today's last block"));
  return next_block (view, now);
}

char *
carpace_text_rated_why (const CarpaceView *view)
{
  const CarpaceDecision *d = decision_of (view);
  int32_t given = view->rating.given;

  if (is_above_stop (view))
    return g_strdup (_("New, strong or not easing? See a physiotherapist or doctor."));
  switch (d ? d->rule : CARPACE_N_RULES)
    {
    case CARPACE_RULE_UP_1:
    case CARPACE_RULE_UP_2:
      return g_strdup_printf (_("Because discomfort went up by %d, from %d to %d."), given - d->reference, d->reference, given);
    case CARPACE_RULE_UP_TO_4_OR_5:
      return g_strdup_printf (_("Because discomfort %d is %d above your usual %d."), given, given - d->usual, d->usual);
    case CARPACE_RULE_TIGHTENED_THRICE:
      return g_strdup_printf (_("Because discomfort %d would shorten blocks for the third time today."), given);
    case CARPACE_RULE_TOO_SHORT:
      return g_strdup (_("Because the next one would be too short to be a block."));
    case CARPACE_RULE_KEEP:
      if (d->after_ms < d->before_ms)
        return g_strdup_printf (_("Discomfort %d is noted. What was shortened today stays."), given);
      if (d->after_ms > d->before_ms)
        return g_strdup_printf (_("Discomfort %d is noted: what the number before it had shortened is taken back."), given);
      break;
    case CARPACE_RULE_ABOVE_STOP:
    case CARPACE_RULE_UNANSWERED_TWICE:
    case CARPACE_RULE_CAUTION:
    case CARPACE_RULE_CUT:
    case CARPACE_RULE_REST_DAY:
    case CARPACE_RULE_KEEP_NO_PRACTICE:
    case CARPACE_RULE_KEEP_OTHER_LOAD:
    case CARPACE_RULE_AFTER_TIME_OFF:
    case CARPACE_RULE_KEEP_WEEK:
    case CARPACE_RULE_WAY_BACK:
    case CARPACE_RULE_STEP_UP:
    case CARPACE_RULE_CUT_ONCE:
    case CARPACE_RULE_TAKE_BACK:
    case CARPACE_RULE_NO_ANSWERS:
    case CARPACE_N_RULES:
      break;
    }
  return g_strdup_printf (_("Discomfort %d is noted; it changes nothing."), given);
}
