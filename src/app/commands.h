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
#include "carpace/wording.h"

/** Reads @words. Takes the command line's forms (`start --match`) and a
 * script's (`start match`).
 * @return true and *ret_event; else *ret_wording says what is wrong */
bool carpace_command_read (int n_words, const char *const *words, CarpaceEvent *ret_event,
                           CarpaceWording *ret_wording);

/** Reads the fact that a script tells with @words, at elapsed @at_ms.
 * @return true and *ret_event; else *ret_wording says what is wrong: where no fact is
 * called so, that its word is unknown */
bool carpace_fact_read (int n_words, const char *const *words, int64_t at_ms, CarpaceEvent *ret_event,
                        CarpaceWording *ret_wording);

/** The first words that carpace_command_read() knows, in its order; NULL past
 * the last. */
const char *carpace_command_word (int index);

#endif
