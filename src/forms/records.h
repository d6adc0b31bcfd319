/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * records.h: records of the diary as keys and texts, out and back in.
 *
 * The forms a diary goes out in (csv, json) differ in how they put keys and
 * texts into a file; what those are is the same for all and stands here. What
 * comes in comes from strangers: each text is checked as if it wanted harm.
 */
#ifndef CARPACE_FORMS_RECORDS_H
#define CARPACE_FORMS_RECORDS_H

#include <glib.h>

#include "carpace/diary.h"
#include "carpace/entry-fields.h"
#include "carpace/event-kinds.h"
#include "text/intake-text.h"

/** The kind of a line that is about a day, and of one that begins a file. */
#define CARPACE_KIND_ABOUT_DAY "about-day"
#define CARPACE_KIND_DIARY "diary"

/** Kinds of a line about the day under way: what was told of it, and when the program was last known to live. */
#define CARPACE_KIND_EVENT "event"
#define CARPACE_KIND_ALIVE "alive"

/** The kind of a line about a plan that was given, released, or a day's own. */
#define CARPACE_KIND_PLAN "plan"

/** Keys that say whose diary a file is of. */
#define CARPACE_KEY_WHOSE "diary"
#define CARPACE_KEY_JOINED "joined"
#define CARPACE_KEY_CODE "code"

/** What a line is. */
typedef enum
{
  CARPACE_LINE_RECORD,
  CARPACE_LINE_ABOUT_DAY,
  CARPACE_LINE_EVENT,
  CARPACE_LINE_ALIVE,
  CARPACE_LINE_PLAN
} CarpaceLineKind;

/** One line. */
typedef struct
{
  CarpaceLineKind kind;
  CarpaceDay day;     /**< of a record, or that it is about */
  CarpaceEntry entry; /**< of a record */
  int64_t other_ms;   /**< about a day, -1 where not known */
  const char *note;   /**< of both, NULL where none; as the lookup gave it */
  CarpaceInstant at;  /**< of an event, or last alive */
  CarpaceEvent event;
  bool ended_well;    /**< alive */
  CarpacePlanRecord plan; /**< texts as the lookup gave them */
} CarpaceLine;

/** The text of a key; NULL or "" where the line does not have it. */
typedef const char *(*CarpaceLineLookup) (void *user, const char *key);

/** What @field of @value (an entry or event) says, NULL where it says nothing. g_free() it. */
char *carpace_field_text (const CarpaceField *field, const void *value);

/** Reads it back. "" and NULL leave a field unsaid that may be; any other is missing then. */
CarpaceIntakeFault carpace_field_read (const CarpaceField *field, const char *text, void *value);

/** Reads a whole line. @param ret_key the key that is wrong, set on a fault */
CarpaceIntakeFault carpace_line_read (CarpaceLineLookup lookup, void *user, CarpaceLine *ret_line,
                                      const char **ret_key);

/** Reads what a first line (or each line, in a table) says of whose diary it is: `diary`, and `joined` where there are more. */
CarpaceIntakeFault carpace_line_whose (CarpaceLineLookup lookup, void *user, CarpaceIdentity *ret_identity,
                                       const char **ret_key);

/** Hands @line to @keeper and counts it. */
CarpaceIntakeFault carpace_line_keep (const CarpaceLine *line, const CarpaceDiaryKeeper *keeper,
                                      CarpaceIntake *intake);

/** Ends the taking in: keeps it where there was no fault, else takes all of it
 * back and leaves fault and line in *intake. @return whether it was kept */
bool carpace_intake_end (const CarpaceDiaryKeeper *keeper, CarpaceIntakeFault fault, const char *key,
                         const char *value, int32_t line, CarpaceIntake *intake);

#endif
