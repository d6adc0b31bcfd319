/* SPDX-License-Identifier: GPL-3.0-or-later */
/** lesser.h: of two times or dates the one that is less, or more. */
#ifndef CARPACE_LESSER_H
#define CARPACE_LESSER_H

#include <stdint.h>

static inline int64_t
lesser (int64_t a, int64_t b)
{
  return a < b ? a : b;
}

static inline int64_t
greater (int64_t a, int64_t b)
{
  return a > b ? a : b;
}

#endif
