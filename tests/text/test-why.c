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
#define AT(was, is, aim) .before_ms = MINUTES (was), .after_ms = MINUTES (is), .kept_ms = MINUTES (is), .level_ms = MINUTES (aim)
#define DAY(...) { .scope = CARPACE_SCOPE_DAY, .stop_above = 5, __VA_ARGS__ }

static const struct { const char *row; CarpaceDecision decision; const char *why, *follows; } rows[] = {
  { "above-stop", BLOCK (.block = 1, .rule = CARPACE_RULE_ABOVE_STOP, .discomfort = 6, .before_ms = MINUTES (30)),
    "Discomfort 6 after block 1 is above 5: no more practice today.", "No more practice today" },
  { "up-2", BLOCK (.block = 1, .rule = CARPACE_RULE_UP_2, .discomfort = 3, .reference = 1, .before_ms = MINUTES (30), .after_ms = 1170000, .shorten_to = 6500),
    "Discomfort 3 after block 1 is up by 2 or more (compared with 1): a further block is 19 min 30 s instead of 30 min (65 %), with rests closer and longer.",
    "Next block shorter: 19 min 30 s" },
  { "up-to-4-or-5", BLOCK (.rule = CARPACE_RULE_UP_TO_4_OR_5, .block = 2, .discomfort = 4, .reference = 3, .usual = 2, .before_ms = MINUTES (30), .after_ms = 1170000, .shorten_to = 6500),
    "Discomfort 4 after block 2 is up to 4 or 5 and 2 or more above your usual 2: a further block is 19 min 30 s instead of 30 min (65 %), with rests closer and longer.",
    "Next block shorter: 19 min 30 s" },
  { "up-1", BLOCK (.rule = CARPACE_RULE_UP_1, .block = 0, .discomfort = 2, .reference = 1, .before_ms = MINUTES (30), .after_ms = 1530000, .shorten_to = 8500),
    "Discomfort 2 after the match is up by 1 (compared with 1): a further block is 25 min 30 s instead of 30 min (85 %), with rests closer.",
    "Next block shorter: 25 min 30 s" },
  { "up-1, limit already small", BLOCK (.block = 1, .rule = CARPACE_RULE_UP_1, .discomfort = 1, .reference = 0, .before_ms = MINUTES (3), .after_ms = MINUTES (3), .shorten_to = 8500),
    "Discomfort 1 after block 1 is up by 1 (compared with 0): a further block stays 3 min, with rests closer.", NULL },
  { "up-1, and a caution has ended the day", BLOCK (.block = 2, .rule = CARPACE_RULE_UP_1, .discomfort = 1, .reference = 0, .shorten_to = 8500),
    "Discomfort 1 after block 2 is up by 1 (compared with 0); no block follows today.", "No more practice today" },
  { "unanswered-twice", BLOCK (.rule = CARPACE_RULE_UNANSWERED_TWICE, .block = 3, .before_ms = MINUTES (20), .after_ms = MINUTES (17), .shorten_to = 8500),
    "No rating after block 3, as after the one before: a further block is 17 min instead of 20 min (85 %), with rests closer.",
    "Next block shorter: 17 min" },
  { "tightened-thrice", BLOCK (.block = 1, .rule = CARPACE_RULE_TIGHTENED_THRICE, .discomfort = 3, .before_ms = MINUTES (12)),
    "What was answered after block 1 would shorten blocks for the third time today: no more practice today.", "No more practice today" },
  { "too-short", BLOCK (.block = 1, .rule = CARPACE_RULE_TOO_SHORT, .before_ms = 150000),
    "The next block would be 2 min 30 s, too short to be one: no more practice today.", "No more practice today" },
  { "keep, taken back", BLOCK (.block = 1, .rule = CARPACE_RULE_KEEP, .discomfort = 0, .before_ms = 1170000, .after_ms = MINUTES (30)),
    "With the corrected rating after block 1 nothing is tightened for it: a further block is 30 min instead of 19 min 30 s.", "Next block: 30 min" },
  { "caution", DAY (.rule = CARPACE_RULE_CAUTION, .no_practice = true, .before_ms = MINUTES (42), .kept_ms = MINUTES (42)),
    "A caution is open: no practice until it is closed; practice time stays 42 min till then.", "No practice today" },
  { "a planned day without practice", DAY (.rule = CARPACE_RULE_CUT_ONCE, .finding = CARPACE_FINDING_STIFFER, .without = true, .before_ms = MINUTES (60), .kept_ms = MINUTES (39), .done_ms = MINUTES (60), .shorten_to = 6500),
    "No practice is planned today. Read “today” here as the next practice day: The hand woke stiffer than usual: today 39 min instead of 60 min (65 % of 60 min).", "No practice planned today" },
  { "cut, stiffer", DAY (.rule = CARPACE_RULE_CUT_ONCE, .finding = CARPACE_FINDING_STIFFER, .before_ms = MINUTES (60), .after_ms = MINUTES (39), .done_ms = MINUTES (60), .shorten_to = 6500),
    "The hand woke stiffer than usual: today 39 min instead of 60 min (65 % of 60 min).", "Less today: 39 min" },
  { "cut once, for the first time", DAY (.rule = CARPACE_RULE_CUT_ONCE, .finding = CARPACE_FINDING_STIFFER, AT (60, 39, 60), .done_ms = MINUTES (60), .shorten_to = 6500, .full_day = true, .worse_mornings = 1, .straight_back = true, .needed = 1),
    "The hand woke stiffer than usual, for the first time in two weeks: today 39 min instead of 60 min (65 % of 60 min); 60 min again after one settled day.", "Less today: 39 min" },
  { "for the second", DAY (.rule = CARPACE_RULE_CUT_ONCE, .finding = CARPACE_FINDING_WAKING_UP, .discomfort = 3, .usual = 1, AT (60, 39, 60), .done_ms = MINUTES (50), .shorten_to = 6500, .full_day = true, .worse_mornings = 2, .straight_back = true, .needed = 2),
    "Discomfort 3 on waking is 2 or more above your usual 1, for the second time in two weeks: today 39 min instead of 60 min; 60 min again after two settled days in a row.", "Less today: 39 min" },
  { "under the aim", DAY (.rule = CARPACE_RULE_CUT_ONCE, .finding = CARPACE_FINDING_STIFFER, AT (39, 25, 60), .worse_mornings = 1, .step_ms = MINUTES (6), .needed = 1),
    "The hand woke stiffer than usual: today 25 min instead of 39 min; back towards 60 min by 6 min after each settled day.", "Less today: 25 min" },
  { "after a rest day", DAY (.rule = CARPACE_RULE_CUT_ONCE, .finding = CARPACE_FINDING_STIFFER, AT (39, 25, 60), .step_ms = MINUTES (6), .needed = 2),
    "The hand woke stiffer than usual: today 25 min instead of 39 min; back towards 60 min by 6 min after each two settled days in a row.", "Less today: 25 min" },
  { "cut, badly rated", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_BADLY_RATED, .earlier = 4, .usual = 1, AT (60, 39, 51), .level_before_ms = MINUTES (60), .done_ms = MINUTES (60), .shorten_to = 6500, .level_down = true, .down_from_ms = MINUTES (60)),
    "Worse this morning, and discomfort 4 in the last practice was 3 or more above your usual 1: today 39 min instead of 60 min (65 % of 60 min); from now on 51 min is the aim (85 % of 60 min).", "Less today: 39 min" },
  { "cut, third worse", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_THIRD_WORSE, .worse_mornings = 3, AT (60, 39, 51), .level_before_ms = MINUTES (60), .done_ms = MINUTES (60), .shorten_to = 6500, .level_down = true, .down_from_ms = MINUTES (60)),
    "Worse mornings in two weeks after 60 min: this is number 3: today 39 min instead of 60 min (65 % of 60 min); from now on 51 min is the aim (85 % of 60 min).", "Less today: 39 min" },
  { "cut to the least", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_STIFFER, .before_ms = MINUTES (20), .after_ms = MINUTES (15), .done_ms = MINUTES (20), .shorten_to = 6500),
    "The hand woke stiffer than usual: today 15 min instead of 20 min.", "Less today: 15 min" },
  { "cut at the least", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_ENDED_ABOVE_STOP, AT (15, 15, 15), .level_before_ms = MINUTES (15), .level_down = true, .done_ms = MINUTES (15), .shorten_to = 6500),
    "The last practice day ended above 5: practice time stays 15 min, the least it can be; the aim stays 15 min, no lower.", NULL },
  { "cut, waking above 5", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_WAKING_ABOVE_STOP, .discomfort = 6, .before_ms = MINUTES (60), .no_practice = true, .kept_ms = MINUTES (39), .done_ms = MINUTES (60), .shorten_to = 6500, .level_ms = MINUTES (51), .level_before_ms = MINUTES (60), .level_down = true),
    "Discomfort 6 on waking is above 5: no practice today, and 39 min the next practice day, 65 % of 60 min; from now on 51 min is the aim.", "No practice today" },
  { "cut for already", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_WAKING_ABOVE_STOP, .discomfort = 6, .before_ms = MINUTES (39), .no_practice = true, .kept_ms = MINUTES (39), .level_ms = MINUTES (51), .level_before_ms = MINUTES (60), .level_down = true),
    "Discomfort 6 on waking is above 5: no practice today, and 39 min the next practice day; from now on 51 min is the aim.", "No practice today" },
  { "cut, now above 5, twice", DAY (.rule = CARPACE_RULE_CUT, .finding = CARPACE_FINDING_NOW_ABOVE_STOP, .discomfort = 7, .before_ms = MINUTES (60), .no_practice = true, .opens_caution = true, .kept_ms = MINUTES (30)),
    "Discomfort 7 this morning is above 5, the second time within 7 days: no practice until a physiotherapist or doctor has seen it, 30 min then at most.", "No practice today" },
  { "rest day", DAY (.rule = CARPACE_RULE_REST_DAY, .finding = CARPACE_FINDING_AFTER_TWO_CUTS, .before_ms = MINUTES (25), .no_practice = true, .kept_ms = MINUTES (25)),
    "Worse this morning after two cuts in a row: a rest day today; practice time stays 25 min.", "No practice today" },
  { "rest day, and above 5", DAY (.rule = CARPACE_RULE_REST_DAY, .finding = CARPACE_FINDING_AFTER_TWO_CUTS, .before_ms = MINUTES (25), .no_practice = true, .kept_ms = MINUTES (16)),
    "Worse this morning after two cuts in a row, and the last practice day ended above 5: a rest day today, and 16 min the next practice day.", "No practice today" },
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
  { "keep-no-practice, a week off", DAY (.rule = CARPACE_RULE_KEEP_NO_PRACTICE, .days = 8, AT (60, 54, 54)),
    "Worse this morning, with no practice for 8 days: 54 min today instead of 60 min; please read the cautions.", "Less today: 54 min" },
  { "keep-other-load, silence", DAY (.rule = CARPACE_RULE_KEEP_OTHER_LOAD, .finding = CARPACE_FINDING_NO_ANSWERS, .days = 12, AT (60, 54, 60)),
    "Worse this morning, after another unusual load, and no answer on 12 practice days: 54 min today instead of 60 min.", "Less today: 54 min" },
  { "keep-other-load, taken back", DAY (.rule = CARPACE_RULE_KEEP_OTHER_LOAD, .finding = CARPACE_FINDING_STEP_ANSWERED, AT (54, 51, 51), .level_before_ms = MINUTES (54), .level_down = true),
    "Worse this morning, after another unusual load, and the ratings rose since 54 min: back to 51 min.", "Less today: 51 min" },
  { "take-back", DAY (.rule = CARPACE_RULE_TAKE_BACK, .finding = CARPACE_FINDING_STEP_ANSWERED, AT (54, 51, 51), .level_before_ms = MINUTES (54), .level_down = true, .mean_before_pct = 140, .mean_pct = 220),
    "Since 54 min the ratings rose from 1.4 to 2.2 on the mean: back to 51 min.", "Less today: 51 min" },
  { "no-answers", DAY (.rule = CARPACE_RULE_NO_ANSWERS, .finding = CARPACE_FINDING_NO_ANSWERS, .days = 12, AT (60, 54, 60), .step_ms = MINUTES (6)),
    "No answer on 12 practice days: 54 min today; an answered block and the next morning's check lead up 6 min.", "Less today: 54 min" },
  { "no answers, no lower", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_NO_ANSWERS, .days = 40, AT (39, 39, 60)),
    "No answer on 40 practice days: practice time stays 39 min; it grows again after an answered block and the next morning's check.", NULL },
  { "way-back", DAY (.rule = CARPACE_RULE_WAY_BACK, .finding = CARPACE_FINDING_SETTLED_DAYS, .days = 1, .needed = 1, AT (39, 45, 51), .step_ms = MINUTES (6), .most_ms = MINUTES (60)),
    "1 settled day: 45 min today instead of 39 min; the aim is 51 min.", "More today: 45 min" },
  { "way-back, there", DAY (.rule = CARPACE_RULE_WAY_BACK, .finding = CARPACE_FINDING_SETTLED_DAYS, .days = 2, .needed = 2, AT (45, 51, 51), .step_ms = MINUTES (6)),
    "2 settled days in a row: 51 min today instead of 45 min.", "More today: 51 min" },
  { "way-back, bound", DAY (.rule = CARPACE_RULE_WAY_BACK, .finding = CARPACE_FINDING_SETTLED_DAYS, .days = 1, .needed = 1, AT (39, 46, 60), .straight_back = true, .most_ms = MINUTES (46), .most_of_ms = 2130000),
    "1 settled day: 46 min today instead of 39 min; no higher than 46 min, 130 % of what was done in the last two weeks (35 min on the mean).", "More today: 46 min" },
  { "way-back by ratings", DAY (.rule = CARPACE_RULE_WAY_BACK, .finding = CARPACE_FINDING_NO_CHECK_FOR_LONG, .days = 2, .before_ms = MINUTES (39), .after_ms = MINUTES (51)),
    "2 days settled by their ratings alone: 51 min today instead of 39 min.", "More today: 51 min" },
  { "step-up", DAY (.rule = CARPACE_RULE_STEP_UP, .finding = CARPACE_FINDING_GOOD_DAYS, .days = 3, .needed = 3, .before_ms = MINUTES (60), .after_ms = MINUTES (66)),
    "3 good days in a row: step up, 1 h 6 min today instead of 1 h.", "More today: 1 h 6 min" },
  { "step-up, a half step", DAY (.rule = CARPACE_RULE_STEP_UP, .finding = CARPACE_FINDING_GOOD_DAYS, .days = 3, .needed = 3, AT (51, 54, 54), .level_before_ms = MINUTES (51), .level_days = 7, .down_from_ms = MINUTES (60), .down_days = 12),
    "3 good days in a row, 7 days at 51 min, mornings as usual: step up, 54 min today instead of 51 min; a half step, because 60 min was answered badly 12 days ago.", "More today: 54 min" },
  { "step-up, bound", DAY (.rule = CARPACE_RULE_STEP_UP, .finding = CARPACE_FINDING_GOOD_DAYS, .days = 3, .needed = 3, AT (50, 52, 56), .level_before_ms = MINUTES (50), .most_ms = MINUTES (52), .most_of_ms = MINUTES (40)),
    "3 good days in a row: step up, 52 min today instead of 50 min; no higher than 52 min, 130 % of what was done in the last two weeks (40 min on the mean).", "More today: 52 min" },
  { "building back", DAY (.rule = CARPACE_RULE_KEEP, .days = 0, .needed = 2, AT (39, 39, 51)),
    "Practice time stays 39 min. Building back to 51 min goes on after 2 settled days in a row; so far: 0.", NULL },
  { "the level is young", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_LEVEL_YOUNG, .level_days = 5, AT (51, 51, 51)),
    "The aim changed 5 days ago and stays for 7: practice time stays 51 min.", NULL },
  { "mornings above usual", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_MORNINGS_UP, .wakings_up = 3, AT (51, 51, 51)),
    "3 of the last 6 mornings were above usual, 2 at most for a step up: practice time stays 51 min.", NULL },
  { "no higher", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_MOST, AT (46, 46, 60), .most_ms = MINUTES (46), .most_of_ms = MINUTES (35)),
    "No higher than 46 min, 130 % of what was done in the last two weeks (35 min on the mean): practice time stays 46 min.", NULL },
  { "first day", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_FIRST_DAY, .before_ms = MINUTES (60), .after_ms = MINUTES (60)),
    "The first day: 1 h, as the plan has it.", NULL },
  { "no check", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_NO_CHECK, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "No morning check: practice time stays 42 min; normally it grows only after one.", NULL },
  { "at most", DAY (.rule = CARPACE_RULE_KEEP, .finding = CARPACE_FINDING_AT_MOST, .before_ms = MINUTES (90), .after_ms = MINUTES (90)),
    "Practice time stays 1 h 30 min, the most the plan allows.", NULL },
  { "one good day so far", DAY (.rule = CARPACE_RULE_KEEP, .days = 1, .needed = 3, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "Practice time stays 42 min. It grows after 3 good days in a row; so far: 1.", NULL },
  { "keep", DAY (.rule = CARPACE_RULE_KEEP, .before_ms = MINUTES (42), .after_ms = MINUTES (42)),
    "There is no reason for a change: practice time stays 42 min.", NULL },
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

/* Why the last day does not count stands in Why, once; a row of days has no count. */
static void
counts_are_for_why (void **state)
{
  CarpaceDecision d = DAY (.rule = CARPACE_RULE_KEEP, AT (34, 34, 34), .days = 1, .needed = 3,
                           .uncounted = CARPACE_UNCOUNTED_PAIN_RELIEF);
  g_autofree char *why = carpace_text_why (&d);
  g_autofree char *brief = carpace_text_why_short (&d);

  assert_string_equal (why, "Practice time stays 34 min. It grows after 3 good days in a row; so far: 1. The last practice "
                            "day does not count: pain relief was taken that morning or the next.");
  assert_string_equal (brief, "Practice time stays 34 min.");
  g_free (brief);
  d.rule = CARPACE_RULE_WAY_BACK;
  d.finding = CARPACE_FINDING_SETTLED_DAYS;
  brief = carpace_text_why_short (&d);
  assert_string_equal (brief, "Building back: 34 min today.");
  d.rule = CARPACE_RULE_KEEP;
  d.finding = CARPACE_FINDING_NONE;
  for (int uncounted = CARPACE_UNCOUNTED_NOT + 1; uncounted < CARPACE_N_UNCOUNTED; uncounted++)
    {
      g_autofree char *other = NULL;

      d.uncounted = (CarpaceUncounted) uncounted;
      other = carpace_text_why (&d);
      assert_non_null (strstr (other, "The last practice day does not count: "));
    }
}

static const struct { const char *row; CarpaceEntry closed; const char *why; } closed_rows[] = {
  { "half of the plan's", { .caution = { .how = CARPACE_CAUTION_GONE, .before_ms = MINUTES (60), .after_ms = MINUTES (30), .first_dose_ms = MINUTES (60) } },
    "The caution was closed (gone, three days on): practice goes on the next practice day with 30 min instead of 1 h, half of the plan's 1 h." },
  { "what is allowed", { .caution = { .how = CARPACE_CAUTION_SEEN, .before_ms = MINUTES (60), .after_ms = MINUTES (20), .first_dose_ms = MINUTES (60),
                                      .closing = { .by = CARPACE_SEEN_BY_DOCTOR, .dose_ms = MINUTES (20) } } },
    "The caution was closed (seen by a doctor): practice goes on the next practice day with 20 min instead of 1 h, the most that was allowed to begin with; settled days lead up from there." },
  { "little already", { .caution = { .how = CARPACE_CAUTION_SEEN, .before_ms = MINUTES (25), .after_ms = MINUTES (25), .first_dose_ms = MINUTES (60),
                                     .closing = { .by = CARPACE_SEEN_BY_PHYSIOTHERAPIST } } },
    "The caution was closed (seen by a physiotherapist): practice goes on the next practice day with 25 min, as until then." },
  { "the least", { .caution = { .how = CARPACE_CAUTION_SEEN, .before_ms = MINUTES (15), .after_ms = MINUTES (10), .first_dose_ms = MINUTES (15) } },
    "The caution was closed (seen): practice goes on the next practice day with 10 min instead of 15 min." },
  { "open", { .caution = { .what = CARPACE_CAUTION_OPENED, .signs = 1u << CARPACE_SIGN_NUMB, .before_ms = MINUTES (60), .after_ms = MINUTES (60) } },
    "A caution is open: Numbness, or pins and needles. Practice begins again, shorter, the practice day after the caution is closed." },
  { "from before it was recorded", { .caution = { .how = CARPACE_CAUTION_SEEN } }, NULL },
};

static void
what_a_caution_does (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (closed_rows); i++)
    {
      g_autofree char *why = carpace_text_why_caution (&closed_rows[i].closed);

      if (g_strcmp0 (why, closed_rows[i].why) != 0)
        fail_msg ("%s: %s", closed_rows[i].row, why);
    }
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
    cmocka_unit_test (counts_are_for_why),
    cmocka_unit_test (what_a_caution_does),
    cmocka_unit_test (every_rule_has_a_row),
    cmocka_unit_test (every_finding_is_one_sentence),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
