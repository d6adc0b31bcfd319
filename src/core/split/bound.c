/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bound.c: what the highest index of no split is under: proof.h, 1
 * and 2, and the indices that are tried to be refuted. */
#include "proof.h"
#include "../strain-pieces.h"

#include <math.h>
#include <string.h>

/* Rounding. */
#define SURE 1e-9
/* Where its straight line ends the multiplier of efforts falls by 0.00238. */
#define DIP 0.0024

typedef CarpaceSplitProof Proof;

/* Multiplier of efforts less its 0.1, from below by a curve that is convex
 * throughout; and its slope. */
static double
curve (double efforts, bool straight, double *ret_slope)
{
  double line = EM_SLOPE * efforts - (straight ? 0 : DIP), power = EM_FACTOR * pow (efforts, EM_POWER) - EM_FIRST;

  if (straight || line >= power)
    {
      *ret_slope = EM_SLOPE;
      return efforts > 0 ? line : 0;
    }
  *ret_slope = EM_FACTOR * EM_POWER * pow (efforts, EM_POWER - 1);
  return power;
}

static void
sort_by_weight (Proof *proof)
{
  for (int32_t i = 0; i < proof->n; i++)
    {
      int32_t at = i;
      for (; at > 0 && proof->task->weight[proof->drill[at - 1]] > proof->task->weight[i]; at--)
        proof->drill[at] = proof->drill[at - 1];
      proof->drill[at] = i;
    }
}

/* sum (weight - next lighter weight) x g (efforts of all as heavy), and its
 * tangent, at the even mix. Where weights do not fall as the curve is met, its
 * dip can count once, for the heaviest. */
static void
know_rate (Proof *proof)
{
  const CarpaceSplitTask *task = proof->task;
  double up_to[CARPACE_SPLIT_D], efforts = 0, slope_sum = 0, at_tangent = 0, fastest = 0;
  bool straight;

  for (int32_t i = 0; i < proof->n; i++)
    fastest = fmax (fastest, task->efforts[i]);
  straight = fastest <= EM_STRAIGHT;
  for (int32_t i = proof->n - 1; i >= 0; i--)
    {
      int32_t drill = proof->drill[i];
      efforts += task->efforts[drill] * (double) (task->n_runs[drill] * task->run_ms[drill]) / (double) task->total_ms;
      up_to[i] = efforts;
    }
  proof->even_rate = straight ? 0 : -DIP * task->weight[proof->drill[proof->n - 1]];
  for (int32_t i = 0; i < proof->n; i++)
    {
      int32_t drill = proof->drill[i];
      double step = task->weight[drill] - (i > 0 ? task->weight[proof->drill[i - 1]] : 0), slope;
      proof->even_rate += step * curve (up_to[i], straight, &slope);
      slope_sum += step * slope;
      proof->tangent[drill] = slope_sum * task->efforts[drill];
      at_tangent += proof->tangent[drill] * (double) (task->n_runs[drill] * task->run_ms[drill]) / (double) task->total_ms;
    }
  proof->constant = proof->even_rate - at_tangent;
}

static double
over_multiplier (double length_ms)
{
  return length_ms / carpace_split_hours_multiplier (length_ms);
}

/* The multiplier rises by a little where short blocks end, so that the end of
 * that piece is looked at by itself. */
static void
know_lengths (Proof *proof)
{
  double even = (double) proof->task->total_ms / proof->k, hours = even / (double) CARPACE_HOUR_MS;
  double short_ms = HM_SHORT * (double) CARPACE_HOUR_MS, multiplier = carpace_split_hours_multiplier (even);

  carpace_split_length_range (proof->task, &proof->shortest_ms, &proof->longest_ms);
  if (hours <= HM_SHORT)
    {
      proof->u1 = 1 / multiplier;
      proof->u0 = 0;
      return;
    }
  proof->u1 = (multiplier - hours * carpace_strain_hours_slope (hours)) / (multiplier * multiplier);
  proof->u0 = over_multiplier (even) - proof->u1 * even;
  if (proof->shortest_ms <= short_ms)
    proof->u0 = fmax (proof->u0, over_multiplier (short_ms) - proof->u1 * short_ms);
}

/* Everything but what is chosen. */
static void
begin (Proof *proof, const CarpaceSplitTask *task)
{
  proof->task = task;
  proof->n = task->n_drills;
  proof->k = task->n_blocks;
  sort_by_weight (proof);
  know_rate (proof);
  know_lengths (proof);
}

/* The index that a day of the even mix in blocks of equal length has at least. */
static double
even_index (const Proof *proof)
{
  double total = (double) proof->task->total_ms;

  return (proof->even_rate + EM_FIRST * proof->task->weight[proof->drill[0]]) * total / (proof->k * proof->u0 + proof->u1 * total);
}

double
carpace_split_even_index (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], int32_t n_blocks)
{
  CarpaceSplitTask part = *task;
  Proof proof;

  memcpy (part.n_runs, runs, sizeof part.n_runs);
  part.n_blocks = n_blocks;
  part.total_ms = carpace_split_length_ms (task, runs);
  begin (&proof, &part);
  return even_index (&proof);
}

void
carpace_split_plane (const CarpaceSplitTask *task, double index, CarpaceSplitPlane *ret_plane)
{
  Proof proof;

  begin (&proof, task);
  ret_plane->most = index * proof.u0;
  for (int32_t i = 0; i < proof.n; i++)
    ret_plane->of_ms[i] = proof.tangent[i] + proof.constant + EM_FIRST * task->weight[proof.drill[0]] - index * proof.u1;
}

double
carpace_split_bound (const CarpaceSplitTask *task, double index, double known)
{
  static const double within[] = { 0.05, 0.03, 0.02, 0.015, 0.01, 0.0075, 0.005, 0.004, 0.003, 0.002, 0.001 };
  Proof proof;
  double bound;

  begin (&proof, task);
  bound = fmax (even_index (&proof) * (1 - SURE), known);
  for (size_t i = 0; proof.k <= CARPACE_SPLIT_REFUTED && i < sizeof within / sizeof within[0]; i++)
    if (bound < index * (1 - within[i]))
      {
        if (!carpace_split_refuted (&proof, index * (1 - within[i])))
          break;
        bound = index * (1 - within[i]);
      }
  return fmin (bound, index);
}
