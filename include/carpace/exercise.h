/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * exercise.h: the stretches, self-massages and movements a rest card can show.
 */
#ifndef CARPACE_EXERCISE_H
#define CARPACE_EXERCISE_H

#include "carpace/instant.h"
#include "carpace/muscles.h"

/** What kind of thing to do in a rest. */
typedef enum
{
  CARPACE_EXERCISE_STRETCH,
  CARPACE_EXERCISE_SELF_MASSAGE,
  CARPACE_EXERCISE_MOVEMENT,
  CARPACE_N_EXERCISE_KINDS
} CarpaceExerciseKind;

/** The installed exercises; names in a plan's `micro-rest.show` are those of
 * carpace_exercise_name(). */
typedef enum
{
  CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH,
  CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH,
  CARPACE_EXERCISE_FOREARM_SELF_MASSAGE,
  CARPACE_EXERCISE_OPEN_AND_CLOSE,
  CARPACE_EXERCISE_HOOK_FIST,
  CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE,
  CARPACE_EXERCISE_FOREARM_TURNS,
  CARPACE_EXERCISE_DOOR_FRAME_STRETCH,
  CARPACE_EXERCISE_SHOULDER_ROLLS,
  CARPACE_EXERCISE_NECK_TURNS,
  CARPACE_N_EXERCISES
} CarpaceExercise;

/** Whether an exercise is for the mouse hand, or for both sides at once. */
typedef enum
{
  CARPACE_EXERCISE_FOR_MOUSE_SIDE,
  CARPACE_EXERCISE_FOR_BOTH_SIDES
} CarpaceExerciseSide;

/** The kind of @exercise. */
CarpaceExerciseKind carpace_exercise_kind (CarpaceExercise exercise);

/** Which side @exercise is for. */
CarpaceExerciseSide carpace_exercise_side (CarpaceExercise exercise);

/** How often a stretch is held in a rest of @rest_ms: twice where there is time
 * for it. 1 for a self-massage or a movement. */
int32_t carpace_exercise_times (CarpaceExercise exercise, int64_t rest_ms);

/** How long @exercise is done in a rest of @rest_ms, 10 s to 1 min, whatever
 * the rest's own length: a stretch for its hold of 10 to 20 s, once or twice, a
 * self-massage or movement for 20 or 30 s. */
int64_t carpace_exercise_ms (CarpaceExercise exercise, int64_t rest_ms);

/** Whether @exercise is done with the palm up where it is for @group: a self-massage
 * of what lies on the palm's side of the forearm. Some are always done one way. */
bool carpace_exercise_palm_up (CarpaceExercise exercise, CarpaceGroup group);

/** Whether @exercise is meant for @group. */
bool carpace_exercise_serves (CarpaceExercise exercise, CarpaceGroup group);

#endif
