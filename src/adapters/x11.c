/* SPDX-License-Identifier: GPL-3.0-or-later */
/* x11.c: the events of an XCB connection as a source of a main context. A reply
 * can bring events along that the descriptor then tells nothing of: those are
 * asked for before each wait. */
#include "x11.h"

#include <stdlib.h>

bool
carpace_x11_is_session (void)
{
  const char *wayland = g_getenv ("WAYLAND_DISPLAY");

  return wayland == NULL || wayland[0] == '\0';
}

bool
carpace_x11_is_left_handed (void)
{
  xcb_connection_t *x = xcb_connect (NULL, NULL);
  xcb_get_pointer_mapping_reply_t *mapping
    = xcb_connection_has_error (x) == 0 ? xcb_get_pointer_mapping_reply (x, xcb_get_pointer_mapping (x), NULL) : NULL;
  bool left = mapping != NULL && mapping->map_len >= 3 && xcb_get_pointer_mapping_map (mapping)[0] == 3;

  free (mapping);
  xcb_disconnect (x);
  return left;
}

typedef struct
{
  GSource source;
  xcb_connection_t *x;
  CarpaceX11Take take;
  void *self;
  gpointer tag;
  xcb_generic_event_t *queued; /* read along with a reply */
} Events;

static gboolean
prepare (GSource *source, gint *timeout)
{
  Events *events = (Events *) source;
  *timeout = -1;
  xcb_flush (events->x);
  if (events->queued == NULL)
    events->queued = xcb_poll_for_queued_event (events->x);
  return events->queued != NULL;
}

static gboolean
check (GSource *source)
{
  Events *events = (Events *) source;
  return events->queued != NULL || g_source_query_unix_fd (source, events->tag) != 0;
}

/* The taker may destroy the source. */
static gboolean
dispatch (GSource *source, GSourceFunc callback, gpointer user_data)
{
  Events *events = (Events *) source;
  xcb_generic_event_t *event = g_steal_pointer (&events->queued);
  if (event == NULL)
    event = xcb_poll_for_event (events->x);
  while (event != NULL)
    {
      events->take (events->self, event);
      free (event);
      if (g_source_is_destroyed (source))
        return G_SOURCE_REMOVE;
      event = xcb_poll_for_event (events->x);
    }
  return xcb_connection_has_error (events->x) == 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
finalize (GSource *source)
{
  free (((Events *) source)->queued);
}

static GSourceFuncs funcs = { .prepare = prepare, .check = check, .dispatch = dispatch, .finalize = finalize };

GSource *
carpace_x11_events_new (xcb_connection_t *x, GMainContext *context, const char *name, CarpaceX11Take take, void *self)
{
  GSource *source = g_source_new (&funcs, sizeof (Events));
  Events *events = (Events *) source;
  g_source_set_static_name (source, name);
  events->x = x;
  events->take = take;
  events->self = self;
  events->tag = g_source_add_unix_fd (source, xcb_get_file_descriptor (x), G_IO_IN | G_IO_HUP | G_IO_ERR);
  g_source_attach (source, context);
  return source;
}
