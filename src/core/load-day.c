/* SPDX-License-Identifier: GPL-3.0-or-later */
/* load-day.c: what is told of a whole day: what decides it, and what would ease it, done. */
#include "carpace/load.h"

#include <math.h>

#include "carpace/dose.h"
#include "load-eases.h"

/* What of a drill in a block weighs most: what would lower its index most if it were halved. */
static CarpaceWeighs
what_weighs (const CarpaceDrill *drill, const CarpaceBlock *block, int32_t share)
{
  double lowest = INFINITY;
  CarpaceWeighs weighs = CARPACE_WEIGHS_INTENSITY;

  for (int i = 0; i < CARPACE_N_WEIGHS; i++)
    {
      CarpaceStrainTask task = {
        .intensity = drill->intensity_pct_mvc / (i == CARPACE_WEIGHS_INTENSITY ? 200 : 100),
        .efforts_per_min = drill->efforts_per_min * share / CARPACE_WHOLE / (i == CARPACE_WEIGHS_EFFORTS ? 2 : 1),
        .effort_lasts_s = drill->effort_lasts_s / (i == CARPACE_WEIGHS_DURATION ? 2 : 1),
        .bend = drill->bend, .bend_deg = drill->bend_deg,
        .hours = (double) block->limit_ms / (double) CARPACE_HOUR_MS / (i == CARPACE_WEIGHS_HOURS ? 2 : 1),
      };
      CarpaceStrain strain;

      if (carpace_strain_task (&task, &strain) == CARPACE_STRAIN_OK && strain.index < lowest)
        {
          lowest = strain.index;
          weighs = (CarpaceWeighs) i;
        }
    }
  return weighs;
}

CarpaceDecides
carpace_load_decides (const CarpacePlan *plan, const CarpaceBlockLoad *of_block)
{
  CarpaceDecides decides = { 0 };
  const CarpaceBlock *block;
  double highest = -1;

  for (int32_t i = 1; i < plan->n_blocks; i++)
    if (of_block[i].strain_index > of_block[decides.block].strain_index)
      decides.block = i;
  block = &plan->blocks[decides.block];
  for (int32_t i = 0; i < block->n_parts; i++)
    {
      CarpaceDrillLoad load;

      carpace_load_part (plan, decides.block, i, &load);
      if (load.strain.index > highest)
        {
          highest = load.strain.index;
          decides.part = i;
        }
    }
  decides.by = what_weighs (&plan->drills[block->parts[decides.part].drill], block, block->parts[decides.part].share);
  return decides;
}

void
carpace_load_eased (const CarpacePlan *plan, const CarpaceEase *ease, CarpacePlan *ret_plan)
{
  *ret_plan = *plan;
  switch (ease->kind)
    {
    case CARPACE_EASE_LIMIT: carpace_ease_limit (&ret_plan->blocks[ease->block]); break;
    case CARPACE_EASE_SHARE: carpace_ease_share (plan, &ret_plan->blocks[ease->block]); break;
    case CARPACE_EASE_REST: ret_plan->rest_ms = carpace_ease_rest_ms (plan); break;
    case CARPACE_EASE_RUN: ret_plan->after_ms = carpace_ease_after_ms (plan); break;
    case CARPACE_N_EASES: break;
    }
}

static void
note_drills (const CarpacePlan *plan, int32_t block, CarpaceDayLoad *day)
{
  for (int32_t i = 0; i < plan->blocks[block].n_parts; i++)
    {
      CarpaceDrillLoad load;

      carpace_load_part (plan, block, i, &load);
      day->drill[load.drill] = fmax (day->drill[load.drill], load.strain.index);
    }
}

void
carpace_load_all (const CarpacePlan *plan, CarpaceDayLoad *ret_load)
{
  *ret_load = (CarpaceDayLoad) { 0 };
  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      carpace_load_block (plan, i, &ret_load->block[i]);
      if (ret_load->block[i].lowest_reserve < ret_load->block[ret_load->lowest].lowest_reserve)
        ret_load->lowest = i;
      note_drills (plan, i, ret_load);
    }
  ret_load->day_index = carpace_load_day (plan);
  ret_load->decides = carpace_load_decides (plan, ret_load->block);
  ret_load->has_ease = carpace_load_ease (plan, &ret_load->ease);
}
