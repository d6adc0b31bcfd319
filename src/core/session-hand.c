/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-hand.c: input and stillness, and the stretches of active time that
 * they bound. Active time runs on while a pause is not yet a gap, and is
 * counted back when it becomes one. */
#include "session-private.h"

static int64_t
between (int64_t low, int64_t value, int64_t high)
{
  return value < low ? low : value > high ? high : value;
}

int64_t
carpace_active_at (const CarpaceSession *s, int64_t elapsed)
{
  const CarpaceRunning *block = &s->block;

  if (!block->in_stretch)
    return block->closed_ms;
  if (s->frozen)
    elapsed = s->still_since;
  return carpace_sum_ms (block->closed_ms, elapsed - block->stretch_began);
}

/* The last input there was, as far as is known at @elapsed. */
int64_t
carpace_last_input (const CarpaceSession *s, int64_t elapsed)
{
  return s->hand == CARPACE_HAND_MOVING ? elapsed : s->still_since;
}

void
carpace_stretch_open (CarpaceStep *step, int64_t from)
{
  CarpaceRunning *block = &step->s->block;

  carpace_rest_reserve_forward (step->s, from, false);
  block->in_stretch = true;
  block->stretch_began = from;
  block->drill = block->match ? -1
                              : carpace_plan_drill_at (step->s->plan, block->number - 1, block->limit_ms,
                                                       block->closed_ms);
  carpace_rest_stillness_over (block);
}

static int32_t
runs_of (const CarpacePlan *plan, int32_t drill, int64_t stretch_ms)
{
  int64_t run_ms = drill < 0 ? 0 : plan->drills[drill].run_ms;
  int64_t runs;

  if (stretch_ms < plan->run_min_ms)
    return 0;
  if (run_ms == 0)
    return 1;
  runs = (2 * stretch_ms + run_ms) / (2 * run_ms); /* halves up */
  return runs < 1 ? 1 : runs > INT32_MAX / 2 ? INT32_MAX / 2 : (int32_t) runs;
}

void
carpace_stretch_close (CarpaceStep *step, int64_t at)
{
  CarpaceRunning *block = &step->s->block;
  int64_t stretch_ms;

  if (!block->in_stretch)
    return;
  at = carpace_later (at, block->stretch_began);
  stretch_ms = at - block->stretch_began;
  carpace_rest_reserve_forward (step->s, at, true);
  block->in_stretch = false;
  block->closed_ms = carpace_sum_ms (block->closed_ms, stretch_ms);
  if (block->runs < INT32_MAX / 2)
    block->runs += runs_of (step->s->plan, block->drill, stretch_ms);
}

void
carpace_hand_presume_moving (CarpaceStep *step)
{
  step->s->hand = CARPACE_HAND_MOVING;
  step->s->moving_since = step->now.elapsed_ms;
  step->s->frozen = false;
}

void
carpace_hand_presume_still (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (s->block.reach) /* an answer belongs to the gap: its stillness is unbroken */
    s->still_since = s->block.gap_began;
  else if (s->hand == CARPACE_HAND_MOVING)
    s->still_since = step->now.elapsed_ms;
  s->block.reach = false;
  s->elsewhere = false;
  s->hand = CARPACE_HAND_STILL;
  s->frozen = false;
}

/* Whether a reach is more than a touch. */
bool
carpace_reach_lasts (const CarpaceSession *s)
{
  const CarpaceRunning *block = &s->block;

  return block->reach_closed_ms > 0 || s->hand == CARPACE_HAND_MOVING
         || s->still_since - block->reach_piece_began >= CARPACE_REACH_FORGIVEN_MS;
}

/* Input over a countdown: forgiven at first, then it stops it. */
static void
move_while_resting (CarpaceSession *s)
{
  CarpaceRunning *block = &s->block;

  block->moving_from = carpace_later (s->moving_since, block->forgiven_until);
}

/* Input over an offer: perhaps only a hand that reaches for the mouse to
 * answer. What comes in a second stretch belongs to the same reach. */
static void
reach (CarpaceSession *s)
{
  CarpaceRunning *block = &s->block;

  if (block->reach)
    {
      int64_t piece_ms = s->still_since - block->reach_piece_began;
      block->reach_closed_ms += piece_ms;
      block->reach_runs += runs_of (s->plan, block->drill, piece_ms);
    }
  else
    {
      block->reach_began = s->moving_since;
      block->reach_closed_ms = 0;
      block->reach_runs = 0;
    }
  block->reach = true;
  block->reach_piece_began = s->moving_since;
}

static void
came_back (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  switch (s->state)
    {
    case CARPACE_STATE_GAP:
      carpace_stretch_open (step, s->moving_since);
      carpace_session_goto (step, CARPACE_STATE_PRACTISING);
      break;
    case CARPACE_STATE_REST_DUE:
      reach (s);
      break;
    case CARPACE_STATE_RESTING:
      move_while_resting (s);
      break;
    case CARPACE_STATE_WAITING:
      carpace_day_offer_morning (step);
      carpace_unstarted_input (step);
      break;
    case CARPACE_STATE_RATING_DUE:
    case CARPACE_STATE_DAY_DONE:
      carpace_day_offer_morning (step);
      break;
    case CARPACE_STATE_OFF:
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_LIMIT_REACHED:
    case CARPACE_STATE_PAUSED:
    case CARPACE_N_STATES:
      break;
    }
}

void
carpace_hand_moves_from (CarpaceStep *step, int64_t since)
{
  CarpaceSession *s = step->s;

  since = between (s->hand == CARPACE_HAND_STILL ? s->still_since : INT64_MIN, since, step->now.elapsed_ms);
  if (s->hand == CARPACE_HAND_MOVING)
    return;
  if (s->hand == CARPACE_HAND_PAUSING)
    {
      s->hand = CARPACE_HAND_MOVING; /* a pause shorter than a gap counts */
      s->frozen = false;
      return;
    }
  s->hand = CARPACE_HAND_MOVING;
  s->moving_since = since;
  came_back (step);
}

/* A stretch is summed outside practice where all that was told of it may be. */
static void
note_whether_counted (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  bool uncounted = step->event->fact.uncounted;

  s->today.facts |= !uncounted;
  s->uncounted = uncounted || (s->uncounted && s->hand != CARPACE_HAND_STILL);
}

void
carpace_hand_input (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  note_whether_counted (step);
  if (carpace_front_is_elsewhere (s))
    s->elsewhere = true;
  else
    carpace_hand_moves_from (step, step->event->fact.since_ms);
}

void
carpace_hand_still (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  note_whether_counted (step);
  s->elsewhere = false;
  if (s->hand != CARPACE_HAND_MOVING)
    return;
  s->still_since = between (s->moving_since, step->event->fact.since_ms, step->now.elapsed_ms);
  s->hand = CARPACE_HAND_PAUSING;
}

/* Input that came back over an offer was practice from its start. */
static void
reach_was_practice (CarpaceStep *step)
{
  CarpaceRunning *block = &step->s->block;

  block->reach = false;
  block->closed_ms = carpace_sum_ms (block->closed_ms, block->reach_closed_ms);
  block->runs += block->reach_runs;
  carpace_stretch_open (step, block->reach_piece_began);
  block->rest_earliest = carpace_sum_ms (block->reach_began, CARPACE_OFFER_AGAIN_MS);
  block->rest_due_at = block->rest_earliest;
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  carpace_session_goto (step, CARPACE_STATE_PRACTISING);
}

/* The countdown goes on from where it stopped. */
static void
still_while_resting (CarpaceSession *s)
{
  CarpaceRunning *block = &s->block;

  if (s->still_since <= block->moving_from)
    return;
  block->moved_ms += s->still_since - block->moving_from;
  block->counted_ms += block->moving_from - block->count_from;
  block->count_from = s->still_since;
}

static void
gap_in_practice (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_stretch_close (step, s->still_since);
  s->block.gap_began = s->still_since;
  carpace_session_goto (step, CARPACE_STATE_GAP);
  if (s->block.match)
    return;
  carpace_rest_after_runs (step);
  if (carpace_rest_can_be_offered (s, step->now.elapsed_ms))
    carpace_rest_offer (step);
}

/* A touch is forgiven, and the stillness goes on. More is undecided until its
 * 5 s are over, also where a gap comes before. */
static void
gap_over_offer (CarpaceSession *s)
{
  CarpaceRunning *block = &s->block;

  if (!block->reach || carpace_reach_lasts (s))
    return;
  block->reach = false;
  s->still_since = block->gap_began;
}

void
carpace_reach_over (CarpaceStep *step)
{
  reach_was_practice (step);
  if (step->s->hand == CARPACE_HAND_STILL)
    gap_in_practice (step);
}

static void
gap_outside_practice (CarpaceSession *s)
{
  if (s->today.open && !s->uncounted)
    s->today.other_ms = carpace_sum_ms (s->today.other_ms, s->still_since - s->moving_since);
}

void
carpace_hand_gap (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->hand = CARPACE_HAND_STILL;
  s->frozen = false;
  carpace_unstarted_still (s);
  switch (s->state)
    {
    case CARPACE_STATE_PRACTISING:
      gap_in_practice (step);
      break;
    case CARPACE_STATE_LIMIT_REACHED:
      carpace_block_end (step, step->now.elapsed_ms, carpace_sum_ms (s->still_since, s->plan->gap_after_ms));
      break;
    case CARPACE_STATE_REST_DUE:
      gap_over_offer (s);
      break;
    case CARPACE_STATE_RESTING:
      still_while_resting (s);
      break;
    case CARPACE_STATE_WAITING:
    case CARPACE_STATE_RATING_DUE:
    case CARPACE_STATE_DAY_DONE:
      if (s->overrunning)
        carpace_overrun_end (step, s->still_since);
      else
        gap_outside_practice (s);
      break;
    case CARPACE_STATE_OFF:
    case CARPACE_STATE_GAP:
    case CARPACE_STATE_PAUSED:
    case CARPACE_N_STATES:
      break;
    }
}
