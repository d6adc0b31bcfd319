/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-keep.c: notes, corrections, records from elsewhere. */
#include "store-sqlite-private.h"

#include <string.h>

static bool
fits (const char *note)
{
  return note == NULL || (g_utf8_validate (note, -1, NULL)
                          && g_utf8_strlen (note, -1) <= CARPACE_DIARY_NOTE_CHARACTERS);
}

static bool
write_note (CarpaceDiaryStore *store, CarpaceSql set, CarpaceSql drop, int64_t of, const char *note)
{
  bool dropping = note == NULL || note[0] == '\0';
  sqlite3_stmt *statement = carpace_store_sql (store, dropping ? drop : set);

  if (statement == NULL)
    return false;
  sqlite3_bind_int64 (statement, 1, of);
  if (!dropping)
    sqlite3_bind_text (statement, 2, note, -1, SQLITE_STATIC);
  return carpace_store_done (statement);
}

static bool
port_note_record (void *self, int64_t id, const char *note)
{
  CarpaceDiaryStore *store = self;
  CarpaceRecord record;

  return fits (note) && carpace_store_find (store, id, &record) && carpace_store_begin_writing (store)
         && carpace_store_end_writing (store,
                                       write_note (store, SQL_RECORD_NOTE_SET, SQL_RECORD_NOTE_DROP, id, note));
}

static bool
port_note_day (void *self, CarpaceDay day, const char *note)
{
  CarpaceDiaryStore *store = self;

  return fits (note) && carpace_store_begin_writing (store)
         && carpace_store_end_writing (store, write_note (store, SQL_DAY_NOTE_SET, SQL_DAY_NOTE_DROP, day, note));
}

/* Which number of its block a rating is about, and what that is by now. */
typedef struct
{
  CarpaceSumming summing;
  int64_t id;
  int given;
} Finding;

static bool
find_given (void *user, const CarpaceRecord *record)
{
  Finding *finding = user;

  carpace_summing_add (&finding->summing, &record->entry);
  if (record->id == finding->id)
    finding->given = finding->summing.last_given;
  return true;
}

/* @return the number that stands, -1 where there is none */
static int32_t
number_that_stands (CarpaceDiaryStore *store, CarpaceDay day, int64_t id)
{
  Finding finding = { .id = id, .given = -1 };

  carpace_summing_init (&finding.summing, day);
  if (!carpace_store_read (store, day, day, CARPACE_KIND (CARPACE_ENTRY_RATING), find_given, &finding)
      || finding.given < 0)
    return -1;
  return finding.summing.given[finding.given].discomfort;
}

static bool
port_correct (void *self, int64_t id, int32_t discomfort, CarpaceSite site, CarpaceInstant at)
{
  CarpaceDiaryStore *store = self;
  CarpaceRecord wrong;
  CarpaceEntry right;
  bool ok;

  if (discomfort < 0 || discomfort > 10 || !carpace_store_find (store, id, &wrong)
      || wrong.entry.kind != CARPACE_ENTRY_RATING)
    return false;
  carpace_entry_init (&right, CARPACE_ENTRY_RATING, at);
  right.rating.block = wrong.entry.rating.block;
  right.rating.discomfort = discomfort;
  right.rating.site = site;
  right.rating.corrects = number_that_stands (store, wrong.day, id);
  if (right.rating.corrects < 0 || !carpace_store_begin_writing (store))
    return false;
  ok = carpace_store_write_record (store, wrong.day, &right) && carpace_store_sum_up (store, wrong.day);
  return carpace_store_end_writing (store, ok);
}

void
carpace_store_add_other (CarpaceDiaryStore *store, CarpaceDay day, int64_t ms)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_OTHER_ADD);

  if (statement == NULL || !store->writable)
    return;
  sqlite3_bind_int (statement, 1, day);
  sqlite3_bind_int64 (statement, 2, ms);
  if (!carpace_store_done (statement))
    carpace_store_tell_result (store, sqlite3_extended_errcode (store->db));
}

/* All that makes a record this one and no other. */
static char *
key_of (CarpaceDay day, const CarpaceEntry *entry)
{
  GString *key = g_string_new (NULL);
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (entry->kind, &n);

  g_string_printf (key, "%d %d %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %d", day, (int) entry->kind,
                   entry->at.elapsed_ms, entry->at.wall_ms, entry->at.offset_s);
  for (int32_t i = 0; i < n; i++)
    g_string_append_printf (key, " %" G_GINT64_FORMAT, carpace_field_get (&field[i], entry));
  return g_string_free (key, FALSE);
}

static void
count (GHashTable *table, char *key, int by)
{
  int so_far = GPOINTER_TO_INT (g_hash_table_lookup (table, key));

  g_hash_table_replace (table, key, GINT_TO_POINTER (so_far + by));
}

static bool
count_known (void *user, const CarpaceRecord *record)
{
  count (user, key_of (record->day, &record->entry), 1);
  return true;
}

static bool
port_take_in_begin (void *self)
{
  CarpaceDiaryStore *store = self;

  if (!carpace_store_begin_writing (store))
    return false;
  store->taken_in = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  store->days_taken_in = g_hash_table_new (NULL, NULL);
  return true;
}

/* The day's own records, before the first from elsewhere comes. */
static bool
know_day (CarpaceDiaryStore *store, CarpaceDay day)
{
  if (g_hash_table_contains (store->days_taken_in, GINT_TO_POINTER (day)))
    return true;
  g_hash_table_add (store->days_taken_in, GINT_TO_POINTER (day));
  return carpace_store_read (store, day, day, CARPACE_ALL_KINDS, count_known, store->taken_in);
}

static int
port_take_in_record (void *self, CarpaceDay day, const CarpaceEntry *entry, const char *note)
{
  CarpaceDiaryStore *store = self;
  char *key;

  if (store->taken_in == NULL || !fits (note) || !know_day (store, day))
    return -1;
  key = key_of (day, entry);
  if (GPOINTER_TO_INT (g_hash_table_lookup (store->taken_in, key)) > 0)
    {
      count (store->taken_in, key, -1);
      return 0;
    }
  g_free (key);
  if (!carpace_store_write_record (store, day, entry))
    return -1;
  if (note != NULL && note[0] != '\0'
      && !write_note (store, SQL_RECORD_NOTE_SET, SQL_RECORD_NOTE_DROP, store->last_record, note))
    return -1;
  return 1;
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

static int
port_take_in_day (void *self, CarpaceDay day, int64_t other_ms, const char *note)
{
  CarpaceDiaryStore *store = self;
  bool adds_other = other_ms >= 0 && !there_is (store, SQL_OTHER, day);
  bool adds_note = note != NULL && note[0] != '\0' && !there_is (store, SQL_DAY_NOTE, day);

  if (store->taken_in == NULL || !fits (note))
    return -1;
  if (adds_other)
    {
      sqlite3_stmt *statement = carpace_store_sql (store, SQL_OTHER_ADD);

      if (statement == NULL)
        return -1;
      sqlite3_bind_int (statement, 1, day);
      sqlite3_bind_int64 (statement, 2, other_ms);
      if (!carpace_store_done (statement))
        return -1;
    }
  if (adds_note && !write_note (store, SQL_DAY_NOTE_SET, SQL_DAY_NOTE_DROP, day, note))
    return -1;
  return adds_other || adds_note;
}

static bool
port_take_in_end (void *self, bool keep)
{
  CarpaceDiaryStore *store = self;
  bool kept = false;

  if (store->taken_in == NULL)
    return false;
  if (keep)
    kept = carpace_store_end_writing (store, carpace_store_sum_up_days (store, store->days_taken_in));
  else
    {
      carpace_store_run_sql (store, SQL_ROLLBACK);
      store->last_record = store->last_record_before;
    }
  g_clear_pointer (&store->taken_in, g_hash_table_unref);
  g_clear_pointer (&store->days_taken_in, g_hash_table_unref);
  return kept;
}

static bool
port_erase (void *self)
{
  return carpace_store_erase (self);
}

static bool
port_backup (void *self, const char *path)
{
  return carpace_store_backup (self, path);
}

CarpaceDiaryKeeper
carpace_store_keeper (CarpaceDiaryStore *store)
{
  return (CarpaceDiaryKeeper) {
    .self = store, .note_record = port_note_record, .note_day = port_note_day, .correct = port_correct,
    .take_in_begin = port_take_in_begin, .take_in_record = port_take_in_record, .take_in_day = port_take_in_day,
    .take_in_end = port_take_in_end, .erase = port_erase, .backup = port_backup,
  };
}
