/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-load.c: what plans ask: index and reserve by part, block and day; the
 * ordering of splits that common practice knows; what eases most. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

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
  some_drill (&plan, CARPACE_MOVEMENT_CLICKING, 10, 80, 0.2);
  some_block (&plan, SOME_MINUTES (30));
  plan.blocks[0].parts[0].share = 2500;
  plan.blocks[0].parts[1].share = 7500;
  carpace_load_part (&plan, 0, 1, &part);
  CarpaceStrainTask task = { .intensity = 0.10, .efforts_per_min = 60, .effort_lasts_s = 0.2, .hours = 0.5 };
  assert_int_equal (carpace_strain_task (&task, &strain), CARPACE_STRAIN_OK);
  assert_close (part.strain.index, strain.index, 1e-12);
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
  some_drill (&plan, CARPACE_MOVEMENT_CLICKING, 10, 60, 0.3);
  some_block (&plan, SOME_MINUTES (20));
  carpace_load_block (&plan, 0, &block);
  assert_close (block.lowest_reserve, 1 - cycles.peak, 1e-12);
  assert_int_equal (block.group, CARPACE_GROUP_FINGER_FLEXORS);
  assert_int_equal (block.at_ms, SOME_MINUTES (20) + 3 * 40 * CARPACE_SECOND_MS);
}

/* No rest with less than a third of `after` to go; `after` is two thirds of
 * the limit at most. */
static void
rests_are_a_session_s (void **state)
{
  static const struct { const char *row; int64_t limit_s, after_s; int64_t bouts[3]; } rows[] = {
    { .row = "none at the very end", .limit_s = 1200, .after_s = 600, .bouts = { 600, 600 } },
    { .row = "a third of after to go", .limit_s = 800, .after_s = 600, .bouts = { 533, 267 } },
    { .row = "capped at two thirds", .limit_s = 900, .after_s = 900, .bouts = { 600, 300 } },
    { .row = "less than a third to go", .limit_s = 1300, .after_s = 600, .bouts = { 600, 700 } },
    { .row = "just a third to go", .limit_s = 1400, .after_s = 600, .bouts = { 600, 600, 200 } },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpacePlan plan;
      CarpaceBlockLoad block;
      double m = 0, deepest = 0;
      print_message ("%s\n", rows[i].row);
      some_plan (&plan, rows[i].limit_s * 1000);
      plan.after_ms = rows[i].after_s * 1000;
      some_drill (&plan, CARPACE_MOVEMENT_CLICKING, 10, 60, 0.3);
      some_block (&plan, rows[i].limit_s * 1000);
      carpace_load_block (&plan, 0, &block);
      for (int bout = 0; bout < 3 && rows[i].bouts[bout] > 0; bout++)
        {
          if (bout > 0)
            m = carpace_reserve_forward (CARPACE_REGION_HAND, m, 0, 30);
          m = carpace_reserve_forward (CARPACE_REGION_HAND, m, 0.10, (double) rows[i].bouts[bout]);
          deepest = fmax (deepest, m);
        }
      assert_close (block.lowest_reserve, 1 - deepest, 1e-3); /* 533.333 s and so on are cut to whole ms */
    }
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

/* The change told is looked up again by making it. */
static void
what_eases_most_does (void **state)
{
  Random random = { SEED + 2 };
  int kinds[CARPACE_N_EASES] = { 0 };

  print_message ("seed %llu\n", (unsigned long long) SEED + 2);
  for (int round = 0; round < 300; round++)
    {
      CarpacePlan plan, eased;
      CarpaceEase ease;
      CarpaceBlockLoad load;
      double index, lowest = 1, eased_lowest = 1;

      some_plan (&plan, SOME_MINUTES (60));
      some_drills (&plan, &random, random_whole (&random, 1, 4));
      plan.after_ms = SOME_MINUTES (random_whole (&random, 5, 20));
      for (int32_t i = random_whole (&random, 1, 3); i > 0; i--)
        some_block (&plan, SOME_MINUTES (random_whole (&random, 5, 60)));
      index = carpace_load_day (&plan);
      assert_true (carpace_load_ease (&plan, &ease));
      kinds[ease.kind]++;
      eased = plan;
      switch (ease.kind)
        {
        case CARPACE_EASE_LIMIT: eased.blocks[ease.block].limit_ms = eased.blocks[ease.block].limit_ms * 9 / 10; break;
        case CARPACE_EASE_REST: eased.rest_ms *= 2; break;
        case CARPACE_EASE_RUN: eased.after_ms /= 2; break;
        case CARPACE_EASE_SHARE:
        case CARPACE_N_EASES: continue;
        }
      for (int32_t i = 0; i < plan.n_blocks; i++)
        {
          carpace_load_block (&plan, i, &load);
          lowest = fmin (lowest, load.lowest_reserve);
          carpace_load_block (&eased, i, &load);
          eased_lowest = fmin (eased_lowest, load.lowest_reserve);
        }
      assert_close (ease.day_index, carpace_load_day (&eased), 1e-12 * (1 + index));
      assert_close (ease.lowest_reserve, eased_lowest, 1e-12);
      assert_close (ease.effect, fmax (1 - ease.day_index / index, 1 - (1 - eased_lowest) / (1 - lowest)), 1e-9);
      assert_true (ease.effect > 0);
    }
  print_message ("limit %d, share %d, rest %d, run %d\n", kinds[0], kinds[1], kinds[2], kinds[3]);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (one_drill_alone),
    cmocka_unit_test (efforts_by_share_and_hours_by_limit),
    cmocka_unit_test (reserve_of_a_block_is_that_of_its_cycles),
    cmocka_unit_test (rests_are_a_session_s),
    cmocka_unit_test (splits_come_in_the_order_of_common_practice),
    cmocka_unit_test (reserve_stays_in_its_range),
    cmocka_unit_test (the_day_rises_with_its_blocks),
    cmocka_unit_test (over_a_day_has_no_index),
    cmocka_unit_test (what_eases_most_does),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
