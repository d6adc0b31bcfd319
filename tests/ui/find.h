/* SPDX-License-Identifier: GPL-3.0-or-later */
/** find.h: a widget of a window, as somebody who reads it finds it. */
#ifndef CARPACE_TESTS_UI_FIND_H
#define CARPACE_TESTS_UI_FIND_H

#include <gtk/gtk.h>

/** The one that can be seen of that name for assistive technology, or with those words. It, or what it lies in, is a @type: for
 * the words of a field that is the field. @return NULL where there is none */
GtkWidget *find_named (GtkWidget *window, const char *name, GType type);

#endif
