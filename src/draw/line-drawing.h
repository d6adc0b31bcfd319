/* SPDX-License-Identifier: GPL-3.0-or-later */
/** line-drawing.h: a picture of lines and flat parts, from a file of our own. */
#ifndef CARPACE_DRAW_LINE_DRAWING_H
#define CARPACE_DRAW_LINE_DRAWING_H

#include <cairo.h>
#include <stdbool.h>
#include <stddef.h>

typedef struct { double red, green, blue; } CarpaceColour;

/** What a drawing's colours are called in its file, and what they are in the desktop's. */
typedef struct
{
  CarpaceColour line;   /**< `currentColor` */
  CarpaceColour behind; /**< `backgroundColor` */
  CarpaceColour shade;  /**< `shadeColor`: the palm's side of hand and forearm */
  CarpaceColour accent; /**< `accentColor`: felt here */
} CarpaceLineColours;

/** All four, from the text's colour, the one behind it and the one that the desktop marks with:
 * the shade is a sixth of the way to the line, the accent as much of it as stands out from what
 * is behind, 3:1 by WCAG 2.1 (1.4.11). */
CarpaceLineColours carpace_line_colours (CarpaceColour line, CarpaceColour behind, CarpaceColour accent);

/** How far two colours stand apart, 1 to 21, by WCAG 2.1 (contrast ratio). */
double carpace_colour_contrast (CarpaceColour a, CarpaceColour b);

/** Paints @svg, in its own units from the origin on: an SVG whose elements are paths of M, L, C
 * and Z with absolute coordinates, each filled, stroked or both in one of @colours, ends and
 * corners round.
 * @return false, with what came before painted, where it is anything else */
bool carpace_line_drawing_paint (cairo_t *cr, const char *svg, size_t n, const CarpaceLineColours *colours);

#endif
