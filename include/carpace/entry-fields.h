/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * entry-fields.h: what an entry is made of, field by field.
 *
 * One table from which the diary's file, its exports and its imports are all
 * written and read, so that none of them can forget a field.
 */
#ifndef CARPACE_ENTRY_FIELDS_H
#define CARPACE_ENTRY_FIELDS_H

#include "carpace/names.h"
#include "carpace/session.h"

/** How a field is told. Every field is one whole number inside. */
typedef enum
{
  CARPACE_FIELD_NUMBER,  /**< a count, a rating, a share */
  CARPACE_FIELD_MAYBE,   /**< the same, -1 where there is none */
  CARPACE_FIELD_MS,      /**< a length of time, ms */
  CARPACE_FIELD_FLAG,    /**< 0 or 1 */
  CARPACE_FIELD_WORD,    /**< one of a closed set */
  CARPACE_FIELD_SIGNS,   /**< a set of CarpaceSign, bits 1u << sign */
  CARPACE_FIELD_DAY      /**< a date */
} CarpaceFieldType;

/** One field of one kind of entry. */
typedef struct
{
  const char *name;      /**< lower case and `_`; its unit is in it */
  CarpaceFieldType type;
  CarpaceWords words;    /**< WORD: of which set */
  int64_t least, most;   /**< range, both included */
  size_t offset, bytes;  /**< where it is in a CarpaceEntry */
} CarpaceField;

/** Most fields that one kind has. */
#define CARPACE_ENTRY_FIELDS 24

/** The fields of @kind, in the order they are written. */
const CarpaceField *carpace_entry_fields (CarpaceEntryKind kind, int32_t *ret_n);

/** The field of @kind by its name; NULL where there is none. */
const CarpaceField *carpace_entry_field (CarpaceEntryKind kind, const char *name);

/** What @field of @entry is. */
int64_t carpace_field_get (const CarpaceField *field, const CarpaceEntry *entry);

/** Sets @field of @entry. @return false, nothing changed, where @value is out of its range */
bool carpace_field_set (const CarpaceField *field, CarpaceEntry *entry, int64_t value);

/** An entry of @kind with nothing said in it: MAYBE fields none, all others 0. */
void carpace_entry_init (CarpaceEntry *ret_entry, CarpaceEntryKind kind, CarpaceInstant at);

/** Whether @a and @b tell the same, their moments included. */
bool carpace_entry_equal (const CarpaceEntry *a, const CarpaceEntry *b);

#endif
