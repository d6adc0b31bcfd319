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

static void
withdraw_all (CarpaceStep *step)
{
  for (int i = 0; i < CARPACE_N_CUES; i++)
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
    limits = carpace_limits_tightened (s, s->today.limit_ms[s->today.n_limits - 1]);
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

  if (s->hand == CARPACE_HAND_MOVING)
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
  s->start_over_rating = false;
  withdraw_all (step);
  tell_block (step, CARPACE_BLOCK_STARTED)->block.early_ms = early_ms;
  carpace_hand_presume_moving (step);
  carpace_stretch_open (step, now);
  s->state = CARPACE_STATE_PRACTISING;
}

/* A stretch that outlived its block ends where the next one begins: what it
 * took of the dose is known before limits are worked out. */
static void
end_overrun_before_start (CarpaceStep *step)
{
  if (step->s->overrunning)
    carpace_overrun_end (step, carpace_last_input (step->s, step->now.elapsed_ms));
}

static void
ask_start (CarpaceStep *step)
{
  step->s->start_asked = true;
  step->cue_asked = true;
  carpace_cue_show (step, CARPACE_CUE_NEXT_BLOCK);
}

/* `start` over an open rating shows it; a second one starts without. */
static bool
rating_comes_first (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  if (!s->rating_open)
    return false;
  if (!s->start_over_rating)
    {
      s->start_over_rating = true;
      carpace_cue_show (step, CARPACE_CUE_RATING);
      return true;
    }
  carpace_rating_unanswered (step); /* and starts, from carpace_after_rating() */
  return true;
}

void
carpace_block_start (CarpaceStep *step, bool match)
{
  CarpaceSession *s = step->s;
  CarpaceRefusal why;
  CarpaceLimits limits;
  int64_t now = step->now.elapsed_ms;

  end_overrun_before_start (step);
  carpace_day_open_if_new (step, NULL);
  if (carpace_may_not_practise (s, &why))
    {
      carpace_refuse (step, why);
      return;
    }
  if (s->today.n_ratings >= CARPACE_DAY_RATINGS)
    {
      carpace_refuse (step, CARPACE_REFUSAL_NOT_NOW);
      return;
    }
  if (match)
    {
      s->start_over_rating = false;
      if (s->rating_open)
        carpace_rating_unanswered (step);
      if (!carpace_may_not_practise (s, &why))
        carpace_block_begin (step, true, 0, false);
      return;
    }
  if (rating_comes_first (step))
    return;
  if (!carpace_next_block (s, &limits) || s->today.done)
    {
      if (!s->start_asked)
        ask_start (step);
      else
        carpace_block_begin (step, false, 0, true);
      return;
    }
  if (s->wait_open && s->wait_until > now && !s->start_asked)
    ask_start (step);
  else
    carpace_block_begin (step, false, s->wait_open && s->wait_until > now ? s->wait_until - now : 0, false);
}

/* What a rating, or its absence, leads to. */
void
carpace_after_rating (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits;
  bool start = s->start_over_rating;
  int64_t now = step->now.elapsed_ms;

  s->start_over_rating = false;
  if (start)
    end_overrun_before_start (step);
  if (!carpace_next_block (s, &limits))
    {
      carpace_day_done (step);
      return;
    }
  s->state = CARPACE_STATE_WAITING;
  if (start)
    carpace_block_begin (step, false, s->wait_open && s->wait_until > now ? s->wait_until - now : 0, false);
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
  CarpaceSession *s = step->s;

  s->state = s->today.done ? CARPACE_STATE_DAY_DONE : CARPACE_STATE_WAITING;
  s->rating_open = false;
}

static void
push_rating (CarpaceStep *step)
{
  CarpaceToday *today = &step->s->today;
  CarpaceRated *rated = &today->rating[today->n_ratings++];

  memset (rated, 0, sizeof *rated);
  rated->block = step->s->block.number;
  rated->discomfort = -1;
  rated->rated_at = CARPACE_NEVER;
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
  s->state = CARPACE_STATE_RATING_DUE;
  if (s->on_air)
    s->rating_until = CARPACE_NEVER; /* open until the stream ends */
  if (found_late)
    carpace_rating_unanswered (step);
  else
    carpace_cue_show (step, CARPACE_CUE_RATING);
}

static void
count_block (CarpaceSession *s, int64_t ended_at)
{
  CarpaceToday *today = &s->today;
  int64_t active_ms = s->block.closed_ms;

  if (s->block.match)
    {
      today->match_ms = carpace_sum_ms (today->match_ms, active_ms);
      active_ms = carpace_share_down_ms (active_ms, s->plan->matches_count, 1);
    }
  today->done_ms = carpace_sum_ms (today->done_ms, active_ms);
  if (s->block.closed_ms > 0)
    {
      today->practised_or_match = true;
    today->beyond |= s->block.beyond;
      today->last_end = ended_at;
    }
}

void
carpace_block_end (CarpaceStep *step, int64_t ended_at, bool found_late)
{
  CarpaceSession *s = step->s;
  CarpaceRunning *block = &s->block;
  CarpaceEntry *entry;
  bool is_none;

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
  count_block (s, ended_at);
  if (s->hand == CARPACE_HAND_MOVING)
    s->moving_since = step->now.elapsed_ms;
  if (is_none)
    {
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
  ask_rating (step, found_late);
}

void
carpace_block_limit (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  carpace_rest_drop (step);
  s->block.by_limit = true;
  s->block.limit_at = step->now.elapsed_ms;
  s->state = CARPACE_STATE_LIMIT_REACHED;
  carpace_cue_show (step, CARPACE_CUE_LIMIT);
}

/* The run goes on past the block's end: counted until its first gap. */
void
carpace_block_finish_run (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int64_t from = carpace_last_input (s, step->now.elapsed_ms);
  int32_t number = s->block.number;

  carpace_block_end (step, step->now.elapsed_ms, false);
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
  CarpaceLimits limits;

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
  if (s->state == CARPACE_STATE_WAITING && !carpace_next_block (s, &limits))
    carpace_day_done (step);
}

void
carpace_block_long_gap (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int64_t told_at = carpace_sum_ms (s->block.gap_began, CARPACE_LONG_GAP_MS);

  carpace_block_end (step, s->block.gap_began, step->now.elapsed_ms - told_at > CARPACE_FOUND_LATE_MS);
}
