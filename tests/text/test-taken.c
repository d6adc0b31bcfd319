/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-taken.c: what a live command says where it was taken, and the status line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <glib.h>

#include "text/text.h"

#define MINUTES(n) ((n) * CARPACE_MINUTE_MS)

static CarpacePlan plan = { .stop_above = 5 };

static CarpaceInstant
at_six (void)
{
  CarpaceInstant now;
  assert_true (carpace_instant_read ("2027-03-02T18:00:00+01:00", &now));
  return now;
}

static void
taken (void **state)
{
  static const struct { const char *row; CarpaceEventKind event; CarpaceView view; const char *says; } rows[] = {
    { "started", CARPACE_EVENT_START, { .state = CARPACE_STATE_PRACTISING }, NULL },
    { "too early", CARPACE_EVENT_START, { .state = CARPACE_STATE_WAITING, .start_asks = true, .block = 2, .next_in_ms = MINUTES (45) },
      "Start again to begin now: the next block is planned from 18:45." },
    { "beyond", CARPACE_EVENT_START, { .state = CARPACE_STATE_DAY_DONE, .start_asks = true, .cue_asked = { [CARPACE_CUE_DAY_DONE] = true } },
      "Start again to practise beyond the plan: practice is done for today." },
    { "over a rating", CARPACE_EVENT_START_MATCH, { .state = CARPACE_STATE_RATING_DUE, .start_asks = true, .rating = { .open = true } },
      "Rate first, or start again to begin without a rating." },
    { "on air", CARPACE_EVENT_START, { .state = CARPACE_STATE_RATING_DUE, .start_asks = true, .on_air = true, .rating = { .open = true } },
      "Start again to go on" },
    { "rated", CARPACE_EVENT_RATE, { .state = CARPACE_STATE_WAITING, .plan = &plan, .block = 2, .limit_ms = 1170000, .has_decision = true,
      .rating = { .block = 1, .given = 3 }, .decision = { .scope = CARPACE_SCOPE_BLOCK, .block = 1, .rule = CARPACE_RULE_KEEP, .before_ms = 1800000, .after_ms = 1170000 } },
      "Next block shorter: 19 min 30 s. Discomfort 3 is noted. What was shortened today stays." },
    { "a lower number, late", CARPACE_EVENT_RATE, { .state = CARPACE_STATE_WAITING, .plan = &plan, .block = 2, .limit_ms = 1170000, .has_decision = true,
      .rating = { .block = 1, .given = 4 }, .decision = { .scope = CARPACE_SCOPE_BLOCK, .block = 1, .rule = CARPACE_RULE_UP_2, .before_ms = 1800000, .after_ms = 1170000 } },
      "Discomfort 3 is noted beside 4; what 4 decided today stays." },
    { "a correction that loosens", CARPACE_EVENT_RATE, { .state = CARPACE_STATE_WAITING, .plan = &plan, .block = 2, .limit_ms = 1800000, .has_decision = true,
      .rating = { .block = 1, .given = 3 }, .decision = { .scope = CARPACE_SCOPE_BLOCK, .block = 1, .rule = CARPACE_RULE_KEEP, .before_ms = 1530000, .after_ms = 1800000 } },
      "Next block: 30 min. Discomfort 3 is noted: what the number before it had shortened is taken back." },
    { "rated on air", CARPACE_EVENT_RATE, { .state = CARPACE_STATE_WAITING, .plan = &plan, .on_air = true, .rating = { .block = 1, .given = 7 } }, NULL },
    { "morning", CARPACE_EVENT_MORNING, { .has_decision = true, .decision = { .scope = CARPACE_SCOPE_DAY, .rule = CARPACE_RULE_KEEP,
      .finding = CARPACE_FINDING_FIRST_DAY, .after_ms = MINUTES (42) } }, "The first day: 42 min, as the plan has it." },
    { "end", CARPACE_EVENT_END, { .state = CARPACE_STATE_RATING_DUE, .start_asks = true }, NULL },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceEvent event = { .kind = rows[i].event, .rate = { .discomfort = 3 } };
      g_autofree char *says = carpace_text_taken (&event, &rows[i].view, at_six ());
      print_message ("%s\n", rows[i].row);
      if (rows[i].says)
        assert_string_equal (says, rows[i].says);
      else
        assert_null (says);
    }
}

static void
status_lines (void **state)
{
  static const struct { const char *row; CarpaceView view; const char *line; } rows[] = {
    { "off", { .state = CARPACE_STATE_OFF }, "No block plan in use" },
    { "practising", { .state = CARPACE_STATE_PRACTISING, .block = 2, .blocks = 4, .limit_ms = MINUTES (30), .remaining_ms = MINUTES (12) - 1,
      .next_known = true, .next_cue = CARPACE_CUE_MICRO_REST, .next_in_ms = MINUTES (2) + 1, .day_open = true,
      .dose_ms = MINUTES (60), .dose_remaining_ms = MINUTES (42) },
      "Block 2 of 4, 12 min to go; next: rest in 3 min; today 42 min of 1 h to go" },
    { "no practice", { .state = CARPACE_STATE_DAY_DONE, .day_open = true, .no_practice = true }, "No practice today" },
    { "on air", { .state = CARPACE_STATE_RATING_DUE, .on_air = true, .block = 2, .blocks = 4, .day_open = true, .dose_ms = MINUTES (60),
      .next_known = true, .next_cue = CARPACE_CUE_NEXT_BLOCK }, "On air" },
    { "on air, an intermission ahead", { .state = CARPACE_STATE_PRACTISING, .on_air = true, .next_intermission_in_ms = MINUTES (30) - 1 },
      "On air, intermission at 18:30" },
    { "on air, one announced", { .state = CARPACE_STATE_PRACTISING, .on_air = true, .intermission = true, .intermission_in_ms = MINUTES (2),
      .intermission_to_go_ms = MINUTES (7), .next_intermission_in_ms = MINUTES (2) }, "On air, intermission at 18:02" },
    { "on air, one under way", { .state = CARPACE_STATE_GAP, .on_air = true, .intermission = true, .intermission_to_go_ms = MINUTES (3) },
      "On air, intermission until 18:03" },
    { "on air, a short pause", { .state = CARPACE_STATE_RESTING, .on_air = true, .next_intermission_in_ms = MINUTES (30),
      .rest = { .running = true, .length_ms = 30000, .remaining_ms = 12000 } }, "On air, short pause" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *line = carpace_text_status (&rows[i].view, at_six ());
      print_message ("%s\n", rows[i].row);
      assert_string_equal (line, rows[i].line);
    }
}

static void
intermissions (void **state)
{
  static const struct { int64_t to_go_ms; const char *text; } rows[] = {
    { 0, "Intermission" }, { -1, "Intermission" }, { 1, "Intermission in 1 minute" }, { 60000, "Intermission in 1 minute" },
    { 60001, "Intermission in 2 minutes" }, { INT64_MAX, "Intermission in 100000 minutes" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = carpace_text_intermission (rows[i].to_go_ms);
      assert_string_equal (text, rows[i].text);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (taken),
    cmocka_unit_test (status_lines),
    cmocka_unit_test (intermissions),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
