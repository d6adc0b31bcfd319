/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-write.c: steps into the file. */
#include "store-sqlite-private.h"

#include "carpace/dose.h"

#define STEPS_AT_ONCE 16

CarpaceStoreStep *
carpace_store_step_new (void)
{
  CarpaceStoreStep *step = g_new0 (CarpaceStoreStep, 1);

  step->events = g_array_new (FALSE, FALSE, sizeof (CarpaceStoreEvent));
  step->records = g_array_new (FALSE, FALSE, sizeof (CarpaceStoreRecord));
  return step;
}

void
carpace_store_step_free (void *step)
{
  CarpaceStoreStep *s = step;

  if (s == NULL)
    return;
  g_array_unref (s->events);
  g_array_unref (s->records);
  g_free (s->history);
  carpace_store_plan_free (s->plan);
  g_free (s);
}

bool
carpace_store_write_record (CarpaceDiaryStore *store, CarpaceDay day, const CarpaceEntry *entry)
{
  sqlite3_stmt *statement = carpace_store_sql_add (store, entry->kind);
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);

  if (statement == NULL)
    return false;
  sqlite3_bind_int64 (statement, 1, store->last_record + 1);
  sqlite3_bind_int64 (statement, 2, day);
  carpace_store_bind_instant (statement, 3, entry->at);
  for (int32_t i = 0; i < n; i++)
    carpace_store_bind_field (statement, 6 + i, &field[i], entry);
  if (!carpace_store_done (statement))
    return false;
  store->last_record++;
  return true;
}

static bool
write_events (CarpaceDiaryStore *store, const CarpaceStoreStep *step)
{
  int64_t first = 0, id;

  for (guint i = 0; i < step->events->len; i++)
    {
      if (!carpace_store_write_event (store, &g_array_index (step->events, CarpaceStoreEvent, i), &id))
        return false;
      if (i == 0)
        first = id;
    }
  return !step->opens || carpace_store_write_opening (store, step, first);
}

static bool
write_records (CarpaceDiaryStore *store, const CarpaceStoreStep *step, GHashTable *days_to_sum)
{
  for (guint i = 0; i < step->records->len; i++)
    {
      const CarpaceStoreRecord *record = &g_array_index (step->records, CarpaceStoreRecord, i);

      if (!carpace_store_write_record (store, record->day, &record->entry))
        return false;
      if (CARPACE_KIND (record->entry.kind) & CARPACE_SUMMED_KINDS)
        g_hash_table_add (days_to_sum, GINT_TO_POINTER (record->day));
    }
  return true;
}

static bool
write_steps (CarpaceDiaryStore *store, guint n)
{
  g_autoptr (GHashTable) days_to_sum = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < n; i++)
    {
      const CarpaceStoreStep *step = g_ptr_array_index (store->waiting, i);

      if (!write_events (store, step) || !write_records (store, step, days_to_sum)
          || !carpace_store_write_kept (store, step))
        return false;
    }
  return carpace_store_sum_up_days (store, days_to_sum);
}

bool
carpace_store_begin_writing (CarpaceDiaryStore *store)
{
  if (!store->writable || store->db == NULL || !carpace_store_in_place (store))
    return false;
  store->last_record_before = store->last_record;
  if (carpace_store_run_sql (store, SQL_BEGIN))
    return true;
  carpace_store_tell_result (store, sqlite3_extended_errcode (store->db));
  return false;
}

bool
carpace_store_end_writing (CarpaceDiaryStore *store, bool ok)
{
  int result = ok ? SQLITE_OK : sqlite3_extended_errcode (store->db);

  if (ok && !carpace_store_run_sql (store, SQL_COMMIT))
    {
      ok = false;
      result = sqlite3_extended_errcode (store->db);
    }
  if (ok)
    return true;
  if (result == SQLITE_OK || result == SQLITE_ROW || result == SQLITE_DONE)
    result = SQLITE_ERROR;
  /* SQLite may have rolled back by itself */
  if (sqlite3_get_autocommit (store->db) == 0)
    carpace_store_run_sql (store, SQL_ROLLBACK);
  store->last_record = store->last_record_before;
  carpace_store_tell_result (store, result);
  return false;
}

/* The oldest of them, so many at once that a try that fails takes no time to speak of. */
static bool
write_some (CarpaceDiaryStore *store)
{
  guint n = MIN (store->waiting->len, STEPS_AT_ONCE);
  int64_t run = store->run;

  if (!carpace_store_begin_writing (store))
    return false;
  if (!carpace_store_end_writing (store, carpace_store_write_run (store) && write_steps (store, n)))
    {
      store->run = run;
      return false;
    }
  if (n > 0)
    g_ptr_array_remove_range (store->waiting, 0, n);
  return true;
}

bool
carpace_store_write_waiting (CarpaceDiaryStore *store)
{
  do
    if (!write_some (store))
      return false;
  while (store->waiting->len > 0);
  if (store->in_trouble)
    carpace_store_tell (store, CARPACE_STORE_KEPT_AGAIN, NULL);
  return true;
}

/* The practice day of each record. In the step that opens a day, what is told
 * of the practice before is of the day before. */
static void
give_days (CarpaceDiaryStore *store, CarpaceStoreStep *step)
{
  const uint32_t of_practice = CARPACE_KIND (CARPACE_ENTRY_BLOCK) | CARPACE_KIND (CARPACE_ENTRY_OVERRUN)
                               | CARPACE_KIND (CARPACE_ENTRY_REST) | CARPACE_KIND (CARPACE_ENTRY_RATING)
                               | CARPACE_KIND (CARPACE_ENTRY_CLICKS);
  bool opened = !step->opens;
  CarpaceDay before = store->day;

  if (step->opens)
    store->day = step->day;
  for (guint i = 0; i < step->records->len; i++)
    {
      CarpaceStoreRecord *record = &g_array_index (step->records, CarpaceStoreRecord, i);

      opened = opened || record->entry.kind == CARPACE_ENTRY_DAY;
      record->day = !opened && (CARPACE_KIND (record->entry.kind) & of_practice) && before != CARPACE_NO_DAY
                      ? before : store->day;
      /* before a first day was opened: the day by its date, from 04:00 */
      if (record->day == CARPACE_NO_DAY)
        record->day = carpace_day_of (record->entry.at, 4 * 60);
    }
}

static void
port_begin (void *self)
{
  CarpaceDiaryStore *store = self;

  carpace_store_step_free (store->step);
  store->step = carpace_store_step_new ();
}

static void
port_event (void *self, const CarpaceEvent *event, CarpaceInstant at)
{
  CarpaceDiaryStore *store = self;
  CarpaceStoreEvent kept = { *event, at };

  if (event->kind == CARPACE_EVENT_OPEN)
    kept.event.open.plan = NULL;
  g_array_append_val (store->step->events, kept);
}

static void
port_entry (void *self, const CarpaceEntry *entry)
{
  CarpaceDiaryStore *store = self;
  CarpaceStoreRecord kept = { CARPACE_NO_DAY, *entry };

  g_array_append_val (store->step->records, kept);
}

static void
port_opening (void *self, CarpaceDay day, CarpaceInstant at, const CarpaceHistory *history)
{
  CarpaceDiaryStore *store = self;

  store->step->opens = true;
  store->step->day = day;
  store->step->at = at;
  g_free (store->step->history);
  store->step->history = g_malloc (CARPACE_HISTORY_BYTES);
  carpace_history_write (history, store->step->history, CARPACE_HISTORY_BYTES);
  carpace_store_plan_free (store->step->plan);
  store->step->plan = store->day_plan != NULL ? carpace_store_plan_copy (store->day_plan) : NULL;
}

static bool
port_commit (void *self)
{
  CarpaceDiaryStore *store = self;
  CarpaceStoreStep *step = g_steal_pointer (&store->step);

  if (step->events->len == 0 && step->records->len == 0 && !step->opens)
    {
      carpace_store_step_free (step);
      return store->waiting->len == 0;
    }
  give_days (store, step);
  g_ptr_array_add (store->waiting, step);
  return carpace_store_write_waiting (store);
}

CarpaceStore
carpace_store_port (CarpaceDiaryStore *store)
{
  return (CarpaceStore) { .self = store, .begin = port_begin, .event = port_event, .entry = port_entry,
                          .opening = port_opening, .commit = port_commit, .free = carpace_store_end };
}
