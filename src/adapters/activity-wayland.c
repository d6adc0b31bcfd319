/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-wayland.c: gaps, from a compositor's notices of a seat without input.
 *
 * While the session is followed one notice of a gap stands. Where the session
 * takes the hand as still but the gap's notice has not been told, a short one
 * beside it tells whether the hand moves: it is told in a moment, or the hand does. */
#include "activity-wayland.h"

#include "activity.h"
#include "ext-idle-notify-v1-client-protocol.h"
#include "idle-kde-client-protocol.h"
#include "wayland.h"

#include <gio/gio.h>
#include <string.h>

#define ANSWER_MS 2000
/* The short notice, and what a busy compositor may be late with it by. */
#define SHORT_MS 100
#define LATE_MS 150
/* In a gap of this many times gap-after a blind one is asked again, then ever later. */
#define CHECK_GAPS 8
/* Past the hand's way to an answer. */
#define REACHED_MS (CARPACE_REACH_MS + 50)

typedef struct Wayland Wayland;

/* A row a protocol. */
typedef struct
{
  const struct wl_interface *interface;
  uint32_t least, most; /* versions */
  bool sees_all;        /* also while a program holds the screen awake */
  struct wl_proxy *(*make) (void *notifier, uint32_t ms, struct wl_seat *seat);
  void (*listen) (struct wl_proxy *notice, void *of);
  void (*drop) (struct wl_proxy *notice);
  void (*drop_notifier) (void *notifier);
} Protocol;

typedef struct
{
  Wayland *activity;
  struct wl_proxy *notice; /* NULL where there is none */
  bool idle;               /* told, and not resumed */
} Notice;

struct Wayland
{
  const Protocol *protocol;
  CarpaceClock clock;
  CarpaceTell tell;
  GMainContext *context;
  struct wl_display *display;
  struct wl_registry *registry;
  struct wl_callback *settling; /* has the short notice been told by now? */
  struct wl_seat *seat;
  void *notifier;
  uint32_t seat_name, notifier_name;
  int64_t gap_after_ms; /* 0: not following */
  Notice gap, brief;
  bool still; /* what the session was told last, or presumes */
  CarpaceLook look;
  int64_t from_ms; /* it is presumed since; of LOOK_NOT, a gap begins here at the earliest */
  bool silent; /* the short notice's time has gone by, and it was not told */
  int64_t check_ms; /* how long ago a blind one was asked last in a gap */
  CarpaceState now;
  GSource *events, *timer;
};

static int64_t
elapsed_ms (const Wayland *activity)
{
  return activity->clock.now (activity->clock.self).elapsed_ms;
}

static void
tell (Wayland *activity, CarpaceEventKind kind, int64_t since_ms)
{
  CarpaceEvent event = { .kind = kind, .fact = { .since_ms = since_ms } };
  activity->still = kind == CARPACE_EVENT_STILL;
  activity->tell.tell (activity->tell.self, &event, NULL);
}

static bool
is_there (const Wayland *activity)
{
  return activity->notifier != NULL && activity->seat != NULL && wl_display_get_error (activity->display) == 0;
}

/* ---- notices ---- */

static void
drop (Notice *notice)
{
  if (notice->notice != NULL)
    notice->activity->protocol->drop (notice->notice);
  notice->notice = NULL;
  notice->idle = false;
}

static void
make (Notice *notice, int64_t ms)
{
  Wayland *activity = notice->activity;
  drop (notice);
  if (!is_there (activity))
    return;
  notice->notice = activity->protocol->make (activity->notifier, (uint32_t) ms, activity->seat);
  activity->protocol->listen (notice->notice, notice);
}

/* ---- a moment later ---- */

static void timer_went (Wayland *activity);

static gboolean
timer_due (gpointer user_data)
{
  Wayland *activity = user_data;
  g_clear_pointer (&activity->timer, g_source_unref);
  timer_went (activity);
  return G_SOURCE_REMOVE;
}

static void
go_on_in (Wayland *activity, int64_t in_ms)
{
  carpace_activity_timer_start (&activity->timer, activity->context, in_ms, timer_due, activity);
}

static void
looked (Wayland *activity)
{
  activity->look = CARPACE_LOOK_NOT;
  activity->silent = false;
  carpace_activity_timer_stop (&activity->timer);
  g_clear_pointer (&activity->settling, wl_callback_destroy);
}

/* ---- what it comes to ---- */

/* Once idle, a blind one stays so where a program begins to hold the screen awake,
 * whatever the hand does: a game would be a gap for ever. */
static void
check_later (Wayland *activity)
{
  if (activity->protocol->sees_all || !carpace_activity_in_block (activity->now))
    return;
  activity->check_ms = activity->check_ms == 0 ? CHECK_GAPS * activity->gap_after_ms : 2 * activity->check_ms;
  go_on_in (activity, activity->check_ms);
}

static void
input_came (Wayland *activity)
{
  looked (activity);
  drop (&activity->brief);
  activity->check_ms = 0;
  activity->from_ms = elapsed_ms (activity);
  if (activity->still)
    tell (activity, CARPACE_EVENT_INPUT, activity->from_ms);
}

static void
gap_began (Wayland *activity, int64_t since_ms)
{
  int64_t now_ms = elapsed_ms (activity);
  if (activity->still)
    {
      if (activity->brief.notice != NULL && activity->look == CARPACE_LOOK_STILL)
        {
          looked (activity);
          check_later (activity);
        }
      return; /* as presumed */
    }
  if (now_ms < activity->from_ms + activity->gap_after_ms)
    {
      go_on_in (activity, activity->from_ms + activity->gap_after_ms - now_ms + 1);
      return; /* of the time before `start` */
    }
  looked (activity);
  check_later (activity);
  tell (activity, CARPACE_EVENT_STILL, MAX (since_ms, activity->from_ms));
}

/* Nobody says that the hand is still: it moves, or that cannot be told. */
static void
had_no_notice (Wayland *activity)
{
  activity->silent = true;
  if (activity->now == CARPACE_STATE_GAP || (activity->protocol->sees_all && is_there (activity)))
    input_came (activity);
}

static void
settled (void *user_data, struct wl_callback *callback, uint32_t serial)
{
  Wayland *activity = user_data;
  g_clear_pointer (&activity->settling, wl_callback_destroy);
  if (activity->look == CARPACE_LOOK_STILL && activity->brief.notice != NULL && !activity->brief.idle)
    had_no_notice (activity);
}

static const struct wl_callback_listener settling = { .done = settled };

static void
timer_went (Wayland *activity)
{
  if (activity->still && !is_there (activity))
    had_no_notice (activity);
  else if (!activity->still)
    {
      if (activity->gap.idle)
        gap_began (activity, activity->from_ms); /* told before it was time */
    }
  else if (activity->gap.idle && activity->protocol->sees_all)
    looked (activity);
  else if (activity->look == CARPACE_LOOK_NOT || activity->brief.notice == NULL)
    {
      activity->look = CARPACE_LOOK_STILL;
      make (&activity->brief, SHORT_MS);
      go_on_in (activity, SHORT_MS + LATE_MS);
    }
  else if (activity->settling == NULL)
    {
      activity->settling = wl_display_sync (activity->display);
      wl_callback_add_listener (activity->settling, &settling, activity);
    }
}

/* ---- what the compositor tells ---- */

static void
idled (Notice *notice)
{
  Wayland *activity = notice->activity;
  notice->idle = true;
  if (notice == &activity->brief)
    {
      looked (activity);
      check_later (activity);
    }
  else
    gap_began (activity, elapsed_ms (activity) - activity->gap_after_ms);
}

static void
resumed (Notice *notice)
{
  Wayland *activity = notice->activity;
  bool on_the_way = activity->look == CARPACE_LOOK_STILL && activity->brief.notice == NULL;
  notice->idle = false;
  if (!on_the_way)
    input_came (activity);
}

static void
ext_idled (void *notice, struct ext_idle_notification_v1 *by)
{
  idled (notice);
}

static void
ext_resumed (void *notice, struct ext_idle_notification_v1 *by)
{
  resumed (notice);
}

static const struct ext_idle_notification_v1_listener ext_listener = { .idled = ext_idled, .resumed = ext_resumed };

static struct wl_proxy *
ext_make_input (void *notifier, uint32_t ms, struct wl_seat *seat)
{
  return (struct wl_proxy *) ext_idle_notifier_v1_get_input_idle_notification (notifier, ms, seat);
}

static struct wl_proxy *
ext_make (void *notifier, uint32_t ms, struct wl_seat *seat)
{
  return (struct wl_proxy *) ext_idle_notifier_v1_get_idle_notification (notifier, ms, seat);
}

static void
ext_listen (struct wl_proxy *notice, void *of)
{
  ext_idle_notification_v1_add_listener ((struct ext_idle_notification_v1 *) notice, &ext_listener, of);
}

static void
ext_drop (struct wl_proxy *notice)
{
  ext_idle_notification_v1_destroy ((struct ext_idle_notification_v1 *) notice);
}

static void
ext_drop_notifier (void *notifier)
{
  ext_idle_notifier_v1_destroy (notifier);
}

static void
kde_idle (void *notice, struct org_kde_kwin_idle_timeout *by)
{
  idled (notice);
}

static void
kde_resumed (void *notice, struct org_kde_kwin_idle_timeout *by)
{
  resumed (notice);
}

static const struct org_kde_kwin_idle_timeout_listener kde_listener = { .idle = kde_idle, .resumed = kde_resumed };

static struct wl_proxy *
kde_make (void *notifier, uint32_t ms, struct wl_seat *seat)
{
  return (struct wl_proxy *) org_kde_kwin_idle_get_idle_timeout (notifier, seat, ms);
}

static void
kde_listen (struct wl_proxy *notice, void *of)
{
  org_kde_kwin_idle_timeout_add_listener ((struct org_kde_kwin_idle_timeout *) notice, &kde_listener, of);
}

static void
kde_drop (struct wl_proxy *notice)
{
  org_kde_kwin_idle_timeout_release ((struct org_kde_kwin_idle_timeout *) notice);
}

static void
kde_drop_notifier (void *notifier)
{
  org_kde_kwin_idle_destroy (notifier);
}

/* ---- beginning, and globals that come and go ---- */

/* The session takes the hand as moving or as still since @from_ms. */
static void
presume (Wayland *activity, bool moving, int64_t from_ms)
{
  looked (activity);
  activity->check_ms = 0;
  activity->still = !moving;
  activity->from_ms = from_ms;
  if (activity->gap_after_ms == 0)
    return;
  if (!moving)
    {
      drop (&activity->brief);
      activity->look = CARPACE_LOOK_STILL;
      go_on_in (activity, from_ms + REACHED_MS - elapsed_ms (activity));
    }
  if (moving || activity->gap.notice == NULL)
    {
      drop (&activity->brief);
      make (&activity->gap, activity->gap_after_ms);
    }
}

static void
global_came (void *user_data, struct wl_registry *registry, uint32_t name, const char *interface, uint32_t version)
{
  Wayland *activity = user_data;
  const Protocol *protocol = activity->protocol;
  if (strcmp (interface, wl_seat_interface.name) == 0 && activity->seat == NULL)
    {
      activity->seat = wl_registry_bind (registry, name, &wl_seat_interface, 1);
      activity->seat_name = name;
    }
  else if (strcmp (interface, protocol->interface->name) == 0 && version >= protocol->least && activity->notifier == NULL)
    {
      activity->notifier = wl_registry_bind (registry, name, protocol->interface, MIN (version, protocol->most));
      activity->notifier_name = name;
    }
  else
    return;
  if (activity->seat != NULL && activity->notifier != NULL)
    presume (activity, !activity->still, elapsed_ms (activity));
}

static void
drop_globals (Wayland *activity, bool seat, bool notifier)
{
  drop (&activity->gap);
  drop (&activity->brief);
  looked (activity);
  if (seat)
    g_clear_pointer (&activity->seat, wl_seat_destroy);
  if (notifier && activity->notifier != NULL)
    activity->protocol->drop_notifier (g_steal_pointer (&activity->notifier));
}

/* Where nobody could tell the end of a gap, input is taken as on. */
static void
state (void *self, CarpaceState now)
{
  Wayland *activity = self;
  activity->now = now;
  if (now == CARPACE_STATE_GAP && activity->still && activity->timer == NULL
      && (activity->silent || !is_there (activity)))
    go_on_in (activity, 0);
}

static void
global_went (void *user_data, struct wl_registry *registry, uint32_t name)
{
  Wayland *activity = user_data;
  bool seat = activity->seat != NULL && name == activity->seat_name;
  bool notifier = activity->notifier != NULL && name == activity->notifier_name;
  if (!seat && !notifier)
    return;
  drop_globals (activity, seat, notifier);
  state (activity, activity->now);
}

static const struct wl_registry_listener globals = { .global = global_came, .global_remove = global_went };

/* ---- the port ---- */

static void
follow (void *self, int64_t gap_after_ms)
{
  Wayland *activity = self;
  if (gap_after_ms == activity->gap_after_ms)
    return;
  activity->gap_after_ms = gap_after_ms;
  drop (&activity->gap);
  drop (&activity->brief);
  presume (activity, true, elapsed_ms (activity));
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
  presume (self, moving, from_ms);
}

static void
let_go (void *self)
{
  Wayland *activity = self;
  drop_globals (activity, true, true);
  if (activity->events != NULL)
    {
      g_source_destroy (activity->events);
      g_source_unref (activity->events);
    }
  g_clear_pointer (&activity->registry, wl_registry_destroy);
  g_clear_pointer (&activity->display, wl_display_disconnect);
  g_clear_pointer (&activity->context, g_main_context_unref);
  g_free (activity);
}

static bool
open_by (const Protocol *protocol, CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  if (!carpace_wayland_is_session ())
    return false;
  Wayland *activity = g_new0 (Wayland, 1);
  activity->protocol = protocol;
  activity->clock = clock;
  activity->tell = to;
  activity->gap.activity = activity->brief.activity = activity;
  activity->display = wl_display_connect (NULL);
  if (activity->display != NULL)
    {
      activity->registry = wl_display_get_registry (activity->display);
      wl_registry_add_listener (activity->registry, &globals, activity);
    }
  if (activity->display == NULL || !carpace_wayland_settle (activity->display, ANSWER_MS) || activity->seat == NULL
      || activity->notifier == NULL)
    {
      let_go (activity);
      return false;
    }
  activity->context = g_main_context_ref_thread_default ();
  activity->events = carpace_wayland_events_new (activity->display, activity->context, "carpace activity events");
  *ret_activity = (CarpaceActivity) { .self = activity, .follow = follow, .recheck = recheck, .state = state,
                                      .free = let_go };
  return true;
}

bool
carpace_activity_ext_input_open (CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  static const Protocol protocol = { &ext_idle_notifier_v1_interface, 2, 2, true,
                                     ext_make_input, ext_listen, ext_drop, ext_drop_notifier };
  return open_by (&protocol, clock, to, ret_activity);
}

bool
carpace_activity_ext_open (CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  static const Protocol protocol = { &ext_idle_notifier_v1_interface, 1, 2, false,
                                     ext_make, ext_listen, ext_drop, ext_drop_notifier };
  return open_by (&protocol, clock, to, ret_activity);
}

bool
carpace_activity_kde_open (CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  static const Protocol protocol = { &org_kde_kwin_idle_interface, 1, 1, false, kde_make, kde_listen, kde_drop, kde_drop_notifier };
  return open_by (&protocol, clock, to, ret_activity);
}
