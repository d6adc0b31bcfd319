/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-keyring.c: a keyring is there while its service is on the bus; where there is none, nothing waits and nothing is started.
 * What it keeps is tried with the built program (cli/kept-phrase). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>

#include "keyring-libsecret.h"

static void
noted (GDBusConnection *bus, const char *name, gpointer user)
{
  *(int *) user = 1;
}

/* Would catch a box that is offered on a desktop without a keyring, and one that stays away where there is one. */
static void
it_is_there_while_its_service_is (void **state)
{
  CarpaceKeyring keyring = carpace_keyring_libsecret ();
  g_autoptr (GDBusConnection) bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  int owned = 0;
  guint name;
  g_autoptr (GVariant) released = NULL;

  assert_non_null (bus);
  assert_false (keyring.is_there ());
  name = g_bus_own_name_on_connection (bus, "org.freedesktop.secrets", G_BUS_NAME_OWNER_FLAGS_NONE, noted, NULL, &owned, NULL);
  while (owned == 0)
    g_main_context_iteration (NULL, TRUE);
  assert_true (keyring.is_there ());
  g_bus_unown_name (name);
  released = g_dbus_connection_call_sync (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "ReleaseName",
                                          g_variant_new ("(s)", "org.freedesktop.secrets"), NULL, G_DBUS_CALL_FLAGS_NONE, -1, NULL, NULL);
  assert_non_null (released); /* the bus has done both by then */
  assert_false (keyring.is_there ());
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (it_is_there_while_its_service_is) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
