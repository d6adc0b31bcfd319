/* SPDX-License-Identifier: GPL-3.0-or-later */
/* settings-text.c: a row a setting. */
#include "text/settings-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/quoted.h"

static const struct
{
  const char *part, *name, *hint;
} words[CARPACE_N_SETTINGS] = {
  [CARPACE_SETTING_CHORD] = { N_("Keys"), N_("Keys that arm the rating card"),
                              N_("Held together, then the number. As Ctrl+Alt+H; empty: the usual ones.") },
  [CARPACE_SETTING_DESKTOP_KEYS] = { N_("Keys"), N_("Keys of the desktop"),
                                     N_("On Wayland: Ctrl+Alt and a number rate. The desktop may ask you, once for all.") },
  [CARPACE_SETTING_SOUND] = { N_("Sound"), N_("A sound with each cue"), N_("The desktop's own; softer inside a run.") },
  [CARPACE_SETTING_AUTOSTART] = { N_("Starting"), N_("Start with the desktop"), N_("In the tray, without a window.") },
  [CARPACE_SETTING_OTHER_INPUT] = { N_("Counting"), N_("Count mouse use outside practice"),
                                    N_("Minutes a day, shown with the morning check. They stay on this computer.") },
  [CARPACE_SETTING_CLICKS] = { N_("Counting"), N_("Count clicks in a block"),
                               N_("How many a minute, nothing else. To be held against the efforts of the plan.") },
  [CARPACE_SETTING_PRACTICE_WINDOWS] = { N_("Practice window"), N_("The windows you practise in"),
                                         N_("Chosen by a click, from the menu. Empty: any window.") },
  [CARPACE_SETTING_WINDOW_STARTS] = { N_("Practice window"), N_("Start a block when one comes to the front"),
                                      N_("Where one may begin; otherwise Carpace asks.") },
  [CARPACE_SETTING_CARDS_CORNER] = { N_("Cards"), N_("The corner in which cards come"),
                                     N_("Over a full-screen window, too. The next card follows.") },
  [CARPACE_SETTING_CARDS_MONITOR] = { N_("Cards"), N_("The monitor on which they come"),
                                      N_("With one monitor, both are the same.") },
  [CARPACE_SETTING_OVERLAY_WINDOW] = { N_("On air"), N_("A window with the line, to capture"),
                                       N_("While on air: the pauses of the stream, and nothing else.") },
  [CARPACE_SETTING_OVERLAY_PLACE] = { N_("On air"), N_("Where that window stands"),
                                      N_("Kept as you move and size it. As 480x96+40+60: width, height, from the left, from the top.") },
  [CARPACE_SETTING_OVERLAY_COLOUR] = { N_("On air"), N_("Background of that window"), N_("To be keyed out, as #00b140.") },
  [CARPACE_SETTING_OVERLAY_FOLDER] = { N_("On air"), N_("Folder for a line of text"),
                                       N_("A whole path: a broadcasting program reads the file in it. Empty: no file.") },
  [CARPACE_SETTING_OVERLAY_FILE] = { N_("On air"), N_("Name of that file"), N_("A plain name, without a folder.") },
  [CARPACE_SETTING_OVERLAY_LINE] = { N_("On air"), N_("The line"), N_("With the fields {words}, {to-go}, {at} and {until}.") },
};

const char *
carpace_text_setting (CarpaceSettingId id)
{
  return _(words[id].name);
}

const char *
carpace_text_setting_hint (CarpaceSettingId id)
{
  return _(words[id].hint);
}

const char *
carpace_text_setting_part (CarpaceSettingId id)
{
  return _(words[id].part);
}

const char *
carpace_text_setting_word (CarpaceSettingId id, int32_t value, bool from_right)
{
  static const char *const corners[CARPACE_N_CORNERS] = {
    [CARPACE_CORNER_LOWER_END] = N_("Lower right"),
    [CARPACE_CORNER_LOWER_START] = N_("Lower left"),
    [CARPACE_CORNER_UPPER_END] = N_("Upper right"),
    [CARPACE_CORNER_UPPER_START] = N_("Upper left"),
  };
  static const CarpaceCorner mirrored[CARPACE_N_CORNERS] = {
    [CARPACE_CORNER_LOWER_END] = CARPACE_CORNER_LOWER_START,
    [CARPACE_CORNER_LOWER_START] = CARPACE_CORNER_LOWER_END,
    [CARPACE_CORNER_UPPER_END] = CARPACE_CORNER_UPPER_START,
    [CARPACE_CORNER_UPPER_START] = CARPACE_CORNER_UPPER_END,
  };
  static const char *const monitors[CARPACE_N_MONITORS] = {
    [CARPACE_MONITOR_GAME] = N_("The one with the game's window"),
    [CARPACE_MONITOR_OTHER] = N_("Another one, where there is one"),
  };

  if (id == CARPACE_SETTING_CARDS_CORNER)
    return _(corners[from_right ? mirrored[value] : (CarpaceCorner) value]);
  return _(monitors[value]);
}

char *
carpace_text_setting_fault (CarpaceSettingId id, const char *text)
{
  g_autofree char *shown = carpace_text_harmless (text);

  switch (id)
    {
    case CARPACE_SETTING_CHORD:
      return g_strdup_printf (_("“%s” is no key combination; write it as Ctrl+Alt+H."), shown);
    case CARPACE_SETTING_OVERLAY_PLACE:
      return g_strdup_printf (_("“%s” is no place of a window; write it as 480x96+40+60."), shown);
    case CARPACE_SETTING_OVERLAY_COLOUR:
      return g_strdup_printf (_("“%s” is no colour; write it as #00b140 or by its name."), shown);
    case CARPACE_SETTING_OVERLAY_FOLDER:
      return g_strdup_printf (_("“%s” is no folder that is there; give its whole path."), shown);
    case CARPACE_SETTING_OVERLAY_FILE:
      return g_strdup_printf (_("“%s” is no plain name; leave out the folder."), shown);
    case CARPACE_SETTING_CARDS_CORNER:
    case CARPACE_SETTING_CARDS_MONITOR:
    case CARPACE_SETTING_DESKTOP_KEYS:
    case CARPACE_SETTING_PRACTICE_WINDOWS:
    case CARPACE_SETTING_WINDOW_STARTS:
    case CARPACE_SETTING_SOUND:
    case CARPACE_SETTING_AUTOSTART:
    case CARPACE_SETTING_OTHER_INPUT:
    case CARPACE_SETTING_CLICKS:
    case CARPACE_SETTING_OVERLAY_WINDOW:
    case CARPACE_SETTING_OVERLAY_LINE:
    case CARPACE_N_SETTINGS: break;
    }
  return g_strdup ("");
}
