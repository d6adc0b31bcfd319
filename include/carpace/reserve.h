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
 * @return INFINITY where the model has no end; 0 where it is not held now. */
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

/** Rest a cycle so that the steady peak is @peak.
 * @return INFINITY where no rest is enough, 0 where none is needed. */
double carpace_reserve_rest_for_peak_s (CarpaceRegion region, double load, double work_s, double peak);

#endif
