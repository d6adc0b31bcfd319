/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * face-text.h: the words on tray, cards and windows.
 *
 * All translated. A `char *` belongs to the caller (g_free), a `const char *`
 * lives as long as the program.
 */
#ifndef CARPACE_TEXT_FACE_TEXT_H
#define CARPACE_TEXT_FACE_TEXT_H

#include "carpace/view.h"

/** Whether a block or match is running in @state. */
bool carpace_state_in_block (CarpaceState state);

/** The state in a few words, as said to assistive technology beside the icon. */
const char *carpace_text_state (CarpaceState state);

/** The first line of the menu: "Block 2 of 4, 12 min to go". One next thing,
 * whole minutes, rounded up; a wait is told as a time of day. */
char *carpace_text_state_line (const CarpaceView *view, CarpaceInstant now);

/** Text beside the tray icon, "12 min"; "" where nothing is running or on air. */
char *carpace_text_tray_label (const CarpaceView *view);

/** "Start block 2", "End block 2", "Start block 2 early", ... */
char *carpace_text_start_or_end (const CarpaceView *view);

/** "Rate block 1…", "Rate the match…". */
char *carpace_text_rate (int32_t block);

/** The heading of an exercise: "Stretch", "Self-massage", "Movement". */
const char *carpace_text_exercise_kind (CarpaceExerciseKind kind);

/** Its own name: "Back of the forearm". */
const char *carpace_text_exercise (CarpaceExercise exercise);

/** How to do it, a sentence a @line, from 0; NULL behind the last. */
const char *carpace_text_exercise_how (CarpaceExercise exercise, int32_t line);

/** What to mind with a kind of exercise. */
const char *carpace_text_exercise_mind (CarpaceExerciseKind kind);

/** "right hand", "left hand", "both sides". */
const char *carpace_text_exercise_side (CarpaceSide side, bool both_sides);

/** What a drawing of @exercise shows, for those who do not see it. */
const char *carpace_text_exercise_drawing (CarpaceExercise exercise);

/** A sign asked about in plain words. */
const char *carpace_text_sign_question (CarpaceSign sign);

/** Whether @sign is one to be seen about the same day. */
bool carpace_sign_same_day (CarpaceSign sign);

/** What to do about @signs (bits 1u << CarpaceSign; 0: a row of the rules
 * raised the caution): the same day, or before more practice. */
const char *carpace_text_signs_advice (uint32_t signs);

/** What follows a number just given, in a sentence or two. */
char *carpace_text_rating_follows (const CarpaceView *view, CarpaceInstant now);

/** A site in words, to stand alone on a button: "Palm side of the forearm or hand". */
const char *carpace_text_site (CarpaceSite site);

/** "Block 2 of 4", "Match". */
char *carpace_text_block_of (const CarpaceView *view);

/** "18:45": the local time of @instant. */
char *carpace_text_time_of_day (CarpaceInstant instant);

/** "01:05": minutes and seconds of a countdown, up to whole seconds. */
char *carpace_text_countdown (int64_t ms);

#endif
