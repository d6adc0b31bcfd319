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

/* One of a shape that nobody has thought of: few drills or many, alike or not, runs
 * from a second to an hour, rests from every second on; now and then near an
 * ordinary day. @return how many blocks it is to be split into */
static inline int32_t
hard_day (CarpacePlan *plan, Random *random)
{
  const SomeKind *kind = &some_kinds[random_whole (random, 0, SOME_KINDS - 1)];
  int32_t n = random_whole (random, 1, random_whole (random, 0, 2) == 0 ? CARPACE_PLAN_DRILLS : 12);
  bool alike = random_whole (random, 0, 2) == 0;
  const int64_t doses_ms[] = { SOME_MINUTES (30), SOME_MINUTES (random_whole (random, 10, 120)), SOME_MINUTES (random_whole (random, 1, 480)) };

  some_plan (plan, doses_ms[random_whole (random, 0, 2)]);
  for (int32_t i = 0; i < n; i++)
    {
      CarpaceDrill *drill = any_drill (plan, random, kind->efforts[0], kind->efforts[1]);
      const int64_t runs_ms[] = { 0, 20000, 60000, 10000 * random_whole (random, 1, 12), 1000 * random_whole (random, 1, 3600) };
      if (alike && i > 0 && random_whole (random, 0, 1) == 0)
        *drill = plan->drills[0];
      drill->run_ms = runs_ms[random_whole (random, 0, 4)];
      drill->time_ms = 0;
    }
  for (int32_t i = 0; plan->dose_ms / n > 11000 && random_whole (random, 0, 3) == 0 && i < n; i++)
    plan->drills[i].time_ms = 1000 * random_whole (random, 10, (int32_t) (plan->dose_ms / n / 1000));
  if (random_whole (random, 0, 2) == 0)
    plan->after_ms = 1000 * random_whole (random, 1, 600);
  if (random_whole (random, 0, 2) == 0)
    plan->rest_ms = 1000 * random_whole (random, 1, 300);
  return random_whole (random, 0, 2) == 0 ? random_whole (random, 1, CARPACE_PLAN_BLOCKS) : random_whole (random, 2, 5);
}

/* 30 minutes in quarters of four drills, one of them faster: splits that come to the
 * same by index are so many that telling them apart took 6.6 s. */
static inline int32_t
day_of_ties (CarpacePlan *plan)
{
  static const int64_t runs_ms[] = { 20000, 20000, 60000, 60000 };
  static const double efforts[] = { 60, 60, 90, 60 };

  some_plan (plan, SOME_MINUTES (30));
  plan->after_ms = SOME_MINUTES (5);
  for (int i = 0; i < 4; i++)
    some_drill (plan, CARPACE_MOVEMENT_SMALL_TURN, 12, efforts[i], 0.1)->run_ms = runs_ms[i];
  return 4;
}

#endif
