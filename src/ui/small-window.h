/* SPDX-License-Identifier: GPL-3.0-or-later */
/** small-window.h: what the tray's menu offers, for desktops without a tray. */
#ifndef CARPACE_UI_SMALL_WINDOW_H
#define CARPACE_UI_SMALL_WINDOW_H

#include "carpace/view.h"
#include "ui/owner.h"

typedef struct CarpaceSmallWindow CarpaceSmallWindow;

CarpaceSmallWindow *carpace_small_window_new (const CarpaceOwner *owner);
void carpace_small_window_free (CarpaceSmallWindow *small);

/** Shows it as @view is. @present: the player asked for it, it gets the focus. */
void carpace_small_window_show (CarpaceSmallWindow *small, bool present, const CarpaceView *view,
                                CarpaceInstant now);
void carpace_small_window_hide (CarpaceSmallWindow *small);
bool carpace_small_window_is_shown (const CarpaceSmallWindow *small);
void carpace_small_window_draw (CarpaceSmallWindow *small, const CarpaceView *view, CarpaceInstant now);

/** For tests. */
GtkWindow *carpace_small_window_window (CarpaceSmallWindow *small);
unsigned carpace_small_window_draws (const CarpaceSmallWindow *small);

#endif
