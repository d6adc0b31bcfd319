/* SPDX-License-Identifier: GPL-3.0-or-later */
/* desktop-probe.c: the buses, the environment, and a selection of the X server's. */
#include "desktop-probe.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>
#include <xcb/xcb.h>

#define ANSWER_MS 2000
#define NOTIFICATIONS "org.freedesktop.Notifications"
#define WATCHER "org.kde.StatusNotifierWatcher"

static void
copy_name (char *ret_name, const char *name)
{
  char *valid = g_utf8_make_valid (name != NULL ? name : "", -1);
  while (strlen (valid) >= CARPACE_DESKTOP_NAME_BYTES)
    *g_utf8_prev_char (valid + strlen (valid)) = '\0';
  for (char *c = valid; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';
  g_strlcpy (ret_name, valid, CARPACE_DESKTOP_NAME_BYTES);
  g_free (valid);
}

static GVariant *
call (GDBusConnection *bus, const char *name, const char *path, const char *interface, const char *method, GVariant *in,
      const char *type, GError **error)
{
  return g_dbus_connection_call_sync (bus, name, path, interface, method, in, G_VARIANT_TYPE (type),
                                      G_DBUS_CALL_FLAGS_NONE, ANSWER_MS, NULL, error);
}

static bool
has_owner (GDBusConnection *bus, const char *name)
{
  gboolean owned = FALSE;
  GVariant *reply = call (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "NameHasOwner",
                          g_variant_new ("(s)", name), "(b)", NULL);
  if (reply != NULL)
    {
      g_variant_get (reply, "(b)", &owned);
      g_variant_unref (reply);
    }
  return owned;
}

/* ---- the tray ---- */

static bool
has_host (GDBusConnection *bus)
{
  bool has = false;
  GVariant *reply
    = call (bus, WATCHER, "/StatusNotifierWatcher", "org.freedesktop.DBus.Properties", "Get",
            g_variant_new ("(ss)", WATCHER, "IsStatusNotifierHostRegistered"), "(v)", NULL);
  if (reply == NULL)
    return false;
  GVariant *value = NULL;
  g_variant_get (reply, "(v)", &value);
  has = g_variant_is_of_type (value, G_VARIANT_TYPE_BOOLEAN) && g_variant_get_boolean (value);
  g_variant_unref (value);
  g_variant_unref (reply);
  return has;
}

/* The selection of the System Tray Protocol, for the first screen. */
static bool
has_x_tray (xcb_connection_t *x)
{
  static const char name[] = "_NET_SYSTEM_TRAY_S0";
  bool owned = false;
  xcb_intern_atom_reply_t *atom = xcb_intern_atom_reply (x, xcb_intern_atom (x, 1, sizeof name - 1, name), NULL);
  xcb_get_selection_owner_reply_t *owner = NULL;
  if (atom != NULL && atom->atom != XCB_NONE)
    owner = xcb_get_selection_owner_reply (x, xcb_get_selection_owner (x, atom->atom), NULL);
  if (owner != NULL)
    owned = owner->owner != XCB_NONE;
  free (owner);
  free (atom);
  return owned;
}

static CarpaceTrayOffer
look_for_tray (GDBusConnection *bus, xcb_connection_t *x)
{
  bool watcher = bus != NULL && has_owner (bus, WATCHER);
  if (watcher && has_host (bus))
    return CARPACE_TRAY_STATUS_NOTIFIER;
  if (x != NULL && has_x_tray (x))
    return CARPACE_TRAY_XEMBED;
  return watcher ? CARPACE_TRAY_NO_HOST : CARPACE_TRAY_NONE;
}

/* ---- notifications ---- */

static void
read_server (GDBusConnection *bus, CarpaceDesktop *desktop)
{
  const char *name = NULL, **capabilities = NULL;
  GVariant *reply = call (bus, NOTIFICATIONS, "/org/freedesktop/Notifications", NOTIFICATIONS, "GetServerInformation",
                          NULL, "(ssss)", NULL);
  if (reply != NULL)
    {
      g_variant_get (reply, "(&s&s&s&s)", &name, NULL, NULL, NULL);
      copy_name (desktop->notification_server, name);
      g_variant_unref (reply);
    }
  reply = call (bus, NOTIFICATIONS, "/org/freedesktop/Notifications", NOTIFICATIONS, "GetCapabilities", NULL, "(as)", NULL);
  if (reply == NULL)
    return;
  g_variant_get (reply, "(^a&s)", &capabilities);
  desktop->notification_actions = g_strv_contains (capabilities, "actions");
  g_free (capabilities);
  g_variant_unref (reply);
}

/* Asking may start the server, as showing a notice would. */
static void
look_for_notifications (GDBusConnection *bus, CarpaceDesktop *desktop)
{
  GError *error = NULL;
  GVariant *reply = call (bus, NOTIFICATIONS, "/org/freedesktop/Notifications", "org.freedesktop.DBus.Peer", "Ping",
                          NULL, "()", &error);
  if (reply != NULL || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_UNKNOWN_METHOD)
      || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_UNKNOWN_INTERFACE))
    {
      desktop->notifications = CARPACE_NOTIFICATIONS_ANSWER;
      read_server (bus, desktop);
    }
  else if (has_owner (bus, NOTIFICATIONS))
    desktop->notifications = CARPACE_NOTIFICATIONS_FROZEN;
  g_clear_pointer (&reply, g_variant_unref);
  g_clear_error (&error);
}

/* ---- the whole ---- */

static bool
tells_of_suspend (void)
{
  GDBusConnection *bus = g_bus_get_sync (G_BUS_TYPE_SYSTEM, NULL, NULL);
  if (bus == NULL)
    return false;
  g_dbus_connection_set_exit_on_close (bus, FALSE);
  bool tells = has_owner (bus, "org.freedesktop.login1");
  g_object_unref (bus);
  return tells;
}

static const char *
session_kind (xcb_connection_t *x)
{
  const char *wayland = g_getenv ("WAYLAND_DISPLAY");
  return wayland != NULL && wayland[0] != '\0' ? "wayland" : x != NULL ? "x11" : "";
}

static xcb_connection_t *
connect_x (void)
{
  xcb_connection_t *x = xcb_connect (NULL, NULL);
  if (xcb_connection_has_error (x) == 0)
    return x;
  xcb_disconnect (x);
  return NULL;
}

static void
probe (void *self, CarpaceDesktop *ret_desktop)
{
  const CarpaceDesktopAsk *ask = self;
  CarpaceDesktop desktop = { 0 };
  xcb_connection_t *x = connect_x ();
  GDBusConnection *bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  copy_name (desktop.session, session_kind (x));
  copy_name (desktop.desktop, g_getenv ("XDG_CURRENT_DESKTOP"));
  desktop.bus = bus != NULL;
  desktop.tray = look_for_tray (bus, x);
  if (bus != NULL)
    {
      g_dbus_connection_set_exit_on_close (bus, FALSE);
      look_for_notifications (bus, &desktop);
      g_object_unref (bus);
    }
  desktop.suspend = tells_of_suspend ();
  if (ask->input != NULL)
    desktop.input = ask->input (ask->self, &desktop.beside);
  if (ask->chord != NULL && strcmp (desktop.session, "x11") == 0)
    desktop.chord = ask->chord (ask->self, desktop.chord_keys);
  if (strcmp (desktop.session, "x11") == 0)
    desktop.cards = CARPACE_CARDS_ABOVE;
  else if (ask->cards != NULL && desktop.session[0] != '\0')
    desktop.cards = ask->cards (ask->self);
  if (ask->shortcuts != NULL)
    desktop.shortcuts = ask->shortcuts (ask->self);
  desktop.sway = g_getenv ("SWAYSOCK") != NULL;
  if (ask->windows != NULL && desktop.session[0] != '\0')
    desktop.windows = ask->windows (ask->self, &desktop.windows_kept_back);
  desktop.clicks = ask->clicks != NULL && desktop.session[0] != '\0' && ask->clicks (ask->self);
  desktop.sound = ask->sound != NULL && ask->sound (ask->self);
  if (x != NULL)
    xcb_disconnect (x);
  *ret_desktop = desktop;
}

CarpaceDesktopProbe
carpace_desktop_probe_port (const CarpaceDesktopAsk *ask)
{
  return (CarpaceDesktopProbe) { .self = (void *) ask, .probe = probe };
}
