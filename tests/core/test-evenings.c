/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-evenings.c: evenings told whole. Behind a row's `=` stands all that is
 * told to its end: what a row of single lines lets slip, an instant, a card, a line
 * too many, fails here. Rows are read against the rules as they are written, and again
 * when a rule changes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"

static void
runs_of_60_s (CarpacePlan *plan)
{
  plan->drills[0].run_ms = 60000;
  plan->or_after_runs = 3;
}

static void
after_each_run (CarpacePlan *plan)
{
  plan->or_after_runs = 1;
}

static void
two_drills (CarpacePlan *plan)
{
  plan->n_drills = 2;
  plan->drills[1] = plan->drills[0];
  strcpy (plan->drills[1].id, "orbit");
  plan->drills[1].movement = CARPACE_MOVEMENT_LARGE_TURN;
  plan->drills[1].intensity_pct_mvc = 2 * plan->drills[0].intensity_pct_mvc;
  plan->blocks[0].n_parts = 2;
  plan->blocks[0].parts[0].share = 6000;
  plan->blocks[0].parts[1] = (CarpaceBlockPart) { 1, 4000 };
}

static void
reserve_90 (CarpacePlan *plan)
{
  two_drills (plan);
  plan->reserve_at_least_pct = 90;
}

static void
reserve_of_matches (CarpacePlan *plan)
{
  reserve_90 (plan);
  plan->matches_count = 5000;
}

/* The second block begins with the other drill. */
static void
blocks_differ (CarpacePlan *plan)
{
  two_drills (plan);
  plan->between_blocks_ms = 0;
  plan->blocks[1] = plan->blocks[0];
  plan->blocks[1].parts[0] = (CarpaceBlockPart) { 1, 3000 };
  plan->blocks[1].parts[1] = (CarpaceBlockPart) { 0, 7000 };
}

static void
quick_gaps (CarpacePlan *plan)
{
  plan->gap_after_ms = 2000;
  plan->run_min_ms = 1000;
}

static void
slow_gaps (CarpacePlan *plan)
{
  plan->gap_after_ms = 9000;
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
told_early (CarpacePlan *plan)
{
  intermissions (plan);
  plan->on_air_notice_ms = 5 * 60000;
}

static const CarpaceCase evenings[] = {
  { "the model's reserve, over work, gaps and rests", 1, 60, reserve_90,
    "0:00 start\n12:00 still\n12:07 input\n20:00 still\n20:50 input\n24:00 still\n24:10 play-on\n"
    "24:30 input\n40:00 look\n44:00 still\n46:00 input\n58:00 until",
    "=0:00:00 state practising\n0:02:57.436 cue micro-rest shown wrist-extensor-stretch\n0:12:04 state rest-due\n"
    "0:12:12 cue micro-rest withdrawn\n0:12:12 state practising\n"
    "0:14:37 cue micro-rest shown wrist-extensor-stretch\n0:20:04 state rest-due\n"
    "0:20:30 rest taken length=30 asked\n0:20:30 cue micro-rest withdrawn\n0:20:30 state gap\n"
    "0:20:50 state practising\n0:24:04 state gap\n0:24:10 fault no-rest-offered play-on gap\n"
    "0:24:30 rest taken length=30\n0:24:30 state practising\n0:36:00 cue micro-rest shown wrist-flexor-stretch\n"
    "0:40:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=2313 runs=3 drill=1 "
    "to-go=1287 offered card=wrist-flexor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit "
    "in=1287 open dose=3600 dose-to-go=1287 done=2313 other-today=1 .\n0:44:04 state rest-due\n"
    "0:44:04 cue micro-rest shown wrist-flexor-stretch between_drills\n0:44:30 rest taken length=30 asked\n"
    "0:44:30 cue micro-rest withdrawn between_drills\n0:44:30 state gap\n0:46:00 state practising\n"
    "0:47:34.715 cue micro-rest shown forearm-self-massage\n"
    "0:57:34.715 cue micro-rest shown forearm-self-massage\n" },
  { "a match has no reserve, and no rest", 1, 30, reserve_of_matches,
    "0:00 start match\n5:00 rest\n5:01 after-run\n12:00 still\n12:40 input\n20:00 pause\n21:00 start match\n"
    "21:10 start\n22:00 end",
    "=0:00:00 state practising\n0:05:00 fault not-now rest practising\n"
    "0:05:01 fault no-rest-offered after-run practising\n0:12:04 state gap\n0:12:40 state practising\n"
    "0:20:00 state paused\n0:21:00 fault running start-match paused\n0:21:10 state practising\n"
    "0:22:00 block ended match active=1210 runs=3\n0:22:00 state rating-due\n0:22:00 cue rating shown\n" },
  { "the reserve in a second drill", 2, 20, reserve_90,
    "0:00 start\n19:00 still\n19:10 end\n19:20 rate 0\n1:10:00 start\n1:14:00 until",
    "=0:00:00 state practising\n0:02:57.436 cue micro-rest shown wrist-extensor-stretch\n"
    "0:12:57.436 cue micro-rest shown wrist-extensor-stretch\n0:19:04 state rest-due\n"
    "0:19:04 cue micro-rest shown wrist-extensor-stretch between_drills\n"
    "0:19:10 block ended number=1 limit=1200 after=600 rest=30 active=1140 runs=1\n"
    "0:19:10 cue micro-rest withdrawn between_drills\n0:19:10 state rating-due\n0:19:10 cue rating shown\n"
    "0:19:20 rating block=1 discomfort=0\n0:19:20 cue rating withdrawn\n0:19:20 state waiting\n"
    "1:04:10 cue next-block shown\n1:10:00 block started number=2 limit=1200 after=600 rest=30\n"
    "1:10:00 cue next-block withdrawn\n1:10:00 state practising\n"
    "1:12:57.436 cue micro-rest shown wrist-extensor-stretch\n" },
  { "runs begin anew with a rest", 1, 30, runs_of_60_s,
    "0:00 start\n2:00 still\n2:40 input\n4:40 still\n4:50 input\n5:50 still\n6:00 look\n6:40 end",
    "=0:00:00 state practising\n0:02:04 state gap\n0:02:30 rest taken length=30\n0:02:40 state practising\n"
    "0:04:44 state gap\n0:04:50 state practising\n0:05:54 state rest-due\n"
    "0:05:54 cue micro-rest shown wrist-extensor-stretch\n"
    "0:06:00 view rest-due block=1 of=1 limit=1800 after=600 rest=30 active=300 runs=5 drill=1 to-go=1500 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=1800 "
    "dose-to-go=1500 done=300 other-today=1 .\n0:06:20 rest taken length=30 asked\n"
    "0:06:20 cue micro-rest withdrawn\n0:06:20 state gap\n"
    "0:06:40 block ended number=1 limit=1800 after=600 rest=30 active=300 runs=5\n0:06:40 state rating-due\n"
    "0:06:40 cue rating shown\n" },
  { "each run has its rest", 1, 30, after_each_run,
    "0:00 start\n1:00 still\n1:05 look\n1:40 input\n2:00 still\n2:10 look",
    "=0:00:00 state practising\n0:01:04 state rest-due\n0:01:04 cue micro-rest shown wrist-extensor-stretch\n"
    "0:01:05 view rest-due block=1 of=1 limit=1800 after=600 rest=30 active=60 runs=1 drill=1 to-go=1740 offered "
    "card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=1800 dose-to-go=1740 "
    "done=60 other-today=1 .\n0:01:30 rest taken length=30 asked\n0:01:30 cue micro-rest withdrawn\n"
    "0:01:30 state gap\n0:01:40 state practising\n0:02:04 state rest-due\n"
    "0:02:04 cue micro-rest shown wrist-flexor-stretch\n"
    "0:02:10 view rest-due block=1 of=1 limit=1800 after=600 rest=30 active=80 runs=2 drill=1 to-go=1720 offered "
    "card=wrist-flexor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=1800 dose-to-go=1720 "
    "done=80 other-today=1 .\n" },
  { "the second block begins with the other drill", 2, 30, blocks_differ,
    "0:00 start\n19:00 look\n19:10 still\n19:20 look\n31:00 still\n31:10 rate 0\n31:20 start\n31:30 look\n"
    "40:00 look\n43:00 still\n43:10 look\n44:00 input\n44:10 look\n46:00 end",
    "=0:00:00 state practising\n0:11:30 cue micro-rest shown wrist-extensor-stretch\n"
    "0:19:00 view practising ticking block=1 of=2 limit=1800 after=600 rest=30 active=1140 drill=1 to-go=660 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit in=660 open "
    "dose=3600 dose-to-go=2460 done=1140 .\n0:19:14 state rest-due\n"
    "0:19:14 cue micro-rest shown wrist-extensor-stretch between_drills\n"
    "0:19:20 view rest-due block=1 of=2 limit=1800 after=600 rest=30 active=1150 runs=1 drill=1 to-go=650 "
    "offered card=wrist-extensor-stretch between-drills next-drill=2 length=30 rest-to-go=30 given=-1 "
    "cue=micro-rest open dose=3600 dose-to-go=2450 done=1150 other-today=1 .\n"
    "0:19:40 rest taken length=30 asked\n0:19:40 cue micro-rest withdrawn between_drills\n0:19:40 state gap\n"
    "0:31:10 fault nothing-to-rate rate gap\n0:31:20 fault running start gap\n"
    "0:31:30 view gap block=1 of=2 limit=1800 after=600 rest=30 active=1150 runs=1 drill=1 to-go=650 given=-1 "
    "next=limit in=650 open dose=3600 dose-to-go=2450 done=1150 other-today=1 .\n"
    "0:34:10 block ended number=1 limit=1800 after=600 rest=30 active=1150 runs=1\n0:34:10 state rating-due\n"
    "0:34:10 cue rating shown\n"
    "0:40:00 view rating-due block=2 of=2 limit=1800 after=600 rest=30 to-go=1800 rating of-block=1 given=-1 "
    "cue=rating next=next-block open dose=3600 dose-to-go=2450 done=1150 other-today=1 .\n"
    "0:43:10 view rating-due block=2 of=2 limit=1800 after=600 rest=30 to-go=1800 rating of-block=1 given=-1 "
    "cue=rating next=next-block open dose=3600 dose-to-go=2450 done=1150 other-today=1 .\n"
    "0:44:10 view rating-due block=2 of=2 limit=1800 after=600 rest=30 to-go=1800 rating of-block=1 given=-1 "
    "cue=rating next=next-block open dose=3600 dose-to-go=2450 done=1150 other-today=1 .\n"
    "0:46:00 fault no-block end rating-due\n" },
  { "a reach of two pieces is practice, with its runs", 1, 30, quick_gaps,
    "0:00 start\n10:30 still\n10:40 input\n10:41.500 still\n10:44 input\n10:50 still\n10:53 look\n"
    "12:00 still\n13:00 input\n14:00 still\n14:03 look\n14:05 input\n14:06.200 still\n14:08.500 input\n"
    "14:09 still\n14:12 look\n15:00 end",
    "=0:00:00 state practising\n0:10:32 state rest-due\n0:10:32 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:45 cue micro-rest withdrawn\n0:10:45 state practising\n0:10:52 state gap\n"
    "0:10:53 view gap block=1 of=1 limit=1800 after=600 rest=30 active=637.500 runs=3 drill=1 to-go=1162.500 "
    "given=-1 next=limit in=1162.500 open dose=1800 dose-to-go=1162.500 done=637.500 other-today=1 .\n"
    "0:11:20 rest taken length=30\n0:13:00 state practising\n0:14:02 state gap\n"
    "0:14:03 view gap block=1 of=1 limit=1800 after=600 rest=30 active=697.500 runs=4 drill=1 to-go=1102.500 "
    "given=-1 next=micro-rest in=540 open dose=1800 dose-to-go=1102.500 done=697.500 other-today=1 .\n"
    "0:14:05 state practising\n0:14:08.200 state gap\n0:14:08.500 state practising\n0:14:11 state gap\n"
    "0:14:12 view gap block=1 of=1 limit=1800 after=600 rest=30 active=699.200 runs=5 drill=1 to-go=1100.800 "
    "given=-1 next=micro-rest in=538.300 open dose=1800 dose-to-go=1100.800 done=699.200 other-today=1 .\n"
    "0:14:39 rest taken length=30\n"
    "0:15:00 block ended number=1 limit=1800 after=600 rest=30 active=699.200 runs=5\n0:15:00 state rating-due\n"
    "0:15:00 cue rating shown\n" },
  { "a second reach does not hold the first", 1, 30, quick_gaps,
    "0:00 start\n10:30 still\n10:40 input\n10:41.500 still\n10:44 input\n11:45 still\n11:50 input\n"
    "11:51.500 still\n12:00 look\n12:10 end",
    "=0:00:00 state practising\n0:10:32 state rest-due\n0:10:32 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:45 cue micro-rest withdrawn\n0:10:45 state practising\n0:11:47 state rest-due\n"
    "0:11:47 cue micro-rest shown wrist-extensor-stretch\n0:11:55 cue micro-rest withdrawn\n0:11:55 state gap\n"
    "0:12:00 view gap block=1 of=1 limit=1800 after=600 rest=30 active=694 runs=4 drill=1 to-go=1106 given=-1 "
    "next=limit in=1106 open dose=1800 dose-to-go=1106 done=694 other-today=1 .\n"
    "0:12:10 block ended number=1 limit=1800 after=600 rest=30 active=694 runs=4\n0:12:10 state rating-due\n"
    "0:12:10 cue rating shown\n" },
  { "a reach that a gap ends is practice, and the gap begins", 1, 30, quick_gaps,
    "0:00 start\n10:30 still\n10:40 input\n10:42 still\n10:50 look\n10:58 input\n11:30 still\n11:50 until",
    "=0:00:00 state practising\n0:10:32 state rest-due\n0:10:32 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:45 cue micro-rest withdrawn\n0:10:45 state gap\n"
    "0:10:50 view gap block=1 of=1 limit=1800 after=600 rest=30 active=632 runs=2 drill=1 to-go=1168 given=-1 "
    "next=limit in=1168 open dose=1800 dose-to-go=1168 done=632 other-today=1 .\n0:10:58 state practising\n"
    "0:11:32 state gap\n0:11:40 state rest-due\n0:11:40 cue micro-rest shown wrist-extensor-stretch\n" },
  { "a touch is none before its gap is told", 1, 30, slow_gaps,
    "0:00 start\n10:30 still\n10:50 input\n10:50.500 still\n10:55.100 look\n11:00 look\n11:15 look",
    "=0:00:00 state practising\n0:10:39 state rest-due\n0:10:39 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:55.100 view rest-due block=1 of=1 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=1800 "
    "dose-to-go=1170 done=630 other-today=1 .\n0:11:00 rest taken length=30 asked\n"
    "0:11:00 cue micro-rest withdrawn\n0:11:00 state gap\n"
    "0:11:00 view gap block=1 of=1 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 given=-1 "
    "next=micro-rest in=600 open dose=1800 dose-to-go=1170 done=630 other-today=1 .\n"
    "0:11:15 view gap block=1 of=1 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 given=-1 "
    "next=micro-rest in=600 open dose=1800 dose-to-go=1170 done=630 other-today=1 .\n" },
  { "the hand comes back on a new day: the morning is asked about", 1, 30, NULL,
    "0:00 morning 0\n0:10 input\n0:20 look\n0:30 still\n24:00:00 input\n24:00:05 look",
    "=0:00:20 view waiting block=1 of=1 limit=1800 after=600 rest=30 to-go=1800 given=-1 open dose=1800 "
    "dose-to-go=1800 checked other-today=1 .\n24:00:00 cue morning shown\n"
    "24:00:05 view waiting block=1 of=1 limit=1800 after=600 rest=30 to-go=1800 given=-1 cue=morning open "
    "dose=1800 dose-to-go=1800 checked other-today=21 .\n" },
  { "suspended for two seconds, then played on", 1, 30, NULL,
    "0:00 start\n5:00 suspend\n5:02 wake\n5:03 input\n5:30 look\n6:00 still\n6:10 look",
    "=0:00:00 state practising\n"
    "0:05:30 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=330 drill=1 to-go=1470 "
    "given=-1 next=micro-rest in=270 open dose=1800 dose-to-go=1470 done=330 other-today=1 .\n0:06:04 state gap\n"
    "0:06:10 view gap block=1 of=1 limit=1800 after=600 rest=30 active=360 runs=1 drill=1 to-go=1440 given=-1 "
    "next=micro-rest in=240 open dose=1800 dose-to-go=1440 done=360 other-today=1 .\n" },
  { "suspended for a gap, then played on", 1, 30, NULL,
    "0:00 start\n5:00 suspend\n5:20 wake\n5:40 input\n6:00 look\n6:10 still\n6:20 look",
    "=0:00:00 state practising\n0:05:20 state gap\n0:05:30 rest taken length=30\n0:05:40 state practising\n"
    "0:06:00 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=320 runs=1 drill=1 "
    "to-go=1480 given=-1 next=micro-rest in=580 open dose=1800 dose-to-go=1480 done=320 other-today=1 .\n"
    "0:06:14 state gap\n"
    "0:06:20 view gap block=1 of=1 limit=1800 after=600 rest=30 active=330 runs=2 drill=1 to-go=1470 given=-1 "
    "next=micro-rest in=570 open dose=1800 dose-to-go=1470 done=330 other-today=1 .\n" },
  { "suspended in a pause, over a moving hand", 1, 30, NULL,
    "0:00 start\n3:00 pause\n3:10 input\n3:11 suspend\n3:12 continue\n3:30 look\n3:40 still\n3:50 end",
    "=0:00:00 state practising\n0:03:00 state paused\n0:03:12 state practising\n"
    "0:03:30 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=198 runs=1 drill=1 "
    "to-go=1602 given=-1 next=micro-rest in=402 open dose=1800 dose-to-go=1602 done=198 other-today=1 .\n"
    "0:03:44 state gap\n0:03:50 block ended number=1 limit=1800 after=600 rest=30 active=208 runs=2\n"
    "0:03:50 state rating-due\n0:03:50 cue rating shown\n" },
  { "suspended in a reach, and answered", 1, 30, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:41 suspend\n10:42 play-on\n10:50 input\n11:00 look\n"
    "11:10 still\n11:20 end",
    "=0:00:00 state practising\n0:10:34 state rest-due\n0:10:34 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:42 rest declined length=30 asked\n0:10:42 cue micro-rest withdrawn\n0:10:42 state gap\n"
    "0:10:50 state practising\n"
    "0:11:00 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=640 runs=1 drill=1 "
    "to-go=1160 given=-1 next=micro-rest in=590 open dose=1800 dose-to-go=1160 done=640 other-today=1 .\n"
    "0:11:14 state gap\n0:11:20 block ended number=1 limit=1800 after=600 rest=30 active=650 runs=2\n"
    "0:11:20 state rating-due\n0:11:20 cue rating shown\n" },
  { "asked for in a run, interrupted: offered a minute later", 1, 60, NULL,
    "0:00 start\n5:00 rest\n5:10 look\n5:12 input\n5:40 look\n5:50 still\n6:10 until\n6:40 look\n6:50 input\n"
    "9:00 still\n9:10 end",
    "=0:00:00 state practising\n0:05:00 state resting\n0:05:00 cue micro-rest shown wrist-extensor-stretch\n"
    "0:05:10 view resting block=1 of=1 limit=3600 after=600 rest=30 active=300 runs=1 drill=1 to-go=3300 offered "
    "resting card=wrist-extensor-stretch length=30 rest-to-go=20 given=-1 cue=micro-rest next=micro-rest in=300 "
    "open dose=3600 dose-to-go=3300 done=300 .\n0:05:32 rest interrupted length=30 asked\n"
    "0:05:32 cue micro-rest withdrawn\n0:05:32 state practising\n"
    "0:05:40 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=328 runs=1 drill=1 "
    "to-go=3272 given=-1 next=limit in=3272 open dose=3600 dose-to-go=3272 done=328 other-today=1 .\n"
    "0:05:54 state gap\n0:06:20 rest taken length=30\n"
    "0:06:40 view gap block=1 of=1 limit=3600 after=600 rest=30 active=338 runs=2 drill=1 to-go=3262 given=-1 "
    "next=micro-rest in=600 open dose=3600 dose-to-go=3262 done=338 other-today=1 .\n0:06:50 state practising\n"
    "0:09:04 state gap\n0:09:10 block ended number=1 limit=3600 after=600 rest=30 active=468 runs=3\n"
    "0:09:10 state rating-due\n0:09:10 cue rating shown\n" },
  { "interrupted, then shown quietly in a long run", 1, 60, NULL,
    "0:00 start\n5:00 rest\n5:12 input\n9:00 until\n9:10 rest\n9:20 look\n9:50 look",
    "=0:00:00 state practising\n0:05:00 state resting\n0:05:00 cue micro-rest shown wrist-extensor-stretch\n"
    "0:05:32 rest interrupted length=30 asked\n0:05:32 cue micro-rest withdrawn\n0:05:32 state practising\n"
    "0:08:02 cue micro-rest shown wrist-extensor-stretch\n0:09:10 state resting\n"
    "0:09:20 view resting block=1 of=1 limit=3600 after=600 rest=30 active=538 runs=2 drill=1 to-go=3062 offered "
    "resting card=wrist-extensor-stretch length=30 rest-to-go=20 given=-1 cue=micro-rest next=limit in=3062 open "
    "dose=3600 dose-to-go=3062 done=538 other-today=1 .\n0:09:40 rest taken length=30 asked\n"
    "0:09:40 cue micro-rest withdrawn\n0:09:40 state gap\n"
    "0:09:50 view gap block=1 of=1 limit=3600 after=600 rest=30 active=538 runs=2 drill=1 to-go=3062 given=-1 "
    "next=micro-rest in=600 open dose=3600 dose-to-go=3062 done=538 other-today=1 .\n" },
  { "two countdowns in a block, both with moves", 1, 60, NULL,
    "0:00 start\n5:00 rest\n5:05 input\n5:10 still\n5:50 until\n6:00 input\n16:40 still\n16:50 rest\n"
    "16:55 input\n16:59 look\n17:08 still\n17:13 look\n17:40 rest\n17:50 look\n18:10 look",
    "=0:00:00 state practising\n0:05:00 state resting\n0:05:00 cue micro-rest shown wrist-extensor-stretch\n"
    "0:05:35 rest taken length=30 asked\n0:05:35 cue micro-rest withdrawn\n0:05:35 state gap\n"
    "0:06:00 state practising\n0:16:44 state rest-due\n0:16:44 cue micro-rest shown wrist-flexor-stretch\n"
    "0:16:50 state resting\n"
    "0:16:59 view resting block=1 of=1 limit=3600 after=600 rest=30 active=940 runs=2 drill=1 to-go=2660 offered "
    "resting waits card=wrist-flexor-stretch length=30 rest-to-go=15 given=-1 cue=micro-rest next=limit in=2660 "
    "open dose=3600 dose-to-go=2660 done=940 other-today=1 .\n"
    "0:17:13 view resting block=1 of=1 limit=3600 after=600 rest=30 active=940 runs=2 drill=1 to-go=2660 offered "
    "resting card=wrist-flexor-stretch length=30 rest-to-go=10 given=-1 cue=micro-rest next=limit in=2660 open "
    "dose=3600 dose-to-go=2660 done=940 other-today=1 .\n0:17:23 rest taken length=30 asked\n"
    "0:17:23 cue micro-rest withdrawn\n0:17:23 state gap\n0:17:40 state resting\n"
    "0:17:40 cue micro-rest shown forearm-self-massage\n"
    "0:17:50 view resting block=1 of=1 limit=3600 after=600 rest=30 active=940 runs=2 drill=1 to-go=2660 offered "
    "resting card=forearm-self-massage length=30 rest-to-go=20 given=-1 cue=micro-rest next=micro-rest in=600 "
    "open dose=3600 dose-to-go=2660 done=940 other-today=1 .\n0:18:10 cue micro-rest withdrawn\n"
    "0:18:10 state gap\n"
    "0:18:10 view gap block=1 of=1 limit=3600 after=600 rest=30 active=940 runs=2 drill=1 to-go=2660 given=-1 "
    "next=micro-rest in=600 open dose=3600 dose-to-go=2660 done=940 other-today=1 .\n" },
  { "a rest asked for in a run begins a gap of its own", 1, 60, NULL,
    "0:00 start\n5:00 rest\n5:20 look\n21:00 until",
    "=0:00:00 state practising\n0:05:00 state resting\n0:05:00 cue micro-rest shown wrist-extensor-stretch\n"
    "0:05:20 view resting block=1 of=1 limit=3600 after=600 rest=30 active=300 runs=1 drill=1 to-go=3300 offered "
    "resting card=wrist-extensor-stretch length=30 rest-to-go=10 given=-1 cue=micro-rest next=micro-rest in=300 "
    "open dose=3600 dose-to-go=3300 done=300 .\n0:05:30 rest taken length=30 asked\n"
    "0:05:30 cue micro-rest withdrawn\n0:05:30 state gap\n"
    "0:20:00 block ended number=1 limit=3600 after=600 rest=30 active=300 runs=1\n0:20:00 state rating-due\n"
    "0:20:00 cue rating shown\n" },
  { "a block ended as its rest has just been long enough", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:58 rest\n11:00 end",
    "=0:00:00 state practising\n0:10:34 state rest-due\n0:10:34 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:58 state resting\n0:11:00 rest taken length=30 asked\n"
    "0:11:00 block ended number=1 limit=3600 after=600 rest=30 active=630 runs=1\n"
    "0:11:00 cue micro-rest withdrawn\n0:11:00 state rating-due\n0:11:00 cue rating shown\n" },
  { "a block ended a millisecond before", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:58 rest\n10:59.999 end",
    "=0:00:00 state practising\n0:10:34 state rest-due\n0:10:34 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:58 state resting\n0:10:59.999 block ended number=1 limit=3600 after=600 rest=30 active=630 runs=1\n"
    "0:10:59.999 cue micro-rest withdrawn\n0:10:59.999 state rating-due\n0:10:59.999 cue rating shown\n" },
  { "paused out of a rest that was long enough", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:58 rest\n11:02 pause\n11:30 look\n12:00 continue\n12:10 end",
    "=0:00:00 state practising\n0:10:34 state rest-due\n0:10:34 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:58 state resting\n0:11:02 rest taken length=30 asked\n0:11:02 cue micro-rest withdrawn\n"
    "0:11:02 state paused\n"
    "0:11:30 view paused block=1 of=1 limit=3600 after=600 rest=30 active=630 runs=1 drill=1 to-go=2970 given=-1 "
    "next=micro-rest in=600 open dose=3600 dose-to-go=2970 done=630 other-today=1 .\n0:12:00 state practising\n"
    "0:12:10 block ended number=1 limit=3600 after=600 rest=30 active=640 runs=1\n0:12:10 state rating-due\n"
    "0:12:10 cue rating shown\n" },
  { "paused over an offer, and in a run", 1, 60, NULL,
    "0:00 start\n3:00 pause\n4:00 look\n5:00 continue\n11:40 still\n11:45 pause\n11:50 look\n12:20 look",
    "=0:00:00 state practising\n0:03:00 state paused\n0:03:30 rest taken length=30\n"
    "0:04:00 view paused block=1 of=1 limit=3600 after=600 rest=30 active=180 runs=1 drill=1 to-go=3420 given=-1 "
    "next=micro-rest in=600 open dose=3600 dose-to-go=3420 done=180 .\n0:05:00 state practising\n"
    "0:11:44 state gap\n0:11:45 state paused\n"
    "0:11:50 view paused block=1 of=1 limit=3600 after=600 rest=30 active=580 runs=2 drill=1 to-go=3020 given=-1 "
    "next=micro-rest in=200 open dose=3600 dose-to-go=3020 done=580 other-today=1 .\n"
    "0:12:10 rest taken length=30\n"
    "0:12:20 view paused block=1 of=1 limit=3600 after=600 rest=30 active=580 runs=2 drill=1 to-go=3020 given=-1 "
    "next=micro-rest in=600 open dose=3600 dose-to-go=3020 done=580 other-today=1 .\n" },
  { "put off while it rests: offered in the next gap", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:50 rest\n11:00 after-run\n11:05 input\n11:25 still\n11:35 look",
    "=0:00:00 state practising\n0:10:34 state rest-due\n0:10:34 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:45 cue micro-rest withdrawn\n0:10:45 state practising\n0:10:50 state resting\n"
    "0:10:50 cue micro-rest shown wrist-extensor-stretch\n0:11:00 rest deferred length=30 asked\n"
    "0:11:00 cue micro-rest withdrawn\n0:11:00 state gap\n0:11:05 state practising\n0:11:29 state rest-due\n"
    "0:11:29 cue micro-rest shown wrist-extensor-stretch\n"
    "0:11:35 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=660 runs=2 drill=1 to-go=2940 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=2940 done=660 other-today=1 .\n" },
  { "on air, an intermission that was told and then left", 1, 60, intermissions,
    "0:00 on-air on\n0:10 start\n9:10 look\n9:30 on-air off\n9:40 look\n9:50 on-air on\n10:00 look\n"
    "11:30 look\n12:00 still\n12:10 look\n12:20 end",
    "=0:00:10 decision keep day before=3600 after=3600 needed=3\n0:00:10 day opened 2027-03-02 dose=3600\n"
    "0:00:10 block started number=1 limit=3600 after=600 rest=30\n0:00:10 state practising\n"
    "0:09:10 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=540 drill=1 to-go=3060 "
    "given=-1 next=micro-rest in=60 open dose=3600 dose-to-go=3060 done=540 on-air intermission "
    "intermission-in=110 intermission-to-go=410 next-intermission-in=110 .\n"
    "0:09:40 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=570 drill=1 to-go=3030 "
    "given=-1 next=micro-rest in=30 open dose=3600 dose-to-go=3030 done=570 .\n"
    "0:10:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=590 drill=1 to-go=3010 "
    "given=-1 next=micro-rest in=10 open dose=3600 dose-to-go=3010 done=590 on-air next-intermission-in=650 .\n"
    "0:11:30 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=680 drill=1 to-go=2920 "
    "given=-1 next=limit in=2920 open dose=3600 dose-to-go=2920 done=680 on-air next-intermission-in=560 .\n"
    "0:11:40 cue micro-rest shown wrist-extensor-stretch\n0:12:04 state rest-due\n"
    "0:12:10 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=710 runs=1 drill=1 to-go=2890 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=2890 done=710 other-today=1 on-air next-intermission-in=520 .\n"
    "0:12:20 block ended number=1 limit=3600 after=600 rest=30 active=710 runs=1\n"
    "0:12:20 cue micro-rest withdrawn\n0:12:20 state rating-due\n0:12:20 cue rating shown\n" },
  { "on air, intermissions over no block and over a match", 1, 14, intermissions,
    "0:00 on-air on\n10:30 look\n11:00 look\n12:00 start match\n21:00 look\n22:10 look\n22:20 still\n"
    "22:30 look\n33:10 end",
    "=0:10:30 view waiting given=-1 on-air intermission intermission-in=30 intermission-to-go=330 "
    "next-intermission-in=30 .\n0:11:00 view waiting given=-1 on-air intermission intermission-to-go=300 .\n"
    "0:12:00 decision keep day before=840 after=840 needed=3\n0:12:00 day opened 2027-03-02 dose=840\n"
    "0:12:00 block started match\n0:12:00 state practising\n"
    "0:21:00 view practising match ticking of=1 active=540 given=-1 open dose=840 dose-to-go=840 on-air "
    "intermission intermission-in=60 intermission-to-go=360 next-intermission-in=60 .\n"
    "0:22:10 view practising match ticking of=1 active=610 given=-1 open dose=840 dose-to-go=840 on-air "
    "intermission intermission-to-go=290 .\n0:22:24 state gap\n"
    "0:22:30 view gap match of=1 active=620 runs=1 given=-1 open dose=840 dose-to-go=840 other-today=1 on-air "
    "intermission intermission-to-go=270 .\n0:33:10 block ended match active=620 runs=1\n"
    "0:33:10 state rating-due\n0:33:10 cue rating shown\n" },
  { "on air, a block's least time to go at an intermission", 1, 14, intermissions,
    "0:00 on-air on\n0:00 start\n10:55 look\n11:10 look\n14:10 look",
    "=0:00:00 decision keep day before=840 after=840 needed=3\n0:00:00 day opened 2027-03-02 dose=840\n"
    "0:00:00 block started number=1 limit=840 after=560 rest=30\n0:00:00 state practising\n"
    "0:10:50 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:55 view practising ticking block=1 of=1 limit=840 after=560 rest=30 active=655 drill=1 to-go=185 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit in=185 open "
    "dose=840 dose-to-go=185 done=655 on-air intermission intermission-in=5 intermission-to-go=305 "
    "next-intermission-in=5 .\n"
    "0:11:10 view practising ticking block=1 of=1 limit=840 after=560 rest=30 active=670 drill=1 to-go=170 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit in=170 open "
    "dose=840 dose-to-go=170 done=670 on-air intermission intermission-to-go=290 .\n"
    "0:14:00 cue micro-rest withdrawn\n0:14:00 state limit-reached\n0:14:00 cue limit shown\n"
    "0:14:10 view limit-reached ticking block=1 of=1 limit=840 after=560 rest=30 active=850 over=10 drill=1 "
    "given=-1 cue=limit open dose=840 done=850 on-air intermission intermission-to-go=110 .\n" },
  { "on air, two thirds of after at an intermission", 1, 60, intermissions,
    "0:00 on-air on\n4:20 start\n11:00 still\n11:10 look\n11:50 input\n14:40 still\n15:20 input\n"
    "22:10 still\n22:20 look",
    "=0:04:20 decision keep day before=3600 after=3600 needed=3\n0:04:20 day opened 2027-03-02 dose=3600\n"
    "0:04:20 block started number=1 limit=3600 after=600 rest=30\n0:04:20 state practising\n"
    "0:11:04 state rest-due\n0:11:04 cue micro-rest shown wrist-extensor-stretch\n"
    "0:11:10 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=400 runs=1 drill=1 to-go=3200 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=3200 done=400 other-today=1 on-air intermission intermission-to-go=290 .\n"
    "0:11:30 rest taken length=30 asked\n0:11:30 cue micro-rest withdrawn\n0:11:30 state gap\n"
    "0:11:50 state practising\n0:14:44 state gap\n0:15:10 rest taken length=30\n0:15:20 state practising\n"
    "0:22:14 state rest-due\n0:22:14 cue micro-rest shown wrist-flexor-stretch\n"
    "0:22:20 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=980 runs=3 drill=1 to-go=2620 "
    "offered card=wrist-flexor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=2620 done=980 other-today=1 on-air intermission intermission-to-go=280 .\n" },
  { "on air, a millisecond less", 1, 60, intermissions,
    "0:00 on-air on\n4:20.001 start\n11:00 look\n11:10 still\n11:20 look",
    "=0:04:20.001 decision keep day before=3600 after=3600 needed=3\n0:04:20.001 day opened 2027-03-02 dose=3600\n"
    "0:04:20.001 block started number=1 limit=3600 after=600 rest=30\n0:04:20.001 state practising\n"
    "0:11:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=399.999 drill=1 "
    "to-go=3200.001 given=-1 next=micro-rest in=200.001 open dose=3600 dose-to-go=3200.001 done=399.999 on-air "
    "intermission intermission-to-go=300 .\n0:11:14 state gap\n"
    "0:11:20 view gap block=1 of=1 limit=3600 after=600 rest=30 active=409.999 runs=1 drill=1 to-go=3190.001 "
    "given=-1 next=micro-rest in=190.001 open dose=3600 dose-to-go=3190.001 done=409.999 other-today=1 on-air "
    "intermission intermission-to-go=280 .\n" },
  { "on air, in a gap as an intermission begins", 1, 60, intermissions,
    "0:00 on-air on\n2:00 start\n10:50 still\n11:10 look\n12:00 input\n21:58 still\n22:10 look",
    "=0:02:00 decision keep day before=3600 after=3600 needed=3\n0:02:00 day opened 2027-03-02 dose=3600\n"
    "0:02:00 block started number=1 limit=3600 after=600 rest=30\n0:02:00 state practising\n0:10:54 state gap\n"
    "0:11:00 state rest-due\n0:11:00 cue micro-rest shown wrist-extensor-stretch\n"
    "0:11:10 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=530 runs=1 drill=1 to-go=3070 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=3070 done=530 other-today=1 on-air intermission intermission-to-go=290 .\n"
    "0:11:20 rest taken length=30 asked\n0:11:20 cue micro-rest withdrawn\n0:11:20 state gap\n"
    "0:12:00 state practising\n0:22:02 state rest-due\n0:22:02 cue micro-rest shown wrist-flexor-stretch\n"
    "0:22:10 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=1128 runs=2 drill=1 to-go=2472 "
    "offered card=wrist-flexor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=2472 done=1128 other-today=1 on-air intermission intermission-to-go=290 .\n" },
  { "on air, after rests: what is near counts from the last", 1, 60, intermissions,
    "0:00 on-air on\n0:10 start\n6:00 still\n6:40 input\n10:58 look\n11:10 still\n11:20 look\n12:00 input\n"
    "13:00 still\n13:40 input\n19:00 look\n22:10 still\n22:20 look",
    "=0:00:10 decision keep day before=3600 after=3600 needed=3\n0:00:10 day opened 2027-03-02 dose=3600\n"
    "0:00:10 block started number=1 limit=3600 after=600 rest=30\n0:00:10 state practising\n0:06:04 state gap\n"
    "0:06:30 rest taken length=30\n0:06:40 state practising\n"
    "0:10:58 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=608 runs=1 drill=1 "
    "to-go=2992 given=-1 next=micro-rest in=342 open dose=3600 dose-to-go=2992 done=608 other-today=1 on-air "
    "intermission intermission-in=2 intermission-to-go=302 next-intermission-in=2 .\n0:11:14 state gap\n"
    "0:11:20 view gap block=1 of=1 limit=3600 after=600 rest=30 active=620 runs=2 drill=1 to-go=2980 given=-1 "
    "next=micro-rest in=330 open dose=3600 dose-to-go=2980 done=620 other-today=1 on-air intermission "
    "intermission-to-go=280 .\n0:11:40 rest taken length=30\n0:12:00 state practising\n0:13:04 state gap\n"
    "0:13:30 rest taken length=30\n0:13:40 state practising\n"
    "0:19:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=1000 runs=3 drill=1 "
    "to-go=2600 given=-1 next=micro-rest in=280 open dose=3600 dose-to-go=2600 done=1000 other-today=1 on-air "
    "next-intermission-in=180 .\n0:22:14 state rest-due\n0:22:14 cue micro-rest shown wrist-extensor-stretch\n"
    "0:22:20 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=1190 runs=4 drill=1 to-go=2410 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=2410 done=1190 other-today=1 on-air intermission intermission-to-go=280 .\n" },
  { "on air, a rest due 90 s before an intermission waits", 1, 60, told_early,
    "0:00 start\n0:30 on-air on\n10:01 still\n10:10 look\n10:20 input\n10:40 still\n11:31 look",
    "=0:00:00 state practising\n0:10:05 state gap\n"
    "0:10:10 view gap block=1 of=1 limit=3600 after=600 rest=30 active=601 runs=1 drill=1 to-go=2999 given=-1 "
    "next=limit in=2999 open dose=3600 dose-to-go=2999 done=601 other-today=1 on-air intermission "
    "intermission-in=80 intermission-to-go=380 next-intermission-in=80 .\n0:10:20 state practising\n"
    "0:10:44 state gap\n0:11:10 rest taken length=30\n"
    "0:11:31 view gap block=1 of=1 limit=3600 after=600 rest=30 active=621 runs=2 drill=1 to-go=2979 given=-1 "
    "next=micro-rest in=600 open dose=3600 dose-to-go=2979 done=621 other-today=1 on-air intermission "
    "intermission-to-go=299 .\n" },
  { "on air, a rest due at an intermission", 1, 60, intermissions,
    "0:00 on-air on\n1:00 start\n10:58 still\n11:00 look\n11:03 look",
    "=0:01:00 decision keep day before=3600 after=3600 needed=3\n0:01:00 day opened 2027-03-02 dose=3600\n"
    "0:01:00 block started number=1 limit=3600 after=600 rest=30\n0:01:00 state practising\n"
    "0:11:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=600 drill=1 to-go=3000 "
    "given=-1 next=limit in=3000 open dose=3600 dose-to-go=3000 done=600 other-today=1 on-air intermission "
    "intermission-to-go=300 .\n0:11:02 state rest-due\n0:11:02 cue micro-rest shown wrist-extensor-stretch\n"
    "0:11:03 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=598 runs=1 drill=1 to-go=3002 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=3002 done=598 other-today=1 on-air intermission intermission-to-go=297 .\n" },
  { "a stream begins over an open rating", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 on-air on\n45:00 look\n46:00 on-air off\n1:16:10 until",
    "=0:00:00 state practising\n0:10:00 block ended number=1 limit=1800 after=600 rest=30 active=600 runs=1\n"
    "0:10:00 state rating-due\n0:10:00 cue rating shown\n"
    "0:45:00 view rating-due block=2 of=2 limit=1800 after=600 rest=30 to-go=1800 rating of-block=1 given=-1 "
    "cue=rating next=next-block in=600 open dose=3600 dose-to-go=3000 done=600 on-air .\n"
    "0:46:00 cue rating shown\n1:16:00 rating block=1\n1:16:00 cue rating withdrawn\n1:16:00 state waiting\n"
    "1:16:00 cue next-block shown\n" },
  { "a caution is held back once", 2, 30, NULL,
    "0:00 caution numb\n0:10 on-air on\n0:20 look\n0:30 on-air off\n0:40 caution seen\n0:50 on-air on\n"
    "1:00 on-air off\n1:10 look",
    "=0:00:00 cue morning shown\n0:00:00 caution opened signs=32\n0:00:00 cue caution shown\n"
    "0:00:10 cue morning withdrawn\n0:00:10 cue caution withdrawn\n"
    "0:00:20 view waiting given=-1 caution signs=32 on-air .\n0:00:30 cue caution shown\n"
    "0:00:40 caution closed signs=32\n0:00:40 cue caution withdrawn\n0:01:10 view waiting given=-1 .\n" },
  { "declined thrice, and an intermission", 1, 60, intermissions,
    "0:00 on-air on\n0:10 start\n0:20 rest\n0:21 play-on\n0:30 input\n0:40 rest\n0:41 play-on\n0:50 input\n"
    "1:00 rest\n1:01 play-on\n1:10 input\n11:10 look\n11:20 still\n11:30 look",
    "=0:00:10 decision keep day before=3600 after=3600 needed=3\n0:00:10 day opened 2027-03-02 dose=3600\n"
    "0:00:10 block started number=1 limit=3600 after=600 rest=30\n0:00:10 state practising\n"
    "0:00:20 state resting\n0:00:20 cue micro-rest shown wrist-extensor-stretch\n"
    "0:00:21 rest declined length=30 asked\n0:00:21 cue micro-rest withdrawn\n0:00:21 state gap\n"
    "0:00:30 state practising\n0:00:40 state resting\n0:00:40 cue micro-rest shown wrist-extensor-stretch\n"
    "0:00:41 rest declined length=30 asked\n0:00:41 cue micro-rest withdrawn\n0:00:41 state gap\n"
    "0:00:50 state practising\n0:01:00 state resting\n0:01:00 cue micro-rest shown wrist-extensor-stretch\n"
    "0:01:01 rest declined length=30 asked\n0:01:01 cue micro-rest withdrawn\n0:01:01 state gap\n"
    "0:01:10 state practising\n"
    "0:11:10 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=630 drill=1 to-go=2970 "
    "given=-1 next=limit in=2970 open dose=3600 dose-to-go=2970 done=630 other-today=1 on-air intermission "
    "intermission-to-go=290 .\n0:11:24 state gap\n"
    "0:11:30 view gap block=1 of=1 limit=3600 after=600 rest=30 active=640 runs=1 drill=1 to-go=2960 given=-1 "
    "next=limit in=2960 open dose=3600 dose-to-go=2960 done=640 other-today=1 on-air intermission "
    "intermission-to-go=270 .\n" },
  { "on air, a second more, and it does not wait", 1, 60, told_early,
    "0:00 start\n0:31 on-air on\n10:01 still\n10:10 look",
    "=0:00:00 state practising\n0:10:05 state rest-due\n0:10:05 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:10 view rest-due block=1 of=1 limit=3600 after=600 rest=30 active=601 runs=1 drill=1 to-go=2999 "
    "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
    "dose-to-go=2999 done=601 other-today=1 on-air intermission intermission-in=81 intermission-to-go=381 "
    "next-intermission-in=81 .\n" },
  { "suspended for a gap, then played on before its rest", 1, 30, NULL,
    "0:00 start\n5:00 suspend\n5:20 wake\n5:25 input\n5:40 look",
    "=0:00:00 state practising\n0:05:20 state gap\n0:05:25 state practising\n"
    "0:05:40 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=315 runs=1 drill=1 "
    "to-go=1485 given=-1 next=micro-rest in=285 open dose=1800 dose-to-go=1485 done=315 other-today=1 .\n" },
  { "a touch behind a piece that was practice", 1, 30, quick_gaps,
    "0:00 start\n10:30 still\n10:40 input\n10:41.500 still\n10:44 input\n10:44.200 still\n10:50 look",
    "=0:00:00 state practising\n0:10:32 state rest-due\n0:10:32 cue micro-rest shown wrist-extensor-stretch\n"
    "0:10:45 cue micro-rest withdrawn\n0:10:45 state practising\n0:10:46.200 state gap\n"
    "0:10:50 view gap block=1 of=1 limit=1800 after=600 rest=30 active=631.700 runs=2 drill=1 to-go=1168.300 "
    "given=-1 next=limit in=1168.300 open dose=1800 dose-to-go=1168.300 done=631.700 other-today=1 .\n" },
  { "a third of after to the limit, told ahead", 1, 30, NULL,
    "0:00 start\n16:40 still\n17:15 look\n17:20 input\n17:30 look",
    "=0:00:00 state practising\n0:11:30 cue micro-rest shown wrist-extensor-stretch\n0:16:44 state rest-due\n"
    "0:17:10 rest taken length=30 asked\n0:17:10 cue micro-rest withdrawn\n0:17:10 state gap\n"
    "0:17:15 view gap block=1 of=1 limit=1800 after=600 rest=30 active=1000 runs=1 drill=1 to-go=800 given=-1 "
    "next=micro-rest in=600 open dose=1800 dose-to-go=800 done=1000 other-today=1 .\n0:17:20 state practising\n"
    "0:17:30 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=1010 runs=1 drill=1 "
    "to-go=790 given=-1 next=micro-rest in=590 open dose=1800 dose-to-go=790 done=1010 other-today=1 .\n" },
  { "a morning that shortens what runs leaves it two thirds of the limit as its after", 1, 20, NULL,
    "0:00 start\n9:30 still\n9:50 morning 0 more\n9:55 input\n11:40 look",
    "=0:00:00 state practising\n0:09:34 state gap\n0:09:50 morning waking=0 more\n"
    "0:09:50 decision cut-once day before=1200 after=780 discomfort=0 done=1200 needed=1\n"
    "0:09:55 state practising\n"
    "0:11:25 cue micro-rest shown wrist-extensor-stretch\n"
    "0:11:40 view practising ticking block=1 of=1 limit=780 after=520 rest=30 active=675 runs=1 drill=1 "
    "to-go=105 offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit in=105 "
    "open dose=780 dose-to-go=105 done=675 checked other-today=1 .\n" },
};

static void
test_evenings (void **state)
{
  assert_int_equal (carpace_cases_failed (evenings, sizeof evenings / sizeof evenings[0]), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_evenings) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
