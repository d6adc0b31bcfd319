/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-manual.c: input taken as on until the player says otherwise. */
#include "activity-manual.h"

#include <glib.h>

typedef struct
{
  CarpaceClock clock;
  CarpaceTell tell;
  GMainContext *context;
  bool following;
  GSource *soon;
} Manual;

static void
forget_soon (Manual *activity)
{
  if (activity->soon != NULL)
    g_source_destroy (activity->soon);
  g_clear_pointer (&activity->soon, g_source_unref);
}

static gboolean
tell_input (gpointer user_data)
{
  Manual *activity = user_data;
  g_clear_pointer (&activity->soon, g_source_unref);
  CarpaceEvent event = {
    .kind = CARPACE_EVENT_INPUT,
    .fact = { .since_ms = activity->clock.now (activity->clock.self).elapsed_ms },
  };
  activity->tell.tell (activity->tell.self, &event, NULL);
  return G_SOURCE_REMOVE;
}

static void
follow (void *self, int64_t gap_after_ms)
{
  Manual *activity = self;
  activity->following = gap_after_ms > 0;
  if (!activity->following)
    forget_soon (activity);
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
}

static void
state (void *self, CarpaceState now)
{
  Manual *activity = self;
  bool gap = now == CARPACE_STATE_GAP && activity->following;
  if (!gap)
    forget_soon (activity);
  if (!gap || activity->soon != NULL)
    return;
  activity->soon = g_idle_source_new ();
  g_source_set_callback (activity->soon, tell_input, activity, NULL);
  g_source_attach (activity->soon, activity->context);
}

static void
let_go (void *self)
{
  Manual *activity = self;
  forget_soon (activity);
  g_main_context_unref (activity->context);
  g_free (activity);
}

bool
carpace_activity_manual_open (CarpaceClock clock, CarpaceTell to, CarpaceActivity *ret_activity)
{
  Manual *activity = g_new0 (Manual, 1);
  activity->clock = clock;
  activity->tell = to;
  activity->context = g_main_context_ref_thread_default ();
  *ret_activity = (CarpaceActivity) { .self = activity, .follow = follow, .recheck = recheck, .state = state,
                                      .free = let_go };
  return true;
}
