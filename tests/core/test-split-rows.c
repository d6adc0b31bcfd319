/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-split-rows.c: what stands before and behind the search of a split: times and
 * whole runs of each drill, at their borders; what is refused; blocks as they are
 * written; and the index of a block by the strain index of its parts alone. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../../src/core/split/private.h"
#include "carpace/strain.h"
#include "some-plan.h"

#define MOST 4

/* Times of 0 are equal shares of what the others leave. */
static const struct { const char *row; int32_t n; int64_t dose_ms, run_ms[MOST], time_ms[MOST], is_run_ms[MOST]; int32_t runs[MOST]; } days[] = {
  { "as many as fit", 2, 600000, { 60000, 60000 }, { 300000, 300000 }, { 60000, 60000 }, { 5, 5 } },
  { "a run as long as its time", 1, 60000, { 60000 }, { 60000 }, { 60000 }, { 1 } },
  { "a millisecond too long for its time", 1, 59999, { 60000 }, { 59999 }, { 60000 }, { 1 } },
  { "a millisecond short of two", 1, 119999, { 60000 }, { 119999 }, { 60000 }, { 1 } },
  { "none given: its time under a minute", 1, 59999, { 0 }, { 59999 }, { 59999 }, { 1 } },
  { "none given: a minute", 1, 60000, { 0 }, { 60000 }, { 60000 }, { 1 } },
  { "none given: its time over a minute", 1, 60001, { 0 }, { 60001 }, { 60000 }, { 1 } },
  { "none given: a millisecond", 1, 1, { 0 }, { 1 }, { 1 }, { 1 } },
  { "the dose left over goes to those without a time", 3, 100000, { 1, 1, 1 }, { 40000 }, { 1, 1, 1 }, { 40000, 30000, 30000 } },
  { "what does not divide goes to the first", 3, 100001, { 1, 1, 1 }, { 40000 }, { 1, 1, 1 }, { 40000, 30001, 30000 } },
  { "a dose that is given away leaves one run", 2, 60000, { 10000, 0 }, { 60000 }, { 10000, 60000 }, { 6, 1 } },
  { "and one by a millisecond a millisecond", 2, 60001, { 10000, 0 }, { 60000 }, { 10000, 1 }, { 6, 1 } },
  { "as does one that is passed", 2, 60000, { 10000, 0 }, { 70000 }, { 10000, 60000 }, { 7, 1 } },
  { "as does one passed by a millisecond", 2, 59999, { 10000, 0 }, { 60000 }, { 10000, 60000 }, { 6, 1 } },
  { "and of a millisecond's runs", 2, 60000, { 10000, 1 }, { 70000 }, { 10000, 1 }, { 7, 1 } },
  { "two lost halves are one run, of the first", 2, 30000, { 10000, 10000 }, { 15000, 15000 }, { 10000, 10000 }, { 2, 1 } },
  { "of the one that lost more", 2, 30000, { 10000, 10000 }, { 14999, 15001 }, { 10000, 10000 }, { 1, 2 } },
  { "none where a millisecond is missing", 2, 29999, { 10000, 10000 }, { 15000, 14999 }, { 10000, 10000 }, { 1, 1 } },
  { "one that lost a millisecond gets what others lost", 2, 20000, { 2, 10001 }, { 10001, 9999 }, { 2, 10001 }, { 5000, 1 } },
  { "a millisecond is a loss", 3, 33002, { 2, 20000, 20000 }, { 3, 39999, 19999 }, { 2, 20000, 20000 }, { 2, 1, 1 } },
  { "a millisecond lost, and room", 2, 8, { 2, 4 }, { 3, 7 }, { 2, 4 }, { 1, 2 } },
  { "and again, to the next", 3, 35, { 10, 10, 10 }, { 15, 16, 19 }, { 10, 10, 10 }, { 1, 2, 2 } },
  { "what was lost is just a run", 2, 62, { 2, 30 }, { 3, 59 }, { 2, 30 }, { 1, 2 } },
  { "what was given too much counts once", 4, 199999, { 60000, 60000, 60000, 0 }, { 100000, 100000, 100000 }, { 60000, 60000, 60000, 60000 }, { 2, 1, 1, 1 } },
  { "by a millisecond, too", 4, 299999, { 60000, 60000, 60000, 0 }, { 100000, 100000, 100000 }, { 60000, 60000, 60000, 60000 }, { 2, 1, 1, 1 } },
};

static void
day_of (size_t row, CarpacePlan *plan)
{
  some_plan (plan, days[row].dose_ms);
  for (int32_t i = 0; i < days[row].n; i++)
    {
      CarpaceDrill *drill = some_drill (plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 30 + i, 0.3);
      drill->run_ms = days[row].run_ms[i];
      drill->time_ms = days[row].time_ms[i];
    }
}

/* What was there before is not read. */
static void
task_of (size_t row, int32_t into, CarpacePlan *plan, CarpaceSplitTask *task, bool *ret_enough)
{
  day_of (row, plan);
  memset (task, 0xa5, sizeof *task);
  *ret_enough = carpace_split_task (task, plan, into);
}

static void
whole_runs_of_each (void **state)
{
  for (size_t row = 0; row < sizeof days / sizeof days[0]; row++)
    {
      static CarpacePlan plan;
      static CarpaceSplitTask task;
      int64_t total_ms = 0, longest_ms = 0;
      bool enough;

      task_of (row, 1, &plan, &task, &enough);
      for (int32_t i = 0; i < days[row].n; i++)
        {
          if (task.run_ms[i] != days[row].is_run_ms[i] || task.n_runs[i] != days[row].runs[i])
            fail_msg ("%s: of drill %d %d runs of %lld ms", days[row].row, i, task.n_runs[i], (long long) task.run_ms[i]);
          assert_int_equal (carpace_split_run_ms (&plan, i), days[row].is_run_ms[i]);
          total_ms += days[row].runs[i] * days[row].is_run_ms[i];
          longest_ms = longest_ms < days[row].is_run_ms[i] ? days[row].is_run_ms[i] : longest_ms;
        }
      assert_true (enough);
      assert_int_equal (task.total_ms, total_ms);
      assert_int_equal (task.longest_run_ms, longest_ms);
      assert_ptr_equal (task.plan, &plan);
      assert_null (task.work);
    }
}

static void
as_many_blocks_as_runs (void **state)
{
  for (size_t row = 0; row < sizeof days / sizeof days[0]; row++)
    {
      static CarpacePlan plan;
      static CarpaceSplitTask task;
      int32_t all = 0;
      int64_t ms = 0;
      bool enough;

      for (int32_t i = 0; i < days[row].n; i++)
        {
          all += days[row].runs[i];
          ms += days[row].runs[i] * days[row].is_run_ms[i];
        }
      task_of (row, all, &plan, &task, &enough);
      assert_true (enough);
      assert_int_equal (carpace_split_even_ms (&plan, all), ms / all);
      task_of (row, all + 1, &plan, &task, &enough);
      assert_false (enough);
      assert_int_equal (carpace_split_even_ms (&plan, all + 1), 0);
    }
}

static void
what_cannot_be_split_is_left_alone (void **state)
{
  static const struct { int32_t into; bool drills, done; } rows[] = {
    { -1, true, false }, { 0, true, false }, { 1, true, true }, { CARPACE_PLAN_BLOCKS, true, true },
    { CARPACE_PLAN_BLOCKS + 1, true, false }, { 1, false, false }, { 0, false, false },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      static CarpacePlan plan, before;
      CarpaceSplitFound found;

      some_plan (&plan, SOME_MINUTES (2 * CARPACE_PLAN_BLOCKS));
      some_block (&plan, SOME_MINUTES (3));
      if (rows[i].drills)
        some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
      before = plan;
      assert_int_equal (carpace_split (&plan, rows[i].into, &found), rows[i].done);
      if (rows[i].done)
        assert_int_equal (plan.n_blocks, rows[i].into);
      else
        assert_memory_equal (&plan, &before, sizeof plan);
    }
}

/* Nothing of a block that was there stays; all drills there may be are dealt. */
static void
blocks_are_written_anew (void **state)
{
  static CarpacePlan plan, empty;
  CarpaceSplitFound found;
  int32_t shares = 0;

  some_plan (&empty, SOME_MINUTES (CARPACE_PLAN_DRILLS));
  for (int32_t i = 0; i < CARPACE_PLAN_DRILLS; i++)
    some_drill (&empty, CARPACE_MOVEMENT_SMALL_TURN, 12, 30 + i, 0.3);
  plan = empty;
  memset (plan.blocks, 0xa5, sizeof plan.blocks[0]);
  assert_true (carpace_split (&plan, 1, &found));
  assert_true (carpace_split (&empty, 1, &found));
  assert_memory_equal (&plan, &empty, sizeof plan);
  assert_int_equal (plan.blocks[0].n_parts, CARPACE_PLAN_DRILLS);
  for (int32_t i = 0; i < CARPACE_PLAN_DRILLS; i++)
    shares += plan.blocks[0].parts[i].share;
  assert_int_equal (shares, CARPACE_WHOLE);
}

/* A drill that a block has no runs of counts for nothing, however hard: the index is the
 * strain index of the others, of a single one that of strain.h's own sum. */
static void
a_drill_without_runs_counts_for_nothing (void **state)
{
  static const struct { double intensity_pct, efforts; } hard[] = { { 100, 1 }, { 100, 600 }, { 1, 600 }, { 1, 1 } };

  for (size_t i = 0; i < sizeof hard / sizeof hard[0]; i++)
    {
      static CarpacePlan plan;
      static CarpaceSplitTask task;
      CarpaceStrainTask alone = { .intensity = 0.06, .efforts_per_min = 2, .effort_lasts_s = 0.1, .hours = 0.1 };
      CarpaceStrain strain;
      const int32_t runs[CARPACE_SPLIT_D] = { 6, 0 };

      some_plan (&plan, SOME_MINUTES (12));
      some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 6, 2, 0.1);
      some_drill (&plan, CARPACE_MOVEMENT_LARGE_TURN, hard[i].intensity_pct, hard[i].efforts, 0.1);
      assert_true (carpace_split_task (&task, &plan, 2));
      assert_int_equal (carpace_strain_task (&alone, &strain), CARPACE_STRAIN_OK);
      assert_float_equal (carpace_split_block_index (&task, runs), strain.index, 1e-12);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (whole_runs_of_each),
    cmocka_unit_test (as_many_blocks_as_runs),
    cmocka_unit_test (what_cannot_be_split_is_left_alone),
    cmocka_unit_test (blocks_are_written_anew),
    cmocka_unit_test (a_drill_without_runs_counts_for_nothing),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
