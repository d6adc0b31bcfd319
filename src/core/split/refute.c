/* SPDX-License-Identifier: GPL-3.0-or-later */
/* refute.c: chooses first drills, and their runs, and refutes each choice
 * by caps, by lengths or by prices: proof.h, 3 and 4. */
#include "proof.h"
#include "../strain-pieces.h"

#include <math.h>
#include <string.h>

/* Choices that are looked at for one x, at most, and rounds of prices of each. */
#define MOST_CHOICES 500
#define ROUNDS 40
/* What Polyak's step aims at, as a share of the scale. */
#define AIM 2e-3
/* A sum must be over nothing by this share of the scale: rounding. */
#define SURE 1e-9
#define MOST_BLOCKS CARPACE_SPLIT_REFUTED
#define ANY (-1)

typedef CarpaceSplitProof Proof;

/* ---- what a choice leaves ---- */

/* Index of a drill's efforts over the multiplier of hours. */
static double
part_rate (const CarpaceSplitTask *task, int32_t drill, double share)
{
  return task->weight[drill] * carpace_strain_efforts (task->efforts[drill] * share);
}

/* Runs of @drill in a block where no part's rate is over @rate, as the
 * multiplier's straight line has it: it is over that beyond. */
static double
runs_under (const CarpaceSplitTask *task, int32_t drill, double rate, double length_ms)
{
  double efforts = (rate / task->weight[drill] - EM_FIRST) / EM_SLOPE;

  return efforts * length_ms / (task->efforts[drill] * (double) task->run_ms[drill]);
}

/* What each drill can have in @block, at most and at least. */
static void
cap (Proof *proof, int32_t block)
{
  const CarpaceSplitTask *task = proof->task;
  int32_t first = proof->first[block];
  double first_ms = first == ANY ? 0 : (double) (proof->most_runs[block] * task->run_ms[first]);
  bool caps = first != ANY && task->efforts[first] * first_ms / proof->shortest_ms <= EM_STRAIGHT;

  for (int32_t drill = 0; drill < proof->n; drill++)
    {
      double runs = fmin (floor (proof->longest_ms / (double) task->run_ms[drill]), task->n_runs[drill]);
      proof->least_ms[block][drill] = 0;
      if (drill == first)
        {
          runs = proof->most_runs[block];
          proof->least_ms[block][drill] = (double) (proof->least_runs[block] * task->run_ms[drill]);
        }
      else if (caps)
        {
          double in_short = runs_under (task, drill, part_rate (task, first, first_ms / proof->shortest_ms), proof->shortest_ms);
          double in_long = runs_under (task, drill, part_rate (task, first, first_ms / proof->longest_ms), proof->longest_ms);
          runs = fmax (fmin (runs, floor (fmax (in_short, in_long) * (1 + SURE) + SURE)), 0);
        }
      proof->most_ms[block][drill] = runs * (double) task->run_ms[drill];
    }
}

/* Whether the inequalities of all blocks together, without anything else, have
 * no lengths that fit: the lightest first drills get the longest blocks. */
static bool
refuted_by_lengths (const Proof *proof)
{
  double to_go = (double) proof->task->total_ms - proof->k * proof->shortest_ms, sum = 0;

  for (int32_t block = 0; block < proof->k; block++)
    {
      double more = fmin (to_go, proof->longest_ms - proof->shortest_ms);
      sum += (proof->even_rate + EM_FIRST * proof->first_weight[block] - proof->x * proof->u1) * (proof->shortest_ms + more);
      to_go -= more;
    }
  return sum > proof->k * (proof->limit + SURE * proof->scale);
}

/* Whether some drill's runs, or some block's length, cannot be had. */
static bool
refuted_by_caps (const Proof *proof)
{
  for (int32_t drill = 0; drill < proof->n; drill++)
    {
      double least = 0, most = 0, ms = (double) (proof->task->n_runs[drill] * proof->task->run_ms[drill]);
      for (int32_t block = 0; block < proof->k; block++)
        {
          least += proof->least_ms[block][drill];
          most += proof->most_ms[block][drill];
        }
      if (most < ms - 0.5 || least > ms + 0.5)
        return true;
    }
  for (int32_t block = 0; block < proof->k; block++)
    {
      double least = 0, most = 0;
      for (int32_t drill = 0; drill < proof->n; drill++)
        {
          least += proof->least_ms[block][drill];
          most += proof->most_ms[block][drill];
        }
      if (most < proof->shortest_ms - 0.5 || least > proof->longest_ms + 0.5)
        return true;
    }
  return false;
}

/* ---- prices ---- */

/* Prices, and the times that are least at them. */
typedef struct
{
  double strain[MOST_BLOCKS], length[MOST_BLOCKS]; /* prices; those of strain add up to 1, none under 0 */
  double used[MOST_BLOCKS], length_ms[MOST_BLOCKS]; /* left sides of the inequalities at those times */
  double sum;
} Prices;

/* What a ms of @drill adds to the inequality of @block. */
static double
strain_of (const Proof *proof, int32_t drill, int32_t block)
{
  return proof->tangent[drill] + proof->constant + EM_FIRST * proof->first_weight[block] - proof->x * proof->u1;
}

static void
spend (const Proof *proof, Prices *prices, int32_t drill, int32_t block, double cost, double ms)
{
  prices->sum += cost * ms;
  prices->length_ms[block] += ms;
  prices->used[block] += strain_of (proof, drill, block) * ms;
}

/* Deals the time of @drill where it costs least; blocks that cost the same get
 * the same share of what they can have. */
static void
deal (const Proof *proof, Prices *prices, int32_t drill)
{
  double cost[MOST_BLOCKS], to_go = (double) (proof->task->n_runs[drill] * proof->task->run_ms[drill]);
  int32_t block[MOST_BLOCKS];

  for (int32_t b = 0; b < proof->k; b++)
    {
      int32_t at = b;
      cost[b] = prices->strain[b] * strain_of (proof, drill, b) + prices->length[b];
      for (; at > 0 && cost[block[at - 1]] > cost[b]; at--)
        block[at] = block[at - 1];
      block[at] = b;
      if (proof->least_ms[b][drill] > 0)
        spend (proof, prices, drill, b, cost[b], proof->least_ms[b][drill]);
      to_go -= proof->least_ms[b][drill];
    }
  for (int32_t from = 0, to; from < proof->k && to_go > 0; from = to)
    {
      double room = 0, share;
      for (to = from; to < proof->k && cost[block[to]] <= cost[block[from]] + SURE * fabs (cost[block[from]]); to++)
        room += proof->most_ms[block[to]][drill] - proof->least_ms[block[to]][drill];
      share = room > to_go ? to_go / room : 1;
      for (int32_t i = from; i < to; i++)
        spend (proof, prices, drill, block[i], cost[block[i]],
               share * (proof->most_ms[block[i]][drill] - proof->least_ms[block[i]][drill]));
      to_go -= share * room;
    }
}

/* By how much a block's length is out of its range; with a price on it, out of
 * the end that the price is on. */
static double
out_of_range (const Proof *proof, const Prices *prices, int32_t block)
{
  double length_ms = prices->length_ms[block];

  if (prices->length[block] > 0 || (!(prices->length[block] < 0) && length_ms > proof->longest_ms))
    return length_ms - proof->longest_ms;
  if (prices->length[block] < 0 || length_ms < proof->shortest_ms)
    return length_ms - proof->shortest_ms;
  return 0;
}

/* Moves prices along the subgradient. @return false where there is none */
static bool
reprice (const Proof *proof, Prices *prices)
{
  double strain[MOST_BLOCKS], length[MOST_BLOCKS], mean = 0, norm = 0, step, all = 0;
  double unit = proof->scale / proof->longest_ms; /* so that both kinds weigh alike */

  for (int32_t b = 0; b < proof->k; b++)
    mean += (prices->used[b] - proof->limit) / proof->k;
  for (int32_t b = 0; b < proof->k; b++)
    {
      strain[b] = prices->used[b] - proof->limit - mean;
      length[b] = out_of_range (proof, prices, b) * unit;
      norm += strain[b] * strain[b] + length[b] * length[b];
    }
  if (!(norm > 1e-18 * proof->scale * proof->scale))
    return false;
  step = (AIM * proof->scale - prices->sum) / norm;
  for (int32_t b = 0; b < proof->k; b++)
    {
      double priced = prices->length[b] + step * length[b] * unit;
      prices->length[b] = prices->length[b] * priced < 0 ? 0 : priced;
      prices->strain[b] = fmax (prices->strain[b] + step * strain[b], 0);
      all += prices->strain[b];
    }
  if (!(all > 0))
    return false;
  for (int32_t b = 0; b < proof->k; b++)
    prices->strain[b] /= all;
  return true;
}

/* Whether prices show that no times keep all inequalities. */
static bool
refuted_by_prices (const Proof *proof)
{
  Prices prices = { .sum = 0 };

  for (int32_t b = 0; b < proof->k; b++)
    prices.strain[b] = 1.0 / proof->k;
  for (int32_t round = 0; round < ROUNDS && carpace_split_spend (proof->task, proof->n * proof->k * CARPACE_SPLIT_A_CAP); round++)
    {
      prices.sum = 0;
      memset (prices.used, 0, sizeof prices.used);
      memset (prices.length_ms, 0, sizeof prices.length_ms);
      for (int32_t drill = 0; drill < proof->n; drill++)
        deal (proof, &prices, drill);
      for (int32_t b = 0; b < proof->k; b++)
        prices.sum -= prices.strain[b] * proof->limit
                      + prices.length[b] * (prices.length[b] > 0 ? proof->longest_ms : proof->shortest_ms);
      if (prices.sum > SURE * proof->scale)
        return true;
      if (!reprice (proof, &prices))
        return false;
    }
  return false;
}

static bool
refuted (Proof *proof)
{
  proof->n_choices++;
  return refuted_by_caps (proof) || refuted_by_prices (proof);
}

/* ---- choices ---- */

/* Blocks with the same first drill stand side by side and are told apart by nothing
 * else: their runs of it fall. Of two such, intervals are halves of one and the first
 * of the widest is halved, so that they are the same, or the later lies under the
 * earlier, or the earlier is the upper half of the later: the least runs fall by
 * themselves, and a most that is cut is the end of a half, so that none is empty. */
static void
order_alike (Proof *proof)
{
  for (int32_t b = 1; b < proof->k; b++)
    if (proof->first[b] == proof->first[b - 1] && proof->most_runs[b] > proof->most_runs[b - 1])
      proof->most_runs[b] = proof->most_runs[b - 1];
}

static bool refuted_with_runs (Proof *proof);

/* The same with the runs of @block's first drill in an interval. */
static bool
refuted_between (Proof *proof, int32_t block, int32_t least, int32_t most)
{
  int32_t least_runs[MOST_BLOCKS], most_runs[MOST_BLOCKS];
  bool was;

  memcpy (least_runs, proof->least_runs, sizeof least_runs);
  memcpy (most_runs, proof->most_runs, sizeof most_runs);
  proof->least_runs[block] = least;
  proof->most_runs[block] = most;
  was = refuted_with_runs (proof);
  memcpy (proof->least_runs, least_runs, sizeof least_runs);
  memcpy (proof->most_runs, most_runs, sizeof most_runs);
  return was;
}

/* All first drills are chosen: halves the widest interval until none is left. */
static bool
refuted_with_runs (Proof *proof)
{
  int32_t widest = 0, middle, most;

  order_alike (proof);
  if (!carpace_split_spend (proof->task, proof->n * proof->k * CARPACE_SPLIT_A_CAP))
    return false;
  for (int32_t b = 0; b < proof->k; b++)
    cap (proof, b);
  if (refuted (proof))
    return true;
  for (int32_t b = 1; b < proof->k; b++)
    if (proof->most_runs[b] - proof->least_runs[b] > proof->most_runs[widest] - proof->least_runs[widest])
      widest = b;
  if (proof->most_runs[widest] == proof->least_runs[widest] || proof->n_choices > MOST_CHOICES)
    return false;
  most = proof->most_runs[widest];
  middle = (proof->least_runs[widest] + most) / 2;
  return refuted_between (proof, widest, proof->least_runs[widest], middle)
         && refuted_between (proof, widest, middle + 1, most);
}

/* Leaves the first drills from @block on open, none lighter than the one at
 * place @lightest; those before it keep theirs. */
static void
open_from (Proof *proof, int32_t block, int32_t lightest)
{
  for (int32_t b = 0; b < proof->k; b++)
    {
      if (b >= block)
        {
          proof->first[b] = ANY;
          proof->first_weight[b] = proof->task->weight[proof->drill[lightest]];
        }
      cap (proof, b);
    }
}

/* The first drills of the blocks before @block are chosen, the others are none
 * lighter than the one at place @lightest. */
static bool
refuted_from (Proof *proof, int32_t block, int32_t lightest)
{
  if (!carpace_split_spend (proof->task, proof->n * proof->k * CARPACE_SPLIT_A_CAP))
    return false;
  open_from (proof, block, lightest);
  if (refuted_by_lengths (proof))
    return true;
  if (proof->n_choices > MOST_CHOICES)
    return false;
  if (block == proof->k)
    return refuted_with_runs (proof);
  if (block > 0 && refuted (proof))
    return true;
  for (int32_t at = lightest; at < proof->n; at++)
    {
      int32_t drill = proof->drill[at];
      int64_t fit = (int64_t) proof->longest_ms / proof->task->run_ms[drill], all = proof->task->n_runs[drill];
      proof->first[block] = drill;
      proof->first_weight[block] = proof->task->weight[drill];
      proof->least_runs[block] = 1;
      proof->most_runs[block] = (int32_t) (fit < all ? fit : all);
      if (proof->most_runs[block] > 0 && !refuted_from (proof, block + 1, at))
        return false;
    }
  return true;
}

bool
carpace_split_refuted (Proof *proof, double x)
{
  proof->x = x;
  proof->limit = x * proof->u0;
  proof->scale = x * (proof->u0 + proof->u1 * (double) proof->task->total_ms / proof->k);
  proof->n_choices = 0;
  return refuted_from (proof, 0, 0);
}
