/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose-limits.c: a day's dose divided into the limits of its blocks. */
#include "carpace/dose.h"

#include <string.h>

#include "dose-days.h"
#include "lesser.h"

#define LEAST_BLOCK_MS (5 * CARPACE_MINUTE_MS)

static int64_t
sum_of (const int64_t *limit_ms, int32_t n)
{
  int64_t sum = 0;

  for (int32_t i = 0; i < n; i++)
    sum += limit_ms[i];
  return sum;
}

/* What a block of the day, here one of @base_ms, is at least: 5 min, or what the
 * plan's own block and its `shortest` say. */
static int64_t
least_for (const CarpacePlan *plan, int32_t i, int64_t base_ms)
{
  int64_t own_ms = plan->blocks[i < plan->n_blocks ? i : plan->n_blocks - 1].limit_ms;

  return lesser (lesser (greater (LEAST_BLOCK_MS, plan->shortest_ms), own_ms), base_ms);
}

/* Scales the first @n of @base_ms from @whole_ms to @dose_ms. What `longest`
 * cuts off is a further block, if it is 5 min or more.
 * @return the number of limits, 0 where one of them would be too short */
static int32_t
scale (const CarpacePlan *plan, const int64_t *base_ms, int32_t n, int64_t dose_ms, int64_t whole_ms,
       int64_t *ret_limit_ms)
{
  int64_t over_ms = 0;

  for (int32_t i = 0; i < n; i++)
    {
      int64_t limit_ms = carpace_ratio_down_ms (base_ms[i], dose_ms, whole_ms, plan->round_down_to_ms);
      if (limit_ms < least_for (plan, i, base_ms[i]) && n > 1)
        return 0;
      over_ms += limit_ms > plan->longest_ms ? limit_ms - plan->longest_ms : 0;
      ret_limit_ms[i] = lesser (limit_ms, plan->longest_ms);
    }
  while (over_ms >= LEAST_BLOCK_MS && n < CARPACE_DAY_BLOCKS)
    {
      ret_limit_ms[n] = lesser (over_ms, plan->longest_ms);
      over_ms -= ret_limit_ms[n++];
    }
  return n;
}

/* The same, blocks taken from the end until none is too short. */
static int32_t
scale_down (const CarpacePlan *plan, const int64_t *base_ms, int32_t n, int64_t dose_ms, int64_t whole_ms,
            int64_t *ret_limit_ms)
{
  int32_t limits = 0;

  for (; n > 0 && limits == 0; n--)
    {
      limits = scale (plan, base_ms, n, dose_ms, whole_ms, ret_limit_ms);
      whole_ms = sum_of (base_ms, n - 1);
    }
  return limits;
}

/* The first day's limits: the plan's, more of the last where they come to less
 * than the first dose, scaled down where they come to more. */
static int32_t
first_limits (const CarpacePlan *plan, int64_t ret_limit_ms[CARPACE_DAY_BLOCKS])
{
  int64_t own_ms[CARPACE_PLAN_BLOCKS];
  int64_t sum_ms = carpace_plan_sum_of_limits_ms (plan);
  int64_t last_ms = plan->blocks[plan->n_blocks - 1].limit_ms;
  int64_t least_ms = lesser (LEAST_BLOCK_MS, last_ms);
  int32_t n = plan->n_blocks;

  for (int32_t i = 0; i < n; i++)
    own_ms[i] = ret_limit_ms[i] = plan->blocks[i].limit_ms;
  if (sum_ms > plan->dose_ms)
    return scale_down (plan, own_ms, n, plan->dose_ms, sum_ms, ret_limit_ms);
  for (int64_t more_ms = plan->dose_ms - sum_ms; more_ms >= least_ms && n < CARPACE_DAY_BLOCKS; n++)
    {
      ret_limit_ms[n] = lesser (more_ms, last_ms);
      more_ms -= ret_limit_ms[n];
    }
  return n;
}

int32_t
carpace_dose_limits (const CarpacePlan *plan, int64_t dose_ms, int64_t ret_limit_ms[CARPACE_DAY_BLOCKS])
{
  int64_t base_ms[CARPACE_DAY_BLOCKS];
  int32_t n = first_limits (plan, base_ms);

  if (dose_ms <= 0)
    return 0;
  if (dose_ms != plan->dose_ms)
    return scale_down (plan, base_ms, n, dose_ms, plan->dose_ms, ret_limit_ms);
  memcpy (ret_limit_ms, base_ms, (size_t) n * sizeof base_ms[0]);
  return n;
}
