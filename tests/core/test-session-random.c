/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-session-random.c: streams of random events against what must always
 * hold. The seed is printed; CARPACE_SEED runs one again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "../fakes/rounds.h"
#include "always.h"
#include "app/loop.h"
#include "carpace/cues.h"
#include "carpace/names.h"
#include "trace.h"

#define STREAMS 300
#define EVENTS 600

typedef struct
{
  uint64_t random;
  CarpaceInstant now;
  CarpaceLoop loop;
  CarpacePlan plan;
  CarpaceAlways always;
} Stream;

/* xorshift64*, Vigna 2014: the multiplier is the published one (from memory). */
static uint32_t
roll (Stream *s, uint32_t n)
{
  s->random ^= s->random >> 12;
  s->random ^= s->random << 25;
  s->random ^= s->random >> 27;
  return (uint32_t) ((s->random * UINT64_C (2685821657736338717)) >> 33) % n;
}

static CarpaceInstant
now (void *self)
{
  return ((Stream *) self)->now;
}

static void
hear (void *self, const CarpaceEntry *e)
{
  carpace_always_entry (&((Stream *) self)->always, e);
}

static int64_t
some_time (Stream *s)
{
  switch (roll (s, 12))
    {
    case 0:
      return roll (s, 12 * 3600) * INT64_C (1000);
    case 1:
    case 2:
      return roll (s, 3600 * 1000);
    case 3:
      return 0;
    default:
      return roll (s, 100 * 1000);
    }
}

static CarpaceEvent
some_event (Stream *s)
{
  static const CarpaceEventKind likely[] = { CARPACE_EVENT_INPUT, CARPACE_EVENT_STILL, CARPACE_EVENT_INPUT,
                                             CARPACE_EVENT_STILL, CARPACE_EVENT_START };
  CarpaceEvent e = { .kind = roll (s, 2) ? likely[roll (s, 5)]
                                         : (CarpaceEventKind) (CARPACE_EVENT_INPUT + roll (s, CARPACE_N_EVENTS - CARPACE_EVENT_INPUT)) };

  if (e.kind == CARPACE_EVENT_INPUT || e.kind == CARPACE_EVENT_STILL)
    e.fact.since_ms = s->now.elapsed_ms - roll (s, 5000);
  if (e.kind == CARPACE_EVENT_INTERMISSION)
    e.intermission.begins_ms = s->now.elapsed_ms - 5000 + roll (s, 125 * 1000);
  if (e.kind == CARPACE_EVENT_RATE)
    {
      e.rate.discomfort = (int32_t) roll (s, roll (s, 4) ? 5 : 12);
      e.rate.site = (CarpaceSite) roll (s, CARPACE_N_SITES);
    }
  if (e.kind == CARPACE_EVENT_MORNING)
    {
      e.morning.waking = (int32_t) roll (s, roll (s, 3) ? 3 : 12) - 1;
      e.morning.now = (int32_t) roll (s, 4) - 1;
      e.morning.stiffness = (CarpaceStiffness) roll (s, CARPACE_N_STIFFNESSES);
      e.morning.other_load = roll (s, 5) == 0;
      e.morning.pain_relief = roll (s, 5) == 0;
    }
  if (e.kind == CARPACE_EVENT_CAUTION)
    {
      e.caution.answer = (CarpaceCautionAnswer) roll (s, CARPACE_N_CAUTION_ANSWERS);
      e.caution.signs = roll (s, 6) ? 0 : 1u << roll (s, CARPACE_N_SIGNS);
    }
  return e;
}

static void
check (Stream *s)
{
  carpace_always_look (&s->always, &s->loop.session, s->now);
  if (s->always.broken)
    fail_msg ("%s", s->always.fault);
}

static void
one_stream (uint64_t seed)
{
  Stream *s = calloc (1, sizeof *s);
  CarpaceLoopPorts ports = { .clock = { s, now }, .listener = s, .entry = hear };
  const CarpaceEvent deadline = { .kind = CARPACE_EVENT_DEADLINE };

  s->random = seed * UINT64_C (0x9E3779B97F4A7C15) + 1;
  carpace_always_begin (&s->always);
  carpace_trace_plan (&s->plan, 1 + (int) roll (s, 4), 5 + (int) roll (s, 30));
  s->plan.or_after_runs = roll (s, 2) ? 0 : 3;
  s->plan.reserve_at_least_pct = roll (s, 3) ? 0 : 80;
  s->plan.gap_after_ms = 1000 + roll (s, 9000);
  s->plan.matches_count = roll (s, 2) ? 0 : 5000;
  carpace_instant_read ("2027-03-02T18:00:00+01:00", &s->now);
  carpace_loop_init (&s->loop, &ports, NULL);
  carpace_loop_open (&s->loop, &s->plan);
  for (int i = 0; i < EVENTS; i++)
    {
      CarpaceEvent event;
      s->now = carpace_instant_after (s->now, some_time (s));
      event = some_event (s);
      carpace_always_event (&s->always, &deadline, s->now);
      carpace_loop_due (&s->loop);
      check (s);
      carpace_always_event (&s->always, &event, s->now);
      carpace_loop_tell (&s->loop, &event, NULL);
      check (s);
    }
  free (s);
}

static void
test_streams (void **state)
{
  const char *given = getenv ("CARPACE_SEED");
  uint64_t first = given != NULL ? strtoull (given, NULL, 10) : 1;
  uint64_t last = given != NULL ? first : (uint64_t) carpace_test_rounds (STREAMS);

  for (uint64_t seed = first; seed <= last; seed++)
    {
      if (seed % 100 == 0 || given != NULL)
        print_message ("seed %llu\n", (unsigned long long) seed);
      one_stream (seed);
    }
}

/* A day's events, replayed from its opening, come to the same session. */
typedef struct
{
  Stream stream;
  CarpaceHistory history;
  CarpaceEvent event[EVENTS];
  CarpaceInstant at[EVENTS];
  size_t n;
  CarpaceInstant opened;
} Kept;

static void
keep_event (void *self, const CarpaceEvent *event, CarpaceInstant at)
{
  Kept *k = self;

  if (event->kind == CARPACE_EVENT_OPEN || k->n == EVENTS)
    return;
  k->event[k->n] = *event;
  k->at[k->n++] = at;
}

static void
keep_opening (void *self, CarpaceDay day, CarpaceInstant at, const CarpaceHistory *history)
{
  Kept *k = self;

  (void) day;
  k->history = *history;
  k->opened = at;
  k->n = 0;
}

static void
test_replay (void **state)
{
  Kept *k = calloc (1, sizeof *k);
  CarpaceLoop *again = calloc (1, sizeof *again);
  int compared = 0, streams = carpace_test_rounds (60);

  for (uint64_t seed = 1; seed <= (uint64_t) streams; seed++)
    {
      CarpaceLoopPorts ports = { .clock = { &k->stream, now } };
      CarpaceLoopPorts bare = { .clock = { &k->stream, now } };
      CarpaceResume resume = { .known = true };
      memset (k, 0, sizeof *k);
      ports.store = (CarpaceStore){ .self = k, .event = keep_event, .opening = keep_opening };
      k->stream.random = seed * 77 + 5;
      carpace_trace_plan (&k->stream.plan, 3, 20);
      carpace_instant_read ("2027-03-02T18:00:00+01:00", &k->stream.now);
      carpace_loop_init (&k->stream.loop, &ports, NULL);
      carpace_loop_open (&k->stream.loop, &k->stream.plan);
      for (int i = 0; i < 200; i++)
        {
          CarpaceEvent event = some_event (&k->stream);
          if (event.kind == CARPACE_EVENT_SUSPEND || event.kind == CARPACE_EVENT_WAKE)
            continue;
          carpace_loop_tell (&k->stream.loop, &event, NULL);
          k->stream.now = carpace_instant_after (k->stream.now, roll (&k->stream, 60000));
        }
      /* what is refused is not kept: the last event is one that is */
      carpace_loop_tell (&k->stream.loop, &(CarpaceEvent){ .kind = CARPACE_EVENT_OFF_AIR }, NULL);
      if (k->n == 0 || k->n == EVENTS)
        continue;
      {
        /* as the loop would be were it suspended from its last event on */
        CarpaceEvent suspend = { .kind = CARPACE_EVENT_SUSPEND }, wake = { .kind = CARPACE_EVENT_WAKE };
        resume.history = k->history;
        resume.n_events = k->n;
        resume.event = k->event;
        resume.at = k->at;
        resume.last = resume.alive = k->at[k->n - 1];
        k->stream.now = k->at[k->n - 1];
        k->stream.loop.ports.store = (CarpaceStore){ 0 };
        carpace_loop_tell (&k->stream.loop, &suspend, NULL);
        carpace_loop_tell (&k->stream.loop, &wake, NULL);
      }
      carpace_loop_init (again, &bare, NULL);
      carpace_loop_resume (again, &k->stream.plan, &resume);
      {
        CarpaceView a = *carpace_loop_view (&k->stream.loop), b = *carpace_loop_view (again);
        assert_int_equal (a.state, b.state);
        assert_int_equal (a.active_ms, b.active_ms);
        assert_int_equal (a.done_ms, b.done_ms);
        assert_int_equal (a.dose_ms, b.dose_ms);
        assert_int_equal (a.limit_ms, b.limit_ms);
        assert_int_equal (a.after_ms, b.after_ms);
        assert_int_equal (a.rating.given, b.rating.given);
        assert_int_equal (a.caution_open, b.caution_open);
        assert_memory_equal (a.cue_on, b.cue_on, sizeof a.cue_on);
        assert_int_equal (carpace_session_next_deadline (&k->stream.loop.session),
                          carpace_session_next_deadline (&again->session));
      }
      compared++;
    }
  assert_true (compared > streams / 2);
  free (again);
  free (k);
}

/* A program that died on air is on air again, whenever it went on air: before
 * its day opened, or on a day before that. */
static void
test_on_air_again (void **state)
{
  static const CarpaceEventKind before[] = { CARPACE_EVENT_ON_AIR, CARPACE_EVENT_START };
  static const CarpaceEventKind within[] = { CARPACE_EVENT_START, CARPACE_EVENT_ON_AIR };
  static const CarpaceEventKind off[] = { CARPACE_EVENT_ON_AIR, CARPACE_EVENT_START, CARPACE_EVENT_OFF_AIR };
  const struct { const CarpaceEventKind *event; int n; bool on_air; } cases[] = {
    { before, 2, true }, { within, 2, true }, { off, 3, false },
  };
  Kept *k = calloc (1, sizeof *k);
  CarpaceLoop *again = calloc (1, sizeof *again);

  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
    {
      CarpaceLoopPorts ports = { .clock = { &k->stream, now } };
      CarpaceResume resume = { .known = true };
      memset (k, 0, sizeof *k);
      ports.store = (CarpaceStore){ .self = k, .event = keep_event, .opening = keep_opening };
      carpace_trace_plan (&k->stream.plan, 2, 30);
      carpace_instant_read ("2027-03-02T18:00:00+01:00", &k->stream.now);
      carpace_loop_init (&k->stream.loop, &ports, NULL);
      carpace_loop_open (&k->stream.loop, &k->stream.plan);
      for (int e = 0; e < cases[i].n; e++)
        {
          const CarpaceEvent event = { .kind = cases[i].event[e] };
          k->stream.now = carpace_instant_after (k->stream.now, 1000);
          assert_true (carpace_loop_tell (&k->stream.loop, &event, NULL));
        }
      resume.history = k->history;
      resume.n_events = k->n;
      resume.event = k->event;
      resume.at = k->at;
      resume.last = resume.alive = k->stream.now;
      ports.store = (CarpaceStore){ 0 };
      carpace_loop_init (again, &ports, NULL);
      carpace_loop_resume (again, &k->stream.plan, &resume);
      assert_int_equal (carpace_loop_view (again)->on_air, cases[i].on_air);
    }
  free (again);
  free (k);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_streams),
    cmocka_unit_test (test_replay),
    cmocka_unit_test (test_on_air_again),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
