/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-paint.c: rails, beads and numbers. */
#include "diary-paint.h"

#include <glib/gi18n.h>

#include "diary-marks.h"
#include "text/diary-text.h"
#include "text/text.h"

#define DATE_AT 9.0
#define DATE_WIDTH 52.0
#define TRACK_BLANK 9.6
#define WEEK_LINE 13.5
#define GAP_HEIGHT 14.0
#define TICK_ROOM 15.0

CarpaceDiaryLie
carpace_diary_lie (const CarpaceDiaryModel *model, double width, CarpaceDiaryWords words, bool hand)
{
  CarpaceDiaryLie lie = { .width = MAX (width, CARPACE_DIARY_LEAST_WIDTH), .words = words, .hand = hand, .told = hand };
  double spare = lie.width - DATE_AT - DATE_WIDTH - 58;
  int64_t longest_ms = carpace_diary_model_longest_ms (model);

  /* A quarter of an hour beyond the longest, so that its mark has room. */
  lie.longest_ms = (longest_ms / (15 * CARPACE_MINUTE_MS) + 1) * 15 * CARPACE_MINUTE_MS;
  lie.track = words == CARPACE_DIARY_WORDS_BESIDE ? 12 : 15;
  lie.rail_from = DATE_AT + DATE_WIDTH;
  lie.rail_to = lie.rail_from + spare * (hand ? 0.25 : 0.60);
  lie.hand_from = lie.rail_to + 66;
  lie.hand_to = lie.hand_from + spare * 0.34;
  lie.order_at = lie.hand_to + 12;
  lie.extras_at = hand ? lie.order_at + spare * 0.105 : lie.rail_to + 62;
  return lie;
}

static double
at_time (const CarpaceDiaryLie *lie, int64_t ms)
{
  return lie->rail_from + (lie->rail_to - lie->rail_from) * (double) MIN (ms, lie->longest_ms) / (double) lie->longest_ms;
}

static double
at_number (const CarpaceDiaryLie *lie, double number)
{
  return lie->hand_from + (lie->hand_to - lie->hand_from) * number / 10;
}

/* Minutes between two ticks, so that no more than eight are numbered, none into the next. */
static int64_t
tick_ms (const CarpaceDiaryLie *lie)
{
  static const int minutes[] = { 15, 30, 60, 120 };

  for (size_t i = 0; i < G_N_ELEMENTS (minutes); i++)
    if (lie->longest_ms / (minutes[i] * CARPACE_MINUTE_MS) <= 8
        && at_time (lie, minutes[i] * CARPACE_MINUTE_MS) - lie->rail_from >= TICK_ROOM)
      return minutes[i] * CARPACE_MINUTE_MS;
  return 4 * CARPACE_HOUR_MS;
}

/* Head */

static void
number_at (CarpacePen *pen, double x, double y, int number)
{
  char text[16];

  g_snprintf (text, sizeof text, "%d", number);
  carpace_pen_text (pen, x, y, CARPACE_PEN_SMALL, CARPACE_PEN_MIDDLE, text);
}

/* What a scale measures, over it, on as many lines as it takes. */
static double
paint_titles (CarpacePen *pen, const CarpaceDiaryLie *lie, double y, bool draw)
{
  double times = carpace_pen_column (pen, lie->rail_from, y, (lie->hand ? lie->hand_from : lie->width) - lie->rail_from - 8,
                                     CARPACE_PEN_SMALL, 0, draw, carpace_text_head_dose ());
  double hand = lie->hand ? carpace_pen_column (pen, lie->hand_from, y, lie->width - lie->hand_from, CARPACE_PEN_SMALL, 0,
                                                draw, carpace_text_head_hand ())
                          : 0;

  return MAX (times, hand);
}

double
carpace_diary_paint_head (CarpacePen *pen, const CarpaceDiaryLie *lie, double y, bool draw)
{
  double titles = paint_titles (pen, lie, y, false), numbers_y = y + titles + 0.5, line_y = numbers_y + 12;

  if (!draw)
    return titles + 14.5;
  carpace_pen_ink (pen);
  paint_titles (pen, lie, y, true);
  for (int64_t ms = 0; ms <= lie->longest_ms; ms += tick_ms (lie))
    {
      number_at (pen, at_time (lie, ms), numbers_y, (int) (ms / CARPACE_MINUTE_MS));
      carpace_pen_line (pen, at_time (lie, ms), line_y - 3, at_time (lie, ms), line_y, 0.6);
    }
  carpace_pen_line (pen, lie->rail_from, line_y, lie->rail_to, line_y, 0.6);
  if (!lie->hand)
    return titles + 14.5;
  for (int number = 0; number <= 10; number++)
    {
      number_at (pen, at_number (lie, number), numbers_y, number);
      carpace_pen_line (pen, at_number (lie, number), line_y - 3, at_number (lie, number), line_y, 0.6);
    }
  carpace_pen_line (pen, lie->hand_from, line_y, lie->hand_to, line_y, 0.6);
  carpace_pen_text (pen, lie->order_at, numbers_y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM,
                    lie->weeks ? carpace_text_head_mean () : carpace_text_head_order ());
  return titles + 14.5;
}

/* One day */

static void
paint_spine (CarpacePen *pen, double y, double height, double tick_y, bool practised)
{
  carpace_pen_faint (pen);
  carpace_pen_line (pen, 3, y, 3, y + height, 1.2);
  if (tick_y < 0)
    return;
  if (practised)
    {
      carpace_pen_ink (pen);
      carpace_pen_line (pen, 3, tick_y, 7, tick_y, 1.2);
    }
  else
    carpace_pen_line (pen, 3, tick_y, 5, tick_y, 0.8);
}

static void
paint_times (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDaySum *sum, double y)
{
  double dose_x = at_time (lie, sum->dose_ms), done_x = at_time (lie, sum->done_ms);
  g_autofree char *text = carpace_text_done_of (sum->done_ms, sum->dose_ms);

  carpace_pen_faint (pen);
  carpace_pen_line (pen, lie->rail_from, y, lie->rail_to, y, 0.5);
  if (sum->match_ms > 0)
    {
      static const double dashes[] = { 2, 1.5 };
      double match_x = at_time (lie, sum->done_ms + sum->match_ms);

      carpace_pen_ink (pen);
      cairo_set_dash (pen->cr, dashes, 2, 0);
      carpace_pen_line (pen, done_x, y, match_x, y, 0.9);
      cairo_set_dash (pen->cr, NULL, 0, 0);
    }
  if (sum->done_ms > 0)
    {
      carpace_pen_ink (pen);
      carpace_pen_line (pen, lie->rail_from, y, done_x, y, 1.6);
    }
  if (sum->dose_ms > 0)
    carpace_diary_mark_planned (pen, dose_x, y);
  if (sum->done_ms > 0)
    carpace_diary_mark_done (pen, done_x, y);
  carpace_pen_ink (pen);
  if (sum->no_practice && sum->done_ms <= 0)
    carpace_pen_text (pen, lie->rail_from, y - 5, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, _("no practice"));
  else
    carpace_pen_text (pen, lie->rail_to + 6, y - 5, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, text);
}

/* The level as the day's last decision left it, where there was one yet. */
static void
paint_level (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryDay *day, double y)
{
  int64_t level_ms = 0;

  for (guint i = 0; day != NULL && i < day->decisions->len; i++)
    {
      const CarpaceDecision *d = &g_array_index (day->decisions, CarpaceDiaryDecision, i).decision;

      level_ms = d->scope == CARPACE_SCOPE_DAY ? d->level_ms : level_ms;
    }
  /* one beyond the rail would stand where it is not */
  if (level_ms > 0 && level_ms <= lie->longest_ms)
    carpace_diary_mark_level (pen, at_time (lie, level_ms), y);
}

/* What lies at one number: marks beside each other, closer where they are many. */
typedef struct
{
  CarpaceDiaryMarkPainter paint[16];
  int n;
} Heap;

static void
heap_add (Heap heaps[11], int32_t number, CarpaceDiaryMarkPainter paint)
{
  Heap *heap;

  if (number < 0 || number > 10)
    return;
  heap = &heaps[number];
  if (heap->n < (int) G_N_ELEMENTS (heap->paint))
    heap->paint[heap->n++] = paint;
}

static void
paint_heaps (CarpacePen *pen, const CarpaceDiaryLie *lie, Heap heaps[11], double y)
{
  double cell = at_number (lie, 1) - at_number (lie, 0);

  for (int number = 0; number <= 10; number++)
    {
      Heap *heap = &heaps[number];
      double step = heap->n > 1 ? MIN (CARPACE_DIARY_MARK + 0.8, (cell - CARPACE_DIARY_MARK) / (heap->n - 1)) : 0;

      for (int i = 0; i < heap->n; i++)
        heap->paint[i](pen, at_number (lie, number) + step * (i - (heap->n - 1) / 2.0), y);
    }
}

static void
paint_number_lines (CarpacePen *pen, const CarpaceDiaryLie *lie, double y, double height)
{
  carpace_pen_faint (pen);
  for (int number = 0; number <= 10; number++)
    carpace_pen_line (pen, at_number (lie, number), y, at_number (lie, number), y + height, number % 5 == 0 ? 0.5 : 0.2);
}

static char *
order_text (const CarpaceDiaryDay *day)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < day->blocks->len; i++)
    {
      const CarpaceDiaryBlock *block = &g_array_index (day->blocks, CarpaceDiaryBlock, i);

      if (block->dropped)
        continue;
      if (text->len > 0)
        g_string_append (text, "  ");
      if (block->match)
        /* Translators: one letter for a match, before its number. */
        g_string_append (text, _("M"));
      if (block->discomfort >= 0)
        g_string_append_printf (text, "%d", block->discomfort);
      else
        g_string_append (text, "\u2009\u00b7\u2009");
      if (block->corrected_from >= 0)
        g_string_append_printf (text, " (%d)", block->corrected_from);
    }
  return g_string_free (text, FALSE);
}

static void
paint_hand (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDaySum *sum, const CarpaceDiaryDay *day, double y)
{
  Heap mornings[11] = { 0 }, ratings[11] = { 0 };

  if (sum->morning_known)
    {
      heap_add (mornings, sum->morning.waking, carpace_diary_mark_waking);
      heap_add (mornings, sum->morning.now, carpace_diary_mark_now);
    }
  for (guint i = 0; day != NULL && i < day->blocks->len; i++)
    {
      const CarpaceDiaryBlock *block = &g_array_index (day->blocks, CarpaceDiaryBlock, i);

      if (block->corrected_from >= 0)
        heap_add (ratings, block->corrected_from, carpace_diary_mark_corrected);
      heap_add (ratings, block->discomfort, carpace_diary_mark_rating);
    }
  paint_heaps (pen, lie, mornings, y - lie->track / 4);
  paint_heaps (pen, lie, ratings, y + lie->track / 4);
  if (day != NULL)
    {
      g_autofree char *order = order_text (day);

      carpace_pen_ink (pen);
      carpace_pen_text (pen, lie->order_at, y - 5, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, order);
    }
}

static bool
is_told (const CarpaceDecision *decision)
{
  return decision->before_ms != decision->after_ms || decision->no_practice || decision->rule != CARPACE_RULE_KEEP;
}

static void
join (GString *text, const char *between, const char *piece)
{
  if (text->len > 0 && *piece != '\0')
    g_string_append (text, between);
  g_string_append (text, piece);
}

/* The day's own decisions as sentences, then those about its blocks, short and
 * on one line. */
static char *
words_under (const CarpaceDiaryDay *day)
{
  GString *text = g_string_new (NULL);
  g_autoptr (GString) blocks = g_string_new (NULL);

  for (guint i = 0; i < day->decisions->len; i++)
    {
      const CarpaceDecision *decision = &g_array_index (day->decisions, CarpaceDiaryDecision, i).decision;
      g_autofree char *why = decision->scope == CARPACE_SCOPE_DAY ? carpace_text_why_short (decision)
                                                                   : carpace_text_after_block (decision);

      if (is_told (decision))
        join (decision->scope == CARPACE_SCOPE_DAY ? text : blocks, " ", why);
    }
  join (text, "\n", blocks->str);
  return g_string_free (text, FALSE);
}

static char *
words_beside (const CarpaceDiaryDay *day, const char *extras)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; day != NULL && i < day->decisions->len; i++)
    {
      const CarpaceDecision *decision = &g_array_index (day->decisions, CarpaceDiaryDecision, i).decision;
      g_autofree char *follows = decision->scope == CARPACE_SCOPE_DAY ? carpace_text_follows (decision) : NULL;

      if (follows != NULL)
        join (text, ", ", follows);
    }
  join (text, "; ", extras);
  return g_string_free (text, FALSE);
}

/* Whether what is said beside a day has no room there, and goes under it. */
static bool
is_under (CarpacePen *pen, const CarpaceDiaryLie *lie, const char *extras)
{
  return lie->words != CARPACE_DIARY_WORDS_BESIDE
         && carpace_pen_width (pen, CARPACE_PEN_SMALL, extras) > lie->width - lie->extras_at;
}

static double
paint_words (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDaySum *sum, const CarpaceDiaryDay *day, double y,
             bool draw)
{
  double width = lie->width - lie->rail_from - 4;
  g_autofree char *extras = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  if (lie->words == CARPACE_DIARY_WORDS_BESIDE)
    return 0;
  extras = carpace_text_day_extras (sum, lie->told);
  if (is_under (pen, lie, extras))
    g_string_append (text, extras);
  if (day != NULL && lie->told)
    {
      g_autofree char *under = words_under (day);

      join (text, "\n", under);
    }
  carpace_pen_ink (pen);
  return text->len == 0 ? 0
                        : carpace_pen_column (pen, lie->rail_from, y, width, CARPACE_PEN_SMALL, 0, draw, text->str) + 1.5;
}

static void
paint_day_texts (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryRow *row, const CarpaceDaySum *sum,
                 const CarpaceDiaryDay *day, double y)
{
  g_autofree char *date = carpace_text_short_day (row->first);
  g_autofree char *extras = carpace_text_day_extras (sum, lie->told);
  g_autofree char *beside = lie->words == CARPACE_DIARY_WORDS_BESIDE && lie->told ? words_beside (day, extras)
                                                                                   : g_strdup (extras);

  carpace_pen_ink (pen);
  carpace_pen_text (pen, DATE_AT, y - 5, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, date);
  if (*beside != '\0' && !is_under (pen, lie, beside))
    carpace_pen_column (pen, lie->extras_at, y - 5, lie->width - lie->extras_at, CARPACE_PEN_SMALL, 1, true, beside);
}

static double
paint_day (CarpacePen *pen, const CarpaceDiaryLie *lie, CarpaceDiaryModel *model, const CarpaceDiaryRow *row, double y,
           bool draw)
{
  const CarpaceDaySum *sum = carpace_diary_model_sum (model, row->sum);
  bool details = draw || lie->words == CARPACE_DIARY_WORDS_CHANGES;
  const CarpaceDiaryDay *day = details ? carpace_diary_model_day (model, row->first) : NULL;
  double height = lie->track + paint_words (pen, lie, sum, day, y + lie->track - 0.5, false);

  if (!draw)
    return height;
  paint_spine (pen, y, height, y + lie->track / 2, true);
  if (lie->hand)
    paint_number_lines (pen, lie, y, lie->track);
  paint_level (pen, lie, day, y + lie->track / 2);
  paint_times (pen, lie, sum, y + lie->track / 2);
  if (lie->hand)
    paint_hand (pen, lie, sum, day, y + lie->track / 2);
  paint_day_texts (pen, lie, row, sum, day, y + lie->track / 2);
  paint_words (pen, lie, sum, day, y + lie->track - 0.5, true);
  return height;
}

static double
paint_blank (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryRow *row, double y, bool draw)
{
  g_autofree char *date = NULL;

  if (!draw)
    return TRACK_BLANK;
  date = carpace_text_short_day (row->first);
  paint_spine (pen, y, TRACK_BLANK, y + TRACK_BLANK / 2, false);
  carpace_pen_ink (pen);
  carpace_pen_text (pen, DATE_AT, y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, date);
  carpace_pen_faint (pen);
  carpace_pen_line (pen, lie->rail_from, y + TRACK_BLANK / 2, lie->rail_to, y + TRACK_BLANK / 2, 0.5);
  if (lie->hand)
    paint_number_lines (pen, lie, y, TRACK_BLANK);
  return TRACK_BLANK;
}

static double
paint_gap (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryRow *row, double y, bool draw)
{
  static const double dashes[] = { 1.2, 2 };
  g_autofree char *text = NULL;

  if (!draw)
    return GAP_HEIGHT;
  text = carpace_text_no_record (row->first, row->last);
  carpace_pen_faint (pen);
  cairo_set_dash (pen->cr, dashes, 2, 0);
  carpace_pen_line (pen, 3, y, 3, y + GAP_HEIGHT, 1.2);
  cairo_set_dash (pen->cr, NULL, 0, 0);
  carpace_pen_ink (pen);
  carpace_pen_text (pen, DATE_AT, y + 2, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, text);
  return GAP_HEIGHT;
}

/* The week in one line beside its days' own, or in full. */
static double
paint_week_words (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryModel *model, const CarpaceDiaryRow *row,
                  double y, bool draw)
{
  bool beside = lie->words == CARPACE_DIARY_WORDS_BESIDE;
  double width = lie->width - DATE_AT, height = WEEK_LINE;
  CarpaceWeekNumbers week;
  g_autofree char *summed = NULL;
  g_autofree char *compared = NULL;
  g_autofree char *text = NULL;

  if (beside && !draw)
    return WEEK_LINE;
  week = carpace_diary_model_week (lie->further != NULL ? lie->further : model, row->first);
  summed = beside ? carpace_text_week_short (&week, lie->hand) : carpace_text_week (&week, lie->hand);
  compared = carpace_text_week_to_week (&week);
  text = beside || !lie->hand ? g_strdup (summed) : g_strdup_printf ("%s\n%s", summed, compared);
  if (!beside)
    height = carpace_pen_column (pen, DATE_AT, y + 2, width, CARPACE_PEN_SMALL, 0, false, text) + 6;
  if (!draw)
    return height;
  paint_spine (pen, y, height, -1, false);
  carpace_pen_ink (pen);
  carpace_pen_line (pen, 0, y + height - 2, lie->width, y + height - 2, 0.4);
  carpace_pen_column (pen, DATE_AT, y + (beside ? 1 : 2), width, CARPACE_PEN_SMALL, beside ? 1 : 0, true, text);
  return height;
}

double
carpace_diary_low_row (const CarpaceDiaryLie *lie, const CarpaceDiaryRow *row)
{
  if (row->kind == CARPACE_DIARY_ROW_WEEK)
    return WEEK_LINE;
  if (row->kind == CARPACE_DIARY_ROW_GAP)
    return GAP_HEIGHT;
  if (row->sum < 0)
    return TRACK_BLANK;
  return lie->track;
}

double
carpace_diary_paint_row (CarpacePen *pen, const CarpaceDiaryLie *lie, CarpaceDiaryModel *model, int32_t index, double y,
                         bool draw)
{
  const CarpaceDiaryRow *row = carpace_diary_model_row (model, index);

  switch (row->kind)
    {
    case CARPACE_DIARY_ROW_DAY:
      return row->sum < 0 ? paint_blank (pen, lie, row, y, draw) : paint_day (pen, lie, model, row, y, draw);
    case CARPACE_DIARY_ROW_GAP:
      return paint_gap (pen, lie, row, y, draw);
    case CARPACE_DIARY_ROW_WEEK:
      return paint_week_words (pen, lie, model, row, y, draw);
    case CARPACE_N_DIARY_ROWS:
      break;
    }
  return 0;
}

double
carpace_diary_paint_week (CarpacePen *pen, const CarpaceDiaryLie *lie, const CarpaceDiaryModel *model, CarpaceDay monday,
                          double y, bool draw)
{
  CarpaceWeekNumbers week;
  CarpaceDaySum mean = { .highest = -1 };
  g_autofree char *date = NULL;

  if (!draw)
    return TRACK_BLANK;
  week = carpace_diary_model_week (model, monday);
  date = carpace_text_date (monday);
  paint_spine (pen, y, TRACK_BLANK, y + TRACK_BLANK / 2, week.practised > 0);
  carpace_pen_ink (pen);
  carpace_pen_text (pen, DATE_AT, y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, date);
  if (week.planned > 0)
    {
      mean.dose_ms = week.dose_ms / week.planned;
      mean.done_ms = week.done_ms / week.planned;
    }
  paint_times (pen, lie, &mean, y + TRACK_BLANK / 2);
  if (!lie->hand)
    return TRACK_BLANK;
  paint_number_lines (pen, lie, y, TRACK_BLANK);
  if (week.n_waking > 0)
    carpace_diary_mark_waking (pen, at_number (lie, (double) week.waking_sum / week.n_waking), y + TRACK_BLANK / 2);
  if (week.n_ratings > 0)
    {
      g_autofree char *text = carpace_text_mean (week.rating_sum, week.n_ratings);

      carpace_diary_mark_rating (pen, at_number (lie, (double) week.rating_sum / week.n_ratings), y + TRACK_BLANK / 2);
      carpace_pen_ink (pen);
      carpace_pen_text (pen, lie->order_at, y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, text);
    }
  if (week.rising)
    carpace_pen_text (pen, lie->extras_at, y, CARPACE_PEN_SMALL, CARPACE_PEN_FROM, _("rising"));
  return TRACK_BLANK;
}
