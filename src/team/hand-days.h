/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * hand-days.h: what a hand said, day by day, as far as a row of a roster asks: of dates, not of today, so that the same
 * serves on the next day, and short enough to be kept beside what was gathered.
 */
#ifndef CARPACE_TEAM_HAND_DAYS_H
#define CARPACE_TEAM_HAND_DAYS_H

#include "carpace/roster.h"

/** Dates that a row looks back, and after today: a player may live where it is tomorrow. */
#define CARPACE_HAND_BACK 84
#define CARPACE_HAND_AHEAD 1
/** Dates that are worked out: as long again as a row looks back. */
#define CARPACE_HAND_DATES (2 * CARPACE_HAND_BACK)

/** One date. */
typedef struct
{
  uint8_t said;   /**< bits of hand-days.c */
  int8_t highest; /**< rating, -1: none */
} CarpaceHandDay;

typedef struct
{
  CarpaceDay since; /**< the first of them */
  CarpaceHandDay day[CARPACE_HAND_DATES];
} CarpaceHandDays;

/** What was worked out and kept last, where it still holds and reaches from @today's first date to its last; else
 * @return false */
bool carpace_hand_days_kept (const CarpaceRosterStore *store, const CarpaceKey *player, CarpaceDay today, CarpaceHandDays *ret_days);

/** Works it out, from what was gathered. @return false where the store cannot be read */
bool carpace_hand_days_read (const CarpaceRosterStore *store, const CarpaceKey *player, CarpaceDay today, CarpaceHandDays *ret_days);

/** Keeps it, where the store does. @return false where it could not */
bool carpace_hand_days_keep (const CarpaceRosterStore *store, const CarpaceKey *player, const CarpaceHandDays *days);

/** What a row of @today says of the hand. */
void carpace_hand_days_look (const CarpaceHandDays *days, CarpaceDay today, CarpaceRosterRow *row);

#endif
