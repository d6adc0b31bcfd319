/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-x11.c: gaps, from alarms on the idle counters of an X server.
 *
 * While the hand moves one alarm stands, on the device used last: where that
 * device rests but another is in use, the alarm moves over to that one. While
 * it is still, each device has an alarm for its next input. */
#include "activity-x11.h"

#include "activity-x11-counters.h"
#include "activity.h"
#include "x11.h"

#include <gio/gio.h>
#include <stdlib.h>

/* A server's time is ours if an event is not older than this by it. */
#define LATEST_MS 60000

typedef struct
{
  CarpaceClock clock;
  CarpaceTell tell;
  GMainContext *context;
  xcb_connection_t *x;
  CarpaceX11Counters counters;
  int64_t gap_after_ms; /* 0: not following */
  bool still;           /* alarms wait for the next input, else for the gap */
  int64_t set_at_ms;    /* monotonic, when they were set to wait for input */
  bool after_reset;     /* counters began anew together: see in a moment whether a hand moves, too */
  CarpaceLook look;
  int64_t from_ms;
  int64_t behind_ms; /* what monotonic time was behind elapsed time by, when last looked */
  GSource *events, *timer;
} CarpaceActivityX11;

static void look (CarpaceActivityX11 *activity);
static void look_after_reset (CarpaceActivityX11 *activity);

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

static void
tell (const CarpaceActivityX11 *activity, CarpaceEventKind kind, int64_t since_ms)
{
  int64_t now_ms = elapsed_ms (activity);
  CarpaceEvent event = { .kind = kind, .fact = { .since_ms = MIN (since_ms, now_ms) } };
  activity->tell.tell (activity->tell.self, &event, NULL);
}

/* Elapsed time runs on through suspend, monotonic time does not. */
static int64_t
behind_ms (const CarpaceActivityX11 *activity)
{
  return elapsed_ms (activity) - monotonic_ms ();
}

/* ---- alarms ---- */

static void
wait_for_input (CarpaceActivityX11 *activity)
{
  CarpaceX11Counters *counters = &activity->counters;
  activity->still = true;
  activity->set_at_ms = monotonic_ms ();
  for (int i = 0; i < counters->n; i++)
    {
      int64_t idle_ms = counters->device[i].idle_ms;
      carpace_x11_counters_alarm_below (counters, &counters->device[i],
                                        idle_ms >= activity->gap_after_ms ? activity->gap_after_ms - 1 : idle_ms / 2);
    }
  /* A device that comes meanwhile has no alarm; the counter over all tells. By
   * its edge: what holds it down and is no device would tell without end. */
  carpace_x11_counters_alarm_falls (counters, &counters->all, activity->gap_after_ms - 1);
}

static void
wait_for_gap (CarpaceActivityX11 *activity)
{
  CarpaceX11Counters *counters = &activity->counters;
  activity->still = false;
  carpace_x11_counters_drop_alarms (counters);
  carpace_x11_counters_alarm_above (counters, carpace_x11_counters_latest (counters), activity->gap_after_ms);
}

/* ---- looking at the counters once ---- */

static gboolean
timer_due (gpointer user_data)
{
  CarpaceActivityX11 *activity = user_data;
  g_clear_pointer (&activity->timer, g_source_unref);
  if (activity->look != CARPACE_LOOK_NOT)
    look (activity);
  else if (activity->after_reset)
    look_after_reset (activity);
  xcb_flush (activity->x);
  return G_SOURCE_REMOVE;
}

/* Never tells within a call of the port: even what is due now waits for the
 * context's next turn. */
static void
look_in (CarpaceActivityX11 *activity, int64_t in_ms)
{
  carpace_activity_timer_start (&activity->timer, activity->context, in_ms, timer_due, activity);
}

static void
schedule_look (CarpaceActivityX11 *activity)
{
  if (activity->look == CARPACE_LOOK_NOT)
    carpace_activity_timer_stop (&activity->timer);
  else
    look_in (activity, carpace_activity_look_in_ms (activity->look, activity->from_ms, activity->gap_after_ms,
                                                    elapsed_ms (activity)));
}

static void
act_on (CarpaceActivityX11 *activity, const CarpaceLookedAt *at, CarpaceLooked looked, int64_t since_ms)
{
  switch (looked)
    {
    case CARPACE_LOOKED_FINE:
      if (at->idle_ms < at->gap_after_ms)
        wait_for_gap (activity);
      else
        wait_for_input (activity);
      break;
    case CARPACE_LOOKED_TELL_STILL:
      wait_for_input (activity);
      tell (activity, CARPACE_EVENT_STILL, since_ms);
      break;
    case CARPACE_LOOKED_TELL_INPUT:
      wait_for_gap (activity);
      tell (activity, CARPACE_EVENT_INPUT, since_ms);
      break;
    case CARPACE_LOOKED_AGAIN:
      activity->look = at->look;
      look_in (activity, CARPACE_LOOK_AGAIN_MS);
      return; /* a suspend before it has to be known then, too */
    case CARPACE_LOOKED_CATCH:
      wait_for_input (activity);
      break;
    }
  activity->behind_ms = behind_ms (activity);
}

static void
look (CarpaceActivityX11 *activity)
{
  CarpaceLookedAt at = { .look = activity->look, .from_ms = activity->from_ms, .gap_after_ms = activity->gap_after_ms };
  activity->look = CARPACE_LOOK_NOT;
  activity->after_reset = false;
  if (!carpace_x11_counters_survey (&activity->counters))
    return;
  at.idle_ms = carpace_x11_counters_latest (&activity->counters)->idle_ms;
  at.now_ms = elapsed_ms (activity);
  at.slept_ms = behind_ms (activity) - activity->behind_ms;
  int64_t since_ms = 0;
  CarpaceLooked looked = carpace_activity_judge (&at, &since_ms);
  if (looked == CARPACE_LOOKED_TELL_INPUT && carpace_x11_counters_reset_together (&activity->counters))
    looked = CARPACE_LOOKED_CATCH; /* nobody's hand */
  act_on (activity, &at, looked, since_ms);
}

static void
input_came (CarpaceActivityX11 *activity, int64_t since_ms)
{
  wait_for_gap (activity);
  if (activity->look != CARPACE_LOOK_STILL)
    tell (activity, CARPACE_EVENT_INPUT, since_ms);
}

static void
look_after_reset (CarpaceActivityX11 *activity)
{
  activity->after_reset = false;
  if (!activity->still || !carpace_x11_counters_survey (&activity->counters))
    return;
  if (carpace_x11_counters_reset_together (&activity->counters))
    wait_for_input (activity);
  else
    input_came (activity, elapsed_ms (activity) - carpace_x11_counters_latest (&activity->counters)->idle_ms);
}

/* ---- alarms that went ---- */

/* How long ago the server stamped @stamp_ms, where its clock is this
 * machine's; else 0. */
static int64_t
age_ms (xcb_timestamp_t stamp_ms)
{
  uint32_t age = (uint32_t) monotonic_ms () - stamp_ms;
  return age <= LATEST_MS ? age : 0;
}

static bool
is_set (const CarpaceX11Counters *counters, xcb_sync_alarm_t alarm)
{
  bool set = alarm != 0 && alarm == counters->all.alarm;
  for (int i = 0; i < counters->n; i++)
    set |= alarm != 0 && alarm == counters->device[i].alarm;
  return set;
}

static void
went_in_a_gap (CarpaceActivityX11 *activity, int64_t then_ms)
{
  CarpaceX11Counters *counters = &activity->counters;
  const CarpaceX11Counter *latest = carpace_x11_counters_latest (counters);
  if (latest->idle_ms > monotonic_ms () - activity->set_at_ms + 1)
    {
      if (latest->alarm == 0)
        wait_for_input (activity); /* a device has gone */
      return; /* no device was used */
    }
  if (!carpace_x11_counters_reset_together (counters))
    {
      input_came (activity, then_ms);
      return;
    }
  activity->after_reset = true;
  if (activity->timer == NULL)
    look_in (activity, CARPACE_LOOK_AGAIN_MS);
}

static void
went_in_a_run (CarpaceActivityX11 *activity)
{
  int64_t idle_ms = carpace_x11_counters_latest (&activity->counters)->idle_ms;
  if (idle_ms < activity->gap_after_ms)
    {
      wait_for_gap (activity); /* of another device */
      return;
    }
  wait_for_input (activity);
  if (activity->look != CARPACE_LOOK_MOVING)
    tell (activity, CARPACE_EVENT_STILL, elapsed_ms (activity) - idle_ms);
}

static void
alarm_went (CarpaceActivityX11 *activity, const xcb_sync_alarm_notify_event_t *event)
{
  if (event->state == XCB_SYNC_ALARMSTATE_DESTROYED || !is_set (&activity->counters, event->alarm))
    return;
  int64_t then_ms = elapsed_ms (activity) - age_ms (event->timestamp) - carpace_x11_counter_value (event->counter_value);
  activity->behind_ms = behind_ms (activity);
  if (activity->after_reset || !carpace_x11_counters_survey (&activity->counters))
    return;
  if (activity->still)
    went_in_a_gap (activity, then_ms);
  else
    went_in_a_run (activity);
}

static void
take_event (void *self, const xcb_generic_event_t *event)
{
  CarpaceActivityX11 *activity = self;
  if ((event->response_type & 0x7f) == activity->counters.first_event + XCB_SYNC_ALARM_NOTIFY)
    alarm_went (activity, (const xcb_sync_alarm_notify_event_t *) event);
}

/* ---- the port ---- */

static void
follow (void *self, int64_t gap_after_ms)
{
  CarpaceActivityX11 *activity = self;
  if (gap_after_ms == activity->gap_after_ms || xcb_connection_has_error (activity->x) != 0)
    return;
  activity->gap_after_ms = gap_after_ms;
  activity->after_reset = false;
  carpace_x11_counters_drop_alarms (&activity->counters);
  if (gap_after_ms == 0)
    activity->look = CARPACE_LOOK_NOT;
  else if (activity->look == CARPACE_LOOK_NOT)
    activity->look = CARPACE_LOOK_AT_FIRST; /* alarms are set then */
  activity->behind_ms = behind_ms (activity);
  schedule_look (activity);
  xcb_flush (activity->x);
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  CarpaceActivityX11 *activity = self;
  activity->look = moving ? CARPACE_LOOK_MOVING : CARPACE_LOOK_STILL;
  activity->from_ms = from_ms;
  if (activity->gap_after_ms > 0)
    schedule_look (activity);
}

static void
let_go (void *self)
{
  CarpaceActivityX11 *activity = self;
  carpace_activity_timer_stop (&activity->timer);
  if (activity->events != NULL)
    {
      g_source_destroy (activity->events);
      g_source_unref (activity->events);
    }
  xcb_disconnect (activity->x);
  g_clear_pointer (&activity->context, g_main_context_unref);
  g_free (activity);
}

bool
carpace_activity_x11_open_on (xcb_connection_t *x, CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  CarpaceActivityX11 *activity = g_new0 (CarpaceActivityX11, 1);
  activity->clock = clock;
  activity->tell = to;
  activity->x = x;
  if (xcb_connection_has_error (activity->x) != 0 || !carpace_x11_counters_init (&activity->counters, activity->x))
    {
      let_go (activity);
      return false;
    }
  activity->context = g_main_context_ref_thread_default ();
  activity->events = carpace_x11_events_new (activity->x, activity->context, "carpace activity events", take_event, activity);
  *ret_activity = (CarpaceActivity) { .self = activity, .follow = follow, .recheck = recheck, .free = let_go };
  return true;
}

bool
carpace_activity_x11_open (CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  return carpace_x11_is_session () && carpace_activity_x11_open_on (xcb_connect (NULL, NULL), clock, to, ret_activity);
}
