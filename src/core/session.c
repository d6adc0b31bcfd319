/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session.c: the door. A step is one event or one deadline; what it tells comes
 * out in one order: what happened, cues withdrawn, the state, cues shown. */
#include "session-private.h"

#include <string.h>

/* Deadlines, in the order they go at one instant. */
typedef enum
{
  DEADLINE_GAP,
  DEADLINE_REACH,
  DEADLINE_LONG_GAP,
  DEADLINE_LIMIT,
  DEADLINE_INTERMISSION,
  DEADLINE_FINISH_RUN,
  DEADLINE_REST_DUE,
  DEADLINE_WAIT_FOR_GAP,
  DEADLINE_REST_INTERRUPTED,
  DEADLINE_REST_OVER,
  DEADLINE_OVERRUN_OVER,
  DEADLINE_RATING_OVER,
  DEADLINE_WAIT_OVER,
  DEADLINE_UNSTARTED,
  N_DEADLINES
} Deadline;

static bool
in_a_gap (const CarpaceSession *s)
{
  return s->block.running
         && (s->state == CARPACE_STATE_GAP || s->state == CARPACE_STATE_REST_DUE
             || s->state == CARPACE_STATE_RESTING || s->state == CARPACE_STATE_PAUSED);
}

static int64_t
gap_time (const CarpaceSession *s)
{
  return s->hand == CARPACE_HAND_PAUSING && s->plan != NULL
           ? carpace_sum_ms (s->still_since, s->plan->gap_after_ms)
           : CARPACE_NEVER;
}

static int64_t
reach_time (const CarpaceSession *s)
{
  if (!s->block.reach)
    return CARPACE_NEVER;
  if (s->hand != CARPACE_HAND_MOVING && !carpace_reach_lasts (s))
    return CARPACE_NEVER; /* the stillness after it will tell */
  return carpace_sum_ms (s->block.reach_began, CARPACE_REACH_MS);
}

static int64_t
long_gap_time (const CarpaceSession *s)
{
  return in_a_gap (s) && !s->block.reach ? carpace_sum_ms (s->block.gap_began, CARPACE_LONG_GAP_MS) : CARPACE_NEVER;
}

static int64_t
limit_time (const CarpaceSession *s)
{
  if (s->state != CARPACE_STATE_PRACTISING || s->block.match || s->frozen)
    return CARPACE_NEVER;
  return carpace_sum_ms (s->block.stretch_began, s->block.limit_ms - s->block.closed_ms);
}

static int64_t
intermission_time (const CarpaceSession *s)
{
  return s->intermission_ahead ? s->intermission_at : CARPACE_NEVER;
}

static int64_t
finish_run_time (const CarpaceSession *s)
{
  return s->state == CARPACE_STATE_LIMIT_REACHED ? carpace_sum_ms (s->block.limit_at, s->plan->finish_run_ms)
                                                 : CARPACE_NEVER;
}

static int64_t
overrun_time (const CarpaceSession *s)
{
  return s->overrunning ? carpace_sum_ms (s->overrun_from, CARPACE_OVERRUN_MS) : CARPACE_NEVER;
}

static int64_t
rating_time (const CarpaceSession *s)
{
  return s->rating_open ? s->rating_until : CARPACE_NEVER;
}

static int64_t
wait_time (const CarpaceSession *s)
{
  return s->wait_open && s->state == CARPACE_STATE_WAITING ? s->wait_until : CARPACE_NEVER;
}

static void
overrun_over (CarpaceStep *step)
{
  carpace_overrun_end (step, step->now.elapsed_ms);
}

static const struct
{
  int64_t (*time) (const CarpaceSession *s);
  void (*come) (CarpaceStep *step);
} deadlines[N_DEADLINES] = {
  [DEADLINE_GAP] = { gap_time, carpace_hand_gap },
  [DEADLINE_REACH] = { reach_time, carpace_reach_over },
  [DEADLINE_LONG_GAP] = { long_gap_time, carpace_block_long_gap },
  [DEADLINE_LIMIT] = { limit_time, carpace_block_limit },
  [DEADLINE_INTERMISSION] = { intermission_time, carpace_rest_intermission },
  [DEADLINE_FINISH_RUN] = { finish_run_time, carpace_block_finish_run },
  [DEADLINE_REST_DUE] = { carpace_rest_due_time, carpace_rest_due },
  [DEADLINE_WAIT_FOR_GAP] = { carpace_wait_for_gap_time, carpace_wait_for_gap_over },
  [DEADLINE_REST_INTERRUPTED] = { carpace_rest_interrupted_time, carpace_rest_interrupted },
  [DEADLINE_REST_OVER] = { carpace_rest_over_time, carpace_rest_over },
  [DEADLINE_OVERRUN_OVER] = { overrun_time, overrun_over },
  [DEADLINE_RATING_OVER] = { rating_time, carpace_rating_unanswered },
  [DEADLINE_WAIT_OVER] = { wait_time, carpace_wait_over },
  [DEADLINE_UNSTARTED] = { carpace_unstarted_time, carpace_unstarted_ask },
};

/* The earliest deadline; of several at one instant the first in their order. */
static Deadline
earliest (const CarpaceSession *s, int64_t *ret_time)
{
  Deadline first = N_DEADLINES;

  *ret_time = CARPACE_NEVER;
  if (s->suspended || s->state == CARPACE_STATE_OFF)
    return first;
  for (int i = 0; i < N_DEADLINES; i++)
    {
      int64_t time = deadlines[i].time (s);
      if (time < *ret_time)
        {
          *ret_time = time;
          first = (Deadline) i;
        }
    }
  return first;
}

static void
come_due (CarpaceStep *step)
{
  int64_t time;
  Deadline first = earliest (step->s, &time);

  if (first != N_DEADLINES && time <= step->now.elapsed_ms)
    deadlines[first].come (step);
}

CarpaceEntry *
carpace_tell (CarpaceStep *step, CarpaceEntryKind kind)
{
  /* A step tells far fewer; were it ever full, the last one is overwritten. */
  int32_t i = step->out->n < CARPACE_STEP_ENTRIES ? step->out->n++ : CARPACE_STEP_ENTRIES - 1;
  CarpaceEntry *entry = &step->out->entry[i];

  memset (entry, 0, sizeof *entry);
  entry->at = step->now;
  entry->kind = kind;
  return entry;
}

CarpaceEntry *
carpace_refuse (CarpaceStep *step, CarpaceRefusal refusal)
{
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_FAULT);

  entry->fault.refusal = refusal;
  entry->fault.event = step->event->kind;
  entry->fault.state = step->state_before;
  return entry;
}

void
carpace_cue_show (CarpaceStep *step, CarpaceCue cue)
{
  step->s->cue_on[cue] = true;
  step->s->cue_asked[cue] = false;
  step->cue_again[cue] = true;
}

/* Shown as a question: another start answers it. */
void
carpace_cue_ask (CarpaceStep *step, CarpaceCue cue)
{
  carpace_cue_show (step, cue);
  step->s->cue_asked[cue] = true;
}

void
carpace_cue_withdraw (CarpaceStep *step, CarpaceCue cue)
{
  step->s->cue_on[cue] = step->s->cue_asked[cue] = false;
}

static void
tell_cue (CarpaceStep *step, CarpaceCue cue, CarpaceCueWhat what)
{
  const CarpaceSession *s = step->s;
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_CUE);

  entry->cue.cue = cue;
  entry->cue.what = what;
  entry->cue.in_run = s->state == CARPACE_STATE_PRACTISING || s->state == CARPACE_STATE_LIMIT_REACHED;
  if (cue == CARPACE_CUE_MICRO_REST)
    {
      entry->cue.exercise = s->plan->shown[s->block.card];
      entry->cue.between_drills = s->block.between_drills;
    }
}

static void
tell_changes (CarpaceStep *step)
{
  const CarpaceSession *s = step->s;

  for (int i = 0; i < CARPACE_N_CUES; i++)
    if (step->cue_before[i] && !s->cue_on[i])
      tell_cue (step, (CarpaceCue) i, CARPACE_CUE_WITHDRAWN);
  if (s->state != step->state_before)
    carpace_tell (step, CARPACE_ENTRY_STATE)->state = s->state;
  for (int i = 0; i < CARPACE_N_CUES; i++)
    if (s->cue_on[i] && step->cue_again[i])
      tell_cue (step, (CarpaceCue) i, s->cue_asked[i] ? CARPACE_CUE_ASKED : CARPACE_CUE_SHOWN);
}

void
carpace_session_init (CarpaceSession *session, const CarpaceHistory *history)
{
  memset (session, 0, sizeof *session);
  session->state = CARPACE_STATE_OFF;
  session->today.day = CARPACE_NO_DAY;
  session->morning_shown_for = CARPACE_NO_DAY;
  if (history != NULL)
    session->history = *history;
  else
    carpace_history_init (&session->history);
  session->at_opening = session->history;
  session->on_air = session->history.on_air;
  session->hand = session->history.hand;
  session->moving_since = session->history.moving_since;
  session->still_since = session->history.still_since;
  session->caution_held_back = session->history.caution_shown && session->on_air;
  session->cue_on[CARPACE_CUE_CAUTION] = session->history.caution_shown && !session->on_air;
  session->intermission_at = CARPACE_NEVER;
  carpace_unstarted_forget (session);
}

void
carpace_session_step (CarpaceSession *session, const CarpaceEvent *event, CarpaceInstant now,
                      CarpaceEntries *ret_entries)
{
  CarpaceStep step = { .s = session, .now = now, .out = ret_entries, .event = event };

  ret_entries->n = 0;
  step.now.elapsed_ms = carpace_later (now.elapsed_ms, session->last.elapsed_ms);
  session->last = step.now;
  step.state_before = session->state;
  memcpy (step.cue_before, session->cue_on, sizeof step.cue_before);

  if (event->kind == CARPACE_EVENT_DEADLINE)
    come_due (&step);
  else
    carpace_state_take (&step);
  carpace_front_settle (&step);
  carpace_unstarted_settle (&step);
  tell_changes (&step);
}

int64_t
carpace_session_next_deadline (const CarpaceSession *session)
{
  int64_t time;

  earliest (session, &time);
  return carpace_later (time, session->last.elapsed_ms);
}

CarpaceState
carpace_session_state (const CarpaceSession *session)
{
  return session->state;
}

const CarpacePlan *
carpace_session_plan (const CarpaceSession *session)
{
  return session->plan;
}

bool
carpace_session_block_runs (const CarpaceSession *session)
{
  return session->block.running;
}

bool
carpace_session_hand_moves (const CarpaceSession *session)
{
  return session->hand == CARPACE_HAND_MOVING || session->elsewhere;
}

bool
carpace_session_is_suspended (const CarpaceSession *session)
{
  return session->suspended;
}

CarpaceDay
carpace_session_day (const CarpaceSession *session)
{
  return session->today.open ? session->today.day : CARPACE_NO_DAY;
}

const CarpaceHistory *
carpace_session_history (const CarpaceSession *session)
{
  return &session->history;
}

const CarpaceHistory *
carpace_session_history_at_opening (const CarpaceSession *session)
{
  return &session->at_opening;
}

bool
carpace_entries_opened_day (const CarpaceEntries *entries)
{
  for (int32_t i = 0; i < entries->n; i++)
    if (entries->entry[i].kind == CARPACE_ENTRY_DAY && entries->entry[i].day.what == CARPACE_DAY_OPENED)
      return true;
  return false;
}
