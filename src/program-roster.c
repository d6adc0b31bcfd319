/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-roster.c: a team's window, until it is closed. */
#include "program-roster.h"

#include "ui/roster-window.h"

static void
closed (void *loop)
{
  g_main_loop_quit (loop);
}

bool
carpace_program_roster (const CarpaceRosterShown *shown)
{
  CarpaceRosterWindow *window;
  GMainLoop *loop;

  g_setenv ("GDK_GL", "disable", FALSE);
  if (!gtk_init_check (NULL, NULL))
    return false;
  loop = g_main_loop_new (NULL, FALSE);
  window = carpace_roster_window_new (shown, closed, loop);
  carpace_roster_window_show (window);
  g_main_loop_run (loop);
  carpace_roster_window_free (window);
  g_main_loop_unref (loop);
  return true;
}
