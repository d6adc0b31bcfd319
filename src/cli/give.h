/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * give.h: a coach's plan, given: a copy for each player, under the player's code.
 *
 * A copy is a new file, PLAN-CODE-vVERSION.plan.yaml, the plan's own bytes with its
 * version counted up and nothing else changed. A file that is there is never
 * written over: it is the version before, which the copy is compared with.
 */
#ifndef CARPACE_CLI_GIVE_H
#define CARPACE_CLI_GIVE_H

#include <glib.h>
#include <stdbool.h>

#include "carpace/ports.h"
#include "text/file-text.h"

/** What is given. */
typedef struct
{
  const char *path;   /**< of the plan's file: copies are called after it */
  const char *bytes;  /**< what it says */
  gsize n_bytes;
  const CarpacePlan *plan; /**< the same, read once for all copies; NULL: it is no sound plan */
  const char *into;   /**< the folder for the copies; NULL: where the plan is */
} CarpaceGift;

typedef enum
{
  CARPACE_GIVEN_DONE,
  CARPACE_GIVEN_AHEAD,   /**< it could be given: nothing is written yet */
  CARPACE_GIVEN_ALREADY, /**< the version before says the same: nothing is written */
  CARPACE_GIVEN_LAST,    /**< there is no version behind 9999 */
  CARPACE_GIVEN_UNFIT,   /**< the plan's version cannot be changed without touching more of the file */
  CARPACE_GIVEN_UNWRITTEN
} CarpaceGivenEnd;

/** What came of one player's copy. */
typedef struct
{
  CarpaceGivenEnd end;
  char *path;                 /**< of the copy, or of the one that says the same */
  int32_t version;            /**< its version */
  int32_t before;             /**< version it is compared with, 0 where there is none */
  char *changes;              /**< in what it differs from that, in words; NULL where there is none, or it cannot be read */
  CarpaceFileTrouble trouble; /**< UNWRITTEN: why, and errno */
  int error;
} CarpaceGiven;

/** Reads such a plan. @return false where it has faults */
bool carpace_give_read (const char *bytes, gsize n_bytes, CarpacePlan *ret_plan);

/** Gives it to @code, a sound one (codes-lines.h). carpace_given_clear() what came of it. */
void carpace_give (const CarpaceGift *gift, const char *code, CarpaceGiven *ret_given);

/** What carpace_give() would come to, with nothing written: CARPACE_GIVEN_AHEAD where it would write. */
void carpace_give_ahead (const CarpaceGift *gift, const char *code, CarpaceGiven *ret_given);

void carpace_given_clear (CarpaceGiven *given);

/** What came of it, in words: a line, and the changes in lines behind it. g_free() it */
char *carpace_given_told (const char *code, const CarpaceGiven *given);

#endif
