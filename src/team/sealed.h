/* SPDX-License-Identifier: GPL-3.0-or-later */
/** sealed.h: rows that only some can open: how bundles and notes are sealed (bundle.h says by what). */
#ifndef CARPACE_TEAM_SEALED_H
#define CARPACE_TEAM_SEALED_H

#include <glib.h>

#include "carpace/team.h"

/** Seals @rows to each of @n keys (X25519): *ret_readers their own sealed keys, *ret_content the rows.
 * @return false where there is nobody, or more than one file may have; else g_byte_array_unref() both */
bool carpace_seal (const CarpaceKey *seal, int32_t n, const GByteArray *rows, GByteArray **ret_readers, GByteArray **ret_content);

/** Whether @readers is one sealed key or more, and nothing else. */
bool carpace_sealed_is_whole (const CarpaceTeamBytes *readers);

/** Opens them with the key @seal and its @secret. @return NOT_FOR_YOU or DAMAGED, and else FINE and the rows:
 * carpace_wipe_file() them */
CarpaceTeamFault carpace_unseal (const CarpaceTeamBytes *readers, const CarpaceTeamBytes *content, const CarpaceKey *seal,
                                 const uint8_t *secret, GByteArray **ret_rows);

#endif
