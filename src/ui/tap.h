/* SPDX-License-Identifier: GPL-3.0-or-later */
/** tap.h: a button that is tapped along with what is counted, for ten seconds. */
#ifndef CARPACE_UI_TAP_H
#define CARPACE_UI_TAP_H

#include <gtk/gtk.h>

/** @tapped is told what it comes to, a minute, whole. */
GtkWidget *carpace_tap_new (void (*tapped) (void *user, double per_min), void *user);

#endif
