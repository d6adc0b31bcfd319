/* SPDX-License-Identifier: GPL-3.0-or-later */
/** tapped.h: how many a minute, from taps along with them. */
#ifndef CARPACE_TAPPED_H
#define CARPACE_TAPPED_H

#include <stdint.h>

/** For how long is tapped, ms. */
#define CARPACE_TAPPED_MS 10000

/** Taps so far. A value; begin with zeros. */
typedef struct
{
  int32_t n;
  int64_t first_ms, last_ms;
} CarpaceTaps;

/** One at @at_ms, on a clock that is never set. */
void carpace_tapped (CarpaceTaps *taps, int64_t at_ms);

/** By the time from the first to the last, whole and within what a drill may have; 0 where there were under three. */
double carpace_tapped_per_min (const CarpaceTaps *taps);

#endif
