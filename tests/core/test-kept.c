/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-kept.c: what a day leaves behind for the rules of the next, number by
 * number. A row's first line is day, dose, done, limits, match, other, end of the
 * last practice, waking, stiffness, now, other load and pain relief; its second one,
 * behind the rule, sum, number and highest of ratings, then: no practice, worse,
 * above stop, ended so, tightened by two, near stop, last answered, beyond, cut for. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "cases.h"

static void
matches (CarpacePlan *plan)
{
  plan->matches_count = 5000;
}

static const CarpaceCase cases[] = {
  { "a day that went as planned", 2, 30, NULL,
    "0:00 morning 0 usual\n0:10 start\n30:10 still\n30:20 rate 0\n1:15:20 start\n1:45:10 still\n1:45:20 rate 1\n24:00:00 morning 0 usual\n24:00:01 kept",
    ",day 20879 3600000 3590000 3600000 0 0 6310000 0 2 -1 0 0 \n 0 1 0 0 0 0 0 0 0 0 0 0 ." },
  { "a day tightened by two, a number near stop-above", 2, 30, NULL,
    "0:00 morning 0 usual\n0:10 start\n10:00 end\n10:10 rate 4\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 3600000 590000 2970000 0 -1 600000 0 2 -1 0 0 \n 4 1 4 0 0 0 0 1 1 1 0 0 ." },
  { "a day that ended above stop-above", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 6\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 3600000 600000 3600000 0 -1 600000 -1 0 -1 0 0 \n 6 1 6 0 0 1 1 0 1 1 0 0 ." },
  { "a day whose last block went unanswered, beyond the plan", 1, 30, NULL,
    "0:00 start\n30:00 still\n30:10 rate 0\n31:00 start\n31:10 start\n40:00 end\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 1800000 2330000 1800000 0 0 2400000 -1 0 -1 0 0 \n 0 1 0 0 0 0 0 0 0 0 1 0 ." },
  { "a day with a late answer", 1, 30, NULL,
    "0:00 start\n10:00 end\n50:00 rate 2\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 1800000 600000 1800000 0 -1 600000 -1 0 -1 0 0 \n 2 1 2 0 0 0 0 1 0 0 0 0 ." },
  { "a day of a match and pain relief", 2, 30, matches,
    "0:00 morning 1 --pain-relief --other-load\n0:10 start match\n20:10 end\n20:20 rate 0\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 3600000 600000 3600000 1200000 -1 1210000 1 0 -1 1 1 \n 0 1 0 0 0 0 0 0 0 1 0 0 ." },
  { "a worse day, stiffer, nothing done", 2, 30, NULL,
    "0:00 morning 0 more\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 2340000 0 2340000 0 -1 0 0 3 -1 0 0 \n 0 0 -1 0 1 0 0 0 0 0 0 0 ." },
  { "a day above stop-above in the morning", 2, 30, NULL,
    "0:00 morning 0 --now 6\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 0 0 0 0 -1 0 0 0 6 0 0 \n 0 0 -1 1 0 1 0 0 1 0 0 0 ." },
  { "a day on which input was told of", 2, 30, NULL,
    "0:00 morning 0\n0:10 input\n5:10 still\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 3600000 0 3600000 0 300000 0 0 0 -1 0 0 \n 0 0 -1 0 0 0 0 0 0 0 0 0 ." },
  { "a day closed with its rating open", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n24:00:00 start\n24:00:01 kept",
    ",day 20879 3600000 590000 3600000 0 -1 600000 -1 0 -1 0 0 \n 0 0 -1 0 0 0 0 0 0 0 0 0 ." },
  { "an overrun on the day's last block", 1, 30, NULL,
    "0:00 start\n32:00 still\n32:20 rate 0\n24:00:00 morning 0\n24:00:01 kept",
    ",day 20879 1800000 1920000 1800000 0 0 1920000 -1 0 -1 0 0 \n 0 1 0 0 0 0 0 0 0 1 0 0 ." },
};

static void
test_kept (void **state)
{
  assert_int_equal (carpace_cases_failed (cases, sizeof cases / sizeof cases[0]), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_kept) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
