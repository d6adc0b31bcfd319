/* SPDX-License-Identifier: GPL-3.0-or-later */
/* order.c: how drills follow one another in a block. Up to five parts every
 * order is looked at; beyond, one is made better by swapping two at a time. And
 * exchanges of runs between blocks for the reserve's sake. */
#include "private.h"

#include <math.h>

#define ALL_ORDERS 5
/* Orders of one block looked at beyond that, parts x orders. */
#define LOOKS 4000
/* The price of a piece of work or rest in a reserve. */
#define A_PIECE 75
/* Reserves that differ by less are the same. */
#define SAME_RESERVE 1e-9
/* Enough for no reserve: all count. */
#define ANY 2
/* Exchanges looked at to ease a splitting, at most. */
#define EASE_LOOKS 4000
#define NONE (-1)

/* One block's orders. */
typedef struct
{
  const CarpaceSplitTask *task;
  const int32_t *runs;
  int64_t length_ms;
  int32_t share[CARPACE_SPLIT_D];
  int32_t n;
  int32_t drills[CARPACE_SPLIT_D];
  double enough;      /* a reserve as good as any: what the worst block comes to */
  bool any;
  bool on;            /* there is more to spend */
  double lowest;      /* of the best */
  int32_t same;
  int32_t *best;
} Orders;

static int32_t
same_neighbours (const CarpaceSplitTask *task, const int32_t *drills, int32_t n)
{
  int32_t same = 0;

  for (int32_t i = 1; i < n; i++)
    same += task->prime[drills[i]] == task->prime[drills[i - 1]];
  return same;
}

/* Pieces that a block's way is walked in: its drills, and work and rest by turns. */
static int64_t
pieces_of (const Orders *orders)
{
  int64_t after_ms = orders->task->plan->after_ms;

  return orders->n + (after_ms > 0 ? 2 * (orders->length_ms / after_ms) : 0);
}

static double
reserve_of (Orders *orders)
{
  CarpaceBlock block = { .limit_ms = orders->length_ms, .n_parts = orders->n };
  CarpaceBlockLoad load;

  orders->on = carpace_split_spend_on_order (orders->task, pieces_of (orders) * A_PIECE);
  for (int32_t i = 0; i < orders->n; i++)
    block.parts[i] = (CarpaceBlockPart) { .drill = orders->drills[i], .share = orders->share[orders->drills[i]] };
  carpace_load_reserve (orders->task->plan, &block, &load);
  return load.lowest_reserve;
}

/* Looks at the order as it stands; keeps it where it is the best yet. */
static bool
look (Orders *orders)
{
  double lowest = reserve_of (orders), counts = fmin (lowest, orders->enough), so_far = fmin (orders->lowest, orders->enough);
  int32_t same = same_neighbours (orders->task, orders->drills, orders->n);

  if (orders->any
      && (counts < so_far - SAME_RESERVE
          || (counts <= so_far + SAME_RESERVE
              && (same > orders->same || (same == orders->same && lowest <= orders->lowest + SAME_RESERVE)))))
    return false;
  orders->any = true;
  orders->lowest = lowest;
  orders->same = same;
  for (int32_t i = 0; i < orders->n; i++)
    orders->best[i] = orders->drills[i];
  return true;
}

static void
swap (int32_t *drills, int32_t i, int32_t j)
{
  int32_t drill = drills[i];

  drills[i] = drills[j];
  drills[j] = drill;
}

static void
look_at_all (Orders *orders, int32_t from)
{
  if (from == orders->n)
    {
      look (orders);
      return;
    }
  for (int32_t i = from; i < orders->n && (i == from || orders->on); i++)
    {
      swap (orders->drills, from, i);
      look_at_all (orders, from + 1);
      swap (orders->drills, from, i);
    }
}

static void
look_at_exchanges (Orders *orders)
{
  bool better = true;
  int32_t looks = 0;

  look (orders);
  while (better)
    {
      better = false;
      for (int32_t i = 0; i < orders->n; i++)
        for (int32_t j = i + 1; j < orders->n && looks * orders->n < LOOKS && orders->on; j++)
          {
            looks++;
            swap (orders->drills, i, j);
            if (look (orders))
              better = true;
            else
              swap (orders->drills, i, j);
          }
    }
}

/* The best order of @runs: the drills that have some to ret_order, those that
 * have none after them. */
static void
order_runs (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D], double enough,
            int32_t ret_order[CARPACE_SPLIT_D], double *ret_lowest, int32_t *ret_same)
{
  Orders orders = { .task = task, .runs = runs, .enough = enough, .length_ms = carpace_split_length_ms (task, runs),
                    .best = ret_order };
  int32_t at;

  carpace_split_shares (task, runs, orders.length_ms, orders.share);
  for (int32_t i = 0; i < task->n_drills; i++)
    if (runs[i] > 0)
      orders.drills[orders.n++] = i;
  at = orders.n;
  for (int32_t i = 0; i < task->n_drills; i++)
    if (runs[i] == 0)
      ret_order[at++] = i;
  if (orders.n <= ALL_ORDERS)
    look_at_all (&orders, 0);
  else
    look_at_exchanges (&orders);
  *ret_lowest = orders.lowest;
  *ret_same = orders.same;
}

double
carpace_split_lowest (const CarpaceSplitTask *task, const int32_t runs[CARPACE_SPLIT_D])
{
  int32_t order[CARPACE_SPLIT_D], same;
  double lowest;

  order_runs (task, runs, ANY, order, &lowest, &same);
  return lowest;
}

void
carpace_split_order (const CarpaceSplitTask *task, CarpaceSplitting *splitting)
{
  double lowest[CARPACE_SPLIT_B], worst = 1;
  int32_t same[CARPACE_SPLIT_B];

  for (int32_t i = 0; i < task->n_blocks; i++)
    {
      order_runs (task, splitting->table.runs[i], ANY, splitting->order[i], &lowest[i], &same[i]);
      worst = fmin (worst, lowest[i]);
    }
  splitting->lowest = worst;
  splitting->same = 0;
  for (int32_t i = 0; i < task->n_blocks; i++)
    {
      if (same[i] > 0 && carpace_split_spend_on_order (task, 0))
        order_runs (task, splitting->table.runs[i], worst, splitting->order[i], &lowest[i], &same[i]);
      splitting->same += same[i];
    }
}

/* ---- exchanges that ease ---- */

/* A splitting at which exchanges are tried. */
typedef struct
{
  const CarpaceSplitTask *task;
  CarpaceSplitting *of;
  int64_t length_ms[CARPACE_SPLIT_B];
  double lowest[CARPACE_SPLIT_B];
  int32_t looks;
  bool eased;     /* an exchange was kept */
} Easing;

/* Lowest reserve of a block whose drills follow one another as they did, one
 * that is new last. */
static double
lowest_as_ordered (const Easing *easing, int32_t block)
{
  Orders orders = { .task = easing->task, .length_ms = easing->length_ms[block] };
  const int32_t *runs = easing->of->table.runs[block];

  carpace_split_shares (easing->task, runs, orders.length_ms, orders.share);
  for (int32_t i = 0; i < easing->task->n_drills; i++)
    if (runs[easing->of->order[block][i]] > 0)
      orders.drills[orders.n++] = easing->of->order[block][i];
  return reserve_of (&orders);
}

static void
give (Easing *easing, int32_t from, int32_t to, int32_t drill, int32_t runs)
{
  easing->of->table.runs[from][drill] -= runs;
  easing->of->table.runs[to][drill] += runs;
  easing->length_ms[from] -= runs * easing->task->run_ms[drill];
  easing->length_ms[to] += runs * easing->task->run_ms[drill];
}

/* Gives a run of @drill from @a, the block with the lowest reserve, to @b, and
 * one of @back (NONE: none) the other way; keeps that where it eases. */
static bool
eases (Easing *easing, int32_t a, int32_t b, int32_t drill, int32_t back)
{
  CarpaceSplitting *of = easing->of;

  easing->looks++;
  carpace_split_spend_on_order (easing->task, 4 * CARPACE_SPLIT_A_PART * easing->task->n_drills);
  give (easing, a, b, drill, 1);
  if (back != NONE)
    give (easing, b, a, back, 1);
  if (carpace_split_lengths_allowed (easing->task, easing->length_ms)
      && carpace_split_block_index (easing->task, of->table.runs[a]) <= of->index
      && carpace_split_block_index (easing->task, of->table.runs[b]) <= of->index)
    {
      double lowest_a = lowest_as_ordered (easing, a), lowest_b = lowest_as_ordered (easing, b);
      if (fmin (lowest_a, lowest_b) > easing->lowest[a] + SAME_RESERVE)
        {
          easing->lowest[a] = lowest_a;
          easing->lowest[b] = lowest_b;
          easing->eased = true;
          return true;
        }
    }
  give (easing, b, a, drill, 1);
  if (back != NONE)
    give (easing, a, b, back, 1);
  return false;
}

static bool
ease_block (Easing *easing, int32_t a)
{
  const int32_t (*runs)[CARPACE_SPLIT_D] = (const int32_t (*)[CARPACE_SPLIT_D]) easing->of->table.runs;

  for (int32_t b = 0; b < easing->task->n_blocks; b++)
    for (int32_t drill = 0; b != a && drill < easing->task->n_drills; drill++)
      for (int32_t back = NONE; runs[a][drill] > 0 && back < easing->task->n_drills; back++)
        if (back != drill && (back == NONE || runs[b][back] > 0) && easing->looks < EASE_LOOKS
            && carpace_split_spend_on_order (easing->task, 0) && eases (easing, a, b, drill, back))
          return true;
  return false;
}

void
carpace_split_ease (const CarpaceSplitTask *task, CarpaceSplitting *splitting)
{
  Easing easing = { .task = task, .of = splitting };
  int32_t lowest;

  if (!carpace_split_spend_on_order (task, 0))
    return;
  for (int32_t i = 0; i < task->n_blocks; i++)
    {
      easing.length_ms[i] = carpace_split_length_ms (task, splitting->table.runs[i]);
      easing.lowest[i] = lowest_as_ordered (&easing, i);
    }
  do
    {
      lowest = 0;
      for (int32_t i = 1; i < task->n_blocks; i++)
        if (easing.lowest[i] < easing.lowest[lowest])
          lowest = i;
    }
  while (ease_block (&easing, lowest));
  if (!easing.eased)
    return;
  splitting->index = carpace_split_index (task, &splitting->table);
  carpace_split_order (task, splitting);
}

bool
carpace_split_easier (const CarpaceSplitting *a, const CarpaceSplitting *b)
{
  if (a->lowest > b->lowest + SAME_RESERVE)
    return true;
  return a->lowest >= b->lowest - SAME_RESERVE && a->same < b->same;
}
