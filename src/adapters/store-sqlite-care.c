/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-care.c: the file looked through, copied, erased. */
#include "store-sqlite-private.h"

#include <glib/gstdio.h>
#include <malloc.h>

/** A check under way, or done. */
struct CarpaceStoreCheck
{
  GThread *thread;
  sqlite3 *db;     /* the thread's own from its start to its end */
  int stop;        /* atomic */
  char *found;
  GSource *telling;
};

static int
asked_to_stop (void *user)
{
  struct CarpaceStoreCheck *check = user;

  return g_atomic_int_get (&check->stop);
}

static gboolean
tell_found (gpointer user)
{
  carpace_store_tell (user, CARPACE_STORE_DAMAGED_INSIDE, NULL);
  return G_SOURCE_REMOVE;
}

/* What was allocated and freed again stays the process's, page by page, unless this is said. */
static void
give_pages_back (void)
{
#ifdef __GLIBC__
  malloc_trim (0);
#endif
}

static gpointer
look_through (gpointer user)
{
  CarpaceDiaryStore *store = user;
  struct CarpaceStoreCheck *check = store->check;
  int result = carpace_store_sql_quick_check (check->db, &check->found);

  if (check->found == NULL && ((result & 0xff) == SQLITE_CORRUPT || (result & 0xff) == SQLITE_NOTADB))
    check->found = g_strdup (sqlite3_errstr (result));
  if (check->found != NULL)
    {
      check->telling = g_idle_source_new ();
      g_source_set_callback (check->telling, tell_found, store, NULL);
      g_source_attach (check->telling, store->context);
    }
  g_clear_pointer (&check->db, sqlite3_close); /* with the pages that it read */
  give_pages_back ();
  return NULL;
}

void
carpace_store_check_in_background (CarpaceDiaryStore *store)
{
  struct CarpaceStoreCheck *check;

  if (store->check != NULL || store->db == NULL)
    return;
  sqlite3_db_release_memory (store->db); /* what a start reads, hardly anything reads again */
  check = g_new0 (struct CarpaceStoreCheck, 1);
  if (sqlite3_open_v2 (store->path, &check->db, SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    {
      sqlite3_close (check->db);
      g_free (check);
      return;
    }
  carpace_store_sql_setup (check->db, false);
  sqlite3_progress_handler (check->db, 10000, asked_to_stop, check);
  store->check = check;
  check->thread = g_thread_new ("diary-check", look_through, store);
}

char *
carpace_store_check_wait (CarpaceDiaryStore *store)
{
  struct CarpaceStoreCheck *check = store->check;

  if (check == NULL)
    return NULL;
  g_clear_pointer (&check->thread, g_thread_join);
  return g_strdup (check->found);
}

void
carpace_store_check_end (CarpaceDiaryStore *store)
{
  struct CarpaceStoreCheck *check = g_steal_pointer (&store->check);

  if (check == NULL)
    return;
  g_atomic_int_set (&check->stop, 1);
  g_clear_pointer (&check->thread, g_thread_join);
  if (check->telling != NULL)
    {
      g_source_destroy (check->telling);
      g_source_unref (check->telling);
    }
  sqlite3_close (check->db);
  g_free (check->found);
  g_free (check);
}

/* Bytes 18 and 19 of a file tell how it is written: 1 without a log, 2 with one.
 * SQLite, "Database File Format", 1.3.3. A backup is one file. */
void
carpace_store_without_log (unsigned char *bytes, sqlite3_int64 n)
{
  if (n > 19)
    bytes[18] = bytes[19] = 1;
}

static int
copy_into (CarpaceDiaryStore *store, sqlite3 *copy)
{
  sqlite3_backup *copying = sqlite3_backup_init (copy, "main", store->db, "main");

  if (copying == NULL)
    return SQLITE_ERROR;
  sqlite3_backup_step (copying, -1);
  return sqlite3_backup_finish (copying);
}

bool
carpace_store_backup (CarpaceDiaryStore *store, const CarpaceBytesOut *to)
{
  sqlite3 *copy = NULL;
  unsigned char *bytes = NULL;
  sqlite3_int64 n = 0;
  bool done = false;

  if (store->db == NULL)
    return false;
  if (sqlite3_open_v2 (":memory:", &copy, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) == SQLITE_OK
      && copy_into (store, copy) == SQLITE_OK)
    bytes = sqlite3_serialize (copy, "main", &n, 0);
  if (bytes != NULL)
    {
      carpace_store_without_log (bytes, n);
      done = to->write (to->self, (const char *) bytes, (size_t) n);
    }
  sqlite3_free (bytes);
  sqlite3_close (copy);
  return done;
}

static void
erase_beside (CarpaceDiaryStore *store)
{
  static const char *const names[] = { CARPACE_STORE_DAY_PLAN, CARPACE_STORE_LAST_SEEN };
  g_autofree char *folder = g_path_get_dirname (store->path);

  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);

      g_unlink (path);
    }
}

static CarpaceErasing
erasing_failed (CarpaceDiaryStore *store, int result)
{
  carpace_store_tell_result (store, result);
  return CARPACE_ERASE_FAILED;
}

/* While somebody reads, what they read stays in the log or the file, whatever is
 * deleted: the log is folded before, so that nothing has changed where they do
 * not end, and after. */
static CarpaceErasing
empty_file (CarpaceDiaryStore *store)
{
  bool done;
  int result = carpace_store_sql_fold_log (store->db, &done);

  if (result != SQLITE_OK)
    return erasing_failed (store, result);
  if (!done)
    return CARPACE_ERASE_HELD;
  result = carpace_store_sql_empty (store->db);
  if (result != SQLITE_OK)
    return (result & 0xff) == SQLITE_BUSY ? CARPACE_ERASE_HELD : erasing_failed (store, result);
  result = carpace_store_sql_fold_log (store->db, &done);
  return result == SQLITE_OK && done ? CARPACE_ERASED : CARPACE_ERASE_LEFT;
}

CarpaceErasing
carpace_store_erase (CarpaceDiaryStore *store, int wait_ms)
{
  CarpaceErasing erasing;

  if (!store->writable)
    return CARPACE_ERASE_FAILED;
  carpace_store_check_end (store);
  carpace_store_sql_finalize (store);
  sqlite3_busy_timeout (store->db, wait_ms);
  erasing = empty_file (store);
  sqlite3_busy_timeout (store->db, CARPACE_STORE_BUSY_MS);
  if (erasing != CARPACE_ERASED && erasing != CARPACE_ERASE_LEFT)
    return erasing;
  erase_beside (store);
  g_ptr_array_set_size (store->waiting, 0);
  store->run = 0;
  store->last_record = 0;
  store->day = CARPACE_NO_DAY;
  return erasing;
}
