/* SPDX-License-Identifier: GPL-3.0-or-later */
/* activity.c: what to make of one look at an idle counter, and when to look. */
#include "activity.h"

/* Under this the hand is moving at this very moment. */
#define MOVING_MS 50
/* A suspend shorter than this cannot be told from reading two clocks. */
#define SLEEP_MS 500

/* Elapsed time of the last input. The counter stands still while the machine
 * is suspended: input that would otherwise lie after from_ms was before it. */
static int64_t
last_input (const CarpaceLookedAt *at)
{
  int64_t awake_all_along = at->now_ms - at->idle_ms;
  int64_t before_sleep = awake_all_along - at->slept_ms;
  return at->slept_ms >= SLEEP_MS && before_sleep <= at->from_ms ? before_sleep : awake_all_along;
}

static CarpaceLooked
judge_still (const CarpaceLookedAt *at, int64_t last_ms, int64_t *ret_since_ms)
{
  if (last_ms > at->from_ms + CARPACE_REACH_MS)
    {
      *ret_since_ms = last_ms;
      return CARPACE_LOOKED_TELL_INPUT;
    }
  if (at->idle_ms < MOVING_MS)
    return CARPACE_LOOKED_AGAIN;
  return at->idle_ms < at->gap_after_ms ? CARPACE_LOOKED_CATCH : CARPACE_LOOKED_FINE;
}

CarpaceLooked
carpace_activity_judge (const CarpaceLookedAt *at, int64_t *ret_since_ms)
{
  int64_t last_ms = last_input (at);
  if (at->look == CARPACE_LOOK_STILL)
    return judge_still (at, last_ms, ret_since_ms);
  if (at->look == CARPACE_LOOK_MOVING && last_ms < at->from_ms)
    last_ms = at->from_ms;
  if (at->look == CARPACE_LOOK_NOT || at->now_ms - last_ms < at->gap_after_ms)
    return CARPACE_LOOKED_FINE;
  *ret_since_ms = last_ms;
  return CARPACE_LOOKED_TELL_STILL;
}

int64_t
carpace_activity_look_in_ms (CarpaceLook look, int64_t from_ms, int64_t gap_after_ms, int64_t now_ms)
{
  int64_t at_ms = look == CARPACE_LOOK_MOVING  ? from_ms + gap_after_ms + 1
                  : look == CARPACE_LOOK_STILL ? from_ms + CARPACE_REACH_MS + MOVING_MS
                                               : now_ms;
  return at_ms > now_ms ? at_ms - now_ms : 0;
}

bool
carpace_activity_in_block (CarpaceState now)
{
  return now == CARPACE_STATE_PRACTISING || now == CARPACE_STATE_GAP || now == CARPACE_STATE_REST_DUE
         || now == CARPACE_STATE_RESTING || now == CARPACE_STATE_LIMIT_REACHED || now == CARPACE_STATE_PAUSED;
}

void
carpace_activity_timer_stop (GSource **timer)
{
  if (*timer != NULL)
    g_source_destroy (*timer);
  g_clear_pointer (timer, g_source_unref);
}

void
carpace_activity_timer_start (GSource **timer, GMainContext *context, int64_t in_ms, GSourceFunc due, void *user)
{
  carpace_activity_timer_stop (timer);
  *timer = g_timeout_source_new ((guint) CLAMP (in_ms, 0, CARPACE_HOUR_MS));
  g_source_set_static_name (*timer, "carpace activity");
  g_source_set_callback (*timer, due, user, NULL);
  g_source_attach (*timer, context);
}
