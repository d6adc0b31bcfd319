/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-dose-limits.c: a dose divided into the limits of its blocks, to the
 * millisecond at every border. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/dose.h"

#define MIN CARPACE_MINUTE_MS

/* Limits in ms; lists end with 0. */
typedef struct
{
  const char *name;
  int64_t blocks[4], first_ms, dose_ms;  /* the plan's blocks and dose, the day's dose */
  int64_t shortest_ms, longest_ms, unit_ms; /* 0: 1 min, 4 h, 1 ms */
  int64_t limits[6];
} Row;

static const Row rows[] = {
  { "as planned", { 20 * MIN, 10 * MIN }, 30 * MIN, 30 * MIN, .limits = { 20 * MIN, 10 * MIN } },
  { "no practice", { 20 * MIN, 10 * MIN }, 30 * MIN, 0, .limits = { 0 } },
  { "less than none", { 20 * MIN, 10 * MIN }, 30 * MIN, -1, .limits = { 0 } },
  { "a millisecond", { 20 * MIN }, 20 * MIN, 1, .limits = { 1 } },
  { "two thirds", { 20 * MIN, 10 * MIN }, 30 * MIN, 20 * MIN, .limits = { 13 * MIN + 20000, 6 * MIN + 40000 } },
  { "in whole minutes", { 20 * MIN, 10 * MIN }, 30 * MIN, 20 * MIN, .unit_ms = MIN, .limits = { 13 * MIN, 6 * MIN } },
  { "5 min are a block", { 20 * MIN, 10 * MIN }, 30 * MIN, 15 * MIN, .limits = { 10 * MIN, 5 * MIN } },
  { "a millisecond less is none: the first has it all", { 20 * MIN, 10 * MIN }, 30 * MIN, 15 * MIN - 1, .limits = { 15 * MIN - 1 } },
  { "one block may be shorter", { 20 * MIN }, 20 * MIN, 4 * MIN, .limits = { 4 * MIN } },
  { "what is planned shorter may be as short as that", { 20 * MIN, 4 * MIN }, 24 * MIN, 48 * MIN, .limits = { 40 * MIN, 8 * MIN } },
  { "but no shorter", { 20 * MIN, 4 * MIN }, 24 * MIN, 18 * MIN, .limits = { 18 * MIN } },
  { "shortest counts where it is more", { 20 * MIN, 10 * MIN }, 30 * MIN, 24 * MIN, .shortest_ms = 8 * MIN, .limits = { 16 * MIN, 8 * MIN } },
  { "a millisecond under it", { 20 * MIN, 10 * MIN }, 30 * MIN, 24 * MIN - 3, .shortest_ms = 8 * MIN, .limits = { 24 * MIN - 3 } },
  { "of three the last is taken away", { 20 * MIN, 10 * MIN, 10 * MIN }, 40 * MIN, 18 * MIN, .limits = { 12 * MIN, 6 * MIN } },
  { "the rest is divided exactly", { 3 * 3600001, 2 * 3600001, 5 * MIN }, 18300005, 9000011, .limits = { 5400006, 3600004 } },
  /* the first day */
  { "more of the last, where the dose is more", { 20 * MIN, 10 * MIN }, 45 * MIN, 45 * MIN, .limits = { 20 * MIN, 10 * MIN, 10 * MIN, 5 * MIN } },
  { "less than 5 min over is nothing", { 20 * MIN, 10 * MIN }, 45 * MIN - 1, 45 * MIN - 1, .limits = { 20 * MIN, 10 * MIN, 10 * MIN } },
  { "of a last block under 5 min, too", { 20 * MIN, 4 * MIN }, 28 * MIN, 28 * MIN, .limits = { 20 * MIN, 4 * MIN, 4 * MIN } },
  { "less than it is nothing", { 20 * MIN, 4 * MIN }, 28 * MIN - 1, 28 * MIN - 1, .limits = { 20 * MIN, 4 * MIN } },
  { "scaled down, where the dose is less", { 20 * MIN, 10 * MIN }, 15 * MIN, 15 * MIN, .limits = { 10 * MIN, 5 * MIN } },
  { "a further block is as its last", { 20 * MIN, 8 * MIN }, 36 * MIN, 27 * MIN, .limits = { 15 * MIN, 6 * MIN, 6 * MIN } },
  { "also as short as it", { 20 * MIN, 4 * MIN }, 28 * MIN, 27 * MIN, .limits = { 22 * MIN + 30000, 4 * MIN + 30000 } },
  { "it is no shorter than 5 min", { 20 * MIN, 10 * MIN }, 36 * MIN, 29 * MIN, .limits = { 1160000, 580000 } },
  { "nor one behind a single block", { 10 * MIN }, 16 * MIN, 12 * MIN, .limits = { 12 * MIN } },
  /* longest */
  { "as long as longest", { 20 * MIN, 10 * MIN }, 30 * MIN, 45 * MIN, .longest_ms = 30 * MIN, .limits = { 30 * MIN, 15 * MIN } },
  { "5 min over it are a further block", { 20 * MIN, 10 * MIN }, 30 * MIN, 45 * MIN, .longest_ms = 25 * MIN, .limits = { 25 * MIN, 15 * MIN, 5 * MIN } },
  { "a millisecond less is nothing", { 20 * MIN, 10 * MIN }, 30 * MIN, 45 * MIN, .longest_ms = 25 * MIN + 1, .limits = { 25 * MIN + 1, 15 * MIN } },
  { "a further one is no longer either", { 20 * MIN, 10 * MIN }, 30 * MIN, 60 * MIN, .longest_ms = 12 * MIN, .limits = { 12 * MIN, 12 * MIN, 12 * MIN, 12 * MIN, 12 * MIN } },
};

static void
plan_of (CarpacePlan *plan, const Row *row)
{
  memset (plan, 0, sizeof *plan);
  for (; plan->n_blocks < 4 && row->blocks[plan->n_blocks] > 0; plan->n_blocks++)
    plan->blocks[plan->n_blocks].limit_ms = row->blocks[plan->n_blocks];
  plan->dose_ms = row->first_ms;
  plan->shortest_ms = row->shortest_ms > 0 ? row->shortest_ms : MIN;
  plan->longest_ms = row->longest_ms > 0 ? row->longest_ms : 4 * CARPACE_HOUR_MS;
  plan->round_down_to_ms = row->unit_ms > 0 ? row->unit_ms : 1;
}

static void
limits_of_a_dose (void **state)
{
  static CarpacePlan plan;
  int failed = 0;

  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      int64_t limit_ms[CARPACE_DAY_BLOCKS];
      int32_t n, expected = 0;
      bool same = true;
      plan_of (&plan, &rows[i]);
      n = carpace_dose_limits (&plan, rows[i].dose_ms, limit_ms);
      for (; expected < 6 && rows[i].limits[expected] > 0; expected++)
        same = same && expected < n && limit_ms[expected] == rows[i].limits[expected];
      if (same && n == expected)
        continue;
      print_error ("%s:", rows[i].name);
      for (int32_t k = 0; k < n; k++)
        print_error (" %lld", (long long) limit_ms[k]);
      print_error ("\n");
      failed++;
    }
  assert_int_equal (failed, 0);
}

/* Beyond 96 blocks nothing is added: 95, 96 and 97 of 5 min. */
static void
no_more_than_a_day_has (void **state)
{
  static CarpacePlan plan;
  const Row row = { "", { 5 * MIN }, 5 * MIN, 0, .longest_ms = 5 * MIN };
  int64_t limit_ms[CARPACE_DAY_BLOCKS + 1];

  for (int n = CARPACE_DAY_BLOCKS - 1; n <= CARPACE_DAY_BLOCKS + 1; n++)
    {
      const int32_t expected = n < CARPACE_DAY_BLOCKS ? n : CARPACE_DAY_BLOCKS;
      plan_of (&plan, &row);
      limit_ms[CARPACE_DAY_BLOCKS] = 99;
      assert_int_equal (carpace_dose_limits (&plan, n * 5 * MIN, limit_ms), expected); /* by longest */
      assert_int_equal (limit_ms[CARPACE_DAY_BLOCKS], 99);
      plan.dose_ms = n * 5 * MIN;
      assert_int_equal (carpace_dose_limits (&plan, plan.dose_ms, limit_ms), expected); /* on the first day */
      assert_int_equal (limit_ms[CARPACE_DAY_BLOCKS], 99);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (limits_of_a_dose), cmocka_unit_test (no_more_than_a_day_has) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
