/* SPDX-License-Identifier: GPL-3.0-or-later */
/* settings.c: the table of settings. */
#include "carpace/settings.h"

#define ROW(id, name, what, member, value) \
  [CARPACE_SETTING_##id] = { name, CARPACE_SETTING_##what, offsetof (CarpaceSettings, member), value, CARPACE_N_WORDS }
#define WORD(id, name, set, member, value) \
  [CARPACE_SETTING_##id] = { name, CARPACE_SETTING_WORD, offsetof (CarpaceSettings, member), value, CARPACE_WORDS_##set }

const CarpaceSettingRow carpace_setting_rows[CARPACE_N_SETTINGS] = {
  ROW (CHORD, "chord", TEXT, chord, NULL),
  ROW (DESKTOP_KEYS, "desktop-keys", FLAG, desktop_keys, "false"),
  ROW (SOUND, "sound", FLAG, sound, "false"),
  ROW (AUTOSTART, "autostart", FLAG, autostart, "false"),
  ROW (OTHER_INPUT, "count-other-input", FLAG, other_input, "true"),
  ROW (CLICKS, "count-clicks", FLAG, clicks, "false"),
  ROW (PRACTICE_WINDOWS, "practice-windows", TEXT, practice_windows, NULL),
  ROW (WINDOW_STARTS, "window-starts", FLAG, window_starts, "false"),
  WORD (CARDS_CORNER, "cards-corner", CORNER, cards_corner, "lower-end"),
  WORD (CARDS_MONITOR, "cards-monitor", MONITOR, cards_monitor, "game"),
  ROW (OVERLAY_WINDOW, "overlay-window", FLAG, overlay_window, "false"),
  ROW (OVERLAY_PLACE, "overlay-place", TEXT, overlay_place, NULL),
  ROW (OVERLAY_COLOUR, "overlay-colour", TEXT, overlay_colour, NULL),
  ROW (OVERLAY_FOLDER, "overlay-folder", FOLDER, overlay_folder, NULL),
  ROW (OVERLAY_FILE, "overlay-file", TEXT, overlay_file, "carpace-overlay.txt"),
  ROW (OVERLAY_LINE, "overlay-line", TEXT, overlay_line, "{words}"),
};

bool
carpace_setting_flag (const CarpaceSettings *settings, CarpaceSettingId id)
{
  return *(const bool *) ((const char *) settings + carpace_setting_rows[id].offset);
}

const char *
carpace_setting_text (const CarpaceSettings *settings, CarpaceSettingId id)
{
  return *(const char *const *) (const void *) ((const char *) settings + carpace_setting_rows[id].offset);
}

int32_t
carpace_setting_word (const CarpaceSettings *settings, CarpaceSettingId id)
{
  return carpace_name_value (carpace_setting_rows[id].words, carpace_setting_text (settings, id));
}
