/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-paint.c: days along an upright scale of minutes, weeks under them. */
#include "season-paint.h"

#include <glib.h>

#include "carpace/instant.h"
#include "text/diary-text.h"
#include "text/season-text.h"

/* Of the text's size. */
#define SCALE 2.6       /* for the minutes, before the days */
#define OVER 0.7        /* so that the highest mark has room */
#define PLOT 6.0
#define MARK 0.32       /* half a mark's width */
#define HANG 0.3        /* a point of discomfort */
#define HANGS 10
#define LINE_OF_WORDS 1.45
#define WEEK 6.6        /* the least a week is wide: "12 h 45 min" */
#define RAIL 0.15
#define APART 0.35

#define POINTS_OF_A_WEEK 7

typedef struct
{
  cairo_t *cr;
  PangoLayout *layout;
  CarpaceShades shades;
  const CarpaceSeasonLie *lie;
} Strip;

static double
week_width (const CarpaceSeasonLie *lie)
{
  return (lie->width - SCALE * lie->em) / MAX (lie->weeks, 1);
}

double
carpace_season_least_width (double em, int32_t weeks)
{
  return em * (SCALE + WEEK * weeks);
}

static double
bottom_of (const CarpaceSeasonLie *lie)
{
  return lie->em * (OVER + PLOT);
}

double
carpace_season_height (const CarpaceSeasonLie *lie)
{
  return bottom_of (lie) + lie->em * (HANG * HANGS + APART + 2 * LINE_OF_WORDS);
}

static double
x_of (const CarpaceSeasonLie *lie, double x)
{
  return lie->mirrored ? lie->width - x : x;
}

void
carpace_season_day_lies (const CarpaceSeasonLie *lie, int32_t day, double *ret_from, double *ret_width)
{
  double width = week_width (lie) / POINTS_OF_A_WEEK, from = SCALE * lie->em + day * width;

  *ret_width = width;
  *ret_from = lie->mirrored ? lie->width - from - width : from;
}

int32_t
carpace_season_day_at (const CarpaceSeasonLie *lie, int32_t n, double x)
{
  double day = (x_of (lie, x) - SCALE * lie->em) / (week_width (lie) / POINTS_OF_A_WEEK);

  return day < 0 || day >= n ? -1 : (int32_t) day;
}

/* ---- what is painted ---- */

static void
ink (const Strip *strip, CarpaceShade shade)
{
  cairo_set_source_rgb (strip->cr, shade.red, shade.green, shade.blue);
}

/* Whole pixels, so that a line of them is not a soft one of two. */
static double
line_width (const Strip *strip)
{
  return MAX (1.0, (double) (int) (RAIL * strip->lie->em + 0.5));
}

static double
up (const Strip *strip, int64_t ms)
{
  return bottom_of (strip->lie) - PLOT * strip->lie->em * (double) ms / (double) MAX (strip->lie->longest_ms, 1);
}

static void
line (const Strip *strip, double x0, double y0, double x1, double y1, double width)
{
  cairo_set_line_width (strip->cr, width);
  cairo_move_to (strip->cr, x_of (strip->lie, x0), y0);
  cairo_line_to (strip->cr, x_of (strip->lie, x1), y1);
  cairo_stroke (strip->cr);
}

/* @text begins at @x, or (@ends) ends there, in the reading direction. */
static void
words (const Strip *strip, double x, double y, bool ends, const char *text)
{
  int width;
  double left;

  pango_layout_set_text (strip->layout, text, -1);
  pango_layout_get_pixel_size (strip->layout, &width, NULL);
  left = x_of (strip->lie, x) - (ends != strip->lie->mirrored ? width : 0);
  cairo_move_to (strip->cr, left, y);
  pango_cairo_show_layout (strip->cr, strip->layout);
}

static int64_t
step_of (int64_t longest_ms)
{
  return longest_ms <= 2 * CARPACE_HOUR_MS ? 30 * CARPACE_MINUTE_MS : longest_ms <= 4 * CARPACE_HOUR_MS ? CARPACE_HOUR_MS
                                                                                                     : 2 * CARPACE_HOUR_MS;
}

static void
paint_scale (const Strip *strip)
{
  const CarpaceSeasonLie *lie = strip->lie;
  int64_t step = step_of (lie->longest_ms);

  for (int64_t ms = step; ms <= lie->longest_ms; ms += step)
    {
      double y = up (strip, ms);
      char minutes[16];

      g_snprintf (minutes, sizeof minutes, "%d", (int) (ms / CARPACE_MINUTE_MS));
      cairo_save (strip->cr);
      ink (strip, strip->shades.faint);
      words (strip, (SCALE - 0.6) * lie->em, y - 0.75 * lie->em, true, minutes);
      cairo_set_source_rgba (strip->cr, strip->shades.faint.red, strip->shades.faint.green, strip->shades.faint.blue, 0.3);
      line (strip, SCALE * lie->em, y, lie->width, y, 1);
      cairo_restore (strip->cr);
    }
  ink (strip, strip->shades.ink);
  line (strip, SCALE * lie->em, bottom_of (lie), lie->width, bottom_of (lie), line_width (strip));
}

static void
mark (const Strip *strip, double x, double y, bool filled)
{
  double width = line_width (strip), radius = MARK * strip->lie->em - width / 2;

  cairo_new_sub_path (strip->cr);
  cairo_arc (strip->cr, x_of (strip->lie, x), y, radius, 0, 2 * G_PI);
  ink (strip, filled ? strip->shades.ink : strip->shades.paper);
  cairo_fill_preserve (strip->cr);
  ink (strip, strip->shades.ink);
  cairo_set_line_width (strip->cr, width);
  cairo_stroke (strip->cr);
}

static void
paint_day (const Strip *strip, const CarpaceSeasonMark *day, int32_t i)
{
  const CarpaceSeasonLie *lie = strip->lie;
  double wide = week_width (lie) / POINTS_OF_A_WEEK, x = SCALE * lie->em + (i + 0.5) * wide, bottom = bottom_of (lie);

  if (!day->opened)
    return;
  ink (strip, strip->shades.ink);
  if (day->highest > 0)
    line (strip, x, bottom, x, bottom + HANG * lie->em * day->highest, 1.5 * line_width (strip));
  if (day->planned_ms > 0)
    mark (strip, x, up (strip, MIN (day->planned_ms, lie->longest_ms)), false);
  if (day->done_ms > 0)
    mark (strip, x, up (strip, MIN (day->done_ms, lie->longest_ms)), true);
}

/* The name of a week, and what was done in it. */
static void
paint_week (const Strip *strip, const CarpaceSeasonDrawn *season, int32_t week)
{
  const CarpaceSeasonLie *lie = strip->lie;
  double x = SCALE * lie->em + week * week_width (lie), y = bottom_of (lie) + lie->em * (HANG * HANGS + APART);
  g_autofree char *name = carpace_text_season_week_name (week + 1), *done = NULL;
  int64_t sum = 0;

  for (int32_t i = 7 * week; i < MIN (7 * week + 7, season->n); i++)
    sum += season->day[i].done_ms;
  done = carpace_text_minutes (sum);
  cairo_save (strip->cr);
  cairo_set_source_rgba (strip->cr, strip->shades.faint.red, strip->shades.faint.green, strip->shades.faint.blue, 0.4);
  line (strip, x, lie->em * OVER, x, carpace_season_height (lie), 1);
  cairo_restore (strip->cr);
  ink (strip, strip->shades.faint);
  words (strip, x + APART * lie->em, y, false, name);
  ink (strip, strip->shades.ink);
  words (strip, x + APART * lie->em, y + LINE_OF_WORDS * lie->em, false, done);
}

static void
paint_chosen (const Strip *strip, int32_t day)
{
  const CarpaceSeasonLie *lie = strip->lie;
  double from, width, over = 0.3 * lie->em;

  carpace_season_day_lies (lie, day, &from, &width);
  ink (strip, strip->shades.ink);
  cairo_set_line_width (strip->cr, line_width (strip));
  cairo_rectangle (strip->cr, from - over / 2, line_width (strip), width + over,
                   bottom_of (lie) + lie->em * HANG * HANGS - line_width (strip));
  cairo_stroke (strip->cr);
}

void
carpace_season_paint (cairo_t *cr, PangoLayout *layout, const CarpaceShades *shades, const CarpaceSeasonLie *lie,
                      const CarpaceSeasonDrawn *season)
{
  const Strip strip = { cr, layout, *shades, lie };

  paint_scale (&strip);
  for (int32_t week = 0; week < lie->weeks && 7 * week < season->n; week++)
    paint_week (&strip, season, week);
  for (int32_t i = 0; i < season->n && i < 7 * lie->weeks; i++)
    paint_day (&strip, &season->day[i], i);
  if (season->chosen >= 0 && season->chosen < season->n)
    paint_chosen (&strip, season->chosen);
}
