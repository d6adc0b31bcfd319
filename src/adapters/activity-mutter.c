/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-mutter.c: watches of org.gnome.Mutter.IdleMonitor, over GDBus; and looks
 * at its idle time, where the session manager says that the watches are held back. */
#include "activity-mutter.h"

#include "activity.h"

#include <gio/gio.h>

#define MONITOR "org.gnome.Mutter.IdleMonitor"
#define MONITOR_PATH "/org/gnome/Mutter/IdleMonitor/Core"
#define SESSION "org.gnome.SessionManager"
#define SESSION_PATH "/org/gnome/SessionManager"
#define ACTIONS "InhibitedActions"
#define IDLE_IS_INHIBITED 8u /* of these actions, a bit each */
#define THERE_MS 5000 /* the program's start waits for it */
/* A desktop that is busy for a while is waited for: what was given up would leave a gap unseen. One that goes is told of. */
#define ANSWER_MS G_MAXINT
/* At most 15 looks a minute. */
#define HELD_LOOK_MS 4000

typedef struct
{
  CarpaceClock clock;
  CarpaceTell tell;
  GDBusConnection *bus;
  GCancellable *cancel;
  guint fired, comes;
  GMainContext *context;
  int64_t gap_after_ms; /* 0: not following */
  guint32 still_watch, input_watch; /* 0 where there is none */
  bool input_asked;
  guint round; /* grows as watches are forgotten: an answer to an earlier one is void */
  CarpaceLook look;
  int64_t from_ms;
  int64_t behind_ms; /* what monotonic time was behind elapsed time by, when last looked */
  GSource *timer;
  bool still;         /* what the session was told last, or presumes */
  bool held;          /* a program holds the screen awake: no gap's beginning is told */
  bool in_block;
  guint actions, manages; /* subscription to what is inhibited; a watch for who says so */
  GSource *held_timer; /* looks then, while the hand moves */
} Mutter;

/* A question under way. */
typedef struct
{
  Mutter *activity;
  guint round;
  CarpaceLook look;
} Asked;

static void look (Mutter *activity);
static void look_while_held (Mutter *activity, int64_t last_input_ms);

static int64_t
elapsed_ms (const Mutter *activity)
{
  return activity->clock.now (activity->clock.self).elapsed_ms;
}

static int64_t
behind_ms (const Mutter *activity)
{
  return elapsed_ms (activity) - g_get_monotonic_time () / 1000;
}

static void
tell (Mutter *activity, CarpaceEventKind kind, int64_t since_ms)
{
  CarpaceEvent event = { .kind = kind, .fact = { .since_ms = since_ms } };
  activity->still = kind == CARPACE_EVENT_STILL;
  look_while_held (activity, elapsed_ms (activity));
  activity->tell.tell (activity->tell.self, &event, NULL);
}

static void
ask (Mutter *activity, const char *method, GVariant *in, const char *type, GAsyncReadyCallback answered)
{
  Asked *asked = g_new (Asked, 1);
  *asked = (Asked) { .activity = activity, .round = activity->round, .look = activity->look };
  g_dbus_connection_call (activity->bus, MONITOR, MONITOR_PATH, MONITOR, method, in, G_VARIANT_TYPE (type),
                          G_DBUS_CALL_FLAGS_NO_AUTO_START, ANSWER_MS, activity->cancel, answered, asked);
}

/* The answer, where somebody is still there to take it, and *ret_asked (g_free() it). */
static GVariant *
take_answer (GObject *bus, GAsyncResult *result, gpointer user_data, Asked *ret_asked)
{
  GVariant *reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (bus), result, NULL);
  *ret_asked = *(Asked *) user_data; /* its activity is freed already where the call was cancelled */
  g_free (user_data);
  return reply;
}

/* ---- watches ---- */

static void
drop_watch (Mutter *activity, guint32 *watch)
{
  if (*watch != 0)
    g_dbus_connection_call (activity->bus, MONITOR, MONITOR_PATH, MONITOR, "RemoveWatch", g_variant_new ("(u)", *watch),
                            NULL, G_DBUS_CALL_FLAGS_NO_AUTO_START, ANSWER_MS, NULL, NULL, NULL);
  *watch = 0;
}

static void
watch_had (GObject *bus, GAsyncResult *result, gpointer user_data, bool still)
{
  Asked asked;
  GVariant *reply = take_answer (bus, result, user_data, &asked);
  if (reply == NULL)
    return;
  Mutter *activity = asked.activity;
  guint32 watch = 0;
  g_variant_get (reply, "(u)", &watch);
  g_variant_unref (reply);
  if (asked.round != activity->round)
    drop_watch (activity, &watch);
  else if (still)
    activity->still_watch = watch;
  else
    activity->input_watch = watch;
}

static void
still_watch_had (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  watch_had (bus, result, user_data, true);
}

static void
input_watch_had (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  watch_had (bus, result, user_data, false);
}

/* Fires once, at the very next input. */
static void
watch_for_input (Mutter *activity)
{
  if (activity->input_asked)
    return;
  activity->input_asked = true;
  ask (activity, "AddUserActiveWatch", NULL, "(u)", input_watch_had);
}

static void
forget_watches (Mutter *activity)
{
  activity->round++;
  activity->still_watch = activity->input_watch = 0;
  activity->input_asked = false;
}

/* ---- looking once ---- */

static gboolean
timer_due (gpointer user_data)
{
  Mutter *activity = user_data;
  g_clear_pointer (&activity->timer, g_source_unref);
  look (activity);
  return G_SOURCE_REMOVE;
}

static void
look_in (Mutter *activity, int64_t in_ms)
{
  carpace_activity_timer_start (&activity->timer, activity->context, in_ms, timer_due, activity);
}

static void
schedule_look (Mutter *activity)
{
  if (activity->look == CARPACE_LOOK_NOT || activity->gap_after_ms == 0)
    carpace_activity_timer_stop (&activity->timer);
  else
    look_in (activity, carpace_activity_look_in_ms (activity->look, activity->from_ms, activity->gap_after_ms,
                                                    elapsed_ms (activity)));
}

static void
act_on (Mutter *activity, const CarpaceLookedAt *at)
{
  int64_t since_ms = 0;
  switch (carpace_activity_judge (at, &since_ms))
    {
    case CARPACE_LOOKED_FINE:
      if (at->idle_ms >= at->gap_after_ms)
        watch_for_input (activity);
      break;
    case CARPACE_LOOKED_TELL_STILL:
      watch_for_input (activity);
      tell (activity, CARPACE_EVENT_STILL, since_ms);
      break;
    case CARPACE_LOOKED_TELL_INPUT:
      tell (activity, CARPACE_EVENT_INPUT, since_ms);
      break;
    case CARPACE_LOOKED_AGAIN:
      activity->look = at->look;
      look_in (activity, CARPACE_LOOK_AGAIN_MS);
      return;
    case CARPACE_LOOKED_CATCH:
      watch_for_input (activity);
      break;
    }
  activity->behind_ms = behind_ms (activity);
}

static void
looked (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  Asked asked;
  GVariant *reply = take_answer (bus, result, user_data, &asked);
  if (reply == NULL)
    return;
  Mutter *activity = asked.activity;
  guint64 idle_ms = 0;
  g_variant_get (reply, "(t)", &idle_ms);
  g_variant_unref (reply);
  if (asked.round != activity->round || activity->look != asked.look || activity->timer != NULL)
    return; /* something newer is to be looked at */
  CarpaceLookedAt at = { .look = asked.look, .from_ms = activity->from_ms, .gap_after_ms = activity->gap_after_ms,
                         .now_ms = elapsed_ms (activity), .idle_ms = (int64_t) MIN (idle_ms, (guint64) G_MAXINT64),
                         .slept_ms = behind_ms (activity) - activity->behind_ms };
  activity->look = CARPACE_LOOK_NOT;
  act_on (activity, &at);
}

static void
look (Mutter *activity)
{
  if (activity->look != CARPACE_LOOK_NOT)
    ask (activity, "GetIdletime", NULL, "(t)", looked);
}

/* ---- where a program holds the screen awake ---- */

static void
held_looked (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  Asked asked;
  GVariant *reply = take_answer (bus, result, user_data, &asked);
  if (reply == NULL)
    return;
  Mutter *activity = asked.activity;
  guint64 idle_ms = 0;
  g_variant_get (reply, "(t)", &idle_ms);
  g_variant_unref (reply);
  if (asked.round != activity->round || activity->still || activity->look != CARPACE_LOOK_NOT || activity->held_timer != NULL)
    return; /* it is known by another way */
  int64_t last_ms = elapsed_ms (activity) - (int64_t) MIN (idle_ms, (guint64) G_MAXINT64 / 2);
  if (idle_ms < (guint64) activity->gap_after_ms)
    {
      look_while_held (activity, last_ms);
      return;
    }
  watch_for_input (activity);
  tell (activity, CARPACE_EVENT_STILL, MAX (last_ms, activity->from_ms));
}

static gboolean
held_timer_due (gpointer user_data)
{
  Mutter *activity = user_data;
  g_clear_pointer (&activity->held_timer, g_source_unref);
  if (activity->look == CARPACE_LOOK_NOT)
    ask (activity, "GetIdletime", NULL, "(t)", held_looked);
  else
    look_while_held (activity, elapsed_ms (activity)); /* one look is enough */
  return G_SOURCE_REMOVE;
}

static void
look_while_held (Mutter *activity, int64_t last_input_ms)
{
  carpace_activity_timer_stop (&activity->held_timer);
  if (!activity->held || activity->still || !activity->in_block || activity->gap_after_ms == 0)
    return;
  int64_t in_ms = last_input_ms + activity->gap_after_ms - elapsed_ms (activity);
  carpace_activity_timer_start (&activity->held_timer, activity->context, MAX (in_ms, HELD_LOOK_MS), held_timer_due, activity);
}

static void
take_actions (Mutter *activity, GVariant *actions)
{
  bool held = g_variant_is_of_type (actions, G_VARIANT_TYPE_UINT32) && (g_variant_get_uint32 (actions) & IDLE_IS_INHIBITED) != 0;
  if (held == activity->held)
    return;
  activity->held = held;
  look_while_held (activity, elapsed_ms (activity));
}

static void
actions_had (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  Asked asked;
  GVariant *actions = NULL, *reply = take_answer (bus, result, user_data, &asked);
  if (reply == NULL)
    return;
  g_variant_get (reply, "(v)", &actions);
  if (asked.activity->actions != 0)
    take_actions (asked.activity, actions);
  g_variant_unref (actions);
  g_variant_unref (reply);
}

static void
actions_changed (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
                 GVariant *parameters, gpointer user_data)
{
  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(sa{sv}as)")))
    return;
  GVariant *changed = g_variant_get_child_value (parameters, 1);
  GVariant *actions = g_variant_lookup_value (changed, ACTIONS, NULL);
  if (actions != NULL)
    take_actions (user_data, actions);
  g_clear_pointer (&actions, g_variant_unref);
  g_variant_unref (changed);
}

static void
stop_hearing_of_actions (Mutter *activity)
{
  if (activity->actions != 0)
    g_dbus_connection_signal_unsubscribe (activity->bus, activity->actions);
  if (activity->manages != 0)
    g_bus_unwatch_name (activity->manages);
  activity->actions = activity->manages = 0;
  activity->held = false;
  look_while_held (activity, 0);
}

static void
manager_came (GDBusConnection *bus, const char *name, const char *owner, gpointer user_data)
{
  Mutter *activity = user_data;
  Asked *asked = g_new0 (Asked, 1);
  asked->activity = activity;
  g_dbus_connection_call (bus, SESSION, SESSION_PATH, "org.freedesktop.DBus.Properties", "Get",
                          g_variant_new ("(ss)", SESSION, ACTIONS), G_VARIANT_TYPE ("(v)"), G_DBUS_CALL_FLAGS_NO_AUTO_START,
                          ANSWER_MS, activity->cancel, actions_had, asked);
}

static void
manager_went (GDBusConnection *bus, const char *name, gpointer user_data)
{
  Mutter *activity = user_data;
  activity->held = false;
  look_while_held (activity, 0);
}

static void
hear_of_actions (Mutter *activity)
{
  if (activity->actions != 0)
    return;
  activity->actions = g_dbus_connection_signal_subscribe (activity->bus, SESSION, "org.freedesktop.DBus.Properties",
                                                          "PropertiesChanged", SESSION_PATH, SESSION, G_DBUS_SIGNAL_FLAGS_NONE,
                                                          actions_changed, activity, NULL);
  activity->manages = g_bus_watch_name_on_connection (activity->bus, SESSION, G_BUS_NAME_WATCHER_FLAGS_NONE, manager_came,
                                                      manager_went, activity, NULL);
}

/* ---- what the monitor tells ---- */

static void
watch_fired (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
             GVariant *parameters, gpointer user_data)
{
  Mutter *activity = user_data;
  guint32 watch = 0;
  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(u)")))
    return;
  g_variant_get (parameters, "(u)", &watch);
  activity->behind_ms = behind_ms (activity);
  if (watch == 0 || (watch != activity->still_watch && watch != activity->input_watch))
    return;
  if (watch == activity->still_watch)
    {
      watch_for_input (activity);
      if (activity->look != CARPACE_LOOK_MOVING && !activity->still)
        tell (activity, CARPACE_EVENT_STILL, elapsed_ms (activity) - activity->gap_after_ms);
      return;
    }
  activity->input_watch = 0;
  activity->input_asked = false;
  if (activity->look != CARPACE_LOOK_STILL)
    tell (activity, CARPACE_EVENT_INPUT, elapsed_ms (activity));
}

static void
begin (Mutter *activity)
{
  forget_watches (activity);
  ask (activity, "AddIdleWatch", g_variant_new ("(t)", (guint64) activity->gap_after_ms), "(u)", still_watch_had);
  activity->behind_ms = behind_ms (activity);
  if (activity->look == CARPACE_LOOK_NOT)
    activity->look = CARPACE_LOOK_AT_FIRST;
  schedule_look (activity);
}

static void
monitor_came (GDBusConnection *bus, const char *name, const char *owner, gpointer user_data)
{
  Mutter *activity = user_data;
  if (activity->gap_after_ms > 0 && activity->still_watch == 0)
    {
      begin (activity);
      look_while_held (activity, elapsed_ms (activity));
    }
}

static void
monitor_went (GDBusConnection *bus, const char *name, gpointer user_data)
{
  forget_watches (user_data);
}

/* ---- the port ---- */

static void
follow (void *self, int64_t gap_after_ms)
{
  Mutter *activity = self;
  if (gap_after_ms == activity->gap_after_ms)
    return;
  drop_watch (activity, &activity->still_watch);
  drop_watch (activity, &activity->input_watch);
  activity->gap_after_ms = gap_after_ms;
  activity->still = false;
  activity->from_ms = elapsed_ms (activity);
  if (gap_after_ms > 0)
    {
      begin (activity);
      hear_of_actions (activity);
      look_while_held (activity, activity->from_ms);
      return;
    }
  stop_hearing_of_actions (activity);
  forget_watches (activity);
  activity->look = CARPACE_LOOK_NOT;
  carpace_activity_timer_stop (&activity->timer);
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  Mutter *activity = self;
  activity->look = moving ? CARPACE_LOOK_MOVING : CARPACE_LOOK_STILL;
  activity->from_ms = from_ms;
  activity->still = !moving;
  schedule_look (activity);
  look_while_held (activity, from_ms);
}

static void
state (void *self, CarpaceState now)
{
  Mutter *activity = self;
  bool in_block = carpace_activity_in_block (now);
  if (in_block == activity->in_block)
    return;
  activity->in_block = in_block;
  look_while_held (activity, elapsed_ms (activity));
}

static bool
is_there (GDBusConnection *bus)
{
  gboolean owned = FALSE;
  GVariant *reply = g_dbus_connection_call_sync (bus, "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus",
                                                 "NameHasOwner", g_variant_new ("(s)", MONITOR), G_VARIANT_TYPE ("(b)"),
                                                 G_DBUS_CALL_FLAGS_NONE, THERE_MS, NULL, NULL);
  if (reply == NULL)
    return false;
  g_variant_get (reply, "(b)", &owned);
  g_variant_unref (reply);
  return owned;
}

static GDBusConnection *
bus_with_monitor (void)
{
  GDBusConnection *bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  if (bus == NULL)
    return NULL;
  g_dbus_connection_set_exit_on_close (bus, FALSE);
  if (!is_there (bus))
    g_clear_object (&bus);
  return bus;
}

static void
let_go (void *self)
{
  Mutter *activity = self;
  g_cancellable_cancel (activity->cancel);
  g_object_unref (activity->cancel);
  carpace_activity_timer_stop (&activity->timer);
  stop_hearing_of_actions (activity);
  drop_watch (activity, &activity->still_watch);
  drop_watch (activity, &activity->input_watch);
  g_dbus_connection_signal_unsubscribe (activity->bus, activity->fired);
  g_bus_unwatch_name (activity->comes);
  g_object_unref (activity->bus);
  g_main_context_unref (activity->context);
  g_free (activity);
}

bool
carpace_activity_mutter_open (CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  GDBusConnection *bus = bus_with_monitor ();
  if (bus == NULL)
    return false;
  Mutter *activity = g_new0 (Mutter, 1);
  activity->clock = clock;
  activity->tell = to;
  activity->bus = bus;
  activity->cancel = g_cancellable_new ();
  activity->context = g_main_context_ref_thread_default ();
  activity->fired = g_dbus_connection_signal_subscribe (bus, MONITOR, MONITOR, "WatchFired", MONITOR_PATH, NULL,
                                                        G_DBUS_SIGNAL_FLAGS_NONE, watch_fired, activity, NULL);
  activity->comes = g_bus_watch_name_on_connection (bus, MONITOR, G_BUS_NAME_WATCHER_FLAGS_NONE, monitor_came, monitor_went,
                                                    activity, NULL);
  *ret_activity = (CarpaceActivity) { .self = activity, .follow = follow, .recheck = recheck, .state = state,
                                      .free = let_go };
  return true;
}
