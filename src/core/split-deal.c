/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-deal.c: deals runs over blocks, drill by drill. Blocks that have had the
 * same so far are not told apart. */
#include "split-search.h"

#include <math.h>
#include <string.h>

/* Splits with the same index that are compared by reserve, at most. */
#define TIES 60
#define ROUNDING 1e-10

typedef CarpaceSplitSearch Search;

bool
carpace_split_too_much (Search *search)
{
  if (++search->steps > search->give_up_at)
    search->gave_up = true;
  return search->gave_up;
}

bool
carpace_split_hopeless (const Search *search, double bound)
{
  return bound > search->best->index * (1 + ROUNDING - search->slack);
}

/* Index over the multiplier of hours of @drill with @runs in @block. */
double
carpace_split_part_index (const Search *search, int32_t drill, int32_t block, int64_t runs)
{
  double share = (double) (runs * search->task->run_ms[drill]) / (double) search->lengths.length_ms[block];

  return search->task->weight[drill] * carpace_strain_efforts (search->task->efforts[drill] * share);
}

void
carpace_split_leaf (Search *search)
{
  CarpaceSplitting *best = search->best, found;
  double index = carpace_split_index (search->task, &search->table);
  bool better = index < best->index * (1 - ROUNDING);

  if (index > best->index * (1 + ROUNDING) || (!better && search->ties++ >= TIES))
    return;
  found.table = search->table;
  found.index = index;
  carpace_split_order (search->task, &found);
  if (better || carpace_split_easier (&found, best))
    *best = found;
}

/* Whether what is still to be dealt can be placed. */
bool
carpace_split_can_be_placed (const Search *search, int32_t next)
{
  for (int32_t i = next; i < search->n; i++)
    {
      int32_t drill = search->drill[i];
      int64_t placed = 0;
      for (int32_t block = 0; block < search->k; block++)
        {
          int64_t fit = search->to_fill_ms[block] / search->task->run_ms[drill];
          placed += fit < search->most[block][drill] ? fit : search->most[block][drill];
        }
      if (placed < search->task->n_runs[drill])
        return false;
    }
  return true;
}

/* Where any drill may be first: the least weight it can end with. */
static void
know_first_weights (Search *search, int32_t next)
{
  for (int32_t block = 0; block < search->k; block++)
    {
      double highest = 0, least = INFINITY;
      if (search->first[block] != CARPACE_SPLIT_ANY)
        continue;
      for (int32_t i = 0; i < next; i++)
        {
          int32_t drill = search->drill[i], runs = search->table.runs[block][drill];
          double index = runs > 0 ? carpace_split_part_index (search, drill, block, runs) : 0;
          if (index > highest || (index >= highest && runs > 0 && search->task->weight[drill] < least))
            {
              highest = index;
              least = search->task->weight[drill];
            }
        }
      for (int32_t i = next; i < search->n; i++)
        {
          int32_t drill = search->drill[i];
          int64_t fit = search->to_fill_ms[block] / search->task->run_ms[drill];
          int64_t runs = fit < search->task->n_runs[drill] ? fit : search->task->n_runs[drill];
          if (runs > 0 && search->task->weight[drill] < least
              && carpace_split_part_index (search, drill, block, runs) * (1 + 1e-3) >= highest)
            least = search->task->weight[drill];
        }
      search->dealt.first_weight[block] = least;
    }
}

/* Runs of @drill that fit in @block under its cap. */
static int64_t
fits (const Search *search, int32_t drill, int32_t block)
{
  int64_t fit = search->to_fill_ms[block] / search->task->run_ms[drill];

  return fit < search->most[block][drill] ? fit : search->most[block][drill];
}

/* The work that what is still to be dealt puts in each block at least and at
 * most: runs that fit nowhere else, and then the least dense (the densest)
 * first, each up to what fits. */
static void
know_more (Search *search, int32_t next)
{
  int64_t fit[CARPACE_SPLIT_D][CARPACE_SPLIT_B], all[CARPACE_SPLIT_D];

  for (int32_t i = next; i < search->n; i++)
    {
      int32_t drill = search->drill[i];
      all[drill] = 0;
      for (int32_t block = 0; block < search->k; block++)
        all[drill] += fit[drill][block] = fits (search, drill, block);
    }
  for (int32_t block = 0; block < search->k; block++)
    {
      double must = 0, open = (double) search->to_fill_ms[block], low, high, work;
      double spare[CARPACE_SPLIT_D];
      for (int32_t i = next; i < search->n; i++)
        {
          int32_t drill = search->drill[i];
          int64_t least = search->task->n_runs[drill] - (all[drill] - fit[drill][block]);
          double ms = (double) ((least > 0 ? least : 0) * search->task->run_ms[drill]);
          must += ms * search->lengths.density[drill];
          open -= ms;
          spare[drill] = (double) (fit[drill][block] * search->task->run_ms[drill]) - ms;
        }
      low = high = open > 0 ? open : 0;
      work = must;
      for (int32_t i = search->n - 1; i >= 0 && low > 0; i--)
        if (search->place[search->dense[i]] >= next)
          {
            double ms = fmin (spare[search->dense[i]], low);
            work += ms * search->lengths.density[search->dense[i]];
            low -= ms;
          }
      search->dealt.least_more[block] = work;
      work = must;
      for (int32_t i = 0; i < search->n && high > 0; i++)
        if (search->place[search->dense[i]] >= next)
          {
            double ms = fmin (spare[search->dense[i]], high);
            work += ms * search->lengths.density[search->dense[i]];
            high -= ms;
          }
      search->dealt.most_more[block] = work;
      search->overfull = search->overfull || open < 0 || low > 0;
    }
}

double
carpace_split_node_bound (Search *search, int32_t next)
{
  know_first_weights (search, next);
  search->overfull = false;
  know_more (search, next);
  return search->overfull ? INFINITY : carpace_split_bound (&search->lengths, &search->dealt);
}

/* Whether @block is to be like the one before it and has been dealt the same so far. */
static bool
same_so_far (const Search *search, int32_t block, int32_t next)
{
  if (search->lengths.length_ms[block] != search->lengths.length_ms[block - 1]
      || search->first[block] != search->first[block - 1]
      || (search->first[block] != CARPACE_SPLIT_ANY && search->first_runs[block] != search->first_runs[block - 1]))
    return false;
  for (int32_t i = 0; i < next; i++)
    if (search->table.runs[block][search->drill[i]] != search->table.runs[block - 1][search->drill[i]])
      return false;
  return true;
}

static void deal (Search *search, int32_t i, int32_t block, int32_t to_deal, const bool *same);

void
carpace_split_deal_next (Search *search, int32_t i)
{
  bool same[CARPACE_SPLIT_B] = { false };

  if (i == search->n)
    {
      carpace_split_leaf (search);
      return;
    }
  if (!carpace_split_can_be_placed (search, i) || carpace_split_hopeless (search, carpace_split_node_bound (search, i)))
    return;
  for (int32_t block = 1; block < search->k; block++)
    same[block] = same_so_far (search, block, i);
  deal (search, i, 0, search->task->n_runs[search->drill[i]], same);
}

/* Deals @runs of drill @i to @block and goes on; takes them back. */
static void
deal_runs (Search *search, int32_t i, int32_t block, int32_t runs, int32_t to_deal, const bool *same)
{
  int32_t drill = search->drill[i];
  int64_t ms = runs * search->task->run_ms[drill];
  double poured = search->dealt.poured[block];

  search->table.runs[block][drill] = runs;
  search->to_fill_ms[block] -= ms;
  search->dealt.poured[block] += search->lengths.density[drill] * (double) ms;
  deal (search, i, block + 1, to_deal - runs, same);
  search->dealt.poured[block] = poured;
  search->to_fill_ms[block] += ms;
  search->table.runs[block][drill] = 0;
}

/* The fewest and most runs of drill @i that @block can get. */
static void
range (const Search *search, int32_t i, int32_t block, int32_t to_deal, bool same, int64_t *ret_least, int64_t *ret_most)
{
  int32_t drill = search->drill[i];
  int64_t fit = search->to_fill_ms[block] / search->task->run_ms[drill], least = 0, most = fit, elsewhere = 0;

  if (most > search->most[block][drill])
    most = search->most[block][drill];
  if (most > to_deal)
    most = to_deal;
  if (same && most > search->table.runs[block - 1][drill])
    most = search->table.runs[block - 1][drill];
  if (search->first[block] == drill)
    least = search->first_runs[block];
  for (int32_t later = block + 1; later < search->k; later++)
    {
      int64_t fits = search->to_fill_ms[later] / search->task->run_ms[drill];
      elsewhere += fits < search->most[later][drill] ? fits : search->most[later][drill];
    }
  if (least < to_deal - elsewhere)
    least = to_deal - elsewhere;
  if (i == search->n - 1 && least < fit)
    least = fit; /* the last drill fills what is open */
  *ret_least = least;
  *ret_most = most;
}

static void
deal (Search *search, int32_t i, int32_t block, int32_t to_deal, const bool *same)
{
  int64_t least, most, even;

  if (block == search->k)
    {
      if (to_deal == 0)
        carpace_split_deal_next (search, i + 1);
      return;
    }
  range (search, i, block, to_deal, same[block], &least, &most);
  even = to_deal / (search->k - block);
  even = even < least ? least : even > most ? most : even;
  /* from an even share outwards: better splits come sooner */
  for (int64_t by = 0; even + by <= most || even - by >= least; by++)
    {
      if (carpace_split_too_much (search))
        return;
      if (even + by >= least && even + by <= most)
        deal_runs (search, i, block, (int32_t) (even + by), to_deal, same);
      if (by > 0 && even - by >= least && even - by <= most)
        deal_runs (search, i, block, (int32_t) (even - by), to_deal, same);
    }
}
