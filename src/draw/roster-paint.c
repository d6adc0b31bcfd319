/* SPDX-License-Identifier: GPL-3.0-or-later */
/* roster-paint.c: a player's weeks on a rail. */
#include "roster-paint.h"

#include "carpace/instant.h"

#define MARK 5.0 /* px across, least */

int64_t
carpace_roster_longest_ms (const CarpaceRosterRow *row, size_t n_rows)
{
  int64_t longest_ms = CARPACE_HOUR_MS;

  for (size_t i = 0; i < n_rows; i++)
    for (int32_t week = 0; week < row[i].n_weeks; week++)
      longest_ms = MAX (longest_ms, MAX (row[i].week[week].planned_ms, row[i].week[week].done_ms));
  return longest_ms;
}

int32_t
carpace_roster_column (const CarpaceRosterLie *lie, CarpaceDay monday)
{
  int32_t back = lie->last_monday - monday;

  return back < 0 || back % 7 != 0 || back / 7 >= CARPACE_ROSTER_WEEKS ? -1 : CARPACE_ROSTER_WEEKS - 1 - back / 7;
}

double
carpace_roster_column_x (const CarpaceRosterLie *lie, int32_t column)
{
  double along = (column + 0.5) / CARPACE_ROSTER_WEEKS;

  return lie->x + lie->width * (lie->mirrored ? 1 - along : along);
}

/* Half a mark of room is left above and below. */
static double
up (const CarpaceRosterLie *lie, double mark, int64_t ms)
{
  double bottom = lie->y + lie->height - mark / 2 - 1;

  return bottom - (lie->height - mark - 2) * (double) MIN (ms, lie->longest_ms) / (double) lie->longest_ms;
}

static void
paint_week (CarpacePen *pen, const CarpaceRosterLie *lie, double mark, const CarpaceLoadWeek *week, double x)
{
  double bottom = up (lie, mark, 0);

  carpace_pen_ink (pen);
  if (week->done_ms > 0)
    carpace_pen_line (pen, x, bottom, x, up (lie, mark, week->done_ms), mark / 4);
  if (week->planned_ms > 0)
    carpace_pen_ring (pen, x, up (lie, mark, week->planned_ms), mark);
  if (week->done_ms > 0)
    carpace_pen_bead (pen, x, up (lie, mark, week->done_ms), mark * 0.8);
}

void
carpace_roster_paint (cairo_t *cr, const CarpaceShades *shades, const CarpaceRosterLie *lie, const CarpaceRosterRow *row)
{
  double mark = MAX (MARK, lie->height / 6), bottom = up (lie, mark, 0);
  CarpacePen pen;

  if (!row->load) /* an empty rail would say that nothing was done */
    return;
  carpace_pen_init (&pen, cr, shades);
  carpace_pen_faint (&pen);
  carpace_pen_line (&pen, lie->x, bottom, lie->x + lie->width, bottom, 1);
  for (int32_t i = 0; i < row->n_weeks; i++)
    {
      int32_t column = carpace_roster_column (lie, row->week[i].monday);

      if (column >= 0)
        paint_week (&pen, lie, mark, &row->week[i], carpace_roster_column_x (lie, column));
    }
  carpace_pen_clear (&pen);
}
