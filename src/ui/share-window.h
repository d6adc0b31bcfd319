/* SPDX-License-Identifier: GPL-3.0-or-later */
/** share-window.h: with whom a player shares, what they see, and one more of them. What is said is the command's. */
#ifndef CARPACE_UI_SHARE_WINDOW_H
#define CARPACE_UI_SHARE_WINDOW_H

#include <gtk/gtk.h>

#include "carpace/sharing.h"

typedef struct CarpaceShareWindow CarpaceShareWindow;

/** A window that is not shown. @param shown has to stay @param closed the window was closed */
CarpaceShareWindow *carpace_share_window_new (const CarpaceSharingShown *shown, void (*closed) (void *self), void *self);
void carpace_share_window_free (CarpaceShareWindow *window);
void carpace_share_window_show (CarpaceShareWindow *window);

/** For tests. */
GtkWindow *carpace_share_window_window (CarpaceShareWindow *window);

#endif
