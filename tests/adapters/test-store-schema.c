/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Diaries of every earlier schema, kept as SQL: each is brought up to the present one and tells the same. */
#define _GNU_SOURCE

#include "store-samples.h"

#include <sqlite3.h>

#include "store-sqlite-private.h"

/* What each fixture holds: the evenings of store-samples.h, on two days. */
static const struct
{
  const char *name, *file, *further;
  bool notes, says_more; /* two more events: an intermission (from schema 4 on) and a caution */
} schema_rows[] = {
  { .name = "schema 1", .file = "schema-1.sql", .further = "" },
  { .name = "schema 2", .file = "schema-2.sql", .further = "", .notes = true },
  { .name = "schema 3", .file = "schema-3.sql", .further = "", .notes = true },
  { .name = "schema 3, signs as bits", .file = "schema-3.sql", .notes = true, .says_more = true,
    .further = "INSERT INTO event (id, run, elapsed_ms, wall_ms, offset_s, kind) VALUES (27, 1, 0, 0, 0, 'intermission');"
               "INSERT INTO event (id, run, elapsed_ms, wall_ms, offset_s, kind, caution, signs)"
               " VALUES (28, 1, 0, 0, 0, 'caution', 'signs', 33)" },
  { .name = "schema 4", .file = "schema-4.sql", .further = "", .notes = true, .says_more = true },
  { .name = "schema 6", .file = "schema-6.sql", .further = "", .notes = true, .says_more = true },
  { .name = "schema 7", .file = "schema-6.sql", .notes = true, .says_more = true,
    .further = "CREATE TABLE whose (id TEXT PRIMARY KEY, place INTEGER NOT NULL); PRAGMA user_version = 7;" },
  { .name = "schema 8", .file = "schema-6.sql", .notes = true, .says_more = true,
    .further = "CREATE TABLE whose (id TEXT PRIMARY KEY, place INTEGER NOT NULL); PRAGMA user_version = 8;" },
  { .name = "schema 4, columns missing", .file = "schema-4.sql", .notes = true, .says_more = true,
    .further = "ALTER TABLE cue DROP COLUMN in_run; ALTER TABLE event DROP COLUMN uncounted;"
               "ALTER TABLE decision DROP COLUMN weeks" },
};

static void
make_from_sql (const char *path, const char *file, const char *further)
{
  g_autofree char *sql_path = g_build_filename (CARPACE_TEST_DATA, "diaries", file, NULL);
  g_autofree char *sql = NULL;
  sqlite3 *db;

  assert_true (g_file_get_contents (sql_path, &sql, NULL, NULL));
  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, sql, NULL, NULL, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, further, NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close (db);
}

static void
assert_two_evenings (CarpaceDiaryStore *store, bool notes)
{
  Seen seen = see (store);
  CarpaceDaySum first = g_array_index (seen.sums, CarpaceDaySum, 0), second = g_array_index (seen.sums, CarpaceDaySum, 1);

  assert_int_equal (seen.records->len, 30);
  assert_int_equal (seen.sums->len, 2);
  assert_int_equal (first.day, SAMPLE_DAY);
  assert_int_equal (first.rating_sum, 3);
  assert_int_equal (first.done_ms, 54 * CARPACE_MINUTE_MS);
  assert_int_equal (first.offered, 2);
  assert_int_equal (second.unanswered, 1);
  assert_int_equal (second.highest, 3);
  assert_int_equal (first.other_ms, notes ? 3600000 : -1);
  assert_int_equal (g_strcmp0 (second.note, notes ? "long bus ride" : NULL), 0);
  assert_int_equal (g_strcmp0 (g_array_index (seen.records, CarpaceRecord, 11).note, notes ? "new mouse mat" : NULL), 0);
  seen_free (&seen);
}

static void
older_diaries_are_brought_up (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (schema_rows); i++)
    {
      char *folder = folder_new (), *path = g_build_filename (folder, "diary.sqlite", NULL), *before, *after;
      CarpaceDiaryStore *store;
      CarpaceResume resume;
      Told told = { 0 };
      gsize n_before, n_after;

      print_message ("%s\n", schema_rows[i].name);
      make_from_sql (path, schema_rows[i].file, schema_rows[i].further);
      /* reading changes nothing */
      assert_true (g_file_get_contents (path, &before, &n_before, NULL));
      store = carpace_store_open (path, CARPACE_STORE_READING, note_told, &told);
      assert_non_null (store);
      assert_two_evenings (store, schema_rows[i].notes);
      carpace_store_close (store, false);
      assert_true (g_file_get_contents (path, &after, &n_after, NULL));
      assert_int_equal (n_before, n_after);
      assert_memory_equal (before, after, n_after);
      /* writing brings it up, and it goes on */
      for (int round = 0; round < 2; round++)
        {
          store = carpace_store_open (path, CARPACE_STORE_WRITING, note_told, &told);
          assert_two_evenings (store, schema_rows[i].notes);
          carpace_store_resume (store, &resume);
          assert_true (resume.known && resume.ended_well);
          assert_int_equal (resume.n_events, schema_rows[i].says_more ? 15 : 13);
          if (schema_rows[i].says_more)
            {
              assert_int_equal (resume.event[14].caution.answer, CARPACE_CAUTION_SIGNS);
              assert_int_equal (resume.event[14].caution.signs, 1u << CARPACE_SIGN_INJURY | 1u << CARPACE_SIGN_NUMB);
            }
          assert_int_equal (resume.history.dose_ms, 60 * CARPACE_MINUTE_MS);
          carpace_store_resume_clear (&resume);
          carpace_store_close (store, true);
        }
      assert_int_equal (told.n, 0);
      g_free (before);
      g_free (after);
      g_free (path);
      folder_free (folder);
    }
}

/* A table is in the way of the migration: it fails, and the file stays as it was. */
static void
a_failed_migration_deletes_nothing (void **state)
{
  char *folder = folder_new (), *path = g_build_filename (folder, "diary.sqlite", NULL), *count = NULL;
  CarpaceDiaryStore *store;
  Told told = { 0 };
  sqlite3_stmt *statement;
  sqlite3 *db;

  make_from_sql (path, "schema-1.sql", "CREATE TABLE day_note (something TEXT)");
  store = carpace_store_open (path, CARPACE_STORE_WRITING, note_told, &told);
  assert_non_null (store);
  assert_int_equal (told.n, 1);
  assert_int_equal (told.last, CARPACE_STORE_FAILED);
  carpace_store_close (store, true);
  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  sqlite3_prepare_v2 (db, "SELECT (SELECT count (*) FROM event) || ' ' || (SELECT count (*) FROM rating) || ' '"
                          " || (SELECT count (*) FROM sqlite_schema WHERE name = 'note') || ' '"
                          " || (SELECT user_version FROM pragma_user_version)", -1, &statement, NULL);
  assert_int_equal (sqlite3_step (statement), SQLITE_ROW);
  count = g_strdup ((const char *) sqlite3_column_text (statement, 0));
  assert_string_equal (count, "26 4 0 1");
  sqlite3_finalize (statement);
  sqlite3_close (db);
  g_free (count);
  g_free (path);
  folder_free (folder);
}

static bool
take_off (void *user, const char *table, const CarpaceField *field)
{
  g_autofree char *name = g_strdup_printf ("%s.%s %s", table, field->name, carpace_store_column_type (field));

  if (!g_hash_table_remove (user, name))
    fail_msg ("there is no column %s", name);
  return true;
}

/* The tables hold the fields of the field table, no more and no fewer. */
static void
the_schema_has_each_field (void **state)
{
  /* beside what every record (5) or event (6) has */
  static const char select[] = "SELECT t.name || '.' || c.name || ' ' || c.type FROM sqlite_schema AS t,"
                               " pragma_table_info (t.name) AS c WHERE t.type = 'table' AND"
                               " ((t.name = 'event' AND c.cid >= 6) OR (c.cid >= 5 AND t.name IN ('state', 'day', 'block',"
                               " 'overrun', 'cue', 'rest', 'rating', 'morning', 'decision', 'caution', 'fault',"
                               " 'clicks')))";
  char *folder = folder_new (), *path = g_build_filename (folder, "diary.sqlite", NULL);
  GHashTable *columns = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GHashTableIter left;
  gpointer name;
  sqlite3_stmt *statement;
  sqlite3 *db;

  carpace_store_close (carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL), true);
  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  assert_int_equal (sqlite3_prepare_v2 (db, select, -1, &statement, NULL), SQLITE_OK);
  while (sqlite3_step (statement) == SQLITE_ROW)
    g_hash_table_add (columns, g_strdup ((const char *) sqlite3_column_text (statement, 0)));
  sqlite3_finalize (statement);
  carpace_store_each_field (take_off, columns);
  g_hash_table_iter_init (&left, columns);
  if (g_hash_table_iter_next (&left, &name, NULL))
    fail_msg ("no field has the column %s", (const char *) name);
  g_hash_table_unref (columns);
  sqlite3_close (db);
  g_free (path);
  folder_free (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (older_diaries_are_brought_up),
    cmocka_unit_test (a_failed_migration_deletes_nothing),
    cmocka_unit_test (the_schema_has_each_field),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
