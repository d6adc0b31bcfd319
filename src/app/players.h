/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * players.h: modelled players, who practise, rest, rate and wake as their kind
 * does. The same seed gives the same days.
 *
 * They are made to try rules on, not to describe people: what they feel is a
 * usual number, chance, and what their hand (hands.h) answers to practice. All
 * of it is this project's own invention.
 */
#ifndef CARPACE_PLAYERS_H
#define CARPACE_PLAYERS_H

#include "app/hands.h"
#include "app/rehearse.h"

/** What a modelled player is like. */
typedef enum
{
  CARPACE_PLAYER_STEADY,    /**< rests when asked, answers, and seldom feels anything */
  CARPACE_PLAYER_SENSITIVE, /**< the hand answers to load soon and for long */
  CARPACE_PLAYER_PLAYS_ON,  /**< declines rests, overruns, starts early */
  CARPACE_PLAYER_SILENT,    /**< practises, and answers nothing */
  CARPACE_PLAYER_VARIED,    /**< takes from a third of the plan's dose to a sixth above it; answers scattered by half a point, some mornings stiff by chance */
  CARPACE_PLAYER_VARIED_NOISY, /**< the same, scattered by a point */
  CARPACE_PLAYER_ANY_DOSE,   /**< takes any dose; answers and mornings as those of varied */
  CARPACE_PLAYER_ANY_DOSE_NOISY, /**< the same, by a point */
  CARPACE_PLAYER_UNDER_REPORTS, /**< takes less than the plan asks, and says half of what it feels */
  CARPACE_PLAYER_DROPS,     /**< takes four tenths less for three weeks, then what it did */
  CARPACE_PLAYER_GROWS,     /**< takes less than the plan asks, and 2 % more each week */
  CARPACE_PLAYER_FLARES,    /**< takes any dose, with four bad days in week 3 */
  CARPACE_PLAYER_MISSES,    /**< misses one answer in three */
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
  CarpaceHandModel hand; /**< how it answers */
  int64_t takes_ms;      /**< what the hand takes in a day; 0: as the next says */
  int32_t takes_pct;     /**< of the plan's first dose; 0: anything */
  int32_t takes_to_pct;  /**< over takes_pct: drawn once a season from takes_pct to this */
  int32_t drops_pct;     /**< it takes this much less in days 21 to 41, counted from 0 */
  int32_t grows_pct;     /**< it takes this much more each week, of what it took at first */
  int32_t gain;          /**< straight hand: points for practising a first dose more than it takes; 0 counts as 6 */
  bool under_reports;    /**< says half of what it feels above usual, and every second stiff morning */
  int32_t declines_pct;  /**< of offered rests that are declined */
  int32_t finishes_s;    /**< how long a run goes on past the limit */
  int32_t early_pct;     /**< of blocks that are started early */
  int32_t flare_from_day, flare_days; /**< days, from 0, on which the hand is 3 worse whatever is done */
  int32_t off_every;     /**< a day without practice after this many days, 0: none */
} CarpacePlayerTraits;

/** The word of @kind, as `--player` takes it. */
const char *carpace_player_word (CarpacePlayerKind kind);

/** The traits of @kind; usual is 0. */
CarpacePlayerTraits carpace_player_traits (CarpacePlayerKind kind);

/** What the hand of @traits takes on day @day, from 0, of the season of @seed,
 * but for its own change from day to day; 0: anything. */
int64_t carpace_player_takes_ms (const CarpacePlan *plan, const CarpacePlayerTraits *traits, uint64_t seed,
                                 int32_t day);

/** Lets a player of @traits practise by @plan for @days practice days, from
 * 2027-03-02 on. @return false where memory was short */
bool carpace_rehearse_traits (const CarpacePlan *plan, const CarpacePlayerTraits *traits, int32_t days, uint64_t seed,
                              CarpaceRehearsalListener listen, void *user);

/** The same, kept: all of it is told to @keep, too (NULL: to nobody). */
bool carpace_rehearse_kept (const CarpacePlan *plan, const CarpacePlayerTraits *traits, int32_t days, uint64_t seed,
                            const CarpaceStore *keep, CarpaceRehearsalListener listen, void *user);

/** Not kept, for a @kind. */
bool carpace_rehearse_player (const CarpacePlan *plan, CarpacePlayerKind kind, int32_t days, uint64_t seed,
                              CarpaceRehearsalListener listen, void *user);

#endif
