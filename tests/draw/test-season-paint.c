/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-season-paint.c: where a day lies, in both reading directions, and what is painted of it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/instant.h"
#include "draw/season-paint.h"

#define EM 10.0
#define WIDTH 866 /* 26 for the scale, then 10 a day */
#define MIN_MS CARPACE_MINUTE_MS

static const CarpaceShades shades = { .paper = { 1, 1, 1 }, .ink = { 0, 0, 0 }, .faint = { 0.5, 0.5, 0.5 } };

static CarpaceSeasonLie
lie_of (bool mirrored)
{
  return (CarpaceSeasonLie){ .em = EM, .width = WIDTH, .mirrored = mirrored, .weeks = 12, .longest_ms = 60 * MIN_MS };
}

/* A day is hit where it is framed, and nowhere else. */
static void
a_day_is_where_it_is_framed (void **state)
{
  for (int mirrored = 0; mirrored < 2; mirrored++)
    {
      CarpaceSeasonLie lie = lie_of (mirrored);
      double from, width;

      for (int32_t day = 0; day < 84; day++)
        {
          carpace_season_day_lies (&lie, day, &from, &width);
          assert_int_equal (carpace_season_day_at (&lie, 84, from + 0.01), day);
          assert_int_equal (carpace_season_day_at (&lie, 84, from + width / 2), day);
          assert_int_equal (carpace_season_day_at (&lie, 84, from + width - 0.01), day);
        }
      carpace_season_day_lies (&lie, 83, &from, &width);
      assert_int_equal (carpace_season_day_at (&lie, 83, from + width / 2), -1); /* a season of 83 days */
      carpace_season_day_lies (&lie, 0, &from, &width);
      assert_int_equal (carpace_season_day_at (&lie, 84, mirrored ? from + 1.5 * width : from - width / 2), -1); /* the scale */
    }
}

typedef struct
{
  cairo_surface_t *surface;
  CarpaceSeasonLie lie;
} Picture;

static Picture
paint (const CarpaceSeasonMark *day, int32_t n, int32_t chosen, bool mirrored)
{
  Picture picture = { .lie = lie_of (mirrored) };
  const CarpaceSeasonDrawn drawn = { n, day, chosen };
  cairo_t *cr;
  PangoLayout *layout;

  picture.surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, (int) carpace_season_height (&picture.lie) + 1);
  cr = cairo_create (picture.surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  layout = pango_cairo_create_layout (cr);
  carpace_season_paint (cr, layout, &shades, &picture.lie, &drawn);
  g_object_unref (layout);
  cairo_destroy (cr);
  cairo_surface_flush (picture.surface);
  return picture;
}

/* How dark the middle of @day is at height @y, 0 paper to 255 ink. */
static int
ink_at (const Picture *picture, int32_t day, double y)
{
  double from, width;
  const unsigned char *row = cairo_image_surface_get_data (picture->surface)
                             + (int) y * cairo_image_surface_get_stride (picture->surface);

  carpace_season_day_lies (&picture->lie, day, &from, &width);
  return 255 - row[4 * (int) (from + width / 2)];
}

/* Would catch a day without an answer that looks like one with discomfort, and an end of scale that is cut off. */
static void
marks_say_what_was_planned_done_and_felt (void **state)
{
  const CarpaceSeasonMark day[] = {
    { .opened = true, .planned_ms = 60 * MIN_MS, .done_ms = 30 * MIN_MS, .highest = 5 },
    { .opened = true, .planned_ms = 30 * MIN_MS, .highest = -1 },
    { .opened = true, .highest = 0 },
    { .planned_ms = 30 * MIN_MS, .done_ms = 30 * MIN_MS, .highest = 9 }, /* never lived */
  };

  for (int mirrored = 0; mirrored < 2; mirrored++)
    {
      Picture picture = paint (day, 4, -1, mirrored);
      double full = 7, half = 37, bottom = 67, point = 3; /* of the text's size of 10 */

      assert_true (ink_at (&picture, 0, full) < 100);         /* an open mark: paper within */
      assert_true (ink_at (&picture, 0, full - 3) > 100);     /* and its ring */
      assert_true (ink_at (&picture, 0, half) > 200);         /* a filled one */
      assert_true (ink_at (&picture, 1, half) < 100);
      assert_true (ink_at (&picture, 0, bottom + 5 * point - 1) > 200);
      assert_true (ink_at (&picture, 0, bottom + 5 * point + 2) < 50);
      for (int32_t i = 1; i < 4; i++)
        assert_true (ink_at (&picture, i, bottom + 3) < 50);
      assert_true (ink_at (&picture, 3, half) < 50);
      cairo_surface_destroy (picture.surface);
    }
}

/* Only the chosen day has a frame, at its upper edge. */
static void
the_chosen_day_is_framed (void **state)
{
  const CarpaceSeasonMark day[3] = { { .opened = true }, { .opened = true }, { .opened = true } };
  Picture chosen = paint (day, 3, 1, false), none = paint (day, 3, -1, false);

  assert_true (ink_at (&chosen, 1, 1) > 100);
  assert_true (ink_at (&none, 1, 1) < 50);
  assert_true (ink_at (&chosen, 2, 1) < 50 || ink_at (&chosen, 0, 1) < 50);
  cairo_surface_destroy (chosen.surface);
  cairo_surface_destroy (none.surface);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_day_is_where_it_is_framed),
    cmocka_unit_test (marks_say_what_was_planned_done_and_felt),
    cmocka_unit_test (the_chosen_day_is_framed),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
