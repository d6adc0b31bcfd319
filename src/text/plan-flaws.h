/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-flaws.h: what is wrong with a plan file, in one sentence each: what is
 * wrong; what would be right. Whatever the file says is quoted, short and
 * harmless. All results are the caller's to g_free().
 */
#ifndef CARPACE_TEXT_PLAN_FLAWS_H
#define CARPACE_TEXT_PLAN_FLAWS_H

#include "carpace/ceiling.h"
#include "carpace/plan-builder.h"
#include "carpace/quantity.h"

/** A flaw the builder told.
 * @param plan what it was told of (the builder's own)
 * @param word what stands at its place, NULL where nothing does */
char *carpace_text_plan_flaw (const CarpaceFlaw *flaw, const CarpacePlan *plan, const char *word);

/** What can be wrong before the builder sees it. */
typedef enum
{
  CARPACE_READ_TOO_LARGE,
  CARPACE_READ_NOT_UTF8,
  CARPACE_READ_CONTROL_BYTE,
  CARPACE_READ_NOT_YAML,        /**< `word` is the reader's own message */
  CARPACE_READ_NOT_CLOSED,      /**< `word` is the bracket that is opened here */
  CARPACE_READ_NOT_OPENED,      /**< `word` is the bracket that closes nothing here */
  CARPACE_READ_NO_COMMA,        /**< before `word` */
  CARPACE_READ_EMPTY,
  CARPACE_READ_SECOND_DOCUMENT,
  CARPACE_READ_TOO_DEEP,
  CARPACE_READ_ANCHOR,
  CARPACE_READ_ALIAS,
  CARPACE_READ_TAG,             /**< `word` is the tag */
  CARPACE_READ_NOT_FIXABLE,     /**< `!fixed` where it means nothing */
  CARPACE_READ_UNFIT_TEXT,      /**< escapes that make no text */
  CARPACE_READ_KEY_NOT_A_WORD,
  CARPACE_READ_UNKNOWN_KEY,     /**< `set` are the known ones */
  CARPACE_READ_KEY_TWICE,       /**< `line` is the first one's */
  CARPACE_READ_KEY_MISSING,     /**< `key` */
  CARPACE_READ_NOT_A_MAPPING,   /**< `set` are the keys it takes */
  CARPACE_READ_NOT_A_LIST,
  CARPACE_READ_NOT_A_VALUE,
  CARPACE_READ_QUOTED_NUMBER,
  CARPACE_READ_UNKNOWN_WORD,    /**< `set` are the known ones */
  CARPACE_READ_BAD_QUANTITY,    /**< `unit` and `quantity` */
  CARPACE_READ_BAD_SPLIT,
  CARPACE_READ_OTHER_VERSION
} CarpaceReadKind;

/** One fault of reading. */
typedef struct
{
  CarpaceReadKind kind;
  const char *key;         /**< dotted path of the key it is about, "" for the whole file */
  const char *word;        /**< what stands there, NULL where nothing does */
  const char *const *set;  /**< the words that would be right, NULL at the end; or NULL */
  CarpaceUnit unit;
  const char *none;        /**< the word the key takes for none, or NULL */
  CarpaceQuantityFault quantity;
  int32_t line;
} CarpaceReadFault;

char *carpace_text_read_fault (const CarpaceReadFault *fault);

/** More faults than are told. */
char *carpace_text_more_faults (int32_t n);

/** What @plan is looser in than what is held. @return a sentence with the fixed number; g_free() it */
char *carpace_text_breach (const CarpaceCeiling *ceiling, const CarpaceBreach *breach);

/** A held value of @key as a plan file has it; g_free() it. */
char *carpace_text_held_value (const CarpaceCeiling *ceiling, CarpacePlanKey key);

/** All that is held, a line a thing; g_free() it. */
char *carpace_text_held (const CarpaceCeiling *ceiling);

/** Why a version that is higher than the one @given is not loaded. */
char *carpace_text_newer_version (int32_t version, int32_t given);

/** What can be wrong with plan files as files. */
typedef enum
{
  CARPACE_PLAN_FILE_UNKNOWN,    /**< neither a known word nor a file; `set` are the words */
  CARPACE_PLAN_FILE_UNREADABLE, /**< `why` */
  CARPACE_PLAN_FILE_NO_FILE,    /**< a folder, a device */
  CARPACE_PLAN_FILE_UNWRITABLE, /**< `why` */
  CARPACE_PLAN_FILE_EXISTS,
  CARPACE_PLAN_FILE_DAMAGED,    /**< one of the player's own; `path` is its word */
  CARPACE_PLAN_FILE_NONE_IN_USE
} CarpacePlanFileKind;

/** @param why the system's own (translated) message, or NULL */
char *carpace_text_plan_file (CarpacePlanFileKind kind, const char *path, const char *why, const char *const *set);

#endif
