/* SPDX-License-Identifier: GPL-3.0-or-later */
/* share.c: exact shares of times, in integers only. */
#include "carpace/dose.h"

#define LEAST_DOSE_MS (10 * CARPACE_MINUTE_MS)

/* @a * @b + @c for numbers that are not negative, saturating. */
static int64_t
times_plus (int64_t a, int64_t b, int64_t c)
{
  if (a > 0 && b > (INT64_MAX - c) / a)
    return INT64_MAX;
  return a * b + c;
}

/* @ms x @share, the whole ms and whether something is left over. Split at
 * CARPACE_WHOLE, so that no product passes int64_t before its quotient does. */
static int64_t
share_of (int64_t ms, int32_t share, bool *ret_left_over)
{
  int64_t part;

  *ret_left_over = false;
  if (ms <= 0 || share <= 0)
    return 0;
  part = ms % CARPACE_WHOLE * share;
  *ret_left_over = part % CARPACE_WHOLE != 0;
  return times_plus (ms / CARPACE_WHOLE, share, part / CARPACE_WHOLE);
}

static int64_t
unit_of (int64_t unit_ms)
{
  return unit_ms > 0 ? unit_ms : 1;
}

int64_t
carpace_share_down_ms (int64_t ms, int32_t share, int64_t unit_ms)
{
  bool left_over;
  int64_t whole = share_of (ms, share, &left_over);

  return whole - whole % unit_of (unit_ms);
}

int64_t
carpace_share_up_ms (int64_t ms, int32_t share, int64_t unit_ms)
{
  bool left_over;
  int64_t whole = share_of (ms, share, &left_over);
  int64_t unit = unit_of (unit_ms);

  if (whole % unit == 0 && !left_over)
    return whole;
  return carpace_sum_ms (whole - whole % unit, unit);
}

int64_t
carpace_dose_cut_ms (int64_t ms, int32_t share)
{
  return carpace_share_down_ms (ms, share, CARPACE_MINUTE_MS);
}

int64_t
carpace_dose_least_ms (int64_t first_dose_ms)
{
  int64_t quarter = first_dose_ms / 4;
  int64_t least = quarter > LEAST_DOSE_MS ? quarter : LEAST_DOSE_MS;

  return first_dose_ms < least ? (first_dose_ms > 0 ? first_dose_ms : 0) : least;
}
