/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-rest.c: micro-rests. Due in active time, offered in a gap, taken by
 * stillness, whether answered or not. */
#include "session-private.h"

#include <math.h>

bool
carpace_rest_is_due (const CarpaceRunning *block)
{
  return block->rest == CARPACE_REST_DUE || block->rest == CARPACE_REST_PUT_OFF
         || block->rest == CARPACE_REST_HAD_ANEW;
}

/* One rest at most between two stretches of active time. */
static bool
stillness_has_had_it (const CarpaceRunning *block)
{
  return block->rest == CARPACE_REST_HAD || block->rest == CARPACE_REST_HAD_ANEW;
}

/* A stretch begins: what was put off is due in the gap after it. */
void
carpace_rest_stillness_over (CarpaceRunning *block)
{
  block->rest = carpace_rest_is_due (block) ? CARPACE_REST_DUE : CARPACE_REST_NONE;
}

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

  if (s->plan->reserve_at_least_pct <= 0.0)
    return CARPACE_NEVER;
  group_loads (s, load);
  in_s = carpace_reserve_falls_s (&s->block.reserve, load, s->plan->reserve_at_least_pct / 100.0, NULL);
  if (in_s <= 0.0 && s->block.closed_ms <= s->block.rest_from_ms)
    return CARPACE_NEVER; /* this rest did not restore it: one more run first */
  return in_s < 1e9 ? (int64_t) ceil (in_s * 1000.0) : CARPACE_NEVER;
}

void
carpace_rest_reserve_forward (CarpaceSession *s, int64_t to, bool active)
{
  CarpaceRunning *block = &s->block;
  double load[CARPACE_N_GROUPS];

  if (block->match || s->plan->reserve_at_least_pct <= 0.0 || to <= block->reserve_at)
    return;
  if (active)
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

  if (s->state != CARPACE_STATE_PRACTISING || s->frozen || carpace_rest_is_due (block) || no_more_offers (s))
    return CARPACE_NEVER;
  in_ms = carpace_sum_ms (block->rest_from_ms, block->after_ms) - block->closed_ms;
  time = carpace_sum_ms (block->stretch_began, in_ms < 0 ? 0 : in_ms);
  in_ms = reserve_due_in (s);
  if (carpace_sum_ms (block->reserve_at, in_ms) < time)
    time = carpace_sum_ms (block->reserve_at, in_ms);
  time = carpace_later (time, s->last.elapsed_ms); /* a morning or a correction made `after` shorter */
  if (!room_for_rest (s, carpace_sum_ms (block->closed_ms, time - block->stretch_began)))
    return CARPACE_NEVER;
  return time;
}

static void
become_due (CarpaceStep *step)
{
  step->s->block.rest = CARPACE_REST_DUE;
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

  if (s->plan->or_after_runs > 0 && !carpace_rest_is_due (&s->block) && !no_more_offers (s)
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

  if (s->intermission_ahead
      && s->intermission_at - block->rest_due_at <= s->plan->wait_for_gap_ms && s->intermission_at > block->rest_earliest)
    return s->intermission_at;
  return block->rest_earliest;
}

bool
carpace_rest_can_be_offered (const CarpaceSession *s, int64_t elapsed)
{
  return s->block.rest == CARPACE_REST_DUE && elapsed >= offer_from (s);
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
  if (!block->running || no_more_offers (s))
    return;
  if (s->state == CARPACE_STATE_PRACTISING && block->limit_ms - active_ms < s->plan->shortest_ms)
    carpace_block_limit (step);
  else if ((s->state == CARPACE_STATE_PRACTISING || s->state == CARPACE_STATE_GAP) && block->rest == CARPACE_REST_NONE
           && 3 * (active_ms - block->rest_from_ms) >= 2 * block->after_ms)
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

void
carpace_rest_offer (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  const CarpaceRunning was = s->block;
  bool on = s->cue_on[CARPACE_CUE_MICRO_REST];

  carpace_session_goto (step, CARPACE_STATE_REST_DUE);
  choose_card (s, step->now.elapsed_ms);
  if (!on || s->block.card != was.card || s->block.between_drills != was.between_drills)
    carpace_cue_show (step, CARPACE_CUE_MICRO_REST);
}

static void
show_card (CarpaceStep *step)
{
  if (!step->s->cue_on[CARPACE_CUE_MICRO_REST])
    choose_card (step->s, step->now.elapsed_ms);
  carpace_cue_show (step, CARPACE_CUE_MICRO_REST);
}

/* In a run: how long to wait for a gap before the cue is shown quietly, and
 * then again. In a gap: when the offer may be made again. */
int64_t
carpace_wait_for_gap_time (const CarpaceSession *s)
{
  const CarpaceRunning *block = &s->block;

  if (block->rest != CARPACE_REST_DUE)
    return CARPACE_NEVER;
  if (s->state == CARPACE_STATE_GAP)
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
    carpace_rest_offer (step);
  else
    {
      show_card (step);
      s->block.rest_shown_at = step->now.elapsed_ms;
    }
}

static void
triggers_anew (CarpaceSession *s, CarpaceRestPhase phase, int64_t elapsed)
{
  s->block.rest = phase;
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

  if (!block->running || block->match || block->reach)
    return CARPACE_NEVER;
  switch (s->state)
    {
    case CARPACE_STATE_GAP:
    case CARPACE_STATE_REST_DUE:
    case CARPACE_STATE_PAUSED:
      return s->hand == CARPACE_HAND_STILL && !stillness_has_had_it (block)
               ? carpace_sum_ms (s->still_since, block->rest_ms)
               : CARPACE_NEVER;
    case CARPACE_STATE_RESTING:
      over = carpace_sum_ms (block->count_from, block->count_ms - block->counted_ms);
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

static CarpaceEntry *
tell_rest (CarpaceStep *step, CarpaceRestWhat what)
{
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_REST);

  entry->rest.what = what;
  entry->rest.length_ms = step->s->block.rest_ms;
  entry->rest.asked = step->s->cue_on[CARPACE_CUE_MICRO_REST];
  return entry;
}

/* The rest of this stillness, told once. */
static void
take (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceEntry *entry;

  if (stillness_has_had_it (&s->block))
    return;
  entry = tell_rest (step, CARPACE_REST_TAKEN);
  if (s->cue_on[CARPACE_CUE_MICRO_REST])
    s->history.shown_next = entry->rest.next_shown = (s->block.card + 1) % s->plan->n_shown;
  triggers_anew (s, CARPACE_REST_HAD, step->now.elapsed_ms);
}

/* Stillness that a countdown has counted by @elapsed. */
static int64_t
counted_at (const CarpaceSession *s, int64_t elapsed)
{
  const CarpaceRunning *block = &s->block;
  bool still = s->hand == CARPACE_HAND_STILL || elapsed <= block->moving_from;

  return block->counted_ms + (still ? elapsed : block->moving_from) - block->count_from;
}

int64_t
carpace_rest_to_go_ms (const CarpaceSession *s, int64_t elapsed)
{
  int64_t to_go_ms = s->block.count_ms - counted_at (s, elapsed);

  return to_go_ms > 0 ? to_go_ms : 0;
}

/* Ends a countdown before its time: the exercise may have been cut short, the
 * stillness may have been long enough for the rest. */
void
carpace_rest_leave (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (s->state == CARPACE_STATE_RESTING && counted_at (s, step->now.elapsed_ms) >= s->block.rest_ms)
    take (step);
}

void
carpace_rest_over (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  take (step);
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  if (s->state == CARPACE_STATE_PAUSED)
    return;
  carpace_session_goto (step, CARPACE_STATE_GAP);
  if (s->frozen)
    carpace_hand_presume_still (step); /* suspended since it moved */
  if (s->hand == CARPACE_HAND_STILL)
    return;
  carpace_stretch_open (step, step->now.elapsed_ms); /* it moved in what was forgiven, and moves on */
  carpace_session_goto (step, CARPACE_STATE_PRACTISING);
}

int64_t
carpace_rest_interrupted_time (const CarpaceSession *s)
{
  if (s->state != CARPACE_STATE_RESTING || s->hand == CARPACE_HAND_STILL || s->frozen)
    return CARPACE_NEVER;
  return carpace_sum_ms (s->block.moving_from, s->plan->run_min_ms - s->block.moved_ms);
}

/* The hand has moved for too long. A rest that was long enough by then is taken
 * all the same, and was only shorter than its exercise. */
void
carpace_rest_interrupted (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int64_t now = step->now.elapsed_ms;

  carpace_rest_leave (step);
  if (!stillness_has_had_it (&s->block))
    {
      tell_rest (step, CARPACE_REST_INTERRUPTED);
      become_due (step);
      s->block.rest_earliest = carpace_sum_ms (now, CARPACE_OFFER_AGAIN_MS);
      s->block.rest_due_at = s->block.rest_earliest;
    }
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  carpace_stretch_open (step, now - s->plan->run_min_ms); /* what was moved is practice */
  carpace_session_goto (step, CARPACE_STATE_PRACTISING);
}

void
carpace_rest_begin (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceRunning *block = &s->block;
  int64_t exercise_ms;

  if (block->in_stretch)
    {
      int64_t last = carpace_last_input (s, step->now.elapsed_ms);
      carpace_stretch_close (step, last);
      block->gap_began = last;
    }
  if (!s->cue_on[CARPACE_CUE_MICRO_REST])
    show_card (step);
  carpace_hand_presume_still (step);
  carpace_session_goto (step, CARPACE_STATE_RESTING);
  block->counted_ms = 0;
  block->moved_ms = 0;
  block->count_from = stillness_has_had_it (block) ? step->now.elapsed_ms : s->still_since;
  exercise_ms = carpace_exercise_ms (s->plan->shown[block->card], block->rest_ms);
  block->count_ms = exercise_ms + (step->now.elapsed_ms - block->count_from);
  block->count_ms = carpace_later (block->count_ms, block->rest_ms);
  block->forgiven_until = carpace_sum_ms (step->now.elapsed_ms, CARPACE_REST_FORGIVEN_MS);
}

/* An answer that is no rest ends one that is running: nothing more comes of it
 * in this stillness. */
static void
answered (CarpaceStep *step, CarpaceRestWhat what, CarpaceRestPhase in_gap, CarpaceRestPhase was_resting)
{
  CarpaceSession *s = step->s;

  tell_rest (step, what);
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  if (s->state == CARPACE_STATE_PRACTISING)
    return;
  s->block.rest = s->state == CARPACE_STATE_RESTING ? was_resting : in_gap;
  carpace_hand_presume_still (step);
  carpace_session_goto (step, CARPACE_STATE_GAP);
}

void
carpace_rest_defer (CarpaceStep *step)
{
  become_due (step);
  answered (step, CARPACE_REST_DEFERRED, CARPACE_REST_PUT_OFF, CARPACE_REST_HAD_ANEW);
}

void
carpace_rest_decline (CarpaceStep *step)
{
  step->s->block.declined++;
  triggers_anew (step->s, CARPACE_REST_NONE, step->now.elapsed_ms);
  answered (step, CARPACE_REST_DECLINED, CARPACE_REST_NONE, CARPACE_REST_HAD);
}

/* What is due is offered in the next gap, or waits for one from now on. */
void
carpace_rest_waits_anew (CarpaceStep *step)
{
  step->s->block.rest_due_at = step->now.elapsed_ms;
}

void
carpace_rest_drop (CarpaceStep *step)
{
  step->s->block.rest = CARPACE_REST_NONE;
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
}
