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

/** A line through @mornings (CarpaceMorningAfter): the median of the slopes of
 * all pairs with different doses, and the median of the waking numbers less the
 * slope times the median dose. Source: Theil 1950, Sen 1968 (doi
 * 10.1080/01621459.1968.10480934), in the form scipy.stats.theilslopes has.
 * @param ret_slope points for one minute @param ret_at_0 points at no dose
 * @return false where there are fewer than CARPACE_DOT_PLOT_FEWEST, or all
 * doses are alike */
bool carpace_dot_plot_line (const GArray *mornings, double *ret_slope, double *ret_at_0);

/** Paints title, plot and caption into @width x @height at (@x, @y). Mornings
 * that fall on one another make a larger dot with their number beside it. */
void carpace_dot_plot_paint (CarpacePen *pen, const GArray *mornings, double x, double y, double width, double height);

#endif
