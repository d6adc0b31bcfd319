/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-fhir.c: HL7 FHIR R4 (4.0.1): Patient, Observation, Flag, in lines (newline-delimited JSON, as FHIR's bulk data has it). */
#include "forms/roster-fhir.h"

#include <string.h>

#include "carpace/names.h"
#include "forms/diary-fhir.h"
#include "forms/fhir-parts.h"
#include "forms/json.h"

#define PATIENT_DIGITS 32 /* of the key: FHIR's ids have 64 characters at most */

typedef struct
{
  CarpaceFhirSubject subject;
  CarpaceDay until;
  GString *out;
  bool open;                /* a caution is */
  uint32_t signs;
  CarpaceInstant opened;
} Lines;

static bool
add_bytes (void *self, const char *bytes, size_t n)
{
  g_string_append_len (self, bytes, (gssize) n);
  return true;
}

/* ---- who ---- */

static void
add_patient (const CarpaceRosterRow *row, const char *key, const char *patient, GString *out)
{
  GString *line = g_string_new (NULL);

  carpace_json_open (line, '{');
  carpace_fhir_text (line, "resourceType", "Patient");
  carpace_fhir_text (line, "id", patient);
  carpace_json_key (line, "identifier");
  carpace_json_open (line, '[');
  carpace_fhir_identifier (line, CARPACE_FHIR_KEYS, key);
  carpace_fhir_identifier (line, CARPACE_FHIR_CODES, row->who.name);
  carpace_json_close (line, ']');
  carpace_json_close (line, '}');
  g_string_append_printf (out, "%s\n", line->str);
  g_string_free (line, TRUE);
}

static GString *
begin_resource (const Lines *lines, const char *type, const char *id, const char *status)
{
  GString *line = g_string_new (NULL);

  carpace_json_open (line, '{');
  carpace_fhir_text (line, "resourceType", type);
  carpace_fhir_text (line, "id", id);
  carpace_fhir_text (line, "status", status);
  carpace_fhir_subject (line, &lines->subject);
  return line;
}

static void
end_resource (const Lines *lines, GString *line)
{
  carpace_json_close (line, '}');
  g_string_append_printf (lines->out, "%s\n", line->str);
  g_string_free (line, TRUE);
}

/* ---- dose ---- */

static void
add_time (GString *line, const char *what, int64_t ms)
{
  carpace_json_open (line, '{');
  carpace_json_key (line, "code");
  carpace_fhir_concept (line, NULL, NULL, NULL, what);
  carpace_json_key (line, "valueQuantity");
  carpace_fhir_minutes (line, ms);
  carpace_json_close (line, '}');
}

static bool
add_day (void *user, const CarpaceDaySum *sum)
{
  const Lines *lines = user;
  char day[CARPACE_DAY_BYTES];
  g_autofree char *id = NULL;
  GString *line;

  if (sum->dose_ms == 0 && sum->done_ms == 0)
    return true;
  carpace_day_write (sum->day, day);
  id = g_strdup_printf ("%s-%s-dose", lines->subject.patient, day);
  line = begin_resource (lines, "Observation", id, sum->day < lines->until ? "final" : "preliminary");
  carpace_fhir_category (line, "activity", "Activity");
  carpace_json_key (line, "code");
  carpace_fhir_concept (line, NULL, NULL, NULL, "Practice with the mouse, active time of a day");
  carpace_fhir_text (line, "effectiveDateTime", day);
  carpace_json_key (line, "component");
  carpace_json_open (line, '[');
  add_time (line, "planned", sum->dose_ms);
  add_time (line, "done", sum->done_ms);
  carpace_json_close (line, ']');
  end_resource (lines, line);
  return true;
}

/* ---- cautions ---- */

static char *
signs_of (uint32_t signs)
{
  GString *text = g_string_new ("Caution before practice, as the player answered:");

  for (int32_t sign = 0; sign < CARPACE_N_SIGNS; sign++)
    if ((signs & (UINT32_C (1) << sign)) != 0)
      g_string_append_printf (text, " %s", carpace_name (CARPACE_WORDS_SIGN, sign));
  return g_string_free (text, FALSE);
}

/* @param closed NULL: it is open */
static void
add_flag (Lines *lines, const CarpaceInstant *closed)
{
  char start[CARPACE_INSTANT_BYTES], end[CARPACE_INSTANT_BYTES];
  g_autofree char *id = g_strdup_printf ("%s-%" G_GINT64_FORMAT "-caution", lines->subject.patient, lines->opened.wall_ms);
  g_autofree char *signs = signs_of (lines->signs);
  GString *line = begin_resource (lines, "Flag", id, closed != NULL ? "inactive" : "active");

  carpace_json_key (line, "code");
  carpace_fhir_concept (line, NULL, NULL, NULL, signs);
  carpace_json_key (line, "period");
  carpace_json_open (line, '{');
  carpace_instant_write (lines->opened, start);
  carpace_fhir_text (line, "start", start);
  if (closed != NULL)
    {
      carpace_instant_write (*closed, end);
      carpace_fhir_text (line, "end", end);
    }
  carpace_json_close (line, '}');
  end_resource (lines, line);
  lines->open = false;
}

/* One that is opened again while it is open has more signs. */
static bool
see_caution (void *user, const CarpaceRecord *record)
{
  Lines *lines = user;
  const CarpaceEntry *entry = &record->entry;

  if (entry->caution.what == CARPACE_CAUTION_OPENED)
    {
      lines->signs = (lines->open ? lines->signs : 0) | entry->caution.signs;
      lines->opened = lines->open ? lines->opened : entry->at;
      lines->open = true;
    }
  else if (entry->caution.what == CARPACE_CAUTION_CLOSED && lines->open)
    add_flag (lines, &entry->at);
  return true;
}

bool
carpace_roster_fhir (const CarpaceRosterRow *row, const CarpaceDiary *diary, CarpaceDay since, CarpaceDay until, GString *out)
{
  const CarpaceDiaryExtract what = { .since = since, .until = until, .without_notes = true, .player = row->who.name, .code = row->who.name };
  const CarpaceBytesOut to = { out, add_bytes };
  GString *key = g_string_new (NULL);
  g_autofree char *patient = NULL;
  Lines lines = { .until = until, .out = out };
  bool read;

  for (int i = 0; i < CARPACE_KEY_BYTES; i++)
    g_string_append_printf (key, "%02x", row->who.player.byte[i]);
  patient = g_strndup (key->str, PATIENT_DIGITS);
  lines.subject = (CarpaceFhirSubject) { row->who.name, patient };
  add_patient (row, key->str, patient, out);
  g_string_free (key, TRUE);
  read = diary->days (diary->self, since, until, add_day, &lines)
         && diary->records_of (diary->self, since, until, CARPACE_KIND (CARPACE_ENTRY_CAUTION), see_caution, &lines)
         && carpace_fhir_answers (diary, &what, patient, &to);
  if (lines.open)
    add_flag (&lines, NULL);
  return read;
}
