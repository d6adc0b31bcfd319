/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * commands.h: the words of live commands and scripts, read into events.
 *
 * `start`, `rate 2 palm-side`, `morning 1 usual --now 0`, ... mean the same on
 * the command line, over the bus and in a rehearsal's script.
 */
#ifndef CARPACE_COMMANDS_H
#define CARPACE_COMMANDS_H

#include "carpace/names.h"
#include "carpace/session.h"

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
  CARPACE_WORDING_TWICE,       /**< word `at` says again what was said */
  CARPACE_N_WORDINGS
} CarpaceWordingFault;

typedef struct
{
  CarpaceWordingFault fault;
  int at;            /**< index of the word */
  CarpaceWords set;  /**< NOT_OF_SET */
} CarpaceWording;

/** Reads @words. Takes the command line's forms (`start --match`) and a
 * script's (`start match`).
 * @return true and *ret_event; else *ret_wording says what is wrong */
bool carpace_command_read (int n_words, const char *const *words, CarpaceEvent *ret_event,
                           CarpaceWording *ret_wording);

/** The first words that carpace_command_read() knows, in its order; NULL past
 * the last. */
const char *carpace_command_word (int index);

#endif
