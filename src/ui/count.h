/* SPDX-License-Identifier: GPL-3.0-or-later */
/** count.h: a number that counts down beside its rail. */
#ifndef CARPACE_UI_COUNT_H
#define CARPACE_UI_COUNT_H

#include <gtk/gtk.h>

/** Nothing yet. A label to assistive technology, which knows its text by its name. */
GtkWidget *carpace_count_new (void);

/** Says @text, at the end of the room it has: as wide as the widest since it came up. Painted only, where that is wide enough. */
void carpace_count_set (GtkWidget *widget, const char *text);

#endif
