/* SPDX-License-Identifier: GPL-3.0-or-later */
/* exercise-text.c: how each stretch, self-massage and movement is done. */
#include "text/face-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"

#define LINES 4

/* The self-massage of the forearm has a second way. */
#define PALM_UP CARPACE_N_EXERCISES

/* What a drawing marks, explained beside it. */
typedef enum { NOTHING, SHADED, LINED, SHADED_AND_LINED } Marks;

static const struct
{
  const char *name;
  const char *does[CARPACE_N_SIDES]; /* what to do, with the mouse hand's side */
  const char *drawing;
  const char *how[LINES];
  Marks marks;
} exercises[CARPACE_N_EXERCISES + 1] = {
  [CARPACE_EXERCISE_WRIST_EXTENSOR_STRETCH] = {
    N_("Back of the forearm"),
    { N_("stretch the back of your right forearm"), N_("stretch the back of your left forearm") },
    N_("Drawing: an arm held forward, its palm side down; its hand hangs from the wrist with its back to you, and the other hand lies across its fingers and draws them down and in. Felt along the back of the forearm."),
    { N_("Arm forward, elbow straight, palm down."), N_("With the other hand, draw the hand gently down."),
      N_("Hold still and breathe.") }, SHADED_AND_LINED },
  [CARPACE_EXERCISE_WRIST_FLEXOR_STRETCH] = {
    N_("Palm side of the forearm"),
    { N_("stretch the palm side of your right forearm"), N_("stretch the palm side of your left forearm") },
    N_("Drawing: an arm held forward, its palm side up; its hand hangs from the wrist with the palm to you, and the other hand lies across its fingers and draws them down and in. Felt along the palm side of the forearm."),
    { N_("Arm forward, elbow straight, palm up."), N_("With the other hand, draw palm and fingers gently back, toward the floor."),
      N_("Hold still and breathe.") }, SHADED_AND_LINED },
  [CARPACE_EXERCISE_FOREARM_SELF_MASSAGE] = {
    N_("Forearm"),
    { N_("massage your right forearm"), N_("massage your left forearm") },
    N_("Drawing: a forearm lying palm down, knuckles and nails to be seen; the other hand holds it from below, and its thumb strokes along it from wrist to elbow."),
    { N_("Lay the forearm down, palm down, hand loose."),
      N_("With the other thumb, stroke lightly from the wrist toward the elbow."),
      N_("Slowly, beside the bone, not over it.") }, LINED },
  [PALM_UP] = {
    N_("Forearm"),
    { N_("massage your right forearm"), N_("massage your left forearm") },
    N_("Drawing: a forearm lying palm up; the other hand holds it from below, and its thumb strokes along the palm side from wrist to elbow."),
    { N_("Lay the forearm down, palm up, hand loose."),
      N_("With the other thumb, stroke lightly from the wrist toward the elbow."),
      N_("Slowly, over the soft part, not over the wrist.") }, SHADED_AND_LINED },
  [CARPACE_EXERCISE_OPEN_AND_CLOSE] = {
    N_("Open and close"),
    { N_("open and close your right hand"), N_("open and close your left hand") },
    N_("Drawing: an open palm with the fingers spread, and beside it the same hand in a loose fist."),
    { N_("Wrist straight, arm at ease."), N_("Spread the fingers wide, then close them to a loose fist."),
      N_("Slowly, without squeezing.") }, SHADED },
  [CARPACE_EXERCISE_HOOK_FIST] = {
    N_("Hook fist"),
    { N_("make hook fists with your right hand"), N_("make hook fists with your left hand") },
    N_("Drawing: a hand with the fingers straight up, and beside it the same hand with the knuckles straight and only the outer finger joints bent, like a hook."),
    { N_("Wrist straight, fingers straight up."),
      N_("Keep the knuckles straight and bend only the outer joints, fingertips toward the palm."),
      N_("Straighten again, slowly.") }, SHADED },
  [CARPACE_EXERCISE_THUMB_BASE_SELF_MASSAGE] = {
    N_("Base of the thumb"),
    { N_("massage the base of your right thumb"), N_("massage the base of your left thumb") },
    N_("Drawing: an open palm; the other hand holds it from below, and its thumb makes small circles on the pad below the thumb."),
    { N_("Palm up, hand loose."), N_("With the other thumb, make small slow circles on the pad below the thumb."),
      N_("A little further after each few circles.") }, SHADED_AND_LINED },
  [CARPACE_EXERCISE_FOREARM_TURNS] = {
    N_("Forearm turns"),
    { N_("turn your right palm up and down"), N_("turn your left palm up and down") },
    N_("Drawing: a hand and forearm as you look down on your own, the palm up; and the same hand turned palm down, with an arrow both ways."),
    { N_("Elbow bent, at your side, wrist straight."), N_("Turn the palm up, then down, as far as it goes with ease."),
      N_("Slowly, the elbow stays where it is.") }, SHADED },
  [CARPACE_EXERCISE_DOOR_FRAME_STRETCH] = {
    N_("Chest, at a door frame"),
    { N_("stretch the right side of your chest at a door frame"), N_("stretch the left side of your chest at a door "
                                                                     "frame") },
    N_("Drawing: a person stepping through a doorway, one forearm upright against the door frame behind, elbow at shoulder height. Felt in chest and front of the shoulder."),
    { N_("Forearm upright on a door frame, elbow at shoulder height."),
      N_("Step through a little, until chest and front of the shoulder feel tight."),
      N_("Hold still and breathe.") }, LINED },
  [CARPACE_EXERCISE_SHOULDER_ROLLS] = {
    N_("Shoulder rolls"),
    { N_("roll both shoulders"), N_("roll both shoulders") },
    N_("Drawing: head and upper body from the side, an arm hanging; an arrow round the shoulder goes up in front, over it and down behind."),
    { N_("Sit or stand tall, arms hanging loose."), N_("Draw both shoulders up, back and down, in slow circles."),
      N_("Let them sink at the end of each.") }, NOTHING },
  [CARPACE_EXERCISE_NECK_TURNS] = {
    N_("Neck turns"),
    { N_("turn your head from side to side"), N_("turn your head from side to side") },
    N_("Drawing: a head looking over one shoulder, and in thin lines over the other; an arrow both ways below the chin, the shoulders stay."),
    { N_("Sit tall, shoulders low."), N_("Turn the head slowly to look over one shoulder, then over the other."),
      N_("As far as it goes with ease.") }, NOTHING },
};

const char *
carpace_text_exercise (CarpaceExercise exercise)
{
  return exercise < CARPACE_N_EXERCISES ? _(exercises[exercise].name) : "";
}

/* @return the row of the table */
static int
way_of (CarpaceExercise exercise, bool palm_up)
{
  return exercise == CARPACE_EXERCISE_FOREARM_SELF_MASSAGE && palm_up ? PALM_UP : (int) exercise;
}

const char *
carpace_text_exercise_drawing (CarpaceExercise exercise, bool palm_up)
{
  return exercise < CARPACE_N_EXERCISES ? _(exercises[way_of (exercise, palm_up)].drawing) : "";
}

const char *
carpace_text_exercise_do (CarpaceExercise exercise, CarpaceSide side)
{
  return exercise < CARPACE_N_EXERCISES ? _(exercises[exercise].does[side]) : "";
}

const char *
carpace_text_exercise_how (CarpaceExercise exercise, bool palm_up, int32_t line)
{
  const char *how;

  if (exercise >= CARPACE_N_EXERCISES || line < 0 || line >= LINES)
    return NULL;
  how = exercises[way_of (exercise, palm_up)].how[line];
  return how ? _(how) : NULL;
}

const char *
carpace_text_exercise_marks (CarpaceExercise exercise, bool palm_up)
{
  switch (exercise < CARPACE_N_EXERCISES ? exercises[way_of (exercise, palm_up)].marks : NOTHING)
    {
    case SHADED: return _("Shaded: the palm side.");
    case LINED: return _("Slanted lines: felt here.");
    case SHADED_AND_LINED: return _("Shaded: the palm side. Slanted lines: felt here.");
    case NOTHING: break;
    }
  return "";
}

char *
carpace_text_exercise_hold (CarpaceExerciseKind kind, int32_t times, int64_t ms)
{
  g_autofree char *once = carpace_text_duration (ms / MAX (times, 1));

  if (kind != CARPACE_EXERCISE_STRETCH)
    return g_steal_pointer (&once);
  return times > 1 ? g_strdup_printf (_("Hold %s, twice"), once) : g_strdup_printf (_("Hold %s"), once);
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
