/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A year of practice, 300 days of four blocks, through the same loop as the
 * tray: how long the core takes for it. Printed, never judged. */
#define _POSIX_C_SOURCE 200809L

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "app/rehearse.h"
#include "trace.h"

#define DAYS 300
#define BLOCKS 4
#define RUNS 15 /* a block, of a minute each, with a gap of 6 s behind */
#define REPEATS 9
#define GOAL_MS 100.0
#define MOST_LINES (DAYS * (2 + BLOCKS * (2 + 2 * RUNS + 2)))

static CarpaceScriptLine lines[MOST_LINES];
static size_t n_lines;

static void
line (int64_t at_ms, CarpaceEventKind kind, int32_t discomfort)
{
  CarpaceScriptLine *new_line = &lines[n_lines++];

  *new_line = (CarpaceScriptLine){ .at_ms = at_ms, .what = CARPACE_SCRIPT_EVENT, .line = (int32_t) n_lines };
  new_line->event.kind = kind;
  if (kind == CARPACE_EVENT_INPUT || kind == CARPACE_EVENT_STILL)
    new_line->event.fact.since_ms = at_ms;
  if (kind == CARPACE_EVENT_RATE)
    new_line->event.rate.discomfort = discomfort;
  if (kind == CARPACE_EVENT_MORNING)
    new_line->event.morning = (CarpaceMorning){ .waking = discomfort, .now = -1, .stiffness = CARPACE_STIFFNESS_USUAL };
}

/* @return when the block is over */
static int64_t
block (int64_t at, int32_t discomfort)
{
  line (at, CARPACE_EVENT_START, 0);
  for (int run = 0; run < RUNS; run++)
    {
      line (at += 6 * CARPACE_SECOND_MS, CARPACE_EVENT_INPUT, 0);
      line (at += CARPACE_MINUTE_MS, CARPACE_EVENT_STILL, 0);
    }
  line (at += 5 * CARPACE_SECOND_MS, CARPACE_EVENT_END, 0);
  line (at += 5 * CARPACE_SECOND_MS, CARPACE_EVENT_RATE, discomfort);
  return at;
}

/* A steady player: a check in the morning, four blocks, comfort mostly kept. */
static void
write_year (void)
{
  for (int day = 0; day < DAYS; day++)
    {
      int64_t at = day * CARPACE_DAY_MS;
      line (at, CARPACE_EVENT_MORNING, 0);
      for (int number = 0; number < BLOCKS; number++)
        at = block (at + 46 * CARPACE_MINUTE_MS, day % 9 == 0 && number == 2 ? 1 : 0);
    }
}

static void
count (void *user, const CarpaceEntry *entry, int32_t script_line)
{
  long *entries = user;

  entries[0]++;
  entries[1] += entry->kind == CARPACE_ENTRY_BLOCK && entry->block.what == CARPACE_BLOCK_ENDED;
  entries[2] += entry->kind == CARPACE_ENTRY_FAULT;
}

static double
rehearse_ms (const CarpacePlan *plan, const CarpaceScript *script, long entries[3])
{
  static const CarpaceZones no_zones;
  struct timespec began, ended;

  entries[0] = entries[1] = entries[2] = 0;
  clock_gettime (CLOCK_MONOTONIC, &began);
  if (!carpace_rehearse_script (plan, script, &no_zones, count, entries))
    exit (1);
  clock_gettime (CLOCK_MONOTONIC, &ended);
  return (double) (ended.tv_sec - began.tv_sec) * 1e3 + (double) (ended.tv_nsec - began.tv_nsec) / 1e6;
}

static int
by_size (const void *a, const void *b)
{
  const double *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

int
main (void)
{
  static CarpacePlan plan;
  CarpaceScript script = { .start = { .wall_ms = INT64_C (1804176000000), .offset_s = 3600 }, .line = lines };
  double took_ms[REPEATS];
  long entries[3];

  carpace_trace_plan (&plan, BLOCKS, 20);
  write_year ();
  script.n = n_lines;
  for (int i = 0; i < REPEATS; i++)
    took_ms[i] = rehearse_ms (&plan, &script, entries);
  qsort (took_ms, REPEATS, sizeof took_ms[0], by_size);
  printf ("%d days, %zu events, %ld entries, %ld blocks, %ld faults\n", DAYS, n_lines, entries[0], entries[1],
          entries[2]);
  printf ("a year rehearsed: %.1f ms (median of %d), %.2f of the %.0f ms it may take\n", took_ms[REPEATS / 2], REPEATS,
          took_ms[REPEATS / 2] / GOAL_MS, GOAL_MS);
  return entries[1] == DAYS * BLOCKS && entries[2] == 0 ? 0 : 1;
}
