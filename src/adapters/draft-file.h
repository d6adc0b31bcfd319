/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * draft-file.h: what was changed and not saved yet, kept beside the diary, so that a crash takes nothing away.
 *
 * One file a document, 0600, in a folder of the state folder, under a name made from the document's path. It is
 * locked while a window has it: another window on the same document has none.
 */
#ifndef CARPACE_DRAFT_FILE_H
#define CARPACE_DRAFT_FILE_H

#include <glib.h>
#include <stdbool.h>

typedef struct CarpaceDraft CarpaceDraft;

/** @param path the document's, absolute; NULL: it has none yet @param folder NULL: the usual one
 * @return NULL where another window has it, or none can be kept */
CarpaceDraft *carpace_draft_open (const char *path, const char *folder);

/** Lets go of it; what it holds stays. NULL is fine. */
void carpace_draft_free (CarpaceDraft *draft);

/** What it was left with, NULL where that is nothing. */
GBytes *carpace_draft_left (const CarpaceDraft *draft);

/** @return whether it is kept */
bool carpace_draft_write (CarpaceDraft *draft, const char *bytes, gsize n);

/** Nothing is unsaved any more. */
void carpace_draft_clear (CarpaceDraft *draft);

#endif
