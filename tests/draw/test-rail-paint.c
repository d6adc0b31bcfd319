/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-rail-paint.c: what is dark and what is light along a rail, read back from the
 * picture, in both directions. It would catch a tube that is filled where nothing was
 * done, and a day that is not mirrored. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "draw/rail-paint.h"

#define WIDTH 320
#define HEIGHT 80
#define M CARPACE_MINUTE_MS

typedef struct
{
  cairo_surface_t *surface;
  CarpaceRailPaint rail;
} Picture;

static Picture
picture (bool mirrored)
{
  Picture p = { .surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT) };

  p.rail = (CarpaceRailPaint) { .cr = cairo_create (p.surface), .shades = { { 1, 1, 1 }, { 0, 0, 0 }, { 0.4, 0.4, 0.4 } },
                                .em = 13, .middle = 40, .mirrored = mirrored, .width = WIDTH };
  cairo_set_source_rgb (p.rail.cr, 1, 1, 1);
  cairo_paint (p.rail.cr);
  return p;
}

static void
clear (Picture *p)
{
  cairo_destroy (p->rail.cr);
  cairo_surface_destroy (p->surface);
}

static bool
is_dark (Picture *p, int x, int y)
{
  const unsigned char *data;

  cairo_surface_flush (p->surface);
  data = cairo_image_surface_get_data (p->surface) + y * cairo_image_surface_get_stride (p->surface) + 4 * x;
  return data[1] < 100;
}

static void
a_tube_is_filled_as_far_as_it_is_done (void **state)
{
  for (int mirrored = 0; mirrored < 2; mirrored++)
    {
      Picture p = picture (mirrored);

      carpace_rail_paint_tube (&p.rail, 20, 120, 60);
      for (int x = 25; x < 116; x += 5)
        assert_int_equal (is_dark (&p, mirrored ? WIDTH - 1 - x : x, 40), x < 60);
      assert_true (is_dark (&p, mirrored ? WIDTH - 1 - 90 : 90, 40 - 6)); /* its outline */
      assert_false (is_dark (&p, mirrored ? 60 : WIDTH - 60, 40));
      clear (&p);
    }
}

static void
a_bead_that_waits_is_open (void **state)
{
  Picture p = picture (false);

  carpace_rail_paint_line (&p.rail, 0, WIDTH);
  carpace_rail_paint_bead (&p.rail, 100, false);
  carpace_rail_paint_bead (&p.rail, 200, true);
  assert_false (is_dark (&p, 100, 40));
  assert_true (is_dark (&p, 200, 40));
  assert_true (is_dark (&p, 150, 40));
  clear (&p);
}

static CarpaceRailPart
part (CarpaceRailKind kind, int64_t from_min, int64_t to_min)
{
  return (CarpaceRailPart) { .kind = kind, .number = 1, .tubes = 1, .from = { .elapsed_ms = from_min * M, .wall_ms = from_min * M },
                             .to = { .elapsed_ms = to_min * M, .wall_ms = to_min * M }, .practice_ms = 30 * M };
}

/* A day of three equal parts with equal waits, practice in the middle of the second. */
static void
a_day_is_filled_up_to_its_bead (void **state)
{
  const CarpaceDayRail day = { .n = 3, .has_bead = true, .bead_ms = 45 * M, .bead_filled = true,
                               .part = { part (CARPACE_RAIL_DONE, 0, 10), part (CARPACE_RAIL_UNDER_WAY, 40, 50),
                                         part (CARPACE_RAIL_AHEAD, 80, 90) } };

  for (int mirrored = 0; mirrored < 2; mirrored++)
    {
      Picture p = picture (mirrored);
      PangoLayout *layout = pango_cairo_create_layout (p.rail.cr);
      double high;
      int row = 0;

      p.rail.middle = 0;
      high = carpace_day_rail_paint (&p.rail, layout, &day);
      p.rail.cr = (cairo_destroy (p.rail.cr), NULL);
      assert_true (carpace_day_rail_paint (&p.rail, layout, &day) == high);
      for (int y = 0; y < HEIGHT && row == 0; y++) /* the rail runs through from edge to edge */
        if (is_dark (&p, 8, y) && is_dark (&p, WIDTH - 9, y))
          row = y;
      assert_true (row > 0);
      /* 26 + (10, 12.5, 10, 12.5 and 10 of 55) of 268 px */
      for (int i = 0; i < 3; i++)
        {
          int x = (int) (26 + (i == 0 ? 5 : i == 1 ? 24.5 : 50) / 55 * 268);
          assert_int_equal (is_dark (&p, mirrored ? WIDTH - 1 - x : x, row - 3), i != 2);
        }
      g_object_unref (layout);
      cairo_surface_destroy (p.surface);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_tube_is_filled_as_far_as_it_is_done),
    cmocka_unit_test (a_bead_that_waits_is_open),
    cmocka_unit_test (a_day_is_filled_up_to_its_bead),
  };

  return cmocka_run_group_tests_name ("draw/rail-paint", tests, NULL, NULL);
}
