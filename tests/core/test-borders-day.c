/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-borders-day.c: three rows for each number of ratings, tightening, waits
 * and days; test-borders.c has those of a running block. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "cases.h"

static void
usual_2 (CarpacePlan *plan)
{
  plan->usual_discomfort = 2;
}

static void
usual_3 (CarpacePlan *plan)
{
  plan->usual_discomfort = 3;
}

static void
without_tuesday (CarpacePlan *plan)
{
  plan->without = 1 << CARPACE_WEEKDAY_TUESDAY;
}

static void
no_wait (CarpacePlan *plan)
{
  plan->between_blocks_ms = 0;
}

static void
after_of (CarpacePlan *plan, int64_t seconds)
{
  plan->after_ms = seconds * 1000;
  no_wait (plan);
}

static void
after_2_min (CarpacePlan *plan)
{
  after_of (plan, 120);
}

static void
after_6_min (CarpacePlan *plan)
{
  after_of (plan, 360);
}

static void
after_7_min (CarpacePlan *plan)
{
  after_of (plan, 420);
}

static void
rest_of (CarpacePlan *plan, int64_t seconds)
{
  plan->rest_ms = seconds * 1000;
  no_wait (plan);
}

static void
rest_52_s (CarpacePlan *plan)
{
  rest_of (plan, 52);
}

static void
rest_53_s (CarpacePlan *plan)
{
  rest_of (plan, 53);
}

static void
rest_54_s (CarpacePlan *plan)
{
  rest_of (plan, 54);
}

static void
rest_130_s (CarpacePlan *plan)
{
  rest_of (plan, 130);
}

static void
blocks_of (CarpacePlan *plan, int64_t seconds)
{
  for (int32_t i = 0; i < plan->n_blocks; i++)
    plan->blocks[i].limit_ms = seconds * 1000;
  plan->dose_ms = plan->n_blocks * seconds * 1000;
}

static void
blocks_276_s (CarpacePlan *plan)
{
  blocks_of (plan, 276);
}

static void
blocks_277_s (CarpacePlan *plan)
{
  blocks_of (plan, 277);
}

static void
blocks_1109_s (CarpacePlan *plan)
{
  blocks_of (plan, 1109);
}

static void
blocks_1384_s (CarpacePlan *plan)
{
  blocks_of (plan, 1384);
}

static void
blocks_1385_s (CarpacePlan *plan)
{
  blocks_of (plan, 1385);
}

static void
blocks_1477_s (CarpacePlan *plan)
{
  blocks_of (plan, 1477);
}

static void
dose_of (CarpacePlan *plan, int64_t seconds)
{
  plan->dose_ms = seconds * 1000;
  no_wait (plan);
}

static void
dose_34_59 (CarpacePlan *plan)
{
  dose_of (plan, 35 * 60 - 1);
}

static void
dose_35_00 (CarpacePlan *plan)
{
  dose_of (plan, 35 * 60);
}

static void
dose_9_59 (CarpacePlan *plan)
{
  dose_of (plan, 10 * 60 - 1);
}

static void
dose_10_00 (CarpacePlan *plan)
{
  dose_of (plan, 10 * 60);
}

#define TWO_RATED(a, b) "0:00 start\n10:00 end\n10:10 rate " a "\n10:20 start\n20:00 end\n20:10 rate " b "\n20:20 start"

#define AFTER_A_WAIT "0:00:00 cue morning shown\n0:00:00 cue morning withdrawn\n0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n0:55:00 cue next-block shown\n"

static const CarpaceCase of_ratings[] = {
  /* ---- a rating is open for 30 min ---- */
  { "an answer after 29:59.999 is late", 2, 30, NULL, "0:00 start\n10:00 end\n39:59.999 rate 0",
    "0:39:59.999 rating block=1 discomfort=0\n-late" },
  { "an answer after 30 min is in time", 2, 30, NULL, "0:00 start\n10:00 end\n40:00 rate 0",
    "0:40:00 rating block=1\n0:40:00 rating block=1 discomfort=0 late" },
  { "an answer after 30 min and 1 ms is in time", 2, 30, NULL, "0:00 start\n10:00 end\n40:00.001 rate 0",
    "0:40:00 rating block=1\n0:40:00.001 rating block=1 discomfort=0 late" },
  { "off air a rating's time is over early", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n2:00:00 on-air off\n2:29:59.999 until", "-rating block=1" },
  { "off air a rating's time is never over", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n2:00:00 on-air off\n2:30:00 until", "2:30:00 rating block=1" },
  /* ---- an end found more than 60 min late ---- */
  { "an end found 59:59.999 late goes unasked", 2, 30, NULL, "0:00 start\n10:00 still\n10:10 suspend\n1:24:59.999 wake",
    "0:10:04 cue micro-rest shown wrist-extensor-stretch\n1:24:59.999 cue micro-rest withdrawn\n1:24:59.999 cue rating shown" },
  { "an end found 60 min late goes unasked", 2, 30, NULL, "0:00 start\n10:00 still\n10:10 suspend\n1:25:00 wake",
    "0:10:04 cue micro-rest shown wrist-extensor-stretch\n1:25:00 cue micro-rest withdrawn\n1:25:00 cue rating shown" },
  { "an end found over 60 min late is asked about", 2, 30, NULL, "0:00 start\n10:00 still\n10:10 suspend\n1:25:00.001 wake",
    "1:25:00.001 rating block=1\n-cue rating" },
  /* ---- corrections: 60 s, 10 min ---- */
  { "a lower number after 59.999 s changes nothing", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 3\n11:09.999 rate 0",
    "0:11:09.999 decision keep block before=1170 after=1800" },
  { "a lower number after 60 s changes nothing", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 3\n11:10 rate 0",
    "0:11:10 decision keep block before=1170 after=1800" },
  { "a lower number after 60.001 s decides anew", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 3\n11:10.001 rate 0",
    "0:11:10.001 rating block=1 discomfort=0 corrects=3\n-0:11:10.001 decision" },
  { "a higher number after 9:59.999 is refused", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n20:09.999 rate 2",
    "0:20:09.999 decision up-2 block before=1800 after=1170" },
  { "a higher number after 10 min is refused", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n20:10 rate 2",
    "0:20:10 decision up-2 block before=1800 after=1170" },
  { "a higher number after 10 min and 1 ms decides", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n20:10.001 rate 2",
    "0:20:10.001 fault rated-too-long-ago rate waiting" },
  /* ---- stop-above, 5 ---- */
  { "4 ends the day", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 4", "0:10:10 decision up-2\n0:10:10 state waiting" },
  { "5 ends the day", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 5", "0:10:10 decision up-2\n0:10:10 state waiting" },
  { "6 does not end the day", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 6",
    "0:10:10 decision above-stop\n0:10:10 state day-done" },
  /* ---- up 1, up 2 on the reference ---- */
  { "no rise tightens", 2, 30, NULL, "0:00 morning 1 --now 2\n0:01 start\n10:00 end\n10:10 rate 2", "-decision up" },
  { "a rise of 1 taken for 2", 2, 30, NULL, "0:00 morning 1 --now 2\n0:01 start\n10:00 end\n10:10 rate 3",
    "0:10:10 decision up-1 block before=1800 after=1530" },
  { "a rise of 2 taken for 1", 2, 30, NULL, "0:00 morning 1\n0:01 start\n10:00 end\n10:10 rate 3",
    "0:10:10 decision up-2 block before=1800 after=1170" },
  { "a rise of 3 taken for 1", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 3", "0:10:10 decision up-2" },
  /* ---- up to 4 or 5, and 2 or more above usual ---- */
  { "3 counts as up to 4", 2, 30, NULL, "0:00 morning 1 --now 2\n0:01 start\n10:00 end\n10:10 rate 3", "0:10:10 decision up-1" },
  { "4, 2 above usual, counts as up 1", 2, 30, usual_2, "0:00 morning 2 --now 3\n0:01 start\n10:00 end\n10:10 rate 4",
    "0:10:10 decision up-to-4-or-5 block before=1800 after=1170" },
  { "4, 1 above usual, counts as up to 4", 2, 30, usual_3, "0:00 morning 3\n0:01 start\n10:00 end\n10:10 rate 4",
    "0:10:10 decision up-1" },
  { "5 counts as up 1", 2, 30, usual_3, "0:00 morning 3 --now 4\n0:01 start\n10:00 end\n10:10 rate 5",
    "0:10:10 decision up-to-4-or-5" },
  /* ---- the reference ---- */
  { "now is not the reference", 2, 30, NULL, "0:00 morning 0 --now 3\n0:01 start\n10:00 end\n10:10 rate 3", "-decision up" },
  { "waking is not the reference where now was skipped", 2, 30, NULL, "0:00 morning 1\n0:01 start\n10:00 end\n10:10 rate 1",
    "-decision up" },
  { "a reference under usual", 2, 30, usual_2, "0:00 morning 0 --now 0\n0:01 start\n10:00 end\n10:10 rate 2", "-decision up" },
  { "usual is not the reference without a morning", 2, 30, usual_2, "0:00 start\n10:00 end\n10:10 rate 3", "0:10:10 decision up-1" },
  /* ---- after: never under half the plan's or 3 min, nor over the plan's ---- */
  { "after of 10 min tightened under its half", 4, 30, no_wait, TWO_RATED ("2", "4"),
    "0:20:10 decision up-2 block before=1170 after=750\n0:20:20 block started number=3 limit=750 after=300" },
  { "after of 7 min tightened under its half", 4, 30, after_7_min, TWO_RATED ("2", "4"),
    "0:20:20 block started number=3 limit=750 after=210" },
  { "after of 6 min tightened under 3 min", 4, 30, after_6_min, TWO_RATED ("2", "4"),
    "0:20:20 block started number=3 limit=750 after=180" },
  { "after of 2 min made longer", 4, 30, after_2_min, TWO_RATED ("2", "4"), "0:20:20 block started number=3 limit=750 after=120" },
  /* ---- a rest: never over three times the plan's or 2 min, nor under the plan's ---- */
  { "rests of 52 s made longer than 1.5 times, twice", 4, 30, rest_52_s, TWO_RATED ("2", "4"), "limit=750 after=300 rest=117" },
  { "rests of 53 s cut under 2 min", 4, 30, rest_53_s, TWO_RATED ("2", "4"), "limit=750 after=300 rest=120" },
  { "rests of 54 s over 2 min", 4, 30, rest_54_s, TWO_RATED ("2", "4"), "limit=750 after=300 rest=120" },
  { "rests of 130 s made shorter", 4, 30, rest_130_s, TWO_RATED ("2", "4"), "limit=750 after=300 rest=130" },
  { "up 1 makes rests longer", 4, 30, no_wait, TWO_RATED ("1", "1"), "limit=1530 after=510 rest=30" },
  /* ---- after of what runs: two thirds of what a morning leaves it, no less ---- */
  { "a running block cut to 840 s keeps after of 10 min", 1, 30, blocks_1384_s, "0:00 start\n1:00 morning 0 more\n2:00 end",
    "0:02:00 block ended number=1 limit=840 after=560" },
  { "a running block cut to 900 s loses of its after", 1, 30, blocks_1385_s, "0:00 start\n1:00 morning 0 more\n2:00 end",
    "0:02:00 block ended number=1 limit=900 after=600" },
  { "a running block cut to 960 s loses of its after", 1, 30, blocks_1477_s, "0:00 start\n1:00 morning 0 more\n2:00 end",
    "0:02:00 block ended number=1 limit=960 after=600" },
  { "a rest with just over a third of the cut after to go is not due", 1, 30, blocks_1109_s,
    "0:00 start\n9:19.999 morning 0 more\n9:30 still\n9:40 end", "0:09:34 state rest-due\n0:09:40 block ended number=1 limit=720 after=480" },
  { "a rest with a third of the cut after to go is not due", 1, 30, blocks_1109_s,
    "0:00 start\n9:20 morning 0 more\n9:30 still\n9:40 end", "0:09:34 state rest-due" },
  { "a rest with less than a third of the cut after to go is due", 1, 30, blocks_1109_s,
    "0:00 start\n9:20.001 morning 0 more\n9:30 still\n9:40 end", "0:09:34 state gap\n-rest-due" },
  /* ---- a limit under shortest, 3 min, is no block ---- */
  { "a limit of 150 s is a block", 2, 30, blocks_276_s, "0:00 start\n3:00 end\n3:10 rate 2",
    "0:03:10 decision up-2 block before=276 after=150\n0:03:10 decision too-short block before=150\n0:03:10 day done" },
  { "a limit of 3 min is no block", 2, 30, blocks_277_s, "0:00 start\n3:00 end\n3:10 rate 2",
    "0:03:10 decision up-2 block before=277 after=180\n-too-short\n-day done" },
  /* ---- the third tightening ends the day ---- */
  { "the second tightening ends the day", 5, 30, no_wait, TWO_RATED ("1", "2"), "0:20:20 block started number=3\n-day done" },
  { "the third tightening does not end the day", 5, 30, no_wait, TWO_RATED ("1", "2") "\n30:00 end\n30:10 rate 3",
    "0:30:10 decision tightened-thrice\n0:30:10 day done" },
  /* ---- two unanswered in a row ---- */
  { "one unanswered tightens", 4, 30, no_wait, "0:00 start\n10:00 end\n50:00 start", "0:50:00 block started number=2 limit=1800 after=600" },
  { "two unanswered do not tighten", 4, 30, no_wait, "0:00 start\n10:00 end\n50:00 start\n1:00:00 end\n1:40:00 start",
    "1:40:00 block started number=3 limit=1530 after=510" },
  { "an answer between two unanswered does not part them", 4, 30, no_wait,
    "0:00 start\n10:00 end\n50:00 start\n1:00:00 end\n1:00:10 rate 0\n1:10:00 start\n1:20:00 end\n2:00:00 start",
    "2:00:00 block started number=4 limit=1800 after=600" },
};

static const CarpaceCase of_days[] = {
  /* ---- further blocks of 5 min or more ---- */
  { "a further block of 4:59", 1, 30, dose_34_59, "0:00 start\n30:00 still\n30:10 rate 0", "0:30:10 day done" },
  { "no further block of 5 min", 1, 30, dose_35_00, "0:00 start\n30:00 still\n30:10 rate 0\n31:00 start",
    "0:31:00 block started number=2 limit=300" },
  /* ---- limits under 5 min: blocks are taken from the end ---- */
  { "two blocks under 5 min", 2, 6, dose_9_59, "0:00 start\n6:00 end\n6:10 rate 0", "0:06:10 day done" },
  { "two blocks of 5 min made one", 2, 6, dose_10_00, "0:00 start\n5:00 still\n5:10 rate 0\n5:20 start",
    "0:00:00 block started number=1 limit=300\n0:05:20 block started number=2 limit=300" },
  /* ---- a new day: 04:00, and 5 h after the last block's end ---- */
  { "a day opened at 03:59:59.999 is the next", 2, 30, NULL, "9:59:59.999 morning 0", "9:59:59.999 day opened 2027-03-02" },
  { "a day opened at 04:00 is the one before", 2, 30, NULL, "10:00:00 morning 0", "10:00:00 day opened 2027-03-03" },
  { "a day opened at 04:00:00.001 is the one before", 2, 30, NULL, "10:00:00.001 morning 0",
    "10:00:00.001 day opened 2027-03-03" },
  { "a new day 4:59:59.999 after a block", 4, 30, NULL, "8:50:00 start\n9:00:00 end\n9:00:10 rate 0\n13:59:59.999 start",
    "13:59:59.999 block started number=2\n-day opened 2027-03-03" },
  { "no new day 5 h after a block", 4, 30, NULL, "8:50:00 start\n9:00:00 end\n9:00:10 rate 0\n14:00:00 start",
    "14:00:00 day opened 2027-03-03\n14:00:00 block started number=1" },
  { "no new day over 5 h after a block", 4, 30, NULL, "8:50:00 start\n9:00:00 end\n9:00:10 rate 0\n14:00:00.001 start",
    "14:00:00.001 day opened 2027-03-03\n14:00:00.001 block started number=1" },
  { "5 h after the rating, not after the block", 4, 30, NULL, "8:50:00 start\n9:00:00 end\n9:20:00 rate 0\n14:00:00 start",
    "14:00:00 day opened 2027-03-03" },
  { "a new day opens over a turn alone, too soon", 4, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n9:59:59.999 start",
    "9:59:59.999 block started number=2" },
  { "no new day at the turn, long after the block", 4, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n10:00:00 start",
    "10:00:00 day opened 2027-03-03" },
  { "a dropped block of a millisecond does not hold a new day back", 4, 30, NULL, "9:00:00 start\n9:00:00.001 end\n10:00:00 start",
    "10:00:00 block started\n-10:00:00 day opened" },
  { "a morning asked for while the day is not over", 4, 30, NULL,
    "8:50:00 start\n9:00:00 end\n9:00:10 rate 0\n10:30:00 input", "9:00:00 cue rating shown\n9:00:10 cue rating withdrawn\n9:45:00 cue next-block shown\n-10:30:00 cue morning" },
  { "a morning asked for on air", 4, 30, NULL,
    "0:00 morning 0\n0:10 on-air on\n10:30:00 input", "-10:30:00 cue morning" },
  { "a dropped block without time holds a new day back", 4, 30, NULL, "9:00:00 start\n9:00:00 end\n10:00:00 start",
    "10:00:00 day opened 2027-03-03" },
  /* ---- input while a block could begin, 3 min ---- */
  { "asked about after 2:59.999 of input without a block", 2, 30, NULL, "0:00 input\n2:59.999 still\n10:00 until",
    "0:00:00 cue morning shown\n-cue unstarted" },
  { "not asked about after 3 min of input without a block", 2, 30, NULL, "0:00 input\n3:00 still\n10:00 until",
    "0:00:00 cue morning shown\n0:03:00 cue unstarted shown" },
  { "asked about late after 3 min and 1 ms of input without a block", 2, 30, NULL, "0:00 input\n3:00.001 still\n10:00 until",
    "0:00:00 cue morning shown\n0:03:00 cue unstarted shown" },
  { "two pieces of 2:59.999 together asked about", 2, 30, NULL, "0:00 input\n2:00 still\n5:00 input\n5:59.999 still\n10:00 until",
    "0:00:00 cue morning shown\n-cue unstarted" },
  { "two pieces of 3 min together not asked about", 2, 30, NULL, "0:00 input\n2:00 still\n5:00 input\n6:00 still\n10:00 until",
    "0:00:00 cue morning shown\n0:06:00 cue unstarted shown" },
  { "two pieces of 3 min, later on, not asked about", 2, 30, NULL, "0:00 anywhere\n0:10 input\n2:10 still\n5:00 input\n6:00 still\n10:00 until",
    "0:00:00 cue morning shown\n0:06:00 cue unstarted shown" },
  { "not asked about in the next wait", 2, 30, no_wait, "0:00 input\n3:10 start\n13:00 still\n13:10 end\n13:20 rate 0\n14:00 input\n17:10 still\n20:00 until",
    "0:00:00 cue morning shown\n0:03:00 cue unstarted shown\n0:03:10 cue morning withdrawn\n0:03:10 cue unstarted withdrawn\n0:13:10 cue rating shown\n"
    "0:13:20 cue rating withdrawn\n0:13:20 cue next-block shown\n0:17:00 cue unstarted shown" },
  { "input of the wait before counted", 2, 30, no_wait, "0:00 input\n2:00 still\n3:00 start\n13:00 still\n13:10 end\n13:20 rate 0\n14:00 input\n16:00 still\n20:00 until",
    "-cue unstarted" },
  { "asked about twice in a wait", 2, 30, NULL, "0:00 input\n20:00 still\n30:00 input\n50:00 still\n55:00 until",
    "0:00:00 cue morning shown\n0:03:00 cue unstarted shown" },
  { "asked about while the next block waits", 2, 30, NULL, "0:00 start\n9:50 still\n10:00 end\n10:10 rate 0\n20:00 input\n50:00 still\n54:59 until",
    "-cue unstarted" },
  { "input before a wait's end counted", 2, 30, NULL, "0:00 start\n9:50 still\n10:00 end\n10:10 rate 0\n50:00 input\n57:59.999 still\n1:10:00 until",
    AFTER_A_WAIT "-cue unstarted" },
  { "input over a wait's end not counted from there", 2, 30, NULL, "0:00 start\n9:50 still\n10:00 end\n10:10 rate 0\n50:00 input\n58:00 still\n1:10:00 until",
    AFTER_A_WAIT "0:58:00 cue unstarted shown" },
  { "stillness from before a wait's end put off what is asked", 2, 30, NULL, "0:00 start\n9:50 still\n10:00 end\n10:10 rate 0\n50:00 input\n54:58 still\n56:00 input\n59:10 still\n1:10:00 until",
    AFTER_A_WAIT "0:59:00 cue unstarted shown" },
  { "asked about in one wait, not in the next", 2, 30, NULL, "0:00 morning 0\n0:00 input\n3:10 start\n9:50 still\n10:00 end\n10:10 rate 0\n56:00 input\n1:10:00 until",
    "0:00:00 cue morning shown\n0:00:00 cue morning withdrawn\n0:03:00 cue unstarted shown\n0:03:10 cue unstarted withdrawn\n0:10:00 cue rating shown\n"
    "0:10:10 cue rating withdrawn\n0:55:00 cue next-block shown\n0:59:00 cue unstarted shown" },
  { "asked about on one day, not on the next", 2, 30, NULL, "0:00 morning 0\n0:10 input\n4:00 still\n34:00:00 morning 0\n34:00:10 input\n34:10:00 until",
    "0:00:00 cue morning shown\n0:00:00 cue morning withdrawn\n0:03:10 cue unstarted shown\n34:00:00 cue unstarted withdrawn\n34:03:10 cue unstarted shown" },
  { "the next day's check not shown over a day that is done", 2, 30, without_tuesday, "1:00 start\n34:00:00 input",
    "0:00:00 cue morning shown\n0:01:00 cue morning withdrawn\n0:01:00 cue day-done asked\n34:00:00 cue morning shown" },
  { "a day that opens while the one before still has its block", 2, 30, NULL, "9:50:00 start\n10:10:00 morning 0",
    "9:50:00 day opened 2027-03-02\n10:10:00 morning\n-day opened 2027-03-03" },
  { "a start does not answer it", 2, 30, NULL, "0:00 input\n3:10 start", "0:03:00 cue unstarted shown\n0:03:10 cue unstarted withdrawn" },
  { "a caution does not answer it", 2, 30, NULL, "0:00 input\n3:10 caution numb", "0:00:00 cue morning shown\n0:03:00 cue unstarted shown\n0:03:10 cue unstarted withdrawn\n0:03:10 cue caution shown" },
  { "asked about where a caution is open", 2, 30, NULL, "0:00 caution numb\n0:10 input\n20:00 still", "-cue unstarted" },
  /* ---- the practice window ---- */
  { "leaving the window not stillness from then", 2, 30, NULL, "0:00 start\n5:00 away\n6:00 until",
    "0:05:04 state gap" },
  { "input elsewhere taken as practice", 2, 30, NULL, "0:00 start\n5:00 away\n5:10 still\n5:20 input\n14:00 end",
    "0:14:00 block ended number=1 limit=1800 after=600 rest=30 active=300 runs=1" },
  { "no gap 4 s after leaving", 2, 30, NULL, "0:00 start\n5:00 away\n5:03.999 front\n10:00 end",
    "0:10:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1\n-state gap" },
  { "a gap before 4 s from leaving", 2, 30, NULL, "0:00 start\n5:00 away\n5:04 front\n10:00 end",
    "0:05:04 state gap\n0:05:04 state practising\n0:10:00 block ended number=1 limit=1800 after=600 rest=30 active=596 runs=2" },
  { "4.001 s away counted", 2, 30, NULL, "0:00 start\n5:00 away\n5:04.001 front\n10:00 end",
    "0:05:04 state gap\n0:05:04.001 state practising" },
  { "a hand that answered away is input as the window comes back", 2, 30, NULL, "0:00 start\n5:00 away\n5:10 rest\n5:50 front\n6:00 end",
    "0:05:10 state resting\n-0:05:50 state practising" },
  { "a hand that slept away is input as the window comes back", 2, 30, NULL, "0:00 start\n5:00 away\n5:10 suspend\n6:00 wake\n6:10 front\n7:00 until",
    "0:05:04 state gap\n-0:06:10 state practising" },
  { "over a caution's text counted from before it left", 2, 30, NULL, "0:00 input\n1:00 away\n1:10 caution\n5:00 front\n5:10 caution none\n8:00 until",
    "0:00:00 cue morning shown\n0:01:10 cue caution shown\n0:05:10 cue caution withdrawn\n0:07:00 cue unstarted shown" },
  { "a window that comes back under a still hand is input", 2, 30, NULL, "0:00 start\n5:00 away\n5:10 still\n6:00 front\n7:00 until",
    "0:05:04 state gap\n-0:06:00 state practising" },
  { "what the hand does elsewhere forgotten as it comes back", 2, 30, NULL, "0:00 start\n5:00 away\n5:10 still\n5:20 input\n6:00 front\n7:00 end",
    "0:07:00 block ended number=1 limit=1800 after=600 rest=30 active=360 runs=2" },
  { "input since it was told, not since the window was back", 2, 30, NULL, "0:00 start\n5:00 away\n5:50 input\n6:00 front\n6:10 still\n6:20 end",
    "0:06:20 block ended number=1 limit=1800 after=600 rest=30 active=310 runs=1" },
  { "a block outlives 15 min away", 2, 30, NULL, "0:00 start\n5:00 away\n20:30 until",
    "0:20:00 block ended" },
  { "a block ended by 14:59.999 away", 2, 30, NULL, "0:00 start\n5:00 away\n19:59.999 front\n20:10 until",
    "0:19:59.999 state practising\n-block ended" },
  { "a block outlives 15 min and 1 ms away", 2, 30, NULL, "0:00 start\n5:00 away\n20:00.001 front\n20:10 until",
    "0:20:00 block ended" },
  { "a block that began away counts", 2, 30, NULL, "0:00 away\n0:10 start\n15:10 until", "0:15:10 block dropped number=1" },
  { "a rest answered away is not had", 2, 30, NULL, "0:00 start\n5:00 away\n5:10 rest\n5:40 until", "0:05:30 rest taken length=30 asked" },
  { "practice anywhere is still bound", 2, 30, NULL, "0:00 start\n5:00 away\n6:00 anywhere\n7:00 end",
    "0:07:00 block ended number=1 limit=1800 after=600 rest=30 active=360 runs=2" },
  { "anywhere asked about", 2, 30, NULL, "0:00 away\n6:00 anywhere", "-cue unstarted" },
  { "a window in front not asked about", 2, 30, NULL, "0:00 away\n1:00 front", "0:00:00 cue morning shown\n0:01:00 cue unstarted asked" },
  { "asked about twice in a wait, by the window", 2, 30, NULL, "0:00 away\n1:00 front\n2:00 away\n3:00 front",
    "0:00:00 cue morning shown\n0:01:00 cue unstarted asked" },
  { "asked about as it was in front already", 2, 30, NULL, "0:00 front", "-cue unstarted" },
  { "asked about while the next block waits, by the window", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n20:00 away\n30:00 front",
    "-cue unstarted" },
  { "asked about over cautions", 2, 30, NULL, "0:00 away\n0:10 caution\n1:00 front", "-cue unstarted" },
  { "the next day's check laid over cautions, by the window", 2, 30, NULL, "0:00 morning 0\n0:10 caution\n0:20 away\n34:00:00 front",
    "0:00:00 cue morning shown\n0:00:00 cue morning withdrawn\n0:00:10 cue caution shown\n-34:00:00 cue" },
  { "begun by itself over cautions", 2, 30, NULL, "0:00 away\n0:10 caution\n1:00 front-starts", "-block started" },
  { "cautions answered none hold it back", 2, 30, NULL, "0:00 away\n0:10 caution\n0:20 caution none\n1:00 front-starts",
    "0:01:00 block started number=1" },
  { "begun by itself on air over cautions held back", 2, 30, NULL, "0:00 away\n0:10 caution\n0:20 on-air on\n1:00 front-starts", "-block started" },
  { "not begun by the window where it is set", 2, 30, NULL, "0:00 away\n1:00 front-starts",
    "0:01:00 block started number=1\n0:01:00 state practising\n0:01:00 cue begun shown\n-early" },
  { "begun on a day without practice", 2, 30, without_tuesday, "0:00 away\n1:00 front-starts", "0:01:00 day done\n-block started" },
  { "told for longer than the first stretch", 2, 30, NULL, "0:00 away\n0:30 input\n1:00 front-starts\n1:20 still\n1:25 until",
    "0:01:00 cue begun shown\n0:01:24 cue begun withdrawn\n0:01:24 state gap" },
  { "begun before the next block's time", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n20:00 away\n54:59.999 front-starts",
    "-block started number=2" },
  { "not begun at the next block's time", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n20:00 away\n55:00 front-starts",
    "0:55:00 block started number=2" },
  { "not begun after the next block's time", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n20:00 away\n55:00.001 front-starts",
    "0:55:00.001 block started number=2" },
  { "begun over an open rating", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 away\n10:20 front-starts", "-block started number=2" },
  { "begun beyond the plan", 1, 10, NULL, "0:00 start\n10:00 still\n10:10 rate 0\n20:00 away\n1:20:00 front-starts", "-block started beyond" },
  { "begun before the day's first card was shown", 2, 30, NULL, "0:00 morning 0\n0:10 away\n34:00:00 front-starts",
    "0:00:00 cue morning shown\n0:00:00 cue morning withdrawn\n34:00:00 cue morning shown\n34:00:00 cue unstarted asked\n-block started" },
  { "input elsewhere asked about", 2, 30, NULL, "0:00 away\n0:10 input\n20:00 still", "-cue unstarted" },
  { "input before leaving forgotten", 2, 30, NULL, "0:00 input\n2:00 away\n5:00 anywhere\n6:00 still\n7:00 until",
    "0:00:00 cue morning shown\n0:06:00 cue unstarted shown" },
  { "2:59.999 about a window left asked about", 2, 30, NULL, "0:00 input\n2:00 away\n5:00 anywhere\n5:59.999 still\n7:00 until",
    "0:00:00 cue morning shown\n-cue unstarted" },
  { "3:00.001 about a window left asked about late", 2, 30, NULL, "0:00 input\n2:00 away\n5:00 anywhere\n6:00.001 still\n7:00 until",
    "0:00:00 cue morning shown\n0:06:00 cue unstarted shown" },
  /* ---- a caution is gone three days on ---- */
  { "gone two days on", 2, 30, NULL, "0:00 caution swollen\n57:59:59 caution gone", "57:59:59 fault gone-too-early" },
  { "not gone three days on", 2, 30, NULL, "0:00 caution swollen\n82:00:00 caution gone", "82:00:00 caution closed" },
  { "not gone four days on", 2, 30, NULL, "0:00 caution swollen\n106:00:00 caution gone", "106:00:00 caution closed" },
  /* ---- stop-above on waking and now ---- */
  { "waking 5 ends the day", 2, 30, NULL, "0:00 morning 5", "-no_practice\n-day done" },
  { "waking 6 does not end the day", 2, 30, NULL, "0:00 morning 6", "0:00:00 decision cut day before=3600\n0:00:00 day done" },
  { "now 5 ends the day", 2, 30, NULL, "0:00 morning 0 --now 5", "-no_practice\n-day done" },
  { "now 6 does not end the day", 2, 30, NULL, "0:00 morning 0 --now 6", "0:00:00 day done" },
  /* ---- worse: 2 or more above usual ---- */
  { "waking 1 above usual is worse", 2, 30, usual_2, "0:00 morning 3", "-decision cut" },
  { "waking 2 above usual is not worse", 2, 30, usual_2, "0:00 morning 4", "0:00:00 decision cut-once day before=3600 after=2340" },
};

static void
test_of_ratings (void **state)
{
  assert_int_equal (carpace_cases_failed (of_ratings, sizeof of_ratings / sizeof of_ratings[0]), 0);
}

static void
test_of_days (void **state)
{
  assert_int_equal (carpace_cases_failed (of_days, sizeof of_days / sizeof of_days[0]), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_of_ratings), cmocka_unit_test (test_of_days) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
