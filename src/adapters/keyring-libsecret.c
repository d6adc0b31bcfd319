/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "keyring-libsecret.h"

#include <libsecret/secret.h>
#include <stdbool.h>

#define BUS_MS 2000

static const SecretSchema entry = { "org.carpace.Carpace.PassPhrase", SECRET_SCHEMA_NONE,
                                    { { "key", SECRET_SCHEMA_ATTRIBUTE_STRING }, { NULL, 0 } } };

static CarpaceKeyringEnd
keep (const char *key, const char *label, const char *phrase)
{
  return secret_password_store_sync (&entry, SECRET_COLLECTION_DEFAULT, label, phrase, NULL, NULL, "key", key, NULL)
         ? CARPACE_KEYRING_DONE : CARPACE_KEYRING_FAILED;
}

static CarpaceKeyringEnd
find (const char *key, char **ret_phrase)
{
  g_autoptr (GError) error = NULL;
  char *kept = secret_password_lookup_nonpageable_sync (&entry, NULL, &error, "key", key, NULL);

  if (kept == NULL)
    return error != NULL ? CARPACE_KEYRING_FAILED : CARPACE_KEYRING_NOTHING;
  *ret_phrase = g_strdup (kept);
  secret_password_free (kept);
  return CARPACE_KEYRING_DONE;
}

static CarpaceKeyringEnd
forget (const char *key)
{
  g_autoptr (GError) error = NULL;
  bool gone = secret_password_clear_sync (&entry, NULL, &error, "key", key, NULL);

  return gone ? CARPACE_KEYRING_DONE : error != NULL ? CARPACE_KEYRING_FAILED : CARPACE_KEYRING_NOTHING;
}

/* In a sandbox the library keeps a file of its own, by a secret of the portal's. */
static const char *
service (void)
{
  return g_file_test ("/.flatpak-info", G_FILE_TEST_EXISTS) ? "org.freedesktop.portal.Desktop" : "org.freedesktop.secrets";
}

static bool
is_listed (GDBusConnection *bus, const char *method)
{
  g_autoptr (GVariant) names = g_dbus_connection_call_sync (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", method,
                                                            NULL, G_VARIANT_TYPE ("(as)"), G_DBUS_CALL_FLAGS_NONE, BUS_MS, NULL, NULL);
  g_autofree const char **name = NULL;

  if (names == NULL)
    return false;
  g_variant_get (names, "(^a&s)", &name);
  return g_strv_contains (name, service ());
}

/* By the bus itself, which answers at once: that it runs, or could be started. */
static bool
is_there (void)
{
  g_autoptr (GDBusConnection) bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);

  return bus != NULL && (is_listed (bus, "ListNames") || is_listed (bus, "ListActivatableNames"));
}

CarpaceKeyring
carpace_keyring_libsecret (void)
{
  return (CarpaceKeyring) { is_there, keep, find, forget };
}
