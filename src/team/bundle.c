/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/bundle.h"

#include "team/sealed.h"

GByteArray *
carpace_bundle_write (const CarpaceBundling *bundling, CarpaceChain *chain)
{
  g_autoptr (GByteArray) content = NULL, readers = NULL;
  CarpaceBundle bundle = { .player = bundling->player, .kind = bundling->kind, .number = chain->number + 1,
                           .before = chain->last, .made_s = bundling->made_s,
                           .device = { bundling->device->data, bundling->device->len } };
  GByteArray *file;

  if (!carpace_seal (bundling->seal, bundling->n_readers, bundling->rows, &readers, &content))
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
  if (!carpace_sealed_is_whole (&bundle->readers))
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

CarpaceTeamFault
carpace_bundle_open (const CarpaceBundleSeen *seen, const CarpacePerson *reader, GByteArray **ret_rows)
{
  return carpace_unseal (&seen->bundle.readers, &seen->bundle.content, &reader->seal, reader->seal_secret, ret_rows);
}
