/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rest-card.c: what to do in a rest, and how long. */
#include "ui/rest-card.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "ui/count.h"
#include "ui/drawing.h"
#include "ui/rail.h"

#define HOW_LINES 4
#define END_SECONDS 2 /* that an end of a movement is shown: this project's own, slower than either is done */
#define SMALL_DRAWING 144
#define FULL_DRAWING 224

/* All that the card draws. */
typedef struct
{
  CarpaceRestView rest;
  int64_t rest_ms; /* the block's */
  int64_t seconds;
} Drawn;

struct CarpaceRestCard
{
  CarpaceCard *card;
  GtkWidget *both, *picture, *drawing, *marks, *how[HOW_LINES], *mind, *aside, *rail, *hold, *countdown;
  GtkWidget *rest_now, *after_run, *play_on;
  CarpaceForm form;
  Drawn drawn;
  bool has_drawn;
  unsigned draws;
};

static void draw_room (CarpaceRestCard *card, const Drawn *drawn);

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
  gtk_widget_show (words);
  return words;
}

/* The picture after the words, and what its marks mean. */
static GtkWidget *
make_picture (CarpaceRestCard *card)
{
  card->picture = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  card->drawing = carpace_drawing_new ();
  card->marks = carpace_card_line ("");
  gtk_label_set_max_width_chars (GTK_LABEL (card->marks), 26);
  gtk_style_context_add_class (gtk_widget_get_style_context (card->marks), "carpace-quiet");
  gtk_box_pack_start (GTK_BOX (card->picture), card->drawing, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->picture), card->marks, FALSE, FALSE, 0);
  gtk_widget_show (card->picture);
  return card->picture;
}

/* What is to be done along the time, how much of it has gone by, and how much is to go. */
static GtkWidget *
make_countdown (CarpaceRestCard *card)
{
  card->aside = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  card->hold = carpace_card_line ("");
  card->rail = carpace_rail_new ();
  card->countdown = carpace_count_new ();
  gtk_box_pack_start (GTK_BOX (card->aside), card->hold, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->aside), card->rail, TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (card->aside), card->countdown, FALSE, FALSE, 0);
  return card->aside;
}

/* How it is done stands where there is room: not on an offer over a full-screen client. */
static void
formed (void *user, CarpaceForm form)
{
  CarpaceRestCard *card = user;

  card->form = form;
  carpace_drawing_set_width (card->drawing, form == CARPACE_FORM_SMALL ? SMALL_DRAWING : FULL_DRAWING);
  if (card->has_drawn)
    draw_room (card, &card->drawn);
}

CarpaceRestCard *
carpace_rest_card_new (const CarpaceOwner *owner)
{
  CarpaceRestCard *card = g_new0 (CarpaceRestCard, 1);

  card->card = carpace_card_new ("rest-card", _("Rest"));
  card->both = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16);
  gtk_box_pack_start (GTK_BOX (card->both), make_words (card), TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (card->both), make_picture (card), FALSE, FALSE, 0);
  gtk_widget_show (card->both);
  gtk_box_pack_start (carpace_card_box (card->card), card->both, FALSE, FALSE, 0);
  carpace_card_set_aside (card->card, make_countdown (card));
  carpace_card_set_extra (card->card, card->picture);
  card->rest_now = carpace_card_add_event (card->card, 1, _("_Rest now"), owner, CARPACE_EVENT_REST);
  card->after_run = carpace_card_add_event (card->card, 2, _("_After this run"), owner, CARPACE_EVENT_AFTER_RUN);
  card->play_on = carpace_card_add_event (card->card, 3, _("_Play on"), owner, CARPACE_EVENT_PLAY_ON);
  carpace_card_on_form (card->card, formed, card);
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
  return (Drawn) { .rest = view->rest, .rest_ms = view->rest_ms, .seconds = (ms + 999) / 1000 };
}

static bool
equal (const Drawn *a, const Drawn *b)
{
  const CarpaceRestView *p = &a->rest, *q = &b->rest;
  return a->seconds == b->seconds && p->offered == q->offered && p->running == q->running && p->waits == q->waits
         && p->exercise == q->exercise && p->side == q->side && p->both_sides == q->both_sides
         && p->palm_up == q->palm_up && a->rest_ms == b->rest_ms
         && p->between_drills == q->between_drills && p->next_drill == q->next_drill;
}

/* Rest, how long, what for; under it why now, or how it goes. */
static void
draw_head (CarpaceRestCard *card, const CarpaceView *view)
{
  const CarpaceRestView *rest = &view->rest;
  g_autofree char *heading = carpace_text_rest_offer (view);
  g_autofree char *why = carpace_text_rest_why (view);
  const char *waits = !rest->running || (rest->between_drills && !rest->waits) ? why : rest->waits ? _("Waits while the hand moves.")
                      : carpace_text_exercise_mind (carpace_exercise_kind (rest->exercise));

  carpace_card_say (carpace_card_heading_of (card->card), heading);
  carpace_card_say (carpace_card_why (card->card), waits);
  carpace_card_set_bar (card->card, rest->running ? "org.carpace.Carpace-resting-symbolic" : "org.carpace.Carpace-rest-due-symbolic",
                        rest->running ? waits : heading, rest->running ? "3" : "1");
}

static void
draw_exercise (CarpaceRestCard *card, const CarpaceView *view)
{
  const CarpaceRestView *rest = &view->rest;

  for (int line = 0; line < HOW_LINES; line++)
    {
      const char *how = carpace_text_exercise_how (rest->exercise, rest->palm_up, line);
      carpace_card_say (card->how[line], how ? how : "");
    }
  carpace_card_say (card->mind, carpace_text_exercise_mind (carpace_exercise_kind (rest->exercise)));
  carpace_card_say (card->marks, carpace_text_exercise_marks (rest->exercise, rest->palm_up));
}

/* The exercise is the last part of a countdown, which may be longer. */
static void
draw_rail (CarpaceRestCard *card, const Drawn *drawn)
{
  const CarpaceRestView *rest = &drawn->rest;
  int32_t times = carpace_exercise_times (rest->exercise, drawn->rest_ms);
  int64_t exercise_ms = carpace_exercise_ms (rest->exercise, drawn->rest_ms);
  const CarpaceRailView rail = { .length_ms = rest->length_ms, .holds = times, .hold_ms = exercise_ms,
                                 .done_ms = rest->running ? rest->length_ms - drawn->seconds * CARPACE_SECOND_MS : 0,
                                 .runs = rest->running && !rest->waits };
  g_autofree char *hold = carpace_text_exercise_hold (carpace_exercise_kind (rest->exercise), times, exercise_ms);

  carpace_rail_set (card->rail, &rail);
  carpace_card_say (card->hold, hold);
}

/* Each end in its turn while a rest counts down, by the seconds that are drawn anyway: nothing wakes for it. All of it,
 * with its arrows, at other times, and where the desktop asks for less motion. */
static int
end_of (const CarpaceRestCard *card, const Drawn *drawn)
{
  gboolean moves = FALSE;

  g_object_get (gtk_widget_get_settings (card->drawing), "gtk-enable-animations", &moves, NULL);
  return moves && drawn->rest.running && !drawn->rest.waits ? 1 + (int) (drawn->seconds / END_SECONDS % 2) : 0;
}

static void
draw_picture (CarpaceRestCard *card, const Drawn *drawn)
{
  const CarpaceRestView *rest = &drawn->rest;

  carpace_drawing_set (card->drawing, rest->exercise, rest->palm_up, end_of (card, drawn),
                       rest->side == CARPACE_SIDE_LEFT && !rest->both_sides);
}

static void
draw_countdown (CarpaceRestCard *card, const Drawn *drawn)
{
  g_autofree char *countdown = carpace_text_duration (drawn->seconds * 1000);

  draw_rail (card, drawn);
  draw_picture (card, drawn);
  carpace_count_set (card->countdown, countdown);
}

/* What there is room for. */
static void
draw_room (CarpaceRestCard *card, const Drawn *drawn)
{
  bool small = card->form == CARPACE_FORM_SMALL, tall = drawn->rest.running && !drawn->rest.waits;

  carpace_card_set_tall (card->card, tall);
  gtk_widget_set_visible (card->both, !small || tall);
  gtk_widget_set_visible (card->mind, !drawn->rest.running || drawn->rest.between_drills); /* else it is the reason */
  gtk_widget_set_visible (card->marks, !small && *gtk_label_get_text (GTK_LABEL (card->marks)));
  gtk_widget_set_visible (card->hold, !small && *gtk_label_get_text (GTK_LABEL (card->hold)));
  gtk_widget_set_visible (card->aside, drawn->rest.running);
}

static void
draw_all (CarpaceRestCard *card, const Drawn *drawn, const CarpaceView *view)
{
  bool offered = drawn->rest.offered && !drawn->rest.running;

  card->draws++;
  draw_head (card, view);
  draw_exercise (card, view);
  draw_countdown (card, drawn);
  gtk_widget_set_visible (card->rest_now, offered);
  gtk_widget_set_visible (card->after_run, offered);
  draw_room (card, drawn);
}

/* A second less changes a number beside the rail and a bead on it: nothing is laid out anew. */
static bool
only_counted (const Drawn *a, const Drawn *b)
{
  Drawn other = *a;
  other.seconds = b->seconds;
  return equal (&other, b);
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
  if (card->has_drawn && only_counted (&card->drawn, &drawn))
    {
      card->draws++;
      draw_countdown (card, &drawn);
    }
  else
    {
      draw_all (card, &drawn, view);
      carpace_card_fit (card->card);
    }
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
