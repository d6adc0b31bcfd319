/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-without.c: a planned day without practice: asked about once, then beyond
 * the plan; no practice day for the rows, but a date. Rehearsed evenings begin
 * on Tuesday, 2 March 2027. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/players.h"
#include "trace.h"

#define COUNT(rows) (sizeof (rows) / sizeof (rows)[0])
#define TUESDAY (1 << CARPACE_WEEKDAY_TUESDAY)
#define WEDNESDAY (1 << CARPACE_WEEKDAY_WEDNESDAY)

static const struct
{
  const char *row;
  int32_t without;
  const char *script;
  const char *has[5], *lacks[2];
} cases[] = {
  { "a start is asked about once", TUESDAY, "1:00 start\n20:00 until\n",
    { "0:01:00 state day-done", "0:01:00 cue day-done asked" }, { "block started" } },
  { "a second one begins beyond the plan", TUESDAY, "1:00 start\n1:10 start\n5:00 end\n",
    { "0:01:10 block started number=1", "beyond" } },
  { "nothing is asked on the day before", WEDNESDAY, "1:00 start\n20:00 until\n", { "0:01:00 block started number=1" },
    { "asked", "beyond" } },
  { "nor where none is planned", 0, "1:00 start\n20:00 until\n", { "0:01:00 block started number=1" }, { "asked" } },
  { "a worse morning told later cuts the next practice day", TUESDAY, "1:00 morning 0 usual\n2:00 morning 0 more\n",
    { "0:01:00 decision keep day before=3600", "0:02:00 decision cut-once day before=3600" } },
  { "a caution stops it there, too", TUESDAY, "1:00 start\n1:05 caution numb\n1:10 start\n1:20 start\n",
    { "0:01:10 fault" }, { "block started" } },
  { "and a morning above stop-above", TUESDAY, "1:00 morning 6 usual\n2:00 start\n2:10 start\n", { "0:02:00 fault" },
    { "block started" } },
};

static void
starts_on_such_a_day (void **state)
{
  for (size_t i = 0; i < COUNT (cases); i++)
    {
      CarpacePlan plan;
      char *trace;
      carpace_trace_plan (&plan, 2, 30);
      plan.without = cases[i].without;
      trace = carpace_trace (&plan, cases[i].script);
      for (size_t n = 0; n < COUNT (cases[i].has) && cases[i].has[n] != NULL; n++)
        if (strstr (trace, cases[i].has[n]) == NULL)
          fail_msg ("%s: no \"%s\" in\n%s", cases[i].row, cases[i].has[n], trace);
      for (size_t n = 0; n < COUNT (cases[i].lacks) && cases[i].lacks[n] != NULL; n++)
        if (strstr (trace, cases[i].lacks[n]) != NULL)
          fail_msg ("%s: \"%s\" in\n%s", cases[i].row, cases[i].lacks[n], trace);
      free (trace);
    }
}

/* ---- its morning ---- */

typedef struct
{
  int32_t n;
  CarpaceDecision day[200];
  int64_t asked_ms[200], done_ms[200];
  CarpaceDay date[200];
} Season;

static void
hear (void *user, const CarpaceEntry *e, int32_t line)
{
  Season *s = user;

  if (e->kind == CARPACE_ENTRY_DECISION && e->decision.scope == CARPACE_SCOPE_DAY)
    s->day[s->n] = e->decision;
  if (e->kind == CARPACE_ENTRY_DAY && e->day.what == CARPACE_DAY_OPENED)
    {
      s->date[s->n] = e->day.day;
      s->asked_ms[s->n++] = e->day.dose_ms;
    }
  if (e->kind == CARPACE_ENTRY_BLOCK && e->block.what == CARPACE_BLOCK_ENDED)
    s->done_ms[s->n - 1] += e->block.active_ms;
}

static Season
live (int32_t without, CarpacePlayerTraits traits, int32_t days)
{
  Season season = { 0 };
  CarpacePlan plan;

  carpace_trace_plan (&plan, 2, 30);
  plan.without = without;
  assert_true (carpace_rehearse_traits (&plan, &traits, days, 1, hear, &season));
  return season;
}

static void
nothing_is_planned_nor_done (void **state)
{
  Season s = live (WEDNESDAY | 1 << CARPACE_WEEKDAY_SUNDAY, (CarpacePlayerTraits){ 0 }, 28);

  assert_int_equal (s.n, 28);
  for (int32_t i = 0; i < s.n; i++)
    {
      CarpaceWeekday weekday = carpace_day_weekday (s.date[i]);
      bool off = weekday == CARPACE_WEEKDAY_WEDNESDAY || weekday == CARPACE_WEEKDAY_SUNDAY;
      assert_int_equal (s.day[i].without, off);
      assert_int_equal (s.asked_ms[i] == 0, off);
      assert_int_equal (s.day[i].after_ms == 0, off);
      assert_int_equal (s.done_ms[i] == 0, off);
      assert_false (s.day[i].no_practice);
      assert_true (s.day[i].kept_ms > 0);
      if (i > 0)
        assert_int_equal (s.day[i].before_ms, s.day[i - 1].kept_ms);
    }
  /* Good days are practice days: five a week are enough to step up all the way but for the weeks it needs. */
  assert_true (s.day[27].kept_ms > s.day[0].kept_ms);
}

/* Twelve practice days without any answer, whatever lies between them. */
static void
silence_is_counted_in_practice_days (void **state)
{
  const CarpacePlayerTraits silent = { .missed_pct = 100, .missed_mornings_pct = 100 };
  Season s = live (WEDNESDAY, silent, 30);
  int32_t practised = 0, i = 0;

  while (i < s.n && s.day[i].rule != CARPACE_RULE_NO_ANSWERS)
    practised += s.done_ms[i++] > 0;
  assert_true (i < s.n);
  assert_int_equal (practised, 12);
  assert_int_equal (s.date[i] - s.date[0], 14); /* two Wednesdays are among the fourteen dates */
}

/* A week off is seven dates, planned or not. */
static void
time_off_is_counted_in_dates (void **state)
{
  static const char script[] = "1:00 start\n31:30 end\n31:40 rate 0\n168:00:00 morning 0 usual\n";
  CarpacePlan plan;
  char *trace;

  carpace_trace_plan (&plan, 2, 30);
  plan.without = WEDNESDAY | 1 << CARPACE_WEEKDAY_THURSDAY | 1 << CARPACE_WEEKDAY_SUNDAY;
  trace = carpace_trace (&plan, script);
  assert_non_null (strstr (trace, "after-time-off"));
  free (trace);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (starts_on_such_a_day),
    cmocka_unit_test (nothing_is_planned_nor_done),
    cmocka_unit_test (silence_is_counted_in_practice_days),
    cmocka_unit_test (time_off_is_counted_in_dates),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
