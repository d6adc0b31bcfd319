/* SPDX-License-Identifier: GPL-3.0-or-later */
/* first-plan.c: the rows that decide the first plan, and the copy made of it. */
#include "carpace/first-plan.h"

#include <string.h>

#include "carpace/dose.h"
#include "carpace/plan-keys.h"
#include "lesser.h"

#define CM_PER_INCH 2.54 /* exact, by the international agreement of 1959 */

void
carpace_first_answers_init (CarpaceFirstAnswers *answers)
{
  memset (answers, 0, sizeof *answers);
  answers->usual_discomfort = -1;
}

bool
carpace_first_proposes (CarpaceFirstOutcome outcome)
{
  return outcome >= CARPACE_FIRST_UNDER_16 && outcome < CARPACE_N_FIRSTS;
}

/* ---- which plans, and which of two ---- */

static bool
was_given (const CarpacePlan *plan)
{
  for (int32_t key = 0; key < CARPACE_N_KEYS; key++)
    if (plan->fixed[key])
      return true;
  for (int32_t i = 0; i < plan->n_blocks; i++)
    if (plan->blocks[i].limit_fixed)
      return true;
  return false;
}

static bool
milder (const CarpacePlan *a, const CarpacePlan *b)
{
  int64_t longest_a = carpace_plan_longest_limit_ms (a), longest_b = carpace_plan_longest_limit_ms (b);

  return longest_a != longest_b ? longest_a < longest_b : a->dose_ms < b->dose_ms;
}

int32_t
carpace_first_mildest (const CarpacePlan *const *plans, int32_t n_plans)
{
  int32_t best = -1;

  for (int32_t i = 0; i < n_plans; i++)
    if (!was_given (plans[i]) && (best < 0 || milder (plans[i], plans[best])))
      best = i;
  return best;
}

static bool
nearer (const CarpacePlan *a, const CarpacePlan *b)
{
  int64_t longest_a = carpace_plan_longest_limit_ms (a), longest_b = carpace_plan_longest_limit_ms (b);

  return longest_a != longest_b ? longest_a > longest_b : a->dose_ms < b->dose_ms;
}

/* Of those that fit, the longest block; of these, the smallest dose. */
static int32_t
nearest (const CarpacePlan *const *plans, int32_t n_plans, int64_t fits_ms)
{
  int32_t best = -1;

  for (int32_t i = 0; i < n_plans; i++)
    if (!was_given (plans[i]) && carpace_plan_longest_limit_ms (plans[i]) <= fits_ms
        && (best < 0 || nearer (plans[i], plans[best])))
      best = i;
  return best;
}

/* ---- the rows ---- */

/* The first that fits, in the order asked. @return CARPACE_N_FIRSTS where practice can begin */
static CarpaceFirstOutcome
what_is_missing (const CarpaceFirstAnswers *a)
{
  if (a->signs != 0)
    return CARPACE_FIRST_CAUTION;
  if (!a->cautions_answered)
    return CARPACE_FIRST_ASK_CAUTIONS;
  if (a->age != CARPACE_AGE_UNDER_16 && a->age != CARPACE_AGE_16_OR_OVER)
    return CARPACE_FIRST_ASK_AGE;
  if (a->age == CARPACE_AGE_UNDER_16 && !a->adult_agrees)
    return CARPACE_FIRST_ASK_ADULT;
  if (a->usual_discomfort < 0 || a->usual_discomfort > 10)
    return CARPACE_FIRST_ASK_DISCOMFORT;
  if (a->sitting_ms <= 0)
    return CARPACE_FIRST_ASK_SITTING;
  return a->once_answered ? CARPACE_N_FIRSTS : CARPACE_FIRST_ASK_ONCE;
}

CarpaceFirstProposal
carpace_first_propose (const CarpaceFirstAnswers *answers, const CarpacePlan *const *plans, int32_t n_plans)
{
  CarpaceFirstProposal proposal
    = { what_is_missing (answers), -1, carpace_share_down_ms (answers->sitting_ms, CARPACE_FIRST_SHARE, 1) };
  int32_t mildest = carpace_first_mildest (plans, n_plans), fits;

  if (proposal.outcome != CARPACE_N_FIRSTS)
    return proposal;
  fits = nearest (plans, n_plans, proposal.fits_ms);
  if (mildest < 0)
    proposal.outcome = CARPACE_FIRST_NO_PLAN;
  else if (answers->usual_discomfort > plans[mildest]->stop_above)
    proposal.outcome = CARPACE_FIRST_ABOVE_STOP;
  else if (answers->age == CARPACE_AGE_UNDER_16)
    proposal.outcome = CARPACE_FIRST_UNDER_16;
  else if (answers->usual_discomfort >= CARPACE_FIRST_ASK_CLINICIAN)
    proposal.outcome = CARPACE_FIRST_DISCOMFORT;
  else
    proposal.outcome = fits < 0 ? CARPACE_FIRST_SHORTENED : CARPACE_FIRST_FITS;
  if (carpace_first_proposes (proposal.outcome))
    proposal.plan = proposal.outcome == CARPACE_FIRST_FITS ? fits : mildest;
  return proposal;
}

/* ---- the copy ---- */

bool
carpace_first_allows (uint32_t once, CarpaceExercise exercise)
{
  const uint32_t no_massage = 1u << CARPACE_ONCE_BLOOD_THINNERS | 1u << CARPACE_ONCE_BROKEN_SKIN;
  CarpaceExerciseKind kind = carpace_exercise_kind (exercise);

  if (once & 1u << CARPACE_ONCE_INJURY_OR_OPERATION)
    return kind == CARPACE_EXERCISE_MOVEMENT && carpace_exercise_side (exercise) == CARPACE_EXERCISE_FOR_BOTH_SIDES;
  return !(once & no_massage) || kind != CARPACE_EXERCISE_SELF_MASSAGE;
}

/* Where nothing of the plan's may be shown, all that may be is. */
static void
copy_shown (const CarpacePlan *plan, uint32_t once, CarpacePlan *copy)
{
  copy->n_shown = 0;
  for (int32_t i = 0; i < plan->n_shown; i++)
    if (carpace_first_allows (once, plan->shown[i]))
      copy->shown[copy->n_shown++] = plan->shown[i];
  if (copy->n_shown > 0)
    return;
  for (int exercise = 0; exercise < CARPACE_N_EXERCISES; exercise++)
    if (carpace_first_allows (once, (CarpaceExercise) exercise))
      copy->shown[copy->n_shown++] = (CarpaceExercise) exercise;
}

static int64_t
in_proportion_ms (int64_t ms, int64_t by, int64_t of)
{
  return ms / of * by + ms % of * by / of;
}

/* Blocks of at most @fits_ms, down to the plan's rounding; what hangs on blocks and dose keeps its proportion. */
static void
shorten (CarpacePlan *copy, int64_t fits_ms)
{
  int64_t dose_ms = copy->dose_ms, longest_ms = carpace_plan_longest_limit_ms (copy), now_ms;

  fits_ms = greater (fits_ms - fits_ms % copy->round_down_to_ms, copy->round_down_to_ms);
  for (int32_t i = 0; i < copy->n_blocks; i++)
    copy->blocks[i].limit_ms = lesser (copy->blocks[i].limit_ms, fits_ms);
  now_ms = carpace_plan_longest_limit_ms (copy);
  copy->split_into = 0;
  copy->longest_ms = in_proportion_ms (copy->longest_ms, now_ms, longest_ms);
  copy->after_ms = in_proportion_ms (copy->after_ms, now_ms, longest_ms);
  copy->shortest_ms = lesser (copy->shortest_ms, now_ms);
  copy->dose_ms = lesser (dose_ms, carpace_plan_sum_of_limits_ms (copy));
  copy->at_most_ms = in_proportion_ms (copy->at_most_ms, copy->dose_ms, dose_ms);
}

void
carpace_first_copy (const CarpaceFirstAnswers *answers, const CarpacePlan *plan, int64_t fits_ms, CarpacePlan *ret_copy)
{
  const double hand[CARPACE_N_KEYS] = {
    [CARPACE_KEY_HAND_SIDE] = (double) answers->side,
    [CARPACE_KEY_HAND_GRIP] = (double) answers->grip,
    [CARPACE_KEY_HAND_CM_PER_TURN] = answers->cm_per_turn > 0 ? answers->cm_per_turn : plan->cm_per_turn,
    [CARPACE_KEY_HAND_USUAL_DISCOMFORT] = (double) greater (answers->usual_discomfort, 0),
    [CARPACE_KEY_PLAYER_AGE] = (double) answers->age,
  };

  *ret_copy = *plan;
  for (int32_t key = CARPACE_KEY_HAND_SIDE; key <= CARPACE_KEY_PLAYER_AGE; key++)
    if (!plan->fixed[key])
      carpace_plan_set_number (ret_copy, (CarpacePlanKey) key, hand[key]);
  if (!plan->fixed[CARPACE_KEY_MICRO_REST_SHOW])
    copy_shown (plan, answers->once, ret_copy);
  if (fits_ms > 0 && carpace_plan_longest_limit_ms (plan) > fits_ms)
    shorten (ret_copy, fits_ms);
}

/* Whether @plan shows any exercise that may not be shown with @once. */
static bool
shows_despite (const CarpacePlan *plan, uint32_t once)
{
  for (int32_t i = 0; i < plan->n_shown; i++)
    if (!carpace_first_allows (once, plan->shown[i]))
      return true;
  return false;
}

void
carpace_first_answers_of (const CarpacePlan *mine, CarpaceFirstAnswers *ret_answers)
{
  carpace_first_answers_init (ret_answers);
  ret_answers->side = mine->side;
  ret_answers->grip = mine->grip;
  ret_answers->age = mine->age;
  ret_answers->cm_per_turn = mine->cm_per_turn;
  ret_answers->usual_discomfort = mine->usual_discomfort;
  for (int once = 0; once < CARPACE_N_ONCES; once++)
    if (!shows_despite (mine, 1u << once))
      ret_answers->once |= 1u << once;
}

double
carpace_cm_per_turn (double counts_per_turn, double counts_per_inch)
{
  const CarpaceKeyFacts *facts = carpace_plan_key_facts (CARPACE_KEY_HAND_CM_PER_TURN);
  double cm = counts_per_turn / counts_per_inch * CM_PER_INCH;

  return counts_per_inch > 0 && cm >= facts->low && cm <= facts->high ? cm : 0; /* what is no number is none of these */
}
