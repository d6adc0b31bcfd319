/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tray-gdbus.c: who asked the tray's item for its icon, and is still there. */
#include "tray-gdbus.h"

#include <gio/gio.h>

#define BUS "org.freedesktop.DBus"
#define BUS_PATH "/org/freedesktop/DBus"
#define PROPERTIES "org.freedesktop.DBus.Properties"
#define ITEM "org.kde.StatusNotifierItem"
#define WATCHER "org.kde.StatusNotifierWatcher"
#define WATCHER_PATH "/StatusNotifierWatcher"

/* Some watchers tell of the last host's end by the second, some by the first. */
static const char *const host_signals[] = { "StatusNotifierHostRegistered", "StatusNotifierHostUnregistered" };

/* Counted: what the bus's thread saw may be told when it is freed already. */
struct CarpaceTrayGdbus
{
  CarpaceTrayListener listener;
  GDBusConnection *bus; /* NULL: freed */
  GCancellable *cancel;
  GHashTable *hosts; /* who asked, by unique name -> the subscription to its end */
  guint filter, watcher, about_hosts[G_N_ELEMENTS (host_signals)];
};

typedef struct
{
  CarpaceTrayGdbus *tray;
  char *name;
} Asked;

static void
tell_from (CarpaceTrayGdbus *tray, bool was_held)
{
  bool held = g_hash_table_size (tray->hosts) > 0;

  if (held != was_held)
    tray->listener.held (tray->listener.self, held);
}

static void
host_gone (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal, GVariant *in,
           gpointer user_data)
{
  CarpaceTrayGdbus *tray = user_data;
  const char *name;
  gpointer subscription;

  g_variant_get (in, "(&sss)", &name, NULL, NULL); /* of a unique name there is one change only */
  if (!g_hash_table_lookup_extended (tray->hosts, name, NULL, &subscription))
    return;
  g_hash_table_remove (tray->hosts, name);
  g_dbus_connection_signal_unsubscribe (bus, GPOINTER_TO_UINT (subscription));
  tell_from (tray, true);
}

/* To its end by its own name only: a sandbox's bus answers no question about it, and
 * one rule for all names would wake the program at each. */
static gboolean
host_asked (gpointer user_data)
{
  const Asked *asked = user_data;
  CarpaceTrayGdbus *tray = asked->tray;
  bool was_held;

  if (tray->bus == NULL || g_hash_table_contains (tray->hosts, asked->name))
    return G_SOURCE_REMOVE;
  was_held = g_hash_table_size (tray->hosts) > 0;
  g_hash_table_insert (tray->hosts, g_strdup (asked->name),
                       GUINT_TO_POINTER (g_dbus_connection_signal_subscribe (tray->bus, BUS, BUS, "NameOwnerChanged", BUS_PATH,
                                                                             asked->name, 0, host_gone, tray, NULL)));
  tell_from (tray, was_held);
  return G_SOURCE_REMOVE;
}

static void
asked_free (gpointer user_data)
{
  Asked *asked = user_data;

  g_atomic_rc_box_release (asked->tray);
  g_free (asked->name);
  g_free (asked);
}

static bool
asks_for_icon (GDBusMessage *message)
{
  GVariant *in = g_dbus_message_get_body (message);
  const char *method = g_dbus_message_get_member (message), *interface, *property = NULL;

  if (g_dbus_message_get_message_type (message) != G_DBUS_MESSAGE_TYPE_METHOD_CALL || in == NULL || g_dbus_message_get_sender (message) == NULL
      || g_strcmp0 (g_dbus_message_get_interface (message), PROPERTIES) != 0)
    return false;
  if (g_strcmp0 (method, "GetAll") == 0 && g_variant_is_of_type (in, G_VARIANT_TYPE ("(s)")))
    g_variant_get (in, "(&s)", &interface);
  else if (g_strcmp0 (method, "Get") == 0 && g_variant_is_of_type (in, G_VARIANT_TYPE ("(ss)")))
    g_variant_get (in, "(&s&s)", &interface, &property);
  else
    return false;
  return g_str_equal (interface, ITEM) && (property == NULL || g_str_equal (property, "IconName"));
}

/* In the bus's own thread; told in its turn among the signals, which take the same way. */
static GDBusMessage *
seen (GDBusConnection *bus, GDBusMessage *message, gboolean incoming, gpointer user_data)
{
  if (incoming && asks_for_icon (message))
    {
      Asked *asked = g_new0 (Asked, 1);
      GSource *source = g_idle_source_new ();

      asked->tray = g_atomic_rc_box_acquire (user_data);
      asked->name = g_strdup (g_dbus_message_get_sender (message));
      g_source_set_priority (source, G_PRIORITY_DEFAULT);
      g_source_set_callback (source, host_asked, asked, asked_free);
      g_source_attach (source, NULL);
      g_source_unref (source);
    }
  return message;
}

static void
forget_hosts (CarpaceTrayGdbus *tray)
{
  GHashTableIter iter;
  gpointer subscription;

  g_hash_table_iter_init (&iter, tray->hosts);
  while (g_hash_table_iter_next (&iter, NULL, &subscription))
    g_dbus_connection_signal_unsubscribe (tray->bus, GPOINTER_TO_UINT (subscription));
  g_hash_table_remove_all (tray->hosts);
}

static void
nobody_holds (CarpaceTrayGdbus *tray)
{
  bool was_held = g_hash_table_size (tray->hosts) > 0;

  forget_hosts (tray);
  tell_from (tray, was_held);
}

/* It came, went, or another took its place: hosts let all their items go, and ask anew. */
static void
watcher_changed (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal, GVariant *in,
                 gpointer user_data)
{
  nobody_holds (user_data);
}

static void
hosts_counted (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  GVariant *reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (bus), result, NULL), *value;

  if (reply == NULL) /* freed already, or a watcher that went: that is told */
    return;
  g_variant_get (reply, "(v)", &value);
  if (g_variant_is_of_type (value, G_VARIANT_TYPE_BOOLEAN) && !g_variant_get_boolean (value))
    nobody_holds (user_data);
  g_variant_unref (value);
  g_variant_unref (reply);
}

/* A panel that stays can have its tray taken out. */
static void
about_hosts (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal, GVariant *in,
             gpointer user_data)
{
  CarpaceTrayGdbus *tray = user_data;

  if (g_hash_table_size (tray->hosts) > 0)
    g_dbus_connection_call (bus, WATCHER, WATCHER_PATH, PROPERTIES, "Get",
                            g_variant_new ("(ss)", WATCHER, "IsStatusNotifierHostRegistered"), G_VARIANT_TYPE ("(v)"),
                            G_DBUS_CALL_FLAGS_NO_AUTO_START, -1, tray->cancel, hosts_counted, tray);
}

CarpaceTrayGdbus *
carpace_tray_gdbus_new (CarpaceTrayListener listener)
{
  GDBusConnection *bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  CarpaceTrayGdbus *tray;

  if (bus == NULL)
    return NULL;
  tray = g_atomic_rc_box_new0 (CarpaceTrayGdbus);
  tray->listener = listener;
  tray->bus = bus;
  tray->cancel = g_cancellable_new ();
  tray->hosts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  tray->filter = g_dbus_connection_add_filter (bus, seen, g_atomic_rc_box_acquire (tray), g_atomic_rc_box_release);
  tray->watcher = g_dbus_connection_signal_subscribe (bus, BUS, BUS, "NameOwnerChanged", BUS_PATH, WATCHER, 0, watcher_changed, tray, NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (host_signals); i++)
    tray->about_hosts[i] = g_dbus_connection_signal_subscribe (bus, WATCHER, WATCHER, host_signals[i], WATCHER_PATH, NULL, 0,
                                                               about_hosts, tray, NULL);
  return tray;
}

void
carpace_tray_gdbus_free (CarpaceTrayGdbus *tray)
{
  if (tray == NULL)
    return;
  g_cancellable_cancel (tray->cancel);
  g_clear_object (&tray->cancel);
  g_dbus_connection_remove_filter (tray->bus, tray->filter);
  g_dbus_connection_signal_unsubscribe (tray->bus, tray->watcher);
  for (size_t i = 0; i < G_N_ELEMENTS (host_signals); i++)
    g_dbus_connection_signal_unsubscribe (tray->bus, tray->about_hosts[i]);
  forget_hosts (tray);
  g_hash_table_unref (tray->hosts);
  g_clear_object (&tray->bus);
  g_atomic_rc_box_release (tray);
}
