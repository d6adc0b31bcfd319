/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "carpace/clicks.h"

#include "carpace/plan-keys.h"
#include "carpace/strain.h"

static void
add (CarpaceClicksCount *to, const CarpaceEntry *entry)
{
  to->ms = carpace_sum_ms (to->ms, entry->clicks.ms);
  to->count += entry->clicks.count;
}

static void
add_to_drill (CarpaceClicksMeasured *measured, const CarpacePlan *plan, const CarpaceEntry *entry)
{
  int64_t last_ms = carpace_sum_ms (entry->clicks.from_ms, entry->clicks.ms - 1);
  int32_t drill = carpace_plan_drill_at (plan, entry->clicks.block - 1, measured->limit_ms, entry->clicks.from_ms);

  if (drill == carpace_plan_drill_at (plan, entry->clicks.block - 1, measured->limit_ms, last_ms))
    add (&measured->drill[drill], entry);
}

void
carpace_clicks_add (CarpaceClicksMeasured *measured, const CarpacePlan *plan, const CarpaceEntry *entry)
{
  int32_t number = entry->kind == CARPACE_ENTRY_CLICKS ? entry->clicks.block : 0;

  if (entry->kind == CARPACE_ENTRY_BLOCK && entry->block.what == CARPACE_BLOCK_STARTED)
    {
      measured->number = entry->block.match ? 0 : entry->block.number;
      measured->limit_ms = entry->block.limit_ms;
    }
  if (number < 1 || number > CARPACE_PLAN_BLOCKS)
    return;
  add (&measured->block[number - 1], entry);
  if (number == measured->number)
    add_to_drill (measured, plan, entry);
}

bool
carpace_clicks_a_minute (const CarpaceClicksCount *of, double *ret_a_minute)
{
  if (of->ms <= 0)
    return false;
  *ret_a_minute = (double) of->count * CARPACE_MINUTE_MS / (double) of->ms;
  return true;
}

void
carpace_clicks_as_efforts (CarpacePlan *plan, const CarpaceClicksMeasured *measured)
{
  const CarpaceKeyFacts *facts = carpace_drill_key_facts (CARPACE_DRILL_EFFORTS);

  for (int32_t i = 0; i < plan->n_drills; i++)
    {
      CarpaceDrill *drill = &plan->drills[i];
      double clicks, most = CARPACE_MOST_DUTY_S / drill->effort_lasts_s < facts->high ? CARPACE_MOST_DUTY_S / drill->effort_lasts_s : facts->high;

      if (drill->efforts_from != CARPACE_EFFORTS_FROM_CLICKS || !carpace_clicks_a_minute (&measured->drill[i], &clicks))
        continue;
      drill->efforts_per_min = clicks > most ? most : clicks < facts->low ? facts->low : clicks;
    }
}

double
carpace_efforts_a_minute (const CarpacePlan *plan, int32_t block)
{
  double efforts = 0;

  for (int32_t i = 0; i < plan->blocks[block].n_parts; i++)
    {
      const CarpaceBlockPart *part = &plan->blocks[block].parts[i];

      efforts += plan->drills[part->drill].efforts_per_min * part->share / CARPACE_WHOLE;
    }
  return efforts;
}
