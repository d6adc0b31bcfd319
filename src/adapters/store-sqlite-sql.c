/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-sql.c: every word of SQL. */
#include "store-sqlite-private.h"

#include <string.h>

#define INSTANT_COLUMNS "elapsed_ms INTEGER NOT NULL, wall_ms INTEGER NOT NULL, offset_s INTEGER NOT NULL"
#define RECORD_TABLE(name, columns) \
  "CREATE TABLE " name " (id INTEGER PRIMARY KEY, day INTEGER NOT NULL, " INSTANT_COLUMNS ", " columns ");" \
  "CREATE INDEX " name "_by_day ON " name " (day);"

/* Schema 1: what is needed to have a session again (runs, openings, events), and
 * what is shown: one table a kind of entry, ids shared by all of them. A day is
 * a count of days since 1970-01-01. Words are those of the command line. */
static const char schema_1[] =
  "CREATE TABLE run (id INTEGER PRIMARY KEY, boot_id TEXT NOT NULL, base_ms INTEGER NOT NULL,"
  " began_wall_ms INTEGER NOT NULL, elapsed_ms INTEGER NOT NULL, wall_ms INTEGER NOT NULL, offset_s INTEGER NOT NULL,"
  " ended_well INTEGER NOT NULL DEFAULT 0);"
  "CREATE TABLE event (id INTEGER PRIMARY KEY, run INTEGER NOT NULL, " INSTANT_COLUMNS ", kind TEXT NOT NULL,"
  " since_ms INTEGER, discomfort INTEGER, site TEXT, waking INTEGER, stiffness TEXT, now INTEGER, other_load INTEGER,"
  " pain_relief INTEGER, caution TEXT, signs INTEGER);"
  "CREATE TABLE opening (id INTEGER PRIMARY KEY, day INTEGER NOT NULL, " INSTANT_COLUMNS ","
  " first_event INTEGER NOT NULL, history TEXT NOT NULL);"
  RECORD_TABLE ("state", "state TEXT")
  RECORD_TABLE ("day", "what TEXT, date TEXT, dose_ms INTEGER, active_ms INTEGER")
  RECORD_TABLE ("block", "what TEXT, number INTEGER, \"match\" INTEGER, limit_ms INTEGER, after_ms INTEGER,"
                " rest_ms INTEGER, early_ms INTEGER, beyond INTEGER, active_ms INTEGER, overrun_ms INTEGER, runs INTEGER")
  RECORD_TABLE ("overrun", "block INTEGER, ms INTEGER")
  RECORD_TABLE ("cue", "cue TEXT, what TEXT, exercise TEXT, between_drills INTEGER, in_run INTEGER")
  RECORD_TABLE ("rest", "what TEXT, length_ms INTEGER, asked INTEGER")
  RECORD_TABLE ("rating", "block INTEGER, discomfort INTEGER, site TEXT, late INTEGER, corrects INTEGER")
  RECORD_TABLE ("morning", "waking INTEGER, stiffness TEXT, now INTEGER, other_load INTEGER, pain_relief INTEGER")
  RECORD_TABLE ("decision", "rule TEXT, scope TEXT, before_ms INTEGER, after_ms INTEGER, block INTEGER,"
                " discomfort INTEGER, reference INTEGER, earlier INTEGER, usual INTEGER, stop_above INTEGER,"
                " finding TEXT, no_practice INTEGER, opens_caution INTEGER, asks_cautions INTEGER, kept_ms INTEGER,"
                " done_ms INTEGER, shorten_to INTEGER, days INTEGER, needed INTEGER, weeks INTEGER, mean_pct INTEGER,"
                " mean_before_pct INTEGER")
  RECORD_TABLE ("caution", "what TEXT, signs TEXT")
  RECORD_TABLE ("fault", "refusal TEXT, event TEXT, state TEXT");

/* Schema 2: the player's own words on a record or a day, and mouse input
 * outside practice, summed by day. */
static const char schema_2[] =
  "CREATE TABLE note (record INTEGER PRIMARY KEY, text TEXT NOT NULL);"
  "CREATE TABLE day_note (day INTEGER PRIMARY KEY, text TEXT NOT NULL);"
  "CREATE TABLE other_time (day INTEGER PRIMARY KEY, ms INTEGER NOT NULL);";

/* Schema 3: each day summed up as it is written, so that ten years open at
 * once. Nothing stands here that the records do not tell. */
static const char schema_3[] =
  "CREATE TABLE day_sum (day INTEGER PRIMARY KEY, dose_ms INTEGER NOT NULL, done_ms INTEGER NOT NULL,"
  " match_ms INTEGER NOT NULL, blocks INTEGER NOT NULL, offered INTEGER NOT NULL, taken INTEGER NOT NULL,"
  " declined INTEGER NOT NULL, n_ratings INTEGER NOT NULL, unanswered INTEGER NOT NULL, zeros INTEGER NOT NULL,"
  " rating_sum INTEGER NOT NULL, highest INTEGER NOT NULL, morning_known INTEGER NOT NULL, waking INTEGER NOT NULL,"
  " stiffness INTEGER NOT NULL, now INTEGER NOT NULL, other_load INTEGER NOT NULL, pain_relief INTEGER NOT NULL,"
  " no_practice INTEGER NOT NULL, caution INTEGER NOT NULL);";

static const char *const schemas[CARPACE_STORE_SCHEMA] = { schema_1, schema_2, schema_3 };

/* Fills in what a new version's tables are to hold, from what is there. */
static bool (*const fillings[CARPACE_STORE_SCHEMA]) (CarpaceDiaryStore *) = { NULL, NULL, carpace_store_sum_up_all };

static const char *const statements[CARPACE_N_SQL] = {
  [SQL_BEGIN] = "BEGIN IMMEDIATE",
  [SQL_COMMIT] = "COMMIT",
  [SQL_ROLLBACK] = "ROLLBACK",
  [SQL_ADD_RUN] = "INSERT INTO run (boot_id, base_ms, began_wall_ms, elapsed_ms, wall_ms, offset_s)"
                  " VALUES (?1, ?2, ?4, ?3, ?4, ?5)",
  [SQL_LAST_RUN] = "SELECT boot_id, base_ms, elapsed_ms, wall_ms, offset_s, ended_well FROM run"
                   " ORDER BY id DESC LIMIT 1",
  [SQL_ALIVE] = "UPDATE run SET elapsed_ms = ?2, wall_ms = ?3, offset_s = ?4 WHERE id = ?1",
  [SQL_END_RUN] = "UPDATE run SET ended_well = 1 WHERE id = ?1",
  [SQL_ADD_EVENT] = "INSERT INTO event (run, elapsed_ms, wall_ms, offset_s, kind, since_ms, discomfort, site, waking,"
                    " stiffness, now, other_load, pain_relief, caution, signs)"
                    " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)",
  [SQL_LAST_EVENT] = "SELECT elapsed_ms, wall_ms, offset_s FROM event ORDER BY id DESC LIMIT 1",
  [SQL_EVENTS_FROM] = "SELECT elapsed_ms, wall_ms, offset_s, kind, since_ms, discomfort, site, waking, stiffness, now,"
                      " other_load, pain_relief, caution, signs FROM event WHERE id >= ?1 ORDER BY id",
  [SQL_ADD_OPENING] = "INSERT INTO opening (day, elapsed_ms, wall_ms, offset_s, first_event, history)"
                      " VALUES (?1, ?2, ?3, ?4, coalesce (?5, (SELECT coalesce (max (id), 0) + 1 FROM event)), ?6)",
  [SQL_LAST_OPENING] = "SELECT day, first_event, history FROM opening ORDER BY id DESC LIMIT 1",
  /* what came before the opening before the last is of no use any more */
  [SQL_PRUNE_EVENTS] = "DELETE FROM event WHERE id < (SELECT first_event FROM opening ORDER BY id DESC LIMIT 1 OFFSET 1)",
  [SQL_PRUNE_OPENINGS] = "DELETE FROM opening WHERE id < (SELECT id FROM opening ORDER BY id DESC LIMIT 1 OFFSET 1)",
  [SQL_RECORD_NOTE] = "SELECT text FROM note WHERE record = ?1",
  [SQL_RECORD_NOTE_SET] = "INSERT OR REPLACE INTO note (record, text) VALUES (?1, ?2)",
  [SQL_RECORD_NOTE_DROP] = "DELETE FROM note WHERE record = ?1",
  [SQL_DAY_NOTE] = "SELECT text FROM day_note WHERE day = ?1",
  [SQL_DAY_NOTE_SET] = "INSERT OR REPLACE INTO day_note (day, text) VALUES (?1, ?2)",
  [SQL_DAY_NOTE_DROP] = "DELETE FROM day_note WHERE day = ?1",
  [SQL_OTHER] = "SELECT ms FROM other_time WHERE day = ?1",
  [SQL_OTHER_ADD] = "INSERT INTO other_time (day, ms) VALUES (?1, ?2)"
                    " ON CONFLICT (day) DO UPDATE SET ms = ms + excluded.ms",
  [SQL_SUM_SET] = "INSERT OR REPLACE INTO day_sum (day, dose_ms, done_ms, match_ms, blocks, offered, taken, declined,"
                  " n_ratings, unanswered, zeros, rating_sum, highest, morning_known, waking, stiffness, now, other_load,"
                  " pain_relief, no_practice, caution) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13,"
                  " ?14, ?15, ?16, ?17, ?18, ?19, ?20, ?21)",
  [SQL_SUMS] = "SELECT d.day, coalesce (dose_ms, 0), coalesce (done_ms, 0), coalesce (match_ms, 0),"
               " coalesce (blocks, 0), coalesce (offered, 0), coalesce (taken, 0), coalesce (declined, 0),"
               " coalesce (n_ratings, 0), coalesce (unanswered, 0), coalesce (zeros, 0), coalesce (rating_sum, 0),"
               " coalesce (highest, -1), coalesce (morning_known, 0), coalesce (waking, -1), coalesce (stiffness, 0),"
               " coalesce (now, -1), coalesce (other_load, 0), coalesce (pain_relief, 0), coalesce (no_practice, 0),"
               " coalesce (caution, 0), coalesce (other_time.ms, -1), day_note.text"
               " FROM (SELECT day FROM day_sum WHERE day BETWEEN ?1 AND ?2"
               " UNION SELECT day FROM other_time WHERE day BETWEEN ?1 AND ?2"
               " UNION SELECT day FROM day_note WHERE day BETWEEN ?1 AND ?2) AS d"
               " LEFT JOIN day_sum ON day_sum.day = d.day LEFT JOIN other_time ON other_time.day = d.day"
               " LEFT JOIN day_note ON day_note.day = d.day ORDER BY d.day",
};

/* Everything that can be erased; a table that is not listed here would survive. */
static const char erasing[] =
  "DELETE FROM run; DELETE FROM event; DELETE FROM opening; DELETE FROM note; DELETE FROM day_note;"
  "DELETE FROM other_time; DELETE FROM day_sum;";

sqlite3_stmt *
carpace_store_sql (CarpaceDiaryStore *store, CarpaceSql sql)
{
  sqlite3_stmt **statement = &store->statement[sql];

  if (store->db == NULL)
    return NULL;
  if (*statement == NULL)
    sqlite3_prepare_v3 (store->db, statements[sql], -1, SQLITE_PREPARE_PERSISTENT, statement, NULL);
  else
    sqlite3_reset (*statement);
  if (*statement != NULL)
    sqlite3_clear_bindings (*statement);
  return *statement;
}

static GString *
field_names (CarpaceEntryKind kind, const char *before_each)
{
  GString *names = g_string_new (NULL);
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (kind, &n);

  for (int32_t i = 0; i < n; i++)
    g_string_append_printf (names, ", %s\"%s\"", before_each, field[i].name);
  return names;
}

sqlite3_stmt *
carpace_store_sql_add (CarpaceDiaryStore *store, CarpaceEntryKind kind)
{
  sqlite3_stmt **statement = &store->add_record[kind];

  if (*statement == NULL)
    {
      g_autoptr (GString) text = field_names (kind, "");
      int32_t n;

      carpace_entry_fields (kind, &n);
      g_string_prepend (text, "\" (id, day, elapsed_ms, wall_ms, offset_s");
      g_string_prepend (text, carpace_name (CARPACE_WORDS_ENTRY, kind));
      g_string_prepend (text, "INSERT INTO \"");
      g_string_append (text, ") VALUES (?, ?, ?, ?, ?");
      for (int32_t i = 0; i < n; i++)
        g_string_append (text, ", ?");
      g_string_append_c (text, ')');
      sqlite3_prepare_v3 (store->db, text->str, -1, SQLITE_PREPARE_PERSISTENT, statement, NULL);
    }
  else
    sqlite3_reset (*statement);
  return *statement;
}

static sqlite3_stmt *
prepare_reading (sqlite3 *db, CarpaceEntryKind kind, const char *where)
{
  g_autoptr (GString) fields = field_names (kind, "r.");
  g_autofree char *text
    = g_strdup_printf ("SELECT r.id, r.day, r.elapsed_ms, r.wall_ms, r.offset_s, n.text%s FROM \"%s\" AS r"
                       " LEFT JOIN note AS n ON n.record = r.id WHERE %s",
                       fields->str, carpace_name (CARPACE_WORDS_ENTRY, kind), where);
  sqlite3_stmt *statement = NULL;

  sqlite3_prepare_v3 (db, text, -1, SQLITE_PREPARE_PERSISTENT, &statement, NULL);
  return statement;
}

sqlite3_stmt *
carpace_store_sql_read (CarpaceDiaryStore *store, CarpaceEntryKind kind, bool *ret_own)
{
  static const char where[] = "r.day BETWEEN ?1 AND ?2 ORDER BY r.day, r.id";
  sqlite3_stmt **kept = &store->read_record[kind];

  *ret_own = *kept != NULL && sqlite3_stmt_busy (*kept) != 0;
  if (*ret_own)
    return prepare_reading (store->db, kind, where);
  if (*kept == NULL)
    *kept = prepare_reading (store->db, kind, where);
  return *kept;
}

sqlite3_stmt *
carpace_store_sql_one (CarpaceDiaryStore *store, CarpaceEntryKind kind)
{
  return prepare_reading (store->db, kind, "r.id = ?1");
}

void
carpace_store_sql_finalize (CarpaceDiaryStore *store)
{
  for (int i = 0; i < CARPACE_N_SQL; i++)
    g_clear_pointer (&store->statement[i], sqlite3_finalize);
  for (int i = 0; i < CARPACE_N_ENTRIES; i++)
    {
      g_clear_pointer (&store->add_record[i], sqlite3_finalize);
      g_clear_pointer (&store->read_record[i], sqlite3_finalize);
    }
}

bool
carpace_store_done (sqlite3_stmt *statement)
{
  bool done = statement != NULL && sqlite3_step (statement) == SQLITE_DONE;

  if (statement != NULL)
    sqlite3_reset (statement);
  return done;
}

bool
carpace_store_run_sql (CarpaceDiaryStore *store, CarpaceSql sql)
{
  return carpace_store_done (carpace_store_sql (store, sql));
}

int
carpace_store_sql_setup (sqlite3 *db, bool writing)
{
  sqlite3_extended_result_codes (db, 1);
  sqlite3_busy_timeout (db, 250);
  /* a file from a stranger may hold more than tables */
  sqlite3_db_config (db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
  if (!writing)
    return SQLITE_OK;
  return sqlite3_exec (db,
                       "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA secure_delete = ON;"
                       "PRAGMA cell_size_check = ON;",
                       NULL, NULL, NULL);
}

int
carpace_store_sql_number (sqlite3 *db, const char *pragma_or_select, int64_t *ret_number)
{
  sqlite3_stmt *statement = NULL;
  int result = sqlite3_prepare_v2 (db, pragma_or_select, -1, &statement, NULL);

  if (result == SQLITE_OK)
    {
      result = sqlite3_step (statement);
      if (result == SQLITE_ROW)
        *ret_number = sqlite3_column_int64 (statement, 0);
    }
  sqlite3_finalize (statement);
  return result == SQLITE_ROW || result == SQLITE_DONE ? SQLITE_OK : result;
}

/* One version up, in one transaction. */
static int
migrate_to (CarpaceDiaryStore *store, int version)
{
  g_autofree char *mark = g_strdup_printf ("PRAGMA user_version = %d; PRAGMA application_id = %d;", version,
                                           CARPACE_STORE_APPLICATION);
  int result = sqlite3_exec (store->db, "BEGIN IMMEDIATE", NULL, NULL, NULL);

  if (result == SQLITE_OK)
    result = sqlite3_exec (store->db, schemas[version - 1], NULL, NULL, NULL);
  if (result == SQLITE_OK && fillings[version - 1] != NULL && !fillings[version - 1](store))
    result = sqlite3_extended_errcode (store->db);
  if (result == SQLITE_OK)
    result = sqlite3_exec (store->db, mark, NULL, NULL, NULL);
  carpace_store_sql_finalize (store);
  if (result == SQLITE_OK)
    result = sqlite3_exec (store->db, "COMMIT", NULL, NULL, NULL);
  if (result != SQLITE_OK && sqlite3_get_autocommit (store->db) == 0)
    sqlite3_exec (store->db, "ROLLBACK", NULL, NULL, NULL);
  return result;
}

int
carpace_store_sql_migrate (CarpaceDiaryStore *store)
{
  int64_t version = 0;
  int result = carpace_store_sql_number (store->db, "PRAGMA user_version", &version);

  for (int to = (int) version + 1; result == SQLITE_OK && to <= CARPACE_STORE_SCHEMA; to++)
    result = migrate_to (store, to);
  return result;
}

int64_t
carpace_store_sql_last_record (sqlite3 *db)
{
  int64_t last = 0;

  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      g_autofree char *select
        = g_strdup_printf ("SELECT max (id) FROM \"%s\"", carpace_name (CARPACE_WORDS_ENTRY, kind));
      int64_t id = 0;

      carpace_store_sql_number (db, select, &id);
      last = MAX (last, id);
    }
  return last;
}

int
carpace_store_sql_empty (sqlite3 *db)
{
  int result = sqlite3_exec (db, "BEGIN IMMEDIATE", NULL, NULL, NULL);

  if (result == SQLITE_OK)
    result = sqlite3_exec (db, erasing, NULL, NULL, NULL);
  for (int kind = 0; result == SQLITE_OK && kind < CARPACE_N_ENTRIES; kind++)
    {
      g_autofree char *delete = g_strdup_printf ("DELETE FROM \"%s\"", carpace_name (CARPACE_WORDS_ENTRY, kind));

      result = sqlite3_exec (db, delete, NULL, NULL, NULL);
    }
  if (result == SQLITE_OK)
    result = sqlite3_exec (db, "COMMIT", NULL, NULL, NULL);
  if (result != SQLITE_OK && sqlite3_get_autocommit (db) == 0)
    sqlite3_exec (db, "ROLLBACK", NULL, NULL, NULL);
  if (result == SQLITE_OK)
    result = sqlite3_exec (db, "VACUUM; PRAGMA wal_checkpoint (TRUNCATE);", NULL, NULL, NULL);
  return result;
}

int
carpace_store_sql_quick_check (sqlite3 *db, char **ret_found)
{
  sqlite3_stmt *statement = NULL;
  int result = sqlite3_prepare_v2 (db, "PRAGMA quick_check (1)", -1, &statement, NULL);

  *ret_found = NULL;
  if (result == SQLITE_OK && (result = sqlite3_step (statement)) == SQLITE_ROW)
    {
      const char *found = (const char *) sqlite3_column_text (statement, 0);

      if (found != NULL && strcmp (found, "ok") != 0)
        *ret_found = g_strdup (found);
    }
  sqlite3_finalize (statement);
  return result;
}

void
carpace_store_bind_instant (sqlite3_stmt *statement, int first, CarpaceInstant at)
{
  sqlite3_bind_int64 (statement, first, at.elapsed_ms);
  sqlite3_bind_int64 (statement, first + 1, at.wall_ms);
  sqlite3_bind_int (statement, first + 2, at.offset_s);
}

CarpaceInstant
carpace_store_column_instant (sqlite3_stmt *statement, int first)
{
  return (CarpaceInstant) { .elapsed_ms = sqlite3_column_int64 (statement, first),
                            .wall_ms = sqlite3_column_int64 (statement, first + 1),
                            .offset_s = sqlite3_column_int (statement, first + 2) };
}
