/* SPDX-License-Identifier: GPL-3.0-or-later */
/** choice.h: a row of equal squares or words of which one can be chosen, and
 * none is at first. A second tap on the chosen one takes it back. */
#ifndef CARPACE_UI_CHOICE_H
#define CARPACE_UI_CHOICE_H

#include <gtk/gtk.h>
#include <stdbool.h>

/** A row of @n labels. @name is what is chosen, for assistive technology. */
GtkWidget *carpace_choice_new (const char *name, const char *const *labels, int n);

/** The numbers 0 to 10 with their ends in words. */
GtkWidget *carpace_choice_new_numbers (const char *name);

/** Whether the numbers' ends are said under them; at first they are. */
void carpace_choice_show_ends (GtkWidget *choice, bool shown);

/** What is chosen, from 0; -1 where nothing is. */
int carpace_choice_get (GtkWidget *choice);

/** Chooses nothing. */
void carpace_choice_clear (GtkWidget *choice);

/** The @i-th button, for tests. */
GtkWidget *carpace_choice_button (GtkWidget *choice, int i);

#endif
