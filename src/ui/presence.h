/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * presence.h: how much of the screen a card may have, and when.
 *
 * Over a full-screen client a card that comes by itself stands small in a corner. Input
 * makes a slim bar of it after 5 s, and a bar is gone after 10 s, or when the input has
 * become a run; the next gap brings the card back. What comes in the middle of a run is
 * such a bar from the start. Elsewhere a card stays as it is.
 *
 * Values and functions of moments; nothing here draws.
 */
#ifndef CARPACE_UI_PRESENCE_H
#define CARPACE_UI_PRESENCE_H

#include <gtk/gtk.h>

#include "carpace/settings.h"
#include "carpace/view.h"

/** How a card stands on the screen. */
typedef enum
{
  CARPACE_FORM_FULL,  /**< all that it has to say */
  CARPACE_FORM_SMALL, /**< over a full-screen client */
  CARPACE_FORM_BAR,   /**< a line that takes no click: what waits, and the keys */
  CARPACE_FORM_AWAY,  /**< nothing, until the next gap */
  CARPACE_N_FORMS
} CarpaceForm;

#define CARPACE_INPUT_MAKES_BAR_MS (5 * CARPACE_SECOND_MS)
#define CARPACE_BAR_STAYS_MS (10 * CARPACE_SECOND_MS)
/** Input that is a run: a bar that was a card is gone by then at the latest. */
#define CARPACE_INPUT_IS_RUN_MS (20 * CARPACE_SECOND_MS)

/** Pixels between a card and the edges of its monitor. */
#define CARPACE_CARD_EDGE 24

/** What becomes of one card. All zero is no card. */
typedef struct
{
  bool is_bar;
  bool shrank;          /**< the bar was a card before */
  bool over;            /**< the bar's time is over; until the next gap */
  int64_t bar_since_ms; /**< elapsed, where it is or was one */
} CarpacePresence;

/** A card comes by itself. @param in_run in the middle of a run: as a bar */
void carpace_presence_begin (CarpacePresence *presence, bool in_run, CarpaceInstant now);

/** Its form at @now. @param covered a full-screen client lies beneath
 * @param input_ms as in a view: input has gone on for so long, -1 while the hand is still */
CarpaceForm carpace_presence_form (CarpacePresence *presence, bool covered, int64_t input_ms, CarpaceInstant now);

/** Ms until the form is another by time alone; CARPACE_NEVER where it stays. */
int64_t carpace_presence_next_ms (const CarpacePresence *presence, bool covered, int64_t input_ms, CarpaceInstant now);

/** The most width, in pixels, of a card or a bar whose words are too long or too large for the usual. */
int carpace_card_widest (const GdkRectangle *area);

/** The most that a card may have of @area over a full-screen client. Its middle is outside of it in any corner.
 * @param tall a rest that was begun: a third of the height, else a sixth */
void carpace_card_most (const GdkRectangle *area, bool tall, int *ret_width, int *ret_height);

/** On which side it is, and at which height. */
bool carpace_corner_is_at_end (CarpaceCorner corner);
bool carpace_corner_is_low (CarpaceCorner corner);

/** The upper left corner of a window of @width x @height in @corner of @area. What does not fit begins at the upper
 * left of @area. @param mirrored the reading direction is right to left */
void carpace_card_place (const GdkRectangle *area, CarpaceCorner corner, bool mirrored, int width, int height,
                         int *ret_left, int *ret_top);

#endif
