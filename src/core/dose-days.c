/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose-days.c: what the days behind say. */
#include "dose-days.h"

#include <string.h>

#define LAST_DAYS 3

typedef enum { AGAINST, UNKNOWN, IN_FAVOUR } Speaks;

int64_t
carpace_ratio_down_ms (int64_t base_ms, int64_t part_ms, int64_t whole_ms, int64_t unit_ms)
{
  /* both factors are at most 8 h, 2.9e7 ms: the product stays below 2^53 */
  int64_t ms = whole_ms > 0 ? base_ms * part_ms / whole_ms : 0;

  return unit_ms > 1 ? ms / unit_ms * unit_ms : ms;
}

void
carpace_history_init (CarpaceHistory *history)
{
  memset (history, 0, sizeof *history);
  history->straight_back = true;
  history->last_change = history->level_change = history->last_down = CARPACE_NO_DAY;
  history->last_cut = history->last_rest_day = history->last_unanswered = CARPACE_NO_DAY;
  history->rows_from = history->caution_since = history->caution_closed = CARPACE_NO_DAY;
}

void
carpace_history_add (CarpaceHistory *history, const CarpaceDayRecord *record)
{
  if (history->n_days == CARPACE_HISTORY_DAYS)
    {
      memmove (&history->days[0], &history->days[1], (CARPACE_HISTORY_DAYS - 1) * sizeof history->days[0]);
      history->n_days--;
    }
  history->days[history->n_days++] = *record;
}

static bool
practised (const CarpaceDayRecord *day)
{
  return day->done_ms > 0;
}

int32_t
carpace_history_last_practice (const CarpaceHistory *history)
{
  int32_t i = history->n_days - 1;

  while (i >= 0 && !practised (&history->days[i]))
    i--;
  return i;
}

int32_t
carpace_history_above_stop (const CarpaceHistory *history, CarpaceDay since, CarpaceDay until, CarpaceDay but)
{
  int32_t n = 0;
  bool evening_before = false;

  for (int32_t i = 0; i < history->n_days; i++)
    {
      const CarpaceDayRecord *day = &history->days[i];
      bool morning = day->above_stop && !day->ended_above_stop && !evening_before;
      n += day->day >= since && day->day <= until && day->day != but && (morning || day->ended_above_stop);
      evening_before = day->ended_above_stop;
    }
  return n;
}

static bool
is_cut (CarpaceRule rule)
{
  return rule == CARPACE_RULE_CUT || rule == CARPACE_RULE_CUT_ONCE;
}

static bool
is_keep (CarpaceRule rule)
{
  return rule == CARPACE_RULE_KEEP || rule == CARPACE_RULE_KEEP_NO_PRACTICE || rule == CARPACE_RULE_KEEP_OTHER_LOAD
         || rule == CARPACE_RULE_KEEP_WEEK || rule == CARPACE_RULE_TAKE_BACK;
}

bool
carpace_history_two_cuts (const CarpaceHistory *history)
{
  int32_t cuts = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && cuts < 2; i--)
    {
      const CarpaceDayRecord *day = &history->days[i];
      if (day->day <= history->rows_from || !(is_cut (day->rule) || is_keep (day->rule)))
        return false;
      cuts += is_cut (day->rule);
    }
  return cuts == 2;
}

bool
carpace_history_full_day (const CarpaceHistory *history, CarpaceDay date)
{
  for (int32_t i = history->n_days - 1; i >= 0; i--)
    if (history->days[i].day == date)
      return practised (&history->days[i]) && 10 * history->days[i].dose_ms >= 9 * history->level_ms;
  return false;
}

int32_t
carpace_history_worse_after_full (const CarpaceHistory *history, CarpaceDay since)
{
  int32_t n = 0;

  for (int32_t i = 0; i < history->n_days; i++)
    {
      const CarpaceDayRecord *day = &history->days[i];
      n += day->day >= since && day->day > history->level_change && day->worse
           && day->rule != CARPACE_RULE_KEEP_OTHER_LOAD && day->rule != CARPACE_RULE_KEEP_NO_PRACTICE
           && carpace_history_full_day (history, day->day - 1);
    }
  return n;
}

int64_t
carpace_history_done_ms (const CarpaceHistory *history, CarpaceDay since, CarpaceDay until, int32_t *ret_days)
{
  int64_t sum_ms = 0;

  *ret_days = 0;
  for (int32_t i = 0; i < history->n_days; i++)
    if (history->days[i].day >= since && history->days[i].day <= until && practised (&history->days[i]))
      {
        sum_ms += history->days[i].done_ms;
        ++*ret_days;
      }
  return sum_ms;
}

int32_t
carpace_history_wakings (const CarpaceHistory *history, const CarpaceMorning *check, int32_t most, int32_t *ret_waking)
{
  int32_t n = 0;

  if (check != NULL && check->waking >= 0 && most > 0)
    ret_waking[n++] = check->waking;
  for (int32_t i = history->n_days - 1; i >= 0 && n < most; i--)
    if (history->days[i].morning.waking >= 0)
      ret_waking[n++] = history->days[i].morning.waking;
  return n;
}

/* Matches of the day before: over 130 % of the mean of the days with matches in
 * the 14 before it is an unusual load by itself; at or under, it is not,
 * whatever was answered. Without matches the answer tells. */
bool
carpace_history_other_load (const CarpaceHistory *history, const CarpaceMorning *check, CarpaceDay today)
{
  int64_t match_ms = 0, sum_ms = 0, n = 0;

  for (int32_t i = 0; i < history->n_days; i++)
    {
      const CarpaceDayRecord *day = &history->days[i];
      if (day->day == today - 1)
        match_ms = day->match_ms;
      else if (day->day >= today - 15 && day->day < today - 1 && day->match_ms > 0)
        {
          sum_ms += day->match_ms;
          n++;
        }
    }
  if (match_ms == 0)
    return check->other_load;
  return n == 0 || 10 * match_ms * n > 13 * sum_ms;
}

static void
sum_ratings (const CarpaceHistory *history, CarpaceDay since, CarpaceDay until, int64_t *ret_sum, int64_t *ret_n)
{
  *ret_sum = *ret_n = 0;
  for (int32_t i = 0; i < history->n_days; i++)
    if (history->days[i].day >= since && history->days[i].day <= until)
      {
        *ret_sum += history->days[i].rating_sum;
        *ret_n += history->days[i].n_ratings;
      }
}

bool
carpace_history_week_up (const CarpaceHistory *history, CarpaceDay day, int32_t number)
{
  int64_t sum, n;

  sum_ratings (history, day - 7, day - 1, &sum, &n);
  return n > 0 && sum >= number * n;
}

bool
carpace_history_week_rising (const CarpaceHistory *history, CarpaceDay day, int32_t *ret_mean_pct,
                             int32_t *ret_before_pct)
{
  int64_t sum, n, sum_before, n_before;

  sum_ratings (history, day - 7, day - 1, &sum, &n);
  sum_ratings (history, day - 14, day - 8, &sum_before, &n_before);
  if (n < 6 || n_before < 6)
    return false;
  if (ret_mean_pct != NULL)
    *ret_mean_pct = (int32_t) (100 * sum / n);
  if (ret_before_pct != NULL)
    *ret_before_pct = (int32_t) (100 * sum_before / n_before);
  return 2 * (sum * n_before - sum_before * n) > n * n_before;
}

bool
carpace_history_last_days_not_below (const CarpaceHistory *history, CarpaceDay today)
{
  int64_t sum, n, last_sum = 0, last_n = 0;
  int32_t days = 0;

  sum_ratings (history, today - 7, today - 1, &sum, &n);
  for (int32_t i = history->n_days - 1; i >= 0 && days < LAST_DAYS && history->days[i].day > history->rows_from; i--)
    if (history->days[i].n_ratings > 0)
      {
        last_sum += history->days[i].rating_sum;
        last_n += history->days[i].n_ratings;
        days++;
      }
  return days == LAST_DAYS && last_sum * n >= sum * last_n;
}

int32_t
carpace_history_days_without_check (const CarpaceHistory *history)
{
  int32_t n = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && history->days[i].morning.waking < 0; i--)
    n += practised (&history->days[i]);
  return n;
}

static bool
answered (const CarpaceDayRecord *day)
{
  return day->morning.waking >= 0 || day->n_ratings > 0;
}

int32_t
carpace_history_unanswered_since (const CarpaceHistory *history, CarpaceDay since)
{
  int32_t n = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && history->days[i].day >= since && !answered (&history->days[i]); i--)
    n += practised (&history->days[i]);
  return n;
}

int32_t
carpace_history_unanswered_days (const CarpaceHistory *history)
{
  return carpace_history_unanswered_since (history, CARPACE_NO_DAY);
}

/* The morning after day @i: that of the next opened day. */
static void
morning_after (const CarpaceHistory *history, int32_t i, const CarpaceMorning *check, bool worse,
               bool *ret_answered, bool *ret_worse, bool *ret_relief)
{
  bool is_last = i + 1 >= history->n_days;
  const CarpaceMorning *morning = is_last ? check : &history->days[i + 1].morning;

  *ret_answered = morning != NULL && morning->waking >= 0;
  *ret_worse = is_last ? worse : history->days[i + 1].worse;
  *ret_relief = morning != NULL && morning->pain_relief;
}

/* What keeps day @i from being a settled one; what speaks against it first. */
static CarpaceUncounted
unsettled_by (const CarpaceHistory *history, int32_t i, const CarpaceMorning *check, bool worse_now, bool by_ratings)
{
  const CarpaceDayRecord *day = &history->days[i];
  bool answered, worse, relief;

  morning_after (history, i, check, worse_now, &answered, &worse, &relief);
  if (day->above_stop)
    return CARPACE_UNCOUNTED_ABOVE_STOP;
  if (day->tightened_2)
    return CARPACE_UNCOUNTED_TIGHTENED;
  if (worse)
    return CARPACE_UNCOUNTED_WORSE_AFTER;
  if (2 * day->done_ms < day->dose_ms)
    return CARPACE_UNCOUNTED_TOO_LITTLE;
  if (!day->last_answered)
    return CARPACE_UNCOUNTED_UNRATED;
  return answered || by_ratings ? CARPACE_UNCOUNTED_NOT : CARPACE_UNCOUNTED_UNCHECKED;
}

/* What is not answered neither counts nor breaks a row. */
static Speaks
speaks (CarpaceUncounted uncounted)
{
  if (uncounted == CARPACE_UNCOUNTED_NOT)
    return IN_FAVOUR;
  return uncounted == CARPACE_UNCOUNTED_UNRATED || uncounted == CARPACE_UNCOUNTED_UNCHECKED ? UNKNOWN : AGAINST;
}

static Speaks
settled (const CarpaceHistory *history, int32_t i, const CarpaceMorning *check, bool worse_now, bool by_ratings)
{
  return speaks (unsettled_by (history, i, check, worse_now, by_ratings));
}

/* What keeps day @i from being a good one. */
static CarpaceUncounted
not_good_by (const CarpaceHistory *history, int32_t i, const CarpaceMorning *check, bool worse_now)
{
  const CarpaceDayRecord *day = &history->days[i];
  CarpaceUncounted unsettled = unsettled_by (history, i, check, worse_now, false);
  bool answered, worse, relief;

  morning_after (history, i, check, worse_now, &answered, &worse, &relief);
  if (speaks (unsettled) == AGAINST)
    return unsettled;
  if (day->near_stop)
    return CARPACE_UNCOUNTED_NEAR_STOP;
  if (day->beyond)
    return CARPACE_UNCOUNTED_BEYOND;
  if (day->morning.pain_relief || relief)
    return CARPACE_UNCOUNTED_PAIN_RELIEF;
  if (100 * day->done_ms < 80 * day->limits_ms)
    return CARPACE_UNCOUNTED_TOO_LITTLE;
  return 100 * day->done_ms > 115 * day->limits_ms ? CARPACE_UNCOUNTED_TOO_MUCH : unsettled;
}

static Speaks
good (const CarpaceHistory *history, int32_t i, const CarpaceMorning *check, bool worse_now)
{
  return speaks (not_good_by (history, i, check, worse_now));
}

CarpaceUncounted
carpace_history_uncounted (const CarpaceHistory *history, const CarpaceMorning *check, bool worse, bool for_good)
{
  int32_t i = carpace_history_last_practice (history);

  if (i < 0 || history->days[i].day < history->last_change)
    return CARPACE_UNCOUNTED_NOT;
  return for_good ? not_good_by (history, i, check, worse) : unsettled_by (history, i, check, worse, false);
}

int32_t
carpace_history_settled_row (const CarpaceHistory *history, const CarpaceMorning *check, bool worse, bool by_ratings)
{
  int32_t n = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && history->days[i].day >= history->last_change; i--)
    {
      Speaks says = practised (&history->days[i]) ? settled (history, i, check, worse, by_ratings) : UNKNOWN;
      if (says == AGAINST)
        break;
      n += says == IN_FAVOUR;
    }
  return n;
}

bool
carpace_history_settled_since (const CarpaceHistory *history, CarpaceDay since, const CarpaceMorning *check, bool worse)
{
  for (int32_t i = history->n_days - 1; i >= 0 && history->days[i].day >= since; i--)
    if (practised (&history->days[i]) && settled (history, i, check, worse, false) == IN_FAVOUR)
      return true;
  return false;
}

int32_t
carpace_history_good_row (const CarpaceHistory *history, const CarpaceMorning *check, bool worse)
{
  int32_t n = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && history->days[i].day >= history->last_change; i--)
    {
      Speaks says = practised (&history->days[i]) ? good (history, i, check, worse) : UNKNOWN;
      if (says == AGAINST)
        break;
      n += says == IN_FAVOUR;
    }
  return n;
}
