/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * overlay-text.h: the line that a broadcast shows, from the streamer's own pattern.
 *
 * A pattern is text with named fields in braces:
 *   {to-go}  to the next intermission, or to the end of the pause that runs: "12 min", "1:59" from the notice on
 *   {at}     the local time at which it begins, "18:30"
 *   {until}  the local time at which it ends
 *   {words}  a neutral sentence: "Intermission in 2 minutes", "Short pause, 0:23 to go"
 * `{{` and `}}` stand for braces themselves. The words never say anything about
 * hand, rating, load or health; what the streamer writes around them is theirs.
 */
#ifndef CARPACE_TEXT_OVERLAY_TEXT_H
#define CARPACE_TEXT_OVERLAY_TEXT_H

#include "text/pause-text.h"

/** Characters a pattern may have. */
#define CARPACE_OVERLAY_CHARACTERS 400

/** The moment a line is about: the pause that runs, else the next intermission. */
typedef struct
{
  CarpacePause pause;    /**< CARPACE_PAUSE_NONE: nothing runs or is ahead; the line is empty */
  bool counting;         /**< from the notice on: seconds are told */
  CarpaceInstant begins, ends; /**< on the wall clock */
} CarpaceOverlayMoment;

/** What a line is about at @now; off air nothing. */
CarpaceOverlayMoment carpace_text_overlay_moment (const CarpaceView *view, CarpaceInstant now);

/** What is wrong with @pattern, in one translated sentence, g_free() it; NULL
 * where nothing is. */
char *carpace_text_overlay_fault (const char *pattern);

/** The line for @moment, without a line's end; g_free() it. A pattern with a
 * fault gives its own text. */
char *carpace_text_overlay (const char *pattern, const CarpaceOverlayMoment *moment);

/** How long the line stays as it is, ms, while nothing but time goes by;
 * CARPACE_NEVER where it does not move. */
int64_t carpace_text_overlay_stays_ms (const char *pattern, const CarpaceOverlayMoment *moment);

#endif
