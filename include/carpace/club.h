/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * club.h: a roster that many read, in a club's database.
 *
 * Who logs in is who reads: one login a person, bound to their key by `club admit`. What a login may read is decided by
 * the database, by the players' grants that lie in it, and not by this program. One kind of login gathers: what it takes in
 * was verified before it is written.
 */
#ifndef CARPACE_CLUB_H
#define CARPACE_CLUB_H

#include "carpace/roster.h"

/** Told once: a sentence of what is wrong. */
typedef void (*CarpaceClubTold) (void *user, const char *message);

/** Who has logged in. */
typedef struct
{
  CarpaceKey key;
  CarpaceRole role;   /**< coach or clinician */
  bool gathers;       /**< may take in what players left */
} CarpaceClubLogin;

/** Whom a login is bound to. */
typedef struct
{
  const char *login;  /**< its name in the database; made where there is none of it */
  CarpaceKey key;
  CarpaceRole role;
  bool gathers;
} CarpaceClubMember;

/** A club's databases, each named by @address (a `postgresql://` one). Every function returns false where it did not come
 * about; then a sentence was told. */
typedef struct
{
  bool (*open) (const char *address, CarpaceClubTold told, void *user, CarpaceRosterStore *ret_store, CarpaceClubLogin *ret_login);
  /** Makes what is kept there, or brings it on: all of it or nothing. *ret_from, *ret_to: its number before, after; 0: none. */
  bool (*make) (const char *address, CarpaceClubTold told, void *user, int32_t *ret_from, int32_t *ret_to);
  /** Binds a login to a person, in place of what it was bound to; lets go of one. */
  bool (*admit) (const char *address, CarpaceClubTold told, void *user, const CarpaceClubMember *member);
  bool (*dismiss) (const char *address, CarpaceClubTold told, void *user, const char *login);
} CarpaceClub;

#endif
