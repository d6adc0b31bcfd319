/* SPDX-License-Identifier: GPL-3.0-or-later */
/* caution-card.c: twelve questions, and what to do where one is answered yes. */
#include "ui/caution-card.h"

#include <glib/gi18n.h>

#include "text/face-text.h"
#include "text/text.h"
#include "ui/day-rail.h"
#include "ui/part-words.h"
#include "ui/window-room.h"

#define HALF (CARPACE_N_SIGNS / 2)
#define INSIDE 552 /* of a card's width */
#define AROUND_EM 7 /* head and foot: of the text's size, */
#define AROUND_PX 64 /* and what has a size of its own */

struct CarpaceCautionCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  bool asked; /* shown because the rules ask */
  GtkWidget *scrolled, *all, *questions, *signs[CARPACE_N_SIGNS], *answer, *read, *done;
  GtkWidget *open, *advice, *parent, *which, *gone_when, *seen, *gone;
  bool is_open, small;
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
  carpace_card_answer_say (card->answer, signs_ticked (card) ? _("_Yes to those ticked") : _("_None of these"));
}

static void
tell (CarpaceCautionCard *card, CarpaceCautionAnswer answer, uint32_t signs)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_CAUTION, .caution = { answer, signs } };

  if (card->owner->tell (card->owner->self, &event) && (answer != CARPACE_CAUTION_SIGNS || signs == 0))
    carpace_caution_card_hide (card);
}

static void
answer_clicked (void *card)
{
  tell (card, CARPACE_CAUTION_SIGNS, signs_ticked (card));
}

static void
seen_clicked (void *card)
{
  tell (card, CARPACE_CAUTION_SEEN, 0);
}

static void
gone_clicked (void *card)
{
  tell (card, CARPACE_CAUTION_GONE, 0);
}

static GtkWidget *
make_sign (CarpaceCautionCard *card, CarpaceSign sign)
{
  GtkWidget *box = gtk_check_button_new (), *question = carpace_part_words (carpace_text_sign_question (sign), NULL);

  gtk_container_add (GTK_CONTAINER (box), question);
  carpace_card_name (box, carpace_text_sign_question (sign), NULL);
  g_signal_connect_swapped (box, "toggled", G_CALLBACK (sign_toggled), card);
  gtk_widget_show_all (box);
  return box;
}

static void
make_questions (CarpaceCautionCard *card)
{
  card->questions = gtk_grid_new ();
  g_object_set (card->questions, "column-homogeneous", TRUE, "column-spacing", 16, "row-spacing", 8, NULL);
  for (int sign = 0; sign < CARPACE_N_SIGNS; sign++)
    {
      card->signs[sign] = make_sign (card, (CarpaceSign) sign);
      gtk_grid_attach (GTK_GRID (card->questions), card->signs[sign], sign / HALF, sign % HALF, 1, 1);
    }
}

static void
make_open (CarpaceCautionCard *card)
{
  card->open = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  card->advice = carpace_card_line ("");
  card->parent = carpace_card_line ("");
  card->which = carpace_card_line ("");
  card->gone_when = carpace_card_line (_("Shorter practice resumes the practice day after a physiotherapist or doctor "
                                         "has seen it, or once it is gone, after three days at least."));
  gtk_style_context_add_class (gtk_widget_get_style_context (card->advice), "carpace-mind");
  gtk_box_pack_start (GTK_BOX (card->open), card->advice, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->open), card->parent, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->open), card->which, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->open), card->gone_when, FALSE, FALSE, 0);
}

/* Over a full-screen client the questions wait until the player opens them. */
static void
read_clicked (void *user)
{
  carpace_card_show (((CarpaceCautionCard *) user)->card, CARPACE_CARD_BY_PLAYER);
}

static void
done_clicked (void *user)
{
  carpace_card_put_away (((CarpaceCautionCard *) user)->card);
}

static void
draw_room (CarpaceCautionCard *card)
{
  gtk_widget_set_visible (card->scrolled, !card->small);
  gtk_widget_set_visible (card->read, card->small);
  gtk_widget_set_visible (card->answer, !card->small && !card->is_open);
  gtk_widget_set_visible (card->done, !card->small && card->is_open);
  gtk_widget_set_visible (card->seen, !card->small && card->is_open);
  gtk_widget_set_visible (card->gone, !card->small && card->is_open);
}

static void
formed (void *user, CarpaceForm form)
{
  CarpaceCautionCard *card = user;

  card->small = form == CARPACE_FORM_SMALL;
  draw_room (card);
}

CarpaceCautionCard *
carpace_caution_card_new (const CarpaceOwner *owner)
{
  CarpaceCautionCard *card = g_new0 (CarpaceCautionCard, 1);

  card->owner = owner;
  card->card = carpace_card_new ("caution-card", _("Cautions: any of these today?"));
  carpace_card_say (carpace_card_why (card->card), _("Tick what is true today. One tick stops practice."));
  card->all = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  make_questions (card);
  make_open (card);
  gtk_box_pack_start (GTK_BOX (card->all), card->questions, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->all), card->open, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->all), carpace_card_line (carpace_text_informs ()), FALSE, FALSE, 0);
  card->scrolled = gtk_scrolled_window_new (NULL, NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (card->scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (card->scrolled), FALSE);
  gtk_container_add (GTK_CONTAINER (card->scrolled), card->all);
  gtk_widget_show (card->all);
  gtk_box_pack_start (carpace_card_box (card->card), card->scrolled, FALSE, FALSE, 0);
  /* No digit answers for the hand: a key pressed without looking must not. */
  card->answer = carpace_card_add_answer (card->card, 0, _("_None of these"), answer_clicked, card);
  card->read = carpace_card_add_answer (card->card, 1, _("_Read"), read_clicked, card);
  card->done = carpace_card_add_answer (card->card, 1, _("_Done"), done_clicked, card);
  card->seen = carpace_card_add_answer (card->card, 0, _("_Seen by a physiotherapist or doctor"), seen_clicked, card);
  card->gone = carpace_card_add_answer (card->card, 0, _("It is _gone"), gone_clicked, card);
  carpace_card_make_primary (card->read);
  carpace_card_make_primary (card->done);
  carpace_card_on_form (card->card, formed, card);
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

/* NULL: not because of a number. An open caution's own lines say what it is; a number that came since is one more. */
static char *
because_line (const CarpaceView *view)
{
  if (!view->plan || view->rating.open || view->rating.given <= view->plan->stop_above)
    return NULL;
  if (view->caution_open)
    return view->cue_on[CARPACE_CUE_CAUTION] ? g_strdup_printf (_("Because you gave %d."), view->rating.given) : NULL;
  return g_strdup_printf (_("Because you gave %d. Tick what is true today. One tick stops practice."), view->rating.given);
}

/* As high as the questions are in the card's width, as far as the screen goes: a pane by itself asks for the height that
 * they would have in one narrow column. */
static void
fit_the_screen (CarpaceCautionCard *card)
{
  GtkScrolledWindow *scrolled = GTK_SCROLLED_WINDOW (card->scrolled);
  int room = carpace_window_room (card->scrolled) - AROUND_PX - (int) (AROUND_EM * carpace_em_of (card->scrolled)), height;

  gtk_widget_get_preferred_height_for_width (card->all, INSIDE, NULL, &height);
  height = MAX (MIN (height, room), 1);
  gtk_scrolled_window_set_min_content_height (scrolled, -1); /* the least is never to be over the most */
  gtk_scrolled_window_set_max_content_height (scrolled, height);
  gtk_scrolled_window_set_min_content_height (scrolled, height);
}

static void
draw (CarpaceCautionCard *card, const CarpaceView *view)
{
  g_autofree char *which = which_line (view);
  g_autofree char *because = because_line (view);

  gtk_widget_set_visible (card->questions, !view->caution_open);
  gtk_widget_set_visible (card->open, view->caution_open);
  card->is_open = view->caution_open;
  draw_room (card);
  gtk_widget_set_sensitive (card->gone, view->caution_gone_allowed);
  carpace_card_say (card->advice, carpace_text_signs_advice (view->caution_signs));
  carpace_card_say (card->parent, carpace_text_tell_a_parent (view->plan != NULL ? view->plan->age : CARPACE_AGE_NOT_SAID));
  carpace_card_say (card->which, which);
  carpace_card_say (carpace_card_why (card->card), because ? because : view->caution_open ? "" : _("Tick what is true today. One tick stops practice."));
  carpace_card_set_bar (card->card, "org.carpace.Carpace-stopped-symbolic", gtk_label_get_text (GTK_LABEL (carpace_card_heading_of (card->card))), "1");
  fit_the_screen (card);
  carpace_card_fit (card->card);
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
