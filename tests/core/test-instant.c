/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-instant.c: sums at their ends; ISO 8601 there and back, and what is none. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/instant.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

static void
sums_saturate (void **state)
{
  static const struct { const char *row; int64_t a, b, sum; } rows[] = {
    { .row = "plain", .a = 2, .b = 3, .sum = 5 },
    { .row = "down", .a = 2, .b = -3, .sum = -1 },
    { .row = "at the top", .a = INT64_MAX, .b = 0, .sum = INT64_MAX },
    { .row = "over the top", .a = INT64_MAX - 1, .b = 2, .sum = INT64_MAX },
    { .row = "both over", .a = INT64_MAX, .b = INT64_MAX, .sum = INT64_MAX },
    { .row = "under the bottom", .a = INT64_MIN + 1, .b = -2, .sum = INT64_MIN },
    { .row = "to the top", .a = INT64_MAX - 2, .b = 2, .sum = INT64_MAX },
    { .row = "one under the top", .a = INT64_MAX - 2, .b = 1, .sum = INT64_MAX - 1 },
    { .row = "one over the top", .a = INT64_MAX, .b = 1, .sum = INT64_MAX },
    { .row = "to the bottom", .a = INT64_MIN + 2, .b = -2, .sum = INT64_MIN },
    { .row = "one above the bottom", .a = INT64_MIN + 2, .b = -1, .sum = INT64_MIN + 1 },
    { .row = "one under the bottom", .a = INT64_MIN, .b = -1, .sum = INT64_MIN },
    { .row = "at the bottom", .a = INT64_MIN, .b = 0, .sum = INT64_MIN },
    { .row = "ends meet", .a = INT64_MAX, .b = INT64_MIN, .sum = -1 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      assert_true (carpace_sum_ms (rows[i].a, rows[i].b) == rows[i].sum);
    }
}

static void
after_moves_both_clocks (void **state)
{
  CarpaceInstant at = { .elapsed_ms = 100, .wall_ms = 5000, .offset_s = 3600 };
  CarpaceInstant later = carpace_instant_after (at, 250);
  assert_int_equal (later.elapsed_ms, 350);
  assert_int_equal (later.wall_ms, 5250);
  assert_int_equal (later.offset_s, 3600);
  assert_true (carpace_instant_after (at, INT64_MAX).elapsed_ms == INT64_MAX);
  assert_true (carpace_instant_after (at, -200).elapsed_ms == -100);
}

/* RFC 3339, section 5.8 gives the second and third; the others follow from ISO 8601. */
static void
there_and_back (void **state)
{
  static const struct { const char *row; int64_t wall_ms; int32_t offset_s; const char *text; } rows[] = {
    { .row = "the epoch", .wall_ms = 0, .offset_s = 0, .text = "1970-01-01T00:00:00.000+00:00" },
    { .row = "RFC 3339, 5.8, first", .wall_ms = INT64_C (482196050520), .offset_s = 0, .text = "1985-04-12T23:20:50.520+00:00" },
    { .row = "RFC 3339, 5.8, second", .wall_ms = INT64_C (851042397000), .offset_s = -28800, .text = "1996-12-19T16:39:57.000-08:00" },
    { .row = "the default of a script", .wall_ms = INT64_C (1804006800000), .offset_s = 3600, .text = "2027-03-02T18:00:00.000+01:00" },
    { .row = "half an hour", .wall_ms = 0, .offset_s = 19800, .text = "1970-01-01T05:30:00.000+05:30" },
    { .row = "before the epoch", .wall_ms = -1, .offset_s = 0, .text = "1969-12-31T23:59:59.999+00:00" },
    { .row = "an offset with seconds", .wall_ms = 0, .offset_s = -2670, .text = "1969-12-31T23:15:30.000-00:44:30" },
    { .row = "a whole day east", .wall_ms = 0, .offset_s = 86400, .text = "1970-01-02T00:00:00.000+24:00" },
    { .row = "a second west", .wall_ms = 0, .offset_s = -1, .text = "1969-12-31T23:59:59.000-00:00:01" },
    { .row = "a second east", .wall_ms = 0, .offset_s = 1, .text = "1970-01-01T00:00:01.000+00:00:01" },
    { .row = "a second under an hour", .wall_ms = 0, .offset_s = 3599, .text = "1970-01-01T00:59:59.000+00:59:59" },
    { .row = "the first", .wall_ms = INT64_C (-62167219200000), .offset_s = 0, .text = "0000-01-01T00:00:00.000+00:00" },
    { .row = "the last", .wall_ms = INT64_C (253402300799999), .offset_s = 0, .text = "9999-12-31T23:59:59.999+00:00" },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceInstant at = { .wall_ms = rows[i].wall_ms, .offset_s = rows[i].offset_s }, back;
      char text[CARPACE_INSTANT_BYTES];
      print_message ("%s\n", rows[i].row);
      assert_int_equal (carpace_instant_write (at, text), strlen (rows[i].text));
      assert_string_equal (text, rows[i].text);
      assert_true (carpace_instant_read (text, &back));
      assert_true (back.wall_ms == at.wall_ms && back.offset_s == at.offset_s && back.elapsed_ms == 0);
    }
}

static void
years_outside_are_not_written (void **state)
{
  static const int64_t walls[] = { INT64_C (-62167219200001), INT64_C (253402300800000), INT64_MIN, INT64_MAX };
  for (size_t i = 0; i < COUNT (walls); i++)
    {
      char text[CARPACE_INSTANT_BYTES] = "untouched";
      assert_int_equal (carpace_instant_write ((CarpaceInstant) { .wall_ms = walls[i] }, text), 0);
      assert_string_equal (text, "");
    }
}

static void
other_forms_that_are_read (void **state)
{
  static const struct { const char *text; int64_t wall_ms; } rows[] = {
    { "1970-01-01T00:00:00Z", 0 },
    { "1970-01-01T01:00:00+01:00", 0 },
    { "1970-01-01T00:00:00.5Z", 500 },
    { "1970-01-01T00:00:00.123456789Z", 123 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceInstant at;
      print_message ("%s\n", rows[i].text);
      assert_true (carpace_instant_read (rows[i].text, &at));
      assert_true (at.wall_ms == rows[i].wall_ms);
    }
}

static void
what_is_no_instant (void **state)
{
  static const char *const texts[] = {
    "", "2027", "2027-03-02", "2027-03-02T18:00:00", "2027-03-02 18:00:00Z", "2027-02-29T18:00:00Z",
    "2027-13-02T18:00:00Z", "2027-00-02T18:00:00Z", "2027-03-00T18:00:00Z", "2027-03-02T24:00:00Z",
    "2027-03-02T18:60:00Z", "2027-03-02T18:00:60Z", "2027-03-02T18:00:00.Z", "2027-03-02T18:00:00.1234567890Z",
    "2027-03-02T18:00:00+1:00", "2027-03-02T18:00:00+0100", "2027-03-02T18:00:00+25:00", "2027-03-02T18:00:00-00:00",
    "2027-03-02T18:00:00+24:01", "2027-03-02T18:00:00+24:00:01", "2027-03-02T18:00:00+01:60", "2027-03-02T18:00:00Zz", "2027-03-02T18:00:00+01:00x",
    "+027-03-02T18:00:00Z", "2027-3-2T18:00:00Z", "2027-03-02T18:00:00,5Z", "2027-03-02t18:00:00z",
  };
  for (size_t i = 0; i < COUNT (texts); i++)
    {
      CarpaceInstant at = { .wall_ms = 42 };
      print_message ("'%s'\n", texts[i]);
      assert_false (carpace_instant_read (texts[i], &at));
      assert_int_equal (at.wall_ms, 42);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (sums_saturate),
    cmocka_unit_test (after_moves_both_clocks),
    cmocka_unit_test (there_and_back),
    cmocka_unit_test (years_outside_are_not_written),
    cmocka_unit_test (other_forms_that_are_read),
    cmocka_unit_test (what_is_no_instant),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
