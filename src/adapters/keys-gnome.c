/* SPDX-License-Identifier: GPL-3.0-or-later */
/* keys-gnome.c: GSettings, a list of paths and a group of keys at each. */
#include "keys-gnome.h"

#include <gio/gio.h>
#include <string.h>

#define SCHEMA "org.gnome.settings-daemon.plugins.media-keys"
#define ROW_SCHEMA SCHEMA ".custom-keybinding"
#define LIST "custom-keybindings"
#define OURS "/org/gnome/settings-daemon/plugins/media-keys/custom-keybindings/carpace-"

static bool
has_schema (const char *id)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  GSettingsSchema *schema = source != NULL ? g_settings_schema_source_lookup (source, id, TRUE) : NULL;
  bool has = schema != NULL;

  g_clear_pointer (&schema, g_settings_schema_unref);
  return has;
}

bool
carpace_keys_gnome_is_here (const char *desktop)
{
  char **names = g_strsplit (desktop != NULL ? desktop : "", ":", -1);
  bool gnome = g_strv_contains ((const char *const *) names, "GNOME");

  g_strfreev (names);
  return gnome && has_schema (SCHEMA) && has_schema (ROW_SCHEMA);
}

static char *
path_of (const CarpaceKeysGnomeRow *row)
{
  return g_strconcat (OURS, row->id, "/", NULL);
}

static void
set_row (const CarpaceKeysGnomeRow *row, const char *program)
{
  char *path = path_of (row), *quoted = g_shell_quote (program), *command = g_strconcat (quoted, " ", row->words, NULL);
  GSettings *settings = g_settings_new_with_path (ROW_SCHEMA, path);
  char *chosen = g_settings_get_string (settings, "binding");

  g_settings_set_string (settings, "name", row->name);
  g_settings_set_string (settings, "command", command);
  if (*chosen == '\0')
    g_settings_set_string (settings, "binding", row->keys);
  g_object_unref (settings);
  g_free (chosen);
  g_free (command);
  g_free (quoted);
  g_free (path);
}

static void
reset_row (const char *path)
{
  static const char *const keys[] = { "name", "command", "binding" };
  GSettings *settings = g_settings_new_with_path (ROW_SCHEMA, path);

  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++)
    g_settings_reset (settings, keys[i]);
  g_object_unref (settings);
}

/* The others first, as they are; then ours. */
void
carpace_keys_gnome_set (const CarpaceKeysGnomeRow *rows, int n_rows, const char *program, bool on)
{
  GSettings *settings = g_settings_new (SCHEMA);
  char **before = g_settings_get_strv (settings, LIST);
  GPtrArray *after = g_ptr_array_new_with_free_func (g_free);

  for (char **path = before; *path != NULL; path++)
    if (!g_str_has_prefix (*path, OURS))
      g_ptr_array_add (after, g_strdup (*path));
    else if (!on)
      reset_row (*path);
  for (int i = 0; on && i < n_rows; i++)
    {
      set_row (&rows[i], program);
      g_ptr_array_add (after, path_of (&rows[i]));
    }
  g_ptr_array_add (after, NULL);
  if (!g_strv_equal ((const char *const *) before, (const char *const *) after->pdata))
    g_settings_set_strv (settings, LIST, (const char *const *) after->pdata);
  g_settings_sync ();
  g_ptr_array_unref (after);
  g_strfreev (before);
  g_object_unref (settings);
}
