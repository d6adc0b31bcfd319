/* SPDX-License-Identifier: GPL-3.0-or-later */
/** planner-parts.h: what the planner's pages are made of: words that wrap, buttons of 44 px, rows. */
#ifndef CARPACE_UI_PLANNER_PARTS_H
#define CARPACE_UI_PLANNER_PARTS_H

#include <gtk/gtk.h>

#include "ui/part-words.h"

/** @child at the end of @box, @space below what is before it. */
void carpace_part_append (GtkWidget *box, GtkWidget *child, int space);

/** A button whose words wrap. */
GtkWidget *carpace_part_button (const char *text);
void carpace_part_say_button (GtkWidget *button, const char *text);

/** A flat one as wide as its row, its words from the start. */
GtkWidget *carpace_part_row_button (const char *text);

/** @text, which begins a line: with a capital. g_free() it */
char *carpace_part_begun (const char *text);

/** A small piece of a drill's pattern. */
GtkWidget *carpace_part_pattern (void);
void carpace_part_set_pattern (GtkWidget *pattern, int32_t drill);

/** A page that scrolls up and down. @return what holds it; *ret_box is what to fill */
GtkWidget *carpace_part_page (GtkWidget **ret_box);

#endif
