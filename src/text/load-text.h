/* SPDX-License-Identifier: GPL-3.0-or-later */
/** load-text.h: what a plan asks of the hand, in words. All results are the caller's to g_free(). */
#ifndef CARPACE_TEXT_LOAD_TEXT_H
#define CARPACE_TEXT_LOAD_TEXT_H

#include "carpace/load.h"

/** "What decides: block 2, in it “Corner to corner”, most of all by its efforts a minute." */
char *carpace_text_decides (const CarpacePlan *plan, const CarpaceDecides *decides);

/** A change that would ease a plan, within a sentence: "rests twice as long, 1 min". */
char *carpace_text_ease (const CarpacePlan *plan, const CarpaceEase *ease);

/** The same as what a press does: "Rest 1 min, not 30 s". */
char *carpace_text_ease_press (const CarpacePlan *plan, const CarpaceEase *ease);

/** What it comes to, in a sentence, where a plan's day has the index @day_index and the lowest residual capacity
 * @lowest (a share). */
char *carpace_text_ease_effect (const CarpaceEase *ease, double day_index, double lowest);

/** The models are for comparing plans. */
const char *carpace_text_load_estimates (void);

#endif
