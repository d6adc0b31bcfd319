/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-retry.c: another try where the diary cannot be written. */
#include "store-sqlite-private.h"

#define FIRST_MS (2 * CARPACE_SECOND_MS)
#define LONGEST_MS (5 * CARPACE_MINUTE_MS)

int64_t
carpace_store_retry_after_ms (int32_t nth)
{
  int64_t ms = FIRST_MS;

  for (; nth > 0 && ms < LONGEST_MS; nth--)
    ms *= 2;
  return MIN (ms, LONGEST_MS);
}

/* Copies the file that is still open, though its name is gone, to its place. */
static bool
copy_to_place (CarpaceDiaryStore *store)
{
  sqlite3 *to = NULL;
  sqlite3_backup *copying = NULL;
  int result;

  carpace_store_make_file (store->path);
  result = sqlite3_open_v2 (store->path, &to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);
  if (result == SQLITE_OK)
    copying = sqlite3_backup_init (to, "main", store->db, "main");
  if (copying != NULL)
    {
      sqlite3_backup_step (copying, -1);
      result = sqlite3_backup_finish (copying);
    }
  sqlite3_close (to);
  return result == SQLITE_OK && copying != NULL;
}

/* Folder, lock and file anew. What stands there by now, put back by somebody, is
 * gone on with; else all that was in the file that is still open. */
static bool
put_in_place (CarpaceDiaryStore *store)
{
  carpace_store_check_end (store);
  carpace_store_sql_finalize (store);
  carpace_store_make_folder (store->path);
  store->locked = carpace_store_take_lock (store);
  if (!store->locked)
    return false;
  if (!carpace_store_is_empty (store->path))
    store->run = 0; /* another diary: this run begins in it */
  else if (!copy_to_place (store))
    return false;
  carpace_store_close_db (store);
  return true;
}

bool
carpace_store_retry (CarpaceDiaryStore *store)
{
  if (store->mode == CARPACE_STORE_READING)
    return true;
  if (store->writable && !carpace_store_in_place (store) && !put_in_place (store))
    return false;
  if (!store->writable)
    {
      carpace_store_make_folder (store->path);
      store->locked = store->locked && store->lock_fd >= 0 ? true : carpace_store_take_lock (store);
      if (!store->locked)
        return false;
      carpace_store_close_db (store);
      carpace_store_open_writing (store);
      if (!store->writable)
        return false;
      store->last_record = carpace_store_sql_last_record (store->db);
    }
  return carpace_store_write_waiting (store);
}
