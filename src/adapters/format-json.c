/* SPDX-License-Identifier: GPL-3.0-or-later */
/* format-json.c: a diary written as JSON lines. */
#include "format-json-private.h"

#include <string.h>

#include "text/json.h"
#include "text/record-text.h"

typedef struct
{
  const CarpaceDiaryExtract *what;
  const CarpaceBytesOut *to;
  bool ok;
} Writing;

static GString *
begin_line (const char *kind)
{
  GString *out = g_string_new (NULL);

  carpace_json_open (out, '{');
  carpace_json_key (out, "kind");
  carpace_json_string (out, kind);
  return out;
}

static void
end_line (Writing *writing, GString *out)
{
  carpace_json_close (out, '}');
  g_string_append_c (out, '\n');
  writing->ok = writing->ok && writing->to->write (writing->to->self, out->str, out->len);
  g_string_free (out, TRUE);
}

static void
add_string (GString *out, const char *key, const char *text)
{
  carpace_json_key (out, key);
  carpace_json_string (out, text);
}

static void
add_day (GString *out, CarpaceDay day)
{
  char date[CARPACE_DAY_BYTES];

  carpace_day_write (day, date);
  add_string (out, "day", date);
}

static void
add_signs (GString *out, int64_t signs)
{
  carpace_json_open (out, '[');
  for (int32_t sign = 0; sign < CARPACE_N_SIGNS; sign++)
    if (signs & (INT64_C (1) << sign))
      carpace_json_string (out, carpace_name (CARPACE_WORDS_SIGN, sign));
  carpace_json_close (out, ']');
}

static void
add_field (GString *out, const CarpaceField *field, const CarpaceEntry *entry)
{
  int64_t value = carpace_field_get (field, entry);
  g_autofree char *text = NULL;

  carpace_json_key (out, field->name);
  switch (field->type)
    {
    case CARPACE_FIELD_NUMBER:
    case CARPACE_FIELD_MS:
      carpace_json_int (out, value);
      break;
    case CARPACE_FIELD_MAYBE:
      if (value < 0)
        carpace_json_null (out);
      else
        carpace_json_int (out, value);
      break;
    case CARPACE_FIELD_FLAG:
      carpace_json_bool (out, value != 0);
      break;
    case CARPACE_FIELD_WORD:
    case CARPACE_FIELD_DAY:
      text = carpace_field_text (field, entry);
      carpace_json_string (out, text);
      break;
    case CARPACE_FIELD_SIGNS:
      add_signs (out, value);
      break;
    }
}

static bool
write_record (void *user, const CarpaceRecord *record)
{
  Writing *writing = user;
  GString *out = begin_line (carpace_name (CARPACE_WORDS_ENTRY, (int32_t) record->entry.kind));
  char at[CARPACE_INSTANT_BYTES];
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (record->entry.kind, &n);

  carpace_instant_write (record->entry.at, at);
  add_string (out, "at", at);
  add_day (out, record->day);
  carpace_json_key (out, "elapsed_ms");
  carpace_json_int (out, record->entry.at.elapsed_ms);
  for (int32_t i = 0; i < n; i++)
    add_field (out, &field[i], &record->entry);
  if (record->note != NULL && !writing->what->without_notes)
    add_string (out, "note", record->note);
  end_line (writing, out);
  return writing->ok;
}

static bool
write_about_day (void *user, const CarpaceDaySum *sum)
{
  Writing *writing = user;
  const char *note = writing->what->without_notes ? NULL : sum->note;
  GString *out;

  if (note == NULL && sum->other_ms < 0)
    return true;
  out = begin_line (CARPACE_KIND_ABOUT_DAY);
  add_day (out, sum->day);
  if (sum->other_ms >= 0)
    {
      carpace_json_key (out, "other_ms");
      carpace_json_int (out, sum->other_ms);
    }
  if (note != NULL)
    add_string (out, "note", note);
  end_line (writing, out);
  return writing->ok;
}

static void
write_first_line (Writing *writing)
{
  GString *out = begin_line (CARPACE_KIND_DIARY);

  carpace_json_key (out, "version");
  carpace_json_int (out, CARPACE_FORMAT_JSON_VERSION);
  end_line (writing, out);
}

static bool
write_json (const CarpaceDiary *diary, const CarpaceDiaryExtract *what, const CarpaceBytesOut *to)
{
  Writing writing = { what, to, true };

  write_first_line (&writing);
  return diary->records (diary->self, what->since, what->until, write_record, &writing)
         && diary->days (diary->self, what->since, what->until, write_about_day, &writing) && writing.ok;
}

const CarpaceDiaryFormat carpace_format_json = {
  .name = "json", .write = write_json, .is_like = carpace_json_is_like, .read = carpace_json_read
};
