/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rail.c: the rail of a countdown. It is decoration to AT: words beside it say the same. */
#include "ui/rail.h"

#include "draw/rail-paint.h"
#include "ui/day-rail.h"

#define HEIGHT 20
#define EM 13.0        /* of its marks: smaller text makes no smaller bead */
#define BREATH 0.02    /* between two holds, of the rail's length */

bool
carpace_rail_tube (const CarpaceRailView *rail, int32_t which, double *ret_from, double *ret_to)
{
  double all, from, each;

  if (which < 0 || which >= rail->holds || rail->length_ms <= 0 || rail->hold_ms <= 0)
    return false;
  all = MIN (1.0, (double) rail->hold_ms / (double) rail->length_ms);
  from = 1.0 - all;
  each = (all - BREATH * (rail->holds - 1)) / rail->holds;
  *ret_from = from + which * (each + BREATH);
  *ret_to = *ret_from + each;
  return each > 0;
}

static gboolean
draw (GtkWidget *widget, cairo_t *cr, const CarpaceRailView *rail)
{
  CarpaceRailPaint paint = { .cr = cr, .shades = carpace_shades_of (widget), .em = EM,
                             .middle = gtk_widget_get_allocated_height (widget) / 2.0,
                             .mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL,
                             .width = gtk_widget_get_allocated_width (widget) };
  double start = carpace_rail_bead_radius (EM), span = paint.width - 2 * start, from, to;
  double done = rail->length_ms > 0 ? CLAMP ((double) rail->done_ms / (double) rail->length_ms, 0.0, 1.0) : 0.0;

  carpace_rail_paint_line (&paint, 0, paint.width);
  for (int32_t i = 0; carpace_rail_tube (rail, i, &from, &to); i++)
    carpace_rail_paint_tube (&paint, start + from * span, start + to * span, start + done * span);
  carpace_rail_paint_bead (&paint, start + done * span, rail->runs);
  return FALSE;
}

GtkWidget *
carpace_rail_new (void)
{
  GtkWidget *widget = gtk_drawing_area_new ();
  CarpaceRailView *rail = g_new0 (CarpaceRailView, 1);

  gtk_widget_set_size_request (widget, -1, HEIGHT);
  gtk_widget_set_valign (widget, GTK_ALIGN_CENTER);
  g_object_set_data_full (G_OBJECT (widget), "rail", rail, g_free);
  g_signal_connect (widget, "draw", G_CALLBACK (draw), rail);
  gtk_widget_show (widget);
  return widget;
}

void
carpace_rail_set (GtkWidget *widget, const CarpaceRailView *view)
{
  CarpaceRailView *rail = g_object_get_data (G_OBJECT (widget), "rail");

  *rail = *view;
  gtk_widget_queue_draw (widget);
}
