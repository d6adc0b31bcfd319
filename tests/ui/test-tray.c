/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tray's item on an X server and a bus of the test's own: watchers and older trays come and go
 * in every order that was seen. Whether it is shown is what is on the screen, and each change of it is told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <gdk/gdkx.h>
#include <gio/gio.h>
#include <gtk/gtk.h>
#include <string.h>
#include <X11/Xlib.h>

#include "ui/tray-ayatana.h"

#define WATCHER "org.kde.StatusNotifierWatcher"
#define PATIENCE_S 30
#define ROUNDS 5
#define LIBRARY_WAITS_MS 100 /* before it falls back, by a clock of its own */

typedef struct
{
  CarpaceTray *tray;
  bool told;         /* what was so when a change was told last */
  Display *x;        /* the older tray's; NULL: none */
  Window window;     /* it owns the selection, and takes items in */
  GDBusConnection *watcher; /* NULL: none */
  int registered;    /* items, with it */
} Bench;

static void
host_changed (void *self)
{
  Bench *bench = self;

  bench->told = carpace_tray_is_hosted (bench->tray);
}

static bool
tell (void *self, const CarpaceEvent *event)
{
  return true;
}

static void
fill_plans (void *self, GtkMenuShell *menu)
{
}

/* ---- an older tray ---- */

static void
start_older (Bench *bench)
{
  XEvent manager = { .xclient = { .type = ClientMessage, .format = 32 } };
  Window root;
  Atom selection;

  bench->x = XOpenDisplay (NULL);
  assert_non_null (bench->x);
  root = DefaultRootWindow (bench->x);
  selection = XInternAtom (bench->x, "_NET_SYSTEM_TRAY_S0", False);
  bench->window = XCreateSimpleWindow (bench->x, root, 0, 0, 100, 30, 0, 0, 0);
  XMapWindow (bench->x, bench->window);
  XSetSelectionOwner (bench->x, selection, bench->window, CurrentTime);
  manager.xclient.window = root;
  manager.xclient.message_type = XInternAtom (bench->x, "MANAGER", False);
  manager.xclient.data.l[1] = (long) selection;
  manager.xclient.data.l[2] = (long) bench->window;
  XSendEvent (bench->x, root, False, StructureNotifyMask, &manager);
  XSync (bench->x, False);
}

static void
end_older (Bench *bench)
{
  if (bench->x)
    XCloseDisplay (bench->x);
  bench->x = NULL;
}

/* Whoever asks to be docked is. */
static void
take_in (Bench *bench)
{
  while (bench->x && XPending (bench->x))
    {
      XEvent event;
      Window item;

      XNextEvent (bench->x, &event);
      if (event.type != ClientMessage || event.xclient.message_type != XInternAtom (bench->x, "_NET_SYSTEM_TRAY_OPCODE", False)
          || event.xclient.data.l[1] != 0)
        continue;
      item = (Window) event.xclient.data.l[2];
      XAddToSaveSet (bench->x, item); /* as a panel does: the item outlives it */
      XReparentWindow (bench->x, item, bench->window, 0, 0);
      XMapWindow (bench->x, item);
      XSync (bench->x, False);
    }
}

static unsigned
taken_in (Bench *bench)
{
  Window root, parent, *children = NULL;
  unsigned n = 0;

  if (!bench->x)
    return 0;
  assert_true (XQueryTree (bench->x, bench->window, &root, &parent, &children, &n));
  if (children)
    XFree (children);
  return n;
}

/* ---- a watcher that has no host ---- */

static const char xml[] = "<node><interface name='" WATCHER "'>"
                          "<method name='RegisterStatusNotifierItem'><arg type='s' direction='in'/></method></interface></node>";

static void
called (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *method, GVariant *in,
        GDBusMethodInvocation *call, gpointer data)
{
  ((Bench *) data)->registered++;
  g_dbus_method_invocation_return_value (call, NULL);
}

static const GDBusInterfaceVTable calls = { .method_call = called };

static void
start_watcher (Bench *bench)
{
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (xml, NULL);
  GVariant *reply;

  bench->watcher = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  assert_non_null (bench->watcher);
  g_dbus_connection_register_object (bench->watcher, "/StatusNotifierWatcher", node->interfaces[0], &calls, bench, NULL, NULL);
  reply = g_dbus_connection_call_sync (bench->watcher, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus",
                                       "RequestName", g_variant_new ("(su)", WATCHER, 4), NULL, 0, -1, NULL, NULL);
  assert_non_null (reply);
  g_variant_unref (reply);
  g_dbus_node_info_unref (node);
}

static void
end_watcher (Bench *bench)
{
  if (bench->watcher)
    g_dbus_connection_close_sync (bench->watcher, NULL, NULL);
  g_clear_object (&bench->watcher);
}

/* ---- orders ---- */

static void
turn (Bench *bench)
{
  GDBusConnection *bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  GVariant *reply = g_dbus_connection_call_sync (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus",
                                                 "GetId", NULL, NULL, 0, -1, NULL, NULL);

  g_variant_unref (reply);
  g_object_unref (bus);
  gdk_display_sync (gdk_display_get_default ());
  take_in (bench);
  while (gtk_events_pending ())
    gtk_main_iteration ();
  take_in (bench);
}

static void
wait_for_registered (Bench *bench)
{
  int before = bench->registered;

  for (gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC; bench->registered == before && g_get_monotonic_time () < end;)
    turn (bench);
  assert_int_equal (bench->registered, before + 1);
}

/* On a machine too slow for it the rows pass as well: they say what is so before and after. */
static void
let_library_wait (Bench *bench)
{
  for (gint64 end = g_get_monotonic_time () + 2 * LIBRARY_WAITS_MS * 1000; g_get_monotonic_time () < end; g_usleep (1000))
    turn (bench);
}

static void
happen (Bench *bench, char letter)
{
  switch (letter)
    {
    case 'S': start_older (bench); break;
    case 's': end_older (bench); break;
    case 'W': start_watcher (bench); wait_for_registered (bench); break;
    case 'w': end_watcher (bench); let_library_wait (bench); break;
    case 'H': carpace_tray_set_held (bench->tray, true); break;
    case 'h': carpace_tray_set_held (bench->tray, false); break;
    case 'I': carpace_tray_stand_in (bench->tray); break;
    default: fail ();
    }
}

/* What is so by then stays so. */
static bool
comes_to (Bench *bench, bool hosted)
{
  gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  while ((carpace_tray_is_hosted (bench->tray) != hosted || bench->told != hosted) && g_get_monotonic_time () < end)
    {
      turn (bench);
      g_usleep (1000);
    }
  for (int round = 0; round < ROUNDS; round++)
    turn (bench);
  return carpace_tray_is_hosted (bench->tray) == hosted && bench->told == hosted;
}

/* After each letter: '+' shown, '-' not. */
static const struct { const char *happens, *shown; unsigned n_taken_in; const char *why; } orders[] = {
  { "H", "+", 0, "a host on the bus holds it" },
  { "Hh", "+-", 0, "and lets it go" },
  { "S", "+", 1, "an older tray alone" },
  { "Ss", "+-", 0, "which is killed" },
  { "SsS", "+-+", 1, "and started anew" },
  { "SsSs", "+-+-", 0, "twice" },
  { "SW", "+-", 0, "a watcher without a host beside it: the library takes the item out of the older tray" },
  { "SWI", "+-+", 1, "it is offered to it once more" },
  { "SWII", "+-++", 1, "but not twice" },
  { "SWIH", "+-++", 0, "until a host comes" },
  { "SWIHh", "+-++-", 0, "which goes" },
  { "SWIHhI", "+-++-+", 1, "and again" },
  { "SWIw", "+-++", 1, "the watcher goes: what stands there stays, and is one" },
  { "SWIs", "+-+-", 0, "the older tray is killed" },
  { "SWIsS", "+-+-+", 1, "and started anew" },
  { "SWH", "+-+", 0, "a panel that is both" },
  { "SWHsw", "+-+++", 0, "and is killed, before its host's end is told" },
  { "W", "-", 0, "a watcher alone" },
  { "WS", "--", 0, "an older tray after it" },
  { "WSI", "--+", 1, "is offered the item" },
  { "WIS", "--+", 1, "also one that comes later" },
  { "WISH", "--++", 0, "a panel's host, after its older tray" },
  { "HI", "++", 0, "nothing stands in for what is held" },
  { "SWHI", "+-++", 0, "in an older tray, too" },
  { "SI", "++", 1, "nor beside what the library does" },
};

static void
test_orders (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (orders); i++)
    {
      Bench bench = { NULL };
      const CarpaceOwner owner = { &bench, tell, NULL, fill_plans, NULL, NULL };

      assert_int_equal (strlen (orders[i].happens), strlen (orders[i].shown));
      bench.tray = carpace_tray_new (&owner, NULL, host_changed);
      for (size_t n = 0; orders[i].happens[n] != '\0'; n++)
        {
          happen (&bench, orders[i].happens[n]);
          if (!comes_to (&bench, orders[i].shown[n] == '+'))
            fail_msg ("%s: %s, told %d, after %zu of %s", orders[i].why, carpace_tray_is_hosted (bench.tray) ? "shown" : "not shown",
                      bench.told, n + 1, orders[i].happens);
        }
      for (gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;
           taken_in (&bench) != orders[i].n_taken_in && g_get_monotonic_time () < end;)
        turn (&bench);
      if (taken_in (&bench) != orders[i].n_taken_in)
        fail_msg ("%s: an older tray has it %u times, after %s", orders[i].why, taken_in (&bench), orders[i].happens);
      carpace_tray_free (bench.tray);
      end_older (&bench);
      end_watcher (&bench);
    }
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_orders) };

  g_setenv ("GDK_BACKEND", "x11", TRUE);
  g_setenv ("GDK_GL", "disable", TRUE);
  g_setenv ("NO_AT_BRIDGE", "1", TRUE);
  gtk_init (&argc, &argv);
  return cmocka_run_group_tests (tests, NULL, NULL);
}
