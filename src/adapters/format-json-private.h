/* SPDX-License-Identifier: GPL-3.0-or-later */
/* format-json-private.h: what writing and reading share. */
#ifndef CARPACE_FORMAT_JSON_PRIVATE_H
#define CARPACE_FORMAT_JSON_PRIVATE_H

#include "format-json.h"

bool carpace_json_is_like (const char *bytes, size_t n);
bool carpace_json_read (const char *bytes, size_t n, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake);

#endif
