/* SPDX-License-Identifier: GPL-3.0-or-later */
/** digits.h: decimal numbers of a fixed width, without a locale. */
#ifndef CARPACE_DIGITS_H
#define CARPACE_DIGITS_H

#include <stdbool.h>
#include <stdint.h>

static inline bool
carpace_is_digit (char c)
{
  return c >= '0' && c <= '9';
}

/** Writes @value with @n digits, zeros first, and no end. @return past the last */
static inline char *
carpace_digits_write (char *at, int32_t value, int n)
{
  for (int i = n - 1; i >= 0; i--, value /= 10)
    at[i] = (char) ('0' + value % 10);
  return at + n;
}

/** Reads exactly @n digits (at most 9) and moves past them. */
static inline bool
carpace_digits_read (const char **text, int n, int32_t *ret_value)
{
  int32_t value = 0;

  for (int i = 0; i < n; i++, (*text)++)
    {
      if (!carpace_is_digit (**text))
        return false;
      value = value * 10 + (**text - '0');
    }
  *ret_value = value;
  return true;
}

#endif
