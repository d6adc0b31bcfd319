/* SPDX-License-Identifier: GPL-3.0-or-later */
/* suspend-logind.c: PrepareForSleep and a delay lock, over GDBus. */
#include "suspend-logind.h"

#include <gio/gio.h>
#include <gio/gunixfdlist.h>
#include <unistd.h>

#define LOGIND "org.freedesktop.login1"
#define LOGIND_PATH "/org/freedesktop/login1"
#define MANAGER "org.freedesktop.login1.Manager"

struct CarpaceSuspendLogind
{
  char *who, *why;
  CarpaceTell tell;
  GCancellable *cancel;
  GDBusConnection *bus;
  guint sleeps, comes; /* subscription; name watch */
  int lock;            /* -1 where there is none */
  bool suspended;
};

static void
let_go (CarpaceSuspendLogind *suspend)
{
  if (suspend->lock >= 0)
    close (suspend->lock);
  suspend->lock = -1;
}

static void
lock_had (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  GUnixFDList *fds = NULL;
  GError *error = NULL;
  GVariant *reply = g_dbus_connection_call_with_unix_fd_list_finish (G_DBUS_CONNECTION (bus), &fds, result, &error);
  if (reply == NULL)
    {
      g_error_free (error); /* freed already, or no lock is to be had: the signal comes all the same */
      return;
    }
  CarpaceSuspendLogind *suspend = user_data;
  gint32 index = -1;
  g_variant_get (reply, "(h)", &index);
  let_go (suspend);
  if (fds != NULL && index >= 0 && index < g_unix_fd_list_get_length (fds))
    suspend->lock = g_unix_fd_list_get (fds, index, NULL);
  if (suspend->suspended)
    let_go (suspend);
  g_clear_object (&fds);
  g_variant_unref (reply);
}

static void
take_lock (CarpaceSuspendLogind *suspend)
{
  g_dbus_connection_call_with_unix_fd_list (
    suspend->bus, LOGIND, LOGIND_PATH, MANAGER, "Inhibit",
    g_variant_new ("(ssss)", "sleep", suspend->who, suspend->why, "delay"), G_VARIANT_TYPE ("(h)"),
    G_DBUS_CALL_FLAGS_NO_AUTO_START, -1, NULL, suspend->cancel, lock_had, suspend);
}

static void
tell (const CarpaceSuspendLogind *suspend, CarpaceEventKind kind)
{
  CarpaceEvent event = { .kind = kind };
  suspend->tell.tell (suspend->tell.self, &event, NULL);
}

static void
prepare_for_sleep (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
                   GVariant *parameters, gpointer user_data)
{
  CarpaceSuspendLogind *suspend = user_data;
  gboolean before = FALSE;
  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(b)")))
    return;
  g_variant_get (parameters, "(b)", &before);
  if (suspend->suspended == (before != FALSE))
    return;
  suspend->suspended = before != FALSE;
  tell (suspend, before ? CARPACE_EVENT_SUSPEND : CARPACE_EVENT_WAKE);
  if (before)
    let_go (suspend);
  else
    take_lock (suspend);
}

static void
logind_came (GDBusConnection *bus, const char *name, const char *owner, gpointer user_data)
{
  take_lock (user_data);
}

static void
logind_went (GDBusConnection *bus, const char *name, gpointer user_data)
{
  let_go (user_data);
}

static void
bus_had (GObject *source, GAsyncResult *result, gpointer user_data)
{
  GError *error = NULL;
  GDBusConnection *bus = g_bus_get_finish (result, &error);
  if (bus == NULL)
    {
      g_error_free (error); /* freed already, or no system bus */
      return;
    }
  CarpaceSuspendLogind *suspend = user_data;
  suspend->bus = bus;
  g_dbus_connection_set_exit_on_close (bus, FALSE);
  suspend->sleeps
    = g_dbus_connection_signal_subscribe (bus, LOGIND, MANAGER, "PrepareForSleep", LOGIND_PATH, NULL,
                                          G_DBUS_SIGNAL_FLAGS_NONE, prepare_for_sleep, suspend, NULL);
  suspend->comes = g_bus_watch_name_on_connection (bus, LOGIND, G_BUS_NAME_WATCHER_FLAGS_NONE, logind_came, logind_went,
                                                   suspend, NULL);
}

CarpaceSuspendLogind *
carpace_suspend_logind_new (const char *who, const char *why, CarpaceTell to)
{
  CarpaceSuspendLogind *suspend = g_new0 (CarpaceSuspendLogind, 1);
  suspend->who = g_strdup (who);
  suspend->why = g_strdup (why);
  suspend->tell = to;
  suspend->lock = -1;
  suspend->cancel = g_cancellable_new ();
  g_bus_get (G_BUS_TYPE_SYSTEM, suspend->cancel, bus_had, suspend);
  return suspend;
}

void
carpace_suspend_logind_free (CarpaceSuspendLogind *suspend)
{
  if (suspend == NULL)
    return;
  g_cancellable_cancel (suspend->cancel);
  g_object_unref (suspend->cancel);
  if (suspend->bus != NULL)
    {
      g_dbus_connection_signal_unsubscribe (suspend->bus, suspend->sleeps);
      g_bus_unwatch_name (suspend->comes);
      g_object_unref (suspend->bus);
    }
  let_go (suspend);
  g_free (suspend->who);
  g_free (suspend->why);
  g_free (suspend);
}

bool
carpace_suspend_logind_has_lock (const CarpaceSuspendLogind *suspend)
{
  return suspend->lock >= 0;
}
