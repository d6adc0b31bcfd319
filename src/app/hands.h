/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * hands.h: invented hands, to try rules on: how discomfort follows from
 * practice. Rules that were fitted to one way of answering may fail on
 * another, so there are several, and rules are judged by all of them.
 *
 * None of them was measured on people; all are this project's own.
 */
#ifndef CARPACE_HANDS_H
#define CARPACE_HANDS_H

#include "app/random.h"

/** How a hand answers. With x, the day's practice over what the hand takes, and
 * the excess e, what x is above 1: */
typedef enum
{
  CARPACE_HAND_STRAIGHT,    /**< in a straight line to the minutes above what it takes; a night leaves 7 tenths */
  CARPACE_HAND_EXCESS,      /**< to e; irritation follows it over one to three days */
  CARPACE_HAND_FIFTH_POWER, /**< to the fifth power of x, below 1 too; what it takes changes from day to day */
  CARPACE_HAND_DAY_LATE,    /**< to e, a day later; each excess makes it more sensitive for a week or two */
  CARPACE_N_HAND_MODELS
} CarpaceHandModel;

/** Its word, as `--hand` takes it. */
const char *carpace_hand_model_word (CarpaceHandModel model);

/** What a hand is made of. */
typedef struct
{
  CarpaceHandModel model;
  double gain;            /**< straight: points for practising a first dose more than it takes */
  double first_dose_ms;
  double keeps;           /**< share of irritation that a night leaves */
  double takes_ms;        /**< in a day, as it is today; 0: anything, and nothing is answered */

  double irritation;      /**< points, on waking */
  double yesterday;       /**< day-late: the excess that has not been felt */
  double sensitised;      /**< day-late: how much more each minute counts */
} CarpaceModelHand;

/** A rested hand of @model. How long its irritation lasts is drawn, one to three days. */
void carpace_hand_init (CarpaceModelHand *hand, CarpaceHandModel model, double gain, double first_dose_ms,
                        CarpaceRandom *random);

/** Wakes up to a day on which it takes @takes_ms. */
void carpace_hand_wake (CarpaceModelHand *hand, double takes_ms, CarpaceRandom *random);

/** Points above usual after @done_ms of practice today. */
double carpace_hand_feels (const CarpaceModelHand *hand, double done_ms);

/** Whether it is stiffer than usual this morning. */
bool carpace_hand_is_stiffer (const CarpaceModelHand *hand, CarpaceRandom *random);

/** Sleeps over @done_ms of practice. */
void carpace_hand_sleep (CarpaceModelHand *hand, double done_ms);

/** e to the power of @x, by the four operations, so that every machine comes to
 * the same digits; to 1e-12 of itself from -40 to 40. */
double carpace_hand_exp (double x);

#endif
