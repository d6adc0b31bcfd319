/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-season-text.c: weeks and days of a rehearsal in words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>

#include "text/season-text.h"
#include "text/text.h"

#define MIN_MS CARPACE_MINUTE_MS

static void
weeks_are_told (void **state)
{
  static const struct { CarpaceSeasonWeekTold week; const char *told; } rows[] = {
    { { .number = 1, .done_ms = 268 * MIN_MS, .planned_ms = 306 * MIN_MS, .days = 6, .highest = 3, .cuts = 1, .before_ms = -1 },
      "Week 1: 4 h 28 min of 5 h 6 min on 6 days, highest discomfort 3, 1 cut" },
    { { .number = 2, .done_ms = 290 * MIN_MS, .planned_ms = 306 * MIN_MS, .days = 1, .highest = 0, .cuts = 2, .before_ms = 268 * MIN_MS },
      "Week 2: 4 h 50 min of 5 h 6 min on 1 day, highest discomfort 0, 2 cuts; 22 min more than the week before" },
    { { .number = 3, .done_ms = 0, .planned_ms = 0, .days = 0, .highest = -1, .before_ms = 290 * MIN_MS },
      "Week 3: 0 s of 0 s on 0 days; 4 h 50 min less than the week before" },
    { { .number = 4, .done_ms = 60 * MIN_MS, .planned_ms = 60 * MIN_MS, .days = 1, .highest = -1, .before_ms = 60 * MIN_MS },
      "Week 4: 1 h of 1 h on 1 day; as much as the week before" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *told = carpace_text_season_week (&rows[i].week);

      assert_string_equal (told, rows[i].told);
    }
}

/* A second is a difference, what is under it is none. */
static void
a_trend_is_told_from_a_second_on (void **state)
{
  static const struct { int64_t done_ms, before_ms; const char *told; } rows[] = {
    { 999, 0, "as much as the week before" }, { 1000, 0, "1 s more than the week before" },
    { 0, 999, "as much as the week before" }, { 0, 1000, "1 s less than the week before" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *told = carpace_text_season_trend (rows[i].done_ms, rows[i].before_ms);

      assert_string_equal (told, rows[i].told);
    }
}

static void
days_are_told_with_their_decision (void **state)
{
  const CarpaceDecision keep = { .rule = CARPACE_RULE_KEEP, .scope = CARPACE_SCOPE_DAY, .discomfort = -1, .reference = -1,
                                 .earlier = -1, .mean_pct = -1, .mean_before_pct = -1, .mornings_say = -1,
                                 .before_ms = 60 * MIN_MS, .after_ms = 60 * MIN_MS };
  const CarpaceSeasonDayTold rows[] = {
    { .day = 20879, .planned_ms = 60 * MIN_MS, .done_ms = 58 * MIN_MS, .highest = 2, .decision = &keep },
    { .day = 20879, .planned_ms = 0, .highest = -1 },
  };
  g_autofree char *practised = carpace_text_season_day (&rows[0]), *off = carpace_text_season_day (&rows[1]);
  g_autofree char *why = carpace_text_why_short (&keep);

  assert_true (g_str_has_prefix (practised, "Tue 2 Mar 2027: 58 min of 1 h, highest discomfort 2. "));
  assert_true (g_str_has_suffix (practised, why));
  assert_string_equal (off, "Tue 2 Mar 2027: no practice today.");
}

static void
a_season_is_told_in_a_line (void **state)
{
  const CarpaceSeasonAllTold all = { .done_ms = 3000 * MIN_MS, .days = 70, .cuts = 1, .rest_days = 0, .cautions = 2,
                                     .highest = 6, .level_ms = 51 * MIN_MS };
  g_autofree char *told = carpace_text_season_all (&all), *title = carpace_text_season_title ("“A”", 84);

  assert_string_equal (told, "In all 50 h on 70 days, 1 cut, 0 rest days, 2 cautions, highest discomfort 6; the level at the end: 51 min.");
  assert_string_equal (title, "“A”, 84 days");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (weeks_are_told),
    cmocka_unit_test (a_trend_is_told_from_a_second_on),
    cmocka_unit_test (days_are_told_with_their_decision),
    cmocka_unit_test (a_season_is_told_in_a_line),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
