/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * on-air.h: when a broadcast has its intermissions. That rests and limits come
 * with them is the core's: it is told of each by CARPACE_EVENT_INTERMISSION.
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

#endif
