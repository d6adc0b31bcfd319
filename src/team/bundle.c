/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/bundle.h"

#include <sodium.h>
#include <string.h>

#define PIECE 65536

_Static_assert (CARPACE_TEAM_SEALED_KEY == crypto_secretstream_xchacha20poly1305_KEYBYTES + crypto_box_SEALBYTES,
                "a file's key, sealed");

/* ---- sealing ---- */

static GByteArray *
seal_rows (const GByteArray *rows, const uint8_t *key)
{
  crypto_secretstream_xchacha20poly1305_state state;
  GByteArray *sealed = g_byte_array_new ();
  uint8_t piece[PIECE + crypto_secretstream_xchacha20poly1305_ABYTES];
  uint8_t head[crypto_secretstream_xchacha20poly1305_HEADERBYTES];
  size_t at = 0;
  bool last;

  crypto_secretstream_xchacha20poly1305_init_push (&state, head, key);
  g_byte_array_append (sealed, head, sizeof head);
  do
    {
      size_t n = MIN (rows->len - at, PIECE);
      unsigned long long written;

      last = at + n == rows->len;
      crypto_secretstream_xchacha20poly1305_push (&state, piece, &written, rows->data != NULL ? rows->data + at : NULL, n, NULL, 0,
                                                  last ? crypto_secretstream_xchacha20poly1305_TAG_FINAL : 0);
      g_byte_array_append (sealed, piece, (guint) written);
      at += n;
    }
  while (!last);
  sodium_memzero (&state, sizeof state);
  return sealed;
}

static GByteArray *
seal_key (const CarpaceBundling *bundling, const uint8_t *key)
{
  GByteArray *readers = g_byte_array_new ();

  for (int32_t i = 0; i < bundling->n_readers; i++)
    {
      uint8_t sealed[CARPACE_TEAM_SEALED_KEY];

      if (crypto_box_seal (sealed, key, crypto_secretstream_xchacha20poly1305_KEYBYTES, bundling->seal[i].byte) == 0)
        g_byte_array_append (readers, sealed, sizeof sealed);
    }
  return readers;
}

GByteArray *
carpace_bundle_write (const CarpaceBundling *bundling, CarpaceChain *chain)
{
  uint8_t key[crypto_secretstream_xchacha20poly1305_KEYBYTES];
  g_autoptr (GByteArray) content = NULL, readers = NULL;
  CarpaceBundle bundle = { .player = bundling->player, .kind = bundling->kind, .number = chain->number + 1,
                           .before = chain->last, .made_s = bundling->made_s,
                           .device = { bundling->device->data, bundling->device->len } };
  GByteArray *file;

  if (bundling->n_readers < 1 || bundling->n_readers > CARPACE_TEAM_READERS)
    return NULL;
  crypto_secretstream_xchacha20poly1305_keygen (key);
  content = seal_rows (bundling->rows, key);
  readers = seal_key (bundling, key);
  sodium_memzero (key, sizeof key);
  if (content->len > CARPACE_TEAM_CONTENT_MOST || readers->len == 0)
    return NULL;
  bundle.content = (CarpaceTeamBytes) { content->data, content->len };
  bundle.readers = (CarpaceTeamBytes) { readers->data, readers->len };
  file = carpace_signed_write (CARPACE_TEAM_BUNDLE, &bundle, bundling->signer, 1);
  *chain = (CarpaceChain) { .kind = bundle.kind, .number = bundle.number, .last = carpace_team_hash (file->data, file->len),
                            .made_s = bundle.made_s };
  return file;
}

/* ---- reading ---- */

CarpaceTeamFault
carpace_bundle_read (const uint8_t *from, size_t n, CarpaceBundleSeen *ret_seen)
{
  CarpaceSignatures signatures;
  CarpaceBundle *bundle = &ret_seen->bundle;
  CarpaceTeamFault fault = carpace_signed_read (CARPACE_TEAM_BUNDLE, from, n, bundle, &signatures);

  if (fault != CARPACE_TEAM_FINE)
    return fault;
  fault = carpace_device_read (bundle->device.byte, bundle->device.n, &ret_seen->device);
  if (fault != CARPACE_TEAM_FINE)
    return fault;
  if (signatures.n != 1 || !carpace_signed_by (&signatures, &ret_seen->device.device)
      || !carpace_key_equal (&ret_seen->device.person, &bundle->player))
    return CARPACE_TEAM_OTHER_SIGNER;
  if (bundle->readers.n == 0 || bundle->readers.n % CARPACE_TEAM_SEALED_KEY != 0)
    return CARPACE_TEAM_DAMAGED;
  ret_seen->hash = carpace_team_hash (from, n);
  return CARPACE_TEAM_FINE;
}

CarpaceTeamFault
carpace_bundle_follows (const CarpaceBundleSeen *seen, const CarpaceChain *last, int64_t now_s, int64_t *ret_missing)
{
  const CarpaceBundle *bundle = &seen->bundle;

  *ret_missing = 0;
  if (bundle->made_s > now_s + CARPACE_TEAM_CLOCKS_APART_S)
    return CARPACE_TEAM_AHEAD;
  if (last->number == 0)
    return CARPACE_TEAM_FINE;
  if (bundle->number <= last->number)
    return bundle->number == last->number && carpace_key_equal (&seen->hash, &last->last) ? CARPACE_TEAM_FINE
                                                                                          : CARPACE_TEAM_ROLLED_BACK;
  if (bundle->number == last->number + 1 && !carpace_key_equal (&bundle->before, &last->last))
    return CARPACE_TEAM_FORKED;
  *ret_missing = bundle->number - last->number - 1;
  return CARPACE_TEAM_FINE;
}

/* ---- opening ---- */

static bool
find_key (const CarpaceTeamBytes *readers, const CarpacePerson *reader, uint8_t *ret_key)
{
  for (size_t at = 0; at + CARPACE_TEAM_SEALED_KEY <= readers->n; at += CARPACE_TEAM_SEALED_KEY)
    if (crypto_box_seal_open (ret_key, readers->byte + at, CARPACE_TEAM_SEALED_KEY, reader->seal.byte,
                              reader->seal_secret) == 0)
      return true;
  return false;
}

/* @return false where a piece does not fit, or the last one is missing */
static bool
open_pieces (crypto_secretstream_xchacha20poly1305_state *state, const CarpaceTeamBytes *content, uint8_t piece[PIECE], GByteArray *rows)
{
  const size_t more = crypto_secretstream_xchacha20poly1305_ABYTES;
  uint8_t tag = 0;

  for (size_t at = crypto_secretstream_xchacha20poly1305_HEADERBYTES, n; at < content->n; at += n)
    {
      unsigned long long opened;

      n = MIN (content->n - at, PIECE + more);
      if (n < more || tag == crypto_secretstream_xchacha20poly1305_TAG_FINAL
          || crypto_secretstream_xchacha20poly1305_pull (state, piece, &opened, &tag, content->byte + at, n, NULL, 0) != 0)
        return false;
      g_byte_array_append (rows, piece, (guint) opened);
    }
  return tag == crypto_secretstream_xchacha20poly1305_TAG_FINAL;
}

static bool
open_rows (const CarpaceTeamBytes *content, const uint8_t *key, GByteArray *rows)
{
  crypto_secretstream_xchacha20poly1305_state state;
  uint8_t piece[PIECE];
  bool opened;

  if (content->n < crypto_secretstream_xchacha20poly1305_HEADERBYTES
      || crypto_secretstream_xchacha20poly1305_init_pull (&state, content->byte, key) != 0)
    return false;
  g_byte_array_set_size (rows, (guint) content->n); /* room at once: what grows leaves copies behind */
  g_byte_array_set_size (rows, 0);
  opened = open_pieces (&state, content, piece, rows);
  carpace_wipe (piece, sizeof piece);
  carpace_wipe (&state, sizeof state);
  return opened;
}

CarpaceTeamFault
carpace_bundle_open (const CarpaceBundleSeen *seen, const CarpacePerson *reader, GByteArray **ret_rows)
{
  uint8_t key[crypto_secretstream_xchacha20poly1305_KEYBYTES];
  GByteArray *rows;
  bool opened;

  if (!find_key (&seen->bundle.readers, reader, key))
    return CARPACE_TEAM_NOT_FOR_YOU;
  rows = g_byte_array_new ();
  opened = open_rows (&seen->bundle.content, key, rows);
  sodium_memzero (key, sizeof key);
  if (!opened)
    {
      carpace_wipe_file (rows);
      return CARPACE_TEAM_DAMAGED;
    }
  *ret_rows = rows;
  return CARPACE_TEAM_FINE;
}
