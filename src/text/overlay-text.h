/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * overlay-text.h: the line that a broadcast shows, from the streamer's own pattern.
 *
 * A pattern is text with named fields in braces:
 *   {to-go}  to the next intermission, or to the end of the one that runs: "12 min", "1:59" from the notice on
 *   {at}     the local time at which it begins, "18:30"
 *   {until}  the local time at which it ends
 *   {words}  a neutral sentence: "Intermission in 2 minutes"
 * `{{` and `}}` stand for braces themselves. The words never say anything about
 * hand, rating, load or health; what the streamer writes around them is theirs.
 */
#ifndef CARPACE_TEXT_OVERLAY_TEXT_H
#define CARPACE_TEXT_OVERLAY_TEXT_H

#include "carpace/instant.h"

/** Characters a pattern may have. */
#define CARPACE_OVERLAY_CHARACTERS 400

/** The moment a line is about. */
typedef struct
{
  bool any;              /**< false: no intermission is ahead; the line is empty */
  bool counting;         /**< from the notice on: seconds are told */
  bool running;          /**< it has begun */
  int64_t to_go_ms;      /**< to its beginning, or to its end */
  CarpaceInstant begins, ends; /**< on the wall clock */
} CarpaceOverlayMoment;

/** What is wrong with @pattern, in one translated sentence, g_free() it; NULL
 * where nothing is. */
char *carpace_text_overlay_fault (const char *pattern);

/** The line for @moment, without a line's end; g_free() it. A pattern with a
 * fault gives its own text. */
char *carpace_text_overlay (const char *pattern, const CarpaceOverlayMoment *moment);

/** How long the line stays as it is, ms, while nothing but time goes by;
 * CARPACE_NEVER where it does not move. */
int64_t carpace_text_overlay_stays_ms (const char *pattern, const CarpaceOverlayMoment *moment);

/** What the countdown window shows: the {to-go} of @moment, "" where none. */
char *carpace_text_overlay_to_go (const CarpaceOverlayMoment *moment);

#endif
