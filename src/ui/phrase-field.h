/* SPDX-License-Identifier: GPL-3.0-or-later */
/** phrase-field.h: the pass phrase of the own key, in each window that needs it: typed, or kept in the desktop's keyring. */
#ifndef CARPACE_UI_PHRASE_FIELD_H
#define CARPACE_UI_PHRASE_FIELD_H

#include <gtk/gtk.h>

#include "carpace/kept-phrase.h"

/** @param kept NULL: no keyring is offered @param told shows a sentence of this field's own */
GtkWidget *carpace_phrase_field_new (const CarpaceKeptPhrase *kept, const char *mnemonic, void (*told) (void *user, const char *said), void *user);

/** Puts @button, which needs the pass phrase, at its end. */
void carpace_phrase_field_add_button (GtkWidget *field, GtkWidget *button);

/** What was typed; "" where the keyring has it. */
const char *carpace_phrase_field_text (GtkWidget *field);

/** Whether it has to be typed first; then that is told, and where to. */
bool carpace_phrase_field_is_wanted (GtkWidget *field);

/** What needed it was tried: what was typed is not kept on the screen, and in the keyring where it did and that was chosen.
 * @return @said, and what the keyring has to say; g_free() it */
char *carpace_phrase_field_used (GtkWidget *field, const char *said, bool done);

/** For tests. */
GtkEntry *carpace_phrase_field_entry (GtkWidget *field);

#endif
