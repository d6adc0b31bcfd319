/* SPDX-License-Identifier: GPL-3.0-or-later */
/* loads.c: the numbers of the largest plan, and splits of 10 drills x 4 blocks. */
#include <stdio.h>
#include <time.h>

#include "carpace/split.h"
#include "cli/plan-load.h"
#include "../core/some-plan.h"

#define SEED UINT64_C (20270307)

static double
ms_since (clock_t begun)
{
  return 1000.0 * (double) (clock () - begun) / CLOCKS_PER_SEC;
}

static void
largest_plan (bool json)
{
  static CarpacePlan plan;
  Random random = { SEED };
  CarpaceCli cli = { .out = fopen ("/dev/null", "w"), .err = stderr };
  clock_t begun;
  enum { TIMES = 10 };

  some_plan (&plan, SOME_MINUTES (480));
  some_drills (&plan, &random, CARPACE_PLAN_DRILLS);
  for (int i = 0; i < CARPACE_PLAN_BLOCKS; i++)
    some_block (&plan, SOME_MINUTES (15));
  begun = clock ();
  for (int i = 0; i < TIMES; i++)
    carpace_cli_plan_load (&cli, &plan, json);
  printf ("plan check, 64 drills x 32 blocks, %s: %.2f ms (wanted: under 20)\n", json ? "json" : "text", ms_since (begun) / TIMES);
  fclose (cli.out);
}

static void
splits (int32_t n, int32_t into, int times)
{
  static CarpacePlan plan;
  Random random = { SEED + 1 };
  double worst = 0, sum = 0, gap = 0;
  int proven = 0;

  for (int i = 0; i < times; i++)
    {
      CarpaceSplitFound found;
      clock_t begun;
      double ms;
      some_plan (&plan, SOME_MINUTES (60));
      some_drills (&plan, &random, n);
      begun = clock ();
      if (!carpace_split (&plan, into, &found))
        continue;
      ms = ms_since (begun);
      sum += ms;
      worst = ms > worst ? ms : worst;
      gap = 1 - found.bound / found.day_index > gap ? 1 - found.bound / found.day_index : gap;
      proven += found.proven;
    }
  printf ("split, %d drills x %d blocks: mean %.1f ms, worst %.1f ms (wanted: under 100), %d of %d proven, largest gap %.2f %%\n", n, into,
          sum / times, worst, proven, times, 100 * gap);
}

int
main (void)
{
  largest_plan (true);
  largest_plan (false);
  splits (10, 4, 40);
  splits (6, 3, 40);
  return 0;
}
