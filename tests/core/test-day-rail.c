/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-day-rail.c: an evening as it lies along its rail, minute by minute. A part is
 * `=` done, `>` under way or `-` ahead, its block's number (m: a match), its tubes and
 * the minutes it goes from and to; a bead in brackets is open. */
#include <inttypes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "app/loop.h"
#include "carpace/day-rail.h"
#include "trace.h"

#define M CARPACE_MINUTE_MS
#define BEGIN INT64_C (1804006800000) /* 2027-03-02T18:00:00+01:00 */

typedef struct
{
  CarpaceLoop loop;
  CarpacePlan plan;
  CarpaceInstant now;
} Evening;

static CarpaceInstant
now (void *self)
{
  return ((Evening *) self)->now;
}

static void
begin (Evening *e, int blocks, int limit_min)
{
  const CarpaceLoopPorts ports = { .clock = { e, now } };

  memset (e, 0, sizeof *e);
  carpace_trace_plan (&e->plan, blocks, limit_min);
  e->now = (CarpaceInstant) { .elapsed_ms = 0, .wall_ms = BEGIN, .offset_s = 3600 };
  carpace_loop_init (&e->loop, &ports, NULL);
  carpace_loop_open (&e->loop, &e->plan);
}

static void
to (Evening *e, int64_t elapsed_ms)
{
  e->now = carpace_instant_after (e->now, elapsed_ms - e->now.elapsed_ms);
  carpace_loop_due (&e->loop);
}

static void
tell (Evening *e, int64_t elapsed_ms, CarpaceEvent event)
{
  to (e, elapsed_ms);
  assert_true (carpace_loop_tell (&e->loop, &event, NULL));
}

static void
say (Evening *e, int64_t elapsed_ms, CarpaceEventKind kind)
{
  tell (e, elapsed_ms, (CarpaceEvent) { .kind = kind, .fact = { .since_ms = elapsed_ms } });
}

static void
rate (Evening *e, int64_t elapsed_ms, int32_t discomfort)
{
  tell (e, elapsed_ms, (CarpaceEvent) { .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = discomfort } });
}

static void
write_rail (const CarpaceDayRail *rail, char *ret_text, size_t size)
{
  size_t n = 0;

  *ret_text = '\0';
  for (int32_t i = 0; i < rail->n && n < size; i++)
    {
      const CarpaceRailPart *part = &rail->part[i];
      char number[12] = "m";

      if (!part->match)
        snprintf (number, sizeof number, "%" PRId32, part->number);
      n += (size_t) snprintf (ret_text + n, size - n, "%c%s/%" PRId32 " %g..%g ", "=>-"[part->kind], number, part->tubes,
                              (double) part->from.elapsed_ms / M, (double) part->to.elapsed_ms / M);
    }
  if (rail->has_bead && n < size)
    snprintf (ret_text + n, size - n, rail->bead_filled ? "bead %g" : "bead (%g)", (double) rail->bead_ms / M);
}

static void
lies (Evening *e, const char *expected)
{
  CarpaceDayRail rail;
  char text[2048];

  carpace_day_rail (carpace_loop_view (&e->loop), e->now, &rail);
  write_rail (&rail, text, sizeof text);
  assert_string_equal (text, expected);
}

static void
an_evening_lies_along_its_rail (void **state)
{
  Evening e;

  begin (&e, 2, 30);
  lies (&e, "-1/3 0..31 -2/3 76..107 bead (0)"); /* ahead, from now on: two rests each, 45 min between */
  to (&e, 5 * M);
  lies (&e, "-1/3 5..36 -2/3 81..112 bead (5)"); /* it moves with the clock until it begins */
  say (&e, 10 * M, CARPACE_EVENT_START);
  lies (&e, ">1/3 10..41 -2/3 86..117 bead 10");
  to (&e, 16 * M);
  lies (&e, ">1/3 10..41 -2/3 86..117 bead 16");
  say (&e, 20 * M, CARPACE_EVENT_PAUSE);
  to (&e, 25 * M);
  lies (&e, ">1/3 10..45.5 -2/3 90.5..121.5 bead (25)"); /* a pause moves what comes after it, and was a rest */
  say (&e, 25 * M, CARPACE_EVENT_CONTINUE);
  say (&e, 30 * M, CARPACE_EVENT_END);
  lies (&e, "=1/2 10..30 -2/3 75..106 bead (30)"); /* the wait runs from its end */
  rate (&e, 31 * M, 0);
  lies (&e, "=1/2 10..30 -2/3 75..106 bead (31)");
  to (&e, 80 * M);
  lies (&e, "=1/2 10..30 -2/3 80..111 bead (80)");
}

static void
a_rest_taken_parts_what_is_done (void **state)
{
  Evening e;

  begin (&e, 1, 30);
  say (&e, 0, CARPACE_EVENT_START);
  say (&e, 10 * M, CARPACE_EVENT_STILL);
  say (&e, 10 * M + 5000, CARPACE_EVENT_REST);
  to (&e, 10 * M + 20000);
  lies (&e, ">1/3 0..31.3333 bead 10.3333"); /* the rest under way is still to come, as far as anybody knows */
  say (&e, 11 * M, CARPACE_EVENT_INPUT);
  say (&e, 15 * M, CARPACE_EVENT_END);
  lies (&e, "=1/2 0..15 bead (15)");
}

static void
a_tighter_block_is_shorter_on_the_rail (void **state)
{
  Evening e;

  begin (&e, 4, 15);
  say (&e, 0, CARPACE_EVENT_START);
  say (&e, 16 * M, CARPACE_EVENT_END);
  lies (&e, "=1/1 0..16 -2/2 61..76.5 -3/2 121.5..137 -4/2 182..196.5 bead (16)"); /* the minute over is the last one's less */
  rate (&e, 17 * M, 2);
  lies (&e, "=1/1 0..16 -2/2 61..71.25 -3/2 116.25..126.5 -4/2 171.5..181.75 bead (17)"); /* 9 min 30 s, rests of 45 s */
}

static void
a_match_is_on_the_rail_without_a_number (void **state)
{
  Evening e;

  begin (&e, 2, 30);
  say (&e, 0, CARPACE_EVENT_START_MATCH);
  to (&e, 12 * M);
  lies (&e, ">m/1 0..12 -1/3 57..88 -2/3 133..164 bead 12");
  say (&e, 20 * M, CARPACE_EVENT_END);
  rate (&e, 20 * M, 0);
  say (&e, 70 * M, CARPACE_EVENT_START);
  lies (&e, "=m/1 0..20 >1/3 70..101 -2/3 146..177 bead 70");
}

/* Past its limit it is over now, whatever rests it has left; a millisecond before, they
 * are still to come. */
static void
a_block_past_its_limit_ends_now (void **state)
{
  Evening e;
  CarpaceDayRail rail;

  begin (&e, 2, 30);
  say (&e, 0, CARPACE_EVENT_START);
  to (&e, 30 * M - 1);
  carpace_day_rail (carpace_loop_view (&e.loop), e.now, &rail);
  assert_int_equal (rail.part[0].to.elapsed_ms, 31 * M);
  to (&e, 30 * M);
  carpace_day_rail (carpace_loop_view (&e.loop), e.now, &rail);
  assert_int_equal (rail.part[0].to.elapsed_ms, 30 * M);
  lies (&e, ">1/3 0..30 -2/3 75..106 bead 30");
}

/* With all its rests behind it a block takes what remains, and not a millisecond more. */
static void
rests_that_are_taken_do_not_come_again (void **state)
{
  Evening e;
  CarpaceDayRail rail;

  begin (&e, 1, 20);
  say (&e, 0, CARPACE_EVENT_START);
  for (int i = 1; i <= 2; i++)
    {
      say (&e, 10 * i * M, CARPACE_EVENT_PAUSE);
      say (&e, 10 * i * M + M, CARPACE_EVENT_CONTINUE);
    }
  carpace_day_rail (carpace_loop_view (&e.loop), e.now, &rail);
  assert_int_equal (carpace_loop_view (&e.loop)->sittings.sitting[0].rests, 2);
  assert_int_equal (rail.part[0].to.elapsed_ms, 22 * M);
}

static void
what_each_part_practises (void **state)
{
  Evening e;
  CarpaceDayRail rail;

  begin (&e, 3, 30);
  say (&e, 0, CARPACE_EVENT_START);
  say (&e, 20 * M, CARPACE_EVENT_END);
  rate (&e, 20 * M, 0);
  say (&e, 80 * M, CARPACE_EVENT_START_MATCH);
  to (&e, 87 * M);
  carpace_day_rail (carpace_loop_view (&e.loop), e.now, &rail);
  assert_int_equal (rail.part[0].practice_ms, 20 * M);
  assert_int_equal (rail.part[1].practice_ms, 7 * M); /* a match has no limit */
  assert_int_equal (rail.part[2].practice_ms, 30 * M);
  say (&e, 90 * M, CARPACE_EVENT_END);
  rate (&e, 90 * M, 0);
  say (&e, 150 * M, CARPACE_EVENT_START);
  to (&e, 155 * M);
  carpace_day_rail (carpace_loop_view (&e.loop), e.now, &rail);
  assert_int_equal (rail.part[1].practice_ms, 10 * M);
  assert_int_equal (rail.part[2].practice_ms, 30 * M); /* its limit */
}

static void
no_block_leaves_nothing_and_a_day_done_has_its_bead_at_the_end (void **state)
{
  Evening e;

  begin (&e, 1, 10);
  say (&e, 0, CARPACE_EVENT_START);
  say (&e, 6000, CARPACE_EVENT_END); /* under a minute without a run */
  lies (&e, "-1/2 0.1..10.5 bead (0.1)");
  say (&e, M, CARPACE_EVENT_START);
  say (&e, 11 * M, CARPACE_EVENT_END);
  rate (&e, 12 * M, 0);
  assert_int_equal (carpace_session_state (&e.loop.session), CARPACE_STATE_DAY_DONE);
  lies (&e, "=1/1 1..11 bead 11");
  to (&e, 24 * 60 * M);
  lies (&e, "-1/2 1440..1450.5 bead 1440"); /* the next day, not opened yet */
}

static void
nothing_lies_on_it_without_a_plan (void **state)
{
  CarpaceDayRail rail;
  static CarpaceView view;

  carpace_day_rail (&view, (CarpaceInstant) { 0 }, &rail);
  assert_int_equal (rail.n, 0);
  assert_false (rail.has_bead);
  assert_true (carpace_day_rail_at (&rail, 5) == 0.0);
}

/* The session offers none in the last third of `after`. */
static void
rests_are_as_the_session_offers_them (void **state)
{
  static const struct { int64_t limit_ms, after_ms; int32_t rests; } rows[] = {
    { 30 * M, 10 * M, 2 }, { 20 * M, 10 * M, 1 }, { 13 * M + 19999, 10 * M, 0 }, { 13 * M + 20000, 10 * M, 1 },
    { 13 * M + 20001, 10 * M, 1 }, { 10 * M, 10 * M, 0 }, { 3 * M, 10 * M, 0 }, { 0, 10 * M, 0 }, { 30 * M, 0, 0 },
    { 10, 1, 9 }, { 30 * M, -1, 0 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    assert_int_equal (carpace_rests_within (rows[i].limit_ms, rows[i].after_ms), rows[i].rests);
}

static void
a_plan_alone_lies_on_its_rail (void **state)
{
  CarpacePlan plan;
  CarpaceDayRail rail;
  char text[256];

  carpace_trace_plan (&plan, 2, 30);
  carpace_day_rail_of_plan (&plan, (CarpaceInstant) { .elapsed_ms = 7 * M }, &rail);
  write_rail (&rail, text, sizeof text);
  assert_string_equal (text, "-1/3 7..38 -2/3 83..114 bead (7)");
  assert_true (rail.part[1].practice_ms == 30 * M);
}

/* A rest that would come after the block comes within two thirds of it: of 15 min after 10, of which 5 are left. */
static void
a_short_block_has_its_rest (void **state)
{
  static const struct { int32_t limit_min, after_min; int64_t tubes; } rows[] = {
    { 15, 20, 2 }, { 15, 10, 2 }, { 15, 12, 2 }, { 15, 7, 2 }, { 15, 5, 3 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpacePlan plan;
      CarpaceDayRail rail;

      memset (&rail, 0xa5, sizeof rail); /* what was there before is not read */
      carpace_trace_plan (&plan, 1, rows[i].limit_min);
      plan.after_ms = rows[i].after_min * M;
      carpace_day_rail_of_plan (&plan, (CarpaceInstant) { 0 }, &rail);
      assert_int_equal (rail.n, 1);
      if (rail.part[0].tubes != rows[i].tubes)
        fail_msg ("%d min, a rest after %d: %d stretches", rows[i].limit_min, rows[i].after_min, rail.part[0].tubes);
    }
}

/* A view by hand: what is next is asked only of a cue for the next block that is known, and of nobody who practises. */
static void
the_wait_that_is_known_moves_what_is_ahead (void **state)
{
  static const struct { const char *row; bool running, known; CarpaceCue cue; int64_t from_min; } rows[] = {
    { "known", false, true, CARPACE_CUE_NEXT_BLOCK, 5 },
    { "not known", false, false, CARPACE_CUE_NEXT_BLOCK, 0 },
    { "of something else", false, true, CARPACE_CUE_MICRO_REST, 0 },
    { "while one is under way", true, true, CARPACE_CUE_NEXT_BLOCK, 47 },
  };
  CarpacePlan plan;

  carpace_trace_plan (&plan, 2, 10);
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpaceView view = { .plan = &plan, .next_known = rows[i].known, .next_cue = rows[i].cue, .next_in_ms = 5 * M,
                           .n_ahead = 1, .ahead_ms = { 10 * M }, .limit_ms = 10 * M, .after_ms = 20 * M, .rest_ms = M,
                           .remaining_ms = 2 * M };
      CarpaceDayRail rail;

      view.sittings.n = rows[i].running;
      view.sittings.sitting[0] = (CarpaceSitting) { .number = 1 };
      carpace_day_rail (&view, (CarpaceInstant) { 0 }, &rail);
      assert_int_equal (rail.n, 1 + rows[i].running);
      if (rail.part[rail.n - 1].from.elapsed_ms != rows[i].from_min * M)
        fail_msg ("%s: from %g min", rows[i].row, (double) rail.part[rail.n - 1].from.elapsed_ms / M);
    }
}

/* All its rests, and each as long as it is, are still to come, less those that were taken. */
static void
rests_to_come_are_counted_each (void **state)
{
  static const int32_t to_come[] = { 3, 2, 1, 0, 0 }; /* by those taken: of three, and of one more than it has */
  CarpacePlan plan;
  CarpaceView view = { .plan = &plan, .limit_ms = 40 * M, .after_ms = 10 * M, .rest_ms = 2 * M, .remaining_ms = 25 * M };
  CarpaceDayRail rail;

  carpace_trace_plan (&plan, 1, 40);
  view.sittings.n = 1;
  for (int32_t taken = 0; taken < 5; taken++)
    {
      view.sittings.sitting[0] = (CarpaceSitting) { .number = 1, .rests = taken };
      carpace_day_rail (&view, (CarpaceInstant) { 0 }, &rail);
      assert_int_equal (rail.part[0].to.elapsed_ms, (25 + 2 * to_come[taken]) * M);
    }
}

static void
a_day_with_nothing_on_it_has_no_bead (void **state)
{
  CarpacePlan plan;
  CarpaceView view = { .plan = &plan };
  CarpaceDayRail rail;

  carpace_trace_plan (&plan, 1, 10);
  memset (&rail, 0xa5, sizeof rail);
  carpace_day_rail (&view, (CarpaceInstant) { 0 }, &rail);
  assert_int_equal (rail.n, 0);
  assert_false (rail.has_bead);
}

static CarpaceRailPart
part (int64_t from_min, int64_t to_min)
{
  return (CarpaceRailPart) { .from = { .elapsed_ms = from_min * M }, .to = { .elapsed_ms = to_min * M } };
}

static void
a_long_wait_is_drawn_shorter_and_a_short_part_longer (void **state)
{
  CarpaceDayRail rail = { .n = 3, .part = { part (0, 40), part (440, 441), part (442, 482) } };
  /* 40 and 50 (of 400), 10 (of 1) and 6 (of 1), 40: of 146 */
  static const struct { int64_t at_min; double lies; } rows[] = {
    { -1, 0 }, { 0, 0 }, { 20, 20.0 / 146 }, { 40, 40.0 / 146 }, { 240, 65.0 / 146 }, { 440, 90.0 / 146 },
    { 441, 100.0 / 146 }, { 442, 106.0 / 146 }, { 462, 126.0 / 146 }, { 482, 1 }, { 483, 1 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    assert_float_equal (carpace_day_rail_at (&rail, rows[i].at_min * M), rows[i].lies, 1e-9);
}

/* Blocks without a wait between them: it is drawn all the same, and passed at once. */
static void
a_wait_of_nothing_is_passed_at_once (void **state)
{
  CarpaceDayRail rail = { .n = 2, .part = { part (0, 40), part (40, 80) } };
  static const struct { int64_t at_ms; double lies; } rows[] = { /* 40, 6 and 40: of 86 */
    { 6000, 0.1 / 86 }, { 40 * M, 40.0 / 86 }, { 40 * M + 6000, 46.1 / 86 }, { 80 * M, 1 }, { 81 * M, 1 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    assert_float_equal (carpace_day_rail_at (&rail, rows[i].at_ms), rows[i].lies, 1e-9);
}

/* The longest is the measure, also where it is the first; and one part alone is all there is. */
static void
the_longest_is_the_measure (void **state)
{
  CarpaceDayRail first = { .n = 2, .part = { part (0, 40), part (50, 70) } }, alone = { .n = 1, .part = { part (0, 40) } };

  assert_float_equal (carpace_day_rail_at (&first, 40 * M), 40.0 / 70, 1e-9);
  assert_float_equal (carpace_day_rail_at (&alone, 10 * M), 0.25, 1e-9);
  assert_float_equal (carpace_day_rail_at (&alone, 40 * M), 1, 1e-9);
}

/* Told to the millisecond, in s. */
static void
ahead_are (Evening *e, const char *expected)
{
  const CarpaceView *view = carpace_loop_view (&e->loop);
  char text[256] = "";
  size_t n = 0;

  for (int32_t i = 0; i < view->n_ahead && n < sizeof text; i++)
    n += (size_t) snprintf (text + n, sizeof text - n, i > 0 ? " %.12g" : "%.12g", (double) view->ahead_ms[i] / 1000);
  assert_string_equal (text, expected);
}

/* What has not begun, each as it would be if those before it are done to their limits:
 * what one took too much of the dose, the last has less, and under `shortest` it is none. */
static void
what_is_ahead_is_to_the_ms (void **state)
{
  Evening e;

  begin (&e, 3, 20);
  say (&e, 0, CARPACE_EVENT_START);
  ahead_are (&e, "1200 1200"); /* its own limit is not left to the others */
  to (&e, 15 * M);
  ahead_are (&e, "1200 1200");
  say (&e, 21 * M, CARPACE_EVENT_END);
  ahead_are (&e, "1200 1140");
  rate (&e, 22 * M, 0);
  say (&e, 80 * M, CARPACE_EVENT_START);
  ahead_are (&e, "1140");
  say (&e, 95 * M + 1, CARPACE_EVENT_END);
  ahead_are (&e, "1200");
}

static void
no_block_is_ahead_under_the_shortest (void **state)
{
  static const struct { int64_t over_ms; const char *ahead; } rows[] = {
    { M - 1, "180.001" }, { M, "180" }, { M + 1, "" },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      Evening e;

      begin (&e, 2, 4);
      assert_int_equal (e.plan.shortest_ms, 3 * M);
      say (&e, 0, CARPACE_EVENT_START);
      say (&e, 4 * M + rows[i].over_ms, CARPACE_EVENT_END);
      ahead_are (&e, rows[i].ahead);
    }
}

/* Whatever the dose has left. */
static void
nothing_is_ahead_of_a_day_that_answers_end (void **state)
{
  Evening e;

  begin (&e, 3, 20);
  say (&e, 0, CARPACE_EVENT_START);
  say (&e, 20 * M, CARPACE_EVENT_END);
  rate (&e, 20 * M, 6);
  assert_true (carpace_loop_view (&e.loop)->dose_remaining_ms == 40 * M);
  ahead_are (&e, "");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (an_evening_lies_along_its_rail),
    cmocka_unit_test (a_rest_taken_parts_what_is_done),
    cmocka_unit_test (a_tighter_block_is_shorter_on_the_rail),
    cmocka_unit_test (a_match_is_on_the_rail_without_a_number),
    cmocka_unit_test (a_block_past_its_limit_ends_now),
    cmocka_unit_test (rests_that_are_taken_do_not_come_again),
    cmocka_unit_test (what_each_part_practises),
    cmocka_unit_test (a_wait_of_nothing_is_passed_at_once),
    cmocka_unit_test (no_block_leaves_nothing_and_a_day_done_has_its_bead_at_the_end),
    cmocka_unit_test (nothing_lies_on_it_without_a_plan),
    cmocka_unit_test (rests_are_as_the_session_offers_them),
    cmocka_unit_test (a_plan_alone_lies_on_its_rail),
    cmocka_unit_test (a_short_block_has_its_rest),
    cmocka_unit_test (the_wait_that_is_known_moves_what_is_ahead),
    cmocka_unit_test (what_is_ahead_is_to_the_ms),
    cmocka_unit_test (no_block_is_ahead_under_the_shortest),
    cmocka_unit_test (nothing_is_ahead_of_a_day_that_answers_end),
    cmocka_unit_test (rests_to_come_are_counted_each),
    cmocka_unit_test (a_day_with_nothing_on_it_has_no_bead),
    cmocka_unit_test (the_longest_is_the_measure),
    cmocka_unit_test (a_long_wait_is_drawn_shorter_and_a_short_part_longer),
  };

  return cmocka_run_group_tests_name ("core/day-rail", tests, NULL, NULL);
}
