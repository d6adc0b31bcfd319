/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-x11-beside.c: the counters of Xwayland, while one of its programs is in front. */
#include "activity-x11-beside.h"

#include "activity-x11.h"
#include "activity.h"
#include "x11.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>

#define SOCKETS "/tmp/.X11-unix/X"
/* A socket can be there a moment before somebody listens, and a server that went may still have been asked. */
#define LISTENS_MS 300
#define TRIES 4 /* more, each twice as late */

typedef struct
{
  CarpaceClock clock;
  CarpaceTell tell;
  GMainContext *context;
  int64_t gap_after_ms; /* 0: not following */
  bool in_block;
  GCancellable *connecting;
  xcb_connection_t *x; /* for the window in front; the counters have one of their own */
  xcb_window_t root;
  xcb_atom_t active;
  GSource *events, *timer;
  int tries; /* left, since its socket came or it went */
  CarpaceActivity counters; /* where x is there */
  bool moving;              /* what was presumed last, and since when */
  int64_t from_ms;
  bool sees;
  void (*tell_whether) (void *user, bool sees);
  void *user;
  GFileMonitor *socket;
} Beside;

/* A pair that was made in a thread. */
typedef struct
{
  xcb_connection_t *x, *counters;
} Connected;

static void
disconnect (gpointer user_data)
{
  Connected *connected = user_data;
  if (connected->x != NULL)
    xcb_disconnect (connected->x);
  if (connected->counters != NULL)
    xcb_disconnect (connected->counters);
  g_free (connected);
}

/* ---- in a moment ---- */

static void connect_or_leave (Beside *beside);

static gboolean
timer_due (gpointer user_data)
{
  Beside *beside = user_data;
  g_clear_pointer (&beside->timer, g_source_unref);
  connect_or_leave (beside);
  return G_SOURCE_REMOVE;
}

static void
go_on_in (Beside *beside, guint ms)
{
  carpace_activity_timer_start (&beside->timer, beside->context, ms, timer_due, beside);
}

/* ---- which window is in front ---- */

static void
set_whether_it_sees (Beside *beside, bool sees)
{
  if (sees == beside->sees)
    return;
  beside->sees = sees;
  if (beside->tell_whether != NULL)
    beside->tell_whether (beside->user, sees);
}

static bool
is_one_in_front (const Beside *beside)
{
  xcb_get_property_reply_t *reply
    = xcb_get_property_reply (beside->x, xcb_get_property (beside->x, 0, beside->root, beside->active, XCB_ATOM_WINDOW, 0, 1), NULL);
  bool is = reply != NULL && xcb_get_property_value_length (reply) >= (int) sizeof (xcb_window_t)
            && *(const xcb_window_t *) xcb_get_property_value (reply) != XCB_WINDOW_NONE;
  free (reply);
  return is;
}

static void
take_event (void *self, const xcb_generic_event_t *event)
{
  Beside *beside = self;
  const xcb_property_notify_event_t *property = (const xcb_property_notify_event_t *) event;
  if ((event->response_type & 0x7f) == XCB_PROPERTY_NOTIFY && property->atom == beside->active)
    set_whether_it_sees (beside, is_one_in_front (beside));
}

static bool
watch_the_front (Beside *beside)
{
  static const char name[] = "_NET_ACTIVE_WINDOW";
  const uint32_t events = XCB_EVENT_MASK_PROPERTY_CHANGE;
  xcb_intern_atom_reply_t *reply
    = xcb_intern_atom_reply (beside->x, xcb_intern_atom (beside->x, 0, (uint16_t) strlen (name), name), NULL);
  if (reply == NULL)
    return false;
  beside->active = reply->atom;
  free (reply);
  beside->root = xcb_setup_roots_iterator (xcb_get_setup (beside->x)).data->root;
  xcb_change_window_attributes (beside->x, beside->root, XCB_CW_EVENT_MASK, &events);
  return true;
}

/* ---- a server that comes and goes ---- */

/* The source of its events ends with it. */
static void
events_ended (gpointer user_data)
{
  Beside *beside = user_data;
  if (beside->events == NULL)
    return;
  beside->tries = TRIES;
  go_on_in (beside, 0);
}

static void
leave (Beside *beside)
{
  GSource *events = g_steal_pointer (&beside->events);
  if (events != NULL)
    {
      g_source_destroy (events);
      g_source_unref (events);
    }
  CARPACE_PORT_FREE (beside->counters);
  beside->counters = (CarpaceActivity) { 0 };
  g_clear_pointer (&beside->x, xcb_disconnect);
}

static bool
is_wanted (const Beside *beside)
{
  return beside->gap_after_ms > 0 && beside->in_block;
}

static void
stop_connecting (Beside *beside)
{
  if (beside->connecting != NULL)
    g_cancellable_cancel (beside->connecting);
  g_clear_object (&beside->connecting);
}

static void
try_again (Beside *beside)
{
  if (beside->tries == 0)
    return;
  go_on_in (beside, (guint) LISTENS_MS << (TRIES - beside->tries));
  beside->tries--;
}

static void
connect_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancel)
{
  Connected *connected = g_new0 (Connected, 1);
  connected->x = xcb_connect (NULL, NULL);
  if (xcb_connection_has_error (connected->x) == 0)
    connected->counters = xcb_connect (NULL, NULL);
  g_task_return_pointer (task, connected, disconnect);
}

static void
connected (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Beside *beside = user_data;
  Connected *pair = g_task_propagate_pointer (G_TASK (result), NULL);
  if (pair == NULL)
    return; /* it was cancelled, and may be gone */
  g_clear_object (&beside->connecting);
  if (pair->counters == NULL
      || !carpace_activity_x11_open_on (g_steal_pointer (&pair->counters), beside->clock, beside->tell, &beside->counters))
    {
      disconnect (pair);
      try_again (beside);
      return;
    }
  beside->x = g_steal_pointer (&pair->x);
  disconnect (pair);
  if (!watch_the_front (beside))
    {
      leave (beside);
      return;
    }
  beside->events = carpace_x11_events_new (beside->x, beside->context, "carpace front window", take_event, beside);
  g_source_set_callback (beside->events, NULL, beside, events_ended);
  beside->counters.follow (beside->counters.self, beside->gap_after_ms);
  beside->counters.recheck (beside->counters.self, beside->moving, beside->from_ms);
  set_whether_it_sees (beside, is_one_in_front (beside));
}

static void
connect_or_leave (Beside *beside)
{
  if (!is_wanted (beside) || (beside->x != NULL && xcb_connection_has_error (beside->x) != 0))
    {
      stop_connecting (beside);
      leave (beside);
      set_whether_it_sees (beside, false);
    }
  if (!is_wanted (beside) || beside->x != NULL || beside->connecting != NULL)
    return;
  beside->connecting = g_cancellable_new ();
  GTask *task = g_task_new (NULL, beside->connecting, connected, beside);
  g_task_run_in_thread (task, connect_in_thread);
  g_object_unref (task);
}

static void
socket_changed (GFileMonitor *monitor, GFile *file, GFile *other, GFileMonitorEvent event, gpointer user_data)
{
  Beside *beside = user_data;
  if (event != G_FILE_MONITOR_EVENT_CREATED)
    return;
  beside->tries = TRIES;
  go_on_in (beside, LISTENS_MS);
}

/* The socket of a server of this machine's, as DISPLAY names it (":0", ":0.0"), or NULL. */
static char *
socket_path (void)
{
  const char *display = g_getenv ("DISPLAY");
  if (display == NULL || display[0] != ':' || !g_ascii_isdigit (display[1]))
    return NULL;
  return g_strdup_printf (SOCKETS "%" G_GUINT64_FORMAT, g_ascii_strtoull (display + 1, NULL, 10));
}

static void
watch_the_socket (Beside *beside, const char *path)
{
  GFile *file = g_file_new_for_path (path);
  g_main_context_push_thread_default (beside->context);
  beside->socket = g_file_monitor_file (file, G_FILE_MONITOR_NONE, NULL, NULL);
  g_main_context_pop_thread_default (beside->context);
  g_object_unref (file);
  if (beside->socket != NULL)
    g_signal_connect (beside->socket, "changed", G_CALLBACK (socket_changed), beside);
}

/* ---- the port ---- */

static void
follow (void *self, int64_t gap_after_ms)
{
  Beside *beside = self;
  beside->gap_after_ms = gap_after_ms;
  beside->moving = true;
  beside->from_ms = beside->clock.now (beside->clock.self).elapsed_ms;
  if (beside->x != NULL)
    beside->counters.follow (beside->counters.self, gap_after_ms);
  go_on_in (beside, 0);
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  Beside *beside = self;
  beside->moving = moving;
  beside->from_ms = from_ms;
  if (beside->x != NULL)
    beside->counters.recheck (beside->counters.self, moving, from_ms);
}

static void
state (void *self, CarpaceState now)
{
  Beside *beside = self;
  beside->in_block = carpace_activity_in_block (now);
  if (is_wanted (beside) != (beside->x != NULL) && beside->timer == NULL)
    go_on_in (beside, 0);
}

static void
sees (void *self, void (*tell) (void *user, bool sees), void *user)
{
  Beside *beside = self;
  beside->tell_whether = tell;
  beside->user = user;
  tell (user, beside->sees);
}

static void
let_go (void *self)
{
  Beside *beside = self;
  stop_connecting (beside);
  carpace_activity_timer_stop (&beside->timer);
  leave (beside);
  g_clear_object (&beside->socket);
  g_main_context_unref (beside->context);
  g_free (beside);
}

bool
carpace_activity_x11_beside_open (CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  char *path = carpace_x11_is_session () ? NULL : socket_path ();
  if (path == NULL)
    return false;
  Beside *beside = g_new0 (Beside, 1);
  beside->clock = clock;
  beside->tell = to;
  beside->context = g_main_context_ref_thread_default ();
  watch_the_socket (beside, path);
  g_free (path);
  *ret_activity = (CarpaceActivity) { .self = beside, .follow = follow, .recheck = recheck, .state = state,
                                      .free = let_go, .sees = sees };
  return true;
}
