/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What becomes of a card while input goes on, one below, at and above each number; and where it stands. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

#include "ui/presence.h"

static CarpaceInstant
at (int64_t elapsed_ms)
{
  return (CarpaceInstant) { .elapsed_ms = elapsed_ms };
}

/* Input from 100 s on; the card came before. */
static void
test_input_makes_a_bar_and_the_bar_goes (void **state)
{
  static const struct { int64_t at_ms; CarpaceForm form; int64_t next_ms; } rows[] = {
    { 100000, CARPACE_FORM_SMALL, 5000 }, { 104999, CARPACE_FORM_SMALL, 1 }, { 105000, CARPACE_FORM_BAR, 10000 },
    { 105001, CARPACE_FORM_BAR, 9999 },   { 114999, CARPACE_FORM_BAR, 1 },   { 115000, CARPACE_FORM_AWAY, CARPACE_NEVER },
    { 115001, CARPACE_FORM_AWAY, CARPACE_NEVER }, { 500000, CARPACE_FORM_AWAY, CARPACE_NEVER },
  };
  CarpacePresence presence;

  carpace_presence_begin (&presence, false, at (90000));
  assert_int_equal (carpace_presence_form (&presence, true, -1, at (99999)), CARPACE_FORM_SMALL);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int64_t input_ms = rows[i].at_ms - 100000;
      assert_int_equal (carpace_presence_form (&presence, true, input_ms, at (rows[i].at_ms)), rows[i].form);
      assert_int_equal (carpace_presence_next_ms (&presence, true, input_ms, at (rows[i].at_ms)), rows[i].next_ms);
    }
  /* the next gap brings it back, and input makes the same of it again */
  assert_int_equal (carpace_presence_form (&presence, true, -1, at (600000)), CARPACE_FORM_SMALL);
  assert_int_equal (carpace_presence_form (&presence, true, 4999, at (604999)), CARPACE_FORM_SMALL);
  assert_int_equal (carpace_presence_form (&presence, true, 5000, at (605000)), CARPACE_FORM_BAR);
}

/* A card that was looked at late, because the timer was: a run has no more of it than its 20 s. */
static void
test_a_run_takes_the_bar (void **state)
{
  static const struct { int64_t shrinks_ms, input_ms; CarpaceForm form; } rows[] = {
    { 12000, 19999, CARPACE_FORM_BAR }, { 12000, 20000, CARPACE_FORM_AWAY }, { 12000, 20001, CARPACE_FORM_AWAY },
    { 5000, 14999, CARPACE_FORM_BAR },  { 5000, 15000, CARPACE_FORM_AWAY },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CarpacePresence presence;

      carpace_presence_begin (&presence, false, at (0));
      assert_int_equal (carpace_presence_form (&presence, true, rows[i].shrinks_ms, at (rows[i].shrinks_ms)), CARPACE_FORM_BAR);
      assert_int_equal (carpace_presence_form (&presence, true, rows[i].input_ms, at (rows[i].input_ms)), rows[i].form);
    }
}

static void
test_what_comes_in_a_run_is_a_bar_from_the_start (void **state)
{
  static const struct { int64_t at_ms; CarpaceForm form; } rows[] = {
    { 0, CARPACE_FORM_BAR }, { 1, CARPACE_FORM_BAR }, { 9999, CARPACE_FORM_BAR }, { 10000, CARPACE_FORM_AWAY }, { 10001, CARPACE_FORM_AWAY },
  };
  CarpacePresence presence;

  carpace_presence_begin (&presence, true, at (0));
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_int_equal (carpace_presence_form (&presence, true, 300000 + rows[i].at_ms, at (rows[i].at_ms)), rows[i].form);
  assert_int_equal (carpace_presence_form (&presence, true, -1, at (20000)), CARPACE_FORM_SMALL);
}

/* Nothing shrinks elsewhere; a client that becomes full-screen finds the card as it would be over it. */
static void
test_without_a_full_screen_client_a_card_stays (void **state)
{
  CarpacePresence presence;

  carpace_presence_begin (&presence, true, at (0));
  assert_int_equal (carpace_presence_form (&presence, false, 400000, at (0)), CARPACE_FORM_FULL);
  assert_int_equal (carpace_presence_next_ms (&presence, false, 400000, at (0)), CARPACE_NEVER);
  assert_int_equal (carpace_presence_form (&presence, true, 409999, at (9999)), CARPACE_FORM_BAR);
  assert_int_equal (carpace_presence_form (&presence, false, 500000, at (100000)), CARPACE_FORM_FULL);
  assert_int_equal (carpace_presence_form (&presence, true, 500000, at (100000)), CARPACE_FORM_AWAY);
}

/* In no corner of no monitor does the largest card that may be lie over the middle. */
static void
test_never_over_the_middle (void **state)
{
  static const GdkRectangle areas[] = { { 0, 0, 1280, 720 }, { 0, 0, 1280, 800 }, { 1920, 0, 2560, 1440 }, { 0, 1080, 1920, 1080 },
                                        { 0, 0, 800, 600 }, { 0, 0, 1080, 1920 }, { 0, 0, 3840, 1080 }, { -1280, 0, 1280, 1024 } };

  for (size_t i = 0; i < G_N_ELEMENTS (areas); i++)
    for (int corner = 0; corner < CARPACE_N_CORNERS; corner++)
      for (int shape = 0; shape < 8; shape++)
        {
          const GdkRectangle *area = &areas[i];
          int middle_x = area->x + area->width / 2, middle_y = area->y + area->height / 2, width, height, left, top;
          bool tall = shape & 1, mirrored = shape & 2, wide = shape & 4, over;

          carpace_card_most (area, tall, &width, &height);
          assert_true (width <= 592 && height <= area->height / (tall ? 3 : 6));
          if (wide)
            width = carpace_card_widest (area);
          carpace_card_place (area, (CarpaceCorner) corner, mirrored, width, height, &left, &top);
          over = left <= middle_x && middle_x < left + width && top <= middle_y && middle_y < top + height;
          assert_false (over);
          assert_true (left == area->x + 24 || left + width == area->x + area->width - 24);
          assert_true (top == area->y + 24 || top + height == area->y + area->height - 24);
        }
}

/* The design's 592, or 0.48 of the width where that is more: from 1236 pixels on. */
static void
test_the_widest_that_long_words_get (void **state)
{
  static const struct { int across, widest; } rows[] = { { 640, 592 }, { 639, 591 }, { 1233, 592 }, { 1235, 592 }, { 1236, 593 }, { 1280, 614 },
                                                         { 2560, 1228 } };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_int_equal (carpace_card_widest (&(GdkRectangle) { 0, 0, rows[i].across, 720 }), rows[i].widest);
}

static void
test_each_corner (void **state)
{
  static const GdkRectangle area = { 100, 50, 1280, 720 };
  static const struct { CarpaceCorner corner; bool mirrored; int left, top; } rows[] = {
    { CARPACE_CORNER_LOWER_END, false, 764, 626 },   { CARPACE_CORNER_LOWER_END, true, 124, 626 },
    { CARPACE_CORNER_LOWER_START, false, 124, 626 }, { CARPACE_CORNER_LOWER_START, true, 764, 626 },
    { CARPACE_CORNER_UPPER_END, false, 764, 74 },    { CARPACE_CORNER_UPPER_END, true, 124, 74 },
    { CARPACE_CORNER_UPPER_START, false, 124, 74 },  { CARPACE_CORNER_UPPER_START, true, 764, 74 },
  };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int left, top;

      carpace_card_place (&area, rows[i].corner, rows[i].mirrored, 592, 120, &left, &top);
      assert_int_equal (left, rows[i].left);
      assert_int_equal (top, rows[i].top);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_input_makes_a_bar_and_the_bar_goes),
    cmocka_unit_test (test_a_run_takes_the_bar),
    cmocka_unit_test (test_what_comes_in_a_run_is_a_bar_from_the_start),
    cmocka_unit_test (test_without_a_full_screen_client_a_card_stays),
    cmocka_unit_test (test_never_over_the_middle),
    cmocka_unit_test (test_the_widest_that_long_words_get),
    cmocka_unit_test (test_each_corner),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
