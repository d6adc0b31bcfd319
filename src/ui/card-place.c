/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card-place.c: X11's unmanaged windows, and layers (the protocol wlr-layer-shell-unstable-v1). */
#include "ui/card-place.h"

#include <gtk-layer-shell/gtk-layer-shell.h>

#ifdef GDK_WINDOWING_X11
#include <gdk/gdkx.h>
#endif
#ifdef GDK_WINDOWING_WAYLAND
#include <gdk/gdkwayland.h>
#endif

#include "ui/presence.h"

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
  if (GDK_IS_WAYLAND_DISPLAY (display) && gdk_wayland_display_query_registry (display, "zwlr_layer_shell_v1") && gtk_layer_is_supported ())
    return CARPACE_PLACE_LAYER;
#endif
  return CARPACE_PLACE_NOWHERE;
}

static void
put_on_top_layer (GtkWindow *window)
{
  gtk_layer_init_for_window (window);
  gtk_layer_set_namespace (window, "carpace");
  gtk_layer_set_layer (window, GTK_LAYER_SHELL_LAYER_OVERLAY);
  gtk_layer_set_keyboard_mode (window, GTK_LAYER_SHELL_KEYBOARD_MODE_NONE);
}

/* Only a window that no window manager manages lies above a full-screen client everywhere. */
GtkWidget *
carpace_place_window_new (void)
{
  CarpacePlaceWay way = carpace_place_way ();
  GtkWidget *window = gtk_window_new (way == CARPACE_PLACE_POPUP ? GTK_WINDOW_POPUP : GTK_WINDOW_TOPLEVEL);

  if (way == CARPACE_PLACE_LAYER)
    put_on_top_layer (GTK_WINDOW (window));
  gtk_window_set_keep_above (GTK_WINDOW (window), TRUE);
  gtk_window_set_resizable (GTK_WINDOW (window), FALSE);
  gtk_window_set_type_hint (GTK_WINDOW (window), way == CARPACE_PLACE_NOWHERE ? GDK_WINDOW_TYPE_HINT_DIALOG : GDK_WINDOW_TYPE_HINT_NOTIFICATION);
  gtk_window_set_accept_focus (GTK_WINDOW (window), FALSE);
  gtk_window_set_focus_on_map (GTK_WINDOW (window), FALSE);
  gtk_window_set_skip_taskbar_hint (GTK_WINDOW (window), TRUE);
  return window;
}

/* The two edges of the corner; the compositor keeps the distance from them, whatever the size. */
static void
tie_to_corner (GtkWindow *window, bool right, bool low)
{
  const bool tied[] = { [GTK_LAYER_SHELL_EDGE_LEFT] = !right, [GTK_LAYER_SHELL_EDGE_RIGHT] = right,
                        [GTK_LAYER_SHELL_EDGE_TOP] = !low, [GTK_LAYER_SHELL_EDGE_BOTTOM] = low };

  for (int edge = 0; edge < GTK_LAYER_SHELL_EDGE_ENTRY_NUMBER; edge++)
    {
      gtk_layer_set_anchor (window, (GtkLayerShellEdge) edge, tied[edge]);
      gtk_layer_set_margin (window, (GtkLayerShellEdge) edge, tied[edge] ? CARPACE_CARD_EDGE : 0);
    }
}

void
carpace_place_in_corner (GtkWidget *window, const GdkRectangle *area, CarpaceCorner corner, int width, int height)
{
  bool mirrored = gtk_widget_get_direction (window) == GTK_TEXT_DIR_RTL;
  int left, top;

  if (gtk_layer_is_layer_window (GTK_WINDOW (window)))
    {
      tie_to_corner (GTK_WINDOW (window), carpace_corner_is_at_end (corner) != mirrored, carpace_corner_is_low (corner));
      return;
    }
  carpace_card_place (area, corner, mirrored, width, height, &left, &top);
  gtk_window_move (GTK_WINDOW (window), left, top);
}
