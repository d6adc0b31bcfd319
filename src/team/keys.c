/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/keys.h"

#include <sodium.h>
#include <string.h>

static const char kdf_context[] = "carpteam";
static const char device_magic[] = "CARPACE-DEVICE-1";

_Static_assert (sizeof kdf_context - 1 == crypto_kdf_CONTEXTBYTES, "libsodium's context");
_Static_assert (CARPACE_SIGNER_SECRET_BYTES == crypto_sign_SECRETKEYBYTES, "libsodium's secret");
_Static_assert (CARPACE_PERSON_SECRET_BYTES == crypto_kdf_KEYBYTES, "what keys come from");

bool
carpace_team_ready (void)
{
  return sodium_init () >= 0;
}

void
carpace_wipe (void *secret, size_t n)
{
  sodium_memzero (secret, n);
}

void
carpace_wipe_file (GByteArray *file)
{
  if (file == NULL)
    return;
  sodium_memzero (file->data, file->len);
  g_byte_array_unref (file);
}

void
carpace_signer_of (const uint8_t seed[CARPACE_KEY_BYTES], CarpaceSigner *ret_signer)
{
  crypto_sign_seed_keypair (ret_signer->key.byte, ret_signer->secret, seed);
}

void
carpace_signer_new (CarpaceSigner *ret_signer)
{
  crypto_sign_keypair (ret_signer->key.byte, ret_signer->secret);
}

void
carpace_signer_wipe (CarpaceSigner *signer)
{
  sodium_memzero (signer, sizeof *signer);
}

void
carpace_person_of (const uint8_t secret[CARPACE_PERSON_SECRET_BYTES], CarpacePerson *ret_person)
{
  uint8_t seed[CARPACE_KEY_BYTES];

  memcpy (ret_person->secret, secret, CARPACE_PERSON_SECRET_BYTES);
  crypto_kdf_derive_from_key (seed, sizeof seed, 1, kdf_context, secret);
  carpace_signer_of (seed, &ret_person->signer);
  crypto_kdf_derive_from_key (ret_person->seal_secret, sizeof ret_person->seal_secret, 2, kdf_context, secret);
  crypto_scalarmult_base (ret_person->seal.byte, ret_person->seal_secret);
  sodium_memzero (seed, sizeof seed);
}

void
carpace_person_new (CarpacePerson *ret_person)
{
  uint8_t secret[CARPACE_PERSON_SECRET_BYTES];

  crypto_kdf_keygen (secret);
  carpace_person_of (secret, ret_person);
  sodium_memzero (secret, sizeof secret);
}

void
carpace_person_wipe (CarpacePerson *person)
{
  sodium_memzero (person, sizeof *person);
}

/* ---- a pass phrase ---- */

static bool
key_of (const char *phrase, const CarpaceLocked *locked, uint8_t ret_key[crypto_secretbox_KEYBYTES])
{
  return crypto_pwhash (ret_key, crypto_secretbox_KEYBYTES, phrase, strlen (phrase), locked->salt.byte,
                        (unsigned long long) locked->passes, (size_t) locked->memory_bytes,
                        crypto_pwhash_ALG_ARGON2ID13) == 0;
}

GByteArray *
carpace_person_lock (const CarpacePerson *person, const char *phrase, CarpaceLock lock)
{
  uint8_t salt[crypto_pwhash_SALTBYTES], nonce[crypto_secretbox_NONCEBYTES], key[crypto_secretbox_KEYBYTES];
  uint8_t box[CARPACE_PERSON_SECRET_BYTES + crypto_secretbox_MACBYTES];
  CarpaceLocked locked = {
    .passes = lock == CARPACE_LOCK_LEAST ? crypto_pwhash_OPSLIMIT_MIN : crypto_pwhash_OPSLIMIT_MODERATE,
    .memory_bytes = lock == CARPACE_LOCK_LEAST ? crypto_pwhash_MEMLIMIT_MIN : crypto_pwhash_MEMLIMIT_MODERATE,
    .salt = { salt, sizeof salt }, .nonce = { nonce, sizeof nonce }, .box = { box, sizeof box },
  };
  GByteArray *file = NULL;

  randombytes_buf (salt, sizeof salt);
  randombytes_buf (nonce, sizeof nonce);
  if (key_of (phrase, &locked, key))
    {
      crypto_secretbox_easy (box, person->secret, sizeof person->secret, nonce, key);
      file = carpace_signed_write (CARPACE_TEAM_LOCKED, &locked, NULL, 0);
    }
  sodium_memzero (key, sizeof key);
  return file;
}

CarpaceTeamFault
carpace_person_unlock (const uint8_t *from, size_t n, const char *phrase, CarpacePerson *ret_person)
{
  CarpaceLocked locked;
  CarpaceSignatures none;
  CarpaceTeamFault fault = carpace_signed_read (CARPACE_TEAM_LOCKED, from, n, &locked, &none);
  uint8_t key[crypto_secretbox_KEYBYTES], secret[CARPACE_PERSON_SECRET_BYTES];

  if (fault != CARPACE_TEAM_FINE)
    return fault;
  if (locked.salt.n != crypto_pwhash_SALTBYTES || locked.nonce.n != crypto_secretbox_NONCEBYTES
      || locked.box.n != sizeof secret + crypto_secretbox_MACBYTES)
    return CARPACE_TEAM_DAMAGED;
  if (!key_of (phrase, &locked, key))
    return CARPACE_TEAM_NO_MEMORY;
  fault = crypto_secretbox_open_easy (secret, locked.box.byte, locked.box.n, locked.nonce.byte, key) == 0
            ? CARPACE_TEAM_FINE : CARPACE_TEAM_WRONG_PHRASE;
  if (fault == CARPACE_TEAM_FINE)
    carpace_person_of (secret, ret_person);
  sodium_memzero (key, sizeof key);
  sodium_memzero (secret, sizeof secret);
  return fault;
}

/* ---- a device's secret ---- */

GByteArray *
carpace_signer_write (const CarpaceSigner *signer)
{
  GByteArray *file = g_byte_array_new ();

  g_byte_array_append (file, (const uint8_t *) device_magic, sizeof device_magic - 1);
  g_byte_array_append (file, signer->secret, crypto_sign_SEEDBYTES); /* the seed comes first */
  return file;
}

CarpaceTeamFault
carpace_signer_read (const uint8_t *from, size_t n, CarpaceSigner *ret_signer)
{
  if (n < sizeof device_magic - 1 || memcmp (from, device_magic, sizeof device_magic - 1) != 0)
    return CARPACE_TEAM_FOREIGN;
  if (n != sizeof device_magic - 1 + crypto_sign_SEEDBYTES)
    return n < sizeof device_magic - 1 + crypto_sign_SEEDBYTES ? CARPACE_TEAM_CUT : CARPACE_TEAM_DAMAGED;
  carpace_signer_of (from + sizeof device_magic - 1, ret_signer);
  return CARPACE_TEAM_FINE;
}

bool
carpace_signer_seal (const CarpaceKey *key, CarpaceKey *ret_seal)
{
  return crypto_sign_ed25519_pk_to_curve25519 (ret_seal->byte, key->byte) == 0;
}

bool
carpace_signer_seal_secret (const CarpaceSigner *signer, CarpaceKey *ret_seal, uint8_t ret_secret[CARPACE_KEY_BYTES])
{
  return crypto_sign_ed25519_sk_to_curve25519 (ret_secret, signer->secret) == 0 && carpace_signer_seal (&signer->key, ret_seal);
}

/* ---- what a person says of keys ---- */

GByteArray *
carpace_card_write (const CarpacePerson *person, const char *name, CarpaceRole role, int64_t made_s)
{
  CarpaceCard card = { .role = role, .sign = person->signer.key, .seal = person->seal, .made_s = made_s };

  g_strlcpy (card.name, name, sizeof card.name);
  return carpace_signed_write (CARPACE_TEAM_CARD, &card, &person->signer, 1);
}

CarpaceTeamFault
carpace_card_read (const uint8_t *from, size_t n, CarpaceCard *ret_card)
{
  return carpace_signed_read_own (CARPACE_TEAM_CARD, from, n, ret_card, &ret_card->sign);
}

GByteArray *
carpace_device_write (const CarpacePerson *person, const CarpaceKey *device, int64_t made_s)
{
  const CarpaceDevice word = { .person = person->signer.key, .device = *device, .made_s = made_s };

  return carpace_signed_write (CARPACE_TEAM_DEVICE, &word, &person->signer, 1);
}

CarpaceTeamFault
carpace_device_read (const uint8_t *from, size_t n, CarpaceDevice *ret_device)
{
  return carpace_signed_read_own (CARPACE_TEAM_DEVICE, from, n, ret_device, &ret_device->person);
}

GByteArray *
carpace_heir_name (const CarpacePerson *before, const CarpaceCard *after, int64_t made_s)
{
  const CarpaceHeir heir = { .before = before->signer.key, .sign = after->sign, .seal = after->seal, .made_s = made_s };

  return carpace_signed_write (CARPACE_TEAM_HEIR, &heir, &before->signer, 1);
}

CarpaceTeamFault
carpace_heir_countersign (const uint8_t *from, size_t n, const CarpacePerson *after, GByteArray **ret_file)
{
  CarpaceSignatures signatures;
  CarpaceHeir heir;
  CarpaceTeamFault fault = carpace_signed_read (CARPACE_TEAM_HEIR, from, n, &heir, &signatures);

  if (fault != CARPACE_TEAM_FINE)
    return fault;
  if (!carpace_key_equal (&heir.sign, &after->signer.key) || !carpace_key_equal (&heir.seal, &after->seal))
    return CARPACE_TEAM_NOT_FOR_YOU;
  if (signatures.n != 1 || !carpace_signed_by (&signatures, &heir.before))
    return CARPACE_TEAM_OTHER_SIGNER;
  *ret_file = carpace_signed_add (CARPACE_TEAM_HEIR, from, n, &after->signer);
  return CARPACE_TEAM_FINE;
}

GByteArray *
carpace_heir_write (const CarpacePerson *before, const CarpacePerson *after, int64_t made_s)
{
  const CarpaceHeir heir = { .before = before->signer.key, .sign = after->signer.key, .seal = after->seal, .made_s = made_s };
  CarpaceSigner both[] = { before->signer, after->signer };
  GByteArray *file = carpace_signed_write (CARPACE_TEAM_HEIR, &heir, both, 2);

  carpace_wipe (both, sizeof both);
  return file;
}

CarpaceTeamFault
carpace_heir_read (const uint8_t *from, size_t n, CarpaceHeir *ret_heir)
{
  CarpaceSignatures signatures;
  CarpaceTeamFault fault = carpace_signed_read (CARPACE_TEAM_HEIR, from, n, ret_heir, &signatures);

  if (fault == CARPACE_TEAM_FINE
      && !(carpace_signed_by (&signatures, &ret_heir->before) && carpace_signed_by (&signatures, &ret_heir->sign)))
    fault = CARPACE_TEAM_OTHER_SIGNER;
  return fault;
}
