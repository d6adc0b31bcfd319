/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * card.h: a card on the screen.
 *
 * Shown by itself it lies above everything, a full-screen client too, in the
 * player's corner, and never takes the focus. Opened by the player it is a window
 * like any other: it has the focus and can be answered from the keyboard.
 *
 * All cards are built alike: heading and reason on top, the way to put it away in
 * the upper end corner, answers in one row at the foot. The first of them is the
 * likely one, always at the row's end and alone filled, with key 1; the others stand
 * towards the start with keys 2 and 3. The keys are on the card from the start.
 */
#ifndef CARPACE_UI_CARD_H
#define CARPACE_UI_CARD_H

#include <gtk/gtk.h>
#include <stdbool.h>

#include "ui/card-style.h"
#include "ui/owner.h"
#include "ui/presence.h"

typedef struct CarpaceCard CarpaceCard;

/** How a card comes to be shown. */
typedef enum
{
  CARPACE_CARD_BY_ITSELF,
  CARPACE_CARD_BY_PLAYER
} CarpaceCardWay;

/** What holds for all cards. Texts are copied. */
typedef struct
{
  CarpaceCorner corner;
  bool other_monitor;  /**< rather one that no full-screen client covers */
  const char *chord;   /**< the keys after which a digit answers, in words; NULL: there are none */
} CarpaceCardSetup;

void carpace_card_setup (const CarpaceCardSetup *setup);
bool carpace_card_other_monitor (void);

/** A card that is not shown. @name is for styles and tests; @title is its
 * heading, and for window lists and assistive technology. */
CarpaceCard *carpace_card_new (const char *name, const char *title);
void carpace_card_free (CarpaceCard *card);

/** Cards that are made from now on say @mark in their head; NULL: nothing. */
void carpace_card_mark (const char *mark);

/** Where the card's own widgets go, one under the other. */
GtkBox *carpace_card_box (CarpaceCard *card);

/** Its heading, and the reason under it ("" at first): labels. The heading has the
 * focus at first, so that no choice has: a key pressed without looking answers nothing. */
GtkWidget *carpace_card_heading_of (CarpaceCard *card);
GtkWidget *carpace_card_why (CarpaceCard *card);

/** Adds an answer to the foot row, the first at its end.
 * @param digit its key; 0: none @return its button */
GtkWidget *carpace_card_add_answer (CarpaceCard *card, int digit, const char *mnemonic, void (*clicked) (void *user), void *user);

/** The same for one that only tells the session a thing, an event of @kind without anything else. */
GtkWidget *carpace_card_add_event (CarpaceCard *card, int digit, const char *mnemonic, const CarpaceOwner *owner, CarpaceEventKind kind);

/** Fills it, where another than the first is the likely one in some state. One that shows at a time. */
void carpace_card_make_primary (GtkWidget *answer);

/** What an answer made here says; for buttons of other makes nothing. */
void carpace_card_answer_say (GtkWidget *answer, const char *mnemonic);

/** Presses the answer of @digit, if it is offered. @return whether it is */
bool carpace_card_digit (CarpaceCard *card, int digit);

/** What stands at the start of the foot row, a countdown, say: while it is visible the chord stands above. */
void carpace_card_set_aside (CarpaceCard *card, GtkWidget *aside);

/** Adds @widget beside the way to put it away. */
void carpace_card_add_to_head (CarpaceCard *card, GtkWidget *widget);

/** Whether the way to put it away has its own place in the head row. */
void carpace_card_set_away (CarpaceCard *card, bool visible);

/** What goes where a small card is too long: a picture, say. */
void carpace_card_set_extra (CarpaceCard *card, GtkWidget *extra);

/** Whether digits answer what is in the body: the chord then stands beside the heading. */
void carpace_card_set_body_keys (CarpaceCard *card, bool keys);

/** Whether a small card may be a third as high as its monitor, not a sixth. */
void carpace_card_set_tall (CarpaceCard *card, bool tall);

/** What stands on its bar: a symbolic icon, what waits, and which keys follow the chord. */
void carpace_card_set_bar (CarpaceCard *card, const char *icon, const char *waits, const char *keys);

/** How it stands from now on, shown or not, on the monitor of @area. @param covered by a full-screen client */
void carpace_card_stand (CarpaceCard *card, CarpaceForm form, bool covered, const GdkRectangle *area);
CarpaceForm carpace_card_form (const CarpaceCard *card);
CarpaceCardWay carpace_card_way (const CarpaceCard *card);

/** Another form: whoever made the card hides what does not fit it. */
void carpace_card_on_form (CarpaceCard *card, void (*formed) (void *user, CarpaceForm form), void *user);

/** Small, it is too long for all that it says, or no longer: what of it can be said shorter? Handed the same @user. */
void carpace_card_on_tight (CarpaceCard *card, void (*tightened) (void *user, bool tight));

/** Its texts have changed: small, it is fitted anew. */
void carpace_card_fit (CarpaceCard *card);

/** Armed by the chord: the keys on it answer now. */
void carpace_card_arm (CarpaceCard *card, bool armed);

/** Whether the chord stands on it: it came by itself, and there are keys. */
bool carpace_card_names_chord (const CarpaceCard *card);

/** The chord in words; NULL where there is none. */
const char *carpace_card_chord (void);

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

/** Other answers have taken the place of those that were there: deaf anew. */
void carpace_card_deafen (CarpaceCard *card);

/** The player closed the card (Escape, the window's own button). */
void carpace_card_on_close (CarpaceCard *card, void (*closed) (void *user), void *user);

/** The card can be seen again, or no more, or was taken down. */
void carpace_card_on_seen (CarpaceCard *card, void (*seen) (void *user), void *user);

/** Keys, while the card has the focus. @return true where the key was used */
void carpace_card_on_key (CarpaceCard *card, bool (*key) (void *user, const GdkEventKey *event), void *user);

/** The player's own way to put it away, as Escape does. */
void carpace_card_put_away (CarpaceCard *card);

/** The present window, NULL where not shown. */

GtkWindow *carpace_card_window (CarpaceCard *card);

/** Its bar, NULL where it has never been one. */
GtkWindow *carpace_card_bar (CarpaceCard *card);

/** Sets the card's heading. @return its label */
GtkWidget *carpace_card_add_heading (CarpaceCard *card, const char *text);

/** Widgets with the look of cards. */
GtkWidget *carpace_card_heading (const char *text);
GtkWidget *carpace_card_line (const char *text);
GtkWidget *carpace_card_button (const char *mnemonic);

/** Sets the text of a label made here, if it differs; hides it where "". */
void carpace_card_say (GtkWidget *label, const char *text);

/** Sets @label smaller by that factor; 1: as it was. */
void carpace_card_shrink (GtkWidget *label, double by);

/** Names @widget for assistive technology. @description may be NULL. */
void carpace_card_name (GtkWidget *widget, const char *name, const char *description);

#endif
