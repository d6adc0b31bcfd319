/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-care.c: the file looked through, copied, erased. */
#define _GNU_SOURCE /* O_NOFOLLOW */

#include "store-sqlite-private.h"

#include <errno.h>
#include <fcntl.h>
#include <unistd.h>

#include <glib/gstdio.h>

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
  return NULL;
}

void
carpace_store_check_in_background (CarpaceDiaryStore *store)
{
  struct CarpaceStoreCheck *check;

  if (store->check != NULL || store->db == NULL)
    return;
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

static bool
copy_into (CarpaceDiaryStore *store, const char *path)
{
  sqlite3 *copy = NULL;
  sqlite3_backup *copying = NULL;
  int result = sqlite3_open_v2 (path, &copy, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);

  if (result == SQLITE_OK)
    copying = sqlite3_backup_init (copy, "main", store->db, "main");
  if (copying != NULL)
    {
      sqlite3_backup_step (copying, -1);
      result = sqlite3_backup_finish (copying);
    }
  /* a backup is one file: no log beside it */
  if (result == SQLITE_OK && copying != NULL)
    result = sqlite3_exec (copy, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL);
  if (sqlite3_close (copy) != SQLITE_OK || result != SQLITE_OK || copying == NULL)
    return false;
  return true;
}

bool
carpace_store_backup (CarpaceDiaryStore *store, const char *path)
{
  int fd;

  if (store->db == NULL)
    return false;
  fd = open (path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (fd < 0)
    return false;
  close (fd);
  if (copy_into (store, path))
    return true;
  /* this call made it */
  g_unlink (path);
  return false;
}

bool
carpace_store_erase (CarpaceDiaryStore *store)
{
  int result;

  if (!store->writable)
    return false;
  carpace_store_check_end (store);
  carpace_store_sql_finalize (store);
  result = carpace_store_sql_empty (store->db);
  if (result != SQLITE_OK)
    {
      carpace_store_tell_result (store, result);
      return false;
    }
  g_ptr_array_set_size (store->waiting, 0);
  store->run = 0;
  store->last_record = 0;
  store->day = CARPACE_NO_DAY;
  return true;
}
