/* SPDX-License-Identifier: GPL-3.0-or-later */
/* day-record.h: a day's record, number by number: for the session that ends the
 * day, and for whoever comes by it from what was told of it. */
#ifndef CARPACE_DAY_RECORD_H
#define CARPACE_DAY_RECORD_H

#include "carpace/dose.h"

/* A record of @day in which nothing was done or said. */
CarpaceDayRecord carpace_record_of_day (CarpaceDay day);

/* The day's morning check, as it was given last. */
void carpace_record_morning (CarpaceDayRecord *record, const CarpaceMorning *morning, int32_t usual, int32_t stop_above);

/* One answered rating, as it stands. */
void carpace_record_rating (CarpaceDayRecord *record, int32_t discomfort, bool by_two_points, int32_t usual,
                            int32_t stop_above);

/* Whether a number is close to stop-above and well above @usual. */
bool carpace_near_stop (int32_t discomfort, int32_t usual);

#endif
