/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Against an idle monitor and a session manager of the test's own, with the
 * interfaces that GNOME's have: idle time is what the test says it is. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <stdlib.h>

#include "activity-mutter.h"
#include "clock-linux.h"

#define MONITOR "org.gnome.Mutter.IdleMonitor"
#define MONITOR_PATH "/org/gnome/Mutter/IdleMonitor/Core"
#define SESSION "org.gnome.SessionManager"
#define SESSION_PATH "/org/gnome/SessionManager"
#define LIMIT_MS 3000
#define NEAR_MS 1000 /* what a busy machine may be late by */
#define ANSWER_MS 150 /* and an answer under way may take */
#define LOOKS_MS 4000 /* a look at most as often */
#define BUSY_MS 5500

static const char xml[]
  = "<node><interface name='" MONITOR "'><method name='GetIdletime'><arg type='t' direction='out'/></method>"
    "<method name='AddIdleWatch'><arg type='t' direction='in'/><arg type='u' direction='out'/></method>"
    "<method name='AddUserActiveWatch'><arg type='u' direction='out'/></method>"
    "<method name='RemoveWatch'><arg type='u' direction='in'/></method>"
    "<signal name='WatchFired'><arg type='u'/></signal></interface></node>";

static const char session_xml[]
  = "<node><interface name='" SESSION "'><property name='InhibitedActions' type='u' access='read'/></interface></node>";

typedef struct
{
  GDBusConnection *bus;
  guint object, session, name;
  guint32 inhibited;
  int n_looks;
  guint64 idle_ms, idle_asked;
  guint32 last_watch, still_watch, input_watch;
  int n_still_watches, n_input_watches, n_removed;
  bool busy; /* what it is asked waits */
  GQueue waiting;
  CarpaceClockLinux clock;
  CarpaceActivity port;
  int n_told;
  CarpaceEvent told[16];
} Bench;

static int64_t
elapsed (Bench *bench)
{
  CarpaceClock port = carpace_clock_linux_port (&bench->clock);
  return port.now (port.self).elapsed_ms;
}

static bool
take (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  Bench *bench = self;
  assert_in_range (bench->n_told, 0, 15);
  bench->told[bench->n_told++] = *event;
  return true;
}

static void
called (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *method, GVariant *in,
        GDBusMethodInvocation *call, gpointer data)
{
  Bench *bench = data;
  GVariant *out = NULL;
  if (bench->busy)
    {
      g_queue_push_tail (&bench->waiting, call);
      return;
    }
  if (g_str_equal (method, "GetIdletime"))
    {
      out = g_variant_new ("(t)", bench->idle_ms);
      bench->n_looks++;
    }
  else if (g_str_equal (method, "RemoveWatch"))
    bench->n_removed++;
  else if (g_str_equal (method, "AddIdleWatch"))
    {
      g_variant_get (in, "(t)", &bench->idle_asked);
      out = g_variant_new ("(u)", bench->still_watch = ++bench->last_watch);
      bench->n_still_watches++;
    }
  else
    {
      out = g_variant_new ("(u)", bench->input_watch = ++bench->last_watch);
      bench->n_input_watches++;
    }
  g_dbus_method_invocation_return_value (call, out);
}

static const GDBusInterfaceVTable calls = { .method_call = called };

static void
answer_what_waits (Bench *bench)
{
  GDBusMethodInvocation *call;
  bench->busy = false;
  while ((call = g_queue_pop_head (&bench->waiting)) != NULL)
    called (bench->bus, NULL, NULL, NULL, g_dbus_method_invocation_get_method_name (call),
            g_dbus_method_invocation_get_parameters (call), call, bench);
}

static GVariant *
inhibited (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *property,
           GError **error, gpointer data)
{
  return g_variant_new_uint32 (((Bench *) data)->inhibited);
}

static const GDBusInterfaceVTable session = { .get_property = inhibited };

/* A program begins or ends to hold the screen awake. */
static void
inhibit (Bench *bench, guint32 actions)
{
  GVariantBuilder changed;
  bench->inhibited = actions;
  g_variant_builder_init (&changed, G_VARIANT_TYPE ("a{sv}"));
  g_variant_builder_add (&changed, "{sv}", "InhibitedActions", g_variant_new_uint32 (actions));
  g_dbus_connection_emit_signal (bench->bus, NULL, SESSION_PATH, "org.freedesktop.DBus.Properties", "PropertiesChanged",
                                 g_variant_new ("(sa{sv}as)", SESSION, &changed, NULL), NULL);
}

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

static void
fire (Bench *bench, guint32 watch)
{
  g_dbus_connection_emit_signal (bench->bus, NULL, MONITOR_PATH, MONITOR, "WatchFired", g_variant_new ("(u)", watch), NULL);
}

static void
own (Bench *bench, const char *name)
{
  GVariant *reply = g_dbus_connection_call_sync (bench->bus, "org.freedesktop.DBus", "/org/freedesktop/DBus",
                                                 "org.freedesktop.DBus", "RequestName", g_variant_new ("(su)", name, 4),
                                                 NULL, 0, -1, NULL, NULL);
  g_variant_unref (reply);
}

static void
start_monitor (Bench *bench)
{
  own (bench, MONITOR);
}

static void
stop_monitor (Bench *bench)
{
  GVariant *reply = g_dbus_connection_call_sync (bench->bus, "org.freedesktop.DBus", "/org/freedesktop/DBus",
                                                 "org.freedesktop.DBus", "ReleaseName", g_variant_new ("(s)", MONITOR), NULL, 0,
                                                 -1, NULL, NULL);
  g_variant_unref (reply);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  bench->bus = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (xml, NULL);
  bench->object = g_dbus_connection_register_object (bench->bus, MONITOR_PATH, node->interfaces[0], &calls, bench, NULL, NULL);
  g_dbus_node_info_unref (node);
  node = g_dbus_node_info_new_for_xml (session_xml, NULL);
  bench->session = g_dbus_connection_register_object (bench->bus, SESSION_PATH, node->interfaces[0], &session, bench, NULL, NULL);
  g_dbus_node_info_unref (node);
  own (bench, SESSION);
  start_monitor (bench);
  assert_true (carpace_activity_mutter_open (carpace_clock_linux_port (&bench->clock), (CarpaceTell) { bench, take }, &bench->port));
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  CARPACE_PORT_FREE (bench->port);
  turn (ANSWER_MS);
  stop_monitor (bench);
  g_dbus_connection_close_sync (bench->bus, NULL, NULL);
  g_object_unref (bench->bus);
  g_free (bench);
  return 0;
}

static void
assert_told (Bench *bench, int n, CarpaceEventKind kind, int64_t since_ms, int64_t slack_ms)
{
  wait_for (&bench->n_told, n, LIMIT_MS);
  assert_int_equal (bench->n_told, n);
  assert_int_equal (bench->told[n - 1].kind, kind);
  if (llabs (bench->told[n - 1].fact.since_ms - since_ms) > slack_ms)
    fail_msg ("%lld ms off", (long long) (bench->told[n - 1].fact.since_ms - since_ms));
}

static void
a_gap_is_told_with_its_beginning_and_its_end (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  wait_for (&bench->n_still_watches, 1, LIMIT_MS);
  turn (30);
  assert_int_equal (bench->idle_asked, 4000);
  assert_int_equal (bench->n_told, 0);
  assert_int_equal (bench->n_input_watches, 0); /* nothing wakes while the hand moves */
  for (int round = 0; round < 3; round++)
    {
      fire (bench, bench->still_watch);
      assert_told (bench, round * 2 + 1, CARPACE_EVENT_STILL, elapsed (bench) - 4000, NEAR_MS);
      wait_for (&bench->n_input_watches, round + 1, LIMIT_MS);
      turn (ANSWER_MS); /* its answer is on the way */
      fire (bench, bench->input_watch);
      assert_told (bench, round * 2 + 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
    }
  fire (bench, 4711);
  turn (30);
  assert_int_equal (bench->n_told, 6);
  bench->port.follow (bench->port.self, 0);
  wait_for (&bench->n_removed, 1, LIMIT_MS);
  fire (bench, bench->still_watch);
  turn (30);
  assert_int_equal (bench->n_told, 6);
}

static void
already_still_when_following_begins (void **state)
{
  Bench *bench = *state;
  bench->idle_ms = 9000;
  bench->port.follow (bench->port.self, 4000);
  assert_int_equal (bench->n_told, 0);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 9000, NEAR_MS);
  wait_for (&bench->n_input_watches, 1, LIMIT_MS);
  assert_int_equal (bench->n_input_watches, 1);
}

static void
presumed_moving_but_still (void **state)
{
  Bench *bench = *state;
  bench->idle_ms = 9000;
  int64_t from = elapsed (bench);
  bench->port.follow (bench->port.self, 200);
  bench->port.recheck (bench->port.self, true, from);
  turn (50);
  fire (bench, bench->still_watch); /* of the time before `start` */
  turn (50);
  assert_int_equal (bench->n_told, 0);
  assert_told (bench, 1, CARPACE_EVENT_STILL, from, 0);
  assert_true (elapsed (bench) - from >= 200);
}

static void
presumed_still_and_back_within_the_gap (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  turn (30);
  bench->idle_ms = 300;
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 2500); /* as after a wake: from is past */
  wait_for (&bench->n_told, 1, LIMIT_MS);
  assert_int_equal (bench->n_told, 1); /* 0.3 s ago is later than the hand's way to an answer */
  assert_int_equal (bench->told[0].kind, CARPACE_EVENT_INPUT);
  bench->n_told = 0;
  bench->idle_ms = 2300;
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 2500);
  wait_for (&bench->n_input_watches, 1, LIMIT_MS);
  turn (ANSWER_MS);
  assert_int_equal (bench->n_told, 0);
  fire (bench, bench->input_watch);
  assert_told (bench, 1, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
}

/* A game holds the screen awake: the watch for a gap never fires, the one for input does. */
static void
a_gap_is_seen_while_its_watch_is_held_back (void **state)
{
  Bench *bench = *state;
  turn (50); /* the monitor's name is known */
  bench->inhibited = 8 | 4;
  bench->port.follow (bench->port.self, 1000);
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  wait_for (&bench->n_looks, 1, LIMIT_MS); /* at first */
  turn (LOOKS_MS - 500);
  assert_int_equal (bench->n_looks, 1);
  wait_for (&bench->n_looks, 2, LIMIT_MS); /* the hand moves */
  assert_int_equal (bench->n_told, 0);
  bench->idle_ms = 3500; /* and is still from then on */
  assert_int_equal (bench->n_input_watches, 0);
  wait_for (&bench->n_told, 1, LOOKS_MS + LIMIT_MS);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 3500, NEAR_MS);
  assert_int_equal (bench->n_looks, 3);
  turn (ANSWER_MS);
  fire (bench, bench->still_watch); /* by a monitor that tells after all */
  turn (ANSWER_MS);
  assert_int_equal (bench->n_told, 1);
  fire (bench, bench->input_watch);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  inhibit (bench, 4); /* the game ends */
  turn (LOOKS_MS + 500);
  assert_int_equal (bench->n_looks, 3);
  assert_int_equal (bench->n_told, 2);
}

/* Looks neither before a program holds it awake, nor while the hand is still, nor
 * outside a block. */
static void
looks_only_while_held_and_moving (void **state)
{
  Bench *bench = *state;
  turn (50);
  bench->port.follow (bench->port.self, 100);
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  wait_for (&bench->n_looks, 1, LIMIT_MS);
  turn (200);
  bench->port.recheck (bench->port.self, false, elapsed (bench) - 5000);
  bench->idle_ms = 5000;
  wait_for (&bench->n_looks, 2, LIMIT_MS);
  turn (ANSWER_MS);
  inhibit (bench, 8);
  turn (LOOKS_MS + 500);
  assert_int_equal (bench->n_looks, 2); /* still */
  fire (bench, bench->input_watch);
  assert_told (bench, 1, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  bench->idle_ms = 0;
  wait_for (&bench->n_looks, 3, LOOKS_MS + LIMIT_MS);
  assert_int_equal (bench->n_looks, 3); /* moving */
  bench->port.state (bench->port.self, CARPACE_STATE_WAITING); /* followed, but nothing depends on it */
  turn (LOOKS_MS + 500);
  assert_int_equal (bench->n_looks, 3);
  assert_int_equal (bench->n_told, 1);
}

static void
a_monitor_started_anew_is_followed (void **state)
{
  Bench *bench = *state;
  bench->port.follow (bench->port.self, 4000);
  wait_for (&bench->n_still_watches, 1, LIMIT_MS);
  turn (ANSWER_MS);
  stop_monitor (bench);
  turn (ANSWER_MS);
  start_monitor (bench);
  wait_for (&bench->n_still_watches, 2, LIMIT_MS);
  assert_int_equal (bench->n_still_watches, 2);
  turn (ANSWER_MS);
  fire (bench, bench->still_watch);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 4000, NEAR_MS);
}

/* A desktop that stands still for some seconds, as one may while a game starts: what it was asked then is answered late. */
static void
a_busy_desktop_is_waited_for (void **state)
{
  Bench *bench = *state;
  turn (50);
  bench->busy = true;
  bench->port.follow (bench->port.self, 1000);
  bench->port.state (bench->port.self, CARPACE_STATE_PRACTISING);
  turn (BUSY_MS);
  answer_what_waits (bench);
  wait_for (&bench->n_still_watches, 1, LIMIT_MS);
  turn (ANSWER_MS);
  fire (bench, bench->still_watch);
  assert_told (bench, 1, CARPACE_EVENT_STILL, elapsed (bench) - 1000, NEAR_MS);
  wait_for (&bench->n_input_watches, 1, LIMIT_MS);
  turn (ANSWER_MS);
  fire (bench, bench->input_watch);
  assert_told (bench, 2, CARPACE_EVENT_INPUT, elapsed (bench), NEAR_MS);
  inhibit (bench, 8);
  bench->busy = true; /* when it is looked at */
  turn (LOOKS_MS + BUSY_MS);
  bench->idle_ms = 3500;
  answer_what_waits (bench);
  assert_told (bench, 3, CARPACE_EVENT_STILL, elapsed (bench) - 3500, NEAR_MS);
}

static void
freed_while_it_asks (void **state)
{
  Bench *bench = *state;
  bench->idle_ms = 9000;
  bench->port.follow (bench->port.self, 4000);
  wait_for (&bench->n_still_watches, 1, LIMIT_MS);
  CARPACE_PORT_FREE (bench->port);
  bench->port.free = NULL;
  turn (50);
  assert_int_equal (bench->n_told, 0);
}

static void
not_offered_without_a_monitor (void **state)
{
  CarpaceActivity activity = { 0 };

  assert_false (carpace_activity_mutter_open ((CarpaceClock) { 0 }, (CarpaceTell) { 0 }, &activity));
  assert_null (activity.self);
}

#define ON_BUS(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (not_offered_without_a_monitor),
    ON_BUS (a_gap_is_told_with_its_beginning_and_its_end),
    ON_BUS (already_still_when_following_begins),
    ON_BUS (presumed_moving_but_still),
    ON_BUS (presumed_still_and_back_within_the_gap),
    ON_BUS (a_gap_is_seen_while_its_watch_is_held_back),
    ON_BUS (looks_only_while_held_and_moving),
    ON_BUS (a_monitor_started_anew_is_followed),
    ON_BUS (a_busy_desktop_is_waited_for),
    ON_BUS (freed_while_it_asks),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
