/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Against a logind of the test's own on a private bus: interface as in
 * org.freedesktop.login1(5), a delay lock is a pipe whose other end shows when
 * it is let go. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <fcntl.h>
#include <gio/gio.h>
#include <gio/gunixfdlist.h>
#include <poll.h>
#include <unistd.h>

#include "suspend-logind.h"

#define LOGIND "org.freedesktop.login1"
#define LOGIND_PATH "/org/freedesktop/login1"
#define MANAGER "org.freedesktop.login1.Manager"
#define LIMIT_MS 3000

static const char logind_xml[]
  = "<node><interface name='" MANAGER "'><method name='Inhibit'><arg type='s' direction='in'/><arg type='s' direction='in'/>"
    "<arg type='s' direction='in'/><arg type='s' direction='in'/><arg type='h' direction='out'/></method>"
    "<signal name='PrepareForSleep'><arg type='b'/></signal></interface></node>";

typedef struct
{
  GDBusConnection *bus; /* logind's */
  guint object, name;
  bool refuses;
  int n_locks, lock; /* our end of the last one */
  char *what, *mode;
  CarpaceSuspendLogind *suspend;
  int n_told;
  CarpaceEventKind told[16];
  bool locked_when_told[16];
} Bench;

static bool
lock_held (const Bench *bench)
{
  struct pollfd end = { .fd = bench->lock, .events = POLLIN };
  return bench->lock >= 0 && poll (&end, 1, 0) == 0;
}

static bool
take (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  Bench *bench = self;
  assert_in_range (bench->n_told, 0, 15);
  bench->locked_when_told[bench->n_told] = lock_held (bench);
  bench->told[bench->n_told++] = event->kind;
  return true;
}

static void
called (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *method,
        GVariant *in, GDBusMethodInvocation *call, gpointer data)
{
  Bench *bench = data;
  int ends[2];
  if (bench->refuses)
    {
      g_dbus_method_invocation_return_dbus_error (call, "org.freedesktop.DBus.Error.AccessDenied", "no");
      return;
    }
  assert_int_equal (pipe (ends), 0);
  g_free (bench->what);
  g_free (bench->mode);
  g_variant_get (in, "(s&s&ss)", &bench->what, NULL, NULL, &bench->mode);
  if (bench->lock >= 0)
    close (bench->lock);
  bench->lock = ends[0];
  bench->n_locks++;
  GUnixFDList *fds = g_unix_fd_list_new_from_array (&ends[1], 1);
  g_dbus_method_invocation_return_value_with_unix_fd_list (call, g_variant_new ("(h)", 0), fds);
  g_object_unref (fds);
}

static const GDBusInterfaceVTable calls = { .method_call = called };

static void
wait_for (const int *number, int enough, int ms)
{
  for (gint64 end = g_get_monotonic_time () + ms * 1000; *number < enough && g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
}

static void
turn (int ms)
{
  static const int never = 0;
  wait_for (&never, 1, ms);
}

/* Waits until our end says that the lock is held, or is not. */
static void
assert_lock (Bench *bench, bool held)
{
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000; lock_held (bench) != held && g_get_monotonic_time () < end;)
    turn (1);
  for (gint64 end = g_get_monotonic_time () + LIMIT_MS * 1000;
       carpace_suspend_logind_has_lock (bench->suspend) != held && g_get_monotonic_time () < end;)
    turn (1);
  assert_true (lock_held (bench) == held);
  assert_true (carpace_suspend_logind_has_lock (bench->suspend) == held);
}

static void
start_logind (Bench *bench)
{
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (logind_xml, NULL);
  bench->object = g_dbus_connection_register_object (bench->bus, LOGIND_PATH, node->interfaces[0], &calls, bench, NULL, NULL);
  bench->name = g_bus_own_name_on_connection (bench->bus, LOGIND, 0, NULL, NULL, NULL, NULL);
  g_dbus_node_info_unref (node);
}

static void
stop_logind (Bench *bench)
{
  if (bench->name == 0)
    return;
  g_bus_unown_name (bench->name);
  g_dbus_connection_unregister_object (bench->bus, bench->object);
  bench->name = 0;
}

static void
prepare (Bench *bench, bool before)
{
  g_dbus_connection_emit_signal (bench->bus, NULL, LOGIND_PATH, MANAGER, "PrepareForSleep", g_variant_new ("(b)", before), NULL);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->lock = -1;
  g_setenv ("DBUS_SYSTEM_BUS_ADDRESS", g_getenv ("DBUS_SESSION_BUS_ADDRESS"), TRUE);
  bench->bus = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  assert_non_null (bench->bus);
  bench->suspend = carpace_suspend_logind_new ("Carpace", "writes down that practice stops", (CarpaceTell) { bench, take });
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  carpace_suspend_logind_free (bench->suspend);
  stop_logind (bench);
  turn (20);
  if (bench->lock >= 0)
    {
      assert_false (lock_held (bench)); /* nothing is left behind */
      close (bench->lock);
    }
  g_free (bench->what);
  g_free (bench->mode);
  g_object_unref (bench->bus);
  g_free (bench);
  return 0;
}

static void
suspend_and_wake_are_told (void **state)
{
  Bench *bench = *state;
  start_logind (bench);
  wait_for (&bench->n_locks, 1, LIMIT_MS);
  assert_int_equal (bench->n_locks, 1);
  assert_string_equal (bench->what, "sleep");
  assert_string_equal (bench->mode, "delay");
  assert_lock (bench, true);
  for (int round = 0; round < 3; round++)
    {
      prepare (bench, true);
      wait_for (&bench->n_told, round * 2 + 1, LIMIT_MS);
      assert_int_equal (bench->told[round * 2], CARPACE_EVENT_SUSPEND);
      assert_true (bench->locked_when_told[round * 2]); /* the machine has waited for it */
      assert_lock (bench, false); /* and waits no longer */
      prepare (bench, true); /* said twice */
      prepare (bench, false);
      wait_for (&bench->n_told, round * 2 + 2, LIMIT_MS);
      assert_int_equal (bench->told[round * 2 + 1], CARPACE_EVENT_WAKE);
      wait_for (&bench->n_locks, round + 2, LIMIT_MS);
      assert_lock (bench, true);
    }
  assert_int_equal (bench->n_told, 6);
}

static void
told_without_a_lock (void **state)
{
  Bench *bench = *state;
  bench->refuses = true;
  start_logind (bench);
  turn (100);
  assert_false (carpace_suspend_logind_has_lock (bench->suspend));
  prepare (bench, true);
  prepare (bench, false);
  wait_for (&bench->n_told, 2, LIMIT_MS);
  assert_int_equal (bench->told[0], CARPACE_EVENT_SUSPEND);
  assert_int_equal (bench->told[1], CARPACE_EVENT_WAKE);
}

static void
logind_late_and_restarted (void **state)
{
  Bench *bench = *state;
  turn (100);
  assert_false (carpace_suspend_logind_has_lock (bench->suspend));
  start_logind (bench);
  wait_for (&bench->n_locks, 1, LIMIT_MS);
  stop_logind (bench);
  turn (50);
  start_logind (bench);
  wait_for (&bench->n_locks, 2, LIMIT_MS);
  assert_int_equal (bench->n_locks, 2);
  prepare (bench, true);
  wait_for (&bench->n_told, 1, LIMIT_MS);
  assert_int_equal (bench->told[0], CARPACE_EVENT_SUSPEND);
}

static void
another_program_is_not_believed (void **state)
{
  Bench *bench = *state;
  start_logind (bench);
  wait_for (&bench->n_locks, 1, LIMIT_MS);
  GDBusConnection *other = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  g_dbus_connection_emit_signal (other, NULL, LOGIND_PATH, MANAGER, "PrepareForSleep", g_variant_new ("(b)", TRUE), NULL);
  g_dbus_connection_flush_sync (other, NULL, NULL);
  wait_for (&bench->n_told, 1, 150);
  assert_int_equal (bench->n_told, 0);
  g_object_unref (other);
}

static void
freed_while_it_asks (void **state)
{
  Bench *bench = *state;
  start_logind (bench);
  carpace_suspend_logind_free (bench->suspend);
  bench->suspend = NULL;
  turn (50);
  assert_int_equal (bench->n_told, 0);
}

#define ON_BUS(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    ON_BUS (suspend_and_wake_are_told),       ON_BUS (told_without_a_lock),
    ON_BUS (logind_late_and_restarted),       ON_BUS (another_program_is_not_believed),
    ON_BUS (freed_while_it_asks),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
