/* SPDX-License-Identifier: GPL-3.0-or-later */
/* clicks-x11.c: connected to the server only while presses are counted. The two requests and the one event of the X Input
 * Extension are written out here (its protocol, version 2.2): a library for them would bring four more into the tray. */
#include "clicks-x11.h"

#include "x11.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/uio.h>
#include <xcb/xcbext.h>

#define SELECT_EVENTS 46
#define QUERY_VERSION 47
#define ALL_MASTER_DEVICES 1 /* of all devices each press would come twice */
#define RAW_BUTTON_PRESS 15

static xcb_extension_t input_extension = { "XInputExtension", 0 };

/* XCB fills in the first four bytes of a request. */
typedef struct
{
  uint8_t major, minor;
  uint16_t length;
  uint16_t major_version, minor_version;
} QueryVersion;

typedef struct
{
  uint8_t response, kind;
  uint16_t sequence;
  uint32_t length;
  uint16_t major_version, minor_version;
} Version;

typedef struct
{
  uint8_t major, minor;
  uint16_t length;
  xcb_window_t window;
  uint16_t n_masks, unused;
  uint16_t device, mask_words;
  uint8_t mask[4];
} SelectEvents;

typedef struct
{
  uint8_t response, extension;
  uint16_t sequence;
  uint32_t length;
  uint16_t kind, device;
  xcb_timestamp_t time;
  uint32_t button;
} RawButton;

G_STATIC_ASSERT (sizeof (QueryVersion) == 8 && sizeof (SelectEvents) == 20 && sizeof (RawButton) == 20);

typedef struct
{
  CarpaceClicksListener listener;
  GMainContext *context;
  xcb_connection_t *x;
  GSource *events, *soon;
  uint8_t opcode;
} Clicks;

/* ---- the protocol ---- */

static unsigned int
request (xcb_connection_t *x, uint8_t opcode, void *bytes, size_t n, bool has_reply)
{
  const xcb_protocol_request_t what = { .count = 1, .ext = &input_extension, .opcode = opcode, .isvoid = !has_reply };
  struct iovec parts[3] = { { 0 } }; /* two more than are sent belong to XCB */

  parts[2] = (struct iovec){ bytes, n };
  return xcb_send_request (x, 0, parts + 2, &what);
}

/* Raw events come past another program's grab from 2.1 on, and only to who said that it knows them. */
static bool
knows_raw_events (xcb_connection_t *x)
{
  QueryVersion query = { .major_version = 2, .minor_version = 2 };
  xcb_generic_error_t *error = NULL;
  Version *version = xcb_wait_for_reply (x, request (x, QUERY_VERSION, &query, sizeof query, true), &error);
  bool knows = version != NULL && (version->major_version > 2 || (version->major_version == 2 && version->minor_version >= 1));

  free (version);
  free (error);
  return knows;
}

/* Answered by a request after it: presses from then on are told. */
static void
select_presses (xcb_connection_t *x)
{
  SelectEvents select = { .window = xcb_setup_roots_iterator (xcb_get_setup (x)).data->root, .n_masks = 1,
                          .device = ALL_MASTER_DEVICES, .mask_words = 1 };

  select.mask[RAW_BUTTON_PRESS / 8] = 1 << RAW_BUTTON_PRESS % 8;
  request (x, SELECT_EVENTS, &select, sizeof select, false);
  free (xcb_get_input_focus_reply (x, xcb_get_input_focus (x), NULL));
}

/* The left, the middle and the right one, and the two at the side; between them lie the wheel's. */
static bool
is_a_click (uint32_t button)
{
  return (button >= 1 && button <= 3) || button == 8 || button == 9;
}

/* @return NULL where the server is not there, or does not tell of presses */
static xcb_connection_t *
connect_to_server (uint8_t *ret_opcode)
{
  xcb_connection_t *x = xcb_connect (NULL, NULL);
  const xcb_query_extension_reply_t *extension = NULL;

  if (xcb_connection_has_error (x) == 0)
    extension = xcb_get_extension_data (x, &input_extension);
  if (extension == NULL || !extension->present || !knows_raw_events (x))
    {
      xcb_disconnect (x);
      return NULL;
    }
  *ret_opcode = extension->major_opcode;
  return x;
}

/* ---- what is told ---- */

static void
take_event (void *self, const xcb_generic_event_t *event)
{
  const Clicks *clicks = self;
  const RawButton *raw = (const RawButton *) event;

  if ((event->response_type & 0x7f) == XCB_GE_GENERIC && raw->extension == clicks->opcode && raw->kind == RAW_BUTTON_PRESS
      && is_a_click (raw->button))
    clicks->listener.pressed (clicks->listener.user);
}

static void
drop (GSource **source)
{
  GSource *dropped = g_steal_pointer (source);

  if (dropped == NULL)
    return;
  g_source_destroy (dropped);
  g_source_unref (dropped);
}

static void
leave (Clicks *clicks)
{
  drop (&clicks->soon);
  drop (&clicks->events);
  g_clear_pointer (&clicks->x, xcb_disconnect);
}

static gboolean
begun_or_not (gpointer user)
{
  Clicks *clicks = user;

  drop (&clicks->soon);
  clicks->listener.counts (clicks->listener.user, clicks->x != NULL);
  return G_SOURCE_REMOVE;
}

static void
tell_soon (Clicks *clicks)
{
  clicks->soon = g_idle_source_new ();
  g_source_set_callback (clicks->soon, begun_or_not, clicks, NULL);
  g_source_attach (clicks->soon, clicks->context);
}

/* The source of events ends with the server, and by leave(), which takes it away first. */
static void
events_ended (gpointer user)
{
  Clicks *clicks = user;

  if (clicks->events == NULL)
    return;
  leave (clicks);
  tell_soon (clicks);
}

/* ---- the port ---- */

static void
follow (void *self, bool on)
{
  Clicks *clicks = self;

  leave (clicks);
  if (!on)
    return;
  clicks->x = connect_to_server (&clicks->opcode);
  if (clicks->x != NULL)
    {
      select_presses (clicks->x);
      clicks->events = carpace_x11_events_new (clicks->x, clicks->context, "carpace clicks", take_event, clicks);
      g_source_set_callback (clicks->events, NULL, clicks, events_ended);
    }
  tell_soon (clicks);
}

static void
let_go (void *self)
{
  Clicks *clicks = self;

  leave (clicks);
  g_main_context_unref (clicks->context);
  g_free (clicks);
}

bool
carpace_clicks_x11_open (CarpaceClicksListener listener, CarpaceClicks *ret_clicks)
{
  Clicks *clicks;
  uint8_t opcode;
  xcb_connection_t *x = carpace_x11_is_session () ? connect_to_server (&opcode) : NULL;

  if (x == NULL)
    return false;
  xcb_disconnect (x);
  clicks = g_new0 (Clicks, 1);
  clicks->listener = listener;
  clicks->context = g_main_context_ref_thread_default ();
  *ret_clicks = (CarpaceClicks){ .self = clicks, .follow = follow, .free = let_go };
  return true;
}
