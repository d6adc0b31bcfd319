/* SPDX-License-Identifier: GPL-3.0-or-later */
/** plan-edit-undo.h: the states of a plan's file, to go back and forth in. A value: no file, no clock. */
#ifndef CARPACE_FORMS_PLAN_EDIT_UNDO_H
#define CARPACE_FORMS_PLAN_EDIT_UNDO_H

#include <glib.h>
#include <stdbool.h>

/** Steps back that are kept, and their bytes in all; of more the oldest are let go. */
#define CARPACE_UNDO_STEPS 200
#define CARPACE_UNDO_BYTES (8 * 1024 * 1024)

typedef struct CarpaceUndo CarpaceUndo;

/** @param first the file as it was opened; a reference is taken */
CarpaceUndo *carpace_undo_new (GBytes *first);
void carpace_undo_free (CarpaceUndo *undo);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CarpaceUndo, carpace_undo_free)

/** The file as it is; the list's own. */
GBytes *carpace_undo_now (const CarpaceUndo *undo);

/** Adds a state behind the one that is; what was undone is gone. The same bytes again are no state. */
void carpace_undo_add (CarpaceUndo *undo, GBytes *bytes);

/** One step. @return whether there was one */
bool carpace_undo_back (CarpaceUndo *undo);
bool carpace_undo_forth (CarpaceUndo *undo);
bool carpace_undo_can_go_back (const CarpaceUndo *undo);
bool carpace_undo_can_go_forth (const CarpaceUndo *undo);

/** Says that the state that is stands on the disk now. */
void carpace_undo_saved (CarpaceUndo *undo);

/** Whether the state that is differs from what was opened or saved last. */
bool carpace_undo_is_unsaved (const CarpaceUndo *undo);

#endif
