/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * overlay-window.h: a plain line to be captured by a broadcasting program.
 *
 * Borderless: drag it to move it, drag its lower right corner, or press plus and
 * minus, to size it; the text fills it. One even background colour can be keyed
 * out. It shows the line it is given and nothing else, ever.
 */
#ifndef CARPACE_UI_OVERLAY_WINDOW_H
#define CARPACE_UI_OVERLAY_WINDOW_H

#include <gtk/gtk.h>
#include <stdbool.h>

#include "ui/window-place.h"

typedef struct CarpaceOverlayWindow CarpaceOverlayWindow;

/** A window that is not shown, on green. */
CarpaceOverlayWindow *carpace_overlay_window_new (void);
void carpace_overlay_window_free (CarpaceOverlayWindow *overlay);

/** The background, "#00b140" or a colour's name. @return false, all as it was,
 * where it is no colour */
bool carpace_overlay_window_set_colour (CarpaceOverlayWindow *overlay, const char *colour);

/** Where it is to stand, shown or not; where no monitor is there it comes where the desktop puts it. */
void carpace_overlay_window_set_place (CarpaceOverlayWindow *overlay, const CarpaceWindowPlace *place);

/** It was moved or sized, and has stood for a moment. */
void carpace_overlay_window_on_moved (CarpaceOverlayWindow *overlay, void (*moved) (void *user, const CarpaceWindowPlace *place),
                                      void *user);

/** The line to show; the same again draws nothing. */
void carpace_overlay_window_set_line (CarpaceOverlayWindow *overlay, const char *line);

/** The streamer asks for it, or no longer. It takes no focus by itself. */
void carpace_overlay_window_show (CarpaceOverlayWindow *overlay);
void carpace_overlay_window_hide (CarpaceOverlayWindow *overlay);

/** For tests. */
GtkWindow *carpace_overlay_window_window (CarpaceOverlayWindow *overlay);
unsigned carpace_overlay_window_draws (const CarpaceOverlayWindow *overlay);

#endif
