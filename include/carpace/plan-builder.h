/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-builder.h: puts a plan together and checks it.
 *
 * A loader reads and calls; the builder judges: ranges, domains, what belongs
 * together, and every default. It tells each fault once, with a number the
 * loader gave (`place`) so that the loader can say where that was.
 */
#ifndef CARPACE_PLAN_BUILDER_H
#define CARPACE_PLAN_BUILDER_H

#include "carpace/plan-keys.h"

/** Where in the file; the builder only hands it back. 0: nowhere. */
typedef int32_t CarpacePlace;

/** What can be wrong, or doubtful, with a plan. */
typedef enum
{
  CARPACE_FLAW_MISSING,            /**< a required key */
  CARPACE_FLAW_OUT_OF_RANGE,       /**< low and high tell the range */
  CARPACE_FLAW_NAME_EMPTY,
  CARPACE_FLAW_NAME_TOO_LONG,      /**< high tells how many characters there may be */
  CARPACE_FLAW_NAME_CHARACTERS,    /**< control characters, or such as turn the direction of text */
  CARPACE_FLAW_ID_CHARACTERS,      /**< only letters, digits and `-` */
  CARPACE_FLAW_ID_TWICE,
  CARPACE_FLAW_UNKNOWN_DRILL,      /**< a block names a drill that there is not */
  CARPACE_FLAW_TOO_MANY_DRILLS,    /**< of the plan, or of a block */
  CARPACE_FLAW_TOO_MANY_BLOCKS,
  CARPACE_FLAW_TOO_MANY_SHOWN,
  CARPACE_FLAW_TOO_MANY_WITHOUT,   /**< days without practice */
  CARPACE_FLAW_NO_MOVEMENT,        /**< neither movement nor view-turn with cm-per-turn */
  CARPACE_FLAW_VIEW_TURN_ALONE,    /**< view-turn without cm-per-turn, and no movement */
  CARPACE_FLAW_DUTY,               /**< efforts x effort-lasts over 60 s a minute */
  CARPACE_FLAW_SHARES,             /**< that do not add up to 100 %, or (high under it) leave nothing for the equal ones */
  CARPACE_FLAW_BLOCKS_AND_SPLIT,   /**< both */
  CARPACE_FLAW_NO_BLOCKS,          /**< neither */
  CARPACE_FLAW_NO_DRILLS,          /**< in the plan, or (block) in a block */
  CARPACE_FLAW_SPLIT_NO_TIME,      /**< no dose and not every drill has a time */
  CARPACE_FLAW_SPLIT_TIME_IS_OUT,  /**< drills' times (low, ms) leave the others nothing of the dose (high) */
  CARPACE_FLAW_SPLIT_TOO_FEW_RUNS, /**< fewer whole runs than blocks */
  CARPACE_FLAW_SPLIT_TOO_LONG,     /**< a block would be longer (low, ms) than a limit can be (high) */
  CARPACE_FLAW_AFTER_OVER_LIMIT,   /**< micro-rest.after over the longest limit */
  CARPACE_FLAW_SUM_OVER_DAY,       /**< no dose is given, and what the blocks or times add up to is over its range */
  CARPACE_FLAW_DOSE_UNDER_SHORTEST,/**< the dose (low, ms) is no block: block-limits.shortest is high */
  CARPACE_FLAW_DOSE_OVER_AT_MOST,  /**< the dose (low, ms) is over next-day.at-most (high) */
  /* warnings from here on */
  CARPACE_FLAW_BLOCKS_OVER_DOSE,
  CARPACE_FLAW_TIMES_OVER_DOSE,    /**< of a split: all drills' times (low, ms) are more than the dose (high) */
  CARPACE_FLAW_LONGEST_UNDER_LIMIT,/**< block-limits.longest (high, ms) is under the longest limit (low) */
  CARPACE_FLAW_DRILL_UNUSED,
  CARPACE_FLAW_RESERVE_TOO_HIGH,   /**< a drill passes it within one run from rested */
  CARPACE_FLAW_USUAL_DISCOMFORT,   /**< 3 or more: ask a clinician */
  CARPACE_FLAW_MOVEMENT_DIFFERS,   /**< view-turn says another movement; it wins */
  CARPACE_FLAW_FORMER_WORD,        /**< of the set low, for what is now its word high; told once a plan */
  CARPACE_FLAW_VIEW_TURN_IDLE,     /**< view-turn without cm-per-turn, beside a movement */
  CARPACE_N_FLAWS
} CarpaceFlawKind;

/** One fault or warning. */
typedef struct
{
  CarpaceFlawKind kind;
  CarpacePlace place;
  CarpacePlanKey key;        /**< CARPACE_N_KEYS where the flaw is of a drill or block */
  CarpaceDrillKey drill_key; /**< CARPACE_N_DRILL_KEYS where it is of no one key, or of the id */
  int32_t drill;             /**< index, or -1 */
  int32_t block;             /**< index, or -1 */
  bool share;                /**< out of range: a part's share in @block; else its limit */
  double low, high;          /**< the range, or the figure that is and the one that would be right */
} CarpaceFlaw;

#define CARPACE_PLAN_FLAWS 256

/** True for kinds that leave the plan usable. */
bool carpace_flaw_is_warning (CarpaceFlawKind kind);

/** A plan being put together. A value; carpace_plan_builder_init() first.
 * The fields are the builder's own. */
typedef struct
{
  CarpacePlan plan;
  bool given[CARPACE_N_KEYS];
  bool sound[CARPACE_N_KEYS]; /* given, and taken */
  CarpacePlace key_place[CARPACE_N_KEYS];
  CarpacePlace drill_place[CARPACE_PLAN_DRILLS];
  CarpacePlace drill_id_place[CARPACE_PLAN_DRILLS];
  CarpacePlace drill_key_place[CARPACE_PLAN_DRILLS][CARPACE_N_DRILL_KEYS];
  bool drill_given[CARPACE_PLAN_DRILLS][CARPACE_N_DRILL_KEYS];
  bool drill_sound[CARPACE_PLAN_DRILLS][CARPACE_N_DRILL_KEYS];
  CarpacePlace block_place[CARPACE_PLAN_BLOCKS];
  CarpacePlace block_limit_place[CARPACE_PLAN_BLOCKS];
  bool block_flawed[CARPACE_PLAN_BLOCKS];
  bool share_given[CARPACE_PLAN_BLOCKS][CARPACE_PLAN_DRILLS];
  int32_t n_without;
  bool former_told;
  bool id_unread, id_flawed, blocks_unread, split_given, split_sound;
  bool unsplit;           /* a split is not worked out: the plan has no blocks then */
  const CarpacePlan *known; /* the same day as it was split before, or NULL: not worked out again */
  CarpacePlace split_place, drills_place, blocks_place;
  int32_t n_drills_asked, n_blocks_asked;
  int32_t n_faults;
  int32_t n_flaws;
  int32_t n_flaws_untold; /**< those past CARPACE_PLAN_FLAWS */
  CarpaceFlaw flaws[CARPACE_PLAN_FLAWS];
} CarpacePlanBuilder;

void carpace_plan_builder_init (CarpacePlanBuilder *builder);

/** Sets a text key (name, note). */
void carpace_plan_builder_text (CarpacePlanBuilder *builder, CarpacePlanKey key, const char *utf8, CarpacePlace place);

/** Sets a number: times in ms, shares in hundredths of a percent,
 * reserve-at-least in percent, words as their enum, starts-at in minutes. */
void carpace_plan_builder_number (CarpacePlanBuilder *builder, CarpacePlanKey key, double number, CarpacePlace place);

/** Adds an exercise to micro-rest.show. */
void carpace_plan_builder_show (CarpacePlanBuilder *builder, CarpaceExercise exercise, CarpacePlace place);

/** Says that week.without is a list, which may be empty. */
void carpace_plan_builder_without_list (CarpacePlanBuilder *builder, CarpacePlace place);

/** Adds a day to week.without. */
void carpace_plan_builder_without (CarpacePlanBuilder *builder, CarpaceWeekday weekday, CarpacePlace place);

/** Says that what @value is called in @words now stands at @place by its former word. */
void carpace_plan_builder_former_word (CarpacePlanBuilder *builder, CarpaceWords words, int32_t value, CarpacePlace place);

/** Says that @key stands in the file, with a value that could not be read: it
 * is not missing, and nothing is concluded from its default. */
void carpace_plan_builder_unread (CarpacePlanBuilder *builder, CarpacePlanKey key);

/** Marks @key `!fixed`. */
void carpace_plan_builder_fix (CarpacePlanBuilder *builder, CarpacePlanKey key);

/** Says that a list is there and could not be read: it is not missing. */
void carpace_plan_builder_drills_unread (CarpacePlanBuilder *builder);
void carpace_plan_builder_blocks_unread (CarpacePlanBuilder *builder);

/** Begins a drill. @param id NULL where it could not be read. @return its index, -1 (a flaw told) where there are too many. */
int32_t carpace_plan_builder_drill (CarpacePlanBuilder *builder, const char *id, CarpacePlace place);

void carpace_plan_builder_drill_name (CarpacePlanBuilder *builder, int32_t drill, const char *utf8, CarpacePlace place);
void carpace_plan_builder_drill_number (CarpacePlanBuilder *builder, int32_t drill, CarpaceDrillKey key, double number,
                                        CarpacePlace place);

/** Says where the whole of a drill is, where that is not where its id is. */
void carpace_plan_builder_drill_at (CarpacePlanBuilder *builder, int32_t drill, CarpacePlace place);

/** carpace_plan_builder_unread() for a key of a drill. */
void carpace_plan_builder_drill_unread (CarpacePlanBuilder *builder, int32_t drill, CarpaceDrillKey key);

/** Says where the lists of drills and of blocks are, before any of theirs. */
void carpace_plan_builder_drills_at (CarpacePlanBuilder *builder, CarpacePlace place);
void carpace_plan_builder_blocks_at (CarpacePlanBuilder *builder, CarpacePlace place);

/** Begins a block. All drills have been told. @param limit_ms -1 where it
 * could not be read (told by whoever read it). @return its index, -1 (a flaw told) where there are too many. */
int32_t carpace_plan_builder_block (CarpacePlanBuilder *builder, int64_t limit_ms, bool fixed, CarpacePlace place);

/** Says where the drills of @block are, where that is not where its limit is. */
void carpace_plan_builder_block_at (CarpacePlanBuilder *builder, int32_t block, CarpacePlace place);

/** Says that something in @block could not be read: its shares are not judged. */
void carpace_plan_builder_block_unread (CarpacePlanBuilder *builder, int32_t block);

/** Adds a drill to a block.
 * @param share hundredths of a percent, or -1 for an equal share of what the
 * others leave */
void carpace_plan_builder_part (CarpacePlanBuilder *builder, int32_t block, const char *drill_id, int32_t share,
                                CarpacePlace place);

/** The same with a place of its own for the share. */
void carpace_plan_builder_part_at (CarpacePlanBuilder *builder, int32_t block, const char *drill_id, int32_t share,
                                   CarpacePlace id_place, CarpacePlace share_place);

/** Asks for the day's drills to be split into @into blocks instead.
 * @param into 1..CARPACE_PLAN_BLOCKS, or -1 where it could not be read */
void carpace_plan_builder_split (CarpacePlanBuilder *builder, int32_t into, CarpacePlace place);

/** Checks what belongs together and writes every default.
 * @return true and *ret_plan where there is no fault; warnings may remain */
bool carpace_plan_builder_finish (CarpacePlanBuilder *builder, CarpacePlan *ret_plan);

#endif
