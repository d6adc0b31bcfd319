/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-builder.c: ranges, defaults and what belongs together. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/names.h"
#include "carpace/plan-builder.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))
#define S 1000.0
#define MIN (60 * S)
#define H (60 * MIN)

static CarpacePlanBuilder builder, builder_unsplit;
static CarpacePlan plan;

static int
begin (void **state)
{
  carpace_plan_builder_init (&builder);
  return 0;
}

/* A drill, and blocks of it that are as long as @limits (ended by 0) say. */
static void
add_blocks (const int64_t *limits_ms)
{
  int32_t drill = carpace_plan_builder_drill (&builder, "a", 100);

  carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 101);
  carpace_plan_builder_drill_number (&builder, drill, CARPACE_DRILL_MOVEMENT, CARPACE_MOVEMENT_BUTTON_PRESS, 102);
  carpace_plan_builder_blocks_at (&builder, 103);
  for (; *limits_ms; limits_ms++)
    carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, *limits_ms, false, 104), "a", -1, 105);
}

static void
add_least (void)
{
  add_blocks ((const int64_t[]){ 30 * CARPACE_MINUTE_MS, 0 });
}

/* The only flaw told is @kind at @place. */
static void
assert_flaw (const char *row, CarpaceFlawKind kind, CarpacePlace place)
{
  if (builder.n_flaws != 1 || builder.flaws[0].kind != kind || builder.flaws[0].place != place)
    fail_msg ("%s: %d flaws, the first %d at %d; expected %d at %d", row, (int) builder.n_flaws,
              builder.n_flaws > 0 ? (int) builder.flaws[0].kind : -1,
              builder.n_flaws > 0 ? (int) builder.flaws[0].place : -1, (int) kind, (int) place);
}

static void
finish_with (const char *row, CarpaceFlawKind kind, CarpacePlace place)
{
  bool done = carpace_plan_builder_finish (&builder, &plan);

  assert_flaw (row, kind, place);
  assert_int_equal (done, carpace_flaw_is_warning (kind));
}

/* The key table's ranges, written down a second time. */
static const struct { CarpacePlanKey key; double low, high, step; } ranges[] = {
  { CARPACE_KEY_HAND_SIDE, 0, 1, 1 },
  { CARPACE_KEY_HAND_GRIP, 0, 2, 1 },
  { CARPACE_KEY_HAND_CM_PER_TURN, 2, 200, 0.001 },
  { CARPACE_KEY_HAND_USUAL_DISCOMFORT, 0, 10, 1 },
  { CARPACE_KEY_PLAYER_AGE, 0, 2, 1 },
  { CARPACE_KEY_DAY_DOSE, 1 * S, 8 * H, 1 },
  { CARPACE_KEY_DAY_STARTS_AT, 0, 1439, 1 },
  { CARPACE_KEY_DAY_BETWEEN_BLOCKS, 0, 12 * H, 1 },
  { CARPACE_KEY_GAP_AFTER, 1 * S, 30 * S, 1 },
  { CARPACE_KEY_RUN_MIN, 1 * S, 300 * S, 1 },
  { CARPACE_KEY_MICRO_REST_AFTER, 1 * S, 2 * H, 1 },
  { CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS, 1, 100, 1 },
  { CARPACE_KEY_MICRO_REST_LENGTH, 1 * S, 5 * MIN, 1 },
  { CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST, 1, 99, 0.01 },
  { CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP, 1 * S, 10 * MIN, 1 },
  { CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN, 0, 10 * MIN, 1 },
  { CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO, 1 * S, 10 * MIN, 1 },
  { CARPACE_KEY_BLOCK_LIMITS_SHORTEST, 1 * S, 1 * H, 1 },
  { CARPACE_KEY_BLOCK_LIMITS_LONGEST, 1 * S, 4 * H, 1 },
  { CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO, 1000, 10000, 1 },
  { CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO, 1000, 7000, 1 },
  { CARPACE_KEY_TIGHTEN_STOP_ABOVE, 1, 5, 1 },
  { CARPACE_KEY_NEXT_DAY_CUT_TO, 1000, 7000, 1 },
  { CARPACE_KEY_NEXT_DAY_STEP_UP_BY, 0, 2000, 1 },
  { CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS, 1, 30, 1 },
  { CARPACE_KEY_NEXT_DAY_AT_MOST, 1 * S, 8 * H, 1 },
  { CARPACE_KEY_MATCHES_COUNTS, 0, 20000, 1 },
  { CARPACE_KEY_ON_AIR_EVERY, 5 * MIN, 4 * H, 1 },
  { CARPACE_KEY_ON_AIR_FROM, 0, 1, 1 },
  { CARPACE_KEY_ON_AIR_NOTICE, 0, 30 * MIN, 1 },
  { CARPACE_KEY_ON_AIR_LENGTH, 1 * MIN, 60 * MIN, 1 },
};

static void
every_range_holds_at_both_ends (void **state)
{
  for (size_t i = 0; i < COUNT (ranges); i++)
    for (int end = 0; end < 4; end++)
      {
        const char *row = carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) ranges[i].key);
        double number = (double[]){ ranges[i].low, ranges[i].high, ranges[i].low - ranges[i].step,
                                    ranges[i].high + ranges[i].step }[end];

        begin (state);
        carpace_plan_builder_number (&builder, ranges[i].key, number, 7);
        if (end < 2 && (builder.n_flaws != 0 || carpace_plan_number (&builder.plan, ranges[i].key) != number))
          fail_msg ("%s: %g is not taken", row, number);
        if (end < 2)
          continue;
        assert_flaw (row, CARPACE_FLAW_OUT_OF_RANGE, 7);
        assert_int_equal (builder.flaws[0].key, ranges[i].key);
        assert_true (builder.flaws[0].low == ranges[i].low && builder.flaws[0].high == ranges[i].high);
      }
}

static void
every_range_of_a_drill_holds_at_both_ends (void **state)
{
  static const struct { CarpaceDrillKey key; double low, high, step; bool over_low; } rows[] = {
    { CARPACE_DRILL_MOVEMENT, 0, 5, 1, false },
    { CARPACE_DRILL_VIEW_TURN, 1, 720, 0.01, false },
    { CARPACE_DRILL_INTENSITY, 0, 100, 0.01, true },
    { CARPACE_DRILL_EFFORTS, 1, 600, 0.01, false },
    { CARPACE_DRILL_EFFORTS_FROM, 0, 1, 1, false },
    { CARPACE_DRILL_EFFORT_LASTS, 0.01, 60, 0.001, false },
    { CARPACE_DRILL_WRIST, -90, 90, 0.01, false },
    { CARPACE_DRILL_RUN, 1 * S, 1 * H, 1, false },
    { CARPACE_DRILL_TIME, 1 * S, 8 * H, 1, false },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    for (int end = 0; end < 4; end++)
      {
        const char *row = carpace_name (CARPACE_WORDS_DRILL_KEY, (int32_t) rows[i].key);
        double number = (double[]){ rows[i].low, rows[i].high, rows[i].low - rows[i].step, rows[i].high + rows[i].step }[end];

        begin (state);
        carpace_plan_builder_drill_number (&builder, carpace_plan_builder_drill (&builder, "a", 1), rows[i].key, number, 7);
        if (end > 1 || (end == 0 && rows[i].over_low))
          {
            assert_flaw (row, CARPACE_FLAW_OUT_OF_RANGE, 7);
            assert_int_equal (builder.flaws[0].drill_key, rows[i].key);
            assert_int_equal (builder.flaws[0].key, CARPACE_N_KEYS);
          }
        else if (builder.n_flaws != 0)
          fail_msg ("%s: %g is not taken", row, number);
      }
}

static void
no_number_is_out_of_every_range (void **state)
{
  static const double numbers[] = { 0.0 / 0.0, 1 / 0.0, -1 / 0.0 };

  for (size_t i = 0; i < COUNT (numbers); i++)
    {
      begin (state);
      carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, numbers[i], 7);
      assert_flaw ("day.dose", CARPACE_FLAW_OUT_OF_RANGE, 7);
    }
}

/* The key table's defaults, for one block of 30 min. */
static void
every_default_is_written_out (void **state)
{
  static const struct { CarpacePlanKey key; double number; } rows[] = {
    { CARPACE_KEY_VERSION, 1 },
    { CARPACE_KEY_HAND_SIDE, CARPACE_SIDE_RIGHT },
    { CARPACE_KEY_HAND_GRIP, CARPACE_GRIP_PALM },
    { CARPACE_KEY_HAND_CM_PER_TURN, 0 },
    { CARPACE_KEY_HAND_USUAL_DISCOMFORT, 0 },
    { CARPACE_KEY_PLAYER_AGE, CARPACE_AGE_NOT_SAID },
    { CARPACE_KEY_DAY_DOSE, 30 * MIN },
    { CARPACE_KEY_DAY_STARTS_AT, 240 },
    { CARPACE_KEY_DAY_BETWEEN_BLOCKS, 45 * MIN },
    { CARPACE_KEY_GAP_AFTER, 4 * S },
    { CARPACE_KEY_RUN_MIN, 20 * S },
    { CARPACE_KEY_MICRO_REST_AFTER, 10 * MIN },
    { CARPACE_KEY_MICRO_REST_OR_AFTER_RUNS, 0 },
    { CARPACE_KEY_MICRO_REST_LENGTH, 30 * S },
    { CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST, 0 },
    { CARPACE_KEY_MICRO_REST_WAIT_FOR_GAP, 90 * S },
    { CARPACE_KEY_BLOCK_LIMITS_FINISH_RUN, 90 * S },
    { CARPACE_KEY_BLOCK_LIMITS_ROUND_DOWN_TO, 30 * S },
    { CARPACE_KEY_BLOCK_LIMITS_SHORTEST, 3 * MIN },
    { CARPACE_KEY_BLOCK_LIMITS_LONGEST, 36 * MIN },
    { CARPACE_KEY_TIGHTEN_UP_1_SHORTEN_TO, 8500 },
    { CARPACE_KEY_TIGHTEN_UP_2_SHORTEN_TO, 6500 },
    { CARPACE_KEY_TIGHTEN_STOP_ABOVE, 5 },
    { CARPACE_KEY_NEXT_DAY_CUT_TO, 6500 },
    { CARPACE_KEY_NEXT_DAY_STEP_UP_BY, 1000 },
    { CARPACE_KEY_NEXT_DAY_AFTER_GOOD_DAYS, 3 },
    { CARPACE_KEY_NEXT_DAY_AT_MOST, 45 * MIN },
    { CARPACE_KEY_MATCHES_COUNTS, 0 },
    { CARPACE_KEY_ON_AIR_EVERY, 0 },
    { CARPACE_KEY_ON_AIR_FROM, CARPACE_ON_AIR_FROM_CLOCK },
    { CARPACE_KEY_ON_AIR_NOTICE, 2 * MIN },
    { CARPACE_KEY_ON_AIR_LENGTH, 5 * MIN },
  };

  add_least ();
  assert_true (carpace_plan_builder_finish (&builder, &plan));
  for (size_t i = 0; i < COUNT (rows); i++)
    if (carpace_plan_number (&plan, rows[i].key) != rows[i].number)
      fail_msg ("%s is %g", carpace_name (CARPACE_WORDS_PLAN_KEY, (int32_t) rows[i].key),
                carpace_plan_number (&plan, rows[i].key));
  assert_string_equal (plan.drills[0].name, "a");
  assert_true (plan.drills[0].intensity_pct_mvc == 12 && plan.drills[0].efforts_per_min == 60);
  assert_true (plan.drills[0].effort_lasts_s == 0.3 && plan.drills[0].bend == CARPACE_WRIST_STRAIGHT);
  assert_int_equal (plan.drills[0].run_ms, 0);
  assert_int_equal (plan.drills[0].efforts_from, CARPACE_EFFORTS_FROM_PLAN);
  assert_int_equal (plan.n_shown, 4);
}

static void
defaults_that_follow_from_the_blocks (void **state)
{
  static const struct
  {
    const char *row;
    int64_t limits_ms[4], dose_ms, after_ms, longest_ms, at_most_ms;
  } rows[] = {
    { "15 min: two thirds are 10 min", { 15 * 60000, 0 }, 15 * 60000, 10 * 60000, 18 * 60000, 22 * 60000 + 30000 },
    { "12 min: two thirds are less", { 12 * 60000, 0 }, 12 * 60000, 8 * 60000, 864000, 18 * 60000 },
    { "seconds, not divisible by 3", { 20000, 10000, 0 }, 30000, 13333, 24000, 45000 },
    { "no less than the range", { 1000, 0 }, 1000, 1000, 1200, 1500 },
    { "the longest counts", { 5 * 60000, 40 * 60000, 5 * 60000, 0 }, 50 * 60000, 10 * 60000, 48 * 60000, 75 * 60000 },
    { "no more than the ranges", { 4 * 3600000, 4 * 3600000, 0 }, 8 * 3600000, 10 * 60000, 4 * 3600000, 8 * 3600000 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      add_blocks (rows[i].limits_ms);
      if (!carpace_plan_builder_finish (&builder, &plan) || plan.dose_ms != rows[i].dose_ms
          || plan.after_ms != rows[i].after_ms || plan.longest_ms != rows[i].longest_ms
          || plan.at_most_ms != rows[i].at_most_ms)
        fail_msg ("%s: dose %lld, after %lld, longest %lld, at most %lld", rows[i].row, (long long) plan.dose_ms,
                  (long long) plan.after_ms, (long long) plan.longest_ms, (long long) plan.at_most_ms);
    }
}

static void
equal_shares_of_what_the_others_leave (void **state)
{
  static const struct { const char *row; int32_t asked[4]; int n; bool sound; int32_t share[4]; } rows[] = {
    { "one", { -1 }, 1, true, { 10000 } },
    { "halves", { -1, -1 }, 2, true, { 5000, 5000 } },
    { "thirds", { -1, -1, -1 }, 3, true, { 3334, 3333, 3333 } },
    { "given and equal", { 7000, -1, -1 }, 3, true, { 7000, 1500, 1500 } },
    { "all given", { 2500, 2500, 5000 }, 3, true, { 2500, 2500, 5000 } },
    { "under 100 %", { 2500, 2500 }, 2, false, { 0 } },
    { "over 100 %", { 6000, 6000 }, 2, false, { 0 } },
    { "nothing to go for the equal one", { 10000, -1 }, 2, false, { 0 } },
    { "a hundredth for each of two", { 9998, -1, -1 }, 3, true, { 9998, 1, 1 } },
    { "a hundredth for two", { 9999, -1, -1 }, 3, false, { 0 } },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      int32_t block;

      begin (state);
      carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 1);
      carpace_plan_builder_drill_number (&builder, carpace_plan_builder_drill (&builder, "a", 1), CARPACE_DRILL_MOVEMENT, 0, 1);
      block = carpace_plan_builder_block (&builder, 600000, false, 9);
      for (int p = 0; p < rows[i].n; p++)
        carpace_plan_builder_part (&builder, block, "a", rows[i].asked[p], 5);
      if (!rows[i].sound)
        {
          finish_with (rows[i].row, CARPACE_FLAW_SHARES, 9);
          continue;
        }
      if (!carpace_plan_builder_finish (&builder, &plan))
        fail_msg ("%s: not taken", rows[i].row);
      for (int p = 0; p < rows[i].n; p++)
        if (plan.blocks[0].parts[p].share != rows[i].share[p])
          fail_msg ("%s: part %d has %d", rows[i].row, p, (int) plan.blocks[0].parts[p].share);
    }
}

static void
travel_decides_the_movement (void **state)
{
  static const struct
  {
    const char *row;
    double cm, deg; /* 0 where not given */
    int given;      /* movement, -1 where none is */
    bool sound;
    CarpaceMovement movement;
    CarpaceFlawKind flaw; /* at @place, 0: none */
    CarpacePlace place;
  } rows[] = {
    { "given alone", 0, 0, CARPACE_MOVEMENT_BUTTON_PRESS, true, CARPACE_MOVEMENT_BUTTON_PRESS, 0, 0 },
    { "nothing", 0, 0, -1, false, 0, CARPACE_FLAW_NO_MOVEMENT, 1 },
    { "a turn without cm", 0, 90, -1, false, 0, CARPACE_FLAW_VIEW_TURN_ALONE, 3 },
    { "a turn without cm, given", 0, 90, CARPACE_MOVEMENT_SMALL_TURN, true, CARPACE_MOVEMENT_SMALL_TURN, CARPACE_FLAW_VIEW_TURN_IDLE, 3 },
    { "a turn of 1 deg without cm", 0, 1, -1, false, 0, CARPACE_FLAW_VIEW_TURN_ALONE, 3 },
    { "cm without a turn", 30, 0, -1, false, 0, CARPACE_FLAW_NO_MOVEMENT, 1 },
    { "a turn too far", 30, 721, -1, false, 0, CARPACE_FLAW_OUT_OF_RANGE, 3 },
    { "cm too many for a turn", 1e6, 90, -1, false, 0, CARPACE_FLAW_OUT_OF_RANGE, 2 },
    { "90 deg at 30 cm are 7.5 cm", 30, 90, -1, true, CARPACE_MOVEMENT_LARGE_TURN, 0, 0 },
    { "7 cm are middle", 28, 90, -1, true, CARPACE_MOVEMENT_MIDDLE_TURN, 0, 0 },
    { "3 cm are middle", 36, 30, -1, true, CARPACE_MOVEMENT_MIDDLE_TURN, 0, 0 },
    { "under 3 cm", 36, 29.9, -1, true, CARPACE_MOVEMENT_SMALL_TURN, 0, 0 },
    { "both agree", 40, 180, CARPACE_MOVEMENT_LARGE_TURN, true, CARPACE_MOVEMENT_LARGE_TURN, 0, 0 },
    { "both differ", 40, 180, CARPACE_MOVEMENT_SMALL_TURN, true, CARPACE_MOVEMENT_LARGE_TURN, CARPACE_FLAW_MOVEMENT_DIFFERS, 4 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      int32_t drill;
      bool done;

      begin (state);
      drill = carpace_plan_builder_drill (&builder, "a", 1);
      carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 1);
      carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, 600000, false, 1), "a", -1, 1);
      if (rows[i].cm > 0)
        carpace_plan_builder_number (&builder, CARPACE_KEY_HAND_CM_PER_TURN, rows[i].cm, 2);
      if (rows[i].deg > 0)
        carpace_plan_builder_drill_number (&builder, drill, CARPACE_DRILL_VIEW_TURN, rows[i].deg, 3);
      if (rows[i].given >= 0)
        carpace_plan_builder_drill_number (&builder, drill, CARPACE_DRILL_MOVEMENT, rows[i].given, 4);
      done = carpace_plan_builder_finish (&builder, &plan);
      if (done != rows[i].sound || (done && plan.drills[0].movement != rows[i].movement))
        fail_msg ("%s: %s, movement %d", rows[i].row, done ? "taken" : "not taken", (int) plan.drills[0].movement);
      if (rows[i].place > 0)
        assert_flaw (rows[i].row, rows[i].flaw, rows[i].place);
      else if (builder.n_flaws != 0)
        fail_msg ("%s: a flaw", rows[i].row);
    }
}

/* The pad says nothing of a movement then: both are told. */
static void
an_unfit_pad_is_no_movement (void **state)
{
  carpace_plan_builder_drill (&builder, "a", 1);
  carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 1);
  carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, 600000, false, 1), "a", -1, 1);
  carpace_plan_builder_number (&builder, CARPACE_KEY_HAND_CM_PER_TURN, 1e6, 2);
  assert_false (carpace_plan_builder_finish (&builder, &plan));
  assert_int_equal (builder.n_flaws, 2);
  assert_int_equal (builder.flaws[0].kind, CARPACE_FLAW_OUT_OF_RANGE);
  assert_int_equal (builder.flaws[1].kind, CARPACE_FLAW_NO_MOVEMENT);
}

static void
efforts_come_from_where_it_says (void **state)
{
  add_least ();
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_EFFORTS_FROM, CARPACE_EFFORTS_FROM_CLICKS, 6);
  assert_true (carpace_plan_builder_finish (&builder, &plan));
  assert_int_equal (plan.drills[0].efforts_from, CARPACE_EFFORTS_FROM_CLICKS);
}

static void
a_former_word_is_told_once (void **state)
{
  add_least ();
  carpace_plan_builder_former_word (&builder, CARPACE_WORDS_MOVEMENT, CARPACE_MOVEMENT_BUTTON_PRESS, 9);
  carpace_plan_builder_former_word (&builder, CARPACE_WORDS_MOVEMENT, CARPACE_MOVEMENT_SMALL_TURN, 10);
  assert_flaw ("a former word", CARPACE_FLAW_FORMER_WORD, 9);
  assert_int_equal ((int) builder.flaws[0].low, CARPACE_WORDS_MOVEMENT);
  assert_int_equal ((int) builder.flaws[0].high, CARPACE_MOVEMENT_BUTTON_PRESS);
}

static void
efforts_fit_into_the_minute (void **state)
{
  static const struct { double efforts, lasts; bool sound; } rows[] = {
    { 60, 1, true }, { 60, 1.001, false }, { 600, 0.1, true }, { 200, 0.3, true }, { 1, 60, true }, { 1.5, 60, false },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      add_least ();
      carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_EFFORTS, rows[i].efforts, 6);
      carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_EFFORT_LASTS, rows[i].lasts, 7);
      if (rows[i].sound && !carpace_plan_builder_finish (&builder, &plan))
        fail_msg ("%g x %g: not taken", rows[i].efforts, rows[i].lasts);
      if (!rows[i].sound)
        finish_with ("efforts", CARPACE_FLAW_DUTY, 6);
    }
}

static void
what_belongs_together (void **state)
{
  add_least ();
  carpace_plan_builder_number (&builder, CARPACE_KEY_MICRO_REST_AFTER, 30 * MIN + 1, 8);
  finish_with ("after over the limit", CARPACE_FLAW_AFTER_OVER_LIMIT, 8);
  begin (state);
  add_least ();
  carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 30 * MIN - 1, 8);
  finish_with ("blocks over the dose", CARPACE_FLAW_BLOCKS_OVER_DOSE, 8);
  begin (state);
  add_least ();
  carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 30 * MIN, 8);
  assert_true (carpace_plan_builder_finish (&builder, &plan));
  assert_int_equal (builder.n_flaws, 0);
  begin (state);
  add_least ();
  carpace_plan_builder_drill_number (&builder, carpace_plan_builder_drill (&builder, "idle", 9), CARPACE_DRILL_MOVEMENT, 0, 1);
  finish_with ("an idle drill", CARPACE_FLAW_DRILL_UNUSED, 9);
  begin (state);
  add_least ();
  carpace_plan_builder_number (&builder, CARPACE_KEY_HAND_USUAL_DISCOMFORT, 3, 9);
  finish_with ("usual discomfort", CARPACE_FLAW_USUAL_DISCOMFORT, 9);
  begin (state);
  add_blocks ((const int64_t[]){ 4 * 3600000, 4 * 3600000, 1000, 0 });
  finish_with ("a day of more than 8 h", CARPACE_FLAW_SUM_OVER_DAY, 103);
}

/* A hold of all strength passes any reserve at once; a hand at rest none. */
static void
a_reserve_that_one_run_passes_is_doubtful (void **state)
{
  add_least ();
  carpace_plan_builder_number (&builder, CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST, 99, 8);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_INTENSITY, 100, 9);
  finish_with ("all strength", CARPACE_FLAW_RESERVE_TOO_HIGH, 8);
  begin (state);
  add_least ();
  carpace_plan_builder_number (&builder, CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST, 1, 8);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_INTENSITY, 1, 9);
  assert_true (carpace_plan_builder_finish (&builder, &plan));
  assert_int_equal (builder.n_flaws, 0);
}

static void
what_cannot_be_read_is_not_told_twice (void **state)
{
  add_least ();
  carpace_plan_builder_unread (&builder, CARPACE_KEY_NAME);
  carpace_plan_builder_unread (&builder, CARPACE_KEY_DAY_DOSE);
  carpace_plan_builder_unread (&builder, CARPACE_KEY_HAND_CM_PER_TURN);
  carpace_plan_builder_drill_unread (&builder, 0, CARPACE_DRILL_EFFORTS);
  carpace_plan_builder_drill_unread (&builder, 0, CARPACE_DRILL_MOVEMENT);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_EFFORT_LASTS, 60, 1);
  carpace_plan_builder_drill (&builder, NULL, 2);
  carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_MOVEMENT, 0, 2);
  carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, -1, false, 3), "unknown", -1, 4);
  carpace_plan_builder_finish (&builder, &plan);
  assert_int_equal (builder.n_flaws, 0);
}

static void
flaws_past_the_most_are_counted (void **state)
{
  for (int i = 0; i < CARPACE_PLAN_FLAWS + 7; i++)
    carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, -1, 1);
  assert_int_equal (builder.n_flaws, CARPACE_PLAN_FLAWS);
  assert_int_equal (builder.n_flaws_untold, 7);
}

static void
drills_follow_for_their_shares (void **state)
{
  static const struct { int32_t block; int64_t limit_ms, active_ms; int32_t drill; } rows[] = {
    { 0, 1000, 0, 0 },     { 0, 1000, 699, 0 },  { 0, 1000, 700, 1 },   { 0, 1000, 849, 1 },
    { 0, 1000, 850, 2 },   { 0, 1000, 1000, 2 }, { 0, 1000, 99999, 2 }, { 0, 1001, 700, 0 },
    { 1, 1000, 0, 2 },     { 1, 1000, 5000, 2 }, { 9, 1000, 0, 2 },     { 0, 0, 0, 2 },
    { 0, 4 * 3600000, 4 * 3600000 - 1, 2 },
    { 0, INT64_C (8) * 3600000, INT64_MAX, 2 },
    { 2, 1000, 0, 2 },     { 0, INT64_MAX, 5, 0 }, { 0, INT64_C (100000000), 69999999, 0 }, { 0, INT64_C (100000000), 70000000, 1 },
  };
  int32_t block;

  carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 1);
  for (int i = 0; i < 3; i++)
    carpace_plan_builder_drill_number (&builder, carpace_plan_builder_drill (&builder, (const char *[]){ "a", "b", "c" }[i], 1),
                                       CARPACE_DRILL_MOVEMENT, 0, 1);
  block = carpace_plan_builder_block (&builder, 1000, false, 1);
  carpace_plan_builder_part (&builder, block, "a", 7000, 1);
  carpace_plan_builder_part (&builder, block, "b", -1, 1);
  carpace_plan_builder_part (&builder, block, "c", -1, 1);
  carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, 1000, false, 1), "c", -1, 1);
  assert_true (carpace_plan_builder_finish (&builder, &plan));
  for (size_t i = 0; i < COUNT (rows); i++)
    assert_int_equal (carpace_plan_drill_at (&plan, rows[i].block, rows[i].limit_ms, rows[i].active_ms), rows[i].drill);
}

static void
days_without_practice (void **state)
{
  add_least ();
  carpace_plan_builder_without_list (&builder, 3);
  carpace_plan_builder_without (&builder, CARPACE_WEEKDAY_WEDNESDAY, 4);
  carpace_plan_builder_without (&builder, CARPACE_WEEKDAY_SUNDAY, 5);
  assert_true (carpace_plan_builder_finish (&builder, &plan));
  for (CarpaceDay day = 20878; day < 20878 + 14; day++) /* 2027-03-01, a Monday */
    assert_int_equal (carpace_plan_is_without (&plan, day), (day - 20878) % 7 == 2 || (day - 20878) % 7 == 6);

  for (int n = 5; n <= 8; n++)
    {
      begin (state);
      add_least ();
      for (int i = 0; i < n; i++)
        carpace_plan_builder_without (&builder, (CarpaceWeekday) (i % 7), 10 + i);
      assert_int_equal (carpace_plan_builder_finish (&builder, &plan), n <= 6);
      assert_int_equal (builder.n_flaws, n > 6);
      assert_true (n <= 6 || (builder.flaws[0].kind == CARPACE_FLAW_TOO_MANY_WITHOUT && builder.flaws[0].place == 16));
    }
}

/* Equal times of a dose, and times given: what is split adds up to the dose,
 * but for what does not make a whole run. */
static void
a_split_divides_the_day (void **state)
{
  static const struct { const char *row; int64_t dose_ms, time_ms[3]; int32_t into; int64_t sum_ms, least_time_ms, after_ms; } rows[] = {
    { "equal thirds of a dose", 60 * 60000, { 0, 0, 0 }, 2, 60 * 60000, 20 * 60000, 600000 },
    { "times given, no dose", 0, { 10 * 60000, 20 * 60000, 30 * 60000 }, 3, 60 * 60000, 10 * 60000, 600000 },
    { "one time given, equal blocks of 10 min", 40 * 60000, { 0, 20 * 60000, 0 }, 4, 40 * 60000, 10 * 60000, 400000 },
    { "equal blocks of 14.5 min", 29 * 60000, { 0, 9 * 60000, 0 }, 2, 29 * 60000, 9 * 60000, 580000 },
    { "of 15 min", 30 * 60000, { 0, 10 * 60000, 0 }, 2, 30 * 60000, 10 * 60000, 600000 },
    { "of 15.5 min", 31 * 60000, { 0, 11 * 60000, 0 }, 2, 31 * 60000, 10 * 60000, 600000 },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      int64_t least_ms = INT64_MAX;

      begin (state);
      carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 1);
      for (int d = 0; d < 3; d++)
        {
          int32_t drill = carpace_plan_builder_drill (&builder, (const char *[]){ "a", "b", "c" }[d], 1);
          carpace_plan_builder_drill_number (&builder, drill, CARPACE_DRILL_MOVEMENT, d, 1);
          carpace_plan_builder_drill_number (&builder, drill, CARPACE_DRILL_RUN, 60 * S, 1);
          if (rows[i].time_ms[d] > 0)
            carpace_plan_builder_drill_number (&builder, drill, CARPACE_DRILL_TIME, (double) rows[i].time_ms[d], 1);
        }
      if (rows[i].dose_ms > 0)
        carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, (double) rows[i].dose_ms, 1);
      carpace_plan_builder_split (&builder, rows[i].into, 9);
      plan.n_blocks = -1;
      builder_unsplit = builder;
      builder_unsplit.unsplit = true;
      assert_true (carpace_plan_builder_finish (&builder_unsplit, &plan)); /* to list it */
      assert_int_equal (plan.n_blocks, 0);
      if (!carpace_plan_builder_finish (&builder, &plan))
        fail_msg ("%s: not split", rows[i].row);
      for (int d = 0; d < 3; d++)
        least_ms = plan.drills[d].time_ms < least_ms ? plan.drills[d].time_ms : least_ms;
      if (plan.n_blocks != rows[i].into || plan.split_into != rows[i].into || plan.dose_ms != rows[i].sum_ms
          || carpace_plan_sum_of_limits_ms (&plan) != rows[i].sum_ms || plan.after_ms != rows[i].after_ms || least_ms != rows[i].least_time_ms)
        fail_msg ("%s: %d blocks of %lld ms in all", rows[i].row, (int) plan.n_blocks,
                  (long long) carpace_plan_sum_of_limits_ms (&plan));
    }
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup (name, begin)
  const struct CMUnitTest tests[] = {
    TEST (every_range_holds_at_both_ends),
    TEST (every_range_of_a_drill_holds_at_both_ends),
    TEST (no_number_is_out_of_every_range),
    TEST (every_default_is_written_out),
    TEST (defaults_that_follow_from_the_blocks),
    TEST (equal_shares_of_what_the_others_leave),
    TEST (travel_decides_the_movement),
    TEST (an_unfit_pad_is_no_movement),
    TEST (efforts_come_from_where_it_says),
    TEST (a_former_word_is_told_once),
    TEST (efforts_fit_into_the_minute),
    TEST (what_belongs_together),
    TEST (a_reserve_that_one_run_passes_is_doubtful),
    TEST (what_cannot_be_read_is_not_told_twice),
    TEST (flaws_past_the_most_are_counted),
    TEST (drills_follow_for_their_shares),
    TEST (days_without_practice),
    TEST (a_split_divides_the_day),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
