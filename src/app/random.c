/* SPDX-License-Identifier: GPL-3.0-or-later */
/* random.c: chance from a seed. */
#include "app/random.h"

#define BITS_OF_DOUBLE 53

/* splitmix64: Steele, Lea, Flood 2014; constants from memory. */
static uint64_t
next (CarpaceRandom *random)
{
  uint64_t z = random->state += UINT64_C (0x9E3779B97F4A7C15);

  z = (z ^ (z >> 30)) * UINT64_C (0xBF58476D1CE4E5B9);
  z = (z ^ (z >> 27)) * UINT64_C (0x94D049BB133111EB);
  return z ^ (z >> 31);
}

int32_t
carpace_random_roll (CarpaceRandom *random, int32_t low, int32_t high)
{
  return low + (int32_t) (next (random) % (uint64_t) (high - low + 1));
}

bool
carpace_random_chance (CarpaceRandom *random, int32_t percent)
{
  return carpace_random_roll (random, 0, 99) < percent;
}

double
carpace_random_scatter (CarpaceRandom *random)
{
  int32_t sum = 0;

  for (int i = 0; i < 12; i++)
    sum += carpace_random_roll (random, 0, 1000);
  return (sum - 6000) / 1000.0;
}

double
carpace_random_share (CarpaceRandom *random)
{
  return (double) (next (random) >> (64 - BITS_OF_DOUBLE)) / (double) (UINT64_C (1) << BITS_OF_DOUBLE);
}
