/* SPDX-License-Identifier: GPL-3.0-or-later */
/** diary-day.h: how a day of the diary comes of its records; the model's own. */
#ifndef CARPACE_DRAW_DIARY_DAY_H
#define CARPACE_DRAW_DIARY_DAY_H

#include "diary-model.h"

/** A day of which nothing is known yet; carpace_diary_day_clear() it. */
void carpace_diary_day_init (CarpaceDiaryDay *day, CarpaceDay date);
void carpace_diary_day_clear (CarpaceDiaryDay *day);

/** Takes the next record of the day in, as they came. */
void carpace_diary_day_take (CarpaceDiaryDay *day, const CarpaceRecord *record);

#endif
