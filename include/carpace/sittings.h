/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * sittings.h: the blocks and matches of today, as the clock saw them.
 *
 * Gathered from what the session tells, by whoever hears all of it; after a
 * restart the day's replay tells it again.
 */
#ifndef CARPACE_SITTINGS_H
#define CARPACE_SITTINGS_H

#include "carpace/session.h"

/** Sittings of a day that are remembered; of more, the first ones go. */
#define CARPACE_SITTINGS 48

/** One block or match that has begun. */
typedef struct
{
  int32_t number;       /**< from 1; 0 for a match */
  bool match;
  bool over;
  CarpaceInstant began;
  CarpaceInstant ended; /**< where over */
  int64_t active_ms;    /**< where over: with what went past its limit */
  int32_t rests;        /**< taken in it */
} CarpaceSitting;

/** A day's, in the order they began. */
typedef struct
{
  int32_t n;
  CarpaceSitting sitting[CARPACE_SITTINGS];
} CarpaceSittings;

/** Takes note of @entry. A new day begins with none; a block that was dropped was
 * none; what is said of one that is not remembered changes nothing. */
void carpace_sittings_note (CarpaceSittings *sittings, const CarpaceEntry *entry);

#endif
