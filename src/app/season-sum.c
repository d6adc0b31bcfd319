/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-sum.c: dates gathered, then counted. */
#include "app/season-sum.h"

#include <stdlib.h>
#include <string.h>

#define WEEK 7
#define FORTNIGHT 14
#define SETTLED_FROM 28 /* the first four weeks are the way there */
#define LAST_DATES 28

bool
carpace_season_days_init (CarpaceSeasonDays *days, int32_t most)
{
  *days = (CarpaceSeasonDays){ .most = most, .day = calloc ((size_t) most, sizeof *days->day), .morning = -1 };
  return days->day != NULL;
}

void
carpace_season_days_empty (CarpaceSeasonDays *days)
{
  memset (days->day, 0, (size_t) days->most * sizeof *days->day);
  days->n = 0;
  days->morning = -1;
}

void
carpace_season_days_clear (CarpaceSeasonDays *days)
{
  free (days->day);
  *days = (CarpaceSeasonDays){ 0 };
}

/* ---- hearing ---- */

static CarpaceSeasonDay *
last (CarpaceSeasonDays *days)
{
  return days->n > 0 ? &days->day[days->n - 1] : NULL;
}

static void
note_decision (CarpaceSeasonDay *day, const CarpaceDecision *decision)
{
  day->rule = decision->rule;
  day->opens_caution |= decision->opens_caution;
  day->no_practice = decision->no_practice;
  day->dose_ms = decision->kept_ms;
  day->level_ms = decision->level_ms;
  day->decision = *decision;
}

static int32_t
higher (int32_t one, int32_t other)
{
  return one > other ? one : other;
}

/* A day's decision comes just before its opening, and may come again later that day. */
static void
take_decision (CarpaceSeasonDays *days, const CarpaceDecision *decision)
{
  if (decision->scope == CARPACE_SCOPE_DAY)
    days->decision = *decision;
}

static void
open_day (CarpaceSeasonDays *days, CarpaceDay date, int64_t asked_ms)
{
  int32_t i;

  if (days->n == 0)
    days->first = date;
  i = date - days->first;
  if (i < 0 || i >= days->most)
    return;
  days->n = i + 1;
  days->day[i].opened = true;
  days->day[i].asked_ms = asked_ms;
  days->day[i].highest = days->morning;
  days->morning = -1;
  note_decision (&days->day[i], &days->decision);
}

static void
add_rating (CarpaceSeasonDays *days, int32_t discomfort)
{
  CarpaceSeasonDay *day = last (days);

  if (day != NULL)
    day->highest = higher (day->highest, discomfort);
}

static void
add_done (CarpaceSeasonDays *days, int64_t ms)
{
  CarpaceSeasonDay *day = last (days);

  if (day != NULL)
    day->done_ms += ms;
}

void
carpace_season_days_take (CarpaceSeasonDays *days, const CarpaceEntry *entry)
{
  switch (entry->kind)
    {
    case CARPACE_ENTRY_DECISION:
      take_decision (days, &entry->decision);
      break;
    case CARPACE_ENTRY_DAY:
      if (entry->day.what == CARPACE_DAY_OPENED)
        open_day (days, entry->day.day, entry->day.dose_ms);
      break;
    case CARPACE_ENTRY_BLOCK:
      if (entry->block.what != CARPACE_BLOCK_STARTED && !entry->block.match)
        add_done (days, entry->block.active_ms);
      break;
    case CARPACE_ENTRY_OVERRUN:
      add_done (days, entry->overrun.ms);
      break;
    case CARPACE_ENTRY_RATING:
      add_rating (days, entry->rating.discomfort);
      break;
    case CARPACE_ENTRY_MORNING: /* comes before its day */
      days->morning = higher (entry->morning.waking, entry->morning.now);
      break;
    case CARPACE_ENTRY_STATE:
    case CARPACE_ENTRY_CUE:
    case CARPACE_ENTRY_REST:
    case CARPACE_ENTRY_CAUTION:
    case CARPACE_ENTRY_FAULT:
    case CARPACE_ENTRY_CLICKS:
    case CARPACE_N_ENTRIES:
      break;
    }
}

/* ---- counting ---- */

static bool
is_over (const CarpaceSeasonDay *day, int64_t takes_ms)
{
  return day->done_ms > 0 && takes_ms > 0 && day->asked_ms * 100 > takes_ms * 115;
}

CarpaceSeasonWeek
carpace_season_stretch (const CarpaceSeasonDays *days, int32_t from, int32_t dates, const CarpacePlan *plan,
                        const CarpacePlayerTraits *traits, uint64_t seed)
{
  CarpaceSeasonWeek week = { .highest = -1 };

  for (int32_t i = from; i < from + dates && i < days->n; i++)
    {
      const CarpaceSeasonDay *day = &days->day[i];
      week.asked_ms += day->asked_ms;
      week.done_ms += day->done_ms;
      week.days += day->done_ms > 0;
      week.days_over += is_over (day, carpace_player_takes_ms (plan, traits, seed, i));
      week.highest = day->opened ? higher (week.highest, day->highest) : week.highest;
      week.cuts += day->opened && (day->rule == CARPACE_RULE_CUT || day->rule == CARPACE_RULE_CUT_ONCE);
    }
  return week;
}

static double
mean_over_takes (const CarpaceSeasonDays *days, const CarpacePlan *plan, const CarpacePlayerTraits *traits,
                 uint64_t seed)
{
  double sum = 0;
  int32_t n = 0;

  for (int32_t i = SETTLED_FROM; i < days->n; i++)
    {
      int64_t takes_ms = carpace_player_takes_ms (plan, traits, seed, i);
      if (days->day[i].done_ms == 0 || takes_ms == 0)
        continue;
      sum += (double) days->day[i].asked_ms / (double) takes_ms;
      n++;
    }
  return n > 0 ? sum / n : 0;
}

static double
larger_rise (double so_far, int64_t before_ms, int64_t now_ms)
{
  double rise = before_ms > 0 ? 100.0 * (double) (now_ms - before_ms) / (double) before_ms : 0;

  return rise > so_far ? rise : so_far;
}

static double
largest_rise_in_a_week (const CarpaceSeasonDays *days)
{
  double largest = 0;

  for (int32_t i = 1; i < days->n; i++)
    for (int32_t before = i > WEEK ? i - WEEK : 0; before < i; before++)
      largest = larger_rise (largest, days->day[before].asked_ms, days->day[i].asked_ms);
  return largest;
}

static int64_t
done_in (const CarpaceSeasonDays *days, int32_t from, int32_t to)
{
  int64_t sum = 0;

  for (int32_t i = from; i < to; i++)
    sum += days->day[i].done_ms;
  return sum;
}

static double
largest_rise_in_a_fortnight (const CarpaceSeasonDays *days)
{
  double largest = 0;

  for (int32_t end = 2 * FORTNIGHT; end <= days->n; end++)
    largest = larger_rise (largest, done_in (days, end - 2 * FORTNIGHT, end - FORTNIGHT),
                           done_in (days, end - FORTNIGHT, end));
  return largest;
}

static void
sum_levels (const CarpaceSeasonDays *days, CarpaceSeasonSum *sum)
{
  int64_t total = 0, n = 0;

  for (int32_t i = days->n > LAST_DATES ? days->n - LAST_DATES : 0; i < days->n; i++)
    {
      int64_t level_ms = days->day[i].level_ms;
      if (!days->day[i].opened)
        continue;
      sum->level_least_ms = n == 0 || level_ms < sum->level_least_ms ? level_ms : sum->level_least_ms;
      sum->level_most_ms = level_ms > sum->level_most_ms ? level_ms : sum->level_most_ms;
      sum->level_ms = level_ms;
      total += level_ms;
      n++;
    }
  sum->level_mean_ms = n > 0 ? total / n : 0;
}

void
carpace_season_sum (const CarpaceSeasonDays *days, const CarpacePlan *plan, const CarpacePlayerTraits *traits,
                    uint64_t seed, CarpaceSeasonSum *ret_sum)
{
  CarpaceSeasonSum sum = { .all = carpace_season_stretch (days, 0, days->n, plan, traits, seed) };

  for (int32_t i = 0; i < days->n; i++)
    {
      const CarpaceSeasonDay *day = &days->day[i];
      sum.rest_days += day->opened && day->rule == CARPACE_RULE_REST_DAY;
      sum.steps_up += day->opened && day->rule == CARPACE_RULE_STEP_UP;
      sum.cautions += day->opens_caution;
    }
  sum.over_takes = mean_over_takes (days, plan, traits, seed);
  sum.rise_7_pct = largest_rise_in_a_week (days);
  sum.rise_14_pct = largest_rise_in_a_fortnight (days);
  sum_levels (days, &sum);
  *ret_sum = sum;
}
