/* SPDX-License-Identifier: GPL-3.0-or-later */
/* autostart-xdg.c: one desktop file, and the portal that writes one outside of a sandbox. */
#define _GNU_SOURCE
#include "autostart-xdg.h"

#include <errno.h>
#include <fcntl.h>
#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>
#include <unistd.h>

#include "files/in.h"
#include "files/out.h"
#include "text/file-text.h"

#define GROUP G_KEY_FILE_DESKTOP_GROUP
#define NAME "org.carpace.Carpace"
#define OURS "X-Carpace-Written" /* by this program, for the setting */
#define GNOMES "X-GNOME-Autostart-enabled"
#define LARGEST_BYTES 65536
#define PORTAL "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_ANSWER_MS 5000

bool
carpace_autostart_is_sandboxed (void)
{
  return g_file_test ("/.flatpak-info", G_FILE_TEST_EXISTS);
}

static void
tell_not_set (const CarpaceAutostart *autostart, const char *why)
{
  char *message = g_strdup_printf (_("Whether Carpace starts with the session could not be set: %s."), why);

  autostart->told (message);
  g_free (message);
}

/* ---- the file ---- */

/* As the Desktop Entry Specification quotes an argument of Exec. */
static char *
quoted (const char *program)
{
  GString *text = g_string_new ("\"");

  for (const char *c = program; *c != '\0'; c++)
    {
      if (strchr ("\"`$\\", *c) != NULL)
        g_string_append_c (text, '\\');
      g_string_append (text, *c == '%' ? "%%" : (char[]){ *c, '\0' });
    }
  g_string_append_c (text, '"');
  return g_string_free (text, FALSE);
}

/* What stands in the file's place: @ret_file holds it where it was written here.
 * @return whether anything does */
static bool
look (const char *path, GKeyFile *ret_file, bool *ret_ours)
{
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_in_read (path, LARGEST_BYTES, CARPACE_IN_FILE, &trouble);
  bool there = bytes != NULL || (errno != ENOENT && errno != ENOTDIR);

  *ret_ours = bytes != NULL && g_key_file_load_from_data (ret_file, bytes->str, bytes->len, G_KEY_FILE_KEEP_COMMENTS
                              | G_KEY_FILE_KEEP_TRANSLATIONS, NULL)
              && g_key_file_get_boolean (ret_file, GROUP, OURS, NULL);
  if (bytes != NULL)
    g_string_free (bytes, TRUE);
  return there;
}

static bool
write_file (const char *path, GKeyFile *file, const char *exec)
{
  char *folder = g_path_get_dirname (path), *bytes;
  gsize n;
  bool written;

  g_key_file_set_string (file, GROUP, G_KEY_FILE_DESKTOP_KEY_TYPE, G_KEY_FILE_DESKTOP_TYPE_APPLICATION);
  g_key_file_set_string (file, GROUP, G_KEY_FILE_DESKTOP_KEY_NAME, "Carpace");
  g_key_file_set_string (file, GROUP, G_KEY_FILE_DESKTOP_KEY_ICON, NAME);
  g_key_file_set_string (file, GROUP, G_KEY_FILE_DESKTOP_KEY_EXEC, exec);
  g_key_file_set_boolean (file, GROUP, OURS, TRUE);
  bytes = g_key_file_to_data (file, &n, NULL);
  written = g_mkdir_with_parents (folder, 0700) == 0
            && carpace_out_write (AT_FDCWD, path, CARPACE_OUT_AGAIN, bytes, n) == CARPACE_FILE_FINE;
  g_free (bytes);
  g_free (folder);
  return written;
}

static char *
path_of_file (void)
{
  return g_build_filename (g_get_user_config_dir (), "autostart", NAME ".desktop", NULL);
}

/* @return whether it was changed; where it could not be, errno is told */
static bool
set_file (const CarpaceAutostart *autostart, bool on)
{
  char *path = path_of_file (), *exec = quoted (autostart->program), *now;
  GKeyFile *file = g_key_file_new ();
  bool ours, there = look (path, file, &ours), changed = false, worked = true;

  now = ours ? g_key_file_get_string (file, GROUP, G_KEY_FILE_DESKTOP_KEY_EXEC, NULL) : NULL;
  if (on && (!there || (ours && g_strcmp0 (now, exec) != 0)))
    changed = worked = write_file (path, file, exec);
  else if (!on && ours)
    changed = worked = unlink (path) == 0;
  if (!worked)
    tell_not_set (autostart, g_strerror (errno));
  g_key_file_unref (file);
  g_free (now);
  g_free (exec);
  g_free (path);
  return changed;
}

/* ---- the portal ---- */

typedef struct
{
  CarpaceAutostart autostart;
  bool on;
  GDBusConnection *bus;
  guint subscription;
  GError *error;
} Asked;

static void
asked_free (Asked *asked)
{
  if (asked->subscription != 0)
    g_dbus_connection_signal_unsubscribe (asked->bus, asked->subscription);
  g_clear_object (&asked->bus);
  g_clear_error (&asked->error);
  g_free (asked);
}

/* The record says again what holds: the next start asks again. */
static void
take_back (Asked *asked)
{
  set_file (&asked->autostart, !asked->on);
}

/* org.freedesktop.portal.Request: response 0 is yes, and the results say to what. */
static void
on_response (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
             GVariant *parameters, gpointer user)
{
  Asked *asked = user;
  GVariant *results;
  guint32 response;
  gboolean starts = FALSE;

  g_variant_get (parameters, "(u@a{sv})", &response, &results);
  g_variant_lookup (results, "autostart", "b", &starts);
  g_variant_unref (results);
  if (asked->on && (response != 0 || !starts))
    {
      asked->autostart.told (_("The desktop does not let Carpace start with the session."));
      take_back (asked);
    }
  asked_free (asked);
}

static GVariant *
request (const Asked *asked, const char *token)
{
  const char *const command[] = { asked->autostart.program, NULL };
  GVariantBuilder options;

  g_variant_builder_init (&options, G_VARIANT_TYPE_VARDICT);
  g_variant_builder_add (&options, "{sv}", "handle_token", g_variant_new_string (token));
  g_variant_builder_add (&options, "{sv}", "reason", g_variant_new_string (_("Follows practice from the session's beginning on.")));
  g_variant_builder_add (&options, "{sv}", "autostart", g_variant_new_boolean (asked->on));
  g_variant_builder_add (&options, "{sv}", "commandline", g_variant_new_strv (command, -1));
  return g_variant_new ("(sa{sv})", "", &options);
}

static void
on_called (GObject *bus, GAsyncResult *result, gpointer user)
{
  Asked *asked = user;
  GVariant *reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (bus), result, &asked->error);

  if (reply != NULL)
    {
      g_variant_unref (reply); /* the answer comes as a signal, after a question perhaps */
      return;
    }
  tell_not_set (&asked->autostart, asked->error->message);
  take_back (asked);
  asked_free (asked);
}

/* Where the answer will be told: the place is known before the question. */
static char *
path_of_request (GDBusConnection *bus, const char *token)
{
  char *sender = g_strdelimit (g_strdup (g_dbus_connection_get_unique_name (bus) + 1), ".", '_');
  char *path = g_strdup_printf (PORTAL_PATH "/request/%s/%s", sender, token);

  g_free (sender);
  return path;
}

static void
ask_portal (const CarpaceAutostart *autostart, bool on)
{
  Asked *asked = g_new0 (Asked, 1);
  char *token = g_strdup_printf ("carpace_%u", g_random_int ()), *path;

  *asked = (Asked){ .autostart = *autostart, .on = on };
  asked->bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, &asked->error);
  if (asked->bus == NULL)
    {
      tell_not_set (autostart, asked->error->message);
      take_back (asked);
      asked_free (asked);
    }
  else
    {
      path = path_of_request (asked->bus, token);
      asked->subscription
        = g_dbus_connection_signal_subscribe (asked->bus, PORTAL, "org.freedesktop.portal.Request", "Response", path, NULL,
                                              G_DBUS_SIGNAL_FLAGS_NONE, on_response, asked, NULL);
      g_dbus_connection_call (asked->bus, PORTAL, PORTAL_PATH, "org.freedesktop.portal.Background", "RequestBackground",
                              request (asked, token), G_VARIANT_TYPE ("(o)"), G_DBUS_CALL_FLAGS_NONE, PORTAL_ANSWER_MS,
                              NULL, on_called, asked);
      g_free (path);
    }
  g_free (token);
}

/* By the specification, and by the key that GNOME's own switch writes. */
static bool
starts (const char *path)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();
  CarpaceFileTrouble trouble;
  GString *bytes = carpace_in_read (path, LARGEST_BYTES, CARPACE_IN_FILE, &trouble);
  bool read = bytes != NULL && g_key_file_load_from_data (file, bytes->str, bytes->len, G_KEY_FILE_NONE, NULL);

  if (bytes != NULL)
    g_string_free (bytes, TRUE);
  return read && g_key_file_has_group (file, GROUP) && !g_key_file_get_boolean (file, GROUP, G_KEY_FILE_DESKTOP_KEY_HIDDEN, NULL)
         && (!g_key_file_has_key (file, GROUP, GNOMES, NULL) || g_key_file_get_boolean (file, GROUP, GNOMES, NULL));
}

char *
carpace_autostart_fault (bool on)
{
  g_autofree char *path = path_of_file (), *name = carpace_text_path (path);

  if (starts (path) == on)
    return NULL;
  return g_strdup_printf (on ? _("The desktop does not start Carpace: that is decided by %s, which is not there or says no.")
                             : _("The desktop starts Carpace all the same: that is decided by %s, which Carpace did not write."),
                          name);
}

void
carpace_autostart_set (const CarpaceAutostart *autostart, bool on)
{
  if (set_file (autostart, on) && autostart->sandboxed)
    ask_portal (autostart, on);
}
