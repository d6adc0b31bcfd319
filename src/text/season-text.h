/* SPDX-License-Identifier: GPL-3.0-or-later */
/** season-text.h: a rehearsed season in words: its weeks, its days, what it came to. All translated; a `char *` is the
 * caller's to g_free(). */
#ifndef CARPACE_TEXT_SEASON_TEXT_H
#define CARPACE_TEXT_SEASON_TEXT_H

#include "carpace/dose.h"

/** A week. */
typedef struct
{
  int32_t number;               /**< from 1 */
  int64_t done_ms, planned_ms;
  int32_t days;                 /**< practised on */
  int32_t cuts;
  int32_t highest;              /**< discomfort, -1 where nothing was answered */
  int64_t before_ms;            /**< done in the week before; -1 where there is none, or this one is not whole */
} CarpaceSeasonWeekTold;

/** "Week 2: 4 h 50 min of 5 h 6 min on 6 days, highest discomfort 2, 1 cut; 22 min more than the week before". */
char *carpace_text_season_week (const CarpaceSeasonWeekTold *week);

/** "week 2". */
char *carpace_text_season_week_name (int32_t number);

/** How @done_ms stands to @before_ms: "22 min more than the week before". */
char *carpace_text_season_trend (int64_t done_ms, int64_t before_ms);

/** A whole season. */
typedef struct
{
  int64_t done_ms;
  int32_t days, cuts, rest_days, cautions;
  int32_t highest;
  int64_t level_ms;             /**< at its end */
} CarpaceSeasonAllTold;

/** What it came to, in one line. */
char *carpace_text_season_all (const CarpaceSeasonAllTold *all);

/** "“Two halves”, 84 days". @param name as it is shown */
char *carpace_text_season_title (const char *name, int32_t days);

/** A day. */
typedef struct
{
  CarpaceDay day;
  int64_t done_ms, planned_ms;
  int32_t highest;
  const CarpaceDecision *decision; /**< about its dose; NULL where there is none */
} CarpaceSeasonDayTold;

/** The day and its decision, in a few sentences. */
char *carpace_text_season_day (const CarpaceSeasonDayTold *day);

#endif
