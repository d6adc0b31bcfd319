/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-session-bounds.c: what a script cannot say: numbers out of their range,
 * days before the last one that is kept, and more in a day than it has room for. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/session.h"
#include "day-record.h"
#include "trace.h"

typedef struct
{
  CarpacePlan plan;
  CarpaceSession session;
  CarpaceEntries told;
  CarpaceInstant now;
} Day;

static void
tell (Day *d, CarpaceEvent event)
{
  carpace_session_step (&d->session, &event, d->now, &d->told);
}

static void
begin (Day *d, const CarpaceHistory *history)
{
  memset (d, 0, sizeof *d);
  carpace_trace_plan (&d->plan, 2, 30);
  carpace_instant_read ("2027-03-02T18:00:00+01:00", &d->now);
  carpace_session_init (&d->session, history);
  tell (d, (CarpaceEvent){ .kind = CARPACE_EVENT_OPEN, .open = { &d->plan } });
}

static void
later (Day *d, int64_t ms)
{
  d->now = carpace_instant_after (d->now, ms);
}

/* The first entry of that kind that the last step told. */
static const CarpaceEntry *
told (const Day *d, CarpaceEntryKind kind)
{
  for (int32_t i = 0; i < d->told.n; i++)
    if (d->told.entry[i].kind == kind)
      return &d->told.entry[i];
  return NULL;
}

static bool
refused (const Day *d, CarpaceRefusal why)
{
  const CarpaceEntry *fault = told (d, CARPACE_ENTRY_FAULT);

  return fault != NULL && fault->fault.refusal == why;
}

static CarpaceMorning
morning (int32_t waking, int32_t stiffness, int32_t at_now)
{
  return (CarpaceMorning){ .waking = waking, .stiffness = (CarpaceStiffness) stiffness, .now = at_now };
}

static CarpaceMorning
morning_at (int32_t site)
{
  return (CarpaceMorning){ .waking = 2, .now = -1, .site = (CarpaceSite) site };
}

/* Each number one below its range, at both ends of it, and one above. */
static void
test_morning_ranges (void **state)
{
  const int32_t last = CARPACE_N_STIFFNESSES - 1;
  const struct
  {
    CarpaceMorning morning;
    bool good;
  } rows[] = {
    { morning (-2, 0, 0), false }, { morning (-1, 0, 0), true },    { morning (0, 0, 0), true },
    { morning (10, 0, 0), true },  { morning (11, 0, 0), false },   { morning (0, 0, -2), false },
    { morning (0, 0, -1), true },  { morning (0, 0, 10), true },    { morning (0, 0, 11), false },
    { morning (0, -1, 0), false }, { morning (0, last, 0), true },  { morning (0, last + 1, 0), false },
    { morning_at (-1), false },    { morning_at (CARPACE_N_SITES - 1), true }, { morning_at (CARPACE_N_SITES), false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      static Day d;
      begin (&d, NULL);
      tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_MORNING, .morning = rows[i].morning });
      assert_int_equal (refused (&d, CARPACE_REFUSAL_OUT_OF_RANGE), !rows[i].good);
      assert_int_equal (told (&d, CARPACE_ENTRY_MORNING) != NULL, rows[i].good);
      assert_true (!rows[i].good || told (&d, CARPACE_ENTRY_MORNING)->morning.site == rows[i].morning.site);
    }
}

static void
practise (Day *d, bool match)
{
  const CarpaceEvent start = { .kind = match ? CARPACE_EVENT_START_MATCH : CARPACE_EVENT_START };

  tell (d, start);
  if (!carpace_session_block_runs (&d->session))
    tell (d, start); /* it was asked about */
  later (d, CARPACE_MINUTE_MS);
  tell (d, (CarpaceEvent){ .kind = CARPACE_EVENT_END });
}

static void
rate (Day *d, int32_t discomfort, int32_t site)
{
  tell (d, (CarpaceEvent){ .kind = CARPACE_EVENT_RATE, .rate = { discomfort, (CarpaceSite) site } });
}

static void
test_rating_ranges (void **state)
{
  const int32_t last = CARPACE_N_SITES - 1;
  const struct
  {
    int32_t discomfort, site;
    bool good;
  } rows[] = {
    { -1, 0, false }, { 0, 0, true },    { 1, 0, true },        { 9, 0, true }, { 10, 0, true }, { 11, 0, false },
    { 0, -1, false }, { 0, last, true }, { 0, last + 1, false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      static Day d;
      begin (&d, NULL);
      practise (&d, false);
      rate (&d, rows[i].discomfort, rows[i].site);
      assert_int_equal (refused (&d, CARPACE_REFUSAL_OUT_OF_RANGE), !rows[i].good);
      assert_int_equal (told (&d, CARPACE_ENTRY_RATING) != NULL, rows[i].good);
    }
}

/* A day has room for 96 limits and 128 ratings: what comes after the first
 * number goes on, what comes after the second is refused. */
static void
test_a_long_day (void **state)
{
  static Day d;
  const CarpaceEntry *block;

  begin (&d, NULL);
  for (int32_t i = 0; i < CARPACE_DAY_RATINGS; i++)
    {
      practise (&d, false);
      block = told (&d, CARPACE_ENTRY_BLOCK);
      assert_non_null (block);
      assert_int_equal (block->block.what, CARPACE_BLOCK_ENDED);
      assert_int_equal (block->block.number, i + 1);
      rate (&d, 0, CARPACE_SITE_NONE);
      assert_int_equal (told (&d, CARPACE_ENTRY_RATING)->rating.block, i + 1);
      later (&d, CARPACE_MINUTE_MS);
    }
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_START });
  assert_true (refused (&d, CARPACE_REFUSAL_NOT_NOW));
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_START_MATCH });
  assert_true (refused (&d, CARPACE_REFUSAL_NOT_NOW));
}

/* Matches use up no block, so that one could begin; but its rating would have no room. */
static void
test_matches_leave_no_room_for_a_block (void **state)
{
  for (int32_t n = CARPACE_DAY_RATINGS - 1; n <= CARPACE_DAY_RATINGS; n++)
    {
      static Day d;

      begin (&d, NULL);
      for (int32_t i = 0; i < n; i++)
        {
          practise (&d, true);
          rate (&d, 0, CARPACE_SITE_NONE);
        }
      tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_AWAY });
      later (&d, CARPACE_HOUR_MS);
      while (carpace_session_next_deadline (&d.session) <= d.now.elapsed_ms)
        tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_DEADLINE });
      tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_FRONT_STARTS });
      assert_int_equal (carpace_session_block_runs (&d.session), n < CARPACE_DAY_RATINGS);
    }
}

static CarpaceDay
opened (const Day *d)
{
  const CarpaceEntry *day = told (d, CARPACE_ENTRY_DAY);

  return day == NULL ? CARPACE_NO_DAY : day->day.day;
}

/* Dates never go back: a day that is before the last kept one is the day after that.
 * That day itself is behind. */
static void
test_days_before_the_last (void **state)
{
  static Day d;
  static CarpaceHistory history;
  CarpaceDay today;

  begin (&d, NULL);
  today = carpace_day_of (d.now, d.plan.starts_at_min);
  for (int32_t n_days = 1; n_days <= 3; n_days++)
    for (int32_t last = -2; last <= 6; last++)
      {
        carpace_history_init (&history);
        for (int32_t i = n_days - 1; i >= 0; i--)
          {
            CarpaceDayRecord record = carpace_record_of_day (today + last - i);
            carpace_history_add (&history, &record);
          }
        begin (&d, &history);
        tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_MORNING, .morning = morning (0, 0, -1) });
        assert_int_equal (opened (&d), last < 0 ? today : last == 0 ? CARPACE_NO_DAY : today + last + 1);
      }
}

/* Of signs only those that there are. */
static void
test_signs_out_of_range (void **state)
{
  static Day d;

  begin (&d, NULL);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_SIGNS, .signs = UINT32_MAX } });
  assert_int_equal (told (&d, CARPACE_ENTRY_CAUTION)->caution.signs, (1u << CARPACE_N_SIGNS) - 1);
}

/* A caution that closes is dated by the clock, also where the diary is ahead of it. */
static void
test_a_closed_caution_is_dated_by_the_clock (void **state)
{
  static Day d;
  static CarpaceHistory history;
  CarpaceDay today;
  CarpaceDayRecord record;

  begin (&d, NULL);
  today = carpace_day_of (d.now, d.plan.starts_at_min);
  carpace_history_init (&history);
  record = carpace_record_of_day (today + 3);
  carpace_history_add (&history, &record);
  begin (&d, &history);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_SIGNS, .signs = 1 } });
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_SEEN } });
  assert_int_equal (told (&d, CARPACE_ENTRY_CAUTION)->caution.what, CARPACE_CAUTION_CLOSED);
  assert_int_equal (told (&d, CARPACE_ENTRY_CAUTION)->caution.date, today);
}

/* The next morning's card goes with a morning, also where the clock was set back
 * between them and the day is not over after all. */
static void
test_a_clock_set_back (void **state)
{
  static Day d;

  begin (&d, NULL);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_MORNING, .morning = morning (0, 0, -1) });
  later (&d, 11 * CARPACE_HOUR_MS);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_INPUT });
  assert_non_null (told (&d, CARPACE_ENTRY_CUE));
  assert_int_equal (told (&d, CARPACE_ENTRY_CUE)->cue.what, CARPACE_CUE_SHOWN);
  d.now.wall_ms -= 10 * CARPACE_HOUR_MS;
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_MORNING, .morning = morning (0, 0, -1) });
  assert_null (told (&d, CARPACE_ENTRY_DAY));
  assert_int_equal (told (&d, CARPACE_ENTRY_CUE)->cue.what, CARPACE_CUE_WITHDRAWN);
  assert_int_equal (told (&d, CARPACE_ENTRY_CUE)->cue.cue, CARPACE_CUE_MORNING);
}

/* Nor is a caution of a day before its own. */
static void
test_a_caution_under_a_clock_set_back (void **state)
{
  for (int32_t back = 0; back <= 2; back++)
    {
      static Day d;
      static CarpaceHistory history;
      CarpaceDay today;
      CarpaceDayRecord record;

      begin (&d, NULL);
      today = carpace_day_of (d.now, d.plan.starts_at_min);
      carpace_history_init (&history);
      record = carpace_record_of_day (today - 1);
      carpace_history_add (&history, &record);
      begin (&d, &history);
      tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_MORNING, .morning = morning (0, 0, -1) });
      assert_int_equal (opened (&d), today);
      d.now.wall_ms -= back * CARPACE_DAY_MS;
      tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_CAUTION, .caution = { .answer = CARPACE_CAUTION_SIGNS, .signs = 1 } });
      assert_int_equal (told (&d, CARPACE_ENTRY_CAUTION)->caution.date, today);
    }
}

/* A rest that is long enough is taken, also where an end comes before anyone
 * asked what was due. */
static void
test_an_end_as_a_rest_is_over (void **state)
{
  static Day d;

  begin (&d, NULL);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_START });
  later (&d, CARPACE_MINUTE_MS);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_REST });
  later (&d, d.plan.rest_ms);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_END });
  assert_non_null (told (&d, CARPACE_ENTRY_REST));
  assert_int_equal (told (&d, CARPACE_ENTRY_REST)->rest.what, CARPACE_REST_TAKEN);
}

/* Whoever asks late for what is due is told of 10 min of overrun all the same. */
static void
test_an_overrun_found_late (void **state)
{
  static Day d;
  const CarpaceEvent due = { .kind = CARPACE_EVENT_DEADLINE };

  begin (&d, NULL);
  tell (&d, (CarpaceEvent){ .kind = CARPACE_EVENT_START });
  do
    {
      later (&d, carpace_session_next_deadline (&d.session) - d.now.elapsed_ms);
      tell (&d, due);
    }
  while (carpace_session_block_runs (&d.session));
  later (&d, 30 * CARPACE_MINUTE_MS - 1);
  tell (&d, due);
  assert_non_null (told (&d, CARPACE_ENTRY_OVERRUN));
  assert_int_equal (told (&d, CARPACE_ENTRY_OVERRUN)->overrun.ms, 10 * CARPACE_MINUTE_MS);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_morning_ranges),       cmocka_unit_test (test_rating_ranges),
    cmocka_unit_test (test_matches_leave_no_room_for_a_block),
    cmocka_unit_test (test_a_caution_under_a_clock_set_back),
    cmocka_unit_test (test_a_long_day),           cmocka_unit_test (test_days_before_the_last),
    cmocka_unit_test (test_signs_out_of_range),   cmocka_unit_test (test_a_closed_caution_is_dated_by_the_clock),
    cmocka_unit_test (test_a_clock_set_back),     cmocka_unit_test (test_an_overrun_found_late),
    cmocka_unit_test (test_an_end_as_a_rest_is_over),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
