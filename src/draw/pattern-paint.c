/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pattern-paint.c: six patterns; the seventh drill has the first again, twice as wide, and its name. */
#include "plan-paint.h"

#include <math.h>

#define STEP 0.45 /* between two lines, of the text's size */
#define LINE 1.0  /* px */
#define DOT 0.11
#define LEAST 3.0 /* px: in what is narrower no pattern is seen */

typedef struct
{
  cairo_t *cr;
  double x, y, width, height, step, em;
} Patch;

static void
slanted (const Patch *patch, double way)
{
  double reach = patch->width + patch->height;

  for (double at = -fmod (patch->height, patch->step); at < reach; at += patch->step)
    {
      cairo_move_to (patch->cr, way > 0 ? patch->x + at : patch->x + patch->width - at, patch->y);
      cairo_rel_line_to (patch->cr, -way * patch->height, patch->height);
    }
}

static void
level (const Patch *patch)
{
  for (double at = patch->step / 2; at < patch->height; at += patch->step)
    {
      cairo_move_to (patch->cr, patch->x, floor (patch->y + at) + 0.5);
      cairo_rel_line_to (patch->cr, patch->width, 0);
    }
}

static void
upright (const Patch *patch)
{
  for (double at = patch->step / 2; at < patch->width; at += patch->step)
    {
      cairo_move_to (patch->cr, floor (patch->x + at) + 0.5, patch->y);
      cairo_rel_line_to (patch->cr, 0, patch->height);
    }
}

static void
dots (const Patch *patch)
{
  for (double down = patch->step / 2; down < patch->height; down += patch->step)
    for (double at = patch->step / 2; at < patch->width + DOT * patch->em; at += patch->step)
      {
        cairo_new_sub_path (patch->cr);
        cairo_arc (patch->cr, patch->x + at, patch->y + down, DOT * patch->em, 0, 2 * G_PI);
      }
  cairo_fill (patch->cr);
}

static void
dashes (const Patch *patch)
{
  int row = 0;

  for (double down = patch->step / 2; down < patch->height; down += patch->step, row++)
    for (double at = row % 2 ? -patch->step * 0.6 : 0; at < patch->width; at += 1.4 * patch->step)
      {
        cairo_move_to (patch->cr, patch->x + at, floor (patch->y + down) + 0.5);
        cairo_rel_line_to (patch->cr, 0.8 * patch->step, 0);
      }
}

static void
lines (const Patch *patch, int32_t pattern)
{
  switch (pattern)
    {
    case 0: slanted (patch, 1); break;
    case 1: level (patch); break;
    case 2: dots (patch); break;
    case 3: upright (patch); break;
    case 4: slanted (patch, 1); slanted (patch, -1); break;
    default: dashes (patch); break;
    }
}

void
carpace_pattern_paint (cairo_t *cr, CarpaceShades shades, double em, int32_t drill, double x, double y, double width, double height)
{
  int32_t round = drill / CARPACE_PATTERNS % 3;
  Patch patch = { .cr = cr, .x = x, .y = y, .width = width, .height = height, .step = STEP * em * (1 + 0.7 * round), .em = em };

  if (width < LEAST)
    {
      cairo_rectangle (cr, x, y, width, height);
      cairo_set_source_rgb (cr, shades.faint.red, shades.faint.green, shades.faint.blue);
      cairo_fill (cr);
      return;
    }
  cairo_rectangle (cr, x, y, width, height);
  cairo_set_source_rgb (cr, shades.paper.red, shades.paper.green, shades.paper.blue);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, shades.ink.red, shades.ink.green, shades.ink.blue);
  cairo_set_line_width (cr, LINE);
  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  lines (&patch, drill % CARPACE_PATTERNS);
  cairo_stroke (cr);
  cairo_restore (cr);
  cairo_rectangle (cr, x + 0.5, y + 0.5, width - 1, height - 1);
  cairo_stroke (cr);
}
