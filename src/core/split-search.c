/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-search.c: branch and bound over whole runs. Lengths are chosen first:
 * where all runs are equally long they follow from the number of runs; else
 * every set of lengths within one run is tried, if they are few. What of it
 * is left unseen, when the steps are used up, is told by its bound. */
#include "split-search.h"

#include <math.h>
#include <string.h>

/* Steps of the whole search, each a drill dealt to a block. */
#define STEPS 450000
/* Sets of lengths, at most, for a search at all. */
#define MOST_LENGTHS 400
#define MOST_PREFIXES 50000

typedef CarpaceSplitSearch Search;

static void
search_lengths (Search *search)
{
  double least;

  carpace_split_know_lengths (&search->lengths);
  for (int32_t block = 0; block < search->k; block++)
    {
      search->first[block] = CARPACE_SPLIT_ANY;
      search->to_fill_ms[block] = search->lengths.length_ms[block];
      search->dealt.poured[block] = 0;
      carpace_split_cap (search, block, 0);
    }
  least = carpace_split_node_bound (search, 0);
  if (search->root_only)
    carpace_split_leave_unseen (search, least);
  else if (search->steps >= search->give_up_at)
    carpace_split_leave_unseen (search, least);
  else if (!carpace_split_hopeless (search, least) && carpace_split_few_choices (search))
    carpace_split_search_choices (search);
  else if (!carpace_split_hopeless (search, least))
    {
      carpace_split_deal_next (search, 0);
      if (search->gave_up)
        carpace_split_leave_unseen (search, least);
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

/* Whether lengths within one run, in common steps, are few enough to try. */
static bool
few_lengths (const Search *search)
{
  double each = (double) (search->task->longest_run_ms / search->step_ms), all = 1;

  for (int32_t block = 1; block < search->k; block++)
    all *= each;
  return all <= MOST_PREFIXES;
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
  if (!few_lengths (search))
    return 0;
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
  int32_t steps = task->n_drills > 10 ? STEPS * 10 / task->n_drills : STEPS;

  set_up (&search, task, best);
  if (search.k > CARPACE_SPLIT_SEARCHED)
    return fmin (carpace_split_coarse_bound (&search.lengths), best->index);
  least = pass (&search, 0, steps, true);
  if (!(least > 0))
    return fmin (carpace_split_coarse_bound (&search.lengths), best->index);
  unseen = pass (&search, CARPACE_SPLIT_SAME / 2, steps, false);
  least = fmax (least, fmin (unseen, best->index * (1 - CARPACE_SPLIT_SAME / 2)));
  if (search.steps < steps / 4)
    least = fmax (least, fmin (pass (&search, 0, steps / 4, false), best->index));
  return fmin (least, best->index);
}
