/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * on-air.h: when a broadcast has its intermissions, and how they become one
 * with the rests and limits of a session.
 *
 * A value and functions of moments: nothing here asks for the time. Intermissions
 * begin at whole multiples of `every`, counted from local midnight
 * (CARPACE_ON_AIR_FROM_CLOCK) or from the moment the stream went on air
 * (CARPACE_ON_AIR_FROM_STREAM). An intermission is at least `length` long.
 *
 * Local midnight begins the count anew, so where `every` does not divide a day
 * the last stretch before midnight is a shorter one. A zone change or daylight
 * saving moves the slots with the local clock: whoever calls says which offset
 * holds.
 */
#ifndef CARPACE_ON_AIR_H
#define CARPACE_ON_AIR_H

#include "carpace/plan.h"

/** Where the next intermission is. */
typedef enum
{
  CARPACE_INTERMISSION_NONE,   /**< off air, or the plan has none */
  CARPACE_INTERMISSION_AHEAD,  /**< further away than the notice */
  CARPACE_INTERMISSION_NOTICE, /**< the notice is on: a match can be wrapped up */
  CARPACE_INTERMISSION_NOW,    /**< it has begun and is not over */
  CARPACE_N_INTERMISSIONS
} CarpaceIntermissionPhase;

/** One intermission: the one that runs, or the next one. */
typedef struct
{
  CarpaceIntermissionPhase phase;
  int64_t notice_ms; /**< elapsed ms at which its notice begins */
  int64_t begins_ms; /**< elapsed ms at which it begins, CARPACE_NEVER with NONE */
  int64_t ends_ms;   /**< elapsed ms at which it is over, CARPACE_NEVER with NONE */
  int64_t to_go_ms;  /**< to its beginning, or while it runs to its end; 0 with NONE */
} CarpaceIntermission;

/** On air or off. */
typedef struct
{
  bool on;
  CarpaceOnAirFrom from;
  int64_t every_ms;     /**< 0: no intermissions */
  int64_t notice_ms;    /**< 0 or more */
  int64_t length_ms;    /**< at most half of every_ms */
  CarpaceInstant since; /**< when the stream went on air */
  int64_t rested_to_ms; /**< elapsed end of the last pause that was as long as an intermission, INT64_MIN where none */
} CarpaceOnAir;

/** Off air. */
void carpace_on_air_init (CarpaceOnAir *air);

/** On air from @now, with the plan's intermissions (@plan may be NULL: none).
 * Where it was on already, the stream's beginning stays. */
void carpace_on_air_begin (CarpaceOnAir *air, const CarpacePlan *plan, CarpaceInstant now);

/** Off air. */
void carpace_on_air_end (CarpaceOnAir *air);

/** The player has paused from elapsed @from_ms to @to_ms, for whatever reason.
 * A pause as long as an intermission that ends within the notice before one, or
 * reaches into it, stands for it: that one is passed over. A shorter one is
 * forgotten. */
void carpace_on_air_rested (CarpaceOnAir *air, int64_t from_ms, int64_t to_ms);

/** The intermission that runs at @now, or the next. None begins sooner than
 * the notice after going on air. */
CarpaceIntermission carpace_on_air_at (const CarpaceOnAir *air, CarpaceInstant now);

/** Elapsed ms after @now at which the phase next changes: a notice, a
 * beginning, an end. CARPACE_NEVER where nothing is ahead. */
int64_t carpace_on_air_next_change_ms (const CarpaceOnAir *air, CarpaceInstant now);

/** What a session has coming while it is on air, in elapsed ms. */
typedef struct
{
  int64_t rest_due_ms;     /**< a micro-rest falls due, CARPACE_NEVER where none */
  int64_t rest_length_ms;  /**< its length, as tightened */
  int64_t after_ms;        /**< active time between micro-rests, as tightened */
  int64_t wait_for_gap_ms; /**< how long a due rest may wait for a gap */
  int64_t limit_ms;        /**< the block's limit is reached, CARPACE_NEVER where none */
  int64_t finish_run_ms;   /**< how long a run may be finished after it */
  int64_t shortest_ms;     /**< less than this is no block */
} CarpaceOnAirSession;

/** The one pause that comes of it. */
typedef struct
{
  int64_t begins_ms;    /**< elapsed, CARPACE_NEVER where nothing comes */
  int64_t length_ms;    /**< the longer of what it stands for; 0 where it is the limit alone */
  bool intermission;    /**< it is the intermission */
  bool rest;            /**< it is the micro-rest */
  bool limit;           /**< the block ends with it */
} CarpaceOnAirPause;

/** What comes next on air: the intermission, the micro-rest, the limit, or one
 * pause for several of them.
 *
 * - A micro-rest that falls due before an intermission is held for it no longer
 *   than it may wait for a gap (or the notice, if that is less): the tolerance
 *   the session has anyway. One that would fall due after it, with less than a third of
 *   `after` to go, is taken with it.
 * - A limit reached before an intermission is held for it no longer than a run
 *   may be finished. One that would be reached within `shortest` after it comes
 *   with it: what would remain is no block.
 * - The pause is as long as the longest that it stands for, and nothing is ever
 *   later than the session itself would have it by more than its own tolerance:
 *   the stricter wins. */
CarpaceOnAirPause carpace_on_air_fold (const CarpaceOnAir *air, CarpaceInstant now,
                                       const CarpaceOnAirSession *session);

#endif
