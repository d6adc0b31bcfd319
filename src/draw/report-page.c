/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report-page.c: a report as one page. */
#include "report-private.h"

#include "diary-paint.h"
#include "dot-plot.h"
#include "pen.h"
#include "text/text.h"

const CarpaceSheet carpace_sheet_a4 = { .width = 595.28, .height = 841.89 };
const CarpaceSheet carpace_sheet_letter = { .width = 612, .height = 792 };

#define MARGIN 30.0
#define BETWEEN 14.0     /* between two columns */
#define PLOT_HEIGHT 146.0

typedef struct
{
  CarpaceReport *report;
  CarpacePen *pen;
  double width, height; /* between the margins */
  double track;   /* height of a day */
  guint listed;   /* paragraphs a list may have */
} Page;

static double
paint_section (Page *page, const CarpaceReportSection *section, double x, double y, double width, bool draw)
{
  guint n = section->paragraphs->len;
  /* The first paragraph of a list is its count, and stays. */
  guint cut = section->list && n > page->listed ? n - page->listed : 0;
  double top = y;

  if (draw)
    carpace_pen_bold (page->pen, x, y, CARPACE_PEN_PLAIN, CARPACE_PEN_FROM, section->heading);
  y += 11;
  for (guint i = 0; i < n; i++)
    {
      if (cut > 0 && i >= 1 && i < 1 + cut)
        continue;
      y += carpace_pen_column (page->pen, x, y, width, CARPACE_PEN_SMALL, 0, draw,
                               g_ptr_array_index (section->paragraphs, i)) + 0.8;
    }
  if (cut > 0)
    {
      g_autofree char *earlier = carpace_text_report_earlier ((int32_t) cut);

      y += carpace_pen_column (page->pen, x, y, width, CARPACE_PEN_SMALL, 0, draw, earlier);
    }
  return y + 4 - top;
}

static double
paint_place (Page *page, CarpaceReportPlace place, double x, double y, double width, bool draw)
{
  double top = y;

  for (guint i = 0; i < page->report->sections->len; i++)
    {
      const CarpaceReportSection *section = &g_array_index (page->report->sections, CarpaceReportSection, i);

      if (section->place == place)
        y += paint_section (page, section, x, y, width, draw);
    }
  return y - top;
}

static double
paint_columns (Page *page, double y, bool draw)
{
  CarpaceReport *report = page->report;
  double half = (page->width - BETWEEN) / 2;
  bool plot = carpace_report_shows_hand (report) && report->numbers.opened > 0;
  double right = paint_place (page, CARPACE_PLACE_RIGHT, plot ? half + BETWEEN : 0, y, plot ? half : page->width, draw);

  if (!plot)
    return right;
  if (draw)
    {
      g_autoptr (GArray) mornings
        = carpace_diary_model_mornings_after (report->model, report->ask.since, report->ask.until);

      carpace_dot_plot_paint (page->pen, mornings, 0, y, half, MAX (PLOT_HEIGHT, MIN (right, 220)));
    }
  return MAX (PLOT_HEIGHT, right);
}

static CarpaceDiaryLie
lie_of (Page *page)
{
  CarpaceDiaryLie lie = carpace_diary_lie (page->report->drawn, page->width, CARPACE_DIARY_WORDS_BESIDE,
                                           carpace_report_shows_hand (page->report));

  lie.told = !page->report->ask.for_coach;
  lie.track = page->track;
  lie.further = page->report->model;
  return lie;
}

/* @return its height */
static double
paint_picture_head (Page *page, const CarpaceDiaryLie *lie, const char *heading, double y, bool draw)
{
  double legend = carpace_diary_paint_legend (page->pen, lie, lie->rail_from - 5, y + 12, draw);

  if (draw)
    carpace_pen_bold (page->pen, 0, y, CARPACE_PEN_PLAIN, CARPACE_PEN_FROM, heading);
  return 13 + legend + carpace_diary_paint_head (page->pen, lie, y + 13 + legend, draw) + 1;
}

static double
days_height (Page *page)
{
  CarpaceDiaryLie lie = lie_of (page);
  double height = paint_picture_head (page, &lie, carpace_text_report_days_heading (), 0, false);

  for (int32_t i = 0; i < carpace_diary_model_n_rows (page->report->drawn); i++)
    height += carpace_diary_low_row (&lie, carpace_diary_model_row (page->report->drawn, i));
  return height;
}

static void
paint_days (Page *page, double y)
{
  CarpaceDiaryLie lie = lie_of (page);

  y += paint_picture_head (page, &lie, carpace_text_report_days_heading (), y, true);
  for (int32_t i = 0; i < carpace_diary_model_n_rows (page->report->drawn); i++)
    y += carpace_diary_paint_row (page->pen, &lie, page->report->drawn, i, y, true);
}

/* As many of the last weeks as there is room for. */
static void
paint_weeks (Page *page, double y, double room)
{
  CarpaceDiaryLie lie = lie_of (page);
  CarpaceDay first = carpace_diary_monday (page->report->ask.since), last = carpace_diary_monday (page->report->ask.until);
  double row = carpace_diary_paint_week (page->pen, &lie, page->report->model, last, y, false);
  double head;
  int32_t fit;

  lie.weeks = true;
  head = paint_picture_head (page, &lie, carpace_text_report_weeks_heading (), y, true);
  y += head;
  fit = MAX (1, (int32_t) ((room - head - 10) / row));
  if ((last - first) / 7 + 1 > fit)
    {
      g_autofree char *earlier = carpace_text_report_weeks_not_drawn ((last - first) / 7 + 1 - fit);

      carpace_pen_ink (page->pen);
      carpace_pen_text (page->pen, 9, y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, earlier);
      first = last - 7 * (fit - 1);
      y += 10;
    }
  for (CarpaceDay monday = first; monday <= last; monday += 7)
    y += carpace_diary_paint_week (page->pen, &lie, page->report->model, monday, y, true);
}

static double
paint_top (Page *page, bool draw)
{
  const CarpaceReport *report = page->report;
  g_autofree char *who = carpace_text_report_who (report->ask.code, &report->numbers);
  double y = 0;

  if (draw)
    {
      carpace_pen_ink (page->pen);
      carpace_pen_bold (page->pen, 0, y, CARPACE_PEN_TITLE, CARPACE_PEN_FROM, carpace_text_report_title (report->ask.for_coach));
      carpace_pen_text (page->pen, page->width, y + 5, CARPACE_PEN_LARGE, CARPACE_PEN_TO, who);
      carpace_pen_line (page->pen, 0, y + 20, page->width, y + 20, 0.8);
    }
  y += 25;
  return y + paint_place (page, CARPACE_PLACE_ABOVE, 0, y, page->width, draw);
}

static double
paint_bottom (Page *page, double y, bool draw)
{
  double height = paint_place (page, CARPACE_PLACE_BELOW, 0, y, page->width, draw);

  return height + carpace_pen_column (page->pen, 0, y + height, page->width, CARPACE_PEN_SMALL, 0, draw,
                                      carpace_text_informs ());
}

/* Makes rows lower, then lists shorter, until the days and the columns fit into
 * @room. @return false, lists short, where they never do */
static bool
fit_days (Page *page, double room)
{
  static const double tracks[] = { 12, 11.2, 10.4 };

  for (page->listed = 14; page->listed >= 6; page->listed -= 2)
    for (size_t i = 0; i < G_N_ELEMENTS (tracks); i++)
      {
        page->track = tracks[i];
        if (days_height (page) + paint_columns (page, 0, false) <= room)
          return true;
      }
  page->listed = 8;
  page->track = tracks[0];
  return false;
}

/* Lays the page out at the largest of a few sizes at which the days fit.
 * @return that size; 1 and false in *ret_days where they fit at none */
static double
lay_out (Page *page, CarpaceSheet sheet, bool *ret_days)
{
  static const double sizes[] = { 1, 0.95, 0.9, 0.86 };

  *ret_days = carpace_report_shows_hand (page->report);
  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      page->width = (sheet.width - 2 * MARGIN) / sizes[i];
      page->height = (sheet.height - 2 * MARGIN) / sizes[i];
      if (*ret_days && fit_days (page, page->height - paint_top (page, false) - paint_bottom (page, 0, false) - 10))
        return sizes[i];
    }
  *ret_days = false;
  page->width = sheet.width - 2 * MARGIN;
  page->height = sheet.height - 2 * MARGIN;
  return 1;
}

static void
paint_page (Page *page, bool days)
{
  double top = paint_top (page, true), bottom = paint_bottom (page, 0, false);
  double columns = paint_columns (page, 0, false);

  if (page->report->numbers.opened > 0)
    {
      if (days)
        paint_days (page, top + 2);
      else
        paint_weeks (page, top + 2, page->height - top - bottom - 10 - columns);
    }
  carpace_pen_ink (page->pen);
  paint_columns (page, page->height - bottom - columns - 2, true);
  carpace_pen_ink (page->pen);
  paint_bottom (page, page->height - bottom, true);
}

void
carpace_report_paint (CarpaceReport *report, cairo_t *cr, CarpaceSheet sheet)
{
  CarpacePen pen;
  Page page = { .report = report, .pen = &pen };
  bool days;
  double size;

  cairo_save (cr);
  cairo_translate (cr, MARGIN, MARGIN);
  carpace_pen_init (&pen, cr, &carpace_shades_paper);
  size = lay_out (&page, sheet, &days);
  cairo_scale (cr, size, size);
  paint_page (&page, days);
  carpace_pen_clear (&pen);
  cairo_restore (cr);
}
