/* SPDX-License-Identifier: GPL-3.0-or-later */
/** roster-note.h: a few words to the player who is chosen in a team's window. */
#ifndef CARPACE_UI_ROSTER_NOTE_H
#define CARPACE_UI_ROSTER_NOTE_H

#include <gtk/gtk.h>

#include "carpace/roster.h"

/** A window above @parent; it is destroyed when it is closed. @param shown, row have to stay until then */
GtkWidget *carpace_roster_note_new (const CarpaceRosterShown *shown, const CarpaceRosterRow *row, GtkWindow *parent);

/** For tests. */
GtkEntry *carpace_roster_note_text (GtkWidget *note);
GtkEntry *carpace_roster_note_phrase (GtkWidget *note);
GtkButton *carpace_roster_note_button (GtkWidget *note);
/** What came of it; "" before. */
const char *carpace_roster_note_told (GtkWidget *note);

#endif
