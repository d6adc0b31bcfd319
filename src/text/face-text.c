/* SPDX-License-Identifier: GPL-3.0-or-later */
/* face-text.c: the words on tray and cards. */
#include "text/face-text.h"

#include "text/duration.h"
#include "text/pause-text.h"

#include <glib/gi18n.h>

bool
carpace_state_in_block (CarpaceState state)
{
  return state == CARPACE_STATE_PRACTISING || state == CARPACE_STATE_GAP || state == CARPACE_STATE_REST_DUE
         || state == CARPACE_STATE_RESTING || state == CARPACE_STATE_LIMIT_REACHED
         || state == CARPACE_STATE_PAUSED;
}

const char *
carpace_text_state (CarpaceState state)
{
  switch (state)
    {
    case CARPACE_STATE_OFF: return _("off");
    case CARPACE_STATE_WAITING: return _("waiting");
    case CARPACE_STATE_PRACTISING: return _("practising");
    case CARPACE_STATE_GAP: return _("between runs");
    case CARPACE_STATE_REST_DUE: return _("rest due");
    case CARPACE_STATE_RESTING: return _("resting");
    case CARPACE_STATE_LIMIT_REACHED: return _("limit reached");
    case CARPACE_STATE_RATING_DUE: return _("rating due");
    case CARPACE_STATE_PAUSED: return _("paused");
    case CARPACE_STATE_DAY_DONE: return _("day done");
    case CARPACE_N_STATES: break;
    }
  return "";
}

const char *
carpace_text_site (CarpaceSite site)
{
  switch (site)
    {
    case CARPACE_SITE_NONE: return _("nowhere in particular");
    case CARPACE_SITE_PALM_SIDE: return _("Palm side");
    case CARPACE_SITE_LITTLE_FINGER_SIDE: return _("Little-finger side");
    case CARPACE_SITE_THUMB_SIDE: return _("Thumb side");
    case CARPACE_SITE_BACK_OF_FOREARM: return _("Back of the forearm");
    case CARPACE_SITE_FINGERS: return _("Fingers");
    case CARPACE_SITE_ELBOW: return _("Elbow");
    case CARPACE_SITE_SHOULDER: return _("Shoulder");
    case CARPACE_SITE_NECK: return _("Neck");
    case CARPACE_SITE_OTHER_HAND: return _("Other hand");
    case CARPACE_N_SITES: break;
    }
  return "";
}

/* Whole minutes, up: "12 min", "1 h 5 min". */
static char *
minutes_up (int64_t ms)
{
  int64_t minutes = (ms + CARPACE_MINUTE_MS - 1) / CARPACE_MINUTE_MS;
  return carpace_text_duration (MAX (minutes, 1) * CARPACE_MINUTE_MS);
}

char *
carpace_text_time_of_day (CarpaceInstant instant)
{
  GTimeZone *zone = g_time_zone_new_offset (instant.offset_s);
  GDateTime *utc = g_date_time_new_from_unix_utc (instant.wall_ms / 1000);
  GDateTime *local = utc ? g_date_time_to_timezone (utc, zone) : NULL;
  /* Translators: a time of day for GDateTime, as 18:45 */
  char *text = local ? g_date_time_format (local, _("%H:%M")) : NULL;

  g_clear_pointer (&utc, g_date_time_unref);
  g_clear_pointer (&local, g_date_time_unref);
  g_time_zone_unref (zone);
  return text ? text : g_strdup ("");
}

char *
carpace_text_block_of (const CarpaceView *view)
{
  if (view->match)
    return g_strdup (_("Match"));
  if (view->block <= 0)
    return g_strdup (_("Block"));
  if (view->blocks < view->block)
    return g_strdup_printf (_("Block %d"), view->block);
  return g_strdup_printf (_("Block %d of %d"), view->block, view->blocks);
}

/* Where the next block waits for a time of day. */
static bool
block_waits (const CarpaceView *view)
{
  return view->next_known && view->next_cue == CARPACE_CUE_NEXT_BLOCK && view->next_in_ms > 0;
}

/* Whether the last answer ended the day, not the dose. */
static bool
stopped_by_rating (const CarpaceView *view)
{
  return view->has_decision && view->decision.scope == CARPACE_SCOPE_BLOCK && view->decision.after_ms <= 0;
}

const char *
carpace_text_day_done (const CarpaceView *view)
{
  if (view->no_practice)
    return _("No practice today");
  if (view->without && view->done_ms == 0)
    return _("No practice planned today");
  if (stopped_by_rating (view))
    return _("Practice stops here today");
  return _("Practice is done for today");
}

const char *
carpace_text_caution_first (const CarpaceView *view)
{
  if (view->caution_open)
    return _("A caution is open: see what to do about it.");
  return view->cue_on[CARPACE_CUE_CAUTION] ? _("Cautions come first: a minute, once.") : NULL;
}

static bool
ended_by_number (const CarpaceView *view)
{
  return view->plan != NULL && view->rating.given > view->plan->stop_above;
}

char *
carpace_text_day_done_why (const CarpaceView *view)
{
  if (ended_by_number (view))
    return g_strdup_printf (_("A number above %d ends the day."), view->plan->stop_above);
  if (carpace_text_caution_first (view) != NULL)
    return g_strdup (carpace_text_caution_first (view));
  if (view->no_practice || view->without)
    return g_strdup ("");
  if (view->dose_remaining_ms <= 0)
    return g_strdup (_("All of today's practice time is done."));
  if (view->has_decision && view->decision.rule == CARPACE_RULE_TOO_SHORT)
    return g_strdup (_("What is still to do is too short for a block."));
  return g_strdup (stopped_by_rating (view) ? _("Today's ratings end the day.") : _("All of today's blocks are done."));
}

const char *
carpace_text_day_done_open (const CarpaceView *view)
{
  if (ended_by_number (view) && carpace_text_caution_first (view) != NULL)
    return carpace_text_caution_first (view);
  if (view->day_over || view->without || view->no_practice)
    return view->morning_asked ? "" : _("Open: the morning check");
  return view->morning_asked ? _("Next: tomorrow's morning check") : _("Open: this morning's check");
}

const char *
carpace_text_no_start (const CarpaceView *view)
{
  if (view->caution_open || view->no_practice)
    return _("No practice today");
  return view->day_behind ? _("Today is over; it was taken in from a file") : NULL;
}

static char *
waiting_line (const CarpaceView *view, CarpaceInstant now)
{
  g_autofree char *block = carpace_text_block_of (view);
  g_autofree char *limit = carpace_text_duration (view->limit_ms);
  g_autofree char *from = carpace_text_time_of_day (carpace_instant_after (now, view->next_in_ms));

  if (carpace_text_no_start (view) != NULL)
    return g_strdup (carpace_text_no_start (view));
  if (view->block <= 0 || view->limit_ms <= 0)
    return g_strdup (_("Ready to start"));
  if (block_waits (view))
    return g_strdup_printf (_("%s, from %s"), block, from);
  return g_strdup_printf (_("%s, %s"), block, limit);
}

/* A running block: @what is said of it where that is more than time to go. */
static char *
running_line (const CarpaceView *view, const char *what)
{
  g_autofree char *block = carpace_text_block_of (view);
  g_autofree char *to_go = minutes_up (view->remaining_ms);
  g_autofree char *active = carpace_text_duration (view->active_ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);

  if (view->match)
    return what ? g_strdup_printf (_("%s, %s, %s"), block, what, active) : g_strdup_printf (_("%s, %s"), block, active);
  if (what)
    return g_strdup_printf (_("%s, %s, %s to go"), block, what, to_go);
  return g_strdup_printf (_("%s, %s to go"), block, to_go);
}

char *
carpace_text_at_limit (const CarpaceView *view)
{
  g_autofree char *over = carpace_text_duration (view->overrun_ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);

  if (view->overrun_ms < CARPACE_MINUTE_MS)
    return g_strdup (_("limit reached"));
  /* Translators: how far past a block's limit: "2 min over" */
  return g_strdup_printf (_("%s over"), over);
}

static char *
limit_line (const CarpaceView *view)
{
  g_autofree char *block = carpace_text_block_of (view), *limit = carpace_text_at_limit (view);

  return g_strdup_printf (_("%s, %s"), block, limit);
}

static char *
rating_line (const CarpaceView *view)
{
  if (view->rating.block <= 0)
    return g_strdup (_("Match ended, rating open"));
  return g_strdup_printf (_("Block %d ended, rating open"), view->rating.block);
}

/* By the clock, so that it does not tick; to the nearest second, so that a
 * millisecond does not make another minute of it. */
static char *
on_air_line (const CarpaceView *view, CarpaceInstant now)
{
  CarpacePause pause = carpace_pause_running (view);
  bool runs = pause.kind == CARPACE_PAUSE_INTERMISSION;
  int64_t in_ms = runs ? pause.to_go_ms : carpace_pause_ahead (view).to_go_ms;
  g_autofree char *at = carpace_text_time_of_day (carpace_instant_after (now, in_ms + CARPACE_SECOND_MS / 2));

  if (pause.kind == CARPACE_PAUSE_SHORT)
    return g_strdup (_("On air, short pause"));
  if (in_ms <= 0)
    return g_strdup (_("On air"));
  return g_strdup_printf (runs ? _("On air, intermission until %s") : _("On air, intermission at %s"), at);
}

static char *
off_air_line (const CarpaceView *view, CarpaceInstant now)
{
  switch (view->state)
    {
    case CARPACE_STATE_OFF: return g_strdup (_("No block plan in use"));
    case CARPACE_STATE_WAITING: return waiting_line (view, now);
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_GAP: return running_line (view, NULL);
    case CARPACE_STATE_REST_DUE: return running_line (view, _("rest due"));
    case CARPACE_STATE_RESTING: return running_line (view, _("resting"));
    case CARPACE_STATE_LIMIT_REACHED: return limit_line (view);
    case CARPACE_STATE_RATING_DUE: return rating_line (view);
    case CARPACE_STATE_PAUSED: return running_line (view, _("paused"));
    case CARPACE_STATE_DAY_DONE:
      return g_strdup (carpace_text_day_done (view));
    case CARPACE_N_STATES: break;
    }
  return g_strdup ("");
}

char *
carpace_text_state_line (const CarpaceView *view, CarpaceInstant now)
{
  g_autofree char *line = view->on_air ? on_air_line (view, now) : off_air_line (view, now);

  if (view->unkept && !view->on_air)
    return g_strdup_printf (_("%s; the diary is not being kept"), line);
  return g_steal_pointer (&line);
}

char *
carpace_text_tray_label (const CarpaceView *view)
{
  if (view->on_air || view->match || !carpace_state_in_block (view->state)
      || view->state == CARPACE_STATE_LIMIT_REACHED)
    return g_strdup ("");
  return minutes_up (view->remaining_ms);
}

char *
carpace_text_start_or_end (const CarpaceView *view)
{
  bool numbered = view->block > 0;

  if (carpace_state_in_block (view->state))
    {
      if (view->match)
        return g_strdup (_("End the match"));
      return numbered ? g_strdup_printf (_("End block %d"), view->block) : g_strdup (_("End the block"));
    }
  if (view->start_asks && view->rating.open)
    return g_strdup (_("Start without a rating"));
  if (view->state == CARPACE_STATE_DAY_DONE)
    return g_strdup (view->start_asks ? _("Start beyond the plan") : _("Start a block"));
  if (!numbered)
    return g_strdup (_("Start a block"));
  return g_strdup_printf (view->start_asks ? _("Start block %d early") : _("Start block %d"), view->block);
}

char *
carpace_text_rate (int32_t block)
{
  return block > 0 ? g_strdup_printf (_("Rate block %d…"), block) : g_strdup (_("Rate the match…"));
}
