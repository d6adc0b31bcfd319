/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fhir-parts.c: HL7 FHIR R4 (4.0.1): data types CodeableConcept, Identifier, Reference, Quantity; Bundle.entry.fullUrl. */
#include "forms/fhir-parts.h"

#include <string.h>

#include "forms/json.h"

void
carpace_fhir_text (GString *out, const char *key, const char *text)
{
  carpace_json_key (out, key);
  carpace_json_string (out, text);
}

void
carpace_fhir_concept (GString *out, const char *system, const char *code, const char *display, const char *text)
{
  carpace_json_open (out, '{');
  if (system != NULL)
    {
      carpace_json_key (out, "coding");
      carpace_json_open (out, '[');
      carpace_json_open (out, '{');
      carpace_fhir_text (out, "system", system);
      carpace_fhir_text (out, "code", code);
      carpace_fhir_text (out, "display", display);
      carpace_json_close (out, '}');
      carpace_json_close (out, ']');
    }
  if (text != NULL)
    carpace_fhir_text (out, "text", text);
  carpace_json_close (out, '}');
}

void
carpace_fhir_identifier (GString *out, const char *system, const char *value)
{
  carpace_json_open (out, '{');
  carpace_fhir_text (out, "system", system);
  carpace_fhir_text (out, "value", value);
  carpace_json_close (out, '}');
}

void
carpace_fhir_subject (GString *out, const CarpaceFhirSubject *subject)
{
  g_autofree char *reference = subject->patient != NULL ? g_strconcat ("Patient/", subject->patient, NULL) : NULL;

  carpace_json_key (out, "subject");
  carpace_json_open (out, '{');
  if (reference != NULL)
    carpace_fhir_text (out, "reference", reference);
  carpace_fhir_text (out, "type", "Patient");
  carpace_json_key (out, "identifier");
  carpace_fhir_identifier (out, CARPACE_FHIR_CODES, subject->code);
  carpace_json_close (out, '}');
}

void
carpace_fhir_category (GString *out, const char *code, const char *display)
{
  carpace_json_key (out, "category");
  carpace_json_open (out, '[');
  carpace_fhir_concept (out, CARPACE_FHIR_CATEGORIES, code, display, NULL);
  carpace_json_close (out, ']');
}

void
carpace_fhir_minutes (GString *out, int64_t ms)
{
  carpace_json_open (out, '{');
  carpace_json_key (out, "value");
  carpace_json_double (out, (double) ((ms + 3000) / 6000) / 10);
  carpace_fhir_text (out, "unit", "min");
  carpace_fhir_text (out, "system", CARPACE_FHIR_UCUM);
  carpace_fhir_text (out, "code", "min");
  carpace_json_close (out, '}');
}

/* Of names in the space of RFC 4122 for URLs, appendix C. */
char *
carpace_fhir_full_url (const char *type, const char *id)
{
  static const guint8 space[16] = { 0x6b, 0xa7, 0xb8, 0x11, 0x9d, 0xad, 0x11, 0xd1, 0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8 };
  g_autofree char *name = g_strconcat (CARPACE_FHIR_KEYS "/", type, "/", id, NULL);
  GChecksum *sum = g_checksum_new (G_CHECKSUM_SHA1);
  guint8 b[20];
  gsize n = sizeof b;

  g_checksum_update (sum, space, sizeof space);
  g_checksum_update (sum, (const guchar *) name, (gssize) strlen (name));
  g_checksum_get_digest (sum, b, &n);
  g_checksum_free (sum);
  b[6] = (guint8) ((b[6] & 0x0f) | 0x50);
  b[8] = (guint8) ((b[8] & 0x3f) | 0x80);
  return g_strdup_printf ("urn:uuid:%02x%02x%02x%02x-%02x%02x-%02x%02x-%02x%02x-%02x%02x%02x%02x%02x%02x", b[0], b[1], b[2], b[3], b[4], b[5], b[6],
                          b[7], b[8], b[9], b[10], b[11], b[12], b[13], b[14], b[15]);
}
