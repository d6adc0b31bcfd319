/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card-size.c: how large a card is, and where; and the bar that stands for it in a run. */
#include "ui/card-private.h"

#include "ui/card-place.h"

#define BORDER 2       /* of a window that no window manager frames */
#define FULL_WIDTH 576 /* in every state and language */
#define SMALL_LEAST_HEIGHT 120
#define FRAME_MOST 8 /* of a window manager, below a window */
#define BAR_WIDTH 376
#define BAR_HEIGHT 28
#define MOST_CHARACTERS 62
#define TIGHT_HEADING 0.9
#define CLEAR_OF_EDGE 6 /* where three lines fill the head of a small card, and there is room; or half of it */

bool
carpace_card_is_framed (const CarpaceCard *card)
{
  return card->covered || (card->way == CARPACE_CARD_BY_ITSELF && carpace_place_way () != CARPACE_PLACE_NOWHERE);
}

void
carpace_card_set_extra (CarpaceCard *card, GtkWidget *extra)
{
  card->extra = extra;
}

void
carpace_card_set_tall (CarpaceCard *card, bool tall)
{
  card->tall = tall;
}

static void
set_widths (CarpaceCard *card, int width, int characters)
{
  gtk_widget_set_size_request (card->box, width, -1);
  gtk_label_set_max_width_chars (GTK_LABEL (card->heading), characters);
  gtk_label_set_max_width_chars (GTK_LABEL (card->why), characters);
}

static bool
fits (CarpaceCard *card, int width, int height)
{
  int least_width, least_height;

  gtk_widget_get_preferred_width (card->box, &least_width, NULL);
  if (least_width > width)
    return false;
  gtk_widget_get_preferred_height_for_width (card->box, width, &least_height, NULL);
  return least_height <= height;
}

/* What is long goes step by step: what is extra, the width, the reason, the chord, the one line of the quieter answers. */
enum { ALL, NO_EXTRA, WIDER, NO_REASON, NO_CHORD, TWO_LINES, N_STEPS };

/* By the label's own attributes: what a style changes is measured only after the next frame. */
void
carpace_card_shrink (GtkWidget *label, double by)
{
  PangoAttrList *list = pango_attr_list_new ();

  if (by < 1)
    pango_attr_list_insert (list, pango_attr_scale_new (by));
  gtk_label_set_attributes (GTK_LABEL (label), list);
  pango_attr_list_unref (list);
}

static void
set_tight (CarpaceCard *card, bool tight)
{
  if (tight == card->tight)
    return;
  card->tight = tight;
  carpace_card_shrink (card->heading, tight ? TIGHT_HEADING : 1);
  if (card->tightened)
    card->tightened (card->formed_user, tight);
}

/* The first answer stays as it is: the eye looks for it. */
static void
wrap_quieter (CarpaceCard *card, bool wrap)
{
  for (int i = 0; i < card->n_answers; i++)
    {
      GtkLabel *label = GTK_LABEL (card->answers[i].label);
      bool primary = gtk_style_context_has_class (gtk_widget_get_style_context (card->answers[i].button), "carpace-primary");

      gtk_label_set_line_wrap (label, wrap && !primary);
      gtk_label_set_max_width_chars (label, wrap && !primary ? 1 : -1);
    }
}

/* @param above the chord stands beside the heading, not in the foot row */
static void
take_step (CarpaceCard *card, int step, bool above, bool has_why)
{
  bool has_chord = card->chord_wanted && step < NO_CHORD, tight = step >= NO_EXTRA;

  gtk_widget_set_visible (card->chord, has_chord && !above);
  gtk_widget_set_visible (card->head_chord, has_chord && above);
  if (card->extra)
    gtk_widget_set_visible (card->extra, !tight);
  gtk_widget_set_visible (card->why, has_why && step < NO_REASON);
  wrap_quieter (card, step >= TWO_LINES);
  set_tight (card, tight);
}

static bool
try_steps (CarpaceCard *card, int width, int height)
{
  bool has_why = *gtk_label_get_text (GTK_LABEL (card->why)) != '\0';
  int borders = carpace_card_is_framed (card) ? 2 * BORDER : 0;

  for (int step = 0; step < N_STEPS; step++)
    for (int above = card->chord_above ? 1 : 0; above < 2; above++)
      for (int clear = CLEAR_OF_EDGE; clear >= 0; clear -= CLEAR_OF_EDGE / 2)
        {
          int wide = step < WIDER ? width : carpace_card_widest (&card->area);

          take_step (card, step, above, has_why);
          gtk_widget_set_margin_top (card->start, clear);
          gtk_widget_set_margin_top (card->head_chord, clear);
          set_widths (card, wide - borders, 1);
          if (fits (card, wide - borders, height - borders))
            return true;
        }
  return false;
}

/* Small first by the usual measure, then by all that a card may have. */
static void
make_small (CarpaceCard *card)
{
  int width, height;

  carpace_card_most (&card->area, card->tall, &width, &height);
  if (card->tall || !try_steps (card, width, MIN (height, SMALL_LEAST_HEIGHT)))
    try_steps (card, width, height);
}

void
carpace_card_fit (CarpaceCard *card)
{
  if (!card->window)
    return;
  carpace_card_draw_foot (card);
  if (card->form == CARPACE_FORM_SMALL)
    make_small (card);
  else
    {
      if (card->extra)
        gtk_widget_show (card->extra);
      set_tight (card, false);
      wrap_quieter (card, false);
      gtk_widget_set_visible (card->why, *gtk_label_get_text (GTK_LABEL (card->why)));
      set_widths (card, FULL_WIDTH, MOST_CHARACTERS);
    }
}

/* One that has grown, by the drawn sites, say, is moved up where it would reach below its monitor. */
static void
keep_above_edge (GtkWidget *window, int height)
{
  GdkWindow *on_screen = gtk_widget_get_window (window);
  GdkRectangle room;
  int left, top, content_top, below;

  if (on_screen == NULL || !gtk_widget_get_mapped (window))
    return;
  gdk_monitor_get_workarea (gdk_display_get_monitor_at_window (gtk_widget_get_display (window), on_screen), &room);
  gdk_window_get_origin (on_screen, NULL, &content_top);
  gtk_window_get_position (GTK_WINDOW (window), &left, &top);
  below = content_top + height + FRAME_MOST - room.y - room.height;
  if (below > 0 && top > room.y)
    gtk_window_move (GTK_WINDOW (window), left, MAX (room.y, top - below));
}

/* Where the player chose, but for a window that the player opened: that is the window manager's, unless a
 * full-screen client lies beneath. */
void
carpace_card_place_window (CarpaceCard *card, GtkWidget *window, int width, int height)
{
  if (window == card->window && card->way == CARPACE_CARD_BY_PLAYER && !card->covered)
    {
      keep_above_edge (window, height);
      return;
    }
  carpace_place_in_corner (window, &card->area, carpace_card_corner (), width, height);
}

void
carpace_card_size_allocated (GtkWidget *window, GtkAllocation *allocation, CarpaceCard *card)
{
  carpace_card_place_window (card, window, allocation->width, allocation->height);
}

/* ---- the bar ---- */

static void
make_bar (CarpaceCard *card)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  card->bar = carpace_place_window_new ();
  gtk_widget_set_name (card->bar, "card-bar");
  gtk_window_set_title (GTK_WINDOW (card->bar), card->title);
  gtk_style_context_add_class (gtk_widget_get_style_context (card->bar), "carpace-card");
  gtk_style_context_add_class (gtk_widget_get_style_context (card->bar), "carpace-bar");
  atk_object_set_role (gtk_widget_get_accessible (card->bar), ATK_ROLE_DIALOG);
  card->bar_icon = gtk_image_new ();
  card->bar_waits = gtk_label_new ("");
  card->bar_keys = gtk_label_new ("");
  gtk_style_context_add_class (gtk_widget_get_style_context (card->bar_keys), "carpace-quiet");
  gtk_widget_set_margin_start (row, 8);
  gtk_widget_set_margin_end (row, 8);
  gtk_box_pack_start (GTK_BOX (row), card->bar_icon, FALSE, FALSE, 0);
  gtk_label_set_xalign (GTK_LABEL (card->bar_waits), 0);
  gtk_box_pack_start (GTK_BOX (row), card->bar_waits, TRUE, TRUE, 0);
  gtk_box_pack_end (GTK_BOX (row), card->bar_keys, FALSE, FALSE, 0);
  gtk_container_add (GTK_CONTAINER (card->bar), row);
  gtk_widget_show_all (row);
  g_signal_connect (card->bar, "size-allocate", G_CALLBACK (carpace_card_size_allocated), card);
}

/* A click there belongs to whatever lies beneath. */
static void
let_clicks_through (GtkWidget *bar)
{
  cairo_region_t *nothing = cairo_region_create ();

  gtk_widget_realize (bar);
  gtk_widget_input_shape_combine_region (bar, nothing);
  cairo_region_destroy (nothing);
}

/* What waits is cut before the keys are: its beginning tells it, and the whole is its name. */
static void
fit_bar (CarpaceCard *card)
{
  GtkLabel *waits = GTK_LABEL (card->bar_waits);
  int most = carpace_card_widest (&card->area), natural;

  gtk_label_set_ellipsize (waits, PANGO_ELLIPSIZE_NONE);
  gtk_label_set_max_width_chars (waits, -1);
  gtk_widget_set_size_request (card->bar, BAR_WIDTH, BAR_HEIGHT);
  gtk_widget_get_preferred_width (card->bar, NULL, &natural);
  if (natural <= most)
    return;
  gtk_label_set_ellipsize (waits, PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (waits, 1);
  gtk_widget_set_size_request (card->bar, most, BAR_HEIGHT);
}

void
carpace_card_show_bar (CarpaceCard *card)
{
  g_autofree char *keys = carpace_card_chord () && card->keys ? g_strdup_printf ("%s %s", carpace_card_chord (), card->keys) : g_strdup ("");

  if (!card->bar)
    make_bar (card);
  gtk_image_set_from_icon_name (GTK_IMAGE (card->bar_icon), card->icon ? card->icon : "org.carpace.Carpace-symbolic", GTK_ICON_SIZE_MENU);
  gtk_image_set_pixel_size (GTK_IMAGE (card->bar_icon), 16);
  gtk_label_set_text (GTK_LABEL (card->bar_waits), card->waits ? card->waits : card->title);
  gtk_label_set_text (GTK_LABEL (card->bar_keys), keys);
  carpace_card_name (card->bar, gtk_label_get_text (GTK_LABEL (card->bar_waits)), keys);
  fit_bar (card);
  let_clicks_through (card->bar);
  gtk_widget_show (card->bar);
}

void
carpace_card_set_bar (CarpaceCard *card, const char *icon, const char *waits, const char *keys)
{
  g_free (card->icon);
  g_free (card->waits);
  g_free (card->keys);
  card->icon = g_strdup (icon);
  card->waits = g_strdup (waits);
  card->keys = g_strdup (keys);
  if (card->bar && gtk_widget_get_visible (card->bar))
    carpace_card_show_bar (card);
}
