/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split.c: from drills and their time to runs, the steps of the search, and the
 * blocks written out. */
#include "private.h"

#include <math.h>
#include <string.h>

#define RUN_DEFAULT_MS CARPACE_MINUTE_MS
/* What is spent at most: by the whole search, and by what comes before its last
 * look through all that is better; on the order while ties are told apart, and in
 * all (where that is nothing, as the drills are listed: one walk through the day). */
#define MOST_SEARCH 55000000
#define MOST_BEFORE_LAST 45000000
#define MOST_ORDER_OF_TIES 8000000
#define MOST_ORDER 16000000
/* Exchanges tried before every split is looked at. */
#define FIRST_TRIES 20000
/* A bound so near ends the search: a third of a percent. */
#define NEAR 3e-3

/* Time asked of each drill: its own, or an equal share of what the dose leaves. */
static void
times_asked (const CarpacePlan *plan, int64_t ret_ms[CARPACE_SPLIT_D])
{
  int64_t to_go_ms = plan->dose_ms, n_equal = 0, nth = 0;

  for (int32_t i = 0; i < plan->n_drills; i++)
    {
      n_equal += plan->drills[i].time_ms == 0;
      to_go_ms -= plan->drills[i].time_ms;
    }
  if (to_go_ms < 0)
    to_go_ms = 0;
  for (int32_t i = 0; i < plan->n_drills; i++)
    ret_ms[i] = plan->drills[i].time_ms > 0 ? plan->drills[i].time_ms
                                            : to_go_ms / n_equal + (nth++ < to_go_ms % n_equal);
}

static int64_t
run_in (const CarpaceDrill *drill, int64_t asked_ms)
{
  if (drill->run_ms > 0)
    return drill->run_ms;
  return asked_ms > 0 && asked_ms < RUN_DEFAULT_MS ? asked_ms : RUN_DEFAULT_MS;
}

int64_t
carpace_split_run_ms (const CarpacePlan *plan, int32_t drill)
{
  int64_t asked_ms[CARPACE_SPLIT_D];

  times_asked (plan, asked_ms);
  return run_in (&plan->drills[drill], asked_ms[drill]);
}

/* Whole runs of each drill, one at least: down, and then one more for those
 * that lost most, as long as the sum of times asked is not passed. */
static void
count_runs (CarpaceSplitTask *task, const int64_t asked_ms[CARPACE_SPLIT_D])
{
  int64_t to_go_ms = 0;

  for (int32_t i = 0; i < task->n_drills; i++)
    {
      int64_t run_ms = run_in (&task->plan->drills[i], asked_ms[i]);
      task->run_ms[i] = run_ms;
      task->n_runs[i] = asked_ms[i] >= run_ms ? (int32_t) (asked_ms[i] / run_ms) : 1;
      to_go_ms += asked_ms[i] - task->n_runs[i] * run_ms;
    }
  for (;;)
    {
      int32_t most = -1;
      for (int32_t i = 0; i < task->n_drills; i++)
        {
          int64_t lost_ms = asked_ms[i] - task->n_runs[i] * task->run_ms[i];
          if (lost_ms > 0 && task->run_ms[i] <= to_go_ms
              && (most < 0 || lost_ms > asked_ms[most] - task->n_runs[most] * task->run_ms[most]))
            most = i;
        }
      if (most < 0)
        break;
      task->n_runs[most]++;
      to_go_ms -= task->run_ms[most];
    }
}

/* The strain multipliers that do not depend on the split. */
static void
weigh (CarpaceSplitTask *task, int32_t drill)
{
  const CarpaceDrill *of = &task->plan->drills[drill];
  CarpaceStrainTask alone = { .intensity = of->intensity_pct_mvc / 100, .efforts_per_min = of->efforts_per_min,
                              .effort_lasts_s = of->effort_lasts_s, .bend = of->bend, .bend_deg = of->bend_deg, .hours = 1 };
  CarpaceStrain strain = { 0 };

  carpace_strain_task (&alone, &strain);
  task->weight[drill] = strain.im * strain.dm * strain.pm;
  task->efforts[drill] = of->efforts_per_min;
  task->prime[drill] = carpace_muscles_prime (of->movement, task->plan->grip, task->plan->side);
}

bool
carpace_split_task (CarpaceSplitTask *task, const CarpacePlan *plan, int32_t into)
{
  int64_t asked_ms[CARPACE_SPLIT_D], n_runs = 0;

  task->plan = plan;
  task->work = NULL;
  task->n_drills = plan->n_drills;
  task->n_blocks = into;
  task->total_ms = task->longest_run_ms = 0;
  times_asked (plan, asked_ms);
  count_runs (task, asked_ms);
  for (int32_t i = 0; i < task->n_drills; i++)
    {
      weigh (task, i);
      n_runs += task->n_runs[i];
      task->total_ms += task->n_runs[i] * task->run_ms[i];
      if (task->run_ms[i] > task->longest_run_ms)
        task->longest_run_ms = task->run_ms[i];
    }
  return n_runs >= into;
}

int64_t
carpace_split_even_ms (const CarpacePlan *plan, int32_t into)
{
  CarpaceSplitTask task;

  return carpace_split_task (&task, plan, into) ? task.total_ms / into : 0;
}

/* Every block the same whole number of each drill's runs; those over, longest
 * run first, each to the block that is shortest: so lengths differ by the
 * longest run at most. */
static void
first_table (const CarpaceSplitTask *task, CarpaceSplitTable *table)
{
  int64_t length_ms[CARPACE_SPLIT_B] = { 0 };
  int32_t over[CARPACE_SPLIT_D];

  for (int32_t i = 0; i < task->n_drills; i++)
    {
      over[i] = task->n_runs[i] % task->n_blocks;
      for (int32_t block = 0; block < task->n_blocks; block++)
        table->runs[block][i] = task->n_runs[i] / task->n_blocks;
    }
  for (;;)
    {
      int32_t next = -1, shortest = 0;
      for (int32_t i = 0; i < task->n_drills; i++)
        if (over[i] > 0 && (next < 0 || task->run_ms[i] > task->run_ms[next]))
          next = i;
      if (next < 0)
        return;
      for (int32_t block = 1; block < task->n_blocks; block++)
        if (length_ms[block] < length_ms[shortest])
          shortest = block;
      table->runs[shortest][next]++;
      length_ms[shortest] += task->run_ms[next];
      over[next]--;
    }
}

/* A good split of a day too large to look at every one, in ever longer searches
 * until the bound is near. Where it is not, those are looked at that are better
 * by what counts. @return the bound */
static double
search (const CarpaceSplitTask *task, CarpaceSplitting *best)
{
  static const int32_t tries[] = { 60000, 200000, 400000 };
  double bound = 0;

  for (size_t i = 0; i < sizeof tries / sizeof tries[0] && bound < best->index * (1 - NEAR); i++)
    {
      carpace_split_cool (task, tries[i], best);
      bound = carpace_split_bound (task, best->index, bound);
    }
  task->work->most_search = MOST_SEARCH;
  if (bound < best->index * (1 - CARPACE_SPLIT_SAME) && carpace_split_every (task, CARPACE_SPLIT_SAME, best))
    bound = best->index * (1 - CARPACE_SPLIT_SAME);
  return fmin (bound, best->index);
}

static void
write_block (const CarpaceSplitTask *task, const CarpaceSplitting *found, int32_t block, CarpaceBlock *ret_block)
{
  const int32_t *runs = found->table.runs[block];
  int32_t share[CARPACE_SPLIT_D];

  memset (ret_block, 0, sizeof *ret_block);
  ret_block->limit_ms = carpace_split_length_ms (task, runs);
  carpace_split_shares (task, runs, ret_block->limit_ms, share);
  for (int32_t i = 0; i < task->n_drills && runs[found->order[block][i]] > 0; i++)
    {
      int32_t drill = found->order[block][i];
      ret_block->parts[ret_block->n_parts++] = (CarpaceBlockPart) { .drill = drill, .share = share[drill] };
    }
}

bool
carpace_split (CarpacePlan *plan, int32_t into, CarpaceSplitFound *ret_found)
{
  CarpaceSplitWork work = { .most_search = MOST_BEFORE_LAST, .most_order = MOST_ORDER_OF_TIES };
  CarpaceSplitTask task;
  CarpaceSplitting best;
  bool ordered;

  if (into < 1 || into > CARPACE_PLAN_BLOCKS || plan->n_drills < 1 || !carpace_split_task (&task, plan, into))
    return false;
  task.work = &work;
  first_table (&task, &best.table);
  best.index = carpace_split_index (&task, &best.table);
  carpace_split_cool (&task, FIRST_TRIES, &best);
  ret_found->exact = carpace_split_every (&task, 0, &best);
  ordered = ret_found->exact && work.order < work.most_order;
  ret_found->bound = ret_found->exact ? best.index : search (&task, &best);
  work.most_order = MOST_ORDER;
  if (!ordered)
    {
      carpace_split_order (&task, &best);
      carpace_split_ease (&task, &best);
      ret_found->bound = fmin (ret_found->bound, best.index);
    }
  ret_found->work = work.search + work.order;
  ret_found->highest_index = best.index;
  ret_found->lowest_reserve = best.lowest;
  ret_found->proven = ret_found->bound >= best.index * (1 - CARPACE_SPLIT_SAME);
  plan->n_blocks = into;
  for (int32_t block = 0; block < into; block++)
    write_block (&task, &best, block, &plan->blocks[block]);
  return true;
}
