/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * bundle.h: what goes back from a player, sealed to those who are let read it.
 *
 * The content is rows, one after the other as records, under a random key (secretstream, XChaCha20-Poly1305, in
 * pieces of 64 KiB); the key is in a sealed box for each reader (X25519, XSalsa20-Poly1305). The device signs the
 * whole. A bundle holds all of its weeks, so that the newest alone tells them; number and hash of the one before
 * show what is missing, or was put back.
 */
#ifndef CARPACE_TEAM_BUNDLE_H
#define CARPACE_TEAM_BUNDLE_H

#include "team/keys.h"

/** How far a clock may be ahead of another one, s. */
#define CARPACE_TEAM_CLOCKS_APART_S (26 * 60 * 60)

/** What a bundle is made of. */
typedef struct
{
  CarpaceKey player;
  CarpaceBundleKind kind;
  int64_t made_s;
  const GByteArray *device;      /**< the person's word on the device, a file */
  const CarpaceSigner *signer;   /**< the device */
  const CarpaceKey *seal;        /**< of each reader, 1 to CARPACE_TEAM_READERS */
  int32_t n_readers;
  const GByteArray *rows;
} CarpaceBundling;

/** Seals, numbers and signs one after those of @chain, which it takes a step on.
 * @return its file, NULL where there is nobody to read it, or more in it than one may have */
GByteArray *carpace_bundle_write (const CarpaceBundling *bundling, CarpaceChain *chain);

/** A bundle whose signatures fit: by the device, and that by the person. */
typedef struct
{
  CarpaceBundle bundle;
  CarpaceDevice device;
  CarpaceKey hash;         /**< of the file */
} CarpaceBundleSeen;

/** Reads one from a stranger: it is of @ret_seen->bundle.player if they are known, and is not opened yet.
 * @return as carpace_signed_read(), or OTHER_SIGNER */
CarpaceTeamFault carpace_bundle_read (const uint8_t *from, size_t n, CarpaceBundleSeen *ret_seen);

/** Whether @seen follows on the last that was taken (number 0: none was) of this device and kind.
 * @param ret_missing how many between were not seen
 * @return FINE, ROLLED_BACK (as old as the last, and another one), FORKED or AHEAD (by more than a day's clocks) */
CarpaceTeamFault carpace_bundle_follows (const CarpaceBundleSeen *seen, const CarpaceChain *last, int64_t now_s,
                                         int64_t *ret_missing);

/** Opens it. @return NOT_FOR_YOU or DAMAGED, and else FINE and its rows: g_byte_array_unref() them */
CarpaceTeamFault carpace_bundle_open (const CarpaceBundleSeen *seen, const CarpacePerson *reader, GByteArray **ret_rows);

#endif
