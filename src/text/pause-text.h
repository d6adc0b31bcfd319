/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * pause-text.h: the pauses of a stream, in words that say nothing of the hand.
 *
 * A planned one is an intermission; any other is a short pause. Each has a length,
 * and is counted where it runs. That a part of practice is over is no pause to count:
 * whether and when the next begins depends on answers that a stream must not see.
 */
#ifndef CARPACE_TEXT_PAUSE_TEXT_H
#define CARPACE_TEXT_PAUSE_TEXT_H

#include "carpace/view.h"

/** Whether a viewer could have known of it. */
typedef enum
{
  CARPACE_PAUSE_NONE,
  CARPACE_PAUSE_SHORT,        /**< unplanned */
  CARPACE_PAUSE_INTERMISSION, /**< planned */
  CARPACE_N_PAUSES
} CarpacePauseKind;

/** One pause. */
typedef struct
{
  CarpacePauseKind kind;
  bool running;      /**< it has begun */
  bool waits;        /**< its counting stands still */
  int64_t length_ms; /**< all of it */
  int64_t to_go_ms;  /**< to its end, or before it to its beginning */
} CarpacePause;

/** The pause that runs, an intermission before a short one; else CARPACE_PAUSE_NONE. */
CarpacePause carpace_pause_running (const CarpaceView *view);

/** The short pause that is offered, where no intermission runs; else CARPACE_PAUSE_NONE. */
CarpacePause carpace_pause_offered (const CarpaceView *view);

/** The next intermission, where none runs; else CARPACE_PAUSE_NONE. */
CarpacePause carpace_pause_ahead (const CarpaceView *view);

/** "Short pause", "Intermission", "". */
const char *carpace_text_pause (CarpacePauseKind kind);

/** With its length: "Short pause, 30 s". */
char *carpace_text_pause_length (const CarpacePause *pause);

/** Counted: "Short pause, 0:23 to go". */
char *carpace_text_pause_counted (const CarpacePause *pause);

/** A time as it is counted down, up to whole seconds: "0:23", "1:04:00". */
char *carpace_text_count (int64_t ms);

#endif
