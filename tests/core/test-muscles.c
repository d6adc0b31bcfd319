/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-muscles.c: groups by movement, grip and side; hand travel; exercises. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/exercise.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

static void
shares_are_shares_and_the_prime_carries_all (void **state)
{
  for (CarpaceMovement movement = 0; movement < CARPACE_N_MOVEMENTS; movement++)
    for (CarpaceGrip grip = 0; grip < CARPACE_N_GRIPS; grip++)
      for (CarpaceSide side = 0; side < CARPACE_N_SIDES; side++)
        {
          double share[CARPACE_N_GROUPS];
          carpace_muscles_shares (movement, grip, side, share);
          for (int group = 0; group < CARPACE_N_GROUPS; group++)
            assert_true (share[group] > 0 && share[group] <= 1);
          assert_true (share[carpace_muscles_prime (movement, grip, side)] == 1);
        }
}

/* Common practice: what each drill is felt in first. */
static void
primes (void **state)
{
  static const struct { const char *row; CarpaceMovement movement; CarpaceGroup prime; } rows[] = {
    { .row = "small turn", .movement = CARPACE_MOVEMENT_SMALL_TURN, .prime = CARPACE_GROUP_ULNAR_DEVIATORS },
    { .row = "middle turn", .movement = CARPACE_MOVEMENT_MIDDLE_TURN, .prime = CARPACE_GROUP_ELBOW },
    { .row = "large turn", .movement = CARPACE_MOVEMENT_LARGE_TURN, .prime = CARPACE_GROUP_SHOULDER_OUTWARD },
    { .row = "short pursuit", .movement = CARPACE_MOVEMENT_SHORT_PURSUIT, .prime = CARPACE_GROUP_GRIP_AND_THUMB },
    { .row = "long pursuit", .movement = CARPACE_MOVEMENT_LONG_PURSUIT, .prime = CARPACE_GROUP_NECK_AND_SHOULDER_GIRDLE },
    { .row = "button presses", .movement = CARPACE_MOVEMENT_BUTTON_PRESS, .prime = CARPACE_GROUP_FINGER_FLEXORS },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    for (CarpaceGrip grip = 0; grip < CARPACE_N_GRIPS; grip++)
      {
        print_message ("%s\n", rows[i].row);
        assert_int_equal (carpace_muscles_prime (rows[i].movement, grip, CARPACE_SIDE_RIGHT), rows[i].prime);
      }
}

/* Handbook anatomy: to its own side a hand deviates ulnarward and turns the
 * shoulder outward; the other hand is its mirror. */
static void
left_hands_mirror_right_ones (void **state)
{
  for (CarpaceMovement movement = 0; movement < CARPACE_N_MOVEMENTS; movement++)
    {
      double right[CARPACE_N_GROUPS], mirrored[CARPACE_N_GROUPS], same[CARPACE_N_GROUPS];
      bool turns = movement != CARPACE_MOVEMENT_BUTTON_PRESS;

      carpace_muscles_toward (movement, CARPACE_GRIP_PALM, CARPACE_SIDE_RIGHT, CARPACE_TOWARD_RIGHT, right);
      carpace_muscles_toward (movement, CARPACE_GRIP_PALM, CARPACE_SIDE_LEFT, CARPACE_TOWARD_LEFT, mirrored);
      carpace_muscles_toward (movement, CARPACE_GRIP_PALM, CARPACE_SIDE_LEFT, CARPACE_TOWARD_RIGHT, same);
      assert_memory_equal (right, mirrored, sizeof right);
      assert_true (!turns || right[CARPACE_GROUP_ULNAR_DEVIATORS] > right[CARPACE_GROUP_RADIAL_DEVIATORS]);
      assert_true (!turns || right[CARPACE_GROUP_SHOULDER_OUTWARD] > right[CARPACE_GROUP_SHOULDER_INWARD]);
      assert_true (!turns || same[CARPACE_GROUP_ULNAR_DEVIATORS] < same[CARPACE_GROUP_RADIAL_DEVIATORS]);
      assert_true (!turns || same[CARPACE_GROUP_SHOULDER_OUTWARD] < same[CARPACE_GROUP_SHOULDER_INWARD]);
    }
}

/* Common practice on grips: palm spares the flexors, claw adds flexors and
 * extensors, fingertip the small hand muscles. */
static void
grips_add (void **state)
{
  double palm[CARPACE_N_GROUPS], claw[CARPACE_N_GROUPS], fingertip[CARPACE_N_GROUPS];

  carpace_muscles_shares (CARPACE_MOVEMENT_SMALL_TURN, CARPACE_GRIP_PALM, CARPACE_SIDE_RIGHT, palm);
  carpace_muscles_shares (CARPACE_MOVEMENT_SMALL_TURN, CARPACE_GRIP_CLAW, CARPACE_SIDE_RIGHT, claw);
  carpace_muscles_shares (CARPACE_MOVEMENT_SMALL_TURN, CARPACE_GRIP_FINGERTIP, CARPACE_SIDE_RIGHT, fingertip);
  assert_true (claw[CARPACE_GROUP_FINGER_FLEXORS] > palm[CARPACE_GROUP_FINGER_FLEXORS]);
  assert_true (claw[CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS] > palm[CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS]);
  assert_true (fingertip[CARPACE_GROUP_GRIP_AND_THUMB] > palm[CARPACE_GROUP_GRIP_AND_THUMB]);
  assert_true (fingertip[CARPACE_GROUP_FINGER_FLEXORS] == palm[CARPACE_GROUP_FINGER_FLEXORS]);
}

/* Angle / 360 x cm per full turn; a fact of the geometry. */
static void
travel (void **state)
{
  static const struct { const char *row; double deg, cm_per_turn, cm; CarpaceMovement movement; } rows[] = {
    { .row = "a quarter turn", .deg = 90, .cm_per_turn = 30, .cm = 7.5, .movement = CARPACE_MOVEMENT_LARGE_TURN },
    { .row = "about face", .deg = 180, .cm_per_turn = 40, .cm = 20, .movement = CARPACE_MOVEMENT_LARGE_TURN },
    { .row = "7 cm is middle still", .deg = 90, .cm_per_turn = 28, .cm = 7, .movement = CARPACE_MOVEMENT_MIDDLE_TURN },
    { .row = "3 cm is middle", .deg = 36, .cm_per_turn = 30, .cm = 3, .movement = CARPACE_MOVEMENT_MIDDLE_TURN },
    { .row = "under 3 cm", .deg = 30, .cm_per_turn = 30, .cm = 2.5, .movement = CARPACE_MOVEMENT_SMALL_TURN },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      double cm = carpace_travel_cm (rows[i].deg, rows[i].cm_per_turn);
      assert_true (cm > rows[i].cm - 1e-12 && cm < rows[i].cm + 1e-12);
      assert_int_equal (carpace_travel_movement (cm), rows[i].movement);
    }
}

static void
every_group_is_served_and_every_exercise_serves (void **state)
{
  for (CarpaceGroup group = 0; group < CARPACE_N_GROUPS; group++)
    {
      int n = 0;
      for (CarpaceExercise exercise = 0; exercise < CARPACE_N_EXERCISES; exercise++)
        n += carpace_exercise_serves (exercise, group);
      assert_true (n > 0);
    }
  for (CarpaceExercise exercise = 0; exercise < CARPACE_N_EXERCISES; exercise++)
    {
      int n = 0;
      for (CarpaceGroup group = 0; group < CARPACE_N_GROUPS; group++)
        n += carpace_exercise_serves (exercise, group);
      assert_true (n > 0);
      assert_true (carpace_exercise_kind (exercise) < CARPACE_N_EXERCISE_KINDS);
    }
  assert_int_equal (carpace_exercise_kind (CARPACE_EXERCISE_FOREARM_SELF_MASSAGE), CARPACE_EXERCISE_SELF_MASSAGE);
  assert_int_equal (carpace_exercise_side (CARPACE_EXERCISE_SHOULDER_ROLLS), CARPACE_EXERCISE_FOR_BOTH_SIDES);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (shares_are_shares_and_the_prime_carries_all),
    cmocka_unit_test (primes),
    cmocka_unit_test (left_hands_mirror_right_ones),
    cmocka_unit_test (grips_add),
    cmocka_unit_test (travel),
    cmocka_unit_test (every_group_is_served_and_every_exercise_serves),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
