/* SPDX-License-Identifier: GPL-3.0-or-later */
/* record-text.c: records as keys and texts. */
#include "text/record-text.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gi18n.h>

#include "text/quoted.h"

static char *
signs_text (int64_t signs)
{
  GString *text = g_string_new (NULL);

  for (int32_t sign = 0; sign < CARPACE_N_SIGNS; sign++)
    if (signs & (INT64_C (1) << sign))
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", carpace_name (CARPACE_WORDS_SIGN, sign));
  return g_string_free (text, FALSE);
}

char *
carpace_field_text (const CarpaceField *field, const CarpaceEntry *entry)
{
  int64_t value = carpace_field_get (field, entry);
  char date[CARPACE_DAY_BYTES];

  switch (field->type)
    {
    case CARPACE_FIELD_MAYBE:
      return value < 0 ? NULL : g_strdup_printf ("%" G_GINT64_FORMAT, value);
    case CARPACE_FIELD_NUMBER:
    case CARPACE_FIELD_MS:
    case CARPACE_FIELD_FLAG:
      return g_strdup_printf ("%" G_GINT64_FORMAT, value);
    case CARPACE_FIELD_WORD:
      return g_strdup (carpace_name (field->words, (int32_t) value));
    case CARPACE_FIELD_SIGNS:
      return value == 0 ? NULL : signs_text (value);
    case CARPACE_FIELD_DAY:
      carpace_day_write ((CarpaceDay) value, date);
      return g_strdup (date);
    }
  return NULL;
}

/* A whole number as it is written out, and nothing else. */
static bool
number_of (const char *text, int64_t *ret_number)
{
  char *end;
  gint64 number;

  if (!g_ascii_isdigit (text[text[0] == '-']))
    return false;
  errno = 0;
  number = g_ascii_strtoll (text, &end, 10);
  if (errno != 0 || *end != '\0')
    return false;
  *ret_number = number;
  return true;
}

static CarpaceIntakeFault
read_signs (const CarpaceField *field, const char *text, CarpaceEntry *entry)
{
  g_auto (GStrv) words = g_strsplit (text, " ", CARPACE_N_SIGNS + 1);
  int64_t signs = 0;

  for (int i = 0; words[i] != NULL; i++)
    {
      int32_t sign = carpace_name_value (CARPACE_WORDS_SIGN, words[i]);

      if (sign < 0)
        return CARPACE_INTAKE_NOT_A_WORD;
      signs |= INT64_C (1) << sign;
    }
  return carpace_field_set (field, entry, signs) ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_OUT_OF_RANGE;
}

static bool
may_be_unsaid (const CarpaceField *field)
{
  return field->type == CARPACE_FIELD_MAYBE || field->type == CARPACE_FIELD_SIGNS;
}

CarpaceIntakeFault
carpace_field_read (const CarpaceField *field, const char *text, CarpaceEntry *entry)
{
  int64_t number = 0;
  CarpaceDay day;

  if (text == NULL || text[0] == '\0')
    return may_be_unsaid (field) ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_MISSING;
  switch (field->type)
    {
    case CARPACE_FIELD_NUMBER:
    case CARPACE_FIELD_MAYBE:
    case CARPACE_FIELD_MS:
    case CARPACE_FIELD_FLAG:
      if (!number_of (text, &number))
        return CARPACE_INTAKE_NOT_A_NUMBER;
      break;
    case CARPACE_FIELD_WORD:
      number = carpace_name_value (field->words, text);
      if (number < 0)
        return CARPACE_INTAKE_NOT_A_WORD;
      break;
    case CARPACE_FIELD_SIGNS:
      return read_signs (field, text, entry);
    case CARPACE_FIELD_DAY:
      if (!carpace_day_read (text, &day))
        return CARPACE_INTAKE_NOT_A_DATE;
      number = day;
      break;
    }
  return carpace_field_set (field, entry, number) ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_OUT_OF_RANGE;
}

static const char *
said (CarpaceLineLookup lookup, void *user, const char *key)
{
  const char *text = lookup (user, key);

  return text != NULL && text[0] != '\0' ? text : NULL;
}

static CarpaceIntakeFault
read_note (CarpaceLineLookup lookup, void *user, CarpaceLine *line)
{
  line->note = said (lookup, user, "note");
  if (line->note == NULL)
    return CARPACE_INTAKE_FINE;
  if (!g_utf8_validate (line->note, -1, NULL))
    return CARPACE_INTAKE_NOT_TEXT;
  return g_utf8_strlen (line->note, -1) > CARPACE_DIARY_NOTE_CHARACTERS ? CARPACE_INTAKE_NOTE_TOO_LONG
                                                                        : CARPACE_INTAKE_FINE;
}

static CarpaceIntakeFault
read_number (const char *text, int64_t least, int64_t most, int64_t *ret_number)
{
  if (!number_of (text, ret_number))
    return CARPACE_INTAKE_NOT_A_NUMBER;
  return *ret_number < least || *ret_number > most ? CARPACE_INTAKE_OUT_OF_RANGE : CARPACE_INTAKE_FINE;
}

static CarpaceIntakeFault
read_about_day (CarpaceLineLookup lookup, void *user, CarpaceLine *line, const char **ret_key)
{
  const char *other = said (lookup, user, *ret_key = "other_ms");

  line->about_day = true;
  line->other_ms = -1;
  return other == NULL ? CARPACE_INTAKE_FINE : read_number (other, 0, CARPACE_DAY_MS, &line->other_ms);
}

static CarpaceIntakeFault
read_moment (CarpaceLineLookup lookup, void *user, CarpaceInstant *ret_at, const char **ret_key)
{
  const char *at = said (lookup, user, *ret_key = "at"), *elapsed;

  if (at == NULL)
    return CARPACE_INTAKE_MISSING;
  if (!carpace_instant_read (at, ret_at))
    return CARPACE_INTAKE_NOT_A_TIME;
  elapsed = said (lookup, user, *ret_key = "elapsed_ms");
  return elapsed == NULL ? CARPACE_INTAKE_FINE
                         : read_number (elapsed, INT64_MIN / 4, INT64_MAX / 4, &ret_at->elapsed_ms);
}

static CarpaceIntakeFault
read_entry (CarpaceLineLookup lookup, void *user, int32_t kind, CarpaceEntry *ret_entry, const char **ret_key)
{
  CarpaceInstant at;
  CarpaceIntakeFault fault = read_moment (lookup, user, &at, ret_key);
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (kind, &n);

  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  carpace_entry_init (ret_entry, kind, at);
  for (int32_t i = 0; fault == CARPACE_INTAKE_FINE && i < n; i++)
    fault = carpace_field_read (&field[i], lookup (user, *ret_key = field[i].name), ret_entry);
  return fault;
}

CarpaceIntakeFault
carpace_line_read (CarpaceLineLookup lookup, void *user, CarpaceLine *ret_line, const char **ret_key)
{
  CarpaceLine line = { .other_ms = -1 };
  const char *kind, *day = said (lookup, user, *ret_key = "day");
  CarpaceIntakeFault fault;
  int32_t of_kind;

  if (day == NULL)
    return CARPACE_INTAKE_MISSING;
  if (!carpace_day_read (day, &line.day))
    return CARPACE_INTAKE_NOT_A_DATE;
  kind = said (lookup, user, *ret_key = "kind");
  if (kind == NULL)
    return CARPACE_INTAKE_MISSING;
  of_kind = carpace_name_value (CARPACE_WORDS_ENTRY, kind);
  if (strcmp (kind, CARPACE_KIND_ABOUT_DAY) == 0)
    fault = read_about_day (lookup, user, &line, ret_key);
  else if (of_kind >= 0)
    fault = read_entry (lookup, user, of_kind, &line.entry, ret_key);
  else
    return CARPACE_INTAKE_UNKNOWN_KIND;
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  *ret_key = "note";
  fault = read_note (lookup, user, &line);
  if (fault == CARPACE_INTAKE_FINE)
    *ret_line = line;
  return fault;
}

CarpaceIntakeFault
carpace_line_keep (const CarpaceLine *line, const CarpaceDiaryKeeper *keeper, CarpaceIntake *intake)
{
  int came = line->about_day ? keeper->take_in_day (keeper->self, line->day, line->other_ms, line->note)
                             : keeper->take_in_record (keeper->self, line->day, &line->entry, line->note);

  intake->added += came == 1;
  intake->known += came == 0;
  return came < 0 ? CARPACE_INTAKE_NOT_KEPT : CARPACE_INTAKE_FINE;
}

char *
carpace_text_intake_fault (CarpaceIntakeFault fault, const char *key, const char *value)
{
  g_autofree char *what = carpace_text_quoted (value);
  g_autofree char *name = carpace_text_harmless (key != NULL ? key : "");

  switch (fault)
    {
    case CARPACE_INTAKE_FINE:
      break;
    case CARPACE_INTAKE_NOT_TEXT:
      return g_strdup (_("this is not UTF-8 text; save the file as UTF-8"));
    case CARPACE_INTAKE_NOT_THE_FORM:
      return g_strdup (_("this is not as a diary is exported; take a file from carpace export --format csv or json"));
    case CARPACE_INTAKE_TOO_LONG:
      return g_strdup (_("this line is too long to be of a diary"));
    case CARPACE_INTAKE_TOO_DEEP:
      return g_strdup (_("there are lists within lists here; a diary has none"));
    case CARPACE_INTAKE_MISSING:
      return g_strdup_printf (_("%s is missing here"), name);
    case CARPACE_INTAKE_TWICE:
      return g_strdup_printf (_("%s is here twice; once would be right"), name);
    case CARPACE_INTAKE_UNKNOWN_KIND:
      return g_strdup_printf (_("%s is no kind of record; it may come from a newer Carpace"), what);
    case CARPACE_INTAKE_NOT_A_WORD:
      return g_strdup_printf (_("%s is no word for %s"), what, name);
    case CARPACE_INTAKE_NOT_A_NUMBER:
      return g_strdup_printf (_("%s is %s; a whole number would be right"), name, what);
    case CARPACE_INTAKE_OUT_OF_RANGE:
      return g_strdup_printf (_("%s is %s, which cannot be"), name, what);
    case CARPACE_INTAKE_NOT_A_TIME:
      return g_strdup_printf (_("%s is %s; a time as 2027-03-02T18:00:00+01:00 would be right"), name, what);
    case CARPACE_INTAKE_NOT_A_DATE:
      return g_strdup_printf (_("%s is %s; a date as 2027-03-02 would be right"), name, what);
    case CARPACE_INTAKE_NOTE_TOO_LONG:
      return g_strdup_printf (_("this note is longer than %d characters"), CARPACE_DIARY_NOTE_CHARACTERS);
    case CARPACE_INTAKE_NEWER:
      return g_strdup (_("this file was written by a newer Carpace; import it with that one"));
    case CARPACE_INTAKE_NOT_KEPT:
      return g_strdup (_("the diary could not be written"));
    }
  return NULL;
}

bool
carpace_intake_end (const CarpaceDiaryKeeper *keeper, CarpaceIntakeFault fault, const char *key, const char *value,
                    int32_t line, CarpaceIntake *intake)
{
  bool kept = keeper->take_in_end (keeper->self, fault == CARPACE_INTAKE_FINE);

  if (fault == CARPACE_INTAKE_FINE && !kept)
    fault = CARPACE_INTAKE_NOT_KEPT;
  if (fault == CARPACE_INTAKE_FINE)
    return true;
  intake->added = intake->known = 0;
  intake->line = line;
  intake->fault = carpace_text_intake_fault (fault, key, value);
  return false;
}
