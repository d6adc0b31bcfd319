/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-keys-portal.c: a portal of the test's own in every order: it grants, denies, has no shortcuts, is not there, comes
 * late, closes the session, goes and comes back. Interface as in org.freedesktop.portal.GlobalShortcuts, version 1. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <string.h>

#include "keys-portal.h"

#define PORTAL "org.freedesktop.portal.Desktop"
#define PATH "/org/freedesktop/portal/desktop"
#define SHORTCUTS "org.freedesktop.portal.GlobalShortcuts"
#define LIMIT_MS 10000
#define MEANWHILE_MS 150

static const char xml[]
  = "<node><interface name='" SHORTCUTS "'>"
    "<method name='CreateSession'><arg type='a{sv}' direction='in'/><arg type='o' direction='out'/></method>"
    "<method name='BindShortcuts'><arg type='o' direction='in'/><arg type='a(sa{sv})' direction='in'/>"
    "<arg type='s' direction='in'/><arg type='a{sv}' direction='in'/><arg type='o' direction='out'/></method>"
    "<method name='ListShortcuts'><arg type='o' direction='in'/><arg type='a{sv}' direction='in'/>"
    "<arg type='o' direction='out'/></method>"
    "<property name='version' type='u' access='read'/></interface></node>";

static const CarpaceKeysPortalRow rows[] = { { "rate-0", "Rate 0", "CTRL+ALT+0" }, { "rest", "Rest now", "CTRL+ALT+r" } };

/* ---- the portal ---- */

static struct
{
  GDBusConnection *bus;
  guint object, name;
  bool has_shortcuts;   /* else it is one without them */
  bool refuses_session, denies, grants_none, is_silent; /* what it answers a question with */
  bool granted;         /* it was asked, and said yes: kept when it goes */
  int sessions, questions;
  char *caller;
  char token[64];
  GVariant *asked;      /* the shortcuts of the last question */
} fake;

static char *
session_path (void)
{
  return g_strdup_printf (PATH "/session/one/%d", fake.sessions);
}

static void
respond (GDBusMethodInvocation *call, GVariant *options, guint32 response, GVariant *results)
{
  char *sender = g_strdelimit (g_strdup (g_dbus_method_invocation_get_sender (call) + 1), ".", '_'), *path;
  const char *token = "";

  g_variant_lookup (options, "handle_token", "&s", &token);
  path = g_strdup_printf (PATH "/request/%s/%s", sender, token);
  g_dbus_method_invocation_return_value (call, g_variant_new ("(o)", path));
  g_variant_ref_sink (results);
  if (!fake.is_silent || response != 0)
    g_dbus_connection_emit_signal (fake.bus, NULL, path, "org.freedesktop.portal.Request", "Response",
                                   g_variant_new ("(u@a{sv})", response, results), NULL);
  g_variant_unref (results);
  g_free (path);
  g_free (sender);
}

static GVariant *
nothing (void)
{
  return g_variant_new_array (G_VARIANT_TYPE ("{sv}"), NULL, 0);
}

static GVariant *
shortcuts (bool any)
{
  GVariantBuilder list, results;

  g_variant_builder_init (&list, G_VARIANT_TYPE ("a(sa{sv})"));
  for (size_t i = 0; any && i < G_N_ELEMENTS (rows); i++)
    g_variant_builder_add (&list, "(s@a{sv})", rows[i].id, nothing ());
  g_variant_builder_init (&results, G_VARIANT_TYPE_VARDICT);
  g_variant_builder_add (&results, "{sv}", "shortcuts", g_variant_builder_end (&list));
  return g_variant_builder_end (&results);
}

static GVariant *
session (void)
{
  GVariantBuilder results;
  char *path = session_path ();

  g_variant_builder_init (&results, G_VARIANT_TYPE_VARDICT);
  g_variant_builder_add (&results, "{sv}", "session_handle", g_variant_new_string (path));
  g_free (path);
  return g_variant_builder_end (&results);
}

static void
called (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *method, GVariant *in,
        GDBusMethodInvocation *call, gpointer user)
{
  GVariant *options = g_variant_get_child_value (in, g_variant_n_children (in) - 1);
  const char *token = "";

  if (strcmp (method, "CreateSession") == 0)
    {
      fake.sessions++;
      g_variant_lookup (options, "session_handle_token", "&s", &token);
      g_strlcpy (fake.token, token, sizeof fake.token);
      respond (call, options, fake.refuses_session ? 2 : 0, fake.refuses_session ? nothing () : session ());
    }
  else if (strcmp (method, "ListShortcuts") == 0)
    respond (call, options, 0, shortcuts (fake.granted));
  else
    {
      fake.questions++;
      g_clear_pointer (&fake.asked, g_variant_unref);
      fake.asked = g_variant_get_child_value (in, 1);
      fake.granted = !fake.denies && !fake.grants_none && !fake.is_silent;
      respond (call, options, fake.denies ? 1 : 0, fake.denies ? nothing () : shortcuts (!fake.grants_none));
    }
  g_variant_unref (options);
}

static GVariant *
version (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *property, GError **error,
         gpointer user)
{
  return g_variant_new_uint32 (1);
}

static void
portal_comes (void)
{
  static const GDBusInterfaceVTable table = { .method_call = called, .get_property = version };
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (xml, NULL);
  char *address = g_dbus_address_get_for_bus_sync (G_BUS_TYPE_SESSION, NULL, NULL);

  fake.bus = g_dbus_connection_new_for_address_sync (
    address, G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  if (fake.has_shortcuts)
    fake.object = g_dbus_connection_register_object (fake.bus, PATH, node->interfaces[0], &table, NULL, NULL, NULL);
  fake.name = g_bus_own_name_on_connection (fake.bus, PORTAL, G_BUS_NAME_OWNER_FLAGS_NONE, NULL, NULL, NULL, NULL);
  g_dbus_node_info_unref (node);
  g_free (address);
}

static void
portal_goes (void)
{
  g_clear_handle_id (&fake.name, g_bus_unown_name);
  if (fake.bus != NULL)
    g_dbus_connection_close_sync (fake.bus, NULL, NULL);
  g_clear_object (&fake.bus);
}

static void
say (const char *path, const char *interface, const char *signal, GVariant *what)
{
  assert_true (g_dbus_connection_emit_signal (fake.bus, NULL, path, interface, signal, what, NULL));
}

static void
press (const char *id, const char *session)
{
  say (PATH, SHORTCUTS, "Activated", g_variant_new ("(ost@a{sv})", session, id, (guint64) 7, nothing ()));
}

static void
close_session (void)
{
  char *path = session_path ();

  say (path, "org.freedesktop.portal.Session", "Closed", g_variant_new ("(@a{sv})", nothing ()));
  g_free (path);
}

/* ---- who listens ---- */

static struct
{
  GString *pressed;
  int told; /* states */
  CarpaceKeysPortalState state;
} heard;

static CarpaceKeysPortal *portal;
static GDBusConnection *ours;

static void
on_pressed (void *self, const char *id)
{
  g_string_append_printf (heard.pressed, "%s ", id);
}

static void
on_state (void *self, CarpaceKeysPortalState state)
{
  heard.told++;
  heard.state = state;
}

static gboolean
over (gpointer flag)
{
  *(bool *) flag = true;
  return G_SOURCE_REMOVE;
}

/* @return whether it came to hold */
static bool
comes_to (bool (*holds) (int value), int value, guint limit_ms)
{
  bool late = false;
  guint timer = g_timeout_add (limit_ms, over, &late);

  while (!late && !holds (value))
    g_main_context_iteration (NULL, TRUE);
  if (!late)
    g_source_remove (timer);
  return holds (value);
}

static bool is_state (int value) { return heard.told > 0 && (int) heard.state == value; }
static bool has_told (int value) { return heard.told >= value; }
static bool has_sessions (int value) { return fake.sessions >= value; }
static bool has_questions (int value) { return fake.questions >= value; }
static bool has_pressed (int value) { return (int) heard.pressed->len >= value; }

#define REACHES(what, value) assert_true (comes_to (what, value, LIMIT_MS))
#define STAYS_WITHOUT(what, value) assert_false (comes_to (what, value, MEANWHILE_MS))

static void
begin (bool there, bool has_shortcuts)
{
  memset (&fake, 0, sizeof fake);
  memset (&heard, 0, sizeof heard);
  heard.pressed = g_string_new (NULL);
  fake.has_shortcuts = has_shortcuts;
  if (there)
    portal_comes ();
  ours = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  portal = carpace_keys_portal_new (ours, rows, G_N_ELEMENTS (rows), (CarpaceKeysPortalListener){ NULL, on_pressed, on_state });
}

static int
tear_down (void **state)
{
  g_clear_pointer (&portal, carpace_keys_portal_free);
  portal_goes ();
  g_clear_pointer (&fake.asked, g_variant_unref);
  g_string_free (heard.pressed, TRUE);
  g_clear_object (&ours);
  return 0;
}

/* ---- what must hold ---- */

static void
nothing_is_asked_before_the_player_asks (void **state)
{
  begin (true, true);
  REACHES (is_state, CARPACE_KEYS_PORTAL_UNSET);
  assert_int_equal (fake.questions, 0);
  assert_string_equal (fake.token, "carpace"); /* the same at each start: desktops keep grants by it */
}

static void
all_are_asked_for_at_once_and_then_pressed (void **state)
{
  char *path;
  const char *id;

  begin (true, true);
  carpace_keys_portal_ask (portal);
  carpace_keys_portal_ask (portal); /* one dialogue */
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
  assert_int_equal (fake.questions, 1);
  assert_int_equal (g_variant_n_children (fake.asked), G_N_ELEMENTS (rows));
  g_variant_get_child (fake.asked, 1, "(&s@a{sv})", &id, NULL);
  assert_string_equal (id, "rest");
  path = session_path ();
  press ("rest", path);
  press ("rate-0", path);
  press ("made-up", path);
  press ("rest", PATH "/session/other/1");
  say (PATH, SHORTCUTS, "Activated", g_variant_new ("(s)", "rest"));
  press ("rest", path);
  g_free (path);
  REACHES (has_pressed, (int) strlen ("rest rate-0 rest "));
  assert_string_equal (heard.pressed->str, "rest rate-0 rest ");
}

static void
what_was_granted_before_needs_no_question (void **state)
{
  begin (true, true);
  fake.granted = true;
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
  assert_int_equal (fake.questions, 0);
}

static void
a_no_is_told_each_time (void **state)
{
  begin (true, true);
  fake.denies = true;
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_DENIED);
  int told = heard.told;
  carpace_keys_portal_ask (portal);
  REACHES (has_told, told + 1);
  assert_int_equal (heard.state, CARPACE_KEYS_PORTAL_DENIED);
  assert_int_equal (fake.questions, 2);
}

static void
a_yes_to_none_of_them_is_a_no (void **state)
{
  begin (true, true);
  fake.grants_none = true;
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_DENIED);
}

static void
a_session_that_is_refused_is_a_no (void **state)
{
  begin (true, true);
  fake.refuses_session = true;
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_DENIED);
  assert_int_equal (fake.questions, 0);
  fake.refuses_session = false;
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
}

static void
a_portal_without_shortcuts_is_none (void **state)
{
  begin (true, false);
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_ABSENT);
  assert_false (carpace_keys_portal_is_here (ours));
}

static void
one_that_comes_late_is_taken (void **state)
{
  begin (false, true);
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_ABSENT); /* that is the answer: nobody waits for it */
  portal_comes ();
  REACHES (is_state, CARPACE_KEYS_PORTAL_UNSET);
  assert_int_equal (fake.questions, 0);
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
}

static void
a_closed_session_is_made_anew (void **state)
{
  begin (true, true);
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
  close_session ();
  REACHES (has_sessions, 2);
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
  close_session ();
  REACHES (has_sessions, 3);
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
  close_session (); /* it closes them all: let be */
  REACHES (is_state, CARPACE_KEYS_PORTAL_UNSET);
  STAYS_WITHOUT (has_sessions, 4);
  assert_int_equal (fake.questions, 1);
}

static void
one_that_is_restarted_is_gone_on_with (void **state)
{
  char *path;

  begin (true, true);
  carpace_keys_portal_ask (portal);
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
  portal_goes ();
  REACHES (is_state, CARPACE_KEYS_PORTAL_ABSENT);
  portal_comes ();
  REACHES (is_state, CARPACE_KEYS_PORTAL_BOUND);
  assert_int_equal (fake.questions, 1);
  path = session_path ();
  press ("rate-0", path);
  g_free (path);
  REACHES (has_pressed, (int) strlen ("rate-0 "));
}

/* A dialogue that is open when its portal dies is answered: by no. */
static void
one_that_dies_while_it_asks_is_told (void **state)
{
  begin (true, true);
  REACHES (is_state, CARPACE_KEYS_PORTAL_UNSET);
  fake.is_silent = true;
  carpace_keys_portal_ask (portal);
  REACHES (has_questions, 1);
  carpace_keys_portal_ask (portal);
  int told = heard.told;
  portal_goes ();
  REACHES (has_told, told + 1);
  assert_int_equal (heard.state, CARPACE_KEYS_PORTAL_ABSENT);
  assert_int_equal (fake.questions, 1);
}

static void
the_end_may_come_at_any_time (void **state)
{
  for (int rounds = 0; rounds < 6; rounds++)
    {
      begin (true, true);
      carpace_keys_portal_ask (portal);
      for (int i = 0; i < rounds; i++)
        g_main_context_iteration (NULL, FALSE);
      g_clear_pointer (&portal, carpace_keys_portal_free);
      int told = heard.told;
      STAYS_WITHOUT (has_told, told + 1);
      tear_down (state);
    }
  begin (true, true);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_teardown (nothing_is_asked_before_the_player_asks, tear_down),
    cmocka_unit_test_teardown (all_are_asked_for_at_once_and_then_pressed, tear_down),
    cmocka_unit_test_teardown (what_was_granted_before_needs_no_question, tear_down),
    cmocka_unit_test_teardown (a_no_is_told_each_time, tear_down),
    cmocka_unit_test_teardown (a_yes_to_none_of_them_is_a_no, tear_down),
    cmocka_unit_test_teardown (a_session_that_is_refused_is_a_no, tear_down),
    cmocka_unit_test_teardown (a_portal_without_shortcuts_is_none, tear_down),
    cmocka_unit_test_teardown (one_that_comes_late_is_taken, tear_down),
    cmocka_unit_test_teardown (a_closed_session_is_made_anew, tear_down),
    cmocka_unit_test_teardown (one_that_is_restarted_is_gone_on_with, tear_down),
    cmocka_unit_test_teardown (one_that_dies_while_it_asks_is_told, tear_down),
    cmocka_unit_test_teardown (the_end_may_come_at_any_time, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
