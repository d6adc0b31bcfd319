/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * activity.h: what an idle counter tells, shared by the adapters that read one.
 *
 * A desktop tells when a gap begins and when it ends. Where the session takes
 * the hand as moving or as still of its own accord (`start`, `rest`, ...), the
 * counter is looked at once, and this says what to make of it; that is pure. When to look
 * is one timer, the same for all.
 */
#ifndef CARPACE_ACTIVITY_H
#define CARPACE_ACTIVITY_H

#include <stdbool.h>
#include <stdint.h>

#include <glib.h>

#include "carpace/session.h"

/** Input within this of an answer is the hand's way to it, ms. */
#define CARPACE_REACH_MS 2000

/** What the counter is looked at for. */
typedef enum
{
  CARPACE_LOOK_NOT,
  CARPACE_LOOK_AT_FIRST, /**< has the gap begun before anybody watched? */
  CARPACE_LOOK_MOVING,   /**< the session takes input as on since from_ms */
  CARPACE_LOOK_STILL     /**< it takes the hand as still since from_ms */
} CarpaceLook;

/** One look at the counter. */
typedef struct
{
  CarpaceLook look;
  int64_t from_ms;      /**< elapsed time the session's assumption holds from */
  int64_t gap_after_ms;
  int64_t now_ms;       /**< elapsed time */
  int64_t idle_ms;      /**< the counter: ms since the last input, not counting suspend */
  int64_t slept_ms;     /**< how long the machine was suspended since the counter was last looked at */
} CarpaceLookedAt;

/** What to make of it. */
typedef enum
{
  CARPACE_LOOKED_FINE,       /**< nothing to tell */
  CARPACE_LOOKED_TELL_STILL, /**< since *ret_since_ms */
  CARPACE_LOOKED_TELL_INPUT, /**< since *ret_since_ms */
  CARPACE_LOOKED_AGAIN,      /**< the hand moves at this moment: look again in 0.1 s */
  CARPACE_LOOKED_CATCH       /**< still, but for less than a gap: have the very next input told */
} CarpaceLooked;

/** Judges one look. *ret_since_ms is set where something is to be told. */
CarpaceLooked carpace_activity_judge (const CarpaceLookedAt *at, int64_t *ret_since_ms);

/** In how many ms of @now_ms to look, 0 where at once. */
int64_t carpace_activity_look_in_ms (CarpaceLook look, int64_t from_ms, int64_t gap_after_ms, int64_t now_ms);

/** Whether the session is in a block, where what costs something is worth it. It is
 * followed outside of them, too. */
bool carpace_activity_in_block (CarpaceState now);

/** Stops *@timer where it runs; it is NULL then. */
void carpace_activity_timer_stop (GSource **timer);

/** Has @due called once in @in_ms (0 to an hour; beyond that, the nearer of them), in
 * @context's next turn at the earliest. Stops *@timer first. @due lets go of *@timer
 * and returns G_SOURCE_REMOVE. */
void carpace_activity_timer_start (GSource **timer, GMainContext *context, int64_t in_ms, GSourceFunc due, void *user);

/** ms until the next look, where CARPACE_LOOKED_AGAIN. */
#define CARPACE_LOOK_AGAIN_MS 100

#endif
