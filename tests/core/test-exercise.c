/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-exercise.c: how often and how long an exercise is done in a rest, whom it
 * serves, and which of two numbers stands. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "carpace/diary.h"
#include "carpace/exercise.h"

#define COUNT(rows) (sizeof (rows) / sizeof ((rows)[0]))

/* A stretch of 20 s is held twice where the rest has the time for it. */
static void
done_once_or_twice (void **state)
{
  static const struct { const char *row; CarpaceExercise exercise; int64_t rest_ms; int32_t times; int64_t ms; } rows[] = {
    { "a stretch held twice in 39.999 s", CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH, 39999, 1, 20000 },
    { "a stretch not held twice in 40 s", CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH, 40000, 2, 40000 },
    { "a stretch held three times", CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH, 300000, 2, 40000 },
    { "a short stretch", CARPACE_EXERCISE_HOOK_FIST, 20000, 2, 20000 },
    { "a self-massage done twice", CARPACE_EXERCISE_FOREARM_SELF_MASSAGE, 300000, 1, 30000 },
    { "a movement done twice", CARPACE_EXERCISE_OPEN_AND_CLOSE, 300000, 1, 20000 },
    { "a stretch left out of a short rest", CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH, 0, 1, 20000 },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      assert_int_equal (carpace_exercise_times (rows[i].exercise, rows[i].rest_ms), rows[i].times);
      assert_int_equal (carpace_exercise_ms (rows[i].exercise, rows[i].rest_ms), rows[i].ms);
    }
}

static void
serves_its_groups_and_no_other (void **state)
{
  for (int group = 0; group < CARPACE_N_GROUPS; group++)
    {
      assert_int_equal (carpace_exercise_serves (CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE, (CarpaceGroup) group),
                        group == CARPACE_GROUP_GRIP_AND_THUMB);
      assert_int_equal (carpace_exercise_serves (CARPACE_EXERCISE_FOREARM_TURNS, (CarpaceGroup) group),
                        group == CARPACE_GROUP_PRONATORS || group == CARPACE_GROUP_ELBOW);
    }
}

/* A lower number counts for a minute, and after ten. */
static void
which_number_stands (void **state)
{
  static const struct { const char *row; int64_t since_ms; int32_t old, given; bool counts; } rows[] = {
    { "a lower one within the minute left out", 60000, 3, 2, true },
    { "a lower one after it taken", 60001, 3, 2, false },
    { "the same one left out", 60001, 3, 3, true },
    { "a higher one left out", 60001, 3, 4, true },
    { "a lower one within ten minutes taken", 600000, 3, 2, false },
    { "a lower one after ten minutes left out", 600001, 3, 2, true },
  };
  for (size_t i = 0; i < COUNT (rows); i++)
    {
      print_message ("%s\n", rows[i].row);
      assert_int_equal (carpace_correction_counts (rows[i].since_ms, rows[i].old, rows[i].given), rows[i].counts);
    }
}

/* Flexors and the round pronator lie on the palm's side. */
static void
massaged_with_the_palm_up (void **state)
{
  for (CarpaceExercise exercise = 0; exercise < CARPACE_N_EXERCISES; exercise++)
    for (CarpaceGroup group = 0; group < CARPACE_N_GROUPS; group++)
      {
        bool palm_side = group == CARPACE_GROUP_FINGER_FLEXORS || group == CARPACE_GROUP_PRONATORS;
        assert_int_equal (carpace_exercise_palm_up (exercise, group),
                          palm_side && exercise == CARPACE_EXERCISE_FOREARM_SELF_MASSAGE);
      }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (done_once_or_twice),
    cmocka_unit_test (serves_its_groups_and_no_other),
    cmocka_unit_test (which_number_stands),
    cmocka_unit_test (massaged_with_the_palm_up),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
