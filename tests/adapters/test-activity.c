/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "activity.h"

#define SINCE_UNTOUCHED INT64_C (-7)

/* Elapsed time now is 100 s in every row, a gap is 4 s. */
static void
one_look (void **state)
{
  static const struct
  {
    const char *name;
    CarpaceLook look;
    int64_t from_ms, idle_ms, slept_ms;
    CarpaceLooked looked;
    int64_t since_ms;
  } rows[] = {
    { "at first: a gap is on", CARPACE_LOOK_AT_FIRST, 0, 4000, 0, CARPACE_LOOKED_TELL_STILL, 96000 },
    { "at first: none yet", CARPACE_LOOK_AT_FIRST, 0, 3999, 0, CARPACE_LOOKED_FINE, SINCE_UNTOUCHED },
    { "moving: never moved", CARPACE_LOOK_MOVING, 96000, 30000, 0, CARPACE_LOOKED_TELL_STILL, 96000 },
    { "moving: moved before only", CARPACE_LOOK_MOVING, 95999, 4500, 0, CARPACE_LOOKED_TELL_STILL, 95999 },
    { "moving: moved after", CARPACE_LOOK_MOVING, 95999, 3000, 0, CARPACE_LOOKED_FINE, SINCE_UNTOUCHED },
    { "moving: looked too soon", CARPACE_LOOK_MOVING, 97000, 30000, 0, CARPACE_LOOKED_FINE, SINCE_UNTOUCHED },
    { "still: and moving", CARPACE_LOOK_STILL, 97950, 10, 0, CARPACE_LOOKED_TELL_INPUT, 99990 },
    { "still: moving, within reach", CARPACE_LOOK_STILL, 98000, 10, 0, CARPACE_LOOKED_AGAIN, SINCE_UNTOUCHED },
    { "still: for less than a gap", CARPACE_LOOK_STILL, 97950, 500, 0, CARPACE_LOOKED_CATCH, SINCE_UNTOUCHED },
    { "still: for a gap", CARPACE_LOOK_STILL, 97950, 4000, 0, CARPACE_LOOKED_FINE, SINCE_UNTOUCHED },
    { "still over a suspend", CARPACE_LOOK_STILL, 39500, 1000, 60000, CARPACE_LOOKED_CATCH, SINCE_UNTOUCHED },
    { "suspended in mid-move", CARPACE_LOOK_STILL, 40000, 5, 60000, CARPACE_LOOKED_AGAIN, SINCE_UNTOUCHED },
    { "input since the wake", CARPACE_LOOK_STILL, 38000, 300, 61000, CARPACE_LOOKED_TELL_INPUT, 99700 },
    { "two clocks read apart are no suspend", CARPACE_LOOK_STILL, 97950, 20, 30, CARPACE_LOOKED_TELL_INPUT, 99980 },
    { "nothing asked", CARPACE_LOOK_NOT, 0, 9000, 0, CARPACE_LOOKED_FINE, SINCE_UNTOUCHED },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceLookedAt at = { .look = rows[i].look, .from_ms = rows[i].from_ms, .gap_after_ms = 4000, .now_ms = 100000,
                             .idle_ms = rows[i].idle_ms, .slept_ms = rows[i].slept_ms };
      int64_t since_ms = SINCE_UNTOUCHED;
      CarpaceLooked looked = carpace_activity_judge (&at, &since_ms);
      if (looked != rows[i].looked || since_ms != rows[i].since_ms)
        fail_msg ("%s: %d since %lld", rows[i].name, looked, (long long) since_ms);
    }
}

static void
when_to_look (void **state)
{
  assert_int_equal (carpace_activity_look_in_ms (CARPACE_LOOK_AT_FIRST, 5, 4000, 100000), 0);
  assert_int_equal (carpace_activity_look_in_ms (CARPACE_LOOK_MOVING, 99000, 4000, 100000), 3001);
  assert_int_equal (carpace_activity_look_in_ms (CARPACE_LOOK_STILL, 99000, 4000, 100000), 1050);
  assert_int_equal (carpace_activity_look_in_ms (CARPACE_LOOK_STILL, 40000, 4000, 100000), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (one_look), cmocka_unit_test (when_to_look) };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
