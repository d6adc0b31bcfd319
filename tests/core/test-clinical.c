/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-clinical.c: the rules' numbers against where they come from. A source
 * stands beside each; common practice is marked so. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/dose.h"
#include "trace.h"

/* The pain-monitoring model, Thomee 1997; Silbernagel 2007, AJSM,
 * doi 10.1177/0363546506298279 (zones from memory): 0-2 safe, over 2 to 5
 * acceptable, over 5 too much. A number over 5 ends the day, none up to 5 does;
 * and 2 or less, told as usual, changes nothing. */
static void
test_zones (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);

  for (int number = 0; number <= 10; number++)
    {
      char script[80], *trace;
      carpace_trace_plan (plan, 2, 30);
      plan->usual_discomfort = number <= 2 ? number : 0;
      snprintf (script, sizeof script, "0:00 start\n10:00 end\n10:10 rate %d", number);
      trace = carpace_trace (plan, script);
      assert_int_equal (strstr (trace, "day done") != NULL, number > 5);
      assert_int_equal (strstr (trace, "cue caution shown") != NULL, number > 5);
      if (number <= 2)
        assert_null (strstr (trace, "decision up"));
      free (trace);
    }
  free (plan);
}

/* The least change that matters on a 0-10 scale is 2 points: Farrar 2001, Pain,
 * doi 10.1016/s0304-3959(01)00349-9 (studied for improvement, used here for
 * worsening). From 2 points on the reference, and not from 1, the cut is the
 * large one, and a morning is worse. */
static void
test_two_points (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);

  for (int reference = 0; reference <= 3; reference++)
    for (int rise = 1; rise <= 2; rise++)
      {
        char script[120], *trace;
        CarpaceMorning check = { .waking = reference + rise, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
        if (reference + rise >= 4)
          continue; /* 4 and 5 have a row of their own */
        carpace_trace_plan (plan, 2, 30);
        snprintf (script, sizeof script, "0:00 morning 0 --now %d\n0:10 start\n10:10 end\n10:20 rate %d", reference,
                  reference + rise);
        trace = carpace_trace (plan, script);
        assert_int_equal (strstr (trace, "decision up-2") != NULL, rise >= 2);
        assert_int_equal (carpace_morning_is_worse (&check, reference), rise >= 2);
        free (trace);
      }
  free (plan);
}

/* 60-70 % of what was done after a worse morning: common practice. Whole
 * minutes, exact: the last row is what binary floating point gets wrong. */
static void
test_cuts (void **state)
{
  static const struct { int min, share, to_min; } rows[] = {
    { 65, 60, 39 }, { 65, 65, 42 }, { 65, 70, 45 }, { 30, 60, 18 }, { 30, 65, 19 }, { 30, 70, 21 },
    { 15, 60, 9 },  { 15, 65, 9 },  { 15, 70, 10 }, { 170, 70, 119 }, { 180, 70, 126 }, { 90, 70, 63 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    assert_int_equal (carpace_dose_cut_ms (rows[i].min * CARPACE_MINUTE_MS, rows[i].share * CARPACE_PERCENT),
                      rows[i].to_min * CARPACE_MINUTE_MS);
}

/* About 65 minutes of practice as one block, two of 30 or four of 15: common
 * practice. The first day's limits are the plan's own. */
static void
test_splits (void **state)
{
  static const struct { int n, min; } rows[] = { { 1, 65 }, { 2, 30 }, { 4, 15 } };
  CarpacePlan *plan = calloc (1, sizeof *plan);

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      int64_t limit_ms[CARPACE_DAY_BLOCKS];
      carpace_trace_plan (plan, rows[i].n, rows[i].min);
      assert_int_equal (carpace_dose_limits (plan, plan->dose_ms, limit_ms), rows[i].n);
      for (int k = 0; k < rows[i].n; k++)
        assert_int_equal (limit_ms[k], rows[i].min * CARPACE_MINUTE_MS);
    }
  free (plan);
}

/* Limits of later days, of short doses, and of blocks that do not come to the
 * dose: this project's own rules, a row each. */
static void
test_limits (void **state)
{
  static const struct
  {
    const char *name;
    int n, min, plan_dose_min, dose_min;
    int limits, first_s, last_s;
  } rows[] = {
    { "scaled with the dose, down to 30 s", 2, 30, 60, 42, 2, 1260, 1260 },
    { "more blocks like the last take the rest", 2, 30, 100, 100, 4, 1800, 600 },
    { "a rest under 5 min is no block", 2, 30, 64, 64, 2, 1800, 1800 },
    { "blocks over the dose are scaled down", 2, 30, 40, 40, 2, 1200, 1200 },
    { "under 5 min: blocks from the end, the others anew", 4, 15, 60, 15, 3, 300, 300 },
    { "none over longest; what does not fit is a further block", 2, 30, 60, 90, 3, 2160, 1080 },
  };
  CarpacePlan *plan = calloc (1, sizeof *plan);

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      int64_t limit_ms[CARPACE_DAY_BLOCKS];
      int32_t n;
      carpace_trace_plan (plan, rows[i].n, rows[i].min);
      plan->dose_ms = rows[i].plan_dose_min * CARPACE_MINUTE_MS;
      n = carpace_dose_limits (plan, rows[i].dose_min * CARPACE_MINUTE_MS, limit_ms);
      if (n != rows[i].limits || limit_ms[0] != rows[i].first_s * 1000 || limit_ms[n - 1] != rows[i].last_s * 1000)
        fail_msg ("%s: %d limits, the first %d s, the last %d s", rows[i].name, (int) n, (int) (limit_ms[0] / 1000),
                  (int) (limit_ms[n - 1] / 1000));
    }
  free (plan);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_zones), cmocka_unit_test (test_two_points), cmocka_unit_test (test_cuts),
    cmocka_unit_test (test_splits), cmocka_unit_test (test_limits),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
