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

#endif
