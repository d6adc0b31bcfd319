/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-day-rail-text.c: what a day along its rail is to those who do not see it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>

#include "text/day-rail-text.h"

#define EVENING INT64_C (1804006800000) /* 2027-03-02T18:00:00+01:00 */

static CarpaceRailPart
part (CarpaceRailKind kind, int32_t number, int64_t from_min, int64_t to_min, int64_t practice_min)
{
  return (CarpaceRailPart) { .kind = kind, .number = number, .match = number == 0, .practice_ms = practice_min * CARPACE_MINUTE_MS,
                             .from = { .wall_ms = EVENING + from_min * CARPACE_MINUTE_MS, .offset_s = 3600 },
                             .to = { .wall_ms = EVENING + to_min * CARPACE_MINUTE_MS, .offset_s = 3600 } };
}

static void
every_part_is_said_in_its_order (void **state)
{
  const CarpaceDayRail day = { .n = 4, .part = { part (CARPACE_RAIL_DONE, 1, 30, 65, 30), part (CARPACE_RAIL_DONE, 0, 70, 80, 9),
                                                 part (CARPACE_RAIL_UNDER_WAY, 2, 110, 139, 25), part (CARPACE_RAIL_AHEAD, 3, 184, 200, 15) } };
  g_autofree char *text = carpace_text_day_rail (&day);

  assert_string_equal (text, "Block 1: 30 min done, 18:30 to 19:05. Match: 9 min done, 19:10 to 19:20. "
                             "Block 2, under way: 25 min, 19:50 to about 20:19. Block 3: 15 min planned, about 21:04 to 21:20.");
}

static void
a_bare_rail_is_said_to_be_one (void **state)
{
  const CarpaceDayRail day = { 0 };
  g_autofree char *text = carpace_text_day_rail (&day);

  assert_string_equal (text, "No practice planned.");
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (every_part_is_said_in_its_order), cmocka_unit_test (a_bare_rail_is_said_to_be_one) };

  return cmocka_run_group_tests_name ("text/day-rail-text", tests, NULL, NULL);
}
