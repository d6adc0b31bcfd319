/* SPDX-License-Identifier: GPL-3.0-or-later */
/* draw-day-rail FILE.png: days along their rails, one under the other, to be looked at:
 * as wide as the window of today, as a column of the diary, as a planner's. */
#include <glib.h>
#include <string.h>

#include "draw/rail-paint.h"

#define M CARPACE_MINUTE_MS
#define EVENING INT64_C (1804006800000) /* 2027-03-02T18:00:00+01:00 */

static CarpacePlan plan;

static CarpaceInstant
at (int64_t minutes)
{
  return (CarpaceInstant) { .elapsed_ms = minutes * M, .wall_ms = EVENING + minutes * M, .offset_s = 3600 };
}

static CarpaceView
day (CarpaceState state, int32_t ahead, int64_t limit_min)
{
  CarpaceView view;

  memset (&view, 0, sizeof view);
  view.state = state;
  view.plan = &plan;
  view.rest_ms = 30000;
  view.after_ms = 10 * M;
  for (view.n_ahead = 0; view.n_ahead < ahead; view.n_ahead++)
    view.ahead_ms[view.n_ahead] = limit_min * M;
  return view;
}

static void
sat (CarpaceView *view, int64_t from_min, int64_t to_min, int32_t rests)
{
  CarpaceSitting *sitting = &view->sittings.sitting[view->sittings.n++];

  *sitting = (CarpaceSitting) { .number = view->sittings.n, .over = to_min > 0, .began = at (from_min), .ended = at (to_min),
                                .active_ms = (to_min - from_min) * M - rests * 30000, .rests = rests };
}

static double
paint (cairo_t *cr, PangoLayout *layout, double y, double width, const CarpaceView *view, int64_t now_min, bool mirrored)
{
  CarpaceRailPaint rail = { .cr = cr, .shades = { { 0.965, 0.961, 0.957 }, { 0.18, 0.204, 0.212 }, { 0.36, 0.38, 0.39 } },
                            .em = 13.3, .mirrored = mirrored, .width = width };
  CarpaceDayRail laid;
  double high;

  carpace_day_rail (view, at (now_min), &laid);
  cairo_save (cr);
  cairo_translate (cr, 20, y);
  high = carpace_day_rail_paint (&rail, layout, &laid);
  cairo_restore (cr);
  return y + high + 24;
}

int
main (int argc, char **argv)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 760, 900);
  cairo_t *cr = cairo_create (surface);
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoFontDescription *font = pango_font_description_from_string ("Sans 10");
  CarpaceView view;
  double y = 20;

  plan.between_blocks_ms = 45 * M;
  pango_layout_set_font_description (layout, font);
  cairo_set_source_rgb (cr, 0.965, 0.961, 0.957);
  cairo_paint (cr);
  view = day (CARPACE_STATE_WAITING, 2, 30);
  y = paint (cr, layout, y, 320, &view, 30, false);
  view = day (CARPACE_STATE_WAITING, 1, 25);
  sat (&view, 30, 65, 2);
  y = paint (cr, layout, y, 320, &view, 80, false);
  view.next_known = true;
  view.next_cue = CARPACE_CUE_NEXT_BLOCK;
  view.next_in_ms = 30 * M;
  y = paint (cr, layout, y, 320, &view, 80, false);
  view = day (CARPACE_STATE_PRACTISING, 0, 0);
  sat (&view, 30, 65, 2);
  sat (&view, 110, 0, 1);
  view.limit_ms = 25 * M;
  view.remaining_ms = 13 * M;
  y = paint (cr, layout, y, 320, &view, 123, false);
  y = paint (cr, layout, y, 320, &view, 123, true);
  view = day (CARPACE_STATE_DAY_DONE, 0, 0);
  sat (&view, 30, 65, 2);
  sat (&view, 110, 140, 2);
  y = paint (cr, layout, y, 320, &view, 200, false);
  view = day (CARPACE_STATE_WAITING, 3, 15);
  sat (&view, 30, 46, 1);
  y = paint (cr, layout, y, 320, &view, 60, false);
  y = paint (cr, layout, y, 720, &view, 60, false);
  view = day (CARPACE_STATE_WAITING, 6, 10);
  y = paint (cr, layout, y, 320, &view, 60, false);
  y = paint (cr, layout, y, 180, &view, 60, false);
  cairo_surface_write_to_png (surface, argc > 1 ? argv[1] : "day-rail.png");
  pango_font_description_free (font);
  g_object_unref (layout);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return 0;
}
