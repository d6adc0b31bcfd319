/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * level-text.h: the level in words: what it is, how it came about, what would
 * change it.
 */
#ifndef CARPACE_LEVEL_TEXT_H
#define CARPACE_LEVEL_TEXT_H

#include "carpace/dose.h"

/** How the dose comes back to the level, as a piece of a sentence; NULL where it
 * is there, or @decision tells of no level. */
char *carpace_text_way_to_level (const CarpaceDecision *decision);

/** That nothing was answered on @days practice days, and what it leads to. */
char *carpace_text_silence (int32_t days);

/** That the plan's usual discomfort seems too low; NULL where it does not. */
char *carpace_text_usual_too_low (const CarpaceDecision *decision);

/** What practice time is led to, a sentence; NULL where @decision tells of no level. */
char *carpace_text_level (const CarpaceDecision *decision);

/** A sentence a line, g_strfreev() them: of @decision, the latest of a day.
 * The level was last changed on @changed (CARPACE_NO_DAY: never) by @change, which is
 * NULL where a plan or a closed caution did it. */
char **carpace_text_level_lines (const CarpaceDecision *decision, const CarpaceDecision *change, CarpaceDay changed);

#endif
