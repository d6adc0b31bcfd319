/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "display.h"

#include <fcntl.h>
#include <glib-unix.h>
#include <gtk/gtk.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define SKIPPED 77

static GPid server;

/* Gone for good: a server that is still going takes the socket of the next one with it. */
static void
end_server (void)
{
  kill (server, SIGTERM);
  waitpid (server, NULL, 0);
}

/* Up to the line's end: a server that cannot write it out ends. @return its name, NULL where it ended before */
static char *
display_number (int pipe_end)
{
  char number[16] = "";
  size_t all = 0;
  ssize_t n;

  while (all < sizeof number - 1 && strchr (number, '\n') == NULL
         && (n = read (pipe_end, number + all, sizeof number - 1 - all)) > 0)
    all += (size_t) n;
  return strchr (number, '\n') != NULL ? g_strdup_printf (":%d", atoi (number)) : NULL;
}

/* A server of its own. @return its display, NULL where there is no such server */
static char *
start_server (int tries)
{
  g_autofree char *number = g_strdup_printf (":%d", 1000 + ((int) getpid () + 7919 * tries) % 50000);
  const char *argv[] = { "Xvfb", number, "-displayfd", "3", "-screen", "0", "1280x800x24", "-nolisten", "tcp", "-noreset", NULL };
  int ends[2], source[1], target[1] = { 3 };
  g_autoptr (GError) error = NULL;
  char *name;

  g_assert (g_unix_open_pipe (ends, FD_CLOEXEC, NULL));
  source[0] = ends[1];
  if (!g_spawn_async_with_pipes_and_fds (NULL, argv, NULL,
                                         G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL
                                           | G_SPAWN_DO_NOT_REAP_CHILD,
                                         NULL, NULL, -1, -1, -1, source, target, 1, &server, NULL, NULL, NULL, &error))
    {
      g_printerr ("no display to test on: %s\n", error->message);
      exit (SKIPPED);
    }
  close (ends[1]);
  name = display_number (ends[0]);
  close (ends[0]);
  return name;
}

void
display_open (void)
{
  g_setenv ("GDK_BACKEND", "x11", TRUE);
  g_setenv ("GDK_GL", "disable", TRUE);
  g_setenv ("NO_AT_BRIDGE", "1", TRUE);
  g_setenv ("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere", TRUE);
  gtk_parse_args (NULL, NULL);
  for (int tries = 0; tries < 8; tries++) /* a number may be another's */
    {
      g_autofree char *name = start_server (tries);

      if (name != NULL && gdk_display_open (name) != NULL)
        {
          atexit (end_server);
          g_setenv ("DISPLAY", name, TRUE);
          gtk_init (NULL, NULL);
          return;
        }
      end_server ();
    }
  g_printerr ("no server of eight began\n");
  exit (1);
}

void
display_settle (void)
{
  gdk_display_sync (gdk_display_get_default ());
  while (gtk_events_pending ())
    gtk_main_iteration ();
}
