/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What menu and window offer, state by state. Source of rows, order and
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

/* All that can be chosen, in its order, joined by `|`; a primary in [], a calm one in (),
 * a second one in <>. */
typedef struct
{
  const char *moment;
  const char *offered;
} Row;

#define EVER "|On air|Block plan|Diary…|Why this limit?|Cautions…|Practise in this window…|Settings…|Quit"

static const Row rows[] = {
  { "off", "No block plan in use|The first questions…|On air|[Block plan]|Diary…|Cautions…|Practise in this window…|Settings…|Quit" },
  { "waiting", "Block 2 of 4, 15 min|[Start block 2]|Start a match|This morning…" EVER },
  { "waits", "Block 2 of 4, from 18:45|(Start block 2)|Start a match|This morning…" EVER },
  { "no-practice", "No practice today|[This morning…]" EVER },
  { "behind", "Today is over; it was taken in from a file|On air|Block plan|(Diary…)|Why this limit?|Cautions…|Practise in this window…|Settings…|Quit" },
  { "morning", "Block 2 of 4, 15 min|[This morning…]|<Start block 2>|Start a match" EVER },
  { "caution-open", "No practice today|On air|Block plan|Diary…|Why this limit?|[Cautions…]|Practise in this window…|Settings…|Quit" },
  { "practising", "Block 2 of 4, 12 min to go|[Rest now]|<Pause>|End block 2|This morning…" EVER },
  { "gap", "Block 2 of 4, 12 min to go|[Rest now]|<Pause>|End block 2|This morning…" EVER },
  { "rest-offered", "Block 2 of 4, rest due, 12 min to go|[Rest now]|After this run|<Play on>|Pause|End block 2|This morning…" EVER },
  { "rest-running", "Block 2 of 4, resting, 12 min to go|(Pause)|End block 2|This morning…" EVER },
  { "limit-reached", "Block 2 of 4, limit reached|[End block 2]|This morning…" EVER },
  { "rating", "Block 1 ended, rating open|[Rate block 1…]|Start block 2|Start a match|This morning…" EVER },
  { "rating-given", "Block 2 of 4, 15 min|[Start block 2]|Start a match|This morning…|Correct the number…" EVER },
  { "paused", "Block 2 of 4, paused, 12 min to go|[Continue]|<End block 2>|This morning…" EVER },
  { "day-done", "Practice is done for today|Start a block|Start a match|[This morning…]" EVER },
  { "match", "Match, 3 min|<Pause>|[End the match]|This morning…" EVER },
  { "on-air", "On air|[Start]|Start a match|On air|Quit" },
};

static char *
offered (const CarpaceView *view)
{
  CarpaceItem items[CARPACE_N_ITEMS];
  GString *all = g_string_new (NULL);
  bool calm;
  CarpaceItemId first = carpace_items_primary (view, &calm), second = carpace_items_second (view);

  carpace_items_make (view, view_now (), items);
  for (int id = 0; id < CARPACE_N_ITEMS; id++)
    if (items[id].visible)
      g_string_append_printf (all, (int) first == id ? calm ? "%s(%s)" : "%s[%s]" : (int) second == id ? "%s<%s>" : "%s%s",
                              all->len > 0 ? "|" : "", items[id].label);
  carpace_items_clear (items);
  return g_string_free (all, FALSE);
}

static void
test_rows (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceView view;
      g_autofree char *all = NULL;

      assert_true (view_named (rows[i].moment, &view));
      all = offered (&view);
      print_message ("%s\n", rows[i].moment);
      assert_string_equal (all, rows[i].offered);
    }
}

/* Once answered it is asked no more, and a day that is done has nothing that calls. */
static void
test_morning_answered (void **state)
{
  CarpaceView view = view_of (CARPACE_STATE_DAY_DONE);
  g_autofree char *all = NULL;

  view.morning_asked = true;
  all = offered (&view);
  assert_string_equal (all, "Practice is done for today|Start a block|Start a match|On air|Block plan|(Diary…)|Why this limit?|Cautions…|Practise in this window…|Settings…|Quit");
}

/* What is first or second is among what is offered, and is never the same, in any state. */
static void
test_first_and_second_are_offered (void **state)
{
  for (size_t i = 0; view_names[i]; i++)
    for (int32_t s = 0; s < 2 * CARPACE_N_STATES; s++)
      {
        CarpaceItem items[CARPACE_N_ITEMS];
        CarpaceView view;
        CarpaceItemId first, second;
        bool calm;

        assert_true (view_named (view_names[i], &view));
        view.state = (CarpaceState) (s % CARPACE_N_STATES);
        view.plan = view.state == CARPACE_STATE_OFF ? NULL : view_plan ();
        view.on_air = s >= CARPACE_N_STATES;
        first = carpace_items_primary (&view, &calm);
        second = carpace_items_second (&view);
        carpace_items_make (&view, view_now (), items);
        assert_true (first < CARPACE_N_ITEMS && items[first].visible);
        assert_true (second == CARPACE_N_ITEMS || items[second].visible);
        assert_true (first != second);
        carpace_items_clear (items);
      }
}

/* A card that was put away has a row, and no other has; the keys stand in it where they do the same. */
static void
test_card_again (void **state)
{
  static const struct { bool waits; const char *chord, *label; } cases[] = {
    { false, NULL, "" }, { false, "Ctrl+Alt+H", "" }, { true, NULL, "Show the card again" },
    { true, "Ctrl+Alt+H", "Show the card again (Ctrl+Alt+H)" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceItem items[CARPACE_N_ITEMS];
      CarpaceView view = view_of (CARPACE_STATE_RATING_DUE);

      carpace_items_make (&view, view_now (), items);
      assert_false (items[CARPACE_ITEM_CARD_AGAIN].visible);
      carpace_items_set_card_again (items, cases[i].waits, cases[i].chord);
      assert_int_equal (items[CARPACE_ITEM_CARD_AGAIN].visible, cases[i].waits);
      assert_string_equal (items[CARPACE_ITEM_CARD_AGAIN].label, cases[i].label);
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
    { .id = CARPACE_ITEM_AFTER_RUN, .state = CARPACE_STATE_REST_DUE, .event = CARPACE_EVENT_AFTER_RUN },
    { .id = CARPACE_ITEM_PLAY_ON, .state = CARPACE_STATE_REST_DUE, .event = CARPACE_EVENT_PLAY_ON },
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
    cmocka_unit_test (test_rows),   cmocka_unit_test (test_card_again), cmocka_unit_test (test_start_asked), cmocka_unit_test (test_minutes),
    cmocka_unit_test (test_on_air), cmocka_unit_test (test_events),
    cmocka_unit_test (test_morning_answered), cmocka_unit_test (test_first_and_second_are_offered),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
