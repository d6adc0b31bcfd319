/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-builder-finish.c: what belongs together, and every default. */
#include <math.h>
#include <string.h>

#include "carpace/plan-builder.h"
#include "carpace/reserve.h"
#include "carpace/split.h"
#include "carpace/strain.h"
#include "plan-builder-flaws.h"

#define AFTER_DEFAULT_MS (10 * CARPACE_MINUTE_MS)

static void
tell (CarpacePlanBuilder *builder, CarpaceFlawKind kind, CarpacePlace place)
{
  carpace_plan_builder_flaw (builder, CARPACE_FLAW (kind, place));
}

static void
tell_of_key (CarpacePlanBuilder *builder, CarpaceFlawKind kind, CarpacePlace place, CarpacePlanKey key, double low,
             double high)
{
  CarpaceFlaw flaw = CARPACE_FLAW (kind, place);

  flaw.key = key;
  flaw.low = low;
  flaw.high = high;
  carpace_plan_builder_flaw (builder, flaw);
}

static void
tell_of_drill (CarpacePlanBuilder *builder, CarpaceFlawKind kind, CarpacePlace place, int32_t drill, double low,
               double high)
{
  CarpaceFlaw flaw = CARPACE_FLAW (kind, place);

  flaw.drill = drill;
  flaw.low = low;
  flaw.high = high;
  carpace_plan_builder_flaw (builder, flaw);
}

static void
tell_of_block (CarpacePlanBuilder *builder, CarpaceFlawKind kind, int32_t block, double low, double high)
{
  CarpaceFlaw flaw = CARPACE_FLAW (kind, builder->block_place[block]);

  flaw.block = block;
  flaw.low = low;
  flaw.high = high;
  carpace_plan_builder_flaw (builder, flaw);
}

/* Given, but not to be concluded from. */
static bool
unsound (const CarpacePlanBuilder *builder, CarpacePlanKey key)
{
  return builder->given[key] && !builder->sound[key];
}

static void
check_required (CarpacePlanBuilder *builder)
{
  if (!builder->given[CARPACE_KEY_NAME])
    tell_of_key (builder, CARPACE_FLAW_MISSING, 0, CARPACE_KEY_NAME, 0, 0);
  if (builder->n_drills_asked == 0 && !builder->id_unread)
    tell (builder, CARPACE_FLAW_NO_DRILLS, builder->drills_place);
  if (builder->split_given && (builder->n_blocks_asked > 0 || builder->blocks_place != 0))
    tell (builder, CARPACE_FLAW_BLOCKS_AND_SPLIT, builder->split_place);
  else if (!builder->split_given && builder->n_blocks_asked == 0 && !builder->blocks_unread)
    tell (builder, CARPACE_FLAW_NO_BLOCKS, builder->blocks_place);
}

/* A turn of the view is a movement only on a pad whose way is known. */
static void
tell_of_turn (CarpacePlanBuilder *builder, int32_t i)
{
  const bool *given = builder->drill_given[i], *sound = builder->drill_sound[i];

  if (sound[CARPACE_DRILL_VIEW_TURN] && !builder->given[CARPACE_KEY_HAND_CM_PER_TURN])
    tell_of_drill (builder, given[CARPACE_DRILL_MOVEMENT] ? CARPACE_FLAW_VIEW_TURN_IDLE : CARPACE_FLAW_VIEW_TURN_ALONE,
                   builder->drill_key_place[i][CARPACE_DRILL_VIEW_TURN], i, 0, 0);
  else if (!given[CARPACE_DRILL_MOVEMENT] && !(given[CARPACE_DRILL_VIEW_TURN] && !sound[CARPACE_DRILL_VIEW_TURN])
           && !(given[CARPACE_DRILL_VIEW_TURN] && unsound (builder, CARPACE_KEY_HAND_CM_PER_TURN)))
    tell_of_drill (builder, CARPACE_FLAW_NO_MOVEMENT, builder->drill_place[i], i, 0, 0);
}

/* The movement the turn of the view asks for; it wins over the one given. */
static void
settle_movement (CarpacePlanBuilder *builder, int32_t i)
{
  const bool *sound = builder->drill_sound[i];
  CarpaceDrill *drill = &builder->plan.drills[i];
  CarpaceMovement turn;

  if (!sound[CARPACE_DRILL_VIEW_TURN] || !builder->sound[CARPACE_KEY_HAND_CM_PER_TURN])
    {
      tell_of_turn (builder, i);
      return;
    }
  turn = carpace_travel_movement (carpace_travel_cm (drill->view_turn_deg, builder->plan.cm_per_turn));
  if (sound[CARPACE_DRILL_MOVEMENT] && drill->movement != turn)
    tell_of_drill (builder, CARPACE_FLAW_MOVEMENT_DIFFERS, builder->drill_key_place[i][CARPACE_DRILL_MOVEMENT], i,
                   (double) drill->movement, (double) turn);
  drill->movement = turn;
}

static void
check_drill (CarpacePlanBuilder *builder, int32_t i)
{
  const CarpaceDrill *drill = &builder->plan.drills[i];
  const bool *given = builder->drill_given[i], *sound = builder->drill_sound[i];
  double seconds = drill->efforts_per_min * drill->effort_lasts_s;

  settle_movement (builder, i);
  if (given[CARPACE_DRILL_EFFORTS] == sound[CARPACE_DRILL_EFFORTS]
      && given[CARPACE_DRILL_EFFORT_LASTS] == sound[CARPACE_DRILL_EFFORT_LASTS] && seconds > CARPACE_MOST_DUTY_S * (1 + 1e-12))
    tell_of_drill (builder, CARPACE_FLAW_DUTY,
                   builder->drill_key_place[i][sound[CARPACE_DRILL_EFFORTS] ? CARPACE_DRILL_EFFORTS
                                                                           : CARPACE_DRILL_EFFORT_LASTS],
                   i, seconds, 60);
}

/* Equal shares of what the given ones leave; a hundredth of a percent that
 * does not divide goes to the first of them. */
static void
share_out (CarpaceBlock *block, const bool given[], int32_t to_go, int32_t n_equal)
{
  for (int32_t i = 0, nth = 0; i < block->n_parts; i++)
    if (!given[i])
      block->parts[i].share = to_go / n_equal + (nth++ < to_go % n_equal);
}

static void
check_block (CarpacePlanBuilder *builder, int32_t i)
{
  CarpaceBlock *block = &builder->plan.blocks[i];
  int32_t sum = 0, n_equal = 0;

  if (builder->block_flawed[i])
    return;
  for (int32_t p = 0; p < block->n_parts; p++)
    if (builder->share_given[i][p])
      sum += block->parts[p].share;
    else
      n_equal++;
  if (block->n_parts == 0)
    tell_of_block (builder, CARPACE_FLAW_NO_DRILLS, i, 0, 0);
  else if (n_equal == 0 ? sum != CARPACE_WHOLE : CARPACE_WHOLE - sum < n_equal)
    tell_of_block (builder, CARPACE_FLAW_SHARES, i, sum, CARPACE_WHOLE - n_equal);
  else
    share_out (block, builder->share_given[i], CARPACE_WHOLE - sum, n_equal);
}

static bool
block_uses (const CarpaceBlock *block, int32_t drill)
{
  for (int32_t p = 0; p < block->n_parts; p++)
    if (block->parts[p].drill == drill)
      return true;
  return false;
}

/* Blocks are listed, and each has been taken. */
static bool
blocks_are_sound (const CarpacePlanBuilder *builder)
{
  for (int32_t b = 0; b < builder->plan.n_blocks; b++)
    if (builder->block_flawed[b])
      return false;
  return builder->n_blocks_asked > 0 && builder->n_blocks_asked <= CARPACE_PLAN_BLOCKS;
}

static void
warn_of_unused_drills (CarpacePlanBuilder *builder)
{
  const CarpacePlan *plan = &builder->plan;

  for (int32_t d = 0; d < plan->n_drills; d++)
    {
      bool used = false;
      for (int32_t b = 0; b < plan->n_blocks && !used; b++)
        used = block_uses (&plan->blocks[b], d);
      if (!used)
        tell_of_drill (builder, CARPACE_FLAW_DRILL_UNUSED, builder->drill_id_place[d], d, 0, 0);
    }
}

/* The dose is the sum of @sum_ms where none is given; told at @place where a
 * day cannot hold that. */
static void
settle_dose (CarpacePlanBuilder *builder, int64_t sum_ms, CarpacePlace place)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (CARPACE_KEY_DAY_DOSE);

  if (builder->given[CARPACE_KEY_DAY_DOSE])
    return;
  builder->plan.dose_ms = sum_ms;
  if ((double) sum_ms > facts->high)
    tell_of_key (builder, CARPACE_FLAW_SUM_OVER_DAY, place, CARPACE_KEY_DAY_DOSE, (double) sum_ms, facts->high);
}

static void
check_after (CarpacePlanBuilder *builder)
{
  int64_t longest_ms = carpace_plan_longest_limit_ms (&builder->plan);

  if (builder->sound[CARPACE_KEY_MICRO_REST_AFTER] && builder->plan.after_ms > longest_ms)
    tell_of_key (builder, CARPACE_FLAW_AFTER_OVER_LIMIT, builder->key_place[CARPACE_KEY_MICRO_REST_AFTER],
                 CARPACE_KEY_MICRO_REST_AFTER, (double) builder->plan.after_ms, (double) longest_ms);
}

static void
settle_listed_blocks (CarpacePlanBuilder *builder)
{
  int64_t sum_ms = carpace_plan_sum_of_limits_ms (&builder->plan);

  if (!blocks_are_sound (builder))
    return;
  if (!builder->id_flawed)
    warn_of_unused_drills (builder);
  check_after (builder);
  if (unsound (builder, CARPACE_KEY_DAY_DOSE))
    return;
  settle_dose (builder, sum_ms, builder->blocks_place);
  if (sum_ms > builder->plan.dose_ms)
    tell_of_key (builder, CARPACE_FLAW_BLOCKS_OVER_DOSE, builder->key_place[CARPACE_KEY_DAY_DOSE],
                 CARPACE_KEY_DAY_DOSE, (double) sum_ms, (double) builder->plan.dose_ms);
}

/* Gives each drill without a time its equal share of what the dose leaves.
 * @return whether there is one; told */
static bool
time_drills (CarpacePlanBuilder *builder)
{
  CarpacePlan *plan = &builder->plan;
  int64_t to_go_ms = plan->dose_ms, n_equal = 0, nth = 0, sum_ms = 0;

  for (int32_t i = 0; i < plan->n_drills; i++)
    {
      n_equal += plan->drills[i].time_ms == 0;
      to_go_ms -= plan->drills[i].time_ms;
      sum_ms += plan->drills[i].time_ms;
    }
  if (n_equal == 0)
    {
      settle_dose (builder, sum_ms, builder->split_place);
      if (sum_ms > plan->dose_ms)
        tell_of_key (builder, CARPACE_FLAW_TIMES_OVER_DOSE, builder->key_place[CARPACE_KEY_DAY_DOSE],
                     CARPACE_KEY_DAY_DOSE, (double) sum_ms, (double) plan->dose_ms);
      return true;
    }
  if (!builder->given[CARPACE_KEY_DAY_DOSE])
    {
      tell (builder, CARPACE_FLAW_SPLIT_NO_TIME, builder->split_place);
      return false;
    }
  if (to_go_ms < n_equal * CARPACE_SECOND_MS)
    {
      tell_of_key (builder, CARPACE_FLAW_SPLIT_TIME_IS_OUT, builder->key_place[CARPACE_KEY_DAY_DOSE],
                   CARPACE_KEY_DAY_DOSE, (double) sum_ms, (double) plan->dose_ms);
      return false;
    }
  for (int32_t i = 0; i < plan->n_drills; i++)
    if (plan->drills[i].time_ms == 0)
      plan->drills[i].time_ms = to_go_ms / n_equal + (nth++ < to_go_ms % n_equal);
  return true;
}

/* Two thirds of the longest limit, ten minutes at most, and a second at least
 * where the limits themselves are that short. */
static void
settle_after (CarpacePlanBuilder *builder, int64_t longest_ms)
{
  int64_t most_ms = longest_ms * 2 / 3;

  if (builder->given[CARPACE_KEY_MICRO_REST_AFTER])
    return;
  if (most_ms < CARPACE_SECOND_MS)
    most_ms = CARPACE_SECOND_MS;
  builder->plan.after_ms = most_ms < AFTER_DEFAULT_MS ? most_ms : AFTER_DEFAULT_MS;
}

static bool
times_are_sound (const CarpacePlanBuilder *builder)
{
  for (int32_t i = 0; i < builder->plan.n_drills; i++)
    if (builder->drill_given[i][CARPACE_DRILL_TIME] != builder->drill_sound[i][CARPACE_DRILL_TIME])
      return false;
  return builder->plan.n_drills > 0 && !unsound (builder, CARPACE_KEY_DAY_DOSE);
}

/* A day that was split before is not split again, where it is that day. */
static bool
take_known_split (CarpacePlanBuilder *builder)
{
  CarpacePlan *plan = &builder->plan;
  const CarpacePlan *known = builder->known;

  if (known == NULL || known->n_blocks != plan->split_into || known->n_drills != plan->n_drills
      || known->dose_ms != plan->dose_ms)
    return false;
  for (int32_t i = 0; i < plan->n_drills; i++)
    if (strcmp (known->drills[i].id, plan->drills[i].id) != 0)
      return false;
  plan->n_blocks = known->n_blocks;
  memcpy (plan->blocks, known->blocks, sizeof plan->blocks);
  return true;
}

/* The split looks at the rests, whose default looks at the limits: at those of equal
 * blocks here, so that the plan written out is split the same way again. */
static void
split (CarpacePlanBuilder *builder)
{
  CarpacePlan *plan = &builder->plan;
  CarpaceSplitFound found;
  int64_t longest_ms;

  if (!builder->split_sound || !times_are_sound (builder))
    return;
  if (!time_drills (builder) || builder->n_faults > 0)
    return;
  settle_after (builder, carpace_split_even_ms (plan, plan->split_into));
  if (builder->unsplit && carpace_split_even_ms (plan, plan->split_into) > 0)
    return;
  if (!take_known_split (builder) && !carpace_split (plan, plan->split_into, &found))
    {
      tell (builder, CARPACE_FLAW_SPLIT_TOO_FEW_RUNS, builder->split_place);
      return;
    }
  longest_ms = carpace_plan_longest_limit_ms (plan);
  if ((double) longest_ms > carpace_block_limit_facts ()->high)
    {
      tell_of_key (builder, CARPACE_FLAW_SPLIT_TOO_LONG, builder->split_place, CARPACE_N_KEYS, (double) longest_ms,
                   carpace_block_limit_facts ()->high);
      return;
    }
  check_after (builder);
}

static int64_t
at_most_of (CarpacePlanKey key, int64_t ms)
{
  int64_t high_ms = (int64_t) carpace_plan_key_facts (key)->high;

  return ms < high_ms ? ms : high_ms;
}

static void
settle_defaults (CarpacePlanBuilder *builder)
{
  CarpacePlan *plan = &builder->plan;
  int64_t longest_ms = carpace_plan_longest_limit_ms (plan);

  if (plan->split_into == 0)
    settle_after (builder, longest_ms);
  if (!builder->given[CARPACE_KEY_BLOCK_LIMITS_LONGEST])
    plan->longest_ms = at_most_of (CARPACE_KEY_BLOCK_LIMITS_LONGEST, longest_ms * 120 / 100);
  if (!builder->given[CARPACE_KEY_NEXT_DAY_AT_MOST])
    plan->at_most_ms = at_most_of (CARPACE_KEY_NEXT_DAY_AT_MOST, plan->dose_ms * 150 / 100);
  if (!builder->given[CARPACE_KEY_BLOCK_LIMITS_SHORTEST] && plan->dose_ms < plan->shortest_ms)
    plan->shortest_ms = plan->dose_ms;
}

/* A dose that could never be practised, or that no day could be led to. Told at
 * the dose or, where it is only summed up, at what it does not agree with; not where
 * one of the two could not be read, which was told. */
static void
check_dose (CarpacePlanBuilder *builder)
{
  const CarpacePlan *plan = &builder->plan;
  const struct { bool wrong; CarpaceFlawKind kind; CarpacePlanKey key; int64_t bound_ms; } rules[] = {
    { plan->dose_ms < plan->shortest_ms, CARPACE_FLAW_DOSE_UNDER_SHORTEST, CARPACE_KEY_BLOCK_LIMITS_SHORTEST, plan->shortest_ms },
    { plan->dose_ms > plan->at_most_ms, CARPACE_FLAW_DOSE_OVER_AT_MOST, CARPACE_KEY_NEXT_DAY_AT_MOST, plan->at_most_ms },
  };

  for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++)
    if (rules[i].wrong && !unsound (builder, rules[i].key) && !unsound (builder, CARPACE_KEY_DAY_DOSE))
      tell_of_key (builder, rules[i].kind,
                   builder->key_place[builder->given[CARPACE_KEY_DAY_DOSE] ? CARPACE_KEY_DAY_DOSE : rules[i].key],
                   CARPACE_KEY_DAY_DOSE, (double) plan->dose_ms, (double) rules[i].bound_ms);
}

/* Whether one run of @drill, from rested, takes some group's reserve under
 * what the plan asks for. */
static bool
passes_reserve (const CarpacePlan *plan, const CarpaceDrill *drill)
{
  double run_s = (double) (drill->run_ms > 0 ? drill->run_ms : plan->run_min_ms) / (double) CARPACE_SECOND_MS;
  double level = 1 - plan->reserve_at_least_pct / 100;
  double share[CARPACE_N_GROUPS];

  carpace_muscles_shares (drill->movement, plan->grip, plan->side, share);
  for (int32_t group = 0; group < CARPACE_N_GROUPS; group++)
    if (carpace_reserve_crossing_s (carpace_group_region ((CarpaceGroup) group), 0,
                                    drill->intensity_pct_mvc / 100 * share[group], level) <= run_s)
      return true;
  return false;
}

/* Days with the plan's own dose have the limits as they stand, all others no longer ones than `longest`. */
static void
warn_of_longest (CarpacePlanBuilder *builder)
{
  int64_t limit_ms = carpace_plan_longest_limit_ms (&builder->plan);

  if (builder->plan.longest_ms < limit_ms && builder->given[CARPACE_KEY_BLOCK_LIMITS_LONGEST]
      && !unsound (builder, CARPACE_KEY_BLOCK_LIMITS_LONGEST))
    tell_of_key (builder, CARPACE_FLAW_LONGEST_UNDER_LIMIT, builder->key_place[CARPACE_KEY_BLOCK_LIMITS_LONGEST],
                 CARPACE_KEY_BLOCK_LIMITS_LONGEST, (double) limit_ms, (double) builder->plan.longest_ms);
}

static void
warn_of_reserve (CarpacePlanBuilder *builder)
{
  const CarpacePlan *plan = &builder->plan;

  if (!(plan->reserve_at_least_pct > 0))
    return;
  for (int32_t i = 0; i < plan->n_drills; i++)
    if (passes_reserve (plan, &plan->drills[i]))
      {
        CarpaceFlaw flaw = CARPACE_FLAW (CARPACE_FLAW_RESERVE_TOO_HIGH,
                                         builder->key_place[CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST]);
        flaw.key = CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST;
        flaw.drill = i;
        carpace_plan_builder_flaw (builder, flaw);
      }
}

bool
carpace_plan_builder_finish (CarpacePlanBuilder *builder, CarpacePlan *ret_plan)
{
  CarpacePlan *plan = &builder->plan;

  check_required (builder);
  for (int32_t i = 0; i < plan->n_drills; i++)
    check_drill (builder, i);
  for (int32_t i = 0; i < plan->n_blocks; i++)
    check_block (builder, i);
  if (builder->split_given && builder->n_blocks_asked == 0)
    split (builder);
  else if (!builder->split_given)
    settle_listed_blocks (builder);
  if (plan->usual_discomfort >= 3)
    tell_of_key (builder, CARPACE_FLAW_USUAL_DISCOMFORT, builder->key_place[CARPACE_KEY_HAND_USUAL_DISCOMFORT],
                 CARPACE_KEY_HAND_USUAL_DISCOMFORT, plan->usual_discomfort, 3);
  if (builder->n_faults > 0)
    return false;
  settle_defaults (builder);
  check_dose (builder);
  if (builder->n_faults > 0)
    return false;
  warn_of_longest (builder);
  warn_of_reserve (builder);
  *ret_plan = *plan;
  return true;
}
