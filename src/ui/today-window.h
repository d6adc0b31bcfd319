/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * today-window.h: today in one narrow window: what now, the day along its rail, what is
 * next, one button for it; all else in a menu. Where there is no tray it takes its place.
 *
 * It is as wide in every state, and does not grow lower again, but for a note that is put away.
 */
#ifndef CARPACE_UI_TODAY_WINDOW_H
#define CARPACE_UI_TODAY_WINDOW_H

#include "carpace/view.h"
#include "ui/owner.h"

typedef struct CarpaceTodayWindow CarpaceTodayWindow;

CarpaceTodayWindow *carpace_today_window_new (const CarpaceOwner *owner);
void carpace_today_window_free (CarpaceTodayWindow *today);

/** Shows it as @view is. @present: the player asked for it, it gets the focus. */
void carpace_today_window_show (CarpaceTodayWindow *today, bool present, const CarpaceView *view,
                                CarpaceInstant now);
void carpace_today_window_hide (CarpaceTodayWindow *today);
bool carpace_today_window_is_shown (const CarpaceTodayWindow *today);

/** From the next draw on, as carpace_menu_set_card_again(). */
void carpace_today_window_set_card_again (CarpaceTodayWindow *today, bool waits, const char *chord);

/** A note to the player, from the next draw on; @text NULL: there is none. Not on air. */
void carpace_today_window_set_note (CarpaceTodayWindow *today, const char *by, const char *text);

void carpace_today_window_draw (CarpaceTodayWindow *today, const CarpaceView *view, CarpaceInstant now);

/** For tests. */
GtkWindow *carpace_today_window_window (CarpaceTodayWindow *today);
GtkMenu *carpace_today_window_menu (CarpaceTodayWindow *today);
unsigned carpace_today_window_draws (const CarpaceTodayWindow *today);

#endif
