/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-csv-private.h: what writing and reading share. */
#ifndef CARPACE_FORMS_DIARY_CSV_PRIVATE_H
#define CARPACE_FORMS_DIARY_CSV_PRIVATE_H

#include <glib.h>

#include "forms/diary-csv.h"

/** Columns that every line has, before the fields. */
#define CARPACE_CSV_FIXED 6
extern const char *const carpace_csv_fixed[CARPACE_CSV_FIXED];

/** Puts a `'` before a text that a spreadsheet may take for a formula. g_free() it. */
char *carpace_csv_defused (const char *text);

/** The text as it was before. @return within @text */
const char *carpace_csv_fused (const char *text);

bool carpace_csv_is_like (const char *bytes, size_t n);
bool carpace_csv_whose (const char *bytes, size_t n, CarpaceIdentity *ret_identity);
bool carpace_csv_read (const char *bytes, size_t n, const CarpaceDiaryKeeper *keeper, CarpaceIntake *ret_intake);

#endif
