/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-rail-text.h: the words on a plan's rail, and the rail in words. All results are the caller's to g_free(). */
#ifndef CARPACE_TEXT_PLAN_RAIL_TEXT_H
#define CARPACE_TEXT_PLAN_RAIL_TEXT_H

#include "carpace/plan-rail.h"

/** "Block 2, 30 min". */
char *carpace_text_rail_block (const CarpacePlan *plan, int32_t block);

/** "wait 45 min". */
char *carpace_text_rail_wait (int64_t wait_ms);

/** "about 8 %", a share 0..1 of a model. */
char *carpace_text_about_percent (double share);

/** "Residual capacity of the shoulder muscles, outward: estimate". */
char *carpace_text_reserve_title (CarpaceGroup group);

/** A block for whoever does not see it: its limit, its times, its drills with their shares. */
char *carpace_text_rail_spoken (const CarpacePlan *plan, const CarpacePlanRail *rail, CarpaceInstant begins, int32_t block);

/** "On air, marked above the rail: intermissions of 2 min at 18:30, 19:00"; NULL where there is none.
 * @param begins when the first block does */
char *carpace_text_rail_air (const CarpaceAirBreaks *air, CarpaceInstant begins);

/** Which keys change it. */
const char *carpace_text_rail_keys (void);

#endif
