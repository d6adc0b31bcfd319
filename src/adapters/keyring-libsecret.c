/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "keyring-libsecret.h"

#include <libsecret/secret.h>
#include <stdbool.h>

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

CarpaceKeyring
carpace_keyring_libsecret (void)
{
  return (CarpaceKeyring) { keep, find, forget };
}
