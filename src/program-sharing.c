/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-sharing.c: the window for sharing, until it is closed; in the module of a team's window. */
#include "program-sharing.h"

#include "ui/share-window.h"

static void
closed (void *loop)
{
  g_main_loop_quit (loop);
}

bool
carpace_program_sharing (const CarpaceSharingShown *shown)
{
  CarpaceShareWindow *window;
  GMainLoop *loop;

  g_setenv ("GDK_GL", "disable", FALSE);
  if (!gtk_init_check (NULL, NULL))
    return false;
  loop = g_main_loop_new (NULL, FALSE);
  window = carpace_share_window_new (shown, closed, loop);
  carpace_share_window_show (window);
  g_main_loop_run (loop);
  carpace_share_window_free (window);
  g_main_loop_unref (loop);
  return true;
}
