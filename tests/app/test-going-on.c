/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-going-on.c: the day that was under way, gone on with after a restart by
 * whichever plan can be had. It would catch a day that is lost with its rating,
 * its tightening and its caution because a file cannot be read. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "app/loop.h"
#include "trace.h"

#define MOST_EVENTS 32
#define EVENING INT64_C (1804006800000) /* 2027-03-02T18:00:00+01:00 */

/* An evening kept in memory as a store would keep it. */
typedef struct
{
  CarpaceLoop loop;
  CarpaceInstant now;
  CarpaceEvent event[MOST_EVENTS];
  CarpaceInstant at[MOST_EVENTS];
  CarpaceResume resume;
  CarpacePlan halves, quarters; /* of the day; in use */
} Evening;

static CarpaceInstant
now (void *self)
{
  return ((Evening *) self)->now;
}

static void
keep_event (void *self, const CarpaceEvent *event, CarpaceInstant at)
{
  Evening *e = self;

  e->event[e->resume.n_events] = *event;
  e->at[e->resume.n_events++] = at;
}

static void
keep_opening (void *self, CarpaceDay day, CarpaceInstant at, const CarpaceHistory *history)
{
  Evening *e = self;

  e->resume.history = *history;
  e->resume.n_events = 0;
}

static void
tell (Evening *e, int64_t after_ms, CarpaceEvent event)
{
  e->now = carpace_instant_after (e->now, after_ms);
  carpace_loop_due (&e->loop);
  assert_true (carpace_loop_tell (&e->loop, &event, NULL));
}

/* An evening on which nothing was said yet. */
static void
begin (Evening *e)
{
  const CarpaceLoopPorts ports = { .clock = { e, now }, .store = { .self = e, .event = keep_event, .opening = keep_opening } };

  memset (e, 0, sizeof *e);
  carpace_trace_plan (&e->halves, 2, 30);
  carpace_trace_plan (&e->quarters, 4, 15);
  e->now = (CarpaceInstant) { .elapsed_ms = 1000, .wall_ms = EVENING, .offset_s = 3600 };
  carpace_loop_init (&e->loop, &ports, NULL);
  carpace_loop_open (&e->loop, &e->halves);
}

static void
end (Evening *e)
{
  e->resume.known = true;
  e->resume.event = e->event;
  e->resume.at = e->at;
  e->resume.last = e->resume.alive = e->now;
}

/* A block of the day's first plan, rated 7: above what ends the day. */
static void
practise (Evening *e)
{
  begin (e);
  tell (e, CARPACE_MINUTE_MS, (CarpaceEvent) { .kind = CARPACE_EVENT_START });
  tell (e, 20 * CARPACE_MINUTE_MS, (CarpaceEvent) { .kind = CARPACE_EVENT_END });
  tell (e, CARPACE_SECOND_MS, (CarpaceEvent) { .kind = CARPACE_EVENT_RATE, .rate = { .discomfort = 7 } });
  assert_int_equal (carpace_session_state (&e->loop.session), CARPACE_STATE_DAY_DONE);
  end (e);
}

/* The program is there again, a minute later. */
static void
begin_again (Evening *e, CarpaceLoop *loop)
{
  const CarpaceLoopPorts ports = { .clock = { e, now } };

  e->now = carpace_instant_after (e->now, CARPACE_MINUTE_MS);
  carpace_loop_init (loop, &ports, &e->resume.history);
}

static void
assert_day_is_done (const CarpaceLoop *loop, const CarpacePlan *of_day)
{
  CarpaceView view;

  carpace_view (&loop->session, loop->last, &view);
  assert_int_equal (view.state, CARPACE_STATE_DAY_DONE);
  assert_true (view.day_open);
  assert_ptr_equal (view.plan, of_day);
}

static void
by_the_days_plan_where_the_one_in_use_cannot_be_read (void **state)
{
  static Evening e;
  CarpaceLoop loop;
  const CarpaceEvent start = { .kind = CARPACE_EVENT_START };

  practise (&e);
  begin_again (&e, &loop);
  assert_true (carpace_loop_go_on (&loop, &e.halves, NULL, &e.resume));
  assert_day_is_done (&loop, &e.halves);
  carpace_loop_open (&loop, &e.quarters); /* mended */
  assert_day_is_done (&loop, &e.halves);
  assert_false (carpace_loop_tell (&loop, &start, NULL));
}

static void
by_the_days_plan_whatever_is_in_use (void **state)
{
  static Evening e;
  CarpaceLoop loop;

  practise (&e);
  begin_again (&e, &loop);
  assert_true (carpace_loop_go_on (&loop, &e.halves, &e.quarters, &e.resume));
  assert_day_is_done (&loop, &e.halves);
}

static void
by_the_one_in_use_where_the_days_was_not_kept (void **state)
{
  static Evening e;
  CarpaceLoop loop;

  practise (&e);
  begin_again (&e, &loop);
  assert_true (carpace_loop_go_on (&loop, NULL, &e.quarters, &e.resume));
  assert_day_is_done (&loop, &e.quarters);
}

static void
later_where_there_is_neither (void **state)
{
  static Evening e;
  CarpaceLoop loop;

  practise (&e);
  begin_again (&e, &loop);
  assert_false (carpace_loop_go_on (&loop, NULL, NULL, &e.resume));
  assert_int_equal (carpace_session_state (&loop.session), CARPACE_STATE_OFF);
  e.now = carpace_instant_after (e.now, CARPACE_HOUR_MS);
  assert_true (carpace_loop_go_on (&loop, NULL, &e.halves, &e.resume));
  assert_day_is_done (&loop, &e.halves);
}

static void
a_first_start_begins_with_the_one_in_use (void **state)
{
  static Evening e;
  CarpaceLoop loop;
  const CarpaceResume nothing = { .known = false };

  practise (&e);
  begin_again (&e, &loop);
  assert_false (carpace_loop_go_on (&loop, &e.halves, NULL, &nothing));
  assert_true (carpace_loop_go_on (&loop, &e.halves, &e.quarters, &nothing));
  assert_int_equal (carpace_session_state (&loop.session), CARPACE_STATE_WAITING);
  assert_ptr_equal (carpace_loop_view (&loop)->plan, &e.quarters);
}

/* The question stands in no event of the day: it came before the day's first. */
static void
a_card_asked_for_before_the_day_opened_is_there_again (void **state)
{
  static Evening e;
  CarpaceLoop loop;

  begin (&e);
  tell (&e, CARPACE_MINUTE_MS, (CarpaceEvent) { .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_ASK } });
  tell (&e, CARPACE_MINUTE_MS, (CarpaceEvent) { .kind = CARPACE_EVENT_START });
  end (&e);
  assert_int_equal (e.resume.n_events, 1);
  begin_again (&e, &loop);
  assert_true (carpace_loop_go_on (&loop, &e.halves, NULL, &e.resume));
  assert_true (carpace_loop_view (&loop)->day_open);
  assert_true (carpace_loop_view (&loop)->cue_on[CARPACE_CUE_CAUTION]);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (by_the_days_plan_where_the_one_in_use_cannot_be_read),
    cmocka_unit_test (by_the_days_plan_whatever_is_in_use),
    cmocka_unit_test (by_the_one_in_use_where_the_days_was_not_kept),
    cmocka_unit_test (later_where_there_is_neither),
    cmocka_unit_test (a_first_start_begins_with_the_one_in_use),
    cmocka_unit_test (a_card_asked_for_before_the_day_opened_is_there_again),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
