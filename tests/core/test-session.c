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

#include "trace.h"

typedef struct
{
  const char *name;
  int blocks, limit_min;
  void (*change) (CarpacePlan *plan); /* NULL: as it is */
  const char *script;
  const char *told;
} Case;

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

static const Case cases[] = {
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
    "0:10:40 rest deferred length=30 asked\n0:10:40 cue micro-rest withdrawn\n0:10:40 state gap\n"
    "0:11:34 state rest-due\n0:11:34 cue micro-rest shown wrist-extensor-stretch" },
  { "play on: all triggers start anew", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:45 input\n15:00 still\n15:10 input\n21:20 still\n21:30 until",
    "0:10:40 rest declined length=30 asked\n0:15:04 state gap\n0:21:24 state rest-due" },
  { "after three play-ons no more are offered", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:45 input\n21:00 still\n21:10 play-on\n21:15 input\n"
    "32:00 still\n32:10 play-on\n32:15 input\n45:00 still\n45:10 input\n58:00 still\n58:10 until",
    "0:32:10 rest declined length=30 asked\n0:45:04 state gap\n0:58:04 state gap" },
  { "input over an offer: again in a gap 60 s later", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n11:20 still\n11:50 until",
    "0:10:45 cue micro-rest withdrawn\n0:10:45 state practising\n0:11:24 state gap\n0:11:40 state rest-due\n"
    "0:11:40 cue micro-rest shown wrist-extensor-stretch" },
  { "a reach of under 1 s is forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:40.900 still\n11:10 until",
    "0:10:34 state rest-due\n0:11:00 rest taken length=30 asked\n-0:10:45 state practising" },
  { "an answer within 5 s belongs to the gap", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:43 rest\n11:10 until",
    "0:10:43 state resting\n0:11:00 rest taken length=30 asked\n0:11:00 state gap" },
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
    "0:11:10 rest interrupted length=30 asked\n0:11:10 cue micro-rest withdrawn\n0:11:10 state practising\n"
    "0:11:40 block ended number=1 limit=3600 after=600 rest=30 active=670 runs=2" },
  { "rest asked for in the middle of a run", 1, 60, NULL,
    "0:00 start\n5:00 rest\n5:40 until",
    "0:05:00 state resting\n0:05:00 cue micro-rest shown wrist-extensor-stretch\n0:05:30 rest taken length=30 asked\n0:05:30 state gap" },
  { "never due with less than a third of after to go", 1, 12, NULL,
    "0:00 start\n9:30 still\n9:40 until",
    "0:09:34 state rest-due" },
  { "in listed order, over rests", 1, 60, NULL,
    "0:00 start\n10:30 still\n11:30 input\n22:00 still\n23:00 input\n33:00 still\n34:00 until",
    "0:10:34 cue micro-rest shown wrist-extensor-stretch\n0:22:04 cue micro-rest shown wrist-flexor-stretch\n"
    "0:33:04 cue micro-rest shown forearm-self-massage" },
  { "an exercise that was not done is shown again", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:50 input\n22:00 still\n22:10 until",
    "0:22:04 cue micro-rest shown wrist-extensor-stretch" },
  { "between drills: for the next one", 1, 30, two_drills,
    "0:00 start\n10:30 still\n10:40 until",
    "between_drills" },
  { "the model's reserve, where the plan asks", 1, 30, reserve_90,
    "0:00 start\n3:00 still\n3:10 until",
    "0:03:04 state rest-due" },
  /* ---- limit, overrun, ends ---- */
  { "limit, then the next gap ends the block", 1, 30, NULL,
    "0:00 start\n10:10 still\n11:00 input\n30:50 still\n31:00 input\n31:20 still\n31:30 until",
    "0:30:50 state limit-reached\n0:30:50 cue limit shown\n0:30:54 block ended number=1 limit=1800 after=600 rest=30 active=1800 runs=2\n"
    "0:30:54 cue limit withdrawn\n0:30:54 state rating-due\n0:30:54 cue rating shown" },
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
    "0:09:30 cue micro-rest shown wrist-extensor-stretch\n0:12:00 cue micro-rest withdrawn\n0:12:00 state limit-reached" },
  { "pause in limit reached ends the block", 1, 30, NULL,
    "0:00 start\n30:10 pause",
    "0:30:10 block ended number=1 limit=1800 after=600 rest=30 active=1810 overrun=10 runs=1" },
  { "a gap of 15 min ends it, the wait from its beginning", 2, 30, NULL,
    "0:00 start\n10:00 still\n1:00:00 until",
    "0:25:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1\n0:55:00 rating block=1\n0:55:00 cue next-block shown" },
  { "a pause of 15 min ends it", 2, 30, NULL,
    "0:00 start\n10:00 pause\n26:00 until",
    "0:10:00 state paused\n0:25:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1" },
  { "continue ends a pause and counts as input", 1, 30, NULL,
    "0:00 start\n10:00 pause\n12:00 continue\n13:00 still\n13:10 end",
    "0:12:00 state practising\n0:13:10 block ended number=1 limit=1800 after=600 rest=30 active=660 runs=2" },
  /* ---- waits and starts ---- */
  { "an early start is asked about once", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 0\n20:00 start\n20:10 start",
    "0:20:00 cue next-block asked\n0:20:10 block started number=2 limit=1800 after=600 rest=30 early=2090" },
  { "start over an open rating: a tap rates and starts", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 start\n10:20 rate 0",
    "0:10:10 cue rating shown\n0:10:20 rating block=1 discomfort=0\n0:10:20 block started number=2 limit=1800 after=600 rest=30 early=2680" },
  { "start over an open rating: a second starts without", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 start\n10:20 start",
    "0:10:20 rating block=1\n0:10:20 block started number=2 limit=1800 after=600 rest=30 early=2680" },
  { "no wait: next at once after the rating", 2, 30, no_wait,
    "0:00 start\n10:00 end\n10:10 rate 0",
    "0:10:10 state waiting\n0:10:10 cue next-block shown" },
  { "the day done: asked once, then beyond the plan", 1, 30, NULL,
    "0:00 start\n30:10 end\n30:20 rate 0\n40:00 start\n40:10 start",
    "0:30:20 day done 2027-03-02 dose=1800 active=1810\n0:30:20 state day-done\n0:30:20 cue day-done shown\n"
    "0:40:00 cue next-block asked\n0:40:10 block started number=2 limit=1800 after=600 rest=30 beyond" },
  { "the dose still to do caps a block", 2, 30, NULL,
    "0:00 start\n31:20 end\n31:30 rate 0\n1:30:00 start",
    "1:30:00 block started number=2 limit=1720 after=600 rest=30" },
  /* ---- ratings and tightening ---- */
  { "above stop-above: the day is done, cautions told", 3, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 6\n11:30 start",
    "0:10:10 decision above-stop block before=1800 block=1 discomfort=6 reference=0\n0:10:10 day done 2027-03-02 dose=5400 active=600\n"
    "0:10:10 state day-done\n0:10:10 cue day-done shown\n0:10:10 cue caution shown\n0:11:30 fault above-stop start day-done" },
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
    "0:10:10 state day-done\n0:10:40 decision up-1 block after=1530 block=1 discomfort=1 reference=0\n0:10:40 cue day-done withdrawn\n"
    "0:10:40 cue caution withdrawn\n0:10:40 state waiting" },
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
    "1:05:00 rating block=1 discomfort=8 late\n1:05:00 block ended number=2 limit=1800 after=600 rest=30 active=300 runs=1\n"
    "1:05:00 state rating-due\n1:05:00 cue caution shown" },
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
    "2:00:00 cue next-block shown" },
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
    "0:00 morning 0 more", "0:00:00 decision cut day before=3600 after=2340 discomfort=0 done=3600\n"
    "0:00:00 day opened 2027-03-02 dose=2340" },
  { "waking above stop-above: no practice today", 2, 30, NULL,
    "0:00 morning 6\n0:10 start",
    "0:00:00 decision cut day before=3600 discomfort=6 no_practice done=3600\n0:00:00 day opened 2027-03-02\n"
    "0:00:00 state day-done\n0:00:00 cue caution shown\n0:00:10 fault above-stop start day-done" },
  { "a later morning shortens", 2, 30, NULL,
    "0:00 start\n10:00 morning 0 more\n20:00 still\n20:10 end\n20:20 rate 0\n1:10:00 start",
    "0:10:00 decision cut day before=3600 after=2340" },
  { "a later morning never lengthens", 2, 30, NULL,
    "0:00 morning 3\n10:00 morning 0 less",
    "0:00:00 decision cut day before=3600 after=2340\n-0:10:00 decision" },
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
    "2:00:00 cue rating shown\n2:00:10 rating block=1 discomfort=3 late\n-0:40:00 rating\n-decision up-2" },
  { "on air a caution comes when the stream ends", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n10:10 rate 7\n1:00:00 on-air off",
    "0:10:10 state day-done\n1:00:00 cue caution shown\n-0:10:10 cue caution" },
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
  { "above stop-above, over 30 min late, still stops", 2, 30, NULL,
    "0:00 on-air on\n0:10 start\n10:00 end\n1:00:00 rate 7",
    "1:00:00 decision above-stop block before=1800 block=1 discomfort=7 reference=0\n1:00:00 state day-done" },
};

static bool
told_in_order (const char *trace, const char *expected, const char *name)
{
  char *copy = strdup (expected), *rest = copy;
  const char *at = trace;
  bool good = true;

  for (char *line = strsep (&rest, "\n"); line != NULL; line = strsep (&rest, "\n"))
    {
      const char *found = strstr (line[0] == '-' ? trace : at, line[0] == '-' ? line + 1 : line);
      if ((found != NULL) == (line[0] != '-'))
        {
          at = line[0] == '-' ? at : found + strlen (line);
          continue;
        }
      print_error ("%s: %s\n", name, line);
      good = false;
    }
  free (copy);
  return good;
}

static void
test_cases (void **state)
{
  CarpacePlan *plan = calloc (1, sizeof *plan);
  int failed = 0;

  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
    {
      char *trace;
      carpace_trace_plan (plan, cases[i].blocks, cases[i].limit_min);
      if (cases[i].change != NULL)
        cases[i].change (plan);
      trace = carpace_trace (plan, cases[i].script);
      if (!told_in_order (trace, cases[i].told, cases[i].name))
        {
          print_error ("---- told:\n%s----\n", trace);
          failed++;
        }
      free (trace);
    }
  free (plan);
  assert_int_equal (failed, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_cases) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
