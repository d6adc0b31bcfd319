/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card-layers.c: layers, by gtk-layer-shell. */
#include "ui/card-layers.h"

#include <gtk-layer-shell/gtk-layer-shell.h>

static bool
offered (void)
{
  return gtk_layer_is_supported ();
}

static void
put_on_top (GtkWindow *window)
{
  gtk_layer_init_for_window (window);
  gtk_layer_set_namespace (window, "carpace");
  gtk_layer_set_layer (window, GTK_LAYER_SHELL_LAYER_OVERLAY);
  gtk_layer_set_keyboard_mode (window, GTK_LAYER_SHELL_KEYBOARD_MODE_NONE);
}

static bool
holds (GtkWindow *window)
{
  return gtk_layer_is_layer_window (window);
}

/* The two edges of the corner; the compositor keeps the distance from them, whatever the size. */
static void
tie (GtkWindow *window, bool right, bool low, int distance)
{
  const bool tied[] = { [GTK_LAYER_SHELL_EDGE_LEFT] = !right, [GTK_LAYER_SHELL_EDGE_RIGHT] = right,
                        [GTK_LAYER_SHELL_EDGE_TOP] = !low, [GTK_LAYER_SHELL_EDGE_BOTTOM] = low };

  for (int edge = 0; edge < GTK_LAYER_SHELL_EDGE_ENTRY_NUMBER; edge++)
    {
      gtk_layer_set_anchor (window, (GtkLayerShellEdge) edge, tied[edge]);
      gtk_layer_set_margin (window, (GtkLayerShellEdge) edge, tied[edge] ? distance : 0);
    }
}

const CarpaceLayers *
carpace_card_layers (void)
{
  static const CarpaceLayers layers = { offered, put_on_top, holds, tie };

  return &layers;
}
