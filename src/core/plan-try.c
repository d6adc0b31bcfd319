/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-try.c: changes to a plan that is only tried. */
#include "carpace/plan-rail.h"

#include <math.h>
#include <string.h>

#include "carpace/plan-keys.h"
#include "lesser.h"

static int64_t
stepped (int64_t value, int64_t step, const CarpaceKeyFacts *facts)
{
  int64_t least = (int64_t) facts->low, most = (int64_t) facts->high;

  value = (value + step / 2) / step * step; /* what is under 0 is under the least, too */
  return greater (least > 0 ? greater (least, step) : least, lesser (value, most));
}

/* Whether the dose is what the blocks add up to; where it is, it stays that. */
static bool
is_the_sum (const CarpacePlan *plan)
{
  return plan->dose_ms == carpace_plan_sum_of_limits_ms (plan);
}

void
carpace_plan_try_limit (CarpacePlan *plan, int32_t block, int64_t limit_ms)
{
  bool follows = is_the_sum (plan);
  int64_t others_ms = carpace_plan_sum_of_limits_ms (plan) - plan->blocks[block].limit_ms;
  int64_t room_ms = (int64_t) carpace_plan_key_facts (CARPACE_KEY_DAY_DOSE)->high - others_ms;

  limit_ms = stepped (limit_ms, CARPACE_LIMIT_STEP_MS, carpace_block_limit_facts ());
  plan->blocks[block].limit_ms = follows && room_ms > 0 ? lesser (limit_ms, room_ms) : limit_ms;
  if (follows)
    plan->dose_ms = carpace_plan_sum_of_limits_ms (plan);
}

void
carpace_plan_try_wait (CarpacePlan *plan, int64_t wait_ms)
{
  plan->between_blocks_ms = stepped (wait_ms, CARPACE_WAIT_STEP_MS, carpace_plan_key_facts (CARPACE_KEY_DAY_BETWEEN_BLOCKS));
}

void
carpace_plan_try_share (CarpacePlan *plan, int32_t block, int32_t part, int32_t share)
{
  CarpaceBlockPart *parts = plan->blocks[block].parts;
  int32_t both = parts[part].share + parts[part + 1].share;

  if (both < 2 * CARPACE_SHARE_STEP)
    return;
  share = (share + CARPACE_SHARE_STEP / 2) / CARPACE_SHARE_STEP * CARPACE_SHARE_STEP;
  share = (int32_t) greater (CARPACE_SHARE_STEP, lesser (share, both - CARPACE_SHARE_STEP));
  parts[part].share = share;
  parts[part + 1].share = both - share;
}

void
carpace_plan_try_move_block (CarpacePlan *plan, int32_t from, int32_t to)
{
  CarpaceBlock moved = plan->blocks[from];

  if (from < to)
    memmove (&plan->blocks[from], &plan->blocks[from + 1], (size_t) (to - from) * sizeof moved);
  else
    memmove (&plan->blocks[to + 1], &plan->blocks[to], (size_t) (from - to) * sizeof moved);
  plan->blocks[to] = moved;
}

void
carpace_plan_try_move_part (CarpacePlan *plan, int32_t block, int32_t from, int32_t to)
{
  CarpaceBlockPart *parts = plan->blocks[block].parts, moved = parts[from];

  if (from < to)
    memmove (&parts[from], &parts[from + 1], (size_t) (to - from) * sizeof moved);
  else
    memmove (&parts[to + 1], &parts[to], (size_t) (from - to) * sizeof moved);
  parts[to] = moved;
}

void
carpace_plan_try_wrist (CarpacePlan *plan, int32_t drill, double deg)
{
  CarpaceDrill *of = &plan->drills[drill];

  of->bend_deg = fmin (round (fabs (deg)), carpace_drill_key_facts (CARPACE_DRILL_WRIST)->high);
  of->bend = of->bend_deg < 1 ? CARPACE_WRIST_STRAIGHT : deg > 0 ? CARPACE_WRIST_FLEXION : CARPACE_WRIST_EXTENSION;
}

void
carpace_plan_try_effort (CarpacePlan *plan, int32_t drill, double effort)
{
  plan->drills[drill].intensity_pct_mvc = fmax (1, fmin (round (10 * effort), carpace_drill_key_facts (CARPACE_DRILL_INTENSITY)->high));
}
