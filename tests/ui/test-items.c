/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What menu and small window offer, state by state. Source of rows, order and
 * words: the project's own list of words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glib.h>
#include <string.h>

#include "carpace/names.h"
#include "ui/items.h"
#include "views.h"

typedef struct
{
  const char *moment;
  const char *state_line;
  const char *start_or_end;
  bool can_start_or_end, can_rest;
  const char *pause_or_continue;
  bool can_pause;
  const char *rate; /* NULL: absent */
} Row;

static const Row rows[] = {
  { .moment = "off", .state_line = "No block plan in use", .start_or_end = "Start block 2", .pause_or_continue = "Pause" },
  { .moment = "waiting", .state_line = "Block 2 of 4, 15 min", .start_or_end = "Start block 2", .can_start_or_end = true,
    .pause_or_continue = "Pause" },
  { .moment = "waits", .state_line = "Block 2 of 4, from 18:45", .start_or_end = "Start block 2", .can_start_or_end = true,
    .pause_or_continue = "Pause" },
  { .moment = "no-practice", .state_line = "No practice today", .start_or_end = "Start block 2", .pause_or_continue = "Pause" },
  { .moment = "practising", .state_line = "Block 2 of 4, 12 min to go", .start_or_end = "End block 2", .can_start_or_end = true,
    .can_rest = true, .pause_or_continue = "Pause", .can_pause = true },
  { .moment = "gap", .state_line = "Block 2 of 4, 12 min to go", .start_or_end = "End block 2", .can_start_or_end = true,
    .can_rest = true, .pause_or_continue = "Pause", .can_pause = true },
  { .moment = "rest-due", .state_line = "Block 2 of 4, rest due, 12 min to go", .start_or_end = "End block 2", .can_start_or_end = true,
    .can_rest = true, .pause_or_continue = "Pause", .can_pause = true },
  { .moment = "resting", .state_line = "Block 2 of 4, resting, 12 min to go", .start_or_end = "End block 2", .can_start_or_end = true,
    .pause_or_continue = "Pause", .can_pause = true },
  { .moment = "limit-reached", .state_line = "Block 2 of 4, limit reached", .start_or_end = "End block 2", .can_start_or_end = true,
    .pause_or_continue = "Pause", .can_pause = true },
  { .moment = "rating", .state_line = "Block 1 ended, rating open", .start_or_end = "Start block 2", .can_start_or_end = true,
    .pause_or_continue = "Pause", .rate = "Rate block 1…" },
  { .moment = "paused", .state_line = "Block 2 of 4, paused, 12 min to go", .start_or_end = "End block 2", .can_start_or_end = true,
    .pause_or_continue = "Continue", .can_pause = true },
  { .moment = "day-done", .state_line = "Practice is done for today", .start_or_end = "Start a block", .can_start_or_end = true,
    .pause_or_continue = "Pause" },
  { .moment = "match", .state_line = "Match, 3 min", .start_or_end = "End the match", .can_start_or_end = true,
    .pause_or_continue = "Pause", .can_pause = true },
};

static void
test_rows (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Row *row = &rows[i];
      CarpaceItem items[CARPACE_N_ITEMS];
      CarpaceView view;

      print_message ("%s\n", row->moment);
      assert_true (view_named (row->moment, &view));
      carpace_items_make (&view, view_now (), items);
      assert_string_equal (items[CARPACE_ITEM_STATE].label, row->state_line);
      assert_false (items[CARPACE_ITEM_STATE].sensitive);
      assert_string_equal (items[CARPACE_ITEM_START_OR_END].label, row->start_or_end);
      assert_int_equal (items[CARPACE_ITEM_START_OR_END].sensitive, row->can_start_or_end);
      assert_int_equal (items[CARPACE_ITEM_REST].sensitive, row->can_rest);
      assert_string_equal (items[CARPACE_ITEM_PAUSE_OR_CONTINUE].label, row->pause_or_continue);
      assert_int_equal (items[CARPACE_ITEM_PAUSE_OR_CONTINUE].sensitive, row->can_pause);
      assert_int_equal (items[CARPACE_ITEM_RATE].visible, row->rate != NULL);
      if (row->rate)
        assert_string_equal (items[CARPACE_ITEM_RATE].label, row->rate);
      carpace_items_clear (items);
    }
}

/* A start that has been asked about says what a second one means. */
static void
test_start_asked (void **state)
{
  static const struct { CarpaceState state; bool rating_open; const char *label; } cases[] = {
    { .state = CARPACE_STATE_WAITING, .label = "Start block 2 early" },
    { .state = CARPACE_STATE_RATING_DUE, .rating_open = true, .label = "Start without a rating" },
    { .state = CARPACE_STATE_DAY_DONE, .label = "Start beyond the plan" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceItem items[CARPACE_N_ITEMS];
      CarpaceView view = view_of (cases[i].state);
      view.start_asks = true;
      view.rating.open = cases[i].rating_open;
      carpace_items_make (&view, view_now (), items);
      assert_string_equal (items[CARPACE_ITEM_START_OR_END].label, cases[i].label);
      carpace_items_clear (items);
    }
}

/* Minutes are rounded up: nothing to go is never shown while there is some. */
static void
test_minutes (void **state)
{
  static const struct { int64_t remaining_ms; const char *line; } cases[] = {
    { .remaining_ms = 12 * CARPACE_MINUTE_MS, .line = "Block 2 of 4, 12 min to go" },
    { .remaining_ms = 11 * CARPACE_MINUTE_MS + 1, .line = "Block 2 of 4, 12 min to go" },
    { .remaining_ms = 11 * CARPACE_MINUTE_MS, .line = "Block 2 of 4, 11 min to go" },
    { .remaining_ms = 1, .line = "Block 2 of 4, 1 min to go" },
    { .remaining_ms = 65 * CARPACE_MINUTE_MS, .line = "Block 2 of 4, 1 h 5 min to go" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceItem items[CARPACE_N_ITEMS];
      CarpaceView view = view_of (CARPACE_STATE_PRACTISING);
      view.remaining_ms = cases[i].remaining_ms;
      carpace_items_make (&view, view_now (), items);
      assert_string_equal (items[CARPACE_ITEM_STATE].label, cases[i].line);
      carpace_items_clear (items);
    }
}

/* On air no row that shows names hand, rating, load or health, in any state. */
static void
test_on_air (void **state)
{
  static const char *const unsaid[] = { "hand", "rat", "discomfort", "rest", "caution", "limit", "practi", "dose", "stretch",
                                        "massage", "diary", "pain", "block" };

  for (int32_t s = 0; s < CARPACE_N_STATES; s++)
    {
      CarpaceItem items[CARPACE_N_ITEMS];
      CarpaceView view = view_of ((CarpaceState) s);
      view.on_air = true;
      view.rating.open = s == CARPACE_STATE_RATING_DUE;
      carpace_items_make (&view, view_now (), items);
      for (int32_t id = 0; id < CARPACE_N_ITEMS; id++)
        for (size_t word = 0; items[id].visible && word < G_N_ELEMENTS (unsaid); word++)
          {
            g_autofree char *lower = g_utf8_strdown (items[id].label, -1);
            /* "start" holds "rat" nowhere; "intermission" none of them */
            assert_null (strstr (lower, unsaid[word]));
          }
      assert_true (items[CARPACE_ITEM_ON_AIR].on);
      carpace_items_clear (items);
    }
}

static void
test_events (void **state)
{
  static const struct { CarpaceItemId id; CarpaceState state; bool on_air; CarpaceEventKind event; } cases[] = {
    { .id = CARPACE_ITEM_START_OR_END, .state = CARPACE_STATE_WAITING, .event = CARPACE_EVENT_START },
    { .id = CARPACE_ITEM_START_OR_END, .state = CARPACE_STATE_PAUSED, .event = CARPACE_EVENT_END },
    { .id = CARPACE_ITEM_REST, .state = CARPACE_STATE_GAP, .event = CARPACE_EVENT_REST },
    { .id = CARPACE_ITEM_PAUSE_OR_CONTINUE, .state = CARPACE_STATE_GAP, .event = CARPACE_EVENT_PAUSE },
    { .id = CARPACE_ITEM_PAUSE_OR_CONTINUE, .state = CARPACE_STATE_PAUSED, .event = CARPACE_EVENT_CONTINUE },
    { .id = CARPACE_ITEM_MATCH_START, .state = CARPACE_STATE_WAITING, .event = CARPACE_EVENT_START_MATCH },
    { .id = CARPACE_ITEM_MATCH_END, .state = CARPACE_STATE_PRACTISING, .event = CARPACE_EVENT_END },
    { .id = CARPACE_ITEM_ON_AIR, .state = CARPACE_STATE_GAP, .event = CARPACE_EVENT_ON_AIR },
    { .id = CARPACE_ITEM_ON_AIR, .state = CARPACE_STATE_GAP, .on_air = true, .event = CARPACE_EVENT_OFF_AIR },
  };
  CarpaceEvent event;
  CarpaceView view = view_of (CARPACE_STATE_WAITING);

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceView of = view_of (cases[i].state);
      of.on_air = cases[i].on_air;
      assert_true (carpace_item_event (cases[i].id, &of, &event));
      assert_int_equal (event.kind, cases[i].event);
    }
  assert_false (carpace_item_event (CARPACE_ITEM_RATE, &view, &event));
  assert_false (carpace_item_event (CARPACE_ITEM_QUIT, &view, &event));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_rows),   cmocka_unit_test (test_start_asked), cmocka_unit_test (test_minutes),
    cmocka_unit_test (test_on_air), cmocka_unit_test (test_events),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
