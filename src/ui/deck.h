/* SPDX-License-Identifier: GPL-3.0-or-later */
/** deck.h: the cards, one up at a time. */
#ifndef CARPACE_UI_DECK_H
#define CARPACE_UI_DECK_H

#include "text/notice.h"
#include "ui/card.h"
#include "ui/owner.h"

typedef struct CarpaceDeck CarpaceDeck;

/** @param owner outlives the deck. A card is made when it is first wanted: a tray
 * icon does not pay for cards. */
CarpaceDeck *carpace_deck_new (const CarpaceOwner *owner);
void carpace_deck_free (CarpaceDeck *deck);

/** Brings the card of @cue. What the player opens comes at once; what comes by
 * itself waits for a card that is as pressing. A card that gives way comes back
 * when the other goes, if what it asks is still open then. */
void carpace_deck_bring (CarpaceDeck *deck, CarpaceCue cue, CarpaceCardWay way, const CarpaceView *view, CarpaceInstant now);

/** The card of @cue comes when carpace_deck_draw() finds that it can. */
void carpace_deck_let_wait (CarpaceDeck *deck, CarpaceCue cue);

/** Draws the cards there are, and brings what waits.
 * @param rests_offered an offered rest has a card too, for want of notices */
void carpace_deck_draw (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now, bool rests_offered);

/** Elapsed ms until a countdown on a card shows another number, CARPACE_NEVER
 * where there is none. */
int64_t carpace_deck_next_ms (const CarpaceDeck *deck, const CarpaceView *view);

/** All cards go, and none comes back by itself. */
void carpace_deck_close (CarpaceDeck *deck);

/** A notice as a card, where no notification service shows it; and its end. */
void carpace_deck_notice (CarpaceDeck *deck, const CarpaceNotice *notice);
void carpace_deck_end_notice (CarpaceDeck *deck, CarpaceCue cue);

/** Whether digits rate now. */
void carpace_deck_arm_rating (CarpaceDeck *deck, bool armed);

#endif
