/* SPDX-License-Identifier: GPL-3.0-or-later */
/** split-text.h: a split in words, before and after. All results are the caller's to g_free(). */
#ifndef CARPACE_TEXT_SPLIT_TEXT_H
#define CARPACE_TEXT_SPLIT_TEXT_H

#include "carpace/split.h"

/** "Whole", "Halves", "Quarters", "3 blocks". */
char *carpace_text_split_into (int32_t into);

/** "Quarters: 15 min, 15 min ...; strain index of the hardest block 3.21, of the day 6.02; lowest residual capacity about 20 %". */
char *carpace_text_split_side (const char *name, const CarpacePlan *plan, const CarpaceDayLoad *load);

/** How far it is proven. */
char *carpace_text_split_proof (const CarpaceSplitFound *found);

/** Why there is none. */
char *carpace_text_split_refused (int32_t into);

#endif
