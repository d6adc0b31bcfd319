/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-work.c: what splits cost, in counted work and in time, over days of all
 * shapes; and the hardest day that a climb from each comes to. Where work is counted
 * rightly, time goes with it: the ratios are printed.
 * usage: bench-split-work [DAYS [SEED]] */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "carpace/split.h"
#include "../core/some-days.h"

#define STEPS 12

typedef struct
{
  double ms, worst_ms, units, worst_units, dearest, cheapest;
  int days;
} Sum;

static double
ms_of (const CarpacePlan *plan, int32_t into, CarpaceSplitFound *ret_found)
{
  CarpacePlan copy = *plan;
  clock_t begun = clock ();

  if (!carpace_split (&copy, into, ret_found))
    return -1;
  return 1000.0 * (double) (clock () - begun) / CLOCKS_PER_SEC;
}

static void
add (Sum *sum, double ms, int64_t units)
{
  double price = 1e6 * ms / (double) units;

  sum->days++;
  sum->ms += ms;
  sum->units += (double) units;
  sum->worst_ms = ms > sum->worst_ms ? ms : sum->worst_ms;
  sum->worst_units = (double) units > sum->worst_units ? (double) units : sum->worst_units;
  if (ms < 5)
    return; /* nothing to measure */
  sum->dearest = price > sum->dearest ? price : sum->dearest;
  sum->cheapest = price < sum->cheapest || !(sum->cheapest > 0) ? price : sum->cheapest;
}

/* Another day near @plan. */
static void
change (CarpacePlan *plan, Random *random, int32_t *into)
{
  CarpaceDrill *drill = &plan->drills[random_whole (random, 0, plan->n_drills - 1)];

  switch (random_whole (random, 0, 5))
    {
    case 0: drill->run_ms = 5000 * random_whole (random, 0, 24); break;
    case 1: drill->efforts_per_min = random_whole (random, 5, 180); break;
    case 2: plan->after_ms = 1000 * random_whole (random, 1, 600); break;
    case 3: *into = random_whole (random, 1, 8); break;
    case 4: plan->dose_ms = SOME_MINUTES (random_whole (random, 5, 240)); break;
    default:
      if (plan->n_drills < CARPACE_PLAN_DRILLS)
        plan->drills[plan->n_drills++] = *drill;
      break;
    }
}

/* From @plan uphill, by time. */
static void
climb (CarpacePlan *plan, int32_t into, Random *random, double ms, Sum *sum)
{
  for (int step = 0; step < STEPS; step++)
    {
      CarpacePlan other = *plan;
      int32_t other_into = into;
      CarpaceSplitFound found;
      double other_ms;
      change (&other, random, &other_into);
      other_ms = ms_of (&other, other_into, &found);
      if (other_ms < 0)
        continue;
      add (sum, other_ms, found.work);
      if (other_ms < ms)
        continue;
      ms = other_ms;
      *plan = other;
      into = other_into;
    }
}

static void
print (const char *what, const Sum *sum)
{
  printf ("%s: %d days, mean %.1f ms, worst %.1f ms (wanted: under 100); work in the mean %.1f million, most %.1f; "
          "ns a unit: mean %.2f, %.2f to %.2f\n", what, sum->days, sum->ms / sum->days, sum->worst_ms,
          sum->units / sum->days / 1e6, sum->worst_units / 1e6, 1e6 * sum->ms / sum->units, sum->cheapest, sum->dearest);
}

int
main (int argc, char **argv)
{
  int days = argc > 1 ? atoi (argv[1]) : 200;
  Random random = { argc > 2 ? strtoull (argv[2], NULL, 10) : UINT64_C (20270309) };
  Sum at_random = { .days = 0 }, uphill = { .days = 0 };
  static CarpacePlan plan;
  CarpaceSplitFound found;
  int32_t into = day_of_ties (&plan);
  double ms = ms_of (&plan, into, &found);

  printf ("the day of ties: %.1f ms, %.1f million\n", ms, (double) found.work / 1e6);
  for (int i = 0; i < days; i++)
    {
      into = hard_day (&plan, &random);
      ms = ms_of (&plan, into, &found);
      if (ms < 0)
        continue;
      add (&at_random, ms, found.work);
      climb (&plan, into, &random, ms, &uphill);
    }
  print ("at random", &at_random);
  print ("uphill from there", &uphill);
  return 0;
}
