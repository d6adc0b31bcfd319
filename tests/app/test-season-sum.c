/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-season-sum.c: seasons told by hand, and what they come to. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "app/season-sum.h"

#define MINUTE CARPACE_MINUTE_MS
#define FIRST 1000
#define MOST 84

static const CarpacePlan plan = { .dose_ms = 60 * MINUTE };

static void
live (CarpaceSeasonDays *days, CarpaceDay date, CarpaceRule rule, int64_t dose_min, int64_t done_min)
{
  CarpaceEntry decision = { .kind = CARPACE_ENTRY_DECISION };
  CarpaceEntry opened = { .kind = CARPACE_ENTRY_DAY };
  CarpaceEntry ended = { .kind = CARPACE_ENTRY_BLOCK };

  decision.decision = (CarpaceDecision){ .scope = CARPACE_SCOPE_DAY, .rule = rule, .kept_ms = dose_min * MINUTE,
                                          .level_ms = dose_min * MINUTE };
  opened.day.what = CARPACE_DAY_OPENED;
  opened.day.day = date;
  opened.day.dose_ms = dose_min * MINUTE;
  ended.block.what = CARPACE_BLOCK_ENDED;
  ended.block.active_ms = done_min * MINUTE;
  carpace_season_days_take (days, &decision);
  carpace_season_days_take (days, &opened);
  if (done_min > 0)
    carpace_season_days_take (days, &ended);
}

static CarpaceSeasonSum
sum_of (const CarpaceSeasonDays *days, int32_t takes_min)
{
  CarpacePlayerTraits traits = { .takes_ms = takes_min * MINUTE };
  CarpaceSeasonSum sum;

  carpace_season_sum (days, &plan, &traits, 1, &sum);
  return sum;
}

static int
begin (void **state)
{
  static CarpaceSeasonDays days;

  *state = &days;
  return carpace_season_days_init (&days, MOST) ? 0 : -1;
}

static int
end (void **state)
{
  carpace_season_days_clear (*state);
  return 0;
}

/* 48 x 1.15 is 55.2 min: one below, at (of 60: 69), one above; and a day that
 * was planned but not practised on. */
static void
test_days_over (void **state)
{
  CarpaceSeasonDays *days = *state;

  live (days, FIRST, CARPACE_RULE_KEEP, 55, 55);
  live (days, FIRST + 1, CARPACE_RULE_KEEP, 56, 56);
  live (days, FIRST + 2, CARPACE_RULE_CUT, 36, 36);
  live (days, FIRST + 3, CARPACE_RULE_KEEP, 60, 0);
  live (days, FIRST + 4, CARPACE_RULE_KEEP, 69, 30);
  assert_int_equal (sum_of (days, 48).all.days_over, 2);
  assert_int_equal (sum_of (days, 60).all.days_over, 0);
  assert_int_equal (sum_of (days, 59).all.days_over, 1);
  assert_int_equal (sum_of (days, 0).all.days_over, 0);
  assert_int_equal (sum_of (days, 48).all.days, 4);
  assert_int_equal (sum_of (days, 48).all.cuts, 1);
  assert_int_equal (sum_of (days, 48).all.done_ms, 177 * MINUTE);
}

static void
test_weeks (void **state)
{
  CarpaceSeasonDays *days = *state;
  CarpacePlayerTraits traits = { 0 };

  for (int date = 0; date < 10; date++)
    if (date != 6)
      live (days, FIRST + date, CARPACE_RULE_KEEP, 10, 10);
  assert_int_equal (carpace_season_stretch (days, 0, 7, &plan, &traits, 1).done_ms, 60 * MINUTE);
  assert_int_equal (carpace_season_stretch (days, 7, 7, &plan, &traits, 1).done_ms, 30 * MINUTE);
  assert_int_equal (carpace_season_stretch (days, 14, 7, &plan, &traits, 1).done_ms, 0);
}

/* The mean begins with week 5, the 29th date. */
static void
test_over_takes (void **state)
{
  CarpaceSeasonDays *days = *state;

  for (int date = 0; date < 28; date++)
    live (days, FIRST + date, CARPACE_RULE_KEEP, 90, 90);
  assert_true (sum_of (days, 50).over_takes == 0);
  live (days, FIRST + 28, CARPACE_RULE_KEEP, 50, 50);
  live (days, FIRST + 29, CARPACE_RULE_KEEP, 40, 40);
  live (days, FIRST + 30, CARPACE_RULE_KEEP, 90, 0);
  assert_true (fabs (sum_of (days, 50).over_takes - 0.9) < 1e-9);
  assert_true (sum_of (days, 0).over_takes == 0);
}

static void
test_rises (void **state)
{
  CarpaceSeasonDays *days = *state;

  live (days, FIRST, CARPACE_RULE_KEEP, 40, 40);
  live (days, FIRST + 7, CARPACE_RULE_KEEP, 60, 60);
  assert_true (fabs (sum_of (days, 0).rise_7_pct - 50) < 1e-9);
  carpace_season_days_empty (days);
  live (days, FIRST, CARPACE_RULE_KEEP, 40, 40);
  live (days, FIRST + 8, CARPACE_RULE_KEEP, 60, 60);
  assert_true (sum_of (days, 0).rise_7_pct == 0);

  carpace_season_days_empty (days);
  for (int date = 0; date < 27; date++)
    live (days, FIRST + date, CARPACE_RULE_KEEP, 60, date < 14 ? 40 : 50);
  assert_true (sum_of (days, 0).rise_14_pct == 0);
  live (days, FIRST + 27, CARPACE_RULE_KEEP, 60, 50);
  assert_true (fabs (sum_of (days, 0).rise_14_pct - 25) < 1e-9);
}

/* The last 28 dates. */
static void
test_levels (void **state)
{
  CarpaceSeasonDays *days = *state;

  live (days, FIRST, CARPACE_RULE_KEEP, 90, 90);
  for (int date = 1; date < 29; date++)
    live (days, FIRST + date, CARPACE_RULE_KEEP, date < 15 ? 40 : 50, 40);
  assert_int_equal (sum_of (days, 0).level_least_ms, 40 * MINUTE);
  assert_int_equal (sum_of (days, 0).level_most_ms, 50 * MINUTE);
  assert_int_equal (sum_of (days, 0).level_mean_ms, 45 * MINUTE);
  assert_int_equal (sum_of (days, 0).level_ms, 50 * MINUTE);
}

static void
test_a_longer_season_is_passed_over (void **state)
{
  CarpaceSeasonDays *days = *state;

  live (days, FIRST, CARPACE_RULE_KEEP, 30, 30);
  live (days, FIRST + MOST - 1, CARPACE_RULE_KEEP, 30, 30);
  live (days, FIRST + MOST, CARPACE_RULE_CUT, 30, 0);
  live (days, FIRST - 1, CARPACE_RULE_CUT, 30, 0);
  assert_int_equal (sum_of (days, 0).all.cuts, 0);
  assert_int_equal (sum_of (days, 0).all.days, 2);
}

static void
rate (CarpaceSeasonDays *days, int32_t discomfort)
{
  CarpaceEntry rating = { .kind = CARPACE_ENTRY_RATING };

  rating.rating.discomfort = discomfort;
  carpace_season_days_take (days, &rating);
}

static void
wake (CarpaceSeasonDays *days, int32_t waking, int32_t now)
{
  CarpaceEntry morning = { .kind = CARPACE_ENTRY_MORNING };

  morning.morning = (CarpaceMorning){ .waking = waking, .now = now };
  carpace_season_days_take (days, &morning);
}

/* A morning is its own day's, not that of the day before; what was not answered is no 0. */
static void
test_highest (void **state)
{
  CarpaceSeasonDays *days = *state;
  CarpacePlayerTraits traits = { 0 };

  live (days, FIRST, CARPACE_RULE_KEEP, 30, 30);
  assert_int_equal (days->day[0].highest, -1);
  assert_int_equal (sum_of (days, 0).all.highest, -1);
  rate (days, -1);
  assert_int_equal (days->day[0].highest, -1);
  rate (days, 2);
  rate (days, 1);
  wake (days, 3, 1);
  live (days, FIRST + 1, CARPACE_RULE_KEEP, 30, 30);
  rate (days, 0);
  live (days, FIRST + 2, CARPACE_RULE_KEEP, 30, 30);
  wake (days, -1, 4);
  live (days, FIRST + 7, CARPACE_RULE_KEEP, 30, 30);
  assert_int_equal (days->day[0].highest, 2);
  assert_int_equal (days->day[1].highest, 3);
  assert_int_equal (days->day[2].highest, -1);
  assert_int_equal (days->day[7].highest, 4);
  assert_int_equal (carpace_season_stretch (days, 0, 7, &plan, &traits, 1).highest, 3);
  assert_int_equal (carpace_season_stretch (days, 7, 7, &plan, &traits, 1).highest, 4);
  assert_int_equal (carpace_season_stretch (days, 3, 4, &plan, &traits, 1).highest, -1);
}

#define ROW(test) cmocka_unit_test_setup_teardown (test, begin, end)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ROW (test_days_over), ROW (test_weeks),  ROW (test_over_takes),
    ROW (test_rises),     ROW (test_levels), ROW (test_a_longer_season_is_passed_over),
    ROW (test_highest),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
