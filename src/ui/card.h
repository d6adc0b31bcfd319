/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * card.h: a card on the screen.
 *
 * Shown by itself it lies above everything, a full-screen client too, and
 * never takes the focus. Opened by the player it is a window like any other:
 * it has the focus and can be answered from the keyboard.
 */
#ifndef CARPACE_UI_CARD_H
#define CARPACE_UI_CARD_H

#include <gtk/gtk.h>
#include <stdbool.h>

typedef struct CarpaceCard CarpaceCard;

/** How a card comes to be shown. */
typedef enum
{
  CARPACE_CARD_BY_ITSELF,
  CARPACE_CARD_BY_PLAYER
} CarpaceCardWay;

/** A card that is not shown. @name is for styles and tests; @title is its
 * heading for window lists and assistive technology. */
CarpaceCard *carpace_card_new (const char *name, const char *title);
void carpace_card_free (CarpaceCard *card);

/** Where the card's widgets go, one under the other. */
GtkBox *carpace_card_box (CarpaceCard *card);

/** Shows the card. Shown by itself already and now opened by the player, it
 * becomes a window. */
void carpace_card_show (CarpaceCard *card, CarpaceCardWay way);
void carpace_card_hide (CarpaceCard *card);
bool carpace_card_is_shown (const CarpaceCard *card);

/** Whether any of it can be seen: shown, and not wholly covered. */
bool carpace_card_is_seen (const CarpaceCard *card);

/** False for a short time after a card has shown itself: a click meant for
 * what lay there before is no answer. */
bool carpace_card_takes_clicks (const CarpaceCard *card);

/** The player closed the card (Escape, the window's own button). */
void carpace_card_on_close (CarpaceCard *card, void (*closed) (void *user), void *user);

/** The card can be seen again, or no more, or was taken down. */
void carpace_card_on_seen (CarpaceCard *card, void (*seen) (void *user), void *user);

/** Keys, while the card has the focus. @return true where the key was used */
void carpace_card_on_key (CarpaceCard *card, bool (*key) (void *user, const GdkEventKey *event), void *user);

/** The present window, NULL where not shown. */
GtkWindow *carpace_card_window (CarpaceCard *card);

/** Makes the look of cards known to GTK; once. */
void carpace_card_style (void);

/** Adds the card's heading. It has the focus at first, so that no choice has:
 * a key pressed without looking answers nothing. @return its label */
GtkWidget *carpace_card_add_heading (CarpaceCard *card, const char *text);

/** Widgets with the look of cards. */
GtkWidget *carpace_card_heading (const char *text);
GtkWidget *carpace_card_line (const char *text);
GtkWidget *carpace_card_button (const char *mnemonic);

/** Sets the text of a label made here, if it differs; hides it where "". */
void carpace_card_say (GtkWidget *label, const char *text);

/** Names @widget for assistive technology. @description may be NULL. */
void carpace_card_name (GtkWidget *widget, const char *name, const char *description);

#endif
