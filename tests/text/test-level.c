/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-level.c: from what `why` says alone it is plain what the level is, how it
 * came about and what would change it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "text/level-text.h"
#include "text/text.h"

#define MINUTES(n) ((n) * CARPACE_MINUTE_MS)
#define DAY(dose, level, ...) { .scope = CARPACE_SCOPE_DAY, .kept_ms = MINUTES (dose), .after_ms = MINUTES (dose), .before_ms = MINUTES (dose), \
                                .level_ms = MINUTES (level), .first_dose_ms = MINUTES (60), .step_ms = MINUTES (6), .stop_above = 5, __VA_ARGS__ }
#define SINCE 20880 /* 2027-03-03 */

#define AIM(level) "Practice time is led to " level " and held there: the aim."
#define DOWN(to, so_far) \
  "Down: a worse morning cuts practice time once. The aim comes down, to about " to " (85 %), after a number above 5, " \
  "a worse morning after a rating of 4 or more, or the third worse morning in two weeks after practice at the aim (" so_far " so far)."

static const CarpaceDecision came_down = { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_ENDED_ABOVE_STOP,
                                           .stop_above = 5, .before_ms = MINUTES (60), .after_ms = MINUTES (39), .kept_ms = MINUTES (39),
                                           .level_before_ms = MINUTES (60), .level_ms = MINUTES (51), .level_down = true,
                                           .down_from_ms = MINUTES (60) };

static const struct
{
  const char *row;
  CarpaceDecision decision;
  const CarpaceDecision *change;
  CarpaceDay changed;
  const char *lines[6];
} rows[] = {
  { "at the plan's", DAY (60, 60, .rule = CARPACE_RULE_KEEP, .usual = 1, .needed = 3, .days = 1, .level_days = -1, .mornings_say = -1),
    NULL, CARPACE_NO_DAY,
    { AIM ("1 h"), "It is the plan's, and has not changed.",
      "Up to 1 h 6 min, or to the most the plan allows: after 3 good days in a row, 7 days at one aim, and no more than 2 of the last 6 mornings above usual.",
      DOWN ("51 min", "0") } },
  { "after it came down", DAY (51, 51, .rule = CARPACE_RULE_KEEP, .usual = 1, .needed = 3, .days = 2, .level_days = 5, .wakings_up = 1,
                               .worse_mornings = 1, .down_from_ms = MINUTES (60), .down_days = 5, .mornings_say = -1),
    &came_down, SINCE,
    { AIM ("51 min"),
      "It has been that since 3 Mar 2027: The last practice day ended above 5: today 39 min instead of 1 h; from now on 51 min is the aim (85 % of 1 h).",
      "Up to 54 min, or to the most the plan allows: after 3 good days in a row (2 so far), 7 days at one aim (5 so far), and no more than 2 of the last 6 mornings above usual (1 now).",
      DOWN ("43 min", "1") } },
  { "as it comes down: what led to that counts no more", DAY (39, 51, .rule = CARPACE_RULE_CUT, .usual = 1, .needed = 1, .level_before_ms = MINUTES (60),
                               .level_down = true, .worse_mornings = 3, .level_days = 0, .mornings_say = -1),
    NULL, SINCE,
    { AIM ("51 min"), "It has been that since 3 Mar 2027, when a plan or a closed caution set it.",
      "Up: back towards 51 min by 6 min after each settled day.", DOWN ("33 min", "0") } },
  { "under it", DAY (39, 60, .rule = CARPACE_RULE_CUT_ONCE, .usual = 1, .needed = 1, .straight_back = true, .worse_mornings = 2, .level_days = 20, .mornings_say = -1),
    NULL, SINCE,
    { AIM ("1 h"), "It has been that since 3 Mar 2027, when a plan or a closed caution set it.", "Up: 1 h again after one settled day.",
      DOWN ("33 min", "2") } },
  { "at the most", DAY (90, 90, .rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_AT_MOST, .usual = 1, .needed = 3, .mornings_say = -1), NULL, CARPACE_NO_DAY,
    { AIM ("1 h 30 min"), "It rises no further: it is the most the plan allows.", DOWN ("1 h 16 min", "0") } },
  { "no step up in the plan", DAY (50, 50, .rule = CARPACE_RULE_KEEP, .usual = 1, .mornings_say = -1), NULL, CARPACE_NO_DAY,
    { AIM ("50 min"), "It rises no further: the plan has no step up.", DOWN ("42 min", "0") } },
  { "a caution", DAY (30, 60, .rule = CARPACE_RULE_CAUTION, .no_practice = true, .mornings_say = -1), NULL, CARPACE_NO_DAY,
    { AIM ("1 h"), "It is the plan's, and has not changed.", "Practice begins again, shorter, the practice day after the caution is closed." } },
  { "usual too low", DAY (60, 60, .rule = CARPACE_RULE_CAUTION, .mornings_say = 1), NULL, CARPACE_NO_DAY,
    { AIM ("1 h"), "It is the plan's, and has not changed.", "Practice begins again, shorter, the practice day after the caution is closed.",
      "Ask whoever set the plan: it says usual discomfort 0, the mornings say 1." } },
  { "recorded before there was a level", { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP, .kept_ms = MINUTES (60) }, NULL, CARPACE_NO_DAY, { NULL } },
};

static void
level_lines (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (GStrv) lines = carpace_text_level_lines (&rows[i].decision, rows[i].change, rows[i].changed);
      guint n = 0;

      print_message ("%s\n", rows[i].row);
      for (; rows[i].lines[n] != NULL; n++)
        assert_string_equal (lines[n], rows[i].lines[n]);
      assert_null (lines[n]);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (level_lines) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
