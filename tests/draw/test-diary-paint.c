/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-diary-paint.c: whatever the width and the language, nothing of the diary's drawing lies beyond it. */
#define _POSIX_C_SOURCE 200809L
#include <libintl.h>
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "../fakes/fake-diary.h"
#include "draw/diary-paint.h"
#include "draw/dot-plot.h"

#define FIRST 20880
#define DAYS 84
#define MARGIN 5.0 /* of a mark at the edge */

static const double widths[] = { CARPACE_DIARY_LEAST_WIDTH, 360, 420, 560, 900 };

typedef struct
{
  CarpaceFakeDiary *fake;
  CarpaceDiaryModel *model;
  cairo_surface_t *surface;
  CarpacePen pen;
} Sheet;

static int
set_up (void **state)
{
  Sheet *sheet = g_new0 (Sheet, 1);
  CarpaceDiary diary;

  sheet->fake = carpace_fake_diary_season (7, FIRST, DAYS);
  diary = carpace_fake_diary_port (sheet->fake);
  sheet->model = carpace_diary_model_new (&diary, FIRST, FIRST + DAYS - 1);
  *state = sheet;
  return 0;
}

static int
tear_down (void **state)
{
  Sheet *sheet = *state;

  carpace_diary_model_free (sheet->model);
  carpace_fake_diary_free (sheet->fake);
  g_free (sheet);
  return 0;
}

static void
begin (Sheet *sheet)
{
  sheet->surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  carpace_pen_init (&sheet->pen, cairo_create (sheet->surface), &carpace_shades_paper);
}

/* What was painted lies from 0 to @width, and is @height high at most. */
static void
end (Sheet *sheet, const char *what, double width, double height)
{
  double x, y, w, h;

  cairo_recording_surface_ink_extents (sheet->surface, &x, &y, &w, &h);
  carpace_pen_clear (&sheet->pen);
  cairo_destroy (sheet->pen.cr);
  cairo_surface_destroy (sheet->surface);
  if (x < -MARGIN || x + w > width + MARGIN)
    fail_msg ("%s, %.0f wide: painted from %.1f to %.1f", what, width, x, x + w);
  if (y < -MARGIN || y + h > height + MARGIN)
    fail_msg ("%s, %.0f wide: painted from %.1f to %.1f, said to be %.1f high", what, width, y, y + h, height);
}

static void
test_head_and_legend (void **state)
{
  Sheet *sheet = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      CarpaceDiaryLie lie = carpace_diary_lie (sheet->model, widths[i], CARPACE_DIARY_WORDS_CHANGES, true);
      double height;

      begin (sheet);
      height = carpace_diary_paint_legend (&sheet->pen, &lie, 3, 0, false);
      assert_true (carpace_diary_paint_legend (&sheet->pen, &lie, 3, 0, true) == height);
      end (sheet, "legend", widths[i], height);
      begin (sheet);
      height = carpace_diary_paint_head (&sheet->pen, &lie, 0, false);
      assert_true (carpace_diary_paint_head (&sheet->pen, &lie, 0, true) == height);
      end (sheet, "head", widths[i], height);
    }
}

static void
test_rows (void **state)
{
  Sheet *sheet = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (widths); i++)
    for (int32_t row = 0; row < carpace_diary_model_n_rows (sheet->model); row++)
      {
        CarpaceDiaryLie lie = carpace_diary_lie (sheet->model, widths[i], CARPACE_DIARY_WORDS_CHANGES, true);
        double height;

        begin (sheet);
        height = carpace_diary_paint_row (&sheet->pen, &lie, sheet->model, row, 0, false);
        assert_true (carpace_diary_paint_row (&sheet->pen, &lie, sheet->model, row, 0, true) == height);
        end (sheet, "row", widths[i], height);
      }
}

/* Each week is where a click on it finds it. */
static void
test_strip (void **state)
{
  Sheet *sheet = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      CarpaceDiaryLie lie = carpace_diary_lie (sheet->model, widths[i], CARPACE_DIARY_WORDS_CHANGES, true);
      CarpaceDay monday = carpace_diary_monday (FIRST);
      double height;
      int32_t last = -1;

      begin (sheet);
      height = carpace_diary_paint_strip (&sheet->pen, &lie, sheet->model, monday, 12, FIRST, 0, true);
      end (sheet, "strip", widths[i], height);
      for (double x = 0; x < widths[i]; x += 0.5)
        {
          int32_t week = carpace_diary_strip_week_at (&lie, 12, x);

          assert_true (week == last || week == last + 1);
          last = week;
        }
      assert_int_equal (last, 11);
      assert_int_equal (carpace_diary_strip_week_at (&lie, 12, widths[i]), -1);
    }
}

#define WITH_SHEET(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = { WITH_SHEET (test_head_and_legend), WITH_SHEET (test_rows), WITH_SHEET (test_strip) };

  int failed = cmocka_run_group_tests_name ("English", tests, NULL, NULL);

  setenv ("LANGUAGE", "de", 1);
  setlocale (LC_ALL, "C.UTF-8");
  bindtextdomain ("carpace", CARPACE_BUILT_LOCALE);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  assert_string_not_equal (carpace_text_legend_done (), "done");
  return failed + cmocka_run_group_tests_name ("German", tests, NULL, NULL);
}
