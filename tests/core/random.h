/* SPDX-License-Identifier: GPL-3.0-or-later */
/* random.h: numbers for property tests; the same seed, the same numbers.
 * SplitMix64 (Steele, Lea, Flood 2014, public domain algorithm). */
#ifndef CARPACE_TEST_RANDOM_H
#define CARPACE_TEST_RANDOM_H

#include <stdint.h>

typedef struct { uint64_t state; } Random;

static inline uint64_t
random_bits (Random *random)
{
  uint64_t z = random->state += UINT64_C (0x9e3779b97f4a7c15);
  z = (z ^ z >> 30) * UINT64_C (0xbf58476d1ce4e5b9);
  z = (z ^ z >> 27) * UINT64_C (0x94d049bb133111eb);
  return z ^ z >> 31;
}

/* From @low to under @high. */
static inline double
random_real (Random *random, double low, double high)
{
  return low + (high - low) * (double) (random_bits (random) >> 11) / 9007199254740992.0;
}

/* From @low to @high, both included. */
static inline int32_t
random_whole (Random *random, int32_t low, int32_t high)
{
  return low + (int32_t) (random_bits (random) % (uint64_t) (high - low + 1));
}

#endif
