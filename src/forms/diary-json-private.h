/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-json-private.h: what writing and reading share. */
#ifndef CARPACE_FORMS_DIARY_JSON_PRIVATE_H
#define CARPACE_FORMS_DIARY_JSON_PRIVATE_H

#include "forms/diary-json.h"

bool carpace_json_is_like (const char *bytes, size_t n);
bool carpace_json_whose (const char *bytes, size_t n, CarpaceIdentity *ret_identity);
bool carpace_json_read (const char *bytes, size_t n, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake);

#endif
