/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-rests.c: which exercise a rest shows, and how it lies: where the drill changes with the rest
 * it is for the drill to come, not for the one that is over. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "carpace/names.h"
#include "cases.h"

#define CHANGES_AT_630_S 3500 /* of 30 min, hundredths of a percent */

/* Neck turns stand first: what is only next in the list is told from what is meant. */
static void
two_drills (CarpacePlan *plan, CarpaceMovement to_come, int32_t share)
{
  static const CarpaceExercise shown[] = {
    CARPACE_EXERCISE_NECK_TURNS, CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH, CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH,
    CARPACE_EXERCISE_FOREARM_SELF_MASSAGE, CARPACE_EXERCISE_OPEN_AND_CLOSE, CARPACE_EXERCISE_FOREARM_TURNS,
    CARPACE_EXERCISE_DOOR_FRAME_STRETCH, CARPACE_EXERCISE_SHOULDER_ROLLS,
  };

  memcpy (plan->shown, shown, sizeof shown);
  plan->n_shown = (int32_t) (sizeof shown / sizeof *shown);
  plan->n_drills = 2;
  plan->drills[1] = plan->drills[0];
  strcpy (plan->drills[1].id, "orbit");
  plan->drills[1].movement = to_come;
  plan->blocks[0].n_parts = 2;
  plan->blocks[0].parts[0].share = share;
  plan->blocks[0].parts[1] = (CarpaceBlockPart) { 1, CARPACE_WHOLE - share };
}

static void small_turn (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_SMALL_TURN, 3300); }
static void middle_turn (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_MIDDLE_TURN, 3300); }
static void large_turn (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_LARGE_TURN, 3300); }
static void short_pursuit (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_SHORT_PURSUIT, 3300); }
static void long_pursuit (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_LONG_PURSUIT, 3300); }
static void button_presses (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_BUTTON_PRESS, 3300); }
static void changes_before (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_BUTTON_PRESS, CHANGES_AT_630_S - 1); }
static void changes_at (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_BUTTON_PRESS, CHANGES_AT_630_S); }
static void changes_behind (CarpacePlan *plan) { two_drills (plan, CARPACE_MOVEMENT_BUTTON_PRESS, CHANGES_AT_630_S + 1); }

/* The self-massage alone, before a drill of @to_come. */
static void
only_the_forearm (CarpacePlan *plan, CarpaceMovement to_come)
{
  two_drills (plan, to_come, 3300);
  plan->shown[0] = CARPACE_EXERCISE_FOREARM_SELF_MASSAGE;
  plan->n_shown = 1;
}

static void forearm_then_button_presses (CarpacePlan *plan) { only_the_forearm (plan, CARPACE_MOVEMENT_BUTTON_PRESS); }
static void forearm_then_turns (CarpacePlan *plan) { only_the_forearm (plan, CARPACE_MOVEMENT_SMALL_TURN); }

static void
forearm_while_button_presses (CarpacePlan *plan)
{
  forearm_then_turns (plan);
  plan->n_drills = plan->blocks[0].n_parts = 1;
  plan->drills[0].movement = CARPACE_MOVEMENT_BUTTON_PRESS;
  plan->blocks[0].parts[0].share = CARPACE_WHOLE;
}

static void
only_the_neck (CarpacePlan *plan)
{
  button_presses (plan);
  plan->n_shown = 1;
}

#define A_REST "0:00 start\n10:30 still\n10:40 until"
#define A_VIEW "0:00 start\n10:30 still\n10:40 look"
#define SHOWN "0:10:34 cue micro-rest shown "

/* Prime groups as muscles.c has them from the literature; whom an exercise serves: exercise.c. */
static const CarpaceCase cases[] = {
  { "small turns: wrist", 1, 30, small_turn, A_REST, SHOWN "wrist-extensor-stretch" },
  { "middle turns: elbow", 1, 30, middle_turn, A_REST, SHOWN "forearm-turns" },
  { "large turns: shoulder, outward", 1, 30, large_turn, A_REST, SHOWN "shoulder-rolls" },
  { "short pursuits: grip", 1, 30, short_pursuit, A_REST, SHOWN "open-and-close" },
  { "long pursuits: neck", 1, 30, long_pursuit, A_REST, SHOWN "neck-turns" },
  { "button presses: finger flexors", 1, 30, button_presses, A_REST, SHOWN "wrist-flexor-stretch" },
  { "nothing listed for the drill to come: in order", 1, 30, only_the_neck, A_REST, SHOWN "neck-turns" },
  { "a drill that was over 0.2 s ago", 1, 30, changes_before, A_REST, SHOWN "wrist-flexor-stretch" },
  { "a drill that is over with this rest", 1, 30, changes_at, A_REST, SHOWN "wrist-flexor-stretch" },
  { "a drill with 0.2 s to go stays: in order", 1, 30, changes_behind, A_REST, SHOWN "neck-turns" },
  { "before button presses: the palm's side", 1, 30, forearm_then_button_presses, A_VIEW, "card=forearm-self-massage between-drills palm-up" },
  { "before turns: the back", 1, 30, forearm_then_turns, A_VIEW, "card=forearm-self-massage between-drills next-drill\n-palm-up" },
  { "while buttons are pressed: the palm's side", 1, 30, forearm_while_button_presses, A_VIEW, "card=forearm-self-massage palm-up" },
};

static void
the_exercise_is_for_the_drill_to_come (void **state)
{
  assert_int_equal (carpace_cases_failed (cases, sizeof cases / sizeof *cases), 0);
}

/* Flexors and pronators lie on the palm's side of the forearm: a thumb on its back does not reach them. */
static void
the_palm_is_up_where_what_is_massaged_lies_there (void **state)
{
  for (CarpaceGroup group = 0; group < CARPACE_N_GROUPS; group++)
    for (CarpaceExercise exercise = 0; exercise < CARPACE_N_EXERCISES; exercise++)
      {
        bool there = group == CARPACE_GROUP_FINGER_FLEXORS || group == CARPACE_GROUP_PRONATORS;
        bool up = exercise == CARPACE_EXERCISE_FOREARM_SELF_MASSAGE && there;

        assert_int_equal (carpace_exercise_palm_up (exercise, group), up);
      }
}

/* Of two that are listed, the second is shown wherever it alone serves the drill to come. */
static struct { CarpaceMovement to_come; CarpaceExercise shown[2]; } tried;

static void
try_two (CarpacePlan *plan)
{
  two_drills (plan, tried.to_come, 3300);
  memcpy (plan->shown, tried.shown, sizeof tried.shown);
  plan->n_shown = 2;
}

static void
each_exercise_comes_before_a_drill_it_serves (void **state)
{
  int n_tried = 0;

  for (CarpaceMovement to_come = CARPACE_MOVEMENT_MIDDLE_TURN; to_come < CARPACE_N_MOVEMENTS; to_come++)
    for (CarpaceExercise first = 0; first < CARPACE_N_EXERCISES; first++)
      for (CarpaceExercise second = 0; second < CARPACE_N_EXERCISES; second++)
        {
          CarpaceGroup group = carpace_muscles_prime (to_come, CARPACE_GRIP_PALM, CARPACE_SIDE_RIGHT);
          char expected[80];
          const CarpaceCase row = { "for the drill to come", 1, 30, try_two, A_REST, expected };

          if (carpace_exercise_serves (first, group) || !carpace_exercise_serves (second, group))
            continue;
          tried.to_come = to_come;
          tried.shown[0] = first;
          tried.shown[1] = second;
          snprintf (expected, sizeof expected, SHOWN "%s", carpace_name (CARPACE_WORDS_EXERCISE, (int32_t) second));
          assert_int_equal (carpace_cases_failed (&row, 1), 0);
          n_tried++;
        }
  assert_true (n_tried >= 50);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (the_exercise_is_for_the_drill_to_come),
                                      cmocka_unit_test (each_exercise_comes_before_a_drill_it_serves),
                                      cmocka_unit_test (the_palm_is_up_where_what_is_massaged_lies_there) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
