/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * hand-out.h: a plan that was signed and given.
 *
 * It stays a plan's file: the signature is its last line, a comment, "# signed: " and a record in base64 (RFC 4648).
 * What is signed is all before that line.
 */
#ifndef CARPACE_TEAM_HAND_OUT_H
#define CARPACE_TEAM_HAND_OUT_H

#include "team/roster.h"
#include "team/shelf.h"

/** The hash of a plan's text, whether it is signed or not. */
CarpaceKey carpace_hand_out_hash (const char *text, size_t n);

/** @text signed by @giver for @player (none: anybody). A signature that is there is taken away.
 * @param ret_record its file, for the giver to keep; g_byte_array_unref() it */
GString *carpace_hand_out_sign (const char *text, size_t n, const CarpacePerson *giver, const CarpaceCard *card,
                                const CarpaceKey *player, int64_t made_s, GByteArray **ret_record);

/** Who signed @text. @return NO_FILE where nobody did, FORGED where it was changed since, or as carpace_signed_read() */
CarpaceTeamFault carpace_hand_out_read (const char *text, size_t n, CarpaceHandOut *ret_hand_out);

/** Keeps that a plan was given. */
bool carpace_hand_out_keep (const CarpaceFolder *shelf, const GByteArray *record);

/** GArray of CarpaceRosterGiven: all that were. g_array_unref() it */
GArray *carpace_hand_outs_given (const CarpaceFolder *shelf);

/** Keeps that another key stands in for an own one. @return false where it is no such word, or not kept */
bool carpace_heir_keep (const CarpaceFolder *shelf, const GByteArray *heir);

/** What was given under one name: begin with the shelf and last_fault NO_FILE, and add what was, oldest first. */
typedef struct
{
  const CarpaceFolder *shelf;
  bool any;
  int32_t version;             /**< the highest of them */
  bool pinned;                 /**< one was signed, and only that key, or one it names, may change what is fixed: */
  CarpaceHandOut pin;          /**< the first that was signed, or a later one by a key in place of that one's */
  int32_t last_version;        /**< of the last one */
  CarpaceTeamFault last_fault; /**< of the last one's signature, as carpace_hand_out_read() */
  CarpaceHandOut last;
} CarpaceGivenBefore;

/** Adds one. A copy without a signature, or by somebody else, takes nothing from who signed before. */
void carpace_given_before_add (CarpaceGivenBefore *before, int32_t version, const char *text);

/** The same of all that @diary has under @name. @return false where it cannot be read */
bool carpace_given_before_read (const CarpaceFolder *shelf, const CarpaceDiary *diary, const char *name, CarpaceGivenBefore *ret_before);

/** Who signed the last that was given, where that has @version; NULL where nobody did. */
const CarpaceHandOut *carpace_given_before_by (const CarpaceGivenBefore *before, int32_t version);

/** Whether a plan of a version that is new, with a signature that was judged @fault and says @hand_out, may follow. */
bool carpace_given_before_lets (const CarpaceGivenBefore *before, CarpaceTeamFault fault, const CarpaceHandOut *hand_out);

/** Whether @key is @before, or one that it named, or one that that one named. */
bool carpace_key_follows (const CarpaceFolder *shelf, const CarpaceKey *before, const CarpaceKey *key);

#endif
