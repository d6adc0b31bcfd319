/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-place.c: a transport problem, and what is free in it used to level.
 * Ford, Fulkerson 1956: a placement is complete, or an augmenting path from a
 * drill with runs over to a block with room makes it larger. */
#include "split-place.h"

#include <math.h>
#include <string.h>

#define NONE (-1)
/* Rounds of exchanges, and cycles cancelled, at most. */
#define ROUNDS 12
#define CYCLES 300

/* A path of runs moved: drill to block to drill to block. */
typedef struct
{
  int32_t block_from[CARPACE_SPLIT_B]; /* drill that reaches the block */
  int32_t drill_from[CARPACE_SPLIT_D]; /* block that reaches the drill; NONE where it has runs over */
  bool drill_seen[CARPACE_SPLIT_D], block_seen[CARPACE_SPLIT_B];
} Path;

/* Breadth first from @start. @return the block with room at its end, NONE where
 * there is none */
static int32_t
find_path (const CarpaceSplitPlaces *places, const CarpaceSplitTable *table, const int32_t *open, int32_t start, Path *path)
{
  int32_t queue[CARPACE_SPLIT_D], head = 0, tail = 0;

  memset (path->drill_seen, 0, sizeof path->drill_seen);
  memset (path->block_seen, 0, sizeof path->block_seen);
  path->drill_seen[start] = true;
  path->drill_from[start] = NONE;
  queue[tail++] = start;
  while (head < tail)
    {
      int32_t drill = queue[head++];
      for (int32_t block = 0; block < places->n_blocks; block++)
        {
          if (path->block_seen[block] || table->runs[block][drill] >= places->most[block][drill])
            continue;
          path->block_seen[block] = true;
          path->block_from[block] = drill;
          if (open[block] > 0)
            return block;
          for (int32_t other = 0; other < places->n_drills; other++)
            if (!path->drill_seen[other] && table->runs[block][other] > places->least[block][other])
              {
                path->drill_seen[other] = true;
                path->drill_from[other] = block;
                queue[tail++] = other;
              }
        }
    }
  return NONE;
}

/* The most runs, @runs at most, that the path to @block can take. */
static int32_t
room_along (const CarpaceSplitPlaces *places, const CarpaceSplitTable *table, const Path *path, int32_t block, int32_t runs)
{
  while (block != NONE)
    {
      int32_t by = path->block_from[block], room = places->most[block][by] - table->runs[block][by];
      runs = room < runs ? room : runs;
      block = path->drill_from[by];
      if (block != NONE)
        {
          room = table->runs[block][by] - places->least[block][by];
          runs = room < runs ? room : runs;
        }
    }
  return runs;
}

bool
carpace_split_place (const CarpaceSplitPlaces *places, CarpaceSplitTable *ret_table)
{
  CarpaceSplitTable table;
  int32_t over[CARPACE_SPLIT_D], open[CARPACE_SPLIT_B];
  Path path;

  memset (&table, 0, sizeof table);
  memcpy (over, places->runs, sizeof over);
  memcpy (open, places->fill, sizeof open);
  for (int32_t block = 0; block < places->n_blocks; block++)
    for (int32_t drill = 0; drill < places->n_drills; drill++)
      {
        int32_t least = places->least[block][drill];
        table.runs[block][drill] = least;
        over[drill] -= least;
        open[block] -= least;
        if (over[drill] < 0 || open[block] < 0 || least > places->most[block][drill])
          return false;
      }
  for (int32_t drill = 0; drill < places->n_drills; drill++)
    while (over[drill] > 0)
      {
        int32_t block = find_path (places, &table, open, drill, &path), runs;
        if (block == NONE)
          return false;
        runs = room_along (places, &table, &path, block, over[drill] < open[block] ? over[drill] : open[block]);
        over[drill] -= runs;
        open[block] -= runs;
        while (block != NONE)
          {
            int32_t by = path.block_from[block];
            table.runs[block][by] += runs;
            block = path.drill_from[by];
            if (block != NONE)
              table.runs[block][by] -= runs;
          }
      }
  *ret_table = table;
  return true;
}

/* An exchange between two blocks: a run of @give for a run of @take. */
typedef struct { int32_t give, take; double work; } Exchange;

/* Exchanges that the caps allow from @a to @b. */
static int32_t
exchanges (const CarpaceSplitPlaces *places, const double *work, const CarpaceSplitTable *table, int32_t a, int32_t b,
           Exchange *ret_exchanges, int32_t most)
{
  int32_t n = 0;

  for (int32_t give = 0; give < places->n_drills; give++)
    for (int32_t take = 0; take < places->n_drills && n < most; take++)
      if (give != take && table->runs[a][give] > places->least[a][give] && table->runs[b][give] < places->most[b][give]
          && table->runs[b][take] > places->least[b][take] && table->runs[a][take] < places->most[a][take])
        ret_exchanges[n++] = (Exchange) { .give = give, .take = take, .work = work[give] - work[take] };
  return n;
}

static void
carry_out (CarpaceSplitTable *table, int32_t a, int32_t b, Exchange exchange, double *has)
{
  table->runs[a][exchange.give]--;
  table->runs[b][exchange.give]++;
  table->runs[b][exchange.take]--;
  table->runs[a][exchange.take]++;
  has[a] -= exchange.work;
  has[b] += exchange.work;
}

static void
sort_by_work (Exchange *of, int32_t n)
{
  for (int32_t gap = n / 2; gap > 0; gap /= 2)
    for (int32_t i = gap; i < n; i++)
      {
        Exchange moved = of[i];
        int32_t at = i;
        for (; at >= gap && of[at - gap].work > moved.work; at -= gap)
          of[at] = of[at - gap];
        of[at] = moved;
      }
}

static bool
apart (Exchange x, Exchange y)
{
  return x.give != y.give && x.take != y.take && x.give != y.take && x.take != y.give;
}

/* The one or two exchanges that bring @wanted work from @a to @b most nearly;
 * two only where one leaves more than a tenth. Sorts them.
 * @return how far off that leaves it */
static double
best_exchanges (Exchange *of, int32_t n, double wanted, int32_t *ret_one, int32_t *ret_two)
{
  double off = fabs (wanted);

  *ret_one = *ret_two = NONE;
  for (int32_t i = 0; i < n; i++)
    if (fabs (wanted - of[i].work) < off)
      {
        off = fabs (wanted - of[i].work);
        *ret_one = i;
      }
  if (off < fabs (wanted) / 10)
    return off;
  sort_by_work (of, n);
  for (int32_t i = 0; i < n && *ret_one != NONE; i++)
    if (!(fabs (wanted - of[i].work) > off))
      *ret_one = i;
  /* from both ends of the sorted list */
  for (int32_t i = 0, j = n - 1; i < j;)
    {
      double sum = of[i].work + of[j].work;
      if (fabs (wanted - sum) < off && apart (of[i], of[j]))
        {
          off = fabs (wanted - sum);
          *ret_one = i;
          *ret_two = j;
        }
      if (sum < wanted)
        i++;
      else
        j--;
    }
  return off;
}

/* Exchanges between @a and @b so that what they are over their targets by is
 * shared. @return whether it helped */
static bool
level_pair (const CarpaceSplitPlaces *places, const double *work, const double *target, CarpaceSplitTable *table,
            int32_t a, int32_t b, double *has)
{
  enum { MOST = 256 };
  Exchange of[MOST];
  int32_t n = exchanges (places, work, table, a, b, of, MOST), one, two;
  double wanted = ((has[a] - target[a]) - (has[b] - target[b])) / 2;

  if (!(best_exchanges (of, n, wanted, &one, &two) < fabs (wanted) * (1 - 1e-6)) || one == NONE)
    return false;
  carry_out (table, a, b, of[one], has);
  if (two != NONE)
    carry_out (table, a, b, of[two], has);
  return true;
}

void
carpace_split_level (const CarpaceSplitPlaces *places, const double *work, const double *target, CarpaceSplitTable *table)
{
  double has[CARPACE_SPLIT_B] = { 0 };
  bool helped = true;

  for (int32_t block = 0; block < places->n_blocks; block++)
    for (int32_t drill = 0; drill < places->n_drills; drill++)
      has[block] += work[drill] * table->runs[block][drill];
  for (int round = 0; helped && round < ROUNDS; round++)
    {
      helped = false;
      for (int32_t a = 0; a < places->n_blocks; a++)
        for (int32_t b = a + 1; b < places->n_blocks; b++)
          if (level_pair (places, work, target, table, a, b, has))
            helped = true;
    }
}

/* Shortest ways over drills (first) and blocks, by Bellman and Ford. */
typedef struct
{
  double cost[CARPACE_SPLIT_D + CARPACE_SPLIT_B];
  int32_t from[CARPACE_SPLIT_D + CARPACE_SPLIT_B];
} Ways;

/* Goes over all edges once; cycles under @least are left. @return a node that got cheaper, NONE */
static int32_t
relax (const CarpaceSplitPlaces *places, const double *work, const double *weight, const CarpaceSplitTable *table, double least,
       Ways *ways)
{
  int32_t cheaper = NONE;

  for (int32_t drill = 0; drill < places->n_drills; drill++)
    for (int32_t block = 0; block < places->n_blocks; block++)
      {
        double cost = weight[block] * work[drill];
        int32_t at = places->n_drills + block;
        if (table->runs[block][drill] < places->most[block][drill] && ways->cost[drill] + cost < ways->cost[at] - least)
          {
            ways->cost[at] = ways->cost[drill] + cost;
            ways->from[at] = drill;
            cheaper = at;
          }
        if (table->runs[block][drill] > places->least[block][drill] && ways->cost[at] - cost < ways->cost[drill] - least)
          {
            ways->cost[drill] = ways->cost[at] - cost;
            ways->from[drill] = at;
            cheaper = drill;
          }
      }
  return cheaper;
}

/* A node on a cycle of negative cost, NONE where there is none. */
static int32_t
negative_cycle (const CarpaceSplitPlaces *places, const double *work, const double *weight, const CarpaceSplitTable *table,
                double least, Ways *ways)
{
  int32_t nodes = places->n_drills + places->n_blocks, cheaper = NONE;

  for (int32_t i = 0; i < nodes; i++)
    {
      ways->cost[i] = 0;
      ways->from[i] = NONE;
    }
  for (int32_t i = 0; i < nodes; i++)
    {
      cheaper = relax (places, work, weight, table, least, ways);
      if (cheaper == NONE)
        return NONE;
    }
  for (int32_t i = 0; i < nodes && cheaper != NONE; i++)
    cheaper = ways->from[cheaper];
  return cheaper;
}

/* Moves as many runs as it takes along the cycle that @node is on. */
static void
cancel (const CarpaceSplitPlaces *places, const Ways *ways, int32_t node, CarpaceSplitTable *table)
{
  int32_t at = node, runs = INT32_MAX;

  do
    {
      int32_t from = ways->from[at], block = (at >= places->n_drills ? at : from) - places->n_drills;
      int32_t room = at >= places->n_drills ? places->most[block][from] - table->runs[block][from]
                                            : table->runs[block][at] - places->least[block][at];
      runs = room < runs ? room : runs;
      at = from;
    }
  while (at != node);
  do
    {
      int32_t from = ways->from[at];
      if (at >= places->n_drills)
        table->runs[at - places->n_drills][from] += runs;
      else
        table->runs[from - places->n_drills][at] -= runs;
      at = from;
    }
  while (at != node);
}

double
carpace_split_least_work (const CarpaceSplitPlaces *places, const double *work, const double *weight,
                          CarpaceSplitTable *table)
{
  Ways ways;
  double sum = 0, largest = 0, runs = 0;
  int32_t node = 0;

  for (int32_t block = 0; block < places->n_blocks; block++)
    for (int32_t drill = 0; drill < places->n_drills; drill++)
      largest = fmax (largest, work[drill] * weight[block]);
  for (int i = 0; i < CYCLES && node != NONE; i++)
    {
      node = negative_cycle (places, work, weight, table, largest * 1e-9, &ways);
      if (node != NONE)
        cancel (places, &ways, node, table);
    }
  if (node != NONE)
    return -INFINITY;
  for (int32_t block = 0; block < places->n_blocks; block++)
    for (int32_t drill = 0; drill < places->n_drills; drill++)
      {
        sum += work[drill] * weight[block] * table->runs[block][drill];
        runs += table->runs[block][drill];
      }
  /* what cycles too small to be cancelled could take off yet */
  return sum - runs * largest * 1e-7;
}
