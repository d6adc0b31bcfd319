/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * settings.h: what a player can set beside the plan.
 *
 * One table of keys: the file, the window, the manual and their tests go by it. A row
 * more is a setting more.
 */
#ifndef CARPACE_SETTINGS_H
#define CARPACE_SETTINGS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "carpace/names.h"

/** Where cards stand: the ends are those of the reading direction. */
typedef enum
{
  CARPACE_CORNER_LOWER_END,
  CARPACE_CORNER_LOWER_START,
  CARPACE_CORNER_UPPER_END,
  CARPACE_CORNER_UPPER_START,
  CARPACE_N_CORNERS
} CarpaceCorner;

/** On which monitor they stand. */
typedef enum
{
  CARPACE_MONITOR_GAME,  /**< the one with the game's window, else with the pointer */
  CARPACE_MONITOR_OTHER, /**< one that no full-screen window covers, where there is one */
  CARPACE_N_MONITORS
} CarpaceMonitor;

/** The settings. Texts are NULL where not given. */
typedef struct
{
  bool desktop_keys;      /**< the desktop's own keys call the program: it was let set them up */
  char *chord;            /**< "Ctrl+Alt+H", after which a digit answers a card */
  bool sound;             /**< a cue is heard, too */
  bool autostart;         /**< the program starts with the login session */
  bool other_input;       /**< minutes of mouse input outside practice are summed */
  bool clicks;            /**< presses of the mouse's buttons are counted in a block */
  char *practice_windows; /**< practice-window.h's list; NULL: practice is anywhere */
  bool window_starts;     /**< a block begins by itself as one of them comes to the front */
  char *cards_corner;     /**< a word of CARPACE_WORDS_CORNER */
  char *cards_monitor;    /**< a word of CARPACE_WORDS_MONITOR */
  bool overlay_window;    /**< a countdown window while on air */
  char *overlay_place;    /**< where that window stands, and its size: "480x96+40+60"; kept as it is moved */
  char *overlay_colour;   /**< that window's background; "#00b140" */
  char *overlay_folder;   /**< where the overlay's file is written, an absolute path */
  char *overlay_file;     /**< its name */
  char *overlay_line;     /**< its pattern */
} CarpaceSettings;

/** In the order in which they are shown. */
typedef enum
{
  CARPACE_SETTING_CHORD,
  CARPACE_SETTING_DESKTOP_KEYS,
  CARPACE_SETTING_SOUND,
  CARPACE_SETTING_AUTOSTART,
  CARPACE_SETTING_OTHER_INPUT,
  CARPACE_SETTING_CLICKS,
  CARPACE_SETTING_PRACTICE_WINDOWS,
  CARPACE_SETTING_WINDOW_STARTS,
  CARPACE_SETTING_CARDS_CORNER,
  CARPACE_SETTING_CARDS_MONITOR,
  CARPACE_SETTING_OVERLAY_WINDOW,
  CARPACE_SETTING_OVERLAY_PLACE,
  CARPACE_SETTING_OVERLAY_COLOUR,
  CARPACE_SETTING_OVERLAY_FOLDER,
  CARPACE_SETTING_OVERLAY_FILE,
  CARPACE_SETTING_OVERLAY_LINE,
  CARPACE_N_SETTINGS
} CarpaceSettingId;

/** What a value is. */
typedef enum
{
  CARPACE_SETTING_FLAG,
  CARPACE_SETTING_TEXT,
  CARPACE_SETTING_FOLDER, /**< a text: an absolute path */
  CARPACE_SETTING_WORD    /**< a text: one of a closed set */
} CarpaceSettingKind;

/** One setting. */
typedef struct
{
  const char *key;   /**< in the file */
  CarpaceSettingKind kind;
  size_t offset;     /**< in CarpaceSettings: of a bool or a char * */
  const char *usual; /**< where none is given, as the file has it; NULL: no text */
  CarpaceWords words; /**< of a word: its set */
} CarpaceSettingRow;

extern const CarpaceSettingRow carpace_setting_rows[CARPACE_N_SETTINGS];

/** The value of a flag. */
bool carpace_setting_flag (const CarpaceSettings *settings, CarpaceSettingId id);

/** The value of a word: what it stands for in its set. */
int32_t carpace_setting_word (const CarpaceSettings *settings, CarpaceSettingId id);

/** The value of a text, NULL where none is given. */
const char *carpace_setting_text (const CarpaceSettings *settings, CarpaceSettingId id);

#endif
