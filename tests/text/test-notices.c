/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What notices and cards say, with views filled by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glib.h>
#include <string.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/notice.h"

#define MINUTES CARPACE_MINUTE_MS

static CarpacePlan plan = { .stop_above = 5 };

static CarpaceView
a_view (void)
{
  CarpaceView view;

  memset (&view, 0, sizeof view);
  view.plan = &plan;
  view.state = CARPACE_STATE_WAITING;
  view.block = 2;
  view.blocks = 4;
  view.limit_ms = 19 * MINUTES + 30000;
  view.remaining_ms = 12 * MINUTES;
  view.dose_ms = 60 * MINUTES;
  view.done_ms = 18 * MINUTES;
  view.rating.given = -1;
  view.rating.block = 1;
  view.rest.length_ms = 30000;
  view.next_known = true;
  view.next_cue = CARPACE_CUE_NEXT_BLOCK;
  view.next_in_ms = 15 * MINUTES;
  return view;
}

/* 18:30 in a zone an hour from UTC. */
static const CarpaceInstant now = { .elapsed_ms = 1000, .wall_ms = INT64_C (1804008600000), .offset_s = 3600 };

static CarpaceEntry
a_cue (CarpaceCue cue, CarpaceCueWhat what)
{
  CarpaceEntry entry;

  memset (&entry, 0, sizeof entry);
  entry.kind = CARPACE_ENTRY_CUE;
  entry.cue.cue = cue;
  entry.cue.what = what;
  entry.cue.exercise = CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH;
  return entry;
}

static void
test_notices (void **state)
{
  static const struct
  {
    const char *name;
    CarpaceCue cue;
    CarpaceCueWhat what;
    bool in_run, between_drills;
    const char *title, *body;
    int n_actions;
    CarpaceEventKind first;
    bool quiet;
  } cases[] = {
    { .name = "rest", .cue = CARPACE_CUE_MICRO_REST, .title = "Stretch: Back of the forearm", .body = "30 s, right hand.",
      .n_actions = 3, .first = CARPACE_EVENT_REST },
    { .name = "rest in a run", .cue = CARPACE_CUE_MICRO_REST, .in_run = true, .title = "Stretch: Back of the forearm",
      .body = "30 s, right hand. When this run is over.", .n_actions = 3, .first = CARPACE_EVENT_REST, .quiet = true },
    { .name = "rest between drills", .cue = CARPACE_CUE_MICRO_REST, .between_drills = true, .title = "Stretch: Back of the forearm",
      .body = "30 s, right hand, before the next drill.", .n_actions = 3, .first = CARPACE_EVENT_REST },
    { .name = "limit", .cue = CARPACE_CUE_LIMIT, .title = "Block 2 has reached its limit",
      .body = "Finish the run; the block ends with the next gap.", .n_actions = 1, .first = CARPACE_EVENT_END, .quiet = true },
    { .name = "rating", .cue = CARPACE_CUE_RATING, .title = "How does your hand feel?", .body = "Block 1 has ended. One tap." },
    { .name = "next block", .cue = CARPACE_CUE_NEXT_BLOCK, .title = "Block 2 of 4 can start", .body = "19 min 30 s", .n_actions = 1,
      .first = CARPACE_EVENT_START },
    { .name = "early start", .cue = CARPACE_CUE_NEXT_BLOCK, .what = CARPACE_CUE_ASKED, .title = "The next block is planned from 18:45",
      .body = "Starting once more means yes. It is recorded as an early start.", .n_actions = 1, .first = CARPACE_EVENT_START },
    { .name = "beyond the plan", .cue = CARPACE_CUE_DAY_DONE, .what = CARPACE_CUE_ASKED, .title = "Practice is done for today",
      .body = "Starting once more means yes. It is recorded as beyond the plan.", .n_actions = 1, .first = CARPACE_EVENT_START },
    { .name = "day done", .cue = CARPACE_CUE_DAY_DONE, .title = "Practice is done for today", .body = "Practice time today: 18 min of 1 h." },
    { .name = "morning", .cue = CARPACE_CUE_MORNING, .title = "This morning", .body = "Three taps. The check is what lets the dose rise." },
    { .name = "caution", .cue = CARPACE_CUE_CAUTION, .title = "Please read before going on", .body = "" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceView view = a_view ();
      CarpaceEntry entry = a_cue (cases[i].cue, cases[i].what);
      CarpaceNotice notice;

      print_message ("%s\n", cases[i].name);
      if (cases[i].cue == CARPACE_CUE_LIMIT)
        view.state = CARPACE_STATE_LIMIT_REACHED;
      entry.cue.in_run = cases[i].in_run;
      entry.cue.between_drills = cases[i].between_drills;
      assert_true (carpace_text_notice (&entry, &view, now, &notice));
      assert_string_equal (notice.title, cases[i].title);
      assert_string_equal (notice.body, cases[i].body);
      assert_int_equal (notice.quiet, cases[i].quiet);
      assert_int_equal (notice.n_actions, cases[i].n_actions);
      if (notice.n_actions > 0)
        assert_int_equal (notice.action[0].event, cases[i].first);
      carpace_notice_clear (&notice);
    }
}

/* What is withdrawn says nothing more. */
static void
test_withdrawn (void **state)
{
  for (int32_t cue = 0; cue < CARPACE_N_CUES; cue++)
    {
      CarpaceView view = a_view ();
      CarpaceEntry entry = a_cue ((CarpaceCue) cue, CARPACE_CUE_WITHDRAWN);
      CarpaceNotice notice;
      assert_false (carpace_text_notice (&entry, &view, now, &notice));
    }
}

static void
test_on_air (void **state)
{
  static const bool said[CARPACE_N_CUES] = { [CARPACE_CUE_MICRO_REST] = true, [CARPACE_CUE_LIMIT] = true };

  for (int32_t cue = 0; cue < CARPACE_N_CUES; cue++)
    {
      CarpaceView view = a_view ();
      CarpaceEntry entry = a_cue ((CarpaceCue) cue, CARPACE_CUE_SHOWN);
      CarpaceNotice notice;

      view.on_air = true;
      assert_int_equal (carpace_text_notice (&entry, &view, now, &notice), said[cue]);
      if (!said[cue])
        continue;
      assert_string_equal (notice.title, "Intermission");
      assert_string_equal (notice.body, "");
      assert_int_equal (notice.n_actions, 0);
      carpace_notice_clear (&notice);
    }
}

static void
test_what_follows_a_rating (void **state)
{
  static const struct { const char *name; int32_t given; int64_t before_ms, after_ms; CarpaceState state; const char *follows; } cases[] = {
    { .name = "as planned", .given = 0, .state = CARPACE_STATE_WAITING, .follows = "Next block: 19 min 30 s, from 18:45." },
    { .name = "tightened", .given = 2, .before_ms = 30 * MINUTES, .after_ms = 19 * MINUTES + 30000, .state = CARPACE_STATE_WAITING,
      .follows = "Next block shorter: 19 min 30 s." },
    { .name = "the last", .given = 1, .state = CARPACE_STATE_DAY_DONE, .follows = "Practice is done for today." },
    { .name = "started by the tap", .given = 1, .state = CARPACE_STATE_PRACTISING, .follows = "" },
    { .name = "6", .given = 6, .state = CARPACE_STATE_DAY_DONE,
      .follows = "That is above 5. Practice is done for today, and the next practice day will be shorter. If it is new, strong or "
                 "does not ease, have a physiotherapist or doctor look at it." },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CarpaceView view = a_view ();
      g_autofree char *follows = NULL;

      print_message ("%s\n", cases[i].name);
      view.state = cases[i].state;
      view.rating.given = cases[i].given;
      view.has_decision = cases[i].after_ms > 0;
      view.decision.block = 1;
      view.decision.before_ms = cases[i].before_ms;
      view.decision.after_ms = cases[i].after_ms;
      follows = carpace_text_rating_follows (&view, now);
      assert_string_equal (follows, cases[i].follows);
    }
}

static void
test_durations (void **state)
{
  static const struct { int64_t ms; const char *text; } cases[] = {
    { .ms = -5, .text = "0 s" },          { .ms = 0, .text = "0 s" },        { .ms = 999, .text = "0 s" },
    { .ms = 30000, .text = "30 s" },      { .ms = 60000, .text = "1 min" },  { .ms = 1170000, .text = "19 min 30 s" },
    { .ms = 3600000, .text = "1 h" },     { .ms = 3900000, .text = "1 h 5 min" }, { .ms = 3601000, .text = "1 h 1 s" },
    { .ms = 27 * CARPACE_HOUR_MS, .text = "27 h" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = carpace_text_duration (cases[i].ms);
      assert_string_equal (text, cases[i].text);
    }
}

/* A countdown never shows nothing while there is something. */
static void
test_countdowns (void **state)
{
  static const struct { int64_t ms; const char *text; } cases[] = {
    { .ms = 30000, .text = "00:30" }, { .ms = 29001, .text = "00:30" }, { .ms = 29000, .text = "00:29" },
    { .ms = 1, .text = "00:01" },     { .ms = 0, .text = "00:00" },     { .ms = 65000, .text = "01:05" },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = carpace_text_countdown (cases[i].ms);
      assert_string_equal (text, cases[i].text);
    }
}

/* Which signs are seen about the same day, and which before more practice.
 * Source: pages of public health services on hand and wrist pain (from memory),
 * as listed among the project's clinical facts. */
static void
test_advice (void **state)
{
  static const bool same_day[CARPACE_N_SIGNS] = {
    [CARPACE_SIGN_INJURY] = true, [CARPACE_SIGN_DEFORMED] = true, [CARPACE_SIGN_CANNOT_MOVE] = true,
    [CARPACE_SIGN_COLD_OR_PALE] = true, [CARPACE_SIGN_HOT_AND_FEVERISH] = true,
  };

  for (int32_t sign = 0; sign < CARPACE_N_SIGNS; sign++)
    {
      assert_int_equal (carpace_sign_same_day ((CarpaceSign) sign), same_day[sign]);
      assert_string_equal (carpace_text_signs_advice (1u << sign),
                           same_day[sign] ? "Stop, and let a doctor see it today."
                                          : "Practice stops here. Let a physiotherapist or doctor see it before more practice.");
      assert_true (g_str_has_suffix (carpace_text_sign_question ((CarpaceSign) sign), "?"));
    }
  assert_string_equal (carpace_text_signs_advice (1u << CARPACE_SIGN_NUMB | 1u << CARPACE_SIGN_DEFORMED), "Stop, and let a doctor see it today.");
}

/* Every exercise has a name, a drawing told in words, and how it is done. */
static void
test_exercises (void **state)
{
  for (int32_t i = 0; i < CARPACE_N_EXERCISES; i++)
    {
      assert_true (carpace_text_exercise ((CarpaceExercise) i)[0]);
      assert_true (carpace_text_exercise_drawing ((CarpaceExercise) i)[0]);
      assert_non_null (carpace_text_exercise_how ((CarpaceExercise) i, 0));
      assert_non_null (carpace_text_exercise_how ((CarpaceExercise) i, 1));
      assert_null (carpace_text_exercise_how ((CarpaceExercise) i, 99));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_notices),   cmocka_unit_test (test_withdrawn),  cmocka_unit_test (test_on_air),
    cmocka_unit_test (test_what_follows_a_rating), cmocka_unit_test (test_durations), cmocka_unit_test (test_countdowns),
    cmocka_unit_test (test_advice),    cmocka_unit_test (test_exercises),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
