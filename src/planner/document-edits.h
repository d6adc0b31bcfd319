/* SPDX-License-Identifier: GPL-3.0-or-later */
/** document-edits.h: edits that belong together, with the texts they point at. */
#ifndef CARPACE_PLANNER_DOCUMENT_EDITS_H
#define CARPACE_PLANNER_DOCUMENT_EDITS_H

#include "planner/document-private.h"

typedef struct
{
  GArray *edits; /* CarpacePlanEdit */
  GStringChunk *texts;
} CarpaceEdits;

void carpace_edits_init (CarpaceEdits *edits);

/** @param edit its path and value are the ones behind it. @param value may be NULL */
void carpace_edits_add (CarpaceEdits *edits, CarpacePlanEdit edit, const char *value, const char *path, ...) G_GNUC_PRINTF (4, 5);
void carpace_edits_set_ms (CarpaceEdits *edits, int64_t ms, const char *path, ...) G_GNUC_PRINTF (3, 4);
void carpace_edits_set_share (CarpaceEdits *edits, int32_t share, int32_t block, int32_t part);

/** Does all of them as one step, and clears. None is none to be undone. */
CarpacePlanEditEnd carpace_edits_do (CarpaceEdits *edits, CarpacePlanner *planner);

/** Whether they have the same drills in the same order, whatever their shares. */
bool carpace_edits_same_drills (const CarpaceBlock *a, const CarpaceBlock *b);

#endif
