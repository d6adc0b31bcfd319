/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-search.c: branch and bound over whole runs.
 *
 * The index of a day is not linear: over a block's drills and over a day's
 * blocks it sorts. What makes a bound of it:
 *
 * 1. A block's rate (its index over the multiplier of its hours) is
 *    0.1 w1 + 0.25 sum w E, with w1 the weight of its first drill, the one with
 *    the highest index, as long as its efforts stay within 90 a minute; beyond,
 *    it is more. The sum over blocks of length x 0.25 sum w E is the same
 *    whichever way runs are dealt: W.
 * 2. Which drill can still come first in a block follows from what it has and
 *    what could still be dealt to it; the least weight of those bounds w1.
 * 3. With the lengths known, and blocks sorted by index D = rate x m(hours),
 *    the day is sum a_i D_(i), a falling: least where all D are level. So what
 *    is still to be dealt is poured over the lowest blocks until it is used up.
 *
 * Lengths are dealt first: where all runs are equally long they follow from the
 * number of runs; else every set of lengths within one run is tried, if they
 * are few. A drill's runs are then dealt over the blocks, the heaviest drill
 * first; blocks that have had the same so far are not told apart. */
#include "split-private.h"

#include <math.h>
#include <string.h>

/* Steps of the whole search, each of one drill dealt to one block. */
#define STEPS 1500000
/* Sets of lengths, at most, for a search at all. */
#define LENGTHS 400
/* Rounding. */
#define EXACT 1e-10
/* The multiplier of efforts falls by 0.0024 at 90 a minute. */
#define DIP 0.0024
/* Orders looked at for splits with the same index, at most. */
#define TIES 60
#define SEARCH_BLOCKS 8
/* Up to so many efforts a minute their multiplier is a straight line. */
#define STRAIGHT_EFFORTS 90

typedef struct
{
  const CarpaceSplitTask *task;
  CarpaceSplitting *best;
  int32_t n, k;
  int32_t drill[CARPACE_SPLIT_D];      /* heaviest first */
  double linear[CARPACE_SPLIT_D];      /* 0.25 w e x run, of one run */
  double work;                         /* W */
  /* the lengths being tried */
  int64_t length_ms[CARPACE_SPLIT_B];  /* longest first */
  double hours_multiplier[CARPACE_SPLIT_B], unit[CARPACE_SPLIT_B]; /* length over multiplier */
  double a[CARPACE_SPLIT_B];
  bool level_is_least;
  double ratio;                        /* index over W, at least */
  /* the table being dealt */
  CarpaceSplitTable table;
  int64_t to_fill_ms[CARPACE_SPLIT_B];
  double poured[CARPACE_SPLIT_B];      /* linear part of what it has */
  double first_index[CARPACE_SPLIT_B], first_weight[CARPACE_SPLIT_B];
  int64_t step_ms;
  int32_t steps, most_steps, n_lengths, ties;
  bool gave_up, root_only;
  double root, dip;
  double slack;                        /* a split must be better by this share */
} Search;

static double
w (const Search *search, int32_t i)
{
  return search->task->weight[search->drill[i]];
}

/* Index over hours' multiplier of drill @i with @runs in @block. */
static double
part_index (const Search *search, int32_t i, int32_t block, double runs)
{
  int32_t drill = search->drill[i];
  double efforts = search->task->efforts[drill] * runs * (double) search->task->run_ms[drill]
                   / (double) search->length_ms[block];

  return search->task->weight[drill] * carpace_strain_efforts (efforts);
}

/* The least weight that the first drill of @block can end with, the drills
 * from @next on still to be dealt. */
static double
least_first_weight (const Search *search, int32_t block, int32_t next)
{
  double least = search->first_weight[block];

  for (int32_t i = next; i < search->n; i++)
    if (w (search, i) < least)
      {
        int64_t fit = search->to_fill_ms[block] / search->task->run_ms[search->drill[i]];
        int32_t all = search->task->n_runs[search->drill[i]];
        if (fit > 0 && part_index (search, i, block, (double) (fit < all ? fit : all)) * (1 + 1e-3) >= search->first_index[block])
          least = w (search, i);
      }
  return least;
}

static void
sort_down (double *x, double *unit, int32_t n)
{
  for (int32_t i = 1; i < n; i++)
    for (int32_t j = i; j > 0 && x[j] > x[j - 1]; j--)
      {
        double swap = x[j], swap_unit = unit[j];
        x[j] = x[j - 1];
        unit[j] = unit[j - 1];
        x[j - 1] = swap;
        unit[j - 1] = swap_unit;
      }
}

/* sum a_i D_(i), with @floor the least of each and sum unit x D = @work:
 * pours over the lowest. */
static double
pour (const Search *search, double *floor, double *unit, double work)
{
  double day = 0, level = 0, units = 0, over;
  int32_t lowest = search->k, i;

  sort_down (floor, unit, search->k);
  for (i = 0; i < search->k; i++)
    work -= unit[i] * floor[i];
  /* takes in blocks from the lowest up until the next one is over the level */
  over = work;
  while (lowest > 0 && over > 0)
    {
      lowest--;
      units += unit[lowest];
      level = floor[lowest] + over / units;
      if (lowest == 0 || level <= floor[lowest - 1])
        break;
      over -= (floor[lowest - 1] - floor[lowest]) * units;
    }
  for (i = 0; i < search->k; i++)
    day += search->a[i] * (i >= lowest && work > 0 ? level : floor[i]);
  return day;
}

/* No split that goes on from here has a lower index. */
static double
bound (const Search *search, int32_t next)
{
  double floor[CARPACE_SPLIT_B], unit[CARPACE_SPLIT_B], work = search->work, day;

  for (int32_t block = 0; block < search->k; block++)
    {
      double first = 0.1 * least_first_weight (search, block, next), length = (double) search->length_ms[block];
      floor[block] = (search->poured[block] / length + first - search->dip) * search->hours_multiplier[block];
      unit[block] = search->unit[block];
      work += first * length;
    }
  day = search->level_is_least ? pour (search, floor, unit, work) : 0;
  return fmax (day, work * search->ratio);
}

static void
leaf (Search *search)
{
  CarpaceSplitting *best = search->best, found;
  double index = carpace_split_index (search->task, &search->table);

  if (index > best->index * (1 + EXACT))
    return;
  if (index >= best->index * (1 - EXACT) && search->ties++ >= TIES)
    return;
  found.table = search->table;
  found.index = index;
  carpace_split_order (search->task, &found);
  if (index < best->index * (1 - EXACT) || carpace_split_easier (&found, best))
    *best = found;
}

static void deal (Search *search, int32_t i, int32_t block, int32_t to_deal, const bool *alike);

static void
deal_next (Search *search, int32_t i)
{
  bool alike[CARPACE_SPLIT_B] = { false };

  if (i == search->n)
    {
      leaf (search);
      return;
    }
  if (bound (search, i) > search->best->index * (1 + EXACT - search->slack))
    return;
  for (int32_t block = 1; block < search->k; block++)
    {
      alike[block] = search->length_ms[block] == search->length_ms[block - 1];
      for (int32_t before = 0; alike[block] && before < i; before++)
        alike[block] = search->table.runs[block][search->drill[before]]
                       == search->table.runs[block - 1][search->drill[before]];
    }
  deal (search, i, 0, search->task->n_runs[search->drill[i]], alike);
}

/* Deals @runs of drill @i to @block and goes on; takes them back. */
static void
deal_runs (Search *search, int32_t i, int32_t block, int32_t runs, int32_t to_deal, const bool *alike)
{
  int32_t drill = search->drill[i];
  int64_t ms = runs * search->task->run_ms[drill];
  double first_index = search->first_index[block], first_weight = search->first_weight[block];
  double poured = search->poured[block];

  search->table.runs[block][drill] = runs;
  search->to_fill_ms[block] -= ms;
  search->poured[block] += search->linear[i] * runs;
  if (runs > 0)
    {
      double index = part_index (search, i, block, runs);
      if (index > first_index || (index >= first_index && w (search, i) < first_weight))
        {
          search->first_index[block] = index;
          search->first_weight[block] = w (search, i);
        }
    }
  deal (search, i, block + 1, to_deal - runs, alike);
  search->first_index[block] = first_index;
  search->first_weight[block] = first_weight;
  search->poured[block] = poured;
  search->to_fill_ms[block] += ms;
  search->table.runs[block][drill] = 0;
}

static void
deal (Search *search, int32_t i, int32_t block, int32_t to_deal, const bool *alike)
{
  int32_t drill = search->drill[i];
  int64_t most, least = 0, even;

  if (search->gave_up || ++search->steps > search->most_steps)
    {
      search->gave_up = true;
      return;
    }
  if (block == search->k)
    {
      if (to_deal == 0)
        deal_next (search, i + 1);
      return;
    }
  most = search->to_fill_ms[block] / search->task->run_ms[drill];
  if (most > to_deal)
    most = to_deal;
  if (alike[block] && most > search->table.runs[block - 1][drill])
    most = search->table.runs[block - 1][drill];
  if (block == search->k - 1 || (i == search->n - 1 && search->to_fill_ms[block] % search->task->run_ms[drill] == 0))
    least = block == search->k - 1 ? to_deal : search->to_fill_ms[block] / search->task->run_ms[drill];
  even = search->task->n_runs[drill] / search->k;
  /* from an even share outwards: better splits come sooner */
  for (int64_t by = 0; even + by <= most || even - by >= least; by++)
    {
      if (even + by >= least && even + by <= most)
        deal_runs (search, i, block, (int32_t) (even + by), to_deal, alike);
      if (by > 0 && even - by >= least && even - by <= most)
        deal_runs (search, i, block, (int32_t) (even - by), to_deal, alike);
    }
}

static double
hours (int64_t ms)
{
  return (double) ms / (double) CARPACE_HOUR_MS;
}

/* The least that the sum of the first terms 1 / m(h) x (m(T) - m(T - h)) can
 * be, for each number of blocks, whatever their order. */
static void
least_prefixes (const Search *search, double ret_least[CARPACE_SPLIT_B + 1])
{
  double least[1u << SEARCH_BLOCKS] = { 0 };
  int64_t sum_ms[1u << SEARCH_BLOCKS] = { 0 };

  for (int32_t i = 0; i <= search->k; i++)
    ret_least[i] = i == 0 ? 0 : INFINITY;
  for (uint32_t set = 1; set < 1u << search->k; set++)
    {
      int32_t n = 0;
      least[set] = INFINITY;
      for (int32_t i = 0; i < search->k; i++)
        if (set >> i & 1u)
          {
            uint32_t others = set & ~(1u << i);
            double added;
            n++;
            sum_ms[set] = sum_ms[others] + search->length_ms[i];
            added = carpace_strain_hours (hours (sum_ms[set])) - carpace_strain_hours (hours (sum_ms[others]));
            least[set] = fmin (least[set], least[others] + added / search->hours_multiplier[i]);
          }
      ret_least[n] = fmin (ret_least[n], least[set]);
    }
}

/* Whether pouring level is least: each further block adds less than the one
 * before, also for what it takes in. */
static bool
levels (const Search *search, const double least[CARPACE_SPLIT_B + 1], const double *unit_down)
{
  for (int32_t p = 0; p < search->k; p++)
    {
      double large = 0, small = 0;
      if (p > 0 && search->a[p] > search->a[p - 1])
        return false;
      for (int32_t i = p; i < search->k; i++)
        small += unit_down[i];
      for (int32_t i = 1; p + i < search->k; i++)
        {
          large += unit_down[i - 1];
          if ((least[p + i] - least[p]) * small < (least[search->k] - least[p]) * large * (1 - EXACT))
            return false;
        }
    }
  return true;
}

static void
know_lengths (Search *search)
{
  double least[CARPACE_SPLIT_B + 1], unit_down[CARPACE_SPLIT_B], same[CARPACE_SPLIT_B], units = 0;

  for (int32_t i = 0; i < search->k; i++)
    {
      search->hours_multiplier[i] = carpace_strain_hours (hours (search->length_ms[i]));
      search->unit[i] = (double) search->length_ms[i] / search->hours_multiplier[i];
      unit_down[i] = same[i] = search->unit[i];
      search->to_fill_ms[i] = search->length_ms[i];
      search->poured[i] = search->first_index[i] = 0;
      search->first_weight[i] = INFINITY;
    }
  sort_down (unit_down, same, search->k);
  least_prefixes (search, least);
  search->ratio = INFINITY;
  for (int32_t i = 0; i < search->k; i++)
    {
      search->a[i] = least[i + 1] - least[i];
      units += unit_down[i];
      search->ratio = fmin (search->ratio, least[i + 1] / units);
    }
  search->level_is_least = levels (search, least, unit_down);
  memset (&search->table, 0, sizeof search->table);
}

/* The least that any split of these lengths can come to. */
static double
search_lengths (Search *search)
{
  know_lengths (search);
  if (search->root_only)
    return bound (search, 0);
  deal_next (search, 0);
  return 0;
}

static int64_t
common_step (const CarpaceSplitTask *task)
{
  int64_t step = task->run_ms[0];

  for (int32_t i = 1; i < task->n_drills; i++)
    for (int64_t other = task->run_ms[i]; other != 0;)
      {
        int64_t over = step % other;
        step = other;
        other = over;
      }
  return step;
}

/* Every set of lengths, longest first, that adds up and is within one run. */
static void
each_lengths (Search *search, int32_t block, int64_t to_go_ms)
{
  int64_t n = search->k - block, longest, shortest;

  if (block == search->k)
    {
      if (++search->n_lengths > LENGTHS)
        search->gave_up = true;
      if (!search->gave_up)
        search->root = fmin (search->root, search_lengths (search));
      return;
    }
  longest = block == 0 ? to_go_ms : search->length_ms[block - 1];
  shortest = block == 0 ? search->step_ms : search->length_ms[0] - search->task->longest_run_ms;
  if (shortest < search->step_ms)
    shortest = search->step_ms;
  if (longest > to_go_ms - (n - 1) * shortest && block > 0)
    longest = (to_go_ms - (n - 1) * shortest) / search->step_ms * search->step_ms;
  if (block == 0 && longest > to_go_ms / n + search->task->longest_run_ms + search->step_ms)
    longest = (to_go_ms / n + search->task->longest_run_ms) / search->step_ms * search->step_ms;
  for (int64_t ms = longest; ms >= shortest && ms * n >= to_go_ms && !search->gave_up; ms -= search->step_ms)
    if (n > 1 || ms == to_go_ms)
      {
        search->length_ms[block] = ms;
        each_lengths (search, block + 1, to_go_ms - ms);
      }
}

/* The multiplier of efforts less its 0.1, from below by a curve without a dip. */
static double
curve (double efforts)
{
  return fmax (0.25 * efforts - DIP, 0.00334 * pow (efforts, 1.96) - 0.1);
}

/* Where efforts can pass the straight line, mixing all drills evenly is least
 * by Jensen's inequality, drills in the order of their weights: W is that of
 * the even mix, if more. */
static void
know_fast (Search *search, double heaviest)
{
  const CarpaceSplitTask *task = search->task;
  double total = (double) task->total_ms, efforts = 0, before = 0, rate = 0;
  bool done[CARPACE_SPLIT_D] = { false };

  for (int32_t n = 0; n < search->n; n++)
    {
      int32_t next = -1;
      double up_to;
      for (int32_t i = 0; i < search->n; i++)
        if (!done[i] && (next < 0 || task->weight[i] > task->weight[next]))
          next = i;
      done[next] = true;
      efforts += task->efforts[next] * (double) (task->n_runs[next] * task->run_ms[next]) / total;
      up_to = curve (efforts);
      rate += task->weight[next] * (up_to - before);
      before = up_to;
    }
  search->dip = DIP * heaviest;
  search->work = fmax (search->work, rate * total) - search->dip * total;
}

static void
set_up (Search *search, const CarpaceSplitTask *task, CarpaceSplitting *best)
{
  double heaviest = 0, fastest = 0;

  *search = (Search) { .task = task, .best = best, .n = task->n_drills, .k = task->n_blocks };
  search->step_ms = common_step (task);
  for (int32_t i = 0; i < search->n; i++)
    {
      int32_t at = i;
      double work = task->weight[i] * task->efforts[i] * (double) (task->n_runs[i] * task->run_ms[i]);
      for (; at > 0; at--)
        {
          int32_t d = search->drill[at - 1];
          if (task->weight[d] * task->efforts[d] * (double) (task->n_runs[d] * task->run_ms[d]) >= work)
            break;
          search->drill[at] = d;
        }
      search->drill[at] = i;
      search->work += 0.25 * work;
      heaviest = fmax (heaviest, task->weight[i]);
      fastest = fmax (fastest, task->efforts[i]);
    }
  for (int32_t i = 0; i < search->n; i++)
    {
      int32_t d = search->drill[i];
      search->linear[i] = 0.25 * task->weight[d] * task->efforts[d] * (double) task->run_ms[d];
    }
  if (fastest > STRAIGHT_EFFORTS)
    know_fast (search, heaviest);
}

/* One pass over all lengths. @return whether it came to its end */
static bool
pass (Search *search, double slack, int32_t steps, bool root_only)
{
  search->slack = slack;
  search->steps = 0;
  search->most_steps = steps;
  search->n_lengths = 0;
  search->gave_up = false;
  search->root_only = root_only;
  search->root = INFINITY;
  each_lengths (search, 0, search->task->total_ms);
  return !search->gave_up;
}

/* Without the lengths at hand: a day is at least as if its blocks were one, but
 * for what the shortest and the longest can differ by. */
static double
coarse_bound (const Search *search)
{
  const CarpaceSplitTask *task = search->task;
  double total = (double) task->total_ms, least = INFINITY, per_hour, longest, shortest;
  int64_t runs = task->total_ms / search->step_ms, over = runs % search->k;

  for (int32_t i = 0; i < search->n; i++)
    least = fmin (least, w (search, i));
  if (task->longest_run_ms == search->step_ms)
    {
      shortest = (double) (runs / search->k * search->step_ms);
      longest = shortest + (over > 0 ? (double) search->step_ms : 0);
    }
  else
    {
      double apart = (double) task->longest_run_ms * (search->k - 1) / search->k;
      shortest = fmax (total / search->k - apart, (double) search->step_ms);
      longest = total / search->k + apart;
    }
  per_hour = carpace_strain_hours (hours (task->total_ms)) / hours (task->total_ms);
  if (hours (task->total_ms) > 0.05)
    per_hour = fmin (per_hour, carpace_strain_hours (0.05) / 0.05);
  return (search->work / total + 0.1 * least) * per_hour * hours (task->total_ms)
         * carpace_strain_hours (hours ((int64_t) shortest)) / carpace_strain_hours (hours ((int64_t) longest + 1));
}

double
carpace_split_search (const CarpaceSplitTask *task, CarpaceSplitting *best)
{
  Search search;
  double least;

  set_up (&search, task, best);
  if (search.k > SEARCH_BLOCKS || !pass (&search, 0, STEPS, true))
    return fmin (coarse_bound (&search), best->index);
  least = search.root;
  if (pass (&search, CARPACE_SPLIT_SAME / 2, STEPS, false))
    least = fmax (least, best->index * (1 - CARPACE_SPLIT_SAME / 2));
  if (pass (&search, 0, STEPS - search.steps, false))
    least = best->index;
  return fmin (least, best->index);
}
