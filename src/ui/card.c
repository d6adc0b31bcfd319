/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card.c: the window that a card lives in, and the look of cards. */
#include "ui/card.h"

#include <glib/gi18n.h>

#ifdef GDK_WINDOWING_X11
#include <gdk/gdkx.h>
#endif

#include "ui/screens.h"

#define MARGIN_PX 24
#define SPACING_PX 12
#define MOST_CHARACTERS 62
/* A card that shows itself takes no click for this long: this project's own
 * choice, above the time of a reaction to something new. */
#define DEAF_US (500 * 1000)
/* A window that others keep covering is not raised more often than this. */
#define RAISE_EVERY_US (1000 * 1000)

struct CarpaceCard
{
  char *name;
  char *title;
  GtkWidget *box;
  GtkWidget *start; /* has the focus at first */
  GtkWidget *window;
  CarpaceCardWay way;
  GdkRectangle area;
  int left, top;
  bool placed;
  bool covered;
  gint64 shown_at_us;
  gint64 raised_at_us;
  void (*closed) (void *user);
  void *closed_user;
  void (*seen) (void *user);
  void *seen_user;
  bool (*key) (void *user, const GdkEventKey *event);
  void *key_user;
};

void
carpace_card_style (void)
{
  static gsize done;
  GtkCssProvider *css;

  if (!g_once_init_enter (&done))
    return;
  css = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (css, "/org/carpace/Carpace/ui/carpace.css");
  gtk_style_context_add_provider_for_screen (gdk_screen_get_default (), GTK_STYLE_PROVIDER (css),
                                             GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_object_unref (css);
  g_once_init_leave (&done, 1);
}

CarpaceCard *
carpace_card_new (const char *name, const char *title)
{
  CarpaceCard *card = g_new0 (CarpaceCard, 1);

  carpace_card_style ();
  card->name = g_strdup (name);
  card->title = g_strdup (title);
  card->box = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_VERTICAL, SPACING_PX));
  g_object_set (card->box, "margin", MARGIN_PX, NULL);
  return card;
}

void
carpace_card_free (CarpaceCard *card)
{
  if (!card)
    return;
  card->seen = NULL;
  carpace_card_hide (card);
  gtk_widget_destroy (card->box);
  g_object_unref (card->box);
  g_free (card->name);
  g_free (card->title);
  g_free (card);
}

GtkBox *
carpace_card_box (CarpaceCard *card)
{
  return GTK_BOX (card->box);
}

GtkWindow *
carpace_card_window (CarpaceCard *card)
{
  return card->window ? GTK_WINDOW (card->window) : NULL;
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

static gboolean
close_asked (CarpaceCard *card)
{
  carpace_card_hide (card);
  if (card->closed)
    card->closed (card->closed_user);
  return TRUE;
}

static gboolean
key_pressed (GtkWidget *window, GdkEventKey *event, CarpaceCard *card)
{
  if (event->keyval == GDK_KEY_Escape)
    return close_asked (card);
  return card->key && card->key (card->key_user, event);
}

/* Something lies over the card: back to the top, but no tug of war. */
static gboolean
visibility_changed (GtkWidget *window, GdkEventVisibility *event, CarpaceCard *card)
{
  gint64 now_us = g_get_monotonic_time ();
  bool was_covered = card->covered;

  card->covered = event->state == GDK_VISIBILITY_FULLY_OBSCURED;
  if (card->covered != was_covered && card->seen)
    card->seen (card->seen_user);
  if (card->way == CARPACE_CARD_BY_ITSELF && event->state != GDK_VISIBILITY_UNOBSCURED
      && now_us - card->raised_at_us > RAISE_EVERY_US)
    {
      card->raised_at_us = now_us;
      gdk_window_raise (gtk_widget_get_window (window));
    }
  return FALSE;
}

/* In the middle at first. A card that grows keeps its place, so that a second
 * tap meets what the first one met, unless it would not fit. */
static void
place (CarpaceCard *card, const GtkAllocation *size)
{
  GdkRectangle *area = &card->area;

  if (!card->placed)
    {
      carpace_screens_choose (gtk_widget_get_display (card->window), area);
      card->left = area->x + MAX (area->width - size->width, 0) / 2;
      card->top = area->y + MAX (area->height - size->height, 0) / 2;
      card->placed = true;
    }
  card->left = MAX (MIN (card->left, area->x + area->width - size->width), area->x);
  card->top = MAX (MIN (card->top, area->y + area->height - size->height), area->y);
  gtk_window_move (GTK_WINDOW (card->window), card->left, card->top);
}

static void
size_allocated (GtkWidget *window, GtkAllocation *allocation, CarpaceCard *card)
{
  if (card->way == CARPACE_CARD_BY_ITSELF)
    place (card, allocation);
}

/* Only a window that no window manager manages lies above a full-screen client
 * everywhere. Where there are none (Wayland), the next best. */
static GtkWidget *
window_for (GdkDisplay *display, CarpaceCardWay way)
{
  GtkWidget *window;
  bool unmanaged = false;

#ifdef GDK_WINDOWING_X11
  unmanaged = way == CARPACE_CARD_BY_ITSELF && GDK_IS_X11_DISPLAY (display);
#endif
  window = gtk_window_new (unmanaged ? GTK_WINDOW_POPUP : GTK_WINDOW_TOPLEVEL);
  gtk_window_set_position (GTK_WINDOW (window), GTK_WIN_POS_CENTER);
  gtk_window_set_keep_above (GTK_WINDOW (window), TRUE);
  gtk_window_set_resizable (GTK_WINDOW (window), FALSE);
  gtk_window_set_type_hint (GTK_WINDOW (window), unmanaged ? GDK_WINDOW_TYPE_HINT_NOTIFICATION : GDK_WINDOW_TYPE_HINT_DIALOG);
  if (way == CARPACE_CARD_BY_ITSELF)
    {
      gtk_window_set_accept_focus (GTK_WINDOW (window), FALSE);
      gtk_window_set_focus_on_map (GTK_WINDOW (window), FALSE);
      gtk_window_set_skip_taskbar_hint (GTK_WINDOW (window), TRUE);
    }
  return window;
}

static void
make_window (CarpaceCard *card, CarpaceCardWay way)
{
  card->window = window_for (gdk_display_get_default (), way);
  card->way = way;
  gtk_widget_set_name (card->window, card->name);
  gtk_window_set_title (GTK_WINDOW (card->window), card->title);
  gtk_window_set_icon_name (GTK_WINDOW (card->window), "org.carpace.Carpace");
  gtk_style_context_add_class (gtk_widget_get_style_context (card->window), "carpace-card");
  if (gtk_window_get_window_type (GTK_WINDOW (card->window)) == GTK_WINDOW_POPUP)
    gtk_style_context_add_class (gtk_widget_get_style_context (card->window), "framed");
  atk_object_set_role (gtk_widget_get_accessible (card->window), ATK_ROLE_DIALOG);
  carpace_card_name (card->window, card->title, NULL);
  gtk_widget_add_events (card->window, GDK_VISIBILITY_NOTIFY_MASK);
  g_signal_connect (card->window, "size-allocate", G_CALLBACK (size_allocated), card);
  g_signal_connect (card->window, "visibility-notify-event", G_CALLBACK (visibility_changed), card);
  g_signal_connect (card->window, "key-press-event", G_CALLBACK (key_pressed), card);
  g_signal_connect_swapped (card->window, "delete-event", G_CALLBACK (close_asked), card);
  gtk_container_add (GTK_CONTAINER (card->window), card->box);
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
  make_window (card, way);
  card->covered = card->placed = false;
  card->shown_at_us = card->raised_at_us = g_get_monotonic_time ();
  gtk_widget_show (card->box);
  if (way == CARPACE_CARD_BY_PLAYER)
    gtk_window_present (GTK_WINDOW (card->window));
  else
    gtk_widget_show (card->window);
  if (card->start)
    gtk_widget_grab_focus (card->start);
}

void
carpace_card_hide (CarpaceCard *card)
{
  GtkWidget *window = card->window;

  if (!window)
    return;
  card->window = NULL;
  g_signal_handlers_disconnect_by_data (window, card);
  gtk_container_remove (GTK_CONTAINER (window), card->box);
  gtk_widget_destroy (window);
  if (card->seen)
    card->seen (card->seen_user);
}

bool
carpace_card_is_shown (const CarpaceCard *card)
{
  return card->window != NULL;
}

bool
carpace_card_is_seen (const CarpaceCard *card)
{
  return card->window && !card->covered && gtk_widget_get_mapped (card->window);
}

bool
carpace_card_takes_clicks (const CarpaceCard *card)
{
  return card->way == CARPACE_CARD_BY_PLAYER || g_get_monotonic_time () - card->shown_at_us >= DEAF_US;
}

GtkWidget *
carpace_card_line (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), MOST_CHARACTERS);
  gtk_widget_set_visible (label, text && *text);
  return label;
}

GtkWidget *
carpace_card_heading (const char *text)
{
  GtkWidget *label = carpace_card_line (text);
  gtk_style_context_add_class (gtk_widget_get_style_context (label), "carpace-heading");
  return label;
}

GtkWidget *
carpace_card_button (const char *mnemonic)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (mnemonic);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-button");
  gtk_widget_show (button);
  return button;
}

GtkWidget *
carpace_card_add_heading (CarpaceCard *card, const char *text)
{
  GtkWidget *label = carpace_card_heading (text);

  card->start = gtk_event_box_new ();
  gtk_event_box_set_visible_window (GTK_EVENT_BOX (card->start), FALSE);
  gtk_widget_set_can_focus (card->start, TRUE);
  gtk_container_add (GTK_CONTAINER (card->start), label);
  carpace_card_name (card->start, text, NULL);
  gtk_widget_show (card->start);
  gtk_box_pack_start (GTK_BOX (card->box), card->start, FALSE, FALSE, 0);
  return label;
}

void
carpace_card_say (GtkWidget *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), text) != 0)
    gtk_label_set_text (GTK_LABEL (label), text);
  gtk_widget_set_visible (label, *text);
}

void
carpace_card_name (GtkWidget *widget, const char *name, const char *description)
{
  AtkObject *accessible = gtk_widget_get_accessible (widget);

  atk_object_set_name (accessible, name);
  if (description)
    atk_object_set_description (accessible, description);
}
