/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-plan-together.c: what has to be in a plan, and what belongs together in
 * it, with all that is told where it does not: one below, at and above each number. */
#include <math.h>
#include <string.h>

#include "carpace/reserve.h"
#include "plan-flaws.h"

static void
what_has_to_be_there (void **state)
{
  carpace_plan_builder_init (&builder);
  carpace_plan_builder_drill (&builder, "a", 100);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_MOVEMENT, 0, 1);
  add_block (60000);
  assert_false (finish ());
  assert_only ("no name", of_key (CARPACE_FLAW_MISSING, 0, CARPACE_KEY_NAME, 0, 0));

  carpace_plan_builder_unread (&builder, CARPACE_KEY_NAME);
  builder.n_flaws = builder.n_faults = 0;
  finish ();
  assert_only ("a name that could not be read", nothing);

  for (int unread = 0; unread < 2; unread++)
    {
      carpace_plan_builder_init (&builder);
      carpace_plan_builder_text (&builder, CARPACE_KEY_NAME, "N", 1);
      carpace_plan_builder_drills_at (&builder, 12);
      if (unread)
        carpace_plan_builder_drills_unread (&builder);
      carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, -1, false, 1), "x", -1, 1);
      builder.n_flaws = builder.n_faults = 0;
      finish ();
      assert_only ("no drills", unread ? nothing : CARPACE_FLAW (CARPACE_FLAW_NO_DRILLS, 12));
    }
  for (int unread = 0; unread < 2; unread++)
    {
      begin (state);
      carpace_plan_builder_blocks_at (&builder, 13);
      if (unread)
        carpace_plan_builder_blocks_unread (&builder);
      finish ();
      assert_only ("no blocks", unread ? nothing : CARPACE_FLAW (CARPACE_FLAW_NO_BLOCKS, 13));
    }
  for (int listed = 0; listed < 2; listed++)
    {
      begin (state);
      carpace_plan_builder_split (&builder, 2, 14);
      if (listed)
        add_block (60000);
      else
        carpace_plan_builder_blocks_at (&builder, 13);
      if (!listed)
        carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 60000, 1);
      assert_false (finish ());
      assert_only ("both", CARPACE_FLAW (CARPACE_FLAW_BLOCKS_AND_SPLIT, 14));
    }
}

static void
drills_that_do_not_fit (void **state)
{
  carpace_plan_builder_drill (&builder, "b", 9);
  carpace_plan_builder_drill_at (&builder, 1, 10);
  add_block (60000);
  carpace_plan_builder_part (&builder, 0, "b", -1, 105);
  assert_false (finish ());
  assert_only ("no movement", of_drill (CARPACE_FLAW_NO_MOVEMENT, 10, 1, 0, 0));
  begin (state);
  add_block (60000);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_EFFORT_LASTS, 2, 11);
  assert_false (finish ());
  assert_only ("60 x 2 s", of_drill (CARPACE_FLAW_DUTY, 11, 0, 120, 60));
  begin (state);
  add_block (60000);
  carpace_plan_builder_number (&builder, CARPACE_KEY_HAND_CM_PER_TURN, 40, 1);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_VIEW_TURN, 180, 2);
  assert_true (finish ());
  assert_only ("differs", of_drill (CARPACE_FLAW_MOVEMENT_DIFFERS, 102, 0, CARPACE_MOVEMENT_SMALL_TURN,
                                    CARPACE_MOVEMENT_LARGE_TURN));
  begin (state);
  add_block (60000);
  for (int i = 0; i < 2; i++)
    {
      carpace_plan_builder_drill (&builder, (const char *[]) { "b", "c" }[i], 20 + i);
      carpace_plan_builder_drill_number (&builder, 1 + i, CARPACE_DRILL_MOVEMENT, 0, 1);
    }
  carpace_plan_builder_part (&builder, 0, "c", -1, 105);
  assert_true (finish ());
  assert_only ("idle", of_drill (CARPACE_FLAW_DRILL_UNUSED, 20, 1, 0, 0));
  for (int flawed = 0; flawed < 2; flawed++)
    {
      begin (state);
      carpace_plan_builder_drill (&builder, "b", 20);
      carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_MOVEMENT, 0, 1);
      for (int block = 0; block < 2; block++)
        carpace_plan_builder_part (&builder, carpace_plan_builder_block (&builder, 60000, false, 1), "b", -1, 105);
      if (flawed)
        carpace_plan_builder_block_unread (&builder, 0); /* it may be in there */
      finish ();
      assert_only ("the first is idle", flawed ? nothing : of_drill (CARPACE_FLAW_DRILL_UNUSED, 100, 0, 0, 0));
    }
  begin (state);
  add_block (60000);
  carpace_plan_builder_drill (&builder, "b?", 20); /* it may be the one that is meant */
  carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_MOVEMENT, 0, 1);
  assert_false (finish ());
  assert_only ("idle, of an unfit id", of_drill (CARPACE_FLAW_ID_CHARACTERS, 20, 1, 0, 0));
}

static void
blocks_that_do_not_fit (void **state)
{
  add_block (60000);
  carpace_plan_builder_block (&builder, 60000, false, 9);
  carpace_plan_builder_block_at (&builder, 1, 10);
  assert_false (finish ());
  assert_only ("of no drills", of_block (CARPACE_FLAW_NO_DRILLS, 10, 1, 0, 0));
  begin (state);
  add_block (60000);
  carpace_plan_builder_block (&builder, 60000, false, 9);
  carpace_plan_builder_block_unread (&builder, 1);
  finish ();
  assert_only ("not read", nothing);
  begin (state);
  add_block (60000);
  carpace_plan_builder_block (&builder, 60000, false, 9);
  carpace_plan_builder_part (&builder, 1, "a", 4000, 3);
  carpace_plan_builder_part (&builder, 1, "a", 6001, 3);
  assert_false (finish ());
  assert_only ("over 100 %", of_block (CARPACE_FLAW_SHARES, 9, 1, 10001, 10000));
  begin (state);
  carpace_plan_builder_block (&builder, 60000, false, 9);
  carpace_plan_builder_part (&builder, 0, "a", 9999, 3);
  for (int i = 0; i < 2; i++)
    carpace_plan_builder_part (&builder, 0, "a", -1, 3);
  assert_false (finish ());
  assert_only ("nothing for two more", of_block (CARPACE_FLAW_SHARES, 9, 0, 9999, 9998));
}

/* One below, at and above each number that a plan is held against. */
static void
numbers_that_belong_together (void **state)
{
  for (int more = -1; more < 2; more++)
    {
      begin (state);
      add_block (600000);
      carpace_plan_builder_number (&builder, CARPACE_KEY_MICRO_REST_AFTER, 600000 + more, 8);
      assert_int_equal (finish (), more < 1);
      assert_only ("after", more < 1 ? nothing
                                     : of_key (CARPACE_FLAW_AFTER_OVER_LIMIT, 8, CARPACE_KEY_MICRO_REST_AFTER, 600001, 600000));
      begin (state);
      add_block (600000);
      carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 600000 + more, 8);
      assert_true (finish ());
      assert_only ("dose", more >= 0 ? nothing
                                     : of_key (CARPACE_FLAW_BLOCKS_OVER_DOSE, 8, CARPACE_KEY_DAY_DOSE, 600000, 599999));
      begin (state);
      add_block (600000);
      carpace_plan_builder_number (&builder, CARPACE_KEY_HAND_USUAL_DISCOMFORT, 3 + more, 8);
      assert_true (finish ());
      assert_only ("usual", more < 0 ? nothing
                                     : of_key (CARPACE_FLAW_USUAL_DISCOMFORT, 8, CARPACE_KEY_HAND_USUAL_DISCOMFORT, 3 + more, 3));
      for (int given = 0; given < 2; given++)
        {
          begin (state);
          add_block (600000);
          if (given)
            carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 600000, 7);
          carpace_plan_builder_number (&builder, CARPACE_KEY_BLOCK_LIMITS_SHORTEST, 600000 + more, 8);
          assert_int_equal (finish (), more < 1);
          assert_only ("shortest", more < 1 ? nothing
                                            : of_key (CARPACE_FLAW_DOSE_UNDER_SHORTEST, given ? 7 : 8, CARPACE_KEY_DAY_DOSE,
                                                      600000, 600001));
          begin (state);
          add_block (600000);
          if (given)
            carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 600000, 7);
          carpace_plan_builder_number (&builder, CARPACE_KEY_NEXT_DAY_AT_MOST, 600000 + more, 8);
          assert_int_equal (finish (), more >= 0);
          assert_only ("at most", more >= 0 ? nothing
                                            : of_key (CARPACE_FLAW_DOSE_OVER_AT_MOST, given ? 7 : 8, CARPACE_KEY_DAY_DOSE,
                                                      600000, 599999));
        }
    }
  /* what could not be read is compared with nothing */
  static const CarpacePlanKey unread[] = { CARPACE_KEY_DAY_DOSE, CARPACE_KEY_BLOCK_LIMITS_SHORTEST, CARPACE_KEY_BLOCK_LIMITS_LONGEST,
                                           CARPACE_KEY_NEXT_DAY_AT_MOST };
  for (size_t i = 0; i < sizeof unread / sizeof unread[0]; i++)
    {
      begin (state);
      add_block (600000);
      carpace_plan_builder_unread (&builder, unread[i]);
      finish ();
      assert_only ("unread", nothing);
    }
  begin (state);
  carpace_plan_builder_blocks_at (&builder, 13);
  for (int i = 0; i < 2; i++)
    add_block (14400000);
  assert_true (finish ());
  begin (state);
  carpace_plan_builder_blocks_at (&builder, 13);
  for (int i = 0; i < 2; i++)
    add_block (14400000);
  add_block (1000);
  assert_false (finish ());
  assert_only ("over 8 h", of_key (CARPACE_FLAW_SUM_OVER_DAY, 13, CARPACE_KEY_DAY_DOSE, 28801000, 28800000));
}

/* Ends in a flaw of the reserve where one run, or the shortest that counts,
 * takes the prime group to it: the model's own time to that level. */
static void
the_reserve_that_one_run_passes (void **state)
{
  double small_s = carpace_reserve_crossing_s (CARPACE_REGION_HAND, 0, 0.40, 0.10);
  int64_t ms = (int64_t) ceil (small_s * 1000);

  assert_true (small_s > 10 && small_s < 60);
  for (int with_run = 0; with_run < 2; with_run++)
    for (int more = -1; more < 1; more++)
      {
        CarpaceFlaw flaw = of_key (CARPACE_FLAW_RESERVE_TOO_HIGH, 8, CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST, 0, 0);

        begin (state);
        carpace_plan_builder_drill (&builder, "b", 1);
        carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_MOVEMENT, CARPACE_MOVEMENT_SMALL_TURN, 1);
        carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_INTENSITY, 1, 9);
        carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_INTENSITY, 40, 9);
        carpace_plan_builder_number (&builder, CARPACE_KEY_MICRO_REST_RESERVE_AT_LEAST, 90, 8);
        if (with_run)
          carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_RUN, (double) (ms + more), 9);
        else
          carpace_plan_builder_number (&builder, CARPACE_KEY_RUN_MIN, (double) (ms + more), 9);
        add_block (600000);
        carpace_plan_builder_part (&builder, 0, "b", -1, 1);
        assert_true (finish ());
        flaw.drill = 1;
        assert_only ("a run", more < 0 ? nothing : flaw);
      }
}

/* Three drills of 1 min runs, split in two. */
static void
begin_split (const double times_ms[3], double dose_ms)
{
  begin (NULL);
  for (int i = 0; i < 3; i++)
    {
      if (i > 0)
        carpace_plan_builder_drill (&builder, (const char *[]) { "", "b", "c" }[i], 1);
      carpace_plan_builder_drill_number (&builder, i, CARPACE_DRILL_MOVEMENT, i, 1);
      carpace_plan_builder_drill_number (&builder, i, CARPACE_DRILL_RUN, 1000, 1);
      if (times_ms[i] > 0)
        carpace_plan_builder_drill_number (&builder, i, CARPACE_DRILL_TIME, times_ms[i], 1);
    }
  if (dose_ms > 0)
    carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, dose_ms, 6);
  carpace_plan_builder_split (&builder, 2, 9);
}

/* Of a dose of ten minutes. */
static void
times_of_a_split_against_its_dose (void **state)
{
  static const struct { const char *row; double time_ms[3]; CarpaceFlawKind kind; double sum_ms; bool sound; } rows[] = {
    { "a second less for each of two", { 598001, 0, 0 }, CARPACE_FLAW_SPLIT_TIME_IS_OUT, 598001, false },
    { "all of it", { 300000, 300000, 0 }, CARPACE_FLAW_SPLIT_TIME_IS_OUT, 600000, false },
    { "just all", { 200000, 200000, 200000 }, NONE, 0, true },
    { "a bit less than all", { 200000, 200000, 199999 }, NONE, 0, true },
    { "a bit more", { 200000, 200000, 200001 }, CARPACE_FLAW_TIMES_OVER_DOSE, 600001, true },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin_split (rows[i].time_ms, 600000);
      assert_int_equal (finish (), rows[i].sound);
      assert_only (rows[i].row, rows[i].kind == NONE ? nothing
                                                     : of_key (rows[i].kind, 6, CARPACE_KEY_DAY_DOSE, rows[i].sum_ms, 600000));
    }
}

/* One below, at and above the limit of ten minutes. */
static void
a_longest_under_a_limit_is_warned_of (void **state)
{
  for (int more = -1; more <= 1; more++)
    {
      begin (state);
      add_block (600000);
      carpace_plan_builder_number (&builder, CARPACE_KEY_BLOCK_LIMITS_LONGEST, 600000 + more, 8);
      assert_true (finish ());
      assert_only ("longest", more >= 0 ? nothing
                                        : of_key (CARPACE_FLAW_LONGEST_UNDER_LIMIT, 8, CARPACE_KEY_BLOCK_LIMITS_LONGEST,
                                                  600000, 599999));
    }
}

static void
a_turn_of_the_view_needs_the_way_of_a_turn (void **state)
{
  static const struct { const char *row; bool movement, cm; CarpaceFlawKind kind; } rows[] = {
    { "neither", false, false, CARPACE_FLAW_VIEW_TURN_ALONE },
    { "a movement", true, false, CARPACE_FLAW_VIEW_TURN_IDLE },
    { "the way", false, true, NONE },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin (state);
      carpace_plan_builder_drill (&builder, "b", 9);
      carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_VIEW_TURN, 90, 12);
      if (rows[i].movement)
        carpace_plan_builder_drill_number (&builder, 1, CARPACE_DRILL_MOVEMENT, CARPACE_MOVEMENT_SMALL_TURN, 13);
      if (rows[i].cm)
        carpace_plan_builder_number (&builder, CARPACE_KEY_HAND_CM_PER_TURN, 35, 14);
      add_block (60000);
      carpace_plan_builder_part (&builder, 0, "b", -1, 105);
      assert_int_equal (finish (), rows[i].kind != CARPACE_FLAW_VIEW_TURN_ALONE);
      assert_only (rows[i].row, rows[i].kind == NONE ? nothing : of_drill (rows[i].kind, 12, 1, 0, 0));
    }
}

static void
splits_that_do_not_come_about (void **state)
{
  static const struct { const char *row; double time_ms[3], dose_ms; CarpaceFlawKind kind; } rows[] = {
    { "a second for each of two", { 598000, 0, 0 }, 600000, NONE },
    { "neither dose nor all times", { 0, 60000, 60000 }, 0, CARPACE_FLAW_SPLIT_NO_TIME },
  };

  for (size_t i = 0; i < COUNT (rows); i++)
    {
      begin_split (rows[i].time_ms, rows[i].dose_ms);
      assert_int_equal (finish (), rows[i].kind == NONE);
      assert_only (rows[i].row, CARPACE_FLAW (rows[i].kind, 9));
    }
  begin (state);
  carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_RUN, 60000, 1);
  carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 300000, 1);
  carpace_plan_builder_split (&builder, 6, 9);
  builder.unsplit = true; /* nor is it then listed */
  assert_false (finish ());
  assert_only ("5 runs for 6 blocks", CARPACE_FLAW (CARPACE_FLAW_SPLIT_TOO_FEW_RUNS, 9));
  for (int more = 0; more < 2; more++)
    {
      begin (state);
      carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_RUN, 3600000, 1);
      carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 14400000 + more * 3600000, 1);
      carpace_plan_builder_split (&builder, 1, 9);
      assert_int_equal (finish (), more == 0);
      assert_only ("over 4 h", !more ? nothing
                                     : of_key (CARPACE_FLAW_SPLIT_TOO_LONG, 9, CARPACE_N_KEYS, 18000000, 14400000));
    }
  for (int more = 0; more < 2; more++)
    {
      begin (state);
      carpace_plan_builder_drill_number (&builder, 0, CARPACE_DRILL_RUN, 60000, 1);
      carpace_plan_builder_number (&builder, CARPACE_KEY_DAY_DOSE, 600000, 1);
      carpace_plan_builder_number (&builder, CARPACE_KEY_MICRO_REST_AFTER, 300000 + more, 8);
      carpace_plan_builder_split (&builder, 2, 9);
      assert_int_equal (finish (), more == 0);
      assert_only ("after", !more ? nothing
                                  : of_key (CARPACE_FLAW_AFTER_OVER_LIMIT, 8, CARPACE_KEY_MICRO_REST_AFTER, 300001, 300000));
    }
  for (int kind = 0; kind < 3; kind++) /* what could not be read is not split by */
    {
      begin_split ((const double[3]) { 0 }, 600000);
      if (kind == 0)
        carpace_plan_builder_unread (&builder, CARPACE_KEY_DAY_DOSE);
      else if (kind == 1)
        carpace_plan_builder_drill_unread (&builder, 0, CARPACE_DRILL_TIME);
      else
        carpace_plan_builder_split (&builder, -1, 9);
      finish ();
      assert_only ("unread", nothing);
      assert_int_equal (builder.plan.n_blocks, 0);
    }
}

/* Milliseconds that do not divide go to the first drills. */
static void
equal_times_to_the_millisecond (void **state)
{
  begin_split ((const double[3]) { 0 }, 600002);
  builder.unsplit = true;
  assert_true (finish ());
  assert_int_equal (plan.drills[0].time_ms, 200001);
  assert_int_equal (plan.drills[1].time_ms, 200001);
  assert_int_equal (plan.drills[2].time_ms, 200000);
  assert_int_equal (plan.dose_ms, 600002);
}

/* A split that is known is taken where it is of the same day. */
static void
a_known_split_is_taken_where_it_is_the_same_day_s (void **state)
{
  static CarpacePlan known;

  for (int change = 0; change < 6; change++)
    {
      bool taken = change == 0;

      begin_split ((const double[3]) { 0 }, 600000);
      assert_true (finish ());
      known = plan;
      known.blocks[0].limit_ms += 1000;
      known.blocks[1].limit_ms -= 1000;
      known.n_blocks += change == 1;
      known.n_drills += change == 2;
      known.dose_ms += change == 3;
      strcpy (known.drills[0].id, change == 4 ? "z" : "a");
      strcpy (known.drills[2].id, change == 5 ? "z" : "c");
      begin_split ((const double[3]) { 0 }, 600000);
      builder.known = &known;
      assert_true (finish ());
      assert_int_equal (plan.n_blocks, 2);
      if (taken != (memcmp (plan.blocks, known.blocks, sizeof plan.blocks) == 0))
        fail_msg ("change %d: %s", change, taken ? "not taken" : "taken");
    }
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup (name, begin)
  const struct CMUnitTest tests[] = {
    TEST (what_has_to_be_there),
    TEST (drills_that_do_not_fit),
    TEST (blocks_that_do_not_fit),
    TEST (numbers_that_belong_together),
    TEST (the_reserve_that_one_run_passes),
    TEST (times_of_a_split_against_its_dose),
    TEST (a_longest_under_a_limit_is_warned_of),
    TEST (a_turn_of_the_view_needs_the_way_of_a_turn),
    TEST (splits_that_do_not_come_about),
    TEST (equal_times_to_the_millisecond),
    TEST (a_known_split_is_taken_where_it_is_the_same_day_s),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
