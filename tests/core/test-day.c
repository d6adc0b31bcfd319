/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-day.c: practice days and dates, against GLib's GDate and GDateTime
 * (a general date library) over ten years of zones. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "../fakes/rounds.h"
#include "carpace/day.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

/* GDate counts from 0001-01-01, which it calls day 1. */
#define JULIAN_OF_1970 719163

static void
every_date_of_the_calendar (void **state)
{
  GDate date;

  g_date_clear (&date, 1);
  for (guint32 julian = 1; julian <= 3652059; julian++)
    {
      CarpaceDay day = (CarpaceDay) julian - JULIAN_OF_1970;
      int32_t y, m, d;

      g_date_set_julian (&date, julian);
      carpace_day_to_civil (day, &y, &m, &d);
      assert_int_equal (y, g_date_get_year (&date));
      assert_int_equal (m, g_date_get_month (&date));
      assert_int_equal (d, g_date_get_day (&date));
      assert_int_equal (carpace_day_from_civil (y, m, d), day);
    }
}

static void
written_and_read (void **state)
{
  static const struct { const char *row; CarpaceDay day; const char *text; } rows[] = {
    { .row = "the epoch", .day = 0, .text = "1970-01-01" },
    { .row = "the day before", .day = -1, .text = "1969-12-31" },
    { .row = "a leap day", .day = 11016, .text = "2000-02-29" },
    { .row = "the first", .day = -719528, .text = "0000-01-01" },
    { .row = "the last", .day = 2932896, .text = "9999-12-31" },
  };
  char text[CARPACE_DAY_BYTES];
  CarpaceDay day;

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      carpace_day_write (rows[i].day, text);
      assert_string_equal (text, rows[i].text);
      assert_true (carpace_day_read (text, &day));
      assert_int_equal (day, rows[i].day);
    }
  carpace_day_write (CARPACE_NO_DAY, text);
  assert_string_equal (text, "0000-01-01");
  carpace_day_write (INT32_MAX, text);
  assert_string_equal (text, "9999-12-31");
}

/* GLib's own calendar, over more than 400 years: a whole Gregorian cycle. */
static void
weekdays_are_those_of_glib (void **state)
{
  for (int32_t day = -80000; day < -80000 + carpace_test_rounds (160001); day++)
    {
      int32_t year, month, of_month;
      GDate date;
      carpace_day_to_civil (day, &year, &month, &of_month);
      g_date_clear (&date, 1);
      g_date_set_dmy (&date, (GDateDay) of_month, (GDateMonth) month, (GDateYear) year);
      assert_int_equal (carpace_day_weekday (day), (int) g_date_get_weekday (&date) - G_DATE_MONDAY);
    }
  assert_int_equal (carpace_day_weekday (INT32_MAX), CARPACE_WEEKDAY_MONDAY + ((int64_t) INT32_MAX + 3) % 7);
}

static void
what_is_no_date (void **state)
{
  static const char *const texts[] = {
    "", "2027", "2027-02-29", "1900-02-29", "2027-04-31", "2027-13-01", "2027-00-01", "2027-01-00", "2027-1-01",
    "2027-01-1", "20270101", "2027-01-01 ", " 2027-01-01", "-027-01-01", "2027/01/01", "2027-01-0x",
  };
  for (size_t i = 0; i < COUNT (texts); i++)
    {
      CarpaceDay day = 7;
      print_message ("'%s'\n", texts[i]);
      assert_false (carpace_day_read (texts[i], &day));
      assert_int_equal (day, 7);
    }
}

static void
turns_at_its_hour (void **state)
{
  static const struct { const char *row; const char *at; int32_t starts_at_min; const char *day; int64_t until_turn_ms; } rows[] = {
    { .row = "evening", .at = "2027-03-02T18:00:00+01:00", .starts_at_min = 240, .day = "2027-03-02", .until_turn_ms = 10 * CARPACE_HOUR_MS },
    { .row = "one in the morning", .at = "2027-03-03T01:00:00+01:00", .starts_at_min = 240, .day = "2027-03-02", .until_turn_ms = 3 * CARPACE_HOUR_MS },
    { .row = "just before", .at = "2027-03-03T03:59:59.999+01:00", .starts_at_min = 240, .day = "2027-03-02", .until_turn_ms = 1 },
    { .row = "at it", .at = "2027-03-03T04:00:00+01:00", .starts_at_min = 240, .day = "2027-03-03", .until_turn_ms = CARPACE_DAY_MS },
    { .row = "midnight days", .at = "2027-03-03T00:00:00+01:00", .starts_at_min = 0, .day = "2027-03-03", .until_turn_ms = CARPACE_DAY_MS },
    { .row = "the last minute", .at = "2027-03-03T23:58:00+01:00", .starts_at_min = 1439, .day = "2027-03-02", .until_turn_ms = CARPACE_MINUTE_MS },
    { .row = "far east", .at = "2027-03-03T05:00:00+14:00", .starts_at_min = 240, .day = "2027-03-03", .until_turn_ms = 23 * CARPACE_HOUR_MS },
    { .row = "before the epoch", .at = "1969-12-31T03:00:00Z", .starts_at_min = 240, .day = "1969-12-30", .until_turn_ms = CARPACE_HOUR_MS },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceInstant at;
      char text[CARPACE_DAY_BYTES];
      print_message ("%s\n", rows[i].row);
      assert_true (carpace_instant_read (rows[i].at, &at));
      carpace_day_write (carpace_day_of (at, rows[i].starts_at_min), text);
      assert_string_equal (text, rows[i].day);
      assert_int_equal (carpace_day_until_turn_ms (at, rows[i].starts_at_min), rows[i].until_turn_ms);
    }
  assert_int_equal (carpace_day_of ((CarpaceInstant) { .wall_ms = INT64_MAX }, 0), INT32_MAX);
  assert_int_equal (carpace_day_of ((CarpaceInstant) { .wall_ms = INT64_MIN }, 0), CARPACE_NO_DAY + 1);
}

/* What GLib says the practice day is: the local date, and the one before where
 * the local clock shows less than the hour the day starts at. */
static CarpaceDay
day_by_glib (GDateTime *local, int32_t starts_at_min)
{
  gint y, m, d;
  GDate date;

  g_date_time_get_ymd (local, &y, &m, &d);
  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay) d, (GDateMonth) m, (GDateYear) y);
  if (g_date_time_get_hour (local) * 60 + g_date_time_get_minute (local) < starts_at_min)
    g_date_subtract_days (&date, 1);
  return (CarpaceDay) g_date_get_julian (&date) - JULIAN_OF_1970;
}

static void
check_moment (GTimeZone *zone, int64_t wall_s)
{
  static const int32_t starts[] = { 0, 150, 240, 1439 };
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (wall_s);
  g_autoptr (GDateTime) local = g_date_time_to_timezone (utc, zone);
  g_autofree char *by_glib = g_date_time_format (local, "%Y-%m-%dT%H:%M:%S.000%:z");
  CarpaceInstant at = { .wall_ms = wall_s * 1000, .offset_s = (int32_t) (g_date_time_get_utc_offset (local) / G_TIME_SPAN_SECOND) };
  CarpaceInstant back;
  char text[CARPACE_INSTANT_BYTES];

  carpace_instant_write (at, text);
  assert_string_equal (text, by_glib);
  assert_true (carpace_instant_read (by_glib, &back));
  assert_true (back.wall_ms == at.wall_ms && back.offset_s == at.offset_s);
  for (size_t i = 0; i < COUNT (starts); i++)
    assert_int_equal (carpace_day_of (at, starts[i]), day_by_glib (local, starts[i]));
}

/* Zones with and without daylight saving, both hemispheres, half and quarter
 * hours, a half-hour saving (Lord Howe), the farthest offsets either way, one
 * that changed its mind (Casablanca). */
static void
ten_years_of_zones (void **state)
{
  static const char *const names[] = {
    "UTC", "Europe/Berlin", "Europe/London", "America/New_York", "America/St_Johns", "America/Sao_Paulo",
    "Africa/Casablanca", "Asia/Kathmandu", "Asia/Tokyo", "Australia/Lord_Howe", "Pacific/Auckland",
    "Pacific/Chatham", "Pacific/Kiritimati", "Pacific/Pago_Pago",
  };
  const int64_t from_s = INT64_C (1577836800), to_s = INT64_C (1893456000); /* 2020 to 2030 */

  for (size_t i = 0; i < (size_t) carpace_test_rounds (COUNT (names)); i++)
    {
      g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (names[i]);
      int32_t before = INT32_MIN;
      int changes = 0;

      print_message ("%s", names[i]);
      assert_non_null (zone);
      for (int64_t s = from_s; s < to_s; s += 3600)
        {
          int interval = g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, s);
          int32_t offset = g_time_zone_get_offset (zone, interval);

          if (before != INT32_MIN && offset != before)
            {
              changes++;
              for (int64_t near = s - 7200; near <= s + 7200; near += 59)
                check_moment (zone, near);
            }
          before = offset;
          if (s % 21600 == 0)
            check_moment (zone, s + (s / 3600 % 3599));
        }
      print_message (": %d changes of offset\n", changes);
      assert_true (i == 0 ? changes == 0 : strcmp (names[i], "Europe/Berlin") != 0 || changes == 20);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_date_of_the_calendar),
    cmocka_unit_test (written_and_read),
    cmocka_unit_test (weekdays_are_those_of_glib),
    cmocka_unit_test (what_is_no_date),
    cmocka_unit_test (turns_at_its_hour),
    cmocka_unit_test (ten_years_of_zones),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
