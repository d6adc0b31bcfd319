/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-keep.c: notes and corrections: the keeper's port. */
#include "store-sqlite-private.h"

#include <string.h>

/* A person waits for it, and whoever reads is asked to end then. */
#define ERASING_WAITS_MS 5000

bool
carpace_store_note_fits (const char *note)
{
  return note == NULL || (g_utf8_validate (note, -1, NULL)
                          && g_utf8_strlen (note, -1) <= CARPACE_DIARY_NOTE_CHARACTERS);
}

bool
carpace_store_write_note (CarpaceDiaryStore *store, CarpaceSql set, CarpaceSql drop, int64_t of, const char *note)
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

  return carpace_store_note_fits (note) && carpace_store_find (store, id, &record) && carpace_store_begin_writing (store)
         && carpace_store_end_writing (store,
                                       carpace_store_write_note (store, SQL_RECORD_NOTE_SET, SQL_RECORD_NOTE_DROP, id, note));
}

static bool
port_note_day (void *self, CarpaceDay day, const char *note)
{
  CarpaceDiaryStore *store = self;

  return carpace_store_note_fits (note) && carpace_store_begin_writing (store)
         && carpace_store_end_writing (store, carpace_store_write_note (store, SQL_DAY_NOTE_SET, SQL_DAY_NOTE_DROP, day, note));
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
  right.rating.by_hand = true;
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

static CarpaceErasing
port_erase (void *self)
{
  return carpace_store_erase (self, ERASING_WAITS_MS);
}

static bool
port_backup (void *self, const CarpaceBytesOut *to)
{
  return carpace_store_backup (self, to);
}

CarpaceDiaryKeeper
carpace_store_keeper (CarpaceDiaryStore *store)
{
  CarpaceDiaryKeeper keeper = { .self = store, .note_record = port_note_record, .note_day = port_note_day,
                                .correct = port_correct, .keep_plan = carpace_store_keep_plan, .erase = port_erase, .backup = port_backup, .free = carpace_store_end };

  carpace_store_take_in_port (&keeper);
  return keeper;
}
