/* SPDX-License-Identifier: GPL-3.0-or-later */
/** their-card.h: the file of somebody's card, chosen or dropped, and whose it says it is. */
#ifndef CARPACE_UI_THEIR_CARD_H
#define CARPACE_UI_THEIR_CARD_H

#include <gtk/gtk.h>

#include "carpace/sharing.h"

/** @param shown has to stay @param taken a card was chosen or dropped @param told shows why one was not */
GtkWidget *carpace_their_card_new (const CarpaceSharingShown *shown, void (*taken) (void *user), void (*told) (void *user, const char *said),
                                   void *user);

/** Takes a file that is dropped anywhere on @window. */
void carpace_their_card_take_drops (GtkWidget *card, GtkWidget *window);

/** NULL: none was chosen. */
const char *carpace_their_card_path (GtkWidget *card);

#endif
