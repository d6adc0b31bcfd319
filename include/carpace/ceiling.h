/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * ceiling.h: what a plan that was given fixes, for every plan in use after it.
 *
 * Kept as text in the diary's records of plans (diary.h): the last of them says
 * what is held. It holds against slips and temptation, not against a forger.
 */
#ifndef CARPACE_CEILING_H
#define CARPACE_CEILING_H

#include "carpace/plan.h"

/** What is held. All zero: nothing is. */
typedef struct
{
  bool fixed[CARPACE_N_KEYS];
  double number[CARPACE_N_KEYS];        /**< of those fixed that are numbers */
  char name[CARPACE_NAME_BYTES];
  char note[CARPACE_NOTE_BYTES];
  int32_t n_shown;
  CarpaceExercise shown[CARPACE_PLAN_SHOWN];
  int32_t n_blocks;                     /**< blocks there may be, 0 where no limit is fixed */
  int64_t limit_ms[CARPACE_PLAN_BLOCKS]; /**< 0 where that one is not */
} CarpaceCeiling;

/** In what a plan is looser than what is held. */
typedef enum
{
  CARPACE_BREACH_NONE,
  CARPACE_BREACH_KEY,    /**< `key` */
  CARPACE_BREACH_DOSE,   /**< the first dose is over next-day.at-most */
  CARPACE_BREACH_LIMIT,  /**< of `block` */
  CARPACE_BREACH_BLOCKS  /**< there are more; `block` is the first too many */
} CarpaceBreachKind;

typedef struct
{
  CarpaceBreachKind kind;
  CarpacePlanKey key;
  int32_t block;
} CarpaceBreach;

/** Whether anything is held. */
bool carpace_ceiling_holds (const CarpaceCeiling *ceiling);

/** Adds what @plan, which has been given and keeps what is held, fixes. A value it
 * fixes takes the place of the one held. Where it fixes each block's limit, the first
 * dose is fixed with them. */
void carpace_ceiling_add (CarpaceCeiling *ceiling, const CarpacePlan *plan);

/** Adds what @other holds: of a number that both hold the tighter one, of a list all
 * that either has, of what has no direction @other's. */
void carpace_ceiling_join (CarpaceCeiling *ceiling, const CarpaceCeiling *other);

/** Whether both hold the same, word by word as carpace_ceiling_write() has it. */
bool carpace_ceiling_same (const CarpaceCeiling *one, const CarpaceCeiling *other);

/** The first thing in which @plan is looser than what is held; kind NONE where it
 * keeps all of it. */
CarpaceBreach carpace_ceiling_breach (const CarpaceCeiling *ceiling, const CarpacePlan *plan);

/** Limit held for a block at @block, ms; 0: none. Blocks past the last are like it. */
int64_t carpace_ceiling_limit_ms (const CarpaceCeiling *ceiling, int32_t block);

/** Bytes that carpace_ceiling_write() needs at most, its end included. */
#define CARPACE_CEILING_BYTES 8192

/** Writes a line a thing that is held, "next-day.at-most: 1 h 30 min"; "" where nothing is. */
void carpace_ceiling_write (const CarpaceCeiling *ceiling, char ret_text[CARPACE_CEILING_BYTES]);

/** Whether @line of what a plan fixes holds: no other plan has a tighter one. @param all what
 * is held, written. Of a list each plan's own line holds. */
bool carpace_ceiling_line_holds (const char *all, const char *line);

/** @return false, *ret_ceiling holding what could be read, where a line could not be */
bool carpace_ceiling_read (const char *text, CarpaceCeiling *ret_ceiling);

#endif
