/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * rail-paint.h: the rail, its tubes and its bead: the same on a card, in a window and
 * on paper.
 *
 * What is planned is an open tube, what is done a filled one, a wait is the bare rail,
 * and the bead stands where practice stands. All sizes come of the text's.
 */
#ifndef CARPACE_DRAW_RAIL_PAINT_H
#define CARPACE_DRAW_RAIL_PAINT_H

#include <pango/pangocairo.h>
#include <stdbool.h>

#include "carpace/day-rail.h"
#include "pen.h"

/** A rail to paint on, along @middle. */
typedef struct
{
  cairo_t *cr;
  CarpaceShades shades; /**< `faint` is what quiet words are in */
  double em;            /**< the text's size; a day's tubes are 1 of it high */
  double middle;
  bool mirrored;        /**< read from right to left, over @width */
  double width;
} CarpaceRailPaint;

/** The rail itself, from @from to @to. */
void carpace_rail_paint_line (const CarpaceRailPaint *rail, double from, double to);

/** An upright bar where it ends. */
void carpace_rail_paint_end (const CarpaceRailPaint *rail, double at);

/** A tube, filled up to @done_to. */
void carpace_rail_paint_tube (const CarpaceRailPaint *rail, double from, double to, double done_to);

/** The bead. */
void carpace_rail_paint_bead (const CarpaceRailPaint *rail, double at, bool filled);

/** Half its width. */
double carpace_rail_bead_radius (double em);

/** Paints @day over the whole width, from the upper edge @rail->middle on: practice time
 * above each part, times of day below, where there is room for them; @layout has the
 * font. With @rail->cr NULL only measures.
 * @return its height */
double carpace_day_rail_paint (const CarpaceRailPaint *rail, PangoLayout *layout, const CarpaceDayRail *day);

#endif
