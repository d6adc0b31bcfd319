/* SPDX-License-Identifier: GPL-3.0-or-later */
/* On an X server and a bus of the test's own, which offer nothing but what the
 * test puts there. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>
#include <xcb/xcb.h>

#include "desktop-probe.h"

static const char xml[]
  = "<node><interface name='org.kde.StatusNotifierWatcher'>"
    "<property name='IsStatusNotifierHostRegistered' type='b' access='read'/></interface>"
    "<interface name='org.freedesktop.Notifications'><method name='GetCapabilities'><arg type='as' direction='out'/></method>"
    "<method name='GetServerInformation'><arg type='s' direction='out'/><arg type='s' direction='out'/>"
    "<arg type='s' direction='out'/><arg type='s' direction='out'/></method></interface></node>";

/* Who offers what: on a bus connection and thread of its own, since the probe
 * waits for its answers. */
typedef struct
{
  GThread *thread;
  GMainContext *context;
  GMainLoop *loop;
  GDBusConnection *bus;
  bool host, actions;
  const char *server_name;
} Offers;

static GVariant *
get (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *property, GError **error,
     gpointer data)
{
  return g_variant_new_boolean (((Offers *) data)->host);
}

static void
called (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *method, GVariant *in,
        GDBusMethodInvocation *call, gpointer data)
{
  static const char *const with[] = { "body", "actions", NULL }, *const without[] = { "body", NULL };
  Offers *offers = data;
  g_dbus_method_invocation_return_value (
    call, g_str_equal (method, "GetCapabilities") ? g_variant_new ("(^as)", offers->actions ? with : without)
                                                  : g_variant_new ("(ssss)", offers->server_name, "v", "1", "1.2"));
}

static const GDBusInterfaceVTable calls = { .method_call = called, .get_property = get };

static gpointer
offer (gpointer data)
{
  g_main_loop_run (data);
  return NULL;
}

/* Calls are answered in the context that is the thread's own just now. */
static void
put_there (Offers *offers)
{
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (xml, NULL);
  g_main_context_push_thread_default (offers->context);
  g_dbus_connection_register_object (offers->bus, "/StatusNotifierWatcher", node->interfaces[0], &calls, offers, NULL, NULL);
  g_dbus_connection_register_object (offers->bus, "/org/freedesktop/Notifications", node->interfaces[1], &calls, offers, NULL,
                                     NULL);
  g_main_context_pop_thread_default (offers->context);
  g_dbus_node_info_unref (node);
}

static void
name_request (Offers *offers, const char *method, const char *name, guint32 flags)
{
  bool take = g_str_equal (method, "RequestName");
  GVariant *reply = g_dbus_connection_call_sync (
    offers->bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", method,
    take ? g_variant_new ("(su)", name, flags) : g_variant_new ("(s)", name), NULL, 0, -1, NULL, NULL);
  g_variant_unref (reply);
}

static void
own (Offers *offers, const char *name)
{
  name_request (offers, "RequestName", name, 4);
}

static void
disown (Offers *offers, const char *name)
{
  name_request (offers, "ReleaseName", name, 0);
}

static int
set_up (void **state)
{
  Offers *offers = g_new0 (Offers, 1);
  g_unsetenv ("WAYLAND_DISPLAY");
  g_setenv ("XDG_CURRENT_DESKTOP", "Bench", TRUE);
  g_setenv ("DBUS_SYSTEM_BUS_ADDRESS", g_getenv ("DBUS_SESSION_BUS_ADDRESS"), TRUE);
  offers->context = g_main_context_new ();
  offers->loop = g_main_loop_new (offers->context, FALSE);
  offers->server_name = "bench";
  offers->bus = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  assert_non_null (offers->bus);
  put_there (offers);
  offers->thread = g_thread_new ("offers", offer, offers->loop);
  *state = offers;
  return 0;
}

static gboolean
quit (gpointer loop)
{
  g_main_loop_quit (loop);
  return G_SOURCE_REMOVE;
}

/* From within the loop: one that has not begun to run yet could not be quit. */
static void
quit_loop (Offers *offers)
{
  GSource *source = g_idle_source_new ();
  g_source_set_callback (source, quit, offers->loop, NULL);
  g_source_attach (source, offers->context);
  g_source_unref (source);
}

static int
tear_down (void **state)
{
  Offers *offers = *state;
  quit_loop (offers);
  g_thread_join (offers->thread);
  g_dbus_connection_close_sync (offers->bus, NULL, NULL);
  g_object_unref (offers->bus);
  g_main_loop_unref (offers->loop);
  g_main_context_unref (offers->context);
  g_free (offers);
  return 0;
}

static CarpaceDesktop
look (const CarpaceDesktopAsk *ask)
{
  static const CarpaceDesktopAsk nobody = { 0 };
  CarpaceDesktopProbe port = carpace_desktop_probe_port (ask != NULL ? ask : &nobody);
  CarpaceDesktop desktop;
  memset (&desktop, 0xff, sizeof desktop);
  port.probe (port.self, &desktop);
  return desktop;
}

static void
nothing_is_there (void **state)
{
  CarpaceDesktop desktop = look (NULL);
  assert_string_equal (desktop.session, "x11");
  assert_string_equal (desktop.desktop, "Bench");
  assert_true (desktop.bus);
  assert_int_equal (desktop.tray, CARPACE_TRAY_NONE);
  assert_int_equal (desktop.notifications, CARPACE_NOTIFICATIONS_NONE);
  assert_string_equal (desktop.notification_server, "");
  assert_false (desktop.suspend);
  assert_null (desktop.input.word);
  assert_null (desktop.beside.word);
  assert_int_equal (desktop.input.sight, CARPACE_SIGHT_NONE);
  assert_int_equal (desktop.chord, CARPACE_CHORD_IMPOSSIBLE);
  assert_false (desktop.sound);
}

static void
trays (void **state)
{
  Offers *offers = *state;
  own (offers, "org.kde.StatusNotifierWatcher");
  assert_int_equal (look (NULL).tray, CARPACE_TRAY_NO_HOST);
  offers->host = true;
  assert_int_equal (look (NULL).tray, CARPACE_TRAY_STATUS_NOTIFIER);
  disown (offers, "org.kde.StatusNotifierWatcher");
  assert_int_equal (look (NULL).tray, CARPACE_TRAY_NONE);

  xcb_connection_t *x = xcb_connect (NULL, NULL);
  const xcb_screen_t *screen = xcb_setup_roots_iterator (xcb_get_setup (x)).data;
  xcb_intern_atom_reply_t *atom
    = xcb_intern_atom_reply (x, xcb_intern_atom (x, 0, strlen ("_NET_SYSTEM_TRAY_S0"), "_NET_SYSTEM_TRAY_S0"), NULL);
  xcb_window_t window = xcb_generate_id (x);
  xcb_create_window (x, XCB_COPY_FROM_PARENT, window, screen->root, 0, 0, 1, 1, 0, XCB_WINDOW_CLASS_INPUT_OUTPUT,
                     XCB_COPY_FROM_PARENT, 0, NULL);
  xcb_set_selection_owner (x, window, atom->atom, XCB_CURRENT_TIME);
  free (xcb_get_input_focus_reply (x, xcb_get_input_focus (x), NULL));
  assert_int_equal (look (NULL).tray, CARPACE_TRAY_XEMBED);
  free (atom);
  xcb_disconnect (x);
}

static void
notification_servers (void **state)
{
  Offers *offers = *state;
  own (offers, "org.freedesktop.Notifications");
  CarpaceDesktop desktop = look (NULL);
  assert_int_equal (desktop.notifications, CARPACE_NOTIFICATIONS_ANSWER);
  assert_string_equal (desktop.notification_server, "bench");
  assert_false (desktop.notification_actions);
  offers->actions = true;
  offers->server_name = "a name that is very much longer than any name of a server should ever be\033[1m";
  desktop = look (NULL);
  assert_true (desktop.notification_actions);
  assert_int_equal (strlen (desktop.notification_server), CARPACE_DESKTOP_NAME_BYTES - 1);
  disown (offers, "org.freedesktop.Notifications");
}

/* A server that reads and never answers. */
static GDBusMessage *
swallow (GDBusConnection *bus, GDBusMessage *message, gboolean incoming, gpointer data)
{
  if (!incoming || g_dbus_message_get_message_type (message) != G_DBUS_MESSAGE_TYPE_METHOD_CALL)
    return message;
  g_object_unref (message);
  return NULL;
}

static void
a_frozen_server_is_found_in_time (void **state)
{
  GDBusConnection *deaf = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  Offers frozen = { .bus = deaf };
  own (&frozen, "org.freedesktop.Notifications");
  g_dbus_connection_add_filter (deaf, swallow, NULL, NULL);
  gint64 asked = g_get_monotonic_time ();
  assert_int_equal (look (NULL).notifications, CARPACE_NOTIFICATIONS_FROZEN);
  assert_in_range ((g_get_monotonic_time () - asked) / 1000, 1900, 5000);
  g_dbus_connection_close_sync (deaf, NULL, NULL);
  g_object_unref (deaf);
}

static void
suspend_is_told (void **state)
{
  Offers *offers = *state;
  own (offers, "org.freedesktop.login1");
  assert_true (look (NULL).suspend);
  disown (offers, "org.freedesktop.login1");
}

static CarpaceInputSource
input_x11 (void *self, CarpaceInputSource *ret_beside)
{
  *ret_beside = (CarpaceInputSource) { "beside", CARPACE_SIGHT_OF_X, "It tells, too." };
  return (CarpaceInputSource) { "x11", CARPACE_SIGHT_EVERY_GAP, "It tells." };
}

static CarpaceChordOffer
chord_taken (void *self, char ret_keys[CARPACE_DESKTOP_NAME_BYTES])
{
  strcpy (ret_keys, "Ctrl+Alt+H");
  return CARPACE_CHORD_TAKEN;
}

static bool
sound_yes (void *self)
{
  return true;
}

static void
what_others_know (void **state)
{
  const CarpaceDesktopAsk ask = { .input = input_x11, .chord = chord_taken, .sound = sound_yes };
  CarpaceDesktop desktop = look (&ask);
  assert_string_equal (desktop.input.word, "x11");
  assert_string_equal (desktop.beside.word, "beside");
  assert_int_equal (desktop.input.sight, CARPACE_SIGHT_EVERY_GAP);
  assert_int_equal (desktop.chord, CARPACE_CHORD_TAKEN);
  assert_string_equal (desktop.chord_keys, "Ctrl+Alt+H");
  assert_true (desktop.sound);
  g_setenv ("WAYLAND_DISPLAY", "wayland-0", TRUE);
  desktop = look (&ask);
  assert_string_equal (desktop.session, "wayland");
  assert_int_equal (desktop.chord, CARPACE_CHORD_IMPOSSIBLE);
}

#define ON_DESKTOP(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ON_DESKTOP (nothing_is_there),     ON_DESKTOP (trays),           ON_DESKTOP (notification_servers),
    ON_DESKTOP (a_frozen_server_is_found_in_time), ON_DESKTOP (suspend_is_told), ON_DESKTOP (what_others_know),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
