/* SPDX-License-Identifier: GPL-3.0-or-later */
/* exercise.c: what each exercise is, how long it is done (a stretch is held for
 * 10 to 30 s, once or twice: ACSM, and common practice), and whom it serves
 * (common practice). */
#include "carpace/exercise.h"

#define FOR(group) (1u << CARPACE_GROUP_##group)

static const struct
{
  CarpaceExerciseKind kind;
  CarpaceExerciseSide side;
  int32_t lasts_s; /* a stretch's one hold; all of a self-massage or movement */
  unsigned groups;
} exercises[CARPACE_N_EXERCISES] = {
  [CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH] = {
    CARPACE_EXERCISE_STRETCH, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 20,
    FOR (WRIST_AND_FINGER_EXTENSORS) | FOR (RADIAL_DEVIATORS) | FOR (ULNAR_DEVIATORS) },
  [CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH] = {
    CARPACE_EXERCISE_STRETCH, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 20,
    FOR (FINGER_FLEXORS) | FOR (ULNAR_DEVIATORS) | FOR (RADIAL_DEVIATORS) },
  [CARPACE_EXERCISE_FOREARM_SELF_MASSAGE] = {
    CARPACE_EXERCISE_SELF_MASSAGE, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 30,
    FOR (WRIST_AND_FINGER_EXTENSORS) | FOR (FINGER_FLEXORS) | FOR (ULNAR_DEVIATORS) | FOR (RADIAL_DEVIATORS)
      | FOR (PRONATORS) },
  [CARPACE_EXERCISE_OPEN_AND_CLOSE] = {
    CARPACE_EXERCISE_MOVEMENT, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 20,
    FOR (FINGER_FLEXORS) | FOR (WRIST_AND_FINGER_EXTENSORS) | FOR (GRIP_AND_THUMB) },
  [CARPACE_EXERCISE_HOOK_FIST] = {
    CARPACE_EXERCISE_STRETCH, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 10, FOR (GRIP_AND_THUMB) | FOR (FINGER_FLEXORS) },
  [CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE] = {
    CARPACE_EXERCISE_SELF_MASSAGE, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 20, FOR (GRIP_AND_THUMB) },
  [CARPACE_EXERCISE_FOREARM_TURNS] = {
    CARPACE_EXERCISE_MOVEMENT, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 20, FOR (PRONATORS) | FOR (ELBOW) },
  [CARPACE_EXERCISE_DOOR_FRAME_STRETCH] = {
    CARPACE_EXERCISE_STRETCH, CARPACE_EXERCISE_FOR_MOUSE_SIDE, 20, FOR (SHOULDER_INWARD) | FOR (ELBOW) },
  [CARPACE_EXERCISE_SHOULDER_ROLLS] = {
    CARPACE_EXERCISE_MOVEMENT, CARPACE_EXERCISE_FOR_BOTH_SIDES, 20,
    FOR (SHOULDER_OUTWARD) | FOR (SHOULDER_INWARD) | FOR (NECK_AND_SHOULDER_GIRDLE) },
  [CARPACE_EXERCISE_NECK_TURNS] = {
    CARPACE_EXERCISE_MOVEMENT, CARPACE_EXERCISE_FOR_BOTH_SIDES, 20, FOR (NECK_AND_SHOULDER_GIRDLE) },
};

CarpaceExerciseKind
carpace_exercise_kind (CarpaceExercise exercise)
{
  return exercises[exercise].kind;
}

CarpaceExerciseSide
carpace_exercise_side (CarpaceExercise exercise)
{
  return exercises[exercise].side;
}

bool
carpace_exercise_serves (CarpaceExercise exercise, CarpaceGroup group)
{
  return (exercises[exercise].groups >> group & 1u) != 0;
}

/* Flexors and the round pronator lie on the palm's side (anatomy, any textbook; from memory). */
bool
carpace_exercise_palm_up (CarpaceExercise exercise, CarpaceGroup group)
{
  return exercise == CARPACE_EXERCISE_FOREARM_SELF_MASSAGE
         && (group == CARPACE_GROUP_FINGER_FLEXORS || group == CARPACE_GROUP_PRONATORS);
}

int32_t
carpace_exercise_times (CarpaceExercise exercise, int64_t rest_ms)
{
  int64_t once_ms = exercises[exercise].lasts_s * CARPACE_SECOND_MS;

  return exercises[exercise].kind == CARPACE_EXERCISE_STRETCH && 2 * once_ms <= rest_ms ? 2 : 1;
}

int64_t
carpace_exercise_ms (CarpaceExercise exercise, int64_t rest_ms)
{
  int64_t once_ms = exercises[exercise].lasts_s * CARPACE_SECOND_MS;

  return carpace_exercise_times (exercise, rest_ms) * once_ms;
}
