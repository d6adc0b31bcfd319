/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * shelf.h: what a person keeps of a team, in a folder of their own: keys, the cards they accepted, the grants they gave.
 */
#ifndef CARPACE_TEAM_SHELF_H
#define CARPACE_TEAM_SHELF_H

#include "carpace/folder.h"
#include "team/grant.h"

/** A pass phrase has at least that many bytes. */
#define CARPACE_PHRASE_LEAST 12

/** Whether somebody may be called @name: 1 to 64 bytes of a text without a slash. */
bool carpace_shelf_is_name (const char *name);

/** @return FINE where there is a person's secret, NO_FILE, or what is wrong with it */
CarpaceTeamFault carpace_shelf_has_keys (const CarpaceFolder *shelf);

/** Makes a person with a device, where there is none yet: all of their files, or none.
 * @return FINE, DAMAGED (there are keys already, or that is no name), NO_MEMORY, or FAILED, where errno tells why */
CarpaceTeamFault carpace_shelf_begin (const CarpaceFolder *shelf, const char *name, CarpaceRole role, const char *phrase,
                                      CarpaceLock lock, int64_t now_s);

/** The own card. @return NO_FILE where there are no keys yet, or what is wrong with it; *ret_file (may be NULL): its bytes */
CarpaceTeamFault carpace_shelf_card (const CarpaceFolder *shelf, CarpaceCard *ret_card, GByteArray **ret_file);

/** The own secret: carpace_person_wipe() it. */
CarpaceTeamFault carpace_shelf_unlock (const CarpaceFolder *shelf, const char *phrase, CarpacePerson *ret_person);

/** This device's secret, and the person's word on it. */
CarpaceTeamFault carpace_shelf_device (const CarpaceFolder *shelf, CarpaceSigner *ret_device, GByteArray **ret_word);

typedef bool (*CarpaceCardVisitor) (void *user, const CarpaceCard *card); /**< false: enough */

/** The cards that were accepted. @return false, errno, where the folder cannot be read */
bool carpace_shelf_known (const CarpaceFolder *shelf, CarpaceCardVisitor visit, void *user);

/** Whether @sign is among them. */
bool carpace_shelf_knows (const CarpaceFolder *shelf, const CarpaceKey *sign, CarpaceCard *ret_card);

/** Accepts a card, or lets go of one. @return false, errno, where that is not kept */
bool carpace_shelf_accept (const CarpaceFolder *shelf, const GByteArray *card);
bool carpace_shelf_forget (const CarpaceFolder *shelf, const CarpaceKey *sign);

/** Those known by @who: their name, or the first four digits or more of their key.
 * @return how many there are; *ret_card is the last of them */
int carpace_shelf_find (const CarpaceFolder *shelf, const char *who, CarpaceCard *ret_card);

typedef bool (*CarpaceGrantVisitor) (void *user, const CarpaceGrant *grant, bool guarded, const GByteArray *file);

/** The grants that were given, the last of each reader. */
bool carpace_shelf_grants (const CarpaceFolder *shelf, CarpaceGrantVisitor visit, void *user);

typedef void (*CarpaceGrantDamaged) (void *user, const char *file, CarpaceTeamFault fault);

/** The files of grants that cannot be read: what they let be read is not known here, and their readers may still have it. */
void carpace_shelf_damaged_grants (const CarpaceFolder *shelf, CarpaceGrantDamaged visit, void *user);

/** Whether the file of the grant to @reader is one of them. */
bool carpace_shelf_grant_is_damaged (const CarpaceFolder *shelf, const CarpaceKey *reader);

/** As carpace_shelf_find(), among those who were let read something and still are, also where their key was forgotten since. */
int carpace_shelf_find_granted (const CarpaceFolder *shelf, const char *who, CarpaceGrant *ret_grant);

/** The one to @reader. @return false where there is none */
bool carpace_shelf_grant_to (const CarpaceFolder *shelf, const CarpaceKey *reader, CarpaceGrant *ret_grant, bool *ret_guarded);

/** Keeps one, in place of the one to the same reader. */
bool carpace_shelf_keep_grant (const CarpaceFolder *shelf, const CarpaceGrant *grant, const GByteArray *file);

/** How far this device's bundles of @kind have come; number 0 where none was made.
 * @return what is wrong, where that cannot be read: no bundle is made then */
CarpaceTeamFault carpace_shelf_chain (const CarpaceFolder *shelf, CarpaceBundleKind kind, CarpaceChain *ret_chain);
bool carpace_shelf_keep_chain (const CarpaceFolder *shelf, const CarpaceChain *chain);

/** A line of text that is kept, as which folder is shared; NULL where it is not. g_free() it */
char *carpace_shelf_text (const CarpaceFolder *shelf, const char *name);
bool carpace_shelf_keep_text (const CarpaceFolder *shelf, const char *name, const char *text);

#define CARPACE_SHELF_SHARE "share" /**< the folder that is shared */

/** A whole file of any folder: NULL and what is wrong. */
GByteArray *carpace_folder_file (const CarpaceFolder *folder, const char *name, CarpaceTeamFault *ret_fault);

/** The names in any folder that begin and end so, in their order. g_ptr_array_unref() them
 * @return NULL, errno, where the folder cannot be read */
GPtrArray *carpace_folder_names (const CarpaceFolder *folder, const char *begin, const char *end);

/** The name of a file about @key: its short form between the two. g_free() it */
char *carpace_shelf_name (const char *begin, const CarpaceKey *key, const char *end);

#endif
