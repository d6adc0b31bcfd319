/* SPDX-License-Identifier: GPL-3.0-or-later */
/** part-words.h: words in a window that keeps its width. */
#ifndef CARPACE_UI_PART_WORDS_H
#define CARPACE_UI_PART_WORDS_H

#include <gtk/gtk.h>

/** A label as wide as it is given, never wider: it wraps, within a word where one is too long. @text is no markup.
 * @param class may be NULL */
GtkWidget *carpace_part_words (const char *text, const char *class);

#endif
