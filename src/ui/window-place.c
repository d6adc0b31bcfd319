/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-place.c: "480x96+40+60" and back. */
#include "ui/window-place.h"

#include <glib.h>

/* Digits behind @before, with a sign where @below_zero; moves past them. */
static bool
number (const char **at, char before, bool below_zero, int *ret_number)
{
  const char *digits;
  bool negative;
  guint64 value = 0;
  char *end = NULL;

  if (before != '\0' && *(*at)++ != before)
    return false;
  negative = below_zero && **at == '-';
  digits = *at + negative;
  if (g_ascii_isdigit (*digits))
    value = g_ascii_strtoull (digits, &end, 10);
  if (end == NULL || value > CARPACE_PLACE_MOST)
    return false;
  *ret_number = negative ? -(int) value : (int) value;
  *at = end;
  return true;
}

bool
carpace_window_place_read (const char *text, CarpaceWindowPlace *ret_place)
{
  CarpaceWindowPlace place = { 0 };
  const char *at = text;

  if (!number (&at, '\0', false, &place.width) || !number (&at, 'x', false, &place.height) || place.width < 1 || place.height < 1)
    return false;
  place.placed = *at != '\0';
  if (place.placed && (!number (&at, '+', true, &place.left) || !number (&at, '+', true, &place.top) || *at != '\0'))
    return false;
  *ret_place = place;
  return true;
}

char *
carpace_window_place_text (const CarpaceWindowPlace *place)
{
  if (!place->placed)
    return g_strdup_printf ("%dx%d", place->width, place->height);
  return g_strdup_printf ("%dx%d+%d+%d", place->width, place->height, place->left, place->top);
}

bool
carpace_window_place_equal (const CarpaceWindowPlace *a, const CarpaceWindowPlace *b)
{
  return a->width == b->width && a->height == b->height && a->placed == b->placed
         && (!a->placed || (a->left == b->left && a->top == b->top));
}
