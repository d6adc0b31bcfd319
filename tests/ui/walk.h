/* SPDX-License-Identifier: GPL-3.0-or-later */
/** walk.h: what holds of each window, whichever it is. */
#ifndef CARPACE_TESTS_UI_WALK_H
#define CARPACE_TESTS_UI_WALK_H

#include <gtk/gtk.h>

/** Fails, and says of which, where a control on the screen has no name for assistive technology or is under 44 px, where
 * words are broken within a word, and where the window could not stand on a screen of 1280 x 720. @window is shown and settled. */
void walk_window (GtkWidget *window);

#endif
