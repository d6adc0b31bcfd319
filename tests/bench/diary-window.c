/* SPDX-License-Identifier: GPL-3.0-or-later */
/* diary-window.c: how long ten years of diary take to open, and a frame to paint.
 * usage: diary-window [--diary FILE] [FILE.png]; needs a display. FILE is as
 * diary-years leaves it; without it the diary is in memory. Prints, never fails on time. */
#include <stdio.h>
#include <stdlib.h>

#include "../fakes/fake-diary.h"
#include "store-sqlite.h"
#include "ui/diary-window.h"

#define DAYS 4380 /* with days off: some 3650 of practice */
#define FIRST 20880
#define FRAMES 600

static CarpaceInstant
now (void *self)
{
  return (CarpaceInstant) { .wall_ms = 0 };
}

static double
ms_since (int64_t start_us)
{
  return (double) (g_get_monotonic_time () - start_us) / 1000;
}

static gboolean
drawn (GtkWidget *widget, cairo_t *cr, int *frames)
{
  (*frames)++;
  return FALSE;
}

static GtkWidget *
drawing_of (CarpaceDiaryWindow *window)
{
  return carpace_diary_drawing_area (carpace_diary_window_drawing (window));
}

static int
compare (const void *a, const void *b)
{
  double left = *(const double *) a, right = *(const double *) b;

  return (left > right) - (left < right);
}

static cairo_surface_t *
paint (GtkWidget *widget)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, gtk_widget_get_allocated_width (widget),
                                                         gtk_widget_get_allocated_height (widget));
  cairo_t *cr = cairo_create (surface);

  gtk_widget_draw (widget, cr);
  cairo_destroy (cr);
  return surface;
}

static void
measure_frames (CarpaceDiaryWindow *window, const char *how, int step)
{
  GtkWidget *drawing = drawing_of (window);
  CarpaceDay at = step > 0 ? FIRST : FIRST + DAYS - 1;
  double frame[FRAMES];

  for (int i = 0; i < FRAMES; i++)
    {
      int64_t start_us;

      start_us = g_get_monotonic_time ();
      carpace_diary_drawing_choose (carpace_diary_window_drawing (window), at += step);
      cairo_surface_destroy (paint (drawing));
      frame[i] = ms_since (start_us);
    }
  qsort (frame, FRAMES, sizeof *frame, compare);
  printf ("%s: a frame's painting: median %.2f ms, 99 of 100 within %.2f ms, longest %.2f ms (a 60th of a second: 16.67)\n",
          how, frame[FRAMES / 2], frame[FRAMES * 99 / 100], frame[FRAMES - 1]);
}

int
main (int argc, char **argv)
{
  CarpaceDiaryStore *store = argc > 2 && g_str_equal (argv[1], "--diary")
                               ? carpace_store_open (argv[2], CARPACE_STORE_READING, NULL, NULL)
                               : NULL;
  CarpaceFakeDiary *fake = store == NULL ? carpace_fake_diary_season (7, FIRST, DAYS) : NULL;
  CarpaceDiary diary = store == NULL ? carpace_fake_diary_port (fake) : carpace_store_diary (store);
  CarpaceClock clock = { .now = now };
  CarpaceDiaryWindow *window;
  int frames = 0;
  int64_t start_us;

  if (!gtk_init_check (&argc, &argv))
    return 77;
  start_us = g_get_monotonic_time ();
  window = carpace_diary_window_new (&diary, NULL, &clock);
  g_signal_connect_after (drawing_of (window), "draw", G_CALLBACK (drawn), &frames);
  carpace_diary_window_show (window, FIRST + DAYS - 1);
  while (frames == 0)
    gtk_main_iteration ();
  printf ("ten years: open and drawn in %.1f ms (at most 300)\n", ms_since (start_us));
  measure_frames (window, "from day to day, back", -1);
  measure_frames (window, "from week to week, forth", 7);
  if (argc == 2 || argc == 4)
    {
      cairo_surface_t *surface;

      carpace_diary_drawing_choose (carpace_diary_window_drawing (window), FIRST + DAYS - 1);
      for (int64_t until = g_get_monotonic_time () + 300000; g_get_monotonic_time () < until;)
        gtk_main_iteration_do (FALSE);
      surface = paint (GTK_WIDGET (carpace_diary_window_window (window)));

      cairo_surface_write_to_png (surface, argv[argc - 1]);
      cairo_surface_destroy (surface);
    }
  carpace_diary_window_free (window);
  carpace_fake_diary_free (fake);
  carpace_store_close (store, true);
  return 0;
}
