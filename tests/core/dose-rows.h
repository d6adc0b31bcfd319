/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose-rows.h: days behind and a morning, in letters and numbers, and the history that
 * they make. */
#ifndef CARPACE_TEST_DOSE_ROWS_H
#define CARPACE_TEST_DOSE_ROWS_H

#include "carpace/dose.h"
#include "carpace/names.h"
#include "trace.h"

#define TODAY 20880
#define MIN CARPACE_MINUTE_MS
#define MORE CARPACE_STIFFNESS_MORE

/* A day behind, in letters:
 *   g  a good day                        u  nothing against it, last block not answered
 *   n  settled, but a number near stop   t  tightened by 2: not settled
 *   w  a worse morning, kept             c  a morning that was cut for (worse)
 *   C  the same, answered badly          a  ended above stop-above
 *   m  this morning above stop, no practice (a cut)
 *   r  a rest day                        R  a rest day, practised before it was one
 *   o  kept for another load (worse)     k  kept for want of practice (worse), no practice
 *   T  a step taken back                 s  practised, no answer at all
 *   b  the dose came down for silence, then as s
 *   x  a good day without a check        -  no practice, opened
 *   e  opened, checked, no practice      .  not opened at all
 *   B  practised beyond the plan         p  pain relief that morning
 *   !  the same as -, under a caution
 * Digits before a letter: the rating of both its blocks. After it: ^ this
 * morning's waking number, ~ its dose in minutes, = minutes done, ' it was cut
 * for, # a count of such days. Commas are for the eye. */
typedef struct
{
  const char *name;
  const char *days;        /* oldest first; the last one is yesterday */
  int waking;              /* -1: skipped; -2: no check at all */
  CarpaceStiffness stiffness;
  int now;                 /* discomfort now; 0: skipped */
  bool other_load;
  int usual;
  int dose_min, level_min; /* 0: 60, and at the level */
  int changed_days_ago;    /* rows of days begin then; 0: never, this and the following */
  int level_days_ago, before_step_min, down_days_ago, cut_days_ago, rest_days_ago, silent_days_ago, closed_days_ago;
  int steps_off;
  bool long_way, slow;
  int step_pct;            /* step-up-by; 0: 10; -1: 0 % */
  int64_t end_ms_ago;      /* end of the last practice; 0: a day for each day */
  CarpaceRule rule;
  int to_min, to_level_min; /* as they stand after it; level 0: as it was */
  bool no_practice, caution, straight;
  CarpaceFinding finding;  /* NONE: not looked at */
  CarpaceUncounted uncounted; /* in its own table */
} Row;

static inline CarpaceDayRecord
day_of_letter (char letter, int32_t rating, CarpaceDay day, int64_t dose_ms)
{
  CarpaceDayRecord d = { .day = day, .dose_ms = dose_ms, .done_ms = dose_ms, .limits_ms = dose_ms, .highest = rating,
                         .rating_sum = 2 * rating, .n_ratings = 2, .last_answered = true, .other_ms = -1,
                         .last_end_elapsed_ms = (int64_t) day * CARPACE_DAY_MS, .rule = CARPACE_RULE_KEEP };

  d.morning = (CarpaceMorning){ .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
  d.last_answered = letter != 'u';
  d.near_stop = letter == 'n';
  d.tightened_2 = letter == 't';
  d.beyond = letter == 'B';
  d.morning.pain_relief = letter == 'p';
  d.worse = strchr ("wcCorRk", letter) != NULL;
  if (letter == 'a')
    d.ended_above_stop = d.above_stop = true;
  if (letter == 'm')
    d.above_stop = d.worse = true;
  if (strchr ("cCm", letter) != NULL)
    d.rule = letter == 'c' ? CARPACE_RULE_CUT_ONCE : CARPACE_RULE_CUT;
  if (letter == 'o' || letter == 'k')
    d.rule = letter == 'o' ? CARPACE_RULE_KEEP_OTHER_LOAD : CARPACE_RULE_KEEP_NO_PRACTICE;
  if (letter == 'T')
    d.rule = CARPACE_RULE_TAKE_BACK;
  if (letter == 'b')
    d.rule = CARPACE_RULE_NO_ANSWERS;
  if (strchr ("xsb-", letter) != NULL)
    d.morning.waking = -1;
  if (letter == 'r' || letter == 'R')
    d.rule = CARPACE_RULE_REST_DAY;
  if (letter == '!')
    d.rule = CARPACE_RULE_CAUTION;
  if (strchr ("sb", letter) != NULL)
    {
      d.n_ratings = d.rating_sum = 0;
      d.highest = -1;
      d.last_answered = false;
    }
  if (strchr ("rke-m!", letter) != NULL)
    {
      d.done_ms = d.rating_sum = d.n_ratings = 0;
      d.highest = -1;
      d.last_answered = false;
      d.last_end_elapsed_ms = 0;
    }
  return d;
}

/* Reads one letter with all that belongs to it. */
static inline const char *
read_day (const char *at, int64_t dose_ms, CarpaceDayRecord *ret_day, int *ret_count, char *ret_letter)
{
  int rating = 0;

  *ret_count = 1;
  while (*at == ',')
    at++;
  while (*at >= '0' && *at <= '9')
    rating = 10 * rating + *at++ - '0';
  *ret_letter = *at;
  *ret_day = day_of_letter (*at++, rating, 0, dose_ms);
  while (*at != '\0' && strchr ("^~=#'", *at) != NULL)
    {
      char what = *at++, *end;
      int number = (int) strtol (at, &end, 10);
      at = end;
      ret_day->cut_for |= what == '\'';
      if (what == '^')
        {
          ret_day->morning.waking = number;
          ret_day->above_stop |= number > 5;
          ret_day->worse |= number >= 2;
        }
      if (what == '~')
        ret_day->dose_ms = ret_day->limits_ms = ret_day->done_ms = number * MIN;
      if (what == '=')
        ret_day->done_ms = number * MIN;
      if (what == '#')
        *ret_count = number;
    }
  return at;
}

static inline int
count_days (const char *days)
{
  int n = 0, count;
  CarpaceDayRecord record;
  char letter;

  while (*days != '\0')
    {
      days = read_day (days, 0, &record, &count, &letter);
      n += count;
    }
  return n;
}

static inline void
add_days (CarpaceHistory *h, const char *days, CarpaceDay until)
{
  CarpaceDay day = until - count_days (days);

  while (*days != '\0')
    {
      CarpaceDayRecord record;
      char letter;
      int count;
      days = read_day (days, 60 * MIN, &record, &count, &letter);
      for (; count > 0; count--, day++)
        {
          record.day = day;
          record.last_end_elapsed_ms = (int64_t) day * CARPACE_DAY_MS;
          if (letter != '.')
            carpace_history_add (h, &record);
          if (letter == 'r' || letter == 'R')
            h->last_rest_day = day;
        }
    }
}

static inline CarpaceDay
ago (int days)
{
  return days > 0 ? TODAY - days : CARPACE_NO_DAY;
}

static inline void
set_marks (CarpaceHistory *h, const Row *row)
{
  h->dose_ms = row->dose_min > 0 ? row->dose_min * MIN : 60 * MIN;
  h->level_ms = row->level_min > 0 ? row->level_min * MIN : h->dose_ms;
  h->last_change = ago (row->changed_days_ago);
  h->level_change = ago (row->level_days_ago);
  h->level_before_step_ms = row->before_step_min * MIN;
  h->last_down = ago (row->down_days_ago);
  h->down_from_ms = row->down_days_ago > 0 ? 60 * MIN : 0;
  h->last_cut = ago (row->cut_days_ago);
  h->last_unanswered = ago (row->silent_days_ago);
  h->rows_from = h->caution_closed = ago (row->closed_days_ago);
  h->level_steps_off = row->steps_off;
  h->straight_back = !row->long_way;
  h->slow_return = row->slow;
  add_days (h, row->days, TODAY);
  if (row->rest_days_ago > 0)
    h->last_rest_day = ago (row->rest_days_ago);
  if (row->end_ms_ago > 0)
    for (int32_t i = 0; i < h->n_days; i++)
      h->days[i].last_end_elapsed_ms = TODAY * CARPACE_DAY_MS - row->end_ms_ago;
}

static inline CarpaceMorning
check_of (const Row *row)
{
  return (CarpaceMorning){ .waking = row->waking, .stiffness = row->stiffness != CARPACE_STIFFNESS_UNSAID ? row->stiffness : CARPACE_STIFFNESS_USUAL,
                           .now = row->now > 0 ? row->now : -1, .other_load = row->other_load };
}

static inline bool
as_expected (const Row *row, const CarpaceDecision *d)
{
  int64_t level_ms = row->to_level_min > 0 ? row->to_level_min * MIN : d->level_before_ms;

  return d->rule == row->rule && d->kept_ms == row->to_min * MIN && d->level_ms == level_ms
         && d->no_practice == row->no_practice && d->opens_caution == row->caution
         && d->after_ms == (row->no_practice ? 0 : d->kept_ms)
         && (row->finding == CARPACE_FINDING_NONE || d->finding == row->finding)
         && (!row->straight || d->straight_back);
}

/* Number by number: what lies between fields is nobody's. */
static inline void
assert_same_history (const CarpaceHistory *a, const CarpaceHistory *b)
{
  static char text_a[CARPACE_HISTORY_BYTES], text_b[CARPACE_HISTORY_BYTES];

  carpace_history_write (a, text_a, sizeof text_a);
  carpace_history_write (b, text_b, sizeof text_b);
  assert_string_equal (text_a, text_b);
}

#endif
