/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-firsts.c: which drill comes first in each block (split-bound.h says why
 * that matters), the choice with the lowest bound first, and how many runs of it
 * the block gets: that caps the runs of all others there, and most choices fall
 * because runs have no place left under the caps, or none that is level. */
#include "split-search.h"
#include "split-place.h"

#include <math.h>
#include <string.h>

/* Steps of a choice at first, and the last it can get. */
#define STEPS_A_CHOICE 4000
#define MOST_STEPS_A_CHOICE 400000
/* Choices, at most. */
#define MOST_CHOICES 10000
/* What a placement counts for. */
#define STEPS_A_PLACEMENT 300
#define STEPS_A_BOUND 4
#define PLAYS 12

typedef CarpaceSplitSearch Search;

/* Runs of each drill that @block can have with its first drill at @first_runs. */
void
carpace_split_cap (Search *search, int32_t block, int32_t first_runs)
{
  int32_t first = search->first[block];
  double highest = first == CARPACE_SPLIT_ANY ? INFINITY : carpace_split_part_index (search, first, block, first_runs);

  for (int32_t drill = 0; drill < search->n; drill++)
    {
      int64_t fit = search->lengths.length_ms[block] / search->task->run_ms[drill], all = search->task->n_runs[drill];
      int64_t low = 0, high = fit < all ? fit : all;
      while (low < high)
        {
          int64_t middle = (low + high + 1) / 2;
          if (carpace_split_part_index (search, drill, block, middle) <= highest)
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
      if (!carpace_split_hopeless (search, level))
        return false; /* the mean of these placements is level enough: no v tells */
      if (carpace_split_hopeless (search, day + carpace_split_least_work (places, work, weight, &table)))
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
      carpace_split_leaf (search);
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
          carpace_split_cap (search, block, search->first_runs[block - 1]);
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
      double own = carpace_split_part_index (search, search->first[block], block, runs);
      if (width > widest && !(most > 1))
        {
          widest = width;
          part = block;
          *ret_at = search->first_least[block] + width / 2;
        }
      for (int32_t drill = 0; search->alike_runs && width > 0 && drill < search->n; drill++)
        if (table->runs[block][drill] > 0 && runs < search->first_runs[block]
            && carpace_split_part_index (search, drill, block, table->runs[block][drill]) > own * most)
          {
            most = carpace_split_part_index (search, drill, block, table->runs[block][drill]) / own;
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
  carpace_split_cap (search, block, most);
  if (order_alike (search))
    choose_first_runs (search);
  memcpy (search->first_least, first_least, sizeof first_least);
  for (int32_t i = 0; i < search->k; i++)
    carpace_split_cap (search, i, first_runs[i]);
}

/* How many runs of its first drill each block gets: between bounds that are
 * parted until no placement between them is level enough, or one is good. */
static void
choose_first_runs (Search *search)
{
  CarpaceSplitTable table;
  int32_t block, at;

  if (carpace_split_too_much (search) || !carpace_split_can_be_placed (search, 0) || !blocks_can_be_filled (search) || carpace_split_hopeless (search, carpace_split_node_bound (search, 0))
      || !place (search, &table) || carpace_split_hopeless (search, search->of_choice))
    return;
  block = where_to_part (search, &table, &at);
  if (block < 0)
    {
      order_by_room (search);
      carpace_split_deal_next (search, 0);
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
  search->steps += n * STEPS_A_BOUND;
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
      least = carpace_split_node_bound (search, 0);
      if (!carpace_split_hopeless (search, least))
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

void
carpace_split_leave_unseen (Search *search, double least)
{
  search->unseen = fmin (search->unseen, least);
}

/* Looks at the choices from the lowest bound on; marks those that are closed. */
static void
go_through (Search *search, Choices *choices, int32_t steps, int32_t end)
{
  for (int32_t i = 0; i < choices->n && !carpace_split_hopeless (search, choices->of[i].bound); i++)
    {
      if (choices->of[i].closed)
        continue;
      if (search->steps >= end)
        break;
      put_choice (search, choices->of[i].choice);
      for (int32_t block = 0; block < search->k; block++)
        {
          search->first_least[block] = 1;
          carpace_split_cap (search, block, most_first_runs (search, block));
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
void
carpace_split_search_choices (Search *search)
{
  Choices choices;
  int32_t end = search->give_up_at;

  collect (search, &choices);
  sort_up (&choices);
  for (int32_t steps = STEPS_A_CHOICE; search->steps < end && steps < MOST_STEPS_A_CHOICE; steps *= 8)
    go_through (search, &choices, steps, end);
  search->give_up_at = end;
  for (int32_t i = 0; i < choices.n; i++)
    if (!choices.of[i].closed)
      carpace_split_leave_unseen (search, choices.of[i].bound);
}

bool
carpace_split_few_choices (const Search *search)
{
  int64_t n = 1;

  for (int32_t block = 0; block < search->k && n <= MOST_CHOICES; block++)
    n *= search->n;
  return n <= MOST_CHOICES;
}
