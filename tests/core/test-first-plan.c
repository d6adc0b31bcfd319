/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-first-plan.c: a row a rule of the first plan, below, at and above its numbers, and
 * what the player's own copy says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <math.h>

#include <cmocka.h>

#include "carpace/dose.h"
#include "carpace/first-plan.h"
#include "some-plan.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))
#define MIN SOME_MINUTES

/* In the order of `plans` below. */
enum { LONG, HALVES, GIVEN, QUARTERS, SHORT, N_PLANS };

static CarpacePlan made[N_PLANS];
static const CarpacePlan *plans[N_PLANS];

static void
make (int which, int64_t limit_ms, int32_t blocks)
{
  CarpacePlan *plan = &made[which];

  some_plan (plan, limit_ms * blocks);
  some_drill (plan, CARPACE_MOVEMENT_SMALL_TURN, 12, 60, 0.3);
  for (int32_t i = 0; i < blocks; i++)
    some_block (plan, limit_ms);
  plan->after_ms = limit_ms / 3;
  plan->stop_above = 5;
  plan->round_down_to_ms = 30 * CARPACE_SECOND_MS;
  plan->shortest_ms = MIN (3);
  plan->longest_ms = limit_ms * 12 / 10;
  plan->at_most_ms = plan->dose_ms * 3 / 2;
  plan->n_shown = 4;
  plan->shown[0] = CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH;
  plan->shown[1] = CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH;
  plan->shown[2] = CARPACE_EXERCISE_FOREARM_SELF_MASSAGE;
  plan->shown[3] = CARPACE_EXERCISE_OPEN_AND_CLOSE;
  plans[which] = plan;
}

static int
make_all (void **state)
{
  make (LONG, MIN (65), 1);
  make (HALVES, MIN (30), 2);
  make (GIVEN, MIN (8), 3);
  made[GIVEN].fixed[CARPACE_KEY_DAY_DOSE] = true;
  make (QUARTERS, MIN (15), 4);
  make (SHORT, MIN (15), 2);
  return 0;
}

/* All answered, and nothing against it. */
static CarpaceFirstAnswers
well (void)
{
  CarpaceFirstAnswers answers;

  carpace_first_answers_init (&answers);
  answers.cautions_answered = answers.once_answered = true;
  answers.usual_discomfort = 0;
  answers.sitting_ms = MIN (30);
  answers.age = CARPACE_AGE_16_OR_OVER;
  return answers;
}

static void
assert_proposed (const char *row, const CarpaceFirstAnswers *answers, CarpaceFirstOutcome outcome, int plan)
{
  CarpaceFirstProposal proposal = carpace_first_propose (answers, plans, N_PLANS);

  assert_int_equal (proposal.fits_ms, answers->sitting_ms / 5 * 4 + answers->sitting_ms % 5 * 4 / 5);

  if (proposal.outcome != outcome || proposal.plan != plan)
    fail_msg ("%s: outcome %d, plan %d", row, (int) proposal.outcome, (int) proposal.plan);
  assert_int_equal (carpace_first_proposes (outcome), plan >= 0);
}

static void
nothing_is_presumed (void **state)
{
  CarpaceFirstAnswers none, some;

  carpace_first_answers_init (&none);
  assert_int_equal (none.usual_discomfort, -1);
  assert_false (carpace_first_proposes (CARPACE_N_FIRSTS));
  assert_proposed ("nothing answered", &none, CARPACE_FIRST_ASK_CAUTIONS, -1);
  none.cautions_answered = true;
  assert_proposed ("asked out of order", &none, CARPACE_FIRST_ASK_AGE, -1);
  some = well ();
  some.cautions_answered = false;
  assert_proposed ("practice with cautions unanswered", &some, CARPACE_FIRST_ASK_CAUTIONS, -1);
  some = well ();
  some.once_answered = false;
  assert_proposed ("what is asked once unanswered", &some, CARPACE_FIRST_ASK_ONCE, -1);
  some = well ();
  some.age = CARPACE_AGE_NOT_SAID;
  assert_proposed ("age unanswered", &some, CARPACE_FIRST_ASK_AGE, -1);
  some.adult_agrees = true;
  assert_proposed ("an adult in the place of an age", &some, CARPACE_FIRST_ASK_AGE, -1);
  some = well ();
  some.usual_discomfort = -1;
  assert_proposed ("discomfort unanswered", &some, CARPACE_FIRST_ASK_DISCOMFORT, -1);
  some.usual_discomfort = 11;
  assert_proposed ("a number that is not on the scale", &some, CARPACE_FIRST_ASK_DISCOMFORT, -1);
  some = well ();
  some.sitting_ms = 0;
  assert_proposed ("sitting unanswered", &some, CARPACE_FIRST_ASK_SITTING, -1);
}

static void
any_caution_stops (void **state)
{
  for (int sign = 0; sign < CARPACE_N_SIGNS; sign++)
    {
      CarpaceFirstAnswers answers = well ();

      answers.signs = 1u << sign;
      assert_proposed ("a sign, all else answered", &answers, CARPACE_FIRST_CAUTION, -1);
      carpace_first_answers_init (&answers);
      answers.signs = 1u << sign;
      assert_proposed ("a sign, nothing else answered", &answers, CARPACE_FIRST_CAUTION, -1);
    }
}

static void
under_16_asks_an_adult_and_is_mildest (void **state)
{
  CarpaceFirstAnswers answers = well ();

  answers.age = CARPACE_AGE_UNDER_16;
  answers.sitting_ms = MIN (300);
  assert_proposed ("no adult", &answers, CARPACE_FIRST_ASK_ADULT, -1);
  answers.adult_agrees = true;
  assert_proposed ("an adult agrees", &answers, CARPACE_FIRST_UNDER_16, SHORT);
  answers.usual_discomfort = 5;
  assert_proposed ("with discomfort", &answers, CARPACE_FIRST_UNDER_16, SHORT);
  answers.usual_discomfort = 6;
  assert_proposed ("above where practice stops", &answers, CARPACE_FIRST_ABOVE_STOP, -1);
}

static void
discomfort_decides (void **state)
{
  static const struct { int32_t usual; CarpaceFirstOutcome outcome; int plan; } rows[] = {
    { 0, CARPACE_FIRST_FITS, LONG }, { 2, CARPACE_FIRST_FITS, LONG },
    { 3, CARPACE_FIRST_DISCOMFORT, SHORT }, { 5, CARPACE_FIRST_DISCOMFORT, SHORT },
    { 6, CARPACE_FIRST_ABOVE_STOP, -1 }, { 10, CARPACE_FIRST_ABOVE_STOP, -1 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceFirstAnswers answers = well ();

      answers.sitting_ms = MIN (120);
      answers.usual_discomfort = rows[i].usual;
      assert_proposed ("discomfort", &answers, rows[i].outcome, rows[i].plan);
    }
}

/* 0.8 of the sitting: 15 min of 18:45, 30 of 37:30, 65 of 81:15. */
static void
a_block_is_four_fifths_of_the_sitting (void **state)
{
  static const struct { int64_t sitting_ms; CarpaceFirstOutcome outcome; int plan; } rows[] = {
    { 1, CARPACE_FIRST_SHORTENED, SHORT }, { 1124998, CARPACE_FIRST_SHORTENED, SHORT },
    { 1124999, CARPACE_FIRST_SHORTENED, SHORT }, { 1125000, CARPACE_FIRST_FITS, SHORT },
    { 1125001, CARPACE_FIRST_FITS, SHORT }, { 2249999, CARPACE_FIRST_FITS, SHORT },
    { 2250000, CARPACE_FIRST_FITS, HALVES }, { 4874999, CARPACE_FIRST_FITS, HALVES },
    { 4875000, CARPACE_FIRST_FITS, LONG }, { INT64_MAX, CARPACE_FIRST_FITS, LONG },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      CarpaceFirstAnswers answers = well ();

      answers.sitting_ms = rows[i].sitting_ms;
      assert_proposed ("sitting", &answers, rows[i].outcome, rows[i].plan);
    }
}

/* However the plans are listed, the same one is proposed. */
static void
their_order_does_not_matter (void **state)
{
  static const struct { int64_t sitting_ms; int32_t usual; int plan; } rows[] = {
    { MIN (5), 0, SHORT }, { MIN (20), 0, SHORT }, { MIN (45), 0, HALVES }, { MIN (90), 0, LONG }, { MIN (90), 4, SHORT },
  };
  for (int turn = 0; turn < 2 * N_PLANS; turn++)
    for (size_t i = 0; i < COUNT (rows); i++)
      {
        CarpaceFirstAnswers answers = well ();
        const CarpacePlan *listed[N_PLANS];
        int32_t found;

        for (int at = 0; at < N_PLANS; at++)
          listed[turn < N_PLANS ? (at + turn) % N_PLANS : N_PLANS - 1 - (at + turn) % N_PLANS] = &made[at];
        answers.sitting_ms = rows[i].sitting_ms;
        answers.usual_discomfort = rows[i].usual;
        found = carpace_first_propose (&answers, listed, N_PLANS).plan;
        assert_in_range (found, 0, N_PLANS - 1);
        assert_ptr_equal (listed[found], &made[rows[i].plan]);
      }
}

/* Of two that are alike the first stands. */
static void
the_first_of_two_alike (void **state)
{
  const CarpacePlan *alike[] = { &made[SHORT], &made[SHORT] };
  CarpaceFirstAnswers answers = well ();

  assert_int_equal (carpace_first_propose (&answers, alike, 2).plan, 0);
  assert_int_equal (carpace_first_mildest (alike, 2), 0);
}

static void
a_plan_that_was_given_is_never_proposed (void **state)
{
  CarpaceFirstAnswers answers = well ();
  const CarpacePlan *only[] = { &made[GIVEN] };

  assert_int_equal (carpace_first_propose (&answers, only, 1).outcome, CARPACE_FIRST_NO_PLAN);
  assert_int_equal (carpace_first_propose (&answers, only, 0).outcome, CARPACE_FIRST_NO_PLAN);
  made[GIVEN].fixed[CARPACE_KEY_DAY_DOSE] = false;
  made[GIVEN].blocks[2].limit_fixed = true;
  assert_int_equal (carpace_first_propose (&answers, only, 1).plan, -1);
  made[GIVEN].blocks[2].limit_fixed = false;
  made[GIVEN].blocks[0].limit_fixed = true;
  assert_int_equal (carpace_first_propose (&answers, only, 1).plan, -1);
  made[GIVEN].blocks[0].limit_fixed = false;
  made[GIVEN].fixed[CARPACE_KEY_NAME] = true;
  assert_int_equal (carpace_first_propose (&answers, only, 1).plan, -1);
  made[GIVEN].fixed[CARPACE_KEY_NAME] = false;
  assert_int_equal (carpace_first_propose (&answers, only, 1).plan, 0);
}

static void
what_may_be_shown (void **state)
{
  static const struct { uint32_t once; bool massage, stretch, of_the_arm, of_both_sides; } rows[] = {
    { 0, true, true, true, true },
    { 1u << CARPACE_ONCE_BLOOD_THINNERS, false, true, true, true },
    { 1u << CARPACE_ONCE_BROKEN_SKIN, false, true, true, true },
    { 1u << CARPACE_ONCE_INJURY_OR_OPERATION, false, false, false, true },
    { (1u << CARPACE_N_ONCES) - 1, false, false, false, true },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      assert_int_equal (carpace_first_allows (rows[i].once, CARPACE_EXERCISE_FOREARM_SELF_MASSAGE), rows[i].massage);
      assert_int_equal (carpace_first_allows (rows[i].once, CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE), rows[i].massage);
      assert_int_equal (carpace_first_allows (rows[i].once, CARPACE_EXERCISE_DOOR_FRAME_STRETCH), rows[i].stretch);
      assert_int_equal (carpace_first_allows (rows[i].once, CARPACE_EXERCISE_FOREARM_TURNS), rows[i].of_the_arm);
      assert_int_equal (carpace_first_allows (rows[i].once, CARPACE_EXERCISE_NECK_TURNS), rows[i].of_both_sides);
    }
}

static void
the_copy_says_what_was_answered (void **state)
{
  static CarpacePlan copy;
  CarpaceFirstAnswers answers = well ();

  answers.side = CARPACE_SIDE_LEFT;
  answers.grip = CARPACE_GRIP_FINGERTIP;
  answers.usual_discomfort = 2;
  answers.age = CARPACE_AGE_UNDER_16;
  answers.cm_per_turn = 31.5;
  answers.once = 1u << CARPACE_ONCE_BROKEN_SKIN;
  carpace_first_copy (&answers, &made[HALVES], 0, &copy);
  assert_int_equal (copy.side, CARPACE_SIDE_LEFT);
  assert_int_equal (copy.grip, CARPACE_GRIP_FINGERTIP);
  assert_int_equal (copy.usual_discomfort, 2);
  assert_int_equal (copy.age, CARPACE_AGE_UNDER_16);
  assert_true (copy.cm_per_turn == 31.5);
  assert_int_equal (copy.n_shown, 3);
  assert_int_equal (copy.shown[2], CARPACE_EXERCISE_OPEN_AND_CLOSE);
  assert_int_equal (copy.dose_ms, made[HALVES].dose_ms);
  assert_int_equal (made[HALVES].n_shown, 4);
  answers.once = 1u << CARPACE_ONCE_INJURY_OR_OPERATION;
  carpace_first_copy (&answers, &made[HALVES], 0, &copy);
  assert_int_equal (copy.n_shown, 2);
  assert_int_equal (copy.shown[0], CARPACE_EXERCISE_SHOULDER_ROLLS);
  assert_int_equal (copy.shown[1], CARPACE_EXERCISE_NECK_TURNS);
  answers.cm_per_turn = 0;
  made[HALVES].cm_per_turn = 40;
  carpace_first_copy (&answers, &made[HALVES], 0, &copy);
  assert_true (copy.cm_per_turn == 40);
  make_all (state);
}

/* Where one may be shown it alone is; where none may be, all others are. */
static void
something_is_always_shown (void **state)
{
  static CarpacePlan copy;
  CarpaceFirstAnswers answers = well ();

  answers.once = 1u << CARPACE_ONCE_BLOOD_THINNERS;
  made[SHORT].n_shown = 2;
  made[SHORT].shown[0] = CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE;
  made[SHORT].shown[1] = CARPACE_EXERCISE_HOOK_FIST;
  carpace_first_copy (&answers, &made[SHORT], 0, &copy);
  assert_int_equal (copy.n_shown, 1);
  assert_int_equal (copy.shown[0], CARPACE_EXERCISE_HOOK_FIST);
  made[SHORT].n_shown = 1;
  carpace_first_copy (&answers, &made[SHORT], 0, &copy);
  assert_int_equal (copy.n_shown, CARPACE_N_EXERCISES - 2);
  assert_int_equal (copy.shown[0], CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH);
  make_all (state);
}

static void
what_is_usual_is_copied (void **state)
{
  static CarpacePlan copy;
  CarpaceFirstAnswers answers = well ();

  for (answers.usual_discomfort = -1; answers.usual_discomfort <= 10; answers.usual_discomfort++)
    {
      carpace_first_copy (&answers, &made[SHORT], 0, &copy);
      assert_int_equal (copy.usual_discomfort, answers.usual_discomfort < 0 ? 0 : answers.usual_discomfort);
    }
}

static void
a_copy_is_shortened_to_the_sitting (void **state)
{
  static CarpacePlan copy;
  CarpaceFirstAnswers answers = well ();

  carpace_first_copy (&answers, &made[SHORT], MIN (15), &copy);
  assert_int_equal (copy.blocks[1].limit_ms, MIN (15));
  assert_int_equal (copy.dose_ms, MIN (30));
  carpace_first_copy (&answers, &made[SHORT], MIN (8) + 29999, &copy); /* down to 30 s */
  assert_int_equal (copy.blocks[0].limit_ms, MIN (8));
  assert_int_equal (copy.blocks[1].limit_ms, MIN (8));
  assert_int_equal (copy.dose_ms, MIN (16));
  assert_int_equal (copy.at_most_ms, MIN (24));
  assert_int_equal (copy.longest_ms, 576000);                       /* 120 % of 8 min */
  assert_int_equal (copy.after_ms, 160000);                         /* a third of it, as of 15 */
  assert_int_equal (copy.shortest_ms, MIN (3));
  made[SHORT].split_into = 2;
  carpace_first_copy (&answers, &made[SHORT], 1, &copy);
  assert_int_equal (copy.split_into, 0);
  assert_int_equal (copy.blocks[0].limit_ms, 30000);
  assert_int_equal (copy.shortest_ms, 30000);
  make_all (state);
}

/* A copy, read again, leads to the same of another plan. */
static void
a_copy_tells_its_answers (void **state)
{
  static CarpacePlan copy, other, again;

  for (uint32_t once = 0; once < 1u << CARPACE_N_ONCES; once++)
    {
      CarpaceFirstAnswers answers = well (), read;

      answers.once = once;
      answers.side = CARPACE_SIDE_LEFT;
      answers.grip = CARPACE_GRIP_CLAW;
      answers.cm_per_turn = 25;
      answers.usual_discomfort = 2;
      carpace_first_copy (&answers, &made[SHORT], 0, &copy);
      read.sitting_ms = MIN (10);
      carpace_first_answers_of (&copy, &read);
      assert_int_equal (read.sitting_ms, 0);
      assert_int_equal (read.once, once & 4 ? 7 : once & 3 ? 3 : 0); /* thinners and skin show alike */
      carpace_first_copy (&answers, &made[HALVES], 0, &other);
      carpace_first_copy (&read, &made[HALVES], 0, &again);
      assert_memory_equal (&other, &again, sizeof other);
    }
}

static void
a_single_exercise_tells_too (void **state)
{
  CarpaceFirstAnswers read;

  made[SHORT].n_shown = 1;
  made[SHORT].shown[0] = CARPACE_EXERCISE_FOREARM_SELF_MASSAGE;
  carpace_first_answers_of (&made[SHORT], &read);
  assert_int_equal (read.once, 0);
  make_all (state);
}

static void
what_is_fixed_stays_in_a_copy (void **state)
{
  static CarpacePlan copy;
  CarpaceFirstAnswers answers = well ();

  answers.side = CARPACE_SIDE_LEFT;
  answers.once = 1u << CARPACE_ONCE_BROKEN_SKIN;
  made[GIVEN].fixed[CARPACE_KEY_HAND_SIDE] = made[GIVEN].fixed[CARPACE_KEY_MICRO_REST_SHOW] = true;
  carpace_first_copy (&answers, &made[GIVEN], 0, &copy);
  assert_int_equal (copy.side, CARPACE_SIDE_RIGHT);
  assert_int_equal (copy.n_shown, 4);
  make_all (state);
}

static void
a_dose_under_its_blocks_stays (void **state)
{
  static CarpacePlan copy;
  CarpaceFirstAnswers answers = well ();

  made[SHORT].dose_ms = MIN (10);
  carpace_first_copy (&answers, &made[SHORT], MIN (8), &copy);
  assert_int_equal (copy.dose_ms, MIN (10));
  make_all (state);
}

/* 2.54 cm to the inch: 12 in of 800 counts each are 30.48 cm. */
static void
counts_make_centimetres (void **state)
{
  assert_float_equal (carpace_cm_per_turn (9600, 800), 30.48, 1e-9);
  assert_true (carpace_cm_per_turn (200, 254) == 2);
  assert_true (carpace_cm_per_turn (20000, 254) == 200);
  assert_true (carpace_cm_per_turn (-5, -0.5) == 0);
  assert_true (carpace_cm_per_turn (9600, 0) == 0);
  assert_true (carpace_cm_per_turn (-9600, 800) == 0);
  assert_true (carpace_cm_per_turn (-9600, -800) == 0);
  assert_true (carpace_cm_per_turn (NAN, 800) == 0);
  assert_true (carpace_cm_per_turn (1, INFINITY) == 0);
  assert_true (carpace_cm_per_turn (1.99 / 2.54, 1) == 0);
  assert_true (carpace_cm_per_turn (2.01 / 2.54, 1) > 2);
  assert_true (carpace_cm_per_turn (199.9 / 2.54, 1) > 199);
  assert_true (carpace_cm_per_turn (200.1 / 2.54, 1) == 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nothing_is_presumed),
    cmocka_unit_test (any_caution_stops),
    cmocka_unit_test (under_16_asks_an_adult_and_is_mildest),
    cmocka_unit_test (discomfort_decides),
    cmocka_unit_test (a_block_is_four_fifths_of_the_sitting),
    cmocka_unit_test (their_order_does_not_matter),
    cmocka_unit_test (the_first_of_two_alike),
    cmocka_unit_test (a_plan_that_was_given_is_never_proposed),
    cmocka_unit_test_setup (what_may_be_shown, make_all),
    cmocka_unit_test (the_copy_says_what_was_answered),
    cmocka_unit_test (something_is_always_shown),
    cmocka_unit_test (what_is_usual_is_copied),
    cmocka_unit_test (a_copy_is_shortened_to_the_sitting),
    cmocka_unit_test (a_copy_tells_its_answers),
    cmocka_unit_test (a_single_exercise_tells_too),
    cmocka_unit_test (what_is_fixed_stays_in_a_copy),
    cmocka_unit_test (a_dose_under_its_blocks_stays),
    cmocka_unit_test (counts_make_centimetres),
  };
  return cmocka_run_group_tests (tests, make_all, NULL);
}
