/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-door-views.c: what a view says that no trace has. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "door.h"

static void
a_view_says_what_no_trace_has (void **state)
{
  Door *door = door_open (NULL);

  assert_ptr_equal (door->view.plan, &door->plan);
  assert_int_equal (door->view.day, CARPACE_NO_DAY);
  assert_false (door->view.has_decision);
  step (door, CARPACE_EVENT_MORNING, 0);
  assert_true (door->view.day != CARPACE_NO_DAY);
  assert_int_equal (door->view.day, carpace_session_day (&door->session));
  assert_true (door->view.has_decision);
  assert_int_equal (door->view.decision.scope, CARPACE_SCOPE_DAY);
  assert_int_equal (door->view.decision.after_ms, 60 * MINUTE);
  assert_false (door->view.without);
  free (door);
}

static void
a_view_knows_a_day_without_practice (void **state)
{
  Door *door = door_open (NULL);

  door->plan.without = 1 << CARPACE_WEEKDAY_TUESDAY;
  step (door, CARPACE_EVENT_START, 0);
  assert_true (door->view.without);
  assert_int_equal (door->view.limit_ms, 0); /* done: no block is next */
  assert_int_equal (door->view.n_ahead, 0);
  free (door);
}

/* Nothing comes after it, also before its last rating is given and the day done. */
static void
a_view_has_no_block_ahead_of_a_caution (void **state)
{
  Door *door = door_open (NULL);
  CarpaceEvent event;

  step (door, CARPACE_EVENT_START, 0);
  step (door, CARPACE_EVENT_END, 10 * MINUTE);
  assert_int_equal (door->view.n_ahead, 1);
  carpace_event_init (&event, CARPACE_EVENT_CAUTION);
  event.caution.answer = CARPACE_CAUTION_SIGNS;
  event.caution.signs = 1;
  carpace_session_step (&door->session, &event, at (10 * MINUTE), &door->told);
  carpace_view (&door->session, at (10 * MINUTE), &door->view);
  assert_int_equal (door->view.state, CARPACE_STATE_RATING_DUE);
  assert_int_equal (door->view.n_ahead, 0);
  free (door);
}

static void
a_view_shows_the_card_as_an_entry_would (void **state)
{
  Door *door = door_open (NULL);
  CarpaceEntry cue;

  door->plan.side = (CarpaceSide) (CARPACE_N_SIDES - 1);
  door->plan.shown[0] = CARPACE_EXERCISE_SHOULDER_ROLLS;
  step (door, CARPACE_EVENT_START, 0);
  until (door, 11 * MINUTE + 30000);
  assert_int_equal (door->view.rest.exercise, CARPACE_EXERCISE_SHOULDER_ROLLS);
  assert_int_equal (door->view.rest.side, CARPACE_N_SIDES - 1);
  assert_true (door->view.rest.both_sides);
  door->view.rest.between_drills = true;
  cue = carpace_view_cue (&door->view, CARPACE_CUE_MICRO_REST, at (7));
  assert_int_equal (cue.kind, CARPACE_ENTRY_CUE);
  assert_int_equal (cue.at.elapsed_ms, 7);
  assert_int_equal (cue.cue.cue, CARPACE_CUE_MICRO_REST);
  assert_int_equal (cue.cue.what, CARPACE_CUE_SHOWN);
  assert_int_equal (cue.cue.exercise, CARPACE_EXERCISE_SHOULDER_ROLLS);
  assert_true (cue.cue.between_drills);
  door->view.cue_asked[CARPACE_CUE_DAY_DONE] = true;
  cue = carpace_view_cue (&door->view, CARPACE_CUE_DAY_DONE, at (7));
  assert_int_equal (cue.cue.cue, CARPACE_CUE_DAY_DONE);
  assert_int_equal (cue.cue.what, CARPACE_CUE_ASKED);
  assert_int_equal (cue.cue.exercise, 0);
  assert_false (cue.cue.between_drills);
  free (door);
}

/* The mean is of the fourteen days before the last one, those that are known. */
/* Practice since the last rest, not all of the block's: the card speaks of it. */
static void
a_view_counts_from_the_last_rest (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 0);
  step (door, CARPACE_EVENT_STILL, 10 * MINUTE + 1000);
  assert_int_equal (door->view.rest.since_ms, 0); /* none is offered */
  until (door, 10 * MINUTE + 5000);
  assert_int_equal (door->view.rest.since_ms, 10 * MINUTE + 1000);
  assert_false (door->view.rest.since_rest);
  step (door, CARPACE_EVENT_REST, 10 * MINUTE + 6000);
  assert_int_equal (door->view.rest.since_ms, 10 * MINUTE + 1000);
  until (door, 11 * MINUTE);
  step (door, CARPACE_EVENT_INPUT, 11 * MINUTE);
  step (door, CARPACE_EVENT_STILL, 21 * MINUTE + 2000);
  until (door, 21 * MINUTE + 6000);
  assert_int_equal (door->view.rest.since_ms, 10 * MINUTE + 2000);
  assert_true (door->view.rest.since_rest);
  free (door);
}

/* How long the hand has moved; -1 while it is still. */
static void
a_view_says_how_long_the_hand_moves (void **state)
{
  Door *door = door_open (NULL);

  assert_int_equal (door->view.input_ms, -1);
  step (door, CARPACE_EVENT_INPUT, MINUTE);
  assert_int_equal (door->view.input_ms, 0);
  carpace_view (&door->session, at (MINUTE + 1), &door->view);
  assert_int_equal (door->view.input_ms, 1);
  step (door, CARPACE_EVENT_STILL, 3 * MINUTE);
  until (door, 4 * MINUTE);
  assert_int_equal (door->view.input_ms, -1);
  free (door);
}

/* On a date that is behind, under a caution or on a weekday without practice nothing is ahead. */
static void
blocks_ahead_of_a_day_to_come (void **state)
{
  static const struct { const char *name; bool behind, caution, without; int64_t dose_ms; int32_t n; } rows[] = {
    { "a day to come", false, false, false, 0, 2 },
    { "its own dose, however small", false, false, false, 1, 1 },
    { "a date behind", true, false, false, 0, 0 },
    { "under a caution", false, true, false, 0, 0 },
    { "without practice", false, false, true, 0, 0 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceHistory history;
      Door *door;

      print_message ("%s\n", rows[i].name);
      carpace_history_init (&history);
      history.n_days = 1;
      history.days[0].day = carpace_day_of (at (0), 4 * 60) - !rows[i].behind;
      history.days[0].morning.waking = history.days[0].morning.now = -1;
      history.caution_open = rows[i].caution;
      history.caution_since = history.days[0].day;
      history.dose_ms = rows[i].dose_ms;
      door = door_open (&history);
      door->plan.without = rows[i].without ? 1 << CARPACE_WEEKDAY_TUESDAY : 0;
      carpace_view (&door->session, at (0), &door->view);
      assert_true (door->view.day_over);
      assert_int_equal (door->view.day_behind, rows[i].behind);
      assert_int_equal (door->view.n_ahead, rows[i].n);
      free (door);
    }
}

/* One below its end, at it and above; and before it begins. */
static void
an_intermission_in_a_view (void **state)
{
  static const struct { int64_t at_ms; bool on; int64_t in_ms, to_go_ms; } rows[] = {
    { 2 * MINUTE - 1, true, 1, 5 * MINUTE + 1 }, { 2 * MINUTE, true, 0, 5 * MINUTE },
    { 7 * MINUTE - 1, true, 0, 1 }, { 7 * MINUTE, false, 0, 0 }, { 7 * MINUTE + 1, false, 0, 0 },
  };
  Door *door = door_open (NULL);
  CarpaceEvent event;

  door->plan.on_air_length_ms = 5 * MINUTE;
  step (door, CARPACE_EVENT_ON_AIR, 0);
  carpace_event_init (&event, CARPACE_EVENT_INTERMISSION);
  event.intermission.begins_ms = 2 * MINUTE;
  carpace_session_step (&door->session, &event, at (MINUTE), &door->told);
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      carpace_view (&door->session, at (rows[i].at_ms), &door->view);
      assert_int_equal (door->view.intermission, rows[i].on);
      assert_int_equal (door->view.intermission_in_ms, rows[i].in_ms);
      assert_int_equal (door->view.intermission_to_go_ms, rows[i].to_go_ms);
    }
  free (door);
}

static void
other_input_of_two_weeks (void **state)
{
  static const struct { const char *row; int32_t n, known; int64_t last, mean; } rows[] = {
    { "none", 0, 0, -1, -1 },
    { "one day, and none before it", 1, 1, 1, -1 },
    { "two days", 2, 2, 2, 1 },
    { "fifteen days", 15, 15, 1 << 14, ((1 << 14) - 1) / 14 },
    { "sixteen days", 16, 16, 1 << 15, ((1 << 15) - 2) / 14 },
    { "the last not known", 3, 2, -1, (1 + 2) / 2 },
    { "two of four not known", 4, 2, -1, (1 + 2) / 2 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceHistory history;
      Door *door;
      print_message ("%s\n", rows[i].row);
      carpace_history_init (&history);
      history.n_days = rows[i].n;
      for (int32_t day = 0; day < rows[i].n; day++)
        history.days[day].other_ms = day < rows[i].known ? INT64_C (1) << day : -1;
      door = door_open (&history);
      assert_int_equal (door->view.other_ms, rows[i].last);
      assert_int_equal (door->view.other_mean_ms, rows[i].mean);
      assert_int_equal (door->view.other_today_ms, -1);
      free (door);
    }
}

/* Days without an answer are shown; a day of no other input is one that is known. */
static void
days_of_silence_and_of_nothing (void **state)
{
  CarpaceHistory history;
  Door *door;

  carpace_history_init (&history);
  history.n_days = 3;
  for (int32_t day = 0; day < 3; day++)
    {
      history.days[day].day = 100 + day;
      history.days[day].done_ms = MINUTE;
      history.days[day].dose_ms = MINUTE;
      history.days[day].morning.waking = history.days[day].morning.now = -1;
      history.days[day].highest = -1;
    }
  history.days[1].other_ms = 10;
  door = door_open (&history);
  assert_int_equal (door->view.unanswered_days, carpace_history_unanswered_days (&history));
  assert_int_equal (door->view.unanswered_days, 3);
  assert_int_equal (door->view.other_mean_ms, 5);
  free (door);
}

/* A countdown whose end is told late, over a hand that has come back since. */
static void
a_countdown_told_late (void **state)
{
  Door *door = door_open (NULL);

  for (int asleep = 0; asleep <= 1; asleep++)
    {
      step (door, CARPACE_EVENT_START, 0);
      step (door, CARPACE_EVENT_REST, MINUTE);
      carpace_view (&door->session, at (MINUTE + 29999), &door->view);
      assert_int_equal (door->view.rest.remaining_ms, 1);
      carpace_view (&door->session, at (MINUTE + 30001), &door->view);
      assert_int_equal (door->view.rest.remaining_ms, 0);
      step (door, CARPACE_EVENT_INPUT, 2 * MINUTE);
      if (asleep)
        {
          step (door, CARPACE_EVENT_SUSPEND, 2 * MINUTE);
          step (door, CARPACE_EVENT_WAKE, 2 * MINUTE);
        }
      step (door, CARPACE_EVENT_DEADLINE, 2 * MINUTE + 1000);
      assert_int_equal (told (door, CARPACE_ENTRY_REST)->rest.what, CARPACE_REST_TAKEN);
      assert_int_equal (door->view.state, asleep ? CARPACE_STATE_GAP : CARPACE_STATE_PRACTISING);
      assert_int_equal (door->view.active_ms, MINUTE);
      carpace_view (&door->session, at (2 * MINUTE + 3000), &door->view);
      assert_int_equal (door->view.active_ms, asleep ? MINUTE : MINUTE + 2000);
      if (asleep)
        continue;
      step_fact (door, CARPACE_EVENT_STILL, 2 * MINUTE + 3000, 2 * MINUTE, false);
      until (door, 2 * MINUTE + 4000);
      assert_int_equal (door->view.active_ms, MINUTE); /* no stretch ends before it began */
      carpace_session_init (&door->session, NULL);
      step (door, CARPACE_EVENT_OPEN, 0);
    }
  free (door);
}

/* At its moment a rest is ahead, and no longer once that has gone by. */
static void
a_rest_ahead_to_the_ms (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 0);
  carpace_view (&door->session, at (10 * MINUTE), &door->view);
  assert_int_equal (door->view.next_cue, CARPACE_CUE_MICRO_REST);
  assert_int_equal (door->view.next_in_ms, 0);
  carpace_view (&door->session, at (10 * MINUTE + 1), &door->view);
  assert_int_equal (door->view.next_cue, CARPACE_CUE_LIMIT);
  free (door);
}

/* Off: nothing is taken, and a view is of nothing. */
static void
without_a_plan (void **state)
{
  CarpaceHistory history;
  Door *door = calloc (1, sizeof *door);

  carpace_history_init (&history);
  history.caution_open = history.on_air = true;
  carpace_session_init (&door->session, &history);
  step (door, CARPACE_EVENT_RATE, 0);
  assert_int_equal (told (door, CARPACE_ENTRY_FAULT)->fault.refusal, CARPACE_REFUSAL_NO_PLAN);
  assert_false (door->view.caution_gone_allowed || door->view.intermission);
  assert_int_equal (door->view.block, 0);
  free (door);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_view_says_what_no_trace_has),
    cmocka_unit_test (a_view_knows_a_day_without_practice),
    cmocka_unit_test (a_view_has_no_block_ahead_of_a_caution),
    cmocka_unit_test (a_view_shows_the_card_as_an_entry_would),
    cmocka_unit_test (a_view_counts_from_the_last_rest),
    cmocka_unit_test (a_view_says_how_long_the_hand_moves),
    cmocka_unit_test (blocks_ahead_of_a_day_to_come),
    cmocka_unit_test (an_intermission_in_a_view),
    cmocka_unit_test (other_input_of_two_weeks),
    cmocka_unit_test (days_of_silence_and_of_nothing),
    cmocka_unit_test (a_countdown_told_late),
    cmocka_unit_test (a_rest_ahead_to_the_ms),
    cmocka_unit_test (without_a_plan),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
