/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * proof.h: why no split has all its blocks under an index.
 *
 * 1. A block's index is its rate x m(hours), m the multiplier of hours. Its rate
 *    is 0.1 w, w the weight of its first drill (the one with the highest index),
 *    plus a sum over drills in order of weight x (g (efforts up to it) - g
 *    (efforts before it)); g is the multiplier of efforts less its 0.1, convex
 *    but for a dip at 90. Of all orders, weights falling has the least sum; that
 *    is convex in the drills' times, so that the even mix of the whole day is
 *    least (Jensen), and its tangent is under it everywhere.
 * 2. length / m(length) is concave: under its tangent at the even length. So
 *    "the index of block b is at most x" is, once first drills are chosen, at
 *    least as strict as a linear inequality in the times of its drills. With it
 *    go: every run is dealt; lengths are in their range; no drill of a block has
 *    an index over its first one's.
 * 3. A Lagrange relaxation (Geoffrion 1974) refutes such a choice: prices on the
 *    inequalities and lengths of the blocks leave a sum that each drill makes
 *    least by itself; if the least sum is over nothing, no times do. Prices are
 *    found by subgradients with Polyak's step (1969).
 * 4. A branch and bound chooses first drills, lightest first; then how many runs
 *    of it each block has, in ever smaller intervals. Where all choices are
 *    refuted, every split has a block over x.
 *
 * bound.c has 1 and 2, refute.c 3 and 4.
 */
#ifndef CARPACE_SPLIT_PROOF_H
#define CARPACE_SPLIT_PROOF_H

#include "private.h"

/** Blocks beyond which first drills are not chosen. */
#define CARPACE_SPLIT_REFUTED 8

/** Inequalities and choices, for one x. */
typedef struct
{
  const CarpaceSplitTask *task;
  int32_t n, k;
  int32_t drill[CARPACE_SPLIT_D];      /* lightest first */
  double tangent[CARPACE_SPLIT_D];     /* of the rate, by a drill's share of a block */
  double constant;
  double even_rate;                    /* of the even mix, without a first drill's 0.1 w */
  double shortest_ms, longest_ms;
  double u0, u1;                       /* length / m(length) is at most u0 + u1 x length */
  double x, limit, scale;              /* the index to be refuted; x u0; the sides of an inequality are about that */
  int32_t first[CARPACE_SPLIT_REFUTED];          /* drill, or any */
  double first_weight[CARPACE_SPLIT_REFUTED];    /* its weight, or the least it can have */
  int32_t least_runs[CARPACE_SPLIT_REFUTED], most_runs[CARPACE_SPLIT_REFUTED]; /* of the first drill */
  double least_ms[CARPACE_SPLIT_REFUTED][CARPACE_SPLIT_D], most_ms[CARPACE_SPLIT_REFUTED][CARPACE_SPLIT_D];
  int32_t n_choices;
} CarpaceSplitProof;

/** Whether every split has a block with an index over @x. False too where that
 * takes more choices than are looked at. At most CARPACE_SPLIT_REFUTED blocks. */
bool carpace_split_refuted (CarpaceSplitProof *proof, double x);

#endif
