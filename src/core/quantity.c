/* SPDX-License-Identifier: GPL-3.0-or-later */
/* quantity.c: numbers with their units, read and written without a locale. */
#include "carpace/quantity.h"

#include <math.h>
#include <string.h>

#include "digits.h"

/* Up to 15 digits a decimal fits a double's 53 bits, and comes back. */
#define HUGE_NUMBER 1e15

/* digits / 10^decimals */
typedef struct
{
  int64_t digits;
  int decimals;
  bool minus, huge, fine;
} Decimal;

static const struct { const char *word; int64_t ms; } duration_units[] = {
  { "h", CARPACE_HOUR_MS }, { "min", CARPACE_MINUTE_MS }, { "s", CARPACE_SECOND_MS }
};
enum { N_DURATION_UNITS = 3 };

static void
skip_spaces (const char **text)
{
  while (**text == ' ')
    (*text)++;
}

static bool
read_word (const char **text, const char *word)
{
  size_t n = strlen (word);

  if (strncmp (*text, word, n) != 0)
    return false;
  *text += n;
  return true;
}

static double
power_of_ten (int n)
{
  double power = 1;

  while (n-- > 0)
    power *= 10;
  return power;
}

static void
read_digits (const char **text, Decimal *number, bool decimals)
{
  for (; carpace_is_digit (**text); (*text)++)
    if (number->digits < (int64_t) HUGE_NUMBER / 10)
      {
        number->digits = number->digits * 10 + (**text - '0');
        number->decimals += decimals;
      }
    else if (!decimals)
      number->huge = true;
    else if (**text != '0')
      number->fine = true;
}

static bool
read_decimal (const char **text, Decimal *ret_number)
{
  Decimal number = { .minus = read_word (text, "-") };

  if (!carpace_is_digit (**text))
    return false;
  read_digits (text, &number, false);
  if (**text == '.')
    {
      (*text)++;
      if (!carpace_is_digit (**text))
        return false;
      read_digits (text, &number, true);
    }
  for (; number.decimals > 0 && number.digits % 10 == 0; number.decimals--)
    number.digits /= 10;
  *ret_number = number;
  return true;
}

static double
signed_value (bool minus, double size)
{
  return minus && size > 0 ? -size : size;
}

static double
decimal_value (Decimal number)
{
  return signed_value (number.minus,
                       number.huge ? HUGE_NUMBER : (double) number.digits / power_of_ten (number.decimals));
}

/* The number in whole @per-ths, where it is that. */
static CarpaceQuantityFault
decimal_in (Decimal number, int64_t per, double *ret_number)
{
  bool large = number.digits > (int64_t) HUGE_NUMBER / per;
  int64_t scale = (int64_t) power_of_ten (number.decimals);

  if (number.huge || (large && number.decimals == 0))
    {
      *ret_number = number.minus ? -HUGE_NUMBER : HUGE_NUMBER;
      return CARPACE_QUANTITY_OK;
    }
  if (number.fine || large || (number.digits * per) % scale != 0)
    return CARPACE_QUANTITY_TOO_FINE;
  *ret_number = signed_value (number.minus, (double) (number.digits * per / scale));
  return CARPACE_QUANTITY_OK;
}

static bool
read_duration_unit (const char **text, int *ret_unit)
{
  skip_spaces (text);
  for (int unit = 0; unit < N_DURATION_UNITS; unit++)
    {
      const char *after = *text;
      if (read_word (&after, duration_units[unit].word) && (*after == '\0' || *after == ' ' || carpace_is_digit (*after)))
        {
          *text = after;
          *ret_unit = unit;
          return true;
        }
    }
  return false;
}

static CarpaceQuantityFault
read_duration (const char *text, double *ret_ms)
{
  double sum_ms = 0;
  int last_unit = -1;
  bool fraction = false;

  do
    {
      Decimal number;
      double ms;
      int unit;
      CarpaceQuantityFault fault;

      if (!read_decimal (&text, &number))
        return CARPACE_QUANTITY_NOT_A_NUMBER;
      if (*text == '\0')
        return CARPACE_QUANTITY_NO_UNIT;
      if (!read_duration_unit (&text, &unit))
        return CARPACE_QUANTITY_OTHER_UNIT;
      if (unit <= last_unit || fraction || (number.minus && last_unit >= 0))
        return CARPACE_QUANTITY_ORDER;
      fault = decimal_in (number, duration_units[unit].ms, &ms);
      if (fault != CARPACE_QUANTITY_OK)
        return fault;
      sum_ms += ms;
      fraction = number.decimals > 0 || number.minus;
      last_unit = unit;
      skip_spaces (&text);
    }
  while (*text != '\0');
  *ret_ms = sum_ms;
  return CARPACE_QUANTITY_OK;
}

static CarpaceQuantityFault
read_time_of_day (const char *text, double *ret_minutes)
{
  int32_t hours, minutes;

  if (!carpace_digits_read (&text, 2, &hours) || *text++ != ':' || !carpace_digits_read (&text, 2, &minutes)
      || *text != '\0' || minutes > 59)
    return CARPACE_QUANTITY_NOT_A_TIME;
  *ret_minutes = hours * 60 + minutes;
  return CARPACE_QUANTITY_OK;
}

static CarpaceQuantityFault
read_wrist (const char *text, double *ret_deg)
{
  Decimal number;
  bool extension;

  if (strcmp (text, "straight") == 0)
    {
      *ret_deg = 0;
      return CARPACE_QUANTITY_OK;
    }
  if (!read_decimal (&text, &number))
    return CARPACE_QUANTITY_NOT_A_NUMBER;
  skip_spaces (&text);
  if (*text == '\0')
    return CARPACE_QUANTITY_NO_UNIT;
  if (!read_word (&text, "deg ") || number.minus)
    return CARPACE_QUANTITY_OTHER_UNIT;
  skip_spaces (&text);
  extension = strcmp (text, "extension") == 0;
  if (!extension && strcmp (text, "flexion") != 0)
    return CARPACE_QUANTITY_OTHER_UNIT;
  if (number.fine)
    return CARPACE_QUANTITY_TOO_FINE;
  number.minus = extension;
  *ret_deg = decimal_value (number);
  return CARPACE_QUANTITY_OK;
}

static const char *
unit_word (CarpaceUnit unit)
{
  switch (unit)
    {
    case CARPACE_UNIT_SHARE:
    case CARPACE_UNIT_PERCENT: return "%";
    case CARPACE_UNIT_DEGREES: return "deg";
    case CARPACE_UNIT_PER_MIN: return "/min";
    case CARPACE_UNIT_TEXT:
    case CARPACE_UNIT_WORD:
    case CARPACE_UNIT_WHOLE:
    case CARPACE_UNIT_CM:
    case CARPACE_UNIT_DURATION:
    case CARPACE_UNIT_TIME_OF_DAY:
    case CARPACE_UNIT_SECONDS:
    case CARPACE_UNIT_WRIST:
    case CARPACE_UNIT_EXERCISES:
    case CARPACE_UNIT_WEEKDAYS:
      break;
    }
  return "";
}

static CarpaceQuantityFault
read_number (const char *text, CarpaceUnit unit, double *ret_number)
{
  const char *word = unit_word (unit);
  Decimal number;

  if (!read_decimal (&text, &number))
    return CARPACE_QUANTITY_NOT_A_NUMBER;
  skip_spaces (&text);
  if (*text == '\0' && *word != '\0')
    return CARPACE_QUANTITY_NO_UNIT;
  if (!read_word (&text, word) || *text != '\0')
    return CARPACE_QUANTITY_OTHER_UNIT;
  if (unit == CARPACE_UNIT_SHARE || unit == CARPACE_UNIT_WHOLE)
    return decimal_in (number, unit == CARPACE_UNIT_SHARE ? CARPACE_PERCENT : 1, ret_number);
  if (number.fine)
    return CARPACE_QUANTITY_TOO_FINE;
  *ret_number = decimal_value (number);
  return CARPACE_QUANTITY_OK;
}

CarpaceQuantityFault
carpace_quantity_read (const char *text, CarpaceUnit unit, double *ret_number)
{
  CarpaceQuantityFault fault;
  double ms;

  if (unit == CARPACE_UNIT_DURATION)
    return read_duration (text, ret_number);
  if (unit == CARPACE_UNIT_TIME_OF_DAY)
    return read_time_of_day (text, ret_number);
  if (unit == CARPACE_UNIT_WRIST)
    return read_wrist (text, ret_number);
  if (unit != CARPACE_UNIT_SECONDS)
    return read_number (text, unit, ret_number);
  fault = read_duration (text, &ms);
  if (fault == CARPACE_QUANTITY_OK)
    *ret_number = ms / (double) CARPACE_SECOND_MS;
  return fault;
}

static char *
write_word (char *at, const char *word)
{
  size_t n = strlen (word);

  memcpy (at, word, n);
  return at + n;
}

/* @digits as a decimal with the last @decimals of them after the point. */
static char *
write_decimal (char *at, int64_t digits, int decimals)
{
  char reversed[24];
  int n = 0;

  for (; n <= decimals || digits > 0; digits /= 10)
    {
      if (n == decimals && decimals > 0)
        reversed[n++] = '.', decimals = -1;
      reversed[n++] = (char) ('0' + digits % 10);
    }
  while (n > 0)
    *at++ = reversed[--n];
  return at;
}

/* The fewest decimals that give @number back. */
static char *
write_number (char *at, double number)
{
  double size = fabs (number) < HUGE_NUMBER ? fabs (number) : HUGE_NUMBER;
  int decimals = 0;
  double scale = 1;

  while (size * scale * 10 < HUGE_NUMBER && fabs ((double) llround (size * scale) / scale - size) > 0)
    scale = power_of_ten (++decimals);
  if (number < 0)
    *at++ = '-';
  return write_decimal (at, llround (size * scale), decimals);
}

static char *
write_duration (char *at, int64_t ms)
{
  char *first = at;

  if (ms < 0)
    *at++ = '-', ms = -ms;
  for (int unit = 0; unit < N_DURATION_UNITS; unit++)
    {
      bool last = unit == N_DURATION_UNITS - 1;
      int64_t whole = ms / duration_units[unit].ms;

      ms -= whole * duration_units[unit].ms;
      if (whole == 0 && !(last && (ms > 0 || at == first)))
        continue;
      if (at > first && at[-1] != '-')
        *at++ = ' ';
      at = last ? write_number (at, (double) (whole * CARPACE_SECOND_MS + ms) / (double) CARPACE_SECOND_MS)
                : write_decimal (at, whole, 0);
      *at++ = ' ';
      at = write_word (at, duration_units[unit].word);
    }
  return at;
}

static char *
write_time_of_day (char *at, int32_t minutes)
{
  at = carpace_digits_write (at, minutes / 60, 2);
  *at++ = ':';
  return carpace_digits_write (at, minutes % 60, 2);
}

static char *
write_wrist (char *at, double deg)
{
  if (!(fabs (deg) > 0))
    return write_word (at, "straight");
  at = write_number (at, fabs (deg));
  return write_word (at, deg < 0 ? " deg extension" : " deg flexion");
}

static char *
write_simple (char *at, CarpaceUnit unit, double number)
{
  const char *word = unit_word (unit);

  at = write_number (at, unit == CARPACE_UNIT_SHARE ? number / CARPACE_PERCENT : number);
  if (*word != '\0')
    *at++ = ' ';
  return write_word (at, word);
}

size_t
carpace_quantity_write (CarpaceUnit unit, double number, char ret_text[CARPACE_QUANTITY_BYTES])
{
  char *end;

  if (unit == CARPACE_UNIT_DURATION)
    end = write_duration (ret_text, (int64_t) number);
  else if (unit == CARPACE_UNIT_SECONDS)
    end = write_duration (ret_text, llround (number * (double) CARPACE_SECOND_MS));
  else if (unit == CARPACE_UNIT_TIME_OF_DAY)
    end = write_time_of_day (ret_text, (int32_t) number);
  else if (unit == CARPACE_UNIT_WRIST)
    end = write_wrist (ret_text, number);
  else
    end = write_simple (ret_text, unit, number);
  *end = '\0';
  return (size_t) (end - ret_text);
}
