/* SPDX-License-Identifier: GPL-3.0-or-later */
/* document-private.h: what the files of a document share.
 *
 *   document.c        bytes, read anew after every step
 *   document-edits.c  edits that belong together
 *   document-lists.c  blocks and drills that come, go and move
 *   document-split.c  the day in other blocks
 *   document-take.c   what was tried, made into edits
 *   document-typed.c  what was typed, as a plan's file has it
 *   document-usual.c  what holds at a path
 */
#ifndef CARPACE_PLANNER_DOCUMENT_PRIVATE_H
#define CARPACE_PLANNER_DOCUMENT_PRIVATE_H

#include "forms/plan-edit-undo.h"
#include "planner/document.h"

struct CarpacePlanner
{
  CarpaceUndo *undo;
  CarpacePlanValues *values; /* NULL: the file cannot be read that far */
  CarpacePlan *plan;         /* as it last was without a fault; NULL: never */
  CarpacePlan *tried;        /* NULL: nothing is */
  bool sound;
  CarpaceDayLoad load;
  GPtrArray *faults;
  void (*reckon) (void *user, CarpacePlan *plan);
  void *reckon_user;
  void (*changed) (void *user);
  void *user;
};

#endif
