/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose-apply.c: what a decision of the day, a plan and a closed caution make of
 * the history. A decision's fields tell all that is needed: a recorded one does
 * what a fresh one did. */
#include "carpace/dose.h"

#include "dose-days.h"
#include "lesser.h"

#define NEW_PLAN_CUT_DAYS 14

/* At the level nothing is left of how it was to be come back to. */
static void
look_at_level (CarpaceHistory *h)
{
  if (h->dose_ms < h->level_ms)
    return;
  h->straight_back = true;
  h->slow_return = false;
}

static void
set_dose (CarpaceHistory *h, int64_t dose_ms, CarpaceDay today)
{
  if (dose_ms != h->dose_ms)
    h->last_change = today;
  h->dose_ms = dose_ms;
}

/* @before_step_ms: the level before it, where this is a step up, else 0. */
static void
set_level (CarpaceHistory *h, int64_t level_ms, int64_t before_step_ms, bool down, CarpaceDay today)
{
  if (level_ms == h->level_ms && !down)
    return;
  h->level_ms = level_ms;
  h->level_change = today;
  h->level_before_step_ms = before_step_ms;
}

void
carpace_dose_begin_plan (CarpaceHistory *h, int64_t first_ms, int64_t dose_ms, int64_t level_ms, CarpaceDay today)
{
  bool fresh = h->first_dose_ms == 0, other = h->first_dose_ms != first_ms;

  h->first_dose_ms = first_ms;
  if (other && !fresh)
    h->last_change = today;
  if (other && dose_ms < level_ms)
    h->straight_back = false;
  set_dose (h, dose_ms, fresh ? CARPACE_NO_DAY : today);
  set_level (h, level_ms, 0, other && !fresh, fresh ? CARPACE_NO_DAY : today);
  look_at_level (h);
}

void
carpace_dose_use_plan (CarpaceHistory *history, const CarpacePlan *plan, CarpaceDay today)
{
  bool other = history->first_dose_ms != plan->dose_ms;
  bool cut_lately = history->last_cut != CARPACE_NO_DAY && today - history->last_cut <= NEW_PLAN_CUT_DAYS;
  bool keeps = !other || (history->first_dose_ms > 0 && cut_lately && history->dose_ms < plan->dose_ms);
  int64_t level_ms = lesser (other ? plan->dose_ms : history->level_ms, plan->at_most_ms);

  carpace_dose_begin_plan (history, plan->dose_ms, lesser (keeps ? history->dose_ms : plan->dose_ms, level_ms), level_ms, today);
}

/* The plan that @d was made by. One recorded before there was a level does not
 * tell it: the first of them begins with its own dose. */
static void
take_plan (CarpaceHistory *h, const CarpaceDecision *d, CarpaceDay today)
{
  if (d->first_dose_ms > 0 && d->first_dose_ms != h->first_dose_ms)
    carpace_dose_begin_plan (h, d->first_dose_ms, d->before_ms, d->level_before_ms, today);
  else if (d->first_dose_ms > 0)
    carpace_dose_begin_plan (h, h->first_dose_ms, h->dose_ms, d->level_before_ms, today);
  else if (h->first_dose_ms == 0)
    carpace_dose_begin_plan (h, d->before_ms, d->before_ms, d->before_ms, today);
}

static void
take_cut (CarpaceHistory *h, CarpaceDay today)
{
  int32_t last = carpace_history_last_practice (h);

  if (last >= 0)
    h->days[last].cut_for = true;
  h->last_cut = h->last_change = today;
}

static void
take_weeks_off (CarpaceHistory *h, const CarpaceDecision *d, CarpaceDay today)
{
  int32_t last = carpace_history_last_practice (h);

  if (last >= 0 && today - h->days[last].day < CARPACE_WEEK_DAYS)
    h->level_steps_off = 0;
  if (d->weeks > h->level_steps_off)
    h->level_steps_off = d->weeks;
}

static void
take_level (CarpaceHistory *h, const CarpaceDecision *d, CarpaceDay today)
{
  int64_t level_ms = d->level_ms > 0 ? d->level_ms : greater (h->level_ms, d->kept_ms);

  set_level (h, level_ms, d->rule == CARPACE_RULE_STEP_UP ? h->level_ms : 0, d->level_down, today);
  if (!d->level_down)
    return;
  h->last_down = today;
  h->down_from_ms = d->down_from_ms;
}

static void
take_stops (CarpaceHistory *h, const CarpaceDecision *d, CarpaceDay today)
{
  if (d->rule == CARPACE_RULE_REST_DAY)
    {
      h->last_rest_day = today;
      h->slow_return = true;
    }
  if (d->opens_caution)
    {
      h->caution_open = true;
      h->caution_since = today;
      h->caution_signs = 0;
    }
}

void
carpace_dose_apply (CarpaceHistory *history, const CarpaceDecision *decision, CarpaceDay today)
{
  const CarpaceDecision *d = decision;

  if (d->scope != CARPACE_SCOPE_DAY)
    return;
  take_plan (history, d, today);
  take_weeks_off (history, d, today);
  if (carpace_decision_is_cut (d))
    take_cut (history, today);
  if (d->finding == CARPACE_FINDING_NO_ANSWERS && d->kept_ms < history->dose_ms)
    history->last_unanswered = today;
  take_level (history, d, today);
  set_dose (history, d->kept_ms, today);
  history->straight_back = d->straight_back;
  take_stops (history, d, today);
  look_at_level (history);
}

void
carpace_dose_close_caution (CarpaceHistory *history, CarpaceDay today, int64_t allowed_ms)
{
  int64_t half_ms = greater (history->first_dose_ms / 2, carpace_dose_least_ms (history->first_dose_ms));

  history->caution_open = false;
  history->caution_signs = 0;
  history->caution_closed = history->rows_from = today;
  history->slow_return = true;
  history->straight_back = false;
  set_level (history, lesser (history->level_ms, history->first_dose_ms), 0, false, today);
  history->dose_ms = lesser (lesser (history->dose_ms, half_ms), history->level_ms);
  if (allowed_ms > 0)
    history->dose_ms = lesser (history->dose_ms, allowed_ms);
  history->last_change = today + 1; /* what was practised on that day came before it */
  look_at_level (history);
}
