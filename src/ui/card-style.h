/* SPDX-License-Identifier: GPL-3.0-or-later */
/** card-style.h: how all windows and cards look. By itself, for windows of a team, where a card is a person's. */
#ifndef CARPACE_UI_CARD_STYLE_H
#define CARPACE_UI_CARD_STYLE_H

/** Makes the look of cards known to GTK; once. */
void carpace_card_style (void);

#endif
