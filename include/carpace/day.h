/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * day.h: the practice day.
 *
 * A practice day is the local date less the hour the day starts at (04:00 by
 * default): what is practised at one in the morning belongs to the evening
 * before. A date is a count of days since 1970-01-01 in the proleptic
 * Gregorian calendar.
 */
#ifndef CARPACE_DAY_H
#define CARPACE_DAY_H

#include "carpace/instant.h"

/** Days since 1970-01-01. */
typedef int32_t CarpaceDay;

/** No day at all. */
#define CARPACE_NO_DAY INT32_MIN

/** The practice day @instant falls on.
 * @param starts_at_min minutes after local midnight at which a day turns, 0..1439 */
CarpaceDay carpace_day_of (CarpaceInstant instant, int32_t starts_at_min);

/** ms on the wall clock from @instant to the next turn of the day in the
 * same offset, 1 .. CARPACE_DAY_MS. */
int64_t carpace_day_until_turn_ms (CarpaceInstant instant, int32_t starts_at_min);

/** The day of a civil date. Source of the algorithm: era arithmetic over 400
 * Gregorian years (146097 days).
 * @param month 1..12 @param day 1..31, not checked against the month */
CarpaceDay carpace_day_from_civil (int32_t year, int32_t month, int32_t day);

/** The civil date of @day. */
void carpace_day_to_civil (CarpaceDay day, int32_t *ret_year, int32_t *ret_month, int32_t *ret_day);

/** Days of the week, as ISO 8601 counts them. */
typedef enum
{
  CARPACE_WEEKDAY_MONDAY,
  CARPACE_WEEKDAY_TUESDAY,
  CARPACE_WEEKDAY_WEDNESDAY,
  CARPACE_WEEKDAY_THURSDAY,
  CARPACE_WEEKDAY_FRIDAY,
  CARPACE_WEEKDAY_SATURDAY,
  CARPACE_WEEKDAY_SUNDAY,
  CARPACE_N_WEEKDAYS
} CarpaceWeekday;

/** The day of the week that @day is. */
CarpaceWeekday carpace_day_weekday (CarpaceDay day);

/** Bytes that carpace_day_write() needs, its end included. */
#define CARPACE_DAY_BYTES 11

/** Writes @day as "YYYY-MM-DD", years 0000..9999 (others are clamped). */
void carpace_day_write (CarpaceDay day, char ret_text[CARPACE_DAY_BYTES]);

/** Reads "YYYY-MM-DD". @return false, *ret_day untouched, where it is no date. */
bool carpace_day_read (const char *text, CarpaceDay *ret_day);

#endif
