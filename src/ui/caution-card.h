/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * caution-card.h: the signs that call for a clinician, asked in plain words.
 *
 * None is chosen beforehand. Where a caution is open it says what to do, and
 * takes the two answers that close it.
 */
#ifndef CARPACE_UI_CAUTION_CARD_H
#define CARPACE_UI_CAUTION_CARD_H

#include "ui/card.h"
#include "ui/owner.h"

typedef struct CarpaceCautionCard CarpaceCautionCard;

CarpaceCautionCard *carpace_caution_card_new (const CarpaceOwner *owner);
void carpace_caution_card_free (CarpaceCautionCard *card);
void carpace_caution_card_show (CarpaceCautionCard *card, CarpaceCardWay way, const CarpaceView *view);
void carpace_caution_card_hide (CarpaceCautionCard *card);
void carpace_caution_card_draw (CarpaceCautionCard *card, const CarpaceView *view);

/** For tests. */
CarpaceCard *carpace_caution_card_card (CarpaceCautionCard *card);
GtkWidget *carpace_caution_card_sign (CarpaceCautionCard *card, CarpaceSign sign);
GtkWidget *carpace_caution_card_answer (CarpaceCautionCard *card);

#endif
