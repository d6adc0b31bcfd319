/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan.c: what can be asked of a finished plan. */
#include "carpace/plan.h"

static const CarpaceBlock *
block_like (const CarpacePlan *plan, int32_t block)
{
  return &plan->blocks[block < plan->n_blocks ? block : plan->n_blocks - 1];
}

int32_t
carpace_plan_drill_at (const CarpacePlan *plan, int32_t block, int64_t limit_ms, int64_t active_ms)
{
  const CarpaceBlock *in = block_like (plan, block);
  int64_t shares = 0;

  if (limit_ms > INT64_MAX / CARPACE_WHOLE) /* a match has no limit: its first drill never ends */
    return in->parts[0].drill;
  for (int32_t i = 0; active_ms < limit_ms && i < in->n_parts; i++)
    {
      shares += in->parts[i].share;
      if (active_ms * CARPACE_WHOLE < limit_ms * shares)
        return in->parts[i].drill;
    }
  return in->parts[in->n_parts - 1].drill;
}

int64_t
carpace_plan_longest_limit_ms (const CarpacePlan *plan)
{
  int64_t longest_ms = 0;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    if (plan->blocks[i].limit_ms > longest_ms)
      longest_ms = plan->blocks[i].limit_ms;
  return longest_ms;
}

bool
carpace_plan_is_without (const CarpacePlan *plan, CarpaceDay day)
{
  return (plan->without & 1 << carpace_day_weekday (day)) != 0;
}

int64_t
carpace_plan_sum_of_limits_ms (const CarpacePlan *plan)
{
  int64_t sum_ms = 0;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    sum_ms += plan->blocks[i].limit_ms;
  return sum_ms;
}
