/* SPDX-License-Identifier: GPL-3.0-or-later */
/* index.c: lengths and strain index of a table of runs. */
#include "private.h"
#include "rate.h"

#include <math.h>

int64_t
carpace_split_length_ms (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D])
{
  int64_t length_ms = 0;

  for (int32_t drill = 0; drill < task->n_drills; drill++)
    length_ms += runs[drill] * task->run_ms[drill];
  return length_ms;
}

bool
carpace_split_lengths_allowed (const CarpaceSplitTask *task, const int64_t *length_ms)
{
  int64_t shortest = length_ms[0], longest = length_ms[0];

  for (int32_t i = 1; i < task->n_blocks; i++)
    {
      if (length_ms[i] < shortest)
        shortest = length_ms[i];
      if (length_ms[i] > longest)
        longest = length_ms[i];
    }
  return shortest > 0 && longest - shortest <= task->longest_run_ms;
}

/* The one that is farthest from the mean has all others a run away from it at
 * most. Where all runs are equally long, two lengths are left. */
void
carpace_split_length_range (const CarpaceSplitTask *task, double *ret_shortest_ms, double *ret_longest_ms)
{
  double even = (double) task->total_ms / task->n_blocks;
  double apart = (double) task->longest_run_ms * (task->n_blocks - 1) / task->n_blocks;
  bool alike = true;

  for (int32_t i = 0; i < task->n_drills; i++)
    alike = alike && task->run_ms[i] == task->longest_run_ms;
  if (alike)
    {
      int64_t runs = task->total_ms / task->longest_run_ms;
      *ret_shortest_ms = (double) (runs / task->n_blocks * task->longest_run_ms);
      *ret_longest_ms = (double) ((runs + task->n_blocks - 1) / task->n_blocks * task->longest_run_ms);
      return;
    }
  *ret_shortest_ms = fmax (even - apart, 1);
  *ret_longest_ms = even + apart;
}

double
carpace_split_hours_multiplier (double length_ms)
{
  return carpace_strain_hours (length_ms / (double) CARPACE_HOUR_MS);
}

void
carpace_split_shares (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], int64_t length_ms,
                      int32_t ret_share[CARPACE_SPLIT_D])
{
  int32_t largest = 0, to_go = CARPACE_WHOLE;

  for (int32_t drill = 0; drill < task->n_drills; drill++)
    {
      ret_share[drill] = (int32_t) ((runs[drill] * task->run_ms[drill] * CARPACE_WHOLE + length_ms / 2) / length_ms);
      to_go -= ret_share[drill];
      if (ret_share[drill] > ret_share[largest])
        largest = drill;
    }
  ret_share[largest] += to_go;
}

static double
multiplier (const void *self, double efforts)
{
  return carpace_strain_efforts (efforts);
}

double
carpace_split_block_index (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D])
{
  CarpaceSplitPart parts[CARPACE_SPLIT_D];
  int64_t length_ms = carpace_split_length_ms (task, runs);
  int32_t n = 0, share[CARPACE_SPLIT_D];

  carpace_split_shares (task, runs, length_ms, share);
  for (int32_t drill = 0; drill < task->n_drills; drill++)
    if (runs[drill] > 0)
      parts[n++] = (CarpaceSplitPart) { .efforts = task->efforts[drill] * share[drill] / CARPACE_WHOLE, .weight = task->weight[drill] };
  return carpace_split_rate (parts, n, multiplier, NULL) * carpace_split_hours_multiplier ((double) length_ms);
}

double
carpace_split_index (const CarpaceSplitTask *task, const CarpaceSplitTable *table)
{
  double highest = 0;

  for (int32_t block = 0; block < task->n_blocks; block++)
    highest = fmax (highest, carpace_split_block_index (task, table->runs[block]));
  return highest;
}
