/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "carpace/clicks.h"

void
carpace_clicks_add (CarpaceClicksMeasured *measured, const CarpaceEntry *entry)
{
  int32_t number = entry->kind == CARPACE_ENTRY_CLICKS ? entry->clicks.block : 0;

  if (number < 1 || number > CARPACE_PLAN_BLOCKS)
    return;
  measured->block[number - 1].ms = carpace_sum_ms (measured->block[number - 1].ms, entry->clicks.ms);
  measured->block[number - 1].count += entry->clicks.count;
}

bool
carpace_clicks_a_minute (const CarpaceClicksMeasured *measured, int32_t block, double *ret_a_minute)
{
  if (measured->block[block].ms <= 0)
    return false;
  *ret_a_minute = (double) measured->block[block].count * CARPACE_MINUTE_MS / (double) measured->block[block].ms;
  return true;
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
