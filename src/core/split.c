/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split.c: from drills and their time to runs, a first table made better run by
 * run, and the blocks written out. The search that proves is in split-search.c,
 * how drills follow one another in split-order.c. */
#include "split-private.h"

#include <math.h>
#include <string.h>

#include "carpace/dose.h"

#define RUN_DEFAULT_MS CARPACE_MINUTE_MS
/* Tables looked at before the search, at most. */
#define TRIES 30000
/* What an exchange may make the day harder by, on average, at first and at last. */
#define WARMEST 3e-3
#define COLDEST 1e-5

int64_t
carpace_split_length_ms (const CarpaceSplitTask *task, const CarpaceSplitTable *table, int32_t block)
{
  int64_t length_ms = 0;

  for (int32_t drill = 0; drill < task->n_drills; drill++)
    length_ms += table->runs[block][drill] * task->run_ms[drill];
  return length_ms;
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

/* A drill's part in a block. */
typedef struct { double index, efforts, weight; } Part;

static void
insert_sorted (Part *parts, int32_t n, Part part)
{
  for (; n > 0; n--)
    {
      const Part *before = &parts[n - 1];
      if (before->index > part.index || (before->index >= part.index && before->efforts <= part.efforts))
        break;
      parts[n] = *before;
    }
  parts[n] = part;
}

double
carpace_split_rate (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], int64_t length_ms)
{
  Part parts[CARPACE_SPLIT_D];
  double efforts = 0, before = 0, rate = 0;
  int32_t n = 0, share[CARPACE_SPLIT_D];

  carpace_split_shares (task, runs, length_ms, share);
  for (int32_t drill = 0; drill < task->n_drills; drill++)
    if (runs[drill] > 0)
      {
        Part part = { .weight = task->weight[drill] };
        part.efforts = task->efforts[drill] * share[drill] / CARPACE_WHOLE;
        part.index = part.weight * carpace_strain_efforts (part.efforts);
        insert_sorted (parts, n++, part);
      }
  for (int32_t i = 0; i < n; i++)
    {
      double up_to;
      efforts += parts[i].efforts;
      up_to = carpace_strain_efforts (efforts);
      rate += parts[i].weight * (up_to - before);
      before = up_to;
    }
  return rate;
}

static double
hours (int64_t ms)
{
  return (double) ms / (double) CARPACE_HOUR_MS;
}

double
carpace_split_index_of (int32_t n_blocks, const double *rate, const int64_t *length_ms)
{
  double index[CARPACE_SPLIT_B], of_hours[CARPACE_SPLIT_B], day = INFINITY;

  for (int32_t i = 0; i < n_blocks; i++)
    {
      of_hours[i] = hours (length_ms[i]);
      index[i] = rate[i] * carpace_strain_hours (of_hours[i]);
    }
  carpace_strain_day (index, of_hours, (size_t) n_blocks, &day);
  return day;
}

double
carpace_split_index (const CarpaceSplitTask *task, const CarpaceSplitTable *table)
{
  double rate[CARPACE_SPLIT_B];
  int64_t length_ms[CARPACE_SPLIT_B];

  for (int32_t block = 0; block < task->n_blocks; block++)
    {
      length_ms[block] = carpace_split_length_ms (task, table, block);
      rate[block] = carpace_split_rate (task, table->runs[block], length_ms[block]);
    }
  return carpace_split_index_of (task->n_blocks, rate, length_ms);
}

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
  bool had[CARPACE_SPLIT_D] = { false };

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
          if (!had[i] && lost_ms > 0 && task->run_ms[i] <= to_go_ms
              && (most < 0 || lost_ms > asked_ms[most] - task->n_runs[most] * task->run_ms[most]))
            most = i;
        }
      if (most < 0)
        break;
      had[most] = true;
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
}

static bool
set_up (CarpaceSplitTask *task, const CarpacePlan *plan, int32_t into)
{
  int64_t asked_ms[CARPACE_SPLIT_D], n_runs = 0;

  task->plan = plan;
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

/* Every block the same whole number of each drill's runs; those over, longest
 * run first, each to the block that is shortest: so lengths differ by the
 * longest run at most. */
static void
first_table (const CarpaceSplitTask *task, CarpaceSplitTable *table)
{
  int64_t length_ms[CARPACE_SPLIT_B] = { 0 };
  int32_t over[CARPACE_SPLIT_D];

  memset (table, 0, sizeof *table);
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

/* A table under improvement, with what each block of it comes to. */
typedef struct
{
  const CarpaceSplitTask *task;
  CarpaceSplitTable *table;
  int64_t length_ms[CARPACE_SPLIT_B];
  double rate[CARPACE_SPLIT_B];
  double index, allowed; /* of the day; what an exchange may make it */
  int32_t tries;
} Climb;

static bool
lengths_allowed (const Climb *climb)
{
  int64_t shortest = INT64_MAX, longest = 0;

  for (int32_t i = 0; i < climb->task->n_blocks; i++)
    {
      if (climb->length_ms[i] < shortest)
        shortest = climb->length_ms[i];
      if (climb->length_ms[i] > longest)
        longest = climb->length_ms[i];
    }
  return shortest > 0 && longest - shortest <= climb->task->longest_run_ms;
}

static void
shift (Climb *climb, int32_t from, int32_t to, int32_t drill, int32_t runs)
{
  climb->table->runs[from][drill] -= runs;
  climb->table->runs[to][drill] += runs;
  climb->length_ms[from] -= runs * climb->task->run_ms[drill];
  climb->length_ms[to] += runs * climb->task->run_ms[drill];
}

/* Gives a run of @drill from @a to @b, and one of @back (-1: none) the other
 * way; keeps that where the day gets easier. */
static bool
try_exchange (Climb *climb, int32_t a, int32_t b, int32_t drill, int32_t back)
{
  double rate_a = climb->rate[a], rate_b = climb->rate[b], index;

  climb->tries++;
  shift (climb, a, b, drill, 1);
  if (back >= 0)
    shift (climb, b, a, back, 1);
  if (lengths_allowed (climb))
    {
      climb->rate[a] = carpace_split_rate (climb->task, climb->table->runs[a], climb->length_ms[a]);
      climb->rate[b] = carpace_split_rate (climb->task, climb->table->runs[b], climb->length_ms[b]);
      index = carpace_split_index_of (climb->task->n_blocks, climb->rate, climb->length_ms);
      if (index < climb->allowed)
        {
          climb->index = index;
          return true;
        }
      climb->rate[a] = rate_a;
      climb->rate[b] = rate_b;
    }
  shift (climb, b, a, drill, 1);
  if (back >= 0)
    shift (climb, a, b, back, 1);
  return false;
}

static bool
exchange_any (Climb *climb, int32_t a, int32_t b)
{
  bool better = false;

  for (int32_t drill = 0; drill < climb->task->n_drills; drill++)
    for (int32_t back = -1; back < climb->task->n_drills && climb->tries < TRIES; back++)
      if (back != drill && climb->table->runs[a][drill] > 0 && (back < 0 || climb->table->runs[b][back] > 0)
          && (climb->allowed = climb->index * (1 - 1e-12)) > 0)
        better |= try_exchange (climb, a, b, drill, back);
  return better;
}

static void
begin_climb (Climb *climb)
{
  for (int32_t i = 0; i < climb->task->n_blocks; i++)
    {
      climb->length_ms[i] = carpace_split_length_ms (climb->task, climb->table, i);
      climb->rate[i] = carpace_split_rate (climb->task, climb->table->runs[i], climb->length_ms[i]);
    }
  climb->index = carpace_split_index_of (climb->task->n_blocks, climb->rate, climb->length_ms);
}

static void
climb_down (const CarpaceSplitTask *task, CarpaceSplitTable *table, double *ret_index)
{
  Climb climb = { .task = task, .table = table };
  bool better = true;

  begin_climb (&climb);
  while (better && climb.tries < TRIES)
    {
      better = false;
      for (int32_t a = 0; a < task->n_blocks; a++)
        for (int32_t b = 0; b < task->n_blocks; b++)
          if (a != b)
            better |= exchange_any (&climb, a, b);
    }
  *ret_index = carpace_split_index (task, table);
}

/* A deterministic sequence: xorshift64 (Marsaglia 2003, J Stat Softw 8:14). */
static uint32_t
next_random (uint64_t *state, uint32_t under)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (uint32_t) ((*state >> 32) % under);
}

/* Exchanges runs at random, at first also where the day gets a little harder,
 * later ever less so: gets past where single exchanges end. */
static void
cool_down (const CarpaceSplitTask *task, CarpaceSplitTable *table, double *index)
{
  CarpaceSplitTable now = *table;
  Climb climb = { .task = task, .table = &now };
  uint64_t random = UINT64_C (88172645463325252);
  int32_t tries = TRIES / (1 + task->n_drills / 16), k = task->n_blocks;

  begin_climb (&climb);
  for (int32_t i = 0; k > 1 && i < tries; i++)
    {
      int32_t a = (int32_t) next_random (&random, (uint32_t) k), b = (int32_t) next_random (&random, (uint32_t) k - 1);
      int32_t drill = (int32_t) next_random (&random, (uint32_t) task->n_drills);
      int32_t back = (int32_t) next_random (&random, (uint32_t) task->n_drills + 1) - 1;
      double warmth = WARMEST * pow (COLDEST / WARMEST, (double) i / tries);

      b += b >= a;
      if (back == drill || now.runs[a][drill] == 0 || (back >= 0 && now.runs[b][back] == 0))
        continue;
      climb.allowed = climb.index * (1 + warmth * -log ((next_random (&random, 65536) + 1) / 65536.0));
      if (try_exchange (&climb, a, b, drill, back) && climb.index < *index)
        {
          *table = now;
          *index = climb.index;
        }
    }
}

static void
write_block (const CarpaceSplitTask *task, const CarpaceSplitting *found, int32_t block, CarpaceBlock *ret_block)
{
  const int32_t *runs = found->table.runs[block];
  int32_t share[CARPACE_SPLIT_D];

  memset (ret_block, 0, sizeof *ret_block);
  ret_block->limit_ms = carpace_split_length_ms (task, &found->table, block);
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
  CarpaceSplitTask task;
  CarpaceSplitting best;

  if (into < 1 || into > CARPACE_PLAN_BLOCKS || plan->n_drills < 1 || !set_up (&task, plan, into))
    return false;
  first_table (&task, &best.table);
  climb_down (&task, &best.table, &best.index);
  cool_down (&task, &best.table, &best.index);
  climb_down (&task, &best.table, &best.index);
  carpace_split_order (&task, &best);
  ret_found->bound = carpace_split_search (&task, &best);
  ret_found->day_index = best.index;
  ret_found->lowest_reserve = best.lowest;
  ret_found->proven = ret_found->bound >= best.index * (1 - CARPACE_SPLIT_SAME);
  plan->n_blocks = into;
  for (int32_t block = 0; block < into; block++)
    write_block (&task, &best, block, &plan->blocks[block]);
  return true;
}
