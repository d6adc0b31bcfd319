/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card-window.c: the window that a card lives in, and which form of it is up. */
#include "ui/card-private.h"

#include "ui/card-place.h"
#include "ui/screens.h"

#define SMALL_SPACING 4 /* inside; the rows themselves touch, each 44 high */
/* A card that shows itself takes no click for this long: this project's own
 * choice, above the time of a reaction to something new. */
#define DEAF_US (500 * 1000)
/* A window that others keep covering is not raised more often than this. */
#define RAISE_EVERY_US (1000 * 1000)

static void
seen_changed (CarpaceCard *card)
{
  if (card->seen)
    card->seen (card->seen_user);
}

void
carpace_card_put_away (CarpaceCard *card)
{
  carpace_card_hide (card);
  if (card->closed)
    card->closed (card->closed_user);
}

static gboolean
close_asked (CarpaceCard *card)
{
  carpace_card_put_away (card);
  return TRUE;
}

static int
digit_of (const GdkEventKey *event)
{
  if (event->state & gtk_accelerator_get_default_mod_mask ())
    return 0;
  if (event->keyval >= GDK_KEY_1 && event->keyval <= GDK_KEY_9)
    return (int) (event->keyval - GDK_KEY_0);
  return event->keyval >= GDK_KEY_KP_1 && event->keyval <= GDK_KEY_KP_9 ? (int) (event->keyval - GDK_KEY_KP_0) : 0;
}

static gboolean
key_pressed (GtkWidget *window, GdkEventKey *event, CarpaceCard *card)
{
  if (event->keyval == GDK_KEY_Escape)
    return close_asked (card);
  return (card->key && card->key (card->key_user, event)) || carpace_card_digit (card, digit_of (event));
}

/* Something lies over the card: back to the top, but no tug of war. */
static gboolean
visibility_changed (GtkWidget *window, GdkEventVisibility *event, CarpaceCard *card)
{
  gint64 now_us = g_get_monotonic_time ();
  bool was_covered = card->hidden;

  card->hidden = event->state == GDK_VISIBILITY_FULLY_OBSCURED;
  if (card->hidden != was_covered)
    seen_changed (card);
  if (card->way == CARPACE_CARD_BY_ITSELF && event->state != GDK_VISIBILITY_UNOBSCURED
      && now_us - card->raised_at_us > RAISE_EVERY_US)
    {
      card->raised_at_us = now_us;
      gdk_window_raise (gtk_widget_get_window (window));
    }
  return FALSE;
}

/* What the player opens is a window like any other, with the focus. */
static GtkWidget *
window_for_player (bool corner)
{
  GtkWidget *window = gtk_window_new (GTK_WINDOW_TOPLEVEL);

  gtk_window_set_position (GTK_WINDOW (window), corner ? GTK_WIN_POS_NONE : GTK_WIN_POS_CENTER);
  gtk_window_set_keep_above (GTK_WINDOW (window), TRUE);
  gtk_window_set_resizable (GTK_WINDOW (window), FALSE);
  gtk_window_set_type_hint (GTK_WINDOW (window), GDK_WINDOW_TYPE_HINT_DIALOG);
  return window;
}

static void
make_window (CarpaceCard *card, CarpaceCardWay way)
{
  card->window = way == CARPACE_CARD_BY_ITSELF ? carpace_place_window_new () : window_for_player (card->covered);
  card->way = way;
  gtk_widget_set_name (card->window, card->name);
  gtk_window_set_title (GTK_WINDOW (card->window), card->title);
  gtk_window_set_icon_name (GTK_WINDOW (card->window), "org.carpace.Carpace");
  gtk_style_context_add_class (gtk_widget_get_style_context (card->window), "carpace-card");
  if (carpace_card_is_framed (card))
    gtk_style_context_add_class (gtk_widget_get_style_context (card->window), "framed");
  gtk_window_set_decorated (GTK_WINDOW (card->window), !carpace_card_is_framed (card));
  atk_object_set_role (gtk_widget_get_accessible (card->window), ATK_ROLE_DIALOG);
  carpace_card_name (card->window, card->title, NULL);
  gtk_widget_add_events (card->window, GDK_VISIBILITY_NOTIFY_MASK);
  g_signal_connect (card->window, "size-allocate", G_CALLBACK (carpace_card_size_allocated), card);
  g_signal_connect (card->window, "visibility-notify-event", G_CALLBACK (visibility_changed), card);
  g_signal_connect (card->window, "key-press-event", G_CALLBACK (key_pressed), card);
  g_signal_connect_swapped (card->window, "delete-event", G_CALLBACK (close_asked), card);
  gtk_container_add (GTK_CONTAINER (card->window), card->box);
}

/* ---- shown and in which form ---- */

/* The widgets as the form has them; windows are put up and taken down elsewhere. */
static void
take_form (CarpaceCard *card)
{
  bool small = card->form == CARPACE_FORM_SMALL;
  GtkStyleContext *style = gtk_widget_get_style_context (card->box);

  if (small)
    gtk_style_context_add_class (style, "small");
  else
    gtk_style_context_remove_class (style, "small");
  if (small && card->tall)
    gtk_style_context_add_class (style, "tall");
  else
    gtk_style_context_remove_class (style, "tall");
  gtk_box_set_spacing (GTK_BOX (card->box), small ? 0 : CARPACE_CARD_FULL_SPACING);
  gtk_box_set_spacing (GTK_BOX (card->body), small ? SMALL_SPACING : CARPACE_CARD_FULL_SPACING);
  if (card->formed)
    card->formed (card->formed_user, card->form);
  carpace_card_fit (card);
}

static bool
has_card (CarpaceForm form)
{
  return form == CARPACE_FORM_FULL || form == CARPACE_FORM_SMALL;
}

/* Puts up what the form asks for. What is put up anew is deaf at first, and unarmed bars have no clicks. */
static void
put_up (CarpaceCard *card)
{
  bool was_up = gtk_widget_get_visible (card->window);

  if (card->bar)
    gtk_widget_hide (card->bar);
  if (has_card (card->form))
    {
      take_form (card);
      if (!was_up)
        card->shown_at_us = card->raised_at_us = g_get_monotonic_time ();
      if (card->way == CARPACE_CARD_BY_PLAYER)
        gtk_window_present (GTK_WINDOW (card->window));
      else
        gtk_widget_show (card->window);
      gtk_widget_grab_focus (card->start);
      return;
    }
  gtk_widget_hide (card->window);
  if (card->form == CARPACE_FORM_BAR)
    carpace_card_show_bar (card);
}

/* Moves what is up already, and lays it out anew. */
static void
move_to_area (CarpaceCard *card)
{
  GtkAllocation size;

  gtk_widget_get_allocation (card->window, &size);
  if (gtk_widget_get_mapped (card->window))
    carpace_card_place_window (card, card->window, size.width, size.height);
}

void
carpace_card_stand (CarpaceCard *card, CarpaceForm form, bool covered, const GdkRectangle *area)
{
  bool other_form = card->form != form, other_area = !gdk_rectangle_equal (area, &card->area);

  card->area = *area;
  card->covered = covered;
  card->form = form;
  if (!card->window || (!other_form && !other_area))
    return;
  if (other_form)
    put_up (card);
  else
    carpace_card_fit (card);
  if (other_area)
    move_to_area (card);
  if (other_form)
    seen_changed (card);
}

CarpaceForm
carpace_card_form (const CarpaceCard *card)
{
  return card->form;
}

CarpaceCardWay
carpace_card_way (const CarpaceCard *card)
{
  return card->way;
}

void
carpace_card_show (CarpaceCard *card, CarpaceCardWay way)
{
  if (card->window && (card->way == way || way == CARPACE_CARD_BY_ITSELF))
    {
      if (way == CARPACE_CARD_BY_PLAYER)
        gtk_window_present (GTK_WINDOW (card->window));
      return;
    }
  carpace_card_hide (card);
  card->covered = carpace_screens_covered (
    carpace_screens_choose (gdk_display_get_default (), carpace_card_other_monitor (), &card->area), way);
  make_window (card, way);
  card->hidden = card->armed = false;
  gtk_widget_show (card->box);
  put_up (card);
}

void
carpace_card_hide (CarpaceCard *card)
{
  GtkWidget *window = card->window;

  if (!window)
    return;
  card->window = NULL;
  if (card->bar)
    gtk_widget_hide (card->bar);
  g_signal_handlers_disconnect_by_data (window, card);
  gtk_container_remove (GTK_CONTAINER (window), card->box);
  gtk_widget_destroy (window);
  seen_changed (card);
}

bool
carpace_card_is_shown (const CarpaceCard *card)
{
  return card->window != NULL;
}

bool
carpace_card_is_seen (const CarpaceCard *card)
{
  return card->window && !card->hidden && gtk_widget_get_mapped (card->window);
}

void
carpace_card_deafen (CarpaceCard *card)
{
  card->shown_at_us = g_get_monotonic_time ();
}

bool
carpace_card_takes_clicks (const CarpaceCard *card)
{
  return card->by_key || card->way == CARPACE_CARD_BY_PLAYER || g_get_monotonic_time () - card->shown_at_us >= DEAF_US;
}

GtkWindow *
carpace_card_window (CarpaceCard *card)
{
  return card->window ? GTK_WINDOW (card->window) : NULL;
}

GtkWindow *
carpace_card_bar (CarpaceCard *card)
{
  return card->bar ? GTK_WINDOW (card->bar) : NULL;
}

void
carpace_card_on_close (CarpaceCard *card, void (*closed) (void *user), void *user)
{
  card->closed = closed;
  card->closed_user = user;
}

void
carpace_card_on_seen (CarpaceCard *card, void (*seen) (void *user), void *user)
{
  card->seen = seen;
  card->seen_user = user;
}

void
carpace_card_on_key (CarpaceCard *card, bool (*key) (void *user, const GdkEventKey *event), void *user)
{
  card->key = key;
  card->key_user = user;
}

void
carpace_card_on_form (CarpaceCard *card, void (*formed) (void *user, CarpaceForm form), void *user)
{
  card->formed = formed;
  card->formed_user = user;
}

void
carpace_card_on_tight (CarpaceCard *card, void (*tightened) (void *user, bool tight))
{
  card->tightened = tightened;
}
