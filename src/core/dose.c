/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose.c: the next day's dose. The first row of the table that fits decides.
 * Simulated over eight weeks with modelled players (tests/app/test-seasons.c):
 * whoever changes a row runs them again. */
#include "carpace/dose.h"

#include <string.h>

#include "dose-days.h"

#define HOURS_72_MS (72 * CARPACE_HOUR_MS)
#define TWICE_WITHIN_DAYS 7
#define REST_DAYS_WITHIN 14
#define TIME_OFF_DAYS 7
#define WAY_BACK_STEP (20 * CARPACE_PERCENT)
#define DAYS_BETWEEN_RISES 7
#define DAYS_WITHOUT_CHECK 7
#define NEW_PLAN_CUT_DAYS 14

/* One day's decision under way. */
typedef struct
{
  CarpaceHistory *h;
  const CarpacePlan *plan;
  CarpaceDay today;
  int64_t elapsed_ms;
  const CarpaceMorning *check; /* NULL where none was made */
  bool worse;
  const CarpaceDayRecord *last; /* last day with practice, or NULL */
  CarpaceDecision *d;
} Dosing;

bool
carpace_morning_is_worse (const CarpaceMorning *check, int32_t usual)
{
  return check->stiffness == CARPACE_STIFFNESS_MORE || (check->waking >= 0 && check->waking >= usual + 2);
}

static int64_t
lesser (int64_t a, int64_t b)
{
  return a < b ? a : b;
}

static int64_t
greater (int64_t a, int64_t b)
{
  return a > b ? a : b;
}

static bool
decided (Dosing *x, CarpaceRule rule, CarpaceFinding finding)
{
  x->d->rule = rule;
  x->d->finding = finding;
  return true;
}

static void
set_dose (Dosing *x, int64_t dose_ms)
{
  if (dose_ms == x->h->dose_ms)
    return;
  if (dose_ms > x->h->dose_ms)
    x->h->last_rise = x->today;
  x->h->last_change = x->today;
  x->h->dose_ms = dose_ms;
}

/* The dose shortened once for the last practice day. */
static void
cut (Dosing *x)
{
  CarpaceHistory *h = x->h;
  int64_t done_ms = x->last == NULL ? h->dose_ms : greater (x->last->done_ms, h->dose_ms / 2);
  int64_t base_ms = lesser (h->dose_ms, done_ms);
  int64_t cut_ms = greater (carpace_dose_cut_ms (base_ms, x->plan->cut_to), carpace_dose_least_ms (h->first_dose_ms));

  x->d->done_ms = base_ms;
  x->d->shorten_to = x->plan->cut_to;
  if (x->last != NULL)
    carpace_history_last_practice (h)->cut_for = true;
  if (h->way_back_ms == 0)
    {
      h->way_back_ms = h->dose_ms;
      h->way_back_steps_off = 0;
    }
  h->last_cut = x->today;
  h->last_change = x->today;
  set_dose (x, lesser (cut_ms, h->dose_ms));
}

static bool
may_cut (const Dosing *x)
{
  return x->last == NULL ? x->h->n_days == 0 : !x->last->cut_for;
}

static void
open_caution (Dosing *x)
{
  x->d->opens_caution = true;
  x->d->no_practice = true;
  x->h->caution_open = true;
  x->h->caution_since = x->today;
  x->h->caution_signs = 0;
}

static bool
row_caution (Dosing *x)
{
  if (!x->h->caution_open && x->h->caution_closed != x->today)
    return false;
  x->d->no_practice = true;
  return decided (x, CARPACE_RULE_CAUTION, CARPACE_FINDING_NONE);
}

static bool
above_now (const Dosing *x)
{
  return x->check != NULL && (x->check->waking > x->plan->stop_above || x->check->now > x->plan->stop_above);
}

static bool
row_above_stop (Dosing *x)
{
  if (!above_now (x))
    return false;
  x->d->no_practice = true;
  x->d->discomfort = x->check->waking > x->plan->stop_above ? x->check->waking : x->check->now;
  if (may_cut (x))
    cut (x);
  if (carpace_history_above_stop (x->h, x->today - TWICE_WITHIN_DAYS, x->today, true) >= 2)
    open_caution (x);
  return decided (x, CARPACE_RULE_CUT,
                  x->check->waking > x->plan->stop_above ? CARPACE_FINDING_WAKING_ABOVE_STOP
                                                         : CARPACE_FINDING_NOW_ABOVE_STOP);
}

static bool
row_ended_above_stop (Dosing *x)
{
  if (x->last == NULL || !x->last->ended_above_stop || x->last->cut_for)
    return false;
  x->d->discomfort = x->last->highest;
  cut (x);
  if (carpace_history_above_stop (x->h, x->today - TWICE_WITHIN_DAYS, x->today, false) >= 2)
    open_caution (x);
  return decided (x, CARPACE_RULE_CUT, CARPACE_FINDING_ENDED_ABOVE_STOP);
}

static bool
row_rest_day (Dosing *x)
{
  bool after_rest_day, again;

  if (!x->worse)
    return false;
  after_rest_day = x->h->last_rest_day >= x->h->rows_from && x->h->last_rest_day != CARPACE_NO_DAY
                   && (x->last == NULL || x->h->last_rest_day > x->last->day);
  if (!after_rest_day && !carpace_history_two_cuts (x->h))
    return false;
  again = x->h->last_rest_day != CARPACE_NO_DAY && x->h->last_rest_day >= x->h->rows_from
          && x->today - x->h->last_rest_day <= REST_DAYS_WITHIN;
  x->d->no_practice = true;
  x->d->asks_cautions = true;
  x->h->last_rest_day = x->today;
  x->h->slow_return = true;
  if (again)
    open_caution (x);
  return decided (x, CARPACE_RULE_REST_DAY, after_rest_day ? CARPACE_FINDING_AFTER_REST_DAY : CARPACE_FINDING_AFTER_TWO_CUTS);
}

static CarpaceFinding
why_worse (const Dosing *x)
{
  return x->check->stiffness == CARPACE_STIFFNESS_MORE ? CARPACE_FINDING_STIFFER : CARPACE_FINDING_WAKING_UP;
}

static bool
row_no_practice (Dosing *x)
{
  if (!x->worse || x->last == NULL || x->elapsed_ms - x->last->last_end_elapsed_ms <= HOURS_72_MS)
    return false;
  x->d->asks_cautions = true;
  return decided (x, CARPACE_RULE_KEEP_NO_PRACTICE, why_worse (x));
}

static bool
row_other_load (Dosing *x)
{
  if (!x->worse || x->last == NULL || !carpace_history_other_load (x->h, x->check, x->today)
      || x->last->rule == CARPACE_RULE_KEEP_OTHER_LOAD)
    return false;
  return decided (x, CARPACE_RULE_KEEP_OTHER_LOAD, CARPACE_FINDING_OTHER_LOAD);
}

static bool
row_worse (Dosing *x)
{
  if (!x->worse || !may_cut (x))
    return false;
  cut (x);
  return decided (x, CARPACE_RULE_CUT, why_worse (x));
}

static bool
row_time_off (Dosing *x)
{
  CarpaceHistory *h = x->h;
  int64_t step_ms = carpace_share_down_ms (h->first_dose_ms, x->plan->step_up_by, 1);
  int32_t weeks;
  int64_t lower_ms;

  if (x->last == NULL || x->today - x->last->day < TIME_OFF_DAYS)
    return false;
  weeks = (x->today - x->last->day) / TIME_OFF_DAYS;
  lower_ms = greater (x->last->dose_ms - step_ms * weeks, h->first_dose_ms / 2);
  x->d->weeks = weeks;
  x->d->days = x->today - x->last->day;
  if (h->way_back_ms > 0 && weeks > h->way_back_steps_off)
    {
      h->way_back_ms = greater (h->way_back_ms - step_ms * (weeks - h->way_back_steps_off), h->first_dose_ms / 2);
      h->way_back_steps_off = weeks;
    }
  set_dose (x, lesser (lower_ms, h->dose_ms));
  if (h->way_back_ms <= h->dose_ms)
    h->way_back_ms = 0;
  return decided (x, CARPACE_RULE_AFTER_TIME_OFF, CARPACE_FINDING_NONE);
}

static bool
row_week (Dosing *x)
{
  bool week_ago = carpace_history_week_rising (x->h, x->today - 7, NULL, NULL);

  if (!carpace_history_week_rising (x->h, x->today, &x->d->mean_pct, &x->d->mean_before_pct)
      || (x->h->way_back_ms > 0 && !week_ago))
    return false;
  if (week_ago && carpace_history_last_days_not_below (x->h, x->today))
    open_caution (x);
  return decided (x, CARPACE_RULE_KEEP_WEEK, week_ago ? CARPACE_FINDING_TWO_WEEKS_RISING : CARPACE_FINDING_WEEK_RISING);
}

static bool
checked (const Dosing *x)
{
  return x->check != NULL && x->check->waking >= 0;
}

static bool
row_way_back (Dosing *x)
{
  CarpaceHistory *h = x->h;
  bool unchecked = !checked (x) && carpace_history_days_without_check (h) >= DAYS_WITHOUT_CHECK;
  int32_t settled;

  if (h->way_back_ms <= h->dose_ms || (!checked (x) && !unchecked))
    return false;
  x->d->needed = h->slow_return ? 3 : 2;
  settled = carpace_history_settled_row (h, x->check, x->worse, unchecked);
  x->d->days = settled;
  if (settled < x->d->needed)
    return false;
  set_dose (x, lesser (h->dose_ms + carpace_share_down_ms (h->first_dose_ms, WAY_BACK_STEP, 1), h->way_back_ms));
  if (h->dose_ms >= h->way_back_ms)
    {
      h->way_back_ms = 0;
      h->slow_return = false;
    }
  return decided (x, CARPACE_RULE_WAY_BACK,
                  unchecked ? CARPACE_FINDING_NO_CHECK_FOR_LONG : CARPACE_FINDING_SETTLED_DAYS);
}

static bool
row_step_up (Dosing *x)
{
  CarpaceHistory *h = x->h;
  int32_t good;

  if (!checked (x))
    return false;
  good = carpace_history_good_row (h, x->check, x->worse);
  x->d->days = good;
  x->d->needed = x->plan->after_good_days;
  if (good < x->plan->after_good_days || h->dose_ms >= x->plan->at_most_ms
      || (h->last_rise != CARPACE_NO_DAY && x->today - h->last_rise < DAYS_BETWEEN_RISES))
    return false;
  set_dose (x, lesser (h->dose_ms + carpace_share_down_ms (h->first_dose_ms, x->plan->step_up_by, 1),
                       x->plan->at_most_ms));
  return decided (x, CARPACE_RULE_STEP_UP, CARPACE_FINDING_GOOD_DAYS);
}

static bool
row_keep (Dosing *x)
{
  if (x->h->n_days == 0)
    return decided (x, CARPACE_RULE_KEEP, CARPACE_FINDING_FIRST_DAY);
  if (!checked (x))
    return decided (x, CARPACE_RULE_KEEP, CARPACE_FINDING_NO_CHECK);
  return decided (x, CARPACE_RULE_KEEP,
                  x->h->dose_ms >= x->plan->at_most_ms ? CARPACE_FINDING_AT_MOST : CARPACE_FINDING_NONE);
}

void
carpace_dose_decide (CarpaceHistory *history, const CarpacePlan *plan, CarpaceDay today, int64_t elapsed_ms,
                     const CarpaceMorning *check, CarpaceDecision *ret_decision)
{
  static bool (*const rows[]) (Dosing *) = {
    row_caution,  row_above_stop, row_ended_above_stop, row_rest_day, row_no_practice, row_other_load,
    row_worse,    row_time_off,   row_week,             row_way_back, row_step_up,     row_keep,
  };
  Dosing x = { .h = history, .plan = plan, .today = today, .elapsed_ms = elapsed_ms, .check = check, .d = ret_decision };

  memset (ret_decision, 0, sizeof *ret_decision);
  ret_decision->scope = CARPACE_SCOPE_DAY;
  ret_decision->before_ms = history->dose_ms;
  ret_decision->discomfort = check != NULL ? check->waking : -1;
  ret_decision->reference = ret_decision->earlier = -1;
  ret_decision->usual = plan->usual_discomfort;
  ret_decision->stop_above = plan->stop_above;
  ret_decision->mean_pct = ret_decision->mean_before_pct = -1;
  x.worse = check != NULL && carpace_morning_is_worse (check, plan->usual_discomfort);
  x.last = carpace_history_last_practice (history);
  if (x.last != NULL && today - x.last->day < TIME_OFF_DAYS)
    history->way_back_steps_off = 0;
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    if (rows[i] (&x))
      break;
  ret_decision->kept_ms = history->dose_ms;
  ret_decision->after_ms = ret_decision->no_practice ? 0 : history->dose_ms;
}

void
carpace_dose_use_plan (CarpaceHistory *history, const CarpacePlan *plan, CarpaceDay today)
{
  bool cut_lately = history->last_cut != CARPACE_NO_DAY && today - history->last_cut <= NEW_PLAN_CUT_DAYS;

  if (history->first_dose_ms == plan->dose_ms)
    return;
  if (history->first_dose_ms > 0)
    history->last_change = today;
  history->way_back_ms = 0;
  if (history->first_dose_ms == 0 || !cut_lately || plan->dose_ms <= history->dose_ms)
    history->dose_ms = plan->dose_ms;
  else
    history->way_back_ms = plan->dose_ms;
  history->first_dose_ms = plan->dose_ms;
}

void
carpace_dose_close_caution (CarpaceHistory *history, CarpaceDay today)
{
  int64_t way_back_ms = history->way_back_ms > 0 ? history->way_back_ms : history->dose_ms;

  history->caution_open = false;
  history->caution_signs = 0;
  history->caution_closed = today;
  history->rows_from = today;
  history->last_change = today;
  history->slow_return = true;
  history->way_back_ms = lesser (way_back_ms, history->first_dose_ms);
  history->dose_ms = lesser (history->dose_ms, history->first_dose_ms / 2);
  if (history->way_back_ms <= history->dose_ms)
    history->way_back_ms = 0;
}

/* The first day's limits: the plan's, more of the last where they come to less
 * than the first dose, scaled down where they come to more. */
static int32_t
first_limits (const CarpacePlan *plan, int64_t ret_limit_ms[CARPACE_DAY_BLOCKS])
{
  int64_t sum_ms = carpace_plan_sum_of_limits_ms (plan);
  int64_t last_ms = plan->blocks[plan->n_blocks - 1].limit_ms;
  int64_t least_ms = lesser (5 * CARPACE_MINUTE_MS, last_ms);
  int32_t n = plan->n_blocks;

  for (int32_t i = 0; i < n; i++)
    ret_limit_ms[i] = sum_ms <= plan->dose_ms ? plan->blocks[i].limit_ms
                                              : carpace_ratio_down_ms (plan->blocks[i].limit_ms, plan->dose_ms, sum_ms,
                                                                       plan->round_down_to_ms);
  for (int64_t more_ms = plan->dose_ms - sum_ms; more_ms >= least_ms && n < CARPACE_DAY_BLOCKS; n++)
    {
      ret_limit_ms[n] = lesser (more_ms, last_ms);
      more_ms -= ret_limit_ms[n];
    }
  return n;
}

static int64_t
sum_of (const int64_t *limit_ms, int32_t n)
{
  int64_t sum = 0;

  for (int32_t i = 0; i < n; i++)
    sum += limit_ms[i];
  return sum;
}

static int64_t
least_for (const CarpacePlan *plan, int32_t i)
{
  int32_t own = i < plan->n_blocks ? i : plan->n_blocks - 1;

  return lesser (5 * CARPACE_MINUTE_MS, plan->blocks[own].limit_ms);
}

/* Scales the first @n of @base_ms from @whole_ms to @dose_ms. What `longest`
 * cuts off is a further block, if it is 5 min or more.
 * @return the number of limits, 0 where one of them would be too short */
static int32_t
scale (const CarpacePlan *plan, const int64_t *base_ms, int32_t n, int64_t dose_ms, int64_t whole_ms,
       int64_t *ret_limit_ms)
{
  int64_t over_ms = 0;

  for (int32_t i = 0; i < n; i++)
    {
      int64_t limit_ms = carpace_ratio_down_ms (base_ms[i], dose_ms, whole_ms, plan->round_down_to_ms);
      if (limit_ms < lesser (least_for (plan, i), base_ms[i]) && n > 1)
        return 0;
      over_ms += limit_ms > plan->longest_ms ? limit_ms - plan->longest_ms : 0;
      ret_limit_ms[i] = lesser (limit_ms, plan->longest_ms);
    }
  while (over_ms >= 5 * CARPACE_MINUTE_MS && n < CARPACE_DAY_BLOCKS)
    {
      ret_limit_ms[n] = lesser (over_ms, plan->longest_ms);
      over_ms -= ret_limit_ms[n++];
    }
  return n;
}

int32_t
carpace_dose_limits (const CarpacePlan *plan, int64_t dose_ms, int64_t ret_limit_ms[CARPACE_DAY_BLOCKS])
{
  int64_t base_ms[CARPACE_DAY_BLOCKS];
  int32_t n = first_limits (plan, base_ms);
  int64_t whole_ms = plan->dose_ms;

  if (dose_ms <= 0)
    return 0;
  if (dose_ms == plan->dose_ms)
    {
      memcpy (ret_limit_ms, base_ms, (size_t) n * sizeof base_ms[0]);
      return n;
    }
  for (; n > 0; n--)
    {
      int32_t limits = scale (plan, base_ms, n, dose_ms, whole_ms, ret_limit_ms);
      if (limits > 0)
        return limits;
      whole_ms = sum_of (base_ms, n - 1);
    }
  return 0;
}
