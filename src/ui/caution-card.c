/* SPDX-License-Identifier: GPL-3.0-or-later */
/* caution-card.c: twelve questions, and what to do where one is answered yes. */
#include "ui/caution-card.h"

#include <glib/gi18n.h>

#include "text/face-text.h"
#include "text/text.h"

struct CarpaceCautionCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  bool asked; /* shown because the rules ask */
  GtkWidget *questions, *signs[CARPACE_N_SIGNS], *answer;
  GtkWidget *open, *advice, *which, *gone_when, *seen, *gone;
};

static uint32_t
signs_ticked (const CarpaceCautionCard *card)
{
  uint32_t signs = 0;

  for (int sign = 0; sign < CARPACE_N_SIGNS; sign++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (card->signs[sign])))
      signs |= 1u << sign;
  return signs;
}

static void
sign_toggled (CarpaceCautionCard *card)
{
  gtk_button_set_label (GTK_BUTTON (card->answer), signs_ticked (card) ? _("_Yes to those ticked") : _("_None of these"));
}

static void
tell (CarpaceCautionCard *card, CarpaceCautionAnswer answer, uint32_t signs)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_CAUTION, .caution = answer, .signs = signs };

  if (!carpace_card_takes_clicks (card->card))
    return;
  if (card->owner->tell (card->owner->self, &event) && (answer != CARPACE_CAUTION_SIGNS || signs == 0))
    carpace_caution_card_hide (card);
}

static void
answer_clicked (CarpaceCautionCard *card)
{
  tell (card, CARPACE_CAUTION_SIGNS, signs_ticked (card));
}

static void
seen_clicked (CarpaceCautionCard *card)
{
  tell (card, CARPACE_CAUTION_SEEN, 0);
}

static void
gone_clicked (CarpaceCautionCard *card)
{
  tell (card, CARPACE_CAUTION_GONE, 0);
}

static GtkWidget *
make_sign (CarpaceCautionCard *card, CarpaceSign sign)
{
  GtkWidget *box = gtk_check_button_new (), *question = carpace_card_line (carpace_text_sign_question (sign));

  gtk_container_add (GTK_CONTAINER (box), question);
  carpace_card_name (box, carpace_text_sign_question (sign), NULL);
  g_signal_connect_swapped (box, "toggled", G_CALLBACK (sign_toggled), card);
  gtk_widget_show (box);
  return box;
}

static void
make_questions (CarpaceCautionCard *card)
{
  card->questions = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_box_pack_start (GTK_BOX (card->questions), carpace_card_line (_("Tick what is so today. Practice stops where one of them is.")), FALSE, FALSE, 4);
  for (int sign = 0; sign < CARPACE_N_SIGNS; sign++)
    {
      card->signs[sign] = make_sign (card, (CarpaceSign) sign);
      gtk_box_pack_start (GTK_BOX (card->questions), card->signs[sign], FALSE, FALSE, 0);
    }
}

static void
make_open (CarpaceCautionCard *card)
{
  card->open = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  card->advice = carpace_card_line ("");
  card->which = carpace_card_line ("");
  card->gone_when = carpace_card_line (_("Practice goes on, with a smaller dose, from the next practice day after someone has seen it, or once it is gone, three days on at the earliest."));
  gtk_style_context_add_class (gtk_widget_get_style_context (card->advice), "carpace-mind");
  gtk_box_pack_start (GTK_BOX (card->open), card->advice, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->open), card->which, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->open), card->gone_when, FALSE, FALSE, 0);
}

static GtkWidget *
add_button (GtkWidget *row, const char *mnemonic, void (*clicked) (CarpaceCautionCard *card), CarpaceCautionCard *card)
{
  GtkWidget *button = carpace_card_button (mnemonic);
  gtk_box_pack_start (GTK_BOX (row), button, FALSE, FALSE, 0);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), card);
  return button;
}

static GtkWidget *
make_buttons (CarpaceCautionCard *card)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *close = carpace_card_button (_("_Close"));

  card->answer = add_button (row, _("_None of these"), answer_clicked, card);
  card->seen = add_button (row, _("_Seen by someone"), seen_clicked, card);
  card->gone = add_button (row, _("It is _gone"), gone_clicked, card);
  gtk_box_pack_end (GTK_BOX (row), close, FALSE, FALSE, 0);
  g_signal_connect_swapped (close, "clicked", G_CALLBACK (carpace_caution_card_hide), card);
  gtk_widget_show (row);
  return row;
}

CarpaceCautionCard *
carpace_caution_card_new (const CarpaceOwner *owner)
{
  CarpaceCautionCard *card = g_new0 (CarpaceCautionCard, 1);
  GtkBox *box;

  card->owner = owner;
  card->card = carpace_card_new ("caution-card", _("Please read before going on"));
  box = carpace_card_box (card->card);
  carpace_card_add_heading (card->card, _("Please read before going on"));
  make_questions (card);
  make_open (card);
  gtk_box_pack_start (box, card->questions, FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->open, FALSE, FALSE, 0);
  gtk_box_pack_start (box, carpace_card_line (carpace_text_informs ()), FALSE, FALSE, 0);
  gtk_box_pack_start (box, make_buttons (card), FALSE, FALSE, 0);
  carpace_card_on_seen (card->card, owner->redraw, owner->self);
  return card;
}

void
carpace_caution_card_free (CarpaceCautionCard *card)
{
  if (!card)
    return;
  carpace_card_free (card->card);
  g_free (card);
}

CarpaceCard *
carpace_caution_card_card (CarpaceCautionCard *card)
{
  return card->card;
}

GtkWidget *
carpace_caution_card_sign (CarpaceCautionCard *card, CarpaceSign sign)
{
  return card->signs[sign];
}

GtkWidget *
carpace_caution_card_answer (CarpaceCautionCard *card)
{
  return card->answer;
}

void
carpace_caution_card_hide (CarpaceCautionCard *card)
{
  carpace_card_hide (card->card);
}

/* Where a row of the rules opened it, its own reason stands for the signs. */
static char *
which_line (const CarpaceView *view)
{
  if (view->caution_signs)
    {
      g_autofree char *signs = carpace_text_signs (view->caution_signs);
      return g_strdup_printf (_("Answered yes: %s."), signs);
    }
  if (view->has_decision && view->decision.opens_caution)
    return carpace_text_why (&view->decision);
  return g_strdup ("");
}

static void
draw (CarpaceCautionCard *card, const CarpaceView *view)
{
  g_autofree char *which = which_line (view);

  gtk_widget_set_visible (card->questions, !view->caution_open);
  gtk_widget_set_visible (card->answer, !view->caution_open);
  gtk_widget_set_visible (card->open, view->caution_open);
  gtk_widget_set_visible (card->seen, view->caution_open);
  gtk_widget_set_visible (card->gone, view->caution_open);
  gtk_widget_set_sensitive (card->gone, view->caution_gone_allowed);
  carpace_card_say (card->advice, carpace_text_signs_advice (view->caution_signs));
  carpace_card_say (card->which, which);
}

void
carpace_caution_card_draw (CarpaceCautionCard *card, const CarpaceView *view)
{
  if (!carpace_card_is_shown (card->card))
    return;
  if (view->on_air || (card->asked && !view->cue_on[CARPACE_CUE_CAUTION] && !view->caution_open))
    carpace_caution_card_hide (card);
  else
    draw (card, view);
}

void
carpace_caution_card_show (CarpaceCautionCard *card, CarpaceCardWay way, const CarpaceView *view)
{
  if (view->on_air)
    return;
  if (!carpace_card_is_shown (card->card))
    {
      for (int sign = 0; sign < CARPACE_N_SIGNS; sign++)
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card->signs[sign]), FALSE);
      card->asked = view->cue_on[CARPACE_CUE_CAUTION];
      draw (card, view);
    }
  carpace_card_show (card->card, way);
}
