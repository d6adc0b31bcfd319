/* SPDX-License-Identifier: GPL-3.0-or-later */
/* view.c: what a session looks like at a moment. Shares the fields of the
 * session, changes none of them. */
#include "carpace/view.h"

#include <string.h>

#include "carpace/entry-fields.h"

#include "session-private.h"

#define OTHER_DAYS 14

static int64_t
to_go_ms (int64_t end, int64_t now)
{
  return end > now ? end - now : 0;
}

static bool
counts_on (const CarpaceSession *s)
{
  return s->block.running && s->block.in_stretch && !s->frozen;
}

static void
look_at_block (const CarpaceSession *s, int64_t now, CarpaceView *v)
{
  const CarpaceRunning *block = &s->block;
  CarpaceLimits limits;

  v->match = block->running && block->match;
  v->ticking = counts_on (s);
  v->drill = -1;
  v->blocks = s->today.n_limits;
  if (block->running)
    {
      v->beyond = block->beyond;
      v->block = block->number;
      v->active_ms = carpace_active_at (s, now);
      v->runs = block->runs;
      v->drill = block->drill;
      v->limit_ms = block->match ? 0 : block->limit_ms;
      v->after_ms = block->match ? 0 : block->after_ms;
      v->rest_ms = block->match ? 0 : block->rest_ms;
    }
  else if (s->plan != NULL && !s->today.done && carpace_next_block (s, &limits))
    {
      v->block = s->today.n_blocks + 1;
      v->limit_ms = limits.limit_ms;
      v->after_ms = limits.after_ms;
      v->rest_ms = limits.rest_ms;
    }
  if (v->block > v->blocks)
    v->blocks = v->block;
  if (v->limit_ms > v->active_ms)
    v->remaining_ms = v->limit_ms - v->active_ms;
  else if (block->running && !block->match)
    v->overrun_ms = v->active_ms - v->limit_ms;
}

/* The group that a rest is for: of the drill to come where it changes, else of the one at hand. */
static bool
palm_up (const CarpaceSession *s, const CarpaceRestView *rest)
{
  int32_t drill = rest->between_drills ? rest->next_drill : s->block.drill;

  return drill >= 0
         && carpace_exercise_palm_up (rest->exercise, carpace_muscles_prime (s->plan->drills[drill].movement, s->plan->grip, s->plan->side));
}

static void
look_at_rest (const CarpaceSession *s, int64_t now, CarpaceView *v)
{
  const CarpaceRunning *block = &s->block;
  CarpaceRestView *rest = &v->rest;

  rest->next_drill = -1;
  rest->offered = s->cue_on[CARPACE_CUE_MICRO_REST];
  rest->running = s->state == CARPACE_STATE_RESTING;
  if (!rest->offered && !rest->running)
    return;
  rest->exercise = s->plan->shown[block->card];
  rest->since_ms = carpace_active_at (s, now) - block->rest_from_ms;
  rest->since_rest = block->rest_from_ms > 0;
  rest->side = s->plan->side;
  rest->both_sides = carpace_exercise_side (rest->exercise) == CARPACE_EXERCISE_FOR_BOTH_SIDES;
  rest->between_drills = block->between_drills;
  rest->length_ms = block->rest_ms;
  rest->remaining_ms = block->rest_ms;
  if (block->between_drills)
    rest->next_drill = carpace_plan_drill_at (s->plan, block->number - 1, block->limit_ms, carpace_active_at (s, now));
  rest->palm_up = palm_up (s, rest);
  if (!rest->running)
    return;
  rest->waits = s->hand != CARPACE_HAND_STILL && now - block->moving_from >= s->plan->gap_after_ms;
  rest->length_ms = block->count_ms;
  rest->remaining_ms = carpace_rest_to_go_ms (s, now);
}

static void
look_at_rating (const CarpaceSession *s, int64_t now, CarpaceView *v)
{
  CarpaceRatingView *rating = &v->rating;
  const CarpaceRated *last = s->today.n_ratings > 0 ? &s->today.rating[s->today.n_ratings - 1] : NULL;

  rating->given = -1;
  if (last == NULL)
    return;
  rating->open = s->rating_open;
  rating->asked_by_start = s->start_over_rating;
  rating->hand_moving = s->overrunning && s->hand == CARPACE_HAND_MOVING;
  rating->block = last->block;
  rating->given = last->discomfort;
  rating->site = last->site;
  if (last->discomfort >= 0)
    rating->changeable_for_ms = to_go_ms (CARPACE_DECIDES_ANEW_MS, now - last->rated_at);
}

static void
look_at_next (const CarpaceSession *s, int64_t now, CarpaceView *v)
{
  int64_t rest_ms;

  if (v->match)
    return;
  if (s->state == CARPACE_STATE_PRACTISING || s->state == CARPACE_STATE_GAP || s->state == CARPACE_STATE_RESTING
      || s->state == CARPACE_STATE_PAUSED)
    {
      v->next_known = true;
      v->next_cue = CARPACE_CUE_LIMIT;
      v->next_in_ms = v->remaining_ms;
      rest_ms = s->block.rest_from_ms + s->block.after_ms - v->active_ms;
      if (s->block.declined < CARPACE_DECLINES_A_BLOCK && !carpace_rest_is_due (&s->block) && rest_ms >= 0
          && 3 * (v->remaining_ms - rest_ms) >= s->block.after_ms)
        {
          v->next_cue = CARPACE_CUE_MICRO_REST;
          v->next_in_ms = rest_ms;
        }
    }
  else if (s->wait_open && v->block > 0)
    {
      v->next_known = true;
      v->next_cue = CARPACE_CUE_NEXT_BLOCK;
      v->next_in_ms = to_go_ms (s->wait_until, now);
    }
}

static void
look_at_days (const CarpaceSession *s, CarpaceInstant now, CarpaceView *v)
{
  const CarpaceHistory *h = &s->history;
  int64_t sum_ms = 0, n = 0;

  v->caution_open = h->caution_open;
  v->unanswered_days = carpace_history_unanswered_days (h);
  v->caution_signs = h->caution_signs;
  v->caution_gone_allowed = h->caution_open && s->plan != NULL
                            && carpace_day_of (now, s->plan->starts_at_min) - h->caution_since >= CARPACE_CAUTION_DAYS;
  v->other_today_ms = s->today.open && s->today.facts ? s->today.other_ms : -1;
  v->other_ms = v->other_mean_ms = -1;
  for (int32_t i = h->n_days - 2; i >= 0 && i >= h->n_days - 1 - OTHER_DAYS; i--)
    if (h->days[i].other_ms >= 0)
      {
        sum_ms += h->days[i].other_ms;
        n++;
      }
  if (h->n_days > 0)
    v->other_ms = h->days[h->n_days - 1].other_ms;
  if (n > 0)
    v->other_mean_ms = sum_ms / n;
}

/* Where no day is open, the plan's by the dose as it stands: what the next opening
 * decides may be less. */
static void
look_ahead (const CarpaceSession *s, CarpaceInstant now, CarpaceView *v)
{
  const CarpacePlan *plan = s->next_plan != NULL ? s->next_plan : s->plan;

  if (s->plan == NULL)
    return;
  v->day_over = carpace_day_is_over (s, now);
  v->day_behind = carpace_day_is_behind (s, now);
  if (!v->day_over)
    v->n_ahead = carpace_blocks_ahead (s, v->ahead_ms);
  else if (!v->day_behind && !s->history.caution_open && !carpace_plan_is_without (plan, carpace_day_of (now, plan->starts_at_min)))
    v->n_ahead = carpace_dose_limits (plan, s->history.dose_ms > 0 ? s->history.dose_ms : plan->dose_ms, v->ahead_ms);
}

static void
look_at_today (const CarpaceSession *s, int64_t now, CarpaceView *v)
{
  const CarpaceToday *today = &s->today;

  v->day = today->day;
  v->day_open = today->open;
  v->no_practice = today->no_practice;
  v->without = today->has_decision && today->decision.without;
  v->dose_ms = today->dose_ms;
  v->has_decision = today->has_decision;
  v->decision = today->decision;
  v->morning_asked = today->open && today->morning_given;
  if (!today->open)
    return;
  v->done_ms = carpace_day_done_ms (s, now);
  v->dose_remaining_ms = to_go_ms (v->dose_ms, v->done_ms);
}

static void
look_at_intermission (const CarpaceSession *s, int64_t now, CarpaceView *v)
{
  int64_t ends;

  if (!s->on_air || s->plan == NULL || s->intermission_at == CARPACE_NEVER)
    return;
  ends = carpace_sum_ms (s->intermission_at, s->plan->on_air_length_ms);
  v->intermission = now < ends;
  v->intermission_in_ms = to_go_ms (s->intermission_at, now);
  v->intermission_to_go_ms = to_go_ms (ends, now);
}

CarpaceEntry
carpace_view_cue (const CarpaceView *view, CarpaceCue cue, CarpaceInstant at)
{
  CarpaceEntry entry;

  carpace_entry_init (&entry, CARPACE_ENTRY_CUE, at);
  entry.cue.cue = cue;
  entry.cue.what = view->cue_asked[cue] ? CARPACE_CUE_ASKED : CARPACE_CUE_SHOWN;
  if (cue == CARPACE_CUE_MICRO_REST)
    {
      entry.cue.exercise = view->rest.exercise;
      entry.cue.between_drills = view->rest.between_drills;
    }
  return entry;
}

void
carpace_view (const CarpaceSession *session, CarpaceInstant now, CarpaceView *ret_view)
{
  int64_t at = carpace_later (now.elapsed_ms, session->last.elapsed_ms);

  memset (ret_view, 0, sizeof *ret_view);
  ret_view->state = session->state;
  ret_view->plan = session->plan;
  ret_view->on_air = session->on_air;
  ret_view->input_ms = session->hand == CARPACE_HAND_STILL ? -1 : at - session->moving_since;
  ret_view->start_asks = session->start_asked || session->start_over_rating;
  memcpy (ret_view->cue_on, session->cue_on, sizeof ret_view->cue_on);
  memcpy (ret_view->cue_asked, session->cue_asked, sizeof ret_view->cue_asked);
  look_at_intermission (session, at, ret_view);
  look_at_today (session, at, ret_view);
  look_at_block (session, at, ret_view);
  look_at_rest (session, at, ret_view);
  look_at_rating (session, at, ret_view);
  look_at_next (session, at, ret_view);
  look_at_days (session, now, ret_view);
  look_ahead (session, now, ret_view);
}
