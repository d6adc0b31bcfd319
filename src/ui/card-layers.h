/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * card-layers.h: the layers of a Wayland compositor (wlr-layer-shell-unstable-v1), where cards lie above a game.
 *
 * A module of its own, by gtk-layer-shell: on X11 nobody opens it.
 */
#ifndef CARPACE_UI_CARD_LAYERS_H
#define CARPACE_UI_CARD_LAYERS_H

#include <gtk/gtk.h>
#include <stdbool.h>

typedef struct
{
  bool (*offered) (void);                                  /**< by the default display, which is Wayland's */
  void (*put_on_top) (GtkWindow *window);                  /**< not yet shown; in the topmost layer, and never with the focus */
  bool (*holds) (GtkWindow *window);                       /**< whether it was put there */
  void (*tie) (GtkWindow *window, bool right, bool low, int edge); /**< to a corner, so far from both of its edges */
} CarpaceLayers;

const CarpaceLayers *carpace_card_layers (void);

#endif
