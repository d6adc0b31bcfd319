/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * settings-keyfile.h: the settings in one small file.
 *
 * `carpace/settings` in the user's configuration folder, a key file (GLib's
 * GKeyFile, the form of desktop files) with one group [carpace]. What is not
 * there, or cannot be read, is as it always was; a value that is wrong, a key that
 * is none and another group are told and left out. Written, it keeps its remarks,
 * its order and what is not known here.
 */
#ifndef CARPACE_SETTINGS_KEYFILE_H
#define CARPACE_SETTINGS_KEYFILE_H

#include "carpace/settings.h"

/** Where it is. */
char *carpace_settings_path (void);

/** Reads the settings. @param told hears each fault, one translated sentence */
void carpace_settings_read (CarpaceSettings *ret_settings, void (*told) (const char *message));

/** Writes one of them: @text, "true" or "false" of a flag; NULL takes it out, and it is
 * as it always was. Nobody else can read the file afterwards. A file that is no key file
 * is left as it is.
 * @return NULL, or what is wrong in one translated sentence, to be freed */
char *carpace_settings_write (CarpaceSettingId id, const char *text);

/** Frees its texts. */
void carpace_settings_clear (CarpaceSettings *settings);

#endif
