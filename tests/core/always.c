/* SPDX-License-Identifier: GPL-3.0-or-later */
/* always.c: one function for each kind of thing that is told. */
#include "always.h"

#include <stdio.h>
#include <string.h>

#include "carpace/names.h"

static void
broken (CarpaceAlways *a, const char *what)
{
  if (a->broken)
    return;
  a->broken = true;
  snprintf (a->fault, sizeof a->fault, "%s", what);
}

static void
hold (CarpaceAlways *a, bool holds, const char *what)
{
  if (!holds)
    broken (a, what);
}

void
carpace_always_begin (CarpaceAlways *a)
{
  memset (a, 0, sizeof *a);
  a->day = CARPACE_NO_DAY;
  a->given = -1;
}

#define FORGIVEN_MS (2 * CARPACE_SECOND_MS)

/* What the facts and answers say of the hand. */
static void
hand (CarpaceAlways *a, CarpaceEventKind kind, int64_t now)
{
  if (kind == CARPACE_EVENT_REST)
    {
      a->forgiven_until = now + FORGIVEN_MS;
      a->input_over_rest = false;
    }
  else if (a->state == CARPACE_STATE_RESTING && now > a->forgiven_until
           && (kind == CARPACE_EVENT_INPUT || (kind == CARPACE_EVENT_STILL && a->moving)))
    a->input_over_rest = true;
  if (kind == CARPACE_EVENT_INPUT || kind == CARPACE_EVENT_FRONT || kind == CARPACE_EVENT_FRONT_STARTS
      || kind == CARPACE_EVENT_ANYWHERE || kind == CARPACE_EVENT_START || kind == CARPACE_EVENT_START_MATCH
      || kind == CARPACE_EVENT_CONTINUE)
    a->moving = a->input_since = true;
  else if (kind == CARPACE_EVENT_STILL || kind == CARPACE_EVENT_SUSPEND || kind == CARPACE_EVENT_PAUSE
           || kind == CARPACE_EVENT_REST)
    a->moving = false;
}

void
carpace_always_event (CarpaceAlways *a, const CarpaceEvent *event, CarpaceInstant at)
{
  a->event = event->kind;
  hand (a, event->kind, at.elapsed_ms);
  a->asked_over_rating &= !a->rated;
  a->rated = false;
  a->given = event->kind == CARPACE_EVENT_RATE ? event->rate.discomfort : -1;
  a->corrected = false;
}

static bool
may_go (CarpaceState from, CarpaceState to)
{
  for (const CarpaceTransition *t = carpace_session_transitions; t->from != CARPACE_N_STATES; t++)
    if (t->from == from && t->to == to)
      return true;
  return false;
}

static void
state (CarpaceAlways *a, CarpaceState to)
{
  char what[120];

  if (!may_go (a->state, to))
    {
      snprintf (what, sizeof what, "%s to %s is not in the diagram", carpace_name (CARPACE_WORDS_STATE, (int32_t) a->state),
                carpace_name (CARPACE_WORDS_STATE, (int32_t) to));
      broken (a, what);
    }
  a->state = to;
  if (to == CARPACE_STATE_PRACTISING && a->input_since)
    a->rest_taken = false;
}

static void
cue (CarpaceAlways *a, const CarpaceEntry *e)
{
  if (e->cue.what == CARPACE_CUE_WITHDRAWN)
    hold (a, a->cue_on[e->cue.cue], "only what is shown is withdrawn");
  a->cue_on[e->cue.cue] = e->cue.what != CARPACE_CUE_WITHDRAWN;
  if (e->cue.cue == CARPACE_CUE_RATING && e->cue.what == CARPACE_CUE_SHOWN)
    a->asked_over_rating |= a->event == CARPACE_EVENT_START;
}

static void
block_started (CarpaceAlways *a, const CarpaceEntry *e)
{
  bool by_tap = a->event == CARPACE_EVENT_RATE && a->asked_over_rating;

  hold (a, a->event == CARPACE_EVENT_START || a->event == CARPACE_EVENT_START_MATCH || by_tap
             || a->event == CARPACE_EVENT_FRONT_STARTS,
        "no block starts but by a start, a tap over one, or the practice window");
  hold (a, a->event != CARPACE_EVENT_FRONT_STARTS || !(a->cue_on[CARPACE_CUE_CAUTION] || e->block.beyond || e->block.early_ms > 0),
        "what begins by itself is planned, and over no caution");
  a->asked_over_rating = false;
  if (e->block.match)
    return;
  hold (a, e->block.beyond || e->block.limit_ms > 0, "a block has a limit");
}

static void
block (CarpaceAlways *a, const CarpaceEntry *e)
{
  hold (a, 3 * e->block.after_ms <= 2 * e->block.limit_ms, "after is at most two thirds of the limit");
  if (e->block.what == CARPACE_BLOCK_STARTED)
    {
      block_started (a, e);
      return;
    }
  a->practised_ms += e->block.active_ms;
  hold (a, e->block.active_ms >= 0 && e->block.overrun_ms >= 0, "no time is less than none");
  hold (a, a->practised_ms <= e->at.elapsed_ms - a->day_opened_at, "no more practice than time");
}

static void
decision (CarpaceAlways *a, const CarpaceDecision *d)
{
  hold (a, d->before_ms >= 0 && d->after_ms >= 0, "no limit is less than none");
  if (d->scope == CARPACE_SCOPE_BLOCK && !a->corrected)
    hold (a, d->after_ms <= d->before_ms, "within a day nothing is loosened");
}

static void
rest (CarpaceAlways *a, const CarpaceEntry *e)
{
  if (e->rest.what != CARPACE_REST_TAKEN)
    return;
  hold (a, !a->rest_taken, "a rest is taken once between two stretches");
  a->rest_taken = true;
  a->input_since = a->moving || a->input_over_rest;
  a->input_over_rest = false;
}

static void
rating (CarpaceAlways *a, const CarpaceEntry *e)
{
  a->rated = true;
  if (e->rating.discomfort < 0)
    return;
  hold (a, e->rating.discomfort == a->given, "no number is told that was not given");
  a->corrected = e->rating.corrects >= 0 || e->rating.late;
}

static void
day (CarpaceAlways *a, const CarpaceEntry *e)
{
  if (e->day.what != CARPACE_DAY_OPENED)
    return;
  hold (a, a->day == CARPACE_NO_DAY || e->day.day > a->day, "dates never go back");
  a->day = e->day.day;
  a->day_opened_at = e->at.elapsed_ms;
  a->practised_ms = 0;
}

void
carpace_always_entry (CarpaceAlways *a, const CarpaceEntry *e)
{
  switch (e->kind)
    {
    case CARPACE_ENTRY_STATE:
      state (a, e->state);
      break;
    case CARPACE_ENTRY_DAY:
      day (a, e);
      break;
    case CARPACE_ENTRY_CUE:
      cue (a, e);
      break;
    case CARPACE_ENTRY_BLOCK:
      block (a, e);
      break;
    case CARPACE_ENTRY_RATING:
      rating (a, e);
      break;
    case CARPACE_ENTRY_DECISION:
      decision (a, &e->decision);
      break;
    case CARPACE_ENTRY_OVERRUN:
      hold (a, e->overrun.ms > 0 && e->overrun.ms <= 10 * CARPACE_MINUTE_MS, "overrun is at most 10 min");
      break;
    case CARPACE_ENTRY_REST:
      rest (a, e);
      break;
    case CARPACE_ENTRY_CLICKS:
      hold (a, e->clicks.ms > 0 && (e->clicks.count == 0 || e->clicks.ms <= CARPACE_MINUTE_MS), "clicks are told by the minute");
      break;
    case CARPACE_ENTRY_MORNING:
    case CARPACE_ENTRY_CAUTION:
    case CARPACE_ENTRY_FAULT:
    case CARPACE_N_ENTRIES:
      break;
    }
}

/* No offer inside a run before wait-for-gap. */
static void
quiet (CarpaceAlways *a, const CarpaceSession *s, CarpaceInstant now)
{
  if (a->state == CARPACE_STATE_PRACTISING && a->cue_on[CARPACE_CUE_MICRO_REST])
    hold (a, now.elapsed_ms - s->block.rest_due_at >= s->plan->wait_for_gap_ms || s->block.rest_shown_at > 0,
          "no offer in a run before wait-for-gap");
}

void
carpace_always_look (CarpaceAlways *a, const CarpaceSession *s, CarpaceInstant now)
{
  CarpaceView v;

  carpace_view (s, now, &v);
  hold (a, v.state == a->state, "the view's state is the one that was told");
  hold (a, memcmp (v.cue_on, a->cue_on, sizeof a->cue_on) == 0, "the view's cues are those that were told");
  hold (a, carpace_session_next_deadline (s) >= now.elapsed_ms, "no deadline lies behind");
  hold (a, v.active_ms >= 0 && v.remaining_ms >= 0 && v.dose_remaining_ms >= 0 && v.overrun_ms >= 0,
        "nothing that is shown is less than none");
  hold (a, v.rest.remaining_ms >= 0 && v.rest.remaining_ms <= v.rest.length_ms, "a rest has at most its length to go");
  hold (a, !v.no_practice || v.dose_ms == 0, "a day without practice has no dose");
  hold (a, !v.caution_open || (v.state != CARPACE_STATE_PRACTISING && v.state != CARPACE_STATE_GAP),
        "no practice while a caution is open");
  hold (a, !v.cue_on[CARPACE_CUE_UNSTARTED] || (v.state == CARPACE_STATE_WAITING && !v.caution_open && !s->wait_open),
        "a block that was not begun is asked about only where one could begin");
  quiet (a, s, now);
}
