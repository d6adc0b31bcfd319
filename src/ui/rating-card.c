/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rating-card.c: eleven squares, their ends in words, and what follows. */
#include "ui/rating-card.h"

#include <glib/gi18n.h>
#include <string.h>

#include "text/face-text.h"

#define NUMBERS 11
#define SITES_A_ROW 3
/* Of the evdev key codes, as X and Wayland tell them. */
#define KEYCODE_OF_1 10
/* How long what follows stays on the screen where nothing can be lost by it. */
#define STAYS_MS 8000

/* All that the card draws. */
typedef struct
{
  bool open;
  bool starts;      /* a tap rates and starts */
  bool changing;    /* asked again, to change what was given */
  bool changeable;
  bool above_stop;
  int32_t block;
  int32_t given;
  CarpaceSite site;
  int armed_s;      /* seconds a chord holds, 0: not armed */
  char follows[512];
} Drawn;

struct CarpaceRatingCard
{
  const CarpaceOwner *owner;
  CarpaceCard *card;
  GtkWidget *which, *squares[NUMBERS], *follows, *where, *sites[CARPACE_N_SITES], *site_grid;
  GtkWidget *starts, *armed, *change, *start_without, *close;
  bool changing;
  gint64 armed_until_us;
  guint armed_timer;
  guint stays_timer;
  Drawn drawn;
  bool has_drawn;
  unsigned draws;
};

static void
tell_rating (CarpaceRatingCard *card, int32_t discomfort, CarpaceSite site)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_RATE, .discomfort = discomfort, .site = site };

  card->changing = false;
  carpace_rating_card_arm (card, false);
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
site_clicked (GtkButton *button, CarpaceRatingCard *card)
{
  CarpaceSite site = (CarpaceSite) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "site"));

  tell_rating (card, card->drawn.given, site);
  if (!card->drawn.above_stop)
    carpace_rating_card_hide (card);
}

static void
change_clicked (CarpaceRatingCard *card)
{
  card->changing = true;
  card->owner->redraw (card->owner->self);
}

static void
start_clicked (CarpaceRatingCard *card)
{
  CarpaceEvent event = { .kind = CARPACE_EVENT_START };
  card->owner->tell (card->owner->self, &event);
}

static bool
squares_are_open (const CarpaceRatingCard *card)
{
  return card->drawn.open || card->changing;
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

static bool
key_pressed (void *user, const GdkEventKey *event)
{
  CarpaceRatingCard *card = user;
  int number = number_of_key (event);

  if (number < 0 || (event->state & gtk_accelerator_get_default_mod_mask () & ~GDK_SHIFT_MASK)
      || !squares_are_open (card))
    return false;
  tell_rating (card, number, CARPACE_SITE_NONE);
  return true;
}

static void
clear_timers (CarpaceRatingCard *card)
{
  g_clear_handle_id (&card->armed_timer, g_source_remove);
  g_clear_handle_id (&card->stays_timer, g_source_remove);
  card->armed_until_us = 0;
}

static void
closed (void *user)
{
  CarpaceRatingCard *card = user;
  clear_timers (card);
  card->changing = false;
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
make_squares (CarpaceRatingCard *card)
{
  GtkWidget *grid = gtk_grid_new ();
  GtkWidget *none = carpace_card_line (_("no discomfort")), *worst = carpace_card_line (_("the worst imaginable"));

  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  for (int number = 0; number < NUMBERS; number++)
    gtk_grid_attach (GTK_GRID (grid), card->squares[number] = make_square (card, number), number, 0, 1, 1);
  gtk_label_set_xalign (GTK_LABEL (worst), 1);
  gtk_label_set_justify (GTK_LABEL (worst), GTK_JUSTIFY_RIGHT);
  gtk_grid_attach (GTK_GRID (grid), none, 0, 1, 5, 1);
  gtk_grid_attach (GTK_GRID (grid), worst, 6, 1, 5, 1);
  gtk_widget_show_all (grid);
  return grid;
}

static GtkWidget *
make_sites (CarpaceRatingCard *card)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  for (int site = CARPACE_SITE_PALM_SIDE; site < CARPACE_N_SITES; site++)
    {
      GtkWidget *button = gtk_button_new_with_label (carpace_text_site ((CarpaceSite) site));
      gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-button");
      g_object_set_data (G_OBJECT (button), "site", GINT_TO_POINTER (site));
      g_signal_connect (button, "clicked", G_CALLBACK (site_clicked), card);
      gtk_grid_attach (GTK_GRID (grid), card->sites[site] = button, (site - 1) % SITES_A_ROW, (site - 1) / SITES_A_ROW, 1, 1);
      gtk_widget_show (button);
    }
  return grid;
}

static GtkWidget *
make_buttons (CarpaceRatingCard *card)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  card->change = carpace_card_button (_("C_hange"));
  card->start_without = carpace_card_button (_("_Start without a rating"));
  card->close = carpace_card_button (_("_Close"));
  gtk_box_pack_start (GTK_BOX (row), card->change, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (row), card->start_without, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (row), card->close, FALSE, FALSE, 0);
  g_signal_connect_swapped (card->change, "clicked", G_CALLBACK (change_clicked), card);
  g_signal_connect_swapped (card->start_without, "clicked", G_CALLBACK (start_clicked), card);
  g_signal_connect_swapped (card->close, "clicked", G_CALLBACK (carpace_rating_card_hide), card);
  gtk_widget_show (row);
  return row;
}

CarpaceRatingCard *
carpace_rating_card_new (const CarpaceOwner *owner)
{
  CarpaceRatingCard *card = g_new0 (CarpaceRatingCard, 1);
  GtkBox *box;

  card->owner = owner;
  card->card = carpace_card_new ("rating-card", _("How does your hand feel?"));
  box = carpace_card_box (card->card);
  carpace_card_add_heading (card->card, _("How does your hand feel?"));
  card->which = carpace_card_line ("");
  card->starts = carpace_card_line (_("A tap rates and starts the next block."));
  card->armed = carpace_card_line ("");
  card->follows = carpace_card_line ("");
  card->where = carpace_card_line (_("Where is it? One more tap, if you like."));
  gtk_box_pack_start (box, card->which, FALSE, FALSE, 0);
  gtk_box_pack_start (box, make_squares (card), FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->starts, FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->armed, FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->follows, FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->where, FALSE, FALSE, 0);
  gtk_box_pack_start (box, card->site_grid = make_sites (card), FALSE, FALSE, 0);
  gtk_box_pack_start (box, make_buttons (card), FALSE, FALSE, 0);
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
  clear_timers (card);
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

static gboolean
stayed (gpointer user)
{
  CarpaceRatingCard *card = user;
  card->stays_timer = 0;
  carpace_rating_card_hide (card);
  return G_SOURCE_REMOVE;
}

/* What follows is read, then the card goes by itself. */
static void
let_go_after (CarpaceRatingCard *card, int64_t ms)
{
  g_clear_handle_id (&card->stays_timer, g_source_remove);
  card->stays_timer = g_timeout_add ((guint) MAX (ms, 1), stayed, card);
}

static int
armed_seconds (const CarpaceRatingCard *card)
{
  gint64 rest_us = card->armed_until_us - g_get_monotonic_time ();
  return card->armed_until_us && rest_us > 0 ? (int) ((rest_us + G_USEC_PER_SEC - 1) / G_USEC_PER_SEC) : 0;
}

static Drawn
drawn_of (const CarpaceRatingCard *card, const CarpaceView *view, CarpaceInstant now)
{
  const CarpaceRatingView *rating = &view->rating;
  g_autofree char *follows = carpace_text_rating_follows (view, now);
  Drawn drawn = { .open = rating->open,
                  .starts = rating->open && rating->asked_by_start,
                  .changing = card->changing,
                  .changeable = rating->changeable_for_ms > 0,
                  .above_stop = view->plan && rating->given > view->plan->stop_above,
                  .block = rating->block,
                  .given = rating->given,
                  .site = rating->site,
                  .armed_s = armed_seconds (card) };

  if (rating->given >= 0 && !rating->open && !card->changing)
    g_strlcpy (drawn.follows, follows, sizeof drawn.follows);
  return drawn;
}

static bool
equal (const Drawn *a, const Drawn *b)
{
  return a->open == b->open && a->starts == b->starts && a->changing == b->changing && a->changeable == b->changeable
         && a->above_stop == b->above_stop && a->block == b->block && a->given == b->given && a->site == b->site
         && a->armed_s == b->armed_s && strcmp (a->follows, b->follows) == 0;
}

static char *
which_line (const Drawn *drawn)
{
  if (drawn->changing)
    return g_strdup_printf (_("It was discomfort %d. One tap changes it."), drawn->given);
  if (!drawn->open)
    return g_strdup_printf (_("Noted: discomfort %d."), drawn->given);
  if (drawn->block > 0)
    return g_strdup_printf (_("At the end of block %d. One tap."), drawn->block);
  return g_strdup (_("At the end of the match. One tap."));
}

static void
draw_squares (CarpaceRatingCard *card, const Drawn *drawn)
{
  bool open = drawn->open || drawn->changing;

  for (int number = 0; number < NUMBERS; number++)
    {
      GtkStyleContext *style = gtk_widget_get_style_context (card->squares[number]);
      gtk_widget_set_sensitive (card->squares[number], open);
      if (!open && number == drawn->given)
        gtk_style_context_add_class (style, "given");
      else
        gtk_style_context_remove_class (style, "given");
    }
}

static void
draw_sites (CarpaceRatingCard *card, const Drawn *drawn)
{
  bool asks = !drawn->open && !drawn->changing && drawn->given > 0;

  gtk_widget_set_visible (card->where, asks);
  gtk_widget_set_visible (card->site_grid, asks);
  for (int site = CARPACE_SITE_PALM_SIDE; site < CARPACE_N_SITES; site++)
    {
      GtkStyleContext *style = gtk_widget_get_style_context (card->sites[site]);
      if (drawn->site == (CarpaceSite) site)
        gtk_style_context_add_class (style, "given");
      else
        gtk_style_context_remove_class (style, "given");
    }
}

static void
draw_armed (CarpaceRatingCard *card, int armed_s)
{
  g_autofree char *armed = armed_s > 0 ? g_strdup_printf (_("Press 0 to 9, or for 10 the key right of the last digit: %d s"), armed_s) : g_strdup ("");
  GtkWindow *window = carpace_card_window (card->card);

  carpace_card_say (card->armed, armed);
  if (window && armed_s > 0)
    gtk_style_context_add_class (gtk_widget_get_style_context (GTK_WIDGET (window)), "armed");
  else if (window)
    gtk_style_context_remove_class (gtk_widget_get_style_context (GTK_WIDGET (window)), "armed");
}

static void
draw_all (CarpaceRatingCard *card, const Drawn *drawn)
{
  g_autofree char *which = which_line (drawn);
  bool given = !drawn->open && !drawn->changing;

  card->draws++;
  card->drawn = *drawn;
  card->has_drawn = true;
  carpace_card_say (card->which, which);
  carpace_card_say (card->follows, drawn->follows);
  gtk_widget_set_visible (card->starts, drawn->starts);
  gtk_widget_set_visible (card->start_without, drawn->starts);
  gtk_widget_set_visible (card->change, given && drawn->changeable);
  draw_squares (card, drawn);
  draw_sites (card, drawn);
  draw_armed (card, drawn->armed_s);
}

static bool
has_something (const CarpaceRatingCard *card, const CarpaceView *view)
{
  return !view->on_air && (view->rating.open || view->rating.given >= 0);
}

/* A number was just given while the squares were open: what follows stays. */
static void
given_now (CarpaceRatingCard *card, const CarpaceView *view)
{
  bool above_stop = card->drawn.above_stop;

  if (carpace_state_in_block (view->state) && !above_stop)
    carpace_rating_card_hide (card);
  else
    let_go_after (card, above_stop ? MAX (view->rating.changeable_for_ms, STAYS_MS) : STAYS_MS);
}

void
carpace_rating_card_draw (CarpaceRatingCard *card, const CarpaceView *view, CarpaceInstant now)
{
  Drawn drawn;
  bool were_open = card->has_drawn && (card->drawn.open || card->drawn.changing);

  if (!carpace_card_is_shown (card->card))
    return;
  if (!has_something (card, view))
    {
      carpace_rating_card_hide (card);
      return;
    }
  if (card->changing && view->rating.changeable_for_ms <= 0)
    card->changing = false;
  drawn = drawn_of (card, view, now);
  if (card->has_drawn && equal (&drawn, &card->drawn))
    return;
  draw_all (card, &drawn);
  if (drawn.open || drawn.changing)
    g_clear_handle_id (&card->stays_timer, g_source_remove);
  else if (were_open)
    given_now (card, view);
}

void
carpace_rating_card_show (CarpaceRatingCard *card, CarpaceCardWay way, const CarpaceView *view, CarpaceInstant now)
{
  if (!has_something (card, view))
    return;
  if (!carpace_card_is_shown (card->card))
    {
      Drawn drawn = drawn_of (card, view, now);
      draw_all (card, &drawn);
    }
  carpace_card_show (card->card, way);
  carpace_rating_card_draw (card, view, now);
  draw_armed (card, card->drawn.armed_s);
}

static gboolean
armed_second (gpointer user)
{
  CarpaceRatingCard *card = user;

  card->drawn.armed_s = armed_seconds (card);
  draw_armed (card, card->drawn.armed_s);
  if (card->drawn.armed_s > 0)
    return G_SOURCE_CONTINUE;
  card->armed_timer = 0;
  card->armed_until_us = 0;
  return G_SOURCE_REMOVE;
}

void
carpace_rating_card_arm (CarpaceRatingCard *card, bool armed)
{
  g_clear_handle_id (&card->armed_timer, g_source_remove);
  card->armed_until_us = armed ? g_get_monotonic_time () + CARPACE_RATING_ARMED_MS * 1000 : 0;
  if (armed)
    card->armed_timer = g_timeout_add_seconds (1, armed_second, card);
  card->drawn.armed_s = armed_seconds (card);
  draw_armed (card, card->drawn.armed_s);
}
