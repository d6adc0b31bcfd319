/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-at-least.c: which days of a diary count for "at least", and as what. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/at-least.h"

#define MINUTE CARPACE_MINUTE_MS
#define TODAY 20000
#define COUNT(rows) (sizeof (rows) / sizeof (rows)[0])

static CarpaceAtLeastDays days;

static void
take (CarpaceDay date, int64_t dose_ms, int64_t done_ms, CarpaceMorning morning)
{
  const CarpaceDaySum sum = { .day = date, .dose_ms = dose_ms, .done_ms = done_ms, .morning = morning,
                              .morning_known = morning.waking >= 0 || morning.stiffness != CARPACE_STIFFNESS_UNSAID };

  assert_true (carpace_at_least_take_day (&days, &sum));
}

static void
decide (CarpaceDay date, CarpaceDecision decision)
{
  CarpaceRecord record = { .day = date, .entry = { .kind = CARPACE_ENTRY_DECISION } };

  decision.scope = CARPACE_SCOPE_DAY;
  record.entry.decision = decision;
  assert_true (carpace_at_least_take_decision (&days, &record));
}

static const CarpaceMorning well = { .waking = 1, .stiffness = CARPACE_STIFFNESS_USUAL };
static const CarpaceMorning stiff = { .waking = 1, .stiffness = CARPACE_STIFFNESS_MORE };
static const CarpaceMorning unsaid = { .waking = -1, .stiffness = CARPACE_STIFFNESS_UNSAID };

/* @n days of @dose_min, up to today, each answered well but for the first @worse. */
static void
practise (int n, int dose_min, int worse)
{
  for (int i = 0; i <= n; i++)
    {
      bool last = i == n;
      take (TODAY - n + i, last ? 0 : dose_min * MINUTE, last ? 0 : dose_min * MINUTE, i >= 1 && i <= worse ? stiff : well);
    }
}

static int
begin (void **state)
{
  carpace_at_least_begin (&days, TODAY, 60 * MINUTE, 0);
  return 0;
}

/* One below, at, one above. */
static void
enough_days (void **state)
{
  static const struct { int n, worse; bool enough; } rows[] = {
    { 10, 0, false }, { 11, 0, true }, { 12, 0, true }, { 16, 1, false }, { 17, 1, true },
    { 48, 8, false }, { 49, 8, true }, { 83, 9, false },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      practise (rows[i].n, 60, rows[i].worse);
      CarpaceAtLeast seen = carpace_at_least_end (&days);
      assert_int_equal (seen.least_ms, rows[i].enough ? 60 * MINUTE : 0);
      assert_int_equal (seen.days, rows[i].enough ? rows[i].n : 0);
      assert_int_equal (seen.worse, rows[i].enough ? rows[i].worse : 0);
    }
}

/* Doses within 5 % of the first are one: 57 to 59 of 60. */
static void
doses_in_bins (void **state)
{
  static const struct { int low, high; int64_t least, most; } rows[] = {
    { 57, 59, 57, 59 }, { 57, 57, 57, 57 }, { 56, 57, 56, 57 }, { 57, 60, 57, 60 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceAnswered answered[11] = { 0 };
      for (int n = 0; n < 11; n++)
        answered[n].dose_ms = (n % 2 == 0 ? rows[i].low : rows[i].high) * MINUTE;
      CarpaceAtLeast seen = carpace_at_least (answered, 11, 60 * MINUTE);
      assert_int_equal (seen.least_ms, rows[i].least * MINUTE);
      assert_int_equal (seen.most_ms, rows[i].most * MINUTE);
    }
}

/* 11 good days at 48, a bad one at 60: what is higher and bad does not take the lower away. */
static void
the_highest_that_holds (void **state)
{
  CarpaceAnswered answered[30] = { 0 };

  for (int n = 0; n < 30; n++)
    answered[n] = (CarpaceAnswered){ .dose_ms = (n < 11 ? 48 : n < 22 ? 54 : 66) * MINUTE, .worse = n >= 22 };
  CarpaceAtLeast seen = carpace_at_least (answered, 30, 60 * MINUTE);
  assert_int_equal (seen.least_ms, 54 * MINUTE);
  assert_int_equal (seen.most_ms, 54 * MINUTE);
  assert_int_equal (seen.days, 11);
  seen = carpace_at_least (answered, 21, 60 * MINUTE);
  assert_int_equal (seen.least_ms, 48 * MINUTE);
  assert_int_equal (seen.most_ms, 54 * MINUTE);
  assert_int_equal (seen.days, 21);
}

static void
which_days_are_answered (void **state)
{
  const CarpaceMorning relieved = { .waking = 0, .stiffness = CARPACE_STIFFNESS_USUAL, .pain_relief = true };
  const CarpaceMorning relieved_and_worse = { .waking = 3, .stiffness = CARPACE_STIFFNESS_USUAL, .pain_relief = true };
  const CarpaceMorning waking_only = { .waking = 2, .stiffness = CARPACE_STIFFNESS_UNSAID };
  const struct { const char *row; CarpaceMorning morning; int after, n, worse; } rows[] = {
    { "the next morning", well, 1, 1, 0 },      { "not said", unsaid, 1, 0, 0 },
    { "stiffer", stiff, 1, 1, 1 },              { "2 above usual 0", waking_only, 1, 1, 1 },
    { "made good by pain relief", relieved, 1, 0, 0 }, { "worse in spite of it", relieved_and_worse, 1, 1, 1 },
    { "two dates later", well, 2, 1, 0 },       { "three", well, 3, 1, 0 },
    { "four", well, 4, 0, 0 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      take (TODAY - 10, 60 * MINUTE, 60 * MINUTE, well);
      take (TODAY - 10 + rows[i].after, 0, 0, rows[i].morning);
      if (days.n != rows[i].n || (days.n > 0 && days.answered[0].worse != (rows[i].worse > 0)))
        fail_msg ("%s", rows[i].row);
    }
}

/* The smaller of planned and done, to the minute. */
static void
what_was_done_counts (void **state)
{
  static const struct { int64_t dose_ms, done_ms, counts; } rows[] = {
    { 60 * MINUTE, 59 * MINUTE + 30000, 60 }, { 60 * MINUTE, 59 * MINUTE + 29999, 59 },
    { 60 * MINUTE, 65 * MINUTE, 60 },         { 60 * MINUTE, 20 * MINUTE, 20 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      take (TODAY - 2, rows[i].dose_ms, rows[i].done_ms, well);
      take (TODAY - 1, 0, 0, well);
      assert_int_equal (days.answered[0].dose_ms, rows[i].counts * MINUTE);
    }
  begin (state);
  take (TODAY - 2, 60 * MINUTE, 0, well);
  take (TODAY - 1, 0, 0, well);
  assert_int_equal (days.n, 0);
}

static void
the_usual_of_that_day (void **state)
{
  const CarpaceMorning up = { .waking = 3, .stiffness = CARPACE_STIFFNESS_USUAL };

  decide (TODAY - 1, (CarpaceDecision){ .usual = 1 });
  decide (TODAY, (CarpaceDecision){ .usual = 2 });
  take (TODAY - 2, 60 * MINUTE, 60 * MINUTE, well);
  take (TODAY - 1, 60 * MINUTE, 60 * MINUTE, up);
  take (TODAY, 60 * MINUTE, 0, up);
  assert_true (days.answered[0].worse);
  assert_false (days.answered[1].worse);
}

static void
nothing_while_the_level_comes_down (void **state)
{
  static const struct { int first, second; bool said; } rows[] = {
    { 5, -1, true }, { 5, 6, false }, { 27, 1, false }, { 28, 1, true }, { 0, 27, false },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      decide (TODAY - rows[i].first, (CarpaceDecision){ .level_down = true, .first_dose_ms = 60 * MINUTE });
      if (rows[i].second >= 0)
        decide (TODAY - rows[i].second, (CarpaceDecision){ .level_down = true, .first_dose_ms = 60 * MINUTE });
      practise (20, 60, 0);
      assert_int_equal (carpace_at_least_end (&days).least_ms, rows[i].said ? 60 * MINUTE : 0);
    }
}

static void
only_the_last_84_dates (void **state)
{
  take (TODAY - 85, 60 * MINUTE, 60 * MINUTE, well);
  take (TODAY - 84, 60 * MINUTE, 60 * MINUTE, well);
  assert_int_equal (days.n, 0);
  take (TODAY - 83, 60 * MINUTE, 60 * MINUTE, well);
  assert_int_equal (days.n, 1);
  begin (state);
  practise (84, 60, 0);
  assert_int_equal (carpace_at_least_end (&days).days, 84);
  begin (state);
  practise (90, 60, 0);
  assert_int_equal (carpace_at_least_end (&days).days, 84);
}

static void
how_many_days_are_needed (void **state)
{
  assert_int_equal (carpace_at_least_needed (0), 11);
  assert_int_equal (carpace_at_least_needed (8), 49);
  assert_int_equal (carpace_at_least_needed (9), 0);
}

/* 3 min wide where the first dose is an hour; where it is not known all are one. */
static void
where_bins_begin (void **state)
{
  static const struct { int64_t low_ms, high_ms, first_ms, least_ms; } rows[] = {
    { 60 * MINUTE - 1, 60 * MINUTE, 60 * MINUTE, 60 * MINUTE },
    { 60 * MINUTE, 63 * MINUTE - 1, 60 * MINUTE, 60 * MINUTE },
    { 57 * MINUTE, 59 * MINUTE, 60 * MINUTE, 57 * MINUTE },
    { 1, 2, 20, 2 }, { 1, 2, 19, 1 }, { 1, 2, 0, 1 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceAnswered answered[22] = { 0 };
      for (int n = 0; n < 22; n++)
        answered[n].dose_ms = n < 11 ? rows[i].low_ms : rows[i].high_ms;
      assert_int_equal (carpace_at_least (answered, 22, rows[i].first_ms).least_ms, rows[i].least_ms);
    }
}

/* The first of the list may be the only one of its dose, and be 0. */
static void
the_first_of_them (void **state)
{
  CarpaceAnswered answered[12] = { 0 };

  for (int n = 0; n < 12; n++)
    answered[n].dose_ms = (n == 0 ? 57 : 58) * MINUTE;
  assert_int_equal (carpace_at_least (answered, 11, 60 * MINUTE).least_ms, 57 * MINUTE);
  answered[0].dose_ms = 59 * MINUTE;
  assert_int_equal (carpace_at_least (answered, 11, 60 * MINUTE).most_ms, 59 * MINUTE);
  answered[0].dose_ms = 0;
  assert_int_equal (carpace_at_least (answered, 11, 60 * MINUTE).days, 11);
  assert_int_equal (carpace_at_least (&answered[1], 10, 60 * MINUTE).days, 0);
}

static void
what_is_known_at_first (void **state)
{
  carpace_at_least_begin (&days, TODAY, 60 * MINUTE, 7);
  assert_int_equal (days.first_dose_ms, 60 * MINUTE);
  for (int i = 0; i <= CARPACE_AT_LEAST_DAYS; i++)
    assert_int_equal (days.usual[i], 7);
  assert_int_equal (days.n, 0);
}

/* Decisions of days that count, each for its own date. */
static void
which_decisions_count (void **state)
{
  CarpaceRecord record = { .day = TODAY, .entry = { .kind = CARPACE_ENTRY_DECISION } };

  decide (TODAY - 85, (CarpaceDecision){ .usual = 1, .first_dose_ms = 1 });
  decide (TODAY + 1, (CarpaceDecision){ .usual = 2, .first_dose_ms = 2 });
  assert_int_equal (days.first_dose_ms, 60 * MINUTE);
  decide (TODAY - 84, (CarpaceDecision){ .usual = 3 });
  assert_int_equal (days.usual[0], 3);
  assert_int_equal (days.usual[1], 0);
  assert_int_equal (days.first_dose_ms, 60 * MINUTE); /* not told */
  decide (TODAY, (CarpaceDecision){ .usual = 4, .first_dose_ms = 1 });
  assert_int_equal (days.usual[84], 4);
  assert_int_equal (days.usual[83], 0);
  assert_int_equal (days.first_dose_ms, 1);
  record.entry.decision = (CarpaceDecision){ .scope = CARPACE_SCOPE_BLOCK, .usual = 5, .first_dose_ms = 5, .level_down = true };
  assert_true (carpace_at_least_take_decision (&days, &record));
  record.entry.decision.scope = CARPACE_SCOPE_DAY;
  record.entry.kind = CARPACE_ENTRY_RATING;
  assert_true (carpace_at_least_take_decision (&days, &record));
  assert_int_equal (days.usual[84], 4);
  assert_int_equal (days.first_dose_ms, 1);
  assert_int_equal (days.level_downs, 0);
}

/* A day answers the one before it, once. */
static void
which_day_answers (void **state)
{
  static const struct { const char *row; CarpaceDaySum sum; int n; } rows[] = {
    { "opened, the morning not said", { .dose_ms = 1, .morning.waking = -1 }, 0 },
    { "practised without one", { .done_ms = 1, .morning.waking = -1 }, 0 },
    { "no practice", { .no_practice = true, .morning.waking = -1 }, 0 },
    { "its morning", { .morning_known = true }, 1 },
    { "not opened: a note, or mouse input", { .morning.waking = -1 }, 2 },
    { "only how it is now", { .morning = { .waking = -1, .now = 3 }, .morning_known = true }, 0 },
    { "only how stiff it was", { .morning = { .waking = -1, .stiffness = CARPACE_STIFFNESS_USUAL }, .morning_known = true }, 1 },
    { "a number that is not known", { .dose_ms = 1, .morning.waking = 3 }, 0 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceDaySum sum = rows[i].sum;
      begin (state);
      take (TODAY - 3, 60 * MINUTE, 60 * MINUTE, well);
      sum.day = TODAY - 2;
      assert_true (carpace_at_least_take_day (&days, &sum));
      take (TODAY - 1, 0, 0, well); /* a further one answers only where there was none */
      if (days.n != (rows[i].n > 0))
        fail_msg ("%s: %d", rows[i].row, (int) days.n);
    }
}

/* Done, and asked for. */
static void
which_day_is_answered (void **state)
{
  static const struct { int64_t dose_ms, done_ms; int n; } rows[] = { { 1, 1, 1 }, { 0, 1, 0 }, { 1, 0, 0 } };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      take (TODAY - 2, rows[i].dose_ms, rows[i].done_ms, well);
      take (TODAY - 1, 0, 0, well);
      assert_int_equal (days.n, rows[i].n);
    }
}

/* A diary that has a date twice has no more days for it than there is room. */
static void
more_days_than_there_is_room_for (void **state)
{
  for (int i = 0; i < CARPACE_AT_LEAST_DAYS + 9; i++)
    take (TODAY - 1, 60 * MINUTE, 60 * MINUTE, well);
  assert_int_equal (days.n, CARPACE_AT_LEAST_DAYS);
}

/* ---- a diary ---- */

static CarpaceDay asked_since, asked_until;
static bool decisions_fail, days_fail;
static int32_t fake_waking = 2;

static bool
fake_decisions (void *self, CarpaceDay since, CarpaceDay until, uint32_t kinds, CarpaceRecordVisitor visit, void *user)
{
  const CarpaceRecord record = { .day = until, .entry = { .kind = CARPACE_ENTRY_DECISION,
                                 .decision = { .scope = CARPACE_SCOPE_DAY, .usual = 1 } } };

  assert_int_equal (kinds, CARPACE_KIND (CARPACE_ENTRY_DECISION));
  asked_since = since;
  return visit (user, &record) && !decisions_fail;
}

/* 11 days of 59 min and 11 of 60, each answered by a 2. */
static bool
fake_days (void *self, CarpaceDay since, CarpaceDay until, CarpaceDaySumVisitor visit, void *user)
{
  asked_until = until;
  for (int i = 0; i <= 22; i++)
    {
      CarpaceDaySum sum = { .day = until - 22 + i, .dose_ms = (i < 11 ? 59 : 60) * MINUTE, .done_ms = 60 * MINUTE,
                            .morning = { .waking = fake_waking }, .morning_known = true };
      assert_int_equal (since, asked_since);
      visit (user, &sum);
    }
  return !days_fail;
}

static const CarpaceDiary diary = { .records_of = fake_decisions, .days = fake_days };

/* Without a plan no dose is the first, and 2 is worse than the usual 0. */
static void
a_diary_is_read (void **state)
{
  const CarpacePlan plan = { .dose_ms = 60 * MINUTE, .usual_discomfort = 1 };
  const CarpacePlan lower = { .dose_ms = 60 * MINUTE, .usual_discomfort = 0 };
  CarpaceAtLeast seen = { .days = 99 };

  assert_true (carpace_at_least_read (&diary, TODAY, &plan, &seen));
  assert_int_equal (asked_since, TODAY - 84);
  assert_int_equal (asked_until, TODAY);
  assert_int_equal (seen.least_ms, 60 * MINUTE);
  assert_int_equal (seen.days, 11);
  assert_true (carpace_at_least_read (&diary, TODAY, &lower, &seen));
  assert_int_equal (seen.days, 0);
  assert_true (carpace_at_least_read (&diary, TODAY, NULL, &seen));
  assert_int_equal (seen.days, 0);
  fake_waking = 1;
  assert_true (carpace_at_least_read (&diary, TODAY, NULL, &seen));
  assert_int_equal (seen.days, 22);
  fake_waking = 2;
}

static void
a_diary_that_cannot_be_read (void **state)
{
  CarpaceAtLeast seen = { .days = 99 };

  decisions_fail = true;
  assert_false (carpace_at_least_read (&diary, TODAY, NULL, &seen));
  decisions_fail = false;
  days_fail = true;
  assert_false (carpace_at_least_read (&diary, TODAY, NULL, &seen));
  days_fail = false;
  assert_int_equal (seen.days, 99);
}

static void
the_first_date_that_there_is (void **state)
{
  static const struct { CarpaceDay today, since; } rows[] = {
    { INT32_MIN + 83, INT32_MIN }, { INT32_MIN + 84, INT32_MIN }, { INT32_MIN + 85, INT32_MIN + 1 },
  };
  CarpaceAtLeast seen;

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      assert_true (carpace_at_least_read (&diary, rows[i].today, NULL, &seen));
      assert_int_equal (asked_since, rows[i].since);
    }
}

#define ROW(test) cmocka_unit_test_setup (test, begin)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ROW (enough_days),
    ROW (doses_in_bins),
    ROW (the_highest_that_holds),
    ROW (which_days_are_answered),
    ROW (what_was_done_counts),
    ROW (the_usual_of_that_day),
    ROW (nothing_while_the_level_comes_down),
    ROW (only_the_last_84_dates),
    ROW (how_many_days_are_needed),
    ROW (where_bins_begin),
    ROW (the_first_of_them),
    ROW (what_is_known_at_first),
    ROW (which_decisions_count),
    ROW (which_day_answers),
    ROW (which_day_is_answered),
    ROW (more_days_than_there_is_room_for),
    ROW (a_diary_is_read),
    ROW (a_diary_that_cannot_be_read),
    ROW (the_first_date_that_there_is),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
