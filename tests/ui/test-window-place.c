/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-window-place.c: a window's place as text, against the reader of X's own library (XParseGeometry). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <X11/Xutil.h>
#include <glib.h>

#include "ui/window-place.h"

static const struct
{
  const char *text;
  bool fine;
} rows[] = {
  { "480x96+40+60", true }, { "480x96", true }, { "1x1+0+0", true }, { "480x96+-8+-0", true }, { "32767x32767+32767+-32767", true },
  { "0x96", false }, { "480x0", false }, { "32768x96", false }, { "480x96+32768+0", false }, { "480x96+40", false },
  { "480x96-40-60", false }, { "480X96", false }, { "", false }, { "480", false }, { "x96", false }, { " 480x96", false },
  { "480x 96", false }, { "480x+96", false }, { "480x-96", false }, { "480x96+40+60 ", false }, { "480x96++40+60", false },
  { "480x96+--4+0", false }, { "99999999999999999999x1", false }, { "=480x96+40+60", false },
};

static void
read_as_x_reads_it (void **state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpaceWindowPlace place = { .width = -1 };
      int left = 0, top = 0, flags;
      unsigned width = 0, height = 0;

      print_message ("%s\n", rows[i].text);
      assert_int_equal (carpace_window_place_read (rows[i].text, &place), rows[i].fine);
      if (!rows[i].fine)
        {
          assert_int_equal (place.width, -1);
          continue;
        }
      flags = XParseGeometry (rows[i].text, &left, &top, &width, &height);
      assert_int_equal (place.width, width);
      assert_int_equal (place.height, height);
      assert_int_equal (place.placed, (flags & XValue) && (flags & YValue));
      assert_int_equal (place.left, left);
      assert_int_equal (place.top, top);
    }
}

/* What is written is read as the same. */
static void
there_and_back (void **state)
{
  for (int i = -40; i <= 40; i++)
    {
      const CarpaceWindowPlace place = { .width = 200 + i, .height = 90 - i, .placed = i % 3 != 0, .left = i * 7, .top = -i };
      CarpaceWindowPlace again;
      g_autofree char *text = carpace_window_place_text (&place);

      assert_true (carpace_window_place_read (text, &again));
      assert_true (carpace_window_place_equal (&place, &again));
      again.height++;
      assert_false (carpace_window_place_equal (&place, &again));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (read_as_x_reads_it), cmocka_unit_test (there_and_back) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
