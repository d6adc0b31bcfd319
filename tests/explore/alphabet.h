/* SPDX-License-Identifier: GPL-3.0-or-later */
/* alphabet.h: what can be said to an evening, and when. */
#ifndef CARPACE_EXPLORE_ALPHABET_H
#define CARPACE_EXPLORE_ALPHABET_H

#include "evening.h"
#include "script.h"

/* What a plan's run is about: the fewer letters, the deeper. */
enum
{
  ABOUT_HAND = 1 << 0,    /* input, stillness, rests */
  ABOUT_RATING = 1 << 1,
  ABOUT_MORNING = 1 << 2,
  ABOUT_CAUTION = 1 << 3,
  ABOUT_AIR = 1 << 4,
  ABOUT_MATCH = 1 << 5,
  ABOUT_SUSPEND = 1 << 6,
  ABOUT_TURN = 1 << 7,
  ABOUT_FRONT = 1 << 8
};

int alphabet_n (void);

/* Applies @action to @e, and writes it to @script where that is not NULL.
 * @return false where it has no meaning there */
bool alphabet_apply (Evening *e, int action, unsigned about, Script *script);

#endif
