/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ten years of diary: how long until it is open, summed up, and drawn from.
 *
 * usage: diary-years [FILE]   (made where it is not there; else a new one in a folder of its own)
 * Prints ms, the median of nine, and as ratio to folding every record anew. */
#include <stdio.h>
#include <stdlib.h>

#include <glib.h>
#include <glib/gstdio.h>

#include "carpace/entry-fields.h"
#include "store-sqlite.h"

#define DAYS 3653
#define BLOCKS 3
#define FIRST_DAY 20878
#define ROUNDS 9

static int64_t n_seen;

static bool
count_record (void *user, const CarpaceRecord *record)
{
  n_seen++;
  return true;
}

static bool
count_sum (void *user, const CarpaceDaySum *sum)
{
  n_seen++;
  return true;
}

static void
add (const CarpaceDiaryKeeper *keeper, CarpaceDay day, int64_t *at_ms, CarpaceEntryKind kind, int32_t what, int32_t number)
{
  CarpaceEntry entry;

  *at_ms += 2 * CARPACE_MINUTE_MS;
  carpace_entry_init (&entry, kind, (CarpaceInstant) { *at_ms, *at_ms, 3600 });
  if (kind == CARPACE_ENTRY_BLOCK)
    {
      entry.block.what = (CarpaceBlockWhat) what;
      entry.block.number = number;
      entry.block.active_ms = 20 * CARPACE_MINUTE_MS;
    }
  else if (kind == CARPACE_ENTRY_RATING)
    {
      entry.rating.block = number;
      entry.rating.discomfort = what;
    }
  else if (kind == CARPACE_ENTRY_CUE)
    entry.cue.what = (CarpaceCueWhat) what;
  else if (kind == CARPACE_ENTRY_REST)
    entry.rest.what = (CarpaceRestWhat) what;
  else if (kind == CARPACE_ENTRY_DECISION)
    entry.decision.scope = CARPACE_SCOPE_DAY;
  else if (kind == CARPACE_ENTRY_STATE)
    entry.state = (CarpaceState) what;
  if (keeper->take_in_record (keeper->self, day, &entry, NULL) != 1)
    exit (1);
}

static void
add_block (const CarpaceDiaryKeeper *keeper, CarpaceDay day, int64_t *at_ms, int32_t number)
{
  add (keeper, day, at_ms, CARPACE_ENTRY_BLOCK, CARPACE_BLOCK_STARTED, number);
  for (int rest = 0; rest < 2; rest++)
    {
      for (int state = CARPACE_STATE_PRACTISING; state <= CARPACE_STATE_RESTING; state++)
        add (keeper, day, at_ms, CARPACE_ENTRY_STATE, state, 0);
      add (keeper, day, at_ms, CARPACE_ENTRY_CUE, CARPACE_CUE_SHOWN, 0);
      add (keeper, day, at_ms, CARPACE_ENTRY_REST, CARPACE_REST_TAKEN, 0);
      add (keeper, day, at_ms, CARPACE_ENTRY_CUE, CARPACE_CUE_WITHDRAWN, 0);
    }
  add (keeper, day, at_ms, CARPACE_ENTRY_BLOCK, CARPACE_BLOCK_ENDED, number);
  add (keeper, day, at_ms, CARPACE_ENTRY_RATING, (day + number) % 5, number);
}

static void
make (const char *path)
{
  CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL);
  CarpaceDiaryKeeper keeper = carpace_store_keeper (store);
  int64_t at_ms;

  if (!keeper.take_in_begin (keeper.self))
    exit (1);
  for (int i = 0; i < DAYS; i++)
    {
      at_ms = (FIRST_DAY + i) * CARPACE_DAY_MS + 12 * CARPACE_HOUR_MS;
      add (&keeper, FIRST_DAY + i, &at_ms, CARPACE_ENTRY_MORNING, 0, 0);
      add (&keeper, FIRST_DAY + i, &at_ms, CARPACE_ENTRY_DECISION, 0, 0);
      add (&keeper, FIRST_DAY + i, &at_ms, CARPACE_ENTRY_DAY, 0, 0);
      for (int32_t number = 1; number <= BLOCKS; number++)
        add_block (&keeper, FIRST_DAY + i, &at_ms, number);
    }
  if (!keeper.take_in_end (keeper.self, true))
    exit (1);
  carpace_store_close (store, true);
}

typedef enum { OPEN, SUMS, MARKS, ONE_DAY, EVERYTHING, N_MEASURES } Measure;
static const char *const measures[N_MEASURES] = {
  "opened", "opened, every day summed up", "and ratings, mornings, decisions read", "one day's records", "every record"
};

static double
measure (const char *path, Measure what)
{
  const uint32_t marks = CARPACE_KIND (CARPACE_ENTRY_RATING) | CARPACE_KIND (CARPACE_ENTRY_MORNING)
                         | CARPACE_KIND (CARPACE_ENTRY_DECISION);
  CarpaceDay middle = FIRST_DAY + DAYS / 2;
  int64_t begun = g_get_monotonic_time ();
  CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_READING, NULL, NULL);
  CarpaceDiary diary = carpace_store_diary (store);
  double ms;

  n_seen = 0;
  if (what == SUMS || what == MARKS)
    diary.days (diary.self, INT32_MIN, INT32_MAX, count_sum, NULL);
  if (what == MARKS)
    diary.records_of (diary.self, INT32_MIN, INT32_MAX, marks, count_record, NULL);
  if (what == ONE_DAY)
    diary.records (diary.self, middle, middle, count_record, NULL);
  if (what == EVERYTHING)
    diary.records (diary.self, INT32_MIN, INT32_MAX, count_record, NULL);
  ms = (double) (g_get_monotonic_time () - begun) / 1000.0;
  carpace_store_close (store, false);
  return ms;
}

static int
by_size (const void *a, const void *b)
{
  return (*(const double *) a > *(const double *) b) - (*(const double *) a < *(const double *) b);
}

int
main (int argc, char **argv)
{
  char *folder = argc > 1 ? NULL : g_dir_make_tmp ("carpace-bench-XXXXXX", NULL);
  char *path = argc > 1 ? argv[1] : g_build_filename (folder, "diary.sqlite", NULL);
  double median[N_MEASURES];
  GStatBuf is;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    make (path);
  g_stat (path, &is);
  printf ("%d days, %d blocks, %.0f MiB\n", DAYS, DAYS * BLOCKS, (double) is.st_size / 1048576.0);
  for (int what = N_MEASURES - 1; what >= 0; what--)
    {
      double ms[ROUNDS];

      for (int i = 0; i < ROUNDS; i++)
        ms[i] = measure (path, (Measure) what);
      qsort (ms, ROUNDS, sizeof ms[0], by_size);
      median[what] = ms[ROUNDS / 2];
      printf ("%-40s %8.1f ms  %.4f x, %" G_GINT64_FORMAT " seen\n", measures[what], median[what],
              median[what] / median[EVERYTHING], n_seen);
    }
  if (folder != NULL)
    {
      char *lock = g_strconcat (path, ".lock", NULL);

      g_unlink (lock);
      g_unlink (path);
      g_rmdir (folder);
    }
  return 0;
}
