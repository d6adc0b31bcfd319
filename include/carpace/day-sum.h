/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * day-sum.h: a practice day's records, folded into one sum, as every diary has it.
 */
#ifndef CARPACE_DAY_SUM_H
#define CARPACE_DAY_SUM_H

#include "carpace/diary.h"

/** Ratings of one day that can still be corrected or come late. */
#define CARPACE_SUM_RATINGS 128

/** A sum under way. */
typedef struct
{
  CarpaceDaySum sum;
  bool offer_on;          /**< an offer that is neither taken nor declined yet */
  int n_given;
  int last_given;         /**< which of them the last rating was about; -1 where it is not counted */
  struct { int32_t block, discomfort; int64_t at_ms; } given[CARPACE_SUM_RATINGS];
} CarpaceSumming;

/** A day without records. */
void carpace_summing_init (CarpaceSumming *summing, CarpaceDay day);

/** The next entry of the day, in the order they were recorded. */
void carpace_summing_add (CarpaceSumming *summing, const CarpaceEntry *entry);

/** The sum so far; other_ms and note are not its business. */
CarpaceDaySum carpace_summing_end (const CarpaceSumming *summing);

/** Kinds of entries that make a difference to a sum. */
#define CARPACE_SUMMED_KINDS \
  (CARPACE_KIND (CARPACE_ENTRY_DAY) | CARPACE_KIND (CARPACE_ENTRY_BLOCK) | CARPACE_KIND (CARPACE_ENTRY_OVERRUN) \
   | CARPACE_KIND (CARPACE_ENTRY_CUE) | CARPACE_KIND (CARPACE_ENTRY_REST) | CARPACE_KIND (CARPACE_ENTRY_RATING) \
   | CARPACE_KIND (CARPACE_ENTRY_MORNING) | CARPACE_KIND (CARPACE_ENTRY_DECISION) \
   | CARPACE_KIND (CARPACE_ENTRY_CAUTION))

#endif
