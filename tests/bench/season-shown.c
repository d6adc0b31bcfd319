/* SPDX-License-Identifier: GPL-3.0-or-later */
/* season-shown.c: twelve weeks of one plan, then of two, rehearsed, shown and drawn. Printed, never judged. */
#include <stdio.h>
#include <time.h>

#include "../ui/display.h"
#include "trace.h"
#include "ui/season-pane.h"

#define TIMES 20

static CarpacePlan plan;

static const CarpacePlan *
plan_of (void *self)
{
  return &plan;
}

/* The pane's second combo box chooses what it is compared with. */
static void
compare (GtkWidget *widget, gpointer user)
{
  if (GTK_IS_COMBO_BOX (widget))
    gtk_combo_box_set_active_id (GTK_COMBO_BOX (widget), "=");
  else if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), compare, user);
}

static double
shown_ms (CarpaceSeasonPane *pane, GtkWidget *window)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 1180, 760);
  cairo_t *cr = cairo_create (surface);
  clock_t begun = clock (); /* the process's own time: nothing else that the machine does */

  for (int i = 0; i < TIMES; i++)
    {
      carpace_season_pane_show_now (pane);
      display_settle ();
      gtk_container_check_resize (GTK_CONTAINER (window));
      gtk_widget_draw (window, cr);
    }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return 1000.0 * (double) (clock () - begun) / CLOCKS_PER_SEC / TIMES;
}

int
main (void)
{
  const CarpacePlanFiles none = { .self = NULL };
  CarpaceSeasonPane *pane;
  GtkWidget *window;

  display_open ();
  carpace_trace_plan (&plan, 4, 15);
  pane = carpace_season_pane_new (&(CarpaceSeasonPaneGiven){ NULL, plan_of, &none });
  window = gtk_offscreen_window_new ();
  gtk_container_add (GTK_CONTAINER (window), carpace_season_pane_widget (pane));
  gtk_widget_show (window);
  display_settle ();
  printf ("84 days, one plan: %.1f ms (wanted: under 100)\n", shown_ms (pane, window));
  compare (carpace_season_pane_widget (pane), NULL);
  display_settle ();
  printf ("84 days, two plans: %.1f ms (wanted: under 100)\n", shown_ms (pane, window));
  carpace_season_pane_free (pane);
  gtk_widget_destroy (window);
  return 0;
}
