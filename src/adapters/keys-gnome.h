/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * keys-gnome.h: shortcuts among GNOME's own, where a player can see and change them.
 *
 * By the settings of gnome-settings-daemon (schema org.gnome.settings-daemon.plugins.media-keys, key
 * custom-keybindings). Those of others stay as they are, and keys that were chosen anew stay chosen.
 */
#ifndef CARPACE_KEYS_GNOME_H
#define CARPACE_KEYS_GNOME_H

#include <stdbool.h>

/** Whether this desktop keeps shortcuts so: it has the schema, and @desktop names GNOME or what is made of it.
 * @param desktop as XDG_CURRENT_DESKTOP; NULL: none */
bool carpace_keys_gnome_is_here (const char *desktop);

/** One shortcut. */
typedef struct
{
  const char *id, *name, *words;
  const char *keys; /**< as GTK writes an accelerator */
} CarpaceKeysGnomeRow;

/** Puts them among the desktop's, or takes away what was put there.
 * @param program what the commands begin with, a path */
void carpace_keys_gnome_set (const CarpaceKeysGnomeRow *rows, int n_rows, const char *program, bool on);

#endif
