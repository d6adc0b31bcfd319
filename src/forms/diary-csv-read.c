/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-csv-read.c: a diary read from CSV that anybody may have written. */
#include "forms/diary-csv-private.h"

#include <csv.h>
#include <string.h>

#include "forms/records.h"

#define LONGEST_LINE (64 * 1024)
#define MOST_COLUMNS 256

/** A file under way. */
typedef struct
{
  const CarpaceDiaryKeeper *keeper;
  CarpaceIntake *intake;
  struct csv_parser parser;
  GHashTable *columns;   /* name -> number + 1; NULL before the header has been read */
  GPtrArray *cells;      /* texts of the row so far */
  int32_t line, row_at;  /* of the file, and where the row begins */
  CarpaceIdentity identity; /* of the rows so far */
  bool whose_known;
  bool first_only;       /* the first row only, for whose it is */
  CarpaceIntakeFault fault;
  const char *key;
  char *value;
} Reading;

static const char *
cell_of (void *user, const char *key)
{
  Reading *reading = user;
  guint column = GPOINTER_TO_UINT (g_hash_table_lookup (reading->columns, key));
  const char *text = column > 0 && column <= reading->cells->len ? g_ptr_array_index (reading->cells, column - 1) : NULL;

  return text != NULL && strcmp (key, "note") == 0 ? carpace_csv_fused (text) : text;
}

static void
fail (Reading *reading, CarpaceIntakeFault fault, const char *key, const char *value)
{
  if (reading->fault != CARPACE_INTAKE_FINE)
    return; /* the first is told */
  reading->fault = fault;
  reading->key = key;
  reading->value = g_strdup (value);
}

static void
read_header (Reading *reading)
{
  reading->columns = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < reading->cells->len; i++)
    {
      const char *name = g_ptr_array_index (reading->cells, i);

      if (!g_hash_table_insert (reading->columns, g_strdup (name), GUINT_TO_POINTER (i + 1)))
        {
          fail (reading, CARPACE_INTAKE_TWICE, g_intern_string (name), NULL);
          return;
        }
    }
  for (int i = 0; i < CARPACE_CSV_FIXED; i++)
    if (!g_hash_table_contains (reading->columns, carpace_csv_fixed[i]))
      {
        fail (reading, CARPACE_INTAKE_MISSING, carpace_csv_fixed[i], NULL);
        return;
      }
}

/* Rows of two diaries in one sheet are not taken in as one. */
static CarpaceIntakeFault
read_whose (Reading *reading, const char **ret_key)
{
  CarpaceIdentity identity;
  CarpaceIntakeFault fault = carpace_line_whose (cell_of, reading, &identity, ret_key);

  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  if (reading->whose_known
      && (identity.n != reading->identity.n || (identity.n > 0 && !carpace_identity_same (&identity, &reading->identity))))
    return CARPACE_INTAKE_TWO_DIARIES;
  reading->identity = identity;
  reading->whose_known = true;
  return CARPACE_INTAKE_FINE;
}

static void
read_row (Reading *reading)
{
  CarpaceLine line;
  const char *key = NULL;
  CarpaceIntakeFault fault = read_whose (reading, &key);

  if (reading->first_only)
    {
      reading->fault = CARPACE_INTAKE_TOO_LONG; /* enough */
      return;
    }
  if (fault == CARPACE_INTAKE_FINE)
    fault = carpace_line_read (cell_of, reading, &line, &key);
  if (fault == CARPACE_INTAKE_FINE)
    fault = carpace_line_keep (&line, reading->keeper, reading->intake);
  if (fault != CARPACE_INTAKE_FINE)
    fail (reading, fault, key, key != NULL ? cell_of (reading, key) : NULL);
}

static void
cell_ended (void *text, size_t n, void *user)
{
  Reading *reading = user;

  if (reading->cells->len >= MOST_COLUMNS)
    {
      if (reading->fault == CARPACE_INTAKE_FINE)
        fail (reading, CARPACE_INTAKE_TOO_LONG, NULL, NULL);
      return;
    }
  g_ptr_array_add (reading->cells, g_strndup (text, n));
}

static void
row_ended (int by, void *user)
{
  Reading *reading = user;

  if (reading->fault != CARPACE_INTAKE_FINE)
    return;
  if (reading->columns == NULL)
    read_header (reading);
  else
    read_row (reading);
  g_ptr_array_set_size (reading->cells, 0);
  if (reading->fault == CARPACE_INTAKE_FINE)
    reading->row_at = reading->line + 1;
}

/* @return bytes up to and with the next line's end */
static size_t
line_length (const char *bytes, size_t n)
{
  const char *end = memchr (bytes, '\n', n);

  return end != NULL ? (size_t) (end - bytes) + 1 : n;
}

static void
read_lines (Reading *reading, const char *bytes, size_t n)
{
  size_t at = 0, row_began = 0;

  while (at < n && reading->fault == CARPACE_INTAKE_FINE)
    {
      size_t length = line_length (bytes + at, n - at);
      int32_t row = reading->row_at;

      reading->line++;
      if (at + length - row_began > LONGEST_LINE)
        fail (reading, CARPACE_INTAKE_TOO_LONG, NULL, NULL);
      else if (csv_parse (&reading->parser, bytes + at, length, cell_ended, row_ended, reading) != length)
        fail (reading, CARPACE_INTAKE_NOT_THE_FORM, NULL, NULL);
      at += length;
      if (reading->row_at != row)
        row_began = at;
    }
  if (reading->fault == CARPACE_INTAKE_FINE && csv_fini (&reading->parser, cell_ended, row_ended, reading) != 0)
    fail (reading, CARPACE_INTAKE_NOT_THE_FORM, NULL, NULL);
  if (reading->fault == CARPACE_INTAKE_FINE && reading->columns == NULL)
    fail (reading, CARPACE_INTAKE_NOT_THE_FORM, NULL, NULL);
}

static size_t
byte_order_mark (const char *bytes, size_t n)
{
  return n >= 3 && memcmp (bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
}

/* By its first line: a column of kinds is in every one, whatever a spreadsheet made of their order. */
bool
carpace_csv_is_like (const char *bytes, size_t n)
{
  size_t mark = byte_order_mark (bytes, n), end = mark;

  while (end < n && bytes[end] != '\n' && bytes[end] != '\r')
    end++;
  return n > mark && (g_ascii_isalpha (bytes[mark]) || bytes[mark] == '"')
         && g_strstr_len (bytes + mark, (gssize) (end - mark), "kind") != NULL;
}

static void
reading_clear (Reading *reading)
{
  csv_free (&reading->parser);
  g_ptr_array_unref (reading->cells);
  g_clear_pointer (&reading->columns, g_hash_table_unref);
  g_free (reading->value);
}

bool
carpace_csv_whose (const char *bytes, size_t n, CarpaceIdentity *ret_identity)
{
  Reading reading = { .row_at = 1, .first_only = true };
  size_t mark = byte_order_mark (bytes, n);

  csv_init (&reading.parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL);
  reading.cells = g_ptr_array_new_with_free_func (g_free);
  if (g_utf8_validate (bytes, (gssize) n, NULL))
    read_lines (&reading, bytes + mark, n - mark);
  *ret_identity = reading.identity;
  reading_clear (&reading);
  return reading.whose_known;
}

bool
carpace_csv_read (const char *bytes, size_t n, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake)
{
  Reading reading = { .keeper = keeper, .intake = ret_intake, .row_at = 1 };
  size_t mark = byte_order_mark (bytes, n);
  bool kept;

  memset (ret_intake, 0, sizeof *ret_intake);
  if (!keeper->take_in_begin (keeper->self))
    {
      ret_intake->fault = carpace_text_intake_fault (CARPACE_INTAKE_NOT_KEPT, NULL, NULL);
      return false;
    }
  csv_init (&reading.parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL);
  reading.cells = g_ptr_array_new_with_free_func (g_free);
  if (!g_utf8_validate (bytes, (gssize) n, NULL))
    fail (&reading, CARPACE_INTAKE_NOT_TEXT, NULL, NULL);
  else
    read_lines (&reading, bytes + mark, n - mark);
  kept = carpace_intake_end (keeper, reading.fault, reading.key, reading.value, reading.row_at, ret_intake);
  reading_clear (&reading);
  return kept;
}
