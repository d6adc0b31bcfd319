/* SPDX-License-Identifier: GPL-3.0-or-later */
/* exercise-text.c: how each stretch, self-massage and movement is done. */
#include "text/face-text.h"

#include <glib/gi18n.h>

#define LINES 4

static const struct
{
  const char *name;
  const char *drawing;
  const char *how[LINES];
} exercises[CARPACE_N_EXERCISES] = {
  [CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH] = {
    N_("Back of the forearm"),
    N_("Drawing: an arm held forward, palm down; the other hand draws its hand down at the wrist."),
    { N_("Arm forward, elbow straight, palm down."), N_("With the other hand, draw the hand gently down."),
      N_("Hold still and breathe.") } },
  [CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH] = {
    N_("Palm side of the forearm"),
    N_("Drawing: an arm held forward, palm up; the other hand draws palm and fingers back toward the floor."),
    { N_("Arm forward, elbow straight, palm up."), N_("With the other hand, draw palm and fingers gently back, toward the floor."),
      N_("Hold still and breathe.") } },
  [CARPACE_EXERCISE_FOREARM_SELF_MASSAGE] = {
    N_("Forearm"),
    N_("Drawing: a forearm lying palm down; the other thumb strokes along it from wrist to elbow."),
    { N_("Lay the forearm down, palm down, hand loose."),
      N_("With the other thumb, stroke lightly from the wrist toward the elbow."),
      N_("Slowly, beside the bone, not over it.") } },
  [CARPACE_EXERCISE_OPEN_AND_CLOSE] = {
    N_("Open and close"),
    N_("Drawing: a hand with the fingers spread, and beside it the same hand in a loose fist."),
    { N_("Wrist straight, arm at ease."), N_("Spread the fingers wide, then close them to a loose fist."),
      N_("Slowly, without squeezing.") } },
  [CARPACE_EXERCISE_HOOK_FIST] = {
    N_("Hook fist"),
    N_("Drawing: a hand seen from the side, knuckles straight, the outer finger joints bent like a hook."),
    { N_("Wrist straight, fingers straight up."),
      N_("Keep the knuckles straight and bend only the outer joints, fingertips toward the palm."),
      N_("Straighten again, slowly.") } },
  [CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE] = {
    N_("Base of the thumb"),
    N_("Drawing: an open palm; the other thumb makes small circles on the pad below its thumb."),
    { N_("Palm up, hand loose."), N_("With the other thumb, make small slow circles on the pad below the thumb."),
      N_("A little further after each few circles.") } },
  [CARPACE_EXERCISE_FOREARM_TURNS] = {
    N_("Forearm turns"),
    N_("Drawing: a bent elbow at the side of the body; the forearm turns the palm up and down."),
    { N_("Elbow bent, at your side, wrist straight."), N_("Turn the palm up, then down, as far as it goes with ease."),
      N_("Slowly, the elbow stays where it is.") } },
  [CARPACE_EXERCISE_DOOR_FRAME_STRETCH] = {
    N_("Chest, at a door frame"),
    N_("Drawing: a person in a doorway, one forearm upright against the frame, elbow at shoulder height."),
    { N_("Forearm upright on a door frame, elbow at shoulder height."),
      N_("Step through a little, until chest and front of the shoulder feel tight."),
      N_("Hold still and breathe.") } },
  [CARPACE_EXERCISE_SHOULDER_ROLLS] = {
    N_("Shoulder rolls"),
    N_("Drawing: head and shoulders from the front; both shoulders circle up, back and down."),
    { N_("Sit or stand tall, arms hanging loose."), N_("Draw both shoulders up, back and down, in slow circles."),
      N_("Let them sink at the end of each.") } },
  [CARPACE_EXERCISE_NECK_TURNS] = {
    N_("Neck turns"),
    N_("Drawing: a head seen from above, turning to one side and to the other."),
    { N_("Sit tall, shoulders low."), N_("Turn the head slowly to look over one shoulder, then over the other."),
      N_("As far as it goes with ease.") } },
};

const char *
carpace_text_exercise (CarpaceExercise exercise)
{
  return exercise < CARPACE_N_EXERCISES ? _(exercises[exercise].name) : "";
}

const char *
carpace_text_exercise_drawing (CarpaceExercise exercise)
{
  return exercise < CARPACE_N_EXERCISES ? _(exercises[exercise].drawing) : "";
}

const char *
carpace_text_exercise_how (CarpaceExercise exercise, int32_t line)
{
  if (exercise >= CARPACE_N_EXERCISES || line < 0 || line >= LINES || !exercises[exercise].how[line])
    return NULL;
  return _(exercises[exercise].how[line]);
}

const char *
carpace_text_exercise_kind (CarpaceExerciseKind kind)
{
  switch (kind)
    {
    case CARPACE_EXERCISE_STRETCH: return _("Stretch");
    case CARPACE_EXERCISE_SELF_MASSAGE: return _("Self-massage");
    case CARPACE_EXERCISE_MOVEMENT: return _("Movement");
    case CARPACE_N_EXERCISE_KINDS: break;
    }
  return "";
}

const char *
carpace_text_exercise_mind (CarpaceExerciseKind kind)
{
  switch (kind)
    {
    case CARPACE_EXERCISE_STRETCH: return _("To tightness, never into pain.");
    case CARPACE_EXERCISE_SELF_MASSAGE:
      return _("Light, never into pain. Not over broken skin or a swelling, and not with blood thinners.");
    case CARPACE_EXERCISE_MOVEMENT: return _("With ease, never into pain.");
    case CARPACE_N_EXERCISE_KINDS: break;
    }
  return "";
}

const char *
carpace_text_exercise_side (CarpaceSide side, bool both_sides)
{
  if (both_sides)
    return _("both sides");
  return side == CARPACE_SIDE_LEFT ? _("left hand") : _("right hand");
}
