/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dot-plot.c: dots, their count, and a line through ten or more. */
#include "dot-plot.h"

#include <math.h>

#include "text/diary-text.h"

#define BIN_MIN 3.0        /* mornings whose doses lie this near are one dot */
#define BINS 22            /* at most so many across, where mornings are many */
#define MOST_PAIRS_OF 800              /* slopes are of the latest mornings, this many */

static int
compare (const void *a, const void *b)
{
  double left = *(const double *) a, right = *(const double *) b;

  return (left > right) - (left < right);
}

static double
median (double *values, guint n)
{
  qsort (values, n, sizeof *values, compare);
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

static double
minutes_of (const CarpaceMorningAfter *morning)
{
  return (double) morning->done_ms / (double) CARPACE_MINUTE_MS;
}

/* Slopes of all pairs with different doses. */
static GArray *
slopes_of (const CarpaceMorningAfter *morning, guint n)
{
  GArray *slopes = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      if (morning[i].done_ms != morning[j].done_ms)
        {
          double slope = (morning[j].waking - morning[i].waking) / (minutes_of (&morning[j]) - minutes_of (&morning[i]));

          g_array_append_val (slopes, slope);
        }
  return slopes;
}

bool
carpace_dot_plot_line (const GArray *mornings, double *ret_slope, double *ret_at_0)
{
  guint n = MIN (mornings->len, MOST_PAIRS_OF);
  const CarpaceMorningAfter *morning = &g_array_index (mornings, CarpaceMorningAfter, mornings->len - n);
  g_autoptr (GArray) slopes = NULL;
  g_autofree double *doses = NULL;
  g_autofree double *wakings = NULL;

  if (n < CARPACE_DOT_PLOT_FEWEST)
    return false;
  slopes = slopes_of (morning, n);
  if (slopes->len == 0)
    return false;
  doses = g_new (double, n);
  wakings = g_new (double, n);
  for (guint i = 0; i < n; i++)
    {
      doses[i] = minutes_of (&morning[i]);
      wakings[i] = morning[i].waking;
    }
  *ret_slope = median ((double *) (void *) slopes->data, slopes->len);
  *ret_at_0 = median (wakings, n) - *ret_slope * median (doses, n);
  return true;
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
  Plot plot = { .left = x + 22, .right = x + width - 8, .top = y + 16, .bottom = y + height - 46, .most_min = 30,
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

static void
paint_line (CarpacePen *pen, const Plot *plot, double slope, double at_0)
{
  cairo_save (pen->cr);
  cairo_rectangle (pen->cr, plot->left, plot->top, plot->right - plot->left, plot->bottom - plot->top);
  cairo_clip (pen->cr);
  carpace_pen_ink (pen);
  carpace_pen_line (pen, plot->left, plot_y (plot, at_0), plot->right, plot_y (plot, at_0 + slope * plot->most_min), 1);
  cairo_restore (pen->cr);
}

void
carpace_dot_plot_paint (CarpacePen *pen, const GArray *mornings, double x, double y, double width, double height)
{
  double title = carpace_pen_column (pen, x, y, width, CARPACE_PEN_PLAIN, 0, false, carpace_text_plot_title ());
  Plot plot = plot_of (mornings, x, y + title, width, height - title);
  double slope = 0, at_0 = 0;
  bool line = carpace_dot_plot_line (mornings, &slope, &at_0);
  g_autofree char *caption = carpace_text_plot_caption ((int32_t) mornings->len, line, 10 * slope);

  carpace_pen_ink (pen);
  carpace_pen_column (pen, x, y, width, CARPACE_PEN_PLAIN, 0, true, carpace_text_plot_title ());
  paint_axes (pen, &plot);
  if (line)
    paint_line (pen, &plot, slope, at_0);
  paint_dots (pen, &plot, mornings);
  carpace_pen_ink (pen);
  carpace_pen_column (pen, x, plot.bottom + 24, width, CARPACE_PEN_SMALL, 0, true, caption);
}
