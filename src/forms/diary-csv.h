/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-csv.h: the diary as comma-separated values (RFC 4180), by libcsv.
 *
 * One table: a line a record, a column each field that any kind has, empty
 * where the kind has it not; a line of the kind `about-day` where there is a
 * note on a day or mouse input outside practice. A note that a spreadsheet
 * would run as a formula gets a `'` in front, taken off again when read.
 */
#ifndef CARPACE_FORMS_DIARY_CSV_H
#define CARPACE_FORMS_DIARY_CSV_H

#include "carpace/diary.h"

extern const CarpaceDiaryFormat carpace_format_csv;

#endif
