/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * wording.h: what can be wrong with the words of a command or a script.
 *
 * Found by the readers in app/, told in sentences by text/.
 */
#ifndef CARPACE_WORDING_H
#define CARPACE_WORDING_H

#include "carpace/names.h"

/** What is wrong with a command's words. */
typedef enum
{
  CARPACE_WORDING_OK,
  CARPACE_WORDING_UNKNOWN,     /**< no such command; `at` is 0 */
  CARPACE_WORDING_MISSING,     /**< a word is missing, at `at` */
  CARPACE_WORDING_TOO_MANY,    /**< word `at` is one too many */
  CARPACE_WORDING_NOT_A_RATING,/**< word `at` is no whole number from 0 to 10 */
  CARPACE_WORDING_NOT_OF_SET,  /**< word `at` is none of `set` */
  CARPACE_WORDING_NOT_ON_OFF,  /**< word `at` is neither `on` nor `off` */
  CARPACE_WORDING_NOT_OPTION,  /**< word `at` is no option of this command */
  CARPACE_WORDING_NOT_A_DATE,  /**< word `at` is no date YYYY-MM-DD */
  CARPACE_WORDING_NOT_A_DOSE,  /**< word `at` is no time from 1 min to 8 h */
  CARPACE_WORDING_NOT_A_COUNT, /**< word `at` is no whole number from 0 to 1000000 */
  CARPACE_WORDING_TWICE,       /**< word `at` says again what was said */
  CARPACE_N_WORDINGS
} CarpaceWordingFault;

typedef struct
{
  CarpaceWordingFault fault;
  int at;            /**< index of the word */
  CarpaceWords set;  /**< NOT_OF_SET */
} CarpaceWording;

/** What is wrong with a line of a rehearsal script. */
typedef enum
{
  CARPACE_SCRIPT_TOO_LARGE,     /**< over CARPACE_SCRIPT_BYTES; of the whole file */
  CARPACE_SCRIPT_NOT_TEXT,      /**< not UTF-8, or a control byte */
  CARPACE_SCRIPT_TOO_MANY_WORDS,
  CARPACE_SCRIPT_NOT_A_TIME,    /**< `word` is no h:mm:ss or h:mm:ss.mmm */
  CARPACE_SCRIPT_TIME_GOES_BACK,/**< before the line above */
  CARPACE_SCRIPT_NO_WORD,       /**< a time and nothing after it */
  CARPACE_SCRIPT_WORDING,       /**< `wording` tells */
  CARPACE_SCRIPT_AT_NOT_FIRST,  /**< `at` after another line */
  CARPACE_SCRIPT_NOT_AN_INSTANT,/**< `word` is no ISO 8601 time with an offset */
  CARPACE_SCRIPT_NO_SUCH_ZONE,  /**< the machine knows no zone `word` */
  CARPACE_SCRIPT_NOT_A_SHIFT,   /**< `word` is no +h:mm:ss or -h:mm:ss */
  CARPACE_SCRIPT_AFTER_STOP,    /**< a line after `stop` */
  CARPACE_SCRIPT_NO_MEMORY,
  CARPACE_N_SCRIPT_FAULTS
} CarpaceScriptFaultKind;

/** One fault of a script. */
typedef struct
{
  CarpaceScriptFaultKind kind;
  int32_t line;           /**< from 1; 0 where it is of the whole file */
  const char *word;       /**< the word it is about, "" where none; valid during the call */
  const char *command;    /**< WORDING: the command's own word */
  const char *nearest;    /**< WORDING, UNKNOWN: a word that would do, NULL where none is near */
  CarpaceWording wording; /**< WORDING; `at` counts from the command's word */
} CarpaceScriptFault;

#endif
