/* SPDX-License-Identifier: GPL-3.0-or-later */
/* loads.c: the numbers of the largest plan, and splits of 10 drills x 4 blocks. */
#include <stdio.h>
#include <time.h>

#include "carpace/split.h"
#include "cli/plan-load.h"
#include "../core/some-days.h"

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
splits (const SomeKind *kind, int32_t n, int32_t into, int times)
{
  static CarpacePlan plan;
  Random random = { SEED + 1 };
  double worst = 0, sum = 0, gaps = 0, gap = 0;
  int proven = 0, exact = 0;

  for (int i = 0; i < times; i++)
    {
      CarpaceSplitFound found;
      clock_t begun;
      double ms;
      some_day (&plan, &random, kind, n);
      begun = clock ();
      if (!carpace_split (&plan, into, &found))
        continue;
      ms = ms_since (begun);
      sum += ms;
      worst = ms > worst ? ms : worst;
      gaps += 1 - found.bound / found.highest_index;
      gap = 1 - found.bound / found.highest_index > gap ? 1 - found.bound / found.highest_index : gap;
      proven += found.proven;
      exact += found.exact;
    }
  printf ("split, %d drills x %d blocks, %s: mean %.1f ms, worst %.1f ms (wanted: under 100); %d of %d proven, %d exact; "
          "gap in the mean %.2f %%, largest %.2f %%\n", n, into, kind->row, sum / times, worst, proven, times, exact,
          100 * gaps / times, 100 * gap);
}

int
main (void)
{
  largest_plan (true);
  largest_plan (false);
  for (int i = 0; i < SOME_KINDS; i++)
    splits (&some_kinds[i], 10, 4, 200);
  for (int i = 0; i < SOME_KINDS; i++)
    splits (&some_kinds[i], 6, 4, 100);
  return 0;
}
