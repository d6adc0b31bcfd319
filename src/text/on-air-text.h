/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * on-air-text.h: what a message says on air.
 *
 * A screen that is broadcast says nothing of hand, rating, load or health. Every
 * message to the player is of one of these kinds; each has words for then, or
 * waits until the stream is over.
 */
#ifndef CARPACE_TEXT_ON_AIR_TEXT_H
#define CARPACE_TEXT_ON_AIR_TEXT_H

#include "carpace/view.h"

typedef enum
{
  CARPACE_MESSAGE_STATUS,      /**< made for it by carpace_text_status() */
  CARPACE_MESSAGE_TAKEN,       /**< an answer or command was taken: carpace_text_taken() */
  CARPACE_MESSAGE_REFUSED,     /**< it was refused: carpace_text_refusal() */
  CARPACE_MESSAGE_WORDING,     /**< it was not understood: carpace_text_wording() */
  CARPACE_MESSAGE_PLAN,        /**< what became of a plan */
  CARPACE_MESSAGE_DIARY,       /**< how the diary is kept: store-text.h */
  CARPACE_N_MESSAGES
} CarpaceMessage;

/** How a message of @kind reads on air: @off_air itself where that was made for
 * it, other words, or NULL: it waits. */
const char *carpace_text_on_air (CarpaceMessage kind, const char *off_air);

/** What is replied with: @off_air, which it takes, or on air its other words; NULL
 * where nothing is. */
char *carpace_text_reply (CarpaceMessage kind, bool on_air, char *off_air);

#endif
