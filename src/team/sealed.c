/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/sealed.h"

#include <sodium.h>

#include "team/keys.h"

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
seal_key (const CarpaceKey *seal, int32_t n, const uint8_t *key)
{
  GByteArray *readers = g_byte_array_new ();

  for (int32_t i = 0; i < n; i++)
    {
      uint8_t sealed[CARPACE_TEAM_SEALED_KEY];

      if (crypto_box_seal (sealed, key, crypto_secretstream_xchacha20poly1305_KEYBYTES, seal[i].byte) == 0)
        g_byte_array_append (readers, sealed, sizeof sealed);
    }
  return readers;
}

bool
carpace_seal (const CarpaceKey *seal, int32_t n, const GByteArray *rows, GByteArray **ret_readers, GByteArray **ret_content)
{
  uint8_t key[crypto_secretstream_xchacha20poly1305_KEYBYTES];
  g_autoptr (GByteArray) content = NULL, readers = NULL;

  if (n < 1 || n > CARPACE_TEAM_READERS)
    return false;
  crypto_secretstream_xchacha20poly1305_keygen (key);
  content = seal_rows (rows, key);
  readers = seal_key (seal, n, key);
  sodium_memzero (key, sizeof key);
  if (content->len > CARPACE_TEAM_CONTENT_MOST || readers->len == 0)
    return false;
  *ret_readers = g_steal_pointer (&readers);
  *ret_content = g_steal_pointer (&content);
  return true;
}

/* ---- opening ---- */

static bool
find_key (const CarpaceTeamBytes *readers, const CarpaceKey *seal, const uint8_t *secret, uint8_t *ret_key)
{
  for (size_t at = 0; at + CARPACE_TEAM_SEALED_KEY <= readers->n; at += CARPACE_TEAM_SEALED_KEY)
    if (crypto_box_seal_open (ret_key, readers->byte + at, CARPACE_TEAM_SEALED_KEY, seal->byte, secret) == 0)
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

bool
carpace_sealed_is_whole (const CarpaceTeamBytes *readers)
{
  return readers->n > 0 && readers->n % CARPACE_TEAM_SEALED_KEY == 0;
}

CarpaceTeamFault
carpace_unseal (const CarpaceTeamBytes *readers, const CarpaceTeamBytes *content, const CarpaceKey *seal, const uint8_t *secret,
                GByteArray **ret_rows)
{
  uint8_t key[crypto_secretstream_xchacha20poly1305_KEYBYTES];
  GByteArray *rows;
  bool opened;

  if (!find_key (readers, seal, secret, key))
    return CARPACE_TEAM_NOT_FOR_YOU;
  rows = g_byte_array_new ();
  opened = open_rows (content, key, rows);
  sodium_memzero (key, sizeof key);
  if (!opened)
    {
      carpace_wipe_file (rows);
      return CARPACE_TEAM_DAMAGED;
    }
  *ret_rows = rows;
  return CARPACE_TEAM_FINE;
}
