/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a row of a roster says of its last week. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <string.h>

#include "text/roster-text.h"

#define S INT64_C (1000)

static void
a_week_is_told_in_whole_minutes (void **state)
{
  static const struct { int64_t done_ms, planned_ms; const char *said; } rows[] = {
    { 3629 * S, 7200 * S, "1 h of 2 h" },
    { 3630 * S, 7200 * S, "1 h 1 min of 2 h" },
    { 22806 * S, 23580 * S, "6 h 20 min of 6 h 33 min" },
    { 0, 29 * S, "0 s of 0 s" },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const CarpaceRosterRow row = { .load = true, .n_weeks = 2,
                                     .week = { { .done_ms = 1 }, { .done_ms = rows[i].done_ms, .planned_ms = rows[i].planned_ms } } };
      g_autofree char *said = carpace_text_roster_week (&row);

      assert_string_equal (said, rows[i].said);
    }
}

/* Nothing there is not nothing done. */
static void
a_load_that_is_not_shared_is_told_so (void **state)
{
  static const struct { bool load, hand; const char *said; } rows[] = {
    { false, true, "not shared" },
    { true, true, "" },
    { true, false, "" },
    { false, false, "" }, /* beside it stands why */
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const CarpaceRosterRow row = { .load = rows[i].load, .hand = rows[i].hand };
      g_autofree char *said = carpace_text_roster_week (&row);

      assert_string_equal (said, rows[i].said);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_week_is_told_in_whole_minutes),
    cmocka_unit_test (a_load_that_is_not_shared_is_told_so),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
