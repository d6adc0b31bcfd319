/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rest-card.c: what to do in a rest, and how long. */
#include "ui/rest-card.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "ui/drawing.h"

#define HOW_LINES 4

/* All that the card draws. */
typedef struct
{
  CarpaceRestView rest;
  int64_t seconds;
} Drawn;

struct CarpaceRestCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  GtkWidget *heading, *side, *drawing, *how[HOW_LINES], *mind, *next_drill, *countdown, *waits;
  GtkWidget *rest_now, *after_run, *play_on, *close;
  Drawn drawn;
  bool has_drawn;
  unsigned draws;
};

static void
tell (CarpaceRestCard *card, CarpaceEventKind kind)
{
  CarpaceEvent event = { .kind = kind };
  if (carpace_card_takes_clicks (card->card))
    card->owner->tell (card->owner->self, &event);
}

static void
rest_clicked (CarpaceRestCard *card)
{
  tell (card, CARPACE_EVENT_REST);
}

static void
after_run_clicked (CarpaceRestCard *card)
{
  tell (card, CARPACE_EVENT_AFTER_RUN);
}

static void
play_on_clicked (CarpaceRestCard *card)
{
  tell (card, CARPACE_EVENT_PLAY_ON);
}

static GtkWidget *
add_button (GtkWidget *row, const char *mnemonic, void (*clicked) (CarpaceRestCard *card), CarpaceRestCard *card)
{
  GtkWidget *button = carpace_card_button (mnemonic);
  gtk_box_pack_start (GTK_BOX (row), button, FALSE, FALSE, 0);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), card);
  return button;
}

static GtkWidget *
make_buttons (CarpaceRestCard *card)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  card->rest_now = add_button (row, _("_Rest now"), rest_clicked, card);
  card->after_run = add_button (row, _("_After this run"), after_run_clicked, card);
  card->play_on = add_button (row, _("_Play on"), play_on_clicked, card);
  card->close = carpace_card_button (_("_Close"));
  gtk_box_pack_end (GTK_BOX (row), card->close, FALSE, FALSE, 0);
  g_signal_connect_swapped (card->close, "clicked", G_CALLBACK (carpace_rest_card_hide), card);
  gtk_widget_show (row);
  return row;
}

/* Holds a label whose changes stay inside it: as long as the text fits, nothing
 * of the window is laid out anew, second by second. */
static GtkWidget *
by_itself (GtkWidget *label)
{
  GtkWidget *holder = gtk_event_box_new ();

  G_GNUC_BEGIN_IGNORE_DEPRECATIONS
  gtk_container_set_resize_mode (GTK_CONTAINER (holder), GTK_RESIZE_QUEUE);
  G_GNUC_END_IGNORE_DEPRECATIONS
  gtk_event_box_set_visible_window (GTK_EVENT_BOX (holder), FALSE);
  gtk_container_add (GTK_CONTAINER (holder), label);
  gtk_widget_show (holder);
  return holder;
}

static GtkWidget *
make_words (CarpaceRestCard *card)
{
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  for (int line = 0; line < HOW_LINES; line++)
    {
      card->how[line] = carpace_card_line ("");
      gtk_label_set_max_width_chars (GTK_LABEL (card->how[line]), 34);
      gtk_box_pack_start (GTK_BOX (words), card->how[line], FALSE, FALSE, 0);
    }
  card->mind = carpace_card_line ("");
  gtk_label_set_max_width_chars (GTK_LABEL (card->mind), 34);
  gtk_style_context_add_class (gtk_widget_get_style_context (card->mind), "carpace-mind");
  gtk_box_pack_start (GTK_BOX (words), card->mind, FALSE, FALSE, 0);
  card->countdown = carpace_card_line ("");
  gtk_style_context_add_class (gtk_widget_get_style_context (card->countdown), "carpace-countdown");
  card->waits = carpace_card_line ("");
  gtk_box_pack_end (GTK_BOX (words), card->waits, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (words), by_itself (card->countdown), FALSE, FALSE, 0);
  gtk_widget_show (words);
  return words;
}

CarpaceRestCard *
carpace_rest_card_new (const CarpaceOwner *owner)
{
  CarpaceRestCard *card = g_new0 (CarpaceRestCard, 1);
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 20);
  GtkBox *box;

  card->owner = owner;
  card->card = carpace_card_new ("rest-card", _("Rest"));
  box = carpace_card_box (card->card);
  card->heading = carpace_card_add_heading (card->card, _("Rest"));
  card->side = carpace_card_line ("");
  card->next_drill = carpace_card_line ("");
  card->drawing = carpace_drawing_new ();
  gtk_box_pack_start (box, card->side, FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->next_drill, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (both), card->drawing, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (both), make_words (card), TRUE, TRUE, 0);
  gtk_widget_show (both);
  gtk_box_pack_start (box, both, FALSE, FALSE, 0);
  gtk_box_pack_start (box, make_buttons (card), FALSE, FALSE, 0);
  carpace_card_on_seen (card->card, owner->redraw, owner->self);
  return card;
}

void
carpace_rest_card_free (CarpaceRestCard *card)
{
  if (!card)
    return;
  carpace_card_free (card->card);
  g_free (card);
}

CarpaceCard *
carpace_rest_card_card (CarpaceRestCard *card)
{
  return card->card;
}

unsigned
carpace_rest_card_draws (const CarpaceRestCard *card)
{
  return card->draws;
}

void
carpace_rest_card_hide (CarpaceRestCard *card)
{
  carpace_card_hide (card->card);
}

static Drawn
drawn_of (const CarpaceView *view)
{
  int64_t ms = view->rest.running ? view->rest.remaining_ms : view->rest.length_ms;
  return (Drawn) { .rest = view->rest, .seconds = (ms + 999) / 1000 };
}

static bool
equal (const Drawn *a, const Drawn *b)
{
  const CarpaceRestView *p = &a->rest, *q = &b->rest;
  return a->seconds == b->seconds && p->offered == q->offered && p->running == q->running && p->waits == q->waits
         && p->exercise == q->exercise && p->side == q->side && p->both_sides == q->both_sides
         && p->between_drills == q->between_drills && p->next_drill == q->next_drill;
}

static void
draw_exercise (CarpaceRestCard *card, const CarpaceView *view)
{
  const CarpaceRestView *rest = &view->rest;
  CarpaceExerciseKind kind = carpace_exercise_kind (rest->exercise);
  g_autofree char *heading = g_strdup_printf (_("%s: %s"), carpace_text_exercise_kind (kind), carpace_text_exercise (rest->exercise));
  g_autofree char *next = rest->between_drills && rest->next_drill >= 0 && view->plan
                            ? g_strdup_printf (_("Before the next drill, %s."), view->plan->drills[rest->next_drill].name)
                            : g_strdup ("");

  carpace_card_say (card->heading, heading);
  carpace_card_say (card->side, carpace_text_exercise_side (rest->side, rest->both_sides));
  carpace_card_say (card->next_drill, next);
  for (int line = 0; line < HOW_LINES; line++)
    {
      const char *how = carpace_text_exercise_how (rest->exercise, line);
      carpace_card_say (card->how[line], how ? how : "");
    }
  carpace_card_say (card->mind, carpace_text_exercise_mind (kind));
  carpace_drawing_set (card->drawing, rest->exercise, rest->side == CARPACE_SIDE_LEFT && !rest->both_sides);
}

static void
draw_countdown (CarpaceRestCard *card, const Drawn *drawn)
{
  g_autofree char *countdown = drawn->rest.running ? carpace_text_countdown (drawn->seconds * 1000)
                                                   : carpace_text_duration (drawn->seconds * 1000);

  carpace_card_say (card->countdown, countdown);
  carpace_card_say (card->waits, !drawn->rest.running ? "" : drawn->rest.waits ? _("Waits while the hand moves.") : _("Hand off the mouse."));
}

static void
draw_all (CarpaceRestCard *card, const Drawn *drawn, const CarpaceView *view)
{
  bool offered = drawn->rest.offered && !drawn->rest.running;

  card->draws++;
  draw_exercise (card, view);
  draw_countdown (card, drawn);
  gtk_widget_set_visible (card->rest_now, offered);
  gtk_widget_set_visible (card->after_run, offered);
  gtk_widget_set_visible (card->play_on, offered);
}

void
carpace_rest_card_draw (CarpaceRestCard *card, const CarpaceView *view)
{
  Drawn drawn;

  if (!carpace_card_is_shown (card->card))
    return;
  if (view->on_air || (!view->rest.offered && !view->rest.running))
    {
      carpace_rest_card_hide (card);
      return;
    }
  drawn = drawn_of (view);
  if (card->has_drawn && equal (&drawn, &card->drawn))
    return;
  draw_all (card, &drawn, view);
  card->drawn = drawn;
  card->has_drawn = true;
}

void
carpace_rest_card_show (CarpaceRestCard *card, CarpaceCardWay way, const CarpaceView *view)
{
  if (view->on_air || (!view->rest.offered && !view->rest.running))
    return;
  if (!carpace_card_is_shown (card->card))
    {
      Drawn drawn = drawn_of (view);
      draw_all (card, &drawn, view);
      card->drawn = drawn;
      card->has_drawn = true;
    }
  carpace_card_show (card->card, way);
}

int64_t
carpace_rest_card_next_ms (const CarpaceRestCard *card, const CarpaceView *view)
{
  if (!carpace_card_is_seen (card->card) || !view->rest.running || view->rest.waits || view->rest.remaining_ms <= 0)
    return CARPACE_NEVER;
  return (view->rest.remaining_ms - 1) % CARPACE_SECOND_MS + 1;
}
