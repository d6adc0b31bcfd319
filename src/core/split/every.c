/* SPDX-License-Identifier: GPL-3.0-or-later */
/* every.c: every split of a day that is not too large. What a block can
 * have, its content, has a number, its runs being the digits. Contents are made
 * drill by drill, as long as the block's length can still come into its range,
 * and what it has and what it leaves can still be under the best index by a plane
 * under it (proof.h, 1 and 2); those that are over it are left out. Then
 * contents are put together: with the drill that has the fewest runs left, one of
 * the blocks to come has some. The last block gets what is left. */
#include "private.h"

#include <math.h>
#include <string.h>

/* Contents worth a look, and their drills, at most. */
#define MOST_GOOD 6144
#define MOST_DRILLS 12
/* What is spent at most on making contents, and on looking at them. */
#define MOST_MAKING 26000000
#define MOST_LOOKING 18000000
/* Prices: a step in making one, one that is made, a look at one, one chosen. */
#define A_STEP 3
#define A_CONTENT 180
#define A_LOOK 1
#define A_CHOICE 150
/* Contents in the lists of all blocks together, at most. */
#define MOST_LISTED 32768
/* Splits with the same index and reserve that are compared by neighbours, at most. */
#define MOST_TIES 20
/* A bound is of runs, the index of shares in hundredths of a percent. */
#define ROUNDING_OF_SHARES 5e-3

/* What a block can be. */
typedef struct
{
  int64_t number;
  double index;
  double lowest; /* reserve, negative while unknown */
  int32_t length_ms;
  uint16_t runs[MOST_DRILLS];
} Content;

/* A sum over drills, of a content that is being made: it is to end in a range,
 * and what the drills to come can add at least and at most is known. */
typedef struct
{
  double of_run[MOST_DRILLS];
  double least, most;                       /* of the sum at its end */
  double can_add[MOST_DRILLS + 1], must_add[MOST_DRILLS + 1]; /* the drills from a place on: behind the last nothing */
} Range;

typedef struct
{
  const CarpaceSplitTask *task;
  CarpaceSplitting *best;
  double within;
  int64_t to_spend;
  int32_t n_ties, n_good;
  int32_t drill[MOST_DRILLS];         /* the one with the most ways first */
  int64_t place[MOST_DRILLS];         /* what a digit counts for */
  Range length, strain;
  int32_t making[CARPACE_SPLIT_D];
  Content good[MOST_GOOD];            /* numbers rising */
  int32_t left[CARPACE_SPLIT_D];      /* runs still to be dealt */
  uint16_t listed[MOST_LISTED];       /* lists of good ones, one after the other */
  Content *chosen[CARPACE_SPLIT_B];
} Every;

static void
runs_of (const Every *every, const Content *content, int32_t ret_runs[CARPACE_SPLIT_D])
{
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

/* @return whether there is more to spend here, and at all */
static bool
spend (Every *every, int64_t units)
{
  every->to_spend -= units;
  return carpace_split_spend (every->task, units) && every->to_spend > 0;
}

/* ---- contents ---- */

static void
know_range (const Every *every, Range *range)
{
  for (int32_t place = every->task->n_drills - 1; place >= 0; place--)
    {
      double all = range->of_run[place] * every->task->n_runs[every->drill[place]];
      range->can_add[place] = range->can_add[place + 1] + fmax (all, 0);
      range->must_add[place] = range->must_add[place + 1] + fmin (all, 0);
    }
}

static bool
in_reach (const Range *range, int32_t place, double sum)
{
  return sum + range->can_add[place] >= range->least && sum + range->must_add[place] <= range->most;
}

/* Lengths to a millisecond; strain from the plane, to the rounding of shares. */
static void
know_ranges (Every *every)
{
  const CarpaceSplitTask *task = every->task;
  CarpaceSplitPlane plane;
  double enough = every->best->index * (1 + ROUNDING_OF_SHARES - every->within), all = 0;

  carpace_split_plane (task, enough, &plane);
  carpace_split_length_range (task, &every->length.least, &every->length.most);
  every->length.least = fmax (every->length.least - 1, 1); /* no block is empty */
  every->length.most += 1;
  for (int32_t place = 0; place < task->n_drills; place++)
    {
      int32_t drill = every->drill[place];
      every->length.of_run[place] = (double) task->run_ms[drill];
      every->strain.of_run[place] = plane.of_ms[drill] * (double) task->run_ms[drill];
      all += every->strain.of_run[place] * task->n_runs[drill];
    }
  every->strain.most = plane.most;
  every->strain.least = all - (task->n_blocks - 1) * plane.most;
  know_range (every, &every->length);
  know_range (every, &every->strain);
}

/* The drill with the most runs first: the last ones are cut short by what is
 * left of the ranges. @return false where numbers do not last */
static bool
order_drills (Every *every)
{
  const CarpaceSplitTask *task = every->task;
  int64_t place = 1;

  for (int32_t i = 0; i < task->n_drills; i++)
    {
      int32_t at = i;
      for (; at > 0 && task->n_runs[every->drill[at - 1]] < task->n_runs[i]; at--)
        every->drill[at] = every->drill[at - 1];
      every->drill[at] = i;
    }
  for (int32_t i = task->n_drills - 1; i >= 0; i--)
    {
      int32_t drill = every->drill[i];
      every->place[drill] = place;
      if (place > INT64_MAX / (task->n_runs[drill] + 1))
        return false;
      place *= task->n_runs[drill] + 1;
    }
  return true;
}

/* @return false where they are too many */
static bool
keep_if_good (Every *every)
{
  const CarpaceSplitTask *task = every->task;
  double index = carpace_split_block_index (task, every->making);
  Content *content = &every->good[every->n_good];

  for (int32_t i = 0; i < task->n_drills; i++)
    every->left[i] = task->n_runs[i] - every->making[i];
  if (!spend (every, A_CONTENT))
    return false;
  if (too_hard (every, index) || leaves_too_much (every, every->left, task->n_blocks - 1))
    return true;
  if (every->n_good == MOST_GOOD)
    return false;
  *content = (Content) { .index = index, .lowest = -1, .length_ms = (int32_t) carpace_split_length_ms (task, every->making) };
  for (int32_t i = 0; i < task->n_drills; i++)
    {
      content->runs[i] = (uint16_t) every->making[i];
      content->number += every->making[i] * every->place[i];
    }
  every->n_good++;
  return true;
}

/* Goes on with the drill at @place. @return false where it gave up */
static bool
make (Every *every, int32_t place, double length, double strain)
{
  int32_t drill;
  bool on = true;

  if (place == every->task->n_drills)
    return keep_if_good (every);
  drill = every->drill[place];
  for (int32_t runs = 0; on && runs <= every->task->n_runs[drill]; runs++)
    {
      double to_length = length + runs * every->length.of_run[place], to_strain = strain + runs * every->strain.of_run[place];
      if (to_length > every->length.most)
        break;
      if (!spend (every, A_STEP))
        return false;
      every->making[drill] = runs;
      if (in_reach (&every->length, place + 1, to_length) && in_reach (&every->strain, place + 1, to_strain))
        on = make (every, place + 1, to_length, to_strain);
    }
  return on;
}

/* @return false where they are too many */
static bool
know_good (Every *every)
{
  if (every->task->n_drills > MOST_DRILLS || !order_drills (every))
    return false;
  know_ranges (every);
  return make (every, 0, 0, 0);
}

/* ---- put together ---- */

/* The good content with @number, NULL where there is none. */
static Content *
find (Every *every, int64_t number)
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

/* Its lowest reserve; 0, as if it were none, where no work is to be spent on it. */
static double
lowest_of (Every *every, Content *content)
{
  if (content->lowest < 0)
    {
      int32_t runs[CARPACE_SPLIT_D];
      if (!carpace_split_spend_on_order (every->task, 0))
        return 0;
      runs_of (every, content, runs);
      content->lowest = carpace_split_lowest (every->task, runs);
    }
  return content->lowest;
}

/* With nothing to spend on it, the order is left to whoever has. */
static void
put_in_order (const Every *every, CarpaceSplitting *splitting)
{
  if (carpace_split_spend_on_order (every->task, 0))
    carpace_split_order (every->task, splitting);
  else
    splitting->lowest = splitting->same = 0;
}

/* Keeps the split that was chosen, where it is the best. */
static void
look (Every *every)
{
  CarpaceSplitting *best = every->best, found = { .lowest = 1, .same = best->same };
  bool better;

  for (int32_t block = 0; block < every->task->n_blocks; block++)
    found.index = fmax (found.index, every->chosen[block]->index);
  if (found.index > best->index * (1 + CARPACE_SPLIT_ROUNDING))
    return; /* the best has become better since its first blocks were chosen */
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
  put_in_order (every, &found);
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
  int32_t last = every->task->n_blocks - 1;
  int64_t length_ms[CARPACE_SPLIT_B], number = 0;
  Content *content;

  for (int32_t i = 0; i < every->task->n_drills; i++)
    number += every->left[i] * every->place[i];
  content = find (every, number);
  if (!content || too_hard (every, content->index))
    return;
  every->chosen[last] = content;
  for (int32_t i = 0; i <= last; i++)
    length_ms[i] = every->chosen[i]->length_ms;
  if (carpace_split_lengths_allowed (every->task, length_ms))
    look (every);
}

/* A drill that a block to come must have: the one with the fewest runs left. */
static int32_t
must_come (const Every *every)
{
  int32_t fewest = -1;

  for (int32_t i = 0; i < every->task->n_drills; i++)
    if (every->left[i] > 0 && (fewest < 0 || every->left[i] < every->left[fewest]))
      fewest = i;
  return fewest;
}

/* Of the @n contents in the list at @list those that fit what is left: a list
 * after it. @return how many; -1 where it gave up */
static int32_t
filter (Every *every, int32_t list, int32_t n)
{
  int32_t n_fit = 0;

  if (list + 2 * n > MOST_LISTED || !spend (every, n * A_LOOK))
    return -1;
  for (int32_t i = 0; i < n; i++)
    {
      const Content *content = &every->good[every->listed[list + i]];
      if (fits (every, content) && !too_hard (every, content->index))
        every->listed[list + n + n_fit++] = every->listed[list + i];
    }
  return n_fit;
}

/* Goes on from @block with the @n contents in the list at @list: all that fit.
 * @return false where it gave up */
static bool
go_on (Every *every, int32_t block, int32_t list, int32_t n)
{
  int32_t n_blocks = every->task->n_blocks - block, must = must_come (every);

  for (int32_t i = 0; must >= 0 && i < n; i++)
    {
      Content *content = &every->good[every->listed[list + i]];
      bool on;
      if (content->runs[must] == 0)
        continue;
      every->chosen[block] = content;
      take (every, content, 1);
      on = spend (every, A_CHOICE);
      if (n_blocks == 2)
        end (every);
      else if (on && !leaves_too_much (every, every->left, n_blocks - 1))
        {
          int32_t n_fit = filter (every, list, n);
          on = n_fit >= 0 && go_on (every, block + 1, list + n, n_fit);
        }
      take (every, content, -1);
      if (!on)
        return false;
    }
  return true;
}

bool
carpace_split_every (const CarpaceSplitTask *task, double within, CarpaceSplitting *best)
{
  Every every = { .task = task, .best = best, .within = within, .to_spend = MOST_MAKING };

  if (task->n_blocks > 1 && !know_good (&every))
    return false;
  put_in_order (&every, best); /* what ties are compared with; with one block there is nothing else */
  every.to_spend = MOST_LOOKING;
  memcpy (every.left, task->n_runs, sizeof every.left);
  for (int32_t i = 0; i < every.n_good; i++)
    every.listed[i] = (uint16_t) i;
  return go_on (&every, 0, 0, every.n_good);
}
