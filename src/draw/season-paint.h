/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * season-paint.h: rehearsed weeks as a strip: a day from left to right, planned an open
 * mark, done a filled one, the highest discomfort of the day hung below the rail; under
 * each week what was done in it.
 *
 * Two strips with the same lie stand one above the other, day under day.
 */
#ifndef CARPACE_DRAW_SEASON_PAINT_H
#define CARPACE_DRAW_SEASON_PAINT_H

#include <stdint.h>

#include "pen.h"

/** One day. */
typedef struct
{
  int64_t planned_ms, done_ms;
  int32_t highest; /**< discomfort, -1 where nothing was answered */
  bool opened;     /**< nothing is drawn of a day that never was */
} CarpaceSeasonMark;

/** A season to draw. */
typedef struct
{
  int32_t n;                     /**< days; weeks are of seven, from the first */
  const CarpaceSeasonMark *day;
  int32_t chosen;                /**< -1: none */
} CarpaceSeasonDrawn;

/** Where things lie. */
typedef struct
{
  double em;          /**< the text's size */
  double width;
  bool mirrored;      /**< read from right to left */
  int32_t weeks;      /**< across */
  int64_t longest_ms; /**< at the upper edge: that of all seasons that stand above one another */
} CarpaceSeasonLie;

/** The least width in which each week has room for what is written under it. */
double carpace_season_least_width (double em, int32_t weeks);

/** The height of a strip. */
double carpace_season_height (const CarpaceSeasonLie *lie);

/** Paints @season with its upper edge at 0. @param layout has the font */
void carpace_season_paint (cairo_t *cr, PangoLayout *layout, const CarpaceShades *shades, const CarpaceSeasonLie *lie,
                           const CarpaceSeasonDrawn *season);

/** The day at @x, -1 where there is none. */
int32_t carpace_season_day_at (const CarpaceSeasonLie *lie, int32_t n, double x);

/** Where day @day is framed when it is chosen: from *ret_from on, *ret_width wide. */
void carpace_season_day_lies (const CarpaceSeasonLie *lie, int32_t day, double *ret_from, double *ret_width);

#endif
