/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dose-walks.c: days in a row, each decided and lived as asked; what a closed
 * caution, a new plan and any days whatever make of them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "dose-rows.h"
#include "random.h"

/* Several days in a row, each decided, taken in and practised as asked. */
typedef struct
{
  const char *name;
  int waking;        /* -1: no check */
  const char *day;   /* the day's record, as above; NULL: not opened */
  CarpaceRule rule;
  int to_min, to_level_min;
  bool closes;       /* a caution is closed that evening */
} Walk;

static const Walk cut_and_back[] = {
  { "first", 0, "g", CARPACE_RULE_KEEP, 60, 60 },
  { "a first worse morning", 3, "c", CARPACE_RULE_CUT_ONCE, 39, 60 },
  { "settled: straight back", 0, "g", CARPACE_RULE_WAY_BACK, 60, 60 },
  { "a second", 3, "c", CARPACE_RULE_CUT_ONCE, 39, 60 },
  { "straight back", 0, "g", CARPACE_RULE_WAY_BACK, 60, 60 },
  { "the third: the level comes down", 3, "C", CARPACE_RULE_CUT, 39, 51 },
  { "back in steps", 0, "g", CARPACE_RULE_WAY_BACK, 45, 51 },
  { "to the level", 0, "g", CARPACE_RULE_WAY_BACK, 51, 51 },
  { "one good day", 0, "g", CARPACE_RULE_KEEP, 51, 51 },
  { "two", 0, "g", CARPACE_RULE_KEEP, 51, 51 },
  { "three, but the level is 5 days old", 0, "g", CARPACE_RULE_KEEP, 51, 51 },
  { "6", 0, "g", CARPACE_RULE_KEEP, 51, 51 },
  { "7: a half step", 0, "g", CARPACE_RULE_STEP_UP, 54, 54 },
  { "a short cut again", 3, "c", CARPACE_RULE_CUT_ONCE, 35, 54 },
  { "no check", -1, "x", CARPACE_RULE_KEEP, 35, 54 },
  { "back", 0, "g", CARPACE_RULE_WAY_BACK, 54, 54 },
  { 0 },
};

static const Walk rest_day[] = {
  { "first", 0, "g", CARPACE_RULE_KEEP, 60, 60 },
  { "worse", 3, "c", CARPACE_RULE_CUT_ONCE, 39, 60 },
  { "worse at 39: not at the level, not full", 3, "c", CARPACE_RULE_CUT_ONCE, 25, 60 },
  { "worse after two cuts", 3, "r", CARPACE_RULE_REST_DAY, 25, 60 },
  { "better", 0, "g", CARPACE_RULE_KEEP, 25, 60 },
  { "one settled day of two", 0, "g", CARPACE_RULE_KEEP, 25, 60 },
  { "two", 0, "g", CARPACE_RULE_WAY_BACK, 31, 60 },
  { "two for each step", 0, "g", CARPACE_RULE_KEEP, 31, 60 },
  { "two more", 0, "g", CARPACE_RULE_WAY_BACK, 37, 60 },
  { 0 },
};

/* 130 % binds: the mean of 60, 39, 25 ... */
static const Walk caution[] = {
  { "first", 0, "g", CARPACE_RULE_KEEP, 60, 60 },
  { "above stop", 6, "m", CARPACE_RULE_CUT, 39, 51 },
  { "again: a caution; that practice day was cut for", 6, "m", CARPACE_RULE_CUT, 39, 43, .closes = true },
  { "the next practice day", 0, "g", CARPACE_RULE_KEEP, 30, 43 },
  { "one settled day of two", 0, "g", CARPACE_RULE_KEEP, 30, 43 },
  { "two: a step", 0, "g", CARPACE_RULE_WAY_BACK, 36, 43 },
  { 0 },
};

static const Walk time_off[] = {
  { "first", 0, "g", CARPACE_RULE_KEEP, 60, 60 },
  { "1", 0, NULL, 0, 0, 0 }, { "2", 0, NULL, 0, 0, 0 }, { "3", 0, NULL, 0, 0, 0 },
  { "4", 0, NULL, 0, 0, 0 }, { "5", 0, NULL, 0, 0, 0 }, { "6", 0, NULL, 0, 0, 0 },
  { "7 dates off", 0, "e", CARPACE_RULE_AFTER_TIME_OFF, 54, 54 },
  { "8: the same step", 0, "e", CARPACE_RULE_AFTER_TIME_OFF, 54, 54 },
  { "9", 0, "g", CARPACE_RULE_AFTER_TIME_OFF, 54, 54 },
  { "practised again", 0, "g", CARPACE_RULE_KEEP, 54, 54 },
  { "1", 0, NULL, 0, 0, 0 }, { "2", 0, NULL, 0, 0, 0 }, { "3", 0, NULL, 0, 0, 0 },
  { "4", 0, NULL, 0, 0, 0 }, { "5", 0, NULL, 0, 0, 0 }, { "6", 0, NULL, 0, 0, 0 },
  { "7 dates off again", 0, "e", CARPACE_RULE_AFTER_TIME_OFF, 48, 48 },
  { 0 },
};

/* 12 practice days of silence, and then answers. */
static const Walk silence[] = {
  { "1", -1, "s", CARPACE_RULE_KEEP, 60, 60 }, { "2", -1, "s", CARPACE_RULE_KEEP, 60, 60 },
  { "3", -1, "s", CARPACE_RULE_KEEP, 60, 60 }, { "4", -1, "s", CARPACE_RULE_KEEP, 60, 60 },
  { "5", -1, "s", CARPACE_RULE_KEEP, 60, 60 }, { "6", -1, "s", CARPACE_RULE_KEEP, 60, 60 },
  { "7", -1, "s", CARPACE_RULE_KEEP, 60, 60 }, { "8", -1, "s", CARPACE_RULE_KEEP, 60, 60 },
  { "9", -1, "s", CARPACE_RULE_KEEP, 60, 60 }, { "10", -1, "s", CARPACE_RULE_KEEP, 60, 60 },
  { "11", -1, "s", CARPACE_RULE_KEEP, 60, 60 }, { "12", -1, "s", CARPACE_RULE_KEEP, 60, 60 },
  { "after 12", -1, "s", CARPACE_RULE_NO_ANSWERS, 54, 60 },
  { "opened, not practised", -1, "-", CARPACE_RULE_KEEP, 54, 60 },
  { "14", -1, "s", CARPACE_RULE_KEEP, 54, 60 }, { "15", -1, "s", CARPACE_RULE_KEEP, 54, 60 },
  { "16", -1, "s", CARPACE_RULE_KEEP, 54, 60 }, { "17", -1, "s", CARPACE_RULE_KEEP, 54, 60 },
  { "18", -1, "s", CARPACE_RULE_KEEP, 54, 60 },
  { "after 18", -1, "s", CARPACE_RULE_NO_ANSWERS, 48, 60 },
  { "answered", -1, "g", CARPACE_RULE_KEEP, 48, 60 },
  { "the morning after", 0, "g", CARPACE_RULE_WAY_BACK, 54, 60 },
  { "and the next", 0, "g", CARPACE_RULE_WAY_BACK, 60, 60 },
  { 0 },
};

static void
walk (const Walk *days)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);

  carpace_trace_plan (plan, 2, 30);
  plan->at_most_ms = 90 * MIN;
  carpace_history_init (h);
  for (CarpaceDay today = TODAY; days->name != NULL; days++, today++)
    {
      CarpaceMorning check = { .waking = days->waking, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
      CarpaceDecision d;
      CarpaceDayRecord record;
      char letter;
      int count;
      if (days->day == NULL)
        continue;
      carpace_dose_decide (h, plan, today, (int64_t) today * CARPACE_DAY_MS, days->waking < 0 ? NULL : &check, &d);
      carpace_dose_apply (h, &d, today);
      if (d.rule != days->rule || h->dose_ms != days->to_min * MIN || h->level_ms != days->to_level_min * MIN
          || d.kept_ms != h->dose_ms || d.level_ms != h->level_ms)
        fail_msg ("%s: %s, %g of %g min", days->name, carpace_name (CARPACE_WORDS_RULE, (int32_t) d.rule),
                  (double) h->dose_ms / MIN, (double) h->level_ms / MIN);
      read_day (days->day, h->dose_ms, &record, &count, &letter);
      record.day = today;
      record.rule = d.rule;
      record.last_end_elapsed_ms = (int64_t) today * CARPACE_DAY_MS + CARPACE_HOUR_MS;
      if (days->closes)
        carpace_dose_close_caution (h, today, 0);
      carpace_history_add (h, &record);
    }
  free (h);
  free (plan);
}

static void
test_walks (void **state)
{
  walk (cut_and_back);
  walk (rest_day);
  walk (caution);
  walk (time_off);
  walk (silence);
}

static void
test_caution_closed (void **state)
{
  static const struct { const char *name; int first, dose, level, to_dose, to_level; } cases[] = {
    { "half the first", 60, 60, 60, 30, 60 },
    { "the present, where lower", 60, 25, 51, 25, 51 },
    { "the level is the first dose at most", 60, 66, 66, 30, 60 },
    { "not under least", 12, 12, 12, 10, 12 },
  };
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);
  CarpaceMorning fine = { .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
  CarpaceDecision d;

  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
    {
      carpace_trace_plan (plan, 2, 30);
      plan->dose_ms = cases[i].first * MIN;
      plan->at_most_ms = 90 * MIN;
      carpace_history_init (h);
      carpace_dose_use_plan (h, plan, TODAY);
      h->dose_ms = cases[i].dose * MIN;
      h->level_ms = cases[i].level * MIN;
      h->caution_open = true;
      carpace_dose_decide (h, plan, TODAY, 0, &fine, &d);
      assert_int_equal (d.rule, CARPACE_RULE_CAUTION);
      assert_true (d.no_practice && d.after_ms == 0 && d.kept_ms == cases[i].dose * MIN && d.level_ms == h->level_ms);
      carpace_dose_close_caution (h, TODAY, 0);
      if (h->dose_ms != cases[i].to_dose * MIN || h->level_ms != cases[i].to_level * MIN)
        fail_msg ("%s: %g of %g min", cases[i].name, (double) h->dose_ms / MIN, (double) h->level_ms / MIN);
      carpace_dose_decide (h, plan, TODAY, 0, &fine, &d);
      assert_true (d.no_practice); /* not on the day it was closed */
      carpace_dose_decide (h, plan, TODAY + 1, 0, &fine, &d);
      assert_false (d.no_practice);
    }
  free (h);
  free (plan);
}

static void
test_new_plan (void **state)
{
  static const struct { const char *name; int cut_days_ago, dose_min, level_min, new_min, at_most, to_min, to_level; } cases[] = {
    { "no cut lately: the new dose", 0, 66, 66, 45, 90, 45, 45 },
    { "a cut 13 days ago: the lower of both", 13, 39, 51, 45, 90, 39, 45 },
    { "14", 14, 39, 51, 45, 90, 39, 45 },
    { "15 days ago is not lately", 15, 39, 51, 45, 90, 45, 45 },
    { "the lower may be the new one", 10, 39, 51, 30, 90, 30, 30 },
    { "the same dose, a lower at-most", 0, 66, 72, 60, 65, 65, 65 },
    { "nothing new", 0, 39, 51, 60, 90, 39, 51 },
  };
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h), *folded = calloc (1, sizeof *folded);

  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
    {
      CarpaceDecision d;
      carpace_trace_plan (plan, 2, 30);
      carpace_history_init (h);
      carpace_dose_use_plan (h, plan, TODAY - 20);
      h->dose_ms = cases[i].dose_min * MIN;
      h->level_ms = cases[i].level_min * MIN;
      h->last_cut = cases[i].cut_days_ago > 0 ? TODAY - cases[i].cut_days_ago : CARPACE_NO_DAY;
      plan->dose_ms = cases[i].new_min * MIN;
      plan->at_most_ms = cases[i].at_most * MIN;
      *folded = *h;
      carpace_dose_decide (h, plan, TODAY, 0, NULL, &d);
      carpace_dose_use_plan (h, plan, TODAY);
      if (h->dose_ms != cases[i].to_min * MIN || h->level_ms != cases[i].to_level * MIN)
        fail_msg ("%s: %g of %g min", cases[i].name, (double) h->dose_ms / MIN, (double) h->level_ms / MIN);
      /* and a decision alone tells of the plan */
      carpace_dose_apply (folded, &d, TODAY);
      carpace_dose_apply (h, &d, TODAY);
      assert_same_history (folded, h);
    }
  free (folded);
  free (h);
  free (plan);
}

/* What says that the plan's usual discomfort is too low: it decides nothing. */
static void
test_usual_too_low (void **state)
{
  static const struct { const char *name, *days; int usual, waking, says; } cases[] = {
    { "9 of 14 above usual", "g^0#5,g^1#8", 0, 1, -1 },
    { "10", "g^0#4,g^1#9", 0, 1, 1 },
    { "11", "g^0#3,g^1#10", 0, 1, 1 },
    { "9 known", "g^1#8", 0, 1, -1 },
    { "10 known", "g^1#9", 0, 1, 1 },
    { "the 15th does not count", "g^1,g^0#5,g^1#8", 0, 1, -1 },
    { "the lower of the two in the middle", "g^1#7,g^2#6", 0, 2, 1 },
    { "5 of 14 are not the middle", "g^1#5,g^2#8", 0, 2, 2 },
    { "above a usual 1", "g^2#13", 1, 2, 2 },
    { "at it", "g^1#13", 1, 1, -1 },
  };
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);

  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
    {
      CarpaceMorning check = { .waking = cases[i].waking, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
      CarpaceDecision d;
      carpace_trace_plan (plan, 2, 30);
      plan->usual_discomfort = cases[i].usual;
      carpace_history_init (h);
      carpace_dose_use_plan (h, plan, TODAY);
      add_days (h, cases[i].days, TODAY);
      carpace_dose_decide (h, plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, &check, &d);
      if (d.mornings_say != cases[i].says)
        fail_msg ("%s: %d", cases[i].name, (int) d.mornings_say);
    }
  free (h);
  free (plan);
}

/* Steps and bounds are whole milliseconds, whatever the plan's numbers are. */
static void
test_to_the_millisecond (void **state)
{
  CarpaceMorning fine = { .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
  CarpacePlan plan;
  CarpaceHistory h;
  CarpaceDecision d;

  carpace_trace_plan (&plan, 2, 30);
  plan.at_most_ms = 90 * MIN;
  plan.step_up_by = 1; /* the least there is */
  carpace_history_init (&h);
  carpace_dose_use_plan (&h, &plan, TODAY);
  add_days (&h, "ggg", TODAY);
  carpace_dose_decide (&h, &plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, &fine, &d);
  assert_int_equal (d.rule, CARPACE_RULE_STEP_UP);
  assert_int_equal (d.needed, plan.after_good_days);
  assert_int_equal (d.step_ms, 360);
  assert_int_equal (d.kept_ms, 60 * MIN + 360);
  plan.dose_ms = 3600002;
  plan.step_up_by = 333;
  carpace_history_init (&h);
  carpace_dose_use_plan (&h, &plan, TODAY);
  h.dose_ms = 2340002;
  add_days (&h, "gs#12", TODAY);
  carpace_dose_decide (&h, &plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, NULL, &d);
  assert_int_equal (d.rule, CARPACE_RULE_NO_ANSWERS);
  assert_int_equal (d.kept_ms, 2340001);
  plan.dose_ms = 3610000;
  carpace_dose_decide (&h, &plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, NULL, &d);
  assert_int_equal (d.step_ms, 120213);
}

/* ---- any days there may be ---- */

static CarpaceMorning
any_morning (Random *random, bool *ret_made)
{
  *ret_made = random_whole (random, 0, 5) > 0;
  return (CarpaceMorning){ .waking = random_whole (random, -1, random_whole (random, 0, 4) > 0 ? 2 : 8),
                           .stiffness = (CarpaceStiffness) random_whole (random, 1, CARPACE_N_STIFFNESSES - 1),
                           .now = random_whole (random, 0, 9) > 0 ? -1 : random_whole (random, 0, 7),
                           .other_load = random_whole (random, 0, 9) == 0 };
}

/* The same morning, but not worse. */
static CarpaceMorning
not_worse (CarpaceMorning morning, int32_t usual)
{
  if (morning.stiffness == CARPACE_STIFFNESS_MORE)
    morning.stiffness = CARPACE_STIFFNESS_USUAL;
  if (morning.waking > usual + 1)
    morning.waking = usual + 1;
  return morning;
}

static void
live_any_day (CarpaceHistory *h, const CarpacePlan *plan, CarpaceDay today, const CarpaceDecision *d,
              const CarpaceMorning *check, Random *random)
{
  static const char letters[] = "ggggggunthaspBx-";
  CarpaceDayRecord record = day_of_letter (letters[random_whole (random, 0, (int32_t) sizeof letters - 2)],
                                           random_whole (random, 0, random_whole (random, 0, 3) > 0 ? 1 : 6), today, h->dose_ms);

  if (d->no_practice)
    record = day_of_letter ('e', 0, today, 0);
  if (record.done_ms > 0)
    record.done_ms = h->dose_ms * random_whole (random, 20, 120) / 100;
  record.rule = d->rule;
  record.morning = check != NULL ? *check : (CarpaceMorning){ .waking = -1, .now = -1 };
  record.worse = check != NULL && carpace_morning_is_worse (check, plan->usual_discomfort);
  record.above_stop |= record.morning.waking > 5 || record.morning.now > 5 || record.highest > 5;
  record.ended_above_stop = record.highest > 5;
  record.last_end_elapsed_ms = record.done_ms > 0 ? (int64_t) today * CARPACE_DAY_MS + CARPACE_HOUR_MS : 0;
  if (h->caution_open && random_whole (random, 0, 2) == 0)
    carpace_dose_close_caution (h, today, 0);
  carpace_history_add (h, &record);
}

/* A worse morning never leads, by its own decision, to more than the same morning
 * not worse, but where that would open a caution. And the bounds hold. */
static void
test_any_days (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h);
  int worse_mornings = 0;

  for (uint64_t seed = 1; seed <= 300; seed++)
    {
      Random random = { seed };
      CarpaceDay today = TODAY;
      carpace_trace_plan (plan, 2, 30);
      plan->at_most_ms = 90 * MIN;
      plan->usual_discomfort = random_whole (&random, 0, 2);
      plan->step_up_by = random_whole (&random, 0, 3) * 500;
      carpace_history_init (h);
      for (int i = 0; i < 120; i++, today += random_whole (&random, 0, 12) > 0 ? 1 : random_whole (&random, 1, 16))
        {
          bool made;
          CarpaceMorning check = any_morning (&random, &made), better = not_worse (check, plan->usual_discomfort);
          int64_t elapsed_ms = (int64_t) today * CARPACE_DAY_MS;
          CarpaceDecision d, other;
          carpace_dose_decide (h, plan, today, elapsed_ms, made ? &check : NULL, &d);
          if (made && carpace_morning_is_worse (&check, plan->usual_discomfort))
            {
              carpace_dose_decide (h, plan, today, elapsed_ms, &better, &other);
              worse_mornings++;
              if (d.after_ms > other.after_ms && !other.opens_caution)
                fail_msg ("seed %d, day %d: worse gives %g min by %s, not worse %g by %s", (int) seed, i,
                          (double) d.after_ms / MIN, carpace_name (CARPACE_WORDS_RULE, (int32_t) d.rule),
                          (double) other.after_ms / MIN, carpace_name (CARPACE_WORDS_RULE, (int32_t) other.rule));
            }
          carpace_dose_apply (h, &d, today);
          assert_true (h->dose_ms >= carpace_dose_least_ms (h->first_dose_ms) && h->dose_ms <= h->level_ms
                       && h->level_ms <= plan->at_most_ms);
          assert_true (d.level_ms <= d.level_before_ms || (d.rule == CARPACE_RULE_STEP_UP && plan->step_up_by > 0));
          assert_true (d.kept_ms <= d.before_ms || d.most_ms == 0 || d.kept_ms <= d.most_ms);
          live_any_day (h, plan, today, &d, made ? &check : NULL, &random);
        }
    }
  assert_true (worse_mornings > 5000);
  free (h);
  free (plan);
}

/* A decision recorded before there was a level leaves one: no dose jumps. */
static void
test_older_decisions (void **state)
{
  static const CarpaceDecision older[] = {
    { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP, .before_ms = 60 * MIN, .kept_ms = 60 * MIN },
    { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CUT, .before_ms = 60 * MIN, .kept_ms = 39 * MIN, .shorten_to = 6500 },
    { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_WAY_BACK, .before_ms = 39 * MIN, .kept_ms = 51 * MIN },
    { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_STEP_UP, .before_ms = 60 * MIN, .kept_ms = 66 * MIN },
  };
  static const int dose[] = { 60, 39, 51, 66 }, level[] = { 60, 60, 60, 66 };
  CarpaceHistory *h = calloc (1, sizeof *h);

  carpace_history_init (h);
  for (int i = 0; i < 4; i++)
    {
      carpace_dose_apply (h, &older[i], TODAY + i);
      assert_int_equal (h->dose_ms, dose[i] * MIN);
      assert_int_equal (h->level_ms, level[i] * MIN);
      assert_int_equal (h->straight_back, dose[i] == level[i]);
    }
  assert_int_equal (h->last_cut, TODAY + 1);
  free (h);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_walks),
    cmocka_unit_test (test_caution_closed),
    cmocka_unit_test (test_new_plan),
    cmocka_unit_test (test_usual_too_low),
    cmocka_unit_test (test_to_the_millisecond),
    cmocka_unit_test (test_any_days),
    cmocka_unit_test (test_older_decisions),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
