/* SPDX-License-Identifier: GPL-3.0-or-later */
/** window-room.h: windows that end where the screen does. */
#ifndef CARPACE_UI_WINDOW_ROOM_H
#define CARPACE_UI_WINDOW_ROOM_H

#include <gtk/gtk.h>

/** How high the inside of a window can be on the screen it comes on: what panels leave, and a window manager's frame. */
int carpace_window_room (GtkWidget *widget);

/** Opens @window @width x @height, or as far as the screen goes: to be called once it has its title bar. */
void carpace_window_within (GtkWidget *window, int width, int height);

/** @scrolled is as high as what is in it, as far as the screen goes: @around is what the window has beside it. */
void carpace_window_scrolls_within (GtkWidget *scrolled, int around);

#endif
