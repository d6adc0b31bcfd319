/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-take-in.c: records from elsewhere. What they lead to is derived
 * anew when all of them are in. */
#include "store-sqlite-private.h"

#include <string.h>

#include "carpace/history-fold.h"

/* Clocks of one diary are this much apart at most: set right in between, not two. */
#define ONE_CLOCK_MS CARPACE_MINUTE_MS

/** While records come. */
typedef struct CarpaceStoreTaking
{
  GHashTable *known;  /* how often each record or event of the diary has not come yet */
  GHashTable *days;   /* that came */
  GArray *events;     /* CarpaceStoreEvent, new ones */
  bool was_empty;
  bool folds;         /* a record came that a history is made of */
  bool has_last, has_alive;
  CarpaceInstant last; /* latest that came, by its own elapsed time */
  CarpaceInstant alive;
  bool ended_well;
} Taking;

/* ---- whether a diary is empty ---- */

/* A program that was only started has shown cues and asked for cautions. */
static bool
anything_said (void *user, const CarpaceRecord *record)
{
  *(bool *) user = record->entry.kind != CARPACE_ENTRY_CAUTION || record->entry.caution.what == CARPACE_CAUTION_OPENED
                   || record->entry.caution.what == CARPACE_CAUTION_CLOSED;
  return !*(bool *) user;
}

static bool
note_of_day (void *user, const CarpaceDaySum *sum)
{
  *(bool *) user = *(bool *) user || sum->note != NULL;
  return !*(bool *) user;
}

static bool
anything_fixed (void *user, const CarpacePlanRecord *record)
{
  *(bool *) user = *(bool *) user || record->fixed[0] != '\0';
  return !*(bool *) user;
}

/* A plan that was put in use is a trifle, too, but what one fixes is not. */
bool
carpace_store_says_nothing (CarpaceDiaryStore *store)
{
  const uint32_t trifles = CARPACE_KIND (CARPACE_ENTRY_STATE) | CARPACE_KIND (CARPACE_ENTRY_CUE)
                           | CARPACE_KIND (CARPACE_ENTRY_FAULT);
  CarpaceDiary diary = carpace_store_diary (store);
  bool found = false;

  return carpace_store_read (store, INT32_MIN, INT32_MAX, CARPACE_ALL_KINDS & ~trifles, anything_said, &found)
         && diary.days (diary.self, INT32_MIN, INT32_MAX, note_of_day, &found)
         && carpace_store_plans (store, anything_fixed, &found) && !found;
}

/* ---- what is there already ---- */

static char *
key_of_fields (const CarpaceField *field, int32_t n, const void *value, CarpaceInstant at, const char *about)
{
  GString *key = g_string_new (about);

  /* elapsed time is each computer's own: the wall clock tells which record it is */
  g_string_append_printf (key, " %" G_GINT64_FORMAT " %d", at.wall_ms, at.offset_s);
  for (int32_t i = 0; i < n; i++)
    if (field[i].type != CARPACE_FIELD_MS || field[i].least >= 0)
      g_string_append_printf (key, " %" G_GINT64_FORMAT, carpace_field_get (&field[i], value));
  return g_string_free (key, FALSE);
}

static char *
key_of_record (CarpaceDay day, const CarpaceEntry *entry)
{
  g_autofree char *about = g_strdup_printf ("record %d %d", day, (int) entry->kind);
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);

  return key_of_fields (field, n, entry, entry->at, about);
}

static char *
key_of_event (const CarpaceEvent *event, CarpaceInstant at)
{
  g_autofree char *about = g_strdup_printf ("event %d", (int) event->kind);
  int32_t n;
  const CarpaceField *field = carpace_event_fields (event->kind, &n);

  return key_of_fields (field, n, event, at, about);
}

static void
count (GHashTable *table, char *key, int by)
{
  int so_far = GPOINTER_TO_INT (g_hash_table_lookup (table, key));

  g_hash_table_replace (table, key, GINT_TO_POINTER (so_far + by));
}

/* Whether it is known; if so, it has come once. Takes @key. */
static bool
has_come (Taking *taking, char *key)
{
  bool known = GPOINTER_TO_INT (g_hash_table_lookup (taking->known, key)) > 0;

  if (known)
    count (taking->known, key, -1);
  else
    g_free (key);
  return known;
}

static bool
count_record (void *user, const CarpaceRecord *record)
{
  count (user, key_of_record (record->day, &record->entry), 1);
  return true;
}

/* The day's own records, before the first from elsewhere comes. */
static bool
know_day (CarpaceDiaryStore *store, CarpaceDay day)
{
  if (!g_hash_table_add (store->taking->days, GINT_TO_POINTER (day)))
    return true;
  return carpace_store_read (store, day, day, CARPACE_ALL_KINDS, count_record, store->taking->known);
}

static bool
know_events (CarpaceDiaryStore *store)
{
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (CarpaceStoreEvent));

  if (!carpace_store_read_events (store, INT64_MIN, events))
    return false;
  for (guint i = 0; i < events->len; i++)
    {
      const CarpaceStoreEvent *event = &g_array_index (events, CarpaceStoreEvent, i);

      count (store->taking->known, key_of_event (&event->event, event->at), 1);
    }
  return true;
}

/* ---- what comes ---- */

static void
taking_free (CarpaceDiaryStore *store)
{
  Taking *taking = store->taking;

  g_hash_table_unref (taking->known);
  g_hash_table_unref (taking->days);
  g_array_unref (taking->events);
  g_clear_pointer (&store->taking, g_free);
}

/* What a program wrote that was only started gives way. */
static bool
clear_trifles (CarpaceDiaryStore *store)
{
  return sqlite3_exec (store->db,
                       "DELETE FROM run; DELETE FROM event; DELETE FROM opening; DELETE FROM \"state\";"
                       "DELETE FROM plan; DELETE FROM \"cue\"; DELETE FROM \"fault\"; DELETE FROM \"caution\"; DELETE FROM day_sum;",
                       NULL, NULL, NULL)
         == SQLITE_OK;
}

static bool
port_begin (void *self)
{
  CarpaceDiaryStore *store = self;
  bool was_empty = carpace_store_says_nothing (store);
  bool ok;

  if (!carpace_store_begin_writing (store))
    return false;
  store->taking = g_new0 (Taking, 1);
  store->taking->was_empty = was_empty;
  store->taking->known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  store->taking->days = g_hash_table_new (NULL, NULL);
  store->taking->events = g_array_new (FALSE, FALSE, sizeof (CarpaceStoreEvent));
  ok = was_empty ? clear_trifles (store) : know_events (store);
  if (ok)
    return true;
  taking_free (store);
  carpace_store_end_writing (store, false);
  return false;
}

static void
remember_last (Taking *taking, CarpaceInstant at)
{
  if (!taking->has_last || at.elapsed_ms >= taking->last.elapsed_ms)
    taking->last = at;
  taking->has_last = true;
}

static int
port_record (void *self, CarpaceDay day, const CarpaceEntry *entry, const char *note)
{
  CarpaceDiaryStore *store = self;

  if (store->taking == NULL || !carpace_store_note_fits (note) || !know_day (store, day))
    return -1;
  remember_last (store->taking, entry->at);
  if (has_come (store->taking, key_of_record (day, entry)))
    return 0;
  if (!carpace_store_write_record (store, day, entry))
    return -1;
  store->taking->folds |= (CARPACE_KIND (entry->kind) & CARPACE_FOLDED_KINDS) != 0;
  if (note != NULL && note[0] != '\0'
      && !carpace_store_write_note (store, SQL_RECORD_NOTE_SET, SQL_RECORD_NOTE_DROP, store->last_record, note))
    return -1;
  return 1;
}

static int
port_event (void *self, const CarpaceEvent *event, CarpaceInstant at)
{
  CarpaceDiaryStore *store = self;
  const CarpaceStoreEvent kept = { *event, at };

  if (store->taking == NULL)
    return -1;
  remember_last (store->taking, at);
  if (has_come (store->taking, key_of_event (event, at)))
    return 0;
  g_array_append_val (store->taking->events, kept);
  return 1;
}

static int
port_alive (void *self, CarpaceInstant at, bool ended_well)
{
  CarpaceDiaryStore *store = self;

  if (store->taking == NULL)
    return -1;
  store->taking->has_alive = true;
  store->taking->alive = at;
  store->taking->ended_well = ended_well;
  return 0;
}

static bool
there_is (CarpaceDiaryStore *store, CarpaceSql sql, CarpaceDay day)
{
  sqlite3_stmt *statement = carpace_store_sql (store, sql);
  bool there;

  if (statement == NULL)
    return false;
  sqlite3_bind_int (statement, 1, day);
  there = sqlite3_step (statement) == SQLITE_ROW;
  sqlite3_reset (statement);
  return there;
}

static bool
add_other (CarpaceDiaryStore *store, CarpaceDay day, int64_t ms)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_OTHER_ADD);

  if (statement == NULL)
    return false;
  sqlite3_bind_int (statement, 1, day);
  sqlite3_bind_int64 (statement, 2, ms);
  return carpace_store_done (statement);
}

static int
port_day (void *self, CarpaceDay day, int64_t other_ms, const char *note)
{
  CarpaceDiaryStore *store = self;
  bool adds_other = other_ms >= 0 && !there_is (store, SQL_OTHER, day);
  bool adds_note = note != NULL && note[0] != '\0' && !there_is (store, SQL_DAY_NOTE, day);

  if (store->taking == NULL || !carpace_store_note_fits (note))
    return -1;
  if (adds_other && !add_other (store, day, other_ms))
    return -1;
  if (adds_note && !carpace_store_write_note (store, SQL_DAY_NOTE_SET, SQL_DAY_NOTE_DROP, day, note))
    return -1;
  return adds_other || adds_note;
}

/* ---- one clock ---- */

/* How far what came is from this diary's elapsed time, by the wall clock of both. */
static int64_t
shift_of (CarpaceDiaryStore *store)
{
  Taking *taking = store->taking;
  CarpaceInstant theirs = taking->has_alive ? taking->alive : taking->last, ours;
  bool ended_well;
  int64_t shift;

  if (taking->was_empty || !(taking->has_alive || taking->has_last)
      || !carpace_store_read_alive (store, &ours, &ended_well))
    return 0;
  shift = (ours.elapsed_ms - ours.wall_ms) - (theirs.elapsed_ms - theirs.wall_ms);
  return ABS (shift) <= ONE_CLOCK_MS ? 0 : shift;
}

static void
shift_event (CarpaceStoreEvent *event, int64_t by_ms)
{
  int32_t n;
  const CarpaceField *field = carpace_event_fields (event->event.kind, &n);

  event->at.elapsed_ms = carpace_sum_ms (event->at.elapsed_ms, by_ms);
  for (int32_t i = 0; i < n; i++)
    if (field[i].type == CARPACE_FIELD_MS && field[i].least < 0) /* elapsed time, not a length */
      carpace_field_set (&field[i], &event->event,
                         carpace_sum_ms (carpace_field_get (&field[i], &event->event), by_ms));
}

static bool
shift (CarpaceDiaryStore *store, int64_t by_ms)
{
  bool ok = true;

  for (guint i = 0; i < store->taking->events->len; i++)
    shift_event (&g_array_index (store->taking->events, CarpaceStoreEvent, i), by_ms);
  for (int32_t kind = 0; ok && by_ms != 0 && kind < CARPACE_N_ENTRIES; kind++)
    {
      g_autofree char *update
        = g_strdup_printf ("UPDATE \"%s\" SET elapsed_ms = elapsed_ms + (%" G_GINT64_FORMAT
                           ") WHERE id > %" G_GINT64_FORMAT,
                           carpace_name (CARPACE_WORDS_ENTRY, kind), by_ms, store->last_record_before);

      ok = sqlite3_exec (store->db, update, NULL, NULL, NULL) == SQLITE_OK;
    }
  return ok;
}

/* An empty diary goes on with the clock of what came: as after another boot. */
static bool
take_over_clock (CarpaceDiaryStore *store)
{
  const Taking *taking = store->taking;
  CarpaceInstant alive = taking->has_alive ? taking->alive : taking->last;
  sqlite3_stmt *statement;

  if (!taking->was_empty || !(taking->has_alive || taking->has_last))
    return true;
  if (taking->has_last && taking->last.elapsed_ms > alive.elapsed_ms)
    alive = taking->last;
  statement = carpace_store_sql (store, SQL_ADD_RUN);
  if (statement == NULL)
    return false;
  sqlite3_bind_text (statement, 1, "", -1, SQLITE_STATIC);
  sqlite3_bind_int64 (statement, 2, 0);
  carpace_store_bind_instant (statement, 3, alive);
  if (!carpace_store_done (statement))
    return false;
  if (!taking->has_alive || !taking->ended_well)
    return true;
  statement = carpace_store_sql (store, SQL_END_RUN);
  if (statement == NULL)
    return false;
  sqlite3_bind_int64 (statement, 1, sqlite3_last_insert_rowid (store->db));
  return carpace_store_done (statement);
}

static bool
end_taking (CarpaceDiaryStore *store)
{
  Taking *taking = store->taking;
  int64_t by_ms = shift_of (store);

  return shift (store, by_ms) && carpace_store_become (store, taking->was_empty) && take_over_clock (store)
         && (!taking->has_last || carpace_store_kept (store, carpace_sum_ms (taking->last.elapsed_ms, by_ms)))
         && (!(taking->folds || taking->events->len > 0) || carpace_store_derive (store, taking->events))
         && carpace_store_order_plans (store) && carpace_store_sum_up_days (store, taking->days);
}

static bool
port_end (void *self, bool keep)
{
  CarpaceDiaryStore *store = self;
  bool kept = false;

  if (store->taking == NULL)
    return false;
  if (keep)
    kept = carpace_store_end_writing (store, end_taking (store));
  else
    {
      carpace_store_run_sql (store, SQL_ROLLBACK);
      store->last_record = store->last_record_before;
    }
  store->becomes.n = 0;
  taking_free (store);
  return kept;
}

static bool
port_whose (void *self, CarpaceIdentity *ret_identity)
{
  return carpace_store_read_whose (self, ret_identity);
}

static bool
port_is_empty (void *self)
{
  return carpace_store_says_nothing (self);
}

static void
port_become (void *self, const CarpaceIdentity *identity)
{
  ((CarpaceDiaryStore *) self)->becomes = *identity;
}

void
carpace_store_take_in_port (CarpaceDiaryKeeper *keeper)
{
  keeper->whose = port_whose;
  keeper->is_empty = port_is_empty;
  keeper->become = port_become;
  keeper->take_in_begin = port_begin;
  keeper->take_in_record = port_record;
  keeper->take_in_day = port_day;
  keeper->take_in_event = port_event;
  keeper->take_in_alive = port_alive;
  keeper->take_in_end = port_end;
}
