/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Watchers and hosts of the test's own, in every order in which they were seen to come and go. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <stdio.h>
#include <string.h>

#include "tray-gdbus.h"

#define WATCHER "org.kde.StatusNotifierWatcher"
#define WATCHER_PATH "/StatusNotifierWatcher"
#define ITEM "org.kde.StatusNotifierItem"

/* Hops of a message, one a round: a signal, the call that answers it, its reply. */
#define ROUNDS 8

static const char xml[] = "<node><interface name='" WATCHER "'>"
                          "<property name='IsStatusNotifierHostRegistered' type='b' access='read'/></interface></node>";

typedef struct
{
  CarpaceTrayGdbus *tray;
  GDBusConnection *bus;      /* the program's */
  GDBusConnection *parts[4]; /* two watchers, two hosts; NULL: not there */
  bool has_host;             /* what a watcher says of hosts */
  bool held;
  int told;
} Bench;

enum { WATCHER_1, WATCHER_2, HOST_1, HOST_2 };

static void
take (void *self, bool held)
{
  Bench *bench = self;

  assert_true (held != bench->held); /* only changes are told */
  bench->held = held;
  bench->told++;
}

static GVariant *
call (GDBusConnection *bus, const char *name, const char *path, const char *interface, const char *method, GVariant *in)
{
  return g_dbus_connection_call_sync (bus, name, path, interface, method, in, NULL, 0, -1, NULL, NULL);
}

static void
ask_bus (GDBusConnection *bus, const char *method, GVariant *in)
{
  GVariant *reply = call (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", method, in);

  assert_non_null (reply);
  g_variant_unref (reply);
}

/* Everything that was sent has come, and what it led to. */
static void
settle (Bench *bench)
{
  for (int round = 0; round < ROUNDS; round++)
    {
      for (size_t i = 0; i < G_N_ELEMENTS (bench->parts); i++)
        if (bench->parts[i])
          ask_bus (bench->parts[i], "GetId", NULL);
      ask_bus (bench->bus, "GetId", NULL);
      while (g_main_context_iteration (NULL, FALSE))
        ;
    }
}

static GVariant *
get (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *property, GError **error,
     gpointer bench)
{
  return g_variant_new_boolean (((Bench *) bench)->has_host);
}

static const GDBusInterfaceVTable calls = { .get_property = get };

static GDBusConnection *
part (Bench *bench, int which)
{
  if (!bench->parts[which])
    bench->parts[which] = g_dbus_connection_new_for_address_sync (
      g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
      G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  assert_non_null (bench->parts[which]);
  return bench->parts[which];
}

static void
end_part (Bench *bench, int which)
{
  if (bench->parts[which])
    g_dbus_connection_close_sync (bench->parts[which], NULL, NULL);
  g_clear_object (&bench->parts[which]);
}

static void
start_watcher (Bench *bench, int which)
{
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (xml, NULL);
  GDBusConnection *bus = part (bench, which);

  g_dbus_connection_register_object (bus, WATCHER_PATH, node->interfaces[0], &calls, bench, NULL, NULL);
  ask_bus (bus, "RequestName", g_variant_new ("(su)", WATCHER, 3)); /* as a panel's: may be replaced, and replaces */
  g_dbus_node_info_unref (node);
}

static void
ask_item (Bench *bench, int host, const char *method, GVariant *in)
{
  g_dbus_connection_call (part (bench, host), g_dbus_connection_get_unique_name (bench->bus), "/org/ayatana/NotificationItem/carpace",
                          "org.freedesktop.DBus.Properties", method, in, NULL, 0, -1, NULL, NULL, NULL);
  g_dbus_connection_flush_sync (part (bench, host), NULL, NULL);
}

static void
tell_of_hosts (Bench *bench, const char *signal, bool has_host)
{
  bench->has_host = has_host;
  g_dbus_connection_emit_signal (part (bench, WATCHER_1), NULL, WATCHER_PATH, WATCHER, signal, NULL, NULL);
}

/* What happens, a letter each. */
static void
happen (Bench *bench, char letter)
{
  switch (letter)
    {
    case 'W': start_watcher (bench, WATCHER_1); break;
    case 'w': end_part (bench, WATCHER_1); break;
    case 'R': start_watcher (bench, WATCHER_2); break; /* takes the name of the first */
    case 'r': end_part (bench, WATCHER_2); break;
    case 'H': ask_item (bench, HOST_1, "GetAll", g_variant_new ("(s)", ITEM)); break;
    case 'h': end_part (bench, HOST_1); break;
    case 'I': ask_item (bench, HOST_2, "Get", g_variant_new ("(ss)", ITEM, "IconName")); break;
    case 'i': end_part (bench, HOST_2); break;
    case 'p': ask_item (bench, HOST_1, "Get", g_variant_new ("(ss)", ITEM, "Id")); break;
    case 'm': ask_item (bench, HOST_1, "GetAll", g_variant_new ("(s)", "com.canonical.dbusmenu")); break;
    case 'x': ask_item (bench, HOST_1, "GetAll", g_variant_new ("(u)", 7)); break; /* nonsense */
    case 'X': ask_item (bench, HOST_1, "Get", NULL); break;
    case 'G': tell_of_hosts (bench, "StatusNotifierHostRegistered", true); break;
    case 'g': tell_of_hosts (bench, "StatusNotifierHostRegistered", false); break; /* one says so of the last one's end */
    case 'u': tell_of_hosts (bench, "StatusNotifierHostUnregistered", false); break;
    case 'U': tell_of_hosts (bench, "StatusNotifierHostUnregistered", true); break; /* one of two */
    default: fail ();
    }
}

static void
start (Bench *bench)
{
  *bench = (Bench) { .bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL) };
  assert_non_null (bench->bus);
  bench->tray = carpace_tray_gdbus_new ((CarpaceTrayListener) { bench, take });
  assert_non_null (bench->tray);
  settle (bench);
}

static void
end (Bench *bench)
{
  int told = bench->told;

  carpace_tray_gdbus_free (bench->tray);
  for (int which = 0; which < (int) G_N_ELEMENTS (bench->parts); which++)
    end_part (bench, which);
  for (int round = 0; round < ROUNDS; round++)
    {
      ask_bus (bench->bus, "GetId", NULL);
      while (g_main_context_iteration (NULL, FALSE))
        ;
    }
  assert_int_equal (bench->told, told); /* nothing is told of what is freed */
  g_object_unref (bench->bus);
}

/* After each letter whether the item is held: '+' or '-'. */
static const struct { const char *happens, *held, *why; } orders[] = {
  { "WGH", "--+", "a panel comes up" },
  { "WG", "--", "its host looked before the item was registered, and missed it" },
  { "GW", "--", "a host that is told of before the watcher has its name" },
  { "W", "-", "a watcher without a host" },
  { "HW", "+-", "a host that asked before: with the watcher it asks anew" },
  { "HWH", "+-+", "and does" },
  { "WHh", "-+-", "the host is killed, the watcher stays" },
  { "WHw", "-+-", "the watcher is killed, the host lets its items go" },
  { "WHwh", "-+--", "both" },
  { "WHwWH", "-+--+", "the watcher comes again" },
  { "WHhw", "-+--", "killed while it docks" },
  { "WHhwWGH", "-+----+", "and started anew" },
  { "WHhwWGwWGH", "-+-------+", "killed twice, once before it asked" },
  { "WHR", "-+-", "another panel's watcher takes the name" },
  { "WHRI", "-+-+", "and its host asks" },
  { "WHRIr", "-+-+-", "and both are gone" },
  { "WHI", "-++", "two hosts" },
  { "WHIh", "-+++", "of which one is gone" },
  { "WHIhi", "-+++-", "and the other" },
  { "WHIu", "-++-", "the watcher says that there is none" },
  { "WHu", "-+-", "the tray is taken out of a panel that stays" },
  { "WHuH", "-+-+", "and put in again" },
  { "WHg", "-+-", "where one signal tells of both" },
  { "WHGH", "-+++", "a second host that does not ask" },
  { "WHU", "-++", "a second host's end" },
  { "WHHH", "-+++", "asked again and again" },
  { "WHHHh", "-+++-", "the end is one" },
  { "Wp", "--", "whoever asks for the name of an item shows no icon" },
  { "Wm", "--", "nor of its menu" },
  { "WxX", "---", "nonsense" },
  { "WpH", "--+", "a host that asked for something else before" },
};

static void
test_orders (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (orders); i++)
    {
      Bench bench;

      assert_int_equal (strlen (orders[i].happens), strlen (orders[i].held));
      start (&bench);
      for (size_t n = 0; orders[i].happens[n] != '\0'; n++)
        {
          happen (&bench, orders[i].happens[n]);
          settle (&bench);
          if (bench.held != (orders[i].held[n] == '+'))
            fail_msg ("%s: %s, after %zu of %s", orders[i].why, bench.held ? "held" : "not held", n + 1, orders[i].happens);
        }
      end (&bench);
    }
}

/* What is asked and not yet told when it is freed. */
static void
test_freed_in_between (void **state)
{
  Bench bench;

  start (&bench);
  happen (&bench, 'W');
  settle (&bench);
  happen (&bench, 'H');
  ask_bus (part (&bench, HOST_1), "GetId", NULL);
  ask_bus (bench.bus, "GetId", NULL); /* it has come, and waits for its turn */
  end (&bench);
  assert_int_equal (bench.told, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_orders), cmocka_unit_test (test_freed_in_between) };

  g_log_set_always_fatal (G_LOG_LEVEL_CRITICAL | G_LOG_LEVEL_WARNING | G_LOG_FATAL_MASK);
  return cmocka_run_group_tests (tests, NULL, NULL);
}
