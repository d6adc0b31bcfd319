/* SPDX-License-Identifier: GPL-3.0-or-later */
/* settings-keyfile.c: one table of keys. */
#include "settings-keyfile.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#define GROUP "carpace"
#define LARGEST_BYTES 65536

typedef struct
{
  const char *key;
  bool is_flag;
  size_t offset;
} Key;

static const Key keys[] = {
  { "chord", false, offsetof (CarpaceSettings, chord) },
  { "sound", true, offsetof (CarpaceSettings, sound) },
  { "count-other-input", true, offsetof (CarpaceSettings, other_input) },
  { "overlay-folder", false, offsetof (CarpaceSettings, overlay_folder) },
  { "overlay-file", false, offsetof (CarpaceSettings, overlay_file) },
  { "overlay-line", false, offsetof (CarpaceSettings, overlay_line) },
  { "overlay-window", true, offsetof (CarpaceSettings, overlay_window) },
  { "overlay-colour", false, offsetof (CarpaceSettings, overlay_colour) },
};

static void
tell (void (*told) (const char *message), const char *path, const char *what)
{
  char *message = g_strdup_printf (_("%s: %s; the other settings hold"), path, what);

  told (message);
  g_free (message);
}

static void
read_flag (GKeyFile *file, const char *path, const Key *key, CarpaceSettings *settings, void (*told) (const char *message))
{
  GError *error = NULL;
  bool flag = g_key_file_get_boolean (file, GROUP, key->key, &error);

  if (error == NULL)
    *(bool *) ((char *) settings + key->offset) = flag;
  else
    {
      char *what = g_strdup_printf (_("%s is neither true nor false"), key->key);
      tell (told, path, what);
      g_free (what);
    }
  g_clear_error (&error);
}

static void
read_text (GKeyFile *file, const char *path, const Key *key, CarpaceSettings *settings, void (*told) (const char *message))
{
  char *text = g_key_file_get_string (file, GROUP, key->key, NULL);
  char **place = (char **) (void *) ((char *) settings + key->offset);

  if (text != NULL)
    {
      g_free (*place);
      *place = text;
      return;
    }
  text = g_strdup_printf (_("%s is no text"), key->key);
  tell (told, path, text);
  g_free (text);
}

static const Key *
find (const char *name)
{
  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++)
    if (strcmp (keys[i].key, name) == 0)
      return &keys[i];
  return NULL;
}

static void
read_keys (GKeyFile *file, const char *path, CarpaceSettings *settings, void (*told) (const char *message))
{
  char **names = g_key_file_get_keys (file, GROUP, NULL, NULL);

  for (int i = 0; names != NULL && names[i] != NULL; i++)
    {
      const Key *key = find (names[i]);
      if (key == NULL)
        {
          char *what = g_strdup_printf (_("there is no setting “%s”"), names[i]);
          tell (told, path, what);
          g_free (what);
        }
      else if (key->is_flag)
        read_flag (file, path, key, settings, told);
      else
        read_text (file, path, key, settings, told);
    }
  g_strfreev (names);
}

void
carpace_settings_read (CarpaceSettings *ret_settings, void (*told) (const char *message))
{
  char *path = g_build_filename (g_get_user_config_dir (), "carpace", "settings", NULL);
  GKeyFile *file = g_key_file_new ();
  GError *error = NULL;
  char *bytes = NULL;
  gsize n = 0;

  memset (ret_settings, 0, sizeof *ret_settings);
  ret_settings->other_input = true;
  ret_settings->overlay_file = g_strdup ("carpace-overlay.txt");
  ret_settings->overlay_line = g_strdup ("{words}");
  if (!g_file_get_contents (path, &bytes, &n, &error))
    {
      if (!g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT))
        tell (told, path, error->message);
    }
  else if (n > LARGEST_BYTES || !g_key_file_load_from_data (file, bytes, n, G_KEY_FILE_NONE, &error))
    tell (told, path, error != NULL ? error->message : _("the file is too large"));
  else
    read_keys (file, path, ret_settings, told);
  g_clear_error (&error);
  g_free (bytes);
  g_key_file_unref (file);
  g_free (path);
}

void
carpace_settings_clear (CarpaceSettings *settings)
{
  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++)
    if (!keys[i].is_flag)
      g_clear_pointer ((char **) (void *) ((char *) settings + keys[i].offset), g_free);
}
