/* SPDX-License-Identifier: GPL-3.0-or-later */
/** first-text.h: the words of the first window. All translated; a `char *` is the caller's to g_free(). */
#ifndef CARPACE_TEXT_FIRST_TEXT_H
#define CARPACE_TEXT_FIRST_TEXT_H

#include "carpace/first-plan.h"
#include "text/notice.h"

/** What is asked once, to stand on a button: "Blood thinners". */
const char *carpace_text_once (CarpaceOnce once);

/** What is left out of rests for @once; "" where nothing is. */
const char *carpace_text_once_follows (uint32_t once);

/** "Palm", "Claw", "Fingertips". */
const char *carpace_text_grip (CarpaceGrip grip);

/** Why this plan, in one sentence; or why no practice begins, or what is still to be answered. */
char *carpace_text_first (const CarpaceFirstAnswers *answers, const CarpaceFirstProposal *proposal);

/** "A first week: 30 min a day, no block longer than 15 min". */
char *carpace_text_first_plan (const CarpacePlan *copy);

/** Makes the notice of the first block that the first window began: that window is gone, and with it all that says
 * where Carpace is now. It takes the place of one about practice without a block. */
void carpace_text_first_begun (const CarpaceView *view, CarpaceNotice *ret_notice);

#endif
