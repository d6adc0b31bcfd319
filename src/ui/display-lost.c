/* SPDX-License-Identifier: GPL-3.0-or-later */
/* display-lost.c: a source before GDK's own on the same connection: while one of a higher priority is ready, a main
 * context does not look at those below it. */
#include "ui/display-lost.h"

#include <glib-unix.h>
#include <gtk/gtk.h>

#ifdef GDK_WINDOWING_WAYLAND
#include <gdk/gdkwayland.h>
#endif

#ifdef GDK_WINDOWING_WAYLAND

typedef struct
{
  void (*lost) (void *user);
  void *user;
} Listener;

static gboolean
hung_up (gint fd, GIOCondition condition, gpointer user)
{
  const Listener *listener = user;

  listener->lost (listener->user);
  return G_SOURCE_REMOVE;
}

void
carpace_display_on_lost (void (*lost) (void *user), void *user)
{
  GdkDisplay *display = gdk_display_get_default ();
  Listener *listener;

  if (!GDK_IS_WAYLAND_DISPLAY (display))
    return;
  listener = g_new (Listener, 1);
  *listener = (Listener) { lost, user };
  g_unix_fd_add_full (G_PRIORITY_HIGH, wl_display_get_fd (gdk_wayland_display_get_wl_display (display)), G_IO_HUP | G_IO_ERR,
                      hung_up, listener, g_free);
}

#else

void
carpace_display_on_lost (void (*lost) (void *user), void *user)
{
}

#endif
