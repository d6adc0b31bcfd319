/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * document.h: a plan that a coach is changing: its file's bytes, what they say, what is wrong with them, what they ask
 * of the hand, and the way back. No window, no file, no clock.
 *
 * Changes are edits of the file (forms/plan-edit.h) and nothing else. What is dragged is tried on the plan
 * alone, which is quick, and becomes edits when it is let go.
 */
#ifndef CARPACE_PLANNER_DOCUMENT_H
#define CARPACE_PLANNER_DOCUMENT_H

#include <glib.h>
#include <stdbool.h>

#include "carpace/plan-keys.h"
#include "carpace/plan-rail.h"
#include "carpace/split.h"
#include "forms/plan-edit.h"
#include "forms/plan-values-at.h"

/** A fault, or a warning. */
typedef struct
{
  int32_t line, column; /**< 0: of no one place */
  bool warning;
  char *message;
  char *path;           /**< what stands there, "" where that is nothing with a path */
} CarpacePlannerFault;

typedef struct CarpacePlanner CarpacePlanner;

/** @param bytes the file as it was read; a reference is taken */
CarpacePlanner *carpace_planner_new (GBytes *bytes);
void carpace_planner_free (CarpacePlanner *planner);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CarpacePlanner, carpace_planner_free)

/** Another file in its place: nothing of the one before can be undone. */
void carpace_planner_open (CarpacePlanner *planner, GBytes *bytes);

/** Before what the plan asks of the hand is worked out, @reckon may change a copy of it: by what was measured. */
void carpace_planner_reckon (CarpacePlanner *planner, void (*reckon) (void *user, CarpacePlan *plan), void *user);

/** @changed is called after every change of what is below. */
void carpace_planner_listen (CarpacePlanner *planner, void (*changed) (void *user), void *user);

/* ---- what it is ---- */

GBytes *carpace_planner_bytes (const CarpacePlanner *planner);

/** The plan: as it is tried, else as the file has it, or as it last had it without a fault; NULL where it never was
 * without one. */
const CarpacePlan *carpace_planner_plan (const CarpacePlanner *planner);

/** What that plan asks; meaningless where there is none. */
const CarpaceDayLoad *carpace_planner_load (const CarpacePlanner *planner);

/** Whether the file has no fault. Warnings may be there. */
bool carpace_planner_is_sound (const CarpacePlanner *planner);

/** Whether anything can be edited: the file can be read as far as its keys and values. */
bool carpace_planner_can_edit (const CarpacePlanner *planner);

/** CarpacePlannerFault, in the order of the file. */
const GPtrArray *carpace_planner_faults (const CarpacePlanner *planner);

/** Whether the path @inner is @path, or of what stands there. */
bool carpace_planner_is_within (const char *inner, const char *path);

/** The first fault, else the first warning, of what stands at @path or within it; NULL where there is none. */
const CarpacePlannerFault *carpace_planner_fault_at (const CarpacePlanner *planner, const char *path);

/** What stands at @path in the file, NULL where nothing does. */
const CarpacePlanValue *carpace_planner_value (const CarpacePlanner *planner, const char *path);

/** What holds at @path, as a plan's file has it: what stands there, or what is usual. g_free() it */
char *carpace_planner_text (const CarpacePlanner *planner, const char *path);

/** The same a step higher or lower, within its range; NULL where it has no steps. g_free() it */
char *carpace_planner_stepped (const CarpacePlanner *planner, const char *path, int by);

/** What the table says of @path, NULL where it is a text or not of it. */
const CarpaceKeyFacts *carpace_planner_facts (const CarpacePlanner *planner, const char *path);

/* ---- changes ---- */

/** One step: all of the edits or none.
 * @return CARPACE_EDIT_DONE, or why not */
CarpacePlanEditEnd carpace_planner_edit (CarpacePlanner *planner, const CarpacePlanEdit *edits, int32_t n_edits);

/** What was typed as a plan's file has it: a comma between digits is a point, and a number alone gets the unit of
 * @usual, what stood there (NULL: it is a text). g_free() it */
char *carpace_planner_typed (const char *text, const char *usual);

/** Sets @path to that. What is empty takes the key away, so that what is usual holds. */
CarpacePlanEditEnd carpace_planner_type (CarpacePlanner *planner, const char *path, const char *text, const char *usual);

/** The whole file anew. */
void carpace_planner_write (CarpacePlanner *planner, const char *text);

/** A copy of the plan to be changed by carpace_plan_try_...() and shown; NULL where the plan has a fault. */
CarpacePlan *carpace_planner_try (CarpacePlanner *planner);
bool carpace_planner_is_trying (const CarpacePlanner *planner);
/** The plan that is tried has changed. */
void carpace_planner_tried (CarpacePlanner *planner);
/** It becomes edits, in one step, or is let go.
 * @return CARPACE_EDIT_DONE, or why not: then it is let go */
CarpacePlanEditEnd carpace_planner_take (CarpacePlanner *planner);
void carpace_planner_let_go (CarpacePlanner *planner);

/** Does what would ease the plan most. */
CarpacePlanEditEnd carpace_planner_ease (CarpacePlanner *planner);

/* Blocks and drills, one step each; a plan with a fault, and the blocks of a split, are left as they are
 * (CARPACE_EDIT_NOT_THERE). Where the dose was the sum of the limits it stays that; shares still add up. */

CarpacePlanEditEnd carpace_planner_duplicate_block (CarpacePlanner *planner, int32_t block);
CarpacePlanEditEnd carpace_planner_remove_block (CarpacePlanner *planner, int32_t block);
/** @drill as the last of @block. */
CarpacePlanEditEnd carpace_planner_add_part (CarpacePlanner *planner, int32_t block, int32_t drill);
CarpacePlanEditEnd carpace_planner_remove_part (CarpacePlanner *planner, int32_t block, int32_t part);
/** A drill behind the last, which no block has yet. */
CarpacePlanEditEnd carpace_planner_add_drill (CarpacePlanner *planner, const char *name);
CarpacePlanEditEnd carpace_planner_duplicate_drill (CarpacePlanner *planner, int32_t drill, const char *name);
CarpacePlanEditEnd carpace_planner_move_drill (CarpacePlanner *planner, int32_t drill, int32_t to);
/** Takes it out of its blocks, too. */
CarpacePlanEditEnd carpace_planner_remove_drill (CarpacePlanner *planner, int32_t drill);
/** Whether a block would be left with none, or the plan. */
bool carpace_planner_is_alone (const CarpacePlanner *planner, int32_t drill);

/** A day in other blocks. */
typedef struct
{
  CarpacePlan plan;
  CarpaceSplitFound found;
  CarpaceDayLoad load;
} CarpacePlannerSplit;

/** Works one out; nothing is changed. @return false where there is none, or the plan has a fault */
bool carpace_planner_split (const CarpacePlanner *planner, int32_t into, CarpacePlannerSplit *ret_split);

/** Writes the blocks of @want in place of those there are. */
CarpacePlanEditEnd carpace_planner_put_blocks (CarpacePlanner *planner, const CarpacePlan *want);

/** Writes the blocks that the plan's own split comes to in its place. */
CarpacePlanEditEnd carpace_planner_write_out (CarpacePlanner *planner);

bool carpace_planner_can_undo (const CarpacePlanner *planner);
bool carpace_planner_can_redo (const CarpacePlanner *planner);
void carpace_planner_undo (CarpacePlanner *planner);
void carpace_planner_redo (CarpacePlanner *planner);

/** The bytes stand on the disk now. */
void carpace_planner_saved (CarpacePlanner *planner);
bool carpace_planner_is_unsaved (const CarpacePlanner *planner);

#endif
