/* SPDX-License-Identifier: GPL-3.0-or-later */
/* today-text.c: a view in five short pieces. Minutes are whole: nothing ticks by the second. */
#include "text/today-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "carpace/day-rail.h"
#include "text/duration.h"
#include "text/face-text.h"
#include "text/pause-text.h"
#include "text/text.h"

static char *
minutes_up (int64_t ms)
{
  return carpace_text_duration (MAX ((ms + CARPACE_MINUTE_MS - 1) / CARPACE_MINUTE_MS, 1) * CARPACE_MINUTE_MS);
}

static char *
block_name (const CarpaceView *view)
{
  if (view->match)
    return g_strdup (_("Match"));
  return view->block > 0 ? g_strdup_printf (_("Block %d"), view->block) : g_strdup (_("A block"));
}

static char *
clock_in (CarpaceInstant now, int64_t in_ms)
{
  return carpace_text_time_of_day (carpace_instant_after (now, in_ms));
}

static bool
block_waits (const CarpaceView *view)
{
  return view->next_known && view->next_cue == CARPACE_CUE_NEXT_BLOCK && view->next_in_ms > 0;
}

/* ---- what now ---- */

static char *
waiting_headline (const CarpaceView *view, CarpaceInstant now)
{
  g_autofree char *block = block_name (view), *from = clock_in (now, view->next_in_ms);

  if (carpace_text_no_start (view) != NULL)
    return g_strdup (carpace_text_no_start (view));
  if (view->cue_on[CARPACE_CUE_CAUTION])
    return g_strdup (_("Before practice"));
  if (view->cue_on[CARPACE_CUE_MORNING])
    return g_strdup (_("First, this morning"));
  if (block_waits (view))
    return g_strdup_printf (_("%s from %s"), block, from);
  return g_strdup_printf (_("%s can start"), view->block > 0 ? block : _("Block 1"));
}

static char *
running_headline (const CarpaceView *view)
{
  g_autofree char *block = block_name (view), *to_go = minutes_up (view->remaining_ms);
  g_autofree char *active = carpace_text_duration (view->active_ms / CARPACE_MINUTE_MS * CARPACE_MINUTE_MS);

  if (view->match)
    return g_strdup_printf (_("%s: %s"), block, active);
  return g_strdup_printf (_("%s: %s to go"), block, to_go);
}

static char *
limit_headline (const CarpaceView *view)
{
  g_autofree char *block = block_name (view), *limit = carpace_text_at_limit (view);

  return g_strdup_printf (_("%s: %s"), block, limit);
}

static char *
paused_headline (const CarpaceView *view)
{
  g_autofree char *block = block_name (view);

  return g_strdup_printf (_("%s: paused"), block);
}

static char *
headline (const CarpaceView *view, CarpaceInstant now)
{
  switch (view->state)
    {
    case CARPACE_STATE_OFF: return g_strdup (_("No block plan in use"));
    case CARPACE_STATE_WAITING: return waiting_headline (view, now);
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_GAP: return running_headline (view);
    case CARPACE_STATE_REST_DUE: return g_strdup (_("A rest is due"));
    case CARPACE_STATE_RESTING: return g_strdup (view->rest.waits ? _("Waits while the hand moves") : _("Resting"));
    case CARPACE_STATE_LIMIT_REACHED: return limit_headline (view);
    case CARPACE_STATE_RATING_DUE: return g_strdup (_("How does your hand feel?"));
    case CARPACE_STATE_PAUSED: return paused_headline (view);
    case CARPACE_STATE_DAY_DONE:
      return g_strdup (view->cue_on[CARPACE_CUE_MORNING] ? _("First, this morning") : carpace_text_day_done (view));
    case CARPACE_N_STATES: break;
    }
  return g_strdup ("");
}

/* ---- what it is ---- */

static char *
block_line (const CarpaceView *view)
{
  int64_t limit_ms = view->limit_ms > 0 ? view->limit_ms : view->n_ahead > 0 ? view->ahead_ms[0] : 0;
  int64_t after_ms = view->after_ms > 0 ? view->after_ms : view->plan->after_ms;
  g_autofree char *limit = carpace_text_duration (limit_ms), *after = carpace_text_duration (after_ms);

  if (limit_ms <= 0)
    return g_strdup ("");
  if (carpace_rests_within (limit_ms, after_ms) == 0)
    return g_steal_pointer (&limit);
  return g_strdup_printf (_("%s, a rest after every %s"), limit, after);
}

static char *
waiting_line (const CarpaceView *view)
{
  if (view->day_behind && !view->caution_open)
    return g_strdup (_("Practise from the next practice day."));
  if (carpace_text_caution_first (view))
    return g_strdup (carpace_text_caution_first (view));
  if (view->no_practice)
    return g_strdup ("");
  if (view->cue_on[CARPACE_CUE_MORNING])
    return g_strdup (_("Three taps, then practice. Any of them can wait."));
  return block_line (view);
}

static char *
rest_line (const CarpaceView *view)
{
  g_autofree char *length = carpace_text_duration (view->rest.length_ms);

  return g_strdup_printf (_("%s, %s: %s"), length, carpace_text_exercise_kind (carpace_exercise_kind (view->rest.exercise)),
                          carpace_text_exercise (view->rest.exercise));
}

static char *
drill_line (const CarpaceView *view)
{
  const char *drill = view->drill >= 0 && view->drill < view->plan->n_drills ? view->plan->drills[view->drill].name : "";

  return view->state == CARPACE_STATE_GAP && *drill ? g_strdup_printf (_("%s, between runs"), drill) : g_strdup (drill);
}

static char *
rating_line (const CarpaceView *view)
{
  return view->rating.block > 0 ? g_strdup_printf (_("Block %d has ended. One tap."), view->rating.block)
                                : g_strdup (_("The match has ended. One tap."));
}

/* Why the day is done, or what comes before it. */
static char *
done_line (const CarpaceView *view)
{
  if (carpace_text_caution_first (view) == NULL && view->cue_on[CARPACE_CUE_MORNING])
    return g_strdup (_("Three taps, then practice. Any of them can wait."));
  return carpace_text_day_done_why (view);
}

static char *
what (const CarpaceView *view)
{
  switch (view->state)
    {
    case CARPACE_STATE_OFF: return g_strdup (_("Choose one: its day is drawn here."));
    case CARPACE_STATE_WAITING: return waiting_line (view);
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_GAP:
    case CARPACE_STATE_PAUSED: return view->match ? g_strdup ("") : drill_line (view);
    case CARPACE_STATE_REST_DUE:
    case CARPACE_STATE_RESTING: return rest_line (view);
    case CARPACE_STATE_LIMIT_REACHED: return g_strdup (_("Finish this run, then stop."));
    case CARPACE_STATE_RATING_DUE: return rating_line (view);
    case CARPACE_STATE_DAY_DONE: return done_line (view);
    case CARPACE_N_STATES: break;
    }
  return g_strdup ("");
}

/* ---- done of planned ---- */

static char *
done_of_planned (const CarpaceView *view)
{
  int64_t planned_ms = view->dose_ms, done_min = view->done_ms / CARPACE_MINUTE_MS;
  g_autofree char *planned = NULL;

  if (view->state == CARPACE_STATE_OFF)
    return g_strdup ("");
  if (view->day_over)
    for (int32_t i = planned_ms = 0; i < view->n_ahead; i++)
      planned_ms += view->ahead_ms[i];
  if (planned_ms <= 0)
    return g_strdup ("");
  planned = carpace_text_duration (planned_ms);
  if (view->day_over)
    return g_strdup_printf (_("%s planned"), planned);
  if (planned_ms % CARPACE_MINUTE_MS != 0)
    return g_strdup_printf (_("%d min of %s done"), (int) done_min, planned);
  return g_strdup_printf (_("%d of %d min done"), (int) done_min, (int) (planned_ms / CARPACE_MINUTE_MS));
}

/* ---- next, and when ---- */

static char *
cue_line (const CarpaceView *view)
{
  g_autofree char *in = minutes_up (view->next_in_ms), *rest = carpace_text_duration (view->rest_ms);

  if (view->next_cue == CARPACE_CUE_MICRO_REST)
    return g_strdup_printf (_("Next: rest %s, in about %s of practice"), rest, in);
  return g_strdup_printf (_("Next: the block's limit, in about %s"), in);
}

/* The block behind the one at hand, where that can begin. */
static char *
block_after_line (const CarpaceView *view, CarpaceInstant now)
{
  g_autofree CarpaceDayRail *rail = g_new (CarpaceDayRail, 1);

  carpace_day_rail (view, now, rail);
  for (int32_t i = 1, ahead = 0; i < rail->n; i++)
    {
      g_autofree char *from = carpace_text_time_of_day (rail->part[i].from);

      ahead += rail->part[i - 1].kind == CARPACE_RAIL_AHEAD;
      if (ahead > 0 && rail->part[i].kind == CARPACE_RAIL_AHEAD)
        return g_strdup_printf (_("After it: block %d, about %s"), rail->part[i].number, from);
    }
  return g_strdup (view->n_ahead > 0 ? _("After it: nothing more today") : "");
}

static char *
between_line (const CarpaceView *view, CarpaceInstant now)
{
  g_autofree char *from = clock_in (now, view->next_in_ms);

  if (carpace_text_caution_first (view) || view->no_practice || view->day_behind)
    return g_strdup ("");
  if (view->cue_on[CARPACE_CUE_MORNING])
    return g_strdup (_("Next: block 1, when you are ready"));
  if (view->state == CARPACE_STATE_RATING_DUE && view->block > 0)
    return block_waits (view) ? g_strdup_printf (_("Next: block %d, from %s"), view->block, from)
                              : g_strdup_printf (_("Next: block %d"), view->block);
  return block_after_line (view, now);
}

static char *
next (const CarpaceView *view, CarpaceInstant now)
{
  switch (view->state)
    {
    case CARPACE_STATE_WAITING:
    case CARPACE_STATE_RATING_DUE: return between_line (view, now);
    case CARPACE_STATE_PRACTISING:
    case CARPACE_STATE_GAP:
    case CARPACE_STATE_PAUSED: return view->next_known ? cue_line (view) : g_strdup ("");
    case CARPACE_STATE_REST_DUE:
    case CARPACE_STATE_RESTING:
      {
        g_autofree char *to_go = minutes_up (view->remaining_ms);
        return g_strdup_printf (_("Then: block %d, %s to go"), view->block, to_go);
      }
    case CARPACE_STATE_LIMIT_REACHED: return g_strdup (_("Next: one tap of how the hand feels"));
    case CARPACE_STATE_DAY_DONE: return g_strdup (carpace_text_day_done_open (view));
    case CARPACE_STATE_OFF:
    case CARPACE_N_STATES: break;
    }
  return g_strdup ("");
}

static char *
decision (const CarpaceView *view)
{
  if (view->unkept)
    return g_strdup (_("The diary cannot be written now: what happens is kept in memory only."));
  if (view->state == CARPACE_STATE_OFF || view->day_over)
    return g_strdup ("");
  return view->has_decision ? carpace_text_why_short (&view->decision)
                            : g_strdup (_("The limit is the block plan's own; nothing has changed it today."));
}

/* ---- on air ---- */

static void
on_air (const CarpaceView *view, CarpaceInstant now, CarpaceTodayWords *words)
{
  CarpacePause pause = carpace_pause_running (view);
  bool in_block = carpace_state_in_block (view->state), runs = pause.kind == CARPACE_PAUSE_INTERMISSION;
  int64_t in_ms = runs ? pause.to_go_ms : carpace_pause_ahead (view).to_go_ms;
  g_autofree char *at = clock_in (now, in_ms + CARPACE_SECOND_MS / 2), *length = carpace_text_pause_length (&pause);

  words->headline = g_strdup (_("On air"));
  words->what = pause.kind != CARPACE_PAUSE_NONE ? g_steal_pointer (&length)
                : g_strdup (!in_block ? "" : view->state == CARPACE_STATE_PAUSED ? _("Paused") : _("Running"));
  words->done = g_strdup ("");
  words->next = in_ms <= 0 ? g_strdup ("") : g_strdup_printf (runs ? _("Intermission until %s") : _("Intermission at %s"), at);
  words->decision = g_strdup ("");
}

void
carpace_text_today (const CarpaceView *view, CarpaceInstant now, CarpaceTodayWords *ret_words)
{
  if (view->on_air)
    {
      on_air (view, now, ret_words);
      return;
    }
  ret_words->headline = headline (view, now);
  ret_words->what = what (view);
  ret_words->done = done_of_planned (view);
  ret_words->next = next (view, now);
  ret_words->decision = decision (view);
}

void
carpace_today_words_clear (CarpaceTodayWords *words)
{
  g_clear_pointer (&words->headline, g_free);
  g_clear_pointer (&words->what, g_free);
  g_clear_pointer (&words->done, g_free);
  g_clear_pointer (&words->next, g_free);
  g_clear_pointer (&words->decision, g_free);
}
