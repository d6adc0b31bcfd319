/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * pause-card.h: a pause of a stream: its word, its length, counted where it runs.
 *
 * What a screen that is broadcast shows in the place of a rest's card: no drawing, no
 * word of the hand, the same answers in the same places.
 */
#ifndef CARPACE_UI_PAUSE_CARD_H
#define CARPACE_UI_PAUSE_CARD_H

#include "ui/card.h"
#include "ui/owner.h"

typedef struct CarpacePauseCard CarpacePauseCard;

CarpacePauseCard *carpace_pause_card_new (const CarpaceOwner *owner);
void carpace_pause_card_free (CarpacePauseCard *card);

/** Shows it by itself, where on air a pause runs or is offered in @view. */
void carpace_pause_card_show (CarpacePauseCard *card, const CarpaceView *view);
void carpace_pause_card_hide (CarpacePauseCard *card);
void carpace_pause_card_draw (CarpacePauseCard *card, const CarpaceView *view);

/** ms until its countdown looks different; CARPACE_NEVER where it stands still or nobody
 * can see it. */
int64_t carpace_pause_card_next_ms (const CarpacePauseCard *card, const CarpaceView *view);

CarpaceCard *carpace_pause_card_card (CarpacePauseCard *card);

#endif
