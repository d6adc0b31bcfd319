/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * players.h: modelled players, who practise, rest, rate and wake as their kind
 * does. The same seed gives the same days.
 */
#ifndef CARPACE_PLAYERS_H
#define CARPACE_PLAYERS_H

#include "app/rehearse.h"

/** What a modelled player is like. */
typedef enum
{
  CARPACE_PLAYER_STEADY,    /**< rests when asked, answers, and seldom feels anything */
  CARPACE_PLAYER_SENSITIVE, /**< the hand answers to load soon and for long */
  CARPACE_PLAYER_PLAYS_ON,  /**< declines rests, overruns, starts early */
  CARPACE_PLAYER_SILENT,    /**< practises, and answers nothing */
  CARPACE_N_PLAYERS
} CarpacePlayerKind;

/** Lets a player of @kind practise by @plan for @days practice days, from
 * 2027-03-02 on. @return false where memory was short */
bool carpace_rehearse_player (const CarpacePlan *plan, CarpacePlayerKind kind, int32_t days, uint64_t seed,
                              CarpaceRehearsalListener listen, void *user);

#endif
