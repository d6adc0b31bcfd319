/* SPDX-License-Identifier: GPL-3.0-or-later */
/** today-text.h: what the window of today says, from top to bottom. */
#ifndef CARPACE_TEXT_TODAY_TEXT_H
#define CARPACE_TEXT_TODAY_TEXT_H

#include "carpace/view.h"

/** The caller's: carpace_today_words_clear(). None is NULL, "" where nothing is said. */
typedef struct
{
  char *headline; /**< what now */
  char *what;     /**< what it is */
  char *done;     /**< done of planned */
  char *next;     /**< next, and when; what is still open where the day is done */
  char *decision; /**< the latest of today, in a sentence */
} CarpaceTodayWords;

/** On air nothing of hand, rating, load or health. */
void carpace_text_today (const CarpaceView *view, CarpaceInstant now, CarpaceTodayWords *ret_words);
void carpace_today_words_clear (CarpaceTodayWords *words);

#endif
