/* SPDX-License-Identifier: GPL-3.0-or-later */
/* day-record.c: what a day's numbers say of the day. */
#include "day-record.h"

#define NEAR_STOP 4

bool
carpace_near_stop (int32_t discomfort, int32_t usual)
{
  return discomfort >= NEAR_STOP && discomfort >= usual + 2;
}

CarpaceDayRecord
carpace_record_of_day (CarpaceDay day)
{
  return (CarpaceDayRecord){ .day = day, .other_ms = -1, .highest = -1,
                             .morning = { .waking = -1, .stiffness = CARPACE_STIFFNESS_UNSAID, .now = -1 } };
}

void
carpace_record_morning (CarpaceDayRecord *record, const CarpaceMorning *morning, int32_t usual, int32_t stop_above)
{
  record->morning = *morning;
  record->morning.site = CARPACE_SITE_NONE;
  record->worse = carpace_morning_is_worse (morning, usual);
  record->above_stop |= morning->waking > stop_above || morning->now > stop_above;
  record->near_stop |= carpace_near_stop (morning->waking, usual) || carpace_near_stop (morning->now, usual);
}

void
carpace_record_rating (CarpaceDayRecord *record, int32_t discomfort, bool by_two_points, int32_t usual,
                       int32_t stop_above)
{
  record->n_ratings++;
  record->rating_sum += discomfort;
  record->highest = discomfort > record->highest ? discomfort : record->highest;
  record->ended_above_stop |= discomfort > stop_above;
  record->above_stop |= discomfort > stop_above;
  record->tightened_2 |= by_two_points;
  record->near_stop |= carpace_near_stop (discomfort, usual);
}
