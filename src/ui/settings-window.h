/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * settings-window.h: the settings of settings.h, row by row. What is changed holds at
 * once; what is wrong is said under its row, and stays as it was typed. So is what stands in the file and does not
 * hold: whoever looks here sees no other place where it was told.
 */
#ifndef CARPACE_UI_SETTINGS_WINDOW_H
#define CARPACE_UI_SETTINGS_WINDOW_H

#include <gtk/gtk.h>

#include "carpace/settings.h"

typedef struct CarpaceSettingsWindow CarpaceSettingsWindow;

/** What it is given. */
typedef struct
{
  void *self;
  const CarpaceSettings *(*look) (void *self);
  /** @text NULL: as it always was. @return NULL, or what is wrong in a sentence, to be freed */
  char *(*set) (void *self, CarpaceSettingId id, const char *text);
  /** @return why what stands there does not hold, in a sentence, to be freed; NULL where it does */
  char *(*wrong) (void *self, CarpaceSettingId id);
  /** Lets the sound be heard; NULL where there is none. */
  void (*try_sound) (void *self);
  /** Opens the window for sharing; NULL where there is none. */
  void (*open_sharing) (void *self);
} CarpaceSettingsGiven;

CarpaceSettingsWindow *carpace_settings_window_new (const CarpaceSettingsGiven *given);
void carpace_settings_window_free (CarpaceSettingsWindow *window);

/** The player asked for it. */
void carpace_settings_window_show (CarpaceSettingsWindow *window);
void carpace_settings_window_hide (CarpaceSettingsWindow *window);

/** The settings are others: by the window, or in their file. What is being typed stays. */
void carpace_settings_window_changed (CarpaceSettingsWindow *window);

/** For tests. */
GtkWindow *carpace_settings_window_window (CarpaceSettingsWindow *window);

#endif
