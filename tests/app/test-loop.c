/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-loop.c: what the loop keeps, and suspends that nobody tells it of. */
#include <inttypes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/loop.h"
#include "trace.h"

#define S CARPACE_SECOND_MS
#define M CARPACE_MINUTE_MS
#define H CARPACE_HOUR_MS
#define MOST 64

typedef struct
{
  CarpaceLoop loop;
  CarpacePlan plan;
  CarpaceInstant now;
  int64_t slept_ms;
  int commits, entries;
  int n;
  CarpaceEvent event[MOST];
  CarpaceInstant at[MOST];
  int64_t rechecked_from_ms;
} Evening;

static CarpaceInstant
now (void *self)
{
  return ((Evening *) self)->now;
}

static int64_t
slept_ms (void *self)
{
  return ((Evening *) self)->slept_ms;
}

static void
keep_event (void *self, const CarpaceEvent *event, CarpaceInstant at)
{
  Evening *e = self;

  assert_true (e->n < MOST);
  e->event[e->n] = *event;
  e->at[e->n++] = at;
}

static void
keep_entry (void *self, const CarpaceEntry *entry)
{
  ((Evening *) self)->entries++;
}

static bool
commit (void *self)
{
  ((Evening *) self)->commits++;
  return true;
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  if (!moving)
    ((Evening *) self)->rechecked_from_ms = from_ms;
}

/* Ten minutes of a block of thirty, with no rest due in it. */
static void
practise (Evening *e, bool told_by_clock)
{
  const CarpaceLoopPorts ports = { .clock = { e, now, told_by_clock ? slept_ms : NULL },
                                   .activity = { .self = e, .recheck = recheck },
                                   .store = { .self = e, .event = keep_event, .entry = keep_entry, .commit = commit } };
  const CarpaceEvent start = { .kind = CARPACE_EVENT_START };

  memset (e, 0, sizeof *e);
  carpace_trace_plan (&e->plan, 2, 30);
  e->plan.after_ms = 25 * M;
  e->now = (CarpaceInstant) { .elapsed_ms = 1000 * S, .wall_ms = INT64_C (1804006800000), .offset_s = 3600 };
  e->slept_ms = 12345; /* before the program was there */
  carpace_loop_init (&e->loop, &ports, NULL);
  carpace_loop_open (&e->loop, &e->plan);
  assert_true (carpace_loop_tell (&e->loop, &start, NULL));
  e->now = carpace_instant_after (e->now, 10 * M);
  carpace_loop_due (&e->loop);
  e->n = 0;
}

/* ---- what is kept ---- */

static void
what_is_refused_is_not_kept (void **state)
{
  static const CarpaceEventKind refused[] = { CARPACE_EVENT_START, CARPACE_EVENT_START_MATCH, CARPACE_EVENT_CONTINUE,
                                              CARPACE_EVENT_PLAY_ON, CARPACE_EVENT_RATE };
  static Evening e;

  practise (&e, true);
  e.commits = e.entries = 0;
  for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
    {
      const CarpaceEvent event = { .kind = refused[i] };

      assert_false (carpace_loop_tell (&e.loop, &event, NULL));
    }
  assert_int_equal (e.n + e.entries + e.commits, 0);
  carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_PAUSE }, NULL);
  assert_int_equal (e.n, 1);
  assert_int_equal (e.event[0].kind, CARPACE_EVENT_PAUSE);
  assert_true (e.entries > 0);
}

/* The same evening with and without what was refused in it. */
static void
what_is_refused_changes_nothing (void **state)
{
  static Evening with, without;
  CarpaceView a, b;

  srand (7);
  practise (&with, true);
  practise (&without, true);
  for (int i = 0; i < 2000; i++)
    {
      CarpaceEvent event = { .kind = (CarpaceEventKind) (CARPACE_EVENT_INPUT + rand () % (CARPACE_N_EVENTS - CARPACE_EVENT_INPUT)) };
      int64_t by_ms = rand () % 40 == 0 ? 9 * H : rand () % (90 * S);

      if (event.kind == CARPACE_EVENT_INPUT || event.kind == CARPACE_EVENT_STILL)
        event.fact.since_ms = with.now.elapsed_ms - rand () % (5 * S);
      if (event.kind == CARPACE_EVENT_INTERMISSION || event.kind == CARPACE_EVENT_DEADLINE)
        continue;
      with.now = without.now = carpace_instant_after (with.now, by_ms);
      with.n = without.n = 0;
      carpace_loop_tell (&with.loop, &event, NULL);
      carpace_loop_due (&without.loop);
      if (with.n > 0)
        carpace_loop_tell (&without.loop, &event, NULL);
      carpace_view (&with.loop.session, with.now, &a);
      carpace_view (&without.loop.session, with.now, &b);
      b.plan = a.plan;
      if (memcmp (&a, &b, sizeof a) != 0 || carpace_loop_next (&with.loop) != carpace_loop_next (&without.loop))
        fail_msg ("step %d, event %d", i, (int) event.kind);
    }
}

/* ---- suspends ---- */

static int64_t
active_ms (Evening *e)
{
  return carpace_loop_view (&e->loop)->active_ms;
}

/* The machine sleeps for @slept ms and is awake for @awake more, before or after. */
static void
sleep_unseen (Evening *e, int64_t slept, int64_t awake)
{
  e->slept_ms += slept;
  e->now = carpace_instant_after (e->now, slept + awake);
}

static const struct
{
  const char *name;
  int64_t slept_ms, awake_ms;
  bool told; /* as a suspend and a wake */
} rows[] = {
  { .name = "not suspended", .awake_ms = 5 * M },
  { .name = "under a second: two readings of two clocks", .slept_ms = 999, .awake_ms = 5 * M },
  { .name = "a second", .slept_ms = 1000, .awake_ms = 5 * M, .told = true },
  { .name = "over a second", .slept_ms = 1001, .awake_ms = 5 * M, .told = true },
  { .name = "minutes, woken by the alarm", .slept_ms = 12 * M, .awake_ms = 0, .told = true },
  { .name = "minutes", .slept_ms = 12 * M, .awake_ms = 40 * S, .told = true },
  { .name = "minutes, and long awake", .slept_ms = 12 * M, .awake_ms = 9 * M, .told = true },
};

static void
an_unseen_suspend_is_told (void **state)
{
  static Evening e;

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      practise (&e, true);
      assert_int_equal (active_ms (&e), 10 * M);
      sleep_unseen (&e, rows[i].slept_ms, rows[i].awake_ms);
      carpace_loop_awake (&e.loop);
      if (active_ms (&e) != 10 * M + rows[i].awake_ms + (rows[i].told ? 0 : rows[i].slept_ms))
        fail_msg ("%s: %" PRId64 " ms of practice", rows[i].name, active_ms (&e));
      assert_int_equal (e.n, rows[i].told ? 2 : 0);
      if (!rows[i].told)
        continue;
      assert_int_equal (e.event[0].kind, CARPACE_EVENT_SUSPEND);
      assert_int_equal (e.at[0].elapsed_ms, e.now.elapsed_ms - rows[i].slept_ms);
      assert_int_equal (e.event[1].kind, CARPACE_EVENT_WAKE);
      assert_int_equal (e.at[1].elapsed_ms, e.now.elapsed_ms);
      assert_int_equal (e.rechecked_from_ms, e.at[0].elapsed_ms);
      carpace_loop_awake (&e.loop);
      assert_int_equal (e.n, 2); /* once */
    }
}

/* Short ones add up: two of 600 ms are one of 1200. */
static void
short_suspends_add_up (void **state)
{
  static Evening e;

  practise (&e, true);
  sleep_unseen (&e, 600, S);
  carpace_loop_awake (&e.loop);
  assert_int_equal (e.n, 0);
  sleep_unseen (&e, 600, S);
  carpace_loop_awake (&e.loop);
  assert_int_equal (e.n, 2);
  assert_int_equal (e.at[0].elapsed_ms, e.now.elapsed_ms - 1200);
}

static void
whatever_wakes_the_program_looks (void **state)
{
  static Evening e;

  practise (&e, true);
  sleep_unseen (&e, H, 0);
  carpace_loop_due (&e.loop);
  assert_int_equal (e.n, 2);
  practise (&e, true);
  sleep_unseen (&e, H, 0);
  assert_true (carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_ON_AIR }, NULL));
  assert_int_equal (e.n, 3);
  assert_int_equal (e.event[2].kind, CARPACE_EVENT_ON_AIR);
}

static void
a_suspend_that_was_told_is_told_once (void **state)
{
  static Evening e;

  practise (&e, true);
  carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_SUSPEND }, NULL);
  sleep_unseen (&e, 10 * M, 0);
  carpace_loop_due (&e.loop); /* the alarm may come before the word that the machine is awake */
  carpace_loop_awake (&e.loop);
  carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_WAKE }, NULL);
  assert_int_equal (e.n, 2);
  assert_int_equal (active_ms (&e), 10 * M);
}

/* No clock that tells: time goes by as it did. */
static void
a_clock_that_does_not_know_tells_nothing (void **state)
{
  static Evening e;

  practise (&e, false);
  sleep_unseen (&e, 0, 5 * M);
  carpace_loop_awake (&e.loop);
  assert_int_equal (e.n, 0);
  assert_int_equal (active_ms (&e), 15 * M);
}

/* ---- clicks ---- */

static int following; /* how often it was asked for, and let go of */
static bool follows;

static void
follow_clicks (void *self, bool on)
{
  follows = on;
  following++;
}

static const CarpaceEvent *
clicks_told (const Evening *e, int index)
{
  for (int i = 0; i < e->n; i++)
    if (e->event[i].kind == CARPACE_EVENT_CLICKS && index-- == 0)
      return &e->event[i];
  return NULL;
}

static void
press (Evening *e, int n, int64_t after_ms)
{
  e->now = carpace_instant_after (e->now, after_ms);
  for (int i = 0; i < n; i++)
    carpace_loop_pressed (&e->loop);
}

/* In the eleventh minute of a block. */
static void
count (Evening *e)
{
  practise (e, true);
  following = 0;
  carpace_loop_set_clicks (&e->loop, (CarpaceClicks) { .self = e, .follow = follow_clicks });
  assert_true (follows && following == 1);
  carpace_loop_counts_clicks (&e->loop, true);
}

static void
a_minute_is_told_by_the_press_after_it (void **state)
{
  static Evening e;

  count (&e);
  press (&e, 3, 0);
  press (&e, 4, 59999);
  assert_int_equal (e.n, 0);
  press (&e, 2, 1);
  assert_int_equal (e.n, 1);
  assert_int_equal (clicks_told (&e, 0)->clicks.count, 7);
  assert_int_equal (clicks_told (&e, 0)->clicks.from_ms, 10 * M); /* not from the block's start */
  press (&e, 5, 3 * M);
  assert_int_equal (clicks_told (&e, 1)->clicks.count, 2);
  assert_int_equal (clicks_told (&e, 1)->clicks.from_ms, 11 * M);
  assert_int_equal (following, 1);
}

static void
a_blocks_end_tells_the_last_and_nothing_is_heard_after_it (void **state)
{
  static Evening e;

  count (&e);
  press (&e, 3, 10 * S);
  assert_true (carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_END }, NULL));
  assert_int_equal (e.n, 2);
  assert_int_equal (clicks_told (&e, 0)->clicks.count, 3);
  assert_true (!follows && following == 2);
  press (&e, 9, 2 * M);
  assert_int_equal (e.n, 2);
  carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = 0 } }, NULL);
  e.now = carpace_instant_after (e.now, H);
  assert_true (carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_START }, NULL));
  assert_true (follows && following == 3);
  press (&e, 9, 2 * M); /* none is told of yet */
  assert_null (clicks_told (&e, 1));
}

/* The limit ends it, with nobody saying anything. */
static void
an_end_by_its_limit_tells_the_last (void **state)
{
  static Evening e;

  count (&e);
  press (&e, 3, 19 * M + 50 * S);
  e.now = carpace_instant_after (e.now, 5 * M);
  carpace_loop_due (&e.loop);
  assert_int_equal (clicks_told (&e, 0)->clicks.count, 0); /* quiet minutes before the first press */
  assert_int_equal (clicks_told (&e, 1)->clicks.count, 3);
  assert_false (follows);
}

static void
presses_in_a_pause_are_not_counted (void **state)
{
  static Evening e;

  count (&e);
  press (&e, 3, 10 * S);
  carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_PAUSE }, NULL);
  press (&e, 50, 2 * M);
  carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_CONTINUE }, NULL);
  press (&e, 1, 50 * S);
  assert_int_equal (clicks_told (&e, 0)->clicks.count, 3);
}

static void
what_was_not_counted_to_the_end_is_not_told (void **state)
{
  static Evening e;

  count (&e);
  press (&e, 3, 10 * S);
  carpace_loop_counts_clicks (&e.loop, false); /* the server is gone */
  press (&e, 3, 2 * M);
  assert_int_equal (e.n, 0);
  carpace_loop_counts_clicks (&e.loop, true);
  press (&e, 2, 10 * S);
  press (&e, 1, 50 * S);
  assert_int_equal (clicks_told (&e, 0)->clicks.count, 2);
  assert_int_equal (clicks_told (&e, 0)->clicks.from_ms, 12 * M + 10 * S);
  carpace_loop_set_clicks (&e.loop, (CarpaceClicks) { 0 });
  press (&e, 9, 2 * M);
  assert_true (carpace_loop_tell (&e.loop, &(CarpaceEvent) { .kind = CARPACE_EVENT_END }, NULL));
  assert_null (clicks_told (&e, 1));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (what_is_refused_is_not_kept),       cmocka_unit_test (what_is_refused_changes_nothing),
    cmocka_unit_test (an_unseen_suspend_is_told),         cmocka_unit_test (short_suspends_add_up),
    cmocka_unit_test (whatever_wakes_the_program_looks),  cmocka_unit_test (a_suspend_that_was_told_is_told_once),
    cmocka_unit_test (a_clock_that_does_not_know_tells_nothing),
    cmocka_unit_test (a_minute_is_told_by_the_press_after_it),
    cmocka_unit_test (a_blocks_end_tells_the_last_and_nothing_is_heard_after_it),
    cmocka_unit_test (an_end_by_its_limit_tells_the_last),
    cmocka_unit_test (presses_in_a_pause_are_not_counted),
    cmocka_unit_test (what_was_not_counted_to_the_end_is_not_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
