/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * gather.h: taking in what players left in a folder.
 *
 * In this order: grants, erasures, bundles. Each is verified before anything of it is believed: who signed, that the
 * reader accepted that key, that the grant lets this reader read it today, that it follows on the one before. What a
 * grant does not cover is not opened. What is refused is told and left where it is; it harms nothing else.
 */
#ifndef CARPACE_TEAM_GATHER_H
#define CARPACE_TEAM_GATHER_H

#include "carpace/roster.h"
#include "team/share.h"

typedef struct
{
  const CarpaceFolder *shelf, *shared; /**< shelf: the reader's own */
  const CarpacePerson *reader;
  const CarpaceRosterStore *store;
  int64_t now_s;
  CarpaceDay today;
} CarpaceGathering;

/** What came of it. */
typedef struct
{
  int32_t taken;    /**< bundles */
  int32_t known;    /**< taken before */
  int32_t passed;   /**< of others, or what the grant does not cover: not opened */
  int32_t refused;  /**< each was told */
} CarpaceGathered;

/** @param file its name in the folder, @param player whom it says it is of, "" where that is not known */
typedef void (*CarpaceRefusedVisitor) (void *user, const char *file, const char *player, CarpaceTeamFault fault);

/** @return FINE, or FAILED where the folder cannot be read or the store not be written (errno): what was taken by then is
 * kept */
CarpaceTeamFault carpace_gather (const CarpaceGathering *gathering, CarpaceRefusedVisitor refused, void *user,
                                 CarpaceGathered *ret_gathered);

#endif
