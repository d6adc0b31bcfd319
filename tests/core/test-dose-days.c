/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dose-days.c: what the days behind say, each number of it one below, at and
 * above. Behind the last day there is noise, which nobody may look at. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "day-record.h"
#include "dose-days.h"

#define T 20880
#define MIN CARPACE_MINUTE_MS

static CarpaceHistory h;

/* A day that would speak in every sum and row. */
static const CarpaceDayRecord noise = {
  .day = T - 1, .dose_ms = 60 * MIN, .done_ms = 60 * MIN, .limits_ms = 60 * MIN, .match_ms = 600 * MIN, .rating_sum = 90, .n_ratings = 10,
  .highest = 9, .worse = true, .above_stop = true, .ended_above_stop = true, .last_answered = true, .rule = CARPACE_RULE_CUT,
  .morning = { .waking = 9 },
};

static int
begin (void **state)
{
  carpace_history_init (&h);
  for (int i = 0; i < CARPACE_HISTORY_DAYS; i++)
    h.days[i] = noise;
  h.first_dose_ms = h.dose_ms = h.level_ms = 60 * MIN;
  return 0;
}

/* A good day @ago dates before today, to be changed. */
static CarpaceDayRecord *
add (int ago)
{
  const CarpaceDayRecord day = { .day = T - ago, .dose_ms = 60 * MIN, .done_ms = 60 * MIN, .limits_ms = 60 * MIN,
                                 .n_ratings = 2, .last_answered = true, .rule = CARPACE_RULE_KEEP, .other_ms = -1,
                                 .morning = { .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 } };

  carpace_history_add (&h, &day);
  return &h.days[h.n_days - 1];
}

static void
parts_of_a_whole (void **state)
{
  static const struct { int64_t base, part, whole, unit, is; } rows[] = {
    { 90, 7, 10, 1, 63 },  { 99, 7, 10, 1, 69 },  { 10, 3, 1, 1, 30 },  { 10, 3, 0, 1, 0 },
    { 103, 1, 1, 0, 103 }, { 103, 1, 1, 1, 103 }, { 103, 1, 1, 2, 102 }, { 103, 1, 1, 10, 100 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    assert_int_equal (carpace_ratio_down_ms (rows[i].base, rows[i].part, rows[i].whole, rows[i].unit), rows[i].is);
}

static void
a_history_with_nothing_in_it (void **state)
{
  memset (&h, 0x5a, sizeof h);
  carpace_history_init (&h);
  assert_true (h.straight_back);
  assert_int_equal (h.last_change, CARPACE_NO_DAY);
  assert_int_equal (h.level_change, CARPACE_NO_DAY);
  assert_int_equal (h.last_down, CARPACE_NO_DAY);
  assert_int_equal (h.last_cut, CARPACE_NO_DAY);
  assert_int_equal (h.last_rest_day, CARPACE_NO_DAY);
  assert_int_equal (h.last_unanswered, CARPACE_NO_DAY);
  assert_int_equal (h.rows_from, CARPACE_NO_DAY);
  assert_int_equal (h.caution_since, CARPACE_NO_DAY);
  assert_int_equal (h.caution_closed, CARPACE_NO_DAY);
  assert_int_equal (h.n_days, 0);
  assert_int_equal (h.first_dose_ms, 0);
}

static void
the_oldest_day_gives_way (void **state)
{
  for (int n = 1; n <= CARPACE_HISTORY_DAYS + 2; n++)
    {
      add (100 - n);
      assert_int_equal (h.n_days, n < CARPACE_HISTORY_DAYS ? n : CARPACE_HISTORY_DAYS);
      for (int i = 0; i < h.n_days; i++)
        assert_int_equal (h.days[i].day, T - 100 + n - h.n_days + 1 + i);
    }
}

static void
the_last_practice (void **state)
{
  assert_int_equal (carpace_history_last_practice (&h), -1);
  add (3)->done_ms = 0;
  assert_int_equal (carpace_history_last_practice (&h), -1);
  h.days[0].done_ms = 1;
  assert_int_equal (carpace_history_last_practice (&h), 0);
  add (2)->done_ms = 0;
  assert_int_equal (carpace_history_last_practice (&h), 0);
  add (1);
  assert_int_equal (carpace_history_last_practice (&h), 2);
}

static void
numbers_above_stop (void **state)
{
  add (3)->above_stop = true;
  assert_int_equal (carpace_history_above_stop (&h, T - 3, T - 3, CARPACE_NO_DAY), 1);
  assert_int_equal (carpace_history_above_stop (&h, T - 2, T, CARPACE_NO_DAY), 0);
  assert_int_equal (carpace_history_above_stop (&h, T - 9, T - 4, CARPACE_NO_DAY), 0);
  assert_int_equal (carpace_history_above_stop (&h, T - 9, T, T - 3), 0);
  h.days[0].ended_above_stop = true;
  add (2)->above_stop = true;
  assert_int_equal (carpace_history_above_stop (&h, T - 9, T, CARPACE_NO_DAY), 1);
  add (1)->above_stop = true;
  assert_int_equal (carpace_history_above_stop (&h, T - 9, T, CARPACE_NO_DAY), 2);
}

static void
two_cuts_in_a_row (void **state)
{
  add (2)->rule = CARPACE_RULE_CUT;
  assert_false (carpace_history_two_cuts (&h));
  add (1)->rule = CARPACE_RULE_CUT_ONCE;
  assert_true (carpace_history_two_cuts (&h));
  h.rows_from = T - 3;
  assert_true (carpace_history_two_cuts (&h));
  h.rows_from = T - 2;
  assert_false (carpace_history_two_cuts (&h));
}

static void
full_days (void **state)
{
  add (2)->dose_ms = 54 * MIN;
  add (1)->dose_ms = 54 * MIN - 1;
  assert_true (carpace_history_full_day (&h, T - 2));
  assert_false (carpace_history_full_day (&h, T - 1));
  assert_false (carpace_history_full_day (&h, T - 3));
  h.days[0].done_ms = 0;
  assert_false (carpace_history_full_day (&h, T - 2));
}

static void
worse_mornings_after_them (void **state)
{
  add (3)->worse = true; /* nothing is known of the day before it */
  assert_int_equal (carpace_history_worse_after_full (&h, T - 9), 0);
  add (2)->worse = true;
  assert_int_equal (carpace_history_worse_after_full (&h, T - 2), 1);
  assert_int_equal (carpace_history_worse_after_full (&h, T - 1), 0);
  h.level_change = T - 3;
  assert_int_equal (carpace_history_worse_after_full (&h, T - 9), 1);
  h.level_change = T - 2;
  assert_int_equal (carpace_history_worse_after_full (&h, T - 9), 0);
  h.level_change = CARPACE_NO_DAY;
  h.days[1].rule = CARPACE_RULE_KEEP_OTHER_LOAD;
  assert_int_equal (carpace_history_worse_after_full (&h, T - 9), 0);
  h.days[1].rule = CARPACE_RULE_KEEP_NO_PRACTICE;
  assert_int_equal (carpace_history_worse_after_full (&h, T - 9), 0);
}

static void
what_was_done (void **state)
{
  int32_t n;

  add (3)->done_ms = 1;
  add (2)->done_ms = 20;
  add (1)->done_ms = 0;
  add (0)->done_ms = 300;
  assert_int_equal (carpace_history_done_ms (&h, T - 3, T - 1, &n), 21);
  assert_int_equal (n, 2);
  assert_int_equal (carpace_history_done_ms (&h, T - 2, T - 1, &n), 20);
  assert_int_equal (n, 1);
  assert_int_equal (carpace_history_done_ms (&h, T - 3, T, &n), 321);
  assert_int_equal (n, 3);
}

static void
waking_numbers (void **state)
{
  CarpaceMorning check = { .waking = 0 };
  int32_t waking[4] = { 99, 99, 99, 99 };

  add (3)->morning.waking = 3;
  add (2)->morning.waking = -1;
  add (1)->morning.waking = 0;
  assert_int_equal (carpace_history_wakings (&h, &check, 3, waking), 3);
  assert_true (waking[0] == 0 && waking[1] == 0 && waking[2] == 3 && waking[3] == 99);
  assert_int_equal (carpace_history_wakings (&h, NULL, 3, waking), 2);
  assert_true (waking[0] == 0 && waking[1] == 3);
  check.waking = -1;
  assert_int_equal (carpace_history_wakings (&h, &check, 3, waking), 2);
  check.waking = 5;
  waking[0] = waking[1] = 99;
  assert_int_equal (carpace_history_wakings (&h, &check, 0, waking), 0);
  assert_int_equal (waking[0], 99);
  assert_int_equal (carpace_history_wakings (&h, &check, 1, waking), 1);
  assert_true (waking[0] == 5 && waking[1] == 99);
}

/* Matches of yesterday against the mean of days with matches in the 14 before it. */
static void
another_load (void **state)
{
  static const struct { const char *name; int ago; int64_t before_ms; int ago_2; int64_t before_2_ms, yesterday_ms; bool said, is; } rows[] = {
    { "no match, said", 2, 100, 3, 0, 0, true, true },
    { "no match, not said", 2, 100, 3, 0, 0, false, false },
    { "the first match", 2, 0, 3, 0, 1, false, true },
    { "130 %", 2, 100, 3, 0, 130, false, false },
    { "129 %, said", 2, 100, 3, 0, 129, true, false },
    { "131 %", 2, 100, 3, 0, 131, false, true },
    { "of the mean", 2, 100, 3, 300, 260, false, false },
    { "over it", 2, 100, 3, 300, 261, false, true },
    { "the shortest match is one", 2, 1, 3, 0, 1, false, false },
    { "14 dates before it", 15, 100, 16, 0, 130, false, false },
    { "15 are out", 16, 100, 17, 0, 1, false, true },
    { "15 beside 14", 16, 100, 15, 200, 260, false, false },
    { "13", 14, 100, 13, 300, 260, false, false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceMorning check = { .other_load = rows[i].said };
      begin (state);
      add (rows[i].ago)->match_ms = rows[i].before_ms;
      add (rows[i].ago_2)->match_ms = rows[i].before_2_ms;
      add (1)->match_ms = rows[i].yesterday_ms;
      add (0)->match_ms = 1; /* today's own say nothing */
      if (carpace_history_other_load (&h, &check, T) != rows[i].is)
        fail_msg ("%s", rows[i].name);
    }
}

/* A day's ratings: how many, and what they come to. */
static void
rated (int ago, int32_t sum, int32_t n)
{
  CarpaceDayRecord *day = add (ago);

  day->rating_sum = sum;
  day->n_ratings = n;
}

static void
a_week_up (void **state)
{
  static const struct { const char *name; int ago; int32_t sum, n; bool is; } rows[] = {
    { "at it", 1, 6, 3, true },      { "under it", 1, 5, 3, false }, { "over it", 1, 7, 3, true },
    { "7 dates before", 7, 2, 1, true }, { "8", 8, 2, 1, false },    { "today", 0, 2, 1, false },
    { "no ratings", 1, 0, 0, false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      begin (state);
      rated (rows[i].ago, rows[i].sum, rows[i].n);
      if (carpace_history_week_up (&h, T, 2) != rows[i].is)
        fail_msg ("%s", rows[i].name);
    }
}

static void
a_week_rising (void **state)
{
  static const struct { const char *name; int before_ago; int32_t sum_before, n_before; int ago; int32_t sum, n; bool is; } rows[] = {
    { "over 0.5 up", 8, 6, 6, 1, 10, 6, true },      { "0.5", 8, 6, 6, 1, 9, 6, false },
    { "the first and the last date", 14, 6, 6, 7, 10, 6, true },
    { "one before them", 15, 6, 6, 7, 10, 6, false }, { "today", 14, 6, 6, 0, 10, 6, false },
    { "5 ratings before", 8, 5, 5, 1, 10, 6, false }, { "7", 8, 7, 7, 1, 12, 7, true },
    { "5 after", 8, 6, 6, 1, 10, 5, false },
  };
  int32_t mean = 0, before = 0;

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      begin (state);
      rated (rows[i].before_ago, rows[i].sum_before, rows[i].n_before);
      rated (rows[i].ago, rows[i].sum, rows[i].n);
      if (carpace_history_week_rising (&h, T, NULL, NULL) != rows[i].is)
        fail_msg ("%s", rows[i].name);
    }
  begin (state);
  rated (8, 8, 7);
  rated (1, 13, 6);
  assert_true (carpace_history_week_rising (&h, T, &mean, &before));
  assert_int_equal (mean, 216); /* hundredths, down */
  assert_int_equal (before, 114);
}

/* The last three days with ratings against the week. */
static void
the_last_days_not_below (void **state)
{
  static const struct { const char *name; int32_t sums[4], first_ago; int32_t rows_from_ago; bool is; } rows[] = {
    { "as the week", { 2, 2, 2, 2 }, 4, 99, true },
    { "below", { 3, 2, 2, 2 }, 4, 99, false },
    { "above", { 1, 2, 2, 2 }, 4, 99, true },
    { "the oldest is of the week", { 3, 2, 2, 2 }, 7, 99, false },
    { "it is not", { 3, 2, 2, 2 }, 8, 99, true },
    { "yesterday is of the week", { 4, 2, 2, 5 }, 4, 99, false },
    { "three since a caution", { 1, 2, 2, 2 }, 4, 4, true },
    { "two", { 1, 2, 2, 2 }, 4, 3, false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      begin (state);
      h.rows_from = T - rows[i].rows_from_ago;
      rated (rows[i].first_ago, rows[i].sums[0], 1);
      rated (3, rows[i].sums[1], 1);
      add (2)->n_ratings = 0; /* passed over */
      rated (2, rows[i].sums[2], 1);
      rated (1, rows[i].sums[3], 1);
      if (carpace_history_last_days_not_below (&h, T) != rows[i].is)
        fail_msg ("%s", rows[i].name);
    }
  begin (state);
  for (int ago = 3; ago > 0; ago--)
    rated (ago, 2, 1); /* there are no others */
  assert_true (carpace_history_last_days_not_below (&h, T));
  rated (0, 0, 1); /* today's are among the last, not of the week */
  assert_false (carpace_history_last_days_not_below (&h, T));
}

static void
days_without_answers (void **state)
{
  add (3)->morning.waking = -1;
  assert_int_equal (carpace_history_days_without_check (&h), 1);
  assert_int_equal (carpace_history_unanswered_days (&h), 0); /* its ratings */
  h.days[0].n_ratings = 1;
  assert_int_equal (carpace_history_unanswered_days (&h), 0);
  h.days[0].n_ratings = 0;
  assert_int_equal (carpace_history_unanswered_days (&h), 1);
  *add (2) = h.days[0];
  h.days[1].day = T - 2;
  h.days[1].done_ms = 0;
  *add (1) = h.days[0];
  h.days[2].day = T - 1;
  assert_int_equal (carpace_history_days_without_check (&h), 2);
  assert_int_equal (carpace_history_unanswered_days (&h), 2);
  assert_int_equal (carpace_history_unanswered_since (&h, T - 3), 2);
  assert_int_equal (carpace_history_unanswered_since (&h, T - 2), 1);
  h.days[0].morning.waking = 0;
  assert_int_equal (carpace_history_days_without_check (&h), 1);
  assert_int_equal (carpace_history_unanswered_days (&h), 1);
}

static const CarpaceMorning fine = { .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };

static void
rows_of_settled_and_good_days (void **state)
{
  add (2);
  add (1);
  assert_int_equal (carpace_history_settled_row (&h, &fine, false, false), 2);
  assert_int_equal (carpace_history_good_row (&h, &fine, false), 2);
  h.last_change = T - 2;
  assert_int_equal (carpace_history_settled_row (&h, &fine, false, false), 2);
  assert_int_equal (carpace_history_good_row (&h, &fine, false), 2);
  h.last_change = T - 1;
  assert_int_equal (carpace_history_settled_row (&h, &fine, false, false), 1);
  assert_int_equal (carpace_history_good_row (&h, &fine, false), 1);
  h.last_change = CARPACE_NO_DAY;
  assert_int_equal (carpace_history_settled_row (&h, &fine, true, false), 0);
  assert_int_equal (carpace_history_settled_row (&h, NULL, false, false), 1);
  assert_int_equal (carpace_history_settled_row (&h, NULL, false, true), 2);
  assert_int_equal (carpace_history_good_row (&h, NULL, false), 1);
}

static void
any_settled_day_since (void **state)
{
  assert_false (carpace_history_settled_since (&h, T - 9, &fine, false));
  add (2);
  assert_true (carpace_history_settled_since (&h, T - 2, &fine, false));
  assert_false (carpace_history_settled_since (&h, T - 1, &fine, false));
  add (1)->tightened_2 = true;
  assert_true (carpace_history_settled_since (&h, T - 2, &fine, false));
  assert_false (carpace_history_settled_since (&h, T - 1, &fine, false));
  h.days[0].done_ms = 0;
  assert_false (carpace_history_settled_since (&h, T - 2, &fine, false));
}

/* 80 and 115 % of what the limits came to, to the millisecond; half the dose. */
static void
how_much_is_good (void **state)
{
  static const struct { int64_t done_ms; CarpaceUncounted good, settled; } rows[] = {
    { 30 * MIN - 1, CARPACE_UNCOUNTED_TOO_LITTLE, CARPACE_UNCOUNTED_TOO_LITTLE },
    { 30 * MIN, CARPACE_UNCOUNTED_TOO_LITTLE, CARPACE_UNCOUNTED_NOT },
    { 48 * MIN - 1, CARPACE_UNCOUNTED_TOO_LITTLE, CARPACE_UNCOUNTED_NOT },
    { 48 * MIN, CARPACE_UNCOUNTED_NOT, CARPACE_UNCOUNTED_NOT },
    { 69 * MIN, CARPACE_UNCOUNTED_NOT, CARPACE_UNCOUNTED_NOT },
    { 69 * MIN + 1, CARPACE_UNCOUNTED_TOO_MUCH, CARPACE_UNCOUNTED_NOT },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      begin (state);
      add (1)->done_ms = rows[i].done_ms;
      assert_int_equal (carpace_history_uncounted (&h, &fine, false, true), rows[i].good);
      assert_int_equal (carpace_history_uncounted (&h, &fine, false, false), rows[i].settled);
    }
}

static void
what_keeps_a_day_from_counting (void **state)
{
  CarpaceMorning relief = fine;

  relief.pain_relief = true;
  assert_int_equal (carpace_history_uncounted (&h, &fine, false, true), CARPACE_UNCOUNTED_NOT);
  add (1)->near_stop = true;
  h.last_change = T - 1;
  assert_int_equal (carpace_history_uncounted (&h, &fine, false, true), CARPACE_UNCOUNTED_NEAR_STOP);
  h.last_change = T;
  assert_int_equal (carpace_history_uncounted (&h, &fine, false, true), CARPACE_UNCOUNTED_NOT);
  h.last_change = CARPACE_NO_DAY;
  h.days[0].near_stop = false;
  assert_int_equal (carpace_history_uncounted (&h, &relief, false, true), CARPACE_UNCOUNTED_PAIN_RELIEF);
  assert_int_equal (carpace_history_uncounted (&h, &relief, false, false), CARPACE_UNCOUNTED_NOT);
  assert_int_equal (carpace_history_uncounted (&h, &fine, true, true), CARPACE_UNCOUNTED_WORSE_AFTER);
  assert_int_equal (carpace_history_uncounted (&h, NULL, false, true), CARPACE_UNCOUNTED_UNCHECKED);
  add (0)->done_ms = 0; /* an opened day after it has its morning */
  assert_int_equal (carpace_history_uncounted (&h, NULL, true, true), CARPACE_UNCOUNTED_NOT);
  h.days[1].morning.pain_relief = true;
  assert_int_equal (carpace_history_uncounted (&h, &fine, false, true), CARPACE_UNCOUNTED_PAIN_RELIEF);
}

/* What a day's record has of what was said: at stop-above is not above it. */
static void
a_record_of_a_day (void **state)
{
  CarpaceMorning morning = { .waking = 5, .stiffness = CARPACE_STIFFNESS_USUAL, .now = 5, .site = CARPACE_SITE_NONE + 1 };
  CarpaceDayRecord record = carpace_record_of_day (T);

  assert_true (record.day == T && record.other_ms == -1 && record.highest == -1);
  assert_true (record.morning.waking == -1 && record.morning.now == -1 && record.n_ratings == 0);
  carpace_record_morning (&record, &morning, 5, 5);
  assert_int_equal (record.morning.site, CARPACE_SITE_NONE); /* where it is felt is not kept */
  assert_false (record.above_stop);
  carpace_record_rating (&record, 5, false, 5, 5);
  assert_false (record.above_stop || record.ended_above_stop || record.near_stop);
  assert_int_equal (record.highest, 5);
  morning.now = 6;
  carpace_record_morning (&record, &morning, 5, 5);
  assert_true (record.above_stop && !record.ended_above_stop);
  carpace_record_rating (&record, 6, false, 5, 5);
  assert_true (record.ended_above_stop);
}

#define ROW(test) cmocka_unit_test_setup (test, begin)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ROW (parts_of_a_whole),
    ROW (a_history_with_nothing_in_it),
    ROW (the_oldest_day_gives_way),
    ROW (the_last_practice),
    ROW (numbers_above_stop),
    ROW (two_cuts_in_a_row),
    ROW (full_days),
    ROW (worse_mornings_after_them),
    ROW (what_was_done),
    ROW (waking_numbers),
    ROW (another_load),
    ROW (a_week_up),
    ROW (a_week_rising),
    ROW (the_last_days_not_below),
    ROW (days_without_answers),
    ROW (rows_of_settled_and_good_days),
    ROW (any_settled_day_since),
    ROW (how_much_is_good),
    ROW (what_keeps_a_day_from_counting),
    ROW (a_record_of_a_day),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
