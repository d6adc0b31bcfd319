/* SPDX-License-Identifier: GPL-3.0-or-later */
/* day.c: practice days and civil dates. */
#include "carpace/day.h"

#include "digits.h"

#define ERA_YEARS 400
#define ERA_DAYS 146097
/* Days from 0000-03-01 to 1970-01-01. */
#define MARCH_OF_YEAR_0_TO_1970 719468

static int64_t
floor_div (int64_t a, int64_t b)
{
  return a / b - (a % b < 0);
}

/* ms of the wall clock, seen as if the day turned at midnight UTC. */
static int64_t
shifted_ms (CarpaceInstant instant, int32_t starts_at_min)
{
  return carpace_sum_ms (instant.wall_ms,
                         instant.offset_s * CARPACE_SECOND_MS - starts_at_min * CARPACE_MINUTE_MS);
}

CarpaceDay
carpace_day_of (CarpaceInstant instant, int32_t starts_at_min)
{
  int64_t day = floor_div (shifted_ms (instant, starts_at_min), CARPACE_DAY_MS);

  if (day > INT32_MAX)
    return INT32_MAX;
  return day <= CARPACE_NO_DAY ? CARPACE_NO_DAY + 1 : (CarpaceDay) day;
}

int64_t
carpace_day_until_turn_ms (CarpaceInstant instant, int32_t starts_at_min)
{
  int64_t ms = shifted_ms (instant, starts_at_min);

  return CARPACE_DAY_MS - (ms - floor_div (ms, CARPACE_DAY_MS) * CARPACE_DAY_MS);
}

/* Years are counted from March, so that a leap day is a year's last; the days
 * before month m of such a year are then (153 m + 2) / 5. */
CarpaceDay
carpace_day_from_civil (int32_t year, int32_t month, int32_t day)
{
  int64_t y = (int64_t) year - (month <= 2);
  int64_t era = floor_div (y, ERA_YEARS);
  int64_t year_of_era = y - era * ERA_YEARS;
  int64_t day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
  int64_t day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;

  return (CarpaceDay) (era * ERA_DAYS + day_of_era - MARCH_OF_YEAR_0_TO_1970);
}

/* 1970-01-01 was a Thursday. */
CarpaceWeekday
carpace_day_weekday (CarpaceDay day)
{
  int64_t since_monday = (int64_t) day + CARPACE_WEEKDAY_THURSDAY;

  return (CarpaceWeekday) (since_monday - floor_div (since_monday, CARPACE_N_WEEKDAYS) * CARPACE_N_WEEKDAYS);
}

void
carpace_day_to_civil (CarpaceDay day, int32_t *ret_year, int32_t *ret_month, int32_t *ret_day)
{
  int64_t days = (int64_t) day + MARCH_OF_YEAR_0_TO_1970;
  int64_t era = floor_div (days, ERA_DAYS);
  int64_t day_of_era = days - era * ERA_DAYS;
  int64_t year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  int64_t day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  int64_t month = (5 * day_of_year + 2) / 153;

  *ret_day = (int32_t) (day_of_year - (153 * month + 2) / 5 + 1);
  *ret_month = (int32_t) (month < 10 ? month + 3 : month - 9);
  *ret_year = (int32_t) (year_of_era + era * ERA_YEARS + (*ret_month <= 2));
}

void
carpace_day_write (CarpaceDay day, char ret_text[CARPACE_DAY_BYTES])
{
  int32_t year, month, day_of_month;
  char *at = ret_text;

  carpace_day_to_civil (day, &year, &month, &day_of_month);
  if (year < 0 || year > 9999)
    carpace_day_to_civil (year < 0 ? carpace_day_from_civil (0, 1, 1) : carpace_day_from_civil (9999, 12, 31),
                          &year, &month, &day_of_month);
  at = carpace_digits_write (at, year, 4);
  *at++ = '-';
  at = carpace_digits_write (at, month, 2);
  *at++ = '-';
  at = carpace_digits_write (at, day_of_month, 2);
  *at = '\0';
}

bool
carpace_day_read (const char *text, CarpaceDay *ret_day)
{
  int32_t year, month, day, year_back, month_back, day_back;

  if (!carpace_digits_read (&text, 4, &year) || *text++ != '-' || !carpace_digits_read (&text, 2, &month)
      || *text++ != '-' || !carpace_digits_read (&text, 2, &day) || *text != '\0')
    return false;
  /* a month or day that there is not is another one when it comes back */
  carpace_day_to_civil (carpace_day_from_civil (year, month, day), &year_back, &month_back, &day_back);
  if (month_back != month || day_back != day)
    return false;
  *ret_day = carpace_day_from_civil (year, month, day);
  return true;
}
