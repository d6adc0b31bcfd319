/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-load-text.c: a change's effect is told where it is seen, and what a press would set. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "text/load-text.h"

static void
an_effect_is_told_where_it_is_seen (void **state)
{
  static const struct { double index, then_index, reserve, then_reserve; const char *told; } rows[] = {
    { 5.94, 5.50, 0.62, 0.66, "Index of the day 5.50 instead of 5.94; lowest residual capacity about 66 % instead of 62 %." },
    { 5.944, 5.936, 0.62, 0.66, "Lowest residual capacity about 66 % instead of 62 %." },
    { 5.946, 5.944, 0.62, 0.66, "Index of the day 5.94 instead of 5.95; lowest residual capacity about 66 % instead of 62 %." },
    { 5.23, 5.31, 0.33, 0.36, "Lowest residual capacity about 36 % instead of 33 %; but the index of the day 5.31 instead of 5.23." },
    { 5.33, 5.29, 0.36, 0.35, "Index of the day 5.29 instead of 5.33; but the lowest residual capacity about 35 % instead of 36 %." },
    { 5.94, 5.50, 0.6151, 0.6249, "Index of the day 5.50 instead of 5.94." },
    { 5.94, 5.939, 0.6151, 0.6249, "By less than these figures show." },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const CarpaceEase ease = { .day_index = rows[i].then_index, .lowest_reserve = rows[i].then_reserve };
      char *told = carpace_text_ease_effect (&ease, rows[i].index, rows[i].reserve);

      assert_string_equal (told, rows[i].told);
      free (told);
    }
}

static void
a_press_sets_what_a_person_would (void **state)
{
  CarpacePlan plan = { .n_blocks = 2, .blocks[1].limit_ms = 14 * 60000 + 30000, .rest_ms = 30000, .after_ms = 605000 };
  static const struct { CarpaceEaseKind kind; const char *press; } rows[] = {
    { CARPACE_EASE_LIMIT, "Make block 2 13 min" },
    { CARPACE_EASE_REST, "Rest 1 min, not 30 s" },
    { CARPACE_EASE_RUN, "Rest after 5 min, not 10 min 5 s" },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      char *press = carpace_text_ease_press (&plan, &(CarpaceEase) { .kind = rows[i].kind, .block = 1 });

      assert_string_equal (press, rows[i].press);
      free (press);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (an_effect_is_told_where_it_is_seen), cmocka_unit_test (a_press_sets_what_a_person_would) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
