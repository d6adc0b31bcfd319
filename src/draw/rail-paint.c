/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rail-paint.c: line, tube, bead; and a day laid along them, with its words where they fit. */
#include "rail-paint.h"

#include <glib.h>

#include "text/duration.h"
#include "text/face-text.h"

/* Of the text's size. */
#define LINE 0.15
#define TUBE 0.5       /* half its height */
#define CORNER 0.2
#define BEAD 0.65      /* half its width */
#define BREATH 0.3     /* between two tubes of a block */
#define END 0.6        /* half an end's height */
#define MARGIN 2.0     /* before the first part, behind the last: a bead stands there */
#define NARROWEST 0.5  /* tubes of a block: narrower ones are one */
#define TICK 0.5
#define APART 0.5      /* between two words, at least */

static void
ink (const CarpaceRailPaint *rail, CarpaceShade shade)
{
  cairo_set_source_rgb (rail->cr, shade.red, shade.green, shade.blue);
}

static double
x_of (const CarpaceRailPaint *rail, double at)
{
  return rail->mirrored ? rail->width - at : at;
}

/* Whole pixels, so that a line of them is not a soft one of two. */
static double
line_width (double em)
{
  return MAX (1.0, (double) (int) (LINE * em + 0.5));
}

double
carpace_rail_bead_radius (double em)
{
  return BEAD * em;
}

void
carpace_rail_paint_line (const CarpaceRailPaint *rail, double from, double to)
{
  ink (rail, rail->shades.ink);
  cairo_set_line_width (rail->cr, line_width (rail->em));
  cairo_move_to (rail->cr, x_of (rail, from), rail->middle);
  cairo_line_to (rail->cr, x_of (rail, to), rail->middle);
  cairo_stroke (rail->cr);
}

void
carpace_rail_paint_end (const CarpaceRailPaint *rail, double at)
{
  ink (rail, rail->shades.ink);
  cairo_set_line_width (rail->cr, line_width (rail->em));
  cairo_move_to (rail->cr, x_of (rail, at), rail->middle - END * rail->em);
  cairo_line_to (rail->cr, x_of (rail, at), rail->middle + END * rail->em);
  cairo_stroke (rail->cr);
}

static void
tube_path (const CarpaceRailPaint *rail, double from, double to)
{
  cairo_t *cr = rail->cr;
  double inset = line_width (rail->em) / 2;
  double left = MIN (x_of (rail, from), x_of (rail, to)) + inset, right = MAX (x_of (rail, from), x_of (rail, to)) - inset;
  double top = rail->middle - TUBE * rail->em + inset, foot = rail->middle + TUBE * rail->em - inset;
  double corner = MIN (CORNER * rail->em, (right - left) / 2);

  cairo_new_sub_path (cr);
  cairo_arc (cr, right - corner, top + corner, corner, -G_PI / 2, 0);
  cairo_arc (cr, right - corner, foot - corner, corner, 0, G_PI / 2);
  cairo_arc (cr, left + corner, foot - corner, corner, G_PI / 2, G_PI);
  cairo_arc (cr, left + corner, top + corner, corner, G_PI, 3 * G_PI / 2);
  cairo_close_path (cr);
}

void
carpace_rail_paint_tube (const CarpaceRailPaint *rail, double from, double to, double done_to)
{
  cairo_t *cr = rail->cr;
  double a = x_of (rail, from), b = x_of (rail, CLAMP (done_to, from, to)), high = 2 * TUBE * rail->em;

  tube_path (rail, from, to);
  ink (rail, rail->shades.paper);
  cairo_fill (cr);
  cairo_save (cr);
  cairo_rectangle (cr, MIN (a, b), rail->middle - high / 2, ABS (b - a), high);
  cairo_clip (cr);
  tube_path (rail, from, to);
  ink (rail, rail->shades.ink);
  cairo_fill (cr);
  cairo_restore (cr);
  tube_path (rail, from, to);
  ink (rail, rail->shades.ink);
  cairo_set_line_width (cr, line_width (rail->em));
  cairo_stroke (cr);
}

/* Paper about it parts it from a filled tube. */
void
carpace_rail_paint_bead (const CarpaceRailPaint *rail, double at, bool filled)
{
  cairo_t *cr = rail->cr;
  double line = line_width (rail->em), x = x_of (rail, at), radius = BEAD * rail->em - line / 2;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x, rail->middle, radius + line, 0, 2 * G_PI);
  ink (rail, rail->shades.paper);
  cairo_fill (cr);
  cairo_arc (cr, x, rail->middle, radius, 0, 2 * G_PI);
  ink (rail, filled ? rail->shades.ink : rail->shades.paper);
  cairo_fill_preserve (cr);
  ink (rail, rail->shades.ink);
  cairo_set_line_width (cr, line);
  cairo_stroke (cr);
}

/* ---- a day ---- */

/* Words of one row, kept apart. */
typedef struct
{
  const CarpaceRailPaint *rail;
  PangoLayout *layout;
  double top;
  int n;
  struct { double from, to; } taken[2 * CARPACE_RAIL_PARTS];
} Row;

static bool
is_free (const Row *row, double from, double to)
{
  double apart = APART * row->rail->em;

  for (int i = 0; i < row->n; i++)
    if (from < row->taken[i].to + apart && row->taken[i].from < to + apart)
      return false;
  return true;
}

/* Writes @text about @at, within the width, where nothing stands yet. @return whether it did */
static bool
write_about (Row *row, double at, const char *text, CarpaceShade shade)
{
  int pixels;
  double width, from;

  pango_layout_set_text (row->layout, text, -1);
  pango_layout_get_pixel_size (row->layout, &pixels, NULL);
  width = pixels;
  from = CLAMP (x_of (row->rail, at) - width / 2, 0.0, MAX (0.0, row->rail->width - width));
  if (!is_free (row, from, from + width))
    return false;
  row->taken[row->n].from = from;
  row->taken[row->n++].to = from + width;
  ink (row->rail, shade);
  cairo_move_to (row->rail->cr, from, row->top);
  pango_cairo_show_layout (row->rail->cr, row->layout);
  return true;
}

static double
at_of (const CarpaceRailPaint *rail, const CarpaceDayRail *day, int64_t at_ms)
{
  double margin = MARGIN * rail->em;

  return margin + carpace_day_rail_at (day, at_ms) * (rail->width - 2 * margin);
}

static void
paint_part (const CarpaceRailPaint *rail, const CarpaceDayRail *day, const CarpaceRailPart *part)
{
  double from = at_of (rail, day, part->from.elapsed_ms), to = at_of (rail, day, part->to.elapsed_ms);
  double breath = BREATH * rail->em;
  double each = (to - from - breath * (part->tubes - 1)) / part->tubes;
  int32_t tubes = each < NARROWEST * rail->em ? 1 : part->tubes;
  double done_to = part->kind == CARPACE_RAIL_DONE    ? to
                   : part->kind == CARPACE_RAIL_AHEAD ? from
                                                      : at_of (rail, day, day->bead_ms);

  if (tubes == 1)
    each = to - from;
  for (int32_t i = 0; i < tubes; i++)
    carpace_rail_paint_tube (rail, from + i * (each + breath), from + i * (each + breath) + each, done_to);
}

/* Before a block that can begin and behind the last one it covers nothing of them. */
static double
bead_at (const CarpaceRailPaint *rail, const CarpaceDayRail *day)
{
  double at = at_of (rail, day, day->bead_ms), beside = carpace_rail_bead_radius (rail->em) + line_width (rail->em);

  for (int32_t i = 0; i < day->n; i++)
    if (day->part[i].kind == CARPACE_RAIL_AHEAD && day->part[i].from.elapsed_ms == day->bead_ms)
      return at - beside;
  if (day->part[day->n - 1].kind == CARPACE_RAIL_DONE && day->part[day->n - 1].to.elapsed_ms <= day->bead_ms)
    return at + beside;
  return at;
}

static void
write_time (Row *row, const CarpaceDayRail *day, CarpaceInstant instant, double tick_from)
{
  double at = at_of (row->rail, day, instant.elapsed_ms);
  char *text = carpace_text_time_of_day (instant);

  if (write_about (row, at, text, row->rail->shades.faint))
    {
      cairo_set_line_width (row->rail->cr, 1);
      cairo_move_to (row->rail->cr, x_of (row->rail, at), tick_from);
      cairo_line_to (row->rail->cr, x_of (row->rail, at), tick_from + TICK * row->rail->em);
      cairo_stroke (row->rail->cr);
    }
  g_free (text);
}

/* The part that practice is at, or comes to next. */
static int32_t
part_at_hand (const CarpaceDayRail *day)
{
  int32_t i = 0;

  while (i < day->n - 1 && day->part[i].kind == CARPACE_RAIL_DONE)
    i++;
  return i;
}

/* What matters first has its place first: where the day stands, where it begins and ends. */
static void
write_times (Row *row, const CarpaceDayRail *day, double tick_from)
{
  int32_t at_hand = part_at_hand (day);

  write_time (row, day, day->part[at_hand].from, tick_from);
  write_time (row, day, day->part[day->n - 1].to, tick_from);
  write_time (row, day, day->part[0].from, tick_from);
  write_time (row, day, day->part[at_hand].to, tick_from);
  for (int32_t i = 0; i < day->n; i++)
    write_time (row, day, day->part[i].from, tick_from);
  for (int32_t i = 0; i < day->n; i++)
    write_time (row, day, day->part[i].to, tick_from);
}

static void
write_length (Row *row, const CarpaceDayRail *day, const CarpaceRailPart *part)
{
  double at = (at_of (row->rail, day, part->from.elapsed_ms) + at_of (row->rail, day, part->to.elapsed_ms)) / 2;
  char *text = carpace_text_duration (part->practice_ms);

  write_about (row, at, text, row->rail->shades.ink);
  g_free (text);
}

static void
write_lengths (Row *row, const CarpaceDayRail *day)
{
  write_length (row, day, &day->part[part_at_hand (day)]);
  for (int32_t i = 0; i < day->n; i++)
    write_length (row, day, &day->part[i]);
}

double
carpace_day_rail_paint (const CarpaceRailPaint *paint, PangoLayout *layout, const CarpaceDayRail *day)
{
  CarpaceRailPaint rail = *paint;
  Row above = { .rail = &rail, .layout = layout, .top = paint->middle }, below = above;
  double line = line_width (rail.em), tall = 2 * BEAD * rail.em + line;
  int high;

  pango_layout_set_text (layout, "0", -1);
  pango_layout_get_pixel_size (layout, NULL, &high);
  rail.middle = paint->middle + high + 0.2 * rail.em + tall / 2;
  below.top = rail.middle + tall / 2 + TICK * rail.em;
  if (rail.cr == NULL)
    return below.top + high - paint->middle;
  carpace_rail_paint_line (&rail, line / 2, rail.width - line / 2);
  carpace_rail_paint_end (&rail, line / 2);
  carpace_rail_paint_end (&rail, rail.width - line / 2);
  for (int32_t i = 0; i < day->n; i++)
    paint_part (&rail, day, &day->part[i]);
  if (day->has_bead)
    carpace_rail_paint_bead (&rail, bead_at (&rail, day), day->bead_filled);
  if (day->n > 0)
    {
      write_lengths (&above, day);
      write_times (&below, day, rail.middle + TUBE * rail.em + line);
    }
  return below.top + high - paint->middle;
}
