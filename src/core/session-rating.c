/* SPDX-License-Identifier: GPL-3.0-or-later */
/* session-rating.c: comfort ratings, and how they tighten the rest of the day.
 * Sources of the rows: 0-5 as the acceptable zone (the pain-monitoring model,
 * Thomee 1997, Silbernagel 2007); 2 points as the least change that matters
 * (Farrar 2001); 60-70 % common practice; 85 % and the bounds are this
 * project's own. */
#include "carpace/diary.h"
#include "day-record.h"
#include "session-private.h"
#include "lesser.h"

#include <string.h>

#define REST_LONGER (15 * CARPACE_WHOLE / 10)
#define LEAST_AFTER_MS (3 * CARPACE_MINUTE_MS)
#define LONGEST_REST_MS (2 * CARPACE_MINUTE_MS)
#define TIGHTENINGS_A_DAY 3

static int32_t
higher (int32_t a, int32_t b)
{
  return a > b ? a : b;
}

/* What the day's first rating is compared with. */
int32_t
carpace_day_reference (const CarpaceSession *s)
{
  const CarpaceMorning *morning = &s->today.morning;
  int32_t base = s->plan->usual_discomfort;

  if (s->today.morning_given && morning->now >= 0)
    base = morning->now;
  else if (s->today.morning_given)
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
  if (rating <= before || rating <= reference)
    return CARPACE_RULE_KEEP;
  if (rating - reference >= 2)
    return CARPACE_RULE_UP_2;
  if (carpace_near_stop (rating, s->plan->usual_discomfort))
    return CARPACE_RULE_UP_TO_4_OR_5;
  return CARPACE_RULE_UP_1;
}

bool
carpace_by_two_points (CarpaceRule row)
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

/* At most two thirds of the block. */
int64_t
carpace_after_within (int64_t after_ms, int64_t limit_ms)
{
  return lesser (after_ms, limit_ms / 3 * 2 + limit_ms % 3 * 2 / 3);
}

/* @own_limit_ms with all of the day's tightenings, in turn; no less than @least_ms. */
static CarpaceLimits
tightened (const CarpaceSession *s, int64_t own_limit_ms, int64_t least_ms)
{
  const CarpacePlan *plan = s->plan;
  CarpaceLimits limits = { own_limit_ms, plan->after_ms, plan->rest_ms };
  int64_t least_after = greater (plan->after_ms / 2, LEAST_AFTER_MS);
  int64_t longest_rest = lesser (3 * plan->rest_ms, LONGEST_REST_MS);

  for (int32_t i = 0; i < s->today.n_ratings; i++)
    {
      const CarpaceRated *rated = &s->today.rating[i];
      int32_t share = carpace_by_two_points (rated->row) ? plan->up_2_shorten_to : plan->up_1_shorten_to;
      if (!rated->tightens)
        continue;
      limits.limit_ms = carpace_share_down_ms (limits.limit_ms, share, plan->round_down_to_ms);
      limits.after_ms = carpace_share_down_ms (limits.after_ms, share, CARPACE_SECOND_MS);
      if (carpace_by_two_points (rated->row))
        limits.rest_ms = carpace_share_up_ms (limits.rest_ms, REST_LONGER, CARPACE_SECOND_MS);
    }
  limits.limit_ms = greater (limits.limit_ms, least_ms);
  limits.after_ms = greater (limits.after_ms, least_after);
  limits.after_ms = carpace_after_within (lesser (limits.after_ms, plan->after_ms), limits.limit_ms);
  limits.rest_ms = greater (lesser (limits.rest_ms, longest_rest), plan->rest_ms);
  return limits;
}

CarpaceLimits
carpace_limits_tightened (const CarpaceSession *s, int64_t own_limit_ms)
{
  return tightened (s, own_limit_ms, 0);
}

static CarpaceLimits
capped_by_dose (const CarpaceSession *s, CarpaceLimits limits)
{
  limits.limit_ms = lesser (limits.limit_ms, carpace_day_to_do_ms (s));
  limits.after_ms = carpace_after_within (limits.after_ms, limits.limit_ms);
  return limits;
}

/* Of block @i of the day, what is the least that is a block. */
static int64_t
shortest_for (const CarpaceSession *s, int32_t i)
{
  int32_t own = i < s->plan->n_blocks ? i : s->plan->n_blocks - 1;

  return lesser (lesser (s->plan->shortest_ms, s->plan->blocks[own].limit_ms), s->today.limit_ms[i]);
}

/* Whether the day has a block left, of whatever length. */
static bool
block_left (const CarpaceSession *s)
{
  return s->today.n_blocks < s->today.n_limits && carpace_day_to_do_ms (s) > 0;
}

/* The next block of the day as it stands now, or the last one's limits,
 * uncapped, where none is left: a block beyond the plan would have them. */
static CarpaceLimits
next_or_last (const CarpaceSession *s)
{
  static const CarpaceLimits none;

  if (s->today.n_limits == 0)
    return none;
  if (!block_left (s))
    return carpace_limits_beyond (s);
  return capped_by_dose (s, carpace_limits_tightened (s, s->today.limit_ms[s->today.n_blocks]));
}

CarpaceLimits
carpace_limits_beyond (const CarpaceSession *s)
{
  int32_t last = s->today.n_limits - 1;

  return tightened (s, s->today.limit_ms[last], shortest_for (s, last));
}

/* Whether what was answered today ends it, whatever is left to do. */
static bool
ended_by_answers (const CarpaceSession *s)
{
  CarpaceRefusal why;

  return carpace_may_not_practise (s, &why) || carpace_tightenings (s) >= TIGHTENINGS_A_DAY;
}

bool
carpace_next_block (const CarpaceSession *s, CarpaceLimits *ret_limits)
{
  CarpaceLimits limits;

  if (!s->today.open || !block_left (s) || ended_by_answers (s))
    return false;
  limits = next_or_last (s);
  if (limits.limit_ms < shortest_for (s, s->today.n_blocks))
    return false;
  *ret_limits = limits;
  return true;
}

/* The blocks that have not begun, one after the other, as carpace_next_block() would
 * have each if the ones before it are done to their limits. A day is open. */
int32_t
carpace_blocks_ahead (const CarpaceSession *s, int64_t ret_limit_ms[CARPACE_DAY_BLOCKS])
{
  bool own = s->block.running && !s->block.match;
  int64_t left_ms = carpace_day_to_do_ms (s) - (own ? s->block.limit_ms : 0);
  int32_t first = s->today.n_blocks + own, n = 0;

  if (s->today.done || ended_by_answers (s))
    return 0;
  for (int32_t i = first; i < s->today.n_limits; i++)
    {
      int64_t limit_ms = lesser (carpace_limits_tightened (s, s->today.limit_ms[i]).limit_ms, left_ms);

      if (limit_ms < shortest_for (s, i))
        break;
      ret_limit_ms[n++] = limit_ms;
      left_ms -= limit_ms;
    }
  return n;
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

static void
tell_decision (CarpaceStep *step, int32_t i, CarpaceRule rule, int64_t before_ms, int64_t after_ms)
{
  CarpaceSession *s = step->s;
  CarpaceDecision *decision = &carpace_tell (step, CARPACE_ENTRY_DECISION)->decision;
  const CarpaceRated none = { .block = s->today.n_blocks, .discomfort = -1 };
  const CarpaceRated *rated = i < 0 ? &none : &s->today.rating[i];

  decision->rule = rule;
  decision->scope = CARPACE_SCOPE_BLOCK;
  decision->before_ms = before_ms;
  decision->after_ms = after_ms;
  decision->block = rated->block;
  decision->discomfort = rated->discomfort;
  decision->reference = i < 0 ? carpace_day_reference (s) : reference_for (s, i);
  decision->earlier = earlier_than (s, i);
  decision->usual = s->plan->usual_discomfort;
  decision->stop_above = s->plan->stop_above;
  decision->mean_pct = decision->mean_before_pct = decision->level_days = decision->mornings_say = -1;
  decision->shorten_to = !rated->tightens              ? 0
                         : carpace_by_two_points (rated->row) ? s->plan->up_2_shorten_to
                                                      : s->plan->up_1_shorten_to;
  s->today.decision = *decision;
}

static bool
is_tightening (CarpaceRule row)
{
  return carpace_by_two_points (row) || row == CARPACE_RULE_UP_1 || row == CARPACE_RULE_UNANSWERED_TWICE;
}

/* The limit that stands: none where the day is over by its answers. */
static int64_t
standing_limit_ms (const CarpaceSession *s)
{
  return ended_by_answers (s) ? 0 : next_or_last (s).limit_ms;
}

/* Decides rating @i anew and tells what comes of it. @before_ms: the limit that
 * stood before it was given. */
static void
decide (CarpaceStep *step, int32_t i, int64_t before_ms)
{
  CarpaceSession *s = step->s;
  CarpaceRated *rated = &s->today.rating[i];
  CarpaceRule row_before = rated->row, told;

  rated->base = carpace_day_reference (s);
  rated->row = row_for (s, i);
  rated->tightens = is_tightening (rated->row);
  if (rated->row == row_before)
    return;
  told = rated->tightens && carpace_tightenings (s) >= TIGHTENINGS_A_DAY ? CARPACE_RULE_TIGHTENED_THRICE : rated->row;
  tell_decision (step, i, told, before_ms, standing_limit_ms (s));
}

/* Where no block can follow, the day is done: after its last block, or with a
 * reason. */
bool
carpace_day_done_if_over (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits;

  if (!s->today.open || s->state != CARPACE_STATE_WAITING || (!s->today.done && carpace_next_block (s, &limits)))
    return false;
  if (!s->today.done && s->today.n_blocks < s->today.n_limits && !ended_by_answers (s))
    tell_decision (step, s->today.n_ratings - 1, CARPACE_RULE_TOO_SHORT,
                   block_left (s) ? next_or_last (s).limit_ms : 0, 0);
  carpace_day_done (step);
  return true;
}

/* A running block that a correction was about takes the limits anew; what it
 * has had it keeps. */
static void
limits_of_running_anew (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits;
  int64_t active_ms = carpace_active_at (s, step->now.elapsed_ms);

  if (!s->block.running || s->block.match || s->block.beyond || s->block.by_limit)
    return;
  limits = next_or_last (s);
  s->block.limit_ms = greater (limits.limit_ms, active_ms);
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
    carpace_block_end (step, step->now.elapsed_ms, step->now.elapsed_ms);
  carpace_caution_show (step);
}

static void
give (CarpaceStep *step, int32_t i, int32_t corrects)
{
  CarpaceRated *rated = &step->s->today.rating[i];

  rated->discomfort = step->event->rate.discomfort;
  if (step->event->rate.site != CARPACE_SITE_NONE)
    rated->site = step->event->rate.site;
  if (corrects < 0)
    rated->rated_at = step->now.elapsed_ms;
  tell_rating (step, i, corrects);
}

static void
answer_open (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;
  CarpaceRated *rated = &s->today.rating[i];
  int64_t before_ms = standing_limit_ms (s);

  s->rating_open = false;
  carpace_cue_withdraw (step, CARPACE_CUE_RATING);
  rated->late = step->now.elapsed_ms - rated->asked_at > CARPACE_RATING_OPEN_MS;
  give (step, i, -1);
  decide (step, i, before_ms);
  stop_if_above (step, i);
  carpace_after_rating (step, s->start_over_rating);
}

/* The end of the day is taken back. */
static void
reopen (CarpaceStep *step)
{
  CarpaceSession *s = step->s;

  s->today.done = false;
  carpace_cue_withdraw (step, CARPACE_CUE_DAY_DONE);
  carpace_session_goto (step, CARPACE_STATE_WAITING);
  if (!s->wait_open || s->wait_until <= step->now.elapsed_ms)
    carpace_wait_over (step);
}

/* After a change to a rating of a block that ended before: the day may be done
 * by it, or not be done after all. */
static void
settle (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;
  CarpaceLimits limits;

  stop_if_above (step, i);
  if (s->state == CARPACE_STATE_DAY_DONE && !s->today.beyond && carpace_next_block (s, &limits))
    reopen (step);
  else
    carpace_day_done_if_over (step);
}

static void
answer_late (CarpaceStep *step, int32_t i)
{
  int64_t before_ms = standing_limit_ms (step->s);

  step->s->today.rating[i].late = true;
  give (step, i, -1);
  decide (step, i, before_ms);
  settle (step, i);
}

static void
correct (CarpaceStep *step, int32_t i)
{
  CarpaceSession *s = step->s;
  CarpaceRated *rated = &s->today.rating[i];
  int64_t since = step->now.elapsed_ms - rated->rated_at;
  int64_t before_ms = standing_limit_ms (s);
  int32_t old = rated->discomfort;

  if (since > CARPACE_CORRECTION_MS)
    {
      carpace_refuse (step, CARPACE_REFUSAL_RATED_TOO_LONG_AGO);
      return;
    }
  give (step, i, old);
  if (!carpace_correction_counts (since, old, rated->discomfort))
    rated->discomfort = old; /* recorded beside the old, changes nothing today */
  if (rated->discomfort == old)
    return; /* perhaps a site was added */
  decide (step, i, before_ms);
  limits_of_running_anew (step);
  settle (step, i);
}

void
carpace_rate (CarpaceStep *step)
{
  CarpaceSession *s = step->s;
  int32_t i = s->today.n_ratings - 1;

  if (step->event->rate.discomfort < 0 || step->event->rate.discomfort > 10 || (int32_t) step->event->rate.site < 0
      || step->event->rate.site >= CARPACE_N_SITES)
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

/* A rating that is left: never comfortable, only unanswered. @starts: by a start
 * over it. */
void
carpace_rating_leave (CarpaceStep *step, bool starts)
{
  CarpaceSession *s = step->s;
  int32_t i = s->today.n_ratings - 1;
  int64_t before_ms = standing_limit_ms (s);

  s->rating_open = false;
  carpace_cue_withdraw (step, CARPACE_CUE_RATING);
  tell_rating (step, i, -1);
  decide (step, i, before_ms);
  carpace_after_rating (step, starts);
}

void
carpace_rating_unanswered (CarpaceStep *step)
{
  carpace_rating_leave (step, false);
}
