/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-example.c: an example evening goes from the morning check to the day's end, shows each card there is
 * on the way, waits while one asks, and is told to nobody else. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "app/example.h"
#include "carpace/instant.h"
#include "trace.h"

#define MINUTE CARPACE_MINUTE_MS
#define STEPS 100000

typedef struct
{
  CarpacePlan plan;
  CarpaceExample example;
  int shown[CARPACE_N_CUES];
} World;

static void
note (void *self, const CarpaceEntry *entry, const CarpaceView *view)
{
  World *world = self;

  if (entry->cue.what == CARPACE_CUE_SHOWN)
    world->shown[entry->cue.cue]++;
}

static void
begin (World *world, int limit_min, int blocks)
{
  const CarpaceFaces faces = { world, note, NULL };
  CarpaceInstant evening;

  memset (world, 0, sizeof *world);
  assert_true (carpace_instant_read ("2027-03-02T18:00:00+01:00", &evening));
  carpace_trace_plan (&world->plan, blocks, limit_min);
  carpace_example_begin (&world->example, &world->plan, evening, &faces);
}

/* To its end, each question answered once it is asked. @return its length, ms */
static int64_t
to_the_end (World *world, int64_t by_ms)
{
  int step;

  for (step = 0; step < STEPS && !carpace_example_is_over (&world->example); step++)
    if (carpace_example_asks (&world->example))
      carpace_example_answer (&world->example);
    else
      carpace_example_go_on (&world->example, by_ms);
  assert_true (step < STEPS);
  return carpace_example_now (&world->example).elapsed_ms;
}

static void
every_card_is_shown (void **state)
{
  static World world;
  int64_t length_ms;

  begin (&world, 15, 2);
  length_ms = to_the_end (&world, 2400);
  assert_int_equal (carpace_example_view (&world.example)->state, CARPACE_STATE_DAY_DONE);
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    if (cue != CARPACE_CUE_CAUTION && cue != CARPACE_CUE_UNSTARTED && cue != CARPACE_CUE_BEGUN
        && world.shown[cue] == 0) /* nobody forgets to start, nor has a practice window */
      fail_msg ("cue %d was never shown", cue);
  assert_int_equal (world.shown[CARPACE_CUE_RATING], 2);
  assert_in_range (length_ms, 75 * MINUTE, 90 * MINUTE); /* two blocks, their rests and the wait of 45 min */
}

/* In small steps or large ones, it is the same evening. */
static void
steps_do_not_matter (void **state)
{
  static World small, large;

  begin (&small, 15, 2);
  begin (&large, 15, 2);
  assert_int_equal (to_the_end (&small, 97), to_the_end (&large, 60 * MINUTE));
  assert_memory_equal (small.shown, large.shown, sizeof small.shown);
}

static void
it_waits_while_a_card_asks (void **state)
{
  static World world;
  int64_t asked_ms;

  begin (&world, 15, 1);
  while (!carpace_example_asks (&world.example) || carpace_example_view (&world.example)->state != CARPACE_STATE_REST_DUE)
    if (carpace_example_asks (&world.example))
      carpace_example_answer (&world.example);
    else
      carpace_example_go_on (&world.example, 1000);
  asked_ms = carpace_example_now (&world.example).elapsed_ms;
  carpace_example_go_on (&world.example, 60 * MINUTE);
  assert_int_equal (carpace_example_now (&world.example).elapsed_ms, asked_ms);
  carpace_example_answer (&world.example);
  assert_int_equal (carpace_example_view (&world.example)->state, CARPACE_STATE_RESTING);
}

/* Whoever looks on answers, and it goes on from there. */
static void
an_onlooker_may_answer (void **state)
{
  static World world;
  const CarpaceEvent worst = { .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = 7 } };

  begin (&world, 15, 2);
  while (carpace_example_view (&world.example)->state != CARPACE_STATE_RATING_DUE)
    if (carpace_example_asks (&world.example))
      carpace_example_answer (&world.example);
    else
      carpace_example_go_on (&world.example, 1000);
  assert_true (carpace_example_tell (&world.example, &worst));
  to_the_end (&world, 2400);
  assert_int_equal (world.shown[CARPACE_CUE_RATING], 1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_card_is_shown),
    cmocka_unit_test (steps_do_not_matter),
    cmocka_unit_test (it_waits_while_a_card_asks),
    cmocka_unit_test (an_onlooker_may_answer),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
