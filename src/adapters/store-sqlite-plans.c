/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-plans.c: plans that were given, what was released, plans of days. */
#include "store-sqlite-private.h"

#include <string.h>

#include "carpace/ceiling.h"

CarpacePlanRecord *
carpace_store_plan_copy (const CarpacePlanRecord *record)
{
  CarpacePlanRecord *copy = g_new (CarpacePlanRecord, 1);

  *copy = *record;
  copy->name = g_strdup (record->name);
  copy->fixed = g_strdup (record->fixed);
  copy->text = g_strdup (record->text);
  return copy;
}

void
carpace_store_plan_free (CarpacePlanRecord *record)
{
  if (record == NULL)
    return;
  g_free ((char *) record->name);
  g_free ((char *) record->fixed);
  g_free ((char *) record->text);
  g_free (record);
}

void
carpace_store_set_day_plan (CarpaceDiaryStore *store, const CarpacePlanRecord *record)
{
  carpace_store_plan_free (store->day_plan);
  store->day_plan = carpace_store_plan_copy (record);
  store->day_plan->what = CARPACE_PLAN_OF_DAY;
}

static bool
fits (const char *text, size_t bytes)
{
  return strlen (text) < bytes && g_utf8_validate (text, -1, NULL);
}

static bool
is_sound (const CarpacePlanRecord *record)
{
  return fits (record->name, CARPACE_NAME_BYTES) && fits (record->fixed, CARPACE_CEILING_BYTES)
         && fits (record->text, CARPACE_PLAN_FILE_BYTES + 1) && record->version >= 1 && record->version <= CARPACE_PLAN_VERSIONS;
}

static void
bind (sqlite3_stmt *statement, const CarpacePlanRecord *record, CarpaceInstant at)
{
  carpace_store_bind_instant (statement, 1, at);
  sqlite3_bind_text (statement, 4, carpace_name (CARPACE_WORDS_PLAN_WHAT, (int32_t) record->what), -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 5, record->name, -1, SQLITE_STATIC);
  sqlite3_bind_int (statement, 6, record->version);
  sqlite3_bind_text (statement, 7, record->fixed, -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 8, record->text, -1, SQLITE_STATIC);
}

static bool
add (CarpaceDiaryStore *store, const CarpacePlanRecord *record, CarpaceInstant at)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_PLAN_ADD);

  if (statement == NULL)
    return false;
  bind (statement, record, at);
  return carpace_store_done (statement);
}

static bool
is_known (CarpaceDiaryStore *store, const CarpacePlanRecord *record)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_PLAN_KNOWN);
  bool known;

  if (statement == NULL)
    return false;
  bind (statement, record, record->at);
  known = sqlite3_step (statement) == SQLITE_ROW;
  sqlite3_reset (statement);
  return known;
}

bool
carpace_store_write_day_plan (CarpaceDiaryStore *store, const CarpacePlanRecord *record, CarpaceInstant at)
{
  sqlite3_stmt *statement = carpace_store_sql (store, SQL_PLAN_OF_DAY);
  bool known;

  if (record == NULL)
    return true;
  if (statement == NULL)
    return false;
  known = sqlite3_step (statement) == SQLITE_ROW
          && strcmp ((const char *) sqlite3_column_text (statement, 0), record->text) == 0;
  sqlite3_reset (statement);
  return known || add (store, record, at);
}

bool
carpace_store_order_plans (CarpaceDiaryStore *store)
{
  return sqlite3_exec (store->db,
                       "CREATE TEMP TABLE ordered AS SELECT elapsed_ms, wall_ms, offset_s, what, name, version, fixed, text"
                       " FROM plan ORDER BY wall_ms, id; DELETE FROM plan;"
                       "INSERT INTO plan (elapsed_ms, wall_ms, offset_s, what, name, version, fixed, text)"
                       " SELECT * FROM ordered ORDER BY rowid; DROP TABLE ordered;",
                       NULL, NULL, NULL)
         == SQLITE_OK;
}

int
carpace_store_keep_plan (void *self, const CarpacePlanRecord *record)
{
  CarpaceDiaryStore *store = self;

  if (!is_sound (record) || store->db == NULL || !store->writable)
    return -1;
  if (is_known (store, record))
    return 0;
  if (store->taking != NULL)
    return add (store, record, record->at) ? 1 : -1;
  return carpace_store_begin_writing (store) && carpace_store_end_writing (store, add (store, record, record->at)) ? 1 : -1;
}

bool
carpace_store_plans (void *self, CarpacePlanRecordVisitor visit, void *user)
{
  CarpaceDiaryStore *store = self;
  sqlite3_stmt *statement;
  int result = SQLITE_DONE;
  bool more = true;

  if (store->db == NULL)
    return true;
  statement = carpace_store_sql (store, SQL_PLANS);
  if (statement == NULL)
    return false;
  store->statement[SQL_PLANS] = NULL; /* one of its own: a visitor may ask for plans itself */
  while (more && (result = sqlite3_step (statement)) == SQLITE_ROW)
    {
      const CarpacePlanRecord record = {
        .at = carpace_store_column_instant (statement, 0),
        .what = (CarpacePlanWhat) carpace_name_value (CARPACE_WORDS_PLAN_WHAT, (const char *) sqlite3_column_text (statement, 3)),
        .name = (const char *) sqlite3_column_text (statement, 4),
        .version = sqlite3_column_int (statement, 5),
        .fixed = (const char *) sqlite3_column_text (statement, 6),
        .text = (const char *) sqlite3_column_text (statement, 7),
      };
      if ((int32_t) record.what >= 0)
        more = visit (user, &record);
    }
  sqlite3_finalize (statement);
  return !more || result == SQLITE_DONE;
}
