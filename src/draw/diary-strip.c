/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-strip.c: some weeks at a glance, above the one that is read. */
#include "diary-marks.h"

#include "text/diary-text.h"

#define SCALE_WIDTH 24.0 /* for the minutes, left of the days */
#define PLOT 40.0
#define OVER 6.0         /* so that the highest mark has room */
#define DATES 11.0

static double
week_width (const CarpaceDiaryLie *lie, int32_t weeks)
{
  return (lie->width - SCALE_WIDTH) / weeks;
}

static double
up (const CarpaceDiaryLie *lie, double bottom, int64_t ms)
{
  return bottom - PLOT * (double) MIN (ms, lie->longest_ms) / (double) lie->longest_ms;
}

static void
paint_scale (CarpacePen *pen, const CarpaceDiaryLie *lie, double bottom)
{
  int64_t half_ms = lie->longest_ms / 2 / (15 * CARPACE_MINUTE_MS) * (15 * CARPACE_MINUTE_MS);

  for (int i = 0; i < 3; i++)
    {
      int64_t ms = i == 0 ? 0 : i == 1 ? MAX (half_ms, 15 * CARPACE_MINUTE_MS) : lie->longest_ms;
      double y = up (lie, bottom, ms);
      char text[16];

      g_snprintf (text, sizeof text, "%d", (int) (ms / CARPACE_MINUTE_MS));
      carpace_pen_faint (pen);
      carpace_pen_line (pen, SCALE_WIDTH, y, lie->width, y, i == 0 ? 0.8 : 0.3);
      carpace_pen_ink (pen);
      carpace_pen_text (pen, SCALE_WIDTH - 3, y - 5, CARPACE_PEN_SMALL, CARPACE_PEN_TO, text);
    }
}

static void
paint_day (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDaySum *sum, double x, double bottom)
{
  if (sum->done_ms > 0)
    {
      carpace_pen_ink (pen);
      carpace_pen_line (pen, x, bottom, x, up (lie, bottom, sum->done_ms), 1);
    }
  carpace_pen_ink (pen);
  if (sum->dose_ms > 0)
    carpace_pen_ring (pen, x, up (lie, bottom, sum->dose_ms), 3.6);
  if (sum->done_ms > 0)
    carpace_pen_bead (pen, x, up (lie, bottom, sum->done_ms), 3.2);
}

/* A date under each week, or under each second where there is no room. */
static void
paint_dates (CarpacePen *pen, const CarpaceDiaryLie *lie, CarpaceDay first_monday, int32_t weeks, double y)
{
  double room = week_width (lie, weeks);
  g_autofree char *widest = carpace_text_day_of_month (first_monday + 7 * (weeks - 1));
  int32_t each = carpace_pen_width (pen, CARPACE_PEN_SMALL, widest) + 6 > room ? 2 : 1;

  carpace_pen_ink (pen);
  for (int32_t week = weeks - 1; week >= 0; week -= each)
    {
      g_autofree char *date = carpace_text_day_of_month (first_monday + 7 * week);

      carpace_pen_text (pen, SCALE_WIDTH + room * week + 3, y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, date);
    }
}

double
carpace_diary_paint_strip (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryModel *model,
                           CarpaceDay first_monday, int32_t weeks, CarpaceDay chosen, double y, bool draw)
{
  double room = week_width (lie, weeks), bottom = y + OVER + PLOT;
  int32_t chosen_week = (carpace_diary_monday (chosen) - first_monday) / 7;

  if (!draw)
    return OVER + PLOT + DATES + 2;
  paint_scale (pen, lie, bottom);
  for (int32_t week = 0; week <= weeks; week++)
    {
      carpace_pen_faint (pen);
      carpace_pen_line (pen, SCALE_WIDTH + room * week, y + OVER, SCALE_WIDTH + room * week, bottom + DATES, 0.3);
    }
  for (int32_t day = 0; day < 7 * weeks; day++)
    {
      const CarpaceDaySum *sum = carpace_diary_model_sum_of (model, first_monday + day);

      if (sum != NULL)
        paint_day (pen, lie, sum, SCALE_WIDTH + room * (day + 0.5) / 7, bottom);
    }
  paint_dates (pen, lie, first_monday, weeks, bottom + 1.5);
  if (chosen_week < 0 || chosen_week >= weeks)
    return OVER + PLOT + DATES + 2;
  carpace_pen_ink (pen);
  cairo_set_line_width (pen->cr, 1.2);
  cairo_rectangle (pen->cr, SCALE_WIDTH + room * chosen_week, y + 1, room, OVER + PLOT + DATES);
  cairo_stroke (pen->cr);
  return OVER + PLOT + DATES + 2;
}

int32_t
carpace_diary_strip_week_at (const CarpaceDiaryLie *lie, int32_t weeks, double x)
{
  double week = (x - SCALE_WIDTH) / week_width (lie, weeks);

  return week < 0 || week >= weeks ? -1 : (int32_t) week;
}
