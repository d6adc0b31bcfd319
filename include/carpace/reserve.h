/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * reserve.h: the share of a muscle group that is not fatigued, by a model.
 *
 * The three-compartment controller model with rest recovery (3CC-r), its
 * tracking rate taken as infinite, in closed form.
 * Sources: Xia, Frey-Law 2008; Frey-Law, Looft, Heitsman 2012, J Biomech
 * 45:1803; Looft, Herkert, Frey-Law 2018, J Biomech 77:16.
 *
 * An estimate for isometric holds of healthy young adults. It knows no pain;
 * below a certain load it predicts no end, and low loads do hurt. Used inside
 * a session only: its recovery is far too fast for a day.
 *
 * Fatigued shares are 0..1, loads shares of maximal strength 0..1, times s.
 */
#ifndef CARPACE_RESERVE_H
#define CARPACE_RESERVE_H

#include "carpace/muscles.h"

/** The model's constants for a region. */
typedef struct
{
  double fatigue_per_s;  /**< F */
  double recovery_per_s; /**< R */
  double rest_factor;    /**< r, at rest only */
} CarpaceReserveConstants;

CarpaceReserveConstants carpace_reserve_constants (CarpaceRegion region);

/** The fatigued share after @seconds of @load from @fatigued: every branch
 * (held, no longer held, rest). Arguments are clamped to their ranges. */
double carpace_reserve_forward (CarpaceRegion region, double fatigued, double load, double seconds);

/** Seconds until @load can no longer be held, from @fatigued.
 * @return INFINITY where the model has no end (never to be printed as
 * "unlimited": low loads do hurt); 0 where it is not held now. */
double carpace_reserve_endurance_s (CarpaceRegion region, double fatigued, double load);

/** Seconds of @load until the fatigued share reaches @level, from @fatigued.
 * @return 0 where it is there, INFINITY where it never comes. Rises past the
 * moment a load is no longer held. */
double carpace_reserve_crossing_s (CarpaceRegion region, double fatigued, double load, double level);

/** Seconds of rest until the fatigued share falls to @level.
 * @return 0 where it is there, INFINITY for a @level of 0. */
double carpace_reserve_rest_s (CarpaceRegion region, double fatigued, double level);

/** What cycles of work and rest come to. */
typedef struct
{
  double peak;               /**< fatigued share at the end of work in the last of the cycles */
  double steady;             /**< the peak that cycles without end approach; NAN where one would fail */
  int64_t fails_in_cycle;    /**< first cycle whose work is not held to its end; 0 where none of them */
} CarpaceReserveCycles;

/** @param n_cycles 1..1000000. Begins rested. */
CarpaceReserveCycles carpace_reserve_cycles (CarpaceRegion region, double load, double work_s, double rest_s,
                                             int64_t n_cycles);

/** Rest a cycle so that the steady peak is @peak, or the most that can be held
 * to its end (1 - load) where that is less.
 * @return INFINITY where no rest is enough, 0 where none is needed. */
double carpace_reserve_rest_for_peak_s (CarpaceRegion region, double load, double work_s, double peak);

/** The fatigued share of each group: a value to carry along a session and bring
 * forward at its events. All closed form; nothing is stepped. */
typedef struct
{
  double fatigued[CARPACE_N_GROUPS]; /**< 0..1 */
} CarpaceReserveState;

/** Every group rested, as at a block's start. */
void carpace_reserve_begin (CarpaceReserveState *state);

/** Brings @state forward by @ms of work, each group at its own load (a drill's
 * intensity as a share x the group's share of it, see carpace_load_groups()).
 * @ms under 0 counts as 0. */
void carpace_reserve_work (CarpaceReserveState *state, const double load[CARPACE_N_GROUPS], int64_t ms);

/** Brings @state forward by @ms of rest. */
void carpace_reserve_rest (CarpaceReserveState *state, int64_t ms);

/** The lowest reserve of all groups, 0..1 (1 - fatigued), an estimate.
 * @param ret_group may be NULL; the first of equals */
double carpace_reserve_lowest (const CarpaceReserveState *state, CarpaceGroup *ret_group);

/** Seconds of work at @load until the first group's reserve falls to @reserve
 * (0..1). @return 0 where one is there, INFINITY where it never comes.
 * @param ret_group may be NULL; untouched where it never comes */
double carpace_reserve_falls_s (const CarpaceReserveState *state, const double load[CARPACE_N_GROUPS], double reserve,
                                CarpaceGroup *ret_group);

#endif
