/* SPDX-License-Identifier: GPL-3.0-or-later */
/** chord-field.h: keys that are chosen by pressing them. */
#ifndef CARPACE_UI_CHORD_FIELD_H
#define CARPACE_UI_CHORD_FIELD_H

#include <gtk/gtk.h>

/** A button: pressed, it takes the keyboard until keys come, Escape, or it is pressed again.
 * @param taken hears of the keys as they are written, "Ctrl+Alt+H", whether they will do or not */
GtkWidget *carpace_chord_field_new (void (*taken) (void *user, const char *chord), void *user);

/** Keys in words: those of @held that count, then @keyval, a capital for a letter.
 * @return NULL where no such key has a name here; to be freed */
char *carpace_chord_words (GdkModifierType held, guint keyval);

#endif
