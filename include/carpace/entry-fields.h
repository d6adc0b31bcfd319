/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * entry-fields.h: what an entry is made of, kind by kind.
 */
#ifndef CARPACE_ENTRY_FIELDS_H
#define CARPACE_ENTRY_FIELDS_H

#include "carpace/fields.h"
#include "carpace/session.h"

/** Most fields that one kind has. */
#define CARPACE_ENTRY_FIELDS 40

/** The fields of @kind, in the order they are written. */
const CarpaceField *carpace_entry_fields (CarpaceEntryKind kind, int32_t *ret_n);

/** The field of @kind by its name; NULL where there is none. */
const CarpaceField *carpace_entry_field (CarpaceEntryKind kind, const char *name);

/** An entry of @kind with nothing said in it. */
void carpace_entry_init (CarpaceEntry *ret_entry, CarpaceEntryKind kind, CarpaceInstant at);

/** Whether @a and @b tell the same, their moments included. */
bool carpace_entry_equal (const CarpaceEntry *a, const CarpaceEntry *b);

#endif
