/* SPDX-License-Identifier: GPL-3.0-or-later */
/* active.c: active time is what the inputs say. From first to last input of a
 * stretch; session.md's words, worked out a second time from the facts that go
 * in and the states that are told. */
#include <stddef.h>

#include "evening.h"

#define FORGIVEN_REACH_MS CARPACE_SECOND_MS
#define FORGIVEN_REST_MS (2 * CARPACE_SECOND_MS)
#define MOST_OVERRUN_MS (10 * CARPACE_MINUTE_MS)

static int64_t
between (int64_t low, int64_t value, int64_t high)
{
  return value < low ? low : value > high ? high : value;
}

static bool
counts (CarpaceState state)
{
  return state == CARPACE_STATE_PRACTISING || state == CARPACE_STATE_LIMIT_REACHED;
}

/* Away from the practice window nothing of a block is input; what its end leaves is not counted here. */
static bool
is_elsewhere (const Active *a)
{
  return a->away && (a->running || a->over_from >= 0);
}

static void
input (Active *a, int64_t since, int64_t now)
{
  a->elsewhere = is_elsewhere (a);
  if (a->elsewhere)
    return;
  if (a->hand == HAND_STILL)
    a->moving_since = between (a->still_since, since, now);
  a->hand = HAND_MOVING;
}

static void
stillness (Active *a, int64_t since, int64_t now)
{
  a->elsewhere = false;
  if (a->hand != HAND_MOVING)
    return;
  a->still_since = between (a->moving_since, since, now);
  a->hand = HAND_PAUSING;
}

static void
presume_moving (Active *a, int64_t now)
{
  a->hand = HAND_MOVING;
  a->moving_since = now;
}

/* A pause that has lasted is a gap, told by a deadline. */
static void
gap (Evening *e, CarpaceState before)
{
  Active *a = &e->active;

  a->hand = HAND_STILL;
  if (before != CARPACE_STATE_REST_DUE)
    return;
  if (a->still_since - a->moving_since < FORGIVEN_REACH_MS)
    {
      a->still_since = a->gap_began; /* a short reach is forgiven */
      return;
    }
  a->sum_ms += a->still_since - a->moving_since;
  a->gap_began = a->still_since;
}

void
active_before (Evening *e, const CarpaceEvent *event)
{
  Active *a = &e->active;
  int64_t now = e->now.elapsed_ms;

  if (event->kind == CARPACE_EVENT_INPUT)
    input (a, event->fact.since_ms, now);
  else if (event->kind == CARPACE_EVENT_STILL || event->kind == CARPACE_EVENT_SUSPEND)
    stillness (a, event->kind == CARPACE_EVENT_STILL ? event->fact.since_ms : now, now);
  else if (event->kind == CARPACE_EVENT_AWAY)
    a->away = true;
  else if (event->kind == CARPACE_EVENT_FRONT || event->kind == CARPACE_EVENT_FRONT_STARTS || event->kind == CARPACE_EVENT_ANYWHERE)
    a->away = false;
  if (a->elsewhere && !is_elsewhere (a)) /* it comes back, and its hand with it */
    input (a, now, now);
}

/* After all else: a hand that moves, and not in the window. */
static void
leave_the_window (Active *a, int64_t now)
{
  if (is_elsewhere (a) && a->hand == HAND_MOVING)
    {
      stillness (a, now, now);
      a->elsewhere = true;
    }
  else if (a->elsewhere && !is_elsewhere (a))
    presume_moving (a, now);
  a->elsewhere &= is_elsewhere (a);
}

/* The stretch is closed at its last input. */
static void
close_stretch (Active *a, int64_t at)
{
  if (a->counting && at > a->from)
    a->sum_ms += at - a->from;
  a->counting = false;
}

static int64_t
last_input (const Active *a, int64_t now)
{
  return a->hand == HAND_MOVING ? now : a->still_since;
}

/* An answer to an offer belongs to the gap. */
static void
presume_still (Active *a, CarpaceState before, int64_t now)
{
  bool reach = before == CARPACE_STATE_REST_DUE && a->hand != HAND_STILL;

  a->elsewhere = false;
  if (reach)
    a->still_since = a->gap_began;
  else if (a->hand == HAND_MOVING)
    a->still_since = now;
  a->hand = HAND_STILL;
}

static const char *
check_block (Evening *e, const CarpaceEntry *entry)
{
  Active *a = &e->active;
  int64_t now = e->now.elapsed_ms;

  if (entry->block.what == CARPACE_BLOCK_STARTED)
    {
      presume_moving (a, now);
      a->running = a->counting = true;
      a->from = now;
      a->sum_ms = 0;
      return NULL;
    }
  close_stretch (a, last_input (a, now));
  a->running = false;
  return a->sum_ms == entry->block.active_ms ? NULL : "active time is not what the inputs say";
}

static const char *
check_overrun (Evening *e, const CarpaceEntry *entry)
{
  int64_t ms = last_input (&e->active, e->now.elapsed_ms) - e->active.over_from;

  if (e->active.over_from < 0)
    return "overrun without a block that ended with input on";
  e->active.over_from = -1;
  if (entry->overrun.ms == MOST_OVERRUN_MS && ms > MOST_OVERRUN_MS - e->plan->gap_after_ms)
    return NULL; /* a pause within it was no gap yet */
  return entry->overrun.ms == ms ? NULL : "overrun is not what the inputs say";
}

/* Where a stretch begins that was not there before the step. */
static int64_t
stretch_from (const Evening *e, const CarpaceEvent *event, CarpaceState before)
{
  bool past_forgiven = before == CARPACE_STATE_RESTING && e->now.elapsed_ms > e->active.forgiven_until;

  if (past_forgiven && event->kind == CARPACE_EVENT_DEADLINE)
    return e->now.elapsed_ms - e->plan->run_min_ms; /* those seconds are practice */
  if (before == CARPACE_STATE_REST_DUE || event->kind == CARPACE_EVENT_INPUT || event->kind == CARPACE_EVENT_FRONT
      || event->kind == CARPACE_EVENT_FRONT_STARTS || event->kind == CARPACE_EVENT_ANYWHERE)
    return e->active.moving_since;
  return e->now.elapsed_ms;
}

static void
follow_stretch (Evening *e, const CarpaceEvent *event, CarpaceState before)
{
  Active *a = &e->active;
  CarpaceState after = e->always.state;

  if (a->counting && !counts (after))
    {
      a->gap_began = last_input (a, e->now.elapsed_ms);
      close_stretch (a, a->gap_began);
    }
  else if (!a->counting && counts (after))
    {
      a->from = stretch_from (e, event, before);
      a->counting = true;
    }
}

static void
presume (Evening *e, const CarpaceEvent *event, CarpaceState before, bool refused)
{
  bool in_practice = counts (before);
  bool answer = event->kind == CARPACE_EVENT_REST || event->kind == CARPACE_EVENT_PAUSE
                || ((event->kind == CARPACE_EVENT_AFTER_RUN || event->kind == CARPACE_EVENT_PLAY_ON) && !in_practice);

  if (refused || !e->active.running)
    return;
  if (event->kind == CARPACE_EVENT_REST)
    e->active.forgiven_until = e->now.elapsed_ms + FORGIVEN_REST_MS;
  if (event->kind == CARPACE_EVENT_CONTINUE || (event->kind == CARPACE_EVENT_START && before == CARPACE_STATE_PAUSED))
    presume_moving (&e->active, e->now.elapsed_ms);
  else if (answer)
    presume_still (&e->active, before, e->now.elapsed_ms);
}

void
active_after (Evening *e, const CarpaceEvent *event, CarpaceState before, const CarpaceEntries *entries)
{
  bool refused = false;
  const char *fault = NULL;

  if (event->kind == CARPACE_EVENT_DEADLINE && e->active.hand == HAND_PAUSING && e->s.hand == CARPACE_HAND_STILL)
    gap (e, before);
  for (int32_t i = 0; i < entries->n && fault == NULL; i++)
    {
      const CarpaceEntry *entry = &entries->entry[i];
      refused |= entry->kind == CARPACE_ENTRY_FAULT;
      if (entry->kind == CARPACE_ENTRY_BLOCK)
        fault = check_block (e, entry);
      else if (entry->kind == CARPACE_ENTRY_OVERRUN)
        fault = check_overrun (e, entry);
    }
  if (before == CARPACE_STATE_LIMIT_REACHED && e->always.state != before && event->kind == CARPACE_EVENT_DEADLINE
      && e->active.hand != HAND_STILL)
    e->active.over_from = last_input (&e->active, e->now.elapsed_ms); /* finish-run, with input on */
  if (e->active.running)
    follow_stretch (e, event, before);
  presume (e, event, before, refused);
  leave_the_window (&e->active, e->now.elapsed_ms);
  if (e->fault == NULL)
    e->fault = fault;
}
