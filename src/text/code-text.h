/* SPDX-License-Identifier: GPL-3.0-or-later */
/** code-text.h: players' codes, and what is wrong with one or with a list of them, in words. */
#ifndef CARPACE_TEXT_CODE_TEXT_H
#define CARPACE_TEXT_CODE_TEXT_H

#include <stdint.h>

/** Characters of a code at most: it stands in names of files and on pages. */
#define CARPACE_CODE_LONGEST 20

/** What can be wrong. */
typedef enum
{
  CARPACE_CODE_FINE,
  CARPACE_CODE_EMPTY,
  CARPACE_CODE_TOO_LONG,
  CARPACE_CODE_CHARACTERS, /**< something other than letters a-z and A-Z, digits, - and _, or one of these first */
  CARPACE_CODE_TWICE,      /**< `before` is the first one's line; capitals make no other */
  CARPACE_CODE_TOO_MANY,
  CARPACE_CODE_NOT_UTF8,
  CARPACE_CODE_NONE        /**< in the whole list */
} CarpaceCodeKind;

/** One fault of a list. */
typedef struct
{
  CarpaceCodeKind kind;
  int32_t line;     /**< from 1; 0: it is no list, or of no line */
  const char *word; /**< what stands there, or NULL */
  int32_t before;
} CarpaceCodeFault;

/** One sentence: what is wrong; what would be right. The caller's to g_free(). */
char *carpace_text_code_fault (const CarpaceCodeFault *fault);

#endif
