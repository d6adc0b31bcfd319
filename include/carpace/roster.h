/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * roster.h: a row a player, and who needs a look today.
 *
 * The rows are worked out here, from what was gathered; where that is kept (one file of the reader's, a club's
 * database) is a CarpaceRosterStore. Two stores with the same bundles in them give the same rows.
 */
#ifndef CARPACE_ROSTER_H
#define CARPACE_ROSTER_H

#include "carpace/diary.h"
#include "carpace/kept-phrase.h"
#include "carpace/team.h"

#define CARPACE_ROSTER_WEEKS 12
/** Bytes of what is worked out of a hand (hand-days.c knows what they say). */
#define CARPACE_ROSTER_WORKED_OUT 341

/** Why a player needs a look, the more pressing first. */
typedef enum
{
  CARPACE_LOOK_CAUTION,       /**< hand: one is open */
  CARPACE_LOOK_TWO_RISING,    /**< hand: the ratings rose for two weeks */
  CARPACE_LOOK_CUT_TWICE,     /**< hand: the dose was cut twice within 7 dates */
  CARPACE_LOOK_LEVEL_DOWN,    /**< hand: the level came down twice within 28 dates */
  CARPACE_LOOK_SILENT,        /**< hand: no answer for a week */
  CARPACE_LOOK_MISSING,       /**< load, else hand: no bundle for a week */
  CARPACE_LOOK_NOT_IN_FORCE,  /**< load: another plan than the one that was given last is in use */
  CARPACE_LOOK_CEILING,       /**< load: the dose is at the most that the plan allows */
  CARPACE_N_LOOKS
} CarpaceLook;

#define CARPACE_LOOK_CUT_DATES 7
#define CARPACE_LOOK_LEVEL_DATES 28
#define CARPACE_LOOK_SILENT_DATES 7
#define CARPACE_LOOK_MISSING_S (7 * 24 * 60 * 60)

/** A player that the reader knows. */
typedef struct
{
  CarpaceKey player;
  char name[CARPACE_TEAM_NAME_BYTES];
  CarpaceGrant grant;       /**< the last that was seen; number 0: none was */
  bool guarded;             /**< the guardian signed it */
  int64_t erased_s;         /**< what was read until then was erased, as the player asked; 0: never */
  int64_t made_s[CARPACE_N_BUNDLES]; /**< the newest bundle of each kind that was taken; 0: none */
  int64_t missing[CARPACE_N_BUNDLES]; /**< bundles that were never seen, of those before it */
} CarpaceRosterPlayer;

/** A row. What the grant does not let be read is empty in it. */
typedef struct
{
  CarpaceRosterPlayer who;
  CarpaceTeamFault holds;      /**< whether the grant does today; NOT_GRANTED where there is none */
  bool load, hand;             /**< what it lets be read */
  CarpaceLoadHead head;
  int32_t n_weeks;
  CarpaceLoadWeek week[CARPACE_ROSTER_WEEKS];
  uint32_t looks;              /**< bits 1u << CarpaceLook */
  CarpaceDay answered;         /**< hand: the last day with an answer; CARPACE_NO_DAY: none */
  CarpaceDay caution_since;    /**< hand: of the open caution */
  int32_t highest;             /**< hand: rating of the last 7 dates, -1 where none */
} CarpaceRosterRow;

/** A roster to be shown. All of it stays while it is. */
typedef struct
{
  const CarpaceRosterRow *row; /**< those who need a look first */
  size_t n_rows;
  CarpaceDay today;
  int32_t last_monday;         /**< of the last week that is over */
  const char *refused;         /**< what was not taken, a sentence a line; "": nothing */
  void *self;
  /** What @player let be read, as a diary, read only: free() it. */
  CarpaceDiary (*diary) (void *self, const CarpaceKey *player);
  /** Leaves a note for @player; NULL: notes are not written here. @param phrase the reader's pass phrase
   * @return a sentence of what came of it, g_free() it */
  char *(*note) (void *self, const CarpaceKey *player, const char *text, const char *phrase, bool *ret_done);
  const CarpaceKeptPhrase *kept; /**< NULL: no keyring is offered */
} CarpaceRosterShown;

typedef bool (*CarpaceRosterPlayerVisitor) (void *user, const CarpaceRosterPlayer *player);
typedef bool (*CarpaceHandRowVisitor) (void *user, const CarpaceHandRow *row); /**< false: enough, as of all visitors */
typedef bool (*CarpaceLoadWeekVisitor) (void *user, const CarpaceLoadWeek *week);

/** Where what was gathered is kept. Every function but free returns false where that cannot be read or written. What is
 * written between begin() and end() is kept together, or none of it. */
typedef struct
{
  void *self;
  bool (*begin) (void *self);
  bool (*end) (void *self, bool keep);
  /** Whether a file was taken or refused for good already. */
  bool (*was_seen) (void *self, const char *file);
  bool (*mark_seen) (void *self, const char *file);
  bool of_all; /**< a club's, which keeps the grants to all its readers; else one reader's own */
  /** Keeps a player's grant, which the @n bytes of @file prove. One with a number that is not higher than that of the last
   * changes nothing, unless it is the same with the guardian's signature. One that lets nothing be read drops what it does
   * not cover. *ret_last: the number of the last from that player to that reader, 0: none. */
  bool (*keep_grant) (void *self, const char *name, const CarpaceGrant *grant, bool guarded, const uint8_t *file, size_t n,
                      int64_t *ret_last);
  /** The moment, by the clock of the machine that keeps it and judges what may be read; NULL: that is this one. */
  bool (*now) (void *self, int64_t *ret_wall_ms);
  /** NULL, or whether a sentence of what failed was told already. */
  bool (*has_told) (void *self);
  /** The player; *ret_player is empty but for the key where nothing is known of them. */
  bool (*player) (void *self, const CarpaceKey *player, CarpaceRosterPlayer *ret_player);
  /** Drops all of a player's that was made until then; what stays is when. */
  bool (*erase) (void *self, const CarpaceKey *player, int64_t until_s);
  /** The last bundle of a device that was taken; number 0: none. */
  bool (*chain) (void *self, const CarpaceKey *player, const CarpaceKey *device, CarpaceBundleKind kind,
                 CarpaceChain *ret_chain);
  bool (*keep_chain) (void *self, const CarpaceKey *player, const CarpaceKey *device, const CarpaceChain *chain,
                      int64_t missing);
  bool (*keep_load) (void *self, const CarpaceKey *player, const CarpaceLoadHead *head, int64_t made_s,
                     const CarpaceLoadWeek *week, int32_t n_weeks);
  /** One that is there already is not added again. */
  bool (*keep_hand) (void *self, const CarpaceKey *player, int64_t made_s, const CarpaceHandRow *row);
  bool (*players) (void *self, CarpaceRosterPlayerVisitor visit, void *user);
  /** *ret_head is empty where there is none. */
  bool (*head) (void *self, const CarpaceKey *player, CarpaceLoadHead *ret_head);
  bool (*weeks) (void *self, const CarpaceKey *player, int32_t since, CarpaceLoadWeekVisitor visit, void *user);
  /** What was recorded, oldest first. @param kinds CARPACE_KIND() or'ed */
  bool (*rows) (void *self, const CarpaceKey *player, CarpaceDay since, CarpaceDay until, uint32_t kinds,
                CarpaceHandRowVisitor visit, void *user);
  /** What was worked out of a player's hand, kept until anything of that hand changes. NULL: this store keeps none.
   * @return false where there is none */
  bool (*worked_out) (void *self, const CarpaceKey *player, uint8_t ret_bytes[CARPACE_ROSTER_WORKED_OUT]);
  bool (*keep_worked_out) (void *self, const CarpaceKey *player, const uint8_t bytes[CARPACE_ROSTER_WORKED_OUT]);
  void (*free) (void *self);
} CarpaceRosterStore;

#endif
