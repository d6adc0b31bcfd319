/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * practice-window.h: the windows that practice is bound to, as a list the player keeps.
 *
 * A line of text: `NAME/PROGRAM; NAME; ...`. NAME is what the window calls its kind
 * (WM_CLASS on X, the app id on Wayland), PROGRAM the file name of its program, where
 * that is known. What would part the list (`;`, `/`, control bytes) stands as `_`.
 */
#ifndef CARPACE_PRACTICE_WINDOW_H
#define CARPACE_PRACTICE_WINDOW_H

#include <stdbool.h>
#include <stddef.h>

/** A name or a program is cut to this, its end included. */
#define CARPACE_WINDOW_BYTES 128

/** A window, as a desktop tells of it. */
typedef struct
{
  const char *name;    /**< NULL where it has none: it is on no list */
  const char *program; /**< NULL where nobody tells */
} CarpaceWindow;

/** One of a list. */
typedef struct
{
  char name[CARPACE_WINDOW_BYTES];
  char program[CARPACE_WINDOW_BYTES]; /**< "" where it may be any */
} CarpaceListedWindow;

/** Reads the next of @list, from *@at on (NULL: from its beginning). An empty one is passed over.
 * @return false past the last */
bool carpace_windows_next (const char *list, const char **at, CarpaceListedWindow *ret_window);

/** @window, as a list has it. @return false where it has no name */
bool carpace_window_listed (const CarpaceWindow *window, CarpaceListedWindow *ret_window);

/** Whether @list has @window: its name, in large or small letters of ASCII (KWin tells the class of a window of X in small
 * ones), and its program where both know one. NULL is an empty list. */
bool carpace_windows_have (const char *list, const CarpaceWindow *window);

/** Whether both are the same. */
bool carpace_listed_equal (const CarpaceListedWindow *a, const CarpaceListedWindow *b);

#endif
