/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-share.c: cuts are exact, at every whole percent and at int64_t's end. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/dose.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

/* Whole minutes of the cut at 60, 65, 70 %: plain fractions, worked by hand.
 * 90 x 70 / 100 is 63, where binary floating point gives 62.99.. */
static void
cuts_are_whole_minutes_down (void **state)
{
  static const struct { const char *row; int64_t min; int64_t at_60, at_65, at_70; } rows[] = {
    { .row = "one long block", .min = 65, .at_60 = 39, .at_65 = 42, .at_70 = 45 },
    { .row = "a half", .min = 30, .at_60 = 18, .at_65 = 19, .at_70 = 21 },
    { .row = "a quarter", .min = 15, .at_60 = 9, .at_65 = 9, .at_70 = 10 },
    { .row = "where doubles fail", .min = 90, .at_60 = 54, .at_65 = 58, .at_70 = 63 },
    { .row = "170 min", .min = 170, .at_60 = 102, .at_65 = 110, .at_70 = 119 },
    { .row = "180 min", .min = 180, .at_60 = 108, .at_65 = 117, .at_70 = 126 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      assert_int_equal (carpace_dose_cut_ms (rows[i].min * CARPACE_MINUTE_MS, 6000), rows[i].at_60 * CARPACE_MINUTE_MS);
      assert_int_equal (carpace_dose_cut_ms (rows[i].min * CARPACE_MINUTE_MS, 6500), rows[i].at_65 * CARPACE_MINUTE_MS);
      assert_int_equal (carpace_dose_cut_ms (rows[i].min * CARPACE_MINUTE_MS, 7000), rows[i].at_70 * CARPACE_MINUTE_MS);
    }
}

static void
shares_go_to_a_unit (void **state)
{
  static const struct { const char *row; int64_t ms; int32_t share; int64_t unit, down, up; } rows[] = {
    { .row = "nothing", .ms = 0, .share = 6500, .unit = 1000, .down = 0, .up = 0 },
    { .row = "no share", .ms = 1000, .share = 0, .unit = 1000, .down = 0, .up = 0 },
    { .row = "under nothing", .ms = -5, .share = 6500, .unit = 1, .down = 0, .up = 0 },
    { .row = "exact", .ms = 600000, .share = 6500, .unit = 1000, .down = 390000, .up = 390000 },
    { .row = "half a ms", .ms = 1, .share = 5000, .unit = 1, .down = 0, .up = 1 },
    { .row = "a hair over a unit", .ms = 10001, .share = 1000, .unit = 1000, .down = 1000, .up = 2000 },
    { .row = "half again", .ms = 30000, .share = 15000, .unit = 1000, .down = 45000, .up = 45000 },
    { .row = "30 min up 1", .ms = 1800000, .share = 8500, .unit = 30000, .down = 1530000, .up = 1530000 },
    { .row = "no unit", .ms = 33333, .share = 3333, .unit = 0, .down = 11109, .up = 11110 },
    { .row = "whole of the end", .ms = INT64_MAX, .share = 10000, .unit = 1, .down = INT64_MAX, .up = INT64_MAX },
    { .row = "one under the end", .ms = INT64_MAX - 1, .share = 10000, .unit = 1, .down = INT64_MAX - 1, .up = INT64_MAX - 1 },
    { .row = "over the end", .ms = INT64_MAX, .share = 20000, .unit = 1, .down = INT64_MAX, .up = INT64_MAX },
    { .row = "half of the end", .ms = INT64_MAX, .share = 5000, .unit = 1, .down = INT64_MAX / 2, .up = INT64_MAX / 2 + 1 },
    { .row = "up at the end", .ms = INT64_MAX, .share = 10000, .unit = 1000, .down = INT64_MAX / 1000 * 1000, .up = INT64_MAX },
    { .row = "a ms", .ms = 1, .share = 10000, .unit = 1, .down = 1, .up = 1 },
    { .row = "the smallest share", .ms = 10000, .share = 1, .unit = 1, .down = 1, .up = 1 },
    { .row = "a share under nothing", .ms = 10000, .share = -1, .unit = 1, .down = 0, .up = 0 },
    { .row = "a ms under nothing", .ms = -1, .share = 10000, .unit = 1, .down = 0, .up = 0 },
    { .row = "a unit of two", .ms = 3, .share = 10000, .unit = 2, .down = 2, .up = 4 },
    { .row = "up to a unit of two", .ms = 4, .share = 10000, .unit = 2, .down = 4, .up = 4 },
    { .row = "largest share", .ms = INT64_MAX, .share = INT32_MAX, .unit = 1, .down = INT64_MAX, .up = INT64_MAX },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      assert_true (carpace_share_down_ms (rows[i].ms, rows[i].share, rows[i].unit) == rows[i].down);
      assert_true (carpace_share_up_ms (rows[i].ms, rows[i].share, rows[i].unit) == rows[i].up);
    }
}

static void
least_is_a_quarter_within_bounds (void **state)
{
  static const struct { const char *row; int64_t first, least; } rows[] = {
    { .row = "a quarter", .first = 60 * CARPACE_MINUTE_MS, .least = 15 * CARPACE_MINUTE_MS },
    { .row = "ten minutes at least", .first = 30 * CARPACE_MINUTE_MS, .least = 10 * CARPACE_MINUTE_MS },
    { .row = "both the same", .first = 40 * CARPACE_MINUTE_MS, .least = 10 * CARPACE_MINUTE_MS },
    { .row = "never above the first", .first = 4 * CARPACE_MINUTE_MS, .least = 4 * CARPACE_MINUTE_MS },
    { .row = "a hair over ten minutes", .first = 40 * CARPACE_MINUTE_MS + 4, .least = 10 * CARPACE_MINUTE_MS + 1 },
    { .row = "a hair under ten minutes", .first = 40 * CARPACE_MINUTE_MS - 4, .least = 10 * CARPACE_MINUTE_MS },
    { .row = "ten minutes", .first = 10 * CARPACE_MINUTE_MS, .least = 10 * CARPACE_MINUTE_MS },
    { .row = "a ms", .first = 1, .least = 1 },
    { .row = "seconds", .first = 1000, .least = 1000 },
    { .row = "none", .first = 0, .least = 0 },
    { .row = "under none", .first = -1, .least = 0 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      assert_int_equal (carpace_dose_least_ms (rows[i].first), rows[i].least);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (cuts_are_whole_minutes_down),
    cmocka_unit_test (shares_go_to_a_unit),
    cmocka_unit_test (least_is_a_quarter_within_bounds),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
