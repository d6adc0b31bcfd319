/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * roster-window.h: a team at a glance: who needs a look today, and why; each player's weeks; one of them opened.
 */
#ifndef CARPACE_UI_ROSTER_WINDOW_H
#define CARPACE_UI_ROSTER_WINDOW_H

#include <gtk/gtk.h>

#include "carpace/roster.h"
#include "ui/diary-window.h"

typedef struct CarpaceRosterWindow CarpaceRosterWindow;

/** A window that is not shown. @param shown has to stay @param closed the window was closed */
CarpaceRosterWindow *carpace_roster_window_new (const CarpaceRosterShown *shown, void (*closed) (void *self), void *self);
void carpace_roster_window_free (CarpaceRosterWindow *window);
void carpace_roster_window_show (CarpaceRosterWindow *window);

/** For tests. */
GtkWindow *carpace_roster_window_window (CarpaceRosterWindow *window);
/** The tree: two groups, "needs a look" and the others, and the players in them. */
GtkTreeView *carpace_roster_window_list (CarpaceRosterWindow *window);
/** What is said of the chosen player; "" where none is. */
const char *carpace_roster_window_told (CarpaceRosterWindow *window);
GtkWidget *carpace_roster_window_diary_button (CarpaceRosterWindow *window);
GtkWidget *carpace_roster_window_page_button (CarpaceRosterWindow *window);
GtkWidget *carpace_roster_window_note_button (CarpaceRosterWindow *window);
/** The diary that is open, NULL where none is. */
CarpaceDiaryWindow *carpace_roster_window_diary (CarpaceRosterWindow *window);
/** The page that is open, NULL where none is. */
GtkWidget *carpace_roster_window_page (CarpaceRosterWindow *window);
/** The note that is written, NULL where none is. */
GtkWidget *carpace_roster_window_note (CarpaceRosterWindow *window);

#endif
