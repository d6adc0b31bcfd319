/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-resume.c: runs of the program, and what to go on from. */
#include "store-sqlite-private.h"

#include <string.h>

#include "carpace/dose.h"

static const char *const caution_answers[] = {
  [CARPACE_CAUTION_ASK] = "ask", [CARPACE_CAUTION_SIGNS] = "signs", [CARPACE_CAUTION_SEEN] = "seen",
  [CARPACE_CAUTION_GONE] = "gone"
};

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
  if (store->run == 0 || !store->writable)
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
bind_event (sqlite3_stmt *statement, const CarpaceEvent *event)
{
  sqlite3_bind_text (statement, 5, carpace_name (CARPACE_WORDS_EVENT, (int32_t) event->kind), -1, SQLITE_STATIC);
  if (event->kind == CARPACE_EVENT_INPUT || event->kind == CARPACE_EVENT_STILL)
    sqlite3_bind_int64 (statement, 6, event->since_ms);
  if (event->kind == CARPACE_EVENT_RATE)
    {
      sqlite3_bind_int (statement, 7, event->discomfort);
      sqlite3_bind_text (statement, 8, carpace_name (CARPACE_WORDS_SITE, (int32_t) event->site), -1, SQLITE_STATIC);
    }
  if (event->kind == CARPACE_EVENT_MORNING)
    {
      sqlite3_bind_int (statement, 9, event->morning.waking);
      sqlite3_bind_text (statement, 10, carpace_name (CARPACE_WORDS_STIFFNESS, (int32_t) event->morning.stiffness), -1,
                         SQLITE_STATIC);
      sqlite3_bind_int (statement, 11, event->morning.now);
      sqlite3_bind_int (statement, 12, event->morning.other_load);
      sqlite3_bind_int (statement, 13, event->morning.pain_relief);
    }
  if (event->kind == CARPACE_EVENT_CAUTION && (size_t) event->caution < G_N_ELEMENTS (caution_answers))
    {
      sqlite3_bind_text (statement, 14, caution_answers[event->caution], -1, SQLITE_STATIC);
      sqlite3_bind_int64 (statement, 15, event->signs);
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
  return carpace_store_done (statement) && carpace_store_run_sql (store, SQL_PRUNE_EVENTS)
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

static int32_t
word_at (sqlite3_stmt *statement, int column, CarpaceWords words)
{
  const char *word = (const char *) sqlite3_column_text (statement, column);

  return word == NULL ? -1 : carpace_name_value (words, word);
}

static int32_t
rating_at (sqlite3_stmt *statement, int column)
{
  return sqlite3_column_type (statement, column) == SQLITE_NULL ? -1 : sqlite3_column_int (statement, column);
}

static CarpaceCautionAnswer
caution_at (sqlite3_stmt *statement, int column)
{
  const char *word = (const char *) sqlite3_column_text (statement, column);

  for (size_t i = 0; word != NULL && i < G_N_ELEMENTS (caution_answers); i++)
    if (strcmp (word, caution_answers[i]) == 0)
      return (CarpaceCautionAnswer) i;
  return CARPACE_CAUTION_ASK;
}

static bool
read_event (sqlite3_stmt *statement, CarpaceEvent *ret_event)
{
  int32_t kind = word_at (statement, 3, CARPACE_WORDS_EVENT);

  if (kind < 0)
    return false;
  *ret_event = (CarpaceEvent) {
    .kind = (CarpaceEventKind) kind,
    .since_ms = sqlite3_column_int64 (statement, 4),
    .discomfort = sqlite3_column_int (statement, 5),
    .site = (CarpaceSite) MAX (0, word_at (statement, 6, CARPACE_WORDS_SITE)),
    .morning = { .waking = rating_at (statement, 7),
                 .stiffness = (CarpaceStiffness) MAX (0, word_at (statement, 8, CARPACE_WORDS_STIFFNESS)),
                 .now = rating_at (statement, 9), .other_load = sqlite3_column_int (statement, 10) != 0,
                 .pain_relief = sqlite3_column_int (statement, 11) != 0 },
    .caution = caution_at (statement, 12),
    .signs = (uint32_t) sqlite3_column_int64 (statement, 13)
  };
  return true;
}

static void
load_events (CarpaceDiaryStore *store, int64_t from, CarpaceResume *resume)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_EVENTS_FROM);
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (CarpaceEvent));
  g_autoptr (GArray) moments = g_array_new (FALSE, FALSE, sizeof (CarpaceInstant));
  CarpaceEvent event;

  if (statement == NULL)
    return;
  sqlite3_bind_int64 (statement, 1, from);
  while (sqlite3_step (statement) == SQLITE_ROW)
    if (read_event (statement, &event))
      {
        CarpaceInstant at = carpace_store_column_instant (statement, 0);

        g_array_append_val (events, event);
        g_array_append_val (moments, at);
      }
  sqlite3_reset (statement);
  resume->n_events = events->len;
  resume->event = (CarpaceEvent *) g_array_free (g_steal_pointer (&events), FALSE);
  resume->at = (CarpaceInstant *) g_array_free (g_steal_pointer (&moments), FALSE);
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

void
carpace_store_resume (CarpaceDiaryStore *store, CarpaceResume *ret_resume)
{
  sqlite3_stmt *statement;

  memset (ret_resume, 0, sizeof *ret_resume);
  carpace_history_init (&ret_resume->history);
  load_events (store, load_opening (store, ret_resume), ret_resume);
  statement = carpace_store_sql (store, SQL_LAST_RUN);
  if (statement != NULL && sqlite3_step (statement) == SQLITE_ROW)
    {
      ret_resume->known = true;
      ret_resume->alive = ret_resume->last = carpace_store_column_instant (statement, 2);
      ret_resume->ended_well = sqlite3_column_int (statement, 5) != 0;
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
