/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dot-plot.c: dots, their count, and a line through ten or more. */
#include "dot-plot.h"

#include <math.h>

#include "text/diary-text.h"

#define UNDER 24.0         /* numbers and what they are, under the axis */
#define LEAST_PLOT 90.0    /* whatever its caption takes */
#define BIN_MIN 3.0        /* mornings whose doses lie this near are one dot */
#define BINS 22            /* at most so many across, where mornings are many */
#define BOUND_PIECES 24    /* of a curve */

static double
minutes_of (const CarpaceMorningAfter *morning)
{
  return (double) morning->done_ms / (double) CARPACE_MINUTE_MS;
}

/* Student's quantile for 97.5 % at @degrees, 8 or more: A&S 26.7.5, to 0.0001. */
static double
student (double degrees)
{
  double x = 1.959963984540054, x2 = x * x;
  double g1 = (x2 + 1) * x / 4;
  double g2 = ((5 * x2 + 16) * x2 + 3) * x / 96;
  double g3 = (((3 * x2 + 19) * x2 + 17) * x2 - 15) * x / 384;
  double g4 = ((((79 * x2 + 776) * x2 + 1482) * x2 - 1920) * x2 - 945) * x / 92160;

  return x + (g1 + (g2 + (g3 + g4 / degrees) / degrees) / degrees) / degrees;
}

/* Sums of squares about the means. */
typedef struct
{
  double n, x, y, xx, xy, yy;
} Squares;

static Squares
squares_of (const GArray *mornings)
{
  Squares s = { .n = mornings->len };

  for (guint i = 0; i < mornings->len; i++)
    {
      const CarpaceMorningAfter *morning = &g_array_index (mornings, CarpaceMorningAfter, i);

      s.x += minutes_of (morning) / s.n;
      s.y += morning->waking / s.n;
    }
  for (guint i = 0; i < mornings->len; i++)
    {
      const CarpaceMorningAfter *morning = &g_array_index (mornings, CarpaceMorningAfter, i);
      double x = minutes_of (morning) - s.x, y = morning->waking - s.y;

      s.xx += x * x;
      s.xy += x * y;
      s.yy += y * y;
    }
  return s;
}

bool
carpace_dot_plot_line (const GArray *mornings, CarpaceDotPlotLine *ret_line)
{
  Squares s = squares_of (mornings);
  double within;

  /* alike: less than a minute apart, all of them together */
  if (mornings->len < CARPACE_DOT_PLOT_FEWEST || s.xx < 1)
    return false;
  *ret_line = (CarpaceDotPlotLine) { .slope = s.xy / s.xx, .n = s.n, .mean_min = s.x, .spread = s.xx };
  ret_line->at_0 = s.y - ret_line->slope * s.x;
  ret_line->t = student (s.n - 2);
  ret_line->sd = sqrt (MAX (s.yy - ret_line->slope * s.xy, 0) / (s.n - 2));
  within = ret_line->t * ret_line->sd / sqrt (s.xx);
  ret_line->low = ret_line->slope - within;
  ret_line->high = ret_line->slope + within;
  return true;
}

double
carpace_dot_plot_line_within (const CarpaceDotPlotLine *line, double minutes)
{
  double away = minutes - line->mean_min;

  return line->t * line->sd * sqrt (1 / line->n + away * away / line->spread);
}

/* Where the plot lies on its page. */
typedef struct
{
  double left, right, top, bottom;
  double most_min;
  int highest;
} Plot;

static double
plot_x (const Plot *plot, double minutes)
{
  return plot->left + (plot->right - plot->left) * minutes / plot->most_min;
}

static double
plot_y (const Plot *plot, double waking)
{
  return plot->bottom - (plot->bottom - plot->top) * waking / plot->highest;
}

static Plot
plot_of (const GArray *mornings, double x, double y, double width, double height)
{
  Plot plot = { .left = x + 22, .right = x + width - 8, .top = y + 16, .bottom = y + height - UNDER, .most_min = 30,
                .highest = 10 };

  for (guint i = 0; i < mornings->len; i++)
    plot.most_min = MAX (plot.most_min, minutes_of (&g_array_index (mornings, CarpaceMorningAfter, i)));
  plot.most_min = ceil (plot.most_min / 15) * 15;
  return plot;
}

static void
paint_axes (CarpacePen *pen, const Plot *plot)
{
  double step = plot->most_min > 240 ? 60 : plot->most_min > 90 ? 30 : 15;
  char text[16];

  for (int waking = 0; waking <= plot->highest; waking++)
    {
      carpace_pen_faint (pen);
      carpace_pen_line (pen, plot->left, plot_y (plot, waking), plot->right, plot_y (plot, waking), waking % 5 ? 0.2 : 0.5);
      if (waking % 5 != 0)
        continue;
      g_snprintf (text, sizeof text, "%d", waking);
      carpace_pen_ink (pen);
      carpace_pen_text (pen, plot->left - 6, plot_y (plot, waking) - 5, CARPACE_PEN_SMALL, CARPACE_PEN_TO, text);
    }
  carpace_pen_ink (pen);
  for (double minutes = 0; minutes <= plot->most_min; minutes += step)
    {
      g_snprintf (text, sizeof text, "%.0f", minutes);
      carpace_pen_line (pen, plot_x (plot, minutes), plot->bottom, plot_x (plot, minutes), plot->bottom + 2.5, 0.6);
      carpace_pen_text (pen, plot_x (plot, minutes), plot->bottom + 4, CARPACE_PEN_SMALL, CARPACE_PEN_MIDDLE, text);
    }
  carpace_pen_text (pen, plot->right, plot->bottom + 13, CARPACE_PEN_SMALL, CARPACE_PEN_TO, carpace_text_plot_across ());
  carpace_pen_text (pen, plot->left, plot->top - 10, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, carpace_text_plot_up ());
}

static void
paint_dots (CarpacePen *pen, const Plot *plot, const GArray *mornings)
{
  g_autoptr (GHashTable) bins = g_hash_table_new (NULL, NULL);
  double bin_min = mornings->len > 60 ? MAX (BIN_MIN, plot->most_min / BINS) : BIN_MIN;
  GHashTableIter iter;
  void *key, *value;

  for (guint i = 0; i < mornings->len; i++)
    {
      const CarpaceMorningAfter *morning = &g_array_index (mornings, CarpaceMorningAfter, i);
      void *bin = GINT_TO_POINTER ((int) (minutes_of (morning) / bin_min) * 16 + morning->waking + 1);

      g_hash_table_insert (bins, bin, GINT_TO_POINTER (GPOINTER_TO_INT (g_hash_table_lookup (bins, bin)) + 1));
    }
  g_hash_table_iter_init (&iter, bins);
  while (g_hash_table_iter_next (&iter, &key, &value))
    {
      int bin = GPOINTER_TO_INT (key) - 1, n = GPOINTER_TO_INT (value);
      double x = plot_x (plot, (bin / 16 + 0.5) * bin_min);
      double y = plot_y (plot, bin % 16);
      char text[16];

      x = MIN (x, plot->right);
      carpace_pen_ring (pen, x, y, MIN (3.6 * sqrt (n), 12));
      if (n == 1)
        continue;
      g_snprintf (text, sizeof text, "%d", n);
      carpace_pen_text (pen, x, y - 4, n > 3 ? 6 : 5, CARPACE_PEN_MIDDLE, text);
    }
}

/* The line at @minutes, @times its interval away. */
static double
line_y (const Plot *plot, const CarpaceDotPlotLine *line, double minutes, double times)
{
  return plot_y (plot, line->at_0 + line->slope * minutes + times * carpace_dot_plot_line_within (line, minutes));
}

static void
paint_bound (CarpacePen *pen, const Plot *plot, const CarpaceDotPlotLine *line, double from, double to, double side)
{
  static const double dashes[] = { 2.5, 2 };

  cairo_set_dash (pen->cr, dashes, 2, 0);
  cairo_set_line_width (pen->cr, 0.6);
  cairo_move_to (pen->cr, plot_x (plot, from), line_y (plot, line, from, side));
  for (int i = 1; i <= BOUND_PIECES; i++)
    {
      double minutes = from + (to - from) * i / BOUND_PIECES;

      cairo_line_to (pen->cr, plot_x (plot, minutes), line_y (plot, line, minutes, side));
    }
  cairo_stroke (pen->cr);
  cairo_set_dash (pen->cr, NULL, 0, 0);
}

/* Between the least and the most that was done, no further. */
static void
paint_line (CarpacePen *pen, const Plot *plot, const CarpaceDotPlotLine *line, const GArray *mornings)
{
  double from = plot->most_min, to = 0;

  for (guint i = 0; i < mornings->len; i++)
    {
      from = MIN (from, minutes_of (&g_array_index (mornings, CarpaceMorningAfter, i)));
      to = MAX (to, minutes_of (&g_array_index (mornings, CarpaceMorningAfter, i)));
    }
  cairo_save (pen->cr);
  cairo_rectangle (pen->cr, plot->left, plot->top, plot->right - plot->left, plot->bottom - plot->top);
  cairo_clip (pen->cr);
  carpace_pen_ink (pen);
  carpace_pen_line (pen, plot_x (plot, from), line_y (plot, line, from, 0), plot_x (plot, to), line_y (plot, line, to, 0), 1);
  paint_bound (pen, plot, line, from, to, -1);
  paint_bound (pen, plot, line, from, to, 1);
  cairo_restore (pen->cr);
}

void
carpace_dot_plot_paint (CarpacePen *pen, const GArray *mornings, double x, double y, double width, double height)
{
  double title = carpace_pen_column (pen, x, y, width, CARPACE_PEN_PLAIN, 0, false, carpace_text_plot_title ());
  CarpaceDotPlotLine line = { 0 };
  bool drawn = carpace_dot_plot_line (mornings, &line);
  g_autofree char *caption
    = carpace_text_plot_caption ((int32_t) mornings->len, drawn, 10 * line.slope, 10 * line.low, 10 * line.high);
  double told = carpace_pen_column (pen, x, y, width, CARPACE_PEN_SMALL, 0, false, caption);
  Plot plot = plot_of (mornings, x, y + title, width, MAX (height - title - told, LEAST_PLOT));

  carpace_pen_ink (pen);
  carpace_pen_column (pen, x, y, width, CARPACE_PEN_PLAIN, 0, true, carpace_text_plot_title ());
  paint_axes (pen, &plot);
  if (drawn)
    paint_line (pen, &plot, &line, mornings);
  paint_dots (pen, &plot, mornings);
  carpace_pen_ink (pen);
  carpace_pen_column (pen, x, plot.bottom + UNDER, width, CARPACE_PEN_SMALL, 0, true, caption);
}
