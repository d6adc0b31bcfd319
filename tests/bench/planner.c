/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner.c: what a frame of a drag costs in the planner: the plan that is tried, its numbers, and the rail painted, for
 * the largest plan that is allowed, beside one reading of the same plan's file. A ratio; the worst frame in ms is told, too.
 * usage: bench-planner FILE */
#include <stdio.h>
#include <time.h>

#include "draw/plan-paint.h"
#include "planner/document.h"

#define FRAMES 240
#define WIDE 900

/* Of the processor's, which a busy machine does not stretch. */
static double
now_ms (void)
{
  return 1000.0 * (double) clock () / CLOCKS_PER_SEC;
}

static GBytes *
bytes_of (const char *path)
{
  char *text;
  gsize n;

  return g_file_get_contents (path, &text, &n, NULL) ? g_bytes_new_take (text, n) : NULL;
}

static void
paint (const CarpacePlanner *planner, cairo_t *cr, PangoLayout *layout)
{
  CarpacePlanPaint paint = { .cr = cr, .layout = layout, .shades = carpace_shades_paper, .accent = carpace_shades_paper.ink, .em = 13.3, .width = WIDE,
                             .plan = carpace_planner_plan (planner), .load = carpace_planner_load (planner),
                             .chosen = { .kind = CARPACE_HOLD_BLOCK, .block = 0, .part = -1 } };

  carpace_plan_rail (paint.plan, 0, &paint.rail);
  carpace_plan_paint (&paint);
}

static void
frames (CarpacePlanner *planner)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDE, 240);
  cairo_t *cr = cairo_create (surface);
  PangoLayout *layout = pango_cairo_create_layout (cr);
  double worst = 0, sum = 0, numbers = 0, read_ms;
  double begun;

  paint (planner, cr, layout); /* fonts are looked for once */
  for (int i = 0; i < FRAMES; i++)
    {
      double took;

      begun = now_ms ();
      carpace_plan_try_limit (carpace_planner_try (planner), 0, (5 + i % 30) * CARPACE_MINUTE_MS);
      carpace_planner_tried (planner);
      numbers += (now_ms () - begun);
      paint (planner, cr, layout);
      took = (now_ms () - begun);
      sum += took;
      worst = MAX (worst, took);
    }
  carpace_planner_let_go (planner);
  begun = now_ms ();
  for (int i = 0; i < 10; i++)
    {
      g_autoptr (CarpacePlanner) again = carpace_planner_new (carpace_planner_bytes (planner));
      (void) again;
    }
  read_ms = (now_ms () - begun) / 10;
  printf ("a frame of a drag: worst %.2f ms, mean %.2f ms (numbers %.2f ms); the file read anew %.2f ms; worst frame %.2f of that\n", worst,
          sum / FRAMES, numbers / FRAMES, read_ms, worst / read_ms);
  g_object_unref (layout);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  g_autoptr (GBytes) bytes = argc > 1 ? bytes_of (argv[1]) : NULL;
  g_autoptr (CarpacePlanner) planner = bytes != NULL ? carpace_planner_new (bytes) : NULL;

  if (planner == NULL || !carpace_planner_is_sound (planner))
    return 1;
  printf ("%d blocks, %d drills: ", (int) carpace_planner_plan (planner)->n_blocks, (int) carpace_planner_plan (planner)->n_drills);
  frames (planner);
  return 0;
}
