/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * random.h: numbers by chance for modelled players, the same from the same
 * seed on every machine: whole numbers and the four operations only.
 */
#ifndef CARPACE_RANDOM_H
#define CARPACE_RANDOM_H

#include <stdbool.h>
#include <stdint.h>

/** A stream of them. Its seed is its first state. */
typedef struct
{
  uint64_t state;
} CarpaceRandom;

/** A whole number from @low to @high, both ends in it. */
int32_t carpace_random_roll (CarpaceRandom *random, int32_t low, int32_t high);

/** True in @percent of a hundred. */
bool carpace_random_chance (CarpaceRandom *random, int32_t percent);

/** Mean 0, deviation 1, to a thousandth, from -6 to 6: the sum of twelve uniform
 * numbers less its mean is near a normal distribution. */
double carpace_random_scatter (CarpaceRandom *random);

/** From 0 to under 1. */
double carpace_random_share (CarpaceRandom *random);

#endif
