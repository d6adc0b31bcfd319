/* SPDX-License-Identifier: GPL-3.0-or-later */
/* hands.c: one row a model. */
#include "app/hands.h"

#include <stddef.h>

#define MOST_IRRITATION 9.0
#define HALVINGS 10       /* 40 / 2^10 is small enough for a few terms */
#define TERMS 8

/* One way of answering. @x is what was done today over what the hand takes. */
typedef struct
{
  const char *word;
  double takes_scatter; /* of what it takes, from day to day */
  double (*evening) (const CarpaceModelHand *hand, double x);
  void (*sleep) (CarpaceModelHand *hand, double x);
  double (*stiffer) (const CarpaceModelHand *hand); /* a chance */
} Answering;

double
carpace_hand_exp (double x)
{
  double sum = 1, term = 1;

  for (int i = 0; i < HALVINGS; i++)
    x /= 2;
  for (int i = 1; i <= TERMS; i++)
    sum += term = term * x / i;
  for (int i = 0; i < HALVINGS; i++)
    sum *= sum;
  return sum;
}

static double
excess (double x)
{
  return x > 1 ? x - 1 : 0;
}

static double
fifth_power (double x)
{
  return x * x * x * x * x;
}

static double
at_most (double x, double most)
{
  return x < most ? x : most;
}

/* Irritation goes part of the way to where today would hold it. */
static void
drift_to (CarpaceModelHand *hand, double points)
{
  hand->irritation = at_most (hand->keeps * hand->irritation + (1 - hand->keeps) * points, MOST_IRRITATION);
}

static double
stiffer_from_2 (const CarpaceModelHand *hand)
{
  return hand->irritation >= 2 ? 1 : 0;
}

static double
straight_evening (const CarpaceModelHand *hand, double x)
{
  return hand->gain * excess (x) * hand->takes_ms / hand->first_dose_ms;
}

static void
straight_sleep (CarpaceModelHand *hand, double x)
{
  hand->irritation = 0.7 * (hand->irritation + straight_evening (hand, x));
}

static double
excess_evening (const CarpaceModelHand *hand, double x)
{
  return 5 * excess (x);
}

static void
excess_sleep (CarpaceModelHand *hand, double x)
{
  drift_to (hand, 12.5 * excess (x));
}

static double
fifth_power_evening (const CarpaceModelHand *hand, double x)
{
  return 0.8 * x * x;
}

static void
fifth_power_sleep (CarpaceModelHand *hand, double x)
{
  drift_to (hand, at_most (fifth_power (x), 10));
}

static double
fifth_power_stiffer (const CarpaceModelHand *hand)
{
  return hand->irritation < 0.8 ? 0 : 1 / (1 + carpace_hand_exp (-2.5 * (hand->irritation - 2.2)));
}

static double
day_late_evening (const CarpaceModelHand *hand, double x)
{
  return 4 * hand->yesterday;
}

/* Each minute counts for up to half as much again after days above what it takes. */
static void
day_late_sleep (CarpaceModelHand *hand, double x)
{
  double felt = excess (x * (1 + hand->sensitised));

  drift_to (hand, 14 * hand->yesterday);
  hand->yesterday = felt;
  hand->sensitised = at_most (0.9 * hand->sensitised + 0.25 * felt, 0.5);
}

static const Answering models[CARPACE_N_HAND_MODELS] = {
  [CARPACE_HAND_STRAIGHT] = { "straight", 0, straight_evening, straight_sleep, stiffer_from_2 },
  [CARPACE_HAND_EXCESS] = { "excess", 0, excess_evening, excess_sleep, stiffer_from_2 },
  [CARPACE_HAND_FIFTH_POWER] = { "fifth-power", 0.06, fifth_power_evening, fifth_power_sleep, fifth_power_stiffer },
  [CARPACE_HAND_DAY_LATE] = { "day-late", 0, day_late_evening, day_late_sleep, stiffer_from_2 },
};

const char *
carpace_hand_model_word (CarpaceHandModel model)
{
  return models[model].word;
}

void
carpace_hand_init (CarpaceModelHand *hand, CarpaceHandModel model, double gain, double first_dose_ms,
                   CarpaceRandom *random)
{
  double days = 1 + 2 * carpace_random_share (random);

  *hand = (CarpaceModelHand){ .model = model, .gain = gain, .first_dose_ms = first_dose_ms,
                              .keeps = carpace_hand_exp (-1 / days) };
}

void
carpace_hand_wake (CarpaceModelHand *hand, double takes_ms, CarpaceRandom *random)
{
  double scatter = models[hand->model].takes_scatter;

  hand->takes_ms = scatter > 0 ? takes_ms * carpace_hand_exp (scatter * carpace_random_scatter (random)) : takes_ms;
}

static double
over_takes (const CarpaceModelHand *hand, double done_ms)
{
  return hand->takes_ms > 0 ? done_ms / hand->takes_ms : 0;
}

double
carpace_hand_feels (const CarpaceModelHand *hand, double done_ms)
{
  return hand->irritation + models[hand->model].evening (hand, over_takes (hand, done_ms));
}

bool
carpace_hand_is_stiffer (const CarpaceModelHand *hand, CarpaceRandom *random)
{
  double chance = models[hand->model].stiffer (hand);

  return chance >= 1 || (chance > 0 && carpace_random_share (random) < chance);
}

void
carpace_hand_sleep (CarpaceModelHand *hand, double done_ms)
{
  models[hand->model].sleep (hand, over_takes (hand, done_ms));
}
