/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * at-least.h: what a hand was seen to take, and no more than that.
 *
 * "At least Y min: n answered days at Y to W min, k of them worse": the highest
 * Y for which, in some run of doses from Y up to W, the answers leave 30 % worse
 * mornings outside a one-sided 97.5 % bound (Clopper and Pearson 1934). More
 * practice is taken to make no fewer worse mornings, so that what is seen from Y
 * to W bounds what Y itself would show. Nothing is said of what would be too
 * much: the rules avoid the doses that would show it.
 */
#ifndef CARPACE_AT_LEAST_H
#define CARPACE_AT_LEAST_H

#include "carpace/diary.h"

/** Dates that count. */
#define CARPACE_AT_LEAST_DAYS 84

/** One practice day that was answered by the next morning. */
typedef struct
{
  int64_t dose_ms; /**< planned or done, the smaller, to the minute */
  bool worse;
} CarpaceAnswered;

/** What can be said. */
typedef struct
{
  int64_t least_ms; /**< 0: nothing */
  int64_t most_ms;
  int32_t days;
  int32_t worse;
} CarpaceAtLeast;

/** Days in order of dose are not needed. @first_dose_ms: doses within 5 % of it
 * are taken as one. */
CarpaceAtLeast carpace_at_least (const CarpaceAnswered *answered, int32_t n, int64_t first_dose_ms);

/** How many answered days @worse of them need; 0 where there are never enough. */
int32_t carpace_at_least_needed (int32_t worse);

/** Gathers a diary's last days. */
typedef struct
{
  CarpaceDay today;
  int64_t first_dose_ms;
  int32_t usual[CARPACE_AT_LEAST_DAYS + 1]; /**< of each date, the oldest first; -1 not known */
  int32_t level_downs;                      /**< within 28 dates */
  int32_t n;
  CarpaceAnswered answered[CARPACE_AT_LEAST_DAYS];
  CarpaceDaySum last;                       /**< the last practice day, still to be answered */
  bool open;
} CarpaceAtLeastDays;

/** Begins with the plan in use, for what was recorded without its dose. */
void carpace_at_least_begin (CarpaceAtLeastDays *days, CarpaceDay today, int64_t first_dose_ms, int32_t usual);

/** Visitors for CarpaceDiary.records_of() (decisions, first) and days(), over
 * @today - CARPACE_AT_LEAST_DAYS to @today; @user is a CarpaceAtLeastDays. */
bool carpace_at_least_take_decision (void *user, const CarpaceRecord *record);
bool carpace_at_least_take_day (void *user, const CarpaceDaySum *sum);

/** What they say: nothing while the level came down twice in 28 dates. */
CarpaceAtLeast carpace_at_least_end (const CarpaceAtLeastDays *days);

/** The same in one go: what @diary says on the evening of @today. @plan: the one in
 * use, NULL where there is none. @return false where the diary cannot be read */
bool carpace_at_least_read (const CarpaceDiary *diary, CarpaceDay today, const CarpacePlan *plan,
                            CarpaceAtLeast *ret_seen);

#endif
