/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "views.h"

#include <string.h>

#include "carpace/names.h"

#define MIN CARPACE_MINUTE_MS

CarpaceInstant
view_now (void)
{
  return (CarpaceInstant) { .elapsed_ms = 1000000, .wall_ms = INT64_C (1804008600000), .offset_s = 3600 };
}

CarpacePlan *
view_plan (void)
{
  static CarpacePlan plan;

  strcpy (plan.name, "Four quarters");
  plan.stop_above = 5;
  plan.dose_ms = 60 * MIN;
  plan.n_drills = 1;
  strcpy (plan.drills[0].id, "corners");
  strcpy (plan.drills[0].name, "Corner to corner");
  plan.n_blocks = 4;
  plan.after_ms = 10 * MIN;
  plan.rest_ms = 30000;
  plan.between_blocks_ms = 30 * MIN;
  return &plan;
}

static CarpaceInstant
before_now (int64_t min)
{
  return carpace_instant_after (view_now (), -min * MIN);
}

/* Block 1 is done, half an hour ago; blocks 3 and 4 are still to come. */
static void
lay_out (CarpaceView *view)
{
  bool running = view->state != CARPACE_STATE_OFF && view->state != CARPACE_STATE_WAITING
                 && view->state != CARPACE_STATE_RATING_DUE && view->state != CARPACE_STATE_DAY_DONE;

  if (view->state == CARPACE_STATE_OFF)
    return;
  view->sittings.n = running ? 2 : 1;
  view->sittings.sitting[0] = (CarpaceSitting) { .number = 1, .over = true, .began = before_now (52), .ended = before_now (36),
                                                 .active_ms = 15 * MIN, .rests = 1 };
  view->sittings.sitting[1] = (CarpaceSitting) { .number = 2, .began = before_now (4) };
  view->n_ahead = view->state == CARPACE_STATE_DAY_DONE ? 0 : running ? 2 : 3;
  for (int32_t i = 0; i < view->n_ahead; i++)
    view->ahead_ms[i] = 15 * MIN;
}

CarpaceView
view_of (CarpaceState state)
{
  CarpaceView view;

  memset (&view, 0, sizeof view);
  view.state = state;
  view.plan = state == CARPACE_STATE_OFF ? NULL : view_plan ();
  view.day = 20879;
  view.day_open = true;
  view.block = 2;
  view.blocks = 4;
  view.limit_ms = 15 * MIN;
  view.after_ms = 10 * MIN;
  view.rest_ms = 30000;
  view.active_ms = 3 * MIN;
  view.remaining_ms = 12 * MIN;
  view.dose_ms = 60 * MIN;
  view.done_ms = 18 * MIN;
  view.dose_remaining_ms = 42 * MIN;
  view.rating.given = -1;
  view.rating.block = 1;
  view.rest.length_ms = view.rest.remaining_ms = 30000;
  view.rest.next_drill = -1;
  view.other_ms = view.other_mean_ms = view.input_ms = -1;
  lay_out (&view);
  return view;
}

static CarpaceView
rated (int32_t given, CarpaceState state)
{
  CarpaceView view = view_of (state);
  view.rating.given = given;
  view.rating.changeable_for_ms = 60000;
  return view;
}

static CarpaceView
rest (CarpaceExercise exercise, bool running)
{
  CarpaceView view = view_of (running ? CARPACE_STATE_RESTING : CARPACE_STATE_REST_DUE);
  view.rest.exercise = exercise;
  view.rest.both_sides = carpace_exercise_side (exercise) == CARPACE_EXERCISE_FOR_BOTH_SIDES;
  view.rest.since_ms = 10 * MIN;
  view.rest.since_rest = true;
  view.rest.offered = !running;
  view.rest.running = running;
  view.cue_on[CARPACE_CUE_MICRO_REST] = !running;
  return view;
}

/* The rest that comes next. */
static void
set_next (CarpaceView *view)
{
  view->next_known = view->state == CARPACE_STATE_PRACTISING || view->state == CARPACE_STATE_GAP;
  view->next_cue = CARPACE_CUE_MICRO_REST;
  view->next_in_ms = 7 * MIN;
  view->drill = 0;
}

const char *const view_names[] = {
  "rating", "rating-starts", "rating-given", "rating-above-stop", "rest-offered", "rest-running", "rest-waits", "rest-left",
  "rest-between-drills", "morning", "morning-other", "caution", "caution-open", "why", "waits", "no-practice", "behind", "on-air", "match",
  "practising", "limit-reached", "paused", "day-done", "day-done-answered", "unkept", "on-air-practising",
  "on-air-offered", "on-air-short-pause", "on-air-intermission", NULL
};

bool
view_named (const char *name, CarpaceView *ret_view)
{
  int32_t state = carpace_name_value (CARPACE_WORDS_STATE, name);
  CarpaceView view = view_of (state >= 0 ? (CarpaceState) state : CARPACE_STATE_WAITING);

  if (state >= 0)
    set_next (&view);
  else if (strcmp (name, "day-done-answered") == 0)
    {
      view = view_of (CARPACE_STATE_DAY_DONE);
      view.morning_asked = true;
      view.dose_remaining_ms = 0;
      view.done_ms = view.dose_ms;
    }
  else if (strcmp (name, "unkept") == 0)
    {
      view = view_of (CARPACE_STATE_GAP);
      view.unkept = true;
    }
  else if (strcmp (name, "on-air-practising") == 0)
    {
      view = view_of (CARPACE_STATE_PRACTISING);
      view.on_air = true;
      view.next_intermission_in_ms = 20 * MIN;
    }
  else if (strcmp (name, "on-air-offered") == 0 || strcmp (name, "on-air-short-pause") == 0)
    {
      view = rest (CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH, strcmp (name, "on-air-offered") != 0);
      view.on_air = true;
      view.rest.remaining_ms = 23000;
    }
  else if (strcmp (name, "on-air-intermission") == 0)
    {
      view = view_of (CARPACE_STATE_GAP);
      view.on_air = view.intermission = true;
      view.intermission_length_ms = 5 * MIN;
      view.intermission_to_go_ms = 4 * MIN + 12000;
    }
  else if (strncmp (name, "rating", 6) == 0)
    {
      view = strcmp (name, "rating-given") == 0        ? rated (2, CARPACE_STATE_WAITING)
             : strcmp (name, "rating-above-stop") == 0 ? rated (7, CARPACE_STATE_DAY_DONE)
                                                       : view_of (CARPACE_STATE_RATING_DUE);
      view.rating.open = view.rating.given < 0;
      view.cue_on[CARPACE_CUE_RATING] = view.rating.open;
      view.rating.asked_by_start = strcmp (name, "rating-starts") == 0;
    }
  else if (strncmp (name, "rest", 4) == 0)
    {
      view = rest (strcmp (name, "rest-left") == 0 ? CARPACE_EXERCISE_FOREARM_SELF_MASSAGE : CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH,
                   strcmp (name, "rest-offered") != 0 && strcmp (name, "rest-between-drills") != 0);
      view.rest.side = strcmp (name, "rest-left") == 0 ? CARPACE_SIDE_LEFT : CARPACE_SIDE_RIGHT;
      view.rest.waits = strcmp (name, "rest-waits") == 0;
      view.rest.between_drills = strcmp (name, "rest-between-drills") == 0;
      view.rest.next_drill = view.rest.between_drills ? 0 : -1;
    }
  else if (strncmp (name, "morning", 7) == 0)
    {
      view.cue_on[CARPACE_CUE_MORNING] = true;
      view.day_open = false;
      view.other_ms = strcmp (name, "morning-other") == 0 ? 410 * MIN : -1;
      view.other_mean_ms = strcmp (name, "morning-other") == 0 ? 290 * MIN : -1;
    }
  else if (strncmp (name, "caution", 7) == 0)
    {
      view.cue_on[CARPACE_CUE_CAUTION] = true;
      view.caution_open = strcmp (name, "caution-open") == 0;
      view.caution_signs = view.caution_open ? 1u << CARPACE_SIGN_NUMB : 0;
    }
  else if (strcmp (name, "why") == 0)
    {
      view.has_decision = true;
      view.decision = (CarpaceDecision) { .rule = CARPACE_RULE_UP_1, .scope = CARPACE_SCOPE_BLOCK, .before_ms = 15 * MIN,
                                          .after_ms = 765000, .block = 1, .discomfort = 2, .reference = 1, .earlier = 1,
                                          .stop_above = 5, .shorten_to = 8500, .mean_pct = -1, .mean_before_pct = -1 };
    }
  else if (strcmp (name, "waits") == 0)
    {
      view.next_known = true;
      view.next_cue = CARPACE_CUE_NEXT_BLOCK;
      view.next_in_ms = 15 * MIN;
    }
  else if (strcmp (name, "no-practice") == 0)
    view.no_practice = true;
  else if (strcmp (name, "behind") == 0)
    {
      view.day_open = false;
      view.day_over = view.day_behind = true;
      view.block = view.blocks = view.n_ahead = 0;
      view.limit_ms = view.dose_ms = view.done_ms = 0;
    }
  else if (strcmp (name, "on-air") == 0)
    view.on_air = true;
  else if (strcmp (name, "match") == 0)
    {
      view = view_of (CARPACE_STATE_PRACTISING);
      view.match = true;
      view.block = 0;
    }
  else
    return false;
  *ret_view = view;
  return true;
}
