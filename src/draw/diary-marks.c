/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-marks.c: the diary's marks, and what they mean. */
#include "diary-marks.h"

#include "text/diary-text.h"

#define LEGEND_LINE 12.0

void
carpace_diary_mark_planned (CarpacePen *pen, double x, double y)
{
  carpace_pen_ink (pen);
  carpace_pen_line (pen, x, y - CARPACE_DIARY_MARK * 0.8, x, y + CARPACE_DIARY_MARK * 0.8, 0.8);
  carpace_pen_ring (pen, x, y, CARPACE_DIARY_MARK);
}

void
carpace_diary_mark_done (CarpacePen *pen, double x, double y)
{
  carpace_pen_bead (pen, x, y, CARPACE_DIARY_MARK * 0.9);
}

/* An upright between two feet: told from the ring's line, and from the rail. */
void
carpace_diary_mark_level (CarpacePen *pen, double x, double y)
{
  carpace_pen_ink (pen);
  carpace_pen_line (pen, x, y - CARPACE_DIARY_MARK, x, y + CARPACE_DIARY_MARK, 0.8);
  carpace_pen_line (pen, x - CARPACE_DIARY_MARK * 0.4, y - CARPACE_DIARY_MARK, x + CARPACE_DIARY_MARK * 0.4, y - CARPACE_DIARY_MARK, 0.8);
  carpace_pen_line (pen, x - CARPACE_DIARY_MARK * 0.4, y + CARPACE_DIARY_MARK, x + CARPACE_DIARY_MARK * 0.4, y + CARPACE_DIARY_MARK, 0.8);
}

void
carpace_diary_mark_match (CarpacePen *pen, double x, double y)
{
  static const double dashes[] = { 2, 1.5 };

  carpace_pen_ink (pen);
  cairo_set_dash (pen->cr, dashes, 2, 0);
  carpace_pen_line (pen, x - CARPACE_DIARY_MARK, y, x + CARPACE_DIARY_MARK, y, 0.9);
  cairo_set_dash (pen->cr, NULL, 0, 0);
}

void
carpace_diary_mark_waking (CarpacePen *pen, double x, double y)
{
  carpace_pen_triangle (pen, x, y, CARPACE_DIARY_MARK);
}

void
carpace_diary_mark_now (CarpacePen *pen, double x, double y)
{
  carpace_pen_diamond (pen, x, y, CARPACE_DIARY_MARK);
}

void
carpace_diary_mark_rating (CarpacePen *pen, double x, double y)
{
  carpace_pen_square (pen, x, y, CARPACE_DIARY_MARK * 0.72, true);
}

void
carpace_diary_mark_corrected (CarpacePen *pen, double x, double y)
{
  carpace_pen_square (pen, x, y, CARPACE_DIARY_MARK * 0.72, false);
}

/* What is said of each, in the legend. */
typedef struct
{
  CarpaceDiaryMarkPainter paint;
  const char *means;
  bool of_hand, of_day;
} Meaning;

double
carpace_diary_paint_legend (CarpacePen *pen, const CarpaceDiaryLie *lie, double x, double y, bool draw)
{
  const Meaning marks[] = {
    { carpace_diary_mark_planned, carpace_text_legend_planned (), false, false },
    { carpace_diary_mark_done, carpace_text_legend_done (), false, false },
    { carpace_diary_mark_level, carpace_text_legend_level (), false, true },
    { carpace_diary_mark_match, carpace_text_legend_match (), false, true },
    { carpace_diary_mark_waking, carpace_text_legend_waking (), true, false },
    { carpace_diary_mark_now, carpace_text_legend_now (), true, true },
    { carpace_diary_mark_rating, carpace_text_legend_rating (), true, false },
    { carpace_diary_mark_corrected, carpace_text_legend_corrected (), true, true },
  };
  double at = x, from_y = y;

  for (size_t i = 0; i < G_N_ELEMENTS (marks); i++)
    {
      double width = 2.2 * CARPACE_DIARY_MARK + carpace_pen_width (pen, CARPACE_PEN_SMALL, marks[i].means);

      if ((marks[i].of_hand && !lie->hand) || (marks[i].of_day && lie->weeks))
        continue;
      if (at > x && at + width > lie->width)
        {
          at = x;
          y += LEGEND_LINE;
        }
      if (draw)
        {
          marks[i].paint (pen, at + CARPACE_DIARY_MARK, y + 5);
          carpace_pen_ink (pen);
          carpace_pen_text (pen, at + 2.2 * CARPACE_DIARY_MARK, y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, marks[i].means);
        }
      at += width + 10;
    }
  return y + LEGEND_LINE - from_y;
}
