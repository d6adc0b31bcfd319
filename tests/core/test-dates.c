/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dates.c: dates counted one by one from the rule of leap years (Gregorian,
 * proleptic: ISO 8601-1:2019, 4.2.1), quickly enough for a mutant each; test-day.c
 * has GLib's calendar and ten years of zones. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/day.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))
#define FIRST_YEAR (-802)
#define LAST_YEAR 2402

static int32_t
days_of_month (int32_t year, int32_t month)
{
  static const int32_t days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
  bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;

  return days[month - 1] + (month == 2 && leap ? 1 : 0);
}

static CarpaceDay
first_day (void)
{
  CarpaceDay day = 0;

  for (int32_t year = FIRST_YEAR; year < 1970; year++)
    for (int32_t month = 1; month <= 12; month++)
      day -= days_of_month (year, month);
  return day;
}

static void
check_date (CarpaceDay day, int32_t year, int32_t month, int32_t of_month)
{
  int32_t y, m, d;

  carpace_day_to_civil (day, &y, &m, &d);
  if (y != year || m != month || d != of_month || carpace_day_from_civil (year, month, of_month) != day)
    fail_msg ("day %d is %d-%d-%d, not %d-%d-%d", (int) day, (int) y, (int) m, (int) d, (int) year, (int) month, (int) of_month);
  /* 1970-01-01 was a Thursday */
  assert_int_equal (carpace_day_weekday (day), ((day + CARPACE_WEEKDAY_THURSDAY) % 7 + 7) % 7);
}

static void
dates_follow_one_another (void **state)
{
  CarpaceDay day = first_day ();

  for (int32_t year = FIRST_YEAR; year <= LAST_YEAR; year++)
    for (int32_t month = 1; month <= 12; month++)
      for (int32_t of_month = 1; of_month <= days_of_month (year, month); of_month++)
        check_date (day++, year, month, of_month);
}

/* What no four digits hold is written as the nearest day that they do. */
static void
written_within_four_digits (void **state)
{
  static const struct { const char *row; int32_t year, month, day; const char *text; } rows[] = {
    { "the day before the first", -1, 12, 31, "0000-01-01" },
    { "a year before the first", -1, 1, 1, "0000-01-01" },
    { "the first", 0, 1, 1, "0000-01-01" },
    { "the second", 0, 1, 2, "0000-01-02" },
    { "the end of the first year", 0, 12, 31, "0000-12-31" },
    { "the second year", 1, 3, 4, "0001-03-04" },
    { "the last year but one", 9998, 5, 6, "9998-05-06" },
    { "the last year's begin", 9999, 1, 1, "9999-01-01" },
    { "the last but one", 9999, 12, 30, "9999-12-30" },
    { "the last", 9999, 12, 31, "9999-12-31" },
    { "the day after the last", 10000, 1, 1, "9999-12-31" },
    { "a year after the last", 10001, 1, 1, "9999-12-31" },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      char text[CARPACE_DAY_BYTES];
      print_message ("%s\n", rows[i].row);
      memset (text, 'x', sizeof text);
      carpace_day_write (carpace_day_from_civil (rows[i].year, rows[i].month, rows[i].day), text);
      assert_string_equal (text, rows[i].text);
    }
}

static void
what_is_no_date (void **state)
{
  static const char *const texts[] = {
    "2027-00-31", "2027-13-01", "2027-13-31", "2027-99-01", "2027-01-32", "2027-04-31", "2027-12-32", "2026-12-00", "2027x01-01", "2027-01x01",
    "2027-01-01x", "2027-01-1x", "2027-1x-01", "202x-01-01",
  };
  for (size_t i = 0; i < COUNT (texts); i++)
    {
      CarpaceDay day = 7;
      print_message ("'%s'\n", texts[i]);
      assert_false (carpace_day_read (texts[i], &day));
      assert_int_equal (day, 7);
    }
}

/* A wall clock that reads @day at @ms in it, under UTC. */
static CarpaceInstant
at (int64_t day, int64_t ms)
{
  return (CarpaceInstant) { .wall_ms = day * CARPACE_DAY_MS + ms };
}

static void
days_are_within_their_type (void **state)
{
  assert_int_equal (carpace_day_of (at (INT32_MAX, -1), 0), INT32_MAX - 1);
  assert_int_equal (carpace_day_of (at (INT32_MAX, 0), 0), INT32_MAX);
  assert_int_equal (carpace_day_of (at ((int64_t) INT32_MAX + 1, 0), 0), INT32_MAX);
  assert_int_equal (carpace_day_of (at ((int64_t) CARPACE_NO_DAY + 2, 0), 0), CARPACE_NO_DAY + 2);
  assert_int_equal (carpace_day_of (at ((int64_t) CARPACE_NO_DAY + 1, 0), 0), CARPACE_NO_DAY + 1);
  assert_int_equal (carpace_day_of (at (CARPACE_NO_DAY, 0), 0), CARPACE_NO_DAY + 1);
}

static void
until_the_day_turns (void **state)
{
  assert_int_equal (carpace_day_until_turn_ms (at (3, 0), 0), CARPACE_DAY_MS);
  assert_int_equal (carpace_day_until_turn_ms (at (3, 1), 0), CARPACE_DAY_MS - 1);
  assert_int_equal (carpace_day_until_turn_ms (at (4, -1), 0), 1);
  assert_int_equal (carpace_day_until_turn_ms (at (3, 0), 240), 240 * CARPACE_MINUTE_MS);
  assert_int_equal (carpace_day_until_turn_ms (at (-3, 5), 0), CARPACE_DAY_MS - 5);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (dates_follow_one_another),
    cmocka_unit_test (written_within_four_digits),
    cmocka_unit_test (what_is_no_date),
    cmocka_unit_test (days_are_within_their_type),
    cmocka_unit_test (until_the_day_turns),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
