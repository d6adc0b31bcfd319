/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instant.c: sums that do not overflow, and ISO 8601 in and out. */
#include "carpace/instant.h"

#include "carpace/day.h"
#include "digits.h"

int64_t
carpace_sum_ms (int64_t a, int64_t b)
{
  if (b > 0 && a > INT64_MAX - b)
    return INT64_MAX;
  if (b < 0 && a < INT64_MIN - b)
    return INT64_MIN;
  return a + b;
}

CarpaceInstant
carpace_instant_after (CarpaceInstant instant, int64_t by_ms)
{
  instant.elapsed_ms = carpace_sum_ms (instant.elapsed_ms, by_ms);
  instant.wall_ms = carpace_sum_ms (instant.wall_ms, by_ms);
  return instant;
}

static char *
write_offset (char *at, int32_t offset_s)
{
  int32_t distance_s = offset_s < 0 ? -offset_s : offset_s;

  *at++ = offset_s < 0 ? '-' : '+';
  at = carpace_digits_write (at, distance_s / 3600, 2);
  *at++ = ':';
  at = carpace_digits_write (at, distance_s / 60 % 60, 2);
  if (distance_s % 60 == 0)
    return at;
  *at++ = ':';
  return carpace_digits_write (at, distance_s % 60, 2);
}

size_t
carpace_instant_write (CarpaceInstant instant, char ret_text[CARPACE_INSTANT_BYTES])
{
  int64_t local_ms = carpace_sum_ms (instant.wall_ms, instant.offset_s * CARPACE_SECOND_MS);
  CarpaceDay day = carpace_day_of (instant, 0);
  int64_t in_day_ms = local_ms - day * CARPACE_DAY_MS;
  char *at = ret_text;
  int32_t year, month, day_of_month;

  carpace_day_to_civil (day, &year, &month, &day_of_month);
  if (year < 0 || year > 9999)
    {
      ret_text[0] = '\0';
      return 0;
    }
  carpace_day_write (day, at);
  at += CARPACE_DAY_BYTES - 1;
  *at++ = 'T';
  at = carpace_digits_write (at, (int32_t) (in_day_ms / CARPACE_HOUR_MS), 2);
  *at++ = ':';
  at = carpace_digits_write (at, (int32_t) (in_day_ms / CARPACE_MINUTE_MS % 60), 2);
  *at++ = ':';
  at = carpace_digits_write (at, (int32_t) (in_day_ms / CARPACE_SECOND_MS % 60), 2);
  *at++ = '.';
  at = carpace_digits_write (at, (int32_t) (in_day_ms % CARPACE_SECOND_MS), 3);
  at = write_offset (at, instant.offset_s);
  *at = '\0';
  return (size_t) (at - ret_text);
}

/* ":mm" or ":ss", 0..59. */
static bool
read_sixtieth (const char **text, int32_t *ret_value)
{
  if (**text != ':')
    return false;
  (*text)++;
  return carpace_digits_read (text, 2, ret_value) && *ret_value <= 59;
}

static bool
read_offset (const char *text, int32_t *ret_offset_s)
{
  bool west = *text == '-';
  int32_t h, m, s = 0;

  if (text[0] == 'Z' && text[1] == '\0')
    {
      *ret_offset_s = 0;
      return true;
    }
  if (!west && *text != '+')
    return false;
  text++;
  if (!carpace_digits_read (&text, 2, &h) || !read_sixtieth (&text, &m))
    return false;
  if (*text == ':' && !read_sixtieth (&text, &s))
    return false;
  s += h * 3600 + m * 60;
  if (*text != '\0' || s > 86400 || (west && s == 0))
    return false;
  *ret_offset_s = west ? -s : s;
  return true;
}

/* ".5", ".123", ".123456789": whole ms, the rest dropped. */
static bool
read_fraction (const char **text, int32_t *ret_ms)
{
  int32_t ms = 0, n = 0;

  *ret_ms = 0;
  if (**text != '.')
    return true;
  for ((*text)++; carpace_is_digit (**text); (*text)++, n++)
    if (n < 3)
      ms = ms * 10 + (**text - '0');
  for (int32_t i = n; i < 3; i++)
    ms *= 10;
  *ret_ms = ms;
  return n >= 1 && n <= 9;
}

bool
carpace_instant_read (const char *text, CarpaceInstant *ret_instant)
{
  char date[CARPACE_DAY_BYTES];
  CarpaceDay day;
  int32_t h, m, s, ms, offset_s;

  for (int i = 0; i < CARPACE_DAY_BYTES - 1; i++)
    if ((date[i] = *text++) == '\0')
      return false;
  date[CARPACE_DAY_BYTES - 1] = '\0';
  if (!carpace_day_read (date, &day) || *text++ != 'T')
    return false;
  if (!carpace_digits_read (&text, 2, &h) || h > 23 || !read_sixtieth (&text, &m) || !read_sixtieth (&text, &s))
    return false;
  if (!read_fraction (&text, &ms) || !read_offset (text, &offset_s))
    return false;
  *ret_instant = (CarpaceInstant) {
    .wall_ms = day * CARPACE_DAY_MS + h * CARPACE_HOUR_MS + m * CARPACE_MINUTE_MS
               + (s - offset_s) * CARPACE_SECOND_MS + ms,
    .offset_s = offset_s
  };
  return true;
}
