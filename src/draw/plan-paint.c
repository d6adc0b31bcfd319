/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-paint.c: the day of a plan; where things lie is told to the hand by the same sums. */
#include "plan-paint.h"

#include <glib/gi18n.h>
#include <math.h>

#include "text/duration.h"
#include "text/face-text.h"
#include "text/plan-rail-text.h"

/* Of the text's size. */
#define MARGIN 1.2
#define TITLE 0.3        /* its upper edge */
#define AIR 1.95         /* a flag above the rail: as long as the intermission */
#define FLAG 0.4
#define FLAG_HIGH 0.22
#define BAR_FROM 2.0     /* an end bar */
#define TUBE_FROM 2.7
#define TUBE_TO 6.3
#define TICK_TO 6.9      /* runs */
#define BAR_TO 7.3
#define CHOSEN 7.8       /* the line under what is chosen */
#define TIMES 8.1
#define CURVE_TITLE 10.2
#define CURVE_FROM 12.2
#define CURVE_TO 16.4
#define HEIGHT 17.9
#define UNDER_DOT 0.1    /* words under the lowest point: no curve is there */
#define WORDS_HIGH 1.15
#define HOLD 0.75        /* half of what a bar answers to */
#define RUN_LEAST 0.35   /* between two ticks: nearer ones are not told apart */
#define APART 0.5

#define BAR 0.11
#define THICK 0.3
#define MOMENTS 48       /* of a block's curve */

double
carpace_plan_paint_height (double em)
{
  return ceil (HEIGHT * em);
}

double
carpace_plan_paint_scale (const CarpacePlanPaint *paint)
{
  double room = paint->width - 2 * MARGIN * paint->em;

  return paint->rail.length > 0 ? room / paint->rail.length : room;
}

static double
scale_of (const CarpacePlanPaint *paint)
{
  return paint->scale > 0 ? paint->scale : carpace_plan_paint_scale (paint);
}

static double
x_of (const CarpacePlanPaint *paint, double along)
{
  double x = MARGIN * paint->em + along * scale_of (paint);

  return paint->mirrored ? paint->width - x : x;
}

double
carpace_plan_paint_along (const CarpacePlanPaint *paint, double x)
{
  return ((paint->mirrored ? paint->width - x : x) - MARGIN * paint->em) / scale_of (paint);
}

static void
ink (const CarpacePlanPaint *paint, CarpaceShade shade)
{
  cairo_set_source_rgb (paint->cr, shade.red, shade.green, shade.blue);
}

/* From whichever side it is read. */
static void
box (const CarpacePlanPaint *paint, double a, double b, double *ret_x, double *ret_width)
{
  *ret_x = fmin (a, b);
  *ret_width = fabs (b - a);
}

/* ---- blocks ---- */

typedef struct
{
  const CarpacePlanPaint *paint;
  int32_t block;
  double along_per_ms;
} Blocking;

static double
x_in (const Blocking *blocking, int64_t at_ms)
{
  const CarpacePlanSpan *span = &blocking->paint->rail.block[blocking->block];

  return x_of (blocking->paint, span->from + (double) at_ms * blocking->along_per_ms);
}

static void
paint_runs (const Blocking *blocking, const CarpaceStretch *stretch)
{
  const CarpacePlanPaint *paint = blocking->paint;
  int64_t run_ms = paint->plan->drills[paint->plan->blocks[blocking->block].parts[stretch->part].drill].run_ms;

  if (run_ms <= 0 || (double) run_ms * blocking->along_per_ms * scale_of (paint) < RUN_LEAST * paint->em)
    return;
  ink (paint, paint->shades.faint);
  cairo_set_line_width (paint->cr, 1);
  for (int64_t at = stretch->from_ms + run_ms; at <= stretch->to_ms; at += run_ms)
    {
      cairo_move_to (paint->cr, floor (x_in (blocking, at)) + 0.5, (TUBE_TO + 0.15) * paint->em);
      cairo_line_to (paint->cr, floor (x_in (blocking, at)) + 0.5, TICK_TO * paint->em);
    }
  cairo_stroke (paint->cr);
}

/* The rail sags, and a bead lies in it. */
static void
paint_rest (const Blocking *blocking, double from, double to)
{
  const CarpacePlanPaint *paint = blocking->paint;
  double middle = (TUBE_FROM + TUBE_TO) / 2 * paint->em, at = (from + to) / 2, half = fmax (fabs (to - from) / 2, 0.35 * paint->em);

  cairo_new_path (paint->cr);
  ink (paint, paint->shades.ink);
  cairo_set_line_width (paint->cr, fmax (1, BAR * paint->em));
  cairo_move_to (paint->cr, at - half, middle);
  cairo_curve_to (paint->cr, at - half / 2, middle, at - half / 2, middle + 0.6 * paint->em, at, middle + 0.6 * paint->em);
  cairo_curve_to (paint->cr, at + half / 2, middle + 0.6 * paint->em, at + half / 2, middle, at + half, middle);
  cairo_stroke (paint->cr);
  cairo_arc (paint->cr, at, middle + 0.6 * paint->em, 0.22 * paint->em, 0, 2 * G_PI);
  cairo_fill (paint->cr);
}

static void
paint_stretch (void *user, const CarpaceStretch *stretch)
{
  const Blocking *blocking = user;
  const CarpacePlanPaint *paint = blocking->paint;
  double x, width, from = x_in (blocking, stretch->from_ms), to = x_in (blocking, stretch->to_ms);

  if (stretch->part < 0 || (fabs (to - from) < 1 && floor (from) >= floor (to) && floor (from) <= floor (to)))
    return; /* of many in one pixel the one that crosses into the next is enough */
  box (paint, from, to, &x, &width);
  carpace_pattern_paint (paint->cr, paint->shades, paint->em, paint->plan->blocks[blocking->block].parts[stretch->part].drill, x,
                         TUBE_FROM * paint->em, fmax (width, 1), (TUBE_TO - TUBE_FROM) * paint->em);
  paint_runs (blocking, stretch);
}

/* Over the tubes: a short rest is wider than its time. */
static void
paint_rest_over (void *user, const CarpaceStretch *stretch)
{
  const Blocking *blocking = user;
  const CarpacePlanPaint *paint = blocking->paint;
  double from = x_in (blocking, stretch->from_ms), to = x_in (blocking, stretch->to_ms), x, width;

  if (stretch->part >= 0)
    return;
  box (paint, from, to, &x, &width);
  if (width < 0.9 * paint->em)
    {
      x -= (0.9 * paint->em - width) / 2;
      width = 0.9 * paint->em;
    }
  cairo_rectangle (paint->cr, x, (TUBE_FROM - 0.1) * paint->em, width, (TUBE_TO - TUBE_FROM + 0.2) * paint->em);
  ink (paint, paint->shades.paper);
  cairo_fill (paint->cr);
  paint_rest (blocking, x, x + width);
}

static Blocking
blocking_of (const CarpacePlanPaint *paint, int32_t block)
{
  const CarpacePlanSpan *span = &paint->rail.block[block];
  double ms = (double) (span->to_ms - span->from_ms);

  return (Blocking) { .paint = paint, .block = block, .along_per_ms = ms > 0 ? (span->to - span->from) / ms : 0 };
}

static bool
is_chosen (const CarpacePlanPaint *paint, int32_t block)
{
  return paint->chosen.kind != CARPACE_HOLD_NOTHING && paint->chosen.block == block;
}

static void
paint_bar (const CarpacePlanPaint *paint, double at, bool thick)
{
  double width = fmax (thick ? 3 : 2, floor ((thick ? THICK : 2 * BAR) * paint->em));

  cairo_rectangle (paint->cr, floor (at - width / 2), BAR_FROM * paint->em, width, (BAR_TO - BAR_FROM) * paint->em);
  ink (paint, paint->shades.ink);
  cairo_fill (paint->cr);
}

static void
paint_chosen (const CarpacePlanPaint *paint, int32_t block)
{
  const CarpacePlanSpan *span = &paint->rail.block[block];
  double x, width;

  box (paint, x_of (paint, span->from), x_of (paint, span->to), &x, &width);
  ink (paint, paint->accent);
  cairo_rectangle (paint->cr, x, CHOSEN * paint->em - 1, width, fmax (3, 0.2 * paint->em));
  cairo_fill (paint->cr);
}

static void
paint_block (const CarpacePlanPaint *paint, int32_t block)
{
  Blocking blocking = blocking_of (paint, block);
  const CarpacePlanSpan *span = &paint->rail.block[block];

  carpace_load_stretches (paint->plan, &paint->plan->blocks[block], paint_stretch, &blocking);
  carpace_load_stretches (paint->plan, &paint->plan->blocks[block], paint_rest_over, &blocking);
  paint_bar (paint, x_of (paint, span->from), is_chosen (paint, block));
  paint_bar (paint, x_of (paint, span->to), is_chosen (paint, block));
  if (is_chosen (paint, block))
    paint_chosen (paint, block);
}

/* ---- words ---- */

/* A row of words; what would touch another is left out. */
typedef struct
{
  const CarpacePlanPaint *paint;
  double y;
  int n;
  struct { double from, to; } taken[4 * CARPACE_PLAN_BLOCKS + 4];
} Row;

static bool
write_about (Row *row, double at, const char *text, CarpaceShade shade, bool bold)
{
  const CarpacePlanPaint *paint = row->paint;
  PangoAttrList *attributes = pango_attr_list_new ();
  int width;
  double from;

  if (bold)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (paint->layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_text (paint->layout, text, -1);
  pango_layout_get_pixel_size (paint->layout, &width, NULL);
  from = CLAMP (at - width / 2.0, 0, fmax (0, paint->width - width));
  for (int i = 0; i < row->n; i++)
    if (from < row->taken[i].to + APART * paint->em && row->taken[i].from < from + width + APART * paint->em)
      return false;
  if (row->n < (int) G_N_ELEMENTS (row->taken))
    {
      row->taken[row->n].from = from;
      row->taken[row->n++].to = from + width;
    }
  cairo_move_to (paint->cr, from, row->y);
  ink (paint, shade);
  pango_cairo_show_layout (paint->cr, paint->layout);
  return true;
}

static void
write_block (Row *row, int32_t block)
{
  const CarpacePlanPaint *paint = row->paint;
  const CarpacePlanSpan *span = &paint->rail.block[block];
  double at = x_of (paint, (span->from + span->to) / 2);
  g_autofree char *whole = carpace_text_rail_block (paint->plan, block), *number = g_strdup_printf ("%d", block + 1);

  if (!write_about (row, at, whole, paint->shades.ink, is_chosen (paint, block)))
    write_about (row, at, number, paint->shades.ink, is_chosen (paint, block));
}

static void
write_time (Row *row, double along, int64_t at_ms)
{
  g_autofree char *text = carpace_text_time_of_day (carpace_instant_after (row->paint->begins, at_ms));

  write_about (row, x_of (row->paint, along), text, row->paint->shades.faint, false);
}

static void
write_wait (const CarpacePlanPaint *paint, int32_t block)
{
  const CarpacePlanSpan *span = &paint->rail.block[block];
  g_autofree char *wait = carpace_text_rail_wait (paint->plan->between_blocks_ms), *shorter = carpace_text_duration (paint->plan->between_blocks_ms);
  double from = x_of (paint, span[-1].to), to = x_of (paint, span->from);
  const char *texts[] = { wait, shorter };

  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      Row row = { .paint = paint, .y = ((TUBE_FROM + TUBE_TO) / 2 - 1.7) * paint->em };
      int width;

      pango_layout_set_text (paint->layout, texts[i], -1);
      pango_layout_get_pixel_size (paint->layout, &width, NULL);
      if (width + 2 * APART * paint->em > fabs (to - from))
        continue;
      write_about (&row, (from + to) / 2, texts[i], paint->shades.faint, false);
      return;
    }
}

static void
write_words (const CarpacePlanPaint *paint)
{
  Row titles = { .paint = paint, .y = TITLE * paint->em }, times = { .paint = paint, .y = TIMES * paint->em };
  int32_t chosen = paint->chosen.kind != CARPACE_HOLD_NOTHING ? paint->chosen.block : 0, n = paint->rail.n;

  write_block (&titles, chosen);
  write_time (&times, paint->rail.block[chosen].from, paint->rail.block[chosen].from_ms);
  write_time (&times, paint->rail.block[chosen].to, paint->rail.block[chosen].to_ms);
  write_time (&times, paint->rail.block[n - 1].to, paint->rail.block[n - 1].to_ms);
  for (int32_t i = 0; i < n; i++)
    {
      if (i != chosen)
        {
          write_block (&titles, i);
          write_time (&times, paint->rail.block[i].from, paint->rail.block[i].from_ms);
          write_time (&times, paint->rail.block[i].to, paint->rail.block[i].to_ms);
        }
      if (i > 0)
        write_wait (paint, i);
    }
}

/* ---- the reserve ---- */

static double
y_of (const CarpacePlanPaint *paint, double reserve)
{
  return (CURVE_TO + (CURVE_FROM - CURVE_TO) * reserve) * paint->em;
}

static void
paint_level (const CarpacePlanPaint *paint, double reserve, const char *text)
{
  double y = floor (y_of (paint, reserve)) + 0.5;
  int width, height;

  ink (paint, paint->shades.faint);
  cairo_set_line_width (paint->cr, 0.5);
  cairo_move_to (paint->cr, 0, y);
  cairo_line_to (paint->cr, paint->width, y);
  cairo_stroke (paint->cr);
  pango_layout_set_text (paint->layout, text, -1);
  pango_layout_get_pixel_size (paint->layout, &width, &height);
  cairo_move_to (paint->cr, paint->mirrored ? 0 : paint->width - width, y - height);
  pango_cairo_show_layout (paint->cr, paint->layout);
}

/* Each block begins rested: the model says nothing of hours between. */
static void
paint_curve (const CarpacePlanPaint *paint, int32_t block, CarpaceGroup group)
{
  const CarpacePlanSpan *span = &paint->rail.block[block];
  double reserve[MOMENTS];

  carpace_load_curve (paint->plan, &paint->plan->blocks[block], group, MOMENTS, reserve);
  cairo_new_path (paint->cr);
  for (int i = 0; i < MOMENTS; i++)
    cairo_line_to (paint->cr, x_of (paint, span->from + (span->to - span->from) * i / (MOMENTS - 1)), y_of (paint, reserve[i]));
  cairo_stroke (paint->cr);
}

static void
paint_lowest (const CarpacePlanPaint *paint)
{
  const CarpacePlanSpan *span = &paint->rail.block[paint->load->lowest];
  const CarpaceBlockLoad *load = &paint->load->block[paint->load->lowest];
  g_autofree char *text = carpace_text_about_percent (load->lowest_reserve);
  Row row = { .paint = paint };
  double at = x_of (paint, span->from + (span->to - span->from) * (double) load->at_ms / (double) MAX (span->to_ms - span->from_ms, 1));
  double y = y_of (paint, load->lowest_reserve);

  cairo_new_path (paint->cr);
  cairo_arc (paint->cr, at, y, 0.35 * paint->em, 0, 2 * G_PI);
  cairo_fill (paint->cr);
  row.y = y + UNDER_DOT * paint->em;
  if (row.y + WORDS_HIGH * paint->em > CURVE_TO * paint->em)
    row.y = CURVE_TO * paint->em; /* under the line of 0 %, too */
  write_about (&row, at + (paint->mirrored ? -3 : 3) * paint->em, text, paint->shades.ink, true);
}

static void
paint_reserve (const CarpacePlanPaint *paint)
{
  CarpaceGroup group = paint->load->block[paint->load->lowest].group;
  g_autofree char *title = carpace_text_reserve_title (group);
  int width;

  paint_level (paint, 1, "100 %");
  paint_level (paint, 0, "0 %");
  ink (paint, paint->shades.ink);
  pango_layout_set_text (paint->layout, title, -1);
  pango_layout_get_pixel_size (paint->layout, &width, NULL);
  cairo_move_to (paint->cr, paint->mirrored ? paint->width - width : 0, CURVE_TITLE * paint->em);
  pango_cairo_show_layout (paint->cr, paint->layout);
  cairo_set_line_width (paint->cr, fmax (1.5, 0.14 * paint->em));
  for (int32_t i = 0; i < paint->rail.n; i++)
    paint_curve (paint, i, group);
  paint_lowest (paint);
}

/* ---- on air ---- */

/* A point where it begins, a line as long as it lasts: told from an end bar by standing above the rail alone. */
static void
paint_air (const CarpacePlanPaint *paint, int32_t i)
{
  double em = paint->em, from = x_of (paint, carpace_plan_rail_at (&paint->rail, paint->air.from_ms[i]));
  double to = x_of (paint, carpace_plan_rail_at (&paint->rail, paint->air.to_ms[i])), side = paint->mirrored ? -1 : 1;
  double end = from + side * fmax (fabs (to - from), FLAG * em);

  cairo_move_to (paint->cr, from, TUBE_FROM * em - 1);
  cairo_line_to (paint->cr, from - side * FLAG * em, AIR * em);
  cairo_line_to (paint->cr, end, AIR * em);
  cairo_line_to (paint->cr, end, (AIR + FLAG_HIGH) * em);
  cairo_line_to (paint->cr, from + side * FLAG * (1 - FLAG_HIGH / (TUBE_FROM - AIR)) * em, (AIR + FLAG_HIGH) * em);
  cairo_close_path (paint->cr);
  ink (paint, paint->shades.ink);
  cairo_fill (paint->cr);
}

void
carpace_plan_paint (const CarpacePlanPaint *paint)
{
  CarpaceRailPaint line = { .cr = paint->cr, .shades = paint->shades, .em = paint->em, .width = paint->width,
                            .middle = (TUBE_FROM + TUBE_TO) / 2 * paint->em, .mirrored = false };

  if (paint->rail.n == 0)
    return;
  carpace_rail_paint_line (&line, 0, paint->width);
  for (int32_t i = 0; i < paint->rail.n; i++)
    paint_block (paint, i);
  for (int32_t i = 0; i < paint->air.n; i++)
    paint_air (paint, i);
  write_words (paint);
  paint_reserve (paint);
}

/* ---- what a hand can take hold of ---- */

static CarpaceHold
hold (CarpaceHoldKind kind, int32_t block, int32_t part)
{
  return (CarpaceHold) { .kind = kind, .block = block, .part = part };
}

/* The part at @along within @block, and how far its end is. */
static int32_t
part_at (const CarpacePlanPaint *paint, int32_t block, double along, double *ret_to_end)
{
  const CarpacePlanSpan *span = &paint->rail.block[block];
  const CarpaceBlock *of = &paint->plan->blocks[block];
  double share = span->to > span->from ? (along - span->from) / (span->to - span->from) * CARPACE_WHOLE : 0;
  int32_t sum = 0, part = 0;

  for (; part < of->n_parts - 1 && sum + of->parts[part].share < share; part++)
    sum += of->parts[part].share;
  sum += of->parts[part].share;
  *ret_to_end = (sum - share) / CARPACE_WHOLE * (span->to - span->from) * scale_of (paint);
  return part;
}

static CarpaceHold
hold_within (const CarpacePlanPaint *paint, int32_t block, double along)
{
  double reach = HOLD * paint->em, to_end, before;
  int32_t part = part_at (paint, block, along, &to_end);

  if (to_end < reach / 2 && part < paint->plan->blocks[block].n_parts - 1)
    return hold (CARPACE_HOLD_SHARE, block, part);
  if (part > 0 && part_at (paint, block, along - reach / 2 / scale_of (paint), &before) == part - 1)
    return hold (CARPACE_HOLD_SHARE, block, part - 1);
  return hold (CARPACE_HOLD_BLOCK, block, part);
}

/* A bar answers a little beside itself; where two reach one place the end of the earlier block does. */
CarpaceHold
carpace_plan_paint_at (const CarpacePlanPaint *paint, double x, double y)
{
  double along = carpace_plan_paint_along (paint, x), reach = HOLD * paint->em / scale_of (paint);

  if (y < 0 || y > (TIMES + 1.4) * paint->em)
    return hold (CARPACE_HOLD_NOTHING, -1, -1);
  for (int32_t i = 0; i < paint->rail.n; i++)
    {
      const CarpacePlanSpan *span = &paint->rail.block[i];
      double near = fmin (reach, (span->to - span->from) / 4);

      if (along > span->to - near && along < span->to + reach)
        return hold (CARPACE_HOLD_END, i, -1);
      if (i > 0 && along > span->from - reach && along < span->from + near)
        return hold (CARPACE_HOLD_START, i, -1);
      if (along >= span->from && along <= span->to)
        return hold_within (paint, i, along);
    }
  return hold (CARPACE_HOLD_NOTHING, -1, -1);
}
