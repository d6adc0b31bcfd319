/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-sqlite-fields.c: records as columns, by the table of their fields. */
#include "adapters/roster-sqlite-private.h"

#include <string.h>

static const char *
type_of (CarpaceTeamShape shape)
{
  switch (shape)
    {
    case CARPACE_TEAM_NUMBER: return "INTEGER";
    case CARPACE_TEAM_KEY: return "BLOB";
    case CARPACE_TEAM_TEXT: return "TEXT";
    case CARPACE_TEAM_BYTES: break;
    }
  return "BLOB";
}

static char *
joined (CarpaceTeamKind kind, bool names, bool types)
{
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, NULL);
  GString *out = g_string_new (NULL);

  for (int32_t i = 0; i < n; i++)
    {
      g_string_append (out, i > 0 ? ", " : "");
      if (names)
        g_string_append_printf (out, "\"%s\"", field[i].field.name);
      else
        g_string_append_c (out, '?');
      if (types)
        g_string_append_printf (out, " %s NOT NULL", type_of (field[i].shape));
    }
  return g_string_free (out, FALSE);
}

char *
carpace_roster_typed (CarpaceTeamKind kind)
{
  return joined (kind, true, true);
}

static sqlite3_stmt *
prepare (Roster *roster, const char *sql)
{
  sqlite3_stmt *statement = NULL;

  sqlite3_prepare_v3 (roster->db, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, NULL);
  return statement;
}

static sqlite3_stmt *
prepare_of_kind (Roster *roster, const char *sql, CarpaceTeamKind kind)
{
  g_autofree char *columns = joined (kind, true, false), *marks = joined (kind, false, false);
  g_autoptr (GString) whole = g_string_new (sql);

  g_string_replace (whole, "COLUMNS", columns, 1);
  g_string_replace (whole, "MARKS", marks, 1);
  return prepare (roster, whole->str);
}

static sqlite3_stmt *
find (Roster *roster, const char *sql)
{
  sqlite3_stmt *statement = g_hash_table_lookup (roster->prepared, sql);

  if (statement != NULL)
    {
      sqlite3_reset (statement);
      sqlite3_clear_bindings (statement);
    }
  return statement;
}

static sqlite3_stmt *
keep (Roster *roster, const char *sql, sqlite3_stmt *statement)
{
  if (statement != NULL)
    g_hash_table_insert (roster->prepared, (gpointer) sql, statement);
  return statement;
}

sqlite3_stmt *
carpace_roster_of_kind (Roster *roster, const char *sql, CarpaceTeamKind kind)
{
  sqlite3_stmt *statement = find (roster, sql);

  return statement != NULL ? statement : keep (roster, sql, prepare_of_kind (roster, sql, kind));
}

sqlite3_stmt *
carpace_roster_statement (Roster *roster, const char *sql)
{
  sqlite3_stmt *statement = find (roster, sql);

  return statement != NULL ? statement : keep (roster, sql, prepare (roster, sql));
}

void
carpace_roster_bind_key (sqlite3_stmt *statement, int at, const CarpaceKey *key)
{
  sqlite3_bind_blob (statement, at, key->byte, CARPACE_KEY_BYTES, SQLITE_TRANSIENT);
}

int
carpace_roster_bind (sqlite3_stmt *statement, int at, CarpaceTeamKind kind, const void *record)
{
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, NULL);

  for (int32_t i = 0; i < n; i++, at++)
    {
      const char *place = (const char *) record + field[i].field.offset;
      CarpaceTeamBytes bytes;

      switch (field[i].shape)
        {
        case CARPACE_TEAM_NUMBER:
          sqlite3_bind_int64 (statement, at, carpace_field_get (&field[i].field, record));
          break;
        case CARPACE_TEAM_KEY:
          sqlite3_bind_blob (statement, at, place, CARPACE_KEY_BYTES, SQLITE_TRANSIENT);
          break;
        case CARPACE_TEAM_TEXT:
          sqlite3_bind_text (statement, at, place, -1, SQLITE_TRANSIENT);
          break;
        case CARPACE_TEAM_BYTES:
          memcpy (&bytes, place, sizeof bytes);
          sqlite3_bind_blob (statement, at, bytes.n > 0 ? (const void *) bytes.byte : "", (int) bytes.n, SQLITE_TRANSIENT);
          break;
        }
    }
  return at;
}

static bool
take_field (sqlite3_stmt *statement, int at, const CarpaceTeamField *field, void *record)
{
  char *place = (char *) record + field->field.offset;
  CarpaceTeamBytes bytes;
  size_t n;

  if (field->shape == CARPACE_TEAM_NUMBER) /* asked for its bytes it would become a text */
    return carpace_field_set (&field->field, record, sqlite3_column_int64 (statement, at));
  bytes.byte = sqlite3_column_blob (statement, at);
  bytes.n = n = (size_t) sqlite3_column_bytes (statement, at);
  switch (field->shape)
    {
    case CARPACE_TEAM_NUMBER:
      break;
    case CARPACE_TEAM_KEY:
      if (n == CARPACE_KEY_BYTES)
        memcpy (place, bytes.byte, n);
      return n == CARPACE_KEY_BYTES;
    case CARPACE_TEAM_TEXT:
      if (n <= field->most && n > 0)
        memcpy (place, bytes.byte, n);
      return n <= field->most;
    case CARPACE_TEAM_BYTES:
      memcpy (place, &bytes, sizeof bytes);
      return n <= field->most;
    }
  return false;
}

bool
carpace_roster_take (sqlite3_stmt *statement, int at, CarpaceTeamKind kind, void *ret_record)
{
  int32_t n;
  size_t size;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, &size);
  bool good = true;

  memset (ret_record, 0, size);
  for (int32_t i = 0; good && i < n; i++)
    good = take_field (statement, at + i, &field[i], ret_record);
  return good;
}

bool
carpace_roster_done (sqlite3_stmt *statement)
{
  int result = statement != NULL ? sqlite3_step (statement) : SQLITE_ERROR;

  while (result == SQLITE_ROW)
    result = sqlite3_step (statement);
  if (statement != NULL)
    sqlite3_reset (statement);
  return result == SQLITE_DONE;
}
