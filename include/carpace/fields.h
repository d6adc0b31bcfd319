/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * fields.h: what a value is made of, field by field.
 *
 * One table for each kind of entry and of event. Files, exports, imports and
 * comparisons iterate it, so that none of them can forget a field.
 */
#ifndef CARPACE_FIELDS_H
#define CARPACE_FIELDS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "carpace/instant.h"
#include "carpace/names.h"

/** How a field is told. Every field is one whole number inside. */
typedef enum
{
  CARPACE_FIELD_NUMBER,  /**< a count, a rating, a share */
  CARPACE_FIELD_MAYBE,   /**< the same, -1 where there is none */
  CARPACE_FIELD_MS,      /**< a length of time, or elapsed time, ms */
  CARPACE_FIELD_FLAG,    /**< 0 or 1 */
  CARPACE_FIELD_WORD,    /**< one of a closed set */
  CARPACE_FIELD_SIGNS,   /**< a set of CarpaceSign, bits 1u << sign */
  CARPACE_FIELD_DAY      /**< a date */
} CarpaceFieldType;

/* What a number can be at most, in a diary that anybody may have written: faces
 * draw it, sums add it up. A block's time is less than a week; what goes on while
 * nobody is there (a wait, mouse input outside practice) can be years. */
#define CARPACE_FIELD_LENGTH_MS (7 * CARPACE_DAY_MS)
#define CARPACE_FIELD_LONG_MS (20 * 366 * CARPACE_DAY_MS)
#define CARPACE_FIELD_ELAPSED_MS (300 * 366 * CARPACE_DAY_MS)
/* From 1970-01-01 to 2199-12-31. */
#define CARPACE_FIELD_DAY_FIRST 0
#define CARPACE_FIELD_DAY_LAST 84005

/** One field. */
typedef struct
{
  const char *name;      /**< lower case and `_`; its unit is in it */
  CarpaceFieldType type;
  CarpaceWords words;    /**< WORD: of which set */
  int64_t least, most;   /**< range, both included */
  size_t offset, bytes;  /**< where it is in the entry or event */
  bool later;            /**< what is older does not have it: then 0, or none */
} CarpaceField;

/** What @field of @value (the entry or event that its table is of) is. */
int64_t carpace_field_get (const CarpaceField *field, const void *value);

/** Sets @field of @value. @return false, nothing changed, where @number is out of its range */
bool carpace_field_set (const CarpaceField *field, void *value, int64_t number);

/** Leaves every one of @n fields of @value unsaid: MAYBE fields none, all others 0. */
void carpace_fields_init (const CarpaceField *field, int32_t n, void *value);

/** Whether @a and @b are the same in each of @n fields. */
bool carpace_fields_equal (const CarpaceField *field, int32_t n, const void *a, const void *b);

/** The field of that name among @n; NULL where there is none. */
const CarpaceField *carpace_field_named (const CarpaceField *field, int32_t n, const char *name);

#endif
