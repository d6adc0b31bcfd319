/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-split.c: splits keep what they promise; the highest index against every
 * split there is, for small days. (glpk-split.py has an integer programme
 * solved.) */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/split.h"
#include "some-days.h"
#include "../fakes/rounds.h"

#define SEED UINT64_C (20270305)

/* ---- every split there is ---- */

typedef struct
{
  CarpacePlan *plan;
  int32_t n_blocks, runs[CARPACE_PLAN_DRILLS];
  int64_t longest_run_ms;
  int32_t table[CARPACE_PLAN_BLOCKS][CARPACE_PLAN_DRILLS];
  double least;        /* highest index of a block */
  double most_reserve; /* of those with the least index, over all orders of their parts */
  int32_t n_looked;
} Brute;

/* The plan's own rounding: hundredths of a percent, the largest share takes the rest. */
static bool
write_table (Brute *brute)
{
  int64_t shortest = INT64_MAX, longest = 0;

  for (int32_t b = 0; b < brute->n_blocks; b++)
    {
      CarpaceBlock *block = &brute->plan->blocks[b];
      int32_t left = CARPACE_WHOLE, largest = 0;
      block->n_parts = 0;
      block->limit_ms = 0;
      for (int32_t i = 0; i < brute->plan->n_drills; i++)
        block->limit_ms += brute->table[b][i] * brute->plan->drills[i].run_ms;
      if (block->limit_ms == 0)
        return false;
      for (int32_t i = 0; i < brute->plan->n_drills; i++)
        if (brute->table[b][i] > 0)
          {
            double ms = (double) (brute->table[b][i] * brute->plan->drills[i].run_ms);
            int32_t share = (int32_t) floor (ms * CARPACE_WHOLE / (double) block->limit_ms + 0.5);
            block->parts[block->n_parts] = (CarpaceBlockPart) { .drill = i, .share = share };
            left -= share;
            if (share > block->parts[largest].share)
              largest = block->n_parts;
            block->n_parts++;
          }
      block->parts[largest].share += left;
      shortest = block->limit_ms < shortest ? block->limit_ms : shortest;
      longest = block->limit_ms > longest ? block->limit_ms : longest;
    }
  brute->plan->n_blocks = brute->n_blocks;
  return longest - shortest <= brute->longest_run_ms;
}

static double
highest_index (const CarpacePlan *plan)
{
  double highest = 0;

  for (int32_t b = 0; b < plan->n_blocks; b++)
    {
      CarpaceBlockLoad load;
      carpace_load_block (plan, b, &load);
      highest = fmax (highest, load.strain_index);
    }
  return highest;
}

static double
most_reserve_of (CarpacePlan *plan, CarpaceBlock *block, int32_t from)
{
  CarpaceBlockLoad load;
  double most = 0;

  if (from + 1 >= block->n_parts)
    {
      carpace_load_reserve (plan, block, &load);
      return load.lowest_reserve;
    }
  for (int32_t i = from; i < block->n_parts; i++)
    {
      CarpaceBlockPart part = block->parts[from];
      block->parts[from] = block->parts[i];
      block->parts[i] = part;
      most = fmax (most, most_reserve_of (plan, block, from + 1));
      block->parts[i] = block->parts[from];
      block->parts[from] = part;
    }
  return most;
}

static void
look (Brute *brute)
{
  double index, reserve = 1;

  if (!write_table (brute))
    return;
  brute->n_looked++;
  index = highest_index (brute->plan);
  if (index > brute->least * (1 + 1e-10))
    return;
  for (int32_t b = 0; b < brute->n_blocks; b++)
    reserve = fmin (reserve, most_reserve_of (brute->plan, &brute->plan->blocks[b], 0));
  if (index < brute->least * (1 - 1e-10) || reserve > brute->most_reserve)
    brute->most_reserve = reserve;
  brute->least = fmin (brute->least, index);
}

static void
every_table (Brute *brute, int32_t drill, int32_t block, int32_t to_go)
{
  if (drill == brute->plan->n_drills)
    {
      look (brute);
      return;
    }
  if (block == brute->n_blocks - 1)
    {
      brute->table[block][drill] = to_go;
      every_table (brute, drill + 1, 0, drill + 1 < brute->plan->n_drills ? brute->runs[drill + 1] : 0);
      return;
    }
  for (int32_t n = 0; n <= to_go; n++)
    {
      brute->table[block][drill] = n;
      every_table (brute, drill, block + 1, to_go - n);
    }
}

static void
the_least_index_of_all_splits (void **state)
{
  Random random = { SEED };
  int looked = 0;

  print_message ("seed %llu\n", (unsigned long long) SEED);
  for (int round = 0; round < carpace_test_rounds (400); round++)
    {
      static CarpacePlan plan, tried;
      static Brute brute;
      CarpaceSplitFound found;
      int32_t n = random_whole (&random, 1, 4), into = random_whole (&random, 1, 3);
      bool mixed = random_whole (&random, 0, 1), fast = random_whole (&random, 0, 3) == 0;

      some_plan (&plan, 0);
      some_drills (&plan, &random, n);
      for (int32_t i = 0; i < n; i++)
        {
          if (mixed)
            plan.drills[i].run_ms = 15000 * random_whole (&random, 2, 6);
          if (fast)
            {
              plan.drills[i].efforts_per_min = random_whole (&random, 80, 180);
              plan.drills[i].effort_lasts_s = 0.3;
            }
          plan.drills[i].time_ms = plan.drills[i].run_ms * random_whole (&random, 1, n > 3 ? 4 : 6);
          plan.dose_ms += plan.drills[i].time_ms;
        }
      tried = plan;
      brute = (Brute) { .plan = &tried, .n_blocks = into, .least = INFINITY };
      for (int32_t i = 0; i < n; i++)
        {
          brute.runs[i] = (int32_t) (plan.drills[i].time_ms / plan.drills[i].run_ms);
          brute.longest_run_ms = plan.drills[i].run_ms > brute.longest_run_ms ? plan.drills[i].run_ms : brute.longest_run_ms;
        }
      every_table (&brute, 0, 0, brute.runs[0]);
      looked += brute.n_looked;
      if (!carpace_split (&plan, into, &found))
        {
          assert_int_equal (brute.n_looked, 0);
          continue;
        }
      assert_true (found.exact && found.proven);
      if (fabs (found.highest_index - brute.least) > 1e-9 * brute.least)
        fail_msg ("round %d: %.10g, and there is %.10g (%s%s)", round, found.highest_index, brute.least, mixed ? "mixed " : "", fast ? "fast" : "");
      assert_true (fabs (found.bound - brute.least) <= 1e-9 * brute.least);
      if (found.lowest_reserve < brute.most_reserve - 1e-6)
        fail_msg ("round %d: lowest reserve %.8g, and there is %.8g", round, found.lowest_reserve, brute.most_reserve);
    }
  print_message ("%d splits looked at\n", looked);
  assert_true (looked > carpace_test_rounds (10000));
}

/* ---- what every split keeps ---- */

static int32_t
runs_of (const CarpacePlan *plan, const CarpaceBlock *block, int32_t part)
{
  double runs = (double) block->limit_ms * block->parts[part].share / CARPACE_WHOLE
                / (double) carpace_split_run_ms (plan, block->parts[part].drill);
  int32_t whole = (int32_t) floor (runs + 0.5);

  assert_true (fabs (runs - whole) < 0.05 * (1 + whole)); /* shares are rounded */
  return whole;
}

static void
assert_kept (const CarpacePlan *plan, int32_t into, const int32_t *runs, const CarpaceSplitFound *found)
{
  int64_t shortest = INT64_MAX, longest = 0, longest_run = 0;
  int32_t dealt[CARPACE_PLAN_DRILLS] = { 0 };
  double lowest = 1;

  assert_int_equal (plan->n_blocks, into);
  for (int32_t b = 0; b < into; b++)
    {
      const CarpaceBlock *block = &plan->blocks[b];
      CarpaceBlockLoad load;
      int32_t shares = 0;
      int64_t length = 0;
      for (int32_t i = 0; i < block->n_parts; i++)
        {
          int32_t n = runs_of (plan, block, i);
          assert_true (n > 0);
          shares += block->parts[i].share;
          dealt[block->parts[i].drill] += n;
          length += n * carpace_split_run_ms (plan, block->parts[i].drill);
        }
      assert_int_equal (shares, CARPACE_WHOLE);
      assert_int_equal (length, block->limit_ms);
      shortest = length < shortest ? length : shortest;
      longest = length > longest ? length : longest;
      carpace_load_block (plan, b, &load);
      lowest = fmin (lowest, load.lowest_reserve);
    }
  for (int32_t i = 0; i < plan->n_drills; i++)
    {
      int64_t run = carpace_split_run_ms (plan, i);
      longest_run = run > longest_run ? run : longest_run;
      assert_int_equal (dealt[i], runs[i]);
    }
  assert_true (longest - shortest <= longest_run);
  assert_true (fabs (found->highest_index - highest_index (plan)) <= 1e-9 * found->highest_index);
  assert_true (fabs (found->lowest_reserve - lowest) < 1e-12);
  assert_true (found->bound <= found->highest_index && found->bound > 0.5 * found->highest_index);
}

static void
splits_keep_what_they_promise (void **state)
{
  Random random = { SEED + 1 };

  print_message ("seed %llu\n", (unsigned long long) SEED + 1);
  for (int round = 0; round < 40; round++)
    {
      static CarpacePlan plan;
      CarpaceSplitFound found;
      int32_t n = random_whole (&random, 1, 10), into = random_whole (&random, 1, 6), runs[CARPACE_PLAN_DRILLS], all = 0;

      some_plan (&plan, 0);
      some_drills (&plan, &random, n);
      for (int32_t i = 0; i < n; i++)
        {
          plan.drills[i].run_ms = 15000 * random_whole (&random, 1, 8);
          runs[i] = random_whole (&random, 1, 8);
          all += runs[i];
          plan.drills[i].time_ms = runs[i] * plan.drills[i].run_ms;
          plan.dose_ms += plan.drills[i].time_ms;
        }
      if (carpace_split (&plan, into, &found))
        assert_kept (&plan, into, runs, &found);
      else
        assert_true (all < into);
    }
}

/* As many whole runs as fit; what that loses goes to those that lost most,
 * and the day gets no longer than asked. */
static void
runs_are_whole (void **state)
{
  static const struct { const char *row; int64_t dose_s, run_s[3], time_s[3]; int32_t n, runs[3]; } rows[] = {
    { .row = "equal shares of the dose", .dose_s = 1800, .n = 3, .run_s = { 60, 60, 60 }, .runs = { 10, 10, 10 } },
    { .row = "what is over goes to the first that lost", .dose_s = 1900, .n = 3, .run_s = { 60, 60, 60 }, .runs = { 11, 10, 10 } },
    { .row = "a run longer than its time", .dose_s = 600, .n = 2, .run_s = { 60, 600 }, .time_s = { 300, 300 }, .runs = { 5, 1 } },
    { .row = "no run: a minute", .dose_s = 600, .n = 2, .run_s = { 0, 120 }, .time_s = { 360, 240 }, .runs = { 6, 2 } },
    { .row = "no run and less than a minute", .dose_s = 60, .n = 2, .run_s = { 0, 10 }, .time_s = { 40, 20 }, .runs = { 1, 2 } },
    { .row = "own time and the rest", .dose_s = 1200, .n = 3, .run_s = { 60, 60, 60 }, .time_s = { 600 }, .runs = { 10, 5, 5 } },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      CarpacePlan plan;
      CarpaceSplitFound found;
      print_message ("%s\n", rows[i].row);
      some_plan (&plan, rows[i].dose_s * 1000);
      for (int32_t j = 0; j < rows[i].n; j++)
        {
          CarpaceDrill *drill = some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 30 + j, 0.3);
          drill->run_ms = rows[i].run_s[j] * 1000;
          drill->time_ms = rows[i].time_s[j] * 1000;
        }
      assert_true (carpace_split (&plan, 1, &found));
      assert_kept (&plan, 1, rows[i].runs, &found);
      assert_true (found.proven);
    }
}

static void
too_few_runs_are_refused (void **state)
{
  CarpacePlan plan, before;
  CarpaceSplitFound found;

  some_plan (&plan, 180000);
  some_drill (&plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  some_block (&plan, 180000);
  before = plan;
  assert_false (carpace_split (&plan, 4, &found));
  assert_false (carpace_split (&plan, 0, &found));
  assert_false (carpace_split (&plan, CARPACE_PLAN_BLOCKS + 1, &found));
  assert_memory_equal (&plan, &before, sizeof plan);
  assert_true (carpace_split (&plan, 3, &found));
}

/* Drills that strain the same but load other groups: any split has the same
 * index, and neighbours on one prime group need not be. */
static void
neighbours_are_told_apart (void **state)
{
  CarpacePlan plan;
  CarpaceSplitFound found;

  some_plan (&plan, 40 * CARPACE_MINUTE_MS);
  for (int i = 0; i < 4; i++)
    some_drill (&plan, i < 2 ? CARPACE_MOVEMENT_SMALL_TURN : CARPACE_MOVEMENT_LARGE_TURN, 10, 30, 0.3);
  assert_true (carpace_split (&plan, 2, &found));
  assert_true (found.proven);
  for (int32_t b = 0; b < 2; b++)
    for (int32_t i = 1; i < plan.blocks[b].n_parts; i++)
      assert_true (plan.drills[plan.blocks[b].parts[i].drill].movement
                   != plan.drills[plan.blocks[b].parts[i - 1].drill].movement);
}

/* ---- ten drills on four blocks ---- */

/* What is promised up to 10 drills x 4 blocks: all that stay within 90 efforts a
 * minute; nearly all of the others. Counts, so that a change that loses proofs
 * is seen. */
static void
ten_drills_on_four_blocks_are_proven (void **state)
{
  /* by kind: proven of a hundred at least, and the largest gap; 1 is not asked */
  static const struct { int proven; double gap; } wanted[SOME_KINDS] = { { 100, 0.005 }, { 100, 0.01 }, { 100, 0.01 }, { 100, 0.02 }, { 97, 1 }, { 85, 1 } };
  const int days = carpace_test_rounds (40);

  print_message ("seed %llu\n", (unsigned long long) SEED + 2);
  for (size_t i = 0; i < SOME_KINDS; i++)
    {
      Random random = { SEED + 2 };
      int proven = 0;
      double gap = 0;
      for (int day = 0; day < days; day++)
        {
          static CarpacePlan plan;
          CarpaceSplitFound found;
          some_day (&plan, &random, &some_kinds[i], 10);
          assert_true (carpace_split (&plan, 4, &found));
          proven += found.proven;
          gap = fmax (gap, 1 - found.bound / found.highest_index);
        }
      print_message ("%s: %d of %d proven, largest gap %.2f %%\n", some_kinds[i].row, proven, days, 100 * gap);
      assert_true (proven * 100 >= days * wanted[i].proven);
      assert_true (gap <= wanted[i].gap);
    }
}

/* Runs without a common step, of a second, of an hour; forces and efforts up
 * to their ends: the search gives up in time, and says so. */
static void
odd_days_come_to_an_end (void **state)
{
  Random random = { SEED + 4 };

  print_message ("seed %llu\n", (unsigned long long) SEED + 4);
  for (int round = 0; round < carpace_test_rounds (60); round++)
    {
      static CarpacePlan plan;
      CarpaceSplitFound found;
      int32_t n = random_whole (&random, 1, 16), into = random_whole (&random, 1, round % 5 == 0 ? 32 : 8);

      some_plan (&plan, 0);
      for (int32_t i = 0; i < n; i++)
        {
          double efforts = random_real (&random, 1, 600);
          CarpaceDrill *drill = some_drill (&plan, (CarpaceMovement) random_whole (&random, 0, CARPACE_N_MOVEMENTS - 1),
                                            random_real (&random, 0.1, 100), efforts, 60 / efforts * random_real (&random, 0.2, 1));
          const int64_t runs_ms[] = { 1000, random_whole (&random, 1000, 3600000), 1001 + random_whole (&random, 0, 3) };
          drill->run_ms = runs_ms[round % 3];
          drill->time_ms = random_whole (&random, 1000, 28800000 / n);
          plan.dose_ms += drill->time_ms;
        }
      if (!carpace_split (&plan, into, &found))
        continue;
      assert_true (found.bound > 0 && found.bound <= found.highest_index);
      assert_true (fabs (found.highest_index - highest_index (&plan)) <= 1e-9 * found.highest_index);
      assert_true (found.lowest_reserve >= 0 && found.lowest_reserve <= 1);
    }
}

/* Work is counted and has an end: no day at random, and not the one that took 6.6 s
 * to tell ties apart, costs more. It would catch a loop that spends nothing of it
 * only where time goes without it: the benchmark core/split-work shows that. */
static void
no_split_costs_more_than_it_may (void **state)
{
  Random random = { SEED + 5 };
  static CarpacePlan plan;
  CarpaceSplitFound found;
  int64_t most = 0;
  int ended_by_it = 0;

  print_message ("seed %llu\n", (unsigned long long) SEED + 5);
  for (int round = 0; round < carpace_test_rounds (40); round++)
    {
      int32_t into = round == 0 ? day_of_ties (&plan) : hard_day (&plan, &random);
      if (!carpace_split (&plan, into, &found))
        continue;
      assert_in_range (found.work, 1, CARPACE_SPLIT_WORK);
      most = found.work > most ? found.work : most;
      ended_by_it += !found.proven;
      assert_true (found.proven || !found.exact);
      assert_true (found.lowest_reserve >= 0 && found.lowest_reserve <= 1);
      assert_true (found.bound > 0 && found.bound <= found.highest_index);
    }
  print_message ("at most %lld; %d not proven\n", (long long) most, ended_by_it);
  assert_true (ended_by_it > 0 && most > CARPACE_SPLIT_WORK / 2);
}

static void
the_same_day_has_the_same_split (void **state)
{
  Random random = { SEED + 6 };
  static CarpacePlan plan, again;

  for (int round = 0; round < 6; round++)
    {
      CarpaceSplitFound found, found_again;
      int32_t into = hard_day (&plan, &random);

      again = plan;
      if (!carpace_split (&plan, into, &found))
        continue;
      assert_true (carpace_split (&again, into, &found_again));
      assert_memory_equal (&plan, &again, sizeof plan);
      assert_int_equal (found.work, found_again.work);
    }
}

static void
the_largest_day_has_a_bound (void **state)
{
  static CarpacePlan plan;
  CarpaceSplitFound found;
  Random random = { SEED + 3 };
  int32_t runs[CARPACE_PLAN_DRILLS];

  some_plan (&plan, SOME_MINUTES (480));
  some_drills (&plan, &random, CARPACE_PLAN_DRILLS);
  for (int32_t i = 0; i < CARPACE_PLAN_DRILLS; i++)
    {
      runs[i] = 7;
      plan.drills[i].time_ms = SOME_MINUTES (7);
    }
  assert_true (carpace_split (&plan, CARPACE_PLAN_BLOCKS, &found));
  assert_kept (&plan, CARPACE_PLAN_BLOCKS, runs, &found);
  assert_true (found.bound > 0.9 * found.highest_index);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_least_index_of_all_splits),
    cmocka_unit_test (splits_keep_what_they_promise),
    cmocka_unit_test (runs_are_whole),
    cmocka_unit_test (too_few_runs_are_refused),
    cmocka_unit_test (neighbours_are_told_apart),
    cmocka_unit_test (ten_drills_on_four_blocks_are_proven),
    cmocka_unit_test (odd_days_come_to_an_end),
    cmocka_unit_test (no_split_costs_more_than_it_may),
    cmocka_unit_test (the_same_day_has_the_same_split),
    cmocka_unit_test (the_largest_day_has_a_bound),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
