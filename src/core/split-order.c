/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-order.c: how drills follow one another in a block. Up to six parts every
 * order is looked at; beyond, one is made better by moving a part at a time. */
#include "split-private.h"

#include <math.h>

#define ALL_ORDERS 6
/* Orders of one block looked at beyond that, parts x orders. */
#define LOOKS 4000
/* Reserves that differ by less are the same. */
#define SAME_RESERVE 1e-9

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
  double lowest;      /* of the best */
  int32_t same;
  int32_t *best;
} Orders;

static int32_t
same_neighbours (const CarpacePlan *plan, const int32_t *drills, int32_t n)
{
  int32_t same = 0;
  CarpaceGroup before = CARPACE_N_GROUPS;

  for (int32_t i = 0; i < n; i++)
    {
      CarpaceGroup prime = carpace_muscles_prime (plan->drills[drills[i]].movement, plan->grip, plan->side);
      same += prime == before;
      before = prime;
    }
  return same;
}

static double
reserve_of (const Orders *orders)
{
  CarpaceBlock block = { .limit_ms = orders->length_ms, .n_parts = orders->n };
  CarpaceBlockLoad load;

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
  int32_t same = same_neighbours (orders->task->plan, orders->drills, orders->n);

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
  if (from + 1 >= orders->n)
    {
      look (orders);
      return;
    }
  for (int32_t i = from; i < orders->n; i++)
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
        for (int32_t j = i + 1; j < orders->n && looks * orders->n < LOOKS; j++)
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

static void
order_block (const CarpaceSplitTask *task, CarpaceSplitting *splitting, int32_t block, double enough,
             double *ret_lowest, int32_t *ret_same)
{
  Orders orders = { .task = task, .runs = splitting->table.runs[block], .enough = enough,
                    .length_ms = carpace_split_length_ms (task, &splitting->table, block),
                    .best = splitting->order[block] };
  int32_t none = CARPACE_SPLIT_D;

  carpace_split_shares (task, orders.runs, orders.length_ms, orders.share);
  for (int32_t i = task->n_drills - 1; i >= 0; i--)
    if (orders.runs[i] == 0)
      splitting->order[block][--none] = i;
  for (int32_t i = 0; i < task->n_drills; i++)
    if (orders.runs[i] > 0)
      orders.drills[orders.n++] = i;
  for (int32_t i = 0; none + i < CARPACE_SPLIT_D; i++)
    splitting->order[block][orders.n + i] = splitting->order[block][none + i];
  if (orders.n <= ALL_ORDERS)
    look_at_all (&orders, 0);
  else
    look_at_exchanges (&orders);
  *ret_lowest = orders.lowest;
  *ret_same = orders.same;
}

void
carpace_split_order (const CarpaceSplitTask *task, CarpaceSplitting *splitting)
{
  double lowest[CARPACE_SPLIT_B], worst = 1;
  int32_t same[CARPACE_SPLIT_B];

  for (int32_t i = 0; i < task->n_blocks; i++)
    {
      order_block (task, splitting, i, 2, &lowest[i], &same[i]);
      worst = fmin (worst, lowest[i]);
    }
  splitting->lowest = worst;
  splitting->same = 0;
  for (int32_t i = 0; i < task->n_blocks; i++)
    {
      if (same[i] > 0)
        order_block (task, splitting, i, worst, &lowest[i], &same[i]);
      splitting->same += same[i];
    }
}

bool
carpace_split_easier (const CarpaceSplitting *a, const CarpaceSplitting *b)
{
  if (a->lowest > b->lowest + SAME_RESERVE)
    return true;
  return a->lowest >= b->lowest - SAME_RESERVE && a->same < b->same;
}
