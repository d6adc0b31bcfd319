/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rating-card.c: eleven squares, their ends in words, and what follows. */
#include "ui/rating-card.h"

#include <glib/gi18n.h>
#include <string.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "ui/rail.h"
#include "ui/site-choice.h"

#define NUMBERS 11
/* Of the evdev key codes, as X and Wayland tell them. */
#define KEYCODE_OF_1 10
/* How long what follows stays on the screen where nothing can be lost by it. */
#define STAYS_MS 5000

/* What it asks for. */
typedef enum { ASKS_NUMBER, ASKS_SITE, ASKS_NOTHING } Asks;

/* All that the card draws. */
typedef struct
{
  Asks asks;
  bool open;
  bool starts;      /* a tap rates and starts */
  bool changeable;
  bool above_stop;
  int32_t block;
  int32_t given;
  CarpaceSite site;
  bool left; /* the mouse hand */
  char follows[256], why[256];
} Drawn;

struct CarpaceRatingCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  GtkWidget *numbers, *ends, *squares[NUMBERS], *keys, *sites;
  GtkWidget *done, *where, *correct, *start_without, *aside, *rail, *seconds;
  CarpaceForm form;
  bool changing; /* asked again, to change what was given */
  bool locating; /* the second tap */
  bool armed;
  bool tight;    /* no room for the row of the ends */
  bool in_block; /* practice was on when last drawn */
  int64_t stays_until_ms; /* on the monotonic clock; 0: it stays */
  guint second;
  Drawn drawn;
  bool has_drawn;
  unsigned draws;
};

static void
tell_rating (CarpaceRatingCard *card, int32_t discomfort, CarpaceSite site)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_RATE, .rate = { discomfort, site } };

  card->changing = false;
  carpace_card_deafen (card->card);
  card->owner->tell (card->owner->self, &event);
  card->owner->redraw (card->owner->self);
}

static void
square_clicked (GtkButton *square, CarpaceRatingCard *card)
{
  if (carpace_card_takes_clicks (card->card))
    tell_rating (card, GPOINTER_TO_INT (g_object_get_data (G_OBJECT (square), "number")), CARPACE_SITE_NONE);
}

static void
tell_site (CarpaceRatingCard *card, CarpaceSite site)
{
  card->locating = false;
  tell_rating (card, card->drawn.given, site);
  if (!card->drawn.above_stop)
    carpace_rating_card_hide (card);
}

static void
site_chosen (void *user, CarpaceSite site)
{
  CarpaceRatingCard *card = user;

  if (carpace_card_takes_clicks (card->card))
    tell_site (card, site);
}

static void
no_site_clicked (CarpaceRatingCard *card)
{
  card->locating = false;
  card->owner->redraw (card->owner->self);
}

static void
where_clicked (void *user)
{
  CarpaceRatingCard *card = user;
  card->locating = true;
  carpace_card_deafen (card->card);
  card->owner->redraw (card->owner->self);
}

static void
correct_clicked (void *user)
{
  CarpaceRatingCard *card = user;
  card->changing = true;
  carpace_card_deafen (card->card);
  card->owner->redraw (card->owner->self);
}

static void
done_clicked (void *user)
{
  carpace_card_put_away (((CarpaceRatingCard *) user)->card);
}

/* By the letters on the keys, else by their place: where digits need Shift, the
 * key alone will do. */
static int
number_of_key (const GdkEventKey *event)
{
  guint keyval = event->keyval;

  if (keyval >= GDK_KEY_0 && keyval <= GDK_KEY_9)
    return (int) (keyval - GDK_KEY_0);
  if (keyval >= GDK_KEY_KP_0 && keyval <= GDK_KEY_KP_9)
    return (int) (keyval - GDK_KEY_KP_0);
  if (keyval == GDK_KEY_KP_Decimal || keyval == GDK_KEY_KP_Separator)
    return 10;
  if (event->hardware_keycode >= KEYCODE_OF_1 && event->hardware_keycode <= KEYCODE_OF_1 + 8)
    return event->hardware_keycode - KEYCODE_OF_1 + 1;
  if (event->hardware_keycode == KEYCODE_OF_1 + 9)
    return 0;
  return event->hardware_keycode == KEYCODE_OF_1 + 10 ? 10 : -1;
}

bool
carpace_rating_card_digit (CarpaceRatingCard *card, int digit)
{
  switch (card->drawn.asks)
    {
    case ASKS_NUMBER:
      tell_rating (card, digit, CARPACE_SITE_NONE);
      return true;
    case ASKS_SITE:
      if (digit <= CARPACE_SITE_NONE || digit >= CARPACE_N_SITES)
        return false;
      tell_site (card, (CarpaceSite) digit);
      return true;
    case ASKS_NOTHING: break;
    }
  return carpace_card_digit (card->card, digit);
}

static bool
key_pressed (void *user, const GdkEventKey *event)
{
  int number = number_of_key (event);

  if (number < 0 || (event->state & gtk_accelerator_get_default_mod_mask () & ~GDK_SHIFT_MASK))
    return false;
  return carpace_rating_card_digit (user, number);
}

static void
stay (CarpaceRatingCard *card)
{
  g_clear_handle_id (&card->second, g_source_remove);
  card->stays_until_ms = 0;
}

static void
closed (void *user)
{
  CarpaceRatingCard *card = user;
  stay (card);
  card->changing = card->locating = false;
}

/* The number first, for whoever hears only the beginning. */
static char *
name_of (int number)
{
  if (number == 0)
    return g_strdup (_("0, no discomfort"));
  if (number == NUMBERS - 1)
    return g_strdup (_("10, the worst discomfort imaginable"));
  return g_strdup_printf (_("%d, discomfort"), number);
}

static GtkWidget *
make_square (CarpaceRatingCard *card, int number)
{
  g_autofree char *digits = g_strdup_printf ("%d", number);
  g_autofree char *name = name_of (number);
  GtkWidget *square = gtk_button_new_with_label (digits);

  gtk_style_context_add_class (gtk_widget_get_style_context (square), "carpace-square");
  g_object_set_data (G_OBJECT (square), "number", GINT_TO_POINTER (number));
  carpace_card_name (square, name, _("0 is no discomfort, 10 the worst imaginable."));
  g_signal_connect (square, "clicked", G_CALLBACK (square_clicked), card);
  return square;
}

static GtkWidget *
make_ends (CarpaceRatingCard *card)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  card->keys = carpace_card_line ("");
  gtk_label_set_max_width_chars (GTK_LABEL (card->keys), 1);
  gtk_label_set_line_wrap (GTK_LABEL (card->keys), FALSE);
  gtk_style_context_add_class (gtk_widget_get_style_context (card->keys), "carpace-quiet");
  gtk_box_pack_start (GTK_BOX (row), carpace_card_line (_("no discomfort")), FALSE, FALSE, 0);
  gtk_box_set_center_widget (GTK_BOX (row), card->keys);
  gtk_box_pack_end (GTK_BOX (row), carpace_card_line (_("worst imaginable")), FALSE, FALSE, 0);
  gtk_widget_show (row);
  return row;
}

static GtkWidget *
make_numbers (CarpaceRatingCard *card)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  card->numbers = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_set_halign (card->numbers, GTK_ALIGN_CENTER); /* equal squares, to the pixel */
  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  for (int number = 0; number < NUMBERS; number++)
    gtk_box_pack_start (GTK_BOX (row), card->squares[number] = make_square (card, number), TRUE, TRUE, 0);
  gtk_widget_show_all (row);
  gtk_box_pack_start (GTK_BOX (card->numbers), row, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->numbers), card->ends = make_ends (card), FALSE, FALSE, 0);
  return card->numbers;
}

static GtkWidget *
make_sites (CarpaceRatingCard *card)
{
  GtkWidget *back = carpace_card_button (_("Back"));

  g_signal_connect_swapped (back, "clicked", G_CALLBACK (no_site_clicked), card);
  return card->sites = carpace_site_choice_new (site_chosen, card, back);
}

/* How long it stays, on a rail. */
static GtkWidget *
make_aside (CarpaceRatingCard *card)
{
  card->aside = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  card->rail = carpace_rail_new ();
  card->seconds = carpace_card_line ("");
  gtk_style_context_add_class (gtk_widget_get_style_context (card->seconds), "carpace-quiet");
  gtk_widget_set_size_request (card->rail, 72, 20);
  gtk_box_pack_start (GTK_BOX (card->aside), card->rail, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (card->aside), card->seconds, FALSE, FALSE, 0);
  return card->aside;
}

static void draw_room (CarpaceRatingCard *card);
static void draw_why (CarpaceRatingCard *card);

static void
tightened (void *user, bool tight)
{
  CarpaceRatingCard *card = user;

  card->tight = tight;
  gtk_widget_set_visible (card->ends, !tight);
  gtk_widget_set_visible (card->rail, !tight); /* the seconds beside it say the same */
  carpace_site_choice_set_tight (card->sites, tight);
  if (card->has_drawn)
    draw_why (card);
}

static void
formed (void *user, CarpaceForm form)
{
  CarpaceRatingCard *card = user;

  card->form = form;
  carpace_site_choice_set_small (card->sites, form == CARPACE_FORM_SMALL);
  if (card->has_drawn)
    draw_room (card);
}

CarpaceRatingCard *
carpace_rating_card_new (const CarpaceOwner *owner)
{
  CarpaceRatingCard *card = g_new0 (CarpaceRatingCard, 1);
  GtkBox *box;

  card->owner = owner;
  card->card = carpace_card_new ("rating-card", _("How does your hand feel?"));
  box = carpace_card_box (card->card);
  gtk_box_pack_start (box, make_numbers (card), FALSE, FALSE, 0);
  gtk_box_pack_start (box, make_sites (card), FALSE, FALSE, 0);
  carpace_card_set_aside (card->card, make_aside (card));
  card->done = carpace_card_add_answer (card->card, 1, _("_Done"), done_clicked, card);
  card->where = carpace_card_add_answer (card->card, 2, _("_Where is it?"), where_clicked, card);
  card->correct = carpace_card_add_answer (card->card, 3, _("_Correct"), correct_clicked, card);
  card->start_without = carpace_card_add_event (card->card, 0, _("_Start without a rating"), owner, CARPACE_EVENT_START);
  carpace_card_on_form (card->card, formed, card);
  carpace_card_on_tight (card->card, tightened);
  carpace_card_on_key (card->card, key_pressed, card);
  carpace_card_on_seen (card->card, owner->redraw, owner->self);
  carpace_card_on_close (card->card, closed, card);
  return card;
}

void
carpace_rating_card_free (CarpaceRatingCard *card)
{
  if (!card)
    return;
  stay (card);
  carpace_card_free (card->card);
  g_free (card);
}

CarpaceCard *
carpace_rating_card_card (CarpaceRatingCard *card)
{
  return card->card;
}

unsigned
carpace_rating_card_draws (const CarpaceRatingCard *card)
{
  return card->draws;
}

void
carpace_rating_card_hide (CarpaceRatingCard *card)
{
  carpace_card_hide (card->card);
  closed (card);
}

/* ---- how long it stays ---- */

static void
draw_stay (CarpaceRatingCard *card)
{
  int64_t to_go_ms = MAX (card->stays_until_ms - g_get_monotonic_time () / 1000, 0);
  int seconds = (int) ((to_go_ms + 999) / 1000);
  const CarpaceRailView rail = { .length_ms = STAYS_MS, .done_ms = STAYS_MS - seconds * CARPACE_SECOND_MS, .runs = true };
  g_autofree char *text = carpace_text_duration (seconds * CARPACE_SECOND_MS);

  carpace_rail_set (card->rail, &rail);
  carpace_card_say (card->seconds, text);
}

static gboolean
second_passed (gpointer user)
{
  CarpaceRatingCard *card = user;

  if (g_get_monotonic_time () / 1000 < card->stays_until_ms)
    {
      draw_stay (card);
      return G_SOURCE_CONTINUE;
    }
  card->second = 0;
  carpace_rating_card_hide (card);
  return G_SOURCE_REMOVE;
}

/* What follows is read, then the card goes by itself. */
static void
go_after (CarpaceRatingCard *card, int64_t ms)
{
  stay (card);
  card->stays_until_ms = g_get_monotonic_time () / 1000 + ms;
  card->second = g_timeout_add (1000, second_passed, card);
}

/* ---- drawing ---- */

static Drawn
drawn_of (const CarpaceRatingCard *card, const CarpaceView *view, CarpaceInstant now)
{
  const CarpaceRatingView *rating = &view->rating;
  g_autofree char *follows = carpace_text_rated (view, now), *why = carpace_text_rated_why (view);
  Drawn drawn = { .asks = rating->open || card->changing ? ASKS_NUMBER : card->locating ? ASKS_SITE : ASKS_NOTHING,
                  .open = rating->open,
                  .starts = rating->open && rating->asked_by_start,
                  .changeable = rating->changeable_for_ms > 0,
                  .above_stop = view->plan && rating->given > view->plan->stop_above,
                  .block = rating->block,
                  .given = rating->given,
                  .site = rating->site,
                  .left = view->plan && view->plan->side == CARPACE_SIDE_LEFT };

  if (rating->given >= 0 && drawn.asks == ASKS_NOTHING)
    {
      g_strlcpy (drawn.follows, follows, sizeof drawn.follows);
      g_strlcpy (drawn.why, why, sizeof drawn.why);
    }
  return drawn;
}

static bool
equal (const Drawn *a, const Drawn *b)
{
  return a->asks == b->asks && a->open == b->open && a->starts == b->starts && a->changeable == b->changeable
         && a->above_stop == b->above_stop && a->block == b->block && a->given == b->given && a->site == b->site && a->left == b->left
         && strcmp (a->follows, b->follows) == 0 && strcmp (a->why, b->why) == 0;
}

static char *
heading_line (const Drawn *drawn)
{
  switch (drawn->asks)
    {
    case ASKS_NUMBER: return g_strdup (_("How does your hand feel?"));
    case ASKS_SITE: return g_strdup (_("Where is it? One more tap, if you like."));
    case ASKS_NOTHING: break;
    }
  return g_strdup (drawn->follows);
}

static char *
why_line (const Drawn *drawn)
{
  if (drawn->asks != ASKS_NUMBER)
    return g_strdup (drawn->asks == ASKS_NOTHING ? drawn->why : "");
  if (!drawn->open)
    return g_strdup_printf (_("It was discomfort %d. One tap corrects it."), drawn->given);
  if (drawn->starts)
    return g_strdup (_("A tap rates and starts the next block."));
  if (drawn->block > 0)
    return g_strdup_printf (_("At the end of block %d. One tap."), drawn->block);
  return g_strdup (_("At the end of the match. One tap."));
}

/* Where there is no row for the ends, they have the reason's. */
static void
draw_why (CarpaceRatingCard *card)
{
  g_autofree char *why = why_line (&card->drawn);

  carpace_card_say (carpace_card_why (card->card),
                    card->tight && card->drawn.asks == ASKS_NUMBER ? _("0 no discomfort, 10 worst imaginable") : why);
}

static void
draw_keys (CarpaceRatingCard *card)
{
  carpace_card_say (card->keys, carpace_card_names_chord (card->card) ? _("0 to 9; 10: next key") : "");
}

/* Small, the nine sites have the place of the reason and of the foot row. */
static void
draw_room (CarpaceRatingCard *card)
{
  const Drawn *drawn = &card->drawn;
  bool nothing = drawn->asks == ASKS_NOTHING, small = card->form == CARPACE_FORM_SMALL;

  gtk_widget_set_visible (card->numbers, drawn->asks == ASKS_NUMBER);
  gtk_widget_set_visible (card->sites, drawn->asks == ASKS_SITE);
  gtk_widget_set_visible (card->done, nothing);
  gtk_widget_set_visible (card->where, nothing && drawn->given > 0);
  gtk_widget_set_visible (card->correct, nothing && drawn->changeable);
  gtk_widget_set_visible (card->start_without, drawn->starts && !small);
  gtk_widget_set_visible (card->aside, nothing && card->stays_until_ms > 0 && !drawn->above_stop);
  carpace_card_set_away (card->card, drawn->asks != ASKS_SITE || !small);
  carpace_card_set_body_keys (card->card, drawn->asks != ASKS_NOTHING);
  draw_keys (card);
  carpace_site_choice_set (card->sites, drawn->site, drawn->left);
}

static void
draw_all (CarpaceRatingCard *card, const Drawn *drawn)
{
  g_autofree char *heading = heading_line (drawn);

  card->draws++;
  card->drawn = *drawn;
  card->has_drawn = true;
  carpace_card_say (carpace_card_heading_of (card->card), heading);
  carpace_card_set_bar (card->card, "org.carpace.Carpace-rating-due-symbolic", heading, drawn->asks == ASKS_NUMBER ? "0–9" : "1");
  draw_why (card);
  draw_room (card);
  carpace_card_fit (card->card);
}

static bool
has_something (const CarpaceRatingCard *card, const CarpaceView *view)
{
  return !view->on_air && (view->rating.open || view->rating.given >= 0);
}

/* What was asked for was answered: what follows stays for a moment. */
static void
answered (CarpaceRatingCard *card, const CarpaceView *view)
{
  go_after (card, card->drawn.above_stop ? MAX (view->rating.changeable_for_ms, STAYS_MS) : STAYS_MS);
  draw_stay (card);
  draw_room (card);
  carpace_card_fit (card->card);
}

void
carpace_rating_card_draw (CarpaceRatingCard *card, const CarpaceView *view, CarpaceInstant now)
{
  bool in_block = carpace_state_in_block (view->state), begins = in_block && !card->in_block;
  bool asked = card->has_drawn && card->drawn.asks != ASKS_NOTHING;
  Drawn drawn;

  card->in_block = in_block;
  if (!carpace_card_is_shown (card->card))
    return;
  if (card->changing && view->rating.changeable_for_ms <= 0)
    card->changing = false;
  drawn = drawn_of (card, view, now);
  if (!has_something (card, view) || (begins && !drawn.open && !drawn.above_stop))
    {
      carpace_rating_card_hide (card);
      return;
    }
  if (card->has_drawn && equal (&drawn, &card->drawn))
    return;
  if (drawn.asks != ASKS_NOTHING)
    stay (card);
  draw_all (card, &drawn);
  if (drawn.asks == ASKS_NOTHING && asked)
    answered (card, view);
}

void
carpace_rating_card_show (CarpaceRatingCard *card, CarpaceCardWay way, const CarpaceView *view, CarpaceInstant now)
{
  if (!has_something (card, view))
    return;
  card->in_block = carpace_state_in_block (view->state);
  if (!carpace_card_is_shown (card->card))
    {
      Drawn drawn = drawn_of (card, view, now);
      draw_all (card, &drawn);
    }
  carpace_card_show (card->card, way);
  carpace_rating_card_draw (card, view, now);
}

void
carpace_rating_card_arm (CarpaceRatingCard *card, bool armed)
{
  card->armed = armed;
  carpace_card_arm (card->card, armed);
}
