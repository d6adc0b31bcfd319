/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * window-place.h: the size of a window and where it stands, as text.
 *
 * As X programs have taken it since ever: "480x96+40+60", width x height in pixels, then
 * from the left and from the top ("+-8" is beyond the edge). Without the last two it is a
 * size only: not every desktop says where a window stands.
 */
#ifndef CARPACE_UI_WINDOW_PLACE_H
#define CARPACE_UI_WINDOW_PLACE_H

#include <stdbool.h>

/** The most pixels of a side, and from an edge. */
#define CARPACE_PLACE_MOST 32767

typedef struct
{
  int width, height;
  bool placed; /**< `left` and `top` hold */
  int left, top;
} CarpaceWindowPlace;

/** Reads @text, all of it. @return false, *ret_place untouched, where it is no such text */
bool carpace_window_place_read (const char *text, CarpaceWindowPlace *ret_place);

/** The text of @place; g_free() it. */
char *carpace_window_place_text (const CarpaceWindowPlace *place);

bool carpace_window_place_equal (const CarpaceWindowPlace *a, const CarpaceWindowPlace *b);

#endif
