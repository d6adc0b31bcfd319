/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cool.c: simulated annealing (Kirkpatrick, Gelatt, Vecchi 1983, Science
 * 220:671) over tables of runs. What it lowers is a soft maximum of the blocks'
 * indices, so that a block that is not the hardest counts, too, at first. */
#include "private.h"
#include "rate.h"
#include "../strain-pieces.h"

#include <math.h>

/* What an exchange may make the day harder by, on average, at first and at last. */
#define WARMEST 3e-3
#define COLDEST 2e-4
/* How sharp the maximum is: parts of one that count for a factor e. */
#define SOFTEST 100
#define SHARPEST 3000
/* Tries after which both are set anew. */
#define STRETCH 256
/* The price of a try. */
#define A_TRY 20

#define MOST_EFFORTS 600

/* A table that is being cooled, with what each block of it comes to. */
typedef struct
{
  const CarpaceSplitTask *task;
  CarpaceSplitTable table;
  int64_t length_ms[CARPACE_SPLIT_B];
  double index[CARPACE_SPLIT_B];
  double part[CARPACE_SPLIT_B];        /* of the soft maximum */
  double scale, sharp, warmth, sum;
  uint64_t random;
  double bent[MOST_EFFORTS + 2];       /* efforts to the power of -0.04, from the straight line on */
} Cool;

/* Runs that go from one block to another. */
typedef struct { int32_t drill, runs; } Move;

/* An exchange between @a and @b: moves to b, fewer than nothing the other way. */
typedef struct { int32_t a, b, n; Move moves[3]; } Exchange;

/* A deterministic sequence: xorshift64 (Marsaglia 2003, J Stat Softw 8:14). */
static uint32_t
next_random (Cool *cool, uint32_t under)
{
  cool->random ^= cool->random << 13;
  cool->random ^= cool->random >> 7;
  cool->random ^= cool->random << 17;
  return (uint32_t) ((cool->random >> 32) % under);
}

/* Over 0, to 1. */
static double
next_chance (Cool *cool)
{
  return (next_random (cool, 1u << 24) + 1.0) / (1u << 24);
}

/* carpace_strain_efforts() to a millionth, without a power: e^1.96 is e^2 x
 * e^-0.04, and that is nearly straight from one effort to the next. */
static double
multiplier (const void *self, double efforts)
{
  const Cool *cool = self;
  int32_t whole;

  if (efforts <= EM_STRAIGHT)
    return EM_FIRST + EM_SLOPE * efforts;
  whole = (int32_t) efforts;
  return EM_FACTOR * efforts * efforts
         * (cool->bent[whole] + (efforts - whole) * (cool->bent[whole + 1] - cool->bent[whole]));
}

/* Index of a block of its runs themselves, not rounded as a plan writes them. */
static double
index_of (const Cool *cool, int32_t block)
{
  const CarpaceSplitTask *task = cool->task;
  CarpaceSplitPart parts[CARPACE_SPLIT_D];
  double per_ms = 1 / (double) cool->length_ms[block];
  int32_t n = 0;

  for (int32_t drill = 0; drill < task->n_drills; drill++)
    if (cool->table.runs[block][drill] > 0)
      parts[n++] = (CarpaceSplitPart) {
        .efforts = task->efforts[drill] * (double) (cool->table.runs[block][drill] * task->run_ms[drill]) * per_ms,
        .weight = task->weight[drill],
      };
  carpace_split_spend (task, n * CARPACE_SPLIT_A_PART + task->n_drills);
  return carpace_split_rate (parts, n, multiplier, cool) * carpace_split_hours_multiplier ((double) cool->length_ms[block]);
}

static double
highest (const Cool *cool)
{
  double index = 0;

  for (int32_t i = 0; i < cool->task->n_blocks; i++)
    index = fmax (index, cool->index[i]);
  return index;
}

static double
part_of (const Cool *cool, double index)
{
  return exp (cool->sharp * (index / cool->scale - 1));
}

static void
set_sharpness (Cool *cool, double sharp)
{
  cool->sharp = sharp;
  cool->scale = highest (cool);
  cool->sum = 0;
  for (int32_t i = 0; i < cool->task->n_blocks; i++)
    cool->sum += cool->part[i] = part_of (cool, cool->index[i]);
}

/* One drill gives runs, another (or none) gives back: one each, or many that
 * take about as long; now and then a third goes along.
 * @return false where there are no such runs */
static bool
choose (Cool *cool, Exchange *exchange)
{
  const CarpaceSplitTask *task = cool->task;
  uint32_t k = (uint32_t) task->n_blocks, n = (uint32_t) task->n_drills;
  int32_t a = (int32_t) next_random (cool, k), b = (int32_t) next_random (cool, k - 1), runs = 1, has, back_has = 0;
  int32_t give = (int32_t) next_random (cool, n), back = (int32_t) next_random (cool, n + 1) - 1;
  uint32_t kind = next_random (cool, 4);

  b += b >= a;
  has = cool->table.runs[a][give];
  if (back >= 0)
    back_has = cool->table.runs[b][back];
  if (has == 0 || back == give || (back >= 0 && back_has == 0))
    return false;
  if (kind == 0)
    runs = 1 + (int32_t) next_random (cool, (uint32_t) has);
  else if (kind == 1)
    runs = has;
  *exchange = (Exchange) { .a = a, .b = b, .n = 1, .moves = { { give, runs } } };
  if (back >= 0)
    {
      int32_t returned = 1;
      if (kind < 2)
        returned = (int32_t) ((double) (runs * task->run_ms[give]) / (double) task->run_ms[back] + next_chance (cool));
      returned = returned < 1 ? 1 : returned > back_has ? back_has : returned;
      exchange->moves[exchange->n++] = (Move) { back, -returned };
    }
  if (kind == 2)
    {
      int32_t third = (int32_t) next_random (cool, n), one = next_random (cool, 2) == 0 ? 1 : -1;
      if (third != give && third != back && cool->table.runs[one > 0 ? a : b][third] > 0)
        exchange->moves[exchange->n++] = (Move) { third, one };
    }
  return true;
}

static void
carry_out (Cool *cool, const Exchange *exchange, int32_t sign)
{
  for (int32_t i = 0; i < exchange->n; i++)
    {
      int32_t drill = exchange->moves[i].drill, runs = sign * exchange->moves[i].runs;
      int64_t ms = runs * cool->task->run_ms[drill];
      cool->table.runs[exchange->a][drill] -= runs;
      cool->table.runs[exchange->b][drill] += runs;
      cool->length_ms[exchange->a] -= ms;
      cool->length_ms[exchange->b] += ms;
    }
}

/* @return whether the exchange was kept */
static bool
try_exchange (Cool *cool, const Exchange *exchange)
{
  int32_t a = exchange->a, b = exchange->b;

  carry_out (cool, exchange, 1);
  if (carpace_split_lengths_allowed (cool->task, cool->length_ms))
    {
      double index_a = index_of (cool, a), index_b = index_of (cool, b);
      double part_a = part_of (cool, index_a), part_b = part_of (cool, index_b);
      double sum = cool->sum - cool->part[a] - cool->part[b] + part_a + part_b;
      if (sum > 0 && log (sum / cool->sum) < cool->sharp * cool->warmth * -log (next_chance (cool)))
        {
          cool->index[a] = index_a;
          cool->index[b] = index_b;
          cool->part[a] = part_a;
          cool->part[b] = part_b;
          cool->sum = sum;
          return true;
        }
    }
  carry_out (cool, exchange, -1);
  return false;
}

static void
begin (Cool *cool, const CarpaceSplitTask *task, const CarpaceSplitTable *table, int32_t tries)
{
  cool->task = task;
  cool->table = *table;
  cool->random = UINT64_C (88172645463325252) ^ ((uint64_t) tries * UINT64_C (0x9e3779b97f4a7c15)); /* a longer search goes other ways */
  for (int32_t e = EM_STRAIGHT; e < MOST_EFFORTS + 2; e++)
    cool->bent[e] = pow (e, EM_POWER - 2);
  for (int32_t i = 0; i < task->n_blocks; i++)
    {
      cool->length_ms[i] = carpace_split_length_ms (task, table->runs[i]);
      cool->index[i] = index_of (cool, i);
    }
}

void
carpace_split_cool (const CarpaceSplitTask *task, int32_t tries, CarpaceSplitting *best)
{
  Cool cool;
  CarpaceSplitTable found = best->table;
  double least, index;

  if (task->n_blocks < 2)
    return;
  begin (&cool, task, &best->table, tries);
  least = highest (&cool);
  for (int32_t i = 0; i < tries && carpace_split_spend (task, A_TRY); i++)
    {
      Exchange exchange;
      if (i % STRETCH == 0)
        {
          set_sharpness (&cool, SOFTEST * pow ((double) SHARPEST / SOFTEST, (double) i / tries));
          cool.warmth = WARMEST * pow (COLDEST / WARMEST, (double) i / tries);
        }
      if (choose (&cool, &exchange) && try_exchange (&cool, &exchange) && highest (&cool) < least)
        {
          least = highest (&cool);
          found = cool.table;
        }
    }
  index = carpace_split_index (task, &found);
  if (index < best->index)
    {
      best->table = found;
      best->index = index;
    }
}
