/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whatever is wrong with the file: told once, nothing deleted, the session goes on. */
#define _GNU_SOURCE

#include "store-samples.h"

#include <errno.h>
#include <fcntl.h>
#include <sched.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define MINUTE CARPACE_MINUTE_MS

typedef struct
{
  char *folder, *path;
  Told told;
} Fixture;

static int
set_up (void **state)
{
  Fixture *f = g_new0 (Fixture, 1);

  f->folder = folder_new ();
  f->path = g_build_filename (f->folder, "diary.sqlite", NULL);
  *state = f;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *f = *state;

  folder_free (f->folder);
  g_free (f->path);
  g_free (f);
  return 0;
}

static CarpaceDiaryStore *
open_writing (Fixture *f)
{
  CarpaceDiaryStore *store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);

  assert_non_null (store);
  return store;
}

/** A diary of one evening, closed. */
static void
make_diary (Fixture *f)
{
  CarpaceDiaryStore *store = open_writing (f);
  CarpaceStore port = carpace_store_port (store);

  carpace_store_start_run (store, "boot", 0, moment (0));
  keep_evening (&port, SAMPLE_DAY, 0, 1, 2);
  carpace_store_close (store, true);
  assert_int_equal (f->told.n, 0);
}

static void
run_sql (const char *path, const char *sql)
{
  sqlite3 *db;

  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, sql, NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close (db);
}

static char *
bytes_of (const char *path, gsize *ret_n)
{
  char *bytes;

  assert_true (g_file_get_contents (path, &bytes, ret_n, NULL));
  return bytes;
}

/* A session on a diary that cannot be kept: nothing crashes, what it does can be
 * read, it is told once. */
static void
assert_goes_on_in_memory (Fixture *f, CarpaceDiaryStore *store, guint records_before)
{
  CarpaceStore port = carpace_store_port (store);
  CarpaceDiaryKeeper keeper = carpace_store_keeper (store);
  CarpaceEntry rating = rating_of (moment (CARPACE_DAY_MS), 1, 3);
  CarpaceResume resume;
  Seen seen;

  carpace_store_resume (store, &resume);
  carpace_store_resume_clear (&resume);
  carpace_store_start_run (store, "boot", 0, moment (CARPACE_DAY_MS));
  carpace_store_alive (store, moment (CARPACE_DAY_MS));
  assert_false (keep_opening (&port, SAMPLE_DAY + 1, moment (CARPACE_DAY_MS), 60 * MINUTE));
  assert_false (keep (&port, CARPACE_EVENT_RATE, &rating));
  assert_false (keeper.note_day (keeper.self, SAMPLE_DAY, "a note"));
  assert_false (keeper.take_in_begin (keeper.self));
  assert_int_equal (keeper.erase (keeper.self), CARPACE_ERASE_FAILED);
  seen = see (store);
  assert_int_equal (seen.records->len, records_before + 4);
  assert_int_equal (g_array_index (seen.sums, CarpaceDaySum, seen.sums->len - 1).highest, 3);
  assert_int_equal (g_array_index (seen.sums, CarpaceDaySum, seen.sums->len - 1).dose_ms, 60 * MINUTE);
  seen_free (&seen);
  carpace_store_close (store, true);
  assert_int_equal (f->told.n, 1);
  assert_non_null (strstr (f->told.message, f->path));
}

static void
garbage_is_left_alone (void **state)
{
  Fixture *f = *state;
  const char garbage[] = "this is a shopping list, not a diary, and it is long enough to have a header in it "
                         "as a diary would have, were it one";
  char *after;
  gsize n;

  g_file_set_contents (f->path, garbage, sizeof garbage, NULL);
  assert_goes_on_in_memory (f, open_writing (f), 0);
  assert_int_equal (f->told.last, CARPACE_STORE_NOT_A_DIARY);
  after = bytes_of (f->path, &n);
  assert_int_equal (n, sizeof garbage);
  assert_memory_equal (after, garbage, n);
  g_free (after);
  memset (&f->told, 0, sizeof f->told);
  assert_null (carpace_store_open (f->path, CARPACE_STORE_READING, note_told, &f->told));
  assert_int_equal (f->told.last, CARPACE_STORE_NOT_A_DIARY);
  assert_null (strstr (f->told.message, "practice"));
}

static void
another_programs_database_is_left_alone (void **state)
{
  Fixture *f = *state;
  char *before, *after;
  gsize n_before, n_after;

  run_sql (f->path, "CREATE TABLE shopping (what TEXT); INSERT INTO shopping VALUES ('bread')");
  before = bytes_of (f->path, &n_before);
  assert_goes_on_in_memory (f, open_writing (f), 0);
  assert_int_equal (f->told.last, CARPACE_STORE_NOT_A_DIARY);
  after = bytes_of (f->path, &n_after);
  assert_int_equal (n_before, n_after);
  assert_memory_equal (before, after, n_after);
  g_free (before);
  g_free (after);
}

static void
a_damaged_diary_is_left_alone (void **state)
{
  Fixture *f = *state;
  char *bytes, *after;
  gsize n, n_after;

  make_diary (f);
  bytes = bytes_of (f->path, &n);
  memset (bytes + 100, 0xa5, 3000); /* the schema's page, behind the header */
  g_file_set_contents (f->path, bytes, (gssize) n, NULL);
  assert_goes_on_in_memory (f, open_writing (f), 0);
  assert_int_equal (f->told.last, CARPACE_STORE_DAMAGED);
  after = bytes_of (f->path, &n_after);
  assert_int_equal (n, n_after);
  assert_memory_equal (bytes, after, n);
  g_free (bytes);
  g_free (after);
}

static void
damage_inside_is_found_in_the_background (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store;
  char *bytes, *found;
  gsize n;

  make_diary (f);
  store = open_writing (f);
  carpace_store_check_in_background (store);
  found = carpace_store_check_wait (store);
  assert_null (found);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  assert_int_equal (f->told.n, 0);
  carpace_store_close (store, true);

  bytes = bytes_of (f->path, &n);
  memset (bytes + n - 4096, 0xa5, 4096);
  g_file_set_contents (f->path, bytes, (gssize) n, NULL);
  g_free (bytes);
  store = open_writing (f);
  carpace_store_check_in_background (store);
  found = carpace_store_check_wait (store);
  assert_non_null (found);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  assert_int_equal (f->told.n, 1);
  assert_int_equal (f->told.last, CARPACE_STORE_DAMAGED_INSIDE);
  carpace_store_close (store, true);
  g_free (found);
}

/* A tray that is on all day would keep the pages of two connections: 350 KiB, of the smallest diary. */
static void
a_check_keeps_no_memory (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store;
  sqlite3_int64 before;

  make_diary (f);
  store = open_writing (f);
  before = sqlite3_memory_used ();
  carpace_store_check_in_background (store);
  assert_null (carpace_store_check_wait (store));
  assert_true (sqlite3_memory_used () < before - 32 * 1024);
  carpace_store_close (store, true);
}

static void
a_newer_diary_is_only_read (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store;
  char *before, *after;
  gsize n_before, n_after;
  guint n;
  Seen seen;

  make_diary (f);
  run_sql (f->path, "ALTER TABLE rating ADD COLUMN weather TEXT; CREATE TABLE weather (id INTEGER);"
                    "UPDATE rating SET site = 'little-toe'; PRAGMA user_version = 99; PRAGMA journal_mode = DELETE");
  before = bytes_of (f->path, &n_before);
  store = open_writing (f);
  assert_int_equal (f->told.last, CARPACE_STORE_NEWER);
  seen = see (store);
  n = seen.records->len;
  assert_int_equal (n, 15);
  seen_free (&seen);
  assert_goes_on_in_memory (f, store, n);
  after = bytes_of (f->path, &n_after);
  assert_int_equal (n_before, n_after);
  assert_memory_equal (before, after, n_after);
  g_free (before);
  g_free (after);
}

/* Runs @body as a user who owns nothing. */
static void
as_nobody (Fixture *f, void (*body) (Fixture *))
{
  pid_t child = fork ();
  int status;

  assert_true (child >= 0);
  if (child == 0)
    {
      if (geteuid () == 0 && (setgid (65534) != 0 || setuid (65534) != 0))
        _exit (2);
      body (f);
      _exit (0);
    }
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status));
  assert_int_equal (WEXITSTATUS (status), 0);
}

/* In the child a failed assertion has nowhere to jump: it ends the child. */
#define OR_EXIT(condition, code) do { if (!(condition)) _exit (code); } while (0)

static void
read_only_body (Fixture *f)
{
  CarpaceDiaryStore *store;
  CarpaceStore port;
  CarpaceEntry rating = rating_of (moment (CARPACE_DAY_MS), 1, 3);
  CarpaceDiary diary;
  Seen seen = { g_array_new (FALSE, FALSE, sizeof (CarpaceRecord)), g_array_new (FALSE, FALSE, sizeof (CarpaceDaySum)),
                g_ptr_array_new () };

  store = carpace_store_open (f->path, CARPACE_STORE_READING, note_told, &f->told);
  OR_EXIT (store != NULL && f->told.n == 0, 10);
  carpace_store_close (store, false);
  store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);
  OR_EXIT (store != NULL, 11);
  OR_EXIT (f->told.n == 1 && f->told.last == CARPACE_STORE_READ_ONLY, 12);
  port = carpace_store_port (store);
  OR_EXIT (!keep (&port, CARPACE_EVENT_RATE, &rating), 13);
  diary = carpace_store_diary (store);
  OR_EXIT (diary.records (diary.self, INT32_MIN, INT32_MAX, see_record, &seen), 14);
  OR_EXIT (seen.records->len == 16, 15);
  OR_EXIT (diary.days (diary.self, INT32_MIN, INT32_MAX, see_sum, &seen), 16);
  OR_EXIT (seen.sums->len >= 1, 17);
  carpace_store_close (store, true);
  OR_EXIT (f->told.n == 1, 18);
}

static void
a_read_only_folder_is_read (void **state)
{
  Fixture *f = *state;

  make_diary (f);
  chmod (f->path, 0444);
  chmod (f->folder, 0555);
  as_nobody (f, read_only_body);
  chmod (f->folder, 0700);
}

static void
no_folder_body (Fixture *f)
{
  CarpaceDiaryStore *store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);
  CarpaceStore port;
  CarpaceEntry rating = rating_of (moment (CARPACE_DAY_MS), 1, 3);

  OR_EXIT (store != NULL, 10);
  OR_EXIT (f->told.n == 1 && f->told.last == CARPACE_STORE_READ_ONLY, 11);
  port = carpace_store_port (store);
  OR_EXIT (!keep (&port, CARPACE_EVENT_RATE, &rating), 12);
  carpace_store_close (store, true);
}

static void
no_folder_to_write_in (void **state)
{
  Fixture *f = *state;
  char *path = g_build_filename (f->folder, "state", "carpace", "diary.sqlite", NULL);

  g_free (f->path);
  f->path = path;
  chmod (f->folder, 0555);
  as_nobody (f, no_folder_body);
  chmod (f->folder, 0700);
}

/* Nothing can be written for a while; all of it is there in the end. */
static void
write_through_trouble (Fixture *f, CarpaceDiaryStore *store, void (*trouble) (Fixture *, bool on), CarpaceStoreTrouble as)
{
  CarpaceStore port = carpace_store_port (store);
  CarpaceDiaryStore *whole;
  Told told = { 0 };
  int failed = 0;
  Seen seen;

  keep_evening (&port, SAMPLE_DAY, 0, 1, 2);
  trouble (f, true);
  for (int i = 0; i < 400; i++)
    {
      CarpaceEntry rating = rating_of (moment (CARPACE_DAY_MS + i), i + 3, i % 5);

      failed += !keep (&port, CARPACE_EVENT_RATE, &rating);
      carpace_store_alive (store, moment (CARPACE_DAY_MS + i));
    }
  assert_true (failed > 0);
  assert_int_equal (f->told.n, 1);
  assert_int_equal (f->told.last, as);
  seen = see (store);
  assert_int_equal (seen.records->len, 415);
  seen_free (&seen);
  trouble (f, false);
  carpace_store_alive (store, moment (2 * CARPACE_DAY_MS));
  assert_int_equal (f->told.n, 2);
  assert_int_equal (f->told.last, CARPACE_STORE_KEPT_AGAIN);
  whole = carpace_store_open (f->path, CARPACE_STORE_READING, note_told, &told);
  assert_same_diary (store, whole);
  carpace_store_close (whole, false);
  carpace_store_close (store, true);
}

static void
limit_file_size (Fixture *f, bool on)
{
  g_autofree char *log = g_strconcat (f->path, "-wal", NULL);
  struct rlimit limit;
  struct stat is;

  getrlimit (RLIMIT_FSIZE, &limit);
  assert_int_equal (stat (log, &is), 0);
  limit.rlim_cur = on ? (rlim_t) is.st_size + 20000 : limit.rlim_max;
  assert_int_equal (setrlimit (RLIMIT_FSIZE, &limit), 0);
}

static void
a_limit_of_file_size_loses_nothing (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store = open_writing (f);

  signal (SIGXFSZ, SIG_IGN);
  carpace_store_start_run (store, "boot", 0, moment (0));
  write_through_trouble (f, store, limit_file_size, CARPACE_STORE_FAILED);
}

static void
fill_disk (Fixture *f, bool on)
{
  g_autofree char *path = g_build_filename (f->folder, "filling", NULL);
  static const char page[4096];
  int fd;

  if (!on)
    {
      g_unlink (path);
      return;
    }
  fd = open (path, O_WRONLY | O_CREAT | O_APPEND, 0600);
  assert_true (fd >= 0);
  while (write (fd, page, sizeof page) > 0)
    ;
  assert_int_equal (errno, ENOSPC);
  close (fd);
}

static void
full_disk_body (Fixture *f)
{
  CarpaceDiaryStore *store = carpace_store_open (f->path, CARPACE_STORE_WRITING, note_told, &f->told);

  carpace_store_start_run (store, "boot", 0, moment (0));
  write_through_trouble (f, store, fill_disk, CARPACE_STORE_FULL);
}

/* A disk of 3 MiB of its own: a tmpfs in a mount namespace. */
static void
a_full_disk_loses_nothing (void **state)
{
  Fixture *f = *state;
  int home = open ("/proc/self/ns/mnt", O_RDONLY | O_CLOEXEC);

  if (unshare (CLONE_NEWNS) != 0 || mount ("none", "/", "none", MS_REC | MS_PRIVATE, NULL) != 0
      || mount ("tmpfs", f->folder, "tmpfs", 0, "size=3m") != 0)
    {
      print_message ("skipped: no disk can be mounted here (%s)\n", g_strerror (errno));
      skip ();
    }
  full_disk_body (f);
  umount (f->folder);
  setns (home, CLONE_NEWNS);
  close (home);
}

static bool
append_bytes (void *self, const char *bytes, size_t n)
{
  g_string_append_len (self, bytes, (gssize) n);
  return true;
}

static bool
refuse_bytes (void *self, const char *bytes, size_t n)
{
  return false;
}

static void
a_backup_is_the_diary (void **state)
{
  Fixture *f = *state;
  g_autofree char *copy = g_build_filename (f->folder, "copy.sqlite", NULL);
  CarpaceDiaryStore *store, *read;
  GString *bytes = g_string_new (NULL);
  CarpaceBytesOut to = { bytes, append_bytes }, nowhere = { NULL, refuse_bytes };

  make_diary (f);
  store = open_writing (f);
  assert_true (carpace_store_backup (store, &to));
  assert_false (carpace_store_backup (store, &nowhere));
  g_file_set_contents (copy, bytes->str, (gssize) bytes->len, NULL);
  g_string_free (bytes, TRUE);
  read = carpace_store_open (copy, CARPACE_STORE_READING, note_told, &f->told);
  assert_same_diary (store, read);
  carpace_store_close (read, false);
  carpace_store_close (store, true);
  assert_int_equal (f->told.n, 0);
}

static bool
anywhere (const char *folder, const char *needle)
{
  GDir *files = g_dir_open (folder, 0, NULL);
  const char *name;
  bool found = false;

  while ((name = g_dir_read_name (files)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *bytes = NULL;
      gsize n;

      if (g_file_get_contents (path, &bytes, &n, NULL))
        found = found || memmem (bytes, n, needle, strlen (needle)) != NULL;
    }
  g_dir_close (files);
  return found;
}

static void
erased_is_gone (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store;
  CarpaceDiaryKeeper keeper;
  CarpaceStore port;
  CarpaceResume resume;
  Seen seen;

  make_diary (f);
  store = open_writing (f);
  keeper = carpace_store_keeper (store);
  assert_true (keeper.note_day (keeper.self, SAMPLE_DAY, "QUITEUNMISTAKABLE"));
  assert_true (keeper.note_record (keeper.self, 2, "UNMISTAKABLETOO"));
  assert_true (anywhere (f->folder, "QUITEUNMISTAKABLE"));
  assert_true (anywhere (f->folder, "micro-rest") && anywhere (f->folder, "\nrows-from"));
  assert_int_equal (keeper.erase (keeper.self), CARPACE_ERASED);
  assert_false (anywhere (f->folder, "QUITEUNMISTAKABLE"));
  assert_false (anywhere (f->folder, "UNMISTAKABLETOO"));
  assert_false (anywhere (f->folder, "micro-rest"));
  assert_false (anywhere (f->folder, "\nrows-from"));
  seen = see (store);
  assert_int_equal (seen.records->len, 0);
  assert_int_equal (seen.sums->len, 0);
  seen_free (&seen);
  carpace_store_resume (store, &resume);
  assert_false (resume.known);
  carpace_store_resume_clear (&resume);
  /* and it goes on */
  port = carpace_store_port (store);
  keep_evening (&port, SAMPLE_DAY, 0, 1, 1);
  carpace_store_close (store, true);
  assert_int_equal (f->told.n, 0);
}

typedef struct
{
  Fixture *f;
  CarpaceDiaryStore *store; /* erased while it is read */
  int wait_ms;
  CarpaceErasing erasing;
  bool reads_on;            /* while another thread erases */
  GThread *thread;
} Reader;

static gpointer
erase_in_thread (gpointer user)
{
  Reader *reader = user;

  reader->erasing = carpace_store_erase (reader->store, reader->wait_ms);
  return NULL;
}

/* Called amid reading: what was read until now is held until reading ends. */
static bool
erase_meanwhile (void *user, const CarpaceRecord *record)
{
  Reader *reader = user;

  if (reader->reads_on)
    erase_in_thread (reader);
  else
    reader->thread = g_thread_new ("eraser", erase_in_thread, reader);
  return false;
}

static void
erase_before_a_reader (Fixture *f, Reader *reader)
{
  CarpaceDiaryStore *other;
  CarpaceDiaryKeeper keeper;
  CarpaceDiary diary;

  make_diary (f);
  reader->f = f;
  reader->store = open_writing (f);
  keeper = carpace_store_keeper (reader->store);
  assert_true (keeper.note_day (keeper.self, SAMPLE_DAY, "QUITEUNMISTAKABLE"));
  other = carpace_store_open (f->path, CARPACE_STORE_READING, note_told, &f->told);
  diary = carpace_store_diary (other);
  assert_true (diary.records (diary.self, INT32_MIN, INT32_MAX, erase_meanwhile, reader));
  g_clear_pointer (&reader->thread, g_thread_join);
  carpace_store_close (other, false);
}

/* A pager that holds an export: it is not said to be gone while it is not. */
static void
erased_while_somebody_reads (void **state)
{
  Fixture *f = *state;
  Reader reader = { .wait_ms = 20, .reads_on = true };
  Seen seen;

  erase_before_a_reader (f, &reader);
  assert_int_equal (reader.erasing, CARPACE_ERASE_HELD);
  seen = see (reader.store);
  assert_int_equal (seen.records->len, 15); /* nothing has changed */
  seen_free (&seen);
  assert_int_equal (carpace_store_erase (reader.store, reader.wait_ms), CARPACE_ERASED);
  assert_false (anywhere (f->folder, "QUITEUNMISTAKABLE"));
  assert_false (anywhere (f->folder, "micro-rest"));
  carpace_store_close (reader.store, true);
}

static void
erasing_waits_for_who_reads (void **state)
{
  Fixture *f = *state;
  Reader reader = { .wait_ms = 60000 };

  erase_before_a_reader (f, &reader);
  assert_int_equal (reader.erasing, CARPACE_ERASED);
  assert_false (anywhere (f->folder, "QUITEUNMISTAKABLE"));
  assert_false (anywhere (f->folder, "micro-rest"));
  carpace_store_close (reader.store, true);
}

/* What the program keeps beside the diary is of the player, too. */
static void
what_lies_beside_is_erased (void **state)
{
  static const char *const names[] = { CARPACE_STORE_DAY_PLAN, CARPACE_STORE_LAST_SEEN };
  Fixture *f = *state;
  CarpaceDiaryStore *store;

  make_diary (f);
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (f->folder, names[i], NULL);

      assert_true (g_file_set_contents (path, "QUITEUNMISTAKABLE", -1, NULL));
    }
  store = open_writing (f);
  assert_int_equal (carpace_store_erase (store, 0), CARPACE_ERASED);
  assert_false (anywhere (f->folder, "QUITEUNMISTAKABLE"));
  carpace_store_close (store, true);
}

static void
a_diary_that_is_not_there_is_empty (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store = carpace_store_open (f->path, CARPACE_STORE_READING, note_told, &f->told);
  Seen seen;

  assert_non_null (store);
  seen = see (store);
  assert_int_equal (seen.records->len, 0);
  seen_free (&seen);
  carpace_store_close (store, false);
  assert_int_equal (f->told.n, 0);
  assert_false (g_file_test (f->path, G_FILE_TEST_EXISTS));
}

/* ---- tried again ---- */

static CarpaceDiaryStore *
open_keeping (Fixture *f)
{
  CarpaceDiaryStore *store = carpace_store_open (f->path, CARPACE_STORE_KEEPING, note_told, &f->told);

  assert_non_null (store);
  return store;
}

static guint
records_in (CarpaceDiaryStore *store)
{
  Seen seen = see (store);
  guint n = seen.records->len;

  seen_free (&seen);
  return n;
}

/* What the file has, to who reads it. */
static guint
records_on_disk (Fixture *f)
{
  CarpaceDiaryStore *reader = carpace_store_open (f->path, CARPACE_STORE_READING, NULL, NULL);
  guint n = reader != NULL ? records_in (reader) : 0;

  carpace_store_close (reader, true);
  return n;
}

/* Started while another program holds the lock: it goes on from what can be read,
 * says so once, keeps what happens in memory, and all of it once the lock is free. */
static void
a_lock_that_is_held_is_waited_for (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *other, *store;
  CarpaceEntry rating = rating_of (moment (CARPACE_DAY_MS + MINUTE), 1, 3);
  CarpaceStore port;
  CarpaceResume resume;
  guint before;

  make_diary (f);
  before = records_on_disk (f);
  other = open_writing (f);
  store = open_keeping (f);
  port = carpace_store_port (store);
  assert_int_equal (f->told.n, 1);
  assert_int_equal (f->told.last, CARPACE_STORE_HELD);
  carpace_store_resume (store, &resume);
  assert_true (resume.known && resume.n_events > 0);
  carpace_store_resume_clear (&resume);
  carpace_store_start_run (store, "boot", 0, moment (CARPACE_DAY_MS));
  assert_false (keep_opening (&port, SAMPLE_DAY + 1, moment (CARPACE_DAY_MS), 60 * MINUTE));
  assert_false (keep (&port, CARPACE_EVENT_RATE, &rating));
  assert_false (carpace_store_retry (store));
  assert_int_equal (f->told.n, 1);
  assert_int_equal (records_in (store), before + 4);
  assert_int_equal (records_on_disk (f), before);
  carpace_store_close (other, true);
  assert_true (carpace_store_retry (store));
  assert_int_equal (f->told.n, 2);
  assert_int_equal (f->told.last, CARPACE_STORE_KEPT_AGAIN);
  assert_int_equal (records_on_disk (f), before + 4);
  assert_true (keep (&port, CARPACE_EVENT_RATE, &rating));
  assert_int_equal (records_on_disk (f), before + 5);
  carpace_store_close (store, true);
}

/* The folder is taken away under a running program: told at the next step, and all
 * that was in the diary is there again with the next try. */
static void
a_folder_that_is_gone_is_made_again (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store;
  CarpaceEntry rating = rating_of (moment (MINUTE), 1, 3);
  CarpaceStore port;
  guint before;
  struct stat is;

  make_diary (f);
  before = records_on_disk (f);
  store = open_keeping (f);
  port = carpace_store_port (store);
  carpace_store_start_run (store, "boot", 0, moment (0));
  assert_int_equal (f->told.n, 0);
  folder_free (g_strdup (f->folder));
  assert_false (g_file_test (f->folder, G_FILE_TEST_EXISTS));
  assert_false (keep (&port, CARPACE_EVENT_RATE, &rating));
  assert_false (keep (&port, CARPACE_EVENT_RATE, &rating));
  assert_int_equal (f->told.n, 1);
  assert_int_equal (f->told.last, CARPACE_STORE_GONE);
  assert_int_equal (records_in (store), before + 2);
  assert_true (carpace_store_retry (store));
  assert_int_equal (f->told.last, CARPACE_STORE_KEPT_AGAIN);
  assert_int_equal (records_on_disk (f), before + 2);
  assert_int_equal (stat (f->path, &is), 0);
  assert_int_equal (is.st_mode & 0777, 0600);
  assert_true (keep (&port, CARPACE_EVENT_RATE, &rating));
  carpace_store_close (store, true);
  assert_int_equal (records_on_disk (f), before + 3);
}

/* Nothing can be made there yet: it goes on waiting, and is told once. */
static void
a_folder_that_cannot_be_made_is_waited_for (void **state)
{
  Fixture *f = *state;
  CarpaceDiaryStore *store;
  CarpaceEntry rating = rating_of (moment (MINUTE), 1, 3);
  CarpaceStore port;

  make_diary (f);
  store = open_keeping (f);
  port = carpace_store_port (store);
  carpace_store_start_run (store, "boot", 0, moment (0));
  folder_free (g_strdup (f->folder));
  assert_true (g_file_set_contents (f->folder, "a file where the folder was", -1, NULL));
  assert_false (keep (&port, CARPACE_EVENT_RATE, &rating));
  assert_false (carpace_store_retry (store));
  assert_false (carpace_store_retry (store));
  assert_int_equal (f->told.n, 1);
  g_unlink (f->folder);
  assert_true (carpace_store_retry (store));
  assert_int_equal (f->told.n, 2);
  carpace_store_close (store, true);
}

static void
tries_come_ever_less_often (void **state)
{
  static const struct { int32_t nth; int64_t ms; } rows[] = {
    { 0, 2000 }, { 1, 4000 }, { 6, 128000 }, { 7, 256000 }, { 8, 300000 }, { 9, 300000 }, { INT32_MAX, 300000 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_int_equal (carpace_store_retry_after_ms (rows[i].nth), rows[i].ms);
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    TEST (garbage_is_left_alone),
    TEST (another_programs_database_is_left_alone),
    TEST (a_damaged_diary_is_left_alone),
    TEST (damage_inside_is_found_in_the_background),
    TEST (a_check_keeps_no_memory),
    TEST (a_newer_diary_is_only_read),
    TEST (a_read_only_folder_is_read),
    TEST (no_folder_to_write_in),
    TEST (a_limit_of_file_size_loses_nothing),
    TEST (a_full_disk_loses_nothing),
    TEST (a_backup_is_the_diary),
    TEST (erased_is_gone),
    TEST (erased_while_somebody_reads),
    TEST (erasing_waits_for_who_reads),
    TEST (what_lies_beside_is_erased),
    TEST (a_lock_that_is_held_is_waited_for),
    TEST (a_folder_that_is_gone_is_made_again),
    TEST (a_folder_that_cannot_be_made_is_waited_for),
    TEST (tries_come_ever_less_often),
    TEST (a_diary_that_is_not_there_is_empty),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
