/* SPDX-License-Identifier: GPL-3.0-or-later */
/** screens.h: which monitor a card is best shown on. */
#ifndef CARPACE_UI_SCREENS_H
#define CARPACE_UI_SCREENS_H

#include <gtk/gtk.h>

/** The area a card may use: of the monitor with the pointer, or, where a
 * full-screen window covers that one, of a monitor without one if there is any.
 * @return true where a full-screen window covers the monitor chosen */
gboolean carpace_screens_choose (GdkDisplay *display, GdkRectangle *ret_area);

#endif
