/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dose-days.h: what the days behind say, for the rows of dose.c. */
#ifndef CARPACE_DOSE_DAYS_H
#define CARPACE_DOSE_DAYS_H

#include "carpace/dose.h"

/* Dates that a row of days off, of numbers above stop-above and of steps up looks back on. */
#define CARPACE_WEEK_DAYS 7

/* @base_ms x @part / @whole, down to a multiple of @unit_ms, exact. */
int64_t carpace_ratio_down_ms (int64_t base_ms, int64_t part_ms, int64_t whole_ms, int64_t unit_ms);

/* The last day with practice: its index, -1 where none. */
int32_t carpace_history_last_practice (const CarpaceHistory *history);

/* How many times a number was above stop-above on days @since to @until, without
 * @but. An evening and the morning after it, which is that of the next opened
 * day, are one, on the evening's date. */
int32_t carpace_history_above_stop (const CarpaceHistory *history, CarpaceDay since, CarpaceDay until, CarpaceDay but);

/* Whether the last two decisions, keeps and steps taken back passed over, were cuts. */
bool carpace_history_two_cuts (const CarpaceHistory *history);

/* Whether there was practice on @date with a dose of 90 % of the present level or more. */
bool carpace_history_full_day (const CarpaceHistory *history, CarpaceDay date);

/* Worse mornings after full days, from @since on and after the level last
 * changed; those kept for another load or for time without practice do not count. */
int32_t carpace_history_worse_after_full (const CarpaceHistory *history, CarpaceDay since);

/* What was done on days @since to @until, and on how many of them. */
int64_t carpace_history_done_ms (const CarpaceHistory *history, CarpaceDay since, CarpaceDay until, int32_t *ret_days);

/* The last waking numbers, @check's first, @most of them. @return how many there are */
int32_t carpace_history_wakings (const CarpaceHistory *history, const CarpaceMorning *check, int32_t most,
                                 int32_t *ret_waking);

/* Whether there was another unusual load on the day before @today. */
bool carpace_history_other_load (const CarpaceHistory *history, const CarpaceMorning *check, CarpaceDay today);

/* Whether the mean of the block ratings of the 7 dates before @day is @number or more. */
bool carpace_history_week_up (const CarpaceHistory *history, CarpaceDay day, int32_t number);

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

/* Of carpace_history_unanswered_days(), those from @since on. */
int32_t carpace_history_unanswered_since (const CarpaceHistory *history, CarpaceDay since);

/* Settled days in a row since the last change. @by_ratings: a day whose next
 * waking is not known is settled by its ratings. */
int32_t carpace_history_settled_row (const CarpaceHistory *history, const CarpaceMorning *check, bool worse,
                                     bool by_ratings);

/* Whether any day from @since on was settled. */
bool carpace_history_settled_since (const CarpaceHistory *history, CarpaceDay since, const CarpaceMorning *check,
                                    bool worse);

/* Why the last practice day, where it lies after the last change, is no settled
 * day, or no good one. */
CarpaceUncounted carpace_history_uncounted (const CarpaceHistory *history, const CarpaceMorning *check, bool worse,
                                            bool for_good);

/* Good days in a row since the last change. */
int32_t carpace_history_good_row (const CarpaceHistory *history, const CarpaceMorning *check,
                                  bool worse);

#endif
