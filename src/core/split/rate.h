/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * rate.h: a block's rate, its index over the multiplier of its hours, from
 * what its drills bring. Inline: the search does little else.
 */
#ifndef CARPACE_SPLIT_RATE_H
#define CARPACE_SPLIT_RATE_H

#include <stdint.h>

/** A drill's part in a block. */
typedef struct
{
  double efforts, weight;
  double index;           /**< carpace_split_rate()'s own */
} CarpaceSplitPart;

/** Highest index first, of equals the fewer efforts; then weight by weight what
 * each adds to @multiplier, which is called with @self and efforts a minute. */
static inline double
carpace_split_rate (CarpaceSplitPart *parts, int32_t n, double (*multiplier) (const void *self, double efforts), const void *self)
{
  double efforts = 0, before = 0, rate = 0;

  for (int32_t i = 0; i < n; i++)
    {
      CarpaceSplitPart part = parts[i];
      int32_t at = i;
      part.index = part.weight * multiplier (self, part.efforts);
      for (; at > 0; at--)
        {
          const CarpaceSplitPart *higher = &parts[at - 1];
          if (higher->index > part.index || (higher->index >= part.index && higher->efforts <= part.efforts))
            break;
          parts[at] = *higher;
        }
      parts[at] = part;
    }
  for (int32_t i = 0; i < n; i++)
    {
      double up_to;
      efforts += parts[i].efforts;
      up_to = multiplier (self, efforts);
      rate += parts[i].weight * (up_to - before);
      before = up_to;
    }
  return rate;
}

#endif
