/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * why-private.h: what the sentences of a decision share.
 */
#ifndef CARPACE_TEXT_WHY_PRIVATE_H
#define CARPACE_TEXT_WHY_PRIVATE_H

#include "carpace/dose.h"

/* The pieces a sentence is made of. */
typedef struct
{
  char *before, *after, *kept, *done, *share, *block;
  char *level, *level_before, *from, *step, *most, *most_of;
} CarpaceWhyPieces;

/* Of a block's decision, with the numbers it was made from. g_free() it. */
char *carpace_why_block (const CarpaceDecision *d, const CarpaceWhyPieces *p);

/* Of a day's. g_free() it. */
char *carpace_why_day (const CarpaceDecision *d, const CarpaceWhyPieces *p);

/* Why the last practice day is not among those counted, to follow a sentence; NULL where nothing is to be said. */
const char *carpace_why_uncounted (const CarpaceDecision *d);

#endif
