/* SPDX-License-Identifier: GPL-3.0-or-later */
/* report.c: what a report says, and its page. */
#include "report.h"

#include <glib/gi18n.h>
#include <string.h>

#include "diary-paint.h"
#include "dot-plot.h"
#include "pen.h"
#include "report-numbers.h"
#include "text/text.h"

const CarpaceSheet carpace_sheet_a4 = { .width = 595.28, .height = 841.89 };
const CarpaceSheet carpace_sheet_letter = { .width = 612, .height = 792 };

#define MARGIN 30.0
#define BETWEEN 14.0     /* between two columns */
#define PLOT_HEIGHT 146.0
#define PICTURE_HEAD 50.0
#define FURTHER 14       /* days before the stretch, to compare its first weeks with */
#define MOST_LISTED 40   /* decisions in a list, as text */
#define TEXT_WIDTH 78

/* Where a section stands on the page. */
typedef enum
{
  PLACE_ABOVE,
  PLACE_LEFT,
  PLACE_RIGHT,
  PLACE_BELOW
} Place;

typedef struct
{
  Place place;
  const char *heading;
  GPtrArray *paragraphs; /* char * */
  bool list;             /* may be cut from its beginning */
} Section;

struct CarpaceReport
{
  CarpaceReportAsk ask;
  CarpaceDiaryModel *model; /* the stretch and 14 days before it */
  CarpaceDiaryModel *drawn; /* the stretch alone */
  CarpaceReportNumbers numbers;
  GArray *sections; /* Section */
};

/* What it says */

static void
clear_section (void *section)
{
  g_ptr_array_unref (((Section *) section)->paragraphs);
}

static Section *
add_section (CarpaceReport *report, Place place, const char *heading, char *paragraph)
{
  Section section = { .place = place, .heading = heading, .paragraphs = g_ptr_array_new_with_free_func (g_free) };

  if (paragraph != NULL)
    g_ptr_array_add (section.paragraphs, paragraph);
  g_array_append_val (report->sections, section);
  return &g_array_index (report->sections, Section, report->sections->len - 1);
}

static void
add_paragraph (Section *section, char *paragraph)
{
  if (paragraph != NULL)
    g_ptr_array_add (section->paragraphs, paragraph);
}

static bool
is_change (const CarpaceDecision *decision)
{
  return decision->scope == CARPACE_SCOPE_DAY
         && (decision->before_ms != decision->after_ms || decision->no_practice || decision->rule != CARPACE_RULE_KEEP);
}

static void
list_day_decisions (Section *section, const CarpaceDiaryDay *day)
{
  for (guint i = 0; i < day->decisions->len; i++)
    {
      const CarpaceDecision *decision = &g_array_index (day->decisions, CarpaceDiaryDecision, i).decision;
      g_autofree char *why = carpace_text_why (decision);

      if (is_change (decision))
        add_paragraph (section, carpace_text_report_dated (day->day, why));
    }
}

static void
list_day_cautions (Section *section, const CarpaceDiaryDay *day)
{
  for (guint i = 0; i < day->cautions->len; i++)
    {
      const CarpaceDiaryCaution *caution = &g_array_index (day->cautions, CarpaceDiaryCaution, i);

      if (caution->what != CARPACE_CAUTION_WAS_ASKED)
        add_paragraph (section, carpace_text_report_caution (day->day, caution->what, caution->signs));
    }
}

static void
list_days (CarpaceReport *report, Section *section, void (*list) (Section *section, const CarpaceDiaryDay *day))
{
  section->list = true;
  for (int32_t i = 0; i < carpace_diary_model_n_sums (report->drawn); i++)
    {
      const CarpaceDiaryDay *day
        = carpace_diary_model_day (report->drawn, carpace_diary_model_sum (report->drawn, i)->day);

      if (day != NULL)
        list (section, day);
    }
}

static void
add_cautions (CarpaceReport *report)
{
  Section *section = add_section (report, PLACE_RIGHT, carpace_text_report_cautions_heading (), NULL);

  list_days (report, section, list_day_cautions);
  if (section->paragraphs->len == 0)
    add_paragraph (section, g_strdup (carpace_text_report_no_caution ()));
}

static void
say_to_clinician (CarpaceReport *report)
{
  const CarpaceReportNumbers *numbers = &report->numbers;
  Section *section;

  add_section (report, PLACE_ABOVE, carpace_text_report_asked_heading (), carpace_text_report_asked (numbers));
  section = add_section (report, PLACE_ABOVE, carpace_text_report_hand_heading (), carpace_text_report_hand (numbers));
  add_paragraph (section, carpace_text_report_sites (numbers));
  section = add_section (report, PLACE_ABOVE, carpace_text_report_why_heading (), carpace_text_report_why (numbers));
  add_paragraph (section, carpace_text_report_rules (report->ask.plan));
  section = add_section (report, PLACE_RIGHT, carpace_text_report_decisions_heading (), NULL);
  list_days (report, section, list_day_decisions);
  g_ptr_array_insert (section->paragraphs, 0, carpace_text_report_decisions (numbers));
  add_cautions (report);
  add_section (report, PLACE_RIGHT, carpace_text_report_rest_heading (), carpace_text_report_rest (numbers, false));
  add_section (report, PLACE_RIGHT, carpace_text_report_habit_heading (), carpace_text_report_habit (numbers, false));
}

static void
say_to_coach (CarpaceReport *report)
{
  const CarpaceReportNumbers *numbers = &report->numbers;
  char *sites = report->ask.sites ? carpace_text_report_sites (numbers) : NULL;

  add_section (report, PLACE_ABOVE, carpace_text_report_asked_heading (), carpace_text_report_asked (numbers));
  add_section (report, PLACE_ABOVE, carpace_text_report_rest_heading (), carpace_text_report_rest (numbers, true));
  add_section (report, PLACE_ABOVE, carpace_text_report_habit_heading (), carpace_text_report_habit (numbers, true));
  if (report->ask.ratings)
    add_section (report, PLACE_ABOVE, carpace_text_report_hand_heading (), carpace_text_report_hand (numbers));
  if (sites != NULL)
    add_section (report, PLACE_ABOVE, carpace_text_report_sites_heading (), sites);
  if (report->ask.cautions)
    add_cautions (report);
}

static void
say (CarpaceReport *report)
{
  if (report->numbers.opened == 0)
    add_section (report, PLACE_ABOVE, carpace_text_report_asked_heading (), g_strdup (carpace_text_report_nothing ()));
  else if (report->ask.for_coach)
    say_to_coach (report);
  else
    say_to_clinician (report);
  add_section (report, PLACE_BELOW, carpace_text_report_limits_heading (),
               g_strdup (carpace_text_report_limits (report->ask.for_coach)));
}

CarpaceReport *
carpace_report_new (const CarpaceDiary *diary, const CarpaceReportAsk *ask)
{
  CarpaceReport *report = g_new0 (CarpaceReport, 1);

  report->ask = *ask;
  report->sections = g_array_new (FALSE, TRUE, sizeof (Section));
  g_array_set_clear_func (report->sections, clear_section);
  report->model = carpace_diary_model_new (diary, ask->since - FURTHER, ask->until);
  report->drawn = carpace_diary_model_new (diary, ask->since, ask->until);
  if (report->model == NULL || report->drawn == NULL
      || !carpace_report_count (report->model, ask->since, ask->until, &report->numbers))
    {
      carpace_report_free (report);
      return NULL;
    }
  say (report);
  return report;
}

void
carpace_report_free (CarpaceReport *report)
{
  if (report == NULL)
    return;
  carpace_diary_model_free (report->model);
  carpace_diary_model_free (report->drawn);
  g_array_unref (report->sections);
  g_free (report);
}

const CarpaceReportNumbers *
carpace_report_numbers (const CarpaceReport *report)
{
  return &report->numbers;
}

/* As text */

/* Appends @text, lines broken at words, those after the first begun with @indent. */
static void
append_broken (GString *out, const char *text, const char *indent)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  glong column = 0;

  for (char **word = words; *word != NULL; word++)
    {
      glong length = g_utf8_strlen (*word, -1);

      if (column > 0 && column + 1 + length > TEXT_WIDTH)
        {
          g_string_append_printf (out, "\n%s", indent);
          column = g_utf8_strlen (indent, -1);
        }
      else if (column > 0)
        {
          g_string_append_c (out, ' ');
          column++;
        }
      g_string_append (out, *word);
      column += length;
    }
  g_string_append_c (out, '\n');
}

static void
append_section (GString *out, const Section *section)
{
  guint from = section->list && section->paragraphs->len > MOST_LISTED ? section->paragraphs->len - MOST_LISTED : 0;

  g_string_append_printf (out, "\n%s\n", section->heading);
  if (from > 0)
    {
      g_autofree char *earlier = carpace_text_report_earlier ((int32_t) from);

      append_broken (out, earlier, "");
    }
  for (guint i = from; i < section->paragraphs->len; i++)
    append_broken (out, g_ptr_array_index (section->paragraphs, i), section->list ? "  " : "");
}

static void
append_weeks (CarpaceReport *report, GString *out)
{
  bool hand = !report->ask.for_coach || report->ask.ratings;

  g_string_append_printf (out, "\n%s\n", carpace_text_report_weeks_heading ());
  for (int32_t i = 0; i < carpace_diary_model_n_rows (report->drawn); i++)
    {
      const CarpaceDiaryRow *row = carpace_diary_model_row (report->drawn, i);

      if (row->kind == CARPACE_DIARY_ROW_WEEK)
        {
          CarpaceWeekNumbers week = carpace_diary_model_week (report->model, row->first);
          g_autofree char *sentence = carpace_text_week (&week, hand);

          append_broken (out, sentence, "  ");
        }
    }
}

static void
append_days (CarpaceReport *report, GString *out)
{
  g_string_append_printf (out, "\n%s\n", carpace_text_report_days_heading ());
  for (int32_t i = 0; i < carpace_diary_model_n_sums (report->drawn); i++)
    {
      const CarpaceDaySum *sum = carpace_diary_model_sum (report->drawn, i);
      g_autofree char *date = carpace_text_short_day (sum->day);
      g_autofree char *done = carpace_text_done_of (sum->done_ms, sum->dose_ms);
      g_autofree char *sentence = report->ask.for_coach && !report->ask.ratings
                                    ? carpace_text_report_dated (sum->day, done)
                                    : carpace_text_day_sentence (sum->day, sum);

      append_broken (out, sentence, "  ");
    }
}

char *
carpace_report_text (CarpaceReport *report)
{
  GString *out = g_string_new (NULL);
  g_autofree char *who = carpace_text_report_who (report->ask.code, &report->numbers);

  g_string_append_printf (out, "%s\n", carpace_text_report_title (report->ask.for_coach));
  append_broken (out, who, "");
  for (guint i = 0; i < report->sections->len; i++)
    {
      const Section *section = &g_array_index (report->sections, Section, i);

      if (section->place == PLACE_BELOW && report->numbers.opened > 0)
        {
          append_weeks (report, out);
          append_days (report, out);
        }
      append_section (out, section);
    }
  g_string_append_c (out, '\n');
  append_broken (out, carpace_text_informs (), "");
  return g_string_free (out, FALSE);
}

/* As a page */

typedef struct
{
  CarpaceReport *report;
  CarpacePen *pen;
  double width, height; /* between the margins */
  double track;   /* height of a day */
  guint listed;   /* paragraphs a list may have */
} Page;

static double
paint_section (Page *page, const Section *section, double x, double y, double width, bool draw)
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
paint_place (Page *page, Place place, double x, double y, double width, bool draw)
{
  double top = y;

  for (guint i = 0; i < page->report->sections->len; i++)
    {
      const Section *section = &g_array_index (page->report->sections, Section, i);

      if (section->place == place)
        y += paint_section (page, section, x, y, width, draw);
    }
  return y - top;
}

static bool
shows_hand (const CarpaceReport *report)
{
  return !report->ask.for_coach || report->ask.ratings;
}

static double
paint_columns (Page *page, double y, bool draw)
{
  CarpaceReport *report = page->report;
  double half = (page->width - BETWEEN) / 2;
  bool plot = shows_hand (report) && report->numbers.opened > 0;
  double right = paint_place (page, PLACE_RIGHT, plot ? half + BETWEEN : 0, y, plot ? half : page->width, draw);

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
                                           shows_hand (page->report));

  lie.told = !page->report->ask.for_coach;
  lie.track = page->track;
  lie.further = page->report->model;
  return lie;
}

static double
days_height (Page *page)
{
  CarpaceDiaryLie lie = lie_of (page);
  double height = 0;

  for (int32_t i = 0; i < carpace_diary_model_n_rows (page->report->drawn); i++)
    height += carpace_diary_row_height (&lie, carpace_diary_model_row (page->report->drawn, i));
  return height;
}

static void
paint_picture_head (Page *page, const CarpaceDiaryLie *lie, const char *heading, double y)
{
  carpace_pen_bold (page->pen, 0, y, CARPACE_PEN_PLAIN, CARPACE_PEN_FROM, heading);
  carpace_diary_paint_legend (page->pen, lie, lie->rail_from - 5, y + 12);
  carpace_diary_paint_head (page->pen, lie, y + 25);
}

static void
paint_days (Page *page, double y)
{
  CarpaceDiaryLie lie = lie_of (page);

  paint_picture_head (page, &lie, carpace_text_report_days_heading (), y);
  y += PICTURE_HEAD;
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
  int32_t fit;

  lie.weeks = true;
  paint_picture_head (page, &lie, carpace_text_report_weeks_heading (), y);
  y += PICTURE_HEAD;
  fit = MAX (1, (int32_t) ((room - PICTURE_HEAD - 10) / row));
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
  return y + paint_place (page, PLACE_ABOVE, 0, y, page->width, draw);
}

static double
paint_bottom (Page *page, double y, bool draw)
{
  double height = paint_place (page, PLACE_BELOW, 0, y, page->width, draw);

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
        if (PICTURE_HEAD + days_height (page) + paint_columns (page, 0, false) <= room)
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

  *ret_days = true;
  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      page->width = (sheet.width - 2 * MARGIN) / sizes[i];
      page->height = (sheet.height - 2 * MARGIN) / sizes[i];
      if (fit_days (page, page->height - paint_top (page, false) - paint_bottom (page, 0, false) - 10))
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
