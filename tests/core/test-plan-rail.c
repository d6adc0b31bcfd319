/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-rail.c: a plan along its rail, its curve against the reserve stepped by itself, and what is tried: each
 * number one below, at and above its end. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/plan-rail.h"
#include "carpace/tapped.h"
#include "some-plan.h"

#define SEED UINT64_C (20270311)

static void
two_blocks (CarpacePlan *plan)
{
  some_plan (plan, SOME_MINUTES (60));
  some_drill (plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_drill (plan, CARPACE_MOVEMENT_LARGE_TURN, 15, 30, 0.5);
  some_block (plan, SOME_MINUTES (30));
  some_block (plan, SOME_MINUTES (30));
  plan->between_blocks_ms = SOME_MINUTES (45);
}

/* ---- stretches and the curve ---- */

typedef struct
{
  int64_t to_ms, active_ms;
  int32_t rests;
} Sum;

static void
add_up (void *user, const CarpaceStretch *stretch)
{
  Sum *sum = user;

  assert_int_equal (stretch->from_ms, sum->to_ms);
  assert_true (stretch->to_ms > stretch->from_ms);
  assert_int_equal (stretch->active_ms, sum->active_ms);
  sum->to_ms = stretch->to_ms;
  sum->rests += stretch->part < 0;
  if (stretch->part >= 0)
    sum->active_ms += stretch->to_ms - stretch->from_ms;
}

static void
stretches_leave_nothing_out (void **state)
{
  Random random = { SEED };

  for (int round = 0; round < 500; round++)
    {
      CarpacePlan plan;
      Sum sum = { 0 };

      some_plan (&plan, SOME_MINUTES (60));
      for (int i = (int) random_whole (&random, 1, 5); i > 0; i--)
        any_drill (&plan, &random, 10, 120);
      some_block (&plan, random_whole (&random, 1, 14400) * CARPACE_SECOND_MS);
      plan.after_ms = random_whole (&random, 1, 7200) * CARPACE_SECOND_MS;
      carpace_load_stretches (&plan, &plan.blocks[0], add_up, &sum);
      assert_int_equal (sum.active_ms, plan.blocks[0].limit_ms);
      assert_int_equal (sum.to_ms, plan.blocks[0].limit_ms + sum.rests * plan.rest_ms);
      assert_int_equal (carpace_load_elapsed_ms (&plan, &plan.blocks[0]), sum.to_ms);
    }
}

/* Each second by itself, as the session carries its reserve: a closed form in another place. */
static void
the_curve_is_the_reserve_stepped (void **state)
{
  enum { N = 61 };
  CarpacePlan plan;
  double curve[N], load[CARPACE_N_GROUPS];
  CarpaceReserveState reserve;

  some_plan (&plan, SOME_MINUTES (20));
  some_drill (&plan, CARPACE_MOVEMENT_LARGE_TURN, 20, 30, 0.5);
  some_block (&plan, SOME_MINUTES (20));
  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    {
      int64_t elapsed_s = carpace_load_elapsed_ms (&plan, &plan.blocks[0]) / CARPACE_SECOND_MS;

      assert_int_equal (elapsed_s, 20 * 60 + 30);
      carpace_load_curve (&plan, &plan.blocks[0], (CarpaceGroup) group, N, curve);
      carpace_load_groups (&plan, 0, load);
      carpace_reserve_begin (&reserve);
      for (int64_t second = 0, i = 0; i < N; second++)
        {
          for (; i < N && elapsed_s * i * 1000 / (N - 1) <= second * 1000; i++)
            if (elapsed_s * i % (N - 1) == 0)
              assert_true (fabs (1 - reserve.fatigued[group] - curve[i]) < 1e-9);
          if (second >= 600 && second < 630)
            carpace_reserve_rest (&reserve, CARPACE_SECOND_MS);
          else
            carpace_reserve_work (&reserve, load, CARPACE_SECOND_MS);
        }
    }
}

/* What is told of a day is what is told of its blocks. */
static void
a_day_is_its_blocks (void **state)
{
  CarpacePlan plan;
  CarpaceDayLoad day;

  two_blocks (&plan);
  plan.blocks[1].limit_ms = SOME_MINUTES (40);
  carpace_load_all (&plan, &day);
  assert_int_equal (day.lowest, 1);
  assert_int_equal (day.decides.block, 1);
  for (int32_t drill = 0; drill < 2; drill++)
    {
      CarpaceDrillLoad part;
      carpace_load_part (&plan, 1, drill, &part);
      assert_true (fabs (day.drill[drill] - part.strain.index) < 1e-12);
    }
  assert_true (day.day_index <= carpace_load_day (&plan) && day.day_index >= carpace_load_day (&plan));
}

static int32_t
hardest_of (const double *index, int32_t n)
{
  int32_t hardest = 0;

  for (int32_t i = 1; i < n; i++)
    if (index[i] > index[hardest])
      hardest = i;
  return hardest;
}

/* What is left of the index where one thing of a part is halved, the model asked by itself. */
static double
halved (const CarpacePlan *plan, int32_t block, int32_t part, int what)
{
  const CarpaceBlockPart *of = &plan->blocks[block].parts[part];
  const CarpaceDrill *drill = &plan->drills[of->drill];
  double half[CARPACE_N_WEIGHS] = { 1, 1, 1, 1 };
  CarpaceStrain strain;

  half[what] = 0.5;
  assert_int_equal (carpace_strain_task (&(CarpaceStrainTask) {
    .intensity = half[CARPACE_WEIGHS_INTENSITY] * drill->intensity_pct_mvc / 100,
    .efforts_per_min = half[CARPACE_WEIGHS_EFFORTS] * drill->efforts_per_min * of->share / CARPACE_WHOLE,
    .effort_lasts_s = half[CARPACE_WEIGHS_DURATION] * drill->effort_lasts_s,
    .bend = drill->bend, .bend_deg = drill->bend_deg,
    .hours = half[CARPACE_WEIGHS_HOURS] * (double) plan->blocks[block].limit_ms / (double) CARPACE_HOUR_MS }, &strain),
    CARPACE_STRAIN_OK);
  return strain.index;
}

/* It is the hardest block, the hardest part in it, and what would ease that most if it were halved. */
static void
what_decides_a_day (void **state)
{
  Random random = { SEED };
  int seen[CARPACE_N_WEIGHS] = { 0 };

  for (int round = 0; round < 400; round++)
    {
      CarpacePlan plan;
      CarpaceDayLoad day;
      double of_block[4], of_part[4];

      some_plan (&plan, SOME_MINUTES (60));
      for (int i = (int) random_whole (&random, 1, 4); i > 0; i--)
        {
          CarpaceDrill *drill = any_drill (&plan, &random, 1, 4);
          drill->efforts_per_min *= random_real (&random, 0.05, 1);
          drill->effort_lasts_s = random_real (&random, 0.1, 15);
          drill->intensity_pct_mvc = random_real (&random, 2, 95);
        }
      for (int i = (int) random_whole (&random, 1, 4); i > 0; i--)
        some_block (&plan, random_whole (&random, 5, 240) * CARPACE_MINUTE_MS);
      carpace_load_all (&plan, &day);
      for (int32_t i = 0; i < plan.n_blocks; i++)
        of_block[i] = day.block[i].strain_index;
      assert_int_equal (day.decides.block, hardest_of (of_block, plan.n_blocks));
      for (int32_t i = 0; i < plan.n_drills; i++)
        {
          CarpaceDrillLoad load;
          carpace_load_part (&plan, day.decides.block, i, &load);
          of_part[i] = load.strain.index;
        }
      assert_int_equal (day.decides.part, hardest_of (of_part, plan.n_drills));
      for (int what = 0; what < CARPACE_N_WEIGHS; what++)
        assert_true (halved (&plan, day.decides.block, day.decides.part, (int) day.decides.by)
                     <= halved (&plan, day.decides.block, day.decides.part, what));
      seen[day.decides.by]++;
    }
  assert_true (seen[CARPACE_WEIGHS_INTENSITY] > 0 && seen[CARPACE_WEIGHS_EFFORTS] > 0 && seen[CARPACE_WEIGHS_DURATION] > 0);
}

/* Of alike ones it is the first. */
static void
alike_blocks_and_drills (void **state)
{
  CarpacePlan plan;
  CarpaceDayLoad day;

  some_plan (&plan, SOME_MINUTES (60));
  for (int i = 0; i < 2; i++)
    some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  for (int i = 0; i < 2; i++)
    some_block (&plan, SOME_MINUTES (30));
  carpace_load_all (&plan, &day);
  assert_int_equal (day.lowest, 0);
  assert_int_equal (day.decides.block, 0);
  assert_int_equal (day.decides.part, 0);
}

/* A moment between two milliseconds is the one before; each millisecond is a moment of its own here. */
static void
moments_of_the_curve (void **state)
{
  static double each[62002];
  double few[8];
  CarpacePlan plan;
  int64_t elapsed_ms;

  some_plan (&plan, SOME_MINUTES (20));
  some_drill (&plan, CARPACE_MOVEMENT_LARGE_TURN, 60, 60, 0.9);
  some_block (&plan, 61001);
  plan.after_ms = 30 * CARPACE_SECOND_MS;
  plan.rest_ms = 500;
  elapsed_ms = carpace_load_elapsed_ms (&plan, &plan.blocks[0]);
  assert_int_equal (elapsed_ms, 61001 + 500);
  carpace_load_curve (&plan, &plan.blocks[0], CARPACE_GROUP_SHOULDER_OUTWARD, (int32_t) elapsed_ms + 1, each);
  carpace_load_curve (&plan, &plan.blocks[0], CARPACE_GROUP_SHOULDER_OUTWARD, 8, few);
  assert_true (few[7] < 0.99);
  for (int64_t i = 0; i < 8; i++)
    assert_true (fabs (few[i] - each[elapsed_ms * i / 7]) < 1e-12);
}

/* Each change, done, comes to the numbers that were told of it. */
static void
what_eases_comes_to_what_was_told (void **state)
{
  Random random = { SEED };
  int seen[CARPACE_N_EASES] = { 0 };

  for (int round = 0; round < 300; round++)
    {
      CarpacePlan plan, eased;
      CarpaceDayLoad before, after;

      some_plan (&plan, SOME_MINUTES (60));
      for (int i = (int) random_whole (&random, 1, 4); i > 0; i--)
        any_drill (&plan, &random, 10, 90);
      for (int i = (int) random_whole (&random, 1, 4); i > 0; i--)
        some_block (&plan, random_whole (&random, 5, 60) * CARPACE_MINUTE_MS);
      carpace_load_all (&plan, &before);
      if (!before.has_ease)
        continue;
      seen[before.ease.kind]++;
      carpace_load_eased (&plan, &before.ease, &eased);
      carpace_load_all (&eased, &after);
      assert_true (fabs (after.day_index - before.ease.day_index) < 1e-9);
      assert_true (fabs (after.block[after.lowest].lowest_reserve - before.ease.lowest_reserve) < 1e-9);
    }
  assert_true (seen[CARPACE_EASE_LIMIT] > 0 || seen[CARPACE_EASE_SHARE] > 0);
  assert_true (seen[CARPACE_EASE_REST] + seen[CARPACE_EASE_RUN] > 0);
}

/* ---- along the rail ---- */

static void
blocks_lie_one_after_the_other (void **state)
{
  CarpacePlan plan;
  CarpacePlanRail rail;
  double last = -1;

  two_blocks (&plan);
  carpace_plan_rail (&plan, 0, &rail);
  assert_int_equal (rail.block[0].to_ms, SOME_MINUTES (31)); /* two rests of 30 s */
  assert_int_equal (rail.block[1].from_ms, SOME_MINUTES (76));
  assert_int_equal (rail.longest_ms, SOME_MINUTES (31));
  for (int64_t at_ms = 0; at_ms <= rail.block[1].to_ms; at_ms += CARPACE_MINUTE_MS)
    {
      assert_true (carpace_plan_rail_at (&rail, at_ms) > last);
      last = carpace_plan_rail_at (&rail, at_ms);
    }
  assert_true (fabs (carpace_plan_rail_at (&rail, rail.block[1].to_ms) - rail.length) < 1e-12);
  assert_int_equal (carpace_plan_rail_ms_in (&rail, 0, rail.block[0].to / 2), SOME_MINUTES (31) / 2);
  assert_int_equal (carpace_plan_rail_ms_before (&rail, 1, 0.5), SOME_MINUTES (31) / 2);
}

/* Ends of blocks, moments before the first and behind the last, a block that is shorter than the longest. */
static void
moments_lie_along_the_rail (void **state)
{
  CarpacePlan plan;
  CarpacePlanRail rail;
  const CarpacePlanSpan *a = &rail.block[0], *b = &rail.block[1];

  two_blocks (&plan);
  plan.blocks[1].limit_ms = SOME_MINUTES (6);
  carpace_plan_rail (&plan, 0, &rail);
  assert_true (b->to - b->from < 1);
  const struct { int64_t at_ms; double along; } rows[] = {
    { -1, 0 }, { 0, 0 }, { a->to_ms / 2, a->to / 2 }, { a->to_ms, a->to },
    { (a->to_ms + b->from_ms) / 2, (a->to + b->from) / 2 }, { b->from_ms, b->from },
    { (b->from_ms + b->to_ms) / 2, (b->from + b->to) / 2 }, { b->to_ms, b->to }, { b->to_ms + 1, b->to },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    if (!(fabs (carpace_plan_rail_at (&rail, rows[i].at_ms) - rows[i].along) < 1e-12))
      fail_msg ("row %zu: at %lld: %g", i, (long long) rows[i].at_ms, carpace_plan_rail_at (&rail, rows[i].at_ms));
  assert_int_equal (carpace_plan_rail_ms_in (&rail, 1, (b->to - b->from) / 2), (b->to_ms - b->from_ms) / 2);
}

/* Nothing at all has a longest block of a millisecond, and takes no time. */
static void
a_rail_of_nothing (void **state)
{
  static const CarpacePlan none;
  CarpacePlan plan;
  CarpacePlanRail rail;

  carpace_plan_rail (&none, 0, &rail);
  assert_int_equal (rail.n, 0);
  assert_int_equal (rail.longest_ms, 1);
  assert_int_equal (carpace_plan_rail_ms_in (&rail, 0, 1), 0);
  two_blocks (&plan);
  carpace_plan_rail (&plan, 1, &rail);
  assert_int_equal (rail.longest_ms, 1);
}

static void
shares_before_a_part (void **state)
{
  CarpacePlan plan;

  two_blocks (&plan);
  plan.blocks[1].parts[0].share = 3000;
  plan.blocks[1].parts[1].share = 7000;
  assert_int_equal (carpace_plan_share_before (&plan, 1, 0), 0);
  assert_int_equal (carpace_plan_share_before (&plan, 1, 1), 3000);
  assert_int_equal (carpace_plan_share_before (&plan, 1, 2), 10000);
}

/* While one is dragged the others stay as wide as they were. */
static void
what_is_held_fast_stays (void **state)
{
  CarpacePlan plan;
  CarpacePlanRail before, after;

  two_blocks (&plan);
  carpace_plan_rail (&plan, 0, &before);
  plan.blocks[0].limit_ms *= 2;
  carpace_plan_rail (&plan, before.longest_ms, &after);
  assert_true (fabs (after.block[0].to - (double) after.block[0].to_ms / (double) before.longest_ms) < 1e-12);
  assert_true (after.block[0].to > 1.9);
  assert_true (fabs (after.block[1].to - after.block[1].from - (before.block[1].to - before.block[1].from)) < 1e-12);
}

/* ---- what is tried ---- */

static void
limits_keep_to_their_range (void **state)
{
  static const struct { int64_t asked_ms, got_ms; } rows[] = {
    { -5000, 30000 }, { 14999, 30000 }, { 44999, 30000 }, { 45000, 60000 },
    { 4 * CARPACE_HOUR_MS - 15001, 4 * CARPACE_HOUR_MS - 30000 }, { 4 * CARPACE_HOUR_MS, 4 * CARPACE_HOUR_MS },
    { 4 * CARPACE_HOUR_MS + 30000, 4 * CARPACE_HOUR_MS },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpacePlan plan;

      two_blocks (&plan);
      carpace_plan_try_limit (&plan, 0, rows[i].asked_ms);
      assert_int_equal (plan.blocks[0].limit_ms, rows[i].got_ms);
      assert_int_equal (plan.dose_ms, carpace_plan_sum_of_limits_ms (&plan));
    }
}

/* The dose follows only where it was the sum, and never past what a dose may be. */
static void
the_dose_follows_its_sum (void **state)
{
  CarpacePlan plan;

  two_blocks (&plan);
  plan.dose_ms = SOME_MINUTES (59);
  carpace_plan_try_limit (&plan, 0, SOME_MINUTES (40));
  assert_int_equal (plan.dose_ms, SOME_MINUTES (59));
  two_blocks (&plan);
  plan.blocks[1].limit_ms = 4 * CARPACE_HOUR_MS;
  some_block (&plan, 3 * CARPACE_HOUR_MS + SOME_MINUTES (20));
  plan.dose_ms = carpace_plan_sum_of_limits_ms (&plan);
  carpace_plan_try_limit (&plan, 0, 2 * CARPACE_HOUR_MS);
  assert_int_equal (plan.dose_ms, 8 * CARPACE_HOUR_MS);
  assert_int_equal (plan.blocks[0].limit_ms, SOME_MINUTES (40));
}

/* Where the others leave no room, a limit is what it is; a millisecond is room. */
static void
a_dose_without_room (void **state)
{
  static const struct { int64_t other_ms, got_ms; } rows[] = {
    { 4 * CARPACE_HOUR_MS - 1, 1 }, { 4 * CARPACE_HOUR_MS, 60000 }, { 4 * CARPACE_HOUR_MS + 1, 60000 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpacePlan plan;

      two_blocks (&plan);
      plan.blocks[1].limit_ms = 4 * CARPACE_HOUR_MS;
      some_block (&plan, rows[i].other_ms);
      plan.dose_ms = carpace_plan_sum_of_limits_ms (&plan);
      carpace_plan_try_limit (&plan, 0, 60000);
      assert_int_equal (plan.blocks[0].limit_ms, rows[i].got_ms);
    }
}

static void
shares_leave_a_step_of_each (void **state)
{
  static const int32_t rows[][2] = { { -100, 100 }, { 149, 100 }, { 150, 200 }, { 9849, 9800 }, { 9850, 9900 }, { 12000, 9900 } };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpacePlan plan;

      two_blocks (&plan);
      carpace_plan_try_share (&plan, 0, 0, rows[i][0]);
      assert_int_equal (plan.blocks[0].parts[0].share, rows[i][1]);
      assert_int_equal (plan.blocks[0].parts[1].share, CARPACE_WHOLE - rows[i][1]);
      assert_int_equal (plan.blocks[1].parts[0].share, CARPACE_WHOLE / 2);
    }
}

/* Two that have less than a step each stay as they are. */
static void
shares_of_less_than_a_step (void **state)
{
  static const struct { int32_t second, asked, first; } rows[] = { { 99, 50, 80 }, { 120, 50, 100 }, { 121, 50, 100 } };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpacePlan plan;

      two_blocks (&plan);
      plan.blocks[0].parts[0].share = 80;
      plan.blocks[0].parts[1].share = rows[i].second;
      carpace_plan_try_share (&plan, 0, 0, rows[i].asked);
      assert_int_equal (plan.blocks[0].parts[0].share, rows[i].first);
      assert_int_equal (plan.blocks[0].parts[1].share, 80 + rows[i].second - rows[i].first);
    }
}

static void
waits_wrists_and_efforts_keep_to_theirs (void **state)
{
  static const struct { int64_t asked_ms, got_ms; } waits[] = {
    { -CARPACE_MINUTE_MS, 0 }, { 0, 0 }, { 29999, 0 }, { 30000, 60000 }, { 89999, 60000 },
    { 12 * CARPACE_HOUR_MS, 12 * CARPACE_HOUR_MS }, { 12 * CARPACE_HOUR_MS + CARPACE_MINUTE_MS, 12 * CARPACE_HOUR_MS },
  };
  static const struct { double asked, deg; CarpaceWristBend bend; } wrists[] = {
    { -91, 90, CARPACE_WRIST_EXTENSION }, { -0.6, 1, CARPACE_WRIST_EXTENSION }, { -0.4, 0, CARPACE_WRIST_STRAIGHT },
    { 0.4, 0, CARPACE_WRIST_STRAIGHT }, { 0.6, 1, CARPACE_WRIST_FLEXION }, { 1.6, 2, CARPACE_WRIST_FLEXION },
    { 90.6, 90, CARPACE_WRIST_FLEXION },
  };
  static const struct { double asked, pct; } efforts[] = {
    { 0, 1 }, { 0.14, 1 }, { 0.16, 2 }, { 1.24, 12 }, { 1.26, 13 }, { 10, 100 }, { 11, 100 },
  };
  CarpacePlan plan;

  two_blocks (&plan);
  for (size_t i = 0; i < sizeof waits / sizeof *waits; i++)
    {
      carpace_plan_try_wait (&plan, waits[i].asked_ms);
      assert_int_equal (plan.between_blocks_ms, waits[i].got_ms);
    }
  for (size_t i = 0; i < sizeof wrists / sizeof *wrists; i++)
    {
      carpace_plan_try_wrist (&plan, 0, wrists[i].asked);
      assert_int_equal (plan.drills[0].bend, wrists[i].bend);
      assert_true (fabs (plan.drills[0].bend_deg - wrists[i].deg) < 1e-12);
    }
  for (size_t i = 0; i < sizeof efforts / sizeof *efforts; i++)
    {
      carpace_plan_try_effort (&plan, 0, efforts[i].asked);
      assert_true (fabs (plan.drills[0].intensity_pct_mvc - efforts[i].pct) < 1e-12);
    }
}

/* From each place to each: what moves is there, the others keep their order. */
static void
blocks_and_parts_change_places (void **state)
{
  enum { N = 4 };

  for (int32_t from = 0; from < N; from++)
    for (int32_t to = 0; to < N; to++)
      {
        CarpacePlan plan;

        some_plan (&plan, SOME_MINUTES (60));
        for (int32_t i = 0; i < N; i++)
          some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
        for (int32_t i = 0; i < N; i++)
          some_block (&plan, SOME_MINUTES (10 + i));
        carpace_plan_try_move_block (&plan, from, to);
        carpace_plan_try_move_part (&plan, 0, from, to);
        for (int32_t i = 0; i < N; i++)
          {
            int32_t was = i == to ? from : from < to ? i + (i >= from && i < to) : i - (i > to && i <= from);
            assert_int_equal (plan.blocks[i].limit_ms, SOME_MINUTES (10 + was));
            assert_int_equal (plan.blocks[0].parts[i].drill, was);
          }
      }
}

/* ---- taps ---- */

static void
intervals_are_counted (void **state)
{
  static const struct { int32_t n; int64_t every_ms; double per_min; } rows[] = {
    { 2, 1000, 0 }, { 3, 1000, 60 }, { 10, 1000, 60 }, { 11, 500, 120 }, { 5, 2000, 30 }, { 4, 0, 0 }, { 200, 49, 600 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      CarpaceTaps taps = { 0 };

      for (int32_t tap = 0; tap < rows[i].n; tap++)
        carpace_tapped (&taps, 5000 + tap * rows[i].every_ms);
      assert_true (fabs (carpace_tapped_per_min (&taps) - rows[i].per_min) < 1e-9);
    }
}

static void
count_stretch (void *user, const CarpaceStretch *stretch)
{
  int32_t *n = user;

  assert_true (stretch->to_ms > stretch->from_ms);
  ++*n;
}

/* A rest that is due as a part ends leaves no piece of it behind. */
static void
no_stretch_is_empty (void **state)
{
  static CarpacePlan plan;
  int32_t n = 0;

  plan = (CarpacePlan) { .after_ms = 600000, .rest_ms = 30000 };
  plan.blocks[0] = (CarpaceBlock) { .limit_ms = 1200000, .n_parts = 2, .parts = { { .drill = 0, .share = 5000 }, { .drill = 1, .share = 5000 } } };
  carpace_load_stretches (&plan, &plan.blocks[0], count_stretch, &n);
  assert_int_equal (n, 3); /* ten minutes, the rest, ten minutes */
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_stretch_is_empty),
    cmocka_unit_test (stretches_leave_nothing_out),
    cmocka_unit_test (the_curve_is_the_reserve_stepped),
    cmocka_unit_test (a_day_is_its_blocks),
    cmocka_unit_test (what_eases_comes_to_what_was_told),
    cmocka_unit_test (blocks_lie_one_after_the_other),
    cmocka_unit_test (what_is_held_fast_stays),
    cmocka_unit_test (limits_keep_to_their_range),
    cmocka_unit_test (the_dose_follows_its_sum),
    cmocka_unit_test (shares_leave_a_step_of_each),
    cmocka_unit_test (waits_wrists_and_efforts_keep_to_theirs),
    cmocka_unit_test (shares_of_less_than_a_step),
    cmocka_unit_test (a_dose_without_room),
    cmocka_unit_test (blocks_and_parts_change_places),
    cmocka_unit_test (moments_lie_along_the_rail),
    cmocka_unit_test (a_rail_of_nothing),
    cmocka_unit_test (shares_before_a_part),
    cmocka_unit_test (what_decides_a_day),
    cmocka_unit_test (alike_blocks_and_drills),
    cmocka_unit_test (moments_of_the_curve),
    cmocka_unit_test (intervals_are_counted),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
