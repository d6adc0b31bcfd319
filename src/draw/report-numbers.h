/* SPDX-License-Identifier: GPL-3.0-or-later */
/** report-numbers.h: a stretch of diary, counted. */
#ifndef CARPACE_DRAW_REPORT_NUMBERS_H
#define CARPACE_DRAW_REPORT_NUMBERS_H

#include "diary-model.h"
#include "text/report-text.h"

/** Counts @since to @until of @model, which reaches 14 days further back where
 * the last weeks are to be compared. @return false where a day cannot be read */
bool carpace_report_count (CarpaceDiaryModel *model, CarpaceDay since, CarpaceDay until,
                           CarpaceReportNumbers *ret_numbers);

#endif
