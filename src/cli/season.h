/* SPDX-License-Identifier: GPL-3.0-or-later */
/** season.h: days of a rehearsal, a line each, for a coach to read, and what they come to. */
#ifndef CARPACE_CLI_SEASON_H
#define CARPACE_CLI_SEASON_H

#include <glib.h>
#include <stdio.h>

#include "app/season-sum.h"

/** The day that is being summed up. Zeroed at the start. */
typedef struct
{
  FILE *out;
  bool open;
  CarpaceDay day;
  int64_t dose_ms, active_ms;
  int32_t blocks, rests;
  GString *ratings;
  GString *notes; /**< what was decided, and what else is worth a line */
} CarpaceSeason;

/** Takes one entry; prints the day before where a new one opens. */
void carpace_season_take (CarpaceSeason *season, const CarpaceEntry *entry);

/** Prints the last day and frees what is held. */
void carpace_season_end (CarpaceSeason *season);

/** A season that was rehearsed. */
typedef struct
{
  const CarpacePlan *plan;
  CarpacePlayerKind kind;
  const CarpacePlayerTraits *traits;
  uint64_t seed;
  const CarpaceSeasonDays *days;
} CarpaceSeasonTold;

/** Prints its weeks, and what it came to, as text or as JSON. */
void carpace_season_print (FILE *out, const CarpaceSeasonTold *season, bool json);

#endif
