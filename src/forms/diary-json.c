/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-json.c: a diary written as JSON lines. */
#include "forms/diary-json-private.h"

#include <string.h>

#include "forms/json.h"
#include "forms/records.h"

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
add_field (GString *out, const CarpaceField *field, const void *of)
{
  int64_t value = carpace_field_get (field, of);
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
      text = carpace_field_text (field, of);
      if (text == NULL)
        carpace_json_null (out);
      else
        carpace_json_string (out, text);
      break;
    case CARPACE_FIELD_SIGNS:
      add_signs (out, value);
      break;
    }
}

static void
add_moment (GString *out, CarpaceInstant at)
{
  char text[CARPACE_INSTANT_BYTES];

  carpace_instant_write (at, text);
  add_string (out, "at", text);
  carpace_json_key (out, "elapsed_ms");
  carpace_json_int (out, at.elapsed_ms);
}

static bool
write_record (void *user, const CarpaceRecord *record)
{
  Writing *writing = user;
  GString *out = begin_line (carpace_name (CARPACE_WORDS_ENTRY, (int32_t) record->entry.kind));
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (record->entry.kind, &n);

  add_moment (out, record->entry.at);
  add_day (out, record->day);
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
add_whose (GString *out, const CarpaceIdentity *identity)
{
  if (identity->n == 0)
    return;
  add_string (out, CARPACE_KEY_WHOSE, identity->id[0]);
  if (identity->n == 1)
    return;
  carpace_json_key (out, CARPACE_KEY_JOINED);
  carpace_json_open (out, '[');
  for (int32_t i = 1; i < identity->n; i++)
    carpace_json_string (out, identity->id[i]);
  carpace_json_close (out, ']');
}

static bool
write_first_line (Writing *writing, const CarpaceDiary *diary)
{
  GString *out = begin_line (CARPACE_KIND_DIARY);
  CarpaceIdentity identity = { 0 };
  bool ok = diary->whose == NULL || diary->whose (diary->self, &identity);

  carpace_json_key (out, "version");
  carpace_json_int (out, CARPACE_FORMAT_JSON_VERSION);
  add_whose (out, &identity);
  if (writing->what->code != NULL)
    add_string (out, CARPACE_KEY_CODE, writing->what->code);
  end_line (writing, out);
  return ok;
}

/* ---- what the day under way is gone on with from ---- */

static bool
write_event (void *user, const CarpaceEvent *event, CarpaceInstant at)
{
  Writing *writing = user;
  GString *out = begin_line (CARPACE_KIND_EVENT);
  int32_t n;
  const CarpaceField *field = carpace_event_fields (event->kind, &n);

  add_moment (out, at);
  add_string (out, "event", carpace_name (CARPACE_WORDS_EVENT, (int32_t) event->kind));
  for (int32_t i = 0; i < n; i++)
    add_field (out, &field[i], event);
  end_line (writing, out);
  return writing->ok;
}

static void
write_alive (Writing *writing, CarpaceInstant at, bool ended_well)
{
  GString *out = begin_line (CARPACE_KIND_ALIVE);

  add_moment (out, at);
  carpace_json_key (out, "ended_well");
  carpace_json_bool (out, ended_well);
  end_line (writing, out);
}

static bool
write_plan (void *user, const CarpacePlanRecord *record)
{
  Writing *writing = user;
  GString *out = begin_line (CARPACE_KIND_PLAN);

  add_string (out, "what", carpace_name (CARPACE_WORDS_PLAN_WHAT, (int32_t) record->what));
  add_moment (out, record->at);
  add_string (out, "name", record->name);
  carpace_json_key (out, "version");
  carpace_json_int (out, record->version);
  add_string (out, "fixed", record->fixed);
  add_string (out, "text", record->text);
  end_line (writing, out);
  return writing->ok;
}

/* With the whole diary only: a part of it is to be read, not to be gone on with. */
static bool
write_under_way (Writing *writing, const CarpaceDiary *diary)
{
  CarpaceInstant at;
  bool ended_well;

  if (writing->what->since != INT32_MIN || writing->what->until != INT32_MAX)
    return true;
  if (diary->plans != NULL && !diary->plans (diary->self, write_plan, writing))
    return false;
  if (diary->events != NULL && !diary->events (diary->self, write_event, writing))
    return false;
  if (diary->alive != NULL && diary->alive (diary->self, &at, &ended_well))
    write_alive (writing, at, ended_well);
  return true;
}

static bool
write_json (const CarpaceDiary *diary, const CarpaceDiaryExtract *what, const CarpaceBytesOut *to)
{
  Writing writing = { what, to, true };

  return write_first_line (&writing, diary)
         && diary->records (diary->self, what->since, what->until, write_record, &writing)
         && diary->days (diary->self, what->since, what->until, write_about_day, &writing)
         && write_under_way (&writing, diary) && writing.ok;
}

const CarpaceDiaryFormat carpace_format_json = {
  .name = "json", .write = write_json, .is_like = carpace_json_is_like, .whose = carpace_json_whose,
  .read = carpace_json_read
};
