/* SPDX-License-Identifier: GPL-3.0-or-later */
/* records.c: records as keys and texts. */
#include "forms/records.h"

#include "carpace/ceiling.h"
#include "carpace/ports.h"

#include <errno.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

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
carpace_field_text (const CarpaceField *field, const void *value)
{
  int64_t number = carpace_field_get (field, value);
  char date[CARPACE_DAY_BYTES];

  switch (field->type)
    {
    case CARPACE_FIELD_MAYBE:
      return number < 0 ? NULL : g_strdup_printf ("%" G_GINT64_FORMAT, number);
    case CARPACE_FIELD_NUMBER:
    case CARPACE_FIELD_MS:
    case CARPACE_FIELD_FLAG:
      return g_strdup_printf ("%" G_GINT64_FORMAT, number);
    case CARPACE_FIELD_WORD:
      return g_strdup (carpace_name (field->words, (int32_t) number));
    case CARPACE_FIELD_SIGNS:
      return number == 0 ? NULL : signs_text (number);
    case CARPACE_FIELD_DAY:
      if (field->later && number == 0)
        return NULL;
      carpace_day_write ((CarpaceDay) number, date);
      return g_strdup (date);
    }
  return NULL;
}

/* A whole number as it is written out, and nothing else. */
static CarpaceIntakeFault
number_of (const char *text, int64_t *ret_number)
{
  char *end;
  gint64 number;

  if (!g_ascii_isdigit (text[text[0] == '-']))
    return CARPACE_INTAKE_NOT_A_NUMBER;
  errno = 0;
  number = g_ascii_strtoll (text, &end, 10);
  if (*end != '\0')
    return CARPACE_INTAKE_NOT_A_NUMBER;
  if (errno != 0)
    return CARPACE_INTAKE_OUT_OF_RANGE;
  *ret_number = number;
  return CARPACE_INTAKE_FINE;
}

static CarpaceIntakeFault
read_signs (const CarpaceField *field, const char *text, void *value)
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
  return carpace_field_set (field, value, signs) ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_OUT_OF_RANGE;
}

static bool
may_be_unsaid (const CarpaceField *field)
{
  return field->later || field->type == CARPACE_FIELD_MAYBE || field->type == CARPACE_FIELD_SIGNS;
}

CarpaceIntakeFault
carpace_field_read (const CarpaceField *field, const char *text, void *value)
{
  CarpaceIntakeFault fault;
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
      fault = number_of (text, &number);
      if (fault != CARPACE_INTAKE_FINE)
        return fault;
      break;
    case CARPACE_FIELD_WORD:
      number = carpace_name_value (field->words, text);
      if (number < 0)
        return CARPACE_INTAKE_NOT_A_WORD;
      break;
    case CARPACE_FIELD_SIGNS:
      return read_signs (field, text, value);
    case CARPACE_FIELD_DAY:
      if (!carpace_day_read (text, &day))
        return CARPACE_INTAKE_NOT_A_DATE;
      number = day;
      break;
    }
  return carpace_field_set (field, value, number) ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_OUT_OF_RANGE;
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
  CarpaceIntakeFault fault = number_of (text, ret_number);

  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  return *ret_number < least || *ret_number > most ? CARPACE_INTAKE_OUT_OF_RANGE : CARPACE_INTAKE_FINE;
}

static CarpaceIntakeFault
read_day (CarpaceLineLookup lookup, void *user, CarpaceDay *ret_day, const char **ret_key)
{
  const char *day = said (lookup, user, *ret_key = "day");

  if (day == NULL)
    return CARPACE_INTAKE_MISSING;
  if (!carpace_day_read (day, ret_day))
    return CARPACE_INTAKE_NOT_A_DATE;
  return *ret_day < CARPACE_FIELD_DAY_FIRST || *ret_day > CARPACE_FIELD_DAY_LAST ? CARPACE_INTAKE_OUT_OF_RANGE
                                                                                : CARPACE_INTAKE_FINE;
}

static CarpaceIntakeFault
read_about_day (CarpaceLineLookup lookup, void *user, CarpaceLine *line, const char **ret_key)
{
  CarpaceIntakeFault fault = read_day (lookup, user, &line->day, ret_key);
  const char *other;

  line->kind = CARPACE_LINE_ABOUT_DAY;
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  other = said (lookup, user, *ret_key = "other_ms");
  return other == NULL ? CARPACE_INTAKE_FINE : read_number (other, 0, CARPACE_FIELD_LONG_MS, &line->other_ms);
}

static CarpaceIntakeFault
read_moment (CarpaceLineLookup lookup, void *user, CarpaceInstant *ret_at, const char **ret_key)
{
  const char *at = said (lookup, user, *ret_key = "at"), *elapsed;

  if (at == NULL)
    return CARPACE_INTAKE_MISSING;
  if (!carpace_instant_read (at, ret_at))
    return CARPACE_INTAKE_NOT_A_TIME;
  if (ret_at->wall_ms < CARPACE_FIELD_DAY_FIRST * CARPACE_DAY_MS
      || ret_at->wall_ms / CARPACE_DAY_MS > CARPACE_FIELD_DAY_LAST)
    return CARPACE_INTAKE_OUT_OF_RANGE;
  elapsed = said (lookup, user, *ret_key = "elapsed_ms");
  return elapsed == NULL ? CARPACE_INTAKE_FINE
                         : read_number (elapsed, -CARPACE_FIELD_ELAPSED_MS, CARPACE_FIELD_ELAPSED_MS, &ret_at->elapsed_ms);
}

static CarpaceIntakeFault
read_fields (CarpaceLineLookup lookup, void *user, const CarpaceField *field, int32_t n, void *value, const char **ret_key)
{
  CarpaceIntakeFault fault = CARPACE_INTAKE_FINE;

  for (int32_t i = 0; fault == CARPACE_INTAKE_FINE && i < n; i++)
    fault = carpace_field_read (&field[i], lookup (user, *ret_key = field[i].name), value);
  return fault;
}

static CarpaceIntakeFault
read_entry (CarpaceLineLookup lookup, void *user, int32_t kind, CarpaceLine *line, const char **ret_key)
{
  CarpaceIntakeFault fault = read_day (lookup, user, &line->day, ret_key);
  int32_t n;
  const CarpaceField *field = carpace_entry_fields (kind, &n);

  if (fault == CARPACE_INTAKE_FINE)
    fault = read_moment (lookup, user, &line->at, ret_key);
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  carpace_entry_init (&line->entry, kind, line->at);
  return read_fields (lookup, user, field, n, &line->entry, ret_key);
}

static CarpaceIntakeFault
read_event (CarpaceLineLookup lookup, void *user, CarpaceLine *line, const char **ret_key)
{
  CarpaceIntakeFault fault = read_moment (lookup, user, &line->at, ret_key);
  const char *word;
  int32_t kind, n;
  const CarpaceField *field;

  line->kind = CARPACE_LINE_EVENT;
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  word = said (lookup, user, *ret_key = "event");
  kind = word != NULL ? carpace_name_value (CARPACE_WORDS_EVENT, word) : -1;
  if (kind < 0 || kind == CARPACE_EVENT_DEADLINE || kind == CARPACE_EVENT_OPEN) /* these are never told on */
    return word != NULL ? CARPACE_INTAKE_NOT_A_WORD : CARPACE_INTAKE_MISSING;
  carpace_event_init (&line->event, kind);
  field = carpace_event_fields (kind, &n);
  return read_fields (lookup, user, field, n, &line->event, ret_key);
}

static CarpaceIntakeFault
read_alive (CarpaceLineLookup lookup, void *user, CarpaceLine *line, const char **ret_key)
{
  CarpaceIntakeFault fault = read_moment (lookup, user, &line->at, ret_key);
  const char *well;

  line->kind = CARPACE_LINE_ALIVE;
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  well = said (lookup, user, *ret_key = "ended_well");
  line->ended_well = well != NULL && strcmp (well, "1") == 0;
  return CARPACE_INTAKE_FINE;
}

static CarpaceIntakeFault
read_plan_texts (CarpaceLineLookup lookup, void *user, CarpacePlanRecord *plan, const char **ret_key)
{
  static const struct { const char *key; size_t bytes, place; } texts[] = {
    { "name", CARPACE_NAME_BYTES, offsetof (CarpacePlanRecord, name) },
    { "fixed", CARPACE_CEILING_BYTES, offsetof (CarpacePlanRecord, fixed) },
    { "text", CARPACE_PLAN_FILE_BYTES + 1, offsetof (CarpacePlanRecord, text) },
  };
  CarpaceCeiling ceiling;

  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      const char *text = lookup (user, *ret_key = texts[i].key);

      text = text != NULL ? text : "";
      if (strlen (text) >= texts[i].bytes)
        return CARPACE_INTAKE_TOO_LONG;
      memcpy ((char *) plan + texts[i].place, &text, sizeof text);
    }
  *ret_key = "fixed";
  return carpace_ceiling_read (plan->fixed, &ceiling) ? CARPACE_INTAKE_FINE : CARPACE_INTAKE_NOT_A_WORD;
}

static CarpaceIntakeFault
read_plan (CarpaceLineLookup lookup, void *user, CarpaceLine *line, const char **ret_key)
{
  CarpaceIntakeFault fault = read_moment (lookup, user, &line->at, ret_key);
  const char *what, *version;
  int64_t number = 1;

  line->kind = CARPACE_LINE_PLAN;
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  what = said (lookup, user, *ret_key = "what");
  if (what == NULL)
    return CARPACE_INTAKE_MISSING;
  if (carpace_name_value (CARPACE_WORDS_PLAN_WHAT, what) < 0)
    return CARPACE_INTAKE_NOT_A_WORD;
  version = said (lookup, user, *ret_key = "version");
  fault = version == NULL ? CARPACE_INTAKE_MISSING : read_number (version, 1, CARPACE_PLAN_VERSIONS, &number);
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  line->plan = (CarpacePlanRecord) { .at = line->at, .version = (int32_t) number,
                                     .what = (CarpacePlanWhat) carpace_name_value (CARPACE_WORDS_PLAN_WHAT, what) };
  return read_plan_texts (lookup, user, &line->plan, ret_key);
}

static CarpaceIntakeFault
read_by_kind (CarpaceLineLookup lookup, void *user, const char *kind, CarpaceLine *line, const char **ret_key)
{
  int32_t of_kind = carpace_name_value (CARPACE_WORDS_ENTRY, kind);

  if (strcmp (kind, CARPACE_KIND_ABOUT_DAY) == 0)
    return read_about_day (lookup, user, line, ret_key);
  if (strcmp (kind, CARPACE_KIND_EVENT) == 0)
    return read_event (lookup, user, line, ret_key);
  if (strcmp (kind, CARPACE_KIND_ALIVE) == 0)
    return read_alive (lookup, user, line, ret_key);
  if (strcmp (kind, CARPACE_KIND_PLAN) == 0)
    return read_plan (lookup, user, line, ret_key);
  return of_kind >= 0 ? read_entry (lookup, user, of_kind, line, ret_key) : CARPACE_INTAKE_UNKNOWN_KIND;
}

CarpaceIntakeFault
carpace_line_read (CarpaceLineLookup lookup, void *user, CarpaceLine *ret_line, const char **ret_key)
{
  CarpaceLine line = { .other_ms = -1 };
  const char *kind = said (lookup, user, *ret_key = "kind");
  CarpaceIntakeFault fault = CARPACE_INTAKE_MISSING;

  if (kind != NULL)
    fault = read_by_kind (lookup, user, kind, &line, ret_key);
  if (fault == CARPACE_INTAKE_UNKNOWN_KIND)
    *ret_key = "kind";
  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  *ret_key = "note";
  fault = read_note (lookup, user, &line);
  if (fault == CARPACE_INTAKE_FINE)
    *ret_line = line;
  return fault;
}

static CarpaceIntakeFault
read_identities (const char *text, CarpaceIdentity *identity)
{
  g_auto (GStrv) ids = g_strsplit (text, " ", CARPACE_IDENTITIES + 1);

  for (int i = 0; ids[i] != NULL; i++)
    {
      if (!carpace_identity_is_one (ids[i]))
        return CARPACE_INTAKE_NOT_AN_IDENTITY;
      if (!carpace_identity_add (identity, ids[i]))
        return CARPACE_INTAKE_OUT_OF_RANGE;
    }
  return CARPACE_INTAKE_FINE;
}

CarpaceIntakeFault
carpace_line_whose (CarpaceLineLookup lookup, void *user, CarpaceIdentity *ret_identity, const char **ret_key)
{
  CarpaceIdentity identity = { 0 };
  const char *own = said (lookup, user, *ret_key = CARPACE_KEY_WHOSE), *joined;
  CarpaceIntakeFault fault = own != NULL ? read_identities (own, &identity) : CARPACE_INTAKE_FINE;

  if (fault != CARPACE_INTAKE_FINE)
    return fault;
  joined = said (lookup, user, *ret_key = CARPACE_KEY_JOINED);
  fault = joined != NULL ? read_identities (joined, &identity) : CARPACE_INTAKE_FINE;
  if (fault == CARPACE_INTAKE_FINE)
    *ret_identity = identity;
  return fault;
}

static int
keep (const CarpaceLine *line, const CarpaceDiaryKeeper *keeper)
{
  switch (line->kind)
    {
    case CARPACE_LINE_RECORD:
      return keeper->take_in_record (keeper->self, line->day, &line->entry, line->note);
    case CARPACE_LINE_ABOUT_DAY:
      return keeper->take_in_day (keeper->self, line->day, line->other_ms, line->note);
    case CARPACE_LINE_EVENT:
      return keeper->take_in_event (keeper->self, &line->event, line->at);
    case CARPACE_LINE_ALIVE:
      return keeper->take_in_alive (keeper->self, line->at, line->ended_well);
    case CARPACE_LINE_PLAN:
      return keeper->keep_plan (keeper->self, &line->plan);
    }
  return -1;
}

CarpaceIntakeFault
carpace_line_keep (const CarpaceLine *line, const CarpaceDiaryKeeper *keeper, CarpaceIntake *intake)
{
  bool is_record = line->kind == CARPACE_LINE_RECORD || line->kind == CARPACE_LINE_ABOUT_DAY;
  int came = keep (line, keeper);

  intake->added += is_record && came == 1;
  intake->known += is_record && came == 0;
  return came < 0 ? CARPACE_INTAKE_NOT_KEPT : CARPACE_INTAKE_FINE;
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
