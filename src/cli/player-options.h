/* SPDX-License-Identifier: GPL-3.0-or-later */
/** player-options.h: a modelled player, as `carpace rehearse` is told of one. */
#ifndef CARPACE_CLI_PLAYER_OPTIONS_H
#define CARPACE_CLI_PLAYER_OPTIONS_H

#include "app/players.h"
#include "cli/options.h"

/** Numbers a player can be given. */
typedef enum
{
  CARPACE_NUMBER_TAKES,
  CARPACE_NUMBER_NOISE,
  CARPACE_NUMBER_STIFF,
  CARPACE_NUMBER_MISSES,
  CARPACE_NUMBER_DROPS,
  CARPACE_NUMBER_GROWS,
  CARPACE_NUMBER_USUAL,
  CARPACE_N_NUMBERS
} CarpacePlayerNumber;

/** How many options there are. */
#define CARPACE_PLAYER_OPTIONS (CARPACE_N_NUMBERS + 3)

/** What was typed. */
typedef struct
{
  const char *player, *hand;
  const char *number[CARPACE_N_NUMBERS];
  bool under_reports;
} CarpacePlayerWords;

/** Options that write into @words. */
void carpace_player_options (CarpacePlayerWords *words, CarpaceOption ret_options[CARPACE_PLAYER_OPTIONS]);

/** The name of an option that was given, without dashes; NULL where none was. */
const char *carpace_player_option_given (const CarpacePlayerWords *words);

/** Which hand was asked for. @return -1, with a sentence, where there is none such */
int carpace_player_hand (CarpaceCli *cli, const CarpacePlayerWords *words);

/** Reads them. A usual discomfort that was not given is left at -1: the plan's.
 * @return false, with a sentence, where one is not understood */
bool carpace_player_read (CarpaceCli *cli, const CarpacePlayerWords *words, CarpacePlayerKind *ret_kind,
                          CarpacePlayerTraits *ret_traits);

#endif
