/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-resume.c: runs of the program, and what to go on from. */
#include "store-sqlite-private.h"

#include <string.h>

#include "carpace/dose.h"

bool
carpace_store_write_run (CarpaceDiaryStore *store)
{
  sqlite3_stmt *statement;

  if (store->run != 0 || !store->run_known)
    return true;
  statement = carpace_store_sql (store, SQL_ADD_RUN);
  if (statement == NULL)
    return false;
  sqlite3_bind_text (statement, 1, store->boot_id, -1, SQLITE_STATIC);
  sqlite3_bind_int64 (statement, 2, store->base_ms);
  carpace_store_bind_instant (statement, 3, store->run_began);
  if (!carpace_store_done (statement))
    return false;
  store->run = sqlite3_last_insert_rowid (store->db);
  return true;
}

bool
carpace_store_write_kept (CarpaceDiaryStore *store, const CarpaceStoreStep *step)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_KEPT);
  CarpaceInstant at = step->events->len > 0    ? g_array_index (step->events, CarpaceStoreEvent, 0).at
                      : step->records->len > 0 ? g_array_index (step->records, CarpaceStoreRecord, 0).entry.at
                                               : step->at;

  if (statement == NULL)
    return false;
  sqlite3_bind_int64 (statement, 1, store->run);
  sqlite3_bind_int64 (statement, 2, at.elapsed_ms);
  return carpace_store_done (statement);
}

void
carpace_store_start_run (CarpaceDiaryStore *store, const char *boot_id, int64_t base_ms, CarpaceInstant now)
{
  store->run_known = true;
  g_strlcpy (store->boot_id, boot_id, sizeof store->boot_id);
  store->base_ms = base_ms;
  store->run_began = now;
  store->run = 0;
  carpace_store_write_waiting (store);
}

void
carpace_store_alive (CarpaceDiaryStore *store, CarpaceInstant now)
{
  sqlite3_stmt *statement;

  store->run_began = store->run == 0 ? now : store->run_began;
  if (store->waiting->len > 0)
    carpace_store_write_waiting (store);
  if (store->run == 0 || !store->writable || !carpace_store_in_place (store))
    return;
  statement = carpace_store_sql (store, SQL_ALIVE);
  if (statement == NULL)
    return;
  sqlite3_bind_int64 (statement, 1, store->run);
  carpace_store_bind_instant (statement, 2, now);
  /* The one mark that may be lost: it does not wait for the disk. */
  sqlite3_exec (store->db, "PRAGMA synchronous = NORMAL", NULL, NULL, NULL);
  if (!carpace_store_done (statement))
    carpace_store_tell_result (store, sqlite3_extended_errcode (store->db));
  sqlite3_exec (store->db, "PRAGMA synchronous = FULL", NULL, NULL, NULL);
}

bool
carpace_store_last_clock (const CarpaceDiaryStore *store, int64_t *ret_base_ms, char *ret_boot_id, size_t boot_id_bytes)
{
  sqlite3_stmt *statement = carpace_store_sql ((CarpaceDiaryStore *) store, SQL_LAST_RUN);
  bool found = statement != NULL && sqlite3_step (statement) == SQLITE_ROW;

  if (found)
    {
      g_strlcpy (ret_boot_id, (const char *) sqlite3_column_text (statement, 0), boot_id_bytes);
      *ret_base_ms = sqlite3_column_int64 (statement, 1);
    }
  if (statement != NULL)
    sqlite3_reset (statement);
  return found;
}

static void
bind_kind (sqlite3_stmt *statement, int place, CarpaceEventKind kind)
{
  sqlite3_bind_text (statement, place, carpace_name (CARPACE_WORDS_EVENT, (int32_t) kind), -1, SQLITE_STATIC);
}

static void
bind_event (sqlite3_stmt *statement, const CarpaceEvent *event)
{
  int32_t n;
  const CarpaceField *field = carpace_event_fields (event->kind, &n);

  bind_kind (statement, 5, event->kind);
  for (int32_t i = 0; i < n; i++)
    {
      g_autofree char *place = g_strconcat (":", field[i].name, NULL);

      carpace_store_bind_field (statement, sqlite3_bind_parameter_index (statement, place), &field[i], event);
    }
}

bool
carpace_store_write_event (CarpaceDiaryStore *store, const CarpaceStoreEvent *event, int64_t *ret_id)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_ADD_EVENT);

  if (statement == NULL)
    return false;
  sqlite3_bind_int64 (statement, 1, store->run);
  carpace_store_bind_instant (statement, 2, event->at);
  bind_event (statement, &event->event);
  if (!carpace_store_done (statement))
    return false;
  *ret_id = sqlite3_last_insert_rowid (store->db);
  return true;
}

bool
carpace_store_write_opening (CarpaceDiaryStore *store, const CarpaceStoreStep *step, int64_t first_event)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_ADD_OPENING);

  if (statement == NULL)
    return false;
  sqlite3_bind_int (statement, 1, step->day);
  carpace_store_bind_instant (statement, 2, step->at);
  if (first_event != 0)
    sqlite3_bind_int64 (statement, 5, first_event);
  sqlite3_bind_text (statement, 6, step->history, -1, SQLITE_STATIC);
  return carpace_store_done (statement) && carpace_store_write_day_plan (store, step->plan, step->at)
         && carpace_store_run_sql (store, SQL_PRUNE_EVENTS)
         && carpace_store_run_sql (store, SQL_PRUNE_OPENINGS);
}

void
carpace_store_load_day (CarpaceDiaryStore *store)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_LAST_OPENING);

  if (statement == NULL)
    return;
  if (sqlite3_step (statement) == SQLITE_ROW)
    store->day = sqlite3_column_int (statement, 0);
  sqlite3_reset (statement);
}

static int
column_named (sqlite3_stmt *statement, const char *name)
{
  for (int i = 0; i < sqlite3_column_count (statement); i++)
    if (strcmp (sqlite3_column_name (statement, i), name) == 0)
      return i;
  return -1;
}

/* An event that holds what this program does not know is left out: a session
 * that is gone on with must not be told half of what was said. */
static bool
read_event (sqlite3_stmt *statement, CarpaceEvent *ret_event)
{
  const char *word = (const char *) sqlite3_column_text (statement, 3);
  int32_t kind = word == NULL ? -1 : carpace_name_value (CARPACE_WORDS_EVENT, word), n;
  const CarpaceField *field;

  if (kind < 0)
    return false;
  carpace_event_init (ret_event, (CarpaceEventKind) kind);
  field = carpace_event_fields (ret_event->kind, &n);
  for (int32_t i = 0; i < n; i++)
    if (!carpace_store_read_field (statement, column_named (statement, field[i].name), &field[i], ret_event))
      return false;
  return true;
}

bool
carpace_store_read_events (CarpaceDiaryStore *store, int64_t from, GArray *events)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_EVENTS_FROM);
  CarpaceStoreEvent event;
  int result;

  if (statement == NULL)
    return store->db == NULL;
  sqlite3_bind_int64 (statement, 1, from);
  while ((result = sqlite3_step (statement)) == SQLITE_ROW)
    if (read_event (statement, &event.event))
      {
        event.at = carpace_store_column_instant (statement, 0);
        g_array_append_val (events, event);
      }
  sqlite3_reset (statement);
  return result == SQLITE_DONE;
}

static void
load_events (CarpaceDiaryStore *store, int64_t from, CarpaceResume *resume)
{
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (CarpaceStoreEvent));
  CarpaceEvent *event;
  CarpaceInstant *at;

  carpace_store_read_events (store, from, events);
  resume->n_events = events->len;
  resume->event = event = g_new (CarpaceEvent, events->len + 1);
  resume->at = at = g_new (CarpaceInstant, events->len + 1);
  for (guint i = 0; i < events->len; i++)
    {
      event[i] = g_array_index (events, CarpaceStoreEvent, i).event;
      at[i] = g_array_index (events, CarpaceStoreEvent, i).at;
    }
}

bool
carpace_store_kept (CarpaceDiaryStore *store, int64_t elapsed_ms)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_KEPT_LAST);

  if (statement == NULL)
    return false;
  sqlite3_bind_int64 (statement, 1, elapsed_ms);
  return carpace_store_done (statement);
}

bool
carpace_store_read_alive (CarpaceDiaryStore *store, CarpaceInstant *ret_at, bool *ret_ended_well)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_LAST_RUN);
  bool found = statement != NULL && sqlite3_step (statement) == SQLITE_ROW;

  if (found)
    {
      *ret_at = carpace_store_column_instant (statement, 2);
      *ret_ended_well = sqlite3_column_int (statement, 5) != 0;
    }
  if (statement != NULL)
    sqlite3_reset (statement);
  return found;
}

/* What replay starts from. Before a first day is opened it is nothing, and all events. */
static int64_t
load_opening (CarpaceDiaryStore *store, CarpaceResume *resume)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_LAST_OPENING);
  int64_t first_event = 0;

  if (statement == NULL)
    return 0;
  if (sqlite3_step (statement) == SQLITE_ROW)
    {
      const char *history = (const char *) sqlite3_column_text (statement, 2);

      if (history != NULL && carpace_history_read (history, &resume->history))
        first_event = sqlite3_column_int64 (statement, 1);
      else
        carpace_store_tell (store, CARPACE_STORE_DAMAGED_INSIDE, NULL);
    }
  sqlite3_reset (statement);
  return first_event;
}

/* Since when it was on air as the event @before came: the first that said so since it was last ended. */
static bool
load_stream (CarpaceDiaryStore *store, int64_t before, CarpaceInstant *ret_since)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_ON_AIR_AT);
  bool on_air;

  if (statement == NULL)
    return false;
  sqlite3_bind_int64 (statement, 1, before);
  bind_kind (statement, 2, CARPACE_EVENT_ON_AIR);
  bind_kind (statement, 3, CARPACE_EVENT_OFF_AIR);
  on_air = sqlite3_step (statement) == SQLITE_ROW;
  if (on_air)
    *ret_since = carpace_store_column_instant (statement, 0);
  sqlite3_reset (statement);
  return on_air;
}

void
carpace_store_resume (CarpaceDiaryStore *store, CarpaceResume *ret_resume)
{
  sqlite3_stmt *statement;
  int64_t first;

  memset (ret_resume, 0, sizeof *ret_resume);
  carpace_history_init (&ret_resume->history);
  first = load_opening (store, ret_resume);
  ret_resume->stream_known = load_stream (store, first, &ret_resume->stream);
  load_events (store, first, ret_resume);
  statement = carpace_store_sql (store, SQL_LAST_RUN);
  if (statement != NULL && sqlite3_step (statement) == SQLITE_ROW)
    {
      ret_resume->known = true;
      ret_resume->alive = ret_resume->last = carpace_store_column_instant (statement, 2);
      ret_resume->ended_well = sqlite3_column_int (statement, 5) != 0;
      ret_resume->kept_ms = sqlite3_column_int64 (statement, 6);
    }
  if (statement != NULL)
    sqlite3_reset (statement);
  if (ret_resume->n_events > 0)
    {
      ret_resume->known = true;
      ret_resume->last = ret_resume->at[ret_resume->n_events - 1];
    }
  if (ret_resume->last.elapsed_ms > ret_resume->alive.elapsed_ms)
    ret_resume->alive = ret_resume->last;
}

void
carpace_store_resume_clear (CarpaceResume *resume)
{
  g_free ((CarpaceEvent *) resume->event);
  g_free ((CarpaceInstant *) resume->at);
  resume->event = NULL;
  resume->at = NULL;
  resume->n_events = 0;
}
