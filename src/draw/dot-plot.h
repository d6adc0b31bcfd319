/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * dot-plot.h: how the morning after answers to the dose of the day before.
 */
#ifndef CARPACE_DRAW_DOT_PLOT_H
#define CARPACE_DRAW_DOT_PLOT_H

#include "diary-model.h"
#include "pen.h"

/** Fewest mornings that a line is drawn through. */
#define CARPACE_DOT_PLOT_FEWEST 10

/** A line of least squares through mornings, and how sure it is. */
typedef struct
{
  double slope;           /**< points for one minute */
  double at_0;            /**< points at no dose */
  double low, high;       /**< where the slope lies, 95 % */
  double t, sd, n, mean_min, spread; /**< what the line's own interval is made of */
} CarpaceDotPlotLine;

/** The line through @mornings (CarpaceMorningAfter), with Student's interval. Numbers
 * in whole points tie: the middle of all slopes was +0.00 in 38 of 40 made-up
 * seasons that had a slope. A mean has no such trouble with ties.
 * Sources: least squares as scipy.stats.linregress has it; Student's quantile
 * by Abramowitz & Stegun 1964, 26.7.5.
 * @return false where there are fewer than CARPACE_DOT_PLOT_FEWEST, or all
 * doses are alike */
bool carpace_dot_plot_line (const GArray *mornings, CarpaceDotPlotLine *ret_line);

/** How far above and below the line its 95 % lie at @minutes. */
double carpace_dot_plot_line_within (const CarpaceDotPlotLine *line, double minutes);

/** Paints title, plot and caption into @width x @height at (@x, @y). Mornings
 * that fall on one another make a larger dot with their number beside it. */
void carpace_dot_plot_paint (CarpacePen *pen, const GArray *mornings, double x, double y, double width, double height);

#endif
