/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tapped.c: intervals are counted, not taps: ten seconds cut one off anywhere. */
#include "carpace/tapped.h"

#include <math.h>

#include "carpace/plan-keys.h"

#define LEAST 3

void
carpace_tapped (CarpaceTaps *taps, int64_t at_ms)
{
  if (taps->n++ == 0)
    taps->first_ms = at_ms;
  taps->last_ms = at_ms;
}

double
carpace_tapped_per_min (const CarpaceTaps *taps)
{
  const CarpaceKeyFacts *facts = carpace_drill_key_facts (CARPACE_DRILL_EFFORTS);

  if (taps->n < LEAST || taps->last_ms <= taps->first_ms)
    return 0;
  return fmax (facts->low, fmin (round ((taps->n - 1) * (double) CARPACE_MINUTE_MS / (double) (taps->last_ms - taps->first_ms)), facts->high));
}
