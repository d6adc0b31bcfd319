/* SPDX-License-Identifier: GPL-3.0-or-later */
/* field-rows.h: how a row of a table of fields is written. A file that includes
 * it says first which struct its rows are of: #define FIELDS_OF. */
#ifndef CARPACE_FIELD_ROWS_H
#define CARPACE_FIELD_ROWS_H

#include "carpace/fields.h"

#define COUNT_MOST 1000000

#define PLACE(member) offsetof (FIELDS_OF, member), sizeof (((FIELDS_OF *) NULL)->member)
#define NUMBER_OF(name, member, most) name, CARPACE_FIELD_NUMBER, CARPACE_N_WORDS, 0, most, PLACE (member)
#define MAYBE_OF(name, member, most) name, CARPACE_FIELD_MAYBE, CARPACE_N_WORDS, -1, most, PLACE (member)
#define MS_OF(name, member) name, CARPACE_FIELD_MS, CARPACE_N_WORDS, 0, CARPACE_FIELD_LENGTH_MS, PLACE (member)
#define LONG_MS_OF(name, member) name, CARPACE_FIELD_MS, CARPACE_N_WORDS, 0, CARPACE_FIELD_LONG_MS, PLACE (member)
#define ELAPSED_OF(name, member) \
  name, CARPACE_FIELD_MS, CARPACE_N_WORDS, -CARPACE_FIELD_ELAPSED_MS, CARPACE_FIELD_ELAPSED_MS, PLACE (member)
#define FLAG_OF(name, member) name, CARPACE_FIELD_FLAG, CARPACE_N_WORDS, 0, 1, PLACE (member)
#define WORD_OF(name, member, words, n) name, CARPACE_FIELD_WORD, words, 0, (n) - 1, PLACE (member)
#define DAY_OF(name, member) \
  name, CARPACE_FIELD_DAY, CARPACE_N_WORDS, CARPACE_FIELD_DAY_FIRST, CARPACE_FIELD_DAY_LAST, PLACE (member)
#define SIGNS_OF(name, member) \
  name, CARPACE_FIELD_SIGNS, CARPACE_WORDS_SIGN, 0, (INT64_C (1) << CARPACE_N_SIGNS) - 1, PLACE (member)

#define NUMBER(...) { NUMBER_OF (__VA_ARGS__) }
#define MAYBE(...) { MAYBE_OF (__VA_ARGS__) }
#define MS(...) { MS_OF (__VA_ARGS__) }
#define ELAPSED(...) { ELAPSED_OF (__VA_ARGS__) }
#define FLAG(...) { FLAG_OF (__VA_ARGS__) }
#define WORD(...) { WORD_OF (__VA_ARGS__) }
#define DAY(...) { DAY_OF (__VA_ARGS__) }
#define SIGNS(...) { SIGNS_OF (__VA_ARGS__) }

/* What an older file or export does not have. */
#define LATER_NUMBER(...) { NUMBER_OF (__VA_ARGS__), .later = true }
#define LATER_MAYBE(...) { MAYBE_OF (__VA_ARGS__), .later = true }
#define LATER_MS(...) { MS_OF (__VA_ARGS__), .later = true }
#define LATER_LONG_MS(...) { LONG_MS_OF (__VA_ARGS__), .later = true }
#define LATER_FLAG(...) { FLAG_OF (__VA_ARGS__), .later = true }
#define LATER_WORD(...) { WORD_OF (__VA_ARGS__), .later = true }
#define LATER_DAY(...) { DAY_OF (__VA_ARGS__), .later = true }

/* The morning check is told and recorded alike. */
#define MORNING(member)                                                                           \
  MAYBE ("waking", member.waking, 10),                                                            \
  WORD ("stiffness", member.stiffness, CARPACE_WORDS_STIFFNESS, CARPACE_N_STIFFNESSES),           \
  MAYBE ("now", member.now, 10),                                                                  \
  FLAG ("other_load", member.other_load),                                                         \
  FLAG ("pain_relief", member.pain_relief),                                                       \
  LATER_WORD ("site", member.site, CARPACE_WORDS_SITE, CARPACE_N_SITES)

/* So is how a caution was closed. */
#define CLOSING(member)                                                                           \
  LATER_WORD ("by", member.by, CARPACE_WORDS_SEEN_BY, CARPACE_N_SEEN_BYS),                        \
  LATER_DAY ("seen_on", member.on),                                                               \
  LATER_MS ("dose_ms", member.dose_ms)

typedef struct
{
  const CarpaceField *field;
  int32_t n;
} CarpaceFields;

#define ROW(fields) { fields, (int32_t) (sizeof (fields) / sizeof ((fields)[0])) }

#endif
