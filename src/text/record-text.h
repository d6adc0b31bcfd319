/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * record-text.h: records of the diary as keys and texts, out and back in.
 *
 * The forms a diary goes out in (csv, json) differ in how they put keys and
 * texts into a file; what those are is the same for all and stands here. What
 * comes in comes from strangers: each text is checked as if it wanted harm.
 */
#ifndef CARPACE_TEXT_RECORD_TEXT_H
#define CARPACE_TEXT_RECORD_TEXT_H

#include <glib.h>

#include "carpace/diary.h"
#include "carpace/entry-fields.h"

/** What can be wrong with something that is to be taken in. */
typedef enum
{
  CARPACE_INTAKE_FINE,
  CARPACE_INTAKE_NOT_TEXT,     /**< no UTF-8, or control bytes in it */
  CARPACE_INTAKE_NOT_THE_FORM, /**< broken: no CSV, no JSON object */
  CARPACE_INTAKE_TOO_LONG,     /**< a line */
  CARPACE_INTAKE_TOO_DEEP,     /**< arrays or objects within each other */
  CARPACE_INTAKE_MISSING,      /**< the key (column) */
  CARPACE_INTAKE_TWICE,        /**< the key (column) */
  CARPACE_INTAKE_UNKNOWN_KIND,
  CARPACE_INTAKE_NOT_A_WORD,   /**< none of the key's words */
  CARPACE_INTAKE_NOT_A_NUMBER,
  CARPACE_INTAKE_OUT_OF_RANGE,
  CARPACE_INTAKE_NOT_A_TIME,
  CARPACE_INTAKE_NOT_A_DATE,
  CARPACE_INTAKE_NOTE_TOO_LONG,
  CARPACE_INTAKE_NEWER,        /**< written by a later Carpace */
  CARPACE_INTAKE_NOT_KEPT      /**< the diary could not take it; it has told why */
} CarpaceIntakeFault;

/** The kind of a line that is about a day, and of one that begins a file. */
#define CARPACE_KIND_ABOUT_DAY "about-day"
#define CARPACE_KIND_DIARY "diary"

/** One line: a record, or what is about a day. */
typedef struct
{
  bool about_day;
  CarpaceDay day;
  CarpaceEntry entry; /**< of a record */
  int64_t other_ms;   /**< about a day, -1 where not known */
  const char *note;   /**< NULL where none; as the lookup gave it */
} CarpaceLine;

/** The text of a key; NULL or "" where the line does not have it. */
typedef const char *(*CarpaceLineLookup) (void *user, const char *key);

/** What @field of @entry says, NULL where it says nothing. g_free() it. */
char *carpace_field_text (const CarpaceField *field, const CarpaceEntry *entry);

/** Reads it back. "" and NULL leave a field unsaid that may be; any other is missing then. */
CarpaceIntakeFault carpace_field_read (const CarpaceField *field, const char *text, CarpaceEntry *entry);

/** Reads a whole line. @param ret_key the key that is wrong, set on a fault */
CarpaceIntakeFault carpace_line_read (CarpaceLineLookup lookup, void *user, CarpaceLine *ret_line,
                                      const char **ret_key);

/** Hands @line to @keeper and counts it. */
CarpaceIntakeFault carpace_line_keep (const CarpaceLine *line, const CarpaceDiaryKeeper *keeper,
                                      CarpaceIntake *intake);

/** One sentence on @fault; @key and @value may be NULL. g_free() it. */
char *carpace_text_intake_fault (CarpaceIntakeFault fault, const char *key, const char *value);

/** Ends the taking in: keeps it where there was no fault, else takes all of it
 * back and leaves fault and line in *intake. @return whether it was kept */
bool carpace_intake_end (const CarpaceDiaryKeeper *keeper, CarpaceIntakeFault fault, const char *key,
                         const char *value, int32_t line, CarpaceIntake *intake);

#endif
