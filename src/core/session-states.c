/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-states.c: where a session can go, and what it takes where. Facts and
 * answers mean the same in every state; what is said to a block is a table of
 * states. What is not taken is refused with a reason; facts that change nothing
 * are no fault. */
#include "carpace/event-kinds.h"
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
  { CARPACE_STATE_LIMIT_REACHED, CARPACE_STATE_WAITING },
  { CARPACE_STATE_LIMIT_REACHED, CARPACE_STATE_DAY_DONE },
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

bool
carpace_session_may_go (CarpaceState from, CarpaceState to)
{
  for (const CarpaceTransition *t = carpace_session_transitions; t->from != CARPACE_N_STATES; t++)
    if (t->from == from && t->to == to)
      return true;
  return from == to;
}

/* The only place that sets a state. A way that the diagram does not have is a
 * fault of this program, and told as one. */
void
carpace_session_goto (CarpaceStep *step, CarpaceState state)
{
  CarpaceEntry *entry;

  if (!carpace_session_may_go (step->s->state, state))
    {
      entry = carpace_refuse (step, CARPACE_REFUSAL_IMPOSSIBLE);
      entry->fault.state = state;
    }
  step->s->state = state;
}

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
  s->elsewhere = false;
  s->frozen = s->hand == CARPACE_HAND_PAUSING;
}

static void
wake (CarpaceStep *step)
{
  step->s->suspended = false;
}

static void
off_air (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (!s->on_air)
    return;
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
on_air (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->on_air = s->history.on_air = true;
  if (s->rating_open)
    s->rating_until = CARPACE_NEVER;
  carpace_day_hold_back (step);
}

static void
intermission (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->intermission_ahead = s->on_air && step->event->intermission.begins_ms >= step->now.elapsed_ms;
  s->intermission_at = s->on_air ? step->event->intermission.begins_ms : CARPACE_NEVER;
}

static void
open_plan (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (s->state != CARPACE_STATE_OFF)
    {
      s->next_plan = step->event->open.plan;
      return;
    }
  s->plan = step->event->open.plan;
  carpace_session_goto (step, CARPACE_STATE_WAITING);
  carpace_day_offer_morning (step);
}

/* Facts, and what means the same in every state. */
static void (*const anywhere[CARPACE_N_EVENTS]) (CarpaceStep *step) = {
  [CARPACE_EVENT_OPEN] = open_plan,
  [CARPACE_EVENT_INPUT] = carpace_hand_input,
  [CARPACE_EVENT_STILL] = carpace_hand_still,
  [CARPACE_EVENT_RATE] = carpace_rate,
  [CARPACE_EVENT_MORNING] = carpace_day_morning,
  [CARPACE_EVENT_CAUTION] = carpace_day_caution,
  [CARPACE_EVENT_ON_AIR] = on_air,
  [CARPACE_EVENT_OFF_AIR] = off_air,
  [CARPACE_EVENT_INTERMISSION] = intermission,
  [CARPACE_EVENT_SUSPEND] = suspend,
  [CARPACE_EVENT_WAKE] = wake,
  [CARPACE_EVENT_FRONT] = carpace_front_come,
  [CARPACE_EVENT_FRONT_STARTS] = carpace_front_come_and_start,
  [CARPACE_EVENT_AWAY] = carpace_front_leave,
  [CARPACE_EVENT_ANYWHERE] = carpace_front_anywhere,
  [CARPACE_EVENT_CLICKS] = carpace_clicks_take,
};

static void
start (CarpaceStep *step)
{
  carpace_block_start (step, false);
}

static void
start_match (CarpaceStep *step)
{
  carpace_block_start (step, true);
}

static void
end (CarpaceStep *step)
{
  carpace_block_end (step, step->now.elapsed_ms, step->now.elapsed_ms);
}

/* A gap that the player says begins now. */
static void
pause (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_rest_leave (step);
  carpace_stretch_close (step, carpace_last_input (s, step->now.elapsed_ms));
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  carpace_hand_presume_still (step);
  s->block.gap_began = step->now.elapsed_ms;
  carpace_session_goto (step, CARPACE_STATE_PAUSED);
}

static void
go_on (CarpaceStep *step)
{
  carpace_hand_presume_moving (step);
  carpace_stretch_open (step, step->now.elapsed_ms);
  carpace_rest_waits_anew (step);
  carpace_session_goto (step, CARPACE_STATE_PRACTISING);
}

static void
rest (CarpaceStep *step)
{
  if (step->s->block.match)
    carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
  else
    carpace_rest_begin (step);
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

static void
after_run (CarpaceStep *step)
{
  answer_rest (step, carpace_rest_defer);
}

static void
play_on (CarpaceStep *step)
{
  answer_rest (step, carpace_rest_decline);
}

/* States that take the same: no plan; no block; a block; a rest in it; a block
 * at its limit, which any gap ends, also one that the player asks for; a pause. */
typedef enum { OFF, BETWEEN, IN_BLOCK, RESTING, AT_LIMIT, PAUSED, N_WHERES } Where;

static const Where where[CARPACE_N_STATES] = {
  [CARPACE_STATE_OFF] = OFF,
  [CARPACE_STATE_WAITING] = BETWEEN,
  [CARPACE_STATE_PRACTISING] = IN_BLOCK,
  [CARPACE_STATE_GAP] = IN_BLOCK,
  [CARPACE_STATE_REST_DUE] = IN_BLOCK,
  [CARPACE_STATE_RESTING] = RESTING,
  [CARPACE_STATE_LIMIT_REACHED] = AT_LIMIT,
  [CARPACE_STATE_RATING_DUE] = BETWEEN,
  [CARPACE_STATE_PAUSED] = PAUSED,
  [CARPACE_STATE_DAY_DONE] = BETWEEN,
};

/* What is said to a block, and what comes of it there. */
typedef struct
{
  void (*take) (CarpaceStep *step); /* NULL: refused, with this reason */
  CarpaceRefusal refusal;
} Said;

#define TAKES(how) { how, CARPACE_REFUSAL_IMPOSSIBLE }
#define NOT(reason) { NULL, CARPACE_REFUSAL_##reason }

static const Said said[CARPACE_N_EVENTS][N_WHERES] = {
  [CARPACE_EVENT_START] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = TAKES (start), [IN_BLOCK] = NOT (RUNNING),
    [RESTING] = NOT (RUNNING), [AT_LIMIT] = NOT (RUNNING), [PAUSED] = TAKES (go_on) },
  [CARPACE_EVENT_START_MATCH] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = TAKES (start_match), [IN_BLOCK] = NOT (RUNNING),
    [RESTING] = NOT (RUNNING), [AT_LIMIT] = NOT (RUNNING), [PAUSED] = NOT (RUNNING) },
  [CARPACE_EVENT_END] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = NOT (NO_BLOCK), [IN_BLOCK] = TAKES (end),
    [RESTING] = TAKES (end), [AT_LIMIT] = TAKES (end), [PAUSED] = TAKES (end) },
  [CARPACE_EVENT_PAUSE] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = NOT (NO_BLOCK), [IN_BLOCK] = TAKES (pause),
    [RESTING] = TAKES (pause), [AT_LIMIT] = TAKES (end), [PAUSED] = NOT (NOT_NOW) },
  [CARPACE_EVENT_CONTINUE] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = NOT (NO_BLOCK), [IN_BLOCK] = NOT (NOT_NOW),
    [RESTING] = NOT (NOT_NOW), [AT_LIMIT] = NOT (NOT_NOW), [PAUSED] = TAKES (go_on) },
  [CARPACE_EVENT_REST] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = NOT (NO_BLOCK), [IN_BLOCK] = TAKES (rest),
    [RESTING] = NOT (NOT_NOW), [AT_LIMIT] = TAKES (end), [PAUSED] = TAKES (rest) },
  [CARPACE_EVENT_AFTER_RUN] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = NOT (NO_REST_OFFERED), [IN_BLOCK] = TAKES (after_run),
    [RESTING] = TAKES (after_run), [AT_LIMIT] = NOT (NO_REST_OFFERED), [PAUSED] = NOT (NO_REST_OFFERED) },
  [CARPACE_EVENT_PLAY_ON] = {
    [OFF] = NOT (NO_PLAN), [BETWEEN] = NOT (NO_REST_OFFERED), [IN_BLOCK] = TAKES (play_on),
    [RESTING] = TAKES (play_on), [AT_LIMIT] = NOT (NO_REST_OFFERED), [PAUSED] = NOT (NO_REST_OFFERED) },
};

static void
take_said (CarpaceStep *step)
{
  const Said *what = &said[step->event->kind][where[step->s->state]];

  if (what->take != NULL)
    what->take (step);
  else
    carpace_refuse (step, what->refusal);
}

void
carpace_state_take (CarpaceStep *step)
{
  CarpaceEventKind kind = step->event->kind;
  bool off = step->s->state == CARPACE_STATE_OFF;

  if (kind != CARPACE_EVENT_SUSPEND)
    step->s->suspended = false; /* whoever says something is awake */
  switch (carpace_event_kinds[kind].taken)
    {
    case CARPACE_TAKEN_AS_FACT:
      if (!off)
        anywhere[kind](step);
      break;
    case CARPACE_TAKEN_ANYWHERE:
      anywhere[kind](step);
      break;
    case CARPACE_TAKEN_WITH_A_PLAN:
      if (off)
        carpace_refuse (step, CARPACE_REFUSAL_NO_PLAN);
      else
        anywhere[kind](step);
      break;
    case CARPACE_TAKEN_BY_STATE:
      take_said (step);
      break;
    case CARPACE_TAKEN_AS_TIME:
      break;
    }
}
