/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-x11.c: alarms on the X server's IDLETIME counter, over XCB. */
#include "activity-x11.h"

#include "activity.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>
#include <xcb/sync.h>
#include <xcb/xcb.h>

/* A server's time is ours if an event is not older than this by it. */
#define LATEST_MS 60000

struct CarpaceActivityX11
{
  CarpaceClock clock;
  CarpaceTell tell;
  GMainContext *context;
  xcb_connection_t *x;
  uint8_t first_event;
  xcb_sync_counter_t counter;
  xcb_sync_alarm_t still_alarm, input_alarm, catch_alarm; /* 0 where there is none */
  int64_t gap_after_ms;                                   /* 0: not following */
  CarpaceLook look;
  int64_t from_ms;
  int64_t behind_ms; /* what monotonic time was behind elapsed time by, when last looked */
  GSource *events, *timer;
};

typedef struct
{
  GSource source;
  CarpaceActivityX11 *activity;
  gpointer tag;
  xcb_generic_event_t *queued; /* read along with a reply */
} EventSource;

static void look (CarpaceActivityX11 *activity);

static int64_t
elapsed_ms (const CarpaceActivityX11 *activity)
{
  return activity->clock.now (activity->clock.self).elapsed_ms;
}

static int64_t
monotonic_ms (void)
{
  return g_get_monotonic_time () / 1000;
}

static int64_t
from_halves (xcb_sync_int64_t value)
{
  return (int64_t) ((uint64_t) (uint32_t) value.hi << 32 | value.lo);
}

static xcb_sync_int64_t
to_halves (int64_t value)
{
  return (xcb_sync_int64_t) { .hi = (int32_t) (value >> 32), .lo = (uint32_t) (value & UINT32_MAX) };
}

static void
tell (const CarpaceActivityX11 *activity, CarpaceEventKind kind, int64_t since_ms)
{
  int64_t now_ms = elapsed_ms (activity);
  CarpaceEvent event = { .kind = kind, .since_ms = MIN (since_ms, now_ms) };
  activity->tell.tell (activity->tell.self, &event, NULL);
}

/* Elapsed time runs on through suspend, monotonic time does not. */
static int64_t
behind_ms (const CarpaceActivityX11 *activity)
{
  return elapsed_ms (activity) - monotonic_ms ();
}

/* ---- the server ---- */

static bool
read_counter (CarpaceActivityX11 *activity, int64_t *ret_idle_ms)
{
  xcb_sync_query_counter_reply_t *reply
    = xcb_sync_query_counter_reply (activity->x, xcb_sync_query_counter (activity->x, activity->counter), NULL);
  if (reply == NULL)
    return false;
  *ret_idle_ms = from_halves (reply->counter_value);
  free (reply);
  return true;
}

static xcb_sync_alarm_t
set_alarm (CarpaceActivityX11 *activity, uint32_t transition, int64_t at_ms)
{
  xcb_sync_alarm_t alarm = xcb_generate_id (activity->x);
  xcb_sync_create_alarm_value_list_t values = {
    .counter = activity->counter,
    .valueType = XCB_SYNC_VALUETYPE_ABSOLUTE,
    .value = to_halves (at_ms),
    .testType = transition,
    .delta = to_halves (0), /* a transition alarm stays set */
    .events = 1,
  };
  xcb_sync_create_alarm_aux (activity->x, alarm,
                             XCB_SYNC_CA_COUNTER | XCB_SYNC_CA_VALUE_TYPE | XCB_SYNC_CA_VALUE | XCB_SYNC_CA_TEST_TYPE
                               | XCB_SYNC_CA_DELTA | XCB_SYNC_CA_EVENTS,
                             &values);
  return alarm;
}

static void
drop_alarm (CarpaceActivityX11 *activity, xcb_sync_alarm_t *alarm)
{
  if (*alarm != 0)
    xcb_sync_destroy_alarm (activity->x, *alarm);
  *alarm = 0;
}

/* The name follows its length; xcb_sync_systemcounter_name() looks behind the
 * padding that C adds to the struct, and so 2 bytes too far. */
static bool
is_idletime (const xcb_sync_systemcounter_t *counter)
{
  const char *name = (const char *) (&counter->name_len + 1);
  return counter->name_len == 8 && memcmp (name, "IDLETIME", 8) == 0;
}

static bool
find_counter (CarpaceActivityX11 *activity)
{
  xcb_sync_list_system_counters_reply_t *reply
    = xcb_sync_list_system_counters_reply (activity->x, xcb_sync_list_system_counters (activity->x), NULL);
  if (reply == NULL)
    return false;
  for (xcb_sync_systemcounter_iterator_t each = xcb_sync_list_system_counters_counters_iterator (reply); each.rem > 0;
       xcb_sync_systemcounter_next (&each))
    if (is_idletime (each.data))
      activity->counter = each.data->counter;
  free (reply);
  return activity->counter != 0;
}

static bool
find_extension (CarpaceActivityX11 *activity)
{
  const xcb_query_extension_reply_t *extension = xcb_get_extension_data (activity->x, &xcb_sync_id);
  if (extension == NULL || !extension->present)
    return false;
  activity->first_event = extension->first_event;
  xcb_sync_initialize_reply_t *reply
    = xcb_sync_initialize_reply (activity->x, xcb_sync_initialize (activity->x, 3, 1), NULL);
  free (reply);
  return reply != NULL;
}

/* ---- looking at the counter once ---- */

static gboolean
timer_due (gpointer user_data)
{
  CarpaceActivityX11 *activity = user_data;
  g_clear_pointer (&activity->timer, g_source_unref);
  look (activity);
  return G_SOURCE_REMOVE;
}

static void
stop_timer (CarpaceActivityX11 *activity)
{
  if (activity->timer != NULL)
    g_source_destroy (activity->timer);
  g_clear_pointer (&activity->timer, g_source_unref);
}

/* Never tells within a call of the port: even what is due now waits for the
 * context's next turn. */
static void
look_in (CarpaceActivityX11 *activity, int64_t in_ms)
{
  stop_timer (activity);
  activity->timer = g_timeout_source_new ((guint) CLAMP (in_ms, 0, CARPACE_HOUR_MS));
  g_source_set_static_name (activity->timer, "carpace activity");
  g_source_set_callback (activity->timer, timer_due, activity, NULL);
  g_source_attach (activity->timer, activity->context);
}

static void
schedule_look (CarpaceActivityX11 *activity)
{
  if (activity->look == CARPACE_LOOK_NOT)
    stop_timer (activity);
  else
    look_in (activity, carpace_activity_look_in_ms (activity->look, activity->from_ms, activity->gap_after_ms,
                                                    elapsed_ms (activity)));
}

/* No gap has gone by whose end the standing alarm could see. */
static void
catch_next_input (CarpaceActivityX11 *activity, int64_t idle_ms)
{
  activity->catch_alarm = set_alarm (activity, XCB_SYNC_TESTTYPE_NEGATIVE_TRANSITION, idle_ms / 2);
  xcb_flush (activity->x);
}

static void
act_on (CarpaceActivityX11 *activity, const CarpaceLookedAt *at)
{
  int64_t since_ms = 0;
  switch (carpace_activity_judge (at, &since_ms))
    {
    case CARPACE_LOOKED_FINE:
      break;
    case CARPACE_LOOKED_TELL_STILL:
      tell (activity, CARPACE_EVENT_STILL, since_ms);
      break;
    case CARPACE_LOOKED_TELL_INPUT:
      tell (activity, CARPACE_EVENT_INPUT, since_ms);
      break;
    case CARPACE_LOOKED_AGAIN:
      activity->look = at->look;
      look_in (activity, CARPACE_LOOK_AGAIN_MS);
      return; /* a suspend before it has to be known then, too */
    case CARPACE_LOOKED_CATCH:
      catch_next_input (activity, at->idle_ms);
      break;
    }
  activity->behind_ms = behind_ms (activity);
}

static void
look (CarpaceActivityX11 *activity)
{
  CarpaceLookedAt at = { .look = activity->look, .from_ms = activity->from_ms, .gap_after_ms = activity->gap_after_ms };
  activity->look = CARPACE_LOOK_NOT;
  if (at.look == CARPACE_LOOK_NOT || !read_counter (activity, &at.idle_ms))
    return;
  at.now_ms = elapsed_ms (activity);
  at.slept_ms = behind_ms (activity) - activity->behind_ms;
  act_on (activity, &at);
}

/* ---- alarms ---- */

/* How long ago the server stamped @stamp_ms, where its clock is this
 * machine's; else 0. */
static int64_t
age_ms (xcb_timestamp_t stamp_ms)
{
  uint32_t age = (uint32_t) monotonic_ms () - stamp_ms;
  return age <= LATEST_MS ? age : 0;
}

static void
alarm_went (CarpaceActivityX11 *activity, const xcb_sync_alarm_notify_event_t *event)
{
  if (event->state == XCB_SYNC_ALARMSTATE_DESTROYED || event->alarm == 0)
    return;
  int64_t then_ms = elapsed_ms (activity) - age_ms (event->timestamp) - from_halves (event->counter_value);
  activity->behind_ms = behind_ms (activity);
  if (event->alarm == activity->still_alarm)
    {
      drop_alarm (activity, &activity->catch_alarm);
      if (activity->look != CARPACE_LOOK_MOVING)
        tell (activity, CARPACE_EVENT_STILL, then_ms);
    }
  else if (event->alarm == activity->input_alarm || event->alarm == activity->catch_alarm)
    {
      drop_alarm (activity, &activity->catch_alarm);
      if (activity->look != CARPACE_LOOK_STILL)
        tell (activity, CARPACE_EVENT_INPUT, then_ms);
    }
}

static void
take_event (CarpaceActivityX11 *activity, xcb_generic_event_t *event)
{
  if ((event->response_type & 0x7f) == activity->first_event + XCB_SYNC_ALARM_NOTIFY)
    alarm_went (activity, (const xcb_sync_alarm_notify_event_t *) event);
  free (event);
}

static gboolean
events_prepare (GSource *source, gint *timeout)
{
  EventSource *self = (EventSource *) source;
  *timeout = -1;
  xcb_flush (self->activity->x);
  if (self->queued == NULL)
    self->queued = xcb_poll_for_queued_event (self->activity->x);
  return self->queued != NULL;
}

static gboolean
events_check (GSource *source)
{
  EventSource *self = (EventSource *) source;
  return self->queued != NULL || g_source_query_unix_fd (source, self->tag) != 0;
}

static gboolean
events_dispatch (GSource *source, GSourceFunc callback, gpointer user_data)
{
  EventSource *self = (EventSource *) source;
  CarpaceActivityX11 *activity = self->activity;
  xcb_generic_event_t *event = g_steal_pointer (&self->queued);
  if (event == NULL)
    event = xcb_poll_for_event (activity->x);
  for (; event != NULL; event = xcb_poll_for_event (activity->x))
    take_event (activity, event);
  return xcb_connection_has_error (activity->x) == 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
events_finalize (GSource *source)
{
  free (((EventSource *) source)->queued);
}

static GSourceFuncs event_source_funcs = {
  .prepare = events_prepare, .check = events_check, .dispatch = events_dispatch, .finalize = events_finalize
};

static void
attach_events (CarpaceActivityX11 *activity)
{
  activity->events = g_source_new (&event_source_funcs, sizeof (EventSource));
  g_source_set_static_name (activity->events, "carpace activity events");
  EventSource *source = (EventSource *) activity->events;
  source->activity = activity;
  source->tag = g_source_add_unix_fd (activity->events, xcb_get_file_descriptor (activity->x), G_IO_IN | G_IO_HUP | G_IO_ERR);
  g_source_attach (activity->events, activity->context);
}

/* ---- the port ---- */

static void
drop_alarms (CarpaceActivityX11 *activity)
{
  drop_alarm (activity, &activity->still_alarm);
  drop_alarm (activity, &activity->input_alarm);
  drop_alarm (activity, &activity->catch_alarm);
}

static void
follow (void *self, int64_t gap_after_ms)
{
  CarpaceActivityX11 *activity = self;
  if (gap_after_ms == activity->gap_after_ms || xcb_connection_has_error (activity->x) != 0)
    return;
  activity->gap_after_ms = gap_after_ms;
  drop_alarms (activity);
  if (gap_after_ms > 0)
    {
      activity->still_alarm = set_alarm (activity, XCB_SYNC_TESTTYPE_POSITIVE_TRANSITION, gap_after_ms);
      activity->input_alarm = set_alarm (activity, XCB_SYNC_TESTTYPE_NEGATIVE_TRANSITION, gap_after_ms - 1);
      activity->behind_ms = behind_ms (activity);
      if (activity->look == CARPACE_LOOK_NOT)
        activity->look = CARPACE_LOOK_AT_FIRST;
    }
  else
    activity->look = CARPACE_LOOK_NOT;
  schedule_look (activity);
  xcb_flush (activity->x);
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  CarpaceActivityX11 *activity = self;
  activity->look = moving ? CARPACE_LOOK_MOVING : CARPACE_LOOK_STILL;
  activity->from_ms = from_ms;
  drop_alarm (activity, &activity->catch_alarm);
  if (activity->gap_after_ms > 0)
    schedule_look (activity);
}

CarpaceActivity
carpace_activity_x11_port (CarpaceActivityX11 *activity)
{
  return (CarpaceActivity) { .self = activity, .follow = follow, .recheck = recheck };
}

CarpaceActivityX11 *
carpace_activity_x11_new (const char *display, GMainContext *context, CarpaceClock clock, CarpaceTell to,
                          GError **error)
{
  CarpaceActivityX11 *activity = g_new0 (CarpaceActivityX11, 1);
  activity->clock = clock;
  activity->tell = to;
  activity->x = xcb_connect (display, NULL);
  const char *fault = NULL;
  if (xcb_connection_has_error (activity->x) != 0)
    fault = "no X server answers";
  else if (!find_extension (activity) || !find_counter (activity))
    fault = "the X server has no IDLETIME counter";
  if (fault != NULL)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED, fault);
      carpace_activity_x11_free (activity);
      return NULL;
    }
  activity->context = context != NULL ? g_main_context_ref (context) : g_main_context_ref (g_main_context_default ());
  attach_events (activity);
  return activity;
}

void
carpace_activity_x11_free (CarpaceActivityX11 *activity)
{
  if (activity == NULL)
    return;
  stop_timer (activity);
  if (activity->events != NULL)
    {
      g_source_destroy (activity->events);
      g_source_unref (activity->events);
    }
  xcb_disconnect (activity->x);
  g_clear_pointer (&activity->context, g_main_context_unref);
  g_free (activity);
}
