/* SPDX-License-Identifier: GPL-3.0-or-later */
/* load-curve.c: one group's reserve along a block, at moments to be drawn. */
#include "carpace/load.h"

typedef struct
{
  const CarpacePlan *plan;
  const CarpaceBlock *block;
  CarpaceGroup group;
  double fatigued;     /* where the stretch begins */
  int64_t elapsed_ms;  /* of the whole block */
  int32_t n, next;     /* moments, and the first that is still to come */
  double *reserve;
} Curve;

static void
add_elapsed (void *user, const CarpaceStretch *stretch)
{
  *(int64_t *) user = stretch->to_ms;
}

int64_t
carpace_load_elapsed_ms (const CarpacePlan *plan, const CarpaceBlock *block)
{
  int64_t elapsed_ms = 0;

  carpace_load_stretches (plan, block, add_elapsed, &elapsed_ms);
  return elapsed_ms;
}

static int64_t
moment (const Curve *curve, int32_t i)
{
  return curve->elapsed_ms / (curve->n - 1) * i + curve->elapsed_ms % (curve->n - 1) * i / (curve->n - 1);
}

static double
load_in (const Curve *curve, const CarpaceStretch *stretch)
{
  double load[CARPACE_N_GROUPS];

  if (stretch->part < 0)
    return 0;
  carpace_load_groups (curve->plan, curve->block->parts[stretch->part].drill, load);
  return load[curve->group];
}

static void
follow (void *user, const CarpaceStretch *stretch)
{
  Curve *curve = user;
  CarpaceRegion region = carpace_group_region (curve->group);
  double load = load_in (curve, stretch);

  for (; curve->next < curve->n && moment (curve, curve->next) <= stretch->to_ms; curve->next++)
    {
      double seconds = (double) (moment (curve, curve->next) - stretch->from_ms) / (double) CARPACE_SECOND_MS;

      curve->reserve[curve->next] = 1 - carpace_reserve_forward (region, curve->fatigued, load, seconds);
    }
  curve->fatigued = carpace_reserve_forward (region, curve->fatigued, load,
                                             (double) (stretch->to_ms - stretch->from_ms) / (double) CARPACE_SECOND_MS);
}

void
carpace_load_curve (const CarpacePlan *plan, const CarpaceBlock *block, CarpaceGroup group, int32_t n,
                    double *ret_reserve)
{
  Curve curve = { .plan = plan, .block = block, .group = group, .n = n, .reserve = ret_reserve };

  curve.elapsed_ms = carpace_load_elapsed_ms (plan, block);
  carpace_load_stretches (plan, block, follow, &curve);
}
