/* SPDX-License-Identifier: GPL-3.0-or-later */
/** screens.h: which monitor a card is best shown on, and whether a full-screen client covers it. */
#ifndef CARPACE_UI_SCREENS_H
#define CARPACE_UI_SCREENS_H

#include <gtk/gtk.h>

#include "ui/card.h"

/** What lies beneath a card. */
typedef enum
{
  CARPACE_BENEATH_WINDOWS,
  CARPACE_BENEATH_FULL,    /**< a full-screen client covers the monitor */
  CARPACE_BENEATH_UNKNOWN, /**< Wayland tells no client of others */
  CARPACE_N_BENEATHS
} CarpaceBeneath;

/** The area a card may use: of the monitor with the active window, where that is full-screen, else of the one with
 * the pointer. All of the monitor where a full-screen client covers it, else what panels leave. On Wayland it
 * is at 0, 0, and as large as fits on each monitor: which it will be the compositor knows.
 * @param other rather a monitor that no full-screen client covers, if there is any
 * @return what lies there; on Wayland a window of the program's own, where it has the focus */
CarpaceBeneath carpace_screens_choose (GdkDisplay *display, gboolean other, GdkRectangle *ret_area);

/** Whether a card stands as over a full-screen client. Where nobody knows, what comes by itself does, so that it never
 * is in a game's way, and what the player opens does not. */
bool carpace_screens_covered (CarpaceBeneath beneath, CarpaceCardWay way);

/** Calls @changed when another window became the active one, or that one became full-screen or ceased to be (on Wayland:
 * when the program's own windows had the focus, or lost it): by events alone. One listener; NULL ends it. */
void carpace_screens_watch (GdkDisplay *display, void (*changed) (void *user), void *user);

#endif
