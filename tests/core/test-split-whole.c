/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-split-whole.c: days that are compared with their whole split and what it cost,
 * so that a search that finds less, proves less or costs more is seen, and one that
 * depends on the machine (anew.h). What a split must keep is in test-split.c.
 *
 * A day is `> KIND SEED DRILLS BLOCKS`, the kind a number of some-days.h or `few`
 * (drills of one to three runs), or `> hard SEED`. Of its split are told the highest
 * index, the lowest reserve, the bound and the work; then each block's length in s
 * and its drills with their shares in hundredths of a percent. */
#define _DEFAULT_SOURCE
#include <inttypes.h>

#include "anew.h"
#include "carpace/split.h"
#include "some-days.h"

#define MOST_TEXT (1 << 18)

static const SomeKind few = { "drills of one to three runs", { 10, 60 }, { 60, 60 }, { 1, 3 } };

/* @return how many blocks it is to be split into, 0 where @line is no day */
static int32_t
day_of (CarpacePlan *plan, const char *line)
{
  char kind[8];
  int seed, drills, blocks;
  Random random;

  if (sscanf (line, "> hard %d", &seed) == 1)
    {
      random.state = (uint64_t) seed;
      return hard_day (plan, &random);
    }
  if (sscanf (line, "> %7s %d %d %d", kind, &seed, &drills, &blocks) != 4)
    return 0;
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
