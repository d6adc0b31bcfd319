/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan.c: what can be asked of a finished plan. */
#include "carpace/plan.h"

#include <string.h>

#include "carpace/plan-keys.h"

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

int64_t
carpace_plan_sum_of_limits_ms (const CarpacePlan *plan)
{
  int64_t sum_ms = 0;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    sum_ms += plan->blocks[i].limit_ms;
  return sum_ms;
}

static bool
shows_otherwise (const CarpacePlan *given, const CarpacePlan *copy)
{
  if (given->n_shown != copy->n_shown)
    return true;
  for (int32_t i = 0; i < given->n_shown; i++)
    if (given->shown[i] != copy->shown[i])
      return true;
  return false;
}

static bool
key_looser (const CarpacePlan *given, const CarpacePlan *copy, CarpacePlanKey key)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (key);
  double was = carpace_plan_number (given, key), is = carpace_plan_number (copy, key);

  if (key == CARPACE_KEY_NAME)
    return strcmp (given->name, copy->name) != 0;
  if (key == CARPACE_KEY_NOTE)
    return strcmp (given->note, copy->note) != 0;
  if (key == CARPACE_KEY_MICRO_REST_SHOW)
    return shows_otherwise (given, copy);
  switch (facts->looser)
    {
    case CARPACE_LOOSER_HIGHER: return is > was;
    case CARPACE_LOOSER_LOWER: return is < was;
    case CARPACE_LOOSER_ANY: break;
    }
  return is < was || is > was;
}

bool
carpace_plan_looser (const CarpacePlan *given, const CarpacePlan *copy, CarpacePlanKey *ret_key, int32_t *ret_block)
{
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (given->fixed[key] && key_looser (given, copy, (CarpacePlanKey) key))
      {
        *ret_key = (CarpacePlanKey) key;
        *ret_block = -1;
        return true;
      }
  for (int32_t i = 0; i < copy->n_blocks; i++)
    {
      const CarpaceBlock *like = block_like (given, i);
      if (like->limit_fixed && copy->blocks[i].limit_ms > like->limit_ms)
        {
          *ret_key = CARPACE_N_KEYS;
          *ret_block = i;
          return true;
        }
    }
  return false;
}
