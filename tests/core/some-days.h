/* SPDX-License-Identifier: GPL-3.0-or-later */
/* some-days.h: days to be split, made at random, of kinds that are hard in
 * different ways. */
#ifndef CARPACE_TEST_SOME_DAYS_H
#define CARPACE_TEST_SOME_DAYS_H

#include "some-plan.h"

typedef struct
{
  const char *row;
  int32_t efforts[2], run_s[2], time_min[2]; /* from, to */
} SomeKind;

#define SOME_KINDS 6

static const SomeKind some_kinds[SOME_KINDS] = {
  { "equal times, runs of a minute", { 10, 90 }, { 60, 60 }, { 6, 6 } },
  { "times of 2 to 12 min", { 10, 90 }, { 60, 60 }, { 2, 12 } },
  { "runs of 30 to 120 s", { 10, 90 }, { 30, 120 }, { 2, 12 } },
  { "30 efforts a minute at most", { 5, 30 }, { 60, 60 }, { 6, 6 } },
  { "80 to 180 efforts a minute", { 80, 180 }, { 60, 60 }, { 6, 6 } },
  { "10 to 180, runs of 30 to 120 s", { 10, 180 }, { 30, 120 }, { 2, 12 } },
};

/* @n drills of @kind. */
static inline void
some_day (CarpacePlan *plan, Random *random, const SomeKind *kind, int32_t n)
{
  some_plan (plan, 0);
  for (int32_t i = 0; i < n; i++)
    {
      CarpaceDrill *drill = any_drill (plan, random, kind->efforts[0], kind->efforts[1]);
      drill->run_ms = 15000 * random_whole (random, kind->run_s[0] / 15, kind->run_s[1] / 15);
      drill->time_ms = SOME_MINUTES (random_whole (random, kind->time_min[0], kind->time_min[1])) / drill->run_ms * drill->run_ms;
      plan->dose_ms += drill->time_ms;
    }
}

#endif
