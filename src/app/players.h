/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * players.h: modelled players, who practise, rest, rate and wake as their kind
 * does. The same seed gives the same days.
 *
 * They are made to try rules on, not to describe people: what they feel is a
 * usual number, chance, and an irritation that grows with practice above what
 * the hand takes and halves about every two days. All of it is this project's
 * own invention.
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

/** A player in numbers. Shares are percent. */
typedef struct
{
  int32_t usual;         /**< discomfort without any load */
  int32_t noise_pct;     /**< of answers that are one higher, and as many one lower */
  int32_t noise_sd;      /**< standard deviation of every answer, tenths of a point, on top of that */
  int32_t stiff_pct;     /**< of mornings that are stiffer by chance */
  int32_t missed_pct;    /**< of answers not given */
  int32_t missed_mornings_pct;
  int32_t takes_pct;     /**< what the hand takes in a day, of the plan's first dose; 0: anything */
  int32_t gain;          /**< tenths of a discomfort point for each tenth of the first dose above that */
  int32_t declines_pct;  /**< of offered rests that are declined */
  int32_t finishes_s;    /**< how long a run goes on past the limit */
  int32_t early_pct;     /**< of blocks that are started early */
  int32_t flare_from_day, flare_days; /**< days, from 0, on which the hand is 3 worse whatever is done */
  int32_t off_every;     /**< a day without practice after this many days, 0: none */
} CarpacePlayerTraits;

/** The traits of @kind. */
CarpacePlayerTraits carpace_player_traits (CarpacePlayerKind kind);

/** Lets a player of @traits practise by @plan for @days practice days, from
 * 2027-03-02 on. @return false where memory was short */
bool carpace_rehearse_traits (const CarpacePlan *plan, const CarpacePlayerTraits *traits, int32_t days, uint64_t seed,
                              CarpaceRehearsalListener listen, void *user);

/** The same for a @kind. */
bool carpace_rehearse_player (const CarpacePlan *plan, CarpacePlayerKind kind, int32_t days, uint64_t seed,
                              CarpaceRehearsalListener listen, void *user);

#endif
