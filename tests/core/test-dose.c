/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dose.c: a row for every row of the table that decides the next day's dose
 * and level, and for every number in it one below, at and above. Each tells the
 * days behind, this morning, and what is decided. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "dose-rows.h"

static const Row rows[] = {
  /* the first days */
  { "the first day, above 5", "", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "the second, that evening and this morning above 5", "a", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "the first day keeps", "", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_FIRST_DAY },
  { "the first day, worse: cut once from the plan's dose", "", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "the second, no practice yet: any worse morning", "c-", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "it does not come on top", "-", 3, .dose_min = 39, .level_min = 60, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39 },
  { "and raises nothing", "-", 3, .dose_min = 30, .level_min = 60, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 30 },
  { "no other load excuses it", "-", 3, .other_load = true, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "no rest day before the first practice", "mm-", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "above 5 before the first practice", "-", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },

  /* a number above stop */
  { "waking at stop-above is not above it", "g", 5, .usual = 4, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "waking above stop: no practice, cut, level down", "g", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .finding = CARPACE_FINDING_WAKING_ABOVE_STOP },
  { "now above stop", "g", 0, .now = 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .finding = CARPACE_FINDING_NOW_ABOVE_STOP },
  { "now at stop-above", "g", 0, .now = 5, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "twice, 6 days apart", "m.....", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .caution = true },
  { "7", "gm......", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .caution = true },
  { "8", "gm.......", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "an evening above 5 and the morning after count as one", "ga", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "also days later, where that is the next opened day's", "ga..", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "an evening and the second morning after are two", "ga-", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .caution = true },
  { "an evening before the 7 dates takes its morning along", "gam......", 6, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "a morning under a caution that was closed counts", "g!^6-", 6, .closed_days_ago = 1, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .caution = true },
  { "the practice day was cut for: only the level", "gc~39'm", 6, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .cut_days_ago = 1, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .caution = true },
  { "and the way back is not short", "g~60'-", 6, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .cut_days_ago = 1, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "the last day ended above stop: cut, settled or not", "ga", 0, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .finding = CARPACE_FINDING_ENDED_ABOVE_STOP },
  { "also where this morning was not told", "ga", -2, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51 },
  { "above stop, then 3 weeks off: the cut is the lower dose, time off the lower level", "ga.....................", 0, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 42, .finding = CARPACE_FINDING_ENDED_ABOVE_STOP },
  { "4 weeks: no more than after time off without that evening", "ga............................", 0, .rule = CARPACE_RULE_CUT, .to_min = 36, .to_level_min = 36, .finding = CARPACE_FINDING_ENDED_ABOVE_STOP },
  { "2 weeks: the cut is lower than both", "ga..............", 0, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 48 },
  { "twice, 6 days apart: a caution", "a....a", 0, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .caution = true },
  { "7", "a.....a", 0, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .no_practice = true, .caution = true },
  { "8", "a......a", 0, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51 },

  /* rest days */
  { "worse after two cuts in a row: a rest day", "gcc", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true, .finding = CARPACE_FINDING_AFTER_TWO_CUTS },
  { "cuts of both kinds", "gcC", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "one is not enough", "gc", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "keeps between cuts are passed over", "gcgc", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "a step taken back, too", "gcTc", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "silence begins anew", "g~50c~50b~50c~50", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 32, .straight = true },
  { "practised or not", "gcm", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "cuts before a closed caution do not count", "gcc-", 3, .closed_days_ago = 1, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "nor on its day", "gc~50c~50", 3, .closed_days_ago = 1, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 32, .straight = true },
  { "both are among the 64 days kept", "gcg#62c", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "one is not", "gcg#63c", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "worse after a rest day: another; a second within 14 days: a caution", "gr", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true, .caution = true, .finding = CARPACE_FINDING_AFTER_REST_DAY },
  { "a rest day that was partly practised is one", "gR", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true, .caution = true },
  { "an evening above stop does not take a rest day away", "gcc,7a", 3, .rule = CARPACE_RULE_REST_DAY, .to_min = 39, .to_level_min = 51, .no_practice = true },
  { "with practice since it is not", "grg", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "a second rest day after 13 days", "gr.........gcc", 3, .rest_days_ago = 13, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true, .caution = true },
  { "14", "gr..........gcc", 3, .rest_days_ago = 14, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true, .caution = true },
  { "15", "gr...........gcc", 3, .rest_days_ago = 15, .rule = CARPACE_RULE_REST_DAY, .to_min = 60, .no_practice = true },
  { "a rest day before a closed caution", "gr-", 3, .closed_days_ago = 1, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },

  { "one on that day", "gr", 3, .closed_days_ago = 1, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },

  /* worse, with something else to it */
  { "worse, last practice 72 h ago: cut", "g..", 3, .end_ms_ago = 72 * CARPACE_HOUR_MS, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "1 ms less", "g..", 3, .end_ms_ago = 72 * CARPACE_HOUR_MS - 1, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "over 72 h: keep", "g..", 3, .end_ms_ago = 72 * CARPACE_HOUR_MS + 1, .rule = CARPACE_RULE_KEEP_NO_PRACTICE, .to_min = 60 },
  { "6 dates: keep", "g.....", 3, .rule = CARPACE_RULE_KEEP_NO_PRACTICE, .to_min = 60 },
  { "7 dates: what time off makes of it", "g......", 3, .rule = CARPACE_RULE_KEEP_NO_PRACTICE, .to_min = 54, .to_level_min = 54 },
  { "worse, another load: keep", "g", 3, .other_load = true, .rule = CARPACE_RULE_KEEP_OTHER_LOAD, .to_min = 60 },
  { "not twice for that", "go", 3, .other_load = true, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "the last practice day's own rule counts", "go-", 3, .other_load = true, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "a day kept without practice does not", "gk", 3, .other_load = true, .rule = CARPACE_RULE_KEEP_OTHER_LOAD, .to_min = 60 },
  { "another load, and the step taken back", "0g#7,1g#7", 3, .other_load = true, .usual = 0, .level_days_ago = 7, .before_step_min = 54, .rule = CARPACE_RULE_KEEP_OTHER_LOAD, .to_min = 54, .to_level_min = 54, .finding = CARPACE_FINDING_STEP_ANSWERED },
  { "another load, and silence", "gs#12", -1, MORE, .other_load = true, .rule = CARPACE_RULE_KEEP_OTHER_LOAD, .to_min = 54, .finding = CARPACE_FINDING_NO_ANSWERS },

  /* cut once */
  { "stiffer than usual is worse", "g", 0, MORE, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true, .finding = CARPACE_FINDING_STIFFER },
  { "waking 1 above usual is not", "g", 1, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "waking 2 above usual is worse", "g", 2, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true, .finding = CARPACE_FINDING_WAKING_UP },
  { "2 above a usual 1 is not 2 above", "g", 2, .usual = 1, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "65 % of what was done", "g=50", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 32, .straight = true },
  { "of the dose where more was done", "g=70", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "of half the dose at least", "g=29", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 19, .straight = true },
  { "half", "g=30", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 19, .straight = true },
  { "a minute more", "g=31", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 20, .straight = true },
  { "never under least", "g~16", 3, .dose_min = 16, .level_min = 60, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 15 },
  { "a practice day is cut for once", "c'-", 3, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .cut_days_ago = 1, .rule = CARPACE_RULE_KEEP, .to_min = 39, .straight = true },
  { "under the level: the way back is not short", "g~39", 3, .dose_min = 39, .level_min = 60, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 25 },

  /* answered badly */
  { "b: 2 above usual in the last practice", "2g", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "3 above usual: the level comes down", "3g", 3, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .finding = CARPACE_FINDING_BADLY_RATED },
  { "4", "4g", 3, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51 },
  { "3 above a usual 1", "3g", 3, .usual = 1, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "not without a worse morning", "4g", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "not of a practice day before the last", "4gg", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "c: the second time in 14 dates", "gcgggg", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "the third", "gcgwgggg", 3, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51, .finding = CARPACE_FINDING_THIRD_WORSE },
  { "the first 12 days ago", "gwgwggggggggg", 3, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51 },
  { "13 days ago: 14 dates with today", "gwgwgggggggggg", 3, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51 },
  { "14 days ago: out", "gwgwggggggggggg", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "not before the level last changed", "gwgwgggg", 3, .level_days_ago = 7, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "on its day", "gwgwgggg", 3, .level_days_ago = 6, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "all after it", "gwgwgggg", 3, .level_days_ago = 8, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51 },
  { "full at 90 % of the level", "g~54wg~54wgg~54", 3, .rule = CARPACE_RULE_CUT, .to_min = 35, .to_level_min = 51 },
  { "55", "g~54wg~54wgg~55", 3, .rule = CARPACE_RULE_CUT, .to_min = 35, .to_level_min = 51 },
  { "53 is not full today", "g~54wg~54wgg~53", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 34, .straight = true },
  { "nor before", "g~53wg~54wgg~54", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 35, .straight = true },
  { "a day off before is no full day", "gwgwgg-", 3, .end_ms_ago = 30 * CARPACE_HOUR_MS, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "mornings kept for another load do not count", "gogwgg", 3, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 39, .straight = true },
  { "mornings under a caution do", "g!^3gwgg", 3, .rule = CARPACE_RULE_CUT, .to_min = 39, .to_level_min = 51 },
  { "85 % of the dose that was answered", "3g~50", 3, .dose_min = 50, .level_min = 60, .rule = CARPACE_RULE_CUT, .to_min = 32, .to_level_min = 42 },
  { "of the level where no day since the last cut was settled", "ct~45", 3, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .cut_days_ago = 2, .rule = CARPACE_RULE_CUT_ONCE, .to_min = 25 },
  { "so by a rating", "c=20,3t~39", 3, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .cut_days_ago = 2, .rule = CARPACE_RULE_CUT, .to_min = 25, .to_level_min = 51 },
  { "a day since was settled", "cg3g~45", 3, .dose_min = 45, .level_min = 60, .changed_days_ago = 3, .cut_days_ago = 3, .rule = CARPACE_RULE_CUT, .to_min = 29, .to_level_min = 38 },
  { "never under the cut dose", "3g~20", 3, .dose_min = 16, .level_min = 16, .rule = CARPACE_RULE_CUT, .to_min = 15, .to_level_min = 15 },
  { "never up", "3g", 3, .dose_min = 15, .level_min = 15, .rule = CARPACE_RULE_CUT, .to_min = 15, .to_level_min = 15 },

  /* time off */
  { "six days off are none", "g.....", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "a week off: one step lower, the level with it", "g......", 0, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 54, .to_level_min = 54 },
  { "8", "g.......", 0, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 54, .to_level_min = 54 },
  { "13 are one", "g............", 0, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 54, .to_level_min = 54 },
  { "14 are two", "g.............", 0, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 48, .to_level_min = 48 },
  { "15", "g..............", 0, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 48, .to_level_min = 48 },
  { "not under half the first dose", "g............................................................", 0, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 30, .to_level_min = 30 },
  { "from the last practice day's dose, not over the present", "g~39......", 0, .dose_min = 39, .level_min = 60, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 33, .to_level_min = 54 },
  { "the dose rose after it: from it all the same", "g~39......", 0, .dose_min = 45, .level_min = 60, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 33, .to_level_min = 54 },
  { "steps that the level took already", "g......-", 0, .dose_min = 54, .level_min = 54, .steps_off = 1, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 54 },
  { "the dose is never above its level", "g......", 0, .dose_min = 39, .level_min = 42, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 36, .to_level_min = 36 },
  { "a day that a morning told later ended: from the present dose", "g~0=30......", 0, .dose_min = 39, .level_min = 60, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 33, .to_level_min = 54 },
  { "a level under half stays", "g......", 0, .dose_min = 24, .level_min = 24, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 24 },
  { "step-up-by 0 %: lower by the step of other plans", "g......", 0, .step_pct = -1, .rule = CARPACE_RULE_AFTER_TIME_OFF, .to_min = 54, .to_level_min = 54 },

  /* the week's ratings */
  { "the step taken back, 2 days after it", "0g#7,1g#7", 0, .level_days_ago = 2, .before_step_min = 54, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "3", "0g#7,1g#7", 0, .level_days_ago = 3, .before_step_min = 54, .rule = CARPACE_RULE_TAKE_BACK, .to_min = 54, .to_level_min = 54 },
  { "4", "0g#7,1g#7", 0, .level_days_ago = 4, .before_step_min = 54, .rule = CARPACE_RULE_TAKE_BACK, .to_min = 54, .to_level_min = 54 },
  { "14", "0g#7,1g#7", 0, .level_days_ago = 14, .before_step_min = 54, .rule = CARPACE_RULE_TAKE_BACK, .to_min = 54, .to_level_min = 54 },
  { "15", "0g#7,1g#7", 0, .level_days_ago = 15, .before_step_min = 54, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "a dose under it stays", "0g#7,1g#7", 0, .dose_min = 39, .level_min = 60, .level_days_ago = 7, .before_step_min = 54, .rule = CARPACE_RULE_TAKE_BACK, .to_min = 39, .to_level_min = 54 },
  { "the level changed by something else", "0g#7,1g#7", 0, .level_days_ago = 7, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "1 above usual is wanted", "0g#7,1g#7", 0, .usual = 1, .level_days_ago = 7, .before_step_min = 54, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "0.5 up is not over 0.5", "0g#3,1g#3,.,1g#7", 0, .level_days_ago = 7, .before_step_min = 54, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "over 0.5 up", "0g#4,1g#2,.,1g#7", 0, .level_days_ago = 7, .before_step_min = 54, .rule = CARPACE_RULE_TAKE_BACK, .to_min = 54, .to_level_min = 54 },
  { "4 ratings are too few", "0g#7,4n#2,.....", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "6 are enough", "0g#7,4n#3,....", 0, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "a week's mean over 0.5 up: keep", "0g#7,1g#7", 0, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "under the level only where it held a week ago, too", "0g#7,1g#7", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 7, .long_way = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 45 },
  { "two weeks rising: a caution", "0g#7,1g#7,2g#7", 0, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60, .no_practice = true, .caution = true },
  { "so under the level", "0g#7,1g#7,2g#7", 0, .dose_min = 39, .level_min = 60, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 39, .no_practice = true, .caution = true },
  { "rising, but the last three days are below the week", "0g#7,1g#7,3g#4,1g#3", 0, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "two rated days since a closed caution", "0g#7,1g#7,2g#7", 0, .closed_days_ago = 3, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60 },
  { "three", "0g#7,1g#7,2g#7", 0, .closed_days_ago = 4, .rule = CARPACE_RULE_KEEP_WEEK, .to_min = 60, .no_practice = true, .caution = true },

  /* silence */
  { "11 practice days without any answer", "gs#11", -2, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_NO_CHECK },
  { "12: a step lower, the level stays", "gs#12", -2, .rule = CARPACE_RULE_NO_ANSWERS, .to_min = 54 },
  { "13, where nothing came down at 12", "gs#13", -2, .rule = CARPACE_RULE_NO_ANSWERS, .to_min = 54 },
  { "5 more", "gs#12bs#4", -2, .changed_days_ago = 5, .dose_min = 54, .level_min = 60, .silent_days_ago = 5, .rule = CARPACE_RULE_KEEP, .to_min = 54, .finding = CARPACE_FINDING_NO_ANSWERS },
  { "6 more", "gs#12bs#5", -2, .dose_min = 54, .level_min = 60, .silent_days_ago = 6, .rule = CARPACE_RULE_NO_ANSWERS, .to_min = 48 },
  { "7 more", "gs#12bs#6", -2, .dose_min = 54, .level_min = 60, .silent_days_ago = 7, .rule = CARPACE_RULE_NO_ANSWERS, .to_min = 48 },
  { "days off do not count", "gs#12b-s#4-", -2, .changed_days_ago = 7, .dose_min = 54, .level_min = 60, .silent_days_ago = 7, .rule = CARPACE_RULE_KEEP, .to_min = 54 },
  { "not under 65 % of the first dose", "gs#12", -2, .dose_min = 42, .level_min = 60, .rule = CARPACE_RULE_NO_ANSWERS, .to_min = 39 },
  { "40", "gs#12", -2, .dose_min = 40, .level_min = 60, .rule = CARPACE_RULE_NO_ANSWERS, .to_min = 39 },
  { "nothing left to take: no row", "gs#12", -2, .changed_days_ago = 12, .dose_min = 39, .level_min = 60, .rule = CARPACE_RULE_KEEP, .to_min = 39, .finding = CARPACE_FINDING_NO_ANSWERS },
  { "a waking number this morning ends it", "gs#12", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "one on a day without practice, too", "gs#6es#6", -2, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "a rating ends it", "gs#6xs#6", -2, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "opened days without practice do not count, nor break it", "gs#6---s#6", -2, .rule = CARPACE_RULE_NO_ANSWERS, .to_min = 54 },

  /* the way back */
  { "no settled day", "ct~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .rule = CARPACE_RULE_KEEP, .to_min = 39, .straight = true },
  { "after a short cut one settled day leads straight to the level", "gc~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .rule = CARPACE_RULE_WAY_BACK, .to_min = 60, .straight = true },
  { "else a whole step", "gc~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .long_way = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 45 },
  { "to the level at most", "gc~57", 0, .dose_min = 57, .level_min = 60, .changed_days_ago = 1, .long_way = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 60, .straight = true },
  { "two settled days after a caution or rest day: one", "gc~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .long_way = true, .slow = true, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "two", "gc~39g~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .long_way = true, .slow = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 45 },
  { "in a row", "gc~39t~39g~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 3, .long_way = true, .slow = true, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "days before the change do not count", "gg~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 0, .rule = CARPACE_RULE_WAY_BACK, .to_min = 60, .straight = true },
  { "half done is settled", "gc~60=30g=60", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .long_way = true, .slow = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 45 },
  { "less is not", "gc~60=29g=60", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .long_way = true, .slow = true, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "without today's waking nothing rises", "gc~39g~39", -1, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .rule = CARPACE_RULE_KEEP, .to_min = 39, .straight = true },
  { "but the way back, after 7 practice days without a check", "gx#7", -2, .dose_min = 39, .level_min = 60, .changed_days_ago = 7, .long_way = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 45 },
  { "not after 6", "gx#6", -2, .dose_min = 39, .level_min = 60, .changed_days_ago = 6, .long_way = true, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "8", "gx#8", -2, .dose_min = 39, .level_min = 60, .changed_days_ago = 8, .long_way = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 45 },
  { "a check on a day without practice ends that row", "gx#4ex#4", -2, .dose_min = 39, .level_min = 60, .changed_days_ago = 9, .long_way = true, .rule = CARPACE_RULE_KEEP, .to_min = 39 },
  { "bound by 130 % of what was done", "gc=30", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .rule = CARPACE_RULE_WAY_BACK, .to_min = 58 },
  { "which leaves nothing", "g=30c=30g=30", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .rule = CARPACE_RULE_KEEP, .to_min = 39, .straight = true, .finding = CARPACE_FINDING_MOST },
  { "a minute of it", "g=30c=31g=32", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 2, .rule = CARPACE_RULE_WAY_BACK, .to_min = 40, .straight = true },
  { "of 14 dates", "g=30.............c=60", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .rule = CARPACE_RULE_WAY_BACK, .to_min = 60, .straight = true },
  { "13 dates before", "g=20............c=60", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .rule = CARPACE_RULE_WAY_BACK, .to_min = 52, .straight = true },
  { "step-up-by 0 % still leads back", "gc~39", 0, .dose_min = 39, .level_min = 60, .changed_days_ago = 1, .long_way = true, .step_pct = -1, .rule = CARPACE_RULE_WAY_BACK, .to_min = 45 },

  /* a step up */
  { "three good days: up by a step", "ggg", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66, .straight = true },
  { "two are not enough", "gg", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "four", "gggg", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "not under the level", "g~39g~39g~39", 0, .dose_min = 39, .level_min = 42, .changed_days_ago = 3, .long_way = true, .rule = CARPACE_RULE_WAY_BACK, .to_min = 42 },
  { "an unanswered day neither counts nor breaks a row", "ggug", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "a number near stop breaks it", "ggng", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "beyond the plan", "ggBg", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "pain relief", "ggpg", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "80 % done is good", "ggg=48", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "less is not", "ggg=47", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "115 % done is good", "ggg=69", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "more is not", "ggg=70", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "a worse morning breaks it", "ggwg", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "days without practice are passed over", "ggeg", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "the level changed 6 days ago", "g#7", 0, .level_days_ago = 6, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_LEVEL_YOUNG },
  { "7", "g#7", 0, .level_days_ago = 7, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "8", "g#8", 0, .level_days_ago = 8, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "a half step, 20 days after the level came down", "g#21", 0, .level_days_ago = 20, .down_days_ago = 20, .rule = CARPACE_RULE_STEP_UP, .to_min = 63, .to_level_min = 63 },
  { "21", "g#21", 0, .level_days_ago = 20, .down_days_ago = 21, .rule = CARPACE_RULE_STEP_UP, .to_min = 63, .to_level_min = 63 },
  { "22: a whole one", "g#22", 0, .level_days_ago = 20, .down_days_ago = 22, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "two of the last six wakings above usual", "g^0#4g^1g^1g^0#2", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "three", "g^0#4g^1#3g^0#2", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_MORNINGS_UP },
  { "the oldest of them the seventh", "g^0#4g^1g^0g^1g^1g^0#3", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "with 27 known above usual", "g^1#26", 1, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_MORNINGS_UP },
  { "with 28 the lowest is usual", "g^1#27", 1, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "with 29", "g^1#28", 1, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "the 29th does not count", "g^0g^1#27", 1, .rule = CARPACE_RULE_STEP_UP, .to_min = 66, .to_level_min = 66 },
  { "the 28th does", "g^0g^1#26", 1, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "any of the 28 may be the lowest", "g^1,g^0,g^1#25", 1, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_MORNINGS_UP },
  { "this morning's, too", "g^1#27", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_MORNINGS_UP },
  { "three, and a level that may rise again", "g^0#4g^1#3g^0#2", 0, .level_days_ago = 7, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_MORNINGS_UP },
  { "two, and nothing left of the rise", "g=20,g=48^1#2,g=48", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_MOST },
  { "bound by 130 %: nothing left", "g=20g=48#3", 0, .rule = CARPACE_RULE_KEEP, .to_min = 60, .finding = CARPACE_FINDING_MOST },
  { "something left: the level rises by its step, the dose to the bound", "g=40g=50#3", 0, .rule = CARPACE_RULE_STEP_UP, .to_min = 61, .to_level_min = 66 },
  { "to at-most", "g~87#3", 0, .dose_min = 87, .rule = CARPACE_RULE_STEP_UP, .to_min = 90, .to_level_min = 90 },
  { "no higher", "ggg", 0, .dose_min = 90, .rule = CARPACE_RULE_KEEP, .to_min = 90, .finding = CARPACE_FINDING_AT_MOST },
  { "step-up-by 0 % is no step up", "ggg", 0, .step_pct = -1, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
  { "no check made: keep", "ggg", -2, .rule = CARPACE_RULE_KEEP, .to_min = 60 },
};

static void
test_rows (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceHistory *h = calloc (1, sizeof *h), *before = calloc (1, sizeof *before);
  int failed = 0;

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      const Row *row = &rows[i];
      CarpaceMorning check = check_of (row);
      CarpaceDecision d;
      carpace_trace_plan (plan, 2, 30);
      plan->at_most_ms = 90 * MIN;
      plan->usual_discomfort = row->usual;
      if (row->step_pct != 0)
        plan->step_up_by = row->step_pct < 0 ? 0 : row->step_pct * CARPACE_PERCENT;
      carpace_history_init (h);
      carpace_dose_use_plan (h, plan, TODAY);
      set_marks (h, row);
      *before = *h;
      carpace_dose_decide (h, plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, row->waking == -2 ? NULL : &check, &d);
      assert_same_history (before, h); /* deciding changes nothing */
      if (as_expected (row, &d))
        continue;
      print_error ("%s: %s, %s, %g min of %g%s%s%s\n", row->name, carpace_name (CARPACE_WORDS_RULE, (int32_t) d.rule),
                   carpace_name (CARPACE_WORDS_FINDING, (int32_t) d.finding), (double) d.kept_ms / MIN,
                   (double) d.level_ms / MIN, d.no_practice ? ", no practice" : "", d.opens_caution ? ", a caution" : "",
                   d.straight_back ? ", straight" : "");
      failed++;
    }
  free (before);
  free (h);
  free (plan);
  assert_int_equal (failed, 0);
}

/* What keeps yesterday from counting; of the two sides of a number in it the one that does. */
static const Row uncounted_rows[] = {
  { "a good day counts", "g", 0, .uncounted = CARPACE_UNCOUNTED_NOT },
  { "no day yet", "", 0, .uncounted = CARPACE_UNCOUNTED_NOT },
  { "before the last change", "g~60t-", 0, .changed_days_ago = 1, .uncounted = CARPACE_UNCOUNTED_NOT },
  { "tightened by 2", "gt", 0, .uncounted = CARPACE_UNCOUNTED_TIGHTENED },
  { "a number near stop", "gn", 0, .uncounted = CARPACE_UNCOUNTED_NEAR_STOP },
  { "beyond the plan", "gB", 0, .uncounted = CARPACE_UNCOUNTED_BEYOND },
  { "pain relief", "gp", 0, .uncounted = CARPACE_UNCOUNTED_PAIN_RELIEF },
  { "the last block not answered", "gu", 0, .uncounted = CARPACE_UNCOUNTED_UNRATED },
  { "no check after it", "g-", 0, .uncounted = CARPACE_UNCOUNTED_UNCHECKED },
  { "47 of 60 min", "g=47", 0, .uncounted = CARPACE_UNCOUNTED_TOO_LITTLE },
  { "48", "g=48", 0, .uncounted = CARPACE_UNCOUNTED_NOT },
  { "69 of 60 min", "g=69", 0, .uncounted = CARPACE_UNCOUNTED_NOT },
  { "70", "g=70", 0, .uncounted = CARPACE_UNCOUNTED_TOO_MUCH },
  { "under the level, 19 of 39 min", "g~39=19", 0, .dose_min = 39, .level_min = 60, .uncounted = CARPACE_UNCOUNTED_TOO_LITTLE },
};

static void
test_why_yesterday_does_not_count (void **state)
{
  CarpacePlan plan;
  CarpaceHistory h;

  for (size_t i = 0; i < sizeof uncounted_rows / sizeof uncounted_rows[0]; i++)
    {
      const Row *row = &uncounted_rows[i];
      CarpaceMorning check = { .waking = row->waking, .stiffness = CARPACE_STIFFNESS_USUAL, .now = -1 };
      CarpaceDecision d;

      carpace_trace_plan (&plan, 2, 30);
      carpace_history_init (&h);
      carpace_dose_use_plan (&h, &plan, TODAY);
      set_marks (&h, row);
      carpace_dose_decide (&h, &plan, TODAY, (int64_t) TODAY * CARPACE_DAY_MS, &check, &d);
      if (d.rule != CARPACE_RULE_KEEP || d.uncounted != row->uncounted)
        fail_msg ("%s: %s, %s", row->name, carpace_name (CARPACE_WORDS_RULE, (int32_t) d.rule),
                  carpace_name (CARPACE_WORDS_UNCOUNTED, (int32_t) d.uncounted));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_rows),
    cmocka_unit_test (test_why_yesterday_does_not_count),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
