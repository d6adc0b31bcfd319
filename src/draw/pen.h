/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * pen.h: text and marks on a cairo surface, the same on a window, on paper and
 * in a picture.
 *
 * A pen holds what a drawing needs: where to draw, one text layout used over and
 * over, and the shades. Shades are ink, faint and paper only: nothing is said by
 * colour alone. Lengths are points (1/72 inch) on paper; a window scales them.
 */
#ifndef CARPACE_DRAW_PEN_H
#define CARPACE_DRAW_PEN_H

#include <pango/pangocairo.h>
#include <stdbool.h>

/** A shade, 0..1 each. */
typedef struct { double red, green, blue; } CarpaceShade;

/** The shades of a drawing. */
typedef struct
{
  CarpaceShade paper, ink, faint;
} CarpaceShades;

/** Dark on white, for paper. */
extern const CarpaceShades carpace_shades_paper;

/** Text sizes, points. */
#define CARPACE_PEN_SMALL 6.8
#define CARPACE_PEN_PLAIN 7.8
#define CARPACE_PEN_LARGE 10.0
#define CARPACE_PEN_TITLE 14.0

/** A pen. */
typedef struct
{
  cairo_t *cr;
  PangoLayout *layout;
  CarpaceShades shades;
} CarpacePen;

/** A pen for @cr, for as long as @cr lives. */
void carpace_pen_init (CarpacePen *pen, cairo_t *cr, const CarpaceShades *shades);
void carpace_pen_clear (CarpacePen *pen);

void carpace_pen_ink (CarpacePen *pen);
void carpace_pen_faint (CarpacePen *pen);

/** How text stands against its @x. */
typedef enum { CARPACE_PEN_FROM, CARPACE_PEN_MIDDLE, CARPACE_PEN_TO } CarpacePenStand;

/** One line of @text with its upper edge at @y. */
void carpace_pen_text (CarpacePen *pen, double x, double y, double points, CarpacePenStand stand, const char *text);

/** The same in bold. */
void carpace_pen_bold (CarpacePen *pen, double x, double y, double points, CarpacePenStand stand, const char *text);

/** @text in a column of @width, broken at words; at most @lines lines, then an
 * ellipsis (0: as many as it takes).
 * @return its height; with @draw false nothing is drawn */
double carpace_pen_column (CarpacePen *pen, double x, double y, double width, double points, int lines, bool draw,
                           const char *text);

/** The width of @text. */
double carpace_pen_width (CarpacePen *pen, double points, const char *text);

void carpace_pen_line (CarpacePen *pen, double x0, double y0, double x1, double y1, double width);

/** Marks, @size across, about (@x, @y). */
void carpace_pen_ring (CarpacePen *pen, double x, double y, double size);
void carpace_pen_bead (CarpacePen *pen, double x, double y, double size);
void carpace_pen_square (CarpacePen *pen, double x, double y, double size, bool filled);
void carpace_pen_triangle (CarpacePen *pen, double x, double y, double size);
void carpace_pen_diamond (CarpacePen *pen, double x, double y, double size);

#endif
