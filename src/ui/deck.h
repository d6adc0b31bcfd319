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

/** Draws the cards there are, and brings what waits; on air nothing but a pause's.
 * @param rests_offered an offered rest has a card too, for want of notices */
void carpace_deck_draw (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now, bool rests_offered);

/** Ms until a card looks different by time alone, CARPACE_NEVER where none does. */
int64_t carpace_deck_next_ms (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now);

/** Whether a full-screen client lies where a card would come, as of now. */
bool carpace_deck_is_covered (CarpaceDeck *deck);

/** The cue whose card the player put away while it still asks; CARPACE_N_CUES: none. As last drawn. */
CarpaceCue carpace_deck_put_away_cue (const CarpaceDeck *deck);

/** All cards go, and none comes back by itself. */
void carpace_deck_close (CarpaceDeck *deck);

/** A notice as a card, and its end. @param icon of its bar
 * @return false where a card that asks is up, which it would hide */
bool carpace_deck_notice (CarpaceDeck *deck, const CarpaceNotice *notice, const char *icon, const CarpaceView *view, CarpaceInstant now);
void carpace_deck_end_notice (CarpaceDeck *deck, CarpaceCue cue);

/** On air: the card of the pause that runs or is offered comes, by itself. */
void carpace_deck_bring_pause (CarpaceDeck *deck, const CarpaceView *view, CarpaceInstant now);

/** Whether what follows a number above the plan's stop is being read: cautions wait for it. */
bool carpace_deck_holds (CarpaceDeck *deck, const CarpaceView *view);

/** Whether any card is up, be it a bar, or away until the next gap. */
bool carpace_deck_has_card (CarpaceDeck *deck);

/** The chord was pressed: the card that is up is to be seen, and digits answer it; or no longer. */
void carpace_deck_arm (CarpaceDeck *deck, bool armed, const CarpaceView *view, CarpaceInstant now);

/** A digit, for the card that is up. @return whether it means something there */
bool carpace_deck_digit (CarpaceDeck *deck, int digit);

/** Escape, for the card that is up. */
void carpace_deck_put_away (CarpaceDeck *deck);

/** Whether the card that is up asks for one more digit. */
bool carpace_deck_asks_on (CarpaceDeck *deck);

#endif
