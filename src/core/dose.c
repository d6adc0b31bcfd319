/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose.c: the next day's dose. The first row of the table that fits decides; what
 * follows for the days after it is dose-apply.c's. Simulated over eight weeks with
 * modelled players (tests/app/test-seasons.c): whoever changes a row runs them again. */
#include "carpace/dose.h"

#include <string.h>

#include "dose-days.h"
#include "lesser.h"

#define HOURS_72_MS (72 * CARPACE_HOUR_MS)
#define REST_DAYS_WITHIN 14
#define DAYS_WITHOUT_CHECK 7
#define SILENT_AGAIN_DAYS 6
#define SILENT_LEAST (65 * CARPACE_PERCENT)  /* of the first dose */
#define BADLY_RATED_UP 3                     /* points above usual */
#define WORSE_TIMES 3
#define WORSE_WITHIN_DAYS 14
#define LEVEL_DOWN_TO (85 * CARPACE_PERCENT)
#define TAKE_BACK_FROM_DAYS 3
#define TAKE_BACK_TO_DAYS 14
#define LEVEL_STAYS_DAYS 7
#define HALF_STEP_DAYS 21
#define RISE_DAYS 14
#define RISE_TENTHS 13                       /* 130 % */
#define WAKINGS 6
#define WAKINGS_UP_MOST 2
#define WAKINGS_LONG 28
#define USUAL_WAKINGS 14
#define USUAL_WAKINGS_UP 10
#define STEP_WHERE_NONE (10 * CARPACE_PERCENT)

/* One day's decision under way: the dose and the level are in @d. */
typedef struct
{
  const CarpaceHistory *h;
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
  return check->stiffness == CARPACE_STIFFNESS_MORE || check->waking >= usual + 2;
}

bool
carpace_decision_is_cut (const CarpaceDecision *decision)
{
  return decision->scope == CARPACE_SCOPE_DAY && decision->shorten_to > 0;
}

static bool
decided (Dosing *x, CarpaceRule rule, CarpaceFinding finding)
{
  x->d->rule = rule;
  x->d->finding = finding;
  return true;
}

static int64_t
least_ms (const Dosing *x)
{
  return carpace_dose_least_ms (x->h->first_dose_ms);
}

static CarpaceFinding
why_worse (const Dosing *x)
{
  return x->check->stiffness == CARPACE_STIFFNESS_MORE ? CARPACE_FINDING_STIFFER : CARPACE_FINDING_WAKING_UP;
}

static bool
checked (const Dosing *x)
{
  return x->check != NULL && x->check->waking >= 0;
}

/* ---- down ---- */

/* The dose shortened once for the last practice day; from the plan's dose until
 * there is one. */
static void
cut (Dosing *x)
{
  CarpaceDecision *d = x->d;
  int64_t base_ms = x->last == NULL ? x->h->first_dose_ms
                                    : lesser (d->kept_ms, greater (x->last->done_ms, d->kept_ms / 2));

  d->done_ms = base_ms;
  d->shorten_to = x->plan->cut_to;
  d->straight_back = d->kept_ms >= d->level_ms;
  d->kept_ms = lesser (d->kept_ms, greater (carpace_dose_cut_ms (base_ms, x->plan->cut_to), least_ms (x)));
}

/* The level down to 85 % of @answered_ms, the dose before the cut; of the level
 * where the hand has not settled since the last cut. */
static void
level_down (Dosing *x, int64_t answered_ms)
{
  const CarpaceHistory *h = x->h;
  CarpaceDecision *d = x->d;
  bool unsettled = h->last_cut != CARPACE_NO_DAY && !carpace_history_settled_since (h, h->last_cut, x->check, x->worse);
  int64_t base_ms = unsettled ? d->level_ms : answered_ms;
  int64_t to_ms = greater (carpace_dose_cut_ms (base_ms, LEVEL_DOWN_TO), greater (least_ms (x), d->kept_ms));

  d->level_ms = lesser (to_ms, d->level_ms);
  d->level_down = true;
  d->down_from_ms = base_ms;
  d->straight_back = false;
}

static void
cut_and_level_down (Dosing *x)
{
  int64_t answered_ms = x->d->kept_ms;

  cut (x);
  level_down (x, answered_ms);
}

/* A practice day is cut for once; before the first there is none to cut for. */
static bool
may_cut (const Dosing *x)
{
  return x->last == NULL || !x->last->cut_for;
}

static void
open_caution (Dosing *x)
{
  x->d->opens_caution = true;
  x->d->no_practice = true;
  x->d->straight_back = false;
}

static bool
row_caution (Dosing *x)
{
  if (!x->h->caution_open && x->h->caution_closed != x->today)
    return false;
  x->d->no_practice = true;
  return decided (x, CARPACE_RULE_CAUTION, CARPACE_FINDING_NONE);
}

/* Whether there was a number above stop-above within the 7 dates before, other
 * than on the evening of @own. */
static bool
another_above_stop (const Dosing *x, CarpaceDay own)
{
  return carpace_history_above_stop (x->h, x->today - CARPACE_WEEK_DAYS, x->today - 1, own) > 0;
}

static bool
row_above_stop (Dosing *x)
{
  int32_t stop = x->plan->stop_above;
  const CarpaceDayRecord *before = x->h->n_days > 0 ? &x->h->days[x->h->n_days - 1] : NULL;

  if (x->check == NULL || (x->check->waking <= stop && x->check->now <= stop))
    return false;
  x->d->no_practice = true;
  x->d->discomfort = x->check->waking > stop ? x->check->waking : x->check->now;
  if (may_cut (x))
    cut_and_level_down (x);
  else
    level_down (x, x->d->kept_ms);
  if (another_above_stop (x, before != NULL && before->ended_above_stop ? before->day : CARPACE_NO_DAY))
    open_caution (x);
  return decided (x, CARPACE_RULE_CUT,
                  x->check->waking > stop ? CARPACE_FINDING_WAKING_ABOVE_STOP : CARPACE_FINDING_NOW_ABOVE_STOP);
}

/* One step lower for each full week off, the dose from the last practice day's;
 * neither under half the first. @return whether there was a week off */
static bool
lower_for_time_off (Dosing *x)
{
  CarpaceDecision *d = x->d;
  int64_t half_ms = greater (x->h->first_dose_ms / 2, least_ms (x));
  int32_t weeks = x->last == NULL ? 0 : (x->today - x->last->day) / CARPACE_WEEK_DAYS;
  int32_t further = weeks - x->h->level_steps_off;
  int64_t from_ms;

  if (weeks == 0)
    return false;
  d->weeks = weeks;
  d->days = x->today - x->last->day;
  d->level_ms = lesser (d->level_ms, greater (d->level_ms - further * d->step_ms, half_ms));
  from_ms = x->last->dose_ms > 0 ? x->last->dose_ms : d->kept_ms; /* 0: a morning told later ended it */
  d->kept_ms = lesser (d->kept_ms, greater (from_ms - weeks * d->step_ms, half_ms));
  d->kept_ms = lesser (d->kept_ms, d->level_ms);
  return true;
}

/* Where there were weeks off since, what they alone would leave, if that is lower:
 * otherwise an evening of 6 would lead to more than one of 5. */
static void
no_more_than_after_time_off (Dosing *x)
{
  CarpaceDecision *d = x->d;
  int64_t level_ms = d->level_ms;

  d->level_ms = d->level_before_ms;
  lower_for_time_off (x);
  d->level_ms = lesser (d->level_ms, level_ms);
}

/* @return whether the last practice day ended above stop-above, and was not cut for */
static bool
cut_for_evening (Dosing *x)
{
  if (x->last == NULL || !x->last->ended_above_stop || x->last->cut_for)
    return false;
  cut_and_level_down (x);
  no_more_than_after_time_off (x);
  if (another_above_stop (x, x->last->day))
    open_caution (x);
  return true;
}

static bool
row_ended_above_stop (Dosing *x)
{
  if (!cut_for_evening (x))
    return false;
  x->d->discomfort = x->last->highest;
  return decided (x, CARPACE_RULE_CUT, CARPACE_FINDING_ENDED_ABOVE_STOP);
}

static bool
row_before_first (Dosing *x)
{
  if (!x->worse || x->last != NULL)
    return false;
  cut (x);
  return decided (x, CARPACE_RULE_CUT_ONCE, why_worse (x));
}

/* Before the row of the evening: after one above stop-above, too, a worse morning
 * is a rest day. Otherwise an evening of 6 would lead to more than one of 5. */
static bool
row_rest_day (Dosing *x)
{
  CarpaceDay rest_day = x->h->last_rest_day > x->h->rows_from ? x->h->last_rest_day : CARPACE_NO_DAY;
  bool after_rest_day;

  if (!x->worse)
    return false;
  after_rest_day = rest_day != CARPACE_NO_DAY && rest_day >= x->last->day;
  if (!after_rest_day && !carpace_history_two_cuts (x->h))
    return false;
  cut_for_evening (x);
  x->d->no_practice = true;
  x->d->asks_cautions = true;
  x->d->straight_back = false;
  if (rest_day != CARPACE_NO_DAY && x->today - rest_day <= REST_DAYS_WITHIN)
    open_caution (x);
  return decided (x, CARPACE_RULE_REST_DAY,
                  after_rest_day ? CARPACE_FINDING_AFTER_REST_DAY : CARPACE_FINDING_AFTER_TWO_CUTS);
}

static bool
row_no_practice (Dosing *x)
{
  if (!x->worse || x->elapsed_ms - x->last->last_end_elapsed_ms <= HOURS_72_MS)
    return false;
  x->d->asks_cautions = true;
  lower_for_time_off (x);
  return decided (x, CARPACE_RULE_KEEP_NO_PRACTICE, why_worse (x));
}

/* The step is taken back where the ratings rose after it. */
static bool
take_back (Dosing *x)
{
  const CarpaceHistory *h = x->h;
  CarpaceDecision *d = x->d;

  if (h->level_before_step_ms == 0 || x->today - h->level_change < TAKE_BACK_FROM_DAYS
      || x->today - h->level_change > TAKE_BACK_TO_DAYS
      || !carpace_history_week_up (h, x->today, x->plan->usual_discomfort + 1)
      || !carpace_history_week_rising (h, x->today, &d->mean_pct, &d->mean_before_pct))
    return false;
  d->down_from_ms = d->level_ms;
  d->level_ms = lesser (h->level_before_step_ms, d->level_ms);
  d->kept_ms = lesser (d->kept_ms, d->level_ms);
  d->level_down = true;
  return true;
}

static bool
lower_for_silence (Dosing *x)
{
  const CarpaceHistory *h = x->h;
  CarpaceDecision *d = x->d;
  int32_t days = carpace_history_unanswered_days (h);
  bool again = h->last_unanswered != CARPACE_NO_DAY
               && carpace_history_unanswered_since (h, h->last_unanswered) < SILENT_AGAIN_DAYS;
  int64_t least = greater (carpace_share_down_ms (h->first_dose_ms, SILENT_LEAST, 1), least_ms (x));

  if (checked (x) || days < CARPACE_SILENT_DAYS || again || d->kept_ms <= least)
    return false;
  d->days = days;
  d->kept_ms = greater (d->kept_ms - d->step_ms, least);
  d->straight_back = false;
  return true;
}

static bool
row_other_load (Dosing *x)
{
  CarpaceFinding finding = CARPACE_FINDING_OTHER_LOAD;

  if (!x->worse || !carpace_history_other_load (x->h, x->check, x->today)
      || x->last->rule == CARPACE_RULE_KEEP_OTHER_LOAD)
    return false;
  if (take_back (x))
    finding = CARPACE_FINDING_STEP_ANSWERED;
  if (lower_for_silence (x))
    finding = CARPACE_FINDING_NO_ANSWERS;
  return decided (x, CARPACE_RULE_KEEP_OTHER_LOAD, finding);
}

static bool
row_worse (Dosing *x)
{
  bool badly_rated;

  if (!x->worse || !may_cut (x))
    return false;
  badly_rated = x->last->highest >= x->plan->usual_discomfort + BADLY_RATED_UP;
  x->d->worse_mornings += x->d->full_day;
  if (!badly_rated && (!x->d->full_day || x->d->worse_mornings < WORSE_TIMES))
    {
      cut (x);
      return decided (x, CARPACE_RULE_CUT_ONCE, why_worse (x));
    }
  x->d->earlier = x->last->highest;
  cut_and_level_down (x);
  return decided (x, CARPACE_RULE_CUT, badly_rated ? CARPACE_FINDING_BADLY_RATED : CARPACE_FINDING_THIRD_WORSE);
}

static bool
row_time_off (Dosing *x)
{
  return lower_for_time_off (x) && decided (x, CARPACE_RULE_AFTER_TIME_OFF, CARPACE_FINDING_NONE);
}

static bool
row_take_back (Dosing *x)
{
  return take_back (x) && decided (x, CARPACE_RULE_TAKE_BACK, CARPACE_FINDING_STEP_ANSWERED);
}

static bool
row_week (Dosing *x)
{
  bool week_ago = carpace_history_week_rising (x->h, x->today - CARPACE_WEEK_DAYS, NULL, NULL);

  if (!carpace_history_week_rising (x->h, x->today, &x->d->mean_pct, &x->d->mean_before_pct)
      || (x->d->kept_ms < x->d->level_ms && !week_ago))
    return false;
  if (week_ago && carpace_history_last_days_not_below (x->h, x->today))
    open_caution (x);
  return decided (x, CARPACE_RULE_KEEP_WEEK,
                  week_ago ? CARPACE_FINDING_TWO_WEEKS_RISING : CARPACE_FINDING_WEEK_RISING);
}

static bool
row_no_answers (Dosing *x)
{
  return lower_for_silence (x) && decided (x, CARPACE_RULE_NO_ANSWERS, CARPACE_FINDING_NO_ANSWERS);
}

/* ---- up ---- */

/* @return false where the bound leaves nothing of the rise */
static bool
raise_to (Dosing *x, int64_t dose_ms)
{
  int64_t to_ms = x->d->most_of_ms > 0 ? lesser (dose_ms, x->d->most_ms) : dose_ms;

  if (to_ms <= x->d->kept_ms)
    return false;
  x->d->kept_ms = to_ms;
  return true;
}

static bool
row_way_back (Dosing *x)
{
  const CarpaceHistory *h = x->h;
  CarpaceDecision *d = x->d;
  bool unchecked = !checked (x) && carpace_history_days_without_check (h) >= DAYS_WITHOUT_CHECK;

  if (d->kept_ms >= d->level_ms || (!checked (x) && !unchecked))
    return false;
  d->days = carpace_history_settled_row (h, x->check, x->worse, unchecked);
  if (d->days < d->needed
      || !raise_to (x, d->straight_back ? d->level_ms : lesser (d->kept_ms + d->step_ms, d->level_ms)))
    return false;
  return decided (x, CARPACE_RULE_WAY_BACK,
                  unchecked ? CARPACE_FINDING_NO_CHECK_FOR_LONG : CARPACE_FINDING_SETTLED_DAYS);
}

/* Of the last six waking numbers those above usual; or above the lowest of the
 * last 28, where that is higher: a usual number set one too low holds nobody. */
static int32_t
wakings_up (const Dosing *x)
{
  int32_t waking[WAKINGS_LONG], usual = x->plan->usual_discomfort, up = 0;
  int32_t n = carpace_history_wakings (x->h, x->check, WAKINGS_LONG, waking);
  int32_t lowest = usual;

  for (int32_t i = 0; i < n; i++)
    lowest = i == 0 || waking[i] < lowest ? waking[i] : lowest;
  if (n == WAKINGS_LONG && lowest > usual)
    usual = lowest;
  for (int32_t i = 0; i < n && i < WAKINGS; i++)
    up += waking[i] > usual;
  return up;
}

static bool
level_may_rise (const Dosing *x)
{
  const CarpaceDecision *d = x->d;

  return x->plan->step_up_by > 0 && d->days >= d->needed && d->level_ms < x->plan->at_most_ms
         && (d->level_days < 0 || d->level_days >= LEVEL_STAYS_DAYS) && d->wakings_up <= WAKINGS_UP_MOST;
}

static bool
row_step_up (Dosing *x)
{
  CarpaceDecision *d = x->d;
  int64_t step_ms = d->down_from_ms > 0 ? d->step_ms / 2 : d->step_ms;
  int64_t level_ms = lesser (d->level_ms + step_ms, x->plan->at_most_ms);

  if (d->kept_ms < d->level_ms || !checked (x))
    return false;
  d->days = carpace_history_good_row (x->h, x->check, x->worse);
  d->wakings_up = wakings_up (x);
  if (!level_may_rise (x) || !raise_to (x, level_ms))
    return false;
  d->level_ms = level_ms;
  return decided (x, CARPACE_RULE_STEP_UP, CARPACE_FINDING_GOOD_DAYS);
}

/* ---- kept ---- */

static CarpaceFinding
why_kept (const Dosing *x)
{
  const CarpaceDecision *d = x->d;
  bool at_level = d->kept_ms >= d->level_ms;

  if (x->h->n_days == 0)
    return CARPACE_FINDING_FIRST_DAY;
  if (!checked (x))
    return carpace_history_unanswered_days (x->h) >= CARPACE_SILENT_DAYS ? CARPACE_FINDING_NO_ANSWERS
                                                                       : CARPACE_FINDING_NO_CHECK;
  if (at_level && d->level_ms >= x->plan->at_most_ms)
    return CARPACE_FINDING_AT_MOST;
  if (d->days < d->needed || (at_level && x->plan->step_up_by == 0))
    return CARPACE_FINDING_NONE;
  if (at_level && d->level_days >= 0 && d->level_days < LEVEL_STAYS_DAYS)
    return CARPACE_FINDING_LEVEL_YOUNG;
  return at_level && d->wakings_up > WAKINGS_UP_MOST ? CARPACE_FINDING_MORNINGS_UP : CARPACE_FINDING_MOST;
}

static bool
row_keep (Dosing *x)
{
  CarpaceFinding finding = why_kept (x);

  if (finding == CARPACE_FINDING_NO_ANSWERS)
    x->d->days = carpace_history_unanswered_days (x->h);
  if (checked (x))
    x->d->uncounted = carpace_history_uncounted (x->h, x->check, x->worse, x->d->kept_ms >= x->d->level_ms);
  return decided (x, CARPACE_RULE_KEEP, finding);
}

/* ---- what every decision tells ---- */

/* What the mornings have as usual, where 10 or more of the last 14 are above
 * the plan's number: the lower of the two in the middle. It decides nothing. */
static int32_t
mornings_say (const Dosing *x)
{
  int32_t waking[USUAL_WAKINGS], up = 0, at_most[11] = { 0 };
  int32_t n = carpace_history_wakings (x->h, x->check, USUAL_WAKINGS, waking), number = 0;

  for (int32_t i = 0; i < n; i++)
    {
      up += waking[i] > x->plan->usual_discomfort;
      for (int32_t k = waking[i]; k <= 10; k++)
        at_most[k]++;
    }
  while (number < 10 && 2 * at_most[number] < n)
    number++;
  return up >= USUAL_WAKINGS_UP ? number : -1;
}

/* `step-up-by: 0 %` lets the level never rise; it still comes down, and the dose
 * back to it, by the steps that plans have where they say nothing. */
static int32_t
step_share (const CarpacePlan *plan)
{
  return plan->step_up_by > 0 ? plan->step_up_by : STEP_WHERE_NONE;
}

static void
tell_level (Dosing *x)
{
  const CarpaceHistory *h = x->h;
  CarpaceDecision *d = x->d;
  int32_t n;
  int64_t done_ms = carpace_history_done_ms (h, x->today - RISE_DAYS, x->today - 1, &n);

  d->kept_ms = d->before_ms = h->dose_ms;
  d->level_ms = d->level_before_ms = h->level_ms;
  d->first_dose_ms = h->first_dose_ms;
  d->step_ms = carpace_share_down_ms (h->first_dose_ms, step_share (x->plan), 1);
  d->straight_back = h->straight_back;
  d->level_days = h->level_change == CARPACE_NO_DAY ? -1 : x->today - h->level_change;
  if (h->last_down != CARPACE_NO_DAY && x->today - h->last_down <= HALF_STEP_DAYS)
    {
      d->down_from_ms = h->down_from_ms;
      d->down_days = x->today - h->last_down;
    }
  if (n > 0)
    {
      d->most_of_ms = done_ms / n;
      d->most_ms = RISE_TENTHS * done_ms / (10 * n);
      d->most_ms -= d->most_ms % CARPACE_MINUTE_MS;
    }
  d->needed = h->dose_ms < h->level_ms ? (h->slow_return ? 2 : 1) : x->plan->step_up_by > 0 ? x->plan->after_good_days : 0;
  d->full_day = carpace_history_full_day (h, x->today - 1);
  d->worse_mornings = carpace_history_worse_after_full (h, x->today - WORSE_WITHIN_DAYS + 1);
  d->mornings_say = mornings_say (x);
}

static void
begin (Dosing *x)
{
  CarpaceDecision *d = x->d;
  int32_t last = carpace_history_last_practice (x->h);

  memset (d, 0, sizeof *d);
  d->scope = CARPACE_SCOPE_DAY;
  d->discomfort = x->check != NULL ? x->check->waking : -1;
  d->reference = d->earlier = -1;
  d->usual = x->plan->usual_discomfort;
  d->stop_above = x->plan->stop_above;
  d->mean_pct = d->mean_before_pct = -1;
  x->worse = x->check != NULL && carpace_morning_is_worse (x->check, x->plan->usual_discomfort);
  x->last = last < 0 ? NULL : &x->h->days[last];
  tell_level (x);
}

/* What follows of it for the next rise. */
static void
finish (Dosing *x)
{
  CarpaceDecision *d = x->d;

  if (d->kept_ms >= d->level_ms)
    d->straight_back = true;
  if (d->level_down)
    d->down_days = 0;
  if (d->kept_ms < d->level_ms && d->kept_ms <= d->before_ms)
    d->needed = x->h->slow_return || d->rule == CARPACE_RULE_REST_DAY || d->opens_caution ? 2 : 1;
  d->without = !d->no_practice && carpace_plan_is_without (x->plan, x->today);
  d->after_ms = d->no_practice || d->without ? 0 : d->kept_ms;
}

void
carpace_dose_decide (const CarpaceHistory *history, const CarpacePlan *plan, CarpaceDay today, int64_t elapsed_ms,
                     const CarpaceMorning *check, CarpaceDecision *ret_decision)
{
  static bool (*const rows[]) (Dosing *) = {
    row_caution, row_above_stop, row_before_first, row_rest_day, row_ended_above_stop, row_no_practice, row_other_load,
    row_worse,   row_time_off,   row_take_back,        row_week,         row_no_answers, row_way_back,    row_step_up,
    row_keep,
  };
  CarpaceHistory by_plan = *history;
  Dosing x = { .h = &by_plan, .plan = plan, .today = today, .elapsed_ms = elapsed_ms, .check = check, .d = ret_decision };

  carpace_dose_use_plan (&by_plan, plan, today);
  begin (&x);
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    if (rows[i] (&x))
      break;
  finish (&x);
}
