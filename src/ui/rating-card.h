/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * rating-card.h: "How does your hand feel?", one tap.
 *
 * Eleven equal squares, none chosen beforehand. One tap and it is done; a
 * second, for the site, may follow. With the focus, the digits rate too, and the
 * key right of the last digit (on the keypad: right of its 0) says 10. A number above the plan's stop-above says
 * what follows and can be changed for as long as the view says.
 */
#ifndef CARPACE_UI_RATING_CARD_H
#define CARPACE_UI_RATING_CARD_H

#include "ui/card.h"
#include "ui/owner.h"

typedef struct CarpaceRatingCard CarpaceRatingCard;

/** A card that is not shown. @owner outlives it. */
CarpaceRatingCard *carpace_rating_card_new (const CarpaceOwner *owner);
void carpace_rating_card_free (CarpaceRatingCard *card);

/** Shows it, where there is something to rate or to change in @view. */
void carpace_rating_card_show (CarpaceRatingCard *card, CarpaceCardWay way, const CarpaceView *view,
                               CarpaceInstant now);
void carpace_rating_card_hide (CarpaceRatingCard *card);

/** Draws what differs; hides a card that has nothing more to ask. */
void carpace_rating_card_draw (CarpaceRatingCard *card, const CarpaceView *view, CarpaceInstant now);

/** A chord has armed the card, or it is armed no longer. */
void carpace_rating_card_arm (CarpaceRatingCard *card, bool armed);

/** A digit answers: a number, a site, or what stands in the foot row. @return whether it means something */
bool carpace_rating_card_digit (CarpaceRatingCard *card, int digit);

/** The card's frame, for tests. */
CarpaceCard *carpace_rating_card_card (CarpaceRatingCard *card);

/** How often its widgets were changed by a draw, for tests. */
unsigned carpace_rating_card_draws (const CarpaceRatingCard *card);

#endif
