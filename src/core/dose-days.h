/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose-days.h: what the days behind say, for the rows of dose.c. */
#ifndef CARPACE_DOSE_DAYS_H
#define CARPACE_DOSE_DAYS_H

#include "carpace/dose.h"

/* @base_ms x @part / @whole, down to a multiple of @unit_ms, exact. */
int64_t carpace_ratio_down_ms (int64_t base_ms, int64_t part_ms, int64_t whole_ms, int64_t unit_ms);

/* The last day with practice, NULL where none. */
CarpaceDayRecord *carpace_history_last_practice (CarpaceHistory *history);

/* How many times a number was above stop-above on days @since to @until; an
 * evening and the morning after it count as one. @today: this morning too. */
int32_t carpace_history_above_stop (const CarpaceHistory *history, CarpaceDay since, CarpaceDay until, bool today);

/* Whether the last two changes, keeps passed over, were cuts. */
bool carpace_history_two_cuts (const CarpaceHistory *history);

/* Whether there was another unusual load on the day before @today. */
bool carpace_history_other_load (const CarpaceHistory *history, const CarpaceMorning *check, CarpaceDay today);

/* Whether the mean of the block ratings of the 7 dates before @day is over 0.5
 * above that of the 7 before, with 6 ratings in each. The means, in hundredths,
 * are told where they are wanted. */
bool carpace_history_week_rising (const CarpaceHistory *history, CarpaceDay day, int32_t *ret_mean_pct,
                                  int32_t *ret_before_pct);

/* Whether the last three days with ratings, all of them since a caution was last
 * closed, are not below the week's mean. Without "since": the weeks that opened
 * a caution would open it again on the day after it closed. */
bool carpace_history_last_days_not_below (const CarpaceHistory *history, CarpaceDay today);

/* Practice days in a row, up to now, without a waking number after them. */
int32_t carpace_history_days_without_check (const CarpaceHistory *history);

/* Settled days in a row since the last change. @by_ratings: a day whose next
 * waking is not known is settled by its ratings. */
int32_t carpace_history_settled_row (const CarpaceHistory *history, const CarpaceMorning *check, bool worse,
                                     bool by_ratings);

/* Good days in a row since the last change. */
int32_t carpace_history_good_row (const CarpaceHistory *history, const CarpaceMorning *check,
                                  bool worse);

#endif
