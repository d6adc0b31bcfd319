/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-keys-gnome.c: shortcuts among others in GNOME's settings, kept in memory. The schema is written here, with names
 * and types as gnome-settings-daemon-common 43 has them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <glib/gstdio.h>

#include "keys-gnome.h"

#define KEYS "org.gnome.settings-daemon.plugins.media-keys"
#define PLACE "/org/gnome/settings-daemon/plugins/media-keys/"
#define OTHER PLACE "custom-keybindings/custom0/"
#define RATE PLACE "custom-keybindings/carpace-rate-0/"
#define REST PLACE "custom-keybindings/carpace-rest/"

static const char schema[]
  = "<schemalist><schema id='" KEYS "' path='" PLACE "'><key name='custom-keybindings' type='as'><default>[]</default></key></schema>"
    "<schema id='" KEYS ".custom-keybinding'><key name='name' type='s'><default>''</default></key>"
    "<key name='binding' type='s'><default>''</default></key><key name='command' type='s'><default>''</default></key></schema>"
    "</schemalist>";

static const CarpaceKeysGnomeRow rows[] = { { "rate-0", "Rate 0", "rate 0", "<Control><Alt>0" },
                                            { "rest", "Rest now", "rest", "<Control><Alt>r" } };

static void
assert_row (const char *path, const char *key, const char *expected)
{
  GSettings *settings = g_settings_new_with_path (KEYS ".custom-keybinding", path);
  char *value = g_settings_get_string (settings, key);

  assert_string_equal (value, expected);
  g_free (value);
  g_object_unref (settings);
}

static void
set_row (const char *path, const char *key, const char *value)
{
  GSettings *settings = g_settings_new_with_path (KEYS ".custom-keybinding", path);

  g_settings_set_string (settings, key, value);
  g_object_unref (settings);
}

static void
assert_list (const char *expected)
{
  GSettings *settings = g_settings_new (KEYS);
  char **paths = g_settings_get_strv (settings, "custom-keybindings"), *joined = g_strjoinv (" ", paths);

  assert_string_equal (joined, expected);
  g_free (joined);
  g_strfreev (paths);
  g_object_unref (settings);
}

static void
it_is_known_where_it_is (void **state)
{
  assert_true (carpace_keys_gnome_is_here ("GNOME"));
  assert_true (carpace_keys_gnome_is_here ("ubuntu:GNOME"));
  assert_false (carpace_keys_gnome_is_here ("GNOMEX"));
  assert_false (carpace_keys_gnome_is_here ("sway"));
  assert_false (carpace_keys_gnome_is_here (NULL));
}

static void
those_of_others_stay (void **state)
{
  static const char *const others[] = { OTHER, NULL };
  GSettings *settings = g_settings_new (KEYS);

  g_settings_set_strv (settings, "custom-keybindings", others);
  g_object_unref (settings);
  set_row (OTHER, "command", "a terminal");
  carpace_keys_gnome_set (rows, G_N_ELEMENTS (rows), "/opt/it's here/carpace", true);
  assert_list (OTHER " " RATE " " REST);
  assert_row (RATE, "name", "Rate 0");
  assert_row (RATE, "command", "'/opt/it'\\''s here/carpace' rate 0");
  assert_row (RATE, "binding", "<Control><Alt>0");
  assert_row (REST, "command", "'/opt/it'\\''s here/carpace' rest");
  set_row (REST, "binding", "<Super>r"); /* chosen in the desktop's settings */
  carpace_keys_gnome_set (rows, G_N_ELEMENTS (rows), "/usr/bin/carpace", true);
  assert_list (OTHER " " RATE " " REST); /* each once */
  assert_row (REST, "binding", "<Super>r");
  assert_row (REST, "command", "'/usr/bin/carpace' rest");
  carpace_keys_gnome_set (rows, G_N_ELEMENTS (rows), "/usr/bin/carpace", false);
  assert_list (OTHER);
  assert_row (REST, "binding", "");
  assert_row (OTHER, "command", "a terminal");
}

/* Before GIO looks for schemas. */
static void
make_schema (const char *folder)
{
  char *path = g_build_filename (folder, "keys.gschema.xml", NULL);
  const char *argv[] = { "glib-compile-schemas", folder, NULL };
  int status;

  g_assert (g_file_set_contents (path, schema, -1, NULL));
  g_assert (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status, NULL) && status == 0);
  g_setenv ("GSETTINGS_SCHEMA_DIR", folder, TRUE);
  g_setenv ("GSETTINGS_BACKEND", "memory", TRUE);
  g_remove (path);
  g_free (path);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (it_is_known_where_it_is),
    cmocka_unit_test (those_of_others_stay),
  };
  char *folder = g_dir_make_tmp ("carpace-keys-XXXXXX", NULL), *compiled = g_build_filename (folder, "gschemas.compiled", NULL);
  int failed;

  make_schema (folder);
  failed = cmocka_run_group_tests (tests, NULL, NULL);
  g_remove (compiled);
  g_rmdir (folder);
  g_free (compiled);
  g_free (folder);
  return failed;
}
