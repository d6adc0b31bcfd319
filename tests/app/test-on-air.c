/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-on-air.c: when intermissions are, and what the faces know of the next. */
#include <inttypes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/loop.h"
#include "app/on-air.h"
#include "trace.h"

#define S CARPACE_SECOND_MS
#define M CARPACE_MINUTE_MS
#define H CARPACE_HOUR_MS

/* 2027-03-02T18:00:00+01:00, elapsed 1000 s. */
#define EVENING INT64_C (1804006800000)

static CarpaceInstant
moment (int64_t by_ms)
{
  return (CarpaceInstant) { .elapsed_ms = 1000 * S + by_ms, .wall_ms = EVENING + by_ms, .offset_s = 3600 };
}

static CarpaceOnAir
air_of (CarpaceOnAirFrom from, int64_t every_ms, int64_t notice_ms, int64_t length_ms, CarpaceInstant since)
{
  static CarpacePlan plan;
  CarpaceOnAir air;

  plan.on_air_from = from;
  plan.on_air_every_ms = every_ms;
  plan.on_air_notice_ms = notice_ms;
  plan.on_air_length_ms = length_ms;
  carpace_on_air_init (&air);
  carpace_on_air_begin (&air, &plan, since);
  return air;
}

typedef struct
{
  const char *name;
  CarpaceOnAirFrom from;
  int64_t every_ms, notice_ms, length_ms;
  int64_t since_ms, at_ms; /* after 18:00 */
  CarpaceIntermissionPhase phase;
  int64_t to_go_ms;
} WhenRow;

static const WhenRow when_rows[] = {
  { .name = "clock, half past is next", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 30 * M, .notice_ms = 2 * M,
    .length_ms = 3 * M, .since_ms = 10 * M, .at_ms = 11 * M, .phase = CARPACE_INTERMISSION_AHEAD, .to_go_ms = 19 * M },
  { .name = "clock, notice", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 30 * M, .notice_ms = 2 * M,
    .length_ms = 3 * M, .since_ms = 10 * M, .at_ms = 28 * M, .phase = CARPACE_INTERMISSION_NOTICE, .to_go_ms = 2 * M },
  { .name = "clock, at its beginning", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 30 * M, .notice_ms = 2 * M,
    .length_ms = 3 * M, .since_ms = 10 * M, .at_ms = 30 * M, .phase = CARPACE_INTERMISSION_NOW, .to_go_ms = 3 * M },
  { .name = "clock, over", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 30 * M, .notice_ms = 2 * M,
    .length_ms = 3 * M, .since_ms = 10 * M, .at_ms = 33 * M, .phase = CARPACE_INTERMISSION_AHEAD, .to_go_ms = 27 * M },
  { .name = "clock, none without its notice", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 30 * M,
    .notice_ms = 2 * M, .length_ms = 3 * M, .since_ms = 29 * M, .at_ms = 29 * M,
    .phase = CARPACE_INTERMISSION_AHEAD, .to_go_ms = 31 * M },
  { .name = "clock, going on air inside one", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 30 * M,
    .notice_ms = 2 * M, .length_ms = 3 * M, .since_ms = 31 * M, .at_ms = 31 * M,
    .phase = CARPACE_INTERMISSION_AHEAD, .to_go_ms = 29 * M },
  { .name = "clock, midnight begins anew", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 50 * M, .notice_ms = 2 * M,
    .length_ms = 3 * M, .since_ms = 0, .at_ms = 5 * H + 30 * M, .phase = CARPACE_INTERMISSION_AHEAD,
    .to_go_ms = 30 * M },
  { .name = "stream, counted from its start", .from = CARPACE_ON_AIR_FROM_STREAM, .every_ms = 30 * M,
    .notice_ms = 2 * M, .length_ms = 3 * M, .since_ms = 7 * M, .at_ms = 7 * M, .phase = CARPACE_INTERMISSION_AHEAD,
    .to_go_ms = 30 * M },
  { .name = "stream, second", .from = CARPACE_ON_AIR_FROM_STREAM, .every_ms = 30 * M, .notice_ms = 2 * M,
    .length_ms = 3 * M, .since_ms = 7 * M, .at_ms = 66 * M, .phase = CARPACE_INTERMISSION_NOTICE, .to_go_ms = 1 * M },
  { .name = "length is at most half of every", .from = CARPACE_ON_AIR_FROM_STREAM, .every_ms = 4 * M, .notice_ms = 0,
    .length_ms = 9 * M, .since_ms = 0, .at_ms = 4 * M, .phase = CARPACE_INTERMISSION_NOW, .to_go_ms = 2 * M },
  { .name = "no intermissions in the plan", .from = CARPACE_ON_AIR_FROM_CLOCK, .every_ms = 0, .since_ms = 0,
    .at_ms = 1 * M, .phase = CARPACE_INTERMISSION_NONE, .to_go_ms = 0 },
};

static void
test_when (void **state)
{
  for (size_t i = 0; i < sizeof when_rows / sizeof *when_rows; i++)
    {
      const WhenRow *row = &when_rows[i];
      CarpaceOnAir air = air_of (row->from, row->every_ms, row->notice_ms, row->length_ms, moment (row->since_ms));
      CarpaceIntermission next = carpace_on_air_at (&air, moment (row->at_ms));

      if (next.phase != row->phase || next.to_go_ms != row->to_go_ms)
        fail_msg ("%s: phase %d, to go %" PRId64 " s", row->name, next.phase, next.to_go_ms / S);
    }
}

static void
test_off_air_is_silent (void **state)
{
  CarpaceOnAir air = air_of (CARPACE_ON_AIR_FROM_CLOCK, 30 * M, 2 * M, 3 * M, moment (0));

  carpace_on_air_end (&air);
  assert_int_equal (carpace_on_air_at (&air, moment (29 * M)).phase, CARPACE_INTERMISSION_NONE);
  assert_true (carpace_on_air_next_change_ms (&air, moment (29 * M)) == CARPACE_NEVER);
}

/* Berlin, 2027-03-28: 02:00 becomes 03:00; the slots follow the local clock. */
static void
test_daylight_saving (void **state)
{
  CarpaceInstant before = { .elapsed_ms = 0, .wall_ms = INT64_C (1806195600000), .offset_s = 3600 }; /* 01:40 at +20 min */
  CarpaceOnAir air = air_of (CARPACE_ON_AIR_FROM_CLOCK, 90 * M, 2 * M, 3 * M, before);
  CarpaceInstant after = { .elapsed_ms = 10 * H, .wall_ms = before.wall_ms + 10 * H, .offset_s = 7200 };
  int64_t begins_ms = carpace_on_air_at (&air, after).begins_ms;
  int64_t local_ms = after.wall_ms + begins_ms - after.elapsed_ms + 7200 * S;

  assert_int_equal (local_ms % CARPACE_DAY_MS % (90 * M), 0);
}

static void
test_a_long_pause_stands_for_it (void **state)
{
  CarpaceOnAir air = air_of (CARPACE_ON_AIR_FROM_CLOCK, 30 * M, 2 * M, 3 * M, moment (10 * M));

  carpace_on_air_rested (&air, moment (26 * M).elapsed_ms, moment (27 * M).elapsed_ms);
  assert_int_equal (carpace_on_air_at (&air, moment (28 * M)).phase, CARPACE_INTERMISSION_NOTICE);
  carpace_on_air_rested (&air, moment (25 * M).elapsed_ms, moment (28 * M).elapsed_ms);
  assert_true (carpace_on_air_at (&air, moment (28 * M)).to_go_ms == 32 * M);
}

static CarpaceInstant
read_clock (void *self)
{
  return *(const CarpaceInstant *) self;
}

/* The loop shows the next intermission from going on air, long before the
 * session is told of it by its notice. */
static void
test_the_view_knows_the_next (void **state)
{
  static const struct { int64_t at_ms; int64_t next_in_ms, to_go_ms; } rows[] = {
    { 1 * M, 10 * M, 0 }, { 9 * M, 2 * M, 7 * M }, { 12 * M, 0, 4 * M }, { 17 * M, 5 * M, 0 },
  };
  CarpacePlan *plan = calloc (1, sizeof *plan);
  CarpaceLoop *loop = calloc (1, sizeof *loop);
  CarpaceInstant now = moment (0);
  CarpaceLoopPorts ports = { .clock = { &now, read_clock } };
  const CarpaceEvent on = { .kind = CARPACE_EVENT_ON_AIR }, off = { .kind = CARPACE_EVENT_OFF_AIR };

  carpace_trace_plan (plan, 2, 30);
  plan->on_air_every_ms = 11 * M;
  plan->on_air_from = CARPACE_ON_AIR_FROM_STREAM;
  plan->on_air_notice_ms = 2 * M;
  plan->on_air_length_ms = 5 * M;
  carpace_loop_init (loop, &ports, NULL);
  carpace_loop_open (loop, plan);
  assert_true (carpace_loop_view (loop)->next_intermission_in_ms == 0);
  assert_true (carpace_loop_tell (loop, &on, NULL));
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      now = moment (rows[i].at_ms);
      carpace_loop_due (loop);
      assert_true (carpace_loop_view (loop)->next_intermission_in_ms == rows[i].next_in_ms);
      assert_true (carpace_loop_view (loop)->intermission_to_go_ms == rows[i].to_go_ms);
    }
  assert_true (carpace_loop_tell (loop, &off, NULL));
  assert_true (carpace_loop_view (loop)->next_intermission_in_ms == 0);
  free (loop);
  free (plan);
}

static uint64_t seed;

static int64_t
any (int64_t from, int64_t to)
{
  seed = seed * UINT64_C (6364136223846793005) + UINT64_C (1442695040888963407);
  return from + (int64_t) ((seed >> 20) % (uint64_t) (to - from + 1));
}

static void
check_moment (const CarpaceOnAir *air, CarpaceInstant now, CarpaceInstant later)
{
  CarpaceIntermission next = carpace_on_air_at (air, now);
  CarpaceIntermission after = carpace_on_air_at (air, later);
  int64_t local_ms = now.wall_ms + next.begins_ms - now.elapsed_ms + now.offset_s * S;
  int64_t change_ms = carpace_on_air_next_change_ms (air, now);

  assert_true (next.ends_ms >= now.elapsed_ms);
  assert_true (next.begins_ms >= air->since.elapsed_ms + air->notice_ms);
  assert_true (after.begins_ms >= next.begins_ms);
  assert_true (change_ms > now.elapsed_ms);
  assert_true (next.to_go_ms >= 0);
  if (air->from == CARPACE_ON_AIR_FROM_STREAM)
    assert_int_equal ((next.begins_ms - air->since.elapsed_ms) % air->every_ms, 0);
  else
    assert_int_equal (((local_ms % CARPACE_DAY_MS) + CARPACE_DAY_MS) % CARPACE_DAY_MS % air->every_ms, 0);
}

static void
test_any_stream (void **state)
{
  const char *given = getenv ("CARPACE_SEED");

  seed = given != NULL ? strtoull (given, NULL, 10) : UINT64_C (20270302);
  print_message ("seed %" PRIu64 "\n", seed);
  for (int i = 0; i < 20000; i++)
    {
      int64_t every_ms = any (1, 36) * 5 * M;
      CarpaceInstant since = moment (any (-40 * 365 * CARPACE_DAY_MS, 10 * 365 * CARPACE_DAY_MS));
      CarpaceOnAir air = air_of (any (0, 1) ? CARPACE_ON_AIR_FROM_STREAM : CARPACE_ON_AIR_FROM_CLOCK, every_ms,
                                 any (0, 10 * M), any (0, 10 * M), since);
      CarpaceInstant now = since, later;

      now.elapsed_ms += any (0, 12 * H);
      now.wall_ms += now.elapsed_ms - since.elapsed_ms;
      now.offset_s = (int32_t) any (-50, 56) * 900;
      later = now;
      later.elapsed_ms += any (0, 12 * H);
      later.wall_ms += later.elapsed_ms - now.elapsed_ms;
      if (any (0, 3) == 0)
        carpace_on_air_rested (&air, now.elapsed_ms - any (0, H), now.elapsed_ms);
      check_moment (&air, now, later);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_when),
    cmocka_unit_test (test_off_air_is_silent),
    cmocka_unit_test (test_daylight_saving),
    cmocka_unit_test (test_a_long_pause_stands_for_it),
    cmocka_unit_test (test_the_view_knows_the_next),
    cmocka_unit_test (test_any_stream),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
