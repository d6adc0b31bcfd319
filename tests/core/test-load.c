/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-load.c: what plans ask: index and reserve by part, block and day; the
 * ordering of splits that common practice knows; what eases most. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../../src/core/load-eases.h"
#include "carpace/load.h"
#include "some-plan.h"

#define SEED UINT64_C (20270304)

static void
assert_close (double is, double should, double within)
{
  if (!(fabs (is - should) <= within))
    fail_msg ("%.12g is not %.12g", is, should);
}

/* Figures computed from the papers' formulas, apart from this code: RSI of
 * (.12, 60/min, .3 s, 25 deg extension, 2 h) is 9.13493. */
static void
one_drill_alone (void **state)
{
  CarpacePlan plan;
  CarpaceDrillLoad part;
  CarpaceBlockLoad block;

  some_plan (&plan, SOME_MINUTES (120));
  CarpaceDrill *drill = some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  drill->bend = CARPACE_WRIST_EXTENSION;
  drill->bend_deg = 25;
  some_block (&plan, SOME_MINUTES (120));
  carpace_load_part (&plan, 0, 0, &part);
  assert_close (part.strain.index, 9.13493, 5e-6);
  assert_int_equal (part.block, 0);
  assert_int_equal (part.drill, 0);
  carpace_load_block (&plan, 0, &block);
  assert_close (block.strain_index, part.strain.index, 1e-12);
  assert_close (carpace_load_day (&plan), part.strain.index, 1e-12);
}

/* Efforts are the drill's times its share; hours the block's limit. */
static void
efforts_by_share_and_hours_by_limit (void **state)
{
  CarpacePlan plan;
  CarpaceDrillLoad part;
  CarpaceStrain strain;

  some_plan (&plan, SOME_MINUTES (60));
  some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_drill (&plan, CARPACE_MOVEMENT_BUTTON_PRESS, 10, 80, 0.2);
  some_block (&plan, SOME_MINUTES (30));
  plan.blocks[0].parts[0].share = 2500;
  plan.blocks[0].parts[1].share = 7500;
  carpace_load_part (&plan, 0, 1, &part);
  CarpaceStrainTask task = { .intensity = 0.10, .efforts_per_min = 60, .effort_lasts_s = 0.2, .hours = 0.5 };
  assert_int_equal (carpace_strain_task (&task, &strain), CARPACE_STRAIN_OK);
  assert_close (part.strain.index, strain.index, 1e-12);
  some_block (&plan, SOME_MINUTES (15));
  carpace_load_part (&plan, 1, 1, &part);
  assert_int_equal (part.block, 1);
  assert_int_equal (part.drill, 1);
}

/* With one drill and rests the block is the model's own cycles. A drill at 12 %
 * whose prime group has the hand's constants: after 4 bouts of 5 min. */
static void
reserve_of_a_block_is_that_of_its_cycles (void **state)
{
  CarpacePlan plan;
  CarpaceBlockLoad block;
  CarpaceReserveCycles cycles = carpace_reserve_cycles (CARPACE_REGION_HAND, 0.10, 300, 40, 4);

  some_plan (&plan, SOME_MINUTES (20));
  plan.after_ms = SOME_MINUTES (5);
  plan.rest_ms = 40 * CARPACE_SECOND_MS;
  some_drill (&plan, CARPACE_MOVEMENT_BUTTON_PRESS, 10, 60, 0.3);
  some_block (&plan, SOME_MINUTES (20));
  carpace_load_block (&plan, 0, &block);
  assert_close (block.lowest_reserve, 1 - cycles.peak, 1e-12);
  assert_int_equal (block.group, CARPACE_GROUP_FINGER_FLEXORS);
  assert_int_equal (block.at_ms, SOME_MINUTES (20) + 3 * 40 * CARPACE_SECOND_MS);
}

/* No rest with less than a third of `after` to go; `after` is two thirds of
 * the limit at most. Over two drills at half the block each, worked bout by bout. */
static void
rests_are_a_session_s (void **state)
{
  static const struct { const char *row; int64_t limit_ms, after_ms; int64_t bouts_ms[3]; } rows[] = {
    { .row = "none at the very end", .limit_ms = 1200000, .after_ms = 600000, .bouts_ms = { 600000, 600000 } },
    { .row = "capped at two thirds", .limit_ms = 800000, .after_ms = 600000, .bouts_ms = { 533333, 266667 } },
    { .row = "two thirds", .limit_ms = 900000, .after_ms = 600000, .bouts_ms = { 600000, 300000 } },
    { .row = "under two thirds", .limit_ms = 900000, .after_ms = 599000, .bouts_ms = { 599000, 301000 } },
    { .row = "less than a third to go", .limit_ms = 1399999, .after_ms = 600000, .bouts_ms = { 600000, 799999 } },
    { .row = "a third to go", .limit_ms = 1400000, .after_ms = 600000, .bouts_ms = { 600000, 600000, 200000 } },
    { .row = "more than a third to go", .limit_ms = 1400001, .after_ms = 600000, .bouts_ms = { 600000, 600000, 200001 } },
    { .row = "no rests", .limit_ms = 900000, .after_ms = 0, .bouts_ms = { 900000 } },
    { .row = "a rest after a millisecond", .limit_ms = 2, .after_ms = 600000, .bouts_ms = { 1, 1 } },
    { .row = "rests where the drills change", .limit_ms = 1200000, .after_ms = 600000, .bouts_ms = { 600000, 600000 } },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    for (int drills = 1; drills <= 2; drills++)
      {
        CarpacePlan plan;
        CarpaceBlockLoad block;
        double m = 0, deepest = 0;
        int64_t done_ms = 0, rests_ms = 0, deepest_at_ms = 0, half_ms = rows[i].limit_ms / 2;
        print_message ("%s, %d\n", rows[i].row, drills);
        some_plan (&plan, rows[i].limit_ms);
        plan.after_ms = rows[i].after_ms;
        some_drill (&plan, CARPACE_MOVEMENT_BUTTON_PRESS, 10, 60, 0.3);
        if (drills == 2)
          some_drill (&plan, CARPACE_MOVEMENT_BUTTON_PRESS, 4, 60, 0.3);
        some_block (&plan, rows[i].limit_ms);
        carpace_load_block (&plan, 0, &block);
        for (int bout = 0; bout < 3 && rows[i].bouts_ms[bout] > 0; bout++)
          {
            int64_t end_ms = done_ms + rows[i].bouts_ms[bout];
            if (bout > 0)
              m = carpace_reserve_forward (CARPACE_REGION_HAND, m, 0, 30);
            rests_ms += bout > 0 ? 30000 : 0;
            while (done_ms < end_ms)
              {
                bool first = drills == 1 || done_ms < half_ms;
                int64_t to_ms = first && drills == 2 && half_ms < end_ms ? half_ms : end_ms;
                m = carpace_reserve_forward (CARPACE_REGION_HAND, m, first ? 0.10 : 0.04, (double) (to_ms - done_ms) / 1000);
                done_ms = to_ms;
                if (m > deepest)
                  deepest_at_ms = done_ms + rests_ms;
                deepest = fmax (deepest, m);
              }
          }
        assert_close (block.lowest_reserve, 1 - deepest, 1e-12);
        assert_int_equal (block.at_ms, deepest_at_ms);
      }
}

/* What was in it before is not looked at. */
static void
a_block_begins_rested (void **state)
{
  CarpacePlan plan;
  CarpaceBlockLoad block = { .lowest_reserve = 0, .at_ms = -1 };

  some_plan (&plan, SOME_MINUTES (1));
  plan.after_ms = 0;
  some_drill (&plan, CARPACE_MOVEMENT_BUTTON_PRESS, 0, 60, 0.3);
  some_block (&plan, SOME_MINUTES (1));
  carpace_load_block (&plan, 0, &block);
  assert_true (block.lowest_reserve == 1);
  assert_int_equal (block.at_ms, SOME_MINUTES (1));
  plan.after_ms = SOME_MINUTES (10);
  carpace_load_block (&plan, 0, &block);
  assert_int_equal (block.at_ms, SOME_MINUTES (1) * 2 / 3); /* as low again after a rest: the first time is told */
}

/* As many drills and blocks as a plan can have: none behind the last is looked at. */
static void
all_that_a_plan_holds (void **state)
{
  CarpacePlan plan;
  CarpaceBlockLoad block;
  CarpaceEase ease;

  some_plan (&plan, SOME_MINUTES (320));
  for (int i = 0; i < CARPACE_PLAN_DRILLS; i++)
    some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 5 + i % 7, 60, 0.3);
  for (int i = 0; i < CARPACE_PLAN_BLOCKS; i++)
    some_block (&plan, SOME_MINUTES (10));
  carpace_load_block (&plan, CARPACE_PLAN_BLOCKS - 1, &block);
  assert_true (block.strain_index > 0 && block.lowest_reserve < 1);
  assert_true (carpace_load_day (&plan) > block.strain_index);
  assert_true (carpace_load_ease (&plan, &ease));
}

/* Common practice: about 65 minutes as one long block is the most aggressive,
 * two of 30 safe, four of 15 conservative. By the lowest modelled reserve. */
static void
splits_come_in_the_order_of_common_practice (void **state)
{
  static const struct { int32_t blocks; int64_t min; } splits[] = { { 1, 65 }, { 2, 30 }, { 4, 15 } };
  for (CarpaceMovement movement = 0; movement < CARPACE_N_MOVEMENTS; movement++)
    for (double intensity = 8; intensity <= 15; intensity += 3.5)
      {
        double before = -1, index_before = INFINITY;
        for (int i = 0; i < 3; i++)
          {
            CarpacePlan plan;
            double lowest = 1, index;
            some_plan (&plan, splits[i].blocks * SOME_MINUTES (splits[i].min));
            some_drill (&plan, movement, intensity, 60, 0.3);
            for (int32_t block = 0; block < splits[i].blocks; block++)
              {
                CarpaceBlockLoad load;
                some_block (&plan, SOME_MINUTES (splits[i].min));
                carpace_load_block (&plan, block, &load);
                lowest = fmin (lowest, load.lowest_reserve);
              }
            assert_true (lowest > before);
            before = lowest;
            index = carpace_load_day (&plan);
            assert_true (index <= index_before * (1 + 1e-12));
            index_before = index;
          }
      }
}

static void
reserve_stays_in_its_range (void **state)
{
  Random random = { SEED };

  print_message ("seed %llu\n", (unsigned long long) SEED);
  for (int round = 0; round < 300; round++)
    {
      CarpacePlan plan;
      CarpaceBlockLoad load;
      int64_t elapsed_ms;

      some_plan (&plan, SOME_MINUTES (60));
      some_drills (&plan, &random, random_whole (&random, 1, 12));
      plan.after_ms = random_whole (&random, 1, 3600) * 1000;
      plan.rest_ms = random_whole (&random, 1, 300) * 1000;
      some_block (&plan, random_whole (&random, 1, 14400) * 1000);
      carpace_load_block (&plan, 0, &load);
      elapsed_ms = plan.blocks[0].limit_ms + plan.rest_ms * (plan.blocks[0].limit_ms / plan.after_ms + 2);
      assert_true (load.lowest_reserve >= 0 && load.lowest_reserve <= 1);
      assert_true (load.at_ms > 0 && load.at_ms <= elapsed_ms);
      assert_true (load.strain_index > 0 && isfinite (load.strain_index));
    }
}

/* The index of a day rises with a block's limit; so do the drill's with intensity and efforts. */
static void
the_day_rises_with_its_blocks (void **state)
{
  Random random = { SEED + 1 };

  print_message ("seed %llu\n", (unsigned long long) SEED + 1);
  for (int round = 0; round < 500; round++)
    {
      CarpacePlan plan;
      double index;

      some_plan (&plan, SOME_MINUTES (60));
      some_drills (&plan, &random, random_whole (&random, 1, 5));
      some_block (&plan, SOME_MINUTES (random_whole (&random, 5, 60)));
      index = carpace_load_day (&plan);
      plan.drills[0].intensity_pct_mvc *= 1.1;
      assert_true (carpace_load_day (&plan) > index);
      plan.drills[0].intensity_pct_mvc /= 1.1;
      plan.blocks[0].limit_ms += 60000;
      assert_true (carpace_load_day (&plan) > index);
      some_block (&plan, SOME_MINUTES (5));
      assert_true (carpace_load_day (&plan) > index);
    }
}

static void
over_a_day_has_no_index (void **state)
{
  CarpacePlan plan;

  some_plan (&plan, SOME_MINUTES (480));
  some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  for (int i = 0; i < 7; i++)
    some_block (&plan, SOME_MINUTES (240));
  assert_true (isnan (carpace_load_day (&plan)));
}

static double
lowest_of (const CarpacePlan *plan)
{
  double lowest = 1;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      CarpaceBlockLoad load;
      carpace_load_block (plan, i, &load);
      lowest = fmin (lowest, load.lowest_reserve);
    }
  return lowest;
}

/* A tenth of block @block from its hardest drill to its lightest; -1 where they are one. */
static int32_t
move_share (CarpacePlan *plan, int32_t block)
{
  CarpaceBlockPart *part = plan->blocks[block].parts, *hardest = part, *lightest = part;
  double most = -1, least = INFINITY;
  int32_t moved;

  for (int32_t i = 0; i < plan->blocks[block].n_parts; i++)
    {
      CarpaceDrillLoad load;
      carpace_load_part (plan, block, i, &load);
      if (load.strain.index > most)
        most = load.strain.index, hardest = &part[i];
      if (load.strain.index < least)
        least = load.strain.index, lightest = &part[i];
    }
  if (hardest == lightest)
    return -1;
  moved = hardest->share < 1000 ? hardest->share : 1000;
  hardest->share -= moved;
  lightest->share += moved;
  return hardest->drill;
}

static void
try_change (const CarpacePlan *plan, const CarpacePlan *eased, CarpaceEase ease, CarpaceEase *best)
{
  double index = carpace_load_day (plan), lowest = lowest_of (plan);

  ease.day_index = carpace_load_day (eased);
  ease.lowest_reserve = lowest_of (eased);
  ease.effect = fmax (0, fmax (1 - ease.day_index / index, 1 - (1 - ease.lowest_reserve) / (1 - lowest)));
  if (ease.effect > best->effect + 1e-12)
    *best = ease;
}

/* Every change there is, made in the plan itself and looked at from outside. */
static CarpaceEase
best_of_all_changes (const CarpacePlan *plan)
{
  CarpaceEase best = { .effect = 0 };
  CarpacePlan eased;

  for (int32_t i = 0; i < plan->n_blocks; i++)
    {
      int32_t drill;
      eased = *plan;
      eased.blocks[i].limit_ms = eased.blocks[i].limit_ms * 9 / 10 / 30000 * 30000;
      try_change (plan, &eased, (CarpaceEase) { .kind = CARPACE_EASE_LIMIT, .block = i, .drill = -1 }, &best);
      eased = *plan;
      drill = move_share (&eased, i);
      if (drill >= 0)
        try_change (plan, &eased, (CarpaceEase) { .kind = CARPACE_EASE_SHARE, .block = i, .drill = drill }, &best);
    }
  eased = *plan;
  eased.rest_ms *= 2;
  try_change (plan, &eased, (CarpaceEase) { .kind = CARPACE_EASE_REST, .block = -1, .drill = -1 }, &best);
  eased = *plan;
  eased.after_ms = eased.after_ms / 2 / 5000 * 5000;
  try_change (plan, &eased, (CarpaceEase) { .kind = CARPACE_EASE_RUN, .block = -1, .drill = -1 }, &best);
  return best;
}

/* What is told is the best of all changes, and what it comes to. */
static void
what_eases_most_does (void **state)
{
  Random random = { SEED + 2 };
  int kinds[CARPACE_N_EASES] = { 0 };

  print_message ("seed %llu\n", (unsigned long long) SEED + 2);
  for (int round = 0; round < 2000; round++)
    {
      CarpacePlan plan;
      CarpaceEase ease, best;

      some_plan (&plan, SOME_MINUTES (60));
      some_drills (&plan, &random, random_whole (&random, 1, 12));
      if (random_whole (&random, 0, 3) == 0) /* one that stands out, with less than a tenth */
        plan.drills[random_whole (&random, 0, plan.n_drills - 1)].intensity_pct_mvc = 60;
      plan.after_ms = random_whole (&random, 300, 1800) * 1000;
      plan.rest_ms = random_whole (&random, 5, 60) * 1000;
      for (int32_t i = random_whole (&random, 1, 3); i > 0; i--)
        some_block (&plan, random_whole (&random, 300, 3600) * 1000 + random_whole (&random, 0, 999));
      best = best_of_all_changes (&plan);
      assert_true (carpace_load_ease (&plan, &ease));
      kinds[ease.kind]++;
      assert_int_equal (ease.kind, best.kind);
      assert_int_equal (ease.block, best.block);
      assert_int_equal (ease.drill, best.drill);
      assert_close (ease.day_index, best.day_index, 1e-12 * (1 + best.day_index));
      assert_close (ease.lowest_reserve, best.lowest_reserve, 1e-12);
      assert_close (ease.effect, best.effect, 1e-9);
      assert_true (ease.effect > 0);
    }
  print_message ("limit %d, share %d, rest %d, run %d\n", kinds[0], kinds[1], kinds[2], kinds[3]);
  for (int kind = 0; kind < CARPACE_N_EASES; kind++)
    assert_true (kinds[kind] > 5);
}

/* What is offered is what a person would set, to the careful side, and what a plan may have. */
static void
eases_are_round (void **state)
{
  static const struct { int64_t limit_ms, then_ms; } limits[] = {
    { SOME_MINUTES (30), SOME_MINUTES (27) }, { SOME_MINUTES (29) + 1, SOME_MINUTES (26) },           { SOME_MINUTES (15), 13 * 60000 + 30000 },
    { 14 * 60000 + 30000, SOME_MINUTES (13) }, { 33334, 30000 }, { 33333, 29999 },
  };
  static const struct { int64_t after_ms, then_ms; } afters[] = { { 600000, 300000 }, { 610000, 305000 }, { 609999, 300000 }, { 9000, 4500 } };
  static const struct { int64_t rest_ms; bool possible; } rests[] = { { 149000, true }, { 150000, true }, { 151000, false } }; /* up to 5 min */
  static const struct { int64_t after_ms; bool possible; } runs[] = { { 1999, false }, { 2000, true }, { 2001, true } }; /* from 1 s on */
  CarpacePlan plan, eased;
  CarpaceEase ease;

  some_plan (&plan, SOME_MINUTES (60));
  some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_block (&plan, SOME_MINUTES (30));
  for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++)
    {
      plan.blocks[0].limit_ms = limits[i].limit_ms;
      carpace_load_eased (&plan, &(CarpaceEase) { .kind = CARPACE_EASE_LIMIT }, &eased);
      assert_int_equal (eased.blocks[0].limit_ms, limits[i].then_ms);
    }
  for (size_t i = 0; i < sizeof afters / sizeof afters[0]; i++)
    {
      plan.after_ms = afters[i].after_ms;
      carpace_load_eased (&plan, &(CarpaceEase) { .kind = CARPACE_EASE_RUN }, &eased);
      assert_int_equal (eased.after_ms, afters[i].then_ms);
    }
  plan.blocks[0].limit_ms = SOME_MINUTES (30);
  for (size_t i = 0; i < sizeof rests / sizeof rests[0]; i++)
    {
      plan.after_ms = 1000; /* less there cannot be, so that rests can only be longer */
      plan.rest_ms = rests[i].rest_ms;
      ease.kind = CARPACE_N_EASES;
      carpace_load_ease (&plan, &ease);
      assert_int_equal (ease.kind == CARPACE_EASE_REST, rests[i].possible);
    }
  for (size_t i = 0; i < sizeof runs / sizeof runs[0]; i++)
    {
      plan.after_ms = runs[i].after_ms;
      plan.rest_ms = SOME_MINUTES (5); /* more there cannot be */
      ease.kind = CARPACE_N_EASES;
      carpace_load_ease (&plan, &ease);
      assert_int_equal (ease.kind == CARPACE_EASE_RUN, runs[i].possible);
    }
}

/* Of drills that differ in intensity alone; nothing moves where none is harder than
 * another. */
static void
a_share_goes_from_the_hardest_to_the_lightest (void **state)
{
  static const struct { int32_t n; double intensity_pct[3]; int32_t from, to; } rows[] = {
    { 1, { 40 }, -1, -1 }, { 2, { 40, 40 }, -1, -1 }, { 3, { 40, 40, 40 }, -1, -1 },
    { 2, { 8, 40 }, 1, 0 }, { 2, { 40, 8 }, 0, 1 }, { 3, { 8, 40, 8 }, 1, 0 },
    { 3, { 40, 8, 40 }, 0, 1 }, { 3, { 20, 8, 40 }, 2, 1 }, { 3, { 20, 40, 8 }, 1, 2 },
  };

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpacePlan plan;
      CarpaceBlock *block = &plan.blocks[0];

      some_plan (&plan, SOME_MINUTES (60));
      for (int32_t drill = 0; drill < rows[i].n; drill++)
        some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, rows[i].intensity_pct[drill], 60, 0.3);
      some_block (&plan, SOME_MINUTES (30));
      for (int32_t part = 0; part < rows[i].n; part++)
        block->parts[part].share = 3000;
      assert_int_equal (carpace_ease_share (&plan, block), rows[i].from);
      for (int32_t part = 0; part < rows[i].n; part++)
        assert_int_equal (block->parts[part].share, part == rows[i].from ? 2000 : part == rows[i].to ? 4000 : 3000);
    }
}

/* Blocks as many as a plan may have: none behind the last is asked for. */
static void
all_blocks_there_may_be (void **state)
{
  CarpacePlan plan;
  CarpaceEase ease, best;

  some_plan (&plan, SOME_MINUTES (60));
  some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_drill (&plan, CARPACE_MOVEMENT_BUTTON_PRESS, 10, 80, 0.2);
  plan.after_ms = SOME_MINUTES (2);
  for (int32_t i = 0; i < CARPACE_PLAN_BLOCKS; i++)
    some_block (&plan, SOME_MINUTES (10 + i % 2));
  best = best_of_all_changes (&plan);
  assert_true (best.kind == CARPACE_EASE_REST || best.kind == CARPACE_EASE_RUN); /* what all blocks are walked for */
  assert_true (carpace_load_ease (&plan, &ease));
  assert_int_equal (ease.kind, best.kind);
  assert_close (ease.day_index, best.day_index, 1e-12 * best.day_index);
  assert_close (ease.lowest_reserve, best.lowest_reserve, 1e-12);
}

/* Where two changes do the same the first is told: of two blocks, of two drills that
 * are as hard, of two that are as light (which load other groups). */
static void
of_equals_the_first_is_told (void **state)
{
  CarpacePlan plan;
  CarpaceEase ease, best;

  some_plan (&plan, SOME_MINUTES (60));
  some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_block (&plan, SOME_MINUTES (30));
  some_block (&plan, SOME_MINUTES (30));
  plan.after_ms = 0;
  assert_true (carpace_load_ease (&plan, &ease));
  assert_int_equal (ease.kind, CARPACE_EASE_LIMIT);
  assert_int_equal (ease.block, 0);

  for (int twins = 0; twins < 2; twins++)
    {
      some_plan (&plan, SOME_MINUTES (60));
      some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 40, 60, 0.3);
      some_drill (&plan, twins == 0 ? CARPACE_MOVEMENT_SMALL_TURN : CARPACE_MOVEMENT_LARGE_TURN, twins == 0 ? 40 : 8, 60, 0.3);
      some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 8, 60, 0.3);
      some_block (&plan, SOME_MINUTES (60));
      plan.blocks[0].parts[0].share = 3000;
      plan.blocks[0].parts[1].share = twins == 0 ? 3000 : 3500;
      plan.blocks[0].parts[2].share = twins == 0 ? 4000 : 3500;
      best = best_of_all_changes (&plan);
      assert_int_equal (best.kind, CARPACE_EASE_SHARE);
      assert_true (carpace_load_ease (&plan, &ease));
      assert_int_equal (ease.kind, CARPACE_EASE_SHARE);
      assert_int_equal (ease.drill, 0);
      assert_close (ease.lowest_reserve, best.lowest_reserve, 1e-12);
      assert_close (ease.day_index, best.day_index, 1e-12 * best.day_index);
    }
}

/* Shares of a drill's intensity, one a group and no more. */
static void
one_load_a_group (void **state)
{
  CarpacePlan plan;
  double room[CARPACE_N_GROUPS + 2], *load = &room[1], share[CARPACE_N_GROUPS + 1];

  some_plan (&plan, 0);
  some_drill (&plan, CARPACE_MOVEMENT_LARGE_TURN, 40, 60, 0.3);
  load[-1] = load[CARPACE_N_GROUPS] = share[CARPACE_N_GROUPS] = 7;
  carpace_load_groups (&plan, 0, load);
  carpace_muscles_shares (CARPACE_MOVEMENT_LARGE_TURN, CARPACE_GRIP_PALM, CARPACE_SIDE_RIGHT, share);
  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    assert_close (load[group], 0.40 * share[group], 1e-15);
  assert_true (load[-1] == 7 && load[CARPACE_N_GROUPS] == 7 && share[CARPACE_N_GROUPS] == 7);
}

static void
nothing_eases_what_asks_nothing (void **state)
{
  CarpacePlan plan;
  CarpaceEase ease;

  some_plan (&plan, SOME_MINUTES (60));
  some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 0, 60, 0.3);
  some_drill (&plan, CARPACE_MOVEMENT_BUTTON_PRESS, 0, 60, 0.3);
  some_block (&plan, SOME_MINUTES (60));
  assert_false (carpace_load_ease (&plan, &ease));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (one_drill_alone),
    cmocka_unit_test (efforts_by_share_and_hours_by_limit),
    cmocka_unit_test (reserve_of_a_block_is_that_of_its_cycles),
    cmocka_unit_test (rests_are_a_session_s),
    cmocka_unit_test (a_block_begins_rested),
    cmocka_unit_test (all_that_a_plan_holds),
    cmocka_unit_test (splits_come_in_the_order_of_common_practice),
    cmocka_unit_test (reserve_stays_in_its_range),
    cmocka_unit_test (the_day_rises_with_its_blocks),
    cmocka_unit_test (over_a_day_has_no_index),
    cmocka_unit_test (what_eases_most_does),
    cmocka_unit_test (eases_are_round),
    cmocka_unit_test (a_share_goes_from_the_hardest_to_the_lightest),
    cmocka_unit_test (all_blocks_there_may_be),
    cmocka_unit_test (of_equals_the_first_is_told),
    cmocka_unit_test (one_load_a_group),
    cmocka_unit_test (nothing_eases_what_asks_nothing),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
