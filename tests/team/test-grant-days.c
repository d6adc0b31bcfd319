/* SPDX-License-Identifier: GPL-3.0-or-later */
/* By which days a grant is judged: UTC's, as a club's database does it, and the practice day of who judges. Catches a program
 * that shows more than the database, so that its row says nothing came where sharing has ended, and one that shows it longer. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "team/grant.h"

#define DAY 20879 /* Tuesday, 2027-03-02 */
#define MIDNIGHT_S (INT64_C (86400) * DAY)

#define NOT_YET CARPACE_TEAM_NOT_YET
#define FINE CARPACE_TEAM_FINE
#define ENDED CARPACE_TEAM_ENDED

/* From DAY until DAY + 1. UTC's day and the practice day differ by one at most, on either side. */
static void
both_days_lie_within_its_dates (void **state)
{
  static const struct { const char *when; int64_t from_midnight_s; int32_t today; CarpaceTeamFault holds; } rows[] = {
    { "a second before UTC's first day", -1, DAY - 1, NOT_YET },
    { "the same, in the east", -1, DAY, NOT_YET },
    { "UTC's first second, the night before", 0, DAY - 1, NOT_YET },
    { "UTC's first second, practice's day", 0, DAY, FINE },
    { "the first day", 43200, DAY, FINE },
    { "the first day, the second in the east", 43200, DAY + 1, FINE },
    { "the last second of UTC's last day", 2 * 86400 - 1, DAY + 1, FINE },
    { "the same, the day before in the west", 2 * 86400 - 1, DAY, FINE },
    { "the same, the day after in the east", 2 * 86400 - 1, DAY + 2, ENDED },
    { "UTC's next day, before practice's turn", 2 * 86400, DAY + 1, ENDED },
    { "the next day", 2 * 86400, DAY + 2, ENDED },
  };
  const CarpaceGrant grant = { .what = CARPACE_GRANT_HAND, .since = DAY, .until = DAY + 1 };
  const CarpaceGrant endless = { .what = CARPACE_GRANT_HAND, .since = DAY };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      int64_t now_s = MIDNIGHT_S + rows[i].from_midnight_s;

      if (carpace_grant_holds (&grant, false, now_s, rows[i].today) != rows[i].holds)
        fail_msg ("%s", rows[i].when);
      if (carpace_grant_holds (&endless, false, now_s, rows[i].today) != (rows[i].holds == ENDED ? FINE : rows[i].holds))
        fail_msg ("without an end: %s", rows[i].when);
    }
}

/* A clock that stands before 1970 gives days below 0, not day 0 twice. */
static void
utcs_day (void **state)
{
  assert_int_equal (carpace_grant_day (MIDNIGHT_S - 1), DAY - 1);
  assert_int_equal (carpace_grant_day (MIDNIGHT_S), DAY);
  assert_int_equal (carpace_grant_day (MIDNIGHT_S + 86399), DAY);
  assert_int_equal (carpace_grant_day (-1), -1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (both_days_lie_within_its_dates),
    cmocka_unit_test (utcs_day),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
