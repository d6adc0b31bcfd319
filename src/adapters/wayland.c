/* SPDX-License-Identifier: GPL-3.0-or-later */
/* wayland.c: the events of a Wayland connection as a source of a main context. */
#include "wayland.h"

#include <errno.h>
#include <poll.h>

bool
carpace_wayland_is_session (void)
{
  const char *wayland = g_getenv ("WAYLAND_DISPLAY");

  return wayland != NULL && wayland[0] != '\0';
}

/* ---- waiting for an answer ---- */

#define LOOK_EVERY_MS 250

bool
carpace_wayland_wait (int limit_ms)
{
  struct wl_display *display;

  for (int waited = 0; (display = wl_display_connect (NULL)) == NULL && waited < limit_ms; waited += LOOK_EVERY_MS)
    g_usleep (LOOK_EVERY_MS * 1000);
  if (display == NULL)
    return false;
  wl_display_disconnect (display);
  return true;
}

static void
answered (void *done, struct wl_callback *callback, uint32_t serial)
{
  *(bool *) done = true;
}

static const struct wl_callback_listener answer = { .done = answered };

static bool
send_all (struct wl_display *display)
{
  return wl_display_flush (display) >= 0 || errno == EAGAIN;
}

/* One wait for what comes, until monotonic us @end. */
static bool
wait_once (struct wl_display *display, gint64 end)
{
  gint64 left_ms = (end - g_get_monotonic_time ()) / 1000;
  struct pollfd fd = { .fd = wl_display_get_fd (display), .events = POLLIN };

  while (wl_display_prepare_read (display) != 0)
    if (wl_display_dispatch_pending (display) < 0)
      return false;
  if (!send_all (display) || left_ms <= 0 || poll (&fd, 1, (int) left_ms) <= 0)
    {
      wl_display_cancel_read (display);
      return false;
    }
  return wl_display_read_events (display) == 0 && wl_display_dispatch_pending (display) >= 0;
}

bool
carpace_wayland_settle (struct wl_display *display, int limit_ms)
{
  gint64 end = g_get_monotonic_time () + (gint64) limit_ms * 1000;
  bool done = false;
  struct wl_callback *callback = wl_display_sync (display);

  wl_callback_add_listener (callback, &answer, &done);
  while (!done && wait_once (display, end))
    ;
  wl_callback_destroy (callback);
  return done;
}

/* ---- in a main context ---- */

typedef struct
{
  GSource source;
  struct wl_display *display;
  gpointer tag;
  bool reads; /* between prepare and check */
} Events;

static gboolean
prepare (GSource *source, gint *timeout)
{
  Events *events = (Events *) source;

  *timeout = -1;
  if (events->reads)
    return FALSE;
  if (wl_display_prepare_read (events->display) != 0)
    return TRUE;
  events->reads = true;
  send_all (events->display); /* where it is gone, the next read says so */
  return FALSE;
}

static void
stop_reading (Events *events)
{
  if (events->reads)
    wl_display_cancel_read (events->display);
  events->reads = false;
}

static gboolean
check (GSource *source)
{
  Events *events = (Events *) source;
  GIOCondition came = g_source_query_unix_fd (source, events->tag);

  if (events->reads && came != 0)
    {
      events->reads = false;
      wl_display_read_events (events->display);
      return TRUE;
    }
  stop_reading (events);
  return came != 0;
}

static gboolean
dispatch (GSource *source, GSourceFunc callback, gpointer user_data)
{
  Events *events = (Events *) source;

  return wl_display_dispatch_pending (events->display) >= 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
dispose (GSource *source)
{
  stop_reading ((Events *) source);
}

static GSourceFuncs funcs = { .prepare = prepare, .check = check, .dispatch = dispatch };

GSource *
carpace_wayland_events_new (struct wl_display *display, GMainContext *context, const char *name)
{
  GSource *source = g_source_new (&funcs, sizeof (Events));
  Events *events = (Events *) source;

  g_source_set_static_name (source, name);
  g_source_set_dispose_function (source, dispose);
  events->display = display;
  events->tag = g_source_add_unix_fd (source, wl_display_get_fd (display), G_IO_IN | G_IO_HUP | G_IO_ERR);
  g_source_attach (source, context);
  return source;
}
