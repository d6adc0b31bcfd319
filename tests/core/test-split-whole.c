/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-split-whole.c: days that are compared with their whole split and what it cost,
 * so that a search that finds less, proves less or costs more is seen, and one that
 * depends on the machine (anew.h). What a split must keep is in test-split.c.
 *
 * A day is `> KIND SEED DRILLS BLOCKS`, the kind a number of some-days.h or `few`
 * (drills of one to three runs), `> alike RUNS DRILLS BLOCKS`, or `> KIND SEED`, the kind
 * `hard`, `small`, `odd` or `ties` (one day). Of its split are told the highest index,
 * the lowest reserve, the bound and the work; then each block's length in s and its
 * drills with their shares in hundredths of a percent. */
#define _DEFAULT_SOURCE
#include <inttypes.h>

#include "anew.h"
#include "carpace/split.h"
#include "some-days.h"

#define MOST_TEXT (1 << 18)

static const SomeKind few = { "drills of one to three runs", { 10, 60 }, { 60, 60 }, { 1, 3 } };

/* A day of milliseconds, so that a single one counts, and of drills that are the same in
 * this or that, some at the border of 90 efforts; up to all the drills and blocks there
 * are. @return how many blocks it is to be split into */
static int32_t
small_day (CarpacePlan *plan, Random *random)
{
  int32_t n = random_whole (random, 0, 3) == 0 ? random_whole (random, 12, CARPACE_PLAN_DRILLS) : random_whole (random, 1, 7);
  int32_t longest_ms = random_whole (random, 1, 9), most_runs = random_whole (random, 1, 4);

  some_plan (plan, 0);
  plan->after_ms = random_whole (random, 0, 2 * longest_ms);
  plan->rest_ms = random_whole (random, 0, 9);
  for (int32_t i = 0; i < n; i++)
    {
      int32_t efforts = 30 * random_whole (random, 1, 6), intensity_pct = 10 * random_whole (random, 1, 2);
      CarpaceDrill *drill = some_drill (plan, (CarpaceMovement) random_whole (random, 0, CARPACE_N_MOVEMENTS - 1), intensity_pct, efforts, 0.1);
      drill->run_ms = random_whole (random, 1, longest_ms);
      drill->time_ms = drill->run_ms * random_whole (random, 1, most_runs);
      plan->dose_ms += drill->time_ms;
    }
  return random_whole (random, 0, 3) == 0 ? random_whole (random, 1, CARPACE_PLAN_BLOCKS) : random_whole (random, 1, 5);
}

/* Drills as unlike as there may be. @return as above */
static int32_t
odd_day (CarpacePlan *plan, Random *random)
{
  int32_t n = random_whole (random, 1, random_whole (random, 0, 3) == 0 ? CARPACE_PLAN_DRILLS : 6), most_runs = random_whole (random, 1, 6);

  some_plan (plan, 0);
  for (int32_t i = 0; i < n; i++)
    {
      int32_t efforts = random_whole (random, 1, random_whole (random, 0, 1) == 0 ? 30 : 600), intensity_pct = random_whole (random, 1, 100);
      CarpaceDrill *drill = some_drill (plan, (CarpaceMovement) random_whole (random, 0, CARPACE_N_MOVEMENTS - 1), intensity_pct, efforts, 0.1);
      drill->run_ms = 1000 * random_whole (random, 1, 300);
      drill->time_ms = drill->run_ms * random_whole (random, 1, most_runs);
      plan->dose_ms += drill->time_ms;
    }
  return random_whole (random, 0, 3) == 0 ? random_whole (random, 1, CARPACE_PLAN_BLOCKS) : random_whole (random, 2, 8);
}

static int32_t
ties (CarpacePlan *plan, Random *random)
{
  return day_of_ties (plan);
}

/* @n drills of @runs runs that nothing tells apart: splits with the same index are many. */
static void
alike_day (CarpacePlan *plan, int32_t runs, int32_t n)
{
  some_plan (plan, SOME_MINUTES (runs * n));
  for (int32_t i = 0; i < n; i++)
    some_drill (plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.1);
}

/* @return how many blocks it is to be split into, 0 where @line is no day */
static int32_t
day_of (CarpacePlan *plan, const char *line)
{
  static const struct { const char *kind; int32_t (*day) (CarpacePlan *plan, Random *random); } made_up[]
    = { { "hard", hard_day }, { "small", small_day }, { "odd", odd_day }, { "ties", ties } };
  char kind[8];
  int seed, drills, blocks;
  Random random;

  for (size_t i = 0; i < sizeof made_up / sizeof made_up[0]; i++)
    if (sscanf (line, "> %7s %d", kind, &seed) == 2 && strcmp (kind, made_up[i].kind) == 0)
      {
        random.state = (uint64_t) seed;
        return made_up[i].day (plan, &random);
      }
  if (sscanf (line, "> %7s %d %d %d", kind, &seed, &drills, &blocks) != 4)
    return 0;
  if (strcmp (kind, "alike") == 0)
    {
      alike_day (plan, seed, drills);
      return blocks;
    }
  random.state = (uint64_t) seed;
  some_day (plan, &random, strcmp (kind, "few") == 0 ? &few : &some_kinds[atoi (kind) % SOME_KINDS], drills);
  return blocks;
}

/* Appends to @text, which has room for MOST_TEXT bytes. */
#define ADD(...) (n += (size_t) snprintf (text + n, n < MOST_TEXT ? MOST_TEXT - n : 0, __VA_ARGS__))

static size_t
add_split (char *text, size_t n, CarpacePlan *plan, int32_t into)
{
  CarpaceSplitFound found;

  if (!carpace_split (plan, into, &found))
    {
      ADD ("too few runs\n");
      return n;
    }
  ADD ("%.9g, reserve %.9g, %s, bound %.9g, work %" PRId64 "\n", found.highest_index, found.lowest_reserve,
       found.exact ? "exact" : found.proven ? "proven" : "not proven", found.bound, found.work);
  for (int32_t block = 0; block < plan->n_blocks; block++)
    {
      ADD ("  %g:", (double) plan->blocks[block].limit_ms / CARPACE_SECOND_MS);
      for (int32_t i = 0; i < plan->blocks[block].n_parts; i++)
        ADD (" %" PRId32 "=%" PRId32, plan->blocks[block].parts[i].drill, plan->blocks[block].parts[i].share);
      ADD ("\n");
    }
  return n;
}

/* The comment at the head and the days stay, their splits are made again. */
static char *
told_by (const char *was, bool all)
{
  char *text = calloc (1, MOST_TEXT), *copy = strdup (was), *rest = copy;
  size_t n = 0;

  for (char *line = strsep (&rest, "\n"); line != NULL && (all || strncmp (text, was, n) == 0); line = strsep (&rest, "\n"))
    {
      static CarpacePlan plan;
      int32_t into = day_of (&plan, line);

      if (line[0] == '#' || line[0] == '>')
        ADD ("%s\n", line);
      if (into > 0)
        n = add_split (text, n, &plan, into);
    }
  free (copy);
  if (n >= MOST_TEXT)
    abort ();
  return text;
}

int
main (int argc, char **argv)
{
  return anew_main ("test-split-whole", argc, argv, told_by);
}
