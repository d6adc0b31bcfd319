/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-rail.c: where blocks lie along the rail. */
#include "carpace/plan-rail.h"

#include "carpace/day-rail.h"
#include "lesser.h"

static int64_t
longest_of (const CarpacePlan *plan)
{
  int64_t longest_ms = 1;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    longest_ms = greater (longest_ms, carpace_load_elapsed_ms (plan, &plan->blocks[i]));
  return longest_ms;
}

/* One that grew past what is held fast is drawn as long as it is. */
static double
width_of (int64_t elapsed_ms, int64_t longest_ms)
{
  if (elapsed_ms > longest_ms)
    return (double) elapsed_ms / (double) longest_ms;
  return carpace_rail_part_width ((double) elapsed_ms, (double) longest_ms);
}

void
carpace_plan_rail (const CarpacePlan *plan, int64_t longest_ms, CarpacePlanRail *ret_rail)
{
  int64_t at_ms = 0;
  double at = 0;

  *ret_rail = (CarpacePlanRail) { .n = plan->n_blocks, .longest_ms = longest_ms > 0 ? longest_ms : longest_of (plan) };
  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      CarpacePlanSpan *span = &ret_rail->block[i];
      int64_t elapsed_ms = carpace_load_elapsed_ms (plan, &plan->blocks[i]);

      if (i > 0)
        {
          at_ms += plan->between_blocks_ms;
          at += carpace_rail_wait_width ((double) plan->between_blocks_ms, (double) ret_rail->longest_ms);
        }
      span->from_ms = at_ms;
      span->from = at;
      at_ms += elapsed_ms;
      at += width_of (elapsed_ms, ret_rail->longest_ms);
      span->to_ms = at_ms;
      span->to = at;
    }
  ret_rail->length = at;
}

/* @at_ms is not over @to_ms. */
static double
between (int64_t from_ms, int64_t to_ms, double from, double to, int64_t at_ms)
{
  return at_ms <= from_ms ? from : from + (to - from) * (double) (at_ms - from_ms) / (double) (to_ms - from_ms);
}

double
carpace_plan_rail_at (const CarpacePlanRail *rail, int64_t at_ms)
{
  for (int32_t i = 0; i < rail->n; i++)
    {
      const CarpacePlanSpan *span = &rail->block[i];

      if (i > 0 && at_ms < span->from_ms)
        return between (span[-1].to_ms, span->from_ms, span[-1].to, span->from, at_ms);
      if (at_ms <= span->to_ms)
        return between (span->from_ms, span->to_ms, span->from, span->to, at_ms);
    }
  return rail->length;
}

static int64_t
ms_of (double along, double length, int64_t ms)
{
  return length > 0 ? (int64_t) (along / length * (double) ms) : 0;
}

int64_t
carpace_plan_rail_ms_in (const CarpacePlanRail *rail, int32_t block, double along)
{
  const CarpacePlanSpan *span = &rail->block[block];

  return ms_of (along, span->to - span->from, span->to_ms - span->from_ms);
}

/* A wait that is drawn at its least or most moves as if it were drawn as long as it is. */
int64_t
carpace_plan_rail_ms_before (const CarpacePlanRail *rail, int32_t block, double along)
{
  return (int64_t) (along * (double) rail->longest_ms);
}

int32_t
carpace_plan_share_before (const CarpacePlan *plan, int32_t block, int32_t part)
{
  int32_t share = 0;

  for (int32_t i = 0; i < part; i++)
    share += plan->blocks[block].parts[i].share;
  return share;
}
