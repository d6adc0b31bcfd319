/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * share.h: what a player leaves in the folder that is shared.
 *
 *   PLAYER.card                          who it is of
 *   PLAYER-READER.grant                  what each reader may read
 *   PLAYER-DEVICE-KIND-NUMBER.bundle     the last few of each kind
 *   PLAYER.erasure                       what was asked to be erased
 *
 * PLAYER, READER and DEVICE are the first digits of keys. A bundle is kept by the player until it is in the folder:
 * one that is full, read-only or not there costs a try, never a bundle.
 */
#ifndef CARPACE_TEAM_SHARE_H
#define CARPACE_TEAM_SHARE_H

#include "team/content.h"
#include "team/shelf.h"

/** Bundles of a kind that stay in the folder. */
#define CARPACE_SHARE_KEPT 7

#define CARPACE_CARD_END ".card"
#define CARPACE_GRANT_END ".grant"
#define CARPACE_BUNDLE_END ".bundle"
#define CARPACE_ERASURE_END ".erasure"

typedef struct
{
  const CarpaceFolder *shelf, *shared;
  const CarpaceDiary *diary;
  CarpaceTeamPlan plan;
  int64_t now_s;
  CarpaceDay today;
} CarpaceSharing;

/** What came of it. */
typedef struct
{
  int32_t readers[CARPACE_N_BUNDLES]; /**< who can read the bundle of that kind; 0: none was made */
  int32_t waiting;                    /**< grants that a guardian has not signed */
  int32_t later;                      /**< grants that begin on a later day */
  int64_t ahead_s;                    /**< when the last bundle before was made, where that is yet to come; 0 */
  char what[128];                     /**< the file that a fault is about; "" where it is the folder */
} CarpaceShared;

/** Leaves grants and today's bundles. What could not be left before goes first.
 * @return FINE, or what is wrong; FAILED with errno. What was made is kept and goes with the next */
CarpaceTeamFault carpace_share_now (const CarpaceSharing *sharing, CarpaceShared *ret_shared);

/** Keeps that all was left on @day; whether it is to be left today: once a day, where a folder is shared. */
bool carpace_share_note_day (const CarpaceFolder *shelf, CarpaceDay day);
bool carpace_share_due (const CarpaceFolder *shelf, CarpaceDay today);

/** Leaves grants alone: one that was withdrawn bites without a bundle. */
CarpaceTeamFault carpace_share_grants (const CarpaceSharing *sharing, CarpaceShared *ret_shared);

/** Asks that what was read until now be erased, also where the clock was set back since bundles were made, and takes this player's bundles out of the folder. */
CarpaceTeamFault carpace_share_erasure (const CarpaceSharing *sharing, const CarpacePerson *player, CarpaceShared *ret_shared);

/** Reads what carpace_share_erasure() leaves. */
CarpaceTeamFault carpace_erasure_read (const uint8_t *from, size_t n, CarpaceErasure *ret_erasure);

#endif
