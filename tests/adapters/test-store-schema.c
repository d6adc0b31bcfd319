/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Diaries of every earlier schema, kept as SQL: each is brought up to the present one and tells the same. */
#define _GNU_SOURCE

#include "store-samples.h"

#include <sqlite3.h>

/* What each fixture holds: the evenings of store-samples.h, on two days. */
static const struct
{
  const char *name, *file;
  bool notes;
} schema_rows[] = {
  { .name = "schema 1", .file = "schema-1.sql" },
  { .name = "schema 2", .file = "schema-2.sql", .notes = true },
  { .name = "schema 3", .file = "schema-3.sql", .notes = true },
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
      make_from_sql (path, schema_rows[i].file, "");
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
          assert_int_equal (resume.n_events, 13);
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

/* The tables hold the fields of the field table, no more and no fewer. */
static void
the_schema_has_each_field (void **state)
{
  char *folder = folder_new (), *path = g_build_filename (folder, "diary.sqlite", NULL);
  sqlite3 *db;

  carpace_store_close (carpace_store_open (path, CARPACE_STORE_WRITING, NULL, NULL), true);
  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      g_autofree char *select = g_strdup_printf ("SELECT name FROM pragma_table_info ('%s') LIMIT -1 OFFSET 5",
                                                 carpace_name (CARPACE_WORDS_ENTRY, kind));
      int32_t n, i = 0;
      const CarpaceField *field = carpace_entry_fields (kind, &n);
      sqlite3_stmt *statement;

      assert_int_equal (sqlite3_prepare_v2 (db, select, -1, &statement, NULL), SQLITE_OK);
      for (; sqlite3_step (statement) == SQLITE_ROW; i++)
        assert_string_equal ((const char *) sqlite3_column_text (statement, 0), i < n ? field[i].name : "");
      assert_int_equal (i, n);
      sqlite3_finalize (statement);
    }
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
