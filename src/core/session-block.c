/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-block.c: a block from its start to its end, and the wait after it. */
#include "session-private.h"

#include <string.h>

/* Whether practice is refused today, whoever asks. */
bool
carpace_may_not_practise (const CarpaceSession *s, CarpaceRefusal *ret_why)
{
  const CarpaceMorning *morning = &s->today.morning;
  bool above = carpace_rated_above_stop (s)
               || (s->today.morning_given
                   && (morning->waking > s->plan->stop_above || morning->now > s->plan->stop_above));

  if (s->history.caution_open || s->today.caution)
    *ret_why = CARPACE_REFUSAL_CAUTION_OPEN;
  else if (above)
    *ret_why = CARPACE_REFUSAL_ABOVE_STOP;
  else if (s->today.no_practice)
    *ret_why = s->today.why_not;
  else
    return false;
  return true;
}

/* Of all that may be on the screen a caution's text alone stays until it was read. */
void
carpace_cues_withdraw (CarpaceStep *step)
{
  for (int i = 0; i < CARPACE_N_CUES; i++)
    if (i != CARPACE_CUE_CAUTION)
      carpace_cue_withdraw (step, (CarpaceCue) i);
}

static CarpaceEntry *
tell_block (CarpaceStep *step, CarpaceBlockWhat what)
{
  const CarpaceRunning *block = &step->s->block;
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_BLOCK);

  entry->block.what = what;
  entry->block.number = block->number;
  entry->block.match = block->match;
  entry->block.limit_ms = block->match ? 0 : block->limit_ms;
  entry->block.after_ms = block->match ? 0 : block->after_ms;
  entry->block.rest_ms = block->match ? 0 : block->rest_ms;
  entry->block.beyond = block->beyond;
  return entry;
}

static void
set_limits (CarpaceStep *step, bool beyond)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits = { CARPACE_NEVER, CARPACE_NEVER, s->plan->rest_ms };

  if (beyond)
    limits = carpace_limits_beyond (s);
  else if (!s->block.match)
    carpace_next_block (s, &limits);
  s->block.limit_ms = limits.limit_ms;
  s->block.after_ms = limits.after_ms;
  s->block.rest_ms = limits.rest_ms;
}

void
carpace_block_begin (CarpaceStep *step, bool match, int64_t early_ms, bool beyond)
{
  CarpaceSession *s = step->s;
  int64_t now = step->now.elapsed_ms;

  if (s->overrunning) /* what it took of the dose is known before limits are worked out */
    carpace_overrun_end (step, carpace_last_input (s, now));
  if (s->hand == CARPACE_HAND_MOVING && !s->uncounted)
    s->today.other_ms = carpace_sum_ms (s->today.other_ms, now - s->moving_since);
  memset (&s->block, 0, sizeof s->block);
  s->block.running = true;
  s->block.match = match;
  s->block.beyond = beyond;
  s->block.number = match ? 0 : s->today.n_blocks + 1;
  s->block.reserve_at = now;
  carpace_reserve_begin (&s->block.reserve);
  set_limits (step, beyond);
  s->start_asked = false;
  carpace_unstarted_forget (s);
  carpace_cues_withdraw (step);
  tell_block (step, CARPACE_BLOCK_STARTED)->block.early_ms = early_ms;
  carpace_hand_presume_moving (step);
  carpace_stretch_open (step, now);
  carpace_session_goto (step, CARPACE_STATE_PRACTISING);
}

/* Asked about once: a second start means yes. Nothing else changes. */
static void
ask_start (CarpaceStep *step, CarpaceCue about)
{
  step->s->start_asked = true;
  carpace_cue_ask (step, about);
}

static int64_t
wait_to_go_ms (const CarpaceSession *s, int64_t now)
{
  return s->wait_open && s->wait_until > now ? s->wait_until - now : 0;
}

/* `start` over an open rating shows it; a second one starts without. */
static void
start_over_rating (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (s->start_over_rating)
    {
      carpace_rating_leave (step, true);
      return;
    }
  s->start_over_rating = true;
  carpace_cue_show (step, CARPACE_CUE_RATING);
}

static void
start_match (CarpaceStep *step)
{
  CarpaceRefusal why;

  if (step->s->rating_open)
    carpace_rating_leave (step, false);
  if (!carpace_may_not_practise (step->s, &why))
    carpace_block_begin (step, true, 0, false);
}

/* What begins by itself never asks, is never early or beyond the plan, and comes over nothing
 * that waits for an answer; on no date that is behind, which its caller looks at. @return whether it began */
bool
carpace_block_begin_by_itself (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_day_open_if_new (step, NULL);
  if (!carpace_could_begin (s) || s->history.caution_shown || s->today.n_ratings >= CARPACE_DAY_RATINGS)
    return false;
  carpace_block_begin (step, false, 0, false);
  carpace_cue_show (step, CARPACE_CUE_BEGUN);
  return true;
}

static void
start_next (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits;
  int64_t early_ms = wait_to_go_ms (s, step->now.elapsed_ms);
  bool beyond = s->today.done || !carpace_next_block (s, &limits);

  if (!s->start_asked && (beyond || early_ms > 0))
    ask_start (step, beyond ? CARPACE_CUE_DAY_DONE : CARPACE_CUE_NEXT_BLOCK);
  else
    carpace_block_begin (step, false, beyond ? 0 : early_ms, beyond);
}

void
carpace_block_start (CarpaceStep *step, bool match)
{
  CarpaceSession *s = step->s;
  CarpaceRefusal why;

  if (carpace_day_is_behind (s, step->now))
    {
      carpace_refuse (step, CARPACE_REFUSAL_DAY_BEHIND);
      return;
    }
  carpace_day_open_if_new (step, NULL);
  if (carpace_may_not_practise (s, &why))
    carpace_refuse (step, why);
  else if (s->today.n_ratings >= CARPACE_DAY_RATINGS)
    carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
  else if (match)
    start_match (step);
  else if (s->rating_open)
    start_over_rating (step);
  else
    start_next (step);
}

/* What a rating, or its absence, leads to. Only an answer or another start
 * begins a block, never time that ran out. */
void
carpace_after_rating (CarpaceStep *step, bool starts)
{
  CarpaceSession *s = step->s;
  int64_t now = step->now.elapsed_ms;

  s->start_over_rating = false;
  carpace_session_goto (step, CARPACE_STATE_WAITING);
  if (carpace_day_done_if_over (step))
    return;
  if (starts)
    carpace_block_begin (step, false, wait_to_go_ms (s, now), false);
  else if (s->wait_open && s->wait_until <= now)
    carpace_wait_over (step);
}

void
carpace_wait_over (CarpaceStep *step)
{
  step->s->wait_open = false;
  step->s->start_asked = false;
  carpace_cue_show (step, CARPACE_CUE_NEXT_BLOCK);
}

static void
drop (CarpaceStep *step)
{
  const CarpaceSession *s = step->s;

  carpace_session_goto (step, s->today.done ? CARPACE_STATE_DAY_DONE : CARPACE_STATE_WAITING);
  carpace_day_done_if_over (step);
}

static void
push_rating (CarpaceStep *step)
{
  CarpaceToday *today = &step->s->today;
  CarpaceRated *rated = &today->rating[today->n_ratings++];

  memset (rated, 0, sizeof *rated);
  rated->block = step->s->block.number;
  rated->discomfort = -1;
  rated->asked_at = step->now.elapsed_ms;
  rated->row = CARPACE_RULE_KEEP;
}

static void
ask_rating (CarpaceStep *step, bool found_late)
{
  CarpaceSession *s = step->s;

  push_rating (step);
  s->rating_open = true;
  s->rating_until = carpace_sum_ms (step->now.elapsed_ms, CARPACE_RATING_OPEN_MS);
  carpace_session_goto (step, CARPACE_STATE_RATING_DUE);
  if (s->on_air)
    s->rating_until = CARPACE_NEVER; /* open until the stream ends */
  if (found_late)
    carpace_rating_leave (step, false);
  else
    carpace_cue_show (step, CARPACE_CUE_RATING);
}

static int64_t
counted_ms (const CarpaceSession *s)
{
  return s->block.match ? carpace_share_down_ms (s->block.closed_ms, s->plan->matches_count, 1) : s->block.closed_ms;
}

static void
count_block (CarpaceSession *s, int64_t ended_at)
{
  CarpaceToday *today = &s->today;

  if (s->block.match)
    today->match_ms = carpace_sum_ms (today->match_ms, s->block.closed_ms);
  today->done_ms = carpace_sum_ms (today->done_ms, counted_ms (s));
  if (s->block.closed_ms > 0)
    {
      today->practised_or_match = true;
      today->beyond |= s->block.beyond;
      today->last_end = ended_at;
    }
}

/* @due_at: when the end fell due; a suspend may find it late. */
void
carpace_block_end (CarpaceStep *step, int64_t ended_at, int64_t due_at)
{
  CarpaceSession *s = step->s;
  CarpaceRunning *block = &s->block;
  CarpaceEntry *entry;
  bool is_none;

  carpace_rest_leave (step);
  carpace_stretch_close (step, carpace_last_input (s, step->now.elapsed_ms));
  carpace_cue_withdraw (step, CARPACE_CUE_MICRO_REST);
  carpace_cue_withdraw (step, CARPACE_CUE_LIMIT);
  block->reach = false;
  block->running = false;
  is_none = !block->by_limit && block->closed_ms < CARPACE_NO_BLOCK_MS && block->runs == 0;
  entry = tell_block (step, is_none ? CARPACE_BLOCK_DROPPED : CARPACE_BLOCK_ENDED);
  entry->block.active_ms = block->closed_ms;
  entry->block.overrun_ms = block->match || block->closed_ms < block->limit_ms ? 0 : block->closed_ms - block->limit_ms;
  entry->block.runs = block->runs;
  entry->block.counted_ms = block->match ? counted_ms (s) : 0;
  entry->block.ended_before_ms = step->now.elapsed_ms - ended_at;
  count_block (s, ended_at);
  s->moving_since = carpace_last_input (s, step->now.elapsed_ms);
  if (is_none)
    {
      carpace_clicks_no_more (s);
      drop (step);
      return;
    }
  if (!block->match)
    {
      if (s->today.n_blocks < CARPACE_DAY_BLOCKS)
        s->today.had_limit_ms[s->today.n_blocks] = block->limit_ms;
      s->today.n_blocks++;
    }
  s->wait_open = true;
  s->wait_until = carpace_sum_ms (ended_at, s->plan->between_blocks_ms);
  ask_rating (step, step->now.elapsed_ms - due_at > CARPACE_FOUND_LATE_MS);
}

void
carpace_block_limit (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_rest_drop (step);
  s->block.by_limit = true;
  s->block.limit_at = step->now.elapsed_ms;
  carpace_session_goto (step, CARPACE_STATE_LIMIT_REACHED);
  carpace_cue_show (step, CARPACE_CUE_LIMIT);
}

/* The run goes on past the block's end: counted until its first gap. */
void
carpace_block_finish_run (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int64_t from = carpace_last_input (s, step->now.elapsed_ms);
  int32_t number = s->block.number;

  carpace_block_end (step, step->now.elapsed_ms, carpace_sum_ms (s->block.limit_at, s->plan->finish_run_ms));
  s->overrunning = true;
  s->overrun_from = from;
  s->overrun_block = number;
}

void
carpace_overrun_end (CarpaceStep *step, int64_t at)
{
  CarpaceSession *s = step->s;
  int64_t ms = at - s->overrun_from;
  CarpaceEntry *entry;

  s->overrunning = false;
  if (s->hand == CARPACE_HAND_MOVING)
    s->moving_since = step->now.elapsed_ms;
  if (ms <= 0)
    return;
  if (ms > CARPACE_OVERRUN_MS) /* found late */
    ms = CARPACE_OVERRUN_MS;
  s->today.done_ms = carpace_sum_ms (s->today.done_ms, ms);
  s->today.last_end = at;
  entry = carpace_tell (step, CARPACE_ENTRY_OVERRUN);
  entry->overrun.block = s->overrun_block;
  entry->overrun.ms = ms;
  entry->overrun.ended_before_ms = step->now.elapsed_ms - at;
  carpace_day_done_if_over (step);
}

void
carpace_block_long_gap (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_block_end (step, s->block.gap_began, carpace_sum_ms (s->block.gap_began, CARPACE_LONG_GAP_MS));
}
