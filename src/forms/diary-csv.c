/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-csv.c: a diary written as CSV. */
#include "forms/diary-csv-private.h"

#include <csv.h>
#include <string.h>

#include "forms/records.h"

const char *const carpace_csv_fixed[CARPACE_CSV_FIXED] = { "day", "at", "elapsed_ms", "kind", "note", "other_ms" };

/* First characters of a cell that spreadsheets take for a formula or a command.
 * Source: OWASP, "CSV Injection" (equals, plus, minus, at, tab, carriage
 * return, line feed, and the full-width forms of the first four). The
 * apostrophe is there so that taking it off again is exact. */
static const char *const dangerous[] = { "=", "+", "-", "@", "\t", "\r", "\n", "'", "\uff1d", "\uff0b", "\uff0d", "\uff20" };

char *
carpace_csv_defused (const char *text)
{
  for (size_t i = 0; i < G_N_ELEMENTS (dangerous); i++)
    if (g_str_has_prefix (text, dangerous[i]))
      return g_strconcat ("'", text, NULL);
  return g_strdup (text);
}

const char *
carpace_csv_fused (const char *text)
{
  return text + (text[0] == '\'');
}

/** A file under way. */
typedef struct
{
  const CarpaceDiaryExtract *what;
  const CarpaceBytesOut *to;
  GPtrArray *columns; /* names of fields */
  CarpaceIdentity identity;
  GString *line;
  bool ok;
} Writing;

static void
begin_line (Writing *writing)
{
  g_string_truncate (writing->line, 0);
}

/* What is the same in every line: whose diary it is. Files of several players
 * may end up in one sheet. */
static const char *const of_file[] = { CARPACE_KEY_WHOSE, CARPACE_KEY_CODE };

/* Texts are quoted, numbers and words need not be. */
static void
add_cell (Writing *writing, const char *text, bool quoted)
{
  if (writing->line->len > 0)
    g_string_append_c (writing->line, ',');
  if (text != NULL && quoted)
    {
      gsize at = writing->line->len, n = strlen (text), room = 2 * n + 2;

      g_string_set_size (writing->line, at + room);
      g_string_set_size (writing->line, at + csv_write (writing->line->str + at, room, text, n));
    }
  else if (text != NULL)
    g_string_append (writing->line, text);
}

static void
end_line (Writing *writing)
{
  g_string_append (writing->line, "\r\n");
  writing->ok = writing->ok && writing->to->write (writing->to->self, writing->line->str, writing->line->len);
}

static GPtrArray *
all_columns (void)
{
  GPtrArray *columns = g_ptr_array_new ();

  for (int kind = 0; kind < CARPACE_N_ENTRIES; kind++)
    {
      int32_t n;
      const CarpaceField *field = carpace_entry_fields (kind, &n);

      for (int32_t i = 0; i < n; i++)
        if (!g_ptr_array_find_with_equal_func (columns, field[i].name, g_str_equal, NULL))
          g_ptr_array_add (columns, (char *) field[i].name);
    }
  return columns;
}

static void
write_header (Writing *writing)
{
  begin_line (writing);
  for (int i = 0; i < CARPACE_CSV_FIXED; i++)
    add_cell (writing, carpace_csv_fixed[i], false);
  for (guint i = 0; i < writing->columns->len; i++)
    add_cell (writing, g_ptr_array_index (writing->columns, i), false);
  for (size_t i = 0; i < G_N_ELEMENTS (of_file); i++)
    add_cell (writing, of_file[i], false);
  end_line (writing);
}

static void
add_whose (Writing *writing)
{
  g_autofree char *code = writing->what->code != NULL ? carpace_csv_defused (writing->what->code) : NULL;

  add_cell (writing, writing->identity.n > 0 ? writing->identity.id[0] : NULL, false);
  add_cell (writing, code, true);
}

static void
add_note (Writing *writing, const char *note)
{
  g_autofree char *defused = note != NULL ? carpace_csv_defused (note) : NULL;

  add_cell (writing, writing->what->without_notes ? NULL : defused, true);
}

static bool
write_record (void *user, const CarpaceRecord *record)
{
  Writing *writing = user;
  char day[CARPACE_DAY_BYTES], at[CARPACE_INSTANT_BYTES];
  g_autofree char *elapsed = g_strdup_printf ("%" G_GINT64_FORMAT, record->entry.at.elapsed_ms);

  carpace_day_write (record->day, day);
  carpace_instant_write (record->entry.at, at);
  begin_line (writing);
  add_cell (writing, day, false);
  add_cell (writing, at, false);
  add_cell (writing, elapsed, false);
  add_cell (writing, carpace_name (CARPACE_WORDS_ENTRY, (int32_t) record->entry.kind), false);
  add_note (writing, record->note);
  add_cell (writing, NULL, false);
  for (guint i = 0; i < writing->columns->len; i++)
    {
      const CarpaceField *field = carpace_entry_field (record->entry.kind, g_ptr_array_index (writing->columns, i));
      g_autofree char *text = field != NULL ? carpace_field_text (field, &record->entry) : NULL;

      add_cell (writing, text, false);
    }
  add_whose (writing);
  end_line (writing);
  return writing->ok;
}

static bool
write_about_day (void *user, const CarpaceDaySum *sum)
{
  Writing *writing = user;
  const char *note = writing->what->without_notes ? NULL : sum->note;
  g_autofree char *other = sum->other_ms >= 0 ? g_strdup_printf ("%" G_GINT64_FORMAT, sum->other_ms) : NULL;
  char day[CARPACE_DAY_BYTES];

  if (note == NULL && other == NULL)
    return true;
  carpace_day_write (sum->day, day);
  begin_line (writing);
  add_cell (writing, day, false);
  add_cell (writing, NULL, false);
  add_cell (writing, NULL, false);
  add_cell (writing, CARPACE_KIND_ABOUT_DAY, false);
  add_note (writing, note);
  add_cell (writing, other, false);
  for (guint i = 0; i < writing->columns->len; i++)
    add_cell (writing, NULL, false);
  add_whose (writing);
  end_line (writing);
  return writing->ok;
}

static bool
write_csv (const CarpaceDiary *diary, const CarpaceDiaryExtract *what, const CarpaceBytesOut *to)
{
  Writing writing = { .what = what, .to = to, .columns = all_columns (), .line = g_string_new (NULL), .ok = true };
  bool ok = diary->whose == NULL || diary->whose (diary->self, &writing.identity);

  write_header (&writing);
  ok = ok && diary->records (diary->self, what->since, what->until, write_record, &writing)
       && diary->days (diary->self, what->since, what->until, write_about_day, &writing) && writing.ok;
  g_ptr_array_unref (writing.columns);
  g_string_free (writing.line, TRUE);
  return ok;
}

const CarpaceDiaryFormat carpace_format_csv = {
  .name = "csv", .write = write_csv, .is_like = carpace_csv_is_like, .whose = carpace_csv_whose, .read = carpace_csv_read
};
