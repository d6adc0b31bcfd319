/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-search.c: branch and bound over whole runs.
 *
 * Lengths are chosen first: where all runs are equally long they follow from
 * the number of runs; else every set of lengths within one run is tried, if
 * they are few. Then which drill comes first in each block (split-bound.h says
 * why that matters), the choice with the lowest bound first, and how many runs
 * of it the block gets: that caps the runs of all others there, and most
 * choices fall because runs have no place left under the caps. What stands is
 * dealt drill by drill, the most work first; blocks that have had the same so
 * far are not told apart. */
#include "split-place.h"

#include <math.h>
#include <string.h>

/* Steps of the whole search, each a drill dealt to a block or a choice weighed. */
#define STEPS 450000
/* Of one choice of first drills. */
#define STEPS_A_CHOICE 4000
/* What a placement counts for. */
#define STEPS_A_PLACEMENT 300
#define PLAYS 12
/* Sets of lengths, and choices of first drills, at most, for a search at all. */
#define MOST_LENGTHS 400
#define MOST_CHOICES 10000
/* Splits with the same index that are compared by reserve, at most. */
#define TIES 60
#define ROUNDING 1e-10
#define ANY (-1)

typedef struct
{
  CarpaceSplitLengths lengths;
  const CarpaceSplitTask *task;
  CarpaceSplitting *best;
  int32_t n, k;
  int32_t drill[CARPACE_SPLIT_D];      /* the most work first */
  int32_t dense[CARPACE_SPLIT_D];      /* the most work in a ms first */
  int32_t place[CARPACE_SPLIT_D];      /* of a drill in the order they are dealt */
  int32_t first[CARPACE_SPLIT_B];      /* drill, ANY */
  int32_t first_least[CARPACE_SPLIT_B], first_runs[CARPACE_SPLIT_B]; /* its runs there, at least and at most */
  int32_t most[CARPACE_SPLIT_B][CARPACE_SPLIT_D]; /* runs that leave it first */
  CarpaceSplitTable table;
  CarpaceSplitDealt dealt;
  int64_t to_fill_ms[CARPACE_SPLIT_B];
  double highest[CARPACE_SPLIT_B];     /* index of what it has, where any may be first */
  int32_t steps, give_up_at, ties, n_lengths;
  int64_t step_ms;                     /* every run is a multiple of it */
  double of_choice;                    /* bound of the choice of first drills at hand */
  bool gave_up, root_only, alike_runs;
  bool overfull;                       /* runs that must go to a block do not fit, or too few can */
  double slack;                        /* a split must be better by this share */
  double unseen;                       /* the least bound of what was not looked through */
} Search;

static bool
too_much (Search *search)
{
  if (++search->steps > search->give_up_at)
    search->gave_up = true;
  return search->gave_up;
}

static bool
hopeless (const Search *search, double bound)
{
  return bound > search->best->index * (1 + ROUNDING - search->slack);
}

/* Index over the multiplier of hours of @drill with @runs in @block. */
static double
part_index (const Search *search, int32_t drill, int32_t block, int64_t runs)
{
  double share = (double) (runs * search->task->run_ms[drill]) / (double) search->lengths.length_ms[block];

  return search->task->weight[drill] * carpace_strain_efforts (search->task->efforts[drill] * share);
}

/* ---- dealing ---- */

static void
leaf (Search *search)
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
static bool
can_be_placed (const Search *search, int32_t next)
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
      if (search->first[block] != ANY)
        continue;
      for (int32_t i = 0; i < next; i++)
        {
          int32_t drill = search->drill[i], runs = search->table.runs[block][drill];
          double index = runs > 0 ? part_index (search, drill, block, runs) : 0;
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
              && part_index (search, drill, block, runs) * (1 + 1e-3) >= highest)
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

static double
bound (Search *search, int32_t next)
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
      || (search->first[block] != ANY && search->first_runs[block] != search->first_runs[block - 1]))
    return false;
  for (int32_t i = 0; i < next; i++)
    if (search->table.runs[block][search->drill[i]] != search->table.runs[block - 1][search->drill[i]])
      return false;
  return true;
}

static void deal (Search *search, int32_t i, int32_t block, int32_t to_deal, const bool *same);

static void
deal_next (Search *search, int32_t i)
{
  bool same[CARPACE_SPLIT_B] = { false };

  if (i == search->n)
    {
      leaf (search);
      return;
    }
  if (!can_be_placed (search, i) || hopeless (search, bound (search, i)))
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
        deal_next (search, i + 1);
      return;
    }
  range (search, i, block, to_deal, same[block], &least, &most);
  even = to_deal / (search->k - block);
  even = even < least ? least : even > most ? most : even;
  /* from an even share outwards: better splits come sooner */
  for (int64_t by = 0; even + by <= most || even - by >= least; by++)
    {
      if (too_much (search))
        return;
      if (even + by >= least && even + by <= most)
        deal_runs (search, i, block, (int32_t) (even + by), to_deal, same);
      if (by > 0 && even - by >= least && even - by <= most)
        deal_runs (search, i, block, (int32_t) (even - by), to_deal, same);
    }
}

/* ---- first drills ---- */

/* Runs of each drill that @block can have with its first drill at @first_runs. */
static void
cap (Search *search, int32_t block, int32_t first_runs)
{
  int32_t first = search->first[block];
  double highest = first == ANY ? INFINITY : part_index (search, first, block, first_runs);

  for (int32_t drill = 0; drill < search->n; drill++)
    {
      int64_t fit = search->lengths.length_ms[block] / search->task->run_ms[drill], all = search->task->n_runs[drill];
      int64_t low = 0, high = fit < all ? fit : all;
      while (low < high)
        {
          int64_t middle = (low + high + 1) / 2;
          if (part_index (search, drill, block, middle) <= highest)
            low = middle;
          else
            high = middle - 1;
        }
      search->most[block][drill] = drill == first ? first_runs : (int32_t) low;
    }
  search->first_runs[block] = first_runs;
}

static int32_t
most_first_runs (const Search *search, int32_t block)
{
  int32_t first = search->first[block];
  int64_t fit = search->lengths.length_ms[block] / search->task->run_ms[first], all = search->task->n_runs[first];

  return (int32_t) (fit < all ? fit : all);
}

static bool
blocks_can_be_filled (const Search *search)
{
  for (int32_t block = 0; block < search->k; block++)
    {
      int64_t ms = 0;
      for (int32_t drill = 0; drill < search->n; drill++)
        ms += search->most[block][drill] * search->task->run_ms[drill];
      if (ms < search->lengths.length_ms[block])
        return false;
    }
  return true;
}

/* Runs that a drill could have beyond its own, under the caps. */
static int64_t
room (const Search *search, int32_t drill)
{
  int64_t most = -search->task->n_runs[drill];

  for (int32_t block = 0; block < search->k; block++)
    most += search->most[block][drill];
  return most;
}

/* The drill with the least room is dealt first: it has the fewest ways. */
static void
order_by_room (Search *search)
{
  for (int32_t i = 1; i < search->n; i++)
    for (int32_t at = i; at > 0 && room (search, search->drill[at]) < room (search, search->drill[at - 1]); at--)
      {
        int32_t drill = search->drill[at];
        search->drill[at] = search->drill[at - 1];
        search->drill[at - 1] = drill;
      }
  for (int32_t i = 0; i < search->n; i++)
    search->place[search->drill[i]] = i;
}

static double
level_units (const Search *search)
{
  double units = 0;

  for (int32_t block = 0; block < search->k; block++)
    units += search->lengths.unit[block];
  return units;
}

/* Work at which blocks with the first drills at hand are level. */
static void
know_targets (const Search *search, double ret_target[CARPACE_SPLIT_B])
{
  double all = search->lengths.work;

  for (int32_t block = 0; block < search->k; block++)
    all += 0.1 * search->dealt.first_weight[block] * (double) search->lengths.length_ms[block];
  for (int32_t block = 0; block < search->k; block++)
    ret_target[block] = all / level_units (search) * search->lengths.unit[block]
                        - 0.1 * search->dealt.first_weight[block] * (double) search->lengths.length_ms[block];
}

/* D of each block of @table, from below. */
static void
know_d (const Search *search, const double *work, const CarpaceSplitTable *table, double *ret_d)
{
  for (int32_t block = 0; block < search->k; block++)
    {
      double has = 0;
      for (int32_t drill = 0; drill < search->n; drill++)
        has += work[drill] * table->runs[block][drill];
      ret_d[block] = has / search->lengths.unit[block]
                     + (0.1 * search->dealt.first_weight[block] - search->lengths.dip) * search->lengths.multiplier[block];
    }
}

/* Whether no placement is level enough. A day is at least sum v D for each v
 * that is a mean of the orders of a, since sum a_i D_(i) is the largest of
 * them; the placement with the least of that is found exactly. The best v is
 * come by as in fictitious play: it answers the mean of the placements so far,
 * which answer it. */
static bool
never_level (const Search *search, const CarpaceSplitPlaces *places, const double *work, CarpaceSplitTable table)
{
  double d[CARPACE_SPLIT_B], mean[CARPACE_SPLIT_B] = { 0 }, v[CARPACE_SPLIT_B] = { 0 }, weight[CARPACE_SPLIT_B];

  if (!search->lengths.falling)
    return false;
  for (int32_t round = 1; round <= PLAYS; round++)
    {
      double day = 0, level = 0;
      know_d (search, work, &table, d);
      for (int32_t block = 0; block < search->k; block++)
        mean[block] += d[block];
      for (int32_t block = 0; block < search->k; block++)
        {
          int32_t rank = 0;
          for (int32_t other = 0; other < search->k; other++)
            rank += mean[other] > mean[block] || (mean[other] >= mean[block] && other < block);
          level += search->lengths.a[rank] * mean[block] / round;
          v[block] += (search->lengths.a[rank] - v[block]) / round;
          weight[block] = v[block] / search->lengths.unit[block];
          day += v[block] * (0.1 * search->dealt.first_weight[block] - search->lengths.dip) * search->lengths.multiplier[block];
        }
      if (!hopeless (search, level))
        return false; /* the mean of these placements is level enough: no v tells */
      if (hopeless (search, day + carpace_split_least_work (places, work, weight, &table)))
        return true;
    }
  return false;
}

/* Places all runs under the caps, in steps that all run lengths are multiples
 * of, as level as can be. Where all runs are equally long that is a split,
 * and compared.
 * @return false where none can be placed, or none level enough */
static bool
place (Search *search, CarpaceSplitTable *ret_table)
{
  CarpaceSplitPlaces places = { .n_drills = search->n, .n_blocks = search->k };
  double target[CARPACE_SPLIT_B], work[CARPACE_SPLIT_D];

  for (int32_t drill = 0; drill < search->n; drill++)
    {
      int32_t steps = (int32_t) (search->task->run_ms[drill] / search->step_ms);
      places.runs[drill] = search->task->n_runs[drill] * steps;
      work[drill] = search->lengths.density[drill] * (double) search->step_ms;
      for (int32_t block = 0; block < search->k; block++)
        {
          places.most[block][drill] = search->most[block][drill] * steps;
          places.least[block][drill] = search->first[block] == drill ? search->first_least[block] * steps : 0;
        }
    }
  for (int32_t block = 0; block < search->k; block++)
    places.fill[block] = (int32_t) (search->lengths.length_ms[block] / search->step_ms);
  search->steps += STEPS_A_PLACEMENT;
  if (!carpace_split_place (&places, ret_table))
    return false;
  know_targets (search, target);
  carpace_split_level (&places, work, target, ret_table);
  if (search->alike_runs)
    {
      search->table = *ret_table;
      leaf (search);
      memset (&search->table, 0, sizeof search->table);
    }
  return !never_level (search, &places, work, *ret_table);
}

/* Blocks that are not told apart have their first drill's runs in order.
 * @return false where an interval is empty */
static bool
order_alike (Search *search)
{
  for (int32_t block = 1; block < search->k; block++)
    if (search->first[block] == search->first[block - 1] && search->lengths.length_ms[block] == search->lengths.length_ms[block - 1])
      {
        if (search->first_runs[block] > search->first_runs[block - 1])
          cap (search, block, search->first_runs[block - 1]);
      }
  for (int32_t block = search->k - 1; block > 0; block--)
    if (search->first[block] == search->first[block - 1] && search->lengths.length_ms[block] == search->lengths.length_ms[block - 1]
        && search->first_least[block - 1] < search->first_least[block])
      search->first_least[block - 1] = search->first_least[block];
  for (int32_t block = 0; block < search->k; block++)
    if (search->first_least[block] > search->first_runs[block])
      return false;
  return true;
}

/* The block whose first drill is not first in @table by most, with the number
 * of its runs there; else the one with the widest interval, and its middle.
 * @return -1 where all intervals are points */
static int32_t
where_to_part (const Search *search, const CarpaceSplitTable *table, int32_t *ret_at)
{
  int32_t part = -1, widest = 0;
  double most = 1;

  for (int32_t block = 0; block < search->k; block++)
    {
      int32_t runs = table->runs[block][search->first[block]], width = search->first_runs[block] - search->first_least[block];
      double own = part_index (search, search->first[block], block, runs);
      if (width > widest && !(most > 1))
        {
          widest = width;
          part = block;
          *ret_at = search->first_least[block] + width / 2;
        }
      for (int32_t drill = 0; search->alike_runs && width > 0 && drill < search->n; drill++)
        if (table->runs[block][drill] > 0 && runs < search->first_runs[block]
            && part_index (search, drill, block, table->runs[block][drill]) > own * most)
          {
            most = part_index (search, drill, block, table->runs[block][drill]) / own;
            part = block;
            *ret_at = runs;
          }
    }
  return part;
}

static void choose_first_runs (Search *search);

/* Goes on with the runs of @block's first drill from @least to @most. */
static void
part_at (Search *search, int32_t block, int32_t least, int32_t most)
{
  int32_t first_least[CARPACE_SPLIT_B], first_runs[CARPACE_SPLIT_B];

  memcpy (first_least, search->first_least, sizeof first_least);
  memcpy (first_runs, search->first_runs, sizeof first_runs);
  search->first_least[block] = least;
  cap (search, block, most);
  if (order_alike (search))
    choose_first_runs (search);
  memcpy (search->first_least, first_least, sizeof first_least);
  for (int32_t i = 0; i < search->k; i++)
    cap (search, i, first_runs[i]);
}

/* How many runs of its first drill each block gets: between bounds that are
 * parted until no placement between them is level enough, or one is good. */
static void
choose_first_runs (Search *search)
{
  CarpaceSplitTable table;
  int32_t block, at;

  if (too_much (search) || !can_be_placed (search, 0) || !blocks_can_be_filled (search) || hopeless (search, bound (search, 0))
      || !place (search, &table) || hopeless (search, search->of_choice))
    return;
  block = where_to_part (search, &table, &at);
  if (block < 0)
    {
      order_by_room (search);
      deal_next (search, 0);
      return;
    }
  part_at (search, block, at + 1, search->first_runs[block]);
  if (!search->gave_up)
    part_at (search, block, search->first_least[block], at);
}

/* One choice of first drills, and what no split with it is under. */
typedef struct { double bound; int32_t choice; bool closed; } Choice;

typedef struct { int32_t n; Choice of[MOST_CHOICES]; } Choices;

static void
put_choice (Search *search, int32_t choice)
{
  for (int32_t block = 0; block < search->k; block++, choice /= search->n)
    {
      search->first[block] = choice % search->n;
      search->dealt.first_weight[block] = search->task->weight[search->first[block]];
    }
}

static void
collect (Search *search, Choices *choices)
{
  int32_t n = 1;

  choices->n = 0;
  for (int32_t block = 0; block < search->k; block++)
    n *= search->n;
  for (int32_t choice = 0; choice < n; choice++)
    {
      bool again = false;
      double least;
      put_choice (search, choice);
      for (int32_t block = 1; block < search->k; block++)
        again = again || (search->lengths.length_ms[block] == search->lengths.length_ms[block - 1]
                          && search->first[block] > search->first[block - 1]);
      if (again)
        continue;
      least = bound (search, 0);
      if (!hopeless (search, least))
        choices->of[choices->n++] = (Choice) { .bound = least, .choice = choice };
    }
}

static void
sift_down (Choices *choices, int32_t i, int32_t n)
{
  for (int32_t child = 2 * i + 1; child < n; child = 2 * i + 1)
    {
      Choice swap = choices->of[i];
      if (child + 1 < n && choices->of[child + 1].bound > choices->of[child].bound)
        child++;
      if (choices->of[child].bound <= swap.bound)
        return;
      choices->of[i] = choices->of[child];
      choices->of[child] = swap;
      i = child;
    }
}

static void
sort_up (Choices *choices)
{
  for (int32_t i = choices->n / 2 - 1; i >= 0; i--)
    sift_down (choices, i, choices->n);
  for (int32_t n = choices->n - 1; n > 0; n--)
    {
      Choice swap = choices->of[0];
      choices->of[0] = choices->of[n];
      choices->of[n] = swap;
      sift_down (choices, 0, n);
    }
}

static void
leave_unseen (Search *search, double least)
{
  search->unseen = fmin (search->unseen, least);
}

/* Looks at the choices from the lowest bound on; marks those that are closed. */
static void
go_through (Search *search, Choices *choices, int32_t steps, int32_t end)
{
  for (int32_t i = 0; i < choices->n && !hopeless (search, choices->of[i].bound); i++)
    {
      if (choices->of[i].closed)
        continue;
      if (search->steps >= end)
        break;
      put_choice (search, choices->of[i].choice);
      for (int32_t block = 0; block < search->k; block++)
        {
          search->first_least[block] = 1;
          cap (search, block, most_first_runs (search, block));
        }
      search->give_up_at = search->steps + steps < end ? search->steps + steps : end;
      search->gave_up = false;
      search->of_choice = choices->of[i].bound;
      choose_first_runs (search);
      choices->of[i].closed = !search->gave_up;
    }
  search->gave_up = false;
}

/* Each choice gets a few steps, those that are left more. */
static void
search_choices (Search *search)
{
  Choices choices;
  int32_t end = search->give_up_at;

  collect (search, &choices);
  sort_up (&choices);
  for (int32_t steps = STEPS_A_CHOICE; search->steps < end && steps < STEPS; steps *= 8)
    go_through (search, &choices, steps, end);
  search->give_up_at = end;
  for (int32_t i = 0; i < choices.n; i++)
    if (!choices.of[i].closed)
      leave_unseen (search, choices.of[i].bound);
}

static bool
few_choices (const Search *search)
{
  int64_t n = 1;

  for (int32_t block = 0; block < search->k && n <= MOST_CHOICES; block++)
    n *= search->n;
  return n <= MOST_CHOICES;
}

/* ---- lengths ---- */

static void
search_lengths (Search *search)
{
  double least;

  carpace_split_know_lengths (&search->lengths);
  for (int32_t block = 0; block < search->k; block++)
    {
      search->first[block] = ANY;
      search->to_fill_ms[block] = search->lengths.length_ms[block];
      search->dealt.poured[block] = 0;
      cap (search, block, 0);
    }
  least = bound (search, 0);
  if (search->root_only)
    leave_unseen (search, least);
  else if (!hopeless (search, least) && few_choices (search))
    search_choices (search);
  else if (!hopeless (search, least))
    {
      deal_next (search, 0);
      if (search->gave_up)
        leave_unseen (search, least);
    }
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

/* Every set of lengths, longest first, that adds up and is within one run.
 * @return false where they are too many */
static bool
each_lengths (Search *search, int64_t step_ms, int32_t block, int64_t to_go_ms)
{
  int64_t n = search->k - block, longest, shortest = step_ms;

  if (block == search->k)
    {
      search_lengths (search);
      return ++search->n_lengths <= MOST_LENGTHS;
    }
  longest = to_go_ms - (n - 1) * step_ms;
  if (block > 0 && search->lengths.length_ms[0] - search->task->longest_run_ms > shortest)
    shortest = search->lengths.length_ms[0] - search->task->longest_run_ms;
  if (block > 0 && longest > search->lengths.length_ms[block - 1])
    longest = search->lengths.length_ms[block - 1];
  if (block == 0 && longest > to_go_ms / n + search->task->longest_run_ms)
    longest = (to_go_ms / n + search->task->longest_run_ms) / step_ms * step_ms;
  for (int64_t ms = longest; ms >= shortest && ms * n >= to_go_ms; ms -= step_ms)
    if ((n > 1 || ms == to_go_ms) && to_go_ms - ms >= (n - 1) * shortest)
      {
        search->lengths.length_ms[block] = ms;
        if (!each_lengths (search, step_ms, block + 1, to_go_ms - ms))
          return false;
      }
  return true;
}

/* One pass over all lengths. @return what no split is under that was not
 * looked through: INFINITY where all were, 0 where lengths are too many */
static double
pass (Search *search, double slack, int32_t steps, bool root_only)
{
  search->slack = slack;
  search->steps = 0;
  search->give_up_at = steps;
  search->n_lengths = 0;
  search->gave_up = false;
  search->root_only = root_only;
  search->unseen = INFINITY;
  return each_lengths (search, search->step_ms, 0, search->task->total_ms) ? search->unseen : 0;
}

static void
set_up (Search *search, const CarpaceSplitTask *task, CarpaceSplitting *best)
{
  *search = (Search) { .task = task, .best = best, .n = task->n_drills, .k = task->n_blocks };
  carpace_split_know_task (&search->lengths, task);
  search->step_ms = common_step (task);
  search->alike_runs = search->step_ms == task->longest_run_ms;
  for (int32_t i = 0; i < search->n; i++)
    {
      int32_t at = i;
      double work = search->lengths.density[i] * (double) (task->n_runs[i] * task->run_ms[i]);
      for (; at > 0; at--)
        {
          int32_t d = search->drill[at - 1];
          if (search->lengths.density[d] * (double) (task->n_runs[d] * task->run_ms[d]) >= work)
            break;
          search->drill[at] = d;
        }
      search->drill[at] = i;
    }
  for (int32_t i = 0; i < search->n; i++)
    {
      int32_t at = i;
      search->place[search->drill[i]] = i;
      for (; at > 0 && search->lengths.density[search->dense[at - 1]] < search->lengths.density[i]; at--)
        search->dense[at] = search->dense[at - 1];
      search->dense[at] = i;
    }
}

double
carpace_split_search (const CarpaceSplitTask *task, CarpaceSplitting *best)
{
  Search search;
  double least, unseen;

  set_up (&search, task, best);
  if (search.k > CARPACE_SPLIT_SEARCHED)
    return fmin (carpace_split_coarse_bound (&search.lengths), best->index);
  least = pass (&search, 0, STEPS, true);
  if (!(least > 0))
    return fmin (carpace_split_coarse_bound (&search.lengths), best->index);
  unseen = pass (&search, CARPACE_SPLIT_SAME / 2, STEPS, false);
  least = fmax (least, fmin (unseen, best->index * (1 - CARPACE_SPLIT_SAME / 2)));
  if (search.steps < STEPS / 4)
    least = fmax (least, fmin (pass (&search, 0, STEPS / 4, false), best->index));
  return fmin (least, best->index);
}
