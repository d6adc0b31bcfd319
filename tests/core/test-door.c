/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-door.c: a session stepped by hand: how it begins, time that goes back, what
 * is believed and what is told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "door.h"

static void
begins_with_nothing_left_over (void **state)
{
  CarpaceSession *a = malloc (sizeof *a), *b = malloc (sizeof *b);

  memset (a, 0xa5, sizeof *a);
  memset (b, 0x5a, sizeof *b);
  carpace_session_init (a, NULL);
  carpace_session_init (b, NULL);
  assert_memory_equal (a, b, sizeof *a);
  assert_int_equal (carpace_session_state (a), CARPACE_STATE_OFF);
  assert_null (carpace_session_plan (a));
  assert_false (carpace_session_block_runs (a));
  assert_false (carpace_session_hand_moves (a));
  assert_false (carpace_session_is_suspended (a));
  assert_int_equal (carpace_session_day (a), CARPACE_NO_DAY);
  assert_true (carpace_session_next_deadline (a) == CARPACE_NEVER);
  assert_true (carpace_session_history (a)->straight_back);
  assert_true (carpace_session_history_at_opening (a)->straight_back);
  free (a);
  free (b);
}

/* What was on the screen as the program ended, and whether a stream was on. */
static void
begins_with_what_was_kept (void **state)
{
  static const struct { const char *row; bool shown, on_air, cue, after; } rows[] = {
    { "no caution", false, false, false, false },
    { "a stream alone", false, true, false, false },
    { "a caution's text", true, false, true, true },
    { "a caution held back until the stream ends", true, true, false, true },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceHistory history;
      Door *door;
      print_message ("%s\n", rows[i].row);
      carpace_history_init (&history);
      history.caution_shown = rows[i].shown;
      history.on_air = rows[i].on_air;
      history.shown_next = 3;
      door = door_open (&history);
      assert_int_equal (carpace_session_history (&door->session)->shown_next, 3);
      assert_int_equal (carpace_session_history_at_opening (&door->session)->shown_next, 3);
      assert_int_equal (door->view.cue_on[CARPACE_CUE_CAUTION], rows[i].cue);
      assert_int_equal (door->view.on_air, rows[i].on_air);
      assert_false (door->view.intermission);
      step (door, CARPACE_EVENT_OFF_AIR, 10);
      assert_int_equal (door->view.cue_on[CARPACE_CUE_CAUTION], rows[i].after);
      assert_int_equal (told (door, CARPACE_ENTRY_CUE) != NULL, rows[i].shown && rows[i].on_air);
      step (door, CARPACE_EVENT_ON_AIR, 20);
      step (door, CARPACE_EVENT_OFF_AIR, 30);
      assert_int_equal (door->view.cue_on[CARPACE_CUE_CAUTION], rows[i].after);
      free (door);
    }
}

/* The hand is what it was as the day opened; a pause begun before comes to its gap. */
static void
begins_with_the_hand_that_was_kept (void **state)
{
  static const struct { const char *row; CarpaceHand hand; bool moves; int64_t gap_ms; } rows[] = {
    { "still", CARPACE_HAND_STILL, false, CARPACE_NEVER },
    { "moving", CARPACE_HAND_MOVING, true, CARPACE_NEVER },
    { "paused 1 s before", CARPACE_HAND_PAUSING, false, 3000 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpaceHistory history;
      Door *door;
      print_message ("%s\n", rows[i].row);
      carpace_history_init (&history);
      history.hand = rows[i].hand;
      history.moving_since = -5000;
      history.still_since = -1000;
      door = door_open (&history);
      assert_int_equal (carpace_session_hand_moves (&door->session), rows[i].moves);
      assert_int_equal (carpace_session_next_deadline (&door->session), rows[i].gap_ms);
      step (door, CARPACE_EVENT_START, 10);
      assert_int_equal (carpace_session_history_at_opening (&door->session)->hand, rows[i].hand);
      assert_int_equal (carpace_session_history_at_opening (&door->session)->moving_since, -5000);
      assert_int_equal (carpace_session_history_at_opening (&door->session)->still_since, -1000);
      assert_int_equal (door->session.today.other_ms, rows[i].moves ? 5010 : 0);
      free (door);
    }
}

static void
accessors_say_what_is (void **state)
{
  Door *door = door_open (NULL);

  assert_int_equal (carpace_session_day (&door->session), CARPACE_NO_DAY);
  assert_false (carpace_entries_opened_day (&door->told));
  step (door, CARPACE_EVENT_START, MINUTE);
  assert_true (carpace_entries_opened_day (&door->told));
  assert_int_equal (carpace_session_day (&door->session), door->view.day);
  assert_true (carpace_session_hand_moves (&door->session) && carpace_session_block_runs (&door->session));
  assert_ptr_equal (carpace_session_plan (&door->session), &door->plan);
  step (door, CARPACE_EVENT_STILL, 2 * MINUTE);
  assert_false (carpace_session_hand_moves (&door->session));
  step (door, CARPACE_EVENT_SUSPEND, 2 * MINUTE);
  assert_true (carpace_session_is_suspended (&door->session));
  assert_true (carpace_session_next_deadline (&door->session) == CARPACE_NEVER);
  step (door, CARPACE_EVENT_WAKE, 2 * MINUTE + 1);
  assert_false (carpace_session_is_suspended (&door->session));
  step (door, CARPACE_EVENT_SUSPEND, 3 * MINUTE);
  step (door, CARPACE_EVENT_INPUT, 3 * MINUTE + 1);
  assert_false (carpace_session_is_suspended (&door->session)); /* whoever says something is awake */
  free (door);
}

/* Entries that are no day, before and behind one that is. */
static void
only_a_day_opened_is_one (void **state)
{
  CarpaceEntries *entries = calloc (1, sizeof *entries);

  entries->n = 1;
  entries->entry[0].kind = CARPACE_ENTRY_DAY;
  entries->entry[0].day.what = CARPACE_DAY_DONE;
  entries->entry[1].kind = CARPACE_ENTRY_DAY;
  entries->entry[1].day.what = CARPACE_DAY_OPENED;
  assert_false (carpace_entries_opened_day (entries));
  entries->n = 2;
  assert_true (carpace_entries_opened_day (entries));
  entries->entry[1].kind = CARPACE_ENTRY_STATE;
  assert_false (carpace_entries_opened_day (entries));
  entries->entry[0].day.what = CARPACE_DAY_OPENED;
  assert_true (carpace_entries_opened_day (entries));
  free (entries);
}

/* Time that goes back stands still; a view is of no time before the last step. */
static void
time_never_goes_back (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 5 * MINUTE);
  step (door, CARPACE_EVENT_PAUSE, 4 * MINUTE);
  assert_int_equal (told (door, CARPACE_ENTRY_STATE)->at.elapsed_ms, 5 * MINUTE);
  assert_int_equal (door->view.active_ms, 0);
  step (door, CARPACE_EVENT_CONTINUE, 3 * MINUTE);
  assert_int_equal (told (door, CARPACE_ENTRY_STATE)->at.elapsed_ms, 5 * MINUTE);
  carpace_view (&door->session, at (6 * MINUTE), &door->view);
  assert_int_equal (door->view.active_ms, MINUTE);
  free (door);
}

/* A deadline that has not come is none. */
static void
nothing_comes_before_its_time (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 0);
  step (door, CARPACE_EVENT_DEADLINE, MINUTE);
  assert_int_equal (door->told.n, 0);
  assert_int_equal (carpace_session_state (&door->session), CARPACE_STATE_PRACTISING);
  assert_int_equal (door->view.next_cue, CARPACE_CUE_MICRO_REST);
  until (door, 30 * MINUTE);
  assert_int_equal (carpace_session_state (&door->session), CARPACE_STATE_LIMIT_REACHED);
  free (door);
}

/* Whether a cue comes in a run is how quiet its notice is. */
static void
a_cue_says_whether_it_is_in_a_run (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 0);
  until (door, 11 * MINUTE + 30000);
  assert_true (told (door, CARPACE_ENTRY_CUE)->cue.in_run);
  until (door, 30 * MINUTE);
  assert_true (door->told.entry[door->told.n - 1].cue.in_run); /* the limit */
  step (door, CARPACE_EVENT_END, 30 * MINUTE + 1000);
  assert_false (door->told.entry[door->told.n - 1].cue.in_run); /* the rating */
  free (door);
}

/* What a fact says of the past is believed between what was known before and now. */
static void
facts_of_the_past (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 0);
  step_fact (door, CARPACE_EVENT_STILL, 3 * MINUTE, 2 * MINUTE, false);
  until (door, 3 * MINUTE);
  assert_int_equal (door->view.active_ms, 2 * MINUTE);
  step_fact (door, CARPACE_EVENT_INPUT, 3 * MINUTE + 10000, 3 * MINUTE + 4000, false);
  assert_int_equal (door->view.active_ms, 2 * MINUTE + 6000); /* from when it was, not from when it was told */
  step_fact (door, CARPACE_EVENT_STILL, 4 * MINUTE, 4 * MINUTE, false);
  until (door, 4 * MINUTE + 5000);
  step_fact (door, CARPACE_EVENT_INPUT, 4 * MINUTE + 10000, MINUTE, false);
  assert_int_equal (door->view.active_ms, 2 * MINUTE + 56000 + 10000); /* from the last stillness at most */
  step (door, CARPACE_EVENT_PAUSE, 5 * MINUTE);
  step (door, CARPACE_EVENT_CONTINUE, 6 * MINUTE);
  step_fact (door, CARPACE_EVENT_STILL, 6 * MINUTE + 3000, 5 * MINUTE, false);
  assert_int_equal (carpace_session_next_deadline (&door->session), 6 * MINUTE + 4000);
  free (door);
}

static void
uncounted_facts_are_none (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_MORNING, 0);
  step_fact (door, CARPACE_EVENT_INPUT, 1000, 1000, true);
  step_fact (door, CARPACE_EVENT_STILL, 2000, 2000, true);
  assert_int_equal (door->view.other_today_ms, -1);
  step_fact (door, CARPACE_EVENT_INPUT, 3000, 3000, false);
  assert_int_equal (door->view.other_today_ms, 0);
  free (door);
}

/* Switched off for a while, minutes of that while are not told once it is on again. */
static void
minutes_that_are_not_summed (void **state)
{
  static const struct { const char *row; bool input, still, starts; int64_t sum_ms; } rows[] = {
    { "all of it is summed", false, false, false, 3 * MINUTE },
    { "off for a stretch", true, true, false, MINUTE },
    { "off as it began", true, false, false, MINUTE },
    { "off before it ended", false, true, false, MINUTE },
    { "summed up to a start", false, false, true, 3 * MINUTE },
    { "off up to a start", true, false, true, MINUTE },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Door *door = door_open (NULL);

      step (door, CARPACE_EVENT_MORNING, 0);
      step_fact (door, CARPACE_EVENT_INPUT, MINUTE, MINUTE, rows[i].input);
      if (rows[i].starts)
        {
          step (door, CARPACE_EVENT_START, 3 * MINUTE);
          step (door, CARPACE_EVENT_END, 3 * MINUTE + 1000);
        }
      step_fact (door, CARPACE_EVENT_STILL, 3 * MINUTE + 2000, rows[i].starts ? 3 * MINUTE + 1000 : 3 * MINUTE, rows[i].still);
      until (door, 4 * MINUTE);
      step_fact (door, CARPACE_EVENT_INPUT, 4 * MINUTE, 4 * MINUTE, false);
      step_fact (door, CARPACE_EVENT_STILL, 5 * MINUTE, 5 * MINUTE, false);
      until (door, 6 * MINUTE);
      if (door->view.other_today_ms != rows[i].sum_ms)
        fail_msg ("%s: %lld", rows[i].row, (long long) door->view.other_today_ms);
      free (door);
    }
}

/* A restart does not know what was told of a stretch before the day opened: nor does the day that goes on. */
static void
a_stretch_that_a_day_opens_in (void **state)
{
  Door *door = door_open (NULL);

  step_fact (door, CARPACE_EVENT_INPUT, 1000, 1000, true);
  step (door, CARPACE_EVENT_MORNING, MINUTE);
  step_fact (door, CARPACE_EVENT_STILL, 2 * MINUTE, 2 * MINUTE, false);
  until (door, 3 * MINUTE);
  assert_int_equal (door->view.other_today_ms, 2 * MINUTE - 1000);
  free (door);
}

/* Nor is it asked about, whatever went on before. */
static void
uncounted_input_begins_nothing (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_MORNING, 0);
  step_fact (door, CARPACE_EVENT_INPUT, 1000, 1000, false);
  step_fact (door, CARPACE_EVENT_STILL, 2000, 2000, false);
  until (door, MINUTE);
  step_fact (door, CARPACE_EVENT_INPUT, MINUTE, MINUTE, true);
  assert_int_equal (carpace_session_next_deadline (&door->session), CARPACE_NEVER);
  free (door);
}

/* What it does past the block's end, elsewhere, is none of the block: it moves, and is still once that is told. */
static void
a_hand_elsewhere_as_its_block_ends (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 0);
  step (door, CARPACE_EVENT_AWAY, MINUTE);
  step (door, CARPACE_EVENT_INPUT, MINUTE + 1000);
  until (door, 2 * MINUTE);
  step (door, CARPACE_EVENT_END, 2 * MINUTE);
  assert_true (carpace_session_hand_moves (&door->session));
  step (door, CARPACE_EVENT_STILL, 3 * MINUTE);
  until (door, 4 * MINUTE);
  assert_false (carpace_session_hand_moves (&door->session));
  assert_int_equal (door->view.other_today_ms, MINUTE);
  free (door);
}

/* From the block's end on what it does is none of the block, all of it: coming back was told once. */
static void
a_hand_that_came_back_goes_on (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_START, 0);
  step (door, CARPACE_EVENT_AWAY, MINUTE);
  step (door, CARPACE_EVENT_INPUT, MINUTE + 1000);
  step (door, CARPACE_EVENT_FRONT, 2 * MINUTE);
  step (door, CARPACE_EVENT_END, 4 * MINUTE);
  step (door, CARPACE_EVENT_OFF_AIR, 5 * MINUTE);
  step (door, CARPACE_EVENT_STILL, 6 * MINUTE);
  until (door, 7 * MINUTE);
  assert_int_equal (door->view.other_today_ms, 2 * MINUTE);
  free (door);
}

static void
intermission (Door *door, int64_t ms, int64_t begins_ms)
{
  CarpaceEvent event;

  carpace_event_init (&event, CARPACE_EVENT_INTERMISSION);
  event.intermission.begins_ms = begins_ms;
  carpace_session_step (&door->session, &event, at (ms), &door->told);
}

/* One that begins now comes now; one that has begun is only looked at. */
static void
intermissions_ahead (void **state)
{
  Door *door = door_open (NULL);

  step (door, CARPACE_EVENT_ON_AIR, 0);
  intermission (door, MINUTE, MINUTE - 1);
  assert_true (carpace_session_next_deadline (&door->session) == CARPACE_NEVER);
  intermission (door, MINUTE, MINUTE);
  assert_int_equal (carpace_session_next_deadline (&door->session), MINUTE);
  intermission (door, MINUTE, MINUTE + 1);
  assert_int_equal (carpace_session_next_deadline (&door->session), MINUTE + 1);
  step (door, CARPACE_EVENT_OFF_AIR, MINUTE);
  assert_true (carpace_session_next_deadline (&door->session) == CARPACE_NEVER);
  free (door);
}

/* With its stream an intermission is over, also for the next stream. */
static void
an_intermission_ends_with_its_stream (void **state)
{
  Door *door = door_open (NULL);

  door->plan.on_air_length_ms = 5 * MINUTE;
  step (door, CARPACE_EVENT_ON_AIR, 0);
  intermission (door, MINUTE, MINUTE);
  until (door, MINUTE);
  assert_true (door->view.intermission);
  step (door, CARPACE_EVENT_OFF_AIR, MINUTE + 10);
  assert_false (door->view.intermission);
  step (door, CARPACE_EVENT_ON_AIR, MINUTE + 20);
  assert_false (door->view.intermission);
  free (door);
}

/* On 1 January 1970, day 0, the morning is asked about as on any other. */
static void
the_first_of_days (void **state)
{
  Door *door = calloc (1, sizeof *door);
  CarpaceEvent event;

  carpace_trace_plan (&door->plan, 1, 30);
  carpace_session_init (&door->session, NULL);
  carpace_event_init (&event, CARPACE_EVENT_OPEN);
  event.open.plan = &door->plan;
  carpace_session_step (&door->session, &event, (CarpaceInstant) { .wall_ms = CARPACE_DAY_MS / 2 }, &door->told);
  assert_non_null (told (door, CARPACE_ENTRY_CUE));
  free (door);
}

/* A day that came without its events is over: its date has no second dose. */
static void
a_date_behind_has_no_second_day (void **state)
{
  static const CarpaceEventKind opens[] = { CARPACE_EVENT_START, CARPACE_EVENT_START_MATCH, CARPACE_EVENT_MORNING };
  static const struct { int32_t days_ago; bool refused; } rows[] = { { -1, false }, { 0, true }, { 1, false } };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0] * sizeof opens / sizeof opens[0]; i++)
    {
      CarpaceHistory history;
      Door *door;
      CarpaceEventKind kind = opens[i % (sizeof opens / sizeof opens[0])];
      bool refused = rows[i / (sizeof opens / sizeof opens[0])].refused;

      carpace_history_init (&history);
      history.n_days = 1;
      history.days[0].day = carpace_day_of (at (0), 4 * 60) - rows[i / (sizeof opens / sizeof opens[0])].days_ago;
      history.days[0].morning.waking = history.days[0].morning.now = -1;
      door = door_open (&history);
      assert_int_equal (told (door, CARPACE_ENTRY_CUE) == NULL, refused); /* the morning check */
      step (door, kind, MINUTE);
      assert_int_equal (told (door, CARPACE_ENTRY_FAULT) != NULL, refused);
      assert_int_equal (door->view.day != CARPACE_NO_DAY, !refused);
      if (refused)
        assert_int_equal (told (door, CARPACE_ENTRY_FAULT)->fault.refusal, CARPACE_REFUSAL_DAY_BEHIND);
      if (refused)
        step (door, kind, CARPACE_DAY_MS); /* the next date has its own */
      assert_null (told (door, CARPACE_ENTRY_FAULT));
      free (door);
    }
}

/* Nor is a block of it asked about, or begun, as the window comes to the front. */
static void
a_date_behind_is_not_asked_about (void **state)
{
  static const CarpaceEventKind comes[] = { CARPACE_EVENT_FRONT, CARPACE_EVENT_FRONT_STARTS };

  for (int i = 0; i < 4; i++)
    {
      bool behind = i % 2;
      CarpaceHistory history;
      Door *door;

      carpace_history_init (&history);
      history.n_days = 1;
      history.days[0].day = carpace_day_of (at (0), 4 * 60) - !behind;
      history.days[0].morning.waking = history.days[0].morning.now = -1;
      door = door_open (&history);
      step (door, CARPACE_EVENT_AWAY, 1000);
      step (door, comes[i / 2], MINUTE);
      assert_int_equal (door->told.n > 0, !behind);
      assert_int_equal (door->view.cue_on[CARPACE_CUE_UNSTARTED] || carpace_session_block_runs (&door->session), !behind);
      free (door);
    }
}

static void
the_next_plan_comes_with_the_next_day (void **state)
{
  Door *door = door_open (NULL);
  CarpacePlan *next = calloc (1, sizeof *next);
  CarpaceEvent event;

  carpace_trace_plan (next, 3, 20);
  step (door, CARPACE_EVENT_MORNING, 0);
  carpace_event_init (&event, CARPACE_EVENT_OPEN);
  event.open.plan = next;
  carpace_session_step (&door->session, &event, at (MINUTE), &door->told);
  assert_ptr_equal (carpace_session_plan (&door->session), &door->plan);
  step (door, CARPACE_EVENT_MORNING, CARPACE_DAY_MS);
  assert_ptr_equal (carpace_session_plan (&door->session), next);
  free (next);
  free (door);
}

/* Stretches of weeks: runs are counted as far as they can be. */
static void
runs_do_not_overflow (void **state)
{
  static const struct { const char *row; int64_t first_ms, second_ms; int32_t runs; } rows[] = {
    { "a stretch of one run too many", INT64_C (1) << 30, 0, INT32_MAX / 2 },
    { "a stretch of as many as there can be", (INT64_C (1) << 30) - 1, 0, INT32_MAX / 2 },
    { "a stretch of one less", (INT64_C (1) << 30) - 2, 0, INT32_MAX / 2 - 1 },
    { "more than a third, and five", 800000000, 5, 800000005 },
    { "all of them, and five", INT64_C (1) << 30, 5, INT32_MAX / 2 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      Door *door = door_open (NULL);
      print_message ("%s\n", rows[i].row);
      door->plan.run_min_ms = door->plan.drills[0].run_ms = 1;
      step (door, CARPACE_EVENT_START, 0);
      step (door, CARPACE_EVENT_PAUSE, rows[i].first_ms);
      step (door, CARPACE_EVENT_CONTINUE, rows[i].first_ms);
      step (door, CARPACE_EVENT_PAUSE, rows[i].first_ms + rows[i].second_ms);
      assert_int_equal (door->view.runs, rows[i].runs);
      free (door);
    }
}

/* A step that told more than it has room for would tell the last of it. */
static void
a_step_has_room (void **state)
{
  Door *door = door_open (NULL);
  CarpaceStep step = { .s = &door->session, .now = at (0), .out = &door->told };

  door->told.n = 0;
  for (int32_t i = 0; i < CARPACE_STEP_ENTRIES + 2; i++)
    carpace_tell (&step, CARPACE_ENTRY_STATE)->state = (CarpaceState) (i % CARPACE_N_STATES);
  assert_int_equal (door->told.n, CARPACE_STEP_ENTRIES);
  for (int32_t i = 0; i < CARPACE_STEP_ENTRIES - 1; i++)
    assert_int_equal (door->told.entry[i].state, i % CARPACE_N_STATES);
  assert_int_equal (door->told.entry[CARPACE_STEP_ENTRIES - 1].state, (CARPACE_STEP_ENTRIES + 1) % CARPACE_N_STATES);
  free (door);
}

/* A way that the diagram does not have is told as a fault, and gone. */
static void
ways_are_those_of_the_table (void **state)
{
  Door *door = door_open (NULL);
  CarpaceEvent event = { .kind = CARPACE_EVENT_END };

  for (int from = 0; from < CARPACE_N_STATES; from++)
    for (int to = 0; to < CARPACE_N_STATES; to++)
      {
        CarpaceStep step = { .s = &door->session, .now = at (0), .out = &door->told, .event = &event };
        bool there = from == to;
        for (const CarpaceTransition *t = carpace_session_transitions; t->from != CARPACE_N_STATES; t++)
          there = there || ((int) t->from == from && (int) t->to == to);
        door->told.n = 0;
        door->session.state = (CarpaceState) from;
        carpace_session_goto (&step, (CarpaceState) to);
        assert_int_equal (door->session.state, to);
        assert_int_equal (door->told.n, there ? 0 : 1);
        if (there)
          continue;
        assert_int_equal (door->told.entry[0].fault.refusal, CARPACE_REFUSAL_IMPOSSIBLE);
        assert_int_equal (door->told.entry[0].fault.state, to);
      }
  free (door);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (begins_with_nothing_left_over),
    cmocka_unit_test (begins_with_what_was_kept),
    cmocka_unit_test (begins_with_the_hand_that_was_kept),
    cmocka_unit_test (accessors_say_what_is),
    cmocka_unit_test (only_a_day_opened_is_one),
    cmocka_unit_test (time_never_goes_back),
    cmocka_unit_test (nothing_comes_before_its_time),
    cmocka_unit_test (a_cue_says_whether_it_is_in_a_run),
    cmocka_unit_test (facts_of_the_past),
    cmocka_unit_test (uncounted_facts_are_none),
    cmocka_unit_test (minutes_that_are_not_summed),
    cmocka_unit_test (a_stretch_that_a_day_opens_in),
    cmocka_unit_test (uncounted_input_begins_nothing),
    cmocka_unit_test (a_hand_elsewhere_as_its_block_ends),
    cmocka_unit_test (a_hand_that_came_back_goes_on),
    cmocka_unit_test (intermissions_ahead),
    cmocka_unit_test (the_first_of_days),
    cmocka_unit_test (an_intermission_ends_with_its_stream),
    cmocka_unit_test (a_date_behind_has_no_second_day),
    cmocka_unit_test (a_date_behind_is_not_asked_about),
    cmocka_unit_test (the_next_plan_comes_with_the_next_day),
    cmocka_unit_test (runs_do_not_overflow),
    cmocka_unit_test (a_step_has_room),
    cmocka_unit_test (ways_are_those_of_the_table),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
