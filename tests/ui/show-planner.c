/* SPDX-License-Identifier: GPL-3.0-or-later */
/* show-planner.c: the planner's window on a plan, to be looked at: in the language of LANGUAGE, from right to left where
 * MIRRORED is set, with text half as large again where LARGE_TEXT is. With `time` it prints how long the window took to
 * its first drawing, beside GTK's own start, and ends.
 * usage: show-planner FILE [time] */
#include <gtk/gtk.h>
#include <libintl.h>
#include <stdio.h>
#include <string.h>

#include "ui/planner-window.h"

static const char *file;
static CarpacePlannerWindow *window;
static bool drawn;

static const char *
path (void *self)
{
  return file;
}

static char *
open_path (void *self, const char *other)
{
  return g_strdup ("Only shown.");
}

static CarpaceFileTrouble
save (void *self, const char *other, char **ret_why)
{
  *ret_why = g_strdup ("Only shown.");
  return CARPACE_FILE_FAILED;
}

static void
nothing (void *self)
{
}

static void
closed (void *self)
{
  gtk_main_quit ();
}

static gboolean
first_drawn (GtkWidget *widget, cairo_t *cr, gpointer user)
{
  drawn = true;
  return FALSE;
}

static double
ms_since (gint64 begun)
{
  return (double) (g_get_monotonic_time () - begun) / 1000;
}

int
main (int argc, char **argv)
{
  gint64 begun = g_get_monotonic_time ();
  char *text;
  gsize n;
  GBytes *bytes;
  double gtk_ms;
  CarpacePlannerGiven given = { .path = path, .open = open_path, .save = save, .changed = nothing, .forget = nothing, .closed = closed };

  g_setenv ("GDK_GL", "disable", FALSE);
  g_set_prgname ("carpace"); /* as assistive technology knows it */
  gtk_init (&argc, &argv);
  gtk_ms = ms_since (begun);
  bindtextdomain ("carpace", CARPACE_BUILT_PO);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  if (g_getenv ("MIRRORED") != NULL)
    gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  if (g_getenv ("LARGE_TEXT") != NULL)
    g_object_set (gtk_settings_get_default (), "gtk-font-name", "Sans 15", NULL);
  if (argc < 2 || !g_file_get_contents (argv[1], &text, &n, NULL))
    return 1;
  file = argv[1];
  begun = g_get_monotonic_time ();
  bytes = g_bytes_new_take (text, n);
  given.planner = carpace_planner_new (bytes);
  window = carpace_planner_window_new (&given);
  g_signal_connect_after (carpace_planner_window_window (window), "draw", G_CALLBACK (first_drawn), NULL);
  carpace_planner_window_show (window);
  if (argc > 2 && strcmp (argv[2], "time") == 0)
    {
      while (!drawn)
        gtk_main_iteration ();
      printf ("from the file to the first drawing %.0f ms, GTK's own start %.0f ms, %.1f of it\n", ms_since (begun), gtk_ms, ms_since (begun) / gtk_ms);
    }
  else
    gtk_main ();
  carpace_planner_window_free (window);
  carpace_planner_free (given.planner);
  g_bytes_unref (bytes);
  return 0;
}
