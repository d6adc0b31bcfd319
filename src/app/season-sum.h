/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * season-sum.h: a season, heard entry by entry, in a few numbers: how close to
 * what the hand takes it was led, how often over it, and how it rose.
 */
#ifndef CARPACE_SEASON_SUM_H
#define CARPACE_SEASON_SUM_H

#include "app/players.h"

/** One date of a season. All 0 where no practice day was opened on it. */
typedef struct
{
  bool opened;
  bool no_practice;
  bool opens_caution;
  CarpaceRule rule;   /**< that decided its dose */
  int64_t asked_ms;   /**< its dose; 0 on a day without practice */
  int64_t dose_ms;    /**< as it stands, also behind a day without practice */
  int64_t level_ms;
  int64_t done_ms;
  int32_t highest;    /**< discomfort of its morning and its blocks, -1 where nothing was answered */
  CarpaceDecision decision; /**< about its dose, as it opened */
} CarpaceSeasonDay;

/** A season's dates. */
typedef struct
{
  int32_t most;             /**< dates there is room for */
  int32_t n;                /**< dates up to the last opened */
  CarpaceDay first;
  CarpaceSeasonDay *day;
  CarpaceDecision decision; /**< the latest of the day */
  int32_t morning;          /**< highest number of a morning whose day has not opened yet, -1 */
} CarpaceSeasonDays;

/** Room for @days dates. @return false where memory was short */
bool carpace_season_days_init (CarpaceSeasonDays *days, int32_t most);

/** Empty again, for another season of as many days. */
void carpace_season_days_empty (CarpaceSeasonDays *days);

void carpace_season_days_clear (CarpaceSeasonDays *days);

/** Takes one entry; dates beyond the last there is room for are passed over. */
void carpace_season_days_take (CarpaceSeasonDays *days, const CarpaceEntry *entry);

/** A week, of seven dates from the season's first. */
typedef struct
{
  int64_t asked_ms, done_ms;
  int32_t days;       /**< practised on */
  int32_t days_over;  /**< of those, with more than 1.15 x what the hand takes asked for */
  int32_t cuts;
  int32_t highest;    /**< discomfort, -1 where nothing was answered */
} CarpaceSeasonWeek;

/** What @dates of a season from @from come to; @plan, @traits and @seed tell what
 * the hand took on each. Dates that were not lived count as nothing. */
CarpaceSeasonWeek carpace_season_stretch (const CarpaceSeasonDays *days, int32_t from, int32_t dates,
                                          const CarpacePlan *plan, const CarpacePlayerTraits *traits, uint64_t seed);

/** A season in a few numbers. */
typedef struct
{
  CarpaceSeasonWeek all;
  int32_t rest_days, steps_up, cautions;
  double over_takes;    /**< mean of asked over what the hand takes, of days practised on from week 5 on; 0 where it takes any dose or there was none */
  double rise_7_pct;    /**< largest rise of asked over the lowest of the 7 dates before */
  double rise_14_pct;   /**< of what was done in 14 dates over the 14 before, largest; 0 before there were 28 */
  int64_t level_ms;     /**< at the end */
  int64_t level_least_ms, level_most_ms, level_mean_ms; /**< of the last 28 dates */
} CarpaceSeasonSum;

void carpace_season_sum (const CarpaceSeasonDays *days, const CarpacePlan *plan, const CarpacePlayerTraits *traits,
                         uint64_t seed, CarpaceSeasonSum *ret_sum);

#endif
