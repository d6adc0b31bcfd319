/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card-place.c: X11's unmanaged windows, and layers. */
#include "ui/card-place.h"

#ifdef GDK_WINDOWING_X11
#include <gdk/gdkx.h>
#endif
#ifdef GDK_WINDOWING_WAYLAND
#include <gdk/gdkwayland.h>
#endif

#include "ui/presence.h"

static CarpaceFindLayers find_layers;
static const CarpaceLayers *layers; /* NULL: not looked for yet, or there are none */

void
carpace_place_find_layers (CarpaceFindLayers find)
{
  find_layers = find;
}

static bool
has_layers (void)
{
  if (layers == NULL && find_layers != NULL)
    {
      layers = find_layers ();
      find_layers = NULL; /* once */
    }
  return layers != NULL && layers->offered ();
}

CarpacePlaceWay
carpace_place_way (void)
{
  GdkDisplay *display = gdk_display_get_default ();

#ifdef GDK_WINDOWING_X11
  if (GDK_IS_X11_DISPLAY (display))
    return CARPACE_PLACE_POPUP;
#endif
#ifdef GDK_WINDOWING_WAYLAND
  /* Asked first: the library complains where there are no layers. */
  if (GDK_IS_WAYLAND_DISPLAY (display) && gdk_wayland_display_query_registry (display, "zwlr_layer_shell_v1") && has_layers ())
    return CARPACE_PLACE_LAYER;
#endif
  return CARPACE_PLACE_NOWHERE;
}

/* Only a window that no window manager manages lies above a full-screen client everywhere. */
GtkWidget *
carpace_place_window_new (void)
{
  CarpacePlaceWay way = carpace_place_way ();
  GtkWidget *window = gtk_window_new (way == CARPACE_PLACE_POPUP ? GTK_WINDOW_POPUP : GTK_WINDOW_TOPLEVEL);

  if (way == CARPACE_PLACE_LAYER)
    layers->put_on_top (GTK_WINDOW (window));
  gtk_window_set_keep_above (GTK_WINDOW (window), TRUE);
  gtk_window_set_resizable (GTK_WINDOW (window), FALSE);
  gtk_window_set_type_hint (GTK_WINDOW (window), way == CARPACE_PLACE_NOWHERE ? GDK_WINDOW_TYPE_HINT_DIALOG : GDK_WINDOW_TYPE_HINT_NOTIFICATION);
  gtk_window_set_accept_focus (GTK_WINDOW (window), FALSE);
  gtk_window_set_focus_on_map (GTK_WINDOW (window), FALSE);
  gtk_window_set_skip_taskbar_hint (GTK_WINDOW (window), TRUE);
  return window;
}

void
carpace_place_in_corner (GtkWidget *window, const GdkRectangle *area, CarpaceCorner corner, int width, int height)
{
  bool mirrored = gtk_widget_get_direction (window) == GTK_TEXT_DIR_RTL;
  int left, top;

  if (layers != NULL && layers->holds (GTK_WINDOW (window)))
    {
      layers->tie (GTK_WINDOW (window), carpace_corner_is_at_end (corner) != mirrored, carpace_corner_is_low (corner), CARPACE_CARD_EDGE);
      return;
    }
  carpace_card_place (area, corner, mirrored, width, height, &left, &top);
  gtk_window_move (GTK_WINDOW (window), left, top);
}
