/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "split-bound.h"

#include <math.h>

/* Up to so many efforts a minute their multiplier is a straight line. */
#define STRAIGHT_EFFORTS 90
/* There it falls by 0.00238. */
#define DIP 0.0024
#define ROUNDING 1e-12

static double
hours (int64_t ms)
{
  return (double) ms / (double) CARPACE_HOUR_MS;
}

/* The multiplier of efforts less its 0.1, from below by a curve that is convex
 * throughout: the greater of two that are. */
static double
curve (double efforts)
{
  return efforts > 0 ? fmax (0.25 * efforts - DIP, 0.00334 * pow (efforts, 1.96) - 0.1) : 0;
}

/* Where efforts can pass the straight line: by Jensen's inequality an even mix
 * of all drills is least, in the order of their weights. */
static void
know_fast (CarpaceSplitLengths *lengths)
{
  const CarpaceSplitTask *task = lengths->task;
  double total = (double) task->total_ms, efforts = 0, before = 0, rate = 0, heaviest = 0;
  bool done[CARPACE_SPLIT_D] = { false };

  for (int32_t n = 0; n < task->n_drills; n++)
    {
      int32_t next = -1;
      double up_to;
      for (int32_t i = 0; i < task->n_drills; i++)
        if (!done[i] && (next < 0 || task->weight[i] > task->weight[next]))
          next = i;
      done[next] = true;
      heaviest = fmax (heaviest, task->weight[next]);
      efforts += task->efforts[next] * (double) (task->n_runs[next] * task->run_ms[next]) / total;
      up_to = curve (efforts);
      rate += task->weight[next] * (up_to - before);
      before = up_to;
    }
  lengths->dip = DIP * heaviest;
  lengths->work = fmax (lengths->work, rate * total) - lengths->dip * total;
}

void
carpace_split_know_task (CarpaceSplitLengths *lengths, const CarpaceSplitTask *task)
{
  double fastest = 0;

  *lengths = (CarpaceSplitLengths) { .task = task };
  for (int32_t i = 0; i < task->n_drills; i++)
    {
      lengths->density[i] = 0.25 * task->weight[i] * task->efforts[i];
      lengths->work += lengths->density[i] * (double) (task->n_runs[i] * task->run_ms[i]);
      fastest = fmax (fastest, task->efforts[i]);
    }
  if (fastest > STRAIGHT_EFFORTS)
    know_fast (lengths);
}

/* The least that sum (m(T) - m(T - h)) / m(h) can be over the first so many
 * blocks, whatever their order. */
static void
least_prefixes (const CarpaceSplitLengths *lengths, double ret_least[CARPACE_SPLIT_SEARCHED + 1])
{
  double least[1u << CARPACE_SPLIT_SEARCHED] = { 0 };
  int64_t sum_ms[1u << CARPACE_SPLIT_SEARCHED] = { 0 };
  int32_t k = lengths->task->n_blocks;

  for (int32_t i = 0; i <= k; i++)
    ret_least[i] = i == 0 ? 0 : INFINITY;
  for (uint32_t set = 1; set < 1u << k; set++)
    {
      int32_t n = 0;
      least[set] = INFINITY;
      for (int32_t i = 0; i < k; i++)
        if (set >> i & 1u)
          {
            uint32_t others = set & ~(1u << i);
            double added;
            n++;
            sum_ms[set] = sum_ms[others] + lengths->length_ms[i];
            added = carpace_strain_hours (hours (sum_ms[set])) - carpace_strain_hours (hours (sum_ms[others]));
            least[set] = fmin (least[set], least[others] + added / lengths->multiplier[i]);
          }
      ret_least[n] = fmin (ret_least[n], least[set]);
    }
}

static void
sort_down (double *x, int32_t n)
{
  for (int32_t i = 1; i < n; i++)
    for (int32_t j = i; j > 0 && x[j] > x[j - 1]; j--)
      {
        double swap = x[j];
        x[j] = x[j - 1];
        x[j - 1] = swap;
      }
}

/* Whether level is least: each further block adds less than the one before,
 * also for the work it takes in. */
static bool
level_is_least (const CarpaceSplitLengths *lengths, const double *least, const double *unit_down)
{
  int32_t k = lengths->task->n_blocks;

  for (int32_t p = 0; p < k; p++)
    {
      double large = 0, small = 0;
      if (p > 0 && lengths->a[p] > lengths->a[p - 1])
        return false;
      for (int32_t i = p; i < k; i++)
        small += unit_down[i];
      for (int32_t i = 1; p + i < k; i++)
        {
          large += unit_down[i - 1];
          if ((least[p + i] - least[p]) * small < (least[k] - least[p]) * large * (1 - ROUNDING))
            return false;
        }
    }
  return true;
}

void
carpace_split_know_lengths (CarpaceSplitLengths *lengths)
{
  double least[CARPACE_SPLIT_SEARCHED + 1], unit_down[CARPACE_SPLIT_B], units = 0;
  int32_t k = lengths->task->n_blocks;

  for (int32_t i = 0; i < k; i++)
    {
      lengths->multiplier[i] = carpace_strain_hours (hours (lengths->length_ms[i]));
      lengths->unit[i] = unit_down[i] = (double) lengths->length_ms[i] / lengths->multiplier[i];
    }
  sort_down (unit_down, k);
  least_prefixes (lengths, least);
  lengths->ratio = INFINITY;
  lengths->falling = true;
  for (int32_t i = 0; i < k; i++)
    {
      lengths->a[i] = least[i + 1] - least[i];
      lengths->falling = lengths->falling && (i == 0 || lengths->a[i] <= lengths->a[i - 1]);
      units += unit_down[i];
      lengths->ratio = fmin (lengths->ratio, least[i + 1] / units);
    }
  lengths->alike = lengths->length_ms[0] == lengths->length_ms[k - 1];
  lengths->level_is_least = level_is_least (lengths, least, unit_down);
}

/* The level between @low and @high of each block at which sum unit x D is
 * @work; written to ret_d. What cannot be placed is left. */
static void
pour (const CarpaceSplitLengths *lengths, const double *low, const double *high, double work, double *ret_d)
{
  int32_t k = lengths->task->n_blocks;
  bool fixed[CARPACE_SPLIT_B] = { false };

  for (int32_t round = 0; round <= k; round++)
    {
      double units = 0, level, over = 0, under = 0;
      for (int32_t i = 0; i < k; i++)
        units += fixed[i] ? 0 : lengths->unit[i];
      if (!(units > 0))
        return;
      level = work / units;
      for (int32_t i = 0; i < k; i++)
        if (!fixed[i])
          {
            ret_d[i] = fmin (fmax (level, low[i]), high[i]);
            over += level < low[i] ? (low[i] - level) * lengths->unit[i] : 0;
            under += level > high[i] ? (level - high[i]) * lengths->unit[i] : 0;
          }
      if (!(over > 0) && !(under > 0))
        return;
      for (int32_t i = 0; i < k; i++)
        if (!fixed[i] && (over >= under ? level < low[i] : level > high[i]))
          {
            fixed[i] = true;
            work -= ret_d[i] * lengths->unit[i];
          }
    }
}

double
carpace_split_bound (const CarpaceSplitLengths *lengths, const CarpaceSplitDealt *dealt)
{
  double low[CARPACE_SPLIT_B], high[CARPACE_SPLIT_B], d[CARPACE_SPLIT_B], work = lengths->work, day = 0;
  int32_t k = lengths->task->n_blocks;

  for (int32_t i = 0; i < k; i++)
    {
      double length = (double) lengths->length_ms[i], first = 0.1 * dealt->first_weight[i];
      double has = dealt->poured[i] / length + first - lengths->dip;
      low[i] = d[i] = (has + dealt->least_more[i] / length) * lengths->multiplier[i];
      /* where all is linear and lengths are alike, what a block can get at most counts, too */
      high[i] = lengths->alike && !(lengths->dip > 0) ? (has + dealt->most_more[i] / length) * lengths->multiplier[i] * (1 + ROUNDING)
                                                      : INFINITY;
      work += first * length;
    }
  if (lengths->level_is_least)
    {
      pour (lengths, low, high, work * (1 - ROUNDING), d);
      sort_down (d, k);
      for (int32_t i = 0; i < k; i++)
        day += lengths->a[i] * d[i];
    }
  return fmax (day, work * lengths->ratio);
}

/* The shortest and the longest a block can be. */
static void
length_range (const CarpaceSplitTask *task, double *ret_shortest_ms, double *ret_longest_ms)
{
  double even = (double) task->total_ms / task->n_blocks;
  double apart = (double) task->longest_run_ms * (task->n_blocks - 1) / task->n_blocks;
  bool alike = true;

  for (int32_t i = 0; i < task->n_drills; i++)
    alike = alike && task->run_ms[i] == task->longest_run_ms;
  if (alike)
    {
      *ret_shortest_ms = (double) (task->total_ms / task->longest_run_ms / task->n_blocks * task->longest_run_ms);
      *ret_longest_ms = *ret_shortest_ms < even ? *ret_shortest_ms + (double) task->longest_run_ms : even;
      return;
    }
  *ret_shortest_ms = fmax (even - apart, 1);
  *ret_longest_ms = even + apart;
}

/* m(T) / T falls but for a step at 0.05 h; a prefix of blocks is at least
 * m(T) / m(longest) of it, its work at most T / m(shortest). */
double
carpace_split_coarse_bound (const CarpaceSplitLengths *lengths)
{
  const CarpaceSplitTask *task = lengths->task;
  double lightest = INFINITY, total = hours (task->total_ms), per_hour = carpace_strain_hours (total) / total;
  double shortest_ms, longest_ms;

  for (int32_t i = 0; i < task->n_drills; i++)
    lightest = fmin (lightest, task->weight[i]);
  if (total > 0.05)
    per_hour = fmin (per_hour, carpace_strain_hours (0.05) / 0.05);
  length_range (task, &shortest_ms, &longest_ms);
  return (lengths->work / (double) task->total_ms + 0.1 * lightest) * per_hour * total
         * carpace_strain_hours (shortest_ms / (double) CARPACE_HOUR_MS)
         / carpace_strain_hours (longest_ms / (double) CARPACE_HOUR_MS);
}
