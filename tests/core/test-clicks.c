/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-clicks.c: clicks told by minutes of active time, where they count, what is known of minutes that nobody counted
 * (nothing), and what is made of them all, beside the efforts of a plan. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/clicks.h"
#include "carpace/fields.h"
#include "carpace/session.h"
#include "cases.h"
#include "some-plan.h"
#include "trace.h"

/* Each is named after what it would catch. */
static const CarpaceCase cases[] = {
  { "a minute told before it is over", 2, 30, NULL, "0:00 start\n0:59.999 clicks 80", "-clicks" },
  { "not told at its end", 2, 30, NULL, "0:00 start\n1:00 clicks 80", "0:01:00 clicks block=1 ms=60000 count=80" },
  { "more than a minute told as one", 2, 30, NULL, "0:00 start\n1:00.001 clicks 80", "0:01:00.001 clicks block=1 ms=60000 count=80" },
  { "counted into a minute without one", 2, 30, NULL, "0:00 start\n5:30 clicks 80",
    "0:05:30 clicks block=1 ms=60000 count=80\n0:05:30 clicks block=1 from=60 ms=240000" },
  { "minutes without a click told one by one", 2, 30, NULL, "0:00 start\n3:10 clicks 0\n3:20 until", "0:03:10 clicks block=1 ms=180000\n-count" },
  { "begins anew with each line", 2, 30, NULL, "0:00 start\n1:10 clicks 80\n2:10 clicks 70",
    "0:01:10 clicks block=1 ms=60000 count=80\n0:02:10 clicks block=1 from=60 ms=60000 count=70" },
  { "time in a gap told as practice", 2, 30, NULL, "0:00 start\n0:30 still\n1:30 input\n1:59.999 clicks 5", "-clicks" },
  { "time after a gap not told", 2, 30, NULL, "0:00 start\n0:30 still\n1:30 input\n2:00 clicks 5", "0:02:00 clicks block=1 ms=60000 count=5" },
  { "a pause told as practice", 2, 30, NULL, "0:00 start\n0:30 pause\n5:00 continue\n5:29.999 clicks 5", "-clicks" },
  { "time after a pause not told", 2, 30, NULL, "0:00 start\n0:30 pause\n5:00 continue\n5:30 clicks 5", "0:05:30 clicks block=1 ms=60000 count=5" },
  { "time away told as practice", 2, 30, NULL, "0:00 start\n0:30 away\n2:00 clicks 9", "-clicks" },
  { "a rest told as practice", 2, 30, NULL, "0:00 start\n0:30 rest\n1:15 input\n1:44 clicks 5", "-clicks" },
  { "one click taken for none", 2, 30, NULL, "0:00 start\n2:10 clicks 1",
    "0:02:10 clicks block=1 ms=60000 count=1\n0:02:10 clicks block=1 from=60 ms=60000" },
  { "not told on air", 2, 30, NULL, "0:00 on-air on\n0:10 start\n1:10 clicks 80", "0:01:10 clicks block=1 ms=60000 count=80" },
  { "the block's last seconds not told", 2, 30, NULL, "0:00 start\n1:30 end\n1:30 clicks 8",
    "0:01:30 block ended number=1\n0:01:30 clicks block=1 ms=60000 count=8\n0:01:30 clicks block=1 from=60 ms=30000" },
  { "the last seconds told twice", 2, 30, NULL, "0:00 start\n1:10 clicks 80\n1:30 end\n1:30 clicks 8\n1:31 clicks 7",
    "0:01:30 clicks block=1 from=60 ms=30000 count=8\n-0:01:31 clicks" },
  { "a match's told of a block", 2, 30, NULL, "0:00 start match\n1:10 clicks 80", "0:01:10 clicks ms=60000 count=80" },
  { "told of a block that was none", 2, 30, NULL, "0:00 start\n0:10 end\n0:11 clicks 8", "0:00:10 block dropped number=1\n-clicks" },
  { "the next block's told of the one before", 2, 30, NULL, "0:00 start\n10:00 end\n10:00 clicks 8\n10:10 rate 0\n56:00 start\n57:00 clicks 60",
    "0:57:00 clicks block=2 ms=60000 count=60" },
  { "told of the day before", 2, 30, NULL, "0:00 start\n10:00 end\n10:10 rate 0\n34:00:00 morning 0\n34:00:10 clicks 8", "-clicks" },
  { "told where nothing was practised", 2, 30, NULL, "0:10 clicks 5\n0:20 input\n2:00 clicks 5", "-clicks" },
};

static void
test_cases (void **state)
{
  assert_int_equal (carpace_cases_failed (cases, sizeof cases / sizeof cases[0]), 0);
}

/* ---- minutes that nobody counted, and where a click counts ---- */

typedef struct
{
  CarpacePlan plan;
  CarpaceSession s;
  CarpaceEntries told;
} Desk;

static void
tell (Desk *desk, int64_t ms, CarpaceEvent event)
{
  carpace_session_step (&desk->s, &event, (CarpaceInstant) { .elapsed_ms = ms, .wall_ms = INT64_C (1804006800000) + ms, .offset_s = 3600 },
                        &desk->told);
}

static void
kind (Desk *desk, int64_t ms, CarpaceEventKind kind)
{
  tell (desk, ms, (CarpaceEvent) { .kind = kind });
}

static void
begin (Desk *desk)
{
  memset (desk, 0, sizeof *desk);
  carpace_trace_plan (&desk->plan, 2, 30);
  carpace_session_init (&desk->s, NULL);
  tell (desk, 0, (CarpaceEvent) { .kind = CARPACE_EVENT_OPEN, .open = { &desk->plan } });
  kind (desk, 0, CARPACE_EVENT_START);
}

static void
what_nobody_counted_is_not_told (void **state)
{
  static const struct { const char *name; int64_t from_ms, at_ms, told_from_ms, told_ms; } rows[] = {
    { "from the start", 0, 90000, 0, 60000 },
    { "from 30 s on, a minute not over", 30000, 89999, -1, 0 },
    { "from 30 s on", 30000, 90000, 30000, 60000 },
    { "from now on", 90000, 90000, -1, 0 },
    { "from what lies ahead", 90001, 90000, -1, 0 },
    { "from as far ahead as there is", CARPACE_FIELD_LENGTH_MS, 90000, -1, 0 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static Desk desk;

      print_message ("%s\n", rows[i].name);
      begin (&desk);
      tell (&desk, rows[i].at_ms, (CarpaceEvent) { .kind = CARPACE_EVENT_CLICKS, .clicks = { rows[i].from_ms, 7 } });
      assert_int_equal (desk.told.n, rows[i].told_from_ms >= 0);
      if (desk.told.n == 0)
        continue;
      assert_int_equal (desk.told.entry[0].clicks.from_ms, rows[i].told_from_ms);
      assert_int_equal (desk.told.entry[0].clicks.ms, rows[i].told_ms);
      assert_int_equal (desk.told.entry[0].clicks.count, 7);
    }
}

static void
a_click_counts_in_practice_only (void **state)
{
  static const struct { const char *name; CarpaceEventKind said[3]; CarpaceState then; bool counts; } rows[] = {
    { "in a run", { 0 }, CARPACE_STATE_PRACTISING, true },
    { "in a gap, which it ends", { CARPACE_EVENT_STILL, CARPACE_EVENT_DEADLINE }, CARPACE_STATE_GAP, true },
    { "in a pause", { CARPACE_EVENT_PAUSE }, CARPACE_STATE_PAUSED, false },
    { "in a rest", { CARPACE_EVENT_REST }, CARPACE_STATE_RESTING, false },
    { "away from the window", { CARPACE_EVENT_AWAY }, CARPACE_STATE_PRACTISING, false },
    { "at the window again", { CARPACE_EVENT_AWAY, CARPACE_EVENT_FRONT }, CARPACE_STATE_PRACTISING, true },
    { "asleep", { CARPACE_EVENT_SUSPEND }, CARPACE_STATE_PRACTISING, false },
    { "after the block", { CARPACE_EVENT_END }, CARPACE_STATE_RATING_DUE, false },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static Desk desk;

      print_message ("%s\n", rows[i].name);
      begin (&desk);
      for (int at = 0; at < 3 && rows[i].said[at] != CARPACE_EVENT_DEADLINE; at++)
        tell (&desk, 90000, (CarpaceEvent) { .kind = rows[i].said[at], .fact = { .since_ms = rows[i].said[at] == CARPACE_EVENT_STILL ? 90000 : 0 } });
      if (rows[i].then == CARPACE_STATE_GAP)
        kind (&desk, 94000, CARPACE_EVENT_DEADLINE);
      assert_int_equal (carpace_session_state (&desk.s), rows[i].then);
      assert_int_equal (carpace_session_counts_clicks (&desk.s), rows[i].counts);
    }
}

/* Too little to be told of is none of what was told of. */
static void
what_told_nothing_is_told_later (void **state)
{
  static Desk desk;

  begin (&desk);
  tell (&desk, 80000, (CarpaceEvent) { .kind = CARPACE_EVENT_CLICKS, .clicks = { 30000, 7 } });
  assert_int_equal (desk.told.n, 0);
  tell (&desk, 100000, (CarpaceEvent) { .kind = CARPACE_EVENT_CLICKS, .clicks = { 0, 7 } });
  assert_int_equal (desk.told.n, 1);
  assert_int_equal (desk.told.entry[0].clicks.from_ms, 0);
  assert_int_equal (desk.told.entry[0].clicks.ms, CARPACE_MINUTE_MS);
}

static void
whole_minutes (void **state)
{
  static const struct { int64_t from_ms, active_ms, whole_ms; } rows[] = {
    { 0, 59999, 0 }, { 0, 60000, 60000 }, { 0, 119999, 60000 }, { 30000, 89999, 0 }, { 30000, 150000, 120000 },
    { 60000, 60000, 0 }, { 60000, 59999, 0 }, { 200000, 60000, 0 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    assert_int_equal (carpace_clicks_whole_ms (rows[i].from_ms, rows[i].active_ms), rows[i].whole_ms);
}

/* A limit that was reached, and an offer, need time. */
static void
a_click_counts_at_the_limit_and_not_over_an_offer (void **state)
{
  static Desk desk;

  begin (&desk);
  while (carpace_session_state (&desk.s) != CARPACE_STATE_LIMIT_REACHED)
    kind (&desk, carpace_session_next_deadline (&desk.s), CARPACE_EVENT_DEADLINE);
  assert_true (carpace_session_counts_clicks (&desk.s));
  begin (&desk);
  tell (&desk, 15 * CARPACE_MINUTE_MS, (CarpaceEvent) { .kind = CARPACE_EVENT_STILL, .fact = { .since_ms = 15 * CARPACE_MINUTE_MS } });
  while (carpace_session_state (&desk.s) != CARPACE_STATE_REST_DUE)
    kind (&desk, carpace_session_next_deadline (&desk.s), CARPACE_EVENT_DEADLINE);
  assert_false (carpace_session_counts_clicks (&desk.s));
}

/* What a day says of the window as it opens: a diary is gone on from by it. */
static void
a_day_opened_away_says_so (void **state)
{
  for (int away = 0; away < 2; away++)
    {
      static Desk desk;
      const CarpaceEntry *opened = NULL;

      memset (&desk, 0, sizeof desk);
      carpace_trace_plan (&desk.plan, 2, 30);
      carpace_session_init (&desk.s, NULL);
      tell (&desk, 0, (CarpaceEvent) { .kind = CARPACE_EVENT_OPEN, .open = { &desk.plan } });
      if (away)
        kind (&desk, 10, CARPACE_EVENT_AWAY);
      kind (&desk, 20, CARPACE_EVENT_MORNING);
      for (int32_t i = 0; i < desk.told.n; i++)
        if (desk.told.entry[i].kind == CARPACE_ENTRY_DAY)
          opened = &desk.told.entry[i];
      assert_non_null (opened);
      assert_int_equal (opened->day.away, away);
    }
}

/* ---- clicks measured, beside efforts planned ---- */

static CarpaceEntry
minutes (int32_t block, int64_t ms, int32_t count)
{
  return (CarpaceEntry) { .kind = CARPACE_ENTRY_CLICKS, .clicks = { .block = block, .ms = ms, .count = count } };
}

/* Of a block that a plan can have, and of no other entry: a place beside the table is a fault of its own. */
static void
only_a_block_s_are_added (void **state)
{
  static const struct { const char *name; CarpaceEntryKind kind; int32_t block; bool added; } rows[] = {
    { "a match's", CARPACE_ENTRY_CLICKS, 0, false },
    { "under any", CARPACE_ENTRY_CLICKS, -1, false },
    { "the first", CARPACE_ENTRY_CLICKS, 1, true },
    { "the second", CARPACE_ENTRY_CLICKS, 2, true },
    { "the last but one", CARPACE_ENTRY_CLICKS, CARPACE_PLAN_BLOCKS - 1, true },
    { "the last", CARPACE_ENTRY_CLICKS, CARPACE_PLAN_BLOCKS, true },
    { "beyond the last", CARPACE_ENTRY_CLICKS, CARPACE_PLAN_BLOCKS + 1, false },
    { "another kind's", CARPACE_ENTRY_BLOCK, 1, false },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpaceEntry entry = minutes (rows[i].block, CARPACE_MINUTE_MS, 80);
      struct { CarpaceClicksMeasured before, here, behind; } of = { 0 };
      CarpaceClicksMeasured nothing = { 0 };
      static CarpacePlan plan;

      carpace_trace_plan (&plan, 2, 30);
      print_message ("%s\n", rows[i].name);
      entry.kind = rows[i].kind;
      carpace_clicks_add (&of.here, &plan, &entry);
      assert_memory_equal (&of.before, &nothing, sizeof nothing);
      assert_memory_equal (&of.behind, &nothing, sizeof nothing);
      assert_int_equal (memcmp (&of.here, &nothing, sizeof nothing) != 0, rows[i].added);
      if (!rows[i].added)
        continue;
      assert_int_equal (of.here.block[rows[i].block - 1].ms, CARPACE_MINUTE_MS);
      assert_int_equal (of.here.block[rows[i].block - 1].count, 80);
    }
}

static void
a_number_needs_time (void **state)
{
  static const struct { const char *name; struct { int64_t ms; int32_t count; } of[2]; bool known; double a_minute; } rows[] = {
    { "nobody counted", { { 0 } }, false, 0 },
    { "a click in no time", { { 0, 1 } }, false, 0 },
    { "a millisecond", { { 1, 1 } }, true, 60000 },
    { "2 ms", { { 2, 1 } }, true, 30000 },
    { "a minute without a click is known", { { 60000, 0 } }, true, 0 },
    { "half a minute", { { 30000, 40 } }, true, 80 },
    { "two minutes, each with its own", { { 60000, 80 }, { 60000, 60 } }, true, 70 },
    { "by their time, not one like the other", { { 60000, 80 }, { 240000, 0 } }, true, 16 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpaceClicksMeasured measured = { 0 };
      double a_minute = -1;
      static CarpacePlan plan;

      carpace_trace_plan (&plan, 2, 30);
      print_message ("%s\n", rows[i].name);
      for (int at = 0; at < 2; at++)
        {
          CarpaceEntry entry = minutes (2, rows[i].of[at].ms, rows[i].of[at].count);

          carpace_clicks_add (&measured, &plan, &entry);
        }
      assert_int_equal (carpace_clicks_a_minute (&measured.block[1], &a_minute), rows[i].known);
      assert_true (a_minute == (rows[i].known ? rows[i].a_minute : -1));
      assert_false (carpace_clicks_a_minute (&measured.block[0], &a_minute));
    }
}

/* By the limit of that day: two drills take turns at 70 % of it. What two share is none of either. */
static void
a_drill_s_are_those_of_its_own_time (void **state)
{
  static const struct { const char *name; int32_t block; bool match; int64_t limit_ms, from_ms, ms; int drill; } rows[] = {
    { "the first's beginning", 1, false, 1800000, 0, 60000, 0 },
    { "the first's last minute", 1, false, 1800000, 1200000, 60000, 0 },
    { "a millisecond of the second", 1, false, 1800000, 1200000, 60001, -1 },
    { "the second's first", 1, false, 1800000, 1260000, 60000, 1 },
    { "a millisecond of the first", 1, false, 1800000, 1259999, 60000, -1 },
    { "a shorter day", 1, false, 600000, 420000, 60000, 1 },
    { "past the limit", 1, false, 600000, 700000, 60000, 1 },
    { "of a block that has not begun", 2, false, 1800000, 0, 60000, -1 },
    { "a match began", 1, true, 1800000, 0, 60000, -1 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static CarpacePlan plan;
      CarpaceClicksMeasured measured = { 0 };
      CarpaceEntry start = { .kind = CARPACE_ENTRY_BLOCK, .block = { .what = CARPACE_BLOCK_STARTED, .number = 1, .match = rows[i].match, .limit_ms = rows[i].limit_ms } };
      CarpaceEntry entry = minutes (rows[i].block, rows[i].ms, 80), ended = start;

      print_message ("%s\n", rows[i].name);
      carpace_trace_plan (&plan, 2, 30);
      plan.blocks[0].n_parts = 2;
      plan.blocks[0].parts[0] = (CarpaceBlockPart) { 0, 7000 };
      plan.blocks[0].parts[1] = (CarpaceBlockPart) { 1, 3000 };
      entry.clicks.from_ms = rows[i].from_ms;
      ended.block.what = CARPACE_BLOCK_ENDED;
      ended.block.number = 2;
      carpace_clicks_add (&measured, &plan, &start);
      carpace_clicks_add (&measured, &plan, &ended); /* which begins nothing */
      carpace_clicks_add (&measured, &plan, &entry);
      carpace_clicks_add (&measured, &plan, &entry);
      for (int drill = 0; drill < 2; drill++)
        {
          assert_int_equal (measured.drill[drill].count, drill == rows[i].drill ? 160 : 0);
          assert_int_equal (measured.drill[drill].ms, drill == rows[i].drill ? 2 * rows[i].ms : 0);
        }
    }
}

/* What stands behind the last part is nobody's. */
static void
efforts_are_each_drill_s_for_its_share (void **state)
{
  static const struct { const char *name; int32_t n; CarpaceBlockPart of[2]; double a_minute; } rows[] = {
    { "one drill, all of it", 1, { { 0, CARPACE_WHOLE }, { 1, CARPACE_WHOLE } }, 60 },
    { "a quarter and three", 2, { { 0, CARPACE_WHOLE / 4 }, { 1, 3 * CARPACE_WHOLE / 4 } }, 15 + 15 },
    { "one without efforts", 2, { { 2, CARPACE_WHOLE / 2 }, { 1, CARPACE_WHOLE / 2 } }, 10 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static CarpacePlan plan;

      print_message ("%s\n", rows[i].name);
      carpace_trace_plan (&plan, 2, 30);
      plan.drills[0].efforts_per_min = 60;
      plan.drills[1].efforts_per_min = 20;
      plan.drills[2].efforts_per_min = 0;
      plan.blocks[1].n_parts = rows[i].n;
      memcpy (plan.blocks[1].parts, rows[i].of, sizeof rows[i].of);
      assert_true (carpace_efforts_a_minute (&plan, 1) == rows[i].a_minute);
    }
}

/* Within the range of efforts, and a minute has 60 s of them at most. */
static void
what_is_taken_stays_in_range (void **state)
{
  static const struct { const char *name; double lasts_s; CarpaceClicksCount count; CarpaceEffortsFrom from; double efforts; } rows[] = {
    { "not asked for", 0.3, { 60000, 80 }, CARPACE_EFFORTS_FROM_PLAN, 50 },
    { "nobody counted", 0.3, { 0, 0 }, CARPACE_EFFORTS_FROM_CLICKS, 50 },
    { "as it was counted", 0.3, { 90000, 126 }, CARPACE_EFFORTS_FROM_CLICKS, 84 },
    { "none at all", 0.3, { 60000, 0 }, CARPACE_EFFORTS_FROM_CLICKS, 1 },
    { "one", 0.3, { 60000, 1 }, CARPACE_EFFORTS_FROM_CLICKS, 1 },
    { "the most there can be", 0.05, { 60000, 600 }, CARPACE_EFFORTS_FROM_CLICKS, 600 },
    { "one more", 0.05, { 60000, 601 }, CARPACE_EFFORTS_FROM_CLICKS, 600 },
    { "as long as a minute", 0.5, { 60000, 120 }, CARPACE_EFFORTS_FROM_CLICKS, 120 },
    { "longer than a minute", 0.5, { 60000, 121 }, CARPACE_EFFORTS_FROM_CLICKS, 120 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      static CarpacePlan plan;
      CarpaceClicksMeasured measured = { .drill = { rows[i].count } };

      print_message ("%s\n", rows[i].name);
      some_plan (&plan, SOME_MINUTES (30));
      some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 50, rows[i].lasts_s)->efforts_from = rows[i].from;
      carpace_clicks_as_efforts (&plan, &measured);
      assert_true (plan.drills[0].efforts_per_min == rows[i].efforts);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_cases),
    cmocka_unit_test (what_nobody_counted_is_not_told),
    cmocka_unit_test (what_told_nothing_is_told_later),
    cmocka_unit_test (whole_minutes),
    cmocka_unit_test (a_click_counts_in_practice_only),
    cmocka_unit_test (a_click_counts_at_the_limit_and_not_over_an_offer),
    cmocka_unit_test (a_day_opened_away_says_so),
    cmocka_unit_test (only_a_block_s_are_added),
    cmocka_unit_test (a_number_needs_time),
    cmocka_unit_test (a_drill_s_are_those_of_its_own_time),
    cmocka_unit_test (efforts_are_each_drill_s_for_its_share),
    cmocka_unit_test (what_is_taken_stays_in_range),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
