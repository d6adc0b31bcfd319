/* SPDX-License-Identifier: GPL-3.0-or-later */
/* correction.c: which of two numbers stands. */
#include "carpace/diary.h"
#include "session-private.h"

bool
carpace_correction_counts (int64_t since_ms, int32_t old, int32_t discomfort)
{
  return discomfort >= old || since_ms <= CARPACE_DECIDES_ANEW_MS || since_ms > CARPACE_CORRECTION_MS;
}
