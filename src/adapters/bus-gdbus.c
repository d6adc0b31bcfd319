/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bus-gdbus.c: both ends of the bus. */
#include "bus-gdbus.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>

#define NAME "org.carpace.Carpace"
#define PATH "/org/carpace/Carpace"
#define NAME_WITHIN_MS 2000
#define LOOK_FIRST_MS (2 * CARPACE_SECOND_MS)
#define LOOK_LONGEST_MS (5 * CARPACE_MINUTE_MS)
#define REQUEST_NAME_DO_NOT_QUEUE 4u   /* D-Bus Specification, org.freedesktop.DBus.RequestName */
#define REQUEST_NAME_PRIMARY_OWNER 1u
#define REQUEST_NAME_ALREADY_OWNER 4u

static const char introspection[] =
  "<node><interface name='" NAME "'>"
  "<method name='Command'><arg type='as' name='words' direction='in'/>"
  "<arg type='i' name='status' direction='out'/><arg type='s' name='message' direction='out'/></method>"
  "<method name='Show'/>"
  "<method name='Follow'><arg type='s' name='json' direction='out'/></method>"
  "<signal name='Changed'><arg type='s' name='json'/></signal>"
  "</interface></node>";

struct CarpaceBus
{
  CarpaceBusServed served;
  GDBusConnection *connection; /* NULL: there was no bus */
  GDBusNodeInfo *node;
  guint object;
  GHashTable *followers; /* unique name -> watch id */
  char *told;
  char *address;
  GCancellable *cancel; /* of a look */
  guint looking;        /* a source, while there is no bus */
  int32_t looks;
};

static void look_for_bus (CarpaceBus *bus);

static void
answer_command (CarpaceBus *bus, GVariant *parameters, GDBusMethodInvocation *call)
{
  gsize n;
  const char **words;
  char *message = NULL;
  int status;

  g_variant_get (parameters, "(^a&s)", &words);
  n = g_strv_length ((char **) words);
  status = bus->served.command (bus->served.self, (int) n, (const char *const *) words, &message);
  g_dbus_method_invocation_return_value (call, g_variant_new ("(is)", status, message != NULL ? message : ""));
  g_free (message);
  g_free (words);
}

static void
forget_follower (GDBusConnection *connection, const char *name, gpointer user)
{
  CarpaceBus *bus = user;
  guint watch = GPOINTER_TO_UINT (g_hash_table_lookup (bus->followers, name));

  g_hash_table_remove (bus->followers, name);
  if (watch != 0)
    g_bus_unwatch_name (watch);
}

static void
answer_follow (CarpaceBus *bus, const char *sender, GDBusMethodInvocation *call)
{
  char *json = bus->served.status (bus->served.self);

  if (!g_hash_table_contains (bus->followers, sender))
    g_hash_table_insert (bus->followers, g_strdup (sender),
                         GUINT_TO_POINTER (g_bus_watch_name_on_connection (
                           bus->connection, sender, G_BUS_NAME_WATCHER_FLAGS_NONE, NULL, forget_follower, bus, NULL)));
  g_dbus_method_invocation_return_value (call, g_variant_new ("(s)", json));
  g_free (bus->told);
  bus->told = json;
}

static void
answer (GDBusConnection *connection, const char *sender, const char *path, const char *interface, const char *method,
        GVariant *parameters, GDBusMethodInvocation *call, gpointer user)
{
  CarpaceBus *bus = user;

  if (strcmp (method, "Command") == 0)
    answer_command (bus, parameters, call);
  else if (strcmp (method, "Follow") == 0)
    answer_follow (bus, sender, call);
  else
    {
      bus->served.show (bus->served.self);
      g_dbus_method_invocation_return_value (call, NULL);
    }
}

/* A bus that does not answer is none: the tray does without. */
static CarpaceBusFound
take_name (GDBusConnection *connection)
{
  GVariant *reply = g_dbus_connection_call_sync (
    connection, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "RequestName",
    g_variant_new ("(su)", NAME, REQUEST_NAME_DO_NOT_QUEUE), G_VARIANT_TYPE ("(u)"), G_DBUS_CALL_FLAGS_NONE,
    NAME_WITHIN_MS, NULL, NULL);
  guint32 result = 0;

  if (reply == NULL)
    return CARPACE_BUS_NONE;
  g_variant_get (reply, "(u)", &result);
  g_variant_unref (reply);
  return result == REQUEST_NAME_PRIMARY_OWNER || result == REQUEST_NAME_ALREADY_OWNER ? CARPACE_BUS_OURS : CARPACE_BUS_TAKEN;
}

/* ---- a bus that goes and comes back ---- */

static void
forget_followers (CarpaceBus *bus)
{
  GHashTableIter each;
  gpointer watch;

  g_hash_table_iter_init (&each, bus->followers);
  while (g_hash_table_iter_next (&each, NULL, &watch))
    g_bus_unwatch_name (GPOINTER_TO_UINT (watch));
  g_hash_table_remove_all (bus->followers);
}

int64_t
carpace_bus_look_after_ms (int32_t nth)
{
  int64_t ms = LOOK_FIRST_MS;

  for (; nth > 0 && ms < LOOK_LONGEST_MS; nth--)
    ms *= 2;
  return MIN (ms, LOOK_LONGEST_MS);
}

static void
looked (GObject *object, GAsyncResult *result, gpointer user)
{
  GError *error = NULL;
  GDBusConnection *connection = g_dbus_connection_new_for_address_finish (result, &error);
  CarpaceBus *bus = user;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_error_free (error); /* freed already */
      return;
    }
  g_clear_error (&error);
  if (connection == NULL)
    {
      look_for_bus (bus);
      return;
    }
  g_dbus_connection_set_exit_on_close (connection, FALSE);
  g_dbus_connection_close (connection, NULL, NULL, NULL);
  g_object_unref (connection);
  bus->served.back (bus->served.self);
}

/* Where a bus would be that was not there at the start; what else GLib tries would begin one. */
static char *
address_of_login (void)
{
  const char *told = g_getenv ("DBUS_SESSION_BUS_ADDRESS");
  g_autofree char *path = g_build_filename (g_get_user_runtime_dir (), "bus", NULL);
  g_autofree char *escaped = g_dbus_address_escape_value (path);

  return told != NULL ? g_strdup (told) : g_strconcat ("unix:path=", escaped, NULL);
}

static gboolean
look (gpointer user)
{
  CarpaceBus *bus = user;

  bus->looking = 0;
  g_dbus_connection_new_for_address (bus->address, G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT
                                                     | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION,
                                     NULL, bus->cancel, looked, bus);
  return G_SOURCE_REMOVE;
}

static void
look_for_bus (CarpaceBus *bus)
{
  bus->looking = g_timeout_add ((guint) carpace_bus_look_after_ms (bus->looks++), look, bus);
}

static void
bus_closed (GDBusConnection *connection, gboolean remote_peer_vanished, GError *error, gpointer user)
{
  CarpaceBus *bus = user;

  forget_followers (bus);
  if (bus->served.back == NULL)
    return;
  if (bus->served.lost != NULL)
    bus->served.lost (bus->served.self);
  look_for_bus (bus);
}

static void
ask_to_show (GDBusConnection *connection)
{
  GVariant *reply = g_dbus_connection_call_sync (connection, NAME, PATH, NAME, "Show", NULL, NULL,
                                                 G_DBUS_CALL_FLAGS_NO_AUTO_START, NAME_WITHIN_MS, NULL, NULL);

  if (reply != NULL)
    g_variant_unref (reply);
}

/* The object is there before the name that calls are sent to. */
static CarpaceBusFound
serve_on (CarpaceBus *bus)
{
  static const GDBusInterfaceVTable table = { .method_call = answer };

  g_dbus_connection_set_exit_on_close (bus->connection, FALSE);
  g_signal_connect (bus->connection, "closed", G_CALLBACK (bus_closed), bus);
  bus->node = g_dbus_node_info_new_for_xml (introspection, NULL);
  bus->object = g_dbus_connection_register_object (bus->connection, PATH, bus->node->interfaces[0], &table, bus, NULL, NULL);
  return take_name (bus->connection);
}

static void
leave (CarpaceBus *bus)
{
  if (bus->connection == NULL)
    return;
  g_signal_handlers_disconnect_by_data (bus->connection, bus);
  if (bus->object != 0)
    g_dbus_connection_unregister_object (bus->connection, bus->object);
  bus->object = 0;
  g_clear_pointer (&bus->node, g_dbus_node_info_unref);
}

void
carpace_bus_begin (void)
{
  g_bus_get (G_BUS_TYPE_SESSION, NULL, NULL, NULL);
}

CarpaceBus *
carpace_bus_new (CarpaceBusServed served, CarpaceBusFound *ret_found)
{
  CarpaceBus *bus = g_new0 (CarpaceBus, 1);

  bus->served = served;
  bus->connection = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  bus->followers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  bus->cancel = g_cancellable_new ();
  if (bus->connection != NULL)
    bus->address = g_dbus_address_get_for_bus_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  if (bus->address == NULL)
    bus->address = address_of_login ();
  *ret_found = bus->connection != NULL ? serve_on (bus) : CARPACE_BUS_NONE;
  if (*ret_found == CARPACE_BUS_OURS)
    return bus;
  if (*ret_found == CARPACE_BUS_TAKEN)
    ask_to_show (bus->connection);
  leave (bus);
  if (*ret_found == CARPACE_BUS_NONE && served.back != NULL)
    {
      look_for_bus (bus);
      return bus;
    }
  carpace_bus_free (bus);
  return NULL;
}

void
carpace_bus_free (CarpaceBus *bus)
{
  if (bus == NULL)
    return;
  g_cancellable_cancel (bus->cancel);
  g_object_unref (bus->cancel);
  g_clear_handle_id (&bus->looking, g_source_remove);
  g_free (bus->address);
  forget_followers (bus);
  g_hash_table_unref (bus->followers);
  leave (bus);
  if (bus->connection != NULL)
    g_dbus_connection_flush_sync (bus->connection, NULL, NULL);
  g_clear_object (&bus->connection);
  g_free (bus->told);
  g_free (bus);
}

bool
carpace_bus_is_followed (const CarpaceBus *bus)
{
  return bus != NULL && g_hash_table_size (bus->followers) > 0;
}

void
carpace_bus_changed (CarpaceBus *bus, const char *json)
{
  if (!carpace_bus_is_followed (bus) || g_strcmp0 (bus->told, json) == 0)
    return;
  g_free (bus->told);
  bus->told = g_strdup (json);
  g_dbus_connection_emit_signal (bus->connection, NULL, PATH, NAME, "Changed", g_variant_new ("(s)", json), NULL);
}

/* ---- the other end ---- */

static bool
nobody_there (const GError *error)
{
  return g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_SERVICE_UNKNOWN)
         || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_NAME_HAS_NO_OWNER);
}

static bool
too_late (const GError *error)
{
  return g_error_matches (error, G_IO_ERROR, G_IO_ERROR_TIMED_OUT) || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_NO_REPLY)
         || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_TIMEOUT)
         || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_TIMED_OUT);
}

static GVariant *
call (GDBusConnection *connection, int within_ms, const char *method, GVariant *parameters, const char *answer_type,
      int *ret_status)
{
  GError *error = NULL;
  GVariant *reply = g_dbus_connection_call_sync (connection, NAME, PATH, NAME, method, parameters,
                                                 G_VARIANT_TYPE (answer_type), G_DBUS_CALL_FLAGS_NO_AUTO_START,
                                                 within_ms, NULL, &error);

  *ret_status = reply != NULL ? 0 : nobody_there (error) ? 3 : too_late (error) ? CARPACE_REMOTE_LATE : 1;
  g_clear_error (&error);
  return reply;
}

static GDBusConnection *
session_bus (void)
{
  GDBusConnection *connection = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);

  if (connection != NULL)
    g_dbus_connection_set_exit_on_close (connection, FALSE);
  return connection;
}

static int
remote_command (void *self, int n_words, const char *const *words, char **ret_message)
{
  GDBusConnection *connection = session_bus ();
  GVariant *reply;
  const char *message;
  int status;

  *ret_message = NULL;
  if (connection == NULL)
    return 3;
  reply = call (connection, *(const int *) self, "Command", g_variant_new ("(@as)", g_variant_new_strv (words, n_words)), "(is)", &status);
  if (reply != NULL)
    {
      g_variant_get (reply, "(i&s)", &status, &message);
      *ret_message = *message != '\0' ? g_strdup (message) : NULL;
      g_variant_unref (reply);
    }
  g_object_unref (connection);
  return status;
}

typedef struct
{
  bool (*line) (void *user, const char *json);
  void *user;
  GMainLoop *loop;
} Following;

static void
on_changed (GDBusConnection *connection, const char *sender, const char *path, const char *interface,
            const char *signal, GVariant *parameters, gpointer user)
{
  Following *f = user;
  const char *json;

  g_variant_get (parameters, "(&s)", &json);
  if (!f->line (f->user, json))
    g_main_loop_quit (f->loop);
}

static void
on_gone (GDBusConnection *connection, const char *name, gpointer user)
{
  g_main_loop_quit (((Following *) user)->loop);
}

static int
remote_follow (void *self, bool (*line) (void *user, const char *json), void *user)
{
  GDBusConnection *connection = session_bus ();
  Following f = { line, user, NULL };
  GVariant *reply;
  const char *json;
  guint subscription, watch;
  int status;

  if (connection == NULL)
    return 3;
  f.loop = g_main_loop_new (NULL, FALSE);
  subscription = g_dbus_connection_signal_subscribe (connection, NAME, NAME, "Changed", PATH, NULL,
                                                     G_DBUS_SIGNAL_FLAGS_NONE, on_changed, &f, NULL);
  reply = call (connection, *(const int *) self, "Follow", NULL, "(s)", &status);
  if (reply != NULL)
    {
      g_variant_get (reply, "(&s)", &json);
      if (line (user, json))
        {
          watch = g_bus_watch_name_on_connection (connection, NAME, G_BUS_NAME_WATCHER_FLAGS_NONE, NULL, on_gone, &f,
                                                  NULL);
          g_main_loop_run (f.loop);
          g_bus_unwatch_name (watch);
        }
      g_variant_unref (reply);
    }
  g_dbus_connection_signal_unsubscribe (connection, subscription);
  g_main_loop_unref (f.loop);
  g_object_unref (connection);
  return status;
}

CarpaceRemote
carpace_bus_remote (const int *within_ms)
{
  return (CarpaceRemote){ (void *) within_ms, remote_command, remote_follow };
}
