/* SPDX-License-Identifier: GPL-3.0-or-later */
/** shortcuts-text.h: shortcuts in words, and as each desktop writes them. */
#ifndef CARPACE_TEXT_SHORTCUTS_TEXT_H
#define CARPACE_TEXT_SHORTCUTS_TEXT_H

#include "carpace/desktop.h"
#include "carpace/shortcuts.h"

/** What it does, for a desktop's list of shortcuts: "Rate 3". g_free() it. */
char *carpace_text_shortcut (const CarpaceShortcut *shortcut);

/** How the keys are written. */
typedef enum
{
  CARPACE_KEYS_IN_WORDS,  /**< Ctrl+Alt+3 */
  CARPACE_KEYS_FOR_GTK,   /**< as GNOME keeps them: <Control><Alt>3 */
  CARPACE_KEYS_FOR_PORTAL /**< the XDG shortcuts specification: CTRL+ALT+3 */
} CarpaceKeysForm;

/** Its keys where nothing else is chosen. g_free() it. */
char *carpace_text_shortcut_keys (const CarpaceShortcut *shortcut, CarpaceKeysForm form);

/** How this desktop gets them, in a sentence; on the lines below it each shortcut, ready to be pasted where there
 * is a place for that. @param program as the desktop is to call it. g_free() it. */
char *carpace_text_shortcuts (const CarpaceDesktop *desktop, const char *program);

#endif
