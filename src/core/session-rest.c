/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-rest.c: micro-rests. Due in active time, offered in a gap, taken by
 * stillness, whether answered or not. */
#include "session-private.h"

#include <math.h>


static bool
no_more_offers (const CarpaceSession *s)
{
  return s->block.match || s->block.declined >= CARPACE_DECLINES_A_BLOCK;
}

/* Never due with less than a third of `after` to go. */
static bool
room_for_rest (const CarpaceSession *s, int64_t active_ms)
{
  return 3 * (s->block.limit_ms - active_ms) >= s->block.after_ms;
}

/* The load on each group while the drill at hand is practised. */
static void
group_loads (const CarpaceSession *s, double ret_load[CARPACE_N_GROUPS])
{
  const CarpaceDrill *drill = &s->plan->drills[s->block.drill];

  carpace_muscles_shares (drill->movement, s->plan->grip, s->plan->side, ret_load);
  for (int i = 0; i < CARPACE_N_GROUPS; i++)
    ret_load[i] *= drill->intensity_pct_mvc / 100.0;
}

/* Active time to come until the model's reserve falls to what the plan asks;
 * CARPACE_NEVER where it does not, or where the plan does not ask. */
static int64_t
reserve_due_in (const CarpaceSession *s)
{
  double load[CARPACE_N_GROUPS];
  double in_s;

  if (s->plan->reserve_at_least_pct <= 0.0 || s->block.drill < 0)
    return CARPACE_NEVER;
  group_loads (s, load);
  in_s = carpace_reserve_falls_s (&s->block.reserve, load, s->plan->reserve_at_least_pct / 100.0, NULL);
  if (in_s <= 0.0 && s->block.closed_ms <= s->block.rest_from_ms)
    return CARPACE_NEVER; /* this rest did not restore it: one more run first */
  return isfinite (in_s) && in_s < 1e9 ? (int64_t) ceil (in_s * 1000.0) : CARPACE_NEVER;
}

void
carpace_rest_reserve_forward (CarpaceSession *s, int64_t to, bool active)
{
  CarpaceRunning *block = &s->block;
  double load[CARPACE_N_GROUPS];

  if (block->match || s->plan->reserve_at_least_pct <= 0.0 || to <= block->reserve_at)
    return;
  if (active && block->drill >= 0)
    {
      group_loads (s, load);
      carpace_reserve_work (&block->reserve, load, to - block->reserve_at);
    }
  else
    carpace_reserve_rest (&block->reserve, to - block->reserve_at);
  block->reserve_at = to;
}

int64_t
carpace_rest_due_time (const CarpaceSession *s)
{
  const CarpaceRunning *block = &s->block;
  int64_t in_ms, time;

  if (s->state != CARPACE_STATE_PRACTISING || s->frozen || block->rest_pending || no_more_offers (s))
    return CARPACE_NEVER;
  in_ms = carpace_sum_ms (block->rest_from_ms, block->after_ms) - block->closed_ms;
  time = carpace_sum_ms (block->stretch_began, in_ms < 0 ? 0 : in_ms);
  in_ms = reserve_due_in (s);
  if (carpace_sum_ms (block->reserve_at, in_ms) < time)
    time = carpace_sum_ms (block->reserve_at, in_ms);
  if (!room_for_rest (s, carpace_sum_ms (block->closed_ms, time - block->stretch_began)))
    return CARPACE_NEVER;
  return time;
}

static void
become_due (CarpaceStep *step)
{
  step->s->block.rest_pending = true;
  step->s->block.deferred = false;
  step->s->block.rest_earliest = step->now.elapsed_ms;
  step->s->block.rest_due_at = step->now.elapsed_ms;
}

void
carpace_rest_due (CarpaceStep *step)
{
  become_due (step);
}

void
carpace_rest_after_runs (CarpaceStep *step)
{
  const CarpaceSession *s = step->s;

  if (s->plan->or_after_runs > 0 && !s->block.rest_pending && !no_more_offers (s)
      && s->block.runs - s->block.rest_from_runs >= s->plan->or_after_runs
      && room_for_rest (s, s->block.closed_ms))
    become_due (step);
}

/* On air a rest that is due waits for an intermission that is near, for no
 * longer than it may wait for a gap: one rest, not two. */
static int64_t
offer_from (const CarpaceSession *s)
{
  const CarpaceRunning *block = &s->block;

  if (s->on_air && s->intermission_ahead
      && s->intermission_at - block->rest_due_at <= s->plan->wait_for_gap_ms && s->intermission_at > block->rest_earliest)
    return s->intermission_at;
  return block->rest_earliest;
}

bool
carpace_rest_can_be_offered (const CarpaceSession *s, int64_t elapsed)
{
  return s->block.rest_pending && !s->block.deferred && !s->block.rest_taken && elapsed >= offer_from (s);
}

/* An intermission begins: a rest that would fall due soon after it comes with
 * it, and so does a limit that would leave less than a block. */
void
carpace_rest_intermission (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceRunning *block = &s->block;
  int64_t active_ms = carpace_active_at (s, step->now.elapsed_ms);

  s->intermission_ahead = false;
  if (!block->running || block->match || no_more_offers (s))
    return;
  if (s->state == CARPACE_STATE_PRACTISING && block->limit_ms - active_ms < s->plan->shortest_ms)
    carpace_block_limit (step);
  else if ((s->state == CARPACE_STATE_PRACTISING || s->state == CARPACE_STATE_GAP) && !block->rest_pending
           && !block->rest_taken && 3 * (active_ms - block->rest_from_ms) >= 2 * block->after_ms)
    become_due (step);
}

/* What the card shows: the next in listed order or, where the drill changes
 * with this rest, the next that serves the coming drill's prime group. */
static void
choose_card (CarpaceSession *s, int64_t elapsed)
{
  CarpaceRunning *block = &s->block;
  const CarpacePlan *plan = s->plan;
  int32_t next = carpace_plan_drill_at (plan, block->number - 1, block->limit_ms, carpace_active_at (s, elapsed));
  CarpaceGroup group = carpace_muscles_prime (plan->drills[next].movement, plan->grip, plan->side);

  block->card = s->history.shown_next % plan->n_shown;
  block->between_drills = next != block->drill;
  for (int32_t i = 0; block->between_drills && i < plan->n_shown; i++)
    {
      int32_t card = (s->history.shown_next + i) % plan->n_shown;
      if (carpace_exercise_serves (plan->shown[card], group))
        {
          block->card = card;
          return;
        }
    }
}

static void
show_card (CarpaceStep *step)
{
  if (!step->s->cue_on[CARPACE_CUE_MICRO_REST])
    choose_card (step->s, step->now.elapsed_ms);
  carpace_cue_show (step, CARPACE_CUE_MICRO_REST);
}

void
carpace_rest_offer (CarpaceStep *step)
{
  step->s->state = CARPACE_STATE_REST_DUE;
  if (!step->s->cue_on[CARPACE_CUE_MICRO_REST])
    show_card (step);
}

/* In a run: how long to wait for a gap before the cue is shown quietly, and
 * then again. In a gap: when the offer may be made again. */
int64_t
carpace_wait_for_gap_time (const CarpaceSession *s)
{
  const CarpaceRunning *block = &s->block;

  if (!block->rest_pending)
    return CARPACE_NEVER;
  if (s->state == CARPACE_STATE_GAP && !block->deferred && !block->rest_taken)
    return offer_from (s);
  if (s->state != CARPACE_STATE_PRACTISING || s->frozen)
    return CARPACE_NEVER;
  if (s->cue_on[CARPACE_CUE_MICRO_REST])
    return carpace_sum_ms (block->rest_shown_at, block->after_ms);
  return carpace_sum_ms (block->rest_due_at, s->plan->wait_for_gap_ms);
}

void
carpace_wait_for_gap_over (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (s->state == CARPACE_STATE_GAP)
    {
      s->block.rest_due_at = step->now.elapsed_ms;
      carpace_rest_offer (step);
      return;
    }
  show_card (step);
  s->block.rest_shown_at = step->now.elapsed_ms;
}

void
carpace_rest_triggers_anew (CarpaceSession *s, int64_t elapsed)
{
  s->block.rest_pending = false;
  s->block.deferred = false;
  s->block.rest_from_ms = carpace_active_at (s, elapsed);
  s->block.rest_from_runs = s->block.runs;
}

/* Whether the hand moves over a countdown, past what is forgiven. */
static bool
countdown_over_before_moving (const CarpaceRunning *block, int64_t over)
{
  return over <= block->moving_from;
}

int64_t
carpace_rest_over_time (const CarpaceSession *s)
{
  const CarpaceRunning *block = &s->block;
  int64_t over;

  if (!block->running || block->match || block->rest_taken)
    return CARPACE_NEVER;
  switch (s->state)
    {
    case CARPACE_STATE_GAP:
    case CARPACE_STATE_REST_DUE:
    case CARPACE_STATE_PAUSED:
      return s->hand == CARPACE_HAND_STILL ? carpace_sum_ms (s->still_since, block->rest_ms) : CARPACE_NEVER;
    case CARPACE_STATE_RESTING:
      over = carpace_sum_ms (block->count_from, block->rest_ms - block->counted_ms);
      return s->hand == CARPACE_HAND_STILL || countdown_over_before_moving (block, over) ? over : CARPACE_NEVER;
    case CARPACE_STATE_OFF:
    case CARPACE_STATE_WAITING:
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_LIMIT_REACHED:
    case CARPACE_STATE_RATING_DUE:
    case CARPACE_STATE_DAY_DONE:
    case CARPACE_N_STATES:
      return CARPACE_NEVER;
    }
  return CARPACE_NEVER;
}

static void
tell_rest (CarpaceStep *step, CarpaceRestWhat what)
{
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_REST);

  entry->rest.what = what;
  entry->rest.length_ms = step->s->block.rest_ms;
  entry->rest.asked = step->s->cue_on[CARPACE_CUE_MICRO_REST];
}

void
carpace_rest_over (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  tell_rest (step, CARPACE_REST_TAKEN);
  if (s->cue_on[CARPACE_CUE_MICRO_REST])
    s->history.shown_next = (s->block.card + 1) % s->plan->n_shown;
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  s->block.rest_taken = true;
  carpace_rest_triggers_anew (s, step->now.elapsed_ms);
  if (s->state == CARPACE_STATE_PAUSED)
    return;
  s->state = CARPACE_STATE_GAP;
  if (s->hand != CARPACE_HAND_STILL) /* it moved in what was forgiven, and moves on */
    {
      carpace_stretch_open (step, step->now.elapsed_ms);
      s->state = CARPACE_STATE_PRACTISING;
    }
}

int64_t
carpace_rest_interrupted_time (const CarpaceSession *s)
{
  if (s->state != CARPACE_STATE_RESTING || s->hand == CARPACE_HAND_STILL || s->frozen)
    return CARPACE_NEVER;
  return carpace_sum_ms (s->block.moving_from, s->plan->run_min_ms - s->block.moved_ms);
}

void
carpace_rest_interrupted (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int64_t now = step->now.elapsed_ms;

  tell_rest (step, CARPACE_REST_INTERRUPTED);
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  carpace_stretch_open (step, now - s->plan->run_min_ms); /* what was moved is practice */
  become_due (step);
  s->block.rest_earliest = carpace_sum_ms (now, CARPACE_OFFER_AGAIN_MS);
  s->block.rest_due_at = s->block.rest_earliest;
  s->state = CARPACE_STATE_PRACTISING;
}

void
carpace_rest_begin (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceRunning *block = &s->block;

  if (block->in_stretch)
    {
      int64_t last = carpace_last_input (s, step->now.elapsed_ms);
      carpace_stretch_close (step, last);
      block->gap_began = last;
    }
  if (!s->cue_on[CARPACE_CUE_MICRO_REST])
    show_card (step);
  carpace_hand_presume_still (step);
  s->state = CARPACE_STATE_RESTING;
  block->counted_ms = 0;
  block->moved_ms = 0;
  block->count_from = block->rest_taken ? step->now.elapsed_ms : s->still_since;
  block->rest_taken = false;
  block->forgiven_until = carpace_sum_ms (step->now.elapsed_ms, CARPACE_REST_FORGIVEN_MS);
  block->moving_from = CARPACE_NEVER;
}

void
carpace_rest_defer (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  tell_rest (step, CARPACE_REST_DEFERRED);
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  become_due (step);
  if (s->state != CARPACE_STATE_REST_DUE)
    return;
  s->block.deferred = true;
  carpace_hand_presume_still (step);
  s->state = CARPACE_STATE_GAP;
}

void
carpace_rest_decline (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  tell_rest (step, CARPACE_REST_DECLINED);
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  s->block.declined++;
  carpace_rest_triggers_anew (s, step->now.elapsed_ms);
  if (s->state != CARPACE_STATE_REST_DUE)
    return;
  carpace_hand_presume_still (step);
  s->state = CARPACE_STATE_GAP;
}

void
carpace_rest_drop (CarpaceStep *step)
{
  step->s->block.rest_pending = false;
  step->s->block.deferred = false;
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
}
