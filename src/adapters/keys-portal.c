/* SPDX-License-Identifier: GPL-3.0-or-later */
/* keys-portal.c: a session, a list, a question; one request at a time. */
#include "keys-portal.h"

#include <string.h>

#define PORTAL "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define SHORTCUTS "org.freedesktop.portal.GlobalShortcuts"
#define REQUEST "org.freedesktop.portal.Request"
#define SESSION "org.freedesktop.portal.Session"
#define ANSWER_MS 5000
#define LOOK_MS 2000
#define MOST_SESSIONS 3 /* of one portal: one that closes each is let be */

typedef void (*Answered) (CarpaceKeysPortal *portal, guint32 response, GVariant *results);

struct CarpaceKeysPortal
{
  GDBusConnection *bus;
  const CarpaceKeysPortalRow *rows;
  int n_rows;
  CarpaceKeysPortalListener listener;
  CarpaceKeysPortalState state;
  char *owner;    /* of the portal's name; NULL: there is none */
  char *session;  /* its path; NULL: none */
  bool asks;      /* the player wants them, and was not asked yet */
  bool asking;    /* there is a dialogue, perhaps */
  int n_sessions; /* made with this owner */
  guint watch, pressed, closed;
  GCancellable *calling; /* of the request under way */
  guint response;
  Answered answered;
};

static void
set_state (CarpaceKeysPortal *portal, CarpaceKeysPortalState state, bool is_answer)
{
  bool tell = is_answer || state != portal->state;

  portal->state = state;
  if (tell)
    portal->listener.state (portal->listener.self, state);
}

/* ---- one request: a call, and its answer as a signal ---- */

static void
drop_request (CarpaceKeysPortal *portal)
{
  if (portal->calling != NULL)
    g_cancellable_cancel (portal->calling);
  g_clear_object (&portal->calling);
  if (portal->response != 0)
    g_dbus_connection_signal_unsubscribe (portal->bus, portal->response);
  portal->response = 0;
  portal->answered = NULL;
}

static void
on_response (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
             GVariant *parameters, gpointer user)
{
  CarpaceKeysPortal *portal = user;
  Answered answered = portal->answered;
  GVariant *results;
  guint32 response;

  if (answered == NULL || !g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ua{sv})")))
    return;
  g_variant_get (parameters, "(u@a{sv})", &response, &results);
  drop_request (portal);
  answered (portal, response, results);
  g_variant_unref (results);
}

static void
listen_at (CarpaceKeysPortal *portal, const char *path)
{
  if (portal->response != 0)
    g_dbus_connection_signal_unsubscribe (portal->bus, portal->response);
  portal->response = g_dbus_connection_signal_subscribe (portal->bus, PORTAL, REQUEST, "Response", path, NULL,
                                                         G_DBUS_SIGNAL_FLAGS_NONE, on_response, portal, NULL);
}

/* A portal that has no such thing is as none. */
static void
on_called (GObject *bus, GAsyncResult *result, gpointer user)
{
  GError *error = NULL;
  GVariant *reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (bus), result, &error);
  CarpaceKeysPortal *portal = user;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_error_free (error);
      return; /* it is another request's time, or nobody's */
    }
  if (reply == NULL)
    {
      bool asked = portal->asking || portal->asks;

      drop_request (portal);
      portal->asking = portal->asks = false;
      set_state (portal, CARPACE_KEYS_PORTAL_ABSENT, asked);
      g_error_free (error);
      return;
    }
  g_variant_unref (reply);
}

static char *
new_token (void)
{
  return g_strdup_printf ("carpace_%u", g_random_int ());
}

/* Where the answer will be told: known before the question. */
static char *
path_of_request (CarpaceKeysPortal *portal, const char *token)
{
  char *sender = g_strdelimit (g_strdup (g_dbus_connection_get_unique_name (portal->bus) + 1), ".", '_');
  char *path = g_strdup_printf (PORTAL_PATH "/request/%s/%s", sender, token);

  g_free (sender);
  return path;
}

static void
call (CarpaceKeysPortal *portal, const char *method, GVariant *arguments, const char *token, Answered answered)
{
  char *path = path_of_request (portal, token);

  drop_request (portal);
  portal->answered = answered;
  portal->calling = g_cancellable_new ();
  listen_at (portal, path);
  g_dbus_connection_call (portal->bus, PORTAL, PORTAL_PATH, SHORTCUTS, method, arguments, G_VARIANT_TYPE ("(o)"),
                          G_DBUS_CALL_FLAGS_NONE, ANSWER_MS, portal->calling, on_called, portal);
  g_free (path);
}

static GVariantBuilder *
options_with (const char *token)
{
  GVariantBuilder *options = g_variant_builder_new (G_VARIANT_TYPE_VARDICT);

  g_variant_builder_add (options, "{sv}", "handle_token", g_variant_new_string (token));
  return options;
}

/* ---- the question ---- */

static bool
names_a_row (CarpaceKeysPortal *portal, const char *id)
{
  for (int i = 0; i < portal->n_rows; i++)
    if (strcmp (portal->rows[i].id, id) == 0)
      return true;
  return false;
}

static bool
holds_any (CarpaceKeysPortal *portal, GVariant *results)
{
  GVariant *list = g_variant_lookup_value (results, "shortcuts", G_VARIANT_TYPE ("a(sa{sv})"));
  GVariantIter each;
  const char *id;
  bool any = false;

  if (list == NULL)
    return false;
  g_variant_iter_init (&each, list);
  while (g_variant_iter_next (&each, "(&s@a{sv})", &id, NULL))
    any |= names_a_row (portal, id);
  g_variant_unref (list);
  return any;
}

static void
bound (CarpaceKeysPortal *portal, guint32 response, GVariant *results)
{
  bool granted = response == 0 && holds_any (portal, results);

  portal->asking = false;
  set_state (portal, granted ? CARPACE_KEYS_PORTAL_BOUND : CARPACE_KEYS_PORTAL_DENIED, true);
}

static void
bind (CarpaceKeysPortal *portal)
{
  GVariantBuilder shortcuts, *options;
  char *token = new_token ();

  portal->asks = false;
  portal->asking = true;
  g_variant_builder_init (&shortcuts, G_VARIANT_TYPE ("a(sa{sv})"));
  for (int i = 0; i < portal->n_rows; i++)
    {
      const CarpaceKeysPortalRow *row = &portal->rows[i];

      g_variant_builder_open (&shortcuts, G_VARIANT_TYPE ("(sa{sv})"));
      g_variant_builder_add (&shortcuts, "s", row->id);
      g_variant_builder_open (&shortcuts, G_VARIANT_TYPE_VARDICT);
      g_variant_builder_add (&shortcuts, "{sv}", "description", g_variant_new_string (row->name));
      g_variant_builder_add (&shortcuts, "{sv}", "preferred_trigger", g_variant_new_string (row->keys));
      g_variant_builder_close (&shortcuts);
      g_variant_builder_close (&shortcuts);
    }
  options = options_with (token);
  call (portal, "BindShortcuts", g_variant_new ("(oa(sa{sv})sa{sv})", portal->session, &shortcuts, "", options), token, bound);
  g_variant_builder_unref (options);
  g_free (token);
}

static void
listed (CarpaceKeysPortal *portal, guint32 response, GVariant *results)
{
  bool any = response == 0 && holds_any (portal, results);

  if (portal->asks)
    bind (portal);
  else
    set_state (portal, any ? CARPACE_KEYS_PORTAL_BOUND : CARPACE_KEYS_PORTAL_UNSET, false);
}

/* What was granted at an earlier start. */
static void
list (CarpaceKeysPortal *portal)
{
  char *token = new_token ();
  GVariantBuilder *options = options_with (token);

  call (portal, "ListShortcuts", g_variant_new ("(oa{sv})", portal->session, options), token, listed);
  g_variant_builder_unref (options);
  g_free (token);
}

/* ---- the session ---- */

static void make_session (CarpaceKeysPortal *portal);

static void
forget_session (CarpaceKeysPortal *portal)
{
  drop_request (portal);
  if (portal->closed != 0)
    g_dbus_connection_signal_unsubscribe (portal->bus, portal->closed);
  portal->closed = 0;
  g_clear_pointer (&portal->session, g_free);
  portal->asking = false;
}

/* The portal ended it: another, unless it ends them all. */
static void
on_closed (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
           GVariant *parameters, gpointer user)
{
  CarpaceKeysPortal *portal = user;
  bool asked = portal->asking;

  forget_session (portal);
  set_state (portal, asked ? CARPACE_KEYS_PORTAL_DENIED : CARPACE_KEYS_PORTAL_UNSET, asked);
  if (portal->n_sessions < MOST_SESSIONS)
    make_session (portal);
}

static void
session_made (CarpaceKeysPortal *portal, guint32 response, GVariant *results)
{
  GVariant *handle = g_variant_lookup_value (results, "session_handle", NULL);
  const char *path = handle != NULL
                         && (g_variant_is_of_type (handle, G_VARIANT_TYPE_STRING)
                             || g_variant_is_of_type (handle, G_VARIANT_TYPE_OBJECT_PATH))
                       ? g_variant_get_string (handle, NULL) : NULL;
  bool asked = portal->asks;

  if (response == 0 && path != NULL && g_variant_is_object_path (path))
    {
      portal->session = g_strdup (path);
      portal->closed = g_dbus_connection_signal_subscribe (portal->bus, PORTAL, SESSION, "Closed", path, NULL,
                                                           G_DBUS_SIGNAL_FLAGS_NONE, on_closed, portal, NULL);
      if (asked)
        bind (portal);
      else
        list (portal);
    }
  else
    {
      portal->asks = false;
      set_state (portal, CARPACE_KEYS_PORTAL_DENIED, asked);
    }
  g_clear_pointer (&handle, g_variant_unref);
}

/* Its token is always the same: desktops keep what was granted by it. */
static void
make_session (CarpaceKeysPortal *portal)
{
  char *token = new_token ();
  GVariantBuilder *options = options_with (token);

  portal->n_sessions++;
  g_variant_builder_add (options, "{sv}", "session_handle_token", g_variant_new_string ("carpace"));
  call (portal, "CreateSession", g_variant_new ("(a{sv})", options), token, session_made);
  g_variant_builder_unref (options);
  g_free (token);
}

static void
came (GDBusConnection *bus, const char *name, const char *owner, gpointer user)
{
  CarpaceKeysPortal *portal = user;

  forget_session (portal);
  g_free (portal->owner);
  portal->owner = g_strdup (owner);
  portal->n_sessions = 0;
  make_session (portal);
}

static void
went (GDBusConnection *bus, const char *name, gpointer user)
{
  CarpaceKeysPortal *portal = user;
  bool asked = portal->asking || portal->asks;

  forget_session (portal);
  portal->asks = false;
  g_clear_pointer (&portal->owner, g_free);
  set_state (portal, CARPACE_KEYS_PORTAL_ABSENT, asked);
}

/* ---- pressed ---- */

static void
on_pressed (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
            GVariant *parameters, gpointer user)
{
  CarpaceKeysPortal *portal = user;
  const char *session, *id;

  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(osta{sv})")))
    return;
  g_variant_get (parameters, "(&o&st@a{sv})", &session, &id, NULL, NULL);
  if (g_strcmp0 (session, portal->session) == 0 && names_a_row (portal, id))
    portal->listener.pressed (portal->listener.self, id);
}

/* ---- from outside ---- */

CarpaceKeysPortal *
carpace_keys_portal_new (GDBusConnection *bus, const CarpaceKeysPortalRow *rows, int n_rows, CarpaceKeysPortalListener listener)
{
  CarpaceKeysPortal *portal = g_new0 (CarpaceKeysPortal, 1);

  portal->bus = g_object_ref (bus);
  portal->rows = rows;
  portal->n_rows = n_rows;
  portal->listener = listener;
  portal->pressed = g_dbus_connection_signal_subscribe (bus, PORTAL, SHORTCUTS, "Activated", PORTAL_PATH, NULL,
                                                        G_DBUS_SIGNAL_FLAGS_NONE, on_pressed, portal, NULL);
  portal->watch = g_bus_watch_name_on_connection (bus, PORTAL, G_BUS_NAME_WATCHER_FLAGS_AUTO_START, came, went, portal, NULL);
  return portal;
}

void
carpace_keys_portal_free (CarpaceKeysPortal *portal)
{
  if (portal == NULL)
    return;
  g_bus_unwatch_name (portal->watch);
  g_dbus_connection_signal_unsubscribe (portal->bus, portal->pressed);
  if (portal->session != NULL)
    g_dbus_connection_call (portal->bus, PORTAL, portal->session, SESSION, "Close", NULL, NULL, G_DBUS_CALL_FLAGS_NO_AUTO_START,
                            ANSWER_MS, NULL, NULL, NULL);
  forget_session (portal);
  g_free (portal->owner);
  g_object_unref (portal->bus);
  g_free (portal);
}

void
carpace_keys_portal_ask (CarpaceKeysPortal *portal)
{
  if (portal->asking || portal->asks)
    return;
  portal->asks = true;
  if (portal->session != NULL)
    bind (portal);
  else if (portal->owner != NULL && portal->calling == NULL)
    {
      portal->n_sessions = 0;
      make_session (portal);
    }
}

bool
carpace_keys_portal_is_here (GDBusConnection *bus)
{
  GVariant *reply = g_dbus_connection_call_sync (bus, PORTAL, PORTAL_PATH, "org.freedesktop.DBus.Properties", "Get",
                                                 g_variant_new ("(ss)", SHORTCUTS, "version"), G_VARIANT_TYPE ("(v)"),
                                                 G_DBUS_CALL_FLAGS_NONE, LOOK_MS, NULL, NULL);
  bool here = reply != NULL;

  g_clear_pointer (&reply, g_variant_unref);
  return here;
}
