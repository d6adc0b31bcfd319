/* SPDX-License-Identifier: GPL-3.0-or-later */
/* store-sqlite-fields.c: a field's column: its name, its type, what stands in it. */
#include "store-sqlite-private.h"

#include <string.h>

void
carpace_store_bind_field (sqlite3_stmt *statement, int column, const CarpaceField *field, const void *value)
{
  switch (field->type)
    {
    case CARPACE_FIELD_NUMBER:
    case CARPACE_FIELD_MS:
    case CARPACE_FIELD_FLAG:
      sqlite3_bind_int64 (statement, column, carpace_field_get (field, value));
      break;
    case CARPACE_FIELD_MAYBE:
      if (carpace_field_get (field, value) < 0)
        sqlite3_bind_null (statement, column);
      else
        sqlite3_bind_int64 (statement, column, carpace_field_get (field, value));
      break;
    case CARPACE_FIELD_WORD:
    case CARPACE_FIELD_SIGNS:
    case CARPACE_FIELD_DAY:
      sqlite3_bind_text (statement, column, carpace_field_text (field, value), -1, g_free);
      break;
    }
}

bool
carpace_store_read_field (sqlite3_stmt *statement, int column, const CarpaceField *field, void *value)
{
  if (sqlite3_column_type (statement, column) == SQLITE_NULL)
    return true;
  switch (field->type)
    {
    case CARPACE_FIELD_NUMBER:
    case CARPACE_FIELD_MAYBE:
    case CARPACE_FIELD_MS:
    case CARPACE_FIELD_FLAG:
      return carpace_field_set (field, value, sqlite3_column_int64 (statement, column));
    case CARPACE_FIELD_WORD:
    case CARPACE_FIELD_SIGNS:
    case CARPACE_FIELD_DAY:
      return carpace_field_read (field, (const char *) sqlite3_column_text (statement, column), value)
             == CARPACE_INTAKE_FINE;
    }
  return false;
}

const char *
carpace_store_column_type (const CarpaceField *field)
{
  bool is_text = field->type == CARPACE_FIELD_WORD || field->type == CARPACE_FIELD_SIGNS
                 || field->type == CARPACE_FIELD_DAY;

  return is_text ? "TEXT" : "INTEGER";
}

static gboolean
is_named (gconstpointer field, gconstpointer name)
{
  return strcmp (((const CarpaceField *) field)->name, name) == 0;
}

GPtrArray *
carpace_store_event_fields (void)
{
  GPtrArray *fields = g_ptr_array_new ();

  for (int kind = 0; kind < CARPACE_N_EVENTS; kind++)
    {
      int32_t n;
      const CarpaceField *field = carpace_event_fields ((CarpaceEventKind) kind, &n);

      for (int32_t i = 0; i < n; i++)
        if (!g_ptr_array_find_with_equal_func (fields, field[i].name, is_named, NULL))
          g_ptr_array_add (fields, (void *) &field[i]);
    }
  return fields;
}

bool
carpace_store_each_field (CarpaceStoreFieldVisitor visit, void *user)
{
  g_autoptr (GPtrArray) of_events = carpace_store_event_fields ();
  bool more = true;

  for (guint i = 0; more && i < of_events->len; i++)
    more = visit (user, "event", g_ptr_array_index (of_events, i));
  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      int32_t n;
      const CarpaceField *field = carpace_entry_fields ((CarpaceEntryKind) kind, &n);

      for (int32_t i = 0; more && i < n; i++)
        more = visit (user, carpace_name (CARPACE_WORDS_ENTRY, kind), &field[i]);
    }
  return more;
}
