/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * first-plan.h: from what a player answers before the first practice to a plan.
 *
 * The mildest bundled plan that fits is proposed, with its reason; the player's
 * own copy of it says what was answered, in the plan's own form. Nothing is
 * presumed: what is not answered keeps practice from beginning, and doubt goes to
 * the careful side. The numbers are for a clinician to confirm.
 */
#ifndef CARPACE_FIRST_PLAN_H
#define CARPACE_FIRST_PLAN_H

#include "carpace/plan.h"

/** What is asked once: what keeps exercises off the rest card. */
typedef enum
{
  CARPACE_ONCE_BLOOD_THINNERS,
  CARPACE_ONCE_BROKEN_SKIN,         /**< of the hand or arm */
  CARPACE_ONCE_INJURY_OR_OPERATION, /**< of the hand or arm, in the last twelve weeks */
  CARPACE_N_ONCES
} CarpaceOnce;

/** The answers. carpace_first_answers_init() first: nothing is answered then. */
typedef struct
{
  bool cautions_answered;
  uint32_t signs;           /**< bits 1u << CarpaceSign */
  bool once_answered;
  uint32_t once;            /**< bits 1u << CarpaceOnce */
  CarpaceSide side;
  CarpaceGrip grip;
  int32_t usual_discomfort; /**< 0..10, -1 unanswered */
  int64_t sitting_ms;       /**< how long a sitting is comfortable today; 0 unanswered */
  CarpaceAge age;
  bool adult_agrees;        /**< asked under 16 */
  double cm_per_turn;       /**< 2..200, 0 where not known */
} CarpaceFirstAnswers;

void carpace_first_answers_init (CarpaceFirstAnswers *answers);

/** What comes of the answers: what is still to be answered, in the order it is asked; why
 * there is no practice; or why this plan. */
typedef enum
{
  CARPACE_FIRST_CAUTION,         /**< a sign was ticked: it goes before all else */
  CARPACE_FIRST_ASK_CAUTIONS,
  CARPACE_FIRST_ASK_AGE,
  CARPACE_FIRST_ASK_ADULT,       /**< under 16 and no adult agrees */
  CARPACE_FIRST_ASK_DISCOMFORT,
  CARPACE_FIRST_ASK_SITTING,
  CARPACE_FIRST_ASK_ONCE,
  CARPACE_FIRST_ABOVE_STOP,      /**< what is usual is above where practice stops */
  CARPACE_FIRST_NO_PLAN,         /**< there is none to be proposed */
  CARPACE_FIRST_UNDER_16,        /**< the mildest */
  CARPACE_FIRST_DISCOMFORT,      /**< the mildest, and a clinician is to be asked */
  CARPACE_FIRST_SHORTENED,       /**< the mildest, its blocks shortened to the sitting */
  CARPACE_FIRST_FITS,            /**< the mildest of those whose blocks are nearest to the sitting */
  CARPACE_N_FIRSTS
} CarpaceFirstOutcome;

/** True where there is a plan to begin with. */
bool carpace_first_proposes (CarpaceFirstOutcome outcome);

typedef struct
{
  CarpaceFirstOutcome outcome;
  int32_t plan;    /**< index; -1 where none is proposed */
  int64_t fits_ms; /**< the longest block for the sitting that was told; 0 where none was */
} CarpaceFirstProposal;

/** A block is at most this share of the sitting that is comfortable: pacing begins at 0.8
 * of what is tolerated (therapeutic guidelines, read in summary). */
#define CARPACE_FIRST_SHARE (80 * CARPACE_PERCENT)

/** From this on a clinician is to be asked: the pain-monitoring model's safe zone ends
 * at 2 (Thomee 1997, from memory). */
#define CARPACE_FIRST_ASK_CLINICIAN 3

/** What to propose. A plan that fixes anything was given by someone for someone: it is never proposed.
 * Of two plans the milder has the shorter longest block, then the smaller dose.
 * @param plans outlive the call */
CarpaceFirstProposal carpace_first_propose (const CarpaceFirstAnswers *answers, const CarpacePlan *const *plans, int32_t n_plans);

/** The mildest that may be proposed, -1 where none is. */
int32_t carpace_first_mildest (const CarpacePlan *const *plans, int32_t n_plans);

/** The player's own copy of @plan: hand, age, what is not to be shown, and blocks not
 * over @fits_ms (0: as they are), with what hangs on them. */
void carpace_first_copy (const CarpaceFirstAnswers *answers, const CarpacePlan *plan, int64_t fits_ms, CarpacePlan *ret_copy);

/** What @mine, a player's own copy, says of the answers it was made from: of what was asked once as
 * much as is seen in what it shows; where it shows no self-massage, none is shown on.
 * Sitting and adult are not in it. */
void carpace_first_answers_of (const CarpacePlan *mine, CarpaceFirstAnswers *ret_answers);

/** Whether @exercise may be shown to one who answered @once yes. Self-massage: not with blood
 * thinners, not over broken skin. After an injury or operation nothing that is done with the arm
 * (common practice; "recent" as twelve weeks is this project's own). */
bool carpace_first_allows (uint32_t once, CarpaceExercise exercise);

/** Hand travel for a full turn, cm, from the counts it takes and the mouse's counts per inch (2.54 cm).
 * @return 0 where it is no number from 2 to 200 */
double carpace_cm_per_turn (double counts_per_turn, double counts_per_inch);

#endif
