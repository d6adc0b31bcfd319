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

/* Schema 4: what an event says has the names and words of the table of fields,
 * which gives its further columns, too (make_columns). */
static const char schema_4[] =
  "ALTER TABLE event RENAME COLUMN caution TO answer; ALTER TABLE event RENAME COLUMN signs TO sign_bits;";

/* Schema 5: plans that were given, with all that was fixed from then on, a line a
 * thing; what was released; and the plans of days, as files. */
static const char schema_5[] =
  "CREATE TABLE plan (id INTEGER PRIMARY KEY, " INSTANT_COLUMNS ", what TEXT NOT NULL, name TEXT NOT NULL,"
  " version INTEGER NOT NULL, fixed TEXT NOT NULL, text TEXT NOT NULL);";

/* Schema 6: a run knows its last step, a deadline's too: what was told is not told again. */
static const char schema_6[] = "ALTER TABLE run ADD COLUMN kept_ms INTEGER;";

static bool write_signs_out (CarpaceDiaryStore *store);

/* Schema 7: whose diary it is. */
static const char schema_7[] = "CREATE TABLE whose (id TEXT PRIMARY KEY, place INTEGER NOT NULL);";

/* Schema 8: events of a practice window, which an older program could not go on from. */
static const char schema_8[] = "";

/* Schema 9: clicks counted, by minutes of active time. */
static const char schema_9[] = RECORD_TABLE ("clicks", "block INTEGER, from_ms INTEGER, ms INTEGER, count INTEGER");

static const char *const schemas[] = { schema_1, schema_2, schema_3, schema_4, schema_5, schema_6, schema_7, schema_8, schema_9 };
_Static_assert (G_N_ELEMENTS (schemas) == CARPACE_STORE_SCHEMA, "each version has its SQL");

/* Fills in what a new version's tables are to hold, from what is there. */
static bool (*const fillings[CARPACE_STORE_SCHEMA]) (CarpaceDiaryStore *)
  = { NULL, NULL, carpace_store_sum_up_all, write_signs_out, NULL, NULL };

static const char *const statements[CARPACE_N_SQL] = {
  [SQL_BEGIN] = "BEGIN IMMEDIATE",
  [SQL_COMMIT] = "COMMIT",
  [SQL_ROLLBACK] = "ROLLBACK",
  [SQL_ADD_RUN] = "INSERT INTO run (boot_id, base_ms, began_wall_ms, elapsed_ms, wall_ms, offset_s)"
                  " VALUES (?1, ?2, ?4, ?3, ?4, ?5)",
  [SQL_LAST_RUN] = "SELECT boot_id, base_ms, elapsed_ms, wall_ms, offset_s, ended_well,"
                   " (SELECT max (kept_ms) FROM run) FROM run ORDER BY id DESC LIMIT 1",
  [SQL_KEPT_LAST] = "UPDATE run SET kept_ms = max (coalesce (kept_ms, ?1), ?1) WHERE id = (SELECT max (id) FROM run)",
  [SQL_KEPT] = "UPDATE run SET kept_ms = ?2 WHERE id = ?1",
  [SQL_ALIVE] = "UPDATE run SET elapsed_ms = ?2, wall_ms = ?3, offset_s = ?4 WHERE id = ?1",
  [SQL_END_RUN] = "UPDATE run SET ended_well = 1 WHERE id = ?1",
  [SQL_LAST_EVENT] = "SELECT elapsed_ms, wall_ms, offset_s FROM event ORDER BY id DESC LIMIT 1",
  /* the first ?2 since the last ?3, of what was said before the event ?1 */
  [SQL_ON_AIR_AT] = "SELECT elapsed_ms, wall_ms, offset_s FROM event WHERE kind = ?2 AND id < ?1"
                    " AND id > coalesce ((SELECT max (id) FROM event WHERE kind = ?3 AND id < ?1), 0) ORDER BY id LIMIT 1",
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
  [SQL_CLEAR_EVENTS] = "DELETE FROM event",
  [SQL_CLEAR_OPENINGS] = "DELETE FROM opening",
  [SQL_WHOSE] = "SELECT id FROM whose ORDER BY place",
  [SQL_WHOSE_ADD] = "INSERT INTO whose (id, place) VALUES (?1, ?2)",
  [SQL_WHOSE_CLEAR] = "DELETE FROM whose",
  [SQL_PLAN_ADD] = "INSERT INTO plan (elapsed_ms, wall_ms, offset_s, what, name, version, fixed, text)"
                   " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
  [SQL_PLAN_KNOWN] = "SELECT 1 FROM plan WHERE wall_ms = ?2 AND what = ?4 AND name = ?5 AND version = ?6 AND fixed = ?7"
                     " AND text = ?8",
  [SQL_PLAN_OF_DAY] = "SELECT text FROM plan WHERE what = 'day' ORDER BY id DESC LIMIT 1",
  [SQL_PLANS] = "SELECT elapsed_ms, wall_ms, offset_s, what, name, version, fixed, text FROM plan ORDER BY id",
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
  "DELETE FROM other_time; DELETE FROM day_sum; DELETE FROM plan; DELETE FROM whose;";

/* A statement's text. Those about events have a column, and a place of its
 * name, for each field that any of them has. */
static char *
text_of (CarpaceSql sql)
{
  g_autoptr (GPtrArray) fields = NULL;
  g_autoptr (GString) columns = g_string_new (NULL), places = g_string_new (NULL);

  if (statements[sql] != NULL)
    return g_strdup (statements[sql]);
  fields = carpace_store_event_fields ();
  for (guint i = 0; i < fields->len; i++)
    {
      const CarpaceField *field = g_ptr_array_index (fields, i);

      g_string_append_printf (columns, ", \"%s\"", field->name);
      g_string_append_printf (places, ", :%s", field->name);
    }
  if (sql == SQL_EVENTS_FROM)
    return g_strdup_printf ("SELECT elapsed_ms, wall_ms, offset_s, kind%s FROM event WHERE id >= ?1 ORDER BY id",
                            columns->str);
  return g_strdup_printf ("INSERT INTO event (run, elapsed_ms, wall_ms, offset_s, kind%s) VALUES (?1, ?2, ?3, ?4, ?5%s)",
                          columns->str, places->str);
}

sqlite3_stmt *
carpace_store_sql (CarpaceDiaryStore *store, CarpaceSql sql)
{
  sqlite3_stmt **statement = &store->statement[sql];

  if (store->db == NULL)
    return NULL;
  if (*statement == NULL)
    {
      g_autofree char *text = text_of (sql);

      sqlite3_prepare_v3 (store->db, text, -1, SQLITE_PREPARE_PERSISTENT, statement, NULL);
    }
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
  static const char where[] = "r.day BETWEEN ?1 AND ?2 ORDER BY r.day, r.elapsed_ms, r.id";
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
  sqlite3_busy_timeout (db, CARPACE_STORE_BUSY_MS);
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

/* The columns that the file's tables have, each as "table.column". */
static GHashTable *
columns_there (sqlite3 *db)
{
  static const char select[] = "SELECT t.name || '.' || c.name FROM sqlite_schema AS t, pragma_table_info (t.name) AS c"
                               " WHERE t.type = 'table'";
  GHashTable *columns = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  sqlite3_stmt *statement = NULL;

  if (sqlite3_prepare_v2 (db, select, -1, &statement, NULL) == SQLITE_OK)
    while (sqlite3_step (statement) == SQLITE_ROW)
      g_hash_table_add (columns, g_strdup ((const char *) sqlite3_column_text (statement, 0)));
  sqlite3_finalize (statement);
  return columns;
}

typedef struct { sqlite3 *db; GHashTable *there; } Columns;

static bool
has_column (void *user, const char *table, const CarpaceField *field)
{
  const Columns *columns = user;
  g_autofree char *name = g_strdup_printf ("%s.%s", table, field->name);

  return g_hash_table_contains (columns->there, name);
}

static bool
make_column (void *user, const char *table, const CarpaceField *field)
{
  const Columns *columns = user;
  g_autofree char *alter = g_strdup_printf ("ALTER TABLE \"%s\" ADD COLUMN \"%s\" %s", table, field->name,
                                            carpace_store_column_type (field));

  return has_column (user, table, field) || sqlite3_exec (columns->db, alter, NULL, NULL, NULL) == SQLITE_OK;
}

/* A column for each field that the file's tables have none for. */
static int
make_columns (sqlite3 *db)
{
  g_autoptr (GHashTable) there = columns_there (db);
  Columns columns = { db, there };

  return carpace_store_each_field (make_column, &columns) ? SQLITE_OK : sqlite3_extended_errcode (db);
}

bool
carpace_store_sql_whole (CarpaceDiaryStore *store)
{
  g_autoptr (GHashTable) there = columns_there (store->db);
  Columns columns = { store->db, there };

  return carpace_store_each_field (has_column, &columns);
}

/* Up to schema 3 an event's signs were bits. */
static bool
write_signs_out (CarpaceDiaryStore *store)
{
  g_autoptr (GString) update = g_string_new ("UPDATE event SET signs = nullif (rtrim (''");

  for (int32_t sign = 0; sign < CARPACE_N_SIGNS; sign++)
    g_string_append_printf (update, " || CASE WHEN sign_bits & %u THEN '%s ' ELSE '' END", 1u << sign,
                            carpace_name (CARPACE_WORDS_SIGN, sign));
  g_string_append (update, "), '') WHERE sign_bits IS NOT NULL; ALTER TABLE event DROP COLUMN sign_bits;");
  return sqlite3_exec (store->db, update->str, NULL, NULL, NULL) == SQLITE_OK;
}

/* The tables of each version after @version; columns; then what they hold. */
static int
bring_up (CarpaceDiaryStore *store, int version)
{
  g_autofree char *mark = g_strdup_printf ("PRAGMA user_version = %d; PRAGMA application_id = %d;",
                                           MAX (version, CARPACE_STORE_SCHEMA), CARPACE_STORE_APPLICATION);
  int result = SQLITE_OK;

  for (int from = version; result == SQLITE_OK && from < CARPACE_STORE_SCHEMA; from++)
    result = sqlite3_exec (store->db, schemas[from], NULL, NULL, NULL);
  if (result == SQLITE_OK)
    result = make_columns (store->db);
  for (int from = version; result == SQLITE_OK && from < CARPACE_STORE_SCHEMA; from++)
    if (fillings[from] != NULL && !fillings[from](store))
      result = sqlite3_extended_errcode (store->db);
  return result == SQLITE_OK ? sqlite3_exec (store->db, mark, NULL, NULL, NULL) : result;
}

/* All the way, or not at all. */
int
carpace_store_sql_migrate (CarpaceDiaryStore *store)
{
  int64_t version = 0;
  int result = carpace_store_sql_number (store->db, "PRAGMA user_version", &version);

  if (result != SQLITE_OK || (version >= CARPACE_STORE_SCHEMA && carpace_store_sql_whole (store)))
    return result;
  result = sqlite3_exec (store->db, "BEGIN IMMEDIATE", NULL, NULL, NULL);
  if (result == SQLITE_OK)
    result = bring_up (store, (int) version);
  carpace_store_sql_finalize (store);
  if (result == SQLITE_OK)
    result = sqlite3_exec (store->db, "COMMIT", NULL, NULL, NULL);
  if (result != SQLITE_OK && sqlite3_get_autocommit (store->db) == 0)
    sqlite3_exec (store->db, "ROLLBACK", NULL, NULL, NULL);
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
    result = sqlite3_exec (db, "VACUUM", NULL, NULL, NULL);
  return result;
}

/* The pragma's first column tells whether somebody was in the way. */
int
carpace_store_sql_fold_log (sqlite3 *db, bool *ret_done)
{
  int64_t busy = 1;
  int result = carpace_store_sql_number (db, "PRAGMA wal_checkpoint (TRUNCATE)", &busy);

  *ret_done = result == SQLITE_OK && busy == 0;
  return (result & 0xff) == SQLITE_BUSY || (result & 0xff) == SQLITE_LOCKED ? SQLITE_OK : result;
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
