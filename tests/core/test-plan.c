/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan.c: what is asked of a plan that was not built of a file. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "some-plan.h"

static void
limits_summed_and_the_longest (void **state)
{
  static const struct { int64_t limits_ms[4]; int32_t n; int64_t longest_ms, sum_ms; } rows[] = {
    { .n = 0 },
    { .n = 1, .limits_ms = { 0 } },
    { .n = 1, .limits_ms = { 7 }, .longest_ms = 7, .sum_ms = 7 },
    { .n = 3, .limits_ms = { 7, 9, 8 }, .longest_ms = 9, .sum_ms = 24 },
    { .n = 4, .limits_ms = { 7, 9, 8, 10 }, .longest_ms = 10, .sum_ms = 34 },
    { .n = 3, .limits_ms = { 7, 9, 8, 10 }, .longest_ms = 9, .sum_ms = 24 }, /* none behind the last */
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpacePlan plan;

      some_plan (&plan, 0);
      for (int block = 0; block < 4; block++)
        plan.blocks[block].limit_ms = rows[i].limits_ms[block];
      plan.n_blocks = rows[i].n;
      assert_int_equal (carpace_plan_longest_limit_ms (&plan), rows[i].longest_ms);
      assert_int_equal (carpace_plan_sum_of_limits_ms (&plan), rows[i].sum_ms);
    }
}

/* As long as shares of it can be told apart; a longer one never ends (a match's). */
static void
the_longest_limit_that_has_shares (void **state)
{
  const int64_t longest_ms = INT64_MAX / CARPACE_WHOLE;
  CarpacePlan plan;

  some_plan (&plan, 0);
  for (int i = 0; i < 2; i++)
    some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_block (&plan, longest_ms);
  assert_int_equal (carpace_plan_drill_at (&plan, 0, longest_ms - 1, longest_ms - 2), 1);
  assert_int_equal (carpace_plan_drill_at (&plan, 0, longest_ms, longest_ms - 1), 1);
  assert_int_equal (carpace_plan_drill_at (&plan, 0, longest_ms, longest_ms / 2 - 1), 0);
  assert_int_equal (carpace_plan_drill_at (&plan, 0, longest_ms + 1, longest_ms), 0);
}

/* 1970-01-01, day 0, was a Thursday; each bit is of one weekday, from Monday on. */
static void
weekdays_without_practice (void **state)
{
  for (int weekday = 0; weekday < 7; weekday++)
    {
      CarpacePlan plan;

      some_plan (&plan, 0);
      plan.without = (uint8_t) (1 << weekday);
      for (CarpaceDay day = -8; day <= 8; day++)
        assert_int_equal (carpace_plan_is_without (&plan, day), (day + 3 + 14) % 7 == weekday);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (limits_summed_and_the_longest),
    cmocka_unit_test (the_longest_limit_that_has_shares),
    cmocka_unit_test (weekdays_without_practice),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
