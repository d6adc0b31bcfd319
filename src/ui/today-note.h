/* SPDX-License-Identifier: GPL-3.0-or-later */
/** today-note.h: a note to the player, in the window of today, until it is put away. */
#ifndef CARPACE_UI_TODAY_NOTE_H
#define CARPACE_UI_TODAY_NOTE_H

#include "ui/owner.h"

/** Nothing is to be seen of it yet. */
GtkWidget *carpace_today_note_new (const CarpaceOwner *owner);

/** Its head and its words; NULL: there is none. */
void carpace_today_note_set (GtkWidget *note, const char *by, const char *text);

/** Whether there is one to be shown, on a screen that is nobody else's. @return whether that differs */
bool carpace_today_note_draw (GtkWidget *note, bool on_air);

#endif
