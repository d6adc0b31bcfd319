/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * note.h: a few words from a coach or clinician to a player, by the folder that is shared.
 *
 *   PLAYER-FROM.note    in the folder: one of each of them, the last
 *   note-FROM, noted-FROM, noted-away-FROM, noted-told-FROM
 *                       on the player's shelf: that file as it came, and when those were made: the last that came, the one
 *                       that was put away, the one that the player was told of
 *
 * It is sealed to the player's computers, whose keys are found in the bundles that lie there, and taken in once a day
 * with what is left, without a pass phrase.
 */
#ifndef CARPACE_TEAM_NOTE_H
#define CARPACE_TEAM_NOTE_H

#include "team/shelf.h"

#define CARPACE_TEAM_NOTE_END ".note"

/** Files of notes that are looked at in one go: whoever may write into the folder may leave many. */
#define CARPACE_NOTES_MOST 64

/** Whether @text can be a note: 1 to CARPACE_TEAM_NOTE_CHARACTERS characters, none that does something. */
bool carpace_note_is_text (const char *text);

/** One that was opened. */
typedef struct
{
  CarpaceCard from; /**< as it was accepted */
  int64_t made_s;
  char text[CARPACE_TEAM_NOTE_BYTES];
  bool away;        /**< the player put it away */
  bool told;        /**< the player was told that it came */
} CarpaceNoteRead;

/** The file of a note to the @n devices of @player. NULL where it is no text, or there are too many or too few of them. */
GByteArray *carpace_note_write (const CarpacePerson *from, const CarpaceKey *player, const CarpaceKey *device, int32_t n,
                                const char *text, int64_t made_s);

/** Reads one from a stranger. @return as carpace_signed_read(), or OTHER_SIGNER */
CarpaceTeamFault carpace_note_read (const uint8_t *from, size_t n, CarpaceNote *ret_note);

/** Opens it on that device. @return NOT_FOR_YOU, DAMAGED or OTHER_SIGNER, and else FINE */
CarpaceTeamFault carpace_note_open (const CarpaceNote *note, const CarpaceSigner *device, CarpaceNoteText *ret_text);

/** Leaves a note in @shared, in place of the own one that is there.
 * @return NO_FILE where no computer of @player left anything there, DAMAGED where it is no text, or FAILED, errno */
CarpaceTeamFault carpace_note_leave (const CarpaceFolder *shared, const CarpacePerson *from, const CarpaceKey *player, const char *text,
                                     int64_t now_s);

/** @param file its name in the folder */
typedef void (*CarpaceNoteRefused) (void *user, const char *file, CarpaceTeamFault fault);

/** Takes in what is in @shared for whoever's @shelf it is; what was taken before is passed over.
 * @return how many are new; -1, errno, where the folder cannot be read or the shelf not be written */
int32_t carpace_notes_take (const CarpaceFolder *shelf, const CarpaceFolder *shared, int64_t now_s, CarpaceNoteRefused refused, void *user);

typedef bool (*CarpaceNoteVisitor) (void *user, const CarpaceNoteRead *note); /**< false: enough */

/** The notes that were taken, of those who are still accepted. */
void carpace_notes (const CarpaceFolder *shelf, CarpaceNoteVisitor visit, void *user);

/** Puts one away: it stays to be read. @return false, errno, where that is not kept */
bool carpace_note_put_away (const CarpaceFolder *shelf, const CarpaceNoteRead *note);

/** Has it been told of: once is enough. @return false, errno, where that is not kept */
bool carpace_note_put_told (const CarpaceFolder *shelf, const CarpaceNoteRead *note);

/** Erases the one by @from, in @shared (may be NULL), too. @return whether there was one on the shelf */
bool carpace_note_erase (const CarpaceFolder *shelf, const CarpaceFolder *shared, const CarpaceKey *from);

#endif
