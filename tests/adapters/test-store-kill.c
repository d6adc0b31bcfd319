/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Killed in mid-write, again and again: what was acknowledged is there, and the file is sound. */
#define _GNU_SOURCE

#include "store-samples.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#define ROUNDS 40

/* Writes numbered ratings and tells each number once it is kept. */
static void
write_until_killed (const char *path, int told, int32_t next)
{
  CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL);
  CarpaceStore port = carpace_store_port (store);

  carpace_store_start_run (store, "boot", 0, moment (next));
  for (;; next++)
    {
      CarpaceEntry rating = rating_of (moment (next), next, next % 11);

      carpace_store_alive (store, moment (next));
      if (next % 25 == 0 && !keep_opening (&port, SAMPLE_DAY + next / 25, moment (next), CARPACE_MINUTE_MS))
        _exit (1);
      if (!keep (&port, CARPACE_EVENT_RATE, &rating) || write (told, &next, sizeof next) != sizeof next)
        _exit (1);
    }
}

/* Kills a writer once it has told @after numbers. @return the last it told */
static int32_t
kill_one (const char *path, int32_t next, int after)
{
  int32_t last = next - 1, number;
  int ends[2];
  pid_t child;

  assert_int_equal (pipe (ends), 0);
  child = fork ();
  assert_true (child >= 0);
  if (child == 0)
    {
      close (ends[0]);
      write_until_killed (path, ends[1], next);
    }
  close (ends[1]);
  for (int i = 0; i < after && read (ends[0], &number, sizeof number) == sizeof number; i++)
    last = number;
  kill (child, SIGKILL);
  while (read (ends[0], &number, sizeof number) == sizeof number)
    last = number;
  close (ends[0]);
  waitpid (child, NULL, 0);
  return last;
}

static bool
next_number (void *user, const CarpaceRecord *record)
{
  int32_t *next = user;

  assert_int_equal (record->entry.rating.block, *next);
  assert_int_equal (record->entry.rating.discomfort, *next % 11);
  ++*next;
  return true;
}

static void
nothing_acknowledged_is_lost (void **state)
{
  char *folder = folder_new (), *path = g_build_filename (folder, "diary.sqlite", NULL), *damage;
  g_autoptr (GRand) rand = g_rand_new_with_seed (20270301);
  int32_t next = 0;
  Told told = { 0 };

  for (int round = 0; round < ROUNDS; round++)
    {
      int32_t last = kill_one (path, next, g_rand_int_range (rand, 1, 60)), kept = 0;
      CarpaceDiaryStore *store = carpace_store_open (path, CARPACE_STORE_WRITING, note_told, &told);
      CarpaceDiary diary = carpace_store_diary (store);
      CarpaceResume resume;

      carpace_store_check_in_background (store);
      damage = carpace_store_check_wait (store);
      assert_null (damage);
      assert_true (diary.records_of (diary.self, INT32_MIN, INT32_MAX, CARPACE_KIND (CARPACE_ENTRY_RATING), next_number,
                                     &kept));
      /* what was kept and not told of yet may be there too: one, no more */
      assert_in_range (kept, last + 1, last + 2);
      carpace_store_resume (store, &resume);
      assert_false (resume.ended_well);
      /* since the opening before number 25 n: it and the ratings; or only the one before the next */
      assert_true ((kept > 0 && resume.n_events == (size_t) (kept - 1) % 25 + 2)
                   || (kept % 25 == 0 && resume.n_events <= 1));
      assert_true (resume.alive.elapsed_ms >= moment (last).elapsed_ms);
      carpace_store_resume_clear (&resume);
      carpace_store_close (store, false);
      next = kept;
    }
  assert_int_equal (told.n, 0);
  print_message ("%d ratings over %d kills\n", next, ROUNDS);
  g_free (path);
  folder_free (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (nothing_acknowledged_is_lost) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
