/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity-manual.c: input taken as on until the player says otherwise. */
#include "activity-manual.h"

struct CarpaceActivityManual
{
  CarpaceClock clock;
  CarpaceTell tell;
  GMainContext *context;
  bool following;
  GSource *soon;
};

static void
forget_soon (CarpaceActivityManual *activity)
{
  if (activity->soon != NULL)
    g_source_destroy (activity->soon);
  g_clear_pointer (&activity->soon, g_source_unref);
}

static gboolean
tell_input (gpointer user_data)
{
  CarpaceActivityManual *activity = user_data;
  g_clear_pointer (&activity->soon, g_source_unref);
  CarpaceEvent event = {
    .kind = CARPACE_EVENT_INPUT,
    .since_ms = activity->clock.now (activity->clock.self).elapsed_ms,
  };
  activity->tell.tell (activity->tell.self, &event, NULL);
  return G_SOURCE_REMOVE;
}

static void
follow (void *self, int64_t gap_after_ms)
{
  CarpaceActivityManual *activity = self;
  activity->following = gap_after_ms > 0;
  if (!activity->following)
    forget_soon (activity);
}

static void
recheck (void *self, bool moving, int64_t from_ms)
{
}

CarpaceActivity
carpace_activity_manual_port (CarpaceActivityManual *activity)
{
  return (CarpaceActivity) { .self = activity, .follow = follow, .recheck = recheck };
}

void
carpace_activity_manual_state (CarpaceActivityManual *activity, CarpaceState state)
{
  bool gap = state == CARPACE_STATE_GAP && activity->following;
  if (!gap)
    forget_soon (activity);
  if (!gap || activity->soon != NULL)
    return;
  activity->soon = g_idle_source_new ();
  g_source_set_callback (activity->soon, tell_input, activity, NULL);
  g_source_attach (activity->soon, activity->context);
}

CarpaceActivityManual *
carpace_activity_manual_new (GMainContext *context, CarpaceClock clock, CarpaceTell to)
{
  CarpaceActivityManual *activity = g_new0 (CarpaceActivityManual, 1);
  activity->clock = clock;
  activity->tell = to;
  activity->context = g_main_context_ref (context != NULL ? context : g_main_context_default ());
  return activity;
}

void
carpace_activity_manual_free (CarpaceActivityManual *activity)
{
  if (activity == NULL)
    return;
  forget_soon (activity);
  g_main_context_unref (activity->context);
  g_free (activity);
}
