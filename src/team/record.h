/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * record.h: records of a team as bytes, signed.
 *
 * A record has one form only. It is its kind (a byte), the number of its fields (a byte), and the fields in the order
 * of their table: a number as a variable-length one (seven bits a byte, the lowest first, signs folded in; as short as
 * can be), a key as its 32 bytes, a text and bytes with their length before them, as a number. A file is "CARPACE" and
 * the form's number (a byte, 1), one record, the number of signatures (a byte) and each of them: the key and 64 bytes
 * of Ed25519 (RFC 8032) of "carpace-team-signature-1" and all that stands before the number of signatures.
 */
#ifndef CARPACE_TEAM_RECORD_H
#define CARPACE_TEAM_RECORD_H

#include <glib.h>

#include "carpace/team.h"

/** What signs: an Ed25519 key and its secret, as libsodium has it (seed and public key). */
#define CARPACE_SIGNER_SECRET_BYTES 64
typedef struct
{
  CarpaceKey key;
  uint8_t secret[CARPACE_SIGNER_SECRET_BYTES];
} CarpaceSigner;

/** Signatures that one file has at most. */
#define CARPACE_SIGNATURES 2

/** Whose signatures a file has; each of them fits. */
typedef struct
{
  int32_t n;
  CarpaceKey by[CARPACE_SIGNATURES];
} CarpaceSignatures;

/** Adds @record (the struct of @kind) to @to. */
void carpace_record_write (CarpaceTeamKind kind, const void *record, GByteArray *to);

/** Reads one from the @n bytes at @from; what is bytes in *ret_record points into them.
 * @param ret_used how many of them it was
 * @return FINE, NEWER, OTHER_KIND, CUT or DAMAGED; *ret_record is whole where FINE only */
CarpaceTeamFault carpace_record_read (CarpaceTeamKind kind, const uint8_t *from, size_t n, void *ret_record,
                                      size_t *ret_used);

/** Whether two records of @kind (its struct) say the same, field by field. */
bool carpace_record_same (CarpaceTeamKind kind, const void *a, const void *b);

/** Whether @bytes may be a text of a record: UTF-8 with no character that is unfit for a name (carpace/character.h). */
bool carpace_record_is_text (const uint8_t *bytes, size_t n);

/** The values of an entry's fields, as CarpaceHandRow has them. */
void carpace_values_write (const CarpaceField *field, int32_t n_fields, const void *value, GByteArray *to);

/** Reads them. @return false where they are not what the table says */
bool carpace_values_read (const CarpaceField *field, int32_t n_fields, CarpaceTeamBytes from, void *value);

/** A file with @record, signed by each of @n_signers (0 to CARPACE_SIGNATURES). g_byte_array_unref() it */
GByteArray *carpace_signed_write (CarpaceTeamKind kind, const void *record, const CarpaceSigner *signer, int32_t n_signers);

/** Adds one more signature to the @n bytes of a file that carpace_signed_read() takes.
 * @return NULL where it does not, or there is no room for another */
GByteArray *carpace_signed_add (CarpaceTeamKind kind, const uint8_t *from, size_t n, const CarpaceSigner *signer);

/** Reads a file from a stranger. Every signature that it has must fit; whose they are is the caller's to judge.
 * @return FINE, FOREIGN, NEWER, OTHER_KIND, TOO_LARGE, CUT, DAMAGED or FORGED */
CarpaceTeamFault carpace_signed_read (CarpaceTeamKind kind, const uint8_t *from, size_t n, void *ret_record,
                                      CarpaceSignatures *ret_signatures);

/** The same of one that has to be signed by the key at @by of the record, and by nobody else: else OTHER_SIGNER. */
CarpaceTeamFault carpace_signed_read_own (CarpaceTeamKind kind, const uint8_t *from, size_t n, void *ret_record,
                                          const CarpaceKey *by);

/** Which kind a file says it is; -1 where it is no file of a team. */
int32_t carpace_signed_kind (const uint8_t *from, size_t n);

/** Whether @key is among those who signed. */
bool carpace_signed_by (const CarpaceSignatures *signatures, const CarpaceKey *key);

/** BLAKE2b, 256 bits. */
CarpaceKey carpace_team_hash (const void *bytes, size_t n);

#endif
