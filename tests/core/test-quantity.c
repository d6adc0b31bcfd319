/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-quantity.c: values with their units; decimals against the C library's
 * strtod() (IEEE 754 correct rounding). */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/quantity.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

static void
values_are_read (void **state)
{
  static const struct { const char *text; CarpaceUnit unit; double number; } rows[] = {
    { "90 s", CARPACE_UNIT_DURATION, 90000 },
    { "90s", CARPACE_UNIT_DURATION, 90000 },
    { "1.5 min", CARPACE_UNIT_DURATION, 90000 },
    { "1 h 5 min", CARPACE_UNIT_DURATION, 3900000 },
    { "1h5min2.5s", CARPACE_UNIT_DURATION, 3902500 },
    { "0.1 h", CARPACE_UNIT_DURATION, 360000 },
    { "0 s", CARPACE_UNIT_DURATION, 0 },
    { "-0 s", CARPACE_UNIT_DURATION, 0 },
    { "0.001 s", CARPACE_UNIT_DURATION, 1 },
    { "1.000000000000000000 s", CARPACE_UNIT_DURATION, 1000 },
    { "-5 min", CARPACE_UNIT_DURATION, -300000 },
    { "99999999999999999999999 h", CARPACE_UNIT_DURATION, 1e15 },
    { "1.0 h 5 min", CARPACE_UNIT_DURATION, 3900000 },
    { "277777777 h", CARPACE_UNIT_DURATION, 999999997200000 },
    { "277777778 h", CARPACE_UNIT_DURATION, 1e15 },
    { "-277777778 h", CARPACE_UNIT_DURATION, -1e15 },
    { "999999999999999", CARPACE_UNIT_CM, 999999999999999 },
    { "1000000000000005", CARPACE_UNIT_CM, 1e15 },
    { "1050000000000005", CARPACE_UNIT_CM, 1e15 },
    { "950000000000000", CARPACE_UNIT_CM, 950000000000000 },
    { "1000000000000000", CARPACE_UNIT_WHOLE, 1e15 },
    { "0.3 s", CARPACE_UNIT_SECONDS, 0.3 },
    { "70 %", CARPACE_UNIT_SHARE, 7000 },
    { "33.33%", CARPACE_UNIT_SHARE, 3333 },
    { "12 %", CARPACE_UNIT_PERCENT, 12 },
    { "12.345678 %", CARPACE_UNIT_PERCENT, 12.345678 },
    { "60 /min", CARPACE_UNIT_PER_MIN, 60 },
    { "60/min", CARPACE_UNIT_PER_MIN, 60 },
    { "90 deg", CARPACE_UNIT_DEGREES, 90 },
    { "25 deg extension", CARPACE_UNIT_WRIST, -25 },
    { "25deg  flexion", CARPACE_UNIT_WRIST, 25 },
    { "0 deg extension", CARPACE_UNIT_WRIST, 0 },
    { "straight", CARPACE_UNIT_WRIST, 0 },
    { "35", CARPACE_UNIT_CM, 35 },
    { "8", CARPACE_UNIT_WHOLE, 8 },
    { "8.0", CARPACE_UNIT_WHOLE, 8 },
    { "-1", CARPACE_UNIT_WHOLE, -1 },
    { "04:00", CARPACE_UNIT_TIME_OF_DAY, 240 },
    { "23:59", CARPACE_UNIT_TIME_OF_DAY, 1439 },
    { "24:00", CARPACE_UNIT_TIME_OF_DAY, 1440 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      double number = -77;
      if (carpace_quantity_read (rows[i].text, rows[i].unit, &number) != CARPACE_QUANTITY_OK
          || number != rows[i].number || signbit (number) != (rows[i].number < 0))
        fail_msg ("%s: read as %.17g", rows[i].text, number);
    }
}

static void
what_is_wrong_is_told (void **state)
{
  static const struct { const char *text; CarpaceUnit unit; CarpaceQuantityFault fault; } rows[] = {
    { "", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_NOT_A_NUMBER },
    { "soon", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_NOT_A_NUMBER },
    { ".5 h", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_NOT_A_NUMBER },
    { "5. h", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_NOT_A_NUMBER },
    { "1 h and", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_NOT_A_NUMBER },
    { "1e3 s", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_OTHER_UNIT },
    { "60", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_NO_UNIT },
    { "1 h 5", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_NO_UNIT },
    { "60 ", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_OTHER_UNIT },
    { "60 minutes", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_OTHER_UNIT },
    { "60 ms", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_OTHER_UNIT },
    { "5 min 1 h", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_ORDER },
    { "5 min 6 min", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_ORDER },
    { "1.5 h 5 min", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_ORDER },
    { "1 h -5 min", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_ORDER },
    { "0.0001 s", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_TOO_FINE },
    { "0.3333333333333333 h", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_TOO_FINE },
    { "27777777.8 h", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_TOO_FINE },
    { "1.0000000000000001 s", CARPACE_UNIT_DURATION, CARPACE_QUANTITY_TOO_FINE },
    { "33.333 %", CARPACE_UNIT_SHARE, CARPACE_QUANTITY_TOO_FINE },
    { "65", CARPACE_UNIT_SHARE, CARPACE_QUANTITY_NO_UNIT },
    { "65 percent", CARPACE_UNIT_SHARE, CARPACE_QUANTITY_OTHER_UNIT },
    { "60 per min", CARPACE_UNIT_PER_MIN, CARPACE_QUANTITY_OTHER_UNIT },
    { "90", CARPACE_UNIT_DEGREES, CARPACE_QUANTITY_NO_UNIT },
    { "25 deg", CARPACE_UNIT_WRIST, CARPACE_QUANTITY_OTHER_UNIT },
    { "25", CARPACE_UNIT_WRIST, CARPACE_QUANTITY_NO_UNIT },
    { "-25 deg flexion", CARPACE_UNIT_WRIST, CARPACE_QUANTITY_OTHER_UNIT },
    { "2.5", CARPACE_UNIT_WHOLE, CARPACE_QUANTITY_TOO_FINE },
    { "35 cm", CARPACE_UNIT_CM, CARPACE_QUANTITY_OTHER_UNIT },
    { "0.1234567890123456", CARPACE_UNIT_CM, CARPACE_QUANTITY_TOO_FINE },
    { "4:00", CARPACE_UNIT_TIME_OF_DAY, CARPACE_QUANTITY_NOT_A_TIME },
    { "04:60", CARPACE_UNIT_TIME_OF_DAY, CARPACE_QUANTITY_NOT_A_TIME },
    { "04:00:00", CARPACE_UNIT_TIME_OF_DAY, CARPACE_QUANTITY_NOT_A_TIME },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      double number = -77;
      CarpaceQuantityFault fault = carpace_quantity_read (rows[i].text, rows[i].unit, &number);
      if (fault != rows[i].fault || number != -77)
        fail_msg ("\"%s\": fault %d, expected %d", rows[i].text, (int) fault, (int) rows[i].fault);
    }
}

static void
values_are_written (void **state)
{
  static const struct { CarpaceUnit unit; double number; const char *text; } rows[] = {
    { CARPACE_UNIT_DURATION, 0, "0 s" },
    { CARPACE_UNIT_DURATION, 90000, "1 min 30 s" },
    { CARPACE_UNIT_DURATION, 3900000, "1 h 5 min" },
    { CARPACE_UNIT_DURATION, 3600001, "1 h 0.001 s" },
    { CARPACE_UNIT_DURATION, 514286, "8 min 34.286 s" },
    { CARPACE_UNIT_SECONDS, 0.3, "0.3 s" },
    { CARPACE_UNIT_SHARE, 6550, "65.5 %" },
    { CARPACE_UNIT_SHARE, 1, "0.01 %" },
    { CARPACE_UNIT_PERCENT, 12, "12 %" },
    { CARPACE_UNIT_PER_MIN, 60, "60 /min" },
    { CARPACE_UNIT_DEGREES, 90, "90 deg" },
    { CARPACE_UNIT_WRIST, -25.5, "25.5 deg extension" },
    { CARPACE_UNIT_WRIST, 0, "straight" },
    { CARPACE_UNIT_CM, 35, "35" },
    { CARPACE_UNIT_TIME_OF_DAY, 245, "04:05" },
    { CARPACE_UNIT_TIME_OF_DAY, 0, "00:00" },
    { CARPACE_UNIT_TIME_OF_DAY, 60, "01:00" },
    { CARPACE_UNIT_TIME_OF_DAY, 1439, "23:59" },
    { CARPACE_UNIT_DURATION, -1, "-0.001 s" },
    { CARPACE_UNIT_DURATION, -1500, "-1.5 s" },
    { CARPACE_UNIT_DURATION, -90000, "-1 min 30 s" },
    { CARPACE_UNIT_DURATION, -3600000, "-1 h" },
    { CARPACE_UNIT_CM, -0.5, "-0.5" },
    { CARPACE_UNIT_WRIST, -0.5, "0.5 deg extension" },
    { CARPACE_UNIT_WRIST, 0.5, "0.5 deg flexion" },
    { CARPACE_UNIT_CM, 0.951234567890123, "0.951234567890123" }, /* 15 digits */
    { CARPACE_UNIT_CM, 1.051234567890123, "1.05123456789012" },
    { CARPACE_UNIT_CM, 99.9999999999999, "99.9999999999999" },
    { CARPACE_UNIT_CM, 2e15, "1000000000000000" },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      char text[CARPACE_QUANTITY_BYTES];
      size_t n = carpace_quantity_write (rows[i].unit, rows[i].number, text);
      assert_string_equal (text, rows[i].text);
      assert_int_equal (n, strlen (text));
    }
}

static uint64_t
next_random (uint64_t *x)
{
  *x ^= *x << 13;
  *x ^= *x >> 7;
  *x ^= *x << 17;
  return *x;
}

static void
decimals_are_those_of_strtod (void **state)
{
  uint64_t x = 20270302;

  for (int i = 0; i < 200000; i++)
    {
      int decimals = (int) (next_random (&x) % 9);
      char text[64], back[CARPACE_QUANTITY_BYTES];
      double number, again;

      snprintf (text, sizeof text, "%u.%0*u", (unsigned) (next_random (&x) % 1000), decimals ? decimals : 1,
                (unsigned) (next_random (&x) % (uint64_t[]){ 1, 10, 100, 1000, 10000, 100000, 1000000, 10000000, 100000000 }[decimals]));
      assert_int_equal (carpace_quantity_read (text, CARPACE_UNIT_CM, &number), CARPACE_QUANTITY_OK);
      if (number != strtod (text, NULL))
        fail_msg ("%s (seed 20270302): %.17g", text, number);
      carpace_quantity_write (CARPACE_UNIT_CM, number, back);
      assert_int_equal (carpace_quantity_read (back, CARPACE_UNIT_CM, &again), CARPACE_QUANTITY_OK);
      if (again != number)
        fail_msg ("%s came back as %s (seed 20270302)", text, back);
    }
}

static void
durations_come_back (void **state)
{
  uint64_t x = 4;

  for (int i = 0; i < 100000; i++)
    {
      double ms = (double) (next_random (&x) % (uint64_t) (9 * CARPACE_HOUR_MS)), again = -1;
      char text[CARPACE_QUANTITY_BYTES];

      carpace_quantity_write (CARPACE_UNIT_DURATION, ms, text);
      carpace_quantity_read (text, CARPACE_UNIT_DURATION, &again);
      if (again != ms)
        fail_msg ("%.0f ms came back from \"%s\" as %.0f (seed 4)", ms, text, again);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (values_are_read),
    cmocka_unit_test (what_is_wrong_is_told),
    cmocka_unit_test (values_are_written),
    cmocka_unit_test (decimals_are_those_of_strtod),
    cmocka_unit_test (durations_come_back),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
