/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-postgres-fields.c: records as columns, by the table of their fields; all values as texts. */
#include "adapters/roster-postgres-private.h"

#include <string.h>

/* ---- towards the server ---- */

GPtrArray *
carpace_postgres_values (void)
{
  return g_ptr_array_new_with_free_func (g_free);
}

void
carpace_postgres_add_bytes (GPtrArray *values, const uint8_t *byte, size_t n)
{
  static const char digit[] = "0123456789abcdef";
  char *text = g_malloc (2 * n + 3);

  memcpy (text, "\\x", 2);
  for (size_t i = 0; i < n; i++)
    {
      text[2 * i + 2] = digit[byte[i] >> 4];
      text[2 * i + 3] = digit[byte[i] & 15];
    }
  text[2 * n + 2] = '\0';
  g_ptr_array_add (values, text);
}

void
carpace_postgres_add_key (GPtrArray *values, const CarpaceKey *key)
{
  carpace_postgres_add_bytes (values, key->byte, CARPACE_KEY_BYTES);
}

void
carpace_postgres_add_text (GPtrArray *values, const char *text)
{
  g_ptr_array_add (values, g_strdup (text));
}

void
carpace_postgres_add_number (GPtrArray *values, int64_t number)
{
  g_ptr_array_add (values, g_strdup_printf ("%" G_GINT64_FORMAT, number));
}

void
carpace_postgres_add (GPtrArray *values, CarpaceTeamKind kind, const void *record)
{
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, NULL);

  for (int32_t i = 0; i < n; i++)
    {
      const char *place = (const char *) record + field[i].field.offset;
      CarpaceTeamBytes bytes;

      switch (field[i].shape)
        {
        case CARPACE_TEAM_NUMBER:
          carpace_postgres_add_number (values, carpace_field_get (&field[i].field, record));
          break;
        case CARPACE_TEAM_KEY:
          carpace_postgres_add_bytes (values, (const uint8_t *) place, CARPACE_KEY_BYTES);
          break;
        case CARPACE_TEAM_TEXT:
          carpace_postgres_add_text (values, place);
          break;
        case CARPACE_TEAM_BYTES:
          memcpy (&bytes, place, sizeof bytes);
          carpace_postgres_add_bytes (values, bytes.byte, bytes.n);
          break;
        }
    }
}

char *
carpace_postgres_columns (CarpaceTeamKind kind)
{
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, NULL);
  GString *out = g_string_new (NULL);

  for (int32_t i = 0; i < n; i++)
    g_string_append_printf (out, "%s\"%s\"", i > 0 ? ", " : "", field[i].field.name);
  return g_string_free (out, FALSE);
}

char *
carpace_postgres_marks (CarpaceTeamKind kind, int first)
{
  int32_t n;
  GString *out = g_string_new (NULL);

  carpace_team_fields (kind, &n, NULL);
  for (int32_t i = 0; i < n; i++)
    g_string_append_printf (out, "%s$%d", i > 0 ? ", " : "", first + (int) i);
  return g_string_free (out, FALSE);
}

char *
carpace_postgres_excluded (CarpaceTeamKind kind)
{
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, NULL);
  GString *out = g_string_new (NULL);

  for (int32_t i = 0; i < n; i++)
    g_string_append_printf (out, "%s\"%s\" = excluded.\"%s\"", i > 0 ? ", " : "", field[i].field.name, field[i].field.name);
  return g_string_free (out, FALSE);
}

/* ---- from the server, a stranger ---- */

bool
carpace_postgres_take_number (const PGresult *result, int row, int column, int64_t *ret_number)
{
  return column < PQnfields (result) && !PQgetisnull (result, row, column)
         && g_ascii_string_to_signed (PQgetvalue (result, row, column), 10, G_MININT64, G_MAXINT64, ret_number, NULL);
}

static int
digit_of (char c)
{
  return g_ascii_isxdigit (c) ? g_ascii_xdigit_value (c) : -1;
}

/* "\x…", as the server writes bytes. */
static bool
take_bytes (const PGresult *result, int row, int column, GByteArray *to)
{
  const char *text = column < PQnfields (result) && !PQgetisnull (result, row, column) ? PQgetvalue (result, row, column) : "";
  size_t n = strlen (text);

  if (n < 2 || n % 2 != 0 || text[0] != '\\' || text[1] != 'x')
    return false;
  for (size_t i = 2; i < n; i += 2)
    {
      int high = digit_of (text[i]), low = digit_of (text[i + 1]);
      uint8_t byte = (uint8_t) (high * 16 + low);

      if (high < 0 || low < 0)
        return false;
      g_byte_array_append (to, &byte, 1);
    }
  return true;
}

bool
carpace_postgres_take_key (const PGresult *result, int row, int column, CarpaceKey *ret_key)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();

  if (!take_bytes (result, row, column, bytes) || bytes->len != CARPACE_KEY_BYTES)
    return false;
  memcpy (ret_key->byte, bytes->data, CARPACE_KEY_BYTES);
  return true;
}

static bool
take_text (const PGresult *result, int row, int column, const CarpaceTeamField *field, char *place)
{
  const char *text = column < PQnfields (result) && !PQgetisnull (result, row, column) ? PQgetvalue (result, row, column) : NULL;

  if (text == NULL || strlen (text) > field->most || !g_utf8_validate (text, -1, NULL))
    return false;
  memcpy (place, text, strlen (text) + 1);
  return true;
}

static bool
take_field (const PGresult *result, int row, int column, const CarpaceTeamField *field, void *record, GByteArray *bytes)
{
  char *place = (char *) record + field->field.offset;
  int64_t number;
  CarpaceTeamBytes held;

  switch (field->shape)
    {
    case CARPACE_TEAM_NUMBER:
      return carpace_postgres_take_number (result, row, column, &number) && carpace_field_set (&field->field, record, number);
    case CARPACE_TEAM_KEY:
      return carpace_postgres_take_key (result, row, column, (CarpaceKey *) (void *) place);
    case CARPACE_TEAM_TEXT:
      return take_text (result, row, column, field, place);
    case CARPACE_TEAM_BYTES:
      g_byte_array_set_size (bytes, 0);
      if (!take_bytes (result, row, column, bytes) || bytes->len > field->most)
        return false;
      held = (CarpaceTeamBytes) { bytes->data, bytes->len };
      memcpy (place, &held, sizeof held);
      return true;
    }
  return false;
}

bool
carpace_postgres_take (const PGresult *result, int row, int column, CarpaceTeamKind kind, void *ret_record, GByteArray *bytes)
{
  int32_t n;
  size_t size;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, &size);
  bool good = true;

  memset (ret_record, 0, size);
  for (int32_t i = 0; good && i < n; i++)
    good = take_field (result, row, column + (int) i, &field[i], ret_record, bytes);
  return good;
}
