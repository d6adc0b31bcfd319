/* SPDX-License-Identifier: GPL-3.0-or-later */
/* morning-card.c: waking, stiffness, now; then the day's dose in a sentence. */
#include "ui/morning-card.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/text.h"
#include "ui/choice.h"

/* The day's dose and its reason stay on the screen this long. */
#define STAYS_S 15

struct CarpaceMorningCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  GtkWidget *questions, *waking, *stiffness, *now, *other_load, *other_minutes, *pain_relief;
  GtkWidget *answer, *done;
  bool asked;    /* shown because the day asks */
  bool answered;
  guint stays_timer;
};

static gboolean
stayed (gpointer user)
{
  CarpaceMorningCard *card = user;
  card->stays_timer = 0;
  carpace_morning_card_hide (card);
  return G_SOURCE_REMOVE;
}

static CarpaceStiffness
stiffness_chosen (CarpaceMorningCard *card)
{
  int chosen = carpace_choice_get (card->stiffness);
  return chosen < 0 ? CARPACE_STIFFNESS_UNSAID : (CarpaceStiffness) (CARPACE_STIFFNESS_LESS + chosen);
}

static void
done_clicked (CarpaceMorningCard *card)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_MORNING };

  if (!carpace_card_takes_clicks (card->card))
    return;
  event.morning.waking = carpace_choice_get (card->waking);
  event.morning.stiffness = stiffness_chosen (card);
  event.morning.now = carpace_choice_get (card->now);
  event.morning.other_load = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (card->other_load));
  event.morning.pain_relief = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (card->pain_relief));
  if (!card->owner->tell (card->owner->self, &event))
    return;
  card->answered = true;
  card->stays_timer = g_timeout_add_seconds (STAYS_S, stayed, card);
  card->owner->redraw (card->owner->self);
}

static void
add_question (CarpaceMorningCard *card, const char *question, GtkWidget *choice)
{
  gtk_box_pack_start (GTK_BOX (card->questions), carpace_card_line (question), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->questions), choice, FALSE, FALSE, 0);
}

static GtkWidget *
add_box (CarpaceMorningCard *card, const char *mnemonic)
{
  GtkWidget *box = gtk_check_button_new_with_mnemonic (mnemonic);
  gtk_box_pack_start (GTK_BOX (card->questions), box, FALSE, FALSE, 0);
  gtk_widget_show (box);
  return box;
}

static void
make_questions (CarpaceMorningCard *card)
{
  const char *stiff[] = { _("less"), _("as usual"), _("more") };

  card->questions = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  card->waking = carpace_choice_new_numbers (_("discomfort on waking"));
  card->stiffness = carpace_choice_new (_("stiffness on waking"), stiff, G_N_ELEMENTS (stiff));
  card->now = carpace_choice_new_numbers (_("discomfort now"));
  add_question (card, _("Discomfort in the hand or arm on waking"), card->waking);
  add_question (card, _("Stiffness on waking"), card->stiffness);
  add_question (card, _("Discomfort now"), card->now);
  card->other_load = add_box (card, _("Another _unusual load on the hand yesterday"));
  card->other_minutes = carpace_card_line ("");
  gtk_box_pack_start (GTK_BOX (card->questions), card->other_minutes, FALSE, FALSE, 0);
  card->pain_relief = add_box (card, _("Pain _relief taken"));
  gtk_widget_show (card->questions);
}

static void
closed (void *user)
{
  CarpaceMorningCard *card = user;

  g_clear_handle_id (&card->stays_timer, g_source_remove);
}

CarpaceMorningCard *
carpace_morning_card_new (const CarpaceOwner *owner)
{
  CarpaceMorningCard *card = g_new0 (CarpaceMorningCard, 1);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *close = carpace_card_button (_("_Close"));
  GtkBox *box;

  card->owner = owner;
  card->card = carpace_card_new ("morning-card", _("This morning"));
  box = carpace_card_box (card->card);
  carpace_card_add_heading (card->card, _("This morning"));
  make_questions (card);
  card->answer = carpace_card_line ("");
  card->done = carpace_card_button (_("_Done"));
  gtk_box_pack_start (box, carpace_card_line (_("Three taps, any of them can be left out. The check is what lets the dose rise.")), FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->questions, FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->answer, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (buttons), card->done, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (buttons), close, FALSE, FALSE, 0);
  gtk_widget_show (buttons);
  gtk_box_pack_start (box, buttons, FALSE, FALSE, 0);
  g_signal_connect_swapped (card->done, "clicked", G_CALLBACK (done_clicked), card);
  g_signal_connect_swapped (close, "clicked", G_CALLBACK (carpace_morning_card_hide), card);
  carpace_card_on_close (card->card, closed, card);
  carpace_card_on_seen (card->card, owner->redraw, owner->self);
  return card;
}

void
carpace_morning_card_free (CarpaceMorningCard *card)
{
  if (!card)
    return;
  closed (card);
  carpace_card_free (card->card);
  g_free (card);
}

CarpaceCard *
carpace_morning_card_card (CarpaceMorningCard *card)
{
  return card->card;
}

GtkWidget *
carpace_morning_card_waking (CarpaceMorningCard *card)
{
  return card->waking;
}

GtkWidget *
carpace_morning_card_stiffness (CarpaceMorningCard *card)
{
  return card->stiffness;
}

GtkWidget *
carpace_morning_card_now (CarpaceMorningCard *card)
{
  return card->now;
}

GtkWidget *
carpace_morning_card_done (CarpaceMorningCard *card)
{
  return card->done;
}

void
carpace_morning_card_hide (CarpaceMorningCard *card)
{
  carpace_card_hide (card->card);
  closed (card);
}

static char *
other_minutes_line (const CarpaceView *view)
{
  g_autofree char *other = carpace_text_duration (view->other_ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);
  g_autofree char *mean = carpace_text_duration (view->other_mean_ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);

  if (view->other_ms < 0)
    return g_strdup ("");
  if (view->other_mean_ms < 0)
    return g_strdup_printf (_("Mouse in use outside practice yesterday: %s."), other);
  return g_strdup_printf (_("Mouse in use outside practice yesterday: %s. On a usual day: %s."), other, mean);
}

static char *
answer_line (const CarpaceView *view)
{
  if (view->has_decision && view->decision.scope == CARPACE_SCOPE_DAY)
    return carpace_text_why (&view->decision);
  return g_strdup (_("Noted."));
}

static void
draw (CarpaceMorningCard *card, const CarpaceView *view)
{
  g_autofree char *other = other_minutes_line (view);
  g_autofree char *answer = card->answered ? answer_line (view) : g_strdup ("");

  carpace_card_say (card->other_minutes, other);
  carpace_card_say (card->answer, answer);
  gtk_widget_set_visible (card->questions, !card->answered);
  gtk_widget_set_visible (card->done, !card->answered);
}

void
carpace_morning_card_draw (CarpaceMorningCard *card, const CarpaceView *view)
{
  if (!carpace_card_is_shown (card->card))
    return;
  if (view->on_air || (card->asked && !card->answered && !view->cue_on[CARPACE_CUE_MORNING]))
    carpace_morning_card_hide (card);
  else
    draw (card, view);
}

static void
begin_anew (CarpaceMorningCard *card)
{
  card->answered = false;
  carpace_choice_clear (card->waking);
  carpace_choice_clear (card->stiffness);
  carpace_choice_clear (card->now);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card->other_load), FALSE);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card->pain_relief), FALSE);
}

void
carpace_morning_card_show (CarpaceMorningCard *card, CarpaceCardWay way, const CarpaceView *view)
{
  if (view->on_air)
    return;
  if (!carpace_card_is_shown (card->card))
    {
      begin_anew (card);
      card->asked = view->cue_on[CARPACE_CUE_MORNING];
      draw (card, view);
    }
  carpace_card_show (card->card, way);
}
