/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * card-place.h: how what comes by itself gets into its corner, above a full-screen client and without the focus.
 *
 * Three ways, by what the display lets a client do. Whoever shows cards asks for a window and places it, and need not
 * know which way it is.
 */
#ifndef CARPACE_UI_CARD_PLACE_H
#define CARPACE_UI_CARD_PLACE_H

#include <gtk/gtk.h>
#include <stdbool.h>

#include "carpace/settings.h"
#include "ui/card-layers.h"

typedef enum
{
  CARPACE_PLACE_POPUP,   /**< X11: a window that no window manager manages, put anywhere */
  CARPACE_PLACE_LAYER,   /**< a compositor with wlr-layer-shell: tied to a corner of its topmost layer */
  CARPACE_PLACE_NOWHERE, /**< another compositor: windows come in the middle, and with the focus */
  CARPACE_N_PLACES
} CarpacePlaceWay;

typedef const CarpaceLayers *(*CarpaceFindLayers) (void);

/** Says who finds layers, once the display is one that has them. Without it there are none. */
void carpace_place_find_layers (CarpaceFindLayers find);

/** The way of the default display. */
CarpacePlaceWay carpace_place_way (void);

/** A window for what comes by itself, not yet shown: it never has the focus. */
GtkWidget *carpace_place_window_new (void);

/** Puts @window, made here, into @corner of @area. By layers the compositor does it, on the monitor it is at work on.
 * @param width its size, as allocated */
void carpace_place_in_corner (GtkWidget *window, const GdkRectangle *area, CarpaceCorner corner, int width, int height);

#endif
