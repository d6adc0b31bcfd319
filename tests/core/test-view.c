/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-view.c: what a face is handed, all of it, at moments of an evening. A
 * line is the whole view (fakes/trace-view.h): what it does not name is nothing. */
#define _DEFAULT_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"

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

static void
matches (CarpacePlan *plan)
{
  plan->matches_count = 5000;
}

static void
intermissions (CarpacePlan *plan)
{
  plan->on_air_every_ms = 11 * 60000;
  plan->on_air_from = CARPACE_ON_AIR_FROM_STREAM;
  plan->on_air_notice_ms = 2 * 60000;
  plan->on_air_length_ms = 5 * 60000;
}

static const CarpaceCase cases[] = {
  { "an evening begins: nothing is known yet", 2, 30, NULL,
    "0:00 look\n0:10 input\n0:20 look\n1:00 still\n1:10 look",
    "0:00:00 view waiting given=-1 cue=morning .\n"
    "0:00:20 view waiting given=-1 cue=morning .\n"
    "0:01:10 view waiting given=-1 cue=morning ." },
  { "in a run", 2, 30, NULL,
    "0:00 start\n5:00 look\n5:00 still\n5:02 look\n5:04 look\n5:10 look",
    "0:05:00 view practising ticking block=1 of=2 limit=1800 after=600 rest=30 active=300 drill=1 to-go=1500 "
      "given=-1 next=micro-rest in=300 open dose=3600 dose-to-go=3300 done=300 .\n"
    "0:05:02 view practising ticking block=1 of=2 limit=1800 after=600 rest=30 active=302 drill=1 to-go=1498 "
      "given=-1 next=micro-rest in=298 open dose=3600 dose-to-go=3298 done=302 other-today=1 .\n"
    "0:05:04 view gap block=1 of=2 limit=1800 after=600 rest=30 active=300 runs=1 drill=1 to-go=1500 "
      "given=-1 next=micro-rest in=300 open dose=3600 dose-to-go=3300 done=300 other-today=1 .\n"
    "0:05:10 view gap block=1 of=2 limit=1800 after=600 rest=30 active=300 runs=1 drill=1 to-go=1500 "
      "given=-1 next=micro-rest in=300 open dose=3600 dose-to-go=3300 done=300 other-today=1 ." },
  { "a rating that nobody gave: none to change", 2, 30, NULL,
    "0:00 start\n10:00 end\n40:20 look",
    "0:40:20 view waiting block=2 of=2 limit=1800 after=600 rest=30 to-go=1800 of-block=1 given=-1 "
      "next=next-block in=880 open dose=3600 dose-to-go=3000 done=600 ." },
  { "a rest that is due, in its run and in its gap", 2, 30, NULL,
    "0:00 start\n10:00 look\n11:40 look\n12:00 still\n12:10 look",
    "0:10:00 view practising ticking block=1 of=2 limit=1800 after=600 rest=30 active=600 drill=1 to-go=1200 "
      "given=-1 next=limit in=1200 open dose=3600 dose-to-go=3000 done=600 .\n"
    "0:11:40 view practising ticking block=1 of=2 limit=1800 after=600 rest=30 active=700 drill=1 to-go=1100 "
      "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit in=1100 "
      "open dose=3600 dose-to-go=2900 done=700 .\n"
    "0:12:10 view rest-due block=1 of=2 limit=1800 after=600 rest=30 active=720 runs=1 drill=1 to-go=1080 "
      "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest open dose=3600 "
      "dose-to-go=2880 done=720 other-today=1 ." },
  { "a rest counted down, and waiting while the hand moves", 2, 30, NULL,
    "0:00 start\n10:30 still\n10:40 rest\n10:50 look\n10:52 input\n10:55 look\n10:57 look\n10:58 still\n11:00 look\n11:03 look",
    "0:10:50 view resting block=1 of=2 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
      "offered resting card=wrist-extensor-stretch length=30 rest-to-go=10 given=-1 cue=micro-rest next=limit "
      "in=1170 open dose=3600 dose-to-go=2970 done=630 other-today=1 .\n"
    "0:10:55 view resting block=1 of=2 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
      "offered resting card=wrist-extensor-stretch length=30 rest-to-go=8 given=-1 cue=micro-rest next=limit "
      "in=1170 open dose=3600 dose-to-go=2970 done=630 other-today=1 .\n"
    "0:10:57 view resting block=1 of=2 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
      "offered resting waits card=wrist-extensor-stretch length=30 rest-to-go=8 given=-1 cue=micro-rest "
      "next=limit in=1170 open dose=3600 dose-to-go=2970 done=630 other-today=1 .\n"
    "0:11:00 view resting block=1 of=2 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
      "offered resting waits card=wrist-extensor-stretch length=30 rest-to-go=8 given=-1 cue=micro-rest "
      "next=limit in=1170 open dose=3600 dose-to-go=2970 done=630 other-today=1 .\n"
    "0:11:03 view resting block=1 of=2 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
      "offered resting card=wrist-extensor-stretch length=30 rest-to-go=3 given=-1 cue=micro-rest next=limit "
      "in=1170 open dose=3600 dose-to-go=2970 done=630 other-today=1 ." },
  { "between drills the card names the next", 1, 30, two_drills,
    "0:00 start\n10:30 still\n10:40 look\n10:45 rest\n10:50 look",
    "0:10:40 view rest-due block=1 of=1 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
      "offered card=wrist-extensor-stretch between-drills next-drill=2 length=30 rest-to-go=30 given=-1 "
      "cue=micro-rest open dose=1800 dose-to-go=1170 done=630 other-today=1 .\n"
    "0:10:50 view resting block=1 of=1 limit=1800 after=600 rest=30 active=630 runs=1 drill=1 to-go=1170 "
      "offered resting card=wrist-extensor-stretch between-drills next-drill=2 length=35 rest-to-go=15 "
      "given=-1 cue=micro-rest next=limit in=1170 open dose=1800 dose-to-go=1170 done=630 other-today=1 ." },
  { "a rest left out tells of the limit alone", 1, 30, NULL,
    "0:00 start\n16:41 still\n17:30 input\n17:40 look\n27:00 look",
    "0:17:40 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=1011 runs=1 drill=1 "
      "to-go=789 given=-1 next=limit in=789 open dose=1800 dose-to-go=789 done=1011 other-today=1 .\n"
    "0:27:00 view practising ticking block=1 of=1 limit=1800 after=600 rest=30 active=1571 runs=1 drill=1 "
      "to-go=229 given=-1 next=limit in=229 open dose=1800 dose-to-go=229 done=1571 other-today=1 ." },
  { "after three declines only the limit is ahead", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:45 input\n21:00 still\n21:10 play-on\n21:15 input\n31:45 still\n31:55 play-on\n32:00 input\n33:00 look",
    "0:33:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=1935 runs=3 drill=1 "
      "to-go=1665 given=-1 next=limit in=1665 open dose=3600 dose-to-go=1665 done=1935 other-today=1 ." },
  { "the limit, and past it", 2, 30, NULL,
    "0:00 start\n30:00 look\n31:00 look\n31:30 look\n32:00 look\n32:10 still\n32:20 look",
    "0:30:00 view limit-reached ticking block=1 of=2 limit=1800 after=600 rest=30 active=1800 drill=1 "
      "given=-1 cue=limit open dose=3600 dose-to-go=1800 done=1800 .\n"
    "0:31:00 view limit-reached ticking block=1 of=2 limit=1800 after=600 rest=30 active=1860 over=60 "
      "drill=1 given=-1 cue=limit open dose=3600 dose-to-go=1740 done=1860 .\n"
    "0:31:30 view rating-due block=2 of=2 limit=1710 after=600 rest=30 to-go=1710 rating hand-moving "
      "of-block=1 given=-1 cue=rating next=next-block in=2700 open dose=3600 dose-to-go=1710 done=1890 .\n"
    "0:32:00 view rating-due block=2 of=2 limit=1710 after=600 rest=30 to-go=1710 rating hand-moving "
      "of-block=1 given=-1 cue=rating next=next-block in=2670 open dose=3600 dose-to-go=1680 done=1920 .\n"
    "0:32:20 view rating-due block=2 of=2 limit=1670 after=600 rest=30 to-go=1670 rating of-block=1 given=-1 "
      "cue=rating next=next-block in=2650 open dose=3600 dose-to-go=1670 done=1930 other-today=1 ." },
  { "a rating, open, asked by a start, given and no longer to be changed", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:05 look\n10:06 start\n10:07 look\n10:08 end\n10:10 rate 2 thumb-side\n10:30 look\n11:10 look\n11:11 look",
    "0:10:05 view rating-due block=2 of=2 limit=1800 after=600 rest=30 to-go=1800 rating of-block=1 given=-1 "
      "cue=rating next=next-block in=2695 open dose=3600 dose-to-go=3000 done=600 .\n"
    "0:10:07 view rating-due block=2 of=2 limit=1800 after=600 rest=30 to-go=1800 rating by-start of-block=1 "
      "given=-1 cue=rating start-asks next=next-block in=2693 open dose=3600 dose-to-go=3000 done=600 .\n"
    "0:10:30 view practising ticking block=2 of=2 limit=1170 after=390 rest=45 active=20 drill=1 to-go=1150 "
      "of-block=1 given=2 site=thumb-side changeable=40 next=micro-rest in=370 open dose=3600 dose-to-go=2980 "
      "done=620 .\n"
    "0:11:10 view practising ticking block=2 of=2 limit=1170 after=390 rest=45 active=60 drill=1 to-go=1110 "
      "of-block=1 given=2 site=thumb-side next=micro-rest in=330 open dose=3600 dose-to-go=2940 done=660 .\n"
    "0:11:11 view practising ticking block=2 of=2 limit=1170 after=390 rest=45 active=61 drill=1 to-go=1109 "
      "of-block=1 given=2 site=thumb-side next=micro-rest in=329 open dose=3600 dose-to-go=2939 done=661 ." },
  { "the wait, and a start that was asked about", 2, 30, NULL,
    "0:00 start\n10:00 end\n10:10 rate 1\n20:00 look\n20:00 start\n20:01 look\n55:00 look\n56:00 look",
    "0:20:00 view waiting block=2 of=2 limit=1530 after=510 rest=30 to-go=1530 of-block=1 given=1 "
      "next=next-block in=2100 open dose=3600 dose-to-go=3000 done=600 .\n"
    "0:20:01 view waiting block=2 of=2 limit=1530 after=510 rest=30 to-go=1530 of-block=1 given=1 "
      "asks=next-block start-asks next=next-block in=2099 open dose=3600 dose-to-go=3000 done=600 .\n"
    "0:55:00 view waiting block=2 of=2 limit=1530 after=510 rest=30 to-go=1530 of-block=1 given=1 "
      "cue=next-block open dose=3600 dose-to-go=3000 done=600 .\n"
    "0:56:00 view waiting block=2 of=2 limit=1530 after=510 rest=30 to-go=1530 of-block=1 given=1 "
      "cue=next-block open dose=3600 dose-to-go=3000 done=600 ." },
  { "paused", 2, 30, NULL,
    "0:00 start\n3:00 pause\n3:20 look",
    "0:03:20 view paused block=1 of=2 limit=1800 after=600 rest=30 active=180 runs=1 drill=1 to-go=1620 "
      "given=-1 next=micro-rest in=420 open dose=3600 dose-to-go=3420 done=180 ." },
  { "a match has no limit and nothing ahead", 2, 30, matches,
    "0:00 start match\n10:00 look\n20:00 end\n20:10 look",
    "0:10:00 view practising match ticking of=2 active=600 given=-1 open dose=3600 dose-to-go=3300 done=300 .\n"
    "0:20:10 view rating-due block=1 of=2 limit=1800 after=600 rest=30 to-go=1800 rating given=-1 cue=rating "
      "next=next-block in=2690 open dose=3600 dose-to-go=3000 done=600 ." },
  { "the day done, and beyond the plan", 1, 30, NULL,
    "0:00 start\n30:00 still\n30:10 rate 0\n31:00 look\n31:00 start\n31:10 start\n32:00 look",
    "0:31:00 view day-done of=1 of-block=1 changeable=10 cue=day-done open dose=1800 done=1800 other-today=1 .\n"
    "0:32:00 view practising ticking beyond block=2 of=2 limit=1800 after=600 rest=30 active=50 drill=1 "
      "to-go=1750 of-block=1 next=micro-rest in=550 open dose=1800 done=1850 other-today=1 ." },
  { "a day without practice", 2, 30, NULL,
    "0:00 morning 6\n0:10 look",
    "0:00:10 view day-done given=-1 cue=day-done cue=caution open no-practice checked ." },
  { "a caution", 2, 30, NULL,
    "0:00 start\n5:00 caution numb weak\n5:10 look\n71:00:00 look\n82:00:00 look",
    "0:05:10 view rating-due of=2 rating of-block=1 given=-1 cue=rating cue=caution open dose=3600 "
      "dose-to-go=3300 done=300 caution signs=288 .\n"
    "71:00:00 view day-done of=2 of-block=1 given=-1 cue=day-done cue=caution open dose=3600 dose-to-go=3300 "
      "done=300 caution signs=288 gone-allowed .\n"
    "82:00:00 view day-done of=2 of-block=1 given=-1 cue=day-done cue=caution open dose=3600 dose-to-go=3300 "
      "done=300 caution signs=288 gone-allowed ." },
  { "other input, today and on the days before", 2, 30, NULL,
    "0:00 morning 0\n0:10 input\n1:10 still\n1:20 look\n24:00:00 morning 0\n24:00:10 input\n24:00:40 still\n24:01:00 look\n48:00:00 morning 0\n48:00:10 look\n72:00:00 morning 0\n72:00:10 look",
    "0:01:20 view waiting block=1 of=2 limit=1800 after=600 rest=30 to-go=1800 given=-1 open dose=3600 "
      "dose-to-go=3600 checked other-today=61 .\n"
    "24:01:00 view waiting block=1 of=2 limit=1800 after=600 rest=30 to-go=1800 given=-1 open dose=3600 "
      "dose-to-go=3600 checked other-today=31 other=61 .\n"
    "48:00:10 view waiting block=1 of=2 limit=1800 after=600 rest=30 to-go=1800 given=-1 open dose=3600 "
      "dose-to-go=3600 checked other=31 other-mean=61 .\n"
    "72:00:10 view waiting block=1 of=2 limit=1800 after=600 rest=30 to-go=1800 given=-1 open dose=3600 "
      "dose-to-go=3600 checked other-mean=46 ." },
  { "on air, an intermission ahead, under way and over", 1, 60, intermissions,
    "0:00 on-air on\n0:10 start\n8:00 look\n9:00 look\n10:30 look\n12:00 look\n16:00 look",
    "0:08:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=470 drill=1 to-go=3130 "
      "given=-1 next=micro-rest in=130 open dose=3600 dose-to-go=3130 done=470 on-air next-intermission-in=180 "
      ".\n"
    "0:09:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=530 drill=1 to-go=3070 "
      "given=-1 next=micro-rest in=70 open dose=3600 dose-to-go=3070 done=530 on-air intermission "
      "intermission-in=120 intermission-to-go=420 next-intermission-in=120 .\n"
    "0:10:30 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=620 drill=1 to-go=2980 "
      "given=-1 next=limit in=2980 open dose=3600 dose-to-go=2980 done=620 on-air intermission "
      "intermission-in=30 intermission-to-go=330 next-intermission-in=30 .\n"
    "0:12:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=710 drill=1 to-go=2890 "
      "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit in=2890 "
      "open dose=3600 dose-to-go=2890 done=710 on-air intermission intermission-to-go=240 .\n"
    "0:16:00 view practising ticking block=1 of=1 limit=3600 after=600 rest=30 active=950 drill=1 to-go=2650 "
      "offered card=wrist-extensor-stretch length=30 rest-to-go=30 given=-1 cue=micro-rest next=limit in=2650 "
      "open dose=3600 dose-to-go=2650 done=950 on-air next-intermission-in=360 ." },
  { "a suspended hand counts on no longer", 2, 30, NULL,
    "0:00 start\n5:00 suspend\n5:01 look",
    "0:05:01 view practising block=1 of=2 limit=1800 after=600 rest=30 active=300 drill=1 to-go=1500 "
      "given=-1 next=micro-rest in=300 open dose=3600 dose-to-go=3300 done=300 ." },
};

static void
test_views (void **state)
{
  assert_int_equal (carpace_cases_failed (cases, sizeof cases / sizeof cases[0]), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_views) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
