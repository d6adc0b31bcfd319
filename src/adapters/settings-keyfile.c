/* SPDX-License-Identifier: GPL-3.0-or-later */
/* settings-keyfile.c: the table of settings.h, read and written. */
#define _GNU_SOURCE
#include "settings-keyfile.h"

#include <errno.h>
#include <glib.h>
#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>

#include "files/in.h"
#include "text/quoted.h"

#define GROUP "carpace"
#define LARGEST_BYTES 65536

static void
tell (void (*told) (const char *message), const char *path, const char *what)
{
  char *name = carpace_text_path (path), *harmless = carpace_text_harmless (what);
  char *message = g_strdup_printf (_("%s: %s; the other settings hold"), name, harmless);

  told (message);
  g_free (name);
  g_free (harmless);
  g_free (message);
}

/* It is always this one: there is no other to name. */
static char *
not_read (CarpaceFileTrouble trouble, const char *path, int error)
{
  g_autofree char *name = carpace_text_path (path);

  if (trouble == CARPACE_FILE_TOO_LARGE)
    return g_strdup_printf (_("%s is too large: no setting in it holds until it is smaller."), name);
  if (trouble == CARPACE_FILE_FAILED)
    return g_strdup_printf (_("%s cannot be read: %s; no setting in it holds until it can be."), name, g_strerror (error));
  return g_strdup_printf (_("%s is no ordinary file: no setting holds until it is one, or gone."), name);
}

static void
tell_unread (void (*told) (const char *message), CarpaceFileTrouble trouble, const char *path, int error)
{
  char *message = not_read (trouble, path, error);

  told (message);
  g_free (message);
}

static void
read_flag (GKeyFile *file, const char *path, const CarpaceSettingRow *key, CarpaceSettings *settings, void (*told) (const char *message))
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

static char *
all_words (CarpaceWords words)
{
  GString *all = g_string_new (NULL);

  for (int32_t i = 0; i < carpace_names_count (words); i++)
    g_string_append_printf (all, "%s%s", i > 0 ? ", " : "", carpace_name (words, i));
  return g_string_free (all, FALSE);
}

/* @return what is wrong with @text as a value of @key, NULL where nothing is */
static char *
fault_of (const CarpaceSettingRow *key, const char *text)
{
  if (key->kind == CARPACE_SETTING_FOLDER && !g_path_is_absolute (text))
    return g_strdup_printf (_("%s is no absolute path"), key->key);
  if (key->kind == CARPACE_SETTING_WORD && carpace_name_value (key->words, text) < 0)
    {
      g_autofree char *words = all_words (key->words);

      return g_strdup_printf (_("%s is none of these: %s"), key->key, words);
    }
  return NULL;
}

static void
read_text (GKeyFile *file, const char *path, const CarpaceSettingRow *key, CarpaceSettings *settings, void (*told) (const char *message))
{
  GError *error = NULL;
  char *text = g_key_file_get_string (file, GROUP, key->key, &error);
  char **place = (char **) (void *) ((char *) settings + key->offset);
  char *what = error != NULL ? g_strdup_printf (_("%s is no text"), key->key) : fault_of (key, text);

  if (what == NULL)
    {
      g_free (*place);
      *place = text;
      return;
    }
  tell (told, path, what);
  g_free (what);
  g_free (text);
  g_clear_error (&error);
}

static const CarpaceSettingRow *
find (const char *name)
{
  for (int i = 0; i < CARPACE_N_SETTINGS; i++)
    if (strcmp (carpace_setting_rows[i].key, name) == 0)
      return &carpace_setting_rows[i];
  return NULL;
}

static void
read_keys (GKeyFile *file, const char *path, CarpaceSettings *settings, void (*told) (const char *message))
{
  char **names = g_key_file_get_keys (file, GROUP, NULL, NULL);

  for (int i = 0; names != NULL && names[i] != NULL; i++)
    {
      const CarpaceSettingRow *key = find (names[i]);
      if (key == NULL)
        {
          char *what = g_strdup_printf (_("there is no setting “%s”"), names[i]);
          tell (told, path, what);
          g_free (what);
        }
      else if (key->kind == CARPACE_SETTING_FLAG)
        read_flag (file, path, key, settings, told);
      else
        read_text (file, path, key, settings, told);
    }
  g_strfreev (names);
}

/* What stands outside the group is not ours, and most likely meant to be. */
static void
tell_other_groups (GKeyFile *file, const char *path, void (*told) (const char *message))
{
  char **groups = g_key_file_get_groups (file, NULL);

  for (int i = 0; groups[i] != NULL; i++)
    if (strcmp (groups[i], GROUP) != 0)
      {
        char *what = g_strdup_printf (_("nothing is read from [%s], only from [%s]"), groups[i], GROUP);
        tell (told, path, what);
        g_free (what);
      }
  g_strfreev (groups);
}

static void
tell_no_keyfile (const char *path, const char *why, void (*told) (const char *message))
{
  char *name = carpace_text_path (path), *harmless = carpace_text_harmless (why);
  char *message = g_strdup_printf (_("%s: no setting in it holds: %s"), name, harmless);

  told (message);
  g_free (name);
  g_free (harmless);
  g_free (message);
}

char *
carpace_settings_path (void)
{
  return g_build_filename (g_get_user_config_dir (), "carpace", "settings", NULL);
}

static void
set_usual (CarpaceSettings *settings)
{
  memset (settings, 0, sizeof *settings);
  for (int i = 0; i < CARPACE_N_SETTINGS; i++)
    {
      const CarpaceSettingRow *row = &carpace_setting_rows[i];
      void *place = (char *) settings + row->offset;

      if (row->kind == CARPACE_SETTING_FLAG)
        *(bool *) place = strcmp (row->usual, "true") == 0;
      else
        *(char **) place = g_strdup (row->usual);
    }
}

void
carpace_settings_read (CarpaceSettings *ret_settings, void (*told) (const char *message))
{
  char *path = carpace_settings_path ();
  GKeyFile *file = g_key_file_new ();
  GError *error = NULL;
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_in_read (path, LARGEST_BYTES, CARPACE_IN_FILE, &trouble);
  int why = errno;

  set_usual (ret_settings);
  if (bytes == NULL && trouble == CARPACE_FILE_FAILED && why == ENOENT)
    ;
  else if (bytes == NULL)
    tell_unread (told, trouble, path, why);
  else if (!g_key_file_load_from_data (file, bytes->str, bytes->len, G_KEY_FILE_NONE, &error))
    tell_no_keyfile (path, error->message, told);
  else
    {
      tell_other_groups (file, path, told);
      read_keys (file, path, ret_settings, told);
    }
  g_clear_error (&error);
  if (bytes != NULL)
    g_string_free (bytes, TRUE);
  g_key_file_unref (file);
  g_free (path);
}

/* ---- written ---- */

static char *
not_changed (const char *path, const char *why)
{
  g_autofree char *name = carpace_text_path (path), *harmless = carpace_text_harmless (why);

  return g_strdup_printf (_("%s is not changed: %s"), name, harmless);
}

/* @return false, and what is wrong, where it is there and no key file */
static bool
load (GKeyFile *file, const char *path, char **ret_fault)
{
  g_autoptr (GError) error = NULL;
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_in_read (path, LARGEST_BYTES, CARPACE_IN_FILE, &trouble);
  int why = errno;
  bool fine = bytes == NULL ? trouble == CARPACE_FILE_FAILED && why == ENOENT
                            : g_key_file_load_from_data (file, bytes->str, bytes->len, G_KEY_FILE_KEEP_COMMENTS, &error);

  if (!fine)
    *ret_fault = bytes == NULL ? not_read (trouble, path, why) : not_changed (path, error->message);
  if (bytes != NULL)
    g_string_free (bytes, TRUE);
  return fine;
}

/* A link stays one: what it leads to is written. */
static char *
save (GKeyFile *file, const char *path)
{
  gsize n;
  g_autofree char *bytes = g_key_file_to_data (file, &n, NULL), *folder = g_path_get_dirname (path);
  g_autofree char *real = realpath (path, NULL);
  g_autoptr (GError) error = NULL;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    return not_changed (path, g_strerror (errno));
  if (g_file_set_contents_full (real != NULL ? real : path, bytes, (gssize) n, G_FILE_SET_CONTENTS_CONSISTENT, 0600, &error))
    return NULL;
  return not_changed (path, error->message);
}

char *
carpace_settings_write (CarpaceSettingId id, const char *text)
{
  g_autofree char *path = carpace_settings_path ();
  g_autoptr (GKeyFile) file = g_key_file_new ();
  char *fault = NULL;

  if (!load (file, path, &fault))
    return fault;
  if (text == NULL)
    g_key_file_remove_key (file, GROUP, carpace_setting_rows[id].key, NULL);
  else if (carpace_setting_rows[id].kind == CARPACE_SETTING_FLAG)
    g_key_file_set_boolean (file, GROUP, carpace_setting_rows[id].key, strcmp (text, "true") == 0);
  else
    g_key_file_set_string (file, GROUP, carpace_setting_rows[id].key, text);
  return save (file, path);
}

void
carpace_settings_clear (CarpaceSettings *settings)
{
  for (int i = 0; i < CARPACE_N_SETTINGS; i++)
    if (carpace_setting_rows[i].kind != CARPACE_SETTING_FLAG)
      g_clear_pointer ((char **) (void *) ((char *) settings + carpace_setting_rows[i].offset), g_free);
}
