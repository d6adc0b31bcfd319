/* SPDX-License-Identifier: GPL-3.0-or-later */
/* site-map.c: three drawings with buttons on them; a table says where. */
#include "ui/site-map.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "text/face-text.h"
#include "ui/card.h"
#include "ui/drawing.h"

#define BETWEEN 6 /* views */
#define MOST_REGIONS 24

const CarpaceSiteRegion carpace_site_regions[] = {
  { CARPACE_SITE_PALM_SIDE, CARPACE_SITE_VIEW_PALM, 58, 74, 54, 164 },
  { CARPACE_SITE_LITTLE_FINGER_SIDE, CARPACE_SITE_VIEW_BACK, 120, 74, 52, 84 },
  { CARPACE_SITE_THUMB_SIDE, CARPACE_SITE_VIEW_PALM, 114, 70, 60, 66 },
  { CARPACE_SITE_BACK_OF_FOREARM, CARPACE_SITE_VIEW_BACK, 56, 162, 82, 76 },
  { CARPACE_SITE_FINGERS, CARPACE_SITE_VIEW_PALM, 24, 4, 102, 64 },
  { CARPACE_SITE_ELBOW, CARPACE_SITE_VIEW_BACK, 52, 240, 92, 46 },
  { CARPACE_SITE_SHOULDER, CARPACE_SITE_VIEW_BODY, 118, 92, 56, 58 },
  { CARPACE_SITE_NECK, CARPACE_SITE_VIEW_BODY, 62, 56, 56, 50 },
  { CARPACE_SITE_OTHER_HAND, CARPACE_SITE_VIEW_BODY, 2, 222, 56, 64 },
  { CARPACE_SITE_LITTLE_FINGER_SIDE, CARPACE_SITE_VIEW_PALM, 8, 74, 48, 84 },
  { CARPACE_SITE_ELBOW, CARPACE_SITE_VIEW_PALM, 36, 240, 92, 46 },
  { CARPACE_SITE_THUMB_SIDE, CARPACE_SITE_VIEW_BACK, 6, 70, 60, 66 },
  { CARPACE_SITE_FINGERS, CARPACE_SITE_VIEW_BACK, 54, 4, 102, 64 },
};
const int carpace_n_site_regions = G_N_ELEMENTS (carpace_site_regions);

G_STATIC_ASSERT (G_N_ELEMENTS (carpace_site_regions) <= MOST_REGIONS);

static const struct
{
  const char *file, *where;
} views[CARPACE_N_SITE_VIEWS] = {
  [CARPACE_SITE_VIEW_PALM] = { "sites-palm", N_("on the palm's side, in the drawing") },
  [CARPACE_SITE_VIEW_BACK] = { "sites-back", N_("on the back, in the drawing") },
  [CARPACE_SITE_VIEW_BODY] = { "sites-body", N_("seen from behind, in the drawing") },
};

typedef struct
{
  CarpaceSiteChosen chosen;
  void *user;
  bool left;
  GtkWidget *places[CARPACE_N_SITE_VIEWS], *drawings[CARPACE_N_SITE_VIEWS];
  GtkWidget *buttons[MOST_REGIONS];
} Map;

const char *
carpace_site_view_file (CarpaceSiteView view)
{
  return views[view].file;
}

/* Its own region stands at its place in the table. */
CarpaceSiteView
carpace_site_view (CarpaceSite site)
{
  return carpace_site_regions[site - 1].view;
}

/* ---- the arrow keys ---- */

static int
left_of (const CarpaceSiteRegion *region, bool left)
{
  return left ? CARPACE_SITE_VIEW_WIDTH - region->x - region->width : region->x;
}

static void
middle (int i, bool left, bool from_right, int *ret_x, int *ret_y)
{
  const CarpaceSiteRegion *region = &carpace_site_regions[i];
  int view = from_right ? CARPACE_N_SITE_VIEWS - 1 - (int) region->view : (int) region->view;

  *ret_x = view * (CARPACE_SITE_VIEW_WIDTH + BETWEEN) + left_of (region, left) + region->width / 2;
  *ret_y = region->y + region->height / 2;
}

/* How far along the way, and how far beside it; never @along 0 or less where it is no way there. */
static bool
lies_there (int dx, int dy, GtkDirectionType way, int *ret_along, int *ret_beside)
{
  bool across = way == GTK_DIR_LEFT || way == GTK_DIR_RIGHT;

  *ret_along = way == GTK_DIR_LEFT ? -dx : way == GTK_DIR_RIGHT ? dx : way == GTK_DIR_UP ? -dy : dy;
  *ret_beside = abs (across ? dy : dx);
  return *ret_along > 0 && *ret_beside <= 2 * *ret_along;
}

int
carpace_site_region_next (int from, GtkDirectionType way, bool left, bool from_right)
{
  int x, y, best = -1, least = G_MAXINT;

  middle (from, left, from_right, &x, &y);
  for (int i = 0; i < carpace_n_site_regions; i++)
    {
      int other_x, other_y, along, beside;

      middle (i, left, from_right, &other_x, &other_y);
      if (lies_there (other_x - x, other_y - y, way, &along, &beside) && along + 2 * beside < least)
        {
          least = along + 2 * beside;
          best = i;
        }
    }
  return best;
}

static bool
way_of (guint keyval, GtkDirectionType *ret_way)
{
  switch (keyval)
    {
    case GDK_KEY_Left: case GDK_KEY_KP_Left: *ret_way = GTK_DIR_LEFT; return true;
    case GDK_KEY_Right: case GDK_KEY_KP_Right: *ret_way = GTK_DIR_RIGHT; return true;
    case GDK_KEY_Up: case GDK_KEY_KP_Up: *ret_way = GTK_DIR_UP; return true;
    case GDK_KEY_Down: case GDK_KEY_KP_Down: *ret_way = GTK_DIR_DOWN; return true;
    default: return false;
    }
}

static int
region_of (GtkWidget *button)
{
  return GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "region"));
}

/* Where nothing lies that way the focus stays: it does not leave the drawing by an arrow. */
static gboolean
key_pressed (GtkWidget *button, GdkEventKey *event, Map *map)
{
  GtkDirectionType way;
  int next;

  if ((event->state & gtk_accelerator_get_default_mod_mask ()) || !way_of (event->keyval, &way))
    return FALSE;
  next = carpace_site_region_next (region_of (button), way, map->left, gtk_widget_get_direction (button) == GTK_TEXT_DIR_RTL);
  if (next >= 0)
    gtk_widget_grab_focus (map->buttons[next]);
  return TRUE;
}

/* ---- the drawing ---- */

static void
clicked (GtkWidget *button, Map *map)
{
  map->chosen (map->user, carpace_site_regions[region_of (button)].site);
}

static GtkWidget *
make_button (Map *map, int region)
{
  const CarpaceSiteRegion *of = &carpace_site_regions[region];
  g_autofree char *number = g_strdup_printf ("%d", of->site);
  GtkWidget *button = gtk_button_new (), *label = gtk_label_new (number);

  gtk_widget_set_halign (label, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_style_context_add_class (gtk_widget_get_style_context (label), "carpace-key");
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-region");
  gtk_container_add (GTK_CONTAINER (button), label);
  gtk_widget_set_size_request (button, of->width, of->height);
  g_object_set_data (G_OBJECT (button), "region", GINT_TO_POINTER (region));
  carpace_card_name (button, carpace_text_site (of->site), _(views[of->view].where));
  g_signal_connect (button, "clicked", G_CALLBACK (clicked), map);
  g_signal_connect (button, "key-press-event", G_CALLBACK (key_pressed), map);
  return button;
}

static void
place (Map *map)
{
  for (int view = 0; view < CARPACE_N_SITE_VIEWS; view++)
    carpace_drawing_set_file (map->drawings[view], views[view].file, map->left);
  for (int i = 0; i < carpace_n_site_regions; i++)
    gtk_fixed_move (GTK_FIXED (map->places[carpace_site_regions[i].view]), map->buttons[i],
                    left_of (&carpace_site_regions[i], map->left), carpace_site_regions[i].y);
}

GtkWidget *
carpace_site_map_new (CarpaceSiteChosen chosen, void *user)
{
  GtkWidget *widget = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, BETWEEN);
  Map *map = g_new0 (Map, 1);

  map->chosen = chosen;
  map->user = user;
  gtk_box_set_homogeneous (GTK_BOX (widget), TRUE);
  g_object_set_data_full (G_OBJECT (widget), "map", map, g_free);
  for (int view = 0; view < CARPACE_N_SITE_VIEWS; view++)
    {
      map->places[view] = gtk_fixed_new ();
      map->drawings[view] = carpace_drawing_new_of (CARPACE_SITE_VIEW_WIDTH, CARPACE_SITE_VIEW_HEIGHT);
      gtk_widget_set_halign (map->places[view], GTK_ALIGN_CENTER);
      gtk_fixed_put (GTK_FIXED (map->places[view]), map->drawings[view], 0, 0);
      gtk_box_pack_start (GTK_BOX (widget), map->places[view], TRUE, TRUE, 0);
    }
  for (int i = 0; i < carpace_n_site_regions; i++)
    gtk_fixed_put (GTK_FIXED (map->places[carpace_site_regions[i].view]), map->buttons[i] = make_button (map, i), 0, 0);
  place (map);
  gtk_widget_show_all (widget);
  return widget;
}

void
carpace_site_map_set (GtkWidget *widget, CarpaceSite given, bool left)
{
  Map *map = g_object_get_data (G_OBJECT (widget), "map");

  if (left != map->left)
    {
      map->left = left;
      place (map);
    }
  for (int i = 0; i < carpace_n_site_regions; i++)
    if (carpace_site_regions[i].site == given)
      gtk_style_context_add_class (gtk_widget_get_style_context (map->buttons[i]), "given");
    else
      gtk_style_context_remove_class (gtk_widget_get_style_context (map->buttons[i]), "given");
}

GtkWidget *
carpace_site_map_button (GtkWidget *widget, int region)
{
  Map *map = g_object_get_data (G_OBJECT (widget), "map");

  return map->buttons[region];
}
