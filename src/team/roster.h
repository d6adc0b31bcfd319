/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * roster.h: the rows of a roster, worked out from what was gathered.
 */
#ifndef CARPACE_TEAM_ROSTER_H
#define CARPACE_TEAM_ROSTER_H

#include <glib.h>

#include "carpace/roster.h"

/** A plan that the reader gave to @player (none: to anybody), the last of them. */
typedef struct
{
  CarpaceKey player, plan;
  int64_t made_s;
} CarpaceRosterGiven;

/** When it is, and what was given. */
typedef struct
{
  int64_t now_s;
  CarpaceDay today;
  const CarpaceRosterGiven *given;
  size_t n_given;
} CarpaceRosterAsk;

/** Works out all rows: those who need a look first, the more pressing reason first, then by name.
 * @return GArray of CarpaceRosterRow, g_array_unref() it; NULL where the store cannot be read */
GArray *carpace_roster_rows (const CarpaceRosterStore *store, const CarpaceRosterAsk *ask);

/** What was gathered of one player as a diary: days, records, read only. It ends with @store; free() lets go of it. */
CarpaceDiary carpace_roster_diary (const CarpaceRosterStore *store, const CarpaceKey *player);

#endif
