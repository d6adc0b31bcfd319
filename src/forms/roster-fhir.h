/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * roster-fhir.h: what a clinician may read of a player, for a clinic's server: HL7 FHIR R4 (4.0.1), a resource a line.
 *
 * A Patient, known by key and code; Observations of ratings and mornings, as in diary-fhir.h; an Observation a day of the
 * practice time that was planned and done; a Flag a caution. Ids begin with the player's key, so they are of one player only,
 * and the same at each export.
 */
#ifndef CARPACE_FORMS_ROSTER_FHIR_H
#define CARPACE_FORMS_ROSTER_FHIR_H

#include <glib.h>

#include "carpace/roster.h"

/** Adds the lines of @row, whose hand its grant lets be read.
 * @param diary of that player. @param until the last day, and the one under way
 * @return false where the diary cannot be read */
bool carpace_roster_fhir (const CarpaceRosterRow *row, const CarpaceDiary *diary, CarpaceDay since, CarpaceDay until, GString *out);

#endif
