/* SPDX-License-Identifier: GPL-3.0-or-later */
/** window-text.h: what is said of the practice window. Texts are g_free()d. */
#ifndef CARPACE_TEXT_WINDOW_H
#define CARPACE_TEXT_WINDOW_H

#include <stdbool.h>

#include "carpace/practice-window.h"

/** How one is chosen now. @param by_click on it, else by bringing it to the front */
const char *carpace_text_window_pick (bool by_click);

/** What came of it. @param window NULL: none was chosen; @param own it is one of this program's */
char *carpace_text_window_picked (const CarpaceListedWindow *window, bool own);

/** The list in a line, with names as `window forget` takes it; or that there is none. */
char *carpace_text_windows (const char *list);

/** What came of forgetting @name, NULL: all of them. @param n how many were */
char *carpace_text_window_forgotten (const char *name, int n);

/** Where no window can be told from another. */
const char *carpace_text_no_windows (void);

#endif
