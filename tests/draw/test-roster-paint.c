/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-roster-paint.c: which week lies where, and that what is drawn is as high as it is long. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "carpace/instant.h"
#include "draw/roster-paint.h"

#define MONDAY 20871
#define HIGH 60
#define WIDE 240

static const CarpaceRosterLie lie = { .width = WIDE, .height = HIGH, .last_monday = MONDAY, .longest_ms = 4 * CARPACE_HOUR_MS };

static void
weeks_stand_above_one_another (void **state)
{
  static const struct { CarpaceDay monday; int32_t column; } rows[] = {
    { MONDAY, 11 }, { MONDAY - 7, 10 }, { MONDAY - 7 * 11, 0 }, { MONDAY - 7 * 12, -1 }, { MONDAY + 7, -1 }, { MONDAY - 1, -1 },
  };
  CarpaceRosterLie mirrored = lie;

  mirrored.mirrored = true;
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    assert_int_equal (carpace_roster_column (&lie, rows[i].monday), rows[i].column);
  assert_true (carpace_roster_column_x (&lie, 0) == 10 && carpace_roster_column_x (&lie, 11) == WIDE - 10);
  assert_true (carpace_roster_column_x (&mirrored, 0) == WIDE - 10);
}

static void
the_longest_week_of_all_is_the_scale (void **state)
{
  CarpaceRosterRow rows[2] = { { .n_weeks = 1 }, { .n_weeks = 1 } };

  assert_int_equal (carpace_roster_longest_ms (rows, 0), CARPACE_HOUR_MS);
  rows[0].week[0].done_ms = CARPACE_HOUR_MS - 1;
  assert_int_equal (carpace_roster_longest_ms (rows, 2), CARPACE_HOUR_MS);
  rows[0].week[0].done_ms = CARPACE_HOUR_MS + 1;
  assert_int_equal (carpace_roster_longest_ms (rows, 2), CARPACE_HOUR_MS + 1);
  rows[1].week[0].planned_ms = CARPACE_HOUR_MS + 2;
  assert_int_equal (carpace_roster_longest_ms (rows, 2), CARPACE_HOUR_MS + 2);
}

/* The uppermost row of pixels with ink in the column of the last week; HIGH where there is none but the rail. */
static int
top_of (const CarpaceLoadWeek *week, CarpaceDay looked_at)
{
  CarpaceRosterRow row = { .load = true, .n_weeks = 1, .week = { *week } };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, WIDE, HIGH);
  cairo_t *cr = cairo_create (surface);
  int stride = cairo_image_surface_get_stride (surface), at = (int) carpace_roster_column_x (&lie, carpace_roster_column (&lie, looked_at));
  int top = HIGH;

  carpace_roster_paint (cr, &carpace_shades_paper, &lie, &row);
  cairo_surface_flush (surface);
  for (int y = HIGH - 8; y >= 0; y--) /* above the rail and a mark on it */
    if (cairo_image_surface_get_data (surface)[y * stride + at] > 60 || cairo_image_surface_get_data (surface)[y * stride + at - 1] > 60)
      top = y;
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return top;
}

static void
longer_stands_higher (void **state)
{
  int done = top_of (&(CarpaceLoadWeek) { .monday = MONDAY, .done_ms = 2 * CARPACE_HOUR_MS }, MONDAY);
  int planned = top_of (&(CarpaceLoadWeek) { .monday = MONDAY, .done_ms = 2 * CARPACE_HOUR_MS, .planned_ms = 3 * CARPACE_HOUR_MS }, MONDAY);
  int over = top_of (&(CarpaceLoadWeek) { .monday = MONDAY, .done_ms = 40 * CARPACE_HOUR_MS }, MONDAY);

  assert_in_range (done, HIGH / 2 - 8, HIGH / 2);
  assert_in_range (planned, HIGH / 4 - 6, HIGH / 4 + 2);
  assert_in_range (over, 0, 4); /* no higher than the cell */
  assert_int_equal (top_of (&(CarpaceLoadWeek) { .monday = MONDAY, .done_ms = 2 * CARPACE_HOUR_MS }, MONDAY - 7), HIGH);
  assert_int_equal (top_of (&(CarpaceLoadWeek) { .monday = MONDAY }, MONDAY), HIGH); /* nothing done is nothing drawn */
}

/* Whether there is any ink. */
static bool
is_drawn (bool load)
{
  CarpaceRosterRow row = { .load = load };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, WIDE, HIGH);
  cairo_t *cr = cairo_create (surface);
  bool any = false;

  carpace_roster_paint (cr, &carpace_shades_paper, &lie, &row);
  cairo_surface_flush (surface);
  for (int at = 0; at < cairo_image_surface_get_stride (surface) * HIGH; at++)
    any = any || cairo_image_surface_get_data (surface)[at] != 0;
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return any;
}

static void
who_shares_no_load_has_no_rail (void **state)
{
  assert_true (is_drawn (true)); /* nothing was done, as far as is known */
  assert_false (is_drawn (false));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (weeks_stand_above_one_another),
    cmocka_unit_test (the_longest_week_of_all_is_the_scale),
    cmocka_unit_test (longer_stands_higher),
    cmocka_unit_test (who_shares_no_load_has_no_rail),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
