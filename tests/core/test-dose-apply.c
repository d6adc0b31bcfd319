/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dose-apply.c: what is left in the history by a decision, a plan and a closed
 * caution, mark by mark; the doses are test-dose.c's. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/dose.h"

#define T 20880
#define MIN CARPACE_MINUTE_MS

static CarpaceHistory h;
static CarpacePlan plan;

/* 39 min under a level of 51, with every mark set that may be taken away. */
static int
begin (void **state)
{
  carpace_history_init (&h);
  h.first_dose_ms = 60 * MIN;
  h.dose_ms = 39 * MIN;
  h.level_ms = 51 * MIN;
  h.level_before_step_ms = 45 * MIN;
  h.straight_back = false;
  h.slow_return = true;
  h.caution_signs = 5;
  plan = (CarpacePlan){ .dose_ms = 60 * MIN, .at_most_ms = 90 * MIN };
  return 0;
}

/* A decision that keeps all as it is. */
static CarpaceDecision
kept (void)
{
  return (CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP, .before_ms = 39 * MIN,
                            .after_ms = 39 * MIN, .kept_ms = 39 * MIN, .level_ms = 51 * MIN, .level_before_ms = 51 * MIN,
                            .first_dose_ms = 60 * MIN };
}

static void
apply (CarpaceDecision decision)
{
  carpace_dose_apply (&h, &decision, T);
}

static void
nothing_new_leaves_nothing (void **state)
{
  CarpaceHistory before = h;
  CarpaceDecision of_block = { .scope = CARPACE_SCOPE_BLOCK, .kept_ms = MIN, .level_ms = MIN, .opens_caution = true };

  apply (kept ());
  assert_memory_equal (&before, &h, sizeof h);
  apply (of_block);
  assert_memory_equal (&before, &h, sizeof h);
}

static void
a_dose_that_changes (void **state)
{
  CarpaceDecision d = kept ();

  d.kept_ms = 40 * MIN;
  d.straight_back = true;
  apply (d);
  assert_int_equal (h.dose_ms, 40 * MIN);
  assert_int_equal (h.last_change, T);
  assert_int_equal (h.level_change, CARPACE_NO_DAY);
  assert_true (h.straight_back && h.slow_return);
}

/* At the level nothing is left of how it was to be come back to; a minute under it all is. */
static void
the_level_reached (void **state)
{
  for (int under = 1; under >= 0; under--)
    {
      CarpaceDecision d = kept ();
      d.kept_ms = 51 * MIN - under;
      apply (d);
      assert_int_equal (h.straight_back, under == 0);
      assert_int_equal (h.slow_return, under > 0);
    }
}

static void
a_step_up (void **state)
{
  CarpaceDecision d = kept ();

  d.rule = CARPACE_RULE_STEP_UP;
  d.level_ms = d.kept_ms = 57 * MIN;
  apply (d);
  assert_int_equal (h.level_ms, 57 * MIN);
  assert_int_equal (h.level_change, T);
  assert_int_equal (h.level_before_step_ms, 51 * MIN);
  assert_int_equal (h.last_down, CARPACE_NO_DAY);
}

static void
the_level_down (void **state)
{
  CarpaceDecision d = kept ();

  d.level_ms = 45 * MIN;
  d.level_down = true;
  d.down_from_ms = 53 * MIN;
  apply (d);
  assert_int_equal (h.level_change, T);
  assert_int_equal (h.level_before_step_ms, 0);
  assert_int_equal (h.last_down, T);
  assert_int_equal (h.down_from_ms, 53 * MIN);
}

/* Down where the least leaves it: its days are counted from there all the same. */
static void
the_level_down_without_effect (void **state)
{
  CarpaceDecision d = kept ();

  d.level_down = true;
  apply (d);
  assert_int_equal (h.level_ms, 51 * MIN);
  assert_int_equal (h.level_change, T);
  assert_int_equal (h.level_before_step_ms, 0);
}

static void
a_cut (void **state)
{
  const CarpaceDayRecord day = { .day = T - 1, .done_ms = MIN };
  CarpaceDecision d = kept ();

  d.shorten_to = 1;
  apply (d);
  assert_int_equal (h.last_cut, T);
  assert_int_equal (h.last_change, T); /* also where the dose stays */
  carpace_history_add (&h, &day);
  apply (d);
  assert_true (h.days[0].cut_for);
}

static void
silence (void **state)
{
  CarpaceDecision d = kept ();

  d.finding = CARPACE_FINDING_NO_ANSWERS;
  apply (d);
  assert_int_equal (h.last_unanswered, CARPACE_NO_DAY);
  d.kept_ms--;
  apply (d);
  assert_int_equal (h.last_unanswered, T);
}

static void
a_rest_day_and_a_caution (void **state)
{
  CarpaceDecision d = kept ();

  h.slow_return = false;
  apply (d);
  assert_false (h.slow_return);
  d.rule = CARPACE_RULE_REST_DAY;
  apply (d);
  assert_int_equal (h.last_rest_day, T);
  assert_true (h.slow_return && !h.caution_open);
  assert_int_equal (h.caution_signs, 5);
  d.opens_caution = true;
  apply (d);
  assert_true (h.caution_open);
  assert_int_equal (h.caution_since, T);
  assert_int_equal (h.caution_signs, 0);
}

/* Steps that the level took in the time off; practice within a week ends it. */
static void
weeks_off (void **state)
{
  static const struct { int practised_ago, before, weeks, after; } rows[] = {
    { 0, 2, 0, 2 }, { 0, 2, 1, 2 }, { 0, 2, 3, 3 }, { 6, 2, 0, 0 }, { 7, 2, 0, 2 }, { 8, 2, 0, 2 }, { 6, 2, 1, 1 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const CarpaceDayRecord day = { .day = T - rows[i].practised_ago, .done_ms = MIN };
      CarpaceDecision d = kept ();
      begin (state);
      if (rows[i].practised_ago > 0)
        carpace_history_add (&h, &day);
      h.level_steps_off = rows[i].before;
      d.weeks = rows[i].weeks;
      apply (d);
      assert_int_equal (h.level_steps_off, rows[i].after);
    }
}

/* ---- plans ---- */

static void
the_first_plan (void **state)
{
  carpace_history_init (&h);
  carpace_dose_use_plan (&h, &plan, T);
  assert_int_equal (h.first_dose_ms, 60 * MIN);
  assert_int_equal (h.dose_ms, 60 * MIN);
  assert_int_equal (h.level_ms, 60 * MIN);
  assert_int_equal (h.last_change, CARPACE_NO_DAY);
  assert_int_equal (h.level_change, CARPACE_NO_DAY);
  assert_true (h.straight_back);
}

static void
a_plan_of_another_dose (void **state)
{
  plan.dose_ms = 61 * MIN;
  h.last_cut = T - 1;
  carpace_dose_use_plan (&h, &plan, T);
  assert_int_equal (h.first_dose_ms, 61 * MIN);
  assert_int_equal (h.dose_ms, 39 * MIN);
  assert_int_equal (h.level_ms, 61 * MIN);
  assert_int_equal (h.last_change, T);
  assert_int_equal (h.level_change, T);
  assert_int_equal (h.level_before_step_ms, 0);
  assert_false (h.straight_back);
  assert_true (h.slow_return);
}

/* Its level is what the old one's was: that it is another plan's is noted all the same. */
static void
a_plan_at_the_old_level (void **state)
{
  plan.dose_ms = 51 * MIN;
  h.straight_back = true;
  h.last_cut = T - 1;
  carpace_dose_use_plan (&h, &plan, T);
  assert_int_equal (h.level_change, T);
  assert_false (h.straight_back);
  begin (state);
  plan.dose_ms = 51 * MIN;
  carpace_dose_use_plan (&h, &plan, T);
  assert_int_equal (h.dose_ms, 51 * MIN);
  assert_true (h.straight_back && !h.slow_return);
}

static void
a_plan_of_a_lower_most (void **state)
{
  plan.at_most_ms = 45 * MIN;
  carpace_dose_use_plan (&h, &plan, T);
  assert_int_equal (h.level_ms, 45 * MIN);
  assert_int_equal (h.level_change, T);
  assert_int_equal (h.last_change, CARPACE_NO_DAY);
  assert_int_equal (h.level_before_step_ms, 0);
  assert_int_equal (h.dose_ms, 39 * MIN);
}

/* A decision alone tells of the plan that it was made by. */
static void
a_plan_told_by_a_decision (void **state)
{
  CarpaceDecision d = kept ();

  d.level_before_ms = d.level_ms = 45 * MIN; /* a lower at-most */
  apply (d);
  assert_int_equal (h.level_ms, 45 * MIN);
  assert_int_equal (h.level_before_step_ms, 0);
  begin (state);
  d.first_dose_ms = 90 * MIN;
  d.before_ms = d.kept_ms = 40 * MIN;
  d.level_before_ms = d.level_ms = 90 * MIN;
  apply (d);
  assert_int_equal (h.first_dose_ms, 90 * MIN);
  assert_int_equal (h.level_ms, 90 * MIN);
  assert_int_equal (h.level_change, T);
  assert_int_equal (h.last_change, T);
}

/* The level came down to the dose before the dose was cut: the way back is of that cut. */
static void
a_plan_that_brings_the_level_to_the_dose (void **state)
{
  CarpaceDecision d = kept ();

  d.level_before_ms = d.level_ms = 39 * MIN;
  d.kept_ms = 30 * MIN;
  apply (d);
  assert_int_equal (h.dose_ms, 30 * MIN);
  assert_false (h.slow_return);
}

/* One recorded before there was a level does not tell it. */
static void
a_decision_without_a_level (void **state)
{
  const CarpaceDecision older = { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP, .before_ms = 60 * MIN, .kept_ms = 60 * MIN };
  CarpaceDecision cut = older;

  carpace_history_init (&h);
  cut.kept_ms = 39 * MIN;
  apply (cut);
  assert_int_equal (h.first_dose_ms, 60 * MIN);
  assert_int_equal (h.level_ms, 60 * MIN);
  assert_int_equal (h.dose_ms, 39 * MIN);
  assert_int_equal (h.level_change, CARPACE_NO_DAY);
  begin (state);
  apply (older);
  assert_int_equal (h.first_dose_ms, 60 * MIN);
  assert_int_equal (h.level_ms, 60 * MIN);
  assert_int_equal (h.level_before_step_ms, 0);
}

/* ---- a closed caution ---- */

static void
a_caution_that_was_closed (void **state)
{
  h.caution_open = true;
  h.slow_return = false;
  h.straight_back = true;
  carpace_dose_close_caution (&h, T, 0);
  assert_false (h.caution_open);
  assert_int_equal (h.caution_signs, 0);
  assert_int_equal (h.caution_closed, T);
  assert_int_equal (h.rows_from, T);
  assert_int_equal (h.last_change, T + 1);
  assert_true (h.slow_return && !h.straight_back);
  assert_int_equal (h.dose_ms, 30 * MIN);
  assert_int_equal (h.level_ms, 51 * MIN);
  assert_int_equal (h.level_change, CARPACE_NO_DAY);
  assert_int_equal (h.level_before_step_ms, 45 * MIN);
}

static void
the_level_after_it (void **state)
{
  h.level_ms = 61 * MIN;
  carpace_dose_close_caution (&h, T, 0);
  assert_int_equal (h.level_ms, 60 * MIN);
  assert_int_equal (h.level_change, T);
  assert_int_equal (h.level_before_step_ms, 0);
  begin (state);
  h.level_ms = h.dose_ms = 30 * MIN; /* at it: nothing to come back to */
  carpace_dose_close_caution (&h, T, 0);
  assert_true (h.straight_back && !h.slow_return);
}

static void
what_a_clinician_allowed (void **state)
{
  static const struct { int64_t allowed_ms, dose_ms; } rows[] = {
    { 0, 30 * MIN }, { 1, 1 }, { 30 * MIN - 1, 30 * MIN - 1 }, { 30 * MIN, 30 * MIN }, { 30 * MIN + 1, 30 * MIN },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      begin (state);
      carpace_dose_close_caution (&h, T, rows[i].allowed_ms);
      assert_int_equal (h.dose_ms, rows[i].dose_ms);
    }
}

#define ROW(test) cmocka_unit_test_setup (test, begin)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ROW (nothing_new_leaves_nothing),
    ROW (a_dose_that_changes),
    ROW (the_level_reached),
    ROW (a_step_up),
    ROW (the_level_down),
    ROW (the_level_down_without_effect),
    ROW (a_cut),
    ROW (silence),
    ROW (a_rest_day_and_a_caution),
    ROW (weeks_off),
    ROW (the_first_plan),
    ROW (a_plan_of_another_dose),
    ROW (a_plan_at_the_old_level),
    ROW (a_plan_of_a_lower_most),
    ROW (a_plan_told_by_a_decision),
    ROW (a_plan_that_brings_the_level_to_the_dose),
    ROW (a_decision_without_a_level),
    ROW (a_caution_that_was_closed),
    ROW (the_level_after_it),
    ROW (what_a_clinician_allowed),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
