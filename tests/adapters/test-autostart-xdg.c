/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-autostart-xdg.c: the file in every state it can be in, and a portal of the test's own: interface as in
 * org.freedesktop.portal.Background, version 2. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "autostart-xdg.h"

#define PORTAL "org.freedesktop.portal.Desktop"
#define LIMIT_MS 5000

static char *path;
static GString *said;

static void
hear (const char *message)
{
  g_string_append (said, message);
}

static const CarpaceAutostart outside = { "/opt/it is/carpace", false, hear }, inside = { "carpace", true, hear };

static int
set_up (void **state)
{
  char *folder = g_build_filename (g_get_user_config_dir (), "autostart", NULL);

  path = g_build_filename (folder, "org.carpace.Carpace.desktop", NULL);
  said = g_string_new (NULL);
  g_remove (path);
  g_rmdir (path);
  g_chmod (folder, 0700);
  g_rmdir (folder);
  g_free (folder);
  return 0;
}

static int
tear_down (void **state)
{
  g_string_free (said, TRUE);
  g_free (path);
  return 0;
}

static char *
read_key (const char *key)
{
  GKeyFile *file = g_key_file_new ();
  char *value;

  assert_true (g_key_file_load_from_file (file, path, G_KEY_FILE_NONE, NULL));
  value = g_key_file_get_string (file, "Desktop Entry", key, NULL);
  g_key_file_unref (file);
  return value;
}

static void
assert_key (const char *key, const char *expected)
{
  char *value = read_key (key);

  assert_non_null (value);
  assert_string_equal (value, expected);
  g_free (value);
}

static void
it_is_written_and_taken_away (void **state)
{
  struct stat about;

  carpace_autostart_set (&outside, false);
  assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  carpace_autostart_set (&outside, true);
  assert_key ("Exec", "\"/opt/it is/carpace\"");
  assert_key ("Type", "Application");
  assert_int_equal (stat (path, &about), 0);
  assert_int_equal (about.st_mode & 0777, 0600);
  carpace_autostart_set (&outside, true);
  carpace_autostart_set (&outside, false);
  assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  assert_string_equal (said->str, "");
}

/* GLib's own reader of desktop files reads back what was meant. */
static void
a_path_with_signs_is_quoted (void **state)
{
  static const char *const programs[] = { "/a/carpace", "/a b/carpace", "/a\"b/c", "/a$b`c/d", "/a\\b/c", "/a%b/c", "/ü/c" };

  for (size_t i = 0; i < G_N_ELEMENTS (programs); i++)
    {
      const CarpaceAutostart one = { programs[i], false, hear };
      char *exec, **words;
      int n;

      carpace_autostart_set (&one, true);
      exec = read_key ("Exec");
      assert_true (g_shell_parse_argv (exec, &n, &words, NULL));
      assert_int_equal (n, 1);
      char *plain = g_strdup (words[0]), *percent = strstr (plain, "%%");
      if (percent != NULL)
        memmove (percent, percent + 1, strlen (percent));
      assert_string_equal (plain, programs[i]);
      g_free (plain);
      g_strfreev (words);
      g_free (exec);
    }
}

/* A desktop's switch, or a person, wrote into it: only the path is changed. */
static void
what_else_stands_in_it_holds (void **state)
{
  const CarpaceAutostart moved = { "/elsewhere/carpace", false, hear };
  FILE *file;

  carpace_autostart_set (&outside, true);
  file = fopen (path, "a");
  fputs ("Hidden=true\n", file);
  fclose (file);
  carpace_autostart_set (&outside, true);
  assert_key ("Hidden", "true");
  carpace_autostart_set (&moved, true);
  assert_key ("Hidden", "true");
  assert_key ("Exec", "\"/elsewhere/carpace\"");
}

static void
one_of_the_user_is_left (void **state)
{
  static const char own[] = "[Desktop Entry]\nType=Application\nName=Mine\nExec=carpace\n";
  char *folder = g_path_get_dirname (path), *bytes;

  assert_int_equal (g_mkdir_with_parents (folder, 0700), 0);
  assert_true (g_file_set_contents (path, own, -1, NULL));
  carpace_autostart_set (&outside, true);
  carpace_autostart_set (&outside, false);
  assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  assert_string_equal (bytes, own);
  assert_string_equal (said->str, "");
  g_free (bytes);
  g_free (folder);
}

static void
what_cannot_be_written_is_told (void **state)
{
  char *folder = g_path_get_dirname (path);

  assert_true (g_file_set_contents (folder, "no folder", -1, NULL));
  carpace_autostart_set (&outside, true);
  assert_non_null (strstr (said->str, "could not be set"));
  g_remove (folder);
  g_free (folder);
}

/* Whether the desktop goes by what was set: a row is what stands in the folder. It would catch a box that is ticked
 * while the desktop's own switch is off, and one that is not while a file of the user starts the program. */
static void
what_decides_otherwise_is_told (void **state)
{
#define ENTRY "[Desktop Entry]\nType=Application\nExec=carpace\n"
  static const struct
  {
    const char *bytes;
    bool starts;
  } rows[] = { { NULL, false },
               { "", false },
               { "no key file", false },
               { ENTRY, true },
               { ENTRY "Hidden=false\n", true },
               { ENTRY "Hidden=true\n", false },
               { ENTRY "X-GNOME-Autostart-enabled=true\n", true },
               { ENTRY "X-GNOME-Autostart-enabled=false\n", false },
               { ENTRY "X-Carpace-Written=true\nHidden=true\n", false } };
  g_autofree char *folder = g_path_get_dirname (path);

  assert_int_equal (g_mkdir_with_parents (folder, 0700), 0);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    for (int on = 0; on <= 1; on++)
      {
        assert_true (!rows[i].bytes || g_file_set_contents (path, rows[i].bytes, -1, NULL));
        g_autofree char *fault = carpace_autostart_fault (on);

        assert_int_equal (fault == NULL, rows[i].starts == on);
        assert_true (!fault || strstr (fault, path));
      }
}

/* ---- in a sandbox ---- */

static const char portal_xml[]
  = "<node><interface name='org.freedesktop.portal.Background'><method name='RequestBackground'><arg type='s' direction='in'/>"
    "<arg type='a{sv}' direction='in'/><arg type='o' direction='out'/></method></interface></node>";

typedef struct
{
  GDBusConnection *bus;
  guint object, name;
  guint32 response;
  bool grants, refuses;
  int n_asked;
  bool asked_on;
  char *command;
} Portal;

static void
called (GDBusConnection *bus, const char *sender, const char *at, const char *interface, const char *method, GVariant *in,
        GDBusMethodInvocation *call, gpointer data)
{
  Portal *portal = data;
  GVariant *options = g_variant_get_child_value (in, 1);
  const char *token = NULL, **command = NULL;
  gboolean on = FALSE;
  char *name = g_strdelimit (g_strdup (sender + 1), ".", '_'), *handle;
  GVariantBuilder results;

  portal->n_asked++;
  g_variant_lookup (options, "handle_token", "&s", &token);
  g_variant_lookup (options, "autostart", "b", &on);
  g_variant_lookup (options, "commandline", "^a&s", &command);
  portal->asked_on = on;
  g_free (portal->command);
  portal->command = g_strjoinv (" ", (char **) command);
  if (portal->refuses)
    g_dbus_method_invocation_return_dbus_error (call, "org.freedesktop.portal.Error.Failed", "no");
  else
    {
      handle = g_strdup_printf ("/org/freedesktop/portal/desktop/request/%s/%s", name, token);
      g_dbus_method_invocation_return_value (call, g_variant_new ("(o)", handle));
      g_variant_builder_init (&results, G_VARIANT_TYPE_VARDICT);
      g_variant_builder_add (&results, "{sv}", "autostart", g_variant_new_boolean (on && portal->grants));
      g_dbus_connection_emit_signal (bus, sender, handle, "org.freedesktop.portal.Request", "Response",
                                     g_variant_new ("(ua{sv})", portal->response, &results), NULL);
      g_free (handle);
    }
  g_free (command);
  g_free (name);
  g_variant_unref (options);
}

static void
owned (GDBusConnection *bus, const char *name, gpointer there)
{
  *(bool *) there = true;
}

static void
portal_open (Portal *portal)
{
  static const GDBusInterfaceVTable table = { .method_call = called };
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (portal_xml, NULL);
  char *address = g_dbus_address_get_for_bus_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  bool there = false;

  portal->bus = g_dbus_connection_new_for_address_sync (address, G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT
                                                        | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  assert_non_null (portal->bus);
  portal->object = g_dbus_connection_register_object (portal->bus, "/org/freedesktop/portal/desktop", node->interfaces[0], &table,
                                                      portal, NULL, NULL);
  portal->name = g_bus_own_name_on_connection (portal->bus, PORTAL, G_BUS_NAME_OWNER_FLAGS_NONE, owned, NULL, &there, NULL);
  while (!there)
    g_main_context_iteration (NULL, TRUE);
  g_dbus_node_info_unref (node);
  g_free (address);
}

static void
portal_close (Portal *portal)
{
  g_bus_unown_name (portal->name);
  g_dbus_connection_unregister_object (portal->bus, portal->object);
  g_dbus_connection_close_sync (portal->bus, NULL, NULL);
  g_object_unref (portal->bus);
  g_free (portal->command);
}

static gboolean
too_late (gpointer late)
{
  *(bool *) late = true;
  return G_SOURCE_REMOVE;
}

/* Goes on until the bus was asked @n_asked times and what it then said has come. */
static void
until (const Portal *portal, int n_asked, bool heard)
{
  bool late = false;
  guint limit = g_timeout_add (LIMIT_MS, too_late, &late);

  while (!late && (portal->n_asked < n_asked || (heard && said->len == 0)))
    g_main_context_iteration (NULL, TRUE);
  assert_false (late);
  g_source_remove (limit);
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static void
a_sandbox_asks_the_portal_once_a_change (void **state)
{
  Portal portal = { .grants = true };

  portal_open (&portal);
  carpace_autostart_set (&inside, false);
  carpace_autostart_set (&inside, true);
  until (&portal, 1, false);
  assert_int_equal (portal.n_asked, 1);
  assert_true (portal.asked_on);
  assert_string_equal (portal.command, "carpace");
  carpace_autostart_set (&inside, true);
  carpace_autostart_set (&inside, false);
  until (&portal, 2, false);
  assert_false (portal.asked_on);
  assert_string_equal (said->str, "");
  portal_close (&portal);
}

static void
a_refusal_is_told_and_asked_about_again (void **state)
{
  static const struct { guint32 response; bool grants, refuses; const char *told; } rows[] = {
    { 1, true, false, "does not let" },  /* cancelled */
    { 0, false, false, "does not let" }, /* no */
    { 0, false, true, "could not be set" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Portal portal = { .response = rows[i].response, .grants = rows[i].grants, .refuses = rows[i].refuses };

      print_message ("row %zu\n", i);
      portal_open (&portal);
      for (int n = 1; n <= 2; n++)
        {
          g_string_truncate (said, 0);
          carpace_autostart_set (&inside, true);
          until (&portal, n, true);
          assert_non_null (strstr (said->str, rows[i].told));
          assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
        }
      portal_close (&portal);
    }
}

static void
without_a_portal_it_is_told (void **state)
{
  const Portal nobody = { 0 };

  carpace_autostart_set (&inside, true);
  until (&nobody, 0, true);
  assert_non_null (strstr (said->str, "could not be set"));
  assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (it_is_written_and_taken_away, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_path_with_signs_is_quoted, set_up, tear_down),
    cmocka_unit_test_setup_teardown (what_else_stands_in_it_holds, set_up, tear_down),
    cmocka_unit_test_setup_teardown (one_of_the_user_is_left, set_up, tear_down),
    cmocka_unit_test_setup_teardown (what_decides_otherwise_is_told, set_up, tear_down),
    cmocka_unit_test_setup_teardown (what_cannot_be_written_is_told, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_sandbox_asks_the_portal_once_a_change, set_up, tear_down),
    cmocka_unit_test_setup_teardown (a_refusal_is_told_and_asked_about_again, set_up, tear_down),
    cmocka_unit_test_setup_teardown (without_a_portal_it_is_told, set_up, tear_down),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
