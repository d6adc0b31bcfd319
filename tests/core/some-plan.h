/* SPDX-License-Identifier: GPL-3.0-or-later */
/* some-plan.h: plans for tests of loads and splits, made without a file. */
#ifndef CARPACE_TEST_SOME_PLAN_H
#define CARPACE_TEST_SOME_PLAN_H

#include <string.h>

#include "carpace/plan.h"
#include "random.h"

#define SOME_MINUTES(n) ((n) * CARPACE_MINUTE_MS)

/* A rest of 30 s every 10 min, no drills yet. */
static inline void
some_plan (CarpacePlan *plan, int64_t dose_ms)
{
  memset (plan, 0, sizeof *plan);
  plan->dose_ms = dose_ms;
  plan->after_ms = SOME_MINUTES (10);
  plan->rest_ms = 30 * CARPACE_SECOND_MS;
}

static inline CarpaceDrill *
some_drill (CarpacePlan *plan, CarpaceMovement movement, double intensity_pct, double efforts_per_min, double lasts_s)
{
  CarpaceDrill *drill = &plan->drills[plan->n_drills++];

  drill->movement = movement;
  drill->intensity_pct_mvc = intensity_pct;
  drill->efforts_per_min = efforts_per_min;
  drill->effort_lasts_s = lasts_s;
  drill->run_ms = CARPACE_MINUTE_MS;
  return drill;
}

/* A block of equal shares of all drills. */
static inline void
some_block (CarpacePlan *plan, int64_t limit_ms)
{
  CarpaceBlock *block = &plan->blocks[plan->n_blocks++];
  int32_t to_go = CARPACE_WHOLE;

  block->limit_ms = limit_ms;
  for (int32_t i = 0; i < plan->n_drills; i++)
    {
      int32_t share = to_go / (plan->n_drills - i);
      block->parts[block->n_parts++] = (CarpaceBlockPart) { .drill = i, .share = share };
      to_go -= share;
    }
}

/* One at random, of @slowest to @fastest efforts a minute. */
static inline CarpaceDrill *
any_drill (CarpacePlan *plan, Random *random, int32_t slowest, int32_t fastest)
{
  /* one after the other: compilers differ on the order of arguments */
  double efforts = random_whole (random, slowest, fastest);
  double lasts_s = random_real (random, 0.1, efforts > 40 ? 60 / efforts : 1.5);
  double intensity_pct = random_whole (random, 6, 25);
  CarpaceMovement movement = (CarpaceMovement) random_whole (random, 0, CARPACE_N_MOVEMENTS - 1);
  CarpaceDrill *drill = some_drill (plan, movement, intensity_pct, efforts, lasts_s);

  if (random_whole (random, 0, 2) == 0)
    {
      drill->bend = CARPACE_WRIST_EXTENSION;
      drill->bend_deg = random_whole (random, 0, 60);
    }
  return drill;
}

/* @n drills at random, efforts together within 90 a minute in the mean. */
static inline void
some_drills (CarpacePlan *plan, Random *random, int32_t n)
{
  for (int32_t i = 0; i < n; i++)
    any_drill (plan, random, 10, 90);
}

#endif
