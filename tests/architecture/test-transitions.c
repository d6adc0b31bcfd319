/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the machine really goes, against where it says it can go: long random
 * days take no way that carpace_session_transitions[] does not hold, and every
 * way that it holds is taken. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/names.h"
#include "carpace/plan-builder.h"
#include "carpace/session.h"
#include "core/random.h"

#define WALKS 1500
#define STEPS 1500

static void
make_plan (CarpacePlan *ret_plan, double between_blocks_ms, double after_ms)
{
  static CarpacePlanBuilder builder;
  int32_t drill;

  carpace_plan_builder_init (&builder);
  carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "Two short blocks", 0);
  carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_BETWEEN_BLOCKS, between_blocks_ms, 0);
  carpace_plan_builder_number (&builder, CARPACE_KEY_MICRO_REST_AFTER, after_ms, 0);
  drill = carpace_plan_builder_drill (&builder, "corners", 0);
  carpace_plan_builder_drill_number (&builder, drill, CARPACE_DRILL_MOVEMENT, CARPACE_MOVEMENT_SMALL_TURN, 0);
  for (int block = 0; block < 2; block++)
    carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, 10 * CARPACE_MINUTE_MS, false, 0),
                               "corners", -1, 0);
  assert_true (carpace_plan_builder_finish (&builder, ret_plan));
}

/* The events of a player who presses anything, the likely ones more often. */
static CarpaceEvent
random_event (Random *random, int64_t now_ms)
{
  static const CarpaceEventKind often[] = {
    CARPACE_EVENT_INPUT, CARPACE_EVENT_STILL, CARPACE_EVENT_START, CARPACE_EVENT_RATE, CARPACE_EVENT_REST
  };
  CarpaceEvent event = { 0 };

  if (random_whole (random, 0, 9) < 7)
    event.kind = often[random_whole (random, 0, sizeof often / sizeof often[0] - 1)];
  else
    event.kind = random_whole (random, CARPACE_EVENT_INPUT, CARPACE_N_EVENTS - 1);
  if (event.kind == CARPACE_EVENT_INPUT || event.kind == CARPACE_EVENT_STILL)
    event.fact.since_ms = now_ms;
  if (event.kind == CARPACE_EVENT_INTERMISSION)
    event.intermission.begins_ms = now_ms;
  if (event.kind == CARPACE_EVENT_RATE)
    event.rate.discomfort = random_whole (random, 0, 19) == 0 ? 7 : random_whole (random, 0, 2);
  if (event.kind == CARPACE_EVENT_MORNING)
    event.morning = (CarpaceMorning){ .waking = random_whole (random, 0, 3) - 1,
                                      .now = random_whole (random, 0, 29) == 0 ? 8 : -1 };
  if (event.kind == CARPACE_EVENT_CAUTION)
    event.caution.answer = random_whole (random, 0, 39) == 0 ? CARPACE_CAUTION_SIGNS : CARPACE_CAUTION_SEEN;
  return event;
}

typedef struct
{
  CarpaceSession session;
  CarpaceInstant now;
  int taken[CARPACE_N_STATES][CARPACE_N_STATES];
} Walk;

static void
step (Walk *walk, const CarpaceEvent *event)
{
  CarpaceState from = carpace_session_state (&walk->session);
  CarpaceEntries entries;

  carpace_session_step (&walk->session, event, walk->now, &entries);
  walk->taken[from][carpace_session_state (&walk->session)]++;
}

static void
pass_to (Walk *walk, int64_t elapsed_ms)
{
  const CarpaceEvent deadline = { .kind = CARPACE_EVENT_DEADLINE };

  for (int64_t due; (due = carpace_session_next_deadline (&walk->session)) <= elapsed_ms;)
    {
      walk->now = carpace_instant_after (walk->now, due - walk->now.elapsed_ms);
      step (walk, &deadline);
    }
  walk->now = carpace_instant_after (walk->now, elapsed_ms - walk->now.elapsed_ms);
}

static void
take_walk (Walk *walk, const CarpacePlan *plan, Random *random)
{
  static const int32_t at_most[] = { 200, 20000, 400000, 2 * CARPACE_HOUR_MS, 14 * CARPACE_HOUR_MS };
  const CarpaceEvent open = { .kind = CARPACE_EVENT_OPEN, .open = { plan } };

  carpace_session_init (&walk->session, NULL);
  walk->now = (CarpaceInstant){ .elapsed_ms = 1000, .wall_ms = INT64_C (1800000000000) };
  step (walk, &open);
  for (int i = 0; i < STEPS; i++)
    {
      int32_t kind = random_whole (random, 0, 199);
      size_t pace = kind < 60 ? 0 : kind < 130 ? 1 : kind < 190 ? 2 : kind < 198 ? 3 : 4;
      CarpaceEvent event;

      pass_to (walk, walk->now.elapsed_ms + random_whole (random, 1, at_most[pace]));
      event = random_event (random, walk->now.elapsed_ms);
      step (walk, &event);
    }
}

static void
ways_are_those_of_the_table (void **state)
{
  static Walk walk;
  static CarpacePlan plans[3];
  bool held[CARPACE_N_STATES][CARPACE_N_STATES] = { { false } };
  int faults = 0;

  make_plan (&plans[0], 45.0 * CARPACE_MINUTE_MS, 5.0 * CARPACE_MINUTE_MS);
  make_plan (&plans[1], 0, 2.0 * CARPACE_MINUTE_MS);
  make_plan (&plans[2], 0, 8.0 * CARPACE_SECOND_MS);
  for (uint64_t seed = 1; seed <= WALKS; seed++)
    take_walk (&walk, &plans[seed % 3], &(Random){ seed });
  for (const CarpaceTransition *row = carpace_session_transitions; row->from != CARPACE_N_STATES; row++)
    held[row->from][row->to] = true;
  for (int from = 0; from < CARPACE_N_STATES; from++)
    for (int to = 0; to < CARPACE_N_STATES; to++)
      if (from != to && held[from][to] != (walk.taken[from][to] > 0))
        {
          print_error ("%s -> %s: %s\n", carpace_name (CARPACE_WORDS_STATE, from),
                       carpace_name (CARPACE_WORDS_STATE, to), held[from][to] ? "never taken" : "not in the table");
          faults++;
        }
  assert_int_equal (faults, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (ways_are_those_of_the_table) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
