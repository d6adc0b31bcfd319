/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-fhir.h: ratings and morning checks as HL7 FHIR R4 (4.0.1) Observations
 * in a Bundle. It only goes out: it holds what a clinician's system can use,
 * not the whole diary.
 */
#ifndef CARPACE_FORMS_DIARY_FHIR_H
#define CARPACE_FORMS_DIARY_FHIR_H

#include "carpace/diary.h"

extern const CarpaceDiaryFormat carpace_format_fhir;

/** The same Observations, a line each (NDJSON), of a player beside whose Patient they stand.
 * @param patient its id: theirs begin with it, so it is 32 characters at most
 * @return false where the diary could not be read, or @to not be written */
bool carpace_fhir_answers (const CarpaceDiary *diary, const CarpaceDiaryExtract *what, const char *patient, const CarpaceBytesOut *to);

#endif
