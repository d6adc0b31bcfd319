/* SPDX-License-Identifier: GPL-3.0-or-later */
/* draw-season.c: a made-up season as a picture, to be looked at.
 * usage: draw-season FILE.png [DAYS [SEED [WORDS]]] */
#include <stdlib.h>

#include "../fakes/fake-diary.h"
#include "draw/diary-paint.h"
#include "draw/dot-plot.h"

#define WIDTH 560
#define SCALE 2

static double
paint (CarpacePen *pen, CarpaceDiaryModel *model, CarpaceDiaryWords words, CarpaceDay last, bool draw)
{
  CarpaceDiaryLie lie = carpace_diary_lie (model, WIDTH - 20, words, true);
  double y = 10;

  y += carpace_diary_paint_legend (pen, &lie, lie.rail_from, y, draw) + 2;
  y += carpace_diary_paint_head (pen, &lie, y, draw) + 2;
  for (int32_t i = 0; i < carpace_diary_model_n_rows (model); i++)
    y += carpace_diary_paint_row (pen, &lie, model, i, y, draw);
  if (draw)
    {
      g_autoptr (GArray) mornings = carpace_diary_model_mornings_after (model, INT32_MIN, last);

      carpace_dot_plot_paint (pen, mornings, 20, y + 10, 260, 190);
    }
  return y + 210;
}

static cairo_surface_t *
picture (double height, CarpacePen *pen)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH * SCALE, (int) (height * SCALE));
  cairo_t *cr = cairo_create (surface);

  cairo_scale (cr, SCALE, SCALE);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, 10, 0);
  carpace_pen_init (pen, cr, &carpace_shades_paper);
  return surface;
}

int
main (int argc, char **argv)
{
  int32_t days = argc > 2 ? atoi (argv[2]) : 28;
  CarpaceFakeDiary *fake = carpace_fake_diary_season (argc > 3 ? strtoull (argv[3], NULL, 10) : 7, 20880, days);
  CarpaceDiary diary = carpace_fake_diary_port (fake);
  CarpaceDiaryModel *model = carpace_diary_model_new (&diary, 20880, 20880 + days - 1);
  CarpaceDiaryWords words = argc > 4 ? (CarpaceDiaryWords) atoi (argv[4]) : CARPACE_DIARY_WORDS_CHANGES;
  CarpacePen pen;
  cairo_surface_t *surface;
  double height;

  if (argc < 2 || model == NULL)
    return 2;
  surface = picture (10, &pen);
  height = paint (&pen, model, words, 20880 + days, false);
  carpace_pen_clear (&pen);
  cairo_destroy (pen.cr);
  cairo_surface_destroy (surface);
  surface = picture (height, &pen);
  paint (&pen, model, words, 20880 + days, true);
  carpace_pen_clear (&pen);
  cairo_destroy (pen.cr);
  cairo_surface_write_to_png (surface, argv[1]);
  cairo_surface_destroy (surface);
  carpace_diary_model_free (model);
  carpace_fake_diary_free (fake);
  return 0;
}
