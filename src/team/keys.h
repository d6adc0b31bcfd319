/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * keys.h: a person's keys, and a device's.
 *
 * A person has one secret of 32 bytes, from which both keys come (libsodium's key derivation, BLAKE2b: context
 * "carpteam", 1 the seed of the Ed25519 key, 2 that of the X25519 key). It lies in its file under a pass phrase:
 * Argon2id (RFC 9106), then XSalsa20-Poly1305. A device has an Ed25519 key only, and nothing but its file's mode
 * guards it: it signs bundles each day without asking, and can neither grant nor open what others share. A note to its
 * player is sealed to it (the X25519 form of its key, as libsodium converts it), so that it is read without a pass phrase.
 */
#ifndef CARPACE_TEAM_KEYS_H
#define CARPACE_TEAM_KEYS_H

#include "team/record.h"

#define CARPACE_PERSON_SECRET_BYTES 32

/** A person's keys with their secrets: carpace_person_wipe() when done. */
typedef struct
{
  uint8_t secret[CARPACE_PERSON_SECRET_BYTES];
  CarpaceSigner signer;
  CarpaceKey seal;
  uint8_t seal_secret[CARPACE_KEY_BYTES];
} CarpacePerson;

/** Makes libsodium ready; before anything else here. @return false where the system has no random numbers */
bool carpace_team_ready (void);

/** Makes @n bytes zero, so that no compiler leaves it out; of a file (may be NULL) all, and lets go of it. */
void carpace_wipe (void *secret, size_t n);
void carpace_wipe_file (GByteArray *file);

/** A new person, by chance; the one of a secret. */
void carpace_person_new (CarpacePerson *ret_person);
void carpace_person_of (const uint8_t secret[CARPACE_PERSON_SECRET_BYTES], CarpacePerson *ret_person);
void carpace_person_wipe (CarpacePerson *person);

/** A signer by chance; the one of a seed of RFC 8032. */
void carpace_signer_new (CarpaceSigner *ret_signer);
void carpace_signer_of (const uint8_t seed[CARPACE_KEY_BYTES], CarpaceSigner *ret_signer);
void carpace_signer_wipe (CarpaceSigner *signer);

/** How hard a pass phrase is to try: libsodium's moderate (256 MiB, three passes; under a second), and its least, for tests. */
typedef enum { CARPACE_LOCK_MODERATE, CARPACE_LOCK_LEAST } CarpaceLock;

/** The file of @person, locked by @phrase. NULL where there is no memory for it. */
GByteArray *carpace_person_lock (const CarpacePerson *person, const char *phrase, CarpaceLock lock);

/** Opens it. @return FINE, WRONG_PHRASE, NO_MEMORY, or what is wrong with the file */
CarpaceTeamFault carpace_person_unlock (const uint8_t *from, size_t n, const char *phrase, CarpacePerson *ret_person);

/** The file of a device's secret, to be kept 0600, and the signer in it. */
GByteArray *carpace_signer_write (const CarpaceSigner *signer);
CarpaceTeamFault carpace_signer_read (const uint8_t *from, size_t n, CarpaceSigner *ret_signer);

/** The key that a note to a device of @key is sealed to; the secret that opens it, to be wiped.
 * @return false where @key is none */
bool carpace_signer_seal (const CarpaceKey *key, CarpaceKey *ret_seal);
bool carpace_signer_seal_secret (const CarpaceSigner *signer, CarpaceKey *ret_seal, uint8_t ret_secret[CARPACE_KEY_BYTES]);

/** The card of @person, signed by them; reads one. @return as carpace_signed_read(), or OTHER_SIGNER */
GByteArray *carpace_card_write (const CarpacePerson *person, const char *name, CarpaceRole role, int64_t made_s);
CarpaceTeamFault carpace_card_read (const uint8_t *from, size_t n, CarpaceCard *ret_card);

/** The person's word on a device; reads one: it must be signed by the person in it. */
GByteArray *carpace_device_write (const CarpacePerson *person, const CarpaceKey *device, int64_t made_s);
CarpaceTeamFault carpace_device_read (const uint8_t *from, size_t n, CarpaceDevice *ret_device);

/** The key of @after in place of that of @before, signed by @before alone: it counts once the other signed, too. */
GByteArray *carpace_heir_name (const CarpacePerson *before, const CarpaceCard *after, int64_t made_s);

/** The second signature, by the one who is named. @return as carpace_signed_read(), NOT_FOR_YOU where that is somebody else, or
 * OTHER_SIGNER where it is not signed by the one before, or by both already; else FINE and the file */
CarpaceTeamFault carpace_heir_countersign (const uint8_t *from, size_t n, const CarpacePerson *after, GByteArray **ret_file);

/** Another key in place of @before, signed by both; reads one. */
GByteArray *carpace_heir_write (const CarpacePerson *before, const CarpacePerson *after, int64_t made_s);
CarpaceTeamFault carpace_heir_read (const uint8_t *from, size_t n, CarpaceHeir *ret_heir);

#endif
