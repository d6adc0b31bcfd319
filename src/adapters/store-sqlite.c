/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite.c: opening and closing the diary, and telling what is wrong with it. */
#define _GNU_SOURCE /* flock, O_NOFOLLOW */

#include "store-sqlite-private.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>

char *
carpace_store_path (void)
{
  return g_build_filename (g_get_user_state_dir (), "carpace", "diary.sqlite", NULL);
}

void
carpace_store_tell (CarpaceDiaryStore *store, CarpaceStoreTrouble trouble, const char *detail)
{
  g_autofree char *message = NULL;
  bool over = trouble == CARPACE_STORE_KEPT_AGAIN;

  if (over != store->in_trouble && trouble != CARPACE_STORE_DAMAGED_INSIDE)
    return;
  if (trouble != CARPACE_STORE_DAMAGED_INSIDE)
    store->in_trouble = !over;
  if (store->told == NULL)
    return;
  message = carpace_text_store_trouble (trouble, store->mode == CARPACE_STORE_READING, store->path, detail);
  store->told (store->user, trouble, message);
}

void
carpace_store_tell_result (CarpaceDiaryStore *store, int result)
{
  switch (result & 0xff)
    {
    case SQLITE_OK:
      break;
    case SQLITE_NOTADB:
    case SQLITE_CORRUPT:
      carpace_store_tell (store, CARPACE_STORE_DAMAGED, NULL);
      break;
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
      carpace_store_tell (store, CARPACE_STORE_READ_ONLY, NULL);
      break;
    case SQLITE_FULL:
      carpace_store_tell (store, CARPACE_STORE_FULL, NULL);
      break;
    default:
      carpace_store_tell (store, CARPACE_STORE_FAILED, sqlite3_errstr (result));
    }
}

/* The folder is the diary's own: nobody else looks into it. */
void
carpace_store_make_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  struct stat is;

  if (g_mkdir_with_parents (folder, 0700) == 0 && stat (folder, &is) == 0 && (is.st_mode & 077) != 0
      && is.st_uid == geteuid () && g_str_has_suffix (folder, "/carpace"))
    chmod (folder, 0700);
}

/* @return false where another program holds it; a lock that cannot be made is none */
bool
carpace_store_take_lock (CarpaceDiaryStore *store)
{
  g_autofree char *path = g_strconcat (store->path, ".lock", NULL);

  if (store->lock_fd >= 0)
    close (store->lock_fd);
  store->lock_fd = open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (store->lock_fd < 0)
    return true;
  if (flock (store->lock_fd, LOCK_EX | LOCK_NB) == 0)
    return true;
  return errno != EWOULDBLOCK;
}

/* SQLite gives the files beside it the same mode. */
void
carpace_store_make_file (const char *path)
{
  int fd = open (path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);

  if (fd >= 0)
    close (fd);
}

static bool
sound_enough (CarpaceDiaryStore *store, int64_t *ret_version)
{
  int64_t application = 0, tables = 0;
  int result = carpace_store_sql_number (store->db, "PRAGMA application_id", &application);

  *ret_version = 0;
  if (result == SQLITE_OK)
    result = carpace_store_sql_number (store->db, "PRAGMA user_version", ret_version);
  if (result == SQLITE_OK)
    result = carpace_store_sql_number (store->db, "SELECT count (*) FROM sqlite_schema", &tables);
  if (result == SQLITE_NOTADB || (result == SQLITE_OK && tables > 0 && application != CARPACE_STORE_APPLICATION))
    {
      carpace_store_tell (store, CARPACE_STORE_NOT_A_DIARY, NULL);
      return false;
    }
  carpace_store_tell_result (store, result);
  return result == SQLITE_OK;
}

static int
connect_to (CarpaceDiaryStore *store, int flags, bool unchanging)
{
  g_autofree char *escaped = g_uri_escape_string (store->path, "/", FALSE);
  g_autofree char *uri = g_strdup_printf ("file:%s%s", escaped, unchanging ? "?immutable=1" : "");
  int result = sqlite3_open_v2 (uri, &store->db, flags | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX, NULL);

  if (result == SQLITE_OK)
    result = carpace_store_sql_setup (store->db, false);
  /* opens the file and what is beside it */
  if (result == SQLITE_OK)
    result = sqlite3_exec (store->db, "SELECT count (*) FROM sqlite_schema", NULL, NULL, NULL);
  if (result != SQLITE_OK)
    g_clear_pointer (&store->db, sqlite3_close);
  return result;
}

static bool
has_log (const CarpaceDiaryStore *store)
{
  g_autofree char *log = g_strconcat (store->path, "-wal", NULL);
  struct stat is;

  return stat (log, &is) == 0 && is.st_size > 0;
}

/* Where nothing can be written beside the file, SQLite has to be promised that
 * nobody writes it: true where there is no log. */
static int
connect_reading (CarpaceDiaryStore *store)
{
  int result = connect_to (store, SQLITE_OPEN_READONLY, false);

  if (((result & 0xff) == SQLITE_CANTOPEN || (result & 0xff) == SQLITE_READONLY) && !has_log (store)
      && g_file_test (store->path, G_FILE_TEST_EXISTS))
    result = connect_to (store, SQLITE_OPEN_READONLY, true);
  return result;
}

/* An older diary is read from a copy in memory, brought up to this version. */
static bool
read_older (CarpaceDiaryStore *store)
{
  sqlite3 *file = g_steal_pointer (&store->db);
  int result = sqlite3_open_v2 (":memory:", &store->db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);
  sqlite3_backup *copying = NULL;

  if (result == SQLITE_OK)
    copying = sqlite3_backup_init (store->db, "main", file, "main");
  if (copying != NULL)
    {
      sqlite3_backup_step (copying, -1);
      result = sqlite3_backup_finish (copying);
    }
  sqlite3_close (file);
  if (result == SQLITE_OK)
    result = carpace_store_sql_migrate (store);
  carpace_store_tell_result (store, result);
  return result == SQLITE_OK && copying != NULL;
}

bool
carpace_store_is_empty (const char *path)
{
  struct stat is;

  return stat (path, &is) != 0 ? errno == ENOENT : is.st_size == 0;
}

static bool
read_connected (CarpaceDiaryStore *store, int result)
{
  int64_t version;

  if (result == SQLITE_NOTADB)
    carpace_store_tell (store, CARPACE_STORE_NOT_A_DIARY, NULL);
  else
    carpace_store_tell_result (store, result);
  if (result != SQLITE_OK || !sound_enough (store, &version))
    return false;
  return (version >= CARPACE_STORE_SCHEMA && carpace_store_sql_whole (store)) || read_older (store);
}

static bool
open_reading (CarpaceDiaryStore *store)
{
  if (carpace_store_is_empty (store->path))
    return true;
  return read_connected (store, connect_reading (store));
}

/* SQLite's own copy of them, without what tells of a log. */
static int
connect_bytes (CarpaceDiaryStore *store, const char *bytes, size_t n)
{
  unsigned char *copy = sqlite3_malloc64 (n);
  int result = sqlite3_open_v2 (":memory:", &store->db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);

  if (result == SQLITE_OK && copy == NULL)
    result = SQLITE_NOMEM;
  if (result == SQLITE_OK)
    result = carpace_store_sql_setup (store->db, false);
  if (result != SQLITE_OK)
    {
      sqlite3_free (copy);
      return result;
    }
  memcpy (copy, bytes, n);
  carpace_store_without_log (copy, (sqlite3_int64) n);
  result = sqlite3_deserialize (store->db, "main", copy, (sqlite3_int64) n, (sqlite3_int64) n,
                                SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_READONLY);
  return result == SQLITE_OK ? sqlite3_exec (store->db, "SELECT count (*) FROM sqlite_schema", NULL, NULL, NULL) : result;
}

void
carpace_store_close_db (CarpaceDiaryStore *store)
{
  carpace_store_sql_finalize (store);
  g_clear_pointer (&store->db, sqlite3_close);
  store->writable = false;
}

/* Whether @store's file may be written; if not, it has been told why. */
static bool
open_for_writing (CarpaceDiaryStore *store)
{
  int64_t version;
  int result = connect_to (store, SQLITE_OPEN_READWRITE, false);

  if (result == SQLITE_NOTADB)
    carpace_store_tell (store, CARPACE_STORE_NOT_A_DIARY, NULL);
  else
    carpace_store_tell_result (store, result);
  if (result != SQLITE_OK || !sound_enough (store, &version))
    return false;
  if (version > CARPACE_STORE_SCHEMA)
    carpace_store_tell (store, CARPACE_STORE_NEWER, NULL);
  else if (sqlite3_db_readonly (store->db, "main") == 1)
    carpace_store_tell (store, CARPACE_STORE_READ_ONLY, NULL);
  else
    {
      result = carpace_store_sql_setup (store->db, true);
      if (result == SQLITE_OK)
        result = carpace_store_sql_migrate (store);
      if (result == SQLITE_OK && !carpace_store_ensure_whose (store))
        result = sqlite3_extended_errcode (store->db);
      carpace_store_tell_result (store, result);
      return result == SQLITE_OK;
    }
  return false;
}

static void
know_file (CarpaceDiaryStore *store)
{
  struct stat is;

  if (stat (store->path, &is) == 0)
    {
      store->file[0] = is.st_dev;
      store->file[1] = is.st_ino;
    }
}

bool
carpace_store_in_place (CarpaceDiaryStore *store)
{
  struct stat is;

  if (store->in_memory
      || (stat (store->path, &is) == 0 && is.st_dev == store->file[0] && is.st_ino == store->file[1]))
    return true;
  carpace_store_tell (store, CARPACE_STORE_GONE, NULL);
  return false;
}

void
carpace_store_open_writing (CarpaceDiaryStore *store)
{
  carpace_store_make_file (store->path);
  store->writable = open_for_writing (store);
  if (store->writable)
    {
      know_file (store);
      return;
    }
  /* what can still be read of it is */
  carpace_store_close_db (store);
  if (!carpace_store_is_empty (store->path) && !open_reading (store))
    carpace_store_close_db (store);
}

static CarpaceDiaryStore *
store_new (const char *path, CarpaceStoreMode mode, CarpaceStoreTold told, void *user)
{
  CarpaceDiaryStore *store = g_new0 (CarpaceDiaryStore, 1);

  store->path = g_strdup (path);
  store->mode = mode;
  store->lock_fd = -1;
  store->told = told;
  store->user = user;
  store->day = CARPACE_NO_DAY;
  store->context = g_main_context_ref_thread_default ();
  store->waiting = g_ptr_array_new_with_free_func (carpace_store_step_free);
  return store;
}

CarpaceDiaryStore *
carpace_store_open (const char *path, CarpaceStoreMode mode, CarpaceStoreTold told, void *user)
{
  CarpaceDiaryStore *store = store_new (path, mode, told, user);
  bool there = true;

  if (mode != CARPACE_STORE_READING)
    {
      carpace_store_make_folder (path);
      store->locked = carpace_store_take_lock (store);
      there = store->locked || mode == CARPACE_STORE_KEEPING;
      if (store->locked)
        carpace_store_open_writing (store);
      else
        carpace_store_tell (store, there ? CARPACE_STORE_HELD : CARPACE_STORE_IN_USE, NULL);
      if (!store->locked && there && !open_reading (store))
        carpace_store_close_db (store); /* what can be read of it is */
    }
  else
    there = open_reading (store);
  if (!there)
    {
      carpace_store_close (store, false);
      return NULL;
    }
  if (store->db != NULL)
    {
      store->last_record = carpace_store_sql_last_record (store->db);
      carpace_store_load_day (store);
    }
  return store;
}

CarpaceDiaryStore *
carpace_store_open_bytes (const char *path, const char *bytes, size_t n, CarpaceStoreTold told, void *user)
{
  CarpaceDiaryStore *store = store_new (path, CARPACE_STORE_READING, told, user);

  if (has_log (store) ? open_reading (store) : read_connected (store, connect_bytes (store, bytes, n)))
    return store;
  carpace_store_close (store, false);
  return NULL;
}

CarpaceDiaryStore *
carpace_store_open_scratch (CarpaceStoreTold told, void *user)
{
  CarpaceDiaryStore *store = store_new (":memory:", CARPACE_STORE_WRITING, told, user);
  int result = sqlite3_open_v2 (store->path, &store->db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);

  store->in_memory = true;
  if (result == SQLITE_OK)
    result = carpace_store_sql_setup (store->db, true);
  if (result == SQLITE_OK)
    result = carpace_store_sql_migrate (store);
  store->writable = result == SQLITE_OK && carpace_store_ensure_whose (store);
  if (store->writable)
    return store;
  carpace_store_tell_result (store, result);
  carpace_store_close (store, false);
  return NULL;
}

/* Source: SQLite, "Database File Format", 1.3: the header string. */
bool
carpace_store_is_backup (const char *bytes, size_t n)
{
  static const char magic[] = "SQLite format 3";

  return n >= sizeof magic && memcmp (bytes, magic, sizeof magic) == 0;
}

void
carpace_store_close (CarpaceDiaryStore *store, bool ended_well)
{
  if (store == NULL)
    return;
  carpace_store_check_end (store);
  if (store->waiting->len > 0)
    carpace_store_write_waiting (store);
  if (ended_well && store->writable && store->run != 0)
    {
      sqlite3_stmt *statement = carpace_store_sql (store, SQL_END_RUN);

      sqlite3_bind_int64 (statement, 1, store->run);
      carpace_store_done (statement);
    }
  carpace_store_close_db (store);
  if (store->lock_fd >= 0)
    close (store->lock_fd);
  carpace_store_step_free (store->step);
  carpace_store_plan_free (store->day_plan);
  g_ptr_array_unref (store->waiting);
  g_main_context_unref (store->context);
  g_free (store->path);
  g_free (store);
}

void
carpace_store_end (void *store)
{
  carpace_store_close (store, true);
}
