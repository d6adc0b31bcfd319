/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-why.c: each rule's sentence with its numbers; every finding has one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "text/text.h"

#define MINUTES(n) ((n) * CARPACE_MINUTE_MS)
#define BLOCK(...) { .scope = CARPACE_SCOPE_BLOCK, .stop_above = 5, __VA_ARGS__ }
#define DAY(...) { .scope = CARPACE_SCOPE_DAY, .stop_above = 5, __VA_ARGS__ }

static const struct { const char *row; CarpaceDecision decision; const char *why, *follows; } rows[] = {
  { "above-stop", BLOCK (.block = 1, .rule = CARPACE_RULE_ABOVE_STOP, .discomfort = 6, .before_ms = MINUTES (30)),
    "Discomfort 6 after block 1 is above 5: no more practice today.", "No more practice today" },
  { "up-2", BLOCK (.block = 1, .rule = CARPACE_RULE_UP_2, .discomfort = 3, .reference = 1, .before_ms = MINUTES (30), .after_ms = 1170000, .shorten_to = 6500),
    "Discomfort 3 after block 1 is 2 or more up on 1, what it is compared with: the next block is 19 min 30 s instead of 30 min (65 %), with rests closer and longer.",
    "Next block shorter: 19 min 30 s" },
  { "up-to-4-or-5", BLOCK (.rule = CARPACE_RULE_UP_TO_4_OR_5, .block = 2, .discomfort = 4, .reference = 3, .usual = 2, .before_ms = MINUTES (30), .after_ms = 1170000, .shorten_to = 6500),
    "Discomfort 4 after block 2 is up to 4 or 5 and 2 or more above your usual 2: the next block is 19 min 30 s instead of 30 min (65 %), with rests closer and longer.",
    "Next block shorter: 19 min 30 s" },
  { "up-1", BLOCK (.rule = CARPACE_RULE_UP_1, .block = 0, .discomfort = 2, .reference = 1, .before_ms = MINUTES (30), .after_ms = 1530000, .shorten_to = 8500),
    "Discomfort 2 after the match is 1 up on 1, what it is compared with: the next block is 25 min 30 s instead of 30 min (85 %), with rests closer.",
    "Next block shorter: 25 min 30 s" },
  { "up-1, limit already small", BLOCK (.block = 1, .rule = CARPACE_RULE_UP_1, .discomfort = 1, .reference = 0, .before_ms = MINUTES (3), .after_ms = MINUTES (3), .shorten_to = 8500),
    "Discomfort 1 after block 1 is 1 up on 0, what it is compared with: the next block stays 3 min, with rests closer.", NULL },
  { "unanswered-twice", BLOCK (.rule = CARPACE_RULE_UNANSWERED_TWICE, .block = 3, .before_ms = MINUTES (20), .after_ms = MINUTES (17), .shorten_to = 8500),
    "No rating after block 3, as after the one before: the next block is 17 min instead of 20 min (85 %), with rests closer.",
    "Next block shorter: 17 min" },
  { "tightened-thrice", BLOCK (.block = 1, .rule = CARPACE_RULE_TIGHTENED_THRICE, .discomfort = 3, .before_ms = MINUTES (12)),
    "What was answered after block 1 would shorten blocks for the third time today: no more practice today.", "No more practice today" },
  { "too-short", BLOCK (.block = 1, .rule = CARPACE_RULE_TOO_SHORT, .before_ms = 150000),
    "The next block would be 2 min 30 s, too short to be one: no more practice today.", "No more practice today" },
  { "keep, taken back", BLOCK (.block = 1, .rule = CARPACE_RULE_KEEP, .discomfort = 0, .before_ms = 1170000, .after_ms = MINUTES (30)),
    "With the corrected rating after block 1 nothing is tightened for it: the next block is 30 min instead of 19 min 30 s.", "Next block: 30 min" },
  { "caution", DAY (.rule = CARPACE_RULE_CAUTION, .no_practice = true, .before_ms = MINUTES (42), .kept_ms = MINUTES (42)),
    "A caution is open: no practice until it is closed; practice time stays 42 min till then.", "No practice today" },
  { "cut, stiffer", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_STIFFER, .before_ms = MINUTES (60), .after_ms = MINUTES (39), .done_ms = MINUTES (60), .shorten_to = 6500),
    "The hand woke stiffer than usual: less today, 39 min instead of 60 min; that is 65 % of 60 min.", "Less today: 39 min" },
  { "cut, waking up", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_WAKING_UP, .discomfort = 3, .usual = 1, .before_ms = MINUTES (90), .after_ms = MINUTES (63), .done_ms = MINUTES (90), .shorten_to = 7000),
    "Discomfort 3 on waking is 2 or more above your usual 1: less today, 1 h 3 min instead of 1 h 30 min; that is 70 % of 1 h 30 min.", "Less today: 1 h 3 min" },
  { "cut to the least", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_STIFFER, .before_ms = MINUTES (20), .after_ms = MINUTES (15), .done_ms = MINUTES (20), .shorten_to = 6500),
    "The hand woke stiffer than usual: less today, 15 min instead of 20 min.", "Less today: 15 min" },
  { "cut at the least", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_STIFFER, .before_ms = MINUTES (15), .after_ms = MINUTES (15), .done_ms = MINUTES (15), .shorten_to = 6500),
    "The hand woke stiffer than usual: practice time stays 15 min, the least it can be.", NULL },
  { "cut, waking above 5", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_WAKING_ABOVE_STOP, .discomfort = 6, .before_ms = MINUTES (60), .no_practice = true, .kept_ms = MINUTES (39), .done_ms = MINUTES (60), .shorten_to = 6500),
    "Discomfort 6 on waking is above 5: no practice today, and 39 min the next practice day, 65 % of 60 min.", "No practice today" },
  { "cut, now above 5, twice", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_NOW_ABOVE_STOP, .discomfort = 7, .before_ms = MINUTES (60), .no_practice = true, .opens_caution = true, .kept_ms = MINUTES (30)),
    "Discomfort 7 this morning is above 5, the second time within 7 days: no practice until a physiotherapist or doctor has seen it, 30 min then at most.", "No practice today" },
  { "cut, ended above 5", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_ENDED_ABOVE_STOP, .before_ms = MINUTES (60), .after_ms = MINUTES (26), .done_ms = MINUTES (40), .shorten_to = 6500),
    "The last practice day ended above 5: less today, 26 min instead of 60 min; that is 65 % of 40 min.", "Less today: 26 min" },
  { "rest day", DAY (.rule = CARPACE_RULE_REST_DAY, .finding = CARPACE_FINDING_AFTER_TWO_CUTS, .before_ms = MINUTES (25), .no_practice = true, .kept_ms = MINUTES (25)),
    "Worse this morning after two cuts in a row: a rest day today; practice time stays 25 min.", "No practice today" },
  { "second rest day", DAY (.rule = CARPACE_RULE_REST_DAY, .finding = CARPACE_FINDING_AFTER_REST_DAY, .no_practice = true, .opens_caution = true, .kept_ms = MINUTES (25)),
    "Worse this morning after a rest day, the second rest day within 14 days: no practice until a physiotherapist or doctor has seen it.", "No practice today" },
  { "keep-no-practice", DAY (.rule = CARPACE_RULE_KEEP_NO_PRACTICE, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "Worse this morning, with no practice for more than 72 hours: practice time stays 42 min; please read the cautions.", NULL },
  { "keep-other-load", DAY (.rule = CARPACE_RULE_KEEP_OTHER_LOAD, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "Worse this morning, after another unusual load: practice time stays 42 min.", NULL },
  { "after-time-off", DAY (.rule = CARPACE_RULE_AFTER_TIME_OFF, .weeks = 2, .before_ms = MINUTES (60), .after_ms = MINUTES (48)),
    "2 full weeks without practice: one step lower for each, 48 min today instead of 60 min.", "Less today: 48 min" },
  { "after one week off", DAY (.rule = CARPACE_RULE_AFTER_TIME_OFF, .weeks = 1, .before_ms = MINUTES (60), .after_ms = MINUTES (54)),
    "1 full week without practice: one step lower, 54 min today instead of 60 min.", "Less today: 54 min" },
  { "keep-week", DAY (.rule = CARPACE_RULE_KEEP_WEEK, .finding = CARPACE_FINDING_WEEK_RISING, .mean_pct = 230, .mean_before_pct = 150, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "The last 7 days' ratings have a mean of 2.3, more than 0.5 above the 1.5 of the 7 before: practice time stays 42 min.", NULL },
  { "two weeks rising", DAY (.rule = CARPACE_RULE_KEEP_WEEK, .finding = CARPACE_FINDING_TWO_WEEKS_RISING, .mean_pct = 300, .mean_before_pct = 200, .no_practice = true, .opens_caution = true),
    "The ratings rose for two weeks, to a mean of 3.0 from 2.0 the week before: no practice until a physiotherapist or doctor has seen it.", "No practice today" },
  { "way-back", DAY (.rule = CARPACE_RULE_WAY_BACK, .finding = CARPACE_FINDING_SETTLED_DAYS, .days = 2, .needed = 2, .before_ms = MINUTES (39), .after_ms = MINUTES (51)),
    "2 settled days in a row, on the way back: 51 min today instead of 39 min.", "More today: 51 min" },
  { "way-back by ratings", DAY (.rule = CARPACE_RULE_WAY_BACK, .finding = CARPACE_FINDING_NO_CHECK_FOR_LONG, .days = 2, .before_ms = MINUTES (39), .after_ms = MINUTES (51)),
    "2 days settled by their ratings alone, on the way back: 51 min today instead of 39 min.", "More today: 51 min" },
  { "step-up", DAY (.rule = CARPACE_RULE_STEP_UP, .finding = CARPACE_FINDING_GOOD_DAYS, .days = 3, .needed = 3, .before_ms = MINUTES (60), .after_ms = MINUTES (66)),
    "3 good days in a row: step up, 1 h 6 min today instead of 1 h.", "More today: 1 h 6 min" },
  { "first day", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_FIRST_DAY, .before_ms = MINUTES (60), .after_ms = MINUTES (60)),
    "The first day: 1 h, as the plan has it.", NULL },
  { "no check", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_NO_CHECK, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "No morning check, and the check is what lets practice time rise: it stays 42 min.", NULL },
  { "at most", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_AT_MOST, .before_ms = MINUTES (90), .after_ms = MINUTES (90)),
    "Practice time stays 1 h 30 min, the most the plan allows.", NULL },
  { "one good day so far", DAY (.rule = CARPACE_RULE_KEEP, .days = 1, .needed = 3, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "1 of the 3 good days that a step up asks for: practice time stays 42 min.", NULL },
  { "keep", DAY (.rule = CARPACE_RULE_KEEP, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "Nothing asks for a change: practice time stays 42 min.", NULL },
};

/* The rows above are written with times as minutes where an hour reads "1 h". */
static char *
hours (const char *text)
{
  GString *s = g_string_new (text);
  g_string_replace (s, "60 min", "1 h", 0);
  return g_string_free (s, FALSE);
}

static void
rules_in_sentences (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *why = carpace_text_why (&rows[i].decision);
      g_autofree char *follows = carpace_text_follows (&rows[i].decision);
      g_autofree char *expected = hours (rows[i].why);
      print_message ("%s\n", rows[i].row);
      assert_string_equal (why, expected);
      if (rows[i].follows)
        assert_string_equal (follows, rows[i].follows);
      else
        assert_null (follows);
    }
}

static bool
is_told_by_a_row (CarpaceRule rule)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i].decision.rule == rule)
      return true;
  return false;
}

static void
every_rule_has_a_row (void **state)
{
  for (int rule = 0; rule < CARPACE_N_RULES; rule++)
    assert_true (is_told_by_a_row ((CarpaceRule) rule));
}

static void
every_finding_is_one_sentence (void **state)
{
  for (int rule = 0; rule < CARPACE_N_RULES; rule++)
    for (int finding = 0; finding < CARPACE_N_FINDINGS; finding++)
      for (int scope = 0; scope < CARPACE_N_SCOPES; scope++)
        for (int bits = 0; bits < 8; bits++)
          {
            CarpaceDecision d = { .rule = (CarpaceRule) rule, .finding = (CarpaceFinding) finding, .scope = (CarpaceScope) scope,
                                  .no_practice = bits & 1, .opens_caution = bits & 2, .after_ms = bits & 4 ? MINUTES (30) : 0,
                                  .before_ms = MINUTES (30), .kept_ms = MINUTES (20), .discomfort = -1 };
            g_autofree char *why = carpace_text_why (&d);
            assert_true (strlen (why) > 3);
            assert_true (g_utf8_validate (why, -1, NULL));
            assert_null (strstr (why, "(null)"));
            assert_null (strstr (why, ". "));
          }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (rules_in_sentences),
    cmocka_unit_test (every_rule_has_a_row),
    cmocka_unit_test (every_finding_is_one_sentence),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
