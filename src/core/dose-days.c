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
  history->last_change = history->last_rise = history->last_cut = CARPACE_NO_DAY;
  history->last_rest_day = history->rows_from = CARPACE_NO_DAY;
  history->caution_since = history->caution_closed = CARPACE_NO_DAY;
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

CarpaceDayRecord *
carpace_history_last_practice (CarpaceHistory *history)
{
  for (int32_t i = history->n_days - 1; i >= 0; i--)
    if (practised (&history->days[i]))
      return &history->days[i];
  return NULL;
}

int32_t
carpace_history_above_stop (const CarpaceHistory *history, CarpaceDay since, CarpaceDay until, bool today)
{
  int32_t n = 0;
  bool evening_before = false;

  for (int32_t i = 0; i < history->n_days; i++)
    {
      const CarpaceDayRecord *day = &history->days[i];
      bool within = day->day >= since && day->day <= until;
      bool morning = day->above_stop && !day->ended_above_stop;
      if (within && ((morning && !evening_before) || day->ended_above_stop))
        n++;
      evening_before = day->ended_above_stop;
    }
  return n + (today && !evening_before);
}

static bool
is_keep (CarpaceRule rule)
{
  return rule == CARPACE_RULE_KEEP || rule == CARPACE_RULE_KEEP_NO_PRACTICE || rule == CARPACE_RULE_KEEP_OTHER_LOAD
         || rule == CARPACE_RULE_KEEP_WEEK;
}

bool
carpace_history_two_cuts (const CarpaceHistory *history)
{
  int32_t cuts = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && cuts < 2; i--)
    {
      const CarpaceDayRecord *day = &history->days[i];
      if (day->day < history->rows_from)
        return false;
      if (day->rule == CARPACE_RULE_CUT)
        cuts++;
      else if (!is_keep (day->rule))
        return false;
    }
  return cuts == 2;
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
  for (int32_t i = history->n_days - 1; i >= 0 && days < LAST_DAYS && history->days[i].day >= history->rows_from; i--)
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

static Speaks
settled (const CarpaceHistory *history, int32_t i, const CarpaceMorning *check, bool worse_now, bool by_ratings)
{
  const CarpaceDayRecord *day = &history->days[i];
  bool answered, worse, relief;

  morning_after (history, i, check, worse_now, &answered, &worse, &relief);
  if (day->above_stop || day->tightened_2 || worse || 2 * day->done_ms < day->dose_ms)
    return AGAINST;
  return day->last_answered && (answered || by_ratings) ? IN_FAVOUR : UNKNOWN;
}

static Speaks
good (const CarpaceHistory *history, int32_t i, const CarpaceMorning *check, bool worse_now)
{
  const CarpaceDayRecord *day = &history->days[i];
  Speaks speaks = settled (history, i, check, worse_now, false);
  bool answered, worse, relief;

  morning_after (history, i, check, worse_now, &answered, &worse, &relief);
  if (speaks == AGAINST || day->near_stop || day->beyond || day->morning.pain_relief || relief
      || 100 * day->done_ms < 80 * day->limits_ms || 100 * day->done_ms > 115 * day->limits_ms)
    return AGAINST;
  return speaks;
}

int32_t
carpace_history_settled_row (const CarpaceHistory *history, const CarpaceMorning *check, bool worse, bool by_ratings)
{
  int32_t n = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && history->days[i].day >= history->last_change; i--)
    {
      Speaks speaks = practised (&history->days[i]) ? settled (history, i, check, worse, by_ratings) : UNKNOWN;
      if (speaks == AGAINST)
        break;
      n += speaks == IN_FAVOUR;
    }
  return n;
}

int32_t
carpace_history_good_row (const CarpaceHistory *history, const CarpaceMorning *check, bool worse)
{
  int32_t n = 0;

  for (int32_t i = history->n_days - 1; i >= 0 && history->days[i].day >= history->last_change; i--)
    {
      Speaks speaks = practised (&history->days[i]) ? good (history, i, check, worse) : UNKNOWN;
      if (speaks == AGAINST)
        break;
      n += speaks == IN_FAVOUR;
    }
  return n;
}
