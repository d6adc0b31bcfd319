/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-split-bound.c: what is said of larger days, on days of which the optimum
 * is known, since every split of them was looked at. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../../src/core/split/private.h"
#include "some-days.h"

#define SEED UINT64_C (20270308)

/* A bound that is too high is no bound: on days whose every split was looked
 * at, that of the larger days' argument is not over the optimum. */
static void
bounds_are_under_the_optimum (void **state)
{
  Random random = { SEED };
  int near = 0, n = 0;

  print_message ("seed %llu\n", (unsigned long long) SEED);
  for (int round = 0; round < 300; round++)
    {
      static CarpacePlan plan;
      static CarpaceSplitTask task;
      CarpaceSplitFound found;
      int32_t drills = random_whole (&random, 1, 6), into = random_whole (&random, 2, 4), fastest = round % 3 == 0 ? 180 : 90;
      double bound;

      some_plan (&plan, 0);
      some_drills (&plan, &random, drills);
      for (int32_t i = 0; i < drills; i++)
        {
          if (fastest > 90)
            {
              plan.drills[i].efforts_per_min = random_whole (&random, 20, fastest);
              plan.drills[i].effort_lasts_s = 0.3;
            }
          plan.drills[i].run_ms = round % 2 == 0 ? 60000 : 15000 * random_whole (&random, 2, 8);
          plan.drills[i].time_ms = plan.drills[i].run_ms * random_whole (&random, 1, drills > 4 ? 4 : 8);
          plan.dose_ms += plan.drills[i].time_ms;
        }
      if (!carpace_split (&plan, into, &found) || !found.exact)
        continue;
      assert_true (carpace_split_task (&task, &plan, into));
      bound = carpace_split_bound (&task, found.highest_index, 0);
      /* as if something worse had been found: what there is must not be refuted
       * (its index is that of shares in hundredths of a percent) */
      for (double worse = 1.002; worse < 1.1; worse *= 1.01)
        if (carpace_split_bound (&task, found.highest_index * worse, 0) > found.highest_index * (1 + 5e-4))
          fail_msg ("round %d: a bound over the optimum %.8g", round, found.highest_index);
      near += bound > 0.98 * found.highest_index;
      n++;
    }
  print_message ("%d days, %d within 2 %%\n", n, near);
  assert_true (n > 200 && near > n / 3);
}

/* The table of @plan's blocks. */
static void
table_of (const CarpacePlan *plan, const CarpaceSplitTask *task, CarpaceSplitTable *ret_table)
{
  memset (ret_table, 0, sizeof *ret_table);
  for (int32_t b = 0; b < plan->n_blocks; b++)
    for (int32_t i = 0; i < plan->blocks[b].n_parts; i++)
      {
        const CarpaceBlockPart *part = &plan->blocks[b].parts[i];
        double ms = (double) plan->blocks[b].limit_ms * part->share / CARPACE_WHOLE;
        ret_table->runs[b][part->drill] = (int32_t) floor (ms / (double) task->run_ms[part->drill] + 0.5);
      }
}

/* From a worse split: looking for all that are as good finds the optimum; looking
 * only for those that are better by two percent leaves one within two percent
 * of it, or does not say so. */
static void
looking_from_a_worse_split (void **state)
{
  Random random = { SEED + 1 };
  int n = 0, began_over = 0;

  print_message ("seed %llu\n", (unsigned long long) SEED + 1);
  for (int round = 0; round < 60; round++)
    {
      static CarpacePlan plan;
      static CarpaceSplitTask task;
      static CarpaceSplitting best, spoilt;
      CarpaceSplitFound found;
      int32_t into = random_whole (&random, 2, 4), a, b;

      some_day (&plan, &random, &some_kinds[round % SOME_KINDS], random_whole (&random, 2, 6));
      if (!carpace_split (&plan, into, &found) || !found.exact)
        continue;
      assert_true (carpace_split_task (&task, &plan, into));
      table_of (&plan, &task, &best.table);
      assert_true (fabs (carpace_split_index (&task, &best.table) - found.highest_index) <= 1e-9 * found.highest_index);
      /* spoilt: all runs of one drill that two blocks have, in one of them */
      a = random_whole (&random, 0, into - 1);
      b = (a + 1) % into;
      for (int32_t drill = 0; drill < task.n_drills; drill++)
        if (best.table.runs[b][drill] > 0 && carpace_split_length_ms (&task, best.table.runs[b]) > best.table.runs[b][drill] * task.run_ms[drill])
          {
            best.table.runs[a][drill] += best.table.runs[b][drill];
            best.table.runs[b][drill] = 0;
            break;
          }
      best.index = carpace_split_index (&task, &best.table);
      began_over += best.index > 1.02 * found.highest_index;
      spoilt = best;
      if (carpace_split_every (&task, 0, &spoilt) && spoilt.index > found.highest_index * (1 + 1e-9))
        fail_msg ("round %d: %.8g, and there is %.8g", round, spoilt.index, found.highest_index);
      if (carpace_split_every (&task, 0.02, &best))
        {
          if (best.index * (1 - 0.02) > found.highest_index * (1 + 1e-9))
            fail_msg ("round %d, %d drills, %d blocks: %.8g is left, and there is %.8g", round, task.n_drills, into, best.index, found.highest_index);
          n++;
        }
    }
  print_message ("%d looked through, %d began over two percent\n", n, began_over);
  assert_true (n > 20 && began_over > 20);
}

/* What the bound takes for granted: length over the multiplier of hours is
 * concave beyond three minutes, and a block that short is the steeper part. */
static void
length_over_multiplier_is_concave (void **state)
{
  double before = 0;

  for (int h = 51; h < 24000; h++)
    {
      double at = h / 1000.0 / carpace_strain_hours (h / 1000.0), next = (h + 1) / 1000.0 / carpace_strain_hours ((h + 1) / 1000.0);
      if (h > 51)
        assert_true (next - at < before);
      before = next - at;
    }
  assert_true (0.05 / carpace_strain_hours (0.05) > 0.0501 / carpace_strain_hours (0.0501));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (bounds_are_under_the_optimum),
    cmocka_unit_test (looking_from_a_worse_split),
    cmocka_unit_test (length_over_multiplier_is_concave),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
