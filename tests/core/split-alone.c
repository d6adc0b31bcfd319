/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-alone.c: splits a day read from standard input, for scripts.
 * INTO, then a drill a line: INTENSITY% EFFORTS/min LASTS-s RUN-ms TIME-ms. */
#include <stdio.h>

#include "carpace/split.h"
#include "some-plan.h"

int
main (void)
{
  static CarpacePlan plan;
  CarpaceSplitFound found;
  int into;
  double intensity, efforts, lasts, run, time;

  some_plan (&plan, 0);
  if (scanf ("%d", &into) != 1)
    return 2;
  while (scanf ("%lf %lf %lf %lf %lf", &intensity, &efforts, &lasts, &run, &time) == 5)
    {
      CarpaceDrill *drill = some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, intensity, efforts, lasts);
      drill->run_ms = (int64_t) run;
      drill->time_ms = (int64_t) time;
      plan.dose_ms += drill->time_ms;
    }
  if (!carpace_split (&plan, into, &found))
    return 1;
  printf ("%.17g %.17g %d\n", found.highest_index, found.bound, found.proven);
  return 0;
}
