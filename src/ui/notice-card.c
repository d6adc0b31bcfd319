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
  GtkWidget *answers[CARPACE_NOTICE_ACTIONS];
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
answer (CarpaceNoticeCard *card, int which)
{
  CarpaceEvent event = { .kind = card->events[which] };

  carpace_notice_card_hide (card);
  card->owner->tell (card->owner->self, &event);
}

static void
first_clicked (void *card)
{
  answer (card, 0);
}

static void
second_clicked (void *card)
{
  answer (card, 1);
}

static void
third_clicked (void *card)
{
  answer (card, 2);
}

CarpaceNoticeCard *
carpace_notice_card_new (const CarpaceOwner *owner)
{
  static void (*const clicked[CARPACE_NOTICE_ACTIONS]) (void *card) = { first_clicked, second_clicked, third_clicked };
  CarpaceNoticeCard *card = g_new0 (CarpaceNoticeCard, 1);

  card->owner = owner;
  card->card = carpace_card_new ("notice-card", "Carpace");
  for (int i = 0; i < CARPACE_NOTICE_ACTIONS; i++)
    card->answers[i] = carpace_card_add_answer (card->card, i + 1, "", clicked[i], card);
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
carpace_notice_card_show (CarpaceNoticeCard *card, const CarpaceNotice *notice, const char *icon)
{
  carpace_notice_card_hide (card);
  card->cue = notice->cue;
  carpace_card_say (carpace_card_heading_of (card->card), notice->title);
  carpace_card_say (carpace_card_why (card->card), notice->body);
  carpace_card_set_bar (card->card, icon, notice->title, notice->n_actions > 0 ? "1" : NULL);
  for (int i = 0; i < CARPACE_NOTICE_ACTIONS; i++)
    {
      bool offered = i < notice->n_actions;
      gtk_widget_set_visible (card->answers[i], offered);
      carpace_card_answer_say (card->answers[i], offered ? notice->action[i].label : "");
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
