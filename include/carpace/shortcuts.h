/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * shortcuts.h: what a key of the desktop's own can say to the program, for where it can grab none itself.
 *
 * One table: the desktop's settings, its portal and the lines to paste go by it.
 */
#ifndef CARPACE_SHORTCUTS_H
#define CARPACE_SHORTCUTS_H

#include "carpace/names.h"

typedef struct
{
  const char *id;      /**< for the desktop: lower case and hyphens */
  const char *words;   /**< the command, without the program's name */
  const char *key;     /**< pressed with Ctrl and Alt, where nothing else is chosen: its name in XKB */
} CarpaceShortcut;

/** The numbers of a rating, least first, then what answers a rest's offer, then a pause's beginning and end. */
extern const CarpaceShortcut carpace_shortcuts[];
extern const int32_t carpace_n_shortcuts;

/** The first of them are this many numbers. */
#define CARPACE_SHORTCUT_NUMBERS 11

/** The row of @id, NULL where there is none. */
const CarpaceShortcut *carpace_shortcut_of (const char *id);

#endif
