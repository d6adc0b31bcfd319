/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card-private.h: what the files of a card share.
 *
 *   card.c         how it is built: head, body, answers at the foot
 *   card-size.c    how large it is, and where; the bar that stands for it in a run
 *   card-window.c  its window: shown, seen, put away
 *   card-parts.c   labels and buttons with the look of cards, for other windows, too
 */
#ifndef CARPACE_UI_CARD_PRIVATE_H
#define CARPACE_UI_CARD_PRIVATE_H

#include "ui/card.h"

#define CARPACE_CARD_ANSWERS 7
#define CARPACE_CARD_FULL_SPACING 12

typedef struct
{
  GtkWidget *button, *label, *key;
  int digit;
  void (*clicked) (void *user);
  void *user;
} CarpaceCardAnswer;

struct CarpaceCard
{
  char *name;
  char *title;
  GtkWidget *box, *head, *start, *heading, *why, *head_chord, *body, *foot, *chord, *away;
  GtkWidget *extra, *aside; /* NULL: none */
  CarpaceCardAnswer answers[CARPACE_CARD_ANSWERS];
  int n_answers;
  GtkWidget *window;
  GtkWidget *bar, *bar_icon, *bar_waits, *bar_keys; /* NULL until first wanted */
  char *icon, *waits, *keys;
  CarpaceCardWay way;
  CarpaceForm form;
  bool tall, armed, by_key;
  bool body_keys;                  /* digits answer what is in the body */
  bool chord_wanted, chord_above;  /* it stands on the card; beside the heading, the foot row having no room */
  bool tight;                      /* too long for all of it */
  GdkRectangle area;
  bool covered; /* a full-screen client lay beneath when it was shown */
  bool hidden;  /* something lies over it */
  gint64 shown_at_us;
  gint64 raised_at_us;
  void (*closed) (void *user);
  void *closed_user;
  void (*seen) (void *user);
  void *seen_user;
  bool (*key) (void *user, const GdkEventKey *event);
  void *key_user;
  void (*formed) (void *user, CarpaceForm form);
  void (*tightened) (void *user, bool tight);
  void *formed_user;
};

/* card.c */
CarpaceCorner carpace_card_corner (void);
void carpace_card_draw_foot (CarpaceCard *card);

/* card-size.c */
void carpace_card_place_window (CarpaceCard *card, GtkWidget *window, int width, int height);
void carpace_card_size_allocated (GtkWidget *window, GtkAllocation *allocation, CarpaceCard *card);
void carpace_card_show_bar (CarpaceCard *card);

/* By itself; over a full-screen client no window manager's title takes room. */
bool carpace_card_is_framed (const CarpaceCard *card);

#endif
