/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * cues.h: all that the core can tell of a cue, and how each is shown.
 *
 * The pairs of cue and what that there are, beside each cue's being withdrawn.
 * Whatever shows cues or speaks of them has one row for each.
 */
#ifndef CARPACE_CUES_H
#define CARPACE_CUES_H

#include "carpace/session.h"

/** What can be told of cues. */
typedef enum
{
  CARPACE_TOLD_MICRO_REST,
  CARPACE_TOLD_LIMIT,
  CARPACE_TOLD_RATING,
  CARPACE_TOLD_NEXT_BLOCK,
  CARPACE_TOLD_MORNING,
  CARPACE_TOLD_DAY_DONE,
  CARPACE_TOLD_CAUTION,
  CARPACE_TOLD_EARLY_START, /**< next-block, asked: before its time */
  CARPACE_TOLD_BEYOND_PLAN, /**< day-done, asked: a start with the day done */
  CARPACE_TOLD_UNSTARTED,   /**< input goes on, and a block could begin */
  CARPACE_TOLD_IN_FRONT,    /**< unstarted, asked: the practice window is in front, and a block could begin */
  CARPACE_TOLD_BEGUN,       /**< a block has begun by itself, with the practice window */
  CARPACE_N_TOLD
} CarpaceTold;

/** Where a cue is shown. */
typedef enum
{
  CARPACE_SHOWN_BY_NOTICE,
  CARPACE_SHOWN_BY_NOTICE_FIRST, /**< on its card where no notices work */
  CARPACE_SHOWN_BY_CARD,
  CARPACE_SHOWN_BY_CARD_AT_REST, /**< on its card; a notice while the hand still moves */
  CARPACE_N_SHOWN_BY
} CarpaceShownBy;

/** What a click on its notice opens. */
typedef enum { CARPACE_OPENS_CARD, CARPACE_OPENS_WHY, CARPACE_OPENS_WINDOW, CARPACE_N_OPENS } CarpaceOpens;

/** What a stream may read of it. */
typedef enum
{
  CARPACE_ON_AIR_SILENT,
  CARPACE_ON_AIR_SHORT_PAUSE,
  CARPACE_ON_AIR_PART_ENDS, /**< with the run that goes on: a block's limit */
  CARPACE_ON_AIR_PART_OVER, /**< a block's end, whatever is asked about it */
  CARPACE_ON_AIR_PAUSE_OVER,
  CARPACE_ON_AIR_GO_ON,
  CARPACE_N_ON_AIR_SAYS
} CarpaceOnAirSays;

/** One of them. */
typedef struct
{
  CarpaceCue cue;
  CarpaceCueWhat what;
  CarpaceShownBy by;
  CarpaceOpens opens;
  CarpaceOnAirSays on_air;
  bool quiet;        /**< always: others only in the middle of a run */
} CarpaceToldRow;

extern const CarpaceToldRow carpace_told_rows[CARPACE_N_TOLD];

/** The row of that pair; CARPACE_N_TOLD where there is none, as for what is withdrawn. */
CarpaceTold carpace_told (CarpaceCue cue, CarpaceCueWhat what);

#endif
