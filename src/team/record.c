/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/record.h"

#include <sodium.h>
#include <string.h>

#include "carpace/character.h"

#define FORM 1
#define NUMBER_BYTES 10 /* of a variable-length number, at most */

static const char magic[] = "CARPACE";
static const char context[] = "carpace-team-signature-1";

#define HEAD (sizeof magic) /* the form's number stands where the text ends */
#define SIGNATURE (CARPACE_KEY_BYTES + crypto_sign_BYTES)

/* ---- numbers ---- */

static void
write_number (int64_t number, GByteArray *to)
{
  uint64_t left = ((uint64_t) number << 1) ^ (number < 0 ? UINT64_MAX : 0);

  do
    {
      uint8_t byte = (uint8_t) (left & 127) | (left > 127 ? 128 : 0);

      g_byte_array_append (to, &byte, 1);
      left >>= 7;
    }
  while (left > 0);
}

typedef struct
{
  const uint8_t *at;
  size_t left;
} Reader;

static CarpaceTeamFault
read_number (Reader *reader, int64_t *ret_number)
{
  uint64_t number = 0;

  for (int i = 0; i < NUMBER_BYTES; i++)
    {
      uint8_t byte;

      if (reader->left == 0)
        return CARPACE_TEAM_CUT;
      byte = *reader->at++;
      reader->left--;
      if (i == NUMBER_BYTES - 1 && byte > 1)
        return CARPACE_TEAM_DAMAGED; /* more than 64 bits */
      number |= (uint64_t) (byte & 127) << (7 * i);
      if (byte > 127)
        continue;
      if (byte == 0 && i > 0)
        return CARPACE_TEAM_DAMAGED; /* there is a shorter way to write it */
      *ret_number = (int64_t) ((number >> 1) ^ ((number & 1) != 0 ? UINT64_MAX : 0));
      return CARPACE_TEAM_FINE;
    }
  return CARPACE_TEAM_DAMAGED;
}

static CarpaceTeamFault
read_bytes (Reader *reader, size_t n, const uint8_t **ret_bytes)
{
  if (reader->left < n)
    return CARPACE_TEAM_CUT;
  *ret_bytes = reader->at;
  reader->at += n;
  reader->left -= n;
  return CARPACE_TEAM_FINE;
}

/* ---- fields ---- */

static void
write_long (const void *bytes, size_t n, GByteArray *to)
{
  write_number ((int64_t) n, to);
  g_byte_array_append (to, bytes, (guint) n);
}

static void
write_field (const CarpaceTeamField *field, const void *record, GByteArray *to)
{
  const char *place = (const char *) record + field->field.offset;

  switch (field->shape)
    {
    case CARPACE_TEAM_NUMBER:
      write_number (carpace_field_get (&field->field, record), to);
      break;
    case CARPACE_TEAM_KEY:
      g_byte_array_append (to, (const uint8_t *) place, CARPACE_KEY_BYTES);
      break;
    case CARPACE_TEAM_TEXT:
      write_long (place, strlen (place), to);
      break;
    case CARPACE_TEAM_BYTES:
      {
        CarpaceTeamBytes bytes;

        memcpy (&bytes, place, sizeof bytes);
        write_long (bytes.byte != NULL ? bytes.byte : (const uint8_t *) "", bytes.n, to);
        break;
      }
    }
}

void
carpace_record_write (CarpaceTeamKind kind, const void *record, GByteArray *to)
{
  int32_t n;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n, NULL);
  const uint8_t head[] = { (uint8_t) kind, (uint8_t) n };

  g_byte_array_append (to, head, sizeof head);
  for (int32_t i = 0; i < n; i++)
    write_field (&field[i], record, to);
}

bool
carpace_record_is_text (const uint8_t *bytes, size_t n)
{
  const char *at = (const char *) bytes, *end = at + n;

  if (!g_utf8_validate (at, (gssize) n, NULL))
    return false;
  while (at < end && !carpace_character_is_unfit (g_utf8_get_char (at), false))
    at = g_utf8_next_char (at);
  return at == end;
}

static CarpaceTeamFault
read_long (Reader *reader, size_t most, CarpaceTeamBytes *ret_bytes)
{
  int64_t n;
  CarpaceTeamFault fault = read_number (reader, &n);

  if (fault != CARPACE_TEAM_FINE)
    return fault;
  if (n < 0 || (uint64_t) n > most)
    return CARPACE_TEAM_DAMAGED;
  ret_bytes->n = (size_t) n;
  return read_bytes (reader, (size_t) n, &ret_bytes->byte);
}

static CarpaceTeamFault
read_field (Reader *reader, const CarpaceTeamField *field, void *record)
{
  char *place = (char *) record + field->field.offset;
  CarpaceTeamBytes bytes = { NULL, 0 };
  CarpaceTeamFault fault;
  int64_t number;

  switch (field->shape)
    {
    case CARPACE_TEAM_NUMBER:
      fault = read_number (reader, &number);
      if (fault == CARPACE_TEAM_FINE && !carpace_field_set (&field->field, record, number))
        fault = CARPACE_TEAM_DAMAGED;
      return fault;
    case CARPACE_TEAM_KEY:
      fault = read_bytes (reader, CARPACE_KEY_BYTES, &bytes.byte);
      if (fault == CARPACE_TEAM_FINE)
        memcpy (place, bytes.byte, CARPACE_KEY_BYTES);
      return fault;
    case CARPACE_TEAM_TEXT:
      fault = read_long (reader, field->most, &bytes);
      if (fault == CARPACE_TEAM_FINE && !carpace_record_is_text (bytes.byte, bytes.n))
        fault = CARPACE_TEAM_DAMAGED;
      if (fault == CARPACE_TEAM_FINE)
        memcpy (place, bytes.byte, bytes.n); /* the rest of it is zero */
      return fault;
    case CARPACE_TEAM_BYTES:
      fault = read_long (reader, field->most, &bytes);
      if (fault == CARPACE_TEAM_FINE)
        memcpy (place, &bytes, sizeof bytes);
      return fault;
    }
  return CARPACE_TEAM_DAMAGED;
}

CarpaceTeamFault
carpace_record_read (CarpaceTeamKind kind, const uint8_t *from, size_t n, void *ret_record, size_t *ret_used)
{
  int32_t n_fields;
  size_t size;
  const CarpaceTeamField *field = carpace_team_fields (kind, &n_fields, &size);
  Reader reader = { from, n };
  const uint8_t *head;

  memset (ret_record, 0, size);
  if (read_bytes (&reader, 2, &head) != CARPACE_TEAM_FINE)
    return CARPACE_TEAM_CUT;
  if (head[0] != kind)
    return head[0] < CARPACE_N_TEAM_KINDS ? CARPACE_TEAM_OTHER_KIND : CARPACE_TEAM_NEWER;
  if (head[1] != n_fields)
    return head[1] > n_fields ? CARPACE_TEAM_NEWER : CARPACE_TEAM_DAMAGED;
  for (int32_t i = 0; i < n_fields; i++)
    {
      CarpaceTeamFault fault = read_field (&reader, &field[i], ret_record);

      if (fault != CARPACE_TEAM_FINE)
        return fault;
    }
  *ret_used = n - reader.left;
  return CARPACE_TEAM_FINE;
}

bool
carpace_record_same (CarpaceTeamKind kind, const void *a, const void *b)
{
  g_autoptr (GByteArray) one = g_byte_array_new (), other = g_byte_array_new ();

  carpace_record_write (kind, a, one);
  carpace_record_write (kind, b, other);
  return one->len == other->len && memcmp (one->data, other->data, one->len) == 0;
}

void
carpace_values_write (const CarpaceField *field, int32_t n_fields, const void *value, GByteArray *to)
{
  for (int32_t i = 0; i < n_fields; i++)
    write_number (carpace_field_get (&field[i], value), to);
}

bool
carpace_values_read (const CarpaceField *field, int32_t n_fields, CarpaceTeamBytes from, void *value)
{
  Reader reader = { from.byte, from.n };
  int64_t number;

  for (int32_t i = 0; i < n_fields; i++)
    {
      if (reader.left == 0 && field[i].later)
        return true; /* an older Carpace did not have the rest */
      if (read_number (&reader, &number) != CARPACE_TEAM_FINE || !carpace_field_set (&field[i], value, number))
        return false;
    }
  return reader.left == 0;
}

/* ---- files ---- */

static GByteArray *
said (const uint8_t *bytes, size_t n)
{
  GByteArray *message = g_byte_array_new ();

  g_byte_array_append (message, (const uint8_t *) context, sizeof context - 1);
  g_byte_array_append (message, bytes, (guint) n);
  return message;
}

static void
sign (const CarpaceSigner *signer, const GByteArray *message, GByteArray *to)
{
  uint8_t signature[crypto_sign_BYTES];

  crypto_sign_detached (signature, NULL, message->data, message->len, signer->secret);
  g_byte_array_append (to, signer->key.byte, CARPACE_KEY_BYTES);
  g_byte_array_append (to, signature, sizeof signature);
}

GByteArray *
carpace_signed_write (CarpaceTeamKind kind, const void *record, const CarpaceSigner *signer, int32_t n_signers)
{
  GByteArray *file = g_byte_array_new ();
  g_autoptr (GByteArray) message = NULL;
  const uint8_t form = FORM, count = (uint8_t) n_signers;

  g_byte_array_append (file, (const uint8_t *) magic, sizeof magic - 1);
  g_byte_array_append (file, &form, 1);
  carpace_record_write (kind, record, file);
  message = said (file->data, file->len);
  g_byte_array_append (file, &count, 1);
  for (int32_t i = 0; i < n_signers; i++)
    sign (&signer[i], message, file);
  return file;
}

/* Where a file's signatures begin: the byte that counts them. */
static CarpaceTeamFault
find_signatures (const uint8_t *from, size_t n, size_t at, int32_t *ret_n)
{
  if (at >= n)
    return CARPACE_TEAM_CUT;
  if (from[at] > CARPACE_SIGNATURES)
    return CARPACE_TEAM_DAMAGED;
  *ret_n = from[at];
  if (n - at - 1 < (size_t) *ret_n * SIGNATURE)
    return CARPACE_TEAM_CUT;
  return n - at - 1 == (size_t) *ret_n * SIGNATURE ? CARPACE_TEAM_FINE : CARPACE_TEAM_DAMAGED;
}

static CarpaceTeamFault
check_signatures (const uint8_t *from, size_t at, CarpaceSignatures *signatures)
{
  g_autoptr (GByteArray) message = signatures->n > 0 ? said (from, at) : NULL;

  for (int32_t i = 0; i < signatures->n; i++)
    {
      const uint8_t *signature = from + at + 1 + (size_t) i * SIGNATURE;

      memcpy (signatures->by[i].byte, signature, CARPACE_KEY_BYTES);
      if (crypto_sign_verify_detached (signature + CARPACE_KEY_BYTES, message->data, message->len, signature) != 0)
        return CARPACE_TEAM_FORGED;
    }
  return CARPACE_TEAM_FINE;
}

int32_t
carpace_signed_kind (const uint8_t *from, size_t n)
{
  bool ours = n > HEAD && memcmp (from, magic, HEAD - 1) == 0 && from[HEAD] < CARPACE_N_TEAM_KINDS;

  return ours ? from[HEAD] : -1;
}

/* *@ret_at: where its signatures begin. */
static CarpaceTeamFault
read_file (CarpaceTeamKind kind, const uint8_t *from, size_t n, void *record, CarpaceSignatures *signatures, size_t *ret_at)
{
  CarpaceTeamFault fault;
  size_t used;

  if (n > CARPACE_TEAM_FILE_MOST)
    return CARPACE_TEAM_TOO_LARGE;
  if (n == 0 || memcmp (from, magic, MIN (n, HEAD - 1)) != 0)
    return CARPACE_TEAM_FOREIGN;
  if (n < HEAD)
    return CARPACE_TEAM_CUT;
  if (from[HEAD - 1] != FORM)
    return from[HEAD - 1] > FORM ? CARPACE_TEAM_NEWER : CARPACE_TEAM_DAMAGED;
  fault = carpace_record_read (kind, from + HEAD, n - HEAD, record, &used);
  if (fault != CARPACE_TEAM_FINE)
    return fault;
  *ret_at = HEAD + used;
  fault = find_signatures (from, n, *ret_at, &signatures->n);
  return fault == CARPACE_TEAM_FINE ? check_signatures (from, *ret_at, signatures) : fault;
}

CarpaceTeamFault
carpace_signed_read (CarpaceTeamKind kind, const uint8_t *from, size_t n, void *ret_record,
                     CarpaceSignatures *ret_signatures)
{
  size_t at, size;
  int32_t n_fields;
  CarpaceTeamFault fault;

  carpace_team_fields (kind, &n_fields, &size);
  memset (ret_record, 0, size);
  memset (ret_signatures, 0, sizeof *ret_signatures);
  fault = read_file (kind, from, n, ret_record, ret_signatures, &at);
  if (fault != CARPACE_TEAM_FINE)
    {
      memset (ret_record, 0, size);
      memset (ret_signatures, 0, sizeof *ret_signatures);
    }
  return fault;
}

CarpaceTeamFault
carpace_signed_read_own (CarpaceTeamKind kind, const uint8_t *from, size_t n, void *ret_record, const CarpaceKey *by)
{
  CarpaceSignatures signatures;
  CarpaceTeamFault fault = carpace_signed_read (kind, from, n, ret_record, &signatures);

  if (fault == CARPACE_TEAM_FINE && (signatures.n != 1 || !carpace_signed_by (&signatures, by)))
    fault = CARPACE_TEAM_OTHER_SIGNER;
  return fault;
}

GByteArray *
carpace_signed_add (CarpaceTeamKind kind, const uint8_t *from, size_t n, const CarpaceSigner *signer)
{
  CarpaceSignatures signatures = { .n = 0 };
  g_autoptr (GByteArray) message = NULL;
  g_autofree void *record = NULL;
  GByteArray *file;
  size_t at, size;
  int32_t n_fields;

  carpace_team_fields (kind, &n_fields, &size);
  record = g_malloc0 (size);
  if (read_file (kind, from, n, record, &signatures, &at) != CARPACE_TEAM_FINE || signatures.n >= CARPACE_SIGNATURES)
    return NULL;
  file = g_byte_array_new ();
  g_byte_array_append (file, from, (guint) n);
  file->data[at]++;
  message = said (from, at);
  sign (signer, message, file);
  return file;
}

bool
carpace_signed_by (const CarpaceSignatures *signatures, const CarpaceKey *key)
{
  for (int32_t i = 0; i < signatures->n; i++)
    if (carpace_key_equal (&signatures->by[i], key))
      return true;
  return false;
}

CarpaceKey
carpace_team_hash (const void *bytes, size_t n)
{
  CarpaceKey hash;

  crypto_generichash (hash.byte, sizeof hash.byte, bytes, n, NULL, 0);
  return hash;
}
