/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-rating.c: comfort ratings, and how they tighten the rest of the day.
 * Sources of the rows: 0-5 as the acceptable zone (the pain-monitoring model,
 * Thomee 1997, Silbernagel 2007); 2 points as the least change that matters
 * (Farrar 2001); 60-70 % common practice; 85 % and the bounds are this
 * project's own. */
#include "carpace/diary.h"
#include "session-private.h"

#include <string.h>

#define REST_LONGER (15 * CARPACE_WHOLE / 10)
#define LEAST_AFTER_MS (3 * CARPACE_MINUTE_MS)
#define LONGEST_REST_MS (2 * CARPACE_MINUTE_MS)
#define NEAR_STOP 4
#define TIGHTENINGS_A_DAY 3

static int32_t
higher (int32_t a, int32_t b)
{
  return a > b ? a : b;
}

static int64_t
lesser (int64_t a, int64_t b)
{
  return a < b ? a : b;
}

/* What the day's first rating is compared with. */
int32_t
carpace_day_reference (const CarpaceSession *s)
{
  const CarpaceMorning *morning = &s->today.morning;
  int32_t base = s->plan->usual_discomfort;

  if (s->today.morning_given && morning->now >= 0)
    base = morning->now;
  else if (s->today.morning_given && morning->waking >= 0)
    base = morning->waking;
  return higher (base, s->plan->usual_discomfort);
}

/* The lowest of the day's reference and the ratings before rating @i. */
static int32_t
reference_for (const CarpaceSession *s, int32_t i)
{
  int32_t lowest = s->today.rating[i].base;

  for (int32_t k = 0; k < i; k++)
    if (s->today.rating[k].discomfort >= 0 && s->today.rating[k].discomfort < lowest)
      lowest = s->today.rating[k].discomfort;
  return higher (lowest, s->plan->usual_discomfort);
}

/* The last answered rating before rating @i, or -1. */
static int32_t
earlier_than (const CarpaceSession *s, int32_t i)
{
  while (--i >= 0)
    if (s->today.rating[i].discomfort >= 0)
      return s->today.rating[i].discomfort;
  return -1;
}

static bool
unanswered_twice (const CarpaceSession *s, int32_t i)
{
  return i > 0 && s->today.rating[i - 1].discomfort < 0;
}

/* The row that rating @i comes to; CARPACE_RULE_KEEP where none. */
static CarpaceRule
row_for (const CarpaceSession *s, int32_t i)
{
  int32_t rating = s->today.rating[i].discomfort;
  int32_t reference = reference_for (s, i);
  int32_t before = earlier_than (s, i);

  if (rating < 0)
    return unanswered_twice (s, i) ? CARPACE_RULE_UNANSWERED_TWICE : CARPACE_RULE_KEEP;
  if (rating > s->plan->stop_above)
    return CARPACE_RULE_ABOVE_STOP;
  if (before < 0)
    before = reference;
  if (rating <= before || rating <= reference)
    return CARPACE_RULE_KEEP;
  if (rating - reference >= 2)
    return CARPACE_RULE_UP_2;
  if (rating >= NEAR_STOP && rating - s->plan->usual_discomfort >= 2)
    return CARPACE_RULE_UP_TO_4_OR_5;
  return CARPACE_RULE_UP_1;
}

static bool
by_two_points (CarpaceRule row)
{
  return row == CARPACE_RULE_UP_2 || row == CARPACE_RULE_UP_TO_4_OR_5;
}

int32_t
carpace_tightenings (const CarpaceSession *s)
{
  int32_t n = 0;

  for (int32_t i = 0; i < s->today.n_ratings; i++)
    n += s->today.rating[i].tightens;
  return n;
}

bool
carpace_rated_above_stop (const CarpaceSession *s)
{
  for (int32_t i = 0; i < s->today.n_ratings; i++)
    if (s->today.rating[i].discomfort > s->plan->stop_above)
      return true;
  return false;
}

/* @own_limit_ms with all of the day's tightenings, in turn. */
CarpaceLimits
carpace_limits_tightened (const CarpaceSession *s, int64_t own_limit_ms)
{
  const CarpacePlan *plan = s->plan;
  CarpaceLimits limits = { own_limit_ms, plan->after_ms, plan->rest_ms };
  int64_t least_after = plan->after_ms / 2 > LEAST_AFTER_MS ? plan->after_ms / 2 : LEAST_AFTER_MS;
  int64_t longest_rest = lesser (3 * plan->rest_ms, LONGEST_REST_MS);

  for (int32_t i = 0; i < s->today.n_ratings; i++)
    {
      const CarpaceRated *rated = &s->today.rating[i];
      int32_t share = by_two_points (rated->row) ? plan->up_2_shorten_to : plan->up_1_shorten_to;
      if (!rated->tightens)
        continue;
      limits.limit_ms = carpace_share_down_ms (limits.limit_ms, share, plan->round_down_to_ms);
      limits.after_ms = carpace_share_down_ms (limits.after_ms, share, CARPACE_SECOND_MS);
      if (by_two_points (rated->row))
        limits.rest_ms = carpace_share_up_ms (limits.rest_ms, REST_LONGER, CARPACE_SECOND_MS);
    }
  if (limits.after_ms < least_after)
    limits.after_ms = least_after;
  limits.after_ms = lesser (limits.after_ms, plan->after_ms);
  limits.after_ms = lesser (limits.after_ms, limits.limit_ms / 3 * 2 + limits.limit_ms % 3 * 2 / 3);
  limits.rest_ms = lesser (limits.rest_ms, longest_rest);
  if (limits.rest_ms < plan->rest_ms)
    limits.rest_ms = plan->rest_ms;
  return limits;
}

static CarpaceLimits
capped_by_dose (const CarpaceSession *s, CarpaceLimits limits)
{
  limits.limit_ms = lesser (limits.limit_ms, carpace_day_to_do_ms (s));
  limits.after_ms = lesser (limits.after_ms, limits.limit_ms / 3 * 2 + limits.limit_ms % 3 * 2 / 3);
  return limits;
}

/* The next block of the day as it stands now, or the last one's limits,
 * uncapped, where none is left. */
static CarpaceLimits
next_or_last (const CarpaceSession *s, bool *ret_left)
{
  int32_t i = s->today.n_blocks;

  *ret_left = i < s->today.n_limits;
  if (s->today.n_limits == 0)
    return (CarpaceLimits){ 0, 0, 0 };
  if (!*ret_left)
    return carpace_limits_tightened (s, s->today.limit_ms[s->today.n_limits - 1]);
  return capped_by_dose (s, carpace_limits_tightened (s, s->today.limit_ms[i]));
}

static int64_t
shortest_for (const CarpaceSession *s)
{
  int32_t i = s->today.n_blocks < s->plan->n_blocks ? s->today.n_blocks : s->plan->n_blocks - 1;

  return lesser (s->plan->shortest_ms, s->plan->blocks[i].limit_ms);
}

bool
carpace_next_block (const CarpaceSession *s, CarpaceLimits *ret_limits)
{
  CarpaceRefusal why;
  bool left;
  CarpaceLimits limits = next_or_last (s, &left);

  if (!left || !s->today.open || carpace_may_not_practise (s, &why)
      || carpace_tightenings (s) >= TIGHTENINGS_A_DAY || limits.limit_ms <= 0
      || limits.limit_ms < shortest_for (s))
    return false;
  *ret_limits = limits;
  return true;
}

/* What the day's limits came to as its ratings left them: each block's limit
 * with the tightenings decided before it. */
int64_t
carpace_day_limits_at_end_ms (const CarpaceSession *s)
{
  int64_t sum_ms = 0;

  for (int32_t i = 0; i < s->today.n_blocks && i < s->today.n_limits; i++)
    sum_ms = carpace_sum_ms (sum_ms, s->today.had_limit_ms[i]);
  for (int32_t i = s->today.n_blocks; i < s->today.n_limits && carpace_tightenings (s) < TIGHTENINGS_A_DAY; i++)
    sum_ms = carpace_sum_ms (sum_ms, carpace_limits_tightened (s, s->today.limit_ms[i]).limit_ms);
  return lesser (sum_ms, s->today.dose_ms);
}

static void
tell_rating (CarpaceStep *step, int32_t i, int32_t corrects)
{
  const CarpaceRated *rated = &step->s->today.rating[i];
  CarpaceEntry *entry = carpace_tell (step, CARPACE_ENTRY_RATING);

  entry->rating.block = rated->block;
  entry->rating.discomfort = rated->discomfort;
  entry->rating.site = rated->site;
  entry->rating.late = rated->late;
  entry->rating.corrects = corrects;
}

static CarpaceDecision *
tell_decision (CarpaceStep *step, int32_t i, CarpaceRule rule, int64_t before_ms, int64_t after_ms)
{
  CarpaceSession *s = step->s;
  CarpaceDecision *decision = &carpace_tell (step, CARPACE_ENTRY_DECISION)->decision;

  decision->rule = rule;
  decision->scope = CARPACE_SCOPE_BLOCK;
  decision->before_ms = before_ms;
  decision->after_ms = after_ms;
  decision->block = s->today.rating[i].block;
  decision->discomfort = s->today.rating[i].discomfort;
  decision->reference = reference_for (s, i);
  decision->earlier = earlier_than (s, i);
  decision->usual = s->plan->usual_discomfort;
  decision->stop_above = s->plan->stop_above;
  decision->mean_pct = decision->mean_before_pct = -1;
  decision->shorten_to = by_two_points (s->today.rating[i].row) ? s->plan->up_2_shorten_to
                         : s->today.rating[i].tightens          ? s->plan->up_1_shorten_to
                                                                : 0;
  s->today.decision = *decision;
  s->today.has_decision = true;
  return decision;
}

static bool
is_tightening (CarpaceRule row)
{
  return by_two_points (row) || row == CARPACE_RULE_UP_1 || row == CARPACE_RULE_UNANSWERED_TWICE;
}

/* Whether rating @i, as it was decided, or a third tightening ended the day. */
static bool
stands_still (const CarpaceSession *s, int32_t i)
{
  return s->today.rating[i].row == CARPACE_RULE_ABOVE_STOP || carpace_tightenings (s) >= TIGHTENINGS_A_DAY;
}

/* Decides rating @i anew and tells what comes of it. */
static void
decide (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;
  CarpaceRated *rated = &s->today.rating[i];
  CarpaceRule row_before = rated->row;
  bool left;
  int64_t before_ms = stands_still (s, i) ? 0 : next_or_last (s, &left).limit_ms;
  int64_t after_ms;

  rated->base = carpace_day_reference (s);
  rated->row = row_for (s, i);
  rated->tightens = is_tightening (rated->row);
  if (rated->row == row_before)
    return;
  after_ms = next_or_last (s, &left).limit_ms;
  if (rated->row == CARPACE_RULE_ABOVE_STOP)
    tell_decision (step, i, rated->row, before_ms, 0);
  else if (rated->tightens && carpace_tightenings (s) >= TIGHTENINGS_A_DAY)
    tell_decision (step, i, CARPACE_RULE_TIGHTENED_THRICE, before_ms, 0);
  else
    tell_decision (step, i, rated->row, before_ms, after_ms);
  if (rated->tightens && left && carpace_tightenings (s) < TIGHTENINGS_A_DAY && after_ms < shortest_for (s))
    tell_decision (step, i, CARPACE_RULE_TOO_SHORT, after_ms, 0);
}

/* A running block that a correction was about takes the limits anew; what it
 * has had it keeps. */
static void
limits_of_running_anew (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits;
  int64_t active_ms = carpace_active_at (s, step->now.elapsed_ms);
  bool left;

  if (!s->block.running || s->block.match || s->block.beyond || s->block.by_limit)
    return;
  limits = next_or_last (s, &left);
  s->block.limit_ms = limits.limit_ms > active_ms ? limits.limit_ms : active_ms;
  s->block.after_ms = limits.after_ms;
  s->block.rest_ms = limits.rest_ms;
}

/* A number above stop-above ends what is running, and the day. */
static void
stop_if_above (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;

  if (s->today.rating[i].discomfort <= s->plan->stop_above)
    return;
  if (s->block.running)
    carpace_block_end (step, step->now.elapsed_ms, false);
  carpace_caution_show (step);
}

static void
give (CarpaceStep *step, int32_t i, int32_t corrects)
{
  CarpaceRated *rated = &step->s->today.rating[i];

  rated->discomfort = step->event->discomfort;
  if (step->event->site != CARPACE_SITE_NONE || corrects < 0)
    rated->site = step->event->site;
  rated->rated_at = step->now.elapsed_ms;
  tell_rating (step, i, corrects);
}

static void
answer_open (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;
  CarpaceRated *rated = &s->today.rating[i];

  s->rating_open = false;
  carpace_cue_withdraw (step, CARPACE_CUE_RATING);
  rated->late = step->now.elapsed_ms - rated->asked_at > CARPACE_RATING_OPEN_MS;
  give (step, i, -1);
  if (!rated->late || rated->discomfort > s->plan->stop_above)
    decide (step, i);
  stop_if_above (step, i);
  carpace_after_rating (step);
}

/* After a change to a rating of a block that ended before: the day may be done
 * by it, or not be done after all. */
static void
settle (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits;
  bool next;

  stop_if_above (step, i);
  if (s->today.rating[i].discomfort <= s->plan->stop_above && !s->history.caution_open)
    carpace_cue_withdraw (step, CARPACE_CUE_CAUTION);
  if (s->state == CARPACE_STATE_RATING_DUE || s->block.running)
    return;
  next = carpace_next_block (s, &limits);
  if (!next && s->state == CARPACE_STATE_WAITING)
    carpace_day_done (step);
  else if (next && s->state == CARPACE_STATE_DAY_DONE)
    {
      s->today.done = false;
      carpace_cue_withdraw (step, CARPACE_CUE_DAY_DONE);
      s->state = CARPACE_STATE_WAITING;
    }
}

static void
answer_late (CarpaceStep *step, int32_t i)
{
  step->s->today.rating[i].late = true;
  give (step, i, -1);
  decide (step, i);
  settle (step, i);
}

static void
correct (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;
  CarpaceRated *rated = &s->today.rating[i];
  int64_t since = step->now.elapsed_ms - rated->rated_at;
  int64_t first_given = rated->rated_at;
  int32_t old = rated->discomfort;

  if (since > CARPACE_CORRECTION_MS)
    {
      carpace_refuse (step, CARPACE_REFUSAL_RATED_TOO_LONG_AGO);
      return;
    }
  give (step, i, old);
  rated->rated_at = first_given;
  if (!carpace_correction_counts (since, old, rated->discomfort))
    {
      rated->discomfort = old; /* recorded beside the old, changes nothing today */
      return;
    }
  decide (step, i);
  limits_of_running_anew (step);
  settle (step, i);
}

void
carpace_rate (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int32_t i = s->today.n_ratings - 1;

  if (step->event->discomfort < 0 || step->event->discomfort > 10 || (int32_t) step->event->site < 0
      || step->event->site >= CARPACE_N_SITES)
    carpace_refuse (step, CARPACE_REFUSAL_OUT_OF_RANGE);
  else if (!s->today.open || i < 0)
    carpace_refuse (step, CARPACE_REFUSAL_NOTHING_TO_RATE);
  else if (s->rating_open)
    answer_open (step, i);
  else if (s->today.rating[i].discomfort < 0)
    answer_late (step, i);
  else
    correct (step, i);
}

/* The rating's time is over, or the player starts without: never comfortable,
 * only unanswered. */
void
carpace_rating_unanswered (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int32_t i = s->today.n_ratings - 1;

  s->rating_open = false;
  carpace_cue_withdraw (step, CARPACE_CUE_RATING);
  tell_rating (step, i, -1);
  decide (step, i);
  carpace_after_rating (step);
}
