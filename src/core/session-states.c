/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-states.c: one function a state, every event named. What a state does
 * not take is refused with a reason; facts that change nothing are no fault. */
#include "session-private.h"

const CarpaceTransition carpace_session_transitions[] = {
  { CARPACE_STATE_OFF, CARPACE_STATE_WAITING },
  { CARPACE_STATE_WAITING, CARPACE_STATE_PRACTISING },
  { CARPACE_STATE_WAITING, CARPACE_STATE_DAY_DONE },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_GAP },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_REST_DUE },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_RESTING },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_LIMIT_REACHED },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_PAUSED },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_RATING_DUE },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_WAITING },
  { CARPACE_STATE_PRACTISING, CARPACE_STATE_DAY_DONE },
  { CARPACE_STATE_GAP, CARPACE_STATE_PRACTISING },
  { CARPACE_STATE_GAP, CARPACE_STATE_REST_DUE },
  { CARPACE_STATE_GAP, CARPACE_STATE_RESTING },
  { CARPACE_STATE_GAP, CARPACE_STATE_PAUSED },
  { CARPACE_STATE_GAP, CARPACE_STATE_RATING_DUE },
  { CARPACE_STATE_GAP, CARPACE_STATE_WAITING },
  { CARPACE_STATE_GAP, CARPACE_STATE_DAY_DONE },
  { CARPACE_STATE_REST_DUE, CARPACE_STATE_PRACTISING },
  { CARPACE_STATE_REST_DUE, CARPACE_STATE_GAP },
  { CARPACE_STATE_REST_DUE, CARPACE_STATE_RESTING },
  { CARPACE_STATE_REST_DUE, CARPACE_STATE_PAUSED },
  { CARPACE_STATE_REST_DUE, CARPACE_STATE_RATING_DUE },
  { CARPACE_STATE_REST_DUE, CARPACE_STATE_WAITING },
  { CARPACE_STATE_REST_DUE, CARPACE_STATE_DAY_DONE },
  { CARPACE_STATE_RESTING, CARPACE_STATE_PRACTISING },
  { CARPACE_STATE_RESTING, CARPACE_STATE_GAP },
  { CARPACE_STATE_RESTING, CARPACE_STATE_PAUSED },
  { CARPACE_STATE_RESTING, CARPACE_STATE_RATING_DUE },
  { CARPACE_STATE_RESTING, CARPACE_STATE_WAITING },
  { CARPACE_STATE_RESTING, CARPACE_STATE_DAY_DONE },
  { CARPACE_STATE_LIMIT_REACHED, CARPACE_STATE_RATING_DUE },
  { CARPACE_STATE_RATING_DUE, CARPACE_STATE_WAITING },
  { CARPACE_STATE_RATING_DUE, CARPACE_STATE_PRACTISING },
  { CARPACE_STATE_RATING_DUE, CARPACE_STATE_DAY_DONE },
  { CARPACE_STATE_PAUSED, CARPACE_STATE_PRACTISING },
  { CARPACE_STATE_PAUSED, CARPACE_STATE_RESTING },
  { CARPACE_STATE_PAUSED, CARPACE_STATE_RATING_DUE },
  { CARPACE_STATE_PAUSED, CARPACE_STATE_WAITING },
  { CARPACE_STATE_PAUSED, CARPACE_STATE_DAY_DONE },
  { CARPACE_STATE_DAY_DONE, CARPACE_STATE_WAITING },
  { CARPACE_STATE_DAY_DONE, CARPACE_STATE_PRACTISING },
  { CARPACE_N_STATES, CARPACE_N_STATES },
};

static void
suspend (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->suspended = true;
  if (s->hand == CARPACE_HAND_MOVING) /* being suspended is stillness */
    {
      s->still_since = step->now.elapsed_ms;
      s->hand = CARPACE_HAND_PAUSING;
    }
  s->frozen = s->hand == CARPACE_HAND_PAUSING;
}

static void
off_air (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->on_air = s->history.on_air = false;
  s->intermission_ahead = false;
  s->intermission_at = CARPACE_NEVER;
  if (s->rating_open)
    {
      s->rating_until = carpace_sum_ms (step->now.elapsed_ms, CARPACE_RATING_OPEN_MS);
      carpace_cue_show (step, CARPACE_CUE_RATING);
    }
  if (s->caution_held_back)
    carpace_cue_show (step, CARPACE_CUE_CAUTION);
  s->caution_held_back = false;
}

static void
on_air (CarpaceSession *s)
{
  s->on_air = s->history.on_air = true;
  if (s->rating_open)
    s->rating_until = CARPACE_NEVER;
}

/* What means the same in every state but off.
 * @return whether the event was one of those */
static bool
take_anywhere (CarpaceStep *step)
{
  switch (step->event->kind)
    {
    case CARPACE_EVENT_OPEN:
      step->s->next_plan = step->event->plan;
      return true;
    case CARPACE_EVENT_INPUT:
      carpace_hand_input (step);
      return true;
    case CARPACE_EVENT_STILL:
      carpace_hand_still (step);
      return true;
    case CARPACE_EVENT_RATE:
      carpace_rate (step);
      return true;
    case CARPACE_EVENT_MORNING:
      carpace_day_morning (step);
      return true;
    case CARPACE_EVENT_CAUTION:
      carpace_day_caution (step);
      return true;
    case CARPACE_EVENT_ON_AIR:
      on_air (step->s);
      return true;
    case CARPACE_EVENT_OFF_AIR:
      off_air (step);
      return true;
    case CARPACE_EVENT_INTERMISSION:
      step->s->intermission_ahead = step->s->on_air && step->event->since_ms >= step->now.elapsed_ms;
      step->s->intermission_at = step->s->on_air ? step->event->since_ms : CARPACE_NEVER;
      return true;
    case CARPACE_EVENT_SUSPEND:
      suspend (step);
      return true;
    case CARPACE_EVENT_WAKE:
      return true;
    case CARPACE_EVENT_DEADLINE:
    case CARPACE_EVENT_START:
    case CARPACE_EVENT_START_MATCH:
    case CARPACE_EVENT_END:
    case CARPACE_EVENT_PAUSE:
    case CARPACE_EVENT_CONTINUE:
    case CARPACE_EVENT_REST:
    case CARPACE_EVENT_AFTER_RUN:
    case CARPACE_EVENT_PLAY_ON:
    case CARPACE_N_EVENTS:
      return false;
    }
  return false;
}

/* The cases of what take_anywhere() has taken, for the states' own switches. */
#define TAKEN_BEFORE                \
  case CARPACE_EVENT_DEADLINE:      \
  case CARPACE_EVENT_OPEN:          \
  case CARPACE_EVENT_INPUT:         \
  case CARPACE_EVENT_STILL:         \
  case CARPACE_EVENT_RATE:          \
  case CARPACE_EVENT_MORNING:       \
  case CARPACE_EVENT_CAUTION:       \
  case CARPACE_EVENT_ON_AIR:        \
  case CARPACE_EVENT_OFF_AIR:       \
  case CARPACE_EVENT_INTERMISSION:  \
  case CARPACE_EVENT_SUSPEND:       \
  case CARPACE_EVENT_WAKE:          \
  case CARPACE_N_EVENTS

static void
end (CarpaceStep *step)
{
  carpace_block_end (step, step->now.elapsed_ms, false);
}

/* A gap that the player says begins now. */
static void
pause (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_stretch_close (step, carpace_last_input (s, step->now.elapsed_ms));
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  carpace_hand_presume_still (step);
  s->block.gap_began = step->now.elapsed_ms;
  s->state = CARPACE_STATE_PAUSED;
}

static void
go_on (CarpaceStep *step)
{
  carpace_hand_presume_moving (step);
  carpace_stretch_open (step, step->now.elapsed_ms);
  step->s->state = CARPACE_STATE_PRACTISING;
}

static void
rest (CarpaceStep *step)
{
  if (step->s->block.match)
    carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
  else
    carpace_rest_begin (step);
}

static void
in_off (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  switch (step->event->kind)
    {
    case CARPACE_EVENT_OPEN:
      s->plan = step->event->plan;
      s->state = CARPACE_STATE_WAITING;
      carpace_day_offer_morning (step);
      break;
    case CARPACE_EVENT_ON_AIR:
      s->on_air = s->history.on_air = true;
      break;
    case CARPACE_EVENT_OFF_AIR:
      s->on_air = s->history.on_air = false;
      break;
    case CARPACE_EVENT_INPUT:
    case CARPACE_EVENT_STILL:
    case CARPACE_EVENT_INTERMISSION:
    case CARPACE_EVENT_SUSPEND:
    case CARPACE_EVENT_WAKE:
    case CARPACE_EVENT_DEADLINE:
      break;
    case CARPACE_EVENT_START:
    case CARPACE_EVENT_START_MATCH:
    case CARPACE_EVENT_END:
    case CARPACE_EVENT_PAUSE:
    case CARPACE_EVENT_CONTINUE:
    case CARPACE_EVENT_REST:
    case CARPACE_EVENT_AFTER_RUN:
    case CARPACE_EVENT_PLAY_ON:
    case CARPACE_EVENT_RATE:
    case CARPACE_EVENT_MORNING:
    case CARPACE_EVENT_CAUTION:
    case CARPACE_N_EVENTS:
      carpace_refuse (step, CARPACE_REFUSAL_NO_PLAN);
      break;
    }
}

/* waiting, rating-due, day-done: no block is running. */
static void
in_between (CarpaceStep *step)
{
  switch (step->event->kind)
    {
    case CARPACE_EVENT_START:
      carpace_block_start (step, false);
      break;
    case CARPACE_EVENT_START_MATCH:
      carpace_block_start (step, true);
      break;
    case CARPACE_EVENT_END:
    case CARPACE_EVENT_PAUSE:
    case CARPACE_EVENT_CONTINUE:
    case CARPACE_EVENT_REST:
      carpace_refuse (step, CARPACE_REFUSAL_NO_BLOCK);
      break;
    case CARPACE_EVENT_AFTER_RUN:
    case CARPACE_EVENT_PLAY_ON:
      carpace_refuse (step, CARPACE_REFUSAL_NO_REST_OFFERED);
      break;
    TAKEN_BEFORE:
      break;
    }
}

/* An answer to a micro-rest that is not on is told so. */
static void
answer_rest (CarpaceStep *step, void (*answer) (CarpaceStep *step))
{
  if (step->s->cue_on[CARPACE_CUE_MICRO_REST])
    answer (step);
  else
    carpace_refuse (step, CARPACE_REFUSAL_NO_REST_OFFERED);
}

/* practising, gap, rest-due: a block is running and takes what is said. */
static void
in_block (CarpaceStep *step)
{
  switch (step->event->kind)
    {
    case CARPACE_EVENT_START:
    case CARPACE_EVENT_START_MATCH:
      carpace_refuse (step, CARPACE_REFUSAL_RUNNING);
      break;
    case CARPACE_EVENT_END:
      end (step);
      break;
    case CARPACE_EVENT_PAUSE:
      pause (step);
      break;
    case CARPACE_EVENT_CONTINUE:
      carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
      break;
    case CARPACE_EVENT_REST:
      rest (step);
      break;
    case CARPACE_EVENT_AFTER_RUN:
      answer_rest (step, carpace_rest_defer);
      break;
    case CARPACE_EVENT_PLAY_ON:
      answer_rest (step, carpace_rest_decline);
      break;
    TAKEN_BEFORE:
      break;
    }
}

static void
in_resting (CarpaceStep *step)
{
  switch (step->event->kind)
    {
    case CARPACE_EVENT_START:
    case CARPACE_EVENT_START_MATCH:
      carpace_refuse (step, CARPACE_REFUSAL_RUNNING);
      break;
    case CARPACE_EVENT_END:
      end (step);
      break;
    case CARPACE_EVENT_PAUSE:
      pause (step);
      break;
    case CARPACE_EVENT_AFTER_RUN:
      carpace_rest_defer (step);
      break;
    case CARPACE_EVENT_PLAY_ON:
      carpace_rest_decline (step);
      break;
    case CARPACE_EVENT_CONTINUE:
    case CARPACE_EVENT_REST:
      carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
      break;
    TAKEN_BEFORE:
      break;
    }
}

/* Any gap ends the block, also one that the player asks for. */
static void
in_limit_reached (CarpaceStep *step)
{
  switch (step->event->kind)
    {
    case CARPACE_EVENT_START:
    case CARPACE_EVENT_START_MATCH:
      carpace_refuse (step, CARPACE_REFUSAL_RUNNING);
      break;
    case CARPACE_EVENT_END:
    case CARPACE_EVENT_PAUSE:
    case CARPACE_EVENT_REST:
      end (step);
      break;
    case CARPACE_EVENT_CONTINUE:
      carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
      break;
    case CARPACE_EVENT_AFTER_RUN:
    case CARPACE_EVENT_PLAY_ON:
      carpace_refuse (step, CARPACE_REFUSAL_NO_REST_OFFERED);
      break;
    TAKEN_BEFORE:
      break;
    }
}

static void
in_paused (CarpaceStep *step)
{
  switch (step->event->kind)
    {
    case CARPACE_EVENT_START:
    case CARPACE_EVENT_CONTINUE:
      go_on (step);
      break;
    case CARPACE_EVENT_START_MATCH:
      carpace_refuse (step, CARPACE_REFUSAL_RUNNING);
      break;
    case CARPACE_EVENT_END:
      end (step);
      break;
    case CARPACE_EVENT_PAUSE:
      carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
      break;
    case CARPACE_EVENT_REST:
      rest (step);
      break;
    case CARPACE_EVENT_AFTER_RUN:
    case CARPACE_EVENT_PLAY_ON:
      carpace_refuse (step, CARPACE_REFUSAL_NO_REST_OFFERED);
      break;
    TAKEN_BEFORE:
      break;
    }
}

void
carpace_state_take (CarpaceStep *step)
{
  if (step->event->kind != CARPACE_EVENT_SUSPEND)
    step->s->suspended = false; /* whoever says something is awake */
  if (step->s->state != CARPACE_STATE_OFF && take_anywhere (step))
    return;
  switch (step->s->state)
    {
    case CARPACE_STATE_OFF:
      in_off (step);
      break;
    case CARPACE_STATE_WAITING:
    case CARPACE_STATE_RATING_DUE:
    case CARPACE_STATE_DAY_DONE:
      in_between (step);
      break;
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_GAP:
    case CARPACE_STATE_REST_DUE:
      in_block (step);
      break;
    case CARPACE_STATE_RESTING:
      in_resting (step);
      break;
    case CARPACE_STATE_LIMIT_REACHED:
      in_limit_reached (step);
      break;
    case CARPACE_STATE_PAUSED:
      in_paused (step);
      break;
    case CARPACE_N_STATES:
      break;
    }
}
