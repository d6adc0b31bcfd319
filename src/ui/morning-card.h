/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * morning-card.h: the first card of a day.
 *
 * Three taps and two boxes, any of them left out; then what the day's dose is
 * and why, and, where a number was above none, one more tap for the site.
 */
#ifndef CARPACE_UI_MORNING_CARD_H
#define CARPACE_UI_MORNING_CARD_H

#include "ui/card.h"
#include "ui/owner.h"

typedef struct CarpaceMorningCard CarpaceMorningCard;

CarpaceMorningCard *carpace_morning_card_new (const CarpaceOwner *owner);
void carpace_morning_card_free (CarpaceMorningCard *card);
void carpace_morning_card_show (CarpaceMorningCard *card, CarpaceCardWay way, const CarpaceView *view);
void carpace_morning_card_hide (CarpaceMorningCard *card);
void carpace_morning_card_draw (CarpaceMorningCard *card, const CarpaceView *view);

/** A digit answers the question at hand. @return whether it means something */
bool carpace_morning_card_digit (CarpaceMorningCard *card, int digit);

/** Whether it asks for one more digit. */
bool carpace_morning_card_asks_on (const CarpaceMorningCard *card);

/** For tests. */
CarpaceCard *carpace_morning_card_card (CarpaceMorningCard *card);
GtkWidget *carpace_morning_card_waking (CarpaceMorningCard *card);
GtkWidget *carpace_morning_card_stiffness (CarpaceMorningCard *card);
GtkWidget *carpace_morning_card_now (CarpaceMorningCard *card);
GtkWidget *carpace_morning_card_done (CarpaceMorningCard *card);
GtkWidget *carpace_morning_card_where (CarpaceMorningCard *card);
GtkWidget *carpace_morning_card_sites (CarpaceMorningCard *card);

#endif
