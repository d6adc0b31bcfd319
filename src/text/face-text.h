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

/** What there is to say of a block at its limit: "limit reached", "2 min over". */
char *carpace_text_at_limit (const CarpaceView *view);

/** That a caution is open, or to be answered first; NULL where neither. */
const char *carpace_text_caution_first (const CarpaceView *view);

/** Why the day is done, in one sentence; "" where its heading says it. */
char *carpace_text_day_done_why (const CarpaceView *view);

/** What is still open of a day that is done, or next; "" where nothing is. */
const char *carpace_text_day_done_open (const CarpaceView *view);

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

/** How to do it, with the palm up where it may be either way, a sentence a @line, from 0; NULL
 * behind the last. */
const char *carpace_text_exercise_how (CarpaceExercise exercise, bool palm_up, int32_t line);

/** What to do, short, as it goes on a sentence: "stretch the back of your right forearm". */
const char *carpace_text_exercise_do (CarpaceExercise exercise, CarpaceSide side);

/** What to mind with a kind of exercise. */
const char *carpace_text_exercise_mind (CarpaceExerciseKind kind);

/** "right hand", "left hand", "both sides". */
const char *carpace_text_exercise_side (CarpaceSide side, bool both_sides);

/** What a drawing of @exercise shows, for those who do not see it. */
const char *carpace_text_exercise_drawing (CarpaceExercise exercise, bool palm_up);

/** What the marks of that drawing mean; "" where it has none. */
const char *carpace_text_exercise_marks (CarpaceExercise exercise, bool palm_up);

/** How long, and how often: "Hold 20 s, twice", "30 s". */
char *carpace_text_exercise_hold (CarpaceExerciseKind kind, int32_t times, int64_t ms);

/** A sign asked about in plain words. */
const char *carpace_text_sign_question (CarpaceSign sign);

/** Whether @sign is one to be seen about the same day. */
bool carpace_sign_same_day (CarpaceSign sign);

/** What to do about @signs (bits 1u << CarpaceSign; 0: a row of the rules
 * raised the caution): the same day, or before more practice. */
const char *carpace_text_signs_advice (uint32_t signs);

/** What a start says over cautions that are unanswered. */
const char *carpace_text_cautions_first (void);

/** Whom a player who is not known to be 16 or over is to tell of a caution; "" where nobody. */
const char *carpace_text_tell_a_parent (CarpaceAge age);

/** What a number just given leads to, as a heading: "Next block shorter: 19 min 30 s, from 19:50". */
char *carpace_text_rated (const CarpaceView *view, CarpaceInstant now);

/** Why, in one sentence; after a number above the plan's stop, what else is to be done. */
char *carpace_text_rated_why (const CarpaceView *view);

/** A site in words, to stand alone on a button: "Palm side of the forearm or hand". */
const char *carpace_text_site (CarpaceSite site);

/** "Block 2 of 4", "Match". */
char *carpace_text_block_of (const CarpaceView *view);

/** "18:45": the local time of @instant. */
char *carpace_text_time_of_day (CarpaceInstant instant);

/** The rest of @view in a few words: how long and what, or, under way, what. */
char *carpace_text_rest_offer (const CarpaceView *view);

/** Why it is offered now, one sentence. */
char *carpace_text_rest_why (const CarpaceView *view);

/** What is said in place of a start that would be refused; NULL where none would, for one
 * of these: a caution, a day without practice, a day behind. */
const char *carpace_text_no_start (const CarpaceView *view);

/** What a day that is done is called: over, one without practice, or a planned one. */
const char *carpace_text_day_done (const CarpaceView *view);

#endif
