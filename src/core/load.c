/* SPDX-License-Identifier: GPL-3.0-or-later */
/* load.c: a plan's parts, blocks and day through the models; what would ease it. */
#include "carpace/load.h"

#include <math.h>

#include "carpace/dose.h"
#include "carpace/plan-keys.h"
#include "carpace/plan-rail.h"
#include "load-eases.h"

#define SHORTER 9000 /* hundredths of a percent: a tenth shorter */
#define MOVED 1000   /* a tenth of a block */
#define AFTER_STEP_MS (5 * CARPACE_SECOND_MS)

void
carpace_load_groups (const CarpacePlan *plan, int32_t drill, double ret_load[CARPACE_N_GROUPS])
{
  const CarpaceDrill *of = &plan->drills[drill];

  carpace_muscles_shares (of->movement, plan->grip, plan->side, ret_load);
  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    ret_load[group] *= of->intensity_pct_mvc / 100;
}

static CarpaceStrainTask
task_of (const CarpacePlan *plan, const CarpaceBlock *block, int32_t part)
{
  const CarpaceDrill *drill = &plan->drills[block->parts[part].drill];

  return (CarpaceStrainTask) {
    .intensity = drill->intensity_pct_mvc / 100,
    .efforts_per_min = drill->efforts_per_min * block->parts[part].share / CARPACE_WHOLE,
    .effort_lasts_s = drill->effort_lasts_s,
    .bend = drill->bend,
    .bend_deg = drill->bend_deg,
    .hours = (double) block->limit_ms / (double) CARPACE_HOUR_MS,
  };
}

static CarpaceStrain
strain_of (const CarpacePlan *plan, const CarpaceBlock *block, int32_t part)
{
  CarpaceStrainTask task = task_of (plan, block, part);
  CarpaceStrain strain = { .index = NAN };

  carpace_strain_task (&task, &strain);
  return strain;
}

void
carpace_load_part (const CarpacePlan *plan, int32_t block, int32_t part, CarpaceDrillLoad *ret_load)
{
  ret_load->block = block;
  ret_load->drill = plan->blocks[block].parts[part].drill;
  ret_load->strain = strain_of (plan, &plan->blocks[block], part);
}

static double
index_of (const CarpacePlan *plan, const CarpaceBlock *block)
{
  CarpaceStrainTask tasks[CARPACE_PLAN_DRILLS];
  double index = NAN;

  for (int32_t part = 0; part < block->n_parts; part++)
    tasks[part] = task_of (plan, block, part);
  carpace_strain_block (tasks, (size_t) block->n_parts, &index);
  return index;
}

/* Active time at which the next rest is due, CARPACE_NEVER where none is. */
static int64_t
next_rest (int64_t last_ms, int64_t after_ms, int64_t limit_ms)
{
  int64_t due_ms = last_ms + after_ms;

  return after_ms > 0 && 3 * (limit_ms - due_ms) >= after_ms ? due_ms : CARPACE_NEVER;
}

/* A block on its way. */
typedef struct
{
  int64_t active_ms, elapsed_ms;
  CarpaceStretchVisitor visit;
  void *user;
} Way;

static void
go (Way *way, int32_t part, int64_t ms)
{
  CarpaceStretch stretch = { .part = part, .from_ms = way->elapsed_ms, .to_ms = way->elapsed_ms + ms, .active_ms = way->active_ms };

  if (ms <= 0)
    return;
  way->visit (way->user, &stretch);
  way->elapsed_ms += ms;
  if (part >= 0)
    way->active_ms += ms;
}

void
carpace_load_stretches (const CarpacePlan *plan, const CarpaceBlock *block, CarpaceStretchVisitor visit, void *user)
{
  Way way = { .visit = visit, .user = user };
  int64_t most_ms = block->limit_ms * 2 / 3, after_ms = plan->after_ms < most_ms ? plan->after_ms : most_ms;
  int64_t rest_ms = next_rest (0, after_ms, block->limit_ms);
  int32_t shares = 0;

  for (int32_t part = 0; part < block->n_parts; part++)
    {
      int64_t end_ms;

      shares += block->parts[part].share;
      end_ms = part + 1 < block->n_parts ? carpace_share_down_ms (block->limit_ms, shares, 1) : block->limit_ms;
      for (; rest_ms <= end_ms; rest_ms = next_rest (rest_ms, after_ms, block->limit_ms))
        {
          go (&way, part, rest_ms - way.active_ms);
          go (&way, -1, plan->rest_ms);
        }
      go (&way, part, end_ms - way.active_ms);
    }
}

/* A block as its muscles go through it. */
typedef struct
{
  const CarpacePlan *plan;
  const CarpaceBlock *block;
  CarpaceReserveState reserve;
  int32_t part;                    /* whose load is worked out; -1: none */
  double load[CARPACE_N_GROUPS];
  CarpaceBlockLoad *lowest;
} Walk;

static const double *
load_of_part (Walk *walk, int32_t part)
{
  if (walk->part != part)
    carpace_load_groups (walk->plan, walk->block->parts[part].drill, walk->load);
  walk->part = part;
  return walk->load;
}

/* Within one load each group only rises or only falls: its extremes are at the
 * ends of the pieces. */
static void
walk_on (void *user, const CarpaceStretch *stretch)
{
  Walk *walk = user;
  CarpaceGroup group;
  double lowest;

  if (stretch->part < 0)
    {
      carpace_reserve_rest (&walk->reserve, stretch->to_ms - stretch->from_ms);
      return;
    }
  carpace_reserve_work (&walk->reserve, load_of_part (walk, stretch->part), stretch->to_ms - stretch->from_ms);
  lowest = carpace_reserve_lowest (&walk->reserve, &group);
  if (lowest < walk->lowest->lowest_reserve)
    {
      walk->lowest->lowest_reserve = lowest;
      walk->lowest->group = group;
      walk->lowest->at_ms = stretch->to_ms;
    }
}

void
carpace_load_reserve (const CarpacePlan *plan, const CarpaceBlock *block, CarpaceBlockLoad *ret_load)
{
  Walk walk = { .plan = plan, .block = block, .part = -1, .lowest = ret_load }; /* rested */

  ret_load->lowest_reserve = 2; /* above any: the first piece sets it */
  carpace_load_stretches (plan, block, walk_on, &walk);
}

static void
load_of (const CarpacePlan *plan, const CarpaceBlock *block, CarpaceBlockLoad *ret_load)
{
  ret_load->strain_index = index_of (plan, block);
  carpace_load_reserve (plan, block, ret_load);
}

void
carpace_load_block (const CarpacePlan *plan, int32_t block, CarpaceBlockLoad *ret_load)
{
  load_of (plan, &plan->blocks[block], ret_load);
}

/* A day as its blocks' loads and hours. */
typedef struct
{
  CarpaceBlockLoad load[CARPACE_PLAN_BLOCKS];
  double hours[CARPACE_PLAN_BLOCKS];
} Day;

static double
index_of_day (const Day *day, int32_t n_blocks)
{
  double index[CARPACE_PLAN_BLOCKS], sum = NAN;

  for (int32_t i = 0; i < n_blocks; i++)
    index[i] = day->load[i].strain_index;
  carpace_strain_day (index, day->hours, (size_t) n_blocks, &sum);
  return sum;
}

static double
lowest_of_day (const Day *day, int32_t n_blocks)
{
  double lowest = 1;

  for (int32_t i = 0; i < n_blocks; i++)
    lowest = fmin (lowest, day->load[i].lowest_reserve);
  return lowest;
}

static void
put_block (Day *day, const CarpacePlan *plan, int32_t i, const CarpaceBlock *block)
{
  load_of (plan, block, &day->load[i]);
  day->hours[i] = (double) block->limit_ms / (double) CARPACE_HOUR_MS;
}

double
carpace_load_day (const CarpacePlan *plan)
{
  Day day;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      day.load[i].strain_index = index_of (plan, &plan->blocks[i]);
      day.hours[i] = (double) plan->blocks[i].limit_ms / (double) CARPACE_HOUR_MS;
    }
  return index_of_day (&day, plan->n_blocks);
}

/* What is being looked for: the best change yet, against the day as it is. */
typedef struct
{
  const CarpacePlan *plan;
  Day day;
  double index, fatigued;
  CarpaceEase best;
} Search;

/* Differences under this are rounding. */
#define NOTHING 1e-12

static double
relative_fall (double from, double to)
{
  return from > 0 && to < from ? 1 - to / from : 0;
}

static void
consider (Search *search, const Day *day, CarpaceEaseKind kind, int32_t block, int32_t drill)
{
  CarpaceEase ease = { .kind = kind, .block = block, .drill = drill };

  ease.day_index = index_of_day (day, search->plan->n_blocks);
  ease.lowest_reserve = lowest_of_day (day, search->plan->n_blocks);
  ease.effect = fmax (relative_fall (search->index, ease.day_index),
                      relative_fall (search->fatigued, 1 - ease.lowest_reserve));
  if (ease.effect > search->best.effect + NOTHING)
    search->best = ease;
}

static void
consider_block (Search *search, const CarpaceBlock *changed, CarpaceEaseKind kind, int32_t block, int32_t drill)
{
  CarpaceBlockLoad load = search->day.load[block];
  double hours = search->day.hours[block];

  put_block (&search->day, search->plan, block, changed);
  consider (search, &search->day, kind, block, drill);
  search->day.load[block] = load;
  search->day.hours[block] = hours;
}

/* What a person would set, downwards, to the careful side; what is under a step stays as it is. */
static int64_t
set_down_ms (int64_t ms, int64_t step_ms)
{
  return ms >= step_ms ? ms - ms % step_ms : ms;
}

void
carpace_ease_limit (CarpaceBlock *block)
{
  block->limit_ms = set_down_ms (carpace_share_down_ms (block->limit_ms, SHORTER, 1), CARPACE_LIMIT_STEP_MS);
}

static void
consider_limit (Search *search, int32_t block)
{
  CarpaceBlock shorter = search->plan->blocks[block];

  carpace_ease_limit (&shorter);
  consider_block (search, &shorter, CARPACE_EASE_LIMIT, block, -1);
}

int32_t
carpace_ease_share (const CarpacePlan *plan, CarpaceBlock *block)
{
  double index[CARPACE_PLAN_DRILLS];
  int32_t hardest = 0, lightest = 0, share, drill;

  for (int32_t part = 0; part < block->n_parts; part++)
    {
      index[part] = strain_of (plan, block, part).index;
      if (index[part] > index[hardest])
        hardest = part;
      if (index[part] < index[lightest])
        lightest = part;
    }
  if (hardest == lightest)
    return -1;
  drill = block->parts[hardest].drill;
  share = block->parts[hardest].share < MOVED ? block->parts[hardest].share : MOVED;
  block->parts[hardest].share -= share;
  block->parts[lightest].share += share;
  return drill;
}

static void
consider_share (Search *search, int32_t block)
{
  CarpaceBlock moved = search->plan->blocks[block];
  int32_t drill = carpace_ease_share (search->plan, &moved);

  if (drill >= 0)
    consider_block (search, &moved, CARPACE_EASE_SHARE, block, drill);
}

int64_t
carpace_ease_rest_ms (const CarpacePlan *plan)
{
  return plan->rest_ms * 2;
}

int64_t
carpace_ease_after_ms (const CarpacePlan *plan)
{
  return set_down_ms (plan->after_ms / 2, AFTER_STEP_MS);
}

static void
consider_rests (Search *search, CarpaceEaseKind kind, int64_t rest_ms, int64_t after_ms)
{
  CarpacePlan plan = *search->plan;
  Day day = search->day;

  if ((double) rest_ms > carpace_plan_key_facts (CARPACE_KEY_MICRO_REST_LENGTH)->high
      || (double) after_ms < carpace_plan_key_facts (CARPACE_KEY_MICRO_REST_AFTER)->low)
    return; /* no plan can have that */
  plan.rest_ms = rest_ms;
  plan.after_ms = after_ms;
  for (int32_t i = 0; i < plan.n_blocks; i++)
    carpace_load_reserve (&plan, &plan.blocks[i], &day.load[i]);
  consider (search, &day, kind, -1, -1);
}

bool
carpace_load_ease (const CarpacePlan *plan, CarpaceEase *ret_ease)
{
  Search search = { .plan = plan };

  for (int32_t i = 0; i < plan->n_blocks; i++)
    put_block (&search.day, plan, i, &plan->blocks[i]);
  search.index = index_of_day (&search.day, plan->n_blocks);
  search.fatigued = 1 - lowest_of_day (&search.day, plan->n_blocks);
  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      consider_limit (&search, i);
      consider_share (&search, i);
    }
  consider_rests (&search, CARPACE_EASE_REST, carpace_ease_rest_ms (plan), plan->after_ms);
  consider_rests (&search, CARPACE_EASE_RUN, plan->rest_ms, carpace_ease_after_ms (plan));
  if (!(search.best.effect > 0))
    return false;
  *ret_ease = search.best;
  return true;
}
