/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-borders.c: for each number of a running block three rows, one below it,
 * at it and one above; test-borders-day.c has those of ratings and days. A row is
 * named for what it would catch. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "cases.h"

static void
run_of_60_s (CarpacePlan *plan)
{
  plan->drills[0].run_ms = 60000;
}

static void
limit_of (CarpacePlan *plan, int64_t ms)
{
  plan->blocks[0].limit_ms = plan->dose_ms = ms;
}

static void
limit_under_15_min (CarpacePlan *plan)
{
  limit_of (plan, 899999);
}

static void
limit_over_15_min (CarpacePlan *plan)
{
  limit_of (plan, 900001);
}

static const CarpaceCase in_a_block[] = {
  /* ---- gap-after, 4 s ---- */
  { "a pause of 3.999 s taken for a gap", 1, 30, NULL, "0:00 start\n5:00 still\n5:03.999 input\n6:00 still\n6:10 end",
    "0:06:10 block ended number=1 limit=1800 after=600 rest=30 active=360 runs=1\n-0:05:03 state gap\n-0:05:04 state gap" },
  { "a pause of 4 s not taken for a gap", 1, 30, NULL, "0:00 start\n5:00 still\n5:04 input\n6:00 still\n6:10 end",
    "0:05:04 state gap\n0:05:04 state practising\n0:06:10 block ended number=1 limit=1800 after=600 rest=30 active=356 runs=2" },
  { "a gap told again after it", 1, 30, NULL, "0:00 start\n5:00 still\n5:04.001 input\n6:00 still\n6:10 end",
    "0:05:04 state gap\n0:05:04.001 state practising\n0:06:10 block ended number=1 limit=1800 after=600 rest=30 active=355.999 runs=2" },
  /* ---- run-min, 20 s ---- */
  { "19.999 s counted as a run", 1, 30, NULL, "0:00 start\n0:19.999 still\n0:30 end",
    "0:00:30 block dropped number=1 limit=1800 after=600 rest=30 active=19.999\n-runs=" },
  { "20 s not counted as a run", 1, 30, NULL, "0:00 start\n0:20 still\n0:30 end",
    "0:00:30 block ended number=1 limit=1800 after=600 rest=30 active=20 runs=1" },
  { "20.001 s counted as two", 1, 30, NULL, "0:00 start\n0:20.001 still\n0:30 end",
    "0:00:30 block ended number=1 limit=1800 after=600 rest=30 active=20.001 runs=1" },
  /* ---- a drill's runs: halves up, at least one ---- */
  { "a stretch under half a run counted as none", 1, 30, run_of_60_s, "0:00 start\n0:29.999 still\n0:40 end",
    "0:00:40 block ended number=1 limit=1800 after=600 rest=30 active=29.999 runs=1" },
  { "a run and nearly a half counted as two", 1, 30, run_of_60_s, "0:00 start\n1:29.999 still\n1:40 end",
    "active=89.999 runs=1" },
  { "a run and a half counted as one", 1, 30, run_of_60_s, "0:00 start\n1:30 still\n1:40 end", "active=90 runs=2" },
  { "a run and more than a half counted as one", 1, 30, run_of_60_s, "0:00 start\n1:30.001 still\n1:40 end",
    "active=90.001 runs=2" },
  /* ---- no block: under 60 s, without a run ---- */
  { "59.999 s without a run asked about", 1, 30, NULL,
    "0:00 start\n0:15 still\n0:30 input\n0:45 still\n1:00 input\n1:15 still\n1:30 input\n1:44.999 still\n1:50 end",
    "0:01:50 block dropped number=1 limit=1800 after=600 rest=30 active=59.999\n-cue rating" },
  { "60 s without a run dropped", 1, 30, NULL,
    "0:00 start\n0:15 still\n0:30 input\n0:45 still\n1:00 input\n1:15 still\n1:30 input\n1:45 still\n1:50 end",
    "0:01:50 block ended number=1 limit=1800 after=600 rest=30 active=60" },
  { "60.001 s without a run dropped", 1, 30, NULL,
    "0:00 start\n0:15 still\n0:30 input\n0:45 still\n1:00 input\n1:15 still\n1:30 input\n1:45.001 still\n1:50 end",
    "0:01:50 block ended number=1 limit=1800 after=600 rest=30 active=60.001" },
  /* ---- an undecided reach, 5 s; forgiven under 1 s ---- */
  { "an answer 4.999 s after the hand came back breaks the stillness", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:44.999 play-on\n11:30 until", "0:10:44.999 state gap\n0:11:00 rest taken length=30" },
  { "an answer after 5 s belongs to the gap", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:45 play-on\n11:30 until", "0:10:45 state practising\n0:10:45 fault\n-rest taken" },
  { "an answer after 5.001 s belongs to the gap", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:45.001 play-on\n11:30 until", "0:10:45 state practising\n0:10:45.001 fault\n-rest taken" },
  { "a stretch's own time is not kept after its answer", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:44.999 rest\n11:30 until", "0:10:44.999 state resting\n0:11:04.999 rest taken length=30 asked" },
  { "a reach of 0.999 s is not forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:40.999 still\n11:30 end", "0:11:00 rest taken length=30 asked\nactive=630 runs=1" },
  { "a reach of 1 s is forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:41 still\n11:30 end", "active=631 runs=1\n-0:11:00 rest taken" },
  { "a reach of 1.001 s is forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n10:41.001 still\n11:30 end", "active=631.001 runs=1\n-0:11:00 rest taken" },
  /* ---- after is at most two thirds of the limit ---- */
  { "after over two thirds of a limit just under 15 min", 1, 30, limit_under_15_min, "0:00 start",
    "block started number=1 limit=899.999 after=599.999 rest=30" },
  { "after shortened where it is two thirds", 1, 15, NULL, "0:00 start", "block started number=1 limit=900 after=600 rest=30" },
  { "after longer than the plan's", 1, 30, limit_over_15_min, "0:00 start",
    "block started number=1 limit=900.001 after=600 rest=30" },
  /* ---- never due with less than a third of after to the limit ---- */
  { "due with 200.001 s to go withheld", 1, 30, NULL,
    "0:00 start\n16:39.999 still\n17:20 input\n27:30 still\n27:40 until", "0:17:09.999 rest taken\n0:27:34 state rest-due" },
  { "due with a third of after to go withheld", 1, 30, NULL,
    "0:00 start\n16:40 still\n17:20 input\n27:30 still\n27:40 until", "0:17:10 rest taken\n0:27:34 state rest-due" },
  { "due with 199.999 s to go", 1, 30, NULL,
    "0:00 start\n16:40.001 still\n17:20 input\n27:30 still\n27:40 until", "0:17:10.001 rest taken\n0:27:34 state gap\n-0:27:34 state rest-due" },
  /* ---- after, 10 min ---- */
  { "due after 9:59.999", 1, 60, NULL, "0:00 start\n9:55.999 still\n10:05 until", "0:09:59.999 state gap" },
  { "what was reached on time counted back is no longer due", 1, 60, NULL,
    "0:00 start\n9:56 still\n10:05 until", "0:10:00 state gap\n-rest-due" },
  { "not due after 10 min", 1, 60, NULL, "0:00 start\n9:56.001 still\n10:05 until", "0:10:00.001 state rest-due" },
  /* ---- wait-for-gap, 90 s ---- */
  { "shown in a run before 90 s", 1, 60, NULL, "0:00 start\n11:29.999 until", "-cue micro-rest" },
  { "not shown in a run after 90 s", 1, 60, NULL, "0:00 start\n11:30 until",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch" },
  { "shown twice in a run", 1, 60, NULL, "0:00 start\n11:30.001 until",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch" },
  { "a gap just before 90 s is passed over", 1, 60, NULL, "0:00 start\n11:25.999 still\n11:31 until",
    "0:11:29.999 state rest-due\n0:11:29.999 cue micro-rest shown wrist-extensor-stretch" },
  { "a gap at 90 s comes after the quiet showing", 1, 60, NULL, "0:00 start\n11:26 still\n11:31 until",
    "0:11:30 state rest-due\n0:11:30 cue micro-rest shown wrist-extensor-stretch" },
  { "a gap after 90 s shows a second cue", 1, 60, NULL, "0:00 start\n11:26.001 still\n11:31 until",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch\n0:11:30.001 state rest-due" },
  { "shown again before a further after", 1, 60, NULL, "0:00 start\n21:29.999 until",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch" },
  { "not shown again after a further after", 1, 60, NULL, "0:00 start\n21:30 until",
    "0:11:30 cue micro-rest shown wrist-extensor-stretch\n0:21:30 cue micro-rest shown wrist-extensor-stretch" },
  /* ---- offered again 60 s after input over an offer, or an interruption ---- */
  { "offered again in a gap 59.999 s after the input", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n11:35.999 still\n11:39.999 until", "0:11:39.999 state gap" },
  { "not offered again when its 60 s are over in a gap", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n11:35.999 still\n11:50 until", "0:11:39.999 state gap\n0:11:40 state rest-due" },
  { "not offered again in a gap 60 s after the input", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n11:36 still\n11:50 until", "0:11:40 state rest-due\n-0:11:40 state gap" },
  { "not offered again in a gap 60.001 s after", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 input\n11:36.001 still\n11:50 until", "0:11:40.001 state rest-due\n-0:11:40.001 state gap" },
  { "offered again in a gap 59.999 s after an interruption", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n11:55.999 still\n12:05 until",
    "0:11:00 rest interrupted\n0:11:59.999 state gap\n0:12:00 state rest-due" },
  { "not offered again in a gap 60 s after an interruption", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n11:56 still\n12:05 until",
    "0:11:00 rest interrupted\n0:12:00 state rest-due\n-0:12:00 state gap" },
  { "not offered again in a gap 60.001 s after an interruption", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n11:56.001 still\n12:05 until",
    "0:11:00 rest interrupted\n0:12:00.001 state rest-due\n-0:12:00 state gap" },
  /* ---- three declines ---- */
  { "no more offers after two", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:45 input\n21:00 still\n21:10 play-on\n21:15 input\n32:00 still\n32:10 until",
    "0:21:10 rest declined\n0:32:04 state rest-due" },
  { "a fourth offer after three", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:40 play-on\n10:45 input\n21:00 still\n21:10 play-on\n21:15 input\n32:00 still\n32:10 play-on\n"
    "32:15 input\n50:00 still\n50:10 until",
    "0:32:10 rest declined\n0:50:04 state gap\n-0:50:04 state rest-due" },
  /* ---- a rest's length, 30 s; 2 s forgiven; 20 s interrupt ---- */
  { "a rest taken by 29.999 s", 1, 60, NULL, "0:00 start\n10:30 still\n10:34 rest\n10:59.999 until", "-rest taken" },
  { "a rest not taken by 30 s", 1, 60, NULL, "0:00 start\n10:30 still\n10:34 rest\n11:00 until", "0:11:00 rest taken length=30 asked" },
  { "input after 1.999 s not forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:35 input\n10:35.999 still\n11:10 until", "0:11:00 rest taken length=30 asked" },
  { "input to the second second's end not forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:35 input\n10:36 still\n11:10 until", "0:11:00 rest taken length=30 asked" },
  { "a millisecond past what is forgiven forgiven", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:35 input\n10:36.001 still\n11:10 until", "0:11:00.001 rest taken length=30 asked" },
  { "a gap told before 20 s are over interrupts", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n10:55.999 still\n11:30 until",
    "0:11:15.999 rest taken length=30 asked\n-interrupted" },
  { "a gap told as 20 s are over comes after them", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n10:56 still\n11:30 until",
    "0:11:16 rest taken length=30 asked\n-interrupted" },
  { "20 s of input, as far as is known, do not interrupt", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n10:56.001 still\n11:30 end",
    "0:11:00 rest interrupted length=30 asked\nactive=646.001 runs=1" },
  { "20 s of input interrupt too late", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n11:00.001 still\n11:30 end",
    "0:11:00 rest interrupted length=30 asked\nactive=650.001 runs=2" },
  { "two inputs of 10 s are not summed", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n10:50 still\n11:00 input\n11:10 still\n11:30 end",
    "0:11:10 rest interrupted" },
  { "two inputs that come to less interrupt", 1, 60, NULL,
    "0:00 start\n10:30 still\n10:34 rest\n10:40 input\n10:50 still\n11:00 input\n11:05.999 still\n12:00 end", "-interrupted" },
  /* ---- a gap of 15 min ---- */
  { "a gap of 14:59.999 ends the block", 1, 30, NULL, "0:00 start\n5:00 still\n19:59.999 input\n21:00 still\n21:10 end",
    "0:19:59.999 state practising\n0:21:10 block ended" },
  { "a gap of 15 min does not end the block", 1, 30, NULL, "0:00 start\n5:00 still\n20:00 input\n21:00 until",
    "0:20:00 block ended number=1 limit=1800 after=600 rest=30 active=300 runs=1" },
  { "a pause of 14:59.999 ends the block", 1, 30, NULL, "0:00 start\n5:00 pause\n19:59.999 continue\n21:00 still\n21:10 end",
    "0:19:59.999 state practising\n0:21:10 block ended" },
  { "a pause of 15 min does not end the block", 1, 30, NULL, "0:00 start\n5:00 pause\n20:00 continue",
    "0:20:00 block ended number=1 limit=1800 after=600 rest=30 active=300 runs=1\n0:20:00 fault" },
  /* ---- the limit; finish-run, 90 s; overrun, 10 min ---- */
  { "the limit reached a millisecond early", 1, 30, NULL, "0:00 start\n29:59.999 until", "-limit-reached" },
  { "the limit not reached on time", 1, 30, NULL, "0:00 start\n30:00 until", "0:30:00 state limit-reached" },
  { "a gap just before finish-run's end leaves an overrun behind", 1, 30, NULL, "0:00 start\n31:25.999 still\n32:00 until",
    "0:31:29.999 block ended number=1 limit=1800 after=600 rest=30 active=1885.999 overrun=85.999 runs=1\n- overrun block=" },
  { "a gap at finish-run's end comes after it", 1, 30, NULL, "0:00 start\n31:26 still\n32:00 until",
    "0:31:30 block ended number=1 limit=1800 after=600 rest=30 active=1886 overrun=86 runs=1\n- overrun block=" },
  { "a gap just after finish-run's end is an overrun", 1, 30, NULL, "0:00 start\n31:26.001 still\n32:00 until",
    "0:31:30 block ended number=1 limit=1800 after=600 rest=30 active=1886.001 overrun=86.001 runs=1\n- overrun block=" },
  { "overrun ended before 10 min", 1, 30, NULL, "0:00 start\n41:29.999 until", "0:31:30 block ended\n- overrun block=" },
  { "overrun not ended after 10 min", 1, 30, NULL, "0:00 start\n41:30 until", "0:41:30 overrun block=1 ms=600000" },
  { "overrun of more than 10 min", 1, 30, NULL, "0:00 start\n50:00 still\n50:10 until", "0:41:30 overrun block=1 ms=600000" },
  { "a gap just before 10 min counted as 10", 1, 30, NULL, "0:00 start\n41:25.999 still\n42:00 until",
    "0:41:29.999 overrun block=1 ms=595999" },
  /* ---- between-blocks, 45 min ---- */
  { "a start 1 ms before the wait's end not asked about", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n54:59.999 start",
    "0:10:00 cue rating shown\n0:10:10 cue rating withdrawn\n0:54:59.999 cue next-block asked" },
  { "a start at the wait's end asked about", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n55:00 start",
    "0:55:00 block started number=2 limit=1800 after=600 rest=30\n-asked\n-early" },
  { "a start after the wait's end asked about", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n55:00.001 start",
    "0:55:00.001 block started number=2 limit=1800 after=600 rest=30\n-asked\n-early" },
};

static void
test_in_a_block (void **state)
{
  assert_int_equal (carpace_cases_failed (in_a_block, sizeof in_a_block / sizeof in_a_block[0]), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_in_a_block) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
