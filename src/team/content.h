/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * content.h: the rows of a bundle, made from a diary and read again.
 *
 * A load bundle has only weeks that are over. The week under way would change from one daily bundle to the next, and
 * the difference would be a day: what a coach may not see.
 */
#ifndef CARPACE_TEAM_CONTENT_H
#define CARPACE_TEAM_CONTENT_H

#include "carpace/diary.h"
#include "team/record.h"

/** Weeks and days that a bundle goes back. */
#define CARPACE_TEAM_WEEKS 12
#define CARPACE_TEAM_DAYS (7 * CARPACE_TEAM_WEEKS)
/** Rows that a hand bundle has at most: far more than anybody says in twelve weeks. */
#define CARPACE_TEAM_ROWS 50000

/** The plan that is in use. */
typedef struct
{
  char name[CARPACE_TEAM_NAME_BYTES]; /**< "": none is */
  int32_t version;
  CarpaceKey hash;
  int64_t in_force_s;
  int64_t most_ms;     /**< the dose it allows at most; 0: any */
} CarpaceTeamPlan;

/** A load bundle, read. */
typedef struct
{
  CarpaceLoadHead head;
  int32_t n_weeks;
  CarpaceLoadWeek week[CARPACE_TEAM_WEEKS]; /**< oldest first, none left out */
} CarpaceLoad;

/** The Monday of the week that @day is in. */
CarpaceDay carpace_team_monday (CarpaceDay day);

/** The plan that a diary's days are opened with, and since when; the hash is that of the file that was taken.
 * @param most_ms the dose it allows at most. @return false where the diary cannot be read */
bool carpace_team_plan_read (const CarpaceDiary *diary, int64_t most_ms, CarpaceTeamPlan *ret_plan);

/** Adds the rows of a load bundle made on @today to @rows. @return false where the diary cannot be read */
bool carpace_load_write (const CarpaceDiary *diary, const CarpaceTeamPlan *plan, CarpaceDay today, GByteArray *rows);
/** @return FINE, CUT, DAMAGED, NEWER or OTHER_KIND */
CarpaceTeamFault carpace_load_read (const GByteArray *rows, CarpaceLoad *ret_load);

/** The same of a hand bundle: what was done and said, day by day, without the player's notes. */
bool carpace_hand_write (const CarpaceDiary *diary, CarpaceDay today, GByteArray *rows);

/** @param row as it came, valid during the call, as @entry, what it says */
typedef bool (*CarpaceHandVisitor) (void *user, const CarpaceHandRow *row, const CarpaceEntry *entry);

/** Reads one through before the first row is told. Kinds of entries that only a newer Carpace has are left out.
 * @return as carpace_load_read(), or FAILED where @visit returned false */
CarpaceTeamFault carpace_hand_read (const GByteArray *rows, CarpaceHandVisitor visit, void *user);

/** What a row says. @return false where it is none of ours, or not what its table says */
bool carpace_hand_entry (const CarpaceHandRow *row, CarpaceEntry *ret_entry);

#endif
