/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-session.c: one row a rule of what a session does. A row's lines must be
 * told in that order; a line that begins with `-` must not be told at all. */
#define _DEFAULT_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"

static void
usual_1 (CarpacePlan *plan)
{
  plan->usual_discomfort = 1;
}

static void
runs_of_60_s (CarpacePlan *plan)
{
  plan->drills[0].run_ms = 60000;
  plan->or_after_runs = 3;
}

static void
no_wait (CarpacePlan *plan)
{
  plan->between_blocks_ms = 0;
}

static void
no_finish_run (CarpacePlan *plan)
{
  plan->finish_run_ms = 0;
}

static void
matches_count_half (CarpacePlan *plan)
{
  plan->matches_count = 5000;
}

static void
reserve_90 (CarpacePlan *plan)
{
  plan->reserve_at_least_pct = 90;
}

static void
intermissions (CarpacePlan *plan)
{
  plan->on_air_every_ms = 11 * 60000;
  plan->on_air_from = CARPACE_ON_AIR_FROM_STREAM;
  plan->on_air_notice_ms = 2 * 60000;
  plan->on_air_length_ms = 5 * 60000;
}

static void
two_drills (CarpacePlan *plan)
{
  plan->n_drills = 2;
  plan->drills[1] = plan->drills[0];
  strcpy (plan->drills[1].id, "orbit");
  plan->drills[1].movement = CARPACE_MOVEMENT_LARGE_TURN;
  plan->blocks[0].n_parts = 2;
  plan->blocks[0].parts[0].share = 3300;
  plan->blocks[0].parts[1] = (CarpaceBlockPart){ 1, 6700 };
}

/* Four blocks, no wait between them. */
static void
often (CarpacePlan *plan)
{
  plan->after_ms = 6 * 60000;
  plan->between_blocks_ms = 0;
}

static void
often_quick_gaps (CarpacePlan *plan)
{
  often (plan);
  plan->gap_after_ms = 2000;
}

static void
coarse (CarpacePlan *plan)
{
  often (plan);
  plan->round_down_to_ms = 10 * 60000;
}

static void
dose_of_two (CarpacePlan *plan)
{
  often (plan);
  plan->dose_ms = 10 * 60000;
}

static void
two_drills_often (CarpacePlan *plan)
{
  two_drills (plan);
  often (plan);
  plan->blocks[0].parts[0].share = 6700;
  plan->blocks[0].parts[1].share = 3300;
}

static const CarpaceCase cases[] = {
  /* ---- active time, gaps, runs ---- */
  { "a pause shorter than a gap counts", 1, 30, NULL,
    "0:10 start\n5:10 still\n5:13 input\n10:10 still\n10:20 end",
    "0:10:14 state rest-due\n0:10:20 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1" },
  { "a gap's own seconds do not count", 1, 30, NULL,
    "0:10 start\n5:10 still\n5:20 input\n10:20 still\n10:30 end",
    "0:05:14 state gap\n0:05:20 state practising\n0:10:30 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=2" },
  { "runs of a drill: nearest whole number, halves up, at least one", 1, 30, runs_of_60_s,
    "0:00 start\n1:30 still\n1:40 input\n2:05 still\n2:15 end",
    "0:02:15 block ended number=1 limit=1800 after=600 rest=30 active=115 runs=3" },
  { "repeated facts change nothing", 1, 30, NULL,
    "0:00 start\n0:30 input\n1:00 still\n1:02 still\n2:00 input\n2:10 input\n3:00 still\n3:10 end",
    "0:01:04 state gap\n0:02:00 state practising\n0:03:04 state gap\n0:03:10 block ended number=1 limit=1800 after=600 rest=30 active=120 runs=2" },
  { "under 60 s and no run is no block", 2, 30, NULL,
    "0:00 start\n0:15 still\n0:30 end\n1:00 start",
    "0:00:30 block dropped number=1 limit=1800 after=600 rest=30 active=15\n0:00:30 state waiting\n"
    "0:01:00 block started number=1 limit=1800 after=600 rest=30\n-rating" },
  { "what a dropped block took comes off the dose", 2, 30, NULL,
    "0:00 start\n0:15 still\n0:30 end\n1:00 start\n31:00 still\n31:30 rate 0\n1:20:00 start",
    "1:20:00 block started number=2 limit=1785 after=600 rest=30" },
  /* ---- micro-rests ---- */
  { "offered in the gap, taken by stillness", 1, 30, NULL,
    "0:00 start\n10:30 still\n11:10 input\n11:20 still",
    "0:10:34 state rest-due\n0:10:34 cue micro-rest shown wrist-extensor-stretch\n"
    "0:11:00 rest taken length=30 asked\n0:11:00 cue micro-rest withdrawn\n0:11:00 state gap\n0:11:10 state practising" },
  { "what was due on time that is counted back stays due", 1, 30, NULL,
    "0:00 start\n9:58 still\n10:20 until",
    "0:10:02 state rest-due" },
  { "offered after runs, in the gap that counts them", 1, 30, runs_of_60_s,
    "0:00 start\n3:00 still\n3:10 until",
    "0:03:04 state rest-due" },
  { "taken although never asked, once between two stretches", 1, 30, NULL,
    "0:00 start\n2:00 still\n5:00 until\n5:10 input\n6:00 still\n6:10 until",
    "0:02:30 rest taken length=30\n-rest taken length=30 asked" },
  { "the triggers start anew with a rest taken", 1, 30, NULL,
    "0:00 start\n6:00 still\n7:00 input\n12:00 still\n12:10 input\n17:30 still\n17:40 until",
    "0:12:04 state gap\n0:17:34 state rest-due" },
  { "no gap: shown quietly, and again each further after", 1, 60, NULL,
    "0:00 start\n30:00 still\n30:10 until",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch\n0:21:30 cue micro-rest shown wrist-extensor-stretch\n"
    "0:30:04 state rest-due\n-0:30:04 cue micro-rest" },
  { "after this run: in the next gap", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 after-run\n10:45 input\n11:30 still\n11:40 until",
    "0:10:34 cue micro-rest shown wrist-extensor-stretch\n0:10:40 rest deferred length=30 asked\n"
    "0:10:40 cue micro-rest withdrawn\n0:10:40 state gap\n0:11:34 state rest-due\n"
    "0:11:34 cue micro-rest shown wrist-extensor-stretch" },
  { "play on: all triggers start anew", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:45 input\n15:00 still\n15:10 input\n21:20 still\n21:30 until",
    "0:10:40 rest declined length=30 asked\n0:15:04 state gap\n0:21:24 state rest-due" },
  { "after three play-ons no more are offered", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:45 input\n21:00 still\n21:10 play-on\n21:15 input\n"
    "32:00 still\n32:10 play-on\n32:15 input\n45:00 still\n45:10 input\n58:00 still\n58:10 until",
    "0:32:10 rest declined length=30 asked\n0:45:04 state gap\n0:58:04 state gap" },
  { "input over an offer: again in a gap 60 s later", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n11:20 still\n11:50 until",
    "0:10:34 cue micro-rest shown wrist-extensor-stretch\n0:10:45 cue micro-rest withdrawn\n"
    "0:10:45 state practising\n0:11:24 state gap\n0:11:40 state rest-due\n"
    "0:11:40 cue micro-rest shown wrist-extensor-stretch\n0:11:50 cue micro-rest withdrawn" },
  { "a reach of under 1 s is forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:40.900 still\n11:10 until",
    "0:10:34 state rest-due\n0:11:00 rest taken length=30 asked\n-0:10:45 state practising" },
  { "an answer within 5 s belongs to the gap", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:43 rest\n11:10 until",
    "0:10:43 state resting\n0:11:03 rest taken length=30 asked\n0:11:03 state gap" },
  { "practice from its start where the reach was none", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n11:40 still\n11:50 end",
    "0:11:50 block ended number=1 limit=3600 after=600 rest=30 active=690 runs=2" },
  { "rest now: later input stops the countdown", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 rest\n10:50 input\n10:55 still\n11:30 until",
    "0:10:40 state resting\n0:11:05 rest taken length=30 asked" },
  { "rest now: the first 2 s are forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 rest\n10:41 input\n10:42 still\n11:30 until",
    "0:11:00 rest taken length=30 asked" },
  { "a rest is interrupted by run-min of input, summed; that is practice", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 rest\n10:45 input\n10:55 still\n11:00 input\n11:30 still\n11:40 end",
    "0:10:34 cue micro-rest shown wrist-extensor-stretch\n0:11:10 rest interrupted length=30 asked\n"
    "0:11:10 cue micro-rest withdrawn\n0:11:10 state practising\n"
    "0:11:40 block ended number=1 limit=3600 after=600 rest=30 active=670 runs=2\n0:11:40 cue rating shown" },
  { "rest asked for in the middle of a run", 1, 60, NULL,
    "0:00 start\n5:00 rest\n5:40 until",
    "0:05:00 state resting\n0:05:00 cue micro-rest shown wrist-extensor-stretch\n"
    "0:05:30 rest taken length=30 asked\n0:05:30 cue micro-rest withdrawn\n0:05:30 state gap" },
  { "never due with less than a third of after to go", 1, 12, NULL,
    "0:00 start\n9:30 still\n9:40 until",
    "0:09:34 state rest-due" },
  { "in listed order, over rests", 1, 60, NULL,
    "0:00 start\n10:30 still\n11:30 input\n22:00 still\n23:00 input\n33:00 still\n34:00 until",
    "0:10:34 cue micro-rest shown wrist-extensor-stretch\n0:11:00 cue micro-rest withdrawn\n"
    "0:22:04 cue micro-rest shown wrist-flexor-stretch\n0:22:30 cue micro-rest withdrawn\n"
    "0:33:04 cue micro-rest shown forearm-self-massage\n0:33:30 cue micro-rest withdrawn" },
  { "an exercise that was not done is shown again", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:50 input\n22:00 still\n22:10 until",
    "0:10:34 cue micro-rest shown wrist-extensor-stretch\n0:10:40 cue micro-rest withdrawn\n"
    "0:22:04 cue micro-rest shown wrist-extensor-stretch" },
  { "between drills: for the next one", 1, 30, two_drills,
    "0:00 start\n10:30 still\n10:40 until",
    "between_drills" },
  { "the model's reserve, where the plan asks", 1, 30, reserve_90,
    "0:00 start\n3:00 still\n3:10 until",
    "0:03:04 state rest-due" },
  { "the model's reserve counts from the block's start", 1, 30, reserve_90,
    "10:00 start\n11:00 still\n11:10 until",
    "0:11:04 state gap\n-rest-due" },
  /* ---- limit, overrun, ends ---- */
  { "limit, then the next gap ends the block", 1, 30, NULL,
    "0:00 start\n10:10 still\n11:00 input\n30:50 still\n31:00 input\n31:20 still\n31:30 until",
    "0:10:14 cue micro-rest shown wrist-extensor-stretch\n0:10:40 cue micro-rest withdrawn\n"
    "0:22:30 cue micro-rest shown wrist-flexor-stretch\n0:30:50 cue micro-rest withdrawn\n"
    "0:30:50 state limit-reached\n0:30:50 cue limit shown\n"
    "0:30:54 block ended number=1 limit=1800 after=600 rest=30 active=1800 runs=2\n0:30:54 cue limit withdrawn\n"
    "0:30:54 state rating-due\n0:30:54 cue rating shown" },
  { "finish-run ends the block; the run goes on as overrun", 2, 30, NULL,
    "0:00 start\n33:00 still\n33:10 until",
    "0:30:00 state limit-reached\n0:31:30 block ended number=1 limit=1800 after=600 rest=30 active=1890 overrun=90\n"
    "0:33:04 overrun block=1 ms=90000" },
  { "overrun past the end is 10 min at most", 2, 30, NULL,
    "0:00 start\n50:00 still\n50:10 until",
    "0:41:30 overrun block=1 ms=600000" },
  { "no finish-run: at once", 1, 30, no_finish_run,
    "0:00 start\n31:00 still\n31:10 until",
    "0:30:00 state limit-reached\n0:30:00 block ended number=1 limit=1800 after=600 rest=30 active=1800" },
  { "a rest still due at the limit is dropped", 1, 12, NULL,
    "0:00 start\n12:30 still\n12:40 until",
    "0:09:30 cue micro-rest shown wrist-extensor-stretch\n0:12:00 cue micro-rest withdrawn\n"
    "0:12:00 state limit-reached\n0:12:00 cue limit shown\n0:12:34 cue limit withdrawn\n0:12:34 cue rating shown" },
  { "pause in limit reached ends the block", 1, 30, NULL,
    "0:00 start\n30:10 pause",
    "0:30:10 block ended number=1 limit=1800 after=600 rest=30 active=1810 overrun=10 runs=1" },
  { "a gap of 15 min ends it, the wait from its beginning", 2, 30, NULL,
    "0:00 start\n10:00 still\n1:00:00 until",
    "0:10:04 cue micro-rest shown wrist-extensor-stretch\n0:10:30 cue micro-rest withdrawn\n"
    "0:25:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1\n0:25:00 cue rating shown\n"
    "0:55:00 rating block=1\n0:55:00 cue rating withdrawn\n0:55:00 cue next-block shown" },
  { "a pause of 15 min ends it", 2, 30, NULL,
    "0:00 start\n10:00 pause\n26:00 until",
    "0:10:00 state paused\n0:25:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1" },
  { "continue ends a pause and counts as input", 1, 30, NULL,
    "0:00 start\n10:00 pause\n12:00 continue\n13:00 still\n13:10 end",
    "0:12:00 state practising\n0:13:10 block ended number=1 limit=1800 after=600 rest=30 active=660 runs=2" },
  /* ---- waits and starts ---- */
  { "an early start is asked about once", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 0\n20:00 start\n20:10 start",
    "0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n0:20:00 cue next-block asked\n"
    "0:20:10 block started number=2 limit=1800 after=600 rest=30 early=2090\n0:20:10 cue next-block withdrawn" },
  { "start over an open rating: a tap rates and starts", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 start\n10:20 rate 0",
    "0:10:00 cue rating shown\n0:10:10 cue rating shown\n0:10:20 rating block=1 discomfort=0\n"
    "0:10:20 block started number=2 limit=1800 after=600 rest=30 early=2680\n0:10:20 cue rating withdrawn" },
  { "start over an open rating: a second starts without", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 start\n10:20 start",
    "0:10:20 rating block=1\n0:10:20 block started number=2 limit=1800 after=600 rest=30 early=2680" },
  { "no wait: next at once after the rating", 2, 30, no_wait,
    "0:00 start\n10:00 end\n10:10 rate 0",
    "0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n0:10:10 state waiting\n0:10:10 cue next-block shown" },
  { "the day done: asked once, then beyond the plan", 1, 30, NULL,
    "0:00 start\n30:10 end\n30:20 rate 0\n40:00 start\n40:10 start",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch\n0:21:30 cue micro-rest shown wrist-extensor-stretch\n"
    "0:30:00 cue micro-rest withdrawn\n0:30:00 cue limit shown\n0:30:10 cue limit withdrawn\n"
    "0:30:10 cue rating shown\n0:30:20 day done 2027-03-02 dose=1800 active=1810\n0:30:20 cue rating withdrawn\n"
    "0:30:20 state day-done\n0:30:20 cue day-done shown\n0:40:00 cue day-done asked\n"
    "0:40:10 block started number=2 limit=1800 after=600 rest=30 beyond\n0:40:10 cue day-done withdrawn\n"
    "-cue next-block" },
  { "the dose still to do caps a block", 2, 30, NULL,
    "0:00 start\n31:20 end\n31:30 rate 0\n1:30:00 start",
    "1:30:00 block started number=2 limit=1720 after=600 rest=30" },
  /* ---- ratings and tightening ---- */
  { "above stop-above: the day is done, cautions told", 3, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 6\n11:30 start",
    "0:10:00 cue rating shown\n0:10:10 decision above-stop block before=1800 block=1 discomfort=6 reference=0\n"
    "0:10:10 day done 2027-03-02 dose=5400 active=600\n0:10:10 cue rating withdrawn\n0:10:10 state day-done\n"
    "0:10:10 cue day-done shown\n0:10:10 cue caution shown\n0:11:30 fault above-stop start day-done" },
  { "not above the reference: unchanged, no line", 2, 30, NULL,
    "0:00 morning 1 --now 2\n0:10 start\n10:00 end\n10:10 rate 2",
    "0:10:10 rating block=1 discomfort=2\n-decision keep block" },
  { "up 2: limit, after and rest", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 2\n1:10:00 start",
    "0:10:10 decision up-2 block before=1800 after=1170 block=1 discomfort=2 reference=0\n"
    "1:10:00 block started number=2 limit=1170 after=390 rest=45" },
  { "up to 4, 2 above usual", 2, 30, NULL,
    "0:00 morning 1 --now 3\n0:10 start\n10:00 end\n10:10 rate 4\n1:10:00 start",
    "0:10:10 decision up-to-4-or-5 block before=1800 after=1170 block=1 discomfort=4 reference=3" },
  { "up 1", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 1\n1:10:00 start",
    "0:10:10 decision up-1 block before=1800 after=1530 block=1 discomfort=1 reference=0\n"
    "1:10:00 block started number=2 limit=1530 after=510 rest=30" },
  { "usual discomfort is no rise", 2, 30, usual_1,
    "0:00 start\n10:00 end\n10:10 rate 1", "-decision up" },
  { "not higher than before: what was tightened stays", 3, 30, no_wait,
    "0:00 start\n10:00 end\n10:10 rate 1\n10:20 start\n20:00 end\n20:10 rate 1\n20:20 start",
    "0:20:20 block started number=3 limit=1530 after=510 rest=30\n-decision up-2" },
  { "compared with the lowest since", 3, 30, no_wait,
    "0:00 morning 1 --now 2\n0:01 start\n10:00 end\n10:10 rate 0\n10:20 start\n20:00 end\n20:10 rate 2\n20:20 start",
    "0:20:10 decision up-2 block before=1800 after=1170 block=2 discomfort=2 reference=0 earlier=0" },
  { "two unanswered in a row", 4, 30, NULL,
    "0:00 start\n10:00 end\n1:00:00 start\n1:10:00 end\n2:00:00 start\n2:10:00 end\n3:00:00 start",
    "0:40:00 rating block=1\n1:40:00 rating block=2\n1:40:00 decision unanswered-twice block before=1800 after=1530 block=2 reference=0\n"
    "2:40:00 decision unanswered-twice block before=1530 after=1290 block=3 reference=0\n"
    "3:00:00 block started number=4 limit=1290 after=433 rest=30" },
  { "the third tightening ends the day", 5, 30, no_wait,
    "0:00 start\n10:00 end\n10:10 rate 1\n10:20 start\n20:00 end\n20:10 rate 2\n20:20 start\n30:00 end\n30:10 rate 3",
    "0:20:10 decision up-2 block before=1530 after=990 block=2 discomfort=2 reference=0 earlier=1\n"
    "0:30:10 decision tightened-thrice block before=990 block=3 discomfort=3 reference=0 earlier=2\n0:30:10 day done 2027-03-02" },
  { "a limit under shortest is no block", 3, 5, no_wait,
    "0:00 start\n4:00 end\n4:10 rate 2\n4:20 start\n7:10 end\n7:20 rate 3",
    "0:04:10 decision up-2 block before=300 after=180 block=1 discomfort=2 reference=0\n"
    "0:07:20 decision up-2 block before=180 after=90 block=2 discomfort=3 reference=0 earlier=2\n"
    "0:07:20 decision too-short block before=90 block=2 discomfort=3 reference=0 earlier=2\n0:07:20 day done 2027-03-02" },
  { "no block left: the last one's limit is told, uncapped", 1, 30, NULL,
    "0:00 start\n30:10 end\n30:20 rate 1",
    "0:30:20 decision up-1 block before=1800 after=1530 block=1 discomfort=1 reference=0" },
  { "a correction within 60 s decides anew", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 3\n10:40 rate 0\n1:10:00 start",
    "0:10:40 rating block=1 discomfort=0 corrects=3\n0:10:40 decision keep block before=1170 after=1800 block=1 discomfort=0 reference=0\n"
    "1:10:00 block started number=2 limit=1800 after=600 rest=30" },
  { "a correction within 60 s takes the end of the day back", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 7\n10:40 rate 1",
    "0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n0:10:10 state day-done\n0:10:10 cue day-done shown\n"
    "0:10:10 cue caution shown\n0:10:40 decision up-1 block after=1530 block=1 discomfort=1 reference=0\n"
    "0:10:40 cue day-done withdrawn\n0:10:40 state waiting\n-0:10:40 cue caution" },
  { "up to 10 min a higher number decides anew", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 0\n15:00 rate 2",
    "0:15:00 decision up-2 block before=1800 after=1170 block=1 discomfort=2 reference=0" },
  { "up to 10 min a lower one changes nothing", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 2\n15:00 rate 0\n1:10:00 start",
    "0:15:00 rating block=1 discomfort=0 corrects=2\n1:10:00 block started number=2 limit=1170 after=390 rest=45\n-0:15:00 decision" },
  { "after 10 min it is too late", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 2\n20:11 rate 0", "0:20:11 fault rated-too-long-ago rate waiting" },
  { "a late answer tightens, and takes the place of its silence", 3, 30, NULL,
    "0:00 start\n10:00 end\n1:00:00 start\n1:10:00 end\n1:45:00 rate 3\n2:00:00 start",
    "1:40:00 decision unanswered-twice block before=1800 after=1530 block=2 reference=0\n1:45:00 rating block=2 discomfort=3 late\n"
    "1:45:00 decision up-2 block before=1530 after=1170 block=2 discomfort=3 reference=0\n2:00:00 block started number=3 limit=1170 after=390 rest=45" },
  { "a late answer above stop-above ends the running block", 3, 30, NULL,
    "0:00 start\n10:00 end\n1:00:00 start\n1:05:00 rate 8",
    "0:10:00 cue rating shown\n0:40:00 cue rating withdrawn\n0:55:00 cue next-block shown\n"
    "1:00:00 cue next-block withdrawn\n1:05:00 rating block=1 discomfort=8 late\n"
    "1:05:00 block ended number=2 limit=1800 after=600 rest=30 active=300 runs=1\n1:05:00 state rating-due\n"
    "1:05:00 cue rating shown\n1:05:00 cue caution shown" },
  { "an end found over 60 min late is not asked about", 2, 30, NULL,
    "0:00 start\n10:00 still\n10:10 suspend\n3:00:00 wake",
    "3:00:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1\n3:00:00 rating block=1\n-cue rating shown" },
  { "the last tap's site comes with a second tap", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 2\n10:14 rate 2 thumb-side",
    "0:10:14 rating block=1 discomfort=2 thumb-side corrects=2\n-0:10:14 decision" },
  { "nothing to rate", 2, 30, NULL, "0:00 rate 2", "0:00:00 fault nothing-to-rate rate waiting" },
  /* ---- suspend ---- */
  { "being suspended is stillness", 1, 30, NULL,
    "0:00 start\n5:00 suspend\n5:20 wake\n5:40 input\n6:40 still\n6:50 end",
    "0:05:20 state gap\n0:05:30 rest taken length=30\n0:05:40 state practising\n0:06:50 block ended number=1 limit=1800 after=600 rest=30 active=360 runs=2" },
  { "what fell due meanwhile is dealt with at the wake", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 0\n20:00 suspend\n2:00:00 wake",
    "0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n2:00:00 cue next-block shown" },
  { "a limit is not reached while suspended", 1, 30, NULL,
    "0:00 start\n29:59 suspend\n40:00 wake\n40:10 until",
    "0:40:00 state gap\n-limit-reached" },
  /* ---- matches ---- */
  { "a match: no rests, no limit, one rating", 2, 30, NULL,
    "0:00 start match\n50:00 still\n51:00 input\n55:00 end\n55:10 rate 2",
    "0:00:00 block started match\n0:55:00 block ended match active=3240 runs=2\n0:55:10 rating discomfort=2\n"
    "0:55:10 decision up-2 block before=1800 after=1170 discomfort=2 reference=0\n-rest taken\n-cue micro-rest\n-limit-reached" },
  { "a match that counts comes off the dose", 1, 30, matches_count_half,
    "0:00 start match\n20:00 end\n20:10 rate 0\n1:10:00 start",
    "1:10:00 block started number=1 limit=1200 after=600 rest=30" },
  /* ---- mornings ---- */
  { "the first morning: worse cuts from the plan's dose", 2, 30, NULL,
    "0:00 morning 0 more", "0:00:00 decision cut-once day before=3600 after=2340 discomfort=0 done=3600\n"
    "0:00:00 day opened 2027-03-02 dose=2340" },
  { "waking above stop-above: no practice today", 2, 30, NULL,
    "0:00 morning 6\n0:10 start",
    "0:00:00 decision cut day before=3600 discomfort=6 no_practice done=3600\n0:00:00 day opened 2027-03-02\n"
    "0:00:00 state day-done\n0:00:00 cue day-done shown\n0:00:00 cue caution shown\n"
    "0:00:10 fault above-stop start day-done" },
  { "a later morning shortens", 2, 30, NULL,
    "0:00 start\n10:00 morning 0 more\n20:00 still\n20:10 end\n20:20 rate 0\n1:10:00 start",
    "0:10:00 decision cut-once day before=3600 after=2340" },
  { "a later morning never lengthens", 2, 30, NULL,
    "0:00 morning 3\n10:00 morning 0 less",
    "0:00:00 decision cut-once day before=3600 after=2340\n-0:10:00 decision" },
  { "a later morning above stop-above ends a running block", 2, 30, NULL,
    "0:00 start\n10:00 morning 0 --now 7",
    "0:10:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1\n0:10:00 state rating-due" },
  /* ---- cautions ---- */
  { "a sign stops practice", 2, 30, NULL,
    "0:00 start\n10:00 caution numb\n10:10 rate 1\n10:20 start",
    "0:10:00 caution opened\n0:10:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1\n"
    "0:10:10 day done\n0:10:20 fault caution-open start day-done" },
  { "none of the signs", 2, 30, NULL, "0:00 caution\n0:10 caution none",
    "0:00:00 caution asked\n0:00:00 cue caution shown\n0:00:10 caution none\n0:00:10 cue caution withdrawn" },
  { "gone needs three days", 2, 30, NULL, "0:00 caution numb\n0:10 caution gone", "0:00:10 fault gone-too-early caution waiting" },
  { "seen closes it; no practice that day, half the dose the next", 2, 30, NULL,
    "0:00 caution numb\n0:10 caution seen\n0:20 start\n16:00:00 morning 0 usual\n16:00:10 start",
    "0:00:10 caution closed\n0:00:20 decision caution day before=1800\n0:00:20 fault caution-open start\n"
    "16:00:00 decision keep day before=1800 after=1800" },
  /* ---- on air ---- */
  { "on air a rating stays open until the stream ends", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n2:00:00 on-air off\n2:00:10 rate 3",
    "0:10:00 cue rating shown\n2:00:00 cue rating shown\n2:00:10 rating block=1 discomfort=3 late\n"
    "2:00:10 decision up-2 block before=1800 after=1170\n2:00:10 cue rating withdrawn\n"
    "2:00:10 cue next-block shown\n-0:40:00 rating" },
  { "on air a caution comes when the stream ends", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n10:10 rate 7\n1:00:00 on-air off",
    "0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n0:10:10 state day-done\n0:10:10 cue day-done shown\n"
    "1:00:00 cue caution shown\n-0:10:10 cue caution" },
  { "on air a rest that is due waits for an intermission that is near", 1, 60, intermissions,
    "0:00 on-air on\n0:10 start\n10:30 still\n10:40 input\n11:20 still\n11:30 until",
    "0:10:34 state gap\n0:11:24 state rest-due\n0:11:24 cue micro-rest shown wrist-extensor-stretch" },
  { "off air the same rest is offered in the first gap", 1, 60, intermissions,
    "0:10 start\n10:30 still\n10:40 until", "0:10:34 state rest-due" },
  { "on air a rest that would be due soon comes with the intermission", 1, 60, intermissions,
    "0:00 on-air on\n3:00 start\n11:10 still\n11:20 until", "0:11:14 state rest-due" },
  { "off air it is not due yet", 1, 60, intermissions,
    "3:00 start\n11:10 still\n11:20 until", "0:11:14 state gap" },
  { "on air a rest due too long before an intermission comes by itself", 1, 60, intermissions,
    "0:00 start\n1:40 on-air on\n10:10 still\n10:20 until", "0:10:14 state rest-due" },
  { "on air a rest with more than a third to go is its own", 1, 60, intermissions,
    "0:00 on-air on\n6:00 start\n11:10 still\n11:20 until", "0:11:14 state gap\n-0:11:14 state rest-due" },
  { "on air a limit with a block's length to go stays where it is", 1, 15, intermissions,
    "0:00 on-air on\n0:10 start\n11:30 still\n11:40 until", "0:11:34 state rest-due\n-state limit-reached" },
  { "on air a limit soon after an intermission comes with it", 1, 13, intermissions,
    "0:00 on-air on\n0:10 start\n11:30 still\n11:40 until",
    "0:11:00 state limit-reached\n0:11:34 block ended number=1" },
  /* ---- where a rule once slipped ---- */
  { "no block starts because a rating's time ran out", 4, 15, often,
    "0:00 start\n10:00 still\n10:10 end\n11:00 start\n1:30:00 until",
    "0:07:30 cue micro-rest shown wrist-extensor-stretch\n0:10:10 cue micro-rest withdrawn\n"
    "0:10:10 cue rating shown\n0:11:00 cue rating shown\n0:40:10 rating block=1\n0:40:10 cue rating withdrawn\n"
    "0:40:10 state waiting\n0:40:10 cue next-block shown\n-block started number=2" },
  { "play on ends a rest that runs: neither taken nor interrupted", 4, 15, often,
    "0:00 start\n6:30 still\n6:40 rest\n6:50 play-on\n8:00 input\n8:30 still\n8:40 until",
    "0:06:34 cue micro-rest shown wrist-extensor-stretch\n0:06:50 rest declined length=30 asked\n"
    "0:06:50 cue micro-rest withdrawn\n0:06:50 state gap\n0:08:00 state practising\n-rest taken\n-rest interrupted" },
  { "after this run ends it, too: in the next gap again", 4, 15, often,
    "0:00 start\n6:30 still\n6:40 rest\n6:50 after-run\n8:00 input\n8:30 still\n8:40 until",
    "0:06:50 rest deferred length=30 asked\n0:06:50 state gap\n0:08:34 state rest-due\n-rest taken\n-rest interrupted" },
  { "play on over a moving hand: no rest is interrupted afterwards", 4, 15, often,
    "0:00 start\n6:30 still\n6:40 rest\n6:45 input\n6:50 play-on\n6:55 input\n7:40 still\n8:40 until",
    "0:06:50 rest declined length=30 asked\n0:06:55 state practising\n-rest interrupted" },
  { "a harmless number leaves the caution's text until it was read", 4, 15, often,
    "0:00 start\n10:00 end\n10:10 caution\n10:20 rate 0\n10:40 rate 0 neck\n10:50 rate 1\n11:00 caution none",
    "0:07:30 cue micro-rest shown wrist-extensor-stretch\n0:10:00 cue micro-rest withdrawn\n"
    "0:10:00 cue rating shown\n0:10:10 cue caution shown\n0:10:20 cue rating withdrawn\n"
    "0:10:20 cue next-block shown\n0:11:00 cue caution withdrawn\n-0:10:20 cue caution\n-0:10:40 cue caution\n"
    "-0:10:50 cue caution" },
  { "a dose below its blocks takes blocks from the end", 4, 5, dose_of_two,
    "0:00 start\n6:00 still\n6:10 rate 0\n6:20 start\n12:30 still\n12:40 rate 0",
    "0:00:00 block started number=1 limit=300\n0:06:20 block started number=2 limit=240\n0:12:40 day done" },
  { "a worse morning after a caution was closed keeps the halving", 1, 60, often,
    "0:00 start\n1:00:00 end\n1:00:10 rate 1\n15:00:00 morning 0\n15:00:10 caution numb\n15:00:20 caution seen\n"
    "15:10:00 morning 1 more\n39:00:00 morning 0 usual",
    "39:00:00 day opened 2027-03-04 dose=1800\n-15:10:00 caution opened\n-15:10:00 cue caution" },
  { "a later, worse morning shortens what runs, and keeps its overrun", 1, 60, NULL,
    "0:00 start\n1:00:30 morning 0 more\n1:02:00 still\n1:02:10 until",
    "1:00:30 decision cut\n1:01:30 block ended number=1 limit=3600 after=600 rest=30 active=3690 overrun=90" },
  { "a later, worse morning makes no block longer", 4, 5, often,
    "0:00 start\n2:00 morning 0 more\n10:00 still\n10:20 rate 0\n10:30 start",
    "0:00:00 block started number=1 limit=300\n-limit=360\n-limit=390" },
  { "continue shows nothing at that instant", 1, 60, NULL,
    "0:00 start\n10:30 pause\n10:40 continue\n12:40 still\n12:50 until",
    "0:10:40 state practising\n0:12:10 cue micro-rest shown wrist-extensor-stretch\n-0:10:40 cue" },
  { "a start that was only asked about leaves the overrun on", 4, 15, NULL,
    "0:00 start\n16:40 rate 0\n16:50 start\n21:40 still\n21:50 until",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch\n0:15:00 cue micro-rest withdrawn\n"
    "0:15:00 cue limit shown\n0:16:30 block ended number=1\n0:16:30 cue limit withdrawn\n0:16:30 cue rating shown\n"
    "0:16:40 cue rating withdrawn\n0:16:50 cue next-block asked\n0:21:44 overrun block=1 ms=310000\n"
    "-0:16:50 overrun" },
  { "one rest a stillness: not again by rest", 4, 15, often,
    "0:00 start\n6:30 still\n7:30 rest\n8:30 until",
    "0:06:34 cue micro-rest shown wrist-extensor-stretch\n0:07:00 rest taken length=30 asked\n"
    "0:07:00 cue micro-rest withdrawn\n0:07:30 state resting\n0:07:30 cue micro-rest shown wrist-flexor-stretch\n"
    "0:08:00 cue micro-rest withdrawn\n0:08:00 state gap\n-0:08:00 rest taken" },
  { "one rest a stillness: not again by pause", 4, 15, often,
    "0:00 start\n6:30 still\n7:30 pause\n8:30 until", "0:07:00 rest taken length=30 asked\n0:07:30 state paused\n-0:07:30 rest taken\n-0:08:00 rest taken" },
  { "overrun that leaves less than a block: the day's end has its reason", 2, 15, often,
    "0:00 start\n16:40 rate 0\n28:40 still\n28:50 until",
    "0:26:30 overrun block=1 ms=600000\n-decision too-short" },
  { "overrun that uses up the dose, too", 2, 10, often,
    "0:00 start\n11:40 rate 0\n21:40 still\n21:50 until",
    "0:21:30 overrun block=1 ms=600000\n0:21:30 decision too-short block\n0:21:30 day done" },
  { "rounding never makes a block beyond the plan one of nothing", 1, 15, coarse,
    "0:00 start\n15:10 end\n15:20 rate 2\n15:30 start\n15:40 start",
    "0:07:30 cue micro-rest shown wrist-extensor-stretch\n0:13:30 cue micro-rest shown wrist-extensor-stretch\n"
    "0:15:00 cue micro-rest withdrawn\n0:15:00 cue limit shown\n0:15:10 cue limit withdrawn\n"
    "0:15:10 cue rating shown\n0:15:20 cue rating withdrawn\n0:15:20 cue day-done shown\n"
    "0:15:30 cue day-done asked\n0:15:40 block started number=2 limit=180 after=120 rest=45 beyond\n"
    "0:15:40 cue day-done withdrawn" },
  { "a rest that ends in a suspend begins no stretch at the wake", 4, 15, often,
    "0:00 start\n6:30 still\n6:40 rest\n6:41 input\n6:41 suspend\n1:00:00 wake",
    "1:00:00 rest taken length=30 asked\n1:00:00 state gap\n-1:00:00 state practising" },
  { "off air when not on air changes nothing", 2, 30, NULL,
    "0:00 start\n10:00 end\n20:00 on-air off\n45:00 until", "0:40:00 rating block=1\n-0:20:00 cue" },
  { "the same number again is not judged anew", 3, 30, no_wait,
    "0:00 start\n10:00 end\n10:10 rate 2\n10:20 morning --now 2\n11:30 rate 2\n11:40 start",
    "0:10:10 decision up-2\n0:11:40 block started number=2 limit=1170\n-0:11:30 decision" },
  { "a number above the stop in a later block: nothing stood before", 3, 30, no_wait,
    "0:00 start\n10:00 end\n40:10 start\n50:00 rate 8\n50:10 rate 9",
    "0:50:00 decision above-stop block before=1800\n0:50:10 decision above-stop block block=2" },
  { "a quiet card becomes one for the next drill in the gap", 1, 30, two_drills_often,
    "0:00 start\n21:00 still\n21:10 until",
    "0:07:30 cue micro-rest shown wrist-extensor-stretch\n0:13:30 cue micro-rest shown wrist-extensor-stretch\n"
    "0:19:30 cue micro-rest shown wrist-extensor-stretch\n0:21:04 cue micro-rest shown wrist-extensor-stretch between_drills" },
  { "an offer stays for the 5 s of a reach, also with quick gaps", 4, 15, often_quick_gaps,
    "0:00 start\n6:30 still\n6:40 input\n6:41.500 still\n6:44 rest\n7:30 until",
    "0:06:32 state rest-due\n0:06:44 state resting\n0:07:04 rest taken length=30 asked\n-0:06:43" },
  { "a block that ends within a reach stays ended", 2, 30, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:42 end\n10:50 rate 0\n1:00:00 until",
    "0:10:34 cue micro-rest shown wrist-extensor-stretch\n0:10:42 block ended number=1\n0:10:42 cue micro-rest withdrawn\n"
    "0:10:42 cue rating shown\n0:10:50 cue rating withdrawn\n0:55:42 cue next-block shown\n-0:10:45" },
  { "a reach that was practice counts, also with quick gaps", 4, 15, often_quick_gaps,
    "0:00 start\n6:30 still\n6:40 input\n6:41.500 still\n6:44 input\n6:50 still\n7:00 end",
    "0:06:32 cue micro-rest shown wrist-extensor-stretch\n0:06:45 cue micro-rest withdrawn\n"
    "0:06:45 state practising\n0:07:00 block ended number=1 limit=900 after=360 rest=30 active=397.500\n"
    "0:07:00 cue rating shown" },
  { "a day that is not done after all has its next block told", 2, 30, no_wait,
    "0:00 start\n10:00 end\n10:10 rate 7\n10:40 rate 1",
    "0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n0:10:10 cue day-done shown\n"
    "0:10:10 cue caution shown\n0:10:40 cue day-done withdrawn\n0:10:40 state waiting\n0:10:40 cue next-block shown" },
  { "a sign for the same day is not gone by itself", 2, 30, NULL,
    "0:00 caution cold-or-pale\n100:00:00 caution gone\n100:00:10 caution seen",
    "100:00:00 fault seen-only caution\n100:00:10 caution closed" },
  { "who has seen a caution, when, and what they allow: it only lowers", 2, 30, NULL,
    "0:00 caution numb\n0:10 caution seen --by doctor --on 2027-03-02 --dose 20min\n16:00:00 start",
    "0:00:10 caution closed\n16:00:00 day opened 2027-03-03 dose=1200" },
  { "what they allow does not raise", 2, 30, NULL,
    "0:00 caution numb\n0:10 caution seen --dose 50min\n16:00:00 start", "16:00:00 day opened 2027-03-03 dose=1800" },
  { "nobody has seen a caution before it opened", 2, 30, NULL,
    "0:00 caution numb\n0:10 caution seen --on 2027-03-01\n0:20 caution seen --on 2027-03-02",
    "0:00:10 fault seen-when caution\n0:00:20 caution closed" },
  { "nor tomorrow", 2, 30, NULL,
    "0:00 caution numb\n0:10 caution seen --on 2027-03-03", "0:00:10 fault seen-when caution" },
  { "an end found over 60 min late is not asked about: at the limit, too", 2, 30, NULL,
    "0:00 start\n30:10 suspend\n1:30:14 wake",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch\n0:21:30 cue micro-rest shown wrist-extensor-stretch\n"
    "0:30:00 cue micro-rest withdrawn\n0:30:00 cue limit shown\n1:30:14 block ended number=1\n"
    "1:30:14 cue limit withdrawn\n1:30:14 state rating-due\n1:30:14 cue rating shown" },
  { "and a moment later", 2, 30, NULL,
    "0:00 start\n30:10 suspend\n1:30:14.001 wake", "1:30:14.001 rating block=1\n1:30:14.001 state waiting\n-cue rating shown" },
  { "the stretch of a card keeps its own time", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:58 rest\n11:30 until", "0:10:58 state resting\n0:11:18 rest taken length=30 asked\n0:11:18 state gap\n-0:11:00 rest taken" },
  { "long enough a rest is taken, also where its stretch was cut short", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:58 rest\n11:05 input\n11:40 until", "0:11:25 rest taken length=30 asked\n0:11:25 state practising\n-rest interrupted" },
  { "above stop-above, over 30 min late, still stops", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n1:00:00 rate 7",
    "1:00:00 decision above-stop block before=1800 block=1 discomfort=7 reference=0\n1:00:00 state day-done" },
};

static void
test_cases (void **state)
{
  assert_int_equal (carpace_cases_failed (cases, sizeof cases / sizeof cases[0]), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_cases) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
