/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-split-bound.c: the bound of larger days, on days of which the optimum is
 * known, since every split of them was looked at. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../../src/core/split-private.h"
#include "some-plan.h"

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
    cmocka_unit_test (length_over_multiplier_is_concave),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
