/* SPDX-License-Identifier: GPL-3.0-or-later */
/* shortcuts-text.c: a way for each kind of desktop. */
#include "text/shortcuts-text.h"

#include <glib/gi18n.h>
#include <string.h>

char *
carpace_text_shortcut (const CarpaceShortcut *shortcut)
{
  static const struct { const char *id, *text; } named[] = {
    { "rest", N_("Rest now") },   { "after-run", N_("Rest after this run") }, { "play-on", N_("Play on") },
    { "pause", N_("Pause the block") }, { "continue", N_("Go on after a pause") },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (named); i++)
    if (strcmp (named[i].id, shortcut->id) == 0)
      return g_strdup (_(named[i].text));
  /* Translators: a rating's number */
  return g_strdup_printf (_("Rate %s"), shortcut->words + strlen ("rate "));
}

char *
carpace_text_shortcut_keys (const CarpaceShortcut *shortcut, CarpaceKeysForm form)
{
  static const char *const held[] = { [CARPACE_KEYS_IN_WORDS] = "Ctrl+Alt+", [CARPACE_KEYS_FOR_GTK] = "<Control><Alt>",
                                      [CARPACE_KEYS_FOR_PORTAL] = "CTRL+ALT+" };

  return g_strconcat (held[form], shortcut->key, NULL);
}

/* ---- how each desktop gets them ---- */

/* XDG_CURRENT_DESKTOP is a list, the most special first. */
static bool
calls_itself (const CarpaceDesktop *desktop, const char *name)
{
  char **names = g_strsplit (desktop->desktop, ":", -1);
  bool does = false;

  for (char **each = names; *each != NULL; each++)
    does |= g_ascii_strcasecmp (*each, name) == 0;
  g_strfreev (names);
  return does;
}

static void
line_for_sway (GString *out, const CarpaceShortcut *shortcut, const char *program)
{
  g_autofree char *keys = carpace_text_shortcut_keys (shortcut, CARPACE_KEYS_IN_WORDS);

  g_string_append_printf (out, "bindsym %s exec %s %s\n", keys, program, shortcut->words);
}

static void
line_in_words (GString *out, const CarpaceShortcut *shortcut, const char *program)
{
  g_autofree char *keys = carpace_text_shortcut_keys (shortcut, CARPACE_KEYS_IN_WORDS);

  g_string_append_printf (out, "%-14s %s %s\n", keys, program, shortcut->words);
}

static const char *
sentence (const CarpaceDesktop *desktop, bool sway)
{
  if (desktop->shortcuts == CARPACE_SHORTCUTS_BY_PORTAL)
    return _("This desktop asks once for all keys: “carpace desktop --shortcuts --set”, or “Keys of the desktop” in the settings. "
             "By hand they are:");
  if (desktop->shortcuts == CARPACE_SHORTCUTS_BY_GNOME)
    return _("“carpace desktop --shortcuts --set”, or “Keys of the desktop” in the settings, adds them to this desktop's own. "
             "By hand they are:");
  if (sway)
    return _("Put these lines into sway's file of settings, ~/.config/sway/config, then “swaymsg reload”:");
  return _("Set these up in your desktop's settings for shortcuts:");
}

char *
carpace_text_shortcuts (const CarpaceDesktop *desktop, const char *program)
{
  bool sway = calls_itself (desktop, "sway") || desktop->sway;
  GString *out = g_string_new (sentence (desktop, sway));

  g_string_append (out, "\n");
  for (int32_t i = 0; i < carpace_n_shortcuts; i++)
    (sway ? line_for_sway : line_in_words) (out, &carpace_shortcuts[i], program);
  return g_string_free (out, FALSE);
}
