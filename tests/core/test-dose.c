/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dose.c: a row for every row of the table that decides the next day's
 * dose. Each tells the days behind, this morning, and what is decided. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/names.h"
#include "trace.h"

#define TODAY 20880
#define MIN CARPACE_MINUTE_MS

/* A day behind, in letters:
 *   g  a good day                        u  nothing against it, last block not answered
 *   n  settled, but a number near stop   h  half done only, nothing else
 *   w  a worse morning                   c  a day that was cut (worse morning)
 *   a  ended above stop-above            r  a rest day
 *   o  kept for another load (worse)     -  no practice, opened
 *   .  not opened at all                 x  a good day without a check
 * A digit before a letter is the rating of both its blocks. */
typedef struct
{
  const char *name;
  const char *days;        /* oldest first; the last one is yesterday */
  int waking;              /* -1: skipped; -2: no check at all */
  CarpaceStiffness stiffness;
  bool other_load;
  int dose_min, way_back_min;  /* 0: 60 and none */
  int changed_days_ago, rose_days_ago, cut_days_ago; /* 0: never */
  CarpaceRule rule;
  int to_min;              /* the dose as it stands after it */
  bool no_practice, caution;
} Row;

static const Row rows[] = {
  { "the first day keeps", "", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "the first day, worse: cut from the plan's dose", "", 3, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39 },
  { "waking above stop: no practice, cut now", "g", 6, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39, .no_practice = true },
  { "above stop twice within 7 days: a caution", "a..c", 6, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39, .no_practice = true, .caution = true },
  { "an evening above 5 and the morning after count as one", "ga", 6, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39, .no_practice = true },
  { "the last day ended above stop: cut, settled or not", "ga", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39 },
  { "twice within 7 days: a caution", "a.ga", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39, .no_practice = true, .caution = true },
  { "8 days apart: none", "a.......ga", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39 },
  { "worse after two cuts in a row: a rest day", "gcc", 3, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "keeps between cuts are passed over", "gcgc", 3, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "worse after a rest day: another; a second within 14 days: a caution", "gr", 3, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true, .caution = true },
  { "worse, last practice over 72 h ago: keep", "g...", 3, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP_NO_PRACTICE, .to_min = 60 },
  { "worse, another load: keep", "g", 3, CARPACE_STIFFNESS_USUAL, .other_load = true, .rule = CARPACE_RULE_KEEP_OTHER_LOAD, .to_min = 60 },
  { "not twice for that", "go", 3, CARPACE_STIFFNESS_USUAL, .other_load = true, .rule = CARPACE_RULE_CUT, .to_min = 39 },
  { "stiffer than usual is worse", "g", 0, CARPACE_STIFFNESS_MORE, .rule = CARPACE_RULE_CUT, .to_min = 39 },
  { "waking 2 above usual is worse", "g", 2, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39 },
  { "waking 1 above is not", "g", 1, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "cut from what was done, half the dose at least", "h", 3, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 19 },
  { "never under least", "g", 3, CARPACE_STIFFNESS_USUAL, .dose_min = 16, .rule = CARPACE_RULE_CUT, .to_min = 15 },
  { "a practice day is cut for once", "c-", 3, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_CUT, .to_min = 39 },
  { "a week off: one step lower", "g......", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 54 },
  { "three weeks off: three", "g....................", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 42 },
  { "not under half the first dose", "g............................................................", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 30 },
  { "six days off are none", "g.....", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "a week's mean over 0.5 up: keep", "0g0g0g0g0g0g0g1g1g1g1g1g1g1g", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "two weeks rising: a caution", "0g0g0g0g0g0g0g1g1g1g1g1g1g1g2g2g2g2g2g2g2g", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60, .no_practice = true, .caution = true },
  { "rising, but the last three days are below the week", "0g0g0g0g0g0g0g1g1g1g1g1g1g1g3g3g3g3g1g1g1g", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "on the way back, two settled days: up 20 % of the first", "gg", 0, CARPACE_STIFFNESS_USUAL, .dose_min = 39, .way_back_min = 60, .changed_days_ago = 2, .rule = CARPACE_RULE_WAY_BACK, .to_min = 51 },
  { "to the way back at most", "gg", 0, CARPACE_STIFFNESS_USUAL, .dose_min = 51, .way_back_min = 60, .changed_days_ago = 2, .rule = CARPACE_RULE_WAY_BACK, .to_min = 60 },
  { "days before the change do not count", "gg", 0, CARPACE_STIFFNESS_USUAL, .dose_min = 39, .way_back_min = 60, .changed_days_ago = 1, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "without today's waking nothing rises", "gg", -1, CARPACE_STIFFNESS_USUAL, .dose_min = 39, .way_back_min = 60, .changed_days_ago = 2, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "but the way back, after 7 practice days without a check", "xxxxxxx", -2, CARPACE_STIFFNESS_UNSAID, .dose_min = 39, .way_back_min = 60, .changed_days_ago = 7, .rule = CARPACE_RULE_WAY_BACK, .to_min = 51 },
  { "not after 6", "xxxxxx", -2, CARPACE_STIFFNESS_UNSAID, .dose_min = 39, .way_back_min = 60, .changed_days_ago = 6, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "three good days: up by a step", "ggg", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_STEP_UP, .to_min = 66 },
  { "two are not enough", "gg", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "an unanswered day neither counts nor breaks a row", "ggug", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_STEP_UP, .to_min = 66 },
  { "a number near stop breaks it", "ggng", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "half done breaks it", "gghg", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "a worse morning breaks it", "ggwg", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "days without practice are passed over", "gg-g", 0, CARPACE_STIFFNESS_USUAL, .rule = CARPACE_RULE_STEP_UP, .to_min = 66 },
  { "not within 7 days of a rise", "gggggg", 0, CARPACE_STIFFNESS_USUAL, .changed_days_ago = 6, .rose_days_ago = 6, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "7 days after it", "ggggggg", 0, CARPACE_STIFFNESS_USUAL, .changed_days_ago = 7, .rose_days_ago = 7, .rule = CARPACE_RULE_STEP_UP, .to_min = 66 },
  { "to at-most", "ggg", 0, CARPACE_STIFFNESS_USUAL, .dose_min = 87, .rule = CARPACE_RULE_STEP_UP, .to_min = 90 },
  { "no higher", "ggg", 0, CARPACE_STIFFNESS_USUAL, .dose_min = 90, .rule = CARPACE_RULE_KEEP, .to_min = 90 },
  { "no check made: keep", "ggg", -2, CARPACE_STIFFNESS_UNSAID, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
};

static CarpaceDayRecord
day_of_letter (char letter, int32_t rating, CarpaceDay day, int64_t dose_ms)
{
  CarpaceDayRecord d = { .day = day, .dose_ms = dose_ms, .done_ms = dose_ms, .limits_ms = dose_ms, .highest = rating,
                         .rating_sum = 2 * rating, .n_ratings = 2, .last_answered = true, .other_ms = -1,
                         .last_end_elapsed_ms = (int64_t) day * CARPACE_DAY_MS, .rule = CARPACE_RULE_KEEP };

  d.morning = (CarpaceMorning){ .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
  d.last_answered = letter != 'u';
  d.near_stop = letter == 'n';
  d.worse = strchr ("wcor", letter) != NULL;
  if (letter == 'h')
    d.done_ms = dose_ms / 4;
  if (letter == 'a')
    d.ended_above_stop = d.above_stop = true;
  if (letter == 'c')
    d.rule = CARPACE_RULE_CUT;
  if (letter == 'o')
    d.rule = CARPACE_RULE_KEEP_OTHER_LOAD;
  if (letter == 'x')
    d.morning.waking = -1;
  if (letter == 'r')
    d.rule = CARPACE_RULE_REST_DAY;
  if (letter == 'r' || letter == '-')
    {
      d.done_ms = d.rating_sum = d.n_ratings = 0;
      d.last_answered = false;
      d.last_end_elapsed_ms = 0;
    }
  return d;
}

static void
add_days (CarpaceHistory *h, const Row *row)
{
  int n = 0;
  CarpaceDay day;

  for (const char *at = row->days; *at != '\0'; at++)
    n += *at < '0' || *at > '9';
  day = TODAY - n;
  for (const char *at = row->days; *at != '\0'; at++)
    {
      int32_t rating = 0;
      CarpaceDayRecord record;
      if (*at >= '0' && *at <= '9')
        rating = *at++ - '0';
      record = day_of_letter (*at, rating, day, h->dose_ms);
      if (*at != '.')
        carpace_history_add (h, &record);
      if (*at == 'r')
        h->last_rest_day = day;
      day++;
    }
}

static void
test_rows (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);
  int failed = 0;

  carpace_trace_plan (plan, 2, 30);
  plan->at_most_ms = 90 * MIN;
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const Row *row = &rows[i];
      CarpaceMorning check = { .waking = row->waking, .stiffness = row->stiffness, .now = -1, .other_load = row->other_load };
      CarpaceDecision d;
      carpace_history_init (h);
      carpace_dose_use_plan (h, plan, TODAY);
      h->dose_ms = row->dose_min > 0 ? row->dose_min * MIN : 60 * MIN;
      h->way_back_ms = row->way_back_min * MIN;
      h->last_change = row->changed_days_ago > 0 ? TODAY - row->changed_days_ago : CARPACE_NO_DAY;
      h->last_rise = row->rose_days_ago > 0 ? TODAY - row->rose_days_ago : CARPACE_NO_DAY;
      add_days (h, row);
      carpace_dose_decide (h, plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, row->waking == -2 ? NULL : &check, &d);
      if (d.rule == row->rule && d.kept_ms == row->to_min * MIN && d.no_practice == row->no_practice
          && d.opens_caution == row->caution && d.after_ms == (row->no_practice ? 0 : d.kept_ms))
        continue;
      print_error ("%s: %s, %g min%s%s\n", row->name, carpace_name (CARPACE_WORDS_RULE, (int32_t) d.rule),
                   (double) d.kept_ms / MIN, d.no_practice ? ", no practice" : "", d.opens_caution ? ", a caution" : "");
      failed++;
    }
  free (h);
  free (plan);
  assert_int_equal (failed, 0);
}

static void
test_cut_and_way_back (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);
  CarpaceMorning worse = { .waking = 3, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
  CarpaceDecision d;

  carpace_trace_plan (plan, 2, 30);
  carpace_history_init (h);
  carpace_dose_use_plan (h, plan, TODAY);
  add_days (h, &(Row){ .days = "g" });
  carpace_dose_decide (h, plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, &worse, &d);
  assert_int_equal (h->way_back_ms, 60 * MIN); /* the dose before the first cut */
  assert_true (h->days[0].cut_for);
  carpace_dose_decide (h, plan, TODAY + 1, (int64_t) (TODAY + 1) * CARPACE_DAY_MS, &worse, &d);
  assert_int_equal (d.rule, CARPACE_RULE_KEEP); /* a practice day is cut for once */
  assert_int_equal (h->dose_ms, 39 * MIN);
  free (h);
  free (plan);
}

static void
test_caution_closed (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);
  CarpaceMorning fine = { .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
  CarpaceDecision d;

  carpace_trace_plan (plan, 2, 30);
  carpace_history_init (h);
  carpace_dose_use_plan (h, plan, TODAY);
  add_days (h, &(Row){ .days = "gcc" });
  h->caution_open = true;
  carpace_dose_decide (h, plan, TODAY, 0, &fine, &d);
  assert_int_equal (d.rule, CARPACE_RULE_CAUTION);
  assert_true (d.no_practice);
  assert_int_equal (d.kept_ms, 60 * MIN);
  carpace_dose_close_caution (h, TODAY);
  assert_int_equal (h->dose_ms, 30 * MIN); /* the lower of the present and half the first */
  assert_int_equal (h->way_back_ms, 60 * MIN);
  carpace_dose_decide (h, plan, TODAY, 0, &fine, &d);
  assert_true (d.no_practice); /* not on the day it was closed */
  fine.waking = 3;
  add_days (h, &(Row){ .days = "g" });
  carpace_dose_decide (h, plan, TODAY + 1, (int64_t) TODAY * CARPACE_DAY_MS, &fine, &d);
  assert_int_equal (d.rule, CARPACE_RULE_CUT); /* the rows of cuts begin anew: no rest day */
  free (h);
  free (plan);
}

static void
test_new_plan (void **state)
{
  static const struct { const char *name; int cut_days_ago, dose_min, new_min, to_min; } cases[] = {
    { "no cut lately: the new dose", 0, 66, 45, 45 },
    { "a cut in the last 14 days: the lower of both", 10, 39, 45, 39 },
    { "the lower may be the new one", 10, 39, 30, 30 },
    { "15 days ago is not lately", 15, 39, 45, 45 },
  };
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);

  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
    {
      carpace_trace_plan (plan, 2, 30);
      carpace_history_init (h);
      carpace_dose_use_plan (h, plan, TODAY - 20);
      h->dose_ms = cases[i].dose_min * MIN;
      h->last_cut = cases[i].cut_days_ago > 0 ? TODAY - cases[i].cut_days_ago : CARPACE_NO_DAY;
      plan->dose_ms = cases[i].new_min * MIN;
      carpace_dose_use_plan (h, plan, TODAY);
      if (h->dose_ms != cases[i].to_min * MIN)
        fail_msg ("%s: %g min", cases[i].name, (double) h->dose_ms / MIN);
    }
  free (h);
  free (plan);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_rows), cmocka_unit_test (test_cut_and_way_back),
                                      cmocka_unit_test (test_caution_closed), cmocka_unit_test (test_new_plan) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
