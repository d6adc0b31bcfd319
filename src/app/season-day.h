/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * season-day.h: one day of a rehearsed season, opened.
 *
 * A season keeps its days' numbers, not what stood within them: the same plan, traits
 * and seed make the same days, so the day that is asked for is rehearsed once more.
 */
#ifndef CARPACE_SEASON_DAY_H
#define CARPACE_SEASON_DAY_H

#include "app/players.h"
#include "carpace/day-rail.h"

/** Rehearses up to day @day, counted from 0, and lays that day along its rail: all of it done, its bead at the end.
 * @return false where memory was short; a day without practice has nothing on its rail */
bool carpace_season_day_rail (const CarpacePlan *plan, const CarpacePlayerTraits *traits, uint64_t seed, int32_t day,
                              CarpaceDayRail *ret_rail);

#endif
