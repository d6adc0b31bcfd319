/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * names.h: the words of files, commands and rehearsals, and what they stand for.
 *
 * Stable, in English and never translated: what a person reads comes from text/.
 */
#ifndef CARPACE_NAMES_H
#define CARPACE_NAMES_H

#include "carpace/plan.h"
#include "carpace/session.h"

/** Closed sets of words. */
typedef enum
{
  CARPACE_WORDS_STATE,
  CARPACE_WORDS_CUE,
  CARPACE_WORDS_SITE,
  CARPACE_WORDS_EVENT,
  CARPACE_WORDS_ENTRY,
  CARPACE_WORDS_DAY_WHAT,
  CARPACE_WORDS_BLOCK_WHAT,
  CARPACE_WORDS_PLAN_WHAT,
  CARPACE_WORDS_CUE_WHAT,
  CARPACE_WORDS_REST_WHAT,
  CARPACE_WORDS_CAUTION_WHAT,
  CARPACE_WORDS_CAUTION_ANSWER,
  CARPACE_WORDS_SEEN_BY,
  CARPACE_WORDS_STIFFNESS,
  CARPACE_WORDS_SIGN,
  CARPACE_WORDS_RULE,
  CARPACE_WORDS_SCOPE,
  CARPACE_WORDS_FINDING,
  CARPACE_WORDS_UNCOUNTED,
  CARPACE_WORDS_REFUSAL,
  CARPACE_WORDS_SIDE,
  CARPACE_WORDS_GRIP,
  CARPACE_WORDS_AGE,
  CARPACE_WORDS_MOVEMENT,
  CARPACE_WORDS_GROUP,
  CARPACE_WORDS_REGION,
  CARPACE_WORDS_EXERCISE,
  CARPACE_WORDS_EXERCISE_KIND,
  CARPACE_WORDS_PLAN_KEY, /**< dotted paths: "micro-rest.after" */
  CARPACE_WORDS_DRILL_KEY,
  CARPACE_WORDS_EFFORTS_FROM,
  CARPACE_WORDS_ON_AIR_FROM,
  CARPACE_WORDS_WEEKDAY,
  CARPACE_WORDS_SPLIT,
  CARPACE_WORDS_CORNER,
  CARPACE_WORDS_MONITOR,
  CARPACE_WORDS_ROLE,
  CARPACE_WORDS_GRANT_WHAT,
  CARPACE_WORDS_BUNDLE,
  CARPACE_N_WORDS
} CarpaceWords;

/** The word for @value of @words; NULL where @value is not of the set. */
const char *carpace_name (CarpaceWords words, int32_t value);

/** How many words the set has. */
int32_t carpace_names_count (CarpaceWords words);

/** What @word stands for in @words. @return -1 where it is none of them */
int32_t carpace_name_value (CarpaceWords words, const char *word);

/** What @word stood for in @words until it was given another word; files still
 * hold the former one. @return -1 where it is none */
int32_t carpace_name_former (CarpaceWords words, const char *word);

/** Into how many blocks @word of CARPACE_WORDS_SPLIT divides. @return -1 where it is none */
int32_t carpace_name_split (const char *word);

/** The word of the set that is nearest to @word (fewest letters changed, added
 * or taken away; at most a third of its length). @return its value, -1 where
 * none is near */
int32_t carpace_name_nearest (CarpaceWords words, const char *word);

/** Letters (bytes) to change, add or take away to make @b of @a; words of over
 * 80 bytes are as far apart as the longer one is long. */
size_t carpace_word_distance (const char *a, const char *b);

#endif
