/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * fhir-parts.h: what resources of HL7 FHIR R4 (4.0.1) have in common here.
 *
 * Codes and keys of players have no registered system, so each has one of its own: a UUID made by chance for this program
 * once (RFC 4122), which is a URI as FHIR wants it.
 */
#ifndef CARPACE_FORMS_FHIR_PARTS_H
#define CARPACE_FORMS_FHIR_PARTS_H

#include <glib.h>

#include "carpace/instant.h"

#define CARPACE_FHIR_UCUM "http://unitsofmeasure.org"
#define CARPACE_FHIR_CATEGORIES "http://terminology.hl7.org/CodeSystem/observation-category"
#define CARPACE_FHIR_CODES "urn:uuid:61bd0ba7-9030-4e61-ae39-482a752a81c9" /**< a player's code, in a team */
#define CARPACE_FHIR_KEYS "urn:uuid:207a0c60-b0be-49cf-b969-0a57b02de667"  /**< a player's public key, 64 hexadecimal digits */

/** Whom a resource is about. */
typedef struct
{
  const char *code;    /**< as the team calls them */
  const char *patient; /**< id of a Patient beside it, as ids of its resources begin; NULL: there is none */
} CarpaceFhirSubject;

void carpace_fhir_text (GString *out, const char *key, const char *text);

/** A CodeableConcept: @system NULL where there is no code for it, @text NULL where the code tells it. */
void carpace_fhir_concept (GString *out, const char *system, const char *code, const char *display, const char *text);

/** "identifier"'s one value. */
void carpace_fhir_identifier (GString *out, const char *system, const char *value);

void carpace_fhir_subject (GString *out, const CarpaceFhirSubject *subject);

/** "category": a list of one, of FHIR's own of Observations. */
void carpace_fhir_category (GString *out, const char *code, const char *display);

/** A Quantity in minutes, to a tenth. */
void carpace_fhir_minutes (GString *out, int64_t ms);

/** "urn:uuid:...": the same for the same @type and @id (RFC 4122, version 5). g_free() it */
char *carpace_fhir_full_url (const char *type, const char *id);

#endif
