/* SPDX-License-Identifier: GPL-3.0-or-later */
/** quoted.h: words that strangers wrote, made short and harmless. */
#ifndef CARPACE_TEXT_QUOTED_H
#define CARPACE_TEXT_QUOTED_H

/** @word in quotation marks, at most 40 characters of it, with whatever could
 * not be shown (controls, marks that turn the direction of text) as an escape,
 * "\x1b", and bytes that are no UTF-8 as U+FFFD. NULL is as "". g_free() it */
char *carpace_text_quoted (const char *word);

/** @text in full and without marks, made harmless in the same way: for names
 * on a terminal. The caller's to g_free(). */
char *carpace_text_harmless (const char *text);

/** What would be right in place of @word: the nearest of @set (ended by NULL),
 * and all of them. The caller's to g_free(). */
char *carpace_text_suggestion (const char *word, const char *const *set);

#endif
