/* SPDX-License-Identifier: GPL-3.0-or-later */
/** wrist-dial.h: a drawn hand and forearm from the side; the hand turns at the wrist, by the mouse or by keys. */
#ifndef CARPACE_UI_WRIST_DIAL_H
#define CARPACE_UI_WRIST_DIAL_H

#include <gtk/gtk.h>
#include <stdbool.h>

/** @turned is told degrees, flexion over 0 and extension under it; with @done false while it is still held. */
GtkWidget *carpace_wrist_dial_new (void (*turned) (void *user, double deg, bool done), void *user);

/** @param mirrored for a left hand @param spoken what it says, in words */
void carpace_wrist_dial_set (GtkWidget *dial, double deg, bool mirrored, const char *spoken);

#endif
