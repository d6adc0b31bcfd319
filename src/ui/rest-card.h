/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * rest-card.h: one stretch, self-massage or movement, with its countdown.
 *
 * Offered, it shows what the rest would be and its three answers; running, it
 * counts down, once a second and only while it can be seen.
 */
#ifndef CARPACE_UI_REST_CARD_H
#define CARPACE_UI_REST_CARD_H

#include "ui/card.h"
#include "ui/owner.h"

typedef struct CarpaceRestCard CarpaceRestCard;

CarpaceRestCard *carpace_rest_card_new (const CarpaceOwner *owner);
void carpace_rest_card_free (CarpaceRestCard *card);

/** Shows it, where a rest is offered or running in @view. */
void carpace_rest_card_show (CarpaceRestCard *card, CarpaceCardWay way, const CarpaceView *view);
void carpace_rest_card_hide (CarpaceRestCard *card);
void carpace_rest_card_draw (CarpaceRestCard *card, const CarpaceView *view);

/** ms until its countdown looks different; CARPACE_NEVER where it stands still
 * or nobody can see it. */
int64_t carpace_rest_card_next_ms (const CarpaceRestCard *card, const CarpaceView *view);

/** For tests. */
CarpaceCard *carpace_rest_card_card (CarpaceRestCard *card);
unsigned carpace_rest_card_draws (const CarpaceRestCard *card);

#endif
