/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-words.h: a plan in words, for whoever does not read its file: what its keys are
 * called, what it says, and in what another one differs. All translated; a `char *` is
 * the caller's to g_free().
 */
#ifndef CARPACE_TEXT_PLAN_WORDS_H
#define CARPACE_TEXT_PLAN_WORDS_H

#include "carpace/plan.h"

/** What @key is called: "most practice time a day". */
const char *carpace_text_plan_key (CarpacePlanKey key);

/** The same of a drill's @key: "intensity". */
const char *carpace_text_drill_key (CarpaceDrillKey key);

/** Where a drill's efforts come from: "clicks measured". */
const char *carpace_text_efforts_from (CarpaceEffortsFrom from);

/** "Wednesday". */
const char *carpace_text_weekday (CarpaceWeekday weekday);

/** What @plan has at @key: "1 h 30 min", "Wednesday, Sunday", "none". Names and notes are as they
 * were written. */
char *carpace_text_plan_value (const CarpacePlan *plan, CarpacePlanKey key);

/** What @drill has at @key: "12 %", "25° extension". */
char *carpace_text_drill_value (const CarpaceDrill *drill, CarpaceDrillKey key);

/** The limits of its blocks, the first @most of them: "30 min, 20 min, 10 min". */
char *carpace_text_plan_limits (const CarpacePlan *plan, int32_t most);

/** The drills of block @block with their shares: "Corner to corner 70 %, Lantern 30 %". */
char *carpace_text_block_drills (const CarpacePlan *plan, int32_t block);

/** "1 h in two halves, 45 min between them; at most 1 h 30 min": the day in one line. */
char *carpace_text_plan_day (const CarpacePlan *plan);

/** "Rests of 30 s every 10 min, or after 8 runs": the rests in one line. */
char *carpace_text_plan_rests (const CarpacePlan *plan);

/** What it fixes, as "most practice time a day: 1 h 30 min; ..."; NULL where that is nothing. */
char *carpace_text_plan_fixed (const CarpacePlan *plan);

/** All of it, a sentence a line. */
char *carpace_text_plan_words (const CarpacePlan *plan);

/** Its name and version, all of it, and in what it differs from @in_use (NULL: from nothing): for whoever is asked
 * whether to use it. */
char *carpace_text_plan_told (const CarpacePlan *plan, const CarpacePlan *in_use);

/** What is another in @after than in @before, a line a thing; where that is nothing, carpace_text_plan_no_changes(). */
char *carpace_text_plan_changes (const CarpacePlan *before, const CarpacePlan *after);
const char *carpace_text_plan_no_changes (void);

#endif
