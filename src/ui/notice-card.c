/* SPDX-License-Identifier: GPL-3.0-or-later */
/* notice-card.c: title, text and answers of a notice, as a card. */
#include "ui/notice-card.h"

#include <glib/gi18n.h>

/* As long as it takes to see it between two runs. */
#define STAYS_S 20

struct CarpaceNoticeCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  GtkWidget *title, *body, *answers[CARPACE_NOTICE_ACTIONS];
  CarpaceEventKind events[CARPACE_NOTICE_ACTIONS];
  CarpaceCue cue;
  guint stays_timer;
};

static void
closed (void *user)
{
  CarpaceNoticeCard *card = user;
  g_clear_handle_id (&card->stays_timer, g_source_remove);
}

static gboolean
stayed (gpointer user)
{
  CarpaceNoticeCard *card = user;
  card->stays_timer = 0;
  carpace_notice_card_hide (card);
  return G_SOURCE_REMOVE;
}

static void
answer_clicked (GtkWidget *button, CarpaceNoticeCard *card)
{
  CarpaceEvent event = { 0 };

  if (!carpace_card_takes_clicks (card->card))
    return;
  for (int i = 0; i < CARPACE_NOTICE_ACTIONS; i++)
    if (card->answers[i] == button)
      event.kind = card->events[i];
  carpace_notice_card_hide (card);
  card->owner->tell (card->owner->self, &event);
}

static GtkWidget *
make_buttons (CarpaceNoticeCard *card)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *close = carpace_card_button (_("_Close"));

  for (int i = 0; i < CARPACE_NOTICE_ACTIONS; i++)
    {
      card->answers[i] = carpace_card_button ("");
      g_signal_connect (card->answers[i], "clicked", G_CALLBACK (answer_clicked), card);
      gtk_box_pack_start (GTK_BOX (row), card->answers[i], FALSE, FALSE, 0);
    }
  gtk_box_pack_end (GTK_BOX (row), close, FALSE, FALSE, 0);
  g_signal_connect_swapped (close, "clicked", G_CALLBACK (carpace_notice_card_hide), card);
  gtk_widget_show (row);
  return row;
}

CarpaceNoticeCard *
carpace_notice_card_new (const CarpaceOwner *owner)
{
  CarpaceNoticeCard *card = g_new0 (CarpaceNoticeCard, 1);

  card->owner = owner;
  card->card = carpace_card_new ("notice-card", "Carpace");
  card->title = carpace_card_add_heading (card->card, "Carpace");
  card->body = carpace_card_line ("");
  gtk_box_pack_start (carpace_card_box (card->card), card->body, FALSE, FALSE, 0);
  gtk_box_pack_start (carpace_card_box (card->card), make_buttons (card), FALSE, FALSE, 0);
  carpace_card_on_close (card->card, closed, card);
  return card;
}

void
carpace_notice_card_free (CarpaceNoticeCard *card)
{
  if (!card)
    return;
  closed (card);
  carpace_card_free (card->card);
  g_free (card);
}

CarpaceCard *
carpace_notice_card_card (CarpaceNoticeCard *card)
{
  return card->card;
}

void
carpace_notice_card_show (CarpaceNoticeCard *card, const CarpaceNotice *notice)
{
  carpace_notice_card_hide (card);
  card->cue = notice->cue;
  carpace_card_say (card->title, notice->title);
  carpace_card_say (card->body, notice->body);
  for (int i = 0; i < CARPACE_NOTICE_ACTIONS; i++)
    {
      bool offered = i < notice->n_actions;
      gtk_widget_set_visible (card->answers[i], offered);
      gtk_button_set_use_underline (GTK_BUTTON (card->answers[i]), FALSE);
      gtk_button_set_label (GTK_BUTTON (card->answers[i]), offered ? notice->action[i].label : "");
      card->events[i] = offered ? notice->action[i].event : CARPACE_EVENT_DEADLINE;
    }
  carpace_card_show (card->card, CARPACE_CARD_BY_ITSELF);
  card->stays_timer = g_timeout_add_seconds (STAYS_S, stayed, card);
}

void
carpace_notice_card_end (CarpaceNoticeCard *card, CarpaceCue cue)
{
  if (card->cue == cue)
    carpace_notice_card_hide (card);
}

void
carpace_notice_card_hide (CarpaceNoticeCard *card)
{
  carpace_card_hide (card->card);
  closed (card);
}
