/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * settings-keyfile.h: what a player can set beside the plan, in one small file.
 *
 * `carpace/settings` in the user's configuration folder, a key file (GLib's
 * GKeyFile, the form of desktop files) with one group [carpace]. What is not
 * there, or cannot be read, is as it always was; a value that is wrong is told
 * and left out.
 */
#ifndef CARPACE_SETTINGS_KEYFILE_H
#define CARPACE_SETTINGS_KEYFILE_H

#include <stdbool.h>

/** The settings. Texts are NULL where not given. */
typedef struct
{
  char *chord;            /**< chord: "Ctrl+Alt+R", arms the rating card */
  bool sound;             /**< sound: a cue is heard, too; off */
  bool other_input;       /**< count-other-input: minutes of mouse input outside practice are summed; on */
  char *overlay_folder;   /**< overlay-folder: where the overlay's file is written, an absolute path */
  char *overlay_file;     /**< overlay-file: its name; "carpace-overlay.txt" */
  char *overlay_line;     /**< overlay-line: its pattern; "{words}" */
  bool overlay_window;    /**< overlay-window: a countdown window while on air; off */
  char *overlay_colour;   /**< overlay-colour: that window's background; "#00b140" */
} CarpaceSettings;

/** Reads the settings. @param told hears each fault, one translated sentence */
void carpace_settings_read (CarpaceSettings *ret_settings, void (*told) (const char *message));

/** Frees its texts. */
void carpace_settings_clear (CarpaceSettings *settings);

#endif
