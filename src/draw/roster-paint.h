/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * roster-paint.h: a player's weeks on a rail, for a row of the roster.
 *
 * A column a week along a rail, time upward: planned the open ring, done the bead on its upright, as in the diary's strip. All
 * rows have one scale and the same weeks above one another; a week that is not known leaves nothing.
 */
#ifndef CARPACE_DRAW_ROSTER_PAINT_H
#define CARPACE_DRAW_ROSTER_PAINT_H

#include <glib.h>

#include "carpace/roster.h"
#include "pen.h"

/** Where a row's weeks lie, and what they are measured by. */
typedef struct
{
  double x, y, width, height; /**< px */
  bool mirrored;              /**< the first week at the right */
  CarpaceDay last_monday;     /**< of the last column's week */
  int64_t longest_ms;         /**< at the upper edge; more than 0 */
} CarpaceRosterLie;

/** The longest time planned or done of a week in all rows, ms; one hour at least. */
int64_t carpace_roster_longest_ms (const CarpaceRosterRow *row, size_t n_rows);

/** The column of @monday's week, from 0, the oldest, on; -1 where it lies outside. */
int32_t carpace_roster_column (const CarpaceRosterLie *lie, CarpaceDay monday);

/** The middle of a column, px. */
double carpace_roster_column_x (const CarpaceRosterLie *lie, int32_t column);

void carpace_roster_paint (cairo_t *cr, const CarpaceShades *shades, const CarpaceRosterLie *lie, const CarpaceRosterRow *row);

#endif
