/* SPDX-License-Identifier: GPL-3.0-or-later */
/** day-rail-text.h: a practice day along its rail, in words. */
#ifndef CARPACE_TEXT_DAY_RAIL_TEXT_H
#define CARPACE_TEXT_DAY_RAIL_TEXT_H

#include "carpace/day-rail.h"

/** All that a drawing of @day shows, for those who do not see it: a sentence a part, in
 * their order. The caller's to g_free(). */
char *carpace_text_day_rail (const CarpaceDayRail *day);

#endif
