/* SPDX-License-Identifier: GPL-3.0-or-later */
/* split-every.c: every split of a day that is not too large. A block's content
 * has a number, its runs being the digits. Contents that are over the best index
 * are left out, and those that leave more to the other blocks than these can
 * have under it; blocks take what remains with numbers falling, so that each
 * split is met once. The last block gets what is left. */
#include "split-private.h"

#include <math.h>
#include <string.h>

/* Contents there can be, those worth a look, their digits, and looks at one, at
 * most. */
#define MOST_CONTENTS 2000000
#define MOST_GOOD 4096
#define MOST_DRILLS 12
#define MOST_LOOKS 300000
/* Splits with the same index and reserve that are compared by neighbours, at most. */
#define MOST_TIES 60
/* Blocks that short have one and the same multiplier of hours. */
#define SHORT_HOURS 0.05
/* A bound is of runs, the index of shares in hundredths of a percent. */
#define ROUNDING_OF_SHARES 5e-3

/* What a block can be. */
typedef struct
{
  int32_t number;
  uint16_t runs[MOST_DRILLS];
  int64_t length_ms;
  double index;
  double lowest;  /* reserve, negative while unknown */
} Content;

typedef struct
{
  const CarpaceSplitTask *task;
  CarpaceSplitting *best;
  double within, shortest_ms, longest_ms;
  CarpaceSplitTangent tangent;
  int32_t n_looks, n_ties, n_good;
  int32_t place[MOST_DRILLS];         /* what a digit counts for */
  Content good[MOST_GOOD];            /* numbers rising */
  int32_t left[CARPACE_SPLIT_D];      /* runs still to be dealt */
  Content *chosen[CARPACE_SPLIT_B];
} Every;

static void
runs_of (const Every *every, const Content *content, int32_t ret_runs[CARPACE_SPLIT_D])
{
  memset (ret_runs, 0, sizeof (int32_t) * CARPACE_SPLIT_D);
  for (int32_t i = 0; i < every->task->n_drills; i++)
    ret_runs[i] = content->runs[i];
}

static bool
too_hard (const Every *every, double index)
{
  return index > every->best->index * (1 + CARPACE_SPLIT_ROUNDING - every->within);
}

/* Whether what is left is more than @n_blocks blocks can have under the best index. */
static bool
leaves_too_much (const Every *every, const int32_t left[CARPACE_SPLIT_D], int32_t n_blocks)
{
  return too_hard (every, carpace_split_even_index (every->task, left, n_blocks) * (1 - ROUNDING_OF_SHARES));
}

/* Whether the content is too hard, or what it leaves, by a plane under the rate:
 * coarser, and quicker. Of what it leaves only where length over multiplier is
 * concave from the shortest block on. */
static bool
too_uneven (const Every *every, const int32_t runs[CARPACE_SPLIT_D], int64_t length_ms)
{
  const CarpaceSplitTask *task = every->task;
  double work = 0, all = 0, left_ms = (double) (task->total_ms - length_ms), n_left = task->n_blocks - 1;

  for (int32_t i = 0; i < task->n_drills; i++)
    {
      work += every->tangent.of_share[i] * (double) (runs[i] * task->run_ms[i]);
      all += every->tangent.of_share[i] * (double) (task->n_runs[i] * task->run_ms[i]);
    }
  return too_hard (every, (every->tangent.constant + work / (double) length_ms)
                          * carpace_split_hours_multiplier ((double) length_ms) * (1 - ROUNDING_OF_SHARES))
         || (every->shortest_ms > SHORT_HOURS * (double) CARPACE_HOUR_MS
             && too_hard (every, (every->tangent.constant + (all - work) / left_ms)
                                 * carpace_split_hours_multiplier (left_ms / n_left) * (1 - ROUNDING_OF_SHARES)));
}

/* Number of contents, 0 where they are too many. */
static int32_t
count_contents (Every *every)
{
  int64_t n = 1;

  if (every->task->n_drills > MOST_DRILLS)
    return 0;
  for (int32_t i = 0; i < every->task->n_drills && n <= MOST_CONTENTS; i++)
    {
      every->place[i] = (int32_t) n;
      n *= every->task->n_runs[i] + 1;
    }
  return n <= MOST_CONTENTS ? (int32_t) n : 0;
}

/* The content with the next number. */
static void
count_up (const CarpaceSplitTask *task, int32_t runs[CARPACE_SPLIT_D], int64_t *length_ms)
{
  for (int32_t i = 0; i < task->n_drills; i++)
    {
      if (runs[i] < task->n_runs[i])
        {
          runs[i]++;
          *length_ms += task->run_ms[i];
          return;
        }
      *length_ms -= runs[i] * task->run_ms[i];
      runs[i] = 0;
    }
}

/* @return false where they are too many */
static bool
know_good (Every *every)
{
  const CarpaceSplitTask *task = every->task;
  int32_t n = count_contents (every), runs[CARPACE_SPLIT_D] = { 0 };
  int64_t length_ms = 0;

  carpace_split_length_range (task, &every->shortest_ms, &every->longest_ms);
  for (int32_t number = 1; number < n; number++)
    {
      double index;
      count_up (task, runs, &length_ms);
      if ((double) length_ms < every->shortest_ms - 1 || (double) length_ms > every->longest_ms + 1)
        continue;
      if (too_uneven (every, runs, length_ms))
        continue;
      index = carpace_split_block_index (task, runs);
      for (int32_t i = 0; i < task->n_drills; i++)
        every->left[i] = task->n_runs[i] - runs[i];
      if (too_hard (every, index) || leaves_too_much (every, every->left, task->n_blocks - 1))
        continue;
      if (every->n_good == MOST_GOOD)
        return false;
      every->good[every->n_good] = (Content) { .number = number, .length_ms = length_ms, .index = index, .lowest = -1 };
      for (int32_t i = 0; i < task->n_drills; i++)
        every->good[every->n_good].runs[i] = (uint16_t) runs[i];
      every->n_good++;
    }
  return n > 0;
}

/* The good content with @number, NULL where there is none. */
static Content *
find (Every *every, int32_t number)
{
  int32_t low = 0, high = every->n_good;

  while (low < high)
    {
      int32_t middle = (low + high) / 2;
      if (every->good[middle].number == number)
        return &every->good[middle];
      if (every->good[middle].number < number)
        low = middle + 1;
      else
        high = middle;
    }
  return NULL;
}

static double
lowest_of (const Every *every, Content *content)
{
  if (content->lowest < 0)
    {
      int32_t runs[CARPACE_SPLIT_D];
      runs_of (every, content, runs);
      content->lowest = carpace_split_lowest (every->task, runs);
    }
  return content->lowest;
}

/* Keeps the split that was chosen, where it is the best. */
static void
look (Every *every)
{
  CarpaceSplitting *best = every->best, found = { .lowest = 1, .same = best->same };
  bool better;

  for (int32_t block = 0; block < every->task->n_blocks; block++)
    found.index = fmax (found.index, every->chosen[block]->index);
  better = found.index < best->index * (1 - CARPACE_SPLIT_ROUNDING);
  for (int32_t block = 0; !better && block < every->task->n_blocks; block++)
    {
      found.lowest = fmin (found.lowest, lowest_of (every, every->chosen[block]));
      if (carpace_split_easier (best, &found))
        return;
    }
  if (!better && !carpace_split_easier (&found, best) && every->n_ties++ >= MOST_TIES)
    return;
  for (int32_t block = 0; block < every->task->n_blocks; block++)
    runs_of (every, every->chosen[block], found.table.runs[block]);
  carpace_split_order (every->task, &found);
  if (better || carpace_split_easier (&found, best))
    *best = found;
}

static bool
fits (const Every *every, const Content *content)
{
  for (int32_t i = 0; i < every->task->n_drills; i++)
    if (content->runs[i] > every->left[i])
      return false;
  return true;
}

static void
take (Every *every, const Content *content, int32_t sign)
{
  for (int32_t i = 0; i < every->task->n_drills; i++)
    every->left[i] -= sign * content->runs[i];
}

/* The last block gets what is left. */
static void
end (Every *every)
{
  int32_t last = every->task->n_blocks - 1, number = 0;
  int64_t length_ms[CARPACE_SPLIT_B];
  Content *content;

  for (int32_t i = 0; i < every->task->n_drills; i++)
    number += every->left[i] * every->place[i];
  content = number <= every->chosen[last - 1]->number ? find (every, number) : NULL;
  if (!content || too_hard (every, content->index))
    return;
  every->chosen[last] = content;
  for (int32_t i = 0; i <= last; i++)
    length_ms[i] = every->chosen[i]->length_ms;
  if (carpace_split_lengths_allowed (every->task, length_ms))
    look (every);
}

/* Goes on from @block with contents that are not after @from in the list.
 * @return false where it gave up */
static bool
go_on (Every *every, int32_t block, int32_t from)
{
  int32_t n_blocks = every->task->n_blocks - block;

  if (n_blocks == 1)
    {
      end (every);
      return true;
    }
  if (block > 0 && leaves_too_much (every, every->left, n_blocks))
    return true;
  for (int32_t i = from; i >= 0; i--)
    {
      Content *content = &every->good[i];
      bool on;
      if (++every->n_looks > MOST_LOOKS)
        return false;
      if (too_hard (every, content->index) || !fits (every, content))
        continue;
      every->chosen[block] = content;
      take (every, content, 1);
      on = go_on (every, block + 1, i);
      take (every, content, -1);
      if (!on)
        return false;
    }
  return true;
}

bool
carpace_split_every (const CarpaceSplitTask *task, double within, CarpaceSplitting *best)
{
  Every every = { .task = task, .best = best, .within = within };

  carpace_split_order (task, best);
  if (task->n_blocks == 1)
    return true; /* there is one table */
  carpace_split_tangent (task, &every.tangent);
  if (!know_good (&every))
    return false;
  memcpy (every.left, task->n_runs, sizeof every.left);
  return go_on (&every, 0, every.n_good - 1);
}
