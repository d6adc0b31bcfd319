/* SPDX-License-Identifier: GPL-3.0-or-later */
/* checks.c: checks that run a state on, to two ends. */
#include "checks.h"

#include <stdio.h>
#include <string.h>

#include "canonical.h"
#include "carpace/names.h"
#include "session-private.h"

static void
run_to (CarpaceSession *s, CarpaceInstant *now, int64_t to_ms)
{
  const CarpaceEvent deadline = { .kind = CARPACE_EVENT_DEADLINE };
  CarpaceEntries entries;
  int64_t due;

  while ((due = carpace_session_next_deadline (s)) <= to_ms)
    {
      now->elapsed_ms = due;
      carpace_session_step (s, &deadline, *now, &entries);
    }
  now->elapsed_ms = to_ms;
}

/* Not being there is taken as being suspended. */
static void
be_gone (CarpaceSession *s, CarpaceInstant now)
{
  const CarpaceEvent suspend = { .kind = CARPACE_EVENT_SUSPEND }, wake = { .kind = CARPACE_EVENT_WAKE };
  CarpaceEntries entries;

  carpace_session_step (s, &suspend, now, &entries);
  now.elapsed_ms += 3 * s->plan->gap_after_ms;
  carpace_session_step (s, &wake, now, &entries);
  run_to (s, &now, now.elapsed_ms);
}

/* On the first day, with nothing said before it opened, the replay is the trace itself. */
static bool
replay_is_the_trace (const Evening *e)
{
  return e->s.history.n_days == 0 && e->n_events == e->n_all_events;
}

/* The loop tells of an intermission again, the session itself does not know it. */
static bool
told_of_intermission_before (const Evening *e)
{
  if (!e->s.intermission_ahead)
    return false;
  for (int i = 0; i < e->n_events; i++)
    if (e->event[i].kind == CARPACE_EVENT_INTERMISSION)
      return false;
  return true;
}

const char *
check_replay (const Evening *e)
{
  static CarpaceSession again, present;
  const CarpaceEvent open = { .kind = CARPACE_EVENT_OPEN, .open.plan = e->plan };
  CarpaceInstant now;
  CarpaceEntries entries;

  if (!e->s.today.open || e->n_events == 0 || e->n_events == EVENING_EVENTS || replay_is_the_trace (e)
      || told_of_intermission_before (e))
    return NULL;
  now = e->at[0];
  carpace_session_init (&again, carpace_session_history_at_opening (&e->s));
  carpace_session_step (&again, &open, now, &entries);
  for (int i = 0; i < e->n_events; i++)
    {
      run_to (&again, &now, e->at[i].elapsed_ms);
      now = e->at[i];
      carpace_session_step (&again, &e->event[i], now, &entries);
    }
  run_to (&again, &now, e->now.elapsed_ms);
  canonical_copy (&present, &e->s);
  now = e->now;
  run_to (&present, &now, e->now.elapsed_ms);
  be_gone (&again, e->now);
  be_gone (&present, e->now);
  now.elapsed_ms += 3 * e->plan->gap_after_ms;
  return canonical_hash (&again, now) == canonical_hash (&present, now) ? NULL : "a replay comes to another state";
}

/* What the player may do after an answer, this day and the next. */
typedef struct
{
  bool next;
  CarpaceLimits limits;
  bool running;
  int64_t running_limit_ms;
  int64_t dose_ms;
  int64_t tomorrow_ms[3];
  bool caution;
  CarpaceDay day;
} Outcome;

/* The dose of the next day, if it begins with @check. */
static int64_t
tomorrow (const Evening *e, const CarpaceMorning *check)
{
  static Evening next;
  CarpaceEvent end = { .kind = CARPACE_EVENT_END }, open = { .kind = CARPACE_EVENT_START };

  evening_copy (&next, e);
  next.fault = NULL;
  if (next.s.block.running)
    evening_step (&next, &end);
  evening_until (&next, next.now.elapsed_ms + CARPACE_DAY_MS);
  evening_turn (&next, 1);
  if (check != NULL)
    open = (CarpaceEvent){ .kind = CARPACE_EVENT_MORNING, .morning = *check };
  evening_step (&next, &open);
  return next.s.today.dose_ms;
}

static Outcome
outcome_of (const Evening *e)
{
  static const CarpaceMorning usual = { 0, CARPACE_STIFFNESS_USUAL, -1, false, false };
  static const CarpaceMorning stiff = { 0, CARPACE_STIFFNESS_MORE, -1, false, false };
  Outcome x = { .running = e->s.block.running && !e->s.block.match, .running_limit_ms = e->s.block.limit_ms,
                .dose_ms = e->s.today.dose_ms, .caution = e->s.history.caution_open,
                .day = e->s.today.day };

  x.next = carpace_next_block (&e->s, &x.limits);
  if (e->s.block.running && e->s.block.beyond)
    x.running = false;
  x.tomorrow_ms[0] = tomorrow (e, NULL);
  x.tomorrow_ms[1] = tomorrow (e, &usual);
  x.tomorrow_ms[2] = tomorrow (e, &stiff);
  return x;
}

/* The blocks of a day that stood when the answer came. */
static const char *
more_now (const Outcome *better, const Outcome *worse)
{
  if (worse->next && (!better->next && !better->running))
    return "a worse answer led to a block that a better one did not";
  if (worse->next && better->next && worse->limits.limit_ms > better->limits.limit_ms)
    return "a worse answer led to a longer block";
  if (worse->next && better->next && worse->limits.after_ms > better->limits.after_ms)
    return "a worse answer led to rests further apart";
  if (worse->next && better->next && worse->limits.rest_ms < better->limits.rest_ms)
    return "a worse answer led to shorter rests";
  if (worse->running && better->running && worse->running_limit_ms > better->running_limit_ms)
    return "a worse answer led to a longer running block";
  return NULL;
}

/* A lower dose may well be fewer and longer blocks: where the answer opened the
 * day, only doses are compared. What opens a caution is less than anything. */
static const char *
more (const Outcome *better, const Outcome *worse, CarpaceDay day)
{
  if (better->caution)
    return NULL;
  if (worse->dose_ms > better->dose_ms)
    return "a worse answer led to a higher dose the same day";
  if (day == better->day && more_now (better, worse) != NULL)
    return more_now (better, worse);
  for (int i = 0; i < 3; i++)
    if (worse->tomorrow_ms[i] > better->tomorrow_ms[i])
      return "a worse answer led to a higher dose the next day";
  return NULL;
}

char check_detail[240];

static int
seconds (int64_t ms)
{
  return (int) (ms / CARPACE_SECOND_MS);
}

static const char *
in_detail (const char *fault, const char *answer, const Outcome *better, const Outcome *worse)
{
  if (fault != NULL)
    snprintf (check_detail, sizeof check_detail, "%.40s: %d s, tomorrow %d %d %d; the better one: %d s, tomorrow %d %d %d", answer,
              seconds (worse->dose_ms), seconds (worse->tomorrow_ms[0]), seconds (worse->tomorrow_ms[1]),
              seconds (worse->tomorrow_ms[2]), seconds (better->dose_ms), seconds (better->tomorrow_ms[0]),
              seconds (better->tomorrow_ms[1]), seconds (better->tomorrow_ms[2]));
  return fault;
}

static Outcome
after (const Evening *e, const CarpaceEvent *event)
{
  static Evening branch;
  const CarpaceEvent still = { .kind = CARPACE_EVENT_STILL, .fact.since_ms = e->now.elapsed_ms };

  evening_copy (&branch, e);
  if (branch.s.overrunning) /* or it would go on where the answer starts no block */
    {
      evening_step (&branch, &still);
      evening_until (&branch, branch.now.elapsed_ms + branch.plan->gap_after_ms);
    }
  evening_step (&branch, event);
  return outcome_of (&branch);
}

static const char *
worse_ratings (const Evening *e)
{
  Outcome better = { 0 }, worse;

  for (int32_t discomfort = 0; discomfort <= 6; discomfort++)
    {
      const CarpaceEvent event = { .kind = CARPACE_EVENT_RATE, .rate.discomfort = discomfort };
      worse = after (e, &event);
      if (discomfort > 0 && more (&better, &worse, e->s.today.day) != NULL)
        {
          char answer[40];
          snprintf (answer, sizeof answer, "rate %d", (int) discomfort);
          return in_detail (more (&better, &worse, e->s.today.day), answer, &better, &worse);
        }
      better = worse;
    }
  return NULL;
}

/* Each row goes from better to worse, all else equal. */
static const CarpaceMorning mornings[][8] = {
  { { 0, CARPACE_STIFFNESS_USUAL, -1, false, false }, { 1, CARPACE_STIFFNESS_USUAL, -1, false, false },
    { 2, CARPACE_STIFFNESS_USUAL, -1, false, false }, { 4, CARPACE_STIFFNESS_USUAL, -1, false, false },
    { 6, CARPACE_STIFFNESS_USUAL, -1, false, false } },
  { { 0, CARPACE_STIFFNESS_LESS, -1, false, false }, { 0, CARPACE_STIFFNESS_USUAL, -1, false, false },
    { 0, CARPACE_STIFFNESS_MORE, -1, false, false } },
  { { 0, CARPACE_STIFFNESS_USUAL, 0, false, false }, { 0, CARPACE_STIFFNESS_USUAL, 3, false, false },
    { 0, CARPACE_STIFFNESS_USUAL, 6, false, false } },
  { { 0, CARPACE_STIFFNESS_USUAL, -1, true, false }, { 0, CARPACE_STIFFNESS_MORE, -1, true, false } },
  { { 0, CARPACE_STIFFNESS_MORE, 0, false, false }, { 0, CARPACE_STIFFNESS_MORE, 6, false, false } },
};
static const int n_mornings[] = { 5, 3, 3, 2, 2 };

static const char *
worse_mornings (const Evening *e)
{
  Outcome better = { 0 }, worse;

  for (size_t row = 0; row < sizeof n_mornings / sizeof n_mornings[0]; row++)
    for (int i = 0; i < n_mornings[row]; i++)
      {
        const CarpaceEvent event = { .kind = CARPACE_EVENT_MORNING, .morning = mornings[row][i] };
        worse = after (e, &event);
        if (i > 0 && more (&better, &worse, e->s.today.day) != NULL)
          {
            char answer[40];
            snprintf (answer, sizeof answer, "morning %d %s --now %d", (int) mornings[row][i].waking,
                      carpace_name (CARPACE_WORDS_STIFFNESS, (int32_t) mornings[row][i].stiffness), (int) mornings[row][i].now);
            return in_detail (more (&better, &worse, e->s.today.day), answer, &better, &worse);
          }
        better = worse;
      }
  return NULL;
}

/* Late answers are outside. */
static bool
open_in_time (const Evening *e)
{
  return e->s.rating_open
         && e->now.elapsed_ms - e->s.today.rating[e->s.today.n_ratings - 1].asked_at <= CARPACE_RATING_OPEN_MS;
}

const char *
check_worse (const Evening *e, bool mornings_too)
{
  const char *fault = open_in_time (e) ? worse_ratings (e) : NULL;

  return fault != NULL || !mornings_too ? fault : worse_mornings (e);
}
